// A hand on the drawing: a click on a note goes there, a pull of the mouse over bars loops them; on a phone the finger moves the
// page instead.

// page: what holds the drawings; on: listens as long as the player is there; bars: those of the score, none before there is one.
export function attachPointing(page, cursor, on, { bars, goTo, loopBars }) {
  let pulled = null;

  on(page, "pointerdown", (event) => {
    const isDrawing = event.target.closest?.("svg.engraving, .drawing");
    if (bars().length > 0 && isDrawing && event.pointerType !== "touch" && event.button === 0)
      pulled = { x: event.clientX, y: event.clientY, bar: cursor.barAt(event.clientX, event.clientY), isFar: false };
  });

  on(page, "pointermove", (event) => {
    if (!pulled || pulled.bar === undefined) return;
    pulled.isFar ||= Math.hypot(event.clientX - pulled.x, event.clientY - pulled.y) > 12;
    const other = pulled.isFar ? cursor.barAt(event.clientX, event.clientY) : undefined;
    if (other === undefined || other === pulled.other) return;
    pulled.other = other;
    const [low, high] = [Math.min(pulled.bar, other), Math.max(pulled.bar, other)];
    cursor.markBars(bars().map((bar) => bar.bar).filter((bar) => bar >= low && bar <= high));
  });

  on(document, "pointerup", () => {
    if (pulled?.isFar && pulled.other !== undefined)
      loopBars(Math.min(pulled.bar, pulled.other), Math.max(pulled.bar, pulled.other));
    else pulled = null;
  });

  on(
    page,
    "click",
    (event) => {
      const wasPulled = pulled?.isFar;
      pulled = null;
      if (wasPulled) {
        event.stopPropagation();
        return;
      }
      const stroke = event.target.closest?.("g.tab-number[id]");
      const place = stroke && bars().length > 0 ? cursor.placeOfStroke(stroke) : undefined;
      if (place !== undefined) goTo(place);
    },
    { capture: true },
  );
}
