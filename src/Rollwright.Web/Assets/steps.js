// Turns clicks and keys on the drawing into steps; what they mean, the server knows.

const calm = matchMedia("(prefers-reduced-motion: reduce)");

const keys = {
  ArrowRight: ["step", 1],
  ArrowLeft: ["step", -1],
  PageDown: ["bar", 1],
  PageUp: ["bar", -1],
  Home: ["start", 0],
  End: ["end", 0],
};

// What a letter does to the chosen step.
const acts = {
  r: "rest", delete: "rest", backspace: "rest", s: "slur", p: "pinch", t: "thumb", i: "index", m: "middle", k: "keep", f: "free",
};

// After a 1 or a 2 another digit may come within this time, in milliseconds.
const patience = 600;

export function attach(drawing, page) {
  const left = new AbortController();
  const on = (target, event, act) => target.addEventListener(event, act, { signal: left.signal });

  // A fret of two digits is typed in one breath.
  let typed = "", waiting = 0;
  const settle = () => {
    clearTimeout(waiting);
    if (typed !== "") page.invokeMethodAsync("Fret", Number(typed));
    typed = "";
  };
  const digit = (sign) => {
    clearTimeout(waiting);
    typed += sign;
    if (typed.length === 2 || sign > "2") settle();
    else waiting = setTimeout(settle, patience);
  };

  on(drawing, "click", (event) => {
    const side = event.target instanceof Element && event.target.closest(".wide, .narrow");
    const svg = side && side.querySelector("svg.engraving");
    if (!svg) return;
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    page.invokeMethodAsync("Point", side.className === "narrow", point.x, point.y, event.shiftKey);
  });

  on(drawing, "keydown", (event) => {
    const key = event.key.toLowerCase();
    if ((event.ctrlKey || event.metaKey) && !event.altKey && (key === "c" || key === "v") && getSelection().isCollapsed) {
      page.invokeMethodAsync("Do", key === "c" ? "copy" : "paste");
      event.preventDefault();
      return;
    }
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (/^[0-9]$/.test(event.key)) {
      digit(event.key);
      event.preventDefault();
      return;
    }
    settle();
    if (event.key === "Escape") {
      page.invokeMethodAsync("LetGo");
    } else if (event.shiftKey && (event.key === "ArrowLeft" || event.key === "ArrowRight")) {
      page.invokeMethodAsync("Extend", event.key === "ArrowRight" ? 1 : -1);
    } else if (keys[event.key]) {
      const [by, count] = keys[event.key];
      page.invokeMethodAsync("Move", by === "bar" && event.shiftKey ? "phrase" : by, count);
    } else if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      page.invokeMethodAsync("String", event.key === "ArrowUp" ? -1 : 1);
    } else if (acts[key]) {
      page.invokeMethodAsync("Do", acts[key]);
    } else if (event.key === "Enter") {
      document.querySelector("#step-note button, #step-note summary")?.focus();
    } else {
      return;
    }
    event.preventDefault();
  });

  // Back and on by the keys that every program has for it; a box of text keeps its own.
  on(document, "keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.target.closest?.("input, textarea")) return;
    const key = event.key.toLowerCase();
    const by = key === "y" || (key === "z" && event.shiftKey) ? 1 : key === "z" ? -1 : 0;
    if (by === 0) return;
    event.preventDefault();
    page.invokeMethodAsync("Turns", by);
  });

  return {
    // Brings the chosen step into view, above what is fixed to the window's floor.
    look() {
      const chosen = [...drawing.querySelectorAll(".chosen")].find((box) => box.getClientRects().length > 0);
      if (!chosen) return;
      const seen = chosen.getBoundingClientRect();
      const rail = document.querySelector(".rail")?.getBoundingClientRect();
      const floor = rail && rail.top > 0 && rail.top < innerHeight ? rail.top : innerHeight;
      const by = seen.bottom > floor ? seen.bottom - floor + 12 : seen.top < 0 ? seen.top - 12 : 0;
      if (by !== 0) scrollBy({ top: by, behavior: calm.matches ? "auto" : "smooth" });
    },
    leave() {
      left.abort();
    },
  };
}
