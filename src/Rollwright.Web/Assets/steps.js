// Turns clicks and keys on the drawing into steps; what they mean, the server knows.

const calm = matchMedia("(prefers-reduced-motion: reduce)");

const keys = {
  ArrowRight: ["step", 1],
  ArrowLeft: ["step", -1],
  ArrowDown: ["bar", 1],
  ArrowUp: ["bar", -1],
  Home: ["start", 0],
  End: ["end", 0],
};

export function attach(drawing, page) {
  const left = new AbortController();
  const on = (target, event, act) => target.addEventListener(event, act, { signal: left.signal });

  on(drawing, "click", (event) => {
    const side = event.target instanceof Element && event.target.closest(".wide, .narrow");
    const svg = side && side.querySelector("svg.engraving");
    if (!svg) return;
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    page.invokeMethodAsync("Point", side.className === "narrow", point.x, point.y);
  });

  on(drawing, "keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "Escape") {
      page.invokeMethodAsync("LetGo");
    } else if (keys[event.key]) {
      page.invokeMethodAsync("Move", ...keys[event.key]);
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
