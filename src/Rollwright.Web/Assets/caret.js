// Puts the caret of a text box at a line and column, counted from 1.
export function goTo(id, line, column) {
  const box = document.getElementById(id);
  const lines = box.value.split("\n");
  const before = lines.slice(0, line - 1).reduce((sum, text) => sum + text.length + 1, 0);
  const position = Math.min(before + Math.max(0, column - 1), box.value.length);
  box.closest("details").open = true;
  box.focus();
  box.setSelectionRange(position, Math.min(position + 1, box.value.length));
  box.scrollTop = (box.scrollHeight / Math.max(1, lines.length)) * Math.max(0, line - 4);
}
