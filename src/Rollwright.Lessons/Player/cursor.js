// Shows in a drawing which notes are heard, and which bars are gone through again and again.

const svgSpace = "http://www.w3.org/2000/svg";
const calm = matchMedia("(prefers-reduced-motion: reduce)");
// In the drawing's points: enough to stand clear of the number at every size of window.
const room = 2;

export class Cursor {
  #page;
  #root;
  #moments = [];
  #times = [];
  #shown = -1;
  #boxes = [];
  #looped = [];
  #piece;

  // page: what holds the drawings; root: the player, behind which nothing is seen.
  constructor(page, root) {
    this.#page = page;
    this.#root = root;
  }

  // piece: the name of what is played; where a page draws several, each stands in an element with its name as data-piece.
  load(score, piece) {
    this.clear();
    this.#piece = piece;
    this.#moments = [];
    for (const stroke of score.parts[0].strokes) {
      const last = this.#moments.at(-1);
      if (last && stroke.at - last.at < 1e-9) last.ids.push(`s-${stroke.of}`);
      else this.#moments.push({ at: stroke.at, ids: [`s-${stroke.of}`] });
    }
    this.#times = this.#moments.map((moment) => moment.at);
  }

  clear() {
    this.#boxes.forEach((box) => box.remove());
    this.#boxes = [];
    this.#shown = -1;
  }

  // The place of what sounds at a place: of the last note that has begun.
  placeOf(place) {
    return this.#moments[lastAt(this.#times, place + 1e-9)]?.at ?? 0;
  }

  // The place of a stroke of the drawing, the first time that it is played; undefined for what is none, or another piece's.
  placeOfStroke(stroke) {
    if (!this.#isPlayed(stroke)) return undefined;
    const name = nameOf(stroke.id);
    return this.#moments.find((moment) => moment.ids.includes(`s-${name}`))?.at;
  }

  show(place) {
    const index = lastAt(this.#times, place + 1e-9);
    if (index === this.#shown) return;
    this.clear();
    this.#shown = index;
    if (index < 0) return;
    for (const id of this.#moments[index].ids) this.#boxes.push(...this.#seen(id).map((stroke) => this.#boxAbout(stroke)));
    if (this.#boxes.length > 0) this.#bringIntoView(this.#boxes[0]);
  }

  // A line under some written bars.
  markBars(bars) {
    this.#looped.forEach((line) => line.remove());
    this.#looped = [];
    const wanted = new Set(bars);
    if (wanted.size === 0) return;
    for (const svg of this.#page.querySelectorAll("svg.engraving")) {
      if (!this.#isPlayed(svg)) continue;
      const rows = new Map();
      for (const stroke of svg.querySelectorAll("g.tab-number[id]")) {
        if (!wanted.has(barOfId(stroke.id))) continue;
        const box = stroke.getBBox();
        // Strokes of one line of music stand within a staff of each other.
        const near = [...rows.keys()].find((y) => Math.abs(y - box.y) < 70) ?? box.y;
        const row = rows.get(near) ?? { left: Infinity, right: -Infinity, bottom: -Infinity };
        rows.set(near, {
          left: Math.min(row.left, box.x),
          right: Math.max(row.right, box.x + box.width),
          bottom: Math.max(row.bottom, box.y + box.height),
        });
      }
      for (const row of rows.values()) {
        const line = document.createElementNS(svgSpace, "path");
        line.setAttribute("class", "looped");
        line.setAttribute("d", `M${row.left - 5} ${row.bottom + 9}v5H${row.right + 5}v-5`);
        svg.appendChild(line);
        this.#looped.push(line);
      }
    }
  }

  // The written bar nearest to a point of the window; undefined where nothing is drawn.
  barAt(x, y) {
    let nearest;
    let least = Infinity;
    for (const stroke of this.#page.querySelectorAll("g.tab-number[id]")) {
      const box = stroke.getBoundingClientRect();
      if (box.width === 0 || !this.#isPlayed(stroke)) continue;
      // First the line of music, then the place in it.
      const lines = Math.max(0, Math.abs((box.top + box.bottom) / 2 - y) - 60);
      const away = Math.abs((box.left + box.right) / 2 - x) + 8 * lines;
      if (away < least) [least, nearest] = [away, stroke];
    }
    return nearest && barOfId(nearest.id);
  }

  // A break is drawn for wide and for narrow windows; only one of the two is there to be seen.
  #seen(id) {
    const all = [...this.#page.querySelectorAll(`[id="${id}"], [id$="-${id}"]`)];
    return all.filter((stroke) => stroke.getClientRects().length > 0 && this.#isPlayed(stroke));
  }

  #isPlayed(drawn) {
    const piece = drawn.closest("[data-piece]");
    return piece === null || piece.dataset.piece === this.#piece;
  }

  #boxAbout(stroke) {
    const inner = stroke.getBBox();
    const box = document.createElementNS(svgSpace, "rect");
    box.setAttribute("class", "place");
    box.setAttribute("data-of", stroke.id);
    box.setAttribute("x", inner.x - room);
    box.setAttribute("y", inner.y - room);
    box.setAttribute("width", inner.width + 2 * room);
    box.setAttribute("height", inner.height + 2 * room);
    box.setAttribute("rx", room);
    box.setAttribute("stroke-width", 1.6);
    stroke.parentNode.appendChild(box);
    return box;
  }

  // Only where the place has left the view: a page that moves at every note cannot be read.
  #bringIntoView(box) {
    const seen = box.getBoundingClientRect();
    const ledge = (this.#root.closest(".rail") ?? this.#root).getBoundingClientRect();
    const floor = ledge.top > 0 && ledge.top < innerHeight ? ledge.top : innerHeight;
    const screen = this.#page.querySelector(".screen")?.getBoundingClientRect();
    const ceiling = screen && screen.top <= 0 ? Math.max(screen.bottom, 0) : 0;
    if (seen.top >= ceiling && seen.bottom <= floor) return;
    box.scrollIntoView({ block: "center", behavior: calm.matches ? "auto" : "smooth" });
  }
}

// The last index whose time is not after t; -1 before the first.
function lastAt(times, t) {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] <= t) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

// "s-3-5" and "narrow-s-3-5" are both stroke 5 of bar 3.
function nameOf(id) {
  return /(?:^|-)s-(\d+-\d+)$/.exec(id)?.[1];
}

function barOfId(id) {
  const name = nameOf(id);
  return name === undefined ? undefined : Number.parseInt(name, 10);
}
