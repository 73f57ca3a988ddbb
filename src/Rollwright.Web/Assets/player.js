// Plays a break and shows its place in the drawing: a box about the stroke that sounds, and its bar in words.
// The server knows nothing of the playing; it only says what to load.

const svgSpace = "http://www.w3.org/2000/svg";
const narrowPrefix = "narrow-";
const calm = matchMedia("(prefers-reduced-motion: reduce)");

export function attach(root) {
  const part = (name) => root.querySelector(`[data-part="${name}"]`);
  const sound = part("sound");
  const play = part("play");
  const loop = part("loop");
  const where = part("where");
  const place = part("place");
  const trouble = part("trouble");
  const left = new AbortController();
  const on = (target, event, act) => target.addEventListener(event, act, { signal: left.signal });
  let follow = null;
  let shown = -1;
  let boxes = [];
  let frame = 0;
  let held = false;
  let asked = 0;

  // The last index whose time is not after t; -1 before the first.
  function at(times, t) {
    let low = 0;
    let high = times.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (times[middle] <= t) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  }

  function clear() {
    boxes.forEach((box) => box.remove());
    boxes = [];
    shown = -1;
  }

  function show(index) {
    if (index === shown) return;
    clear();
    shown = index;
    if (index < 0) return;
    for (const id of follow.marks[index]) {
      // The break is drawn for wide and for narrow windows; only one of the two is there to be seen.
      for (const stroke of [document.getElementById(id), document.getElementById(narrowPrefix + id)]) {
        if (stroke && stroke.getClientRects().length > 0) boxes.push(boxAbout(stroke));
      }
    }
    if (boxes.length > 0) bringIntoView(boxes[0]);
  }

  function boxAbout(stroke) {
    const inner = stroke.getBBox();
    const box = document.createElementNS(svgSpace, "rect");
    // In the drawing's points: enough to stand clear of the number at every size of window.
    const room = 2;
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
  function bringIntoView(box) {
    const seen = box.getBoundingClientRect();
    const ledge = (root.closest(".rail") ?? root).getBoundingClientRect();
    const floor = ledge.top > 0 && ledge.top < innerHeight ? ledge.top : innerHeight;
    if (seen.top >= 0 && seen.bottom <= floor) return;
    box.scrollIntoView({ block: "center", behavior: calm.matches ? "auto" : "smooth" });
  }

  function tell(t) {
    const bar = follow.barNames[Math.max(0, at(follow.barTimes, t))] ?? "";
    if (place.textContent !== bar) {
      place.textContent = bar;
      where.setAttribute("aria-valuetext", bar);
    }
    if (!held) where.value = String(Math.round((1000 * t) / Math.max(0.001, follow.seconds)));
  }

  function step() {
    frame = 0;
    if (!follow) return;
    if (loop.checked && !sound.paused && sound.currentTime >= follow.seconds) sound.currentTime = 0;
    const t = Math.min(sound.currentTime, follow.seconds);
    show(at(follow.times, t + 0.005));
    tell(t);
    if (!sound.paused) frame = requestAnimationFrame(step);
  }

  function again() {
    if (frame === 0) frame = requestAnimationFrame(step);
  }

  function say(words) {
    trouble.textContent = words;
    trouble.hidden = words === "";
  }

  // Giving up while it loads (a pause, another tempo) is no failure.
  function start() {
    return sound.play().catch((why) => {
      if (why.name !== "AbortError") say("The sound could not be played. Make the break again, or download the .wav file.");
    });
  }

  on(play, "click", () => {
    if (sound.paused) start();
    else sound.pause();
  });
  on(part("back"), "click", () => {
    sound.currentTime = 0;
    again();
  });
  on(where, "input", () => {
    held = true;
    if (follow) {
      sound.currentTime = (Number(where.value) / 1000) * follow.seconds;
      again();
    }
  });
  on(where, "change", () => (held = false));
  on(sound, "play", () => {
    say("");
    play.textContent = "Pause";
    again();
  });
  on(sound, "pause", () => (play.textContent = "Play"));
  on(sound, "ended", () => {
    if (loop.checked) {
      sound.currentTime = 0;
      start();
    } else {
      clear();
    }
  });
  // A click on a stroke goes there; the same can be done with the place slider from the keyboard.
  on(document, "click", (event) => {
    const stroke = event.target instanceof Element && event.target.closest('.drawing [id^="s-"], .drawing [id^="narrow-s-"]');
    if (!stroke || !follow) return;
    const id = stroke.id.replace(narrowPrefix, "");
    const index = follow.marks.findIndex((marks) => marks.includes(id));
    if (index < 0) return;
    sound.currentTime = follow.times[index];
    again();
  });

  return {
    // Another break of the same piece, or the same at another tempo, goes on at the same place of the form.
    // An answer that comes after a later question is dropped.
    async load(soundAddress, followAddress, piece) {
      const mine = ++asked;
      const share = follow ? sound.currentTime / follow.seconds : 0;
      const playing = !sound.paused;
      clear();
      const answer = await fetch(followAddress);
      const told = answer.ok ? await answer.json() : await answer.text();
      if (mine !== asked) return;
      if (!answer.ok) {
        say(told);
        return;
      }
      const samePiece = follow !== null && root.dataset.piece === piece;
      root.dataset.piece = piece;
      follow = told;
      sound.src = soundAddress;
      sound.preload = "auto";
      sound.currentTime = samePiece ? share * follow.seconds : 0;
      if (playing && samePiece) await start();
      else play.textContent = "Play";
      root.dataset.ready = soundAddress;
      again();
    },
    leave() {
      left.abort();
      cancelAnimationFrame(frame);
      sound.pause();
      clear();
    },
  };
}

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
