// What the box of the library needs of the browser: its arrows move in the list and not the caret, and the list scrolls along.
export function attach(box) {
  const left = new AbortController();
  const hold = (event) => {
    if (event.key === "ArrowUp" || event.key === "ArrowDown") event.preventDefault();
  };
  box.addEventListener("keydown", hold, { signal: left.signal });
  return {
    look: (id) => document.getElementById(id)?.scrollIntoView({ block: "nearest" }),
    leave: () => left.abort(),
  };
}
