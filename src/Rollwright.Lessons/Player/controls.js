// The player's buttons and sliders: what a person does with them is asked of the player, what is heard is shown.

import { Cursor } from "./cursor.js";
import { attachPointing } from "./pointing.js";
import { holds, loopOfAll, loopOfPhrase, loopOfSpans, loopOfWritten } from "./loops.js";
import { Player } from "./player.js";

// Seconds by which a place is shown early: a browser paints what it is told at its next picture.
const early = 0.012;
const slowest = 30;
const fastest = 200;
// Per cent at which the band comes in where it was silent.
const bandLevel = 80;

// root: holds player.html; page: holds the drawing; worklet: the address of worklet.js, or several to be tried.
export function attach(root, page, worklet) {
  const part = (name) => root.querySelector(`[data-part="${name}"]`);
  const left = new AbortController();
  const on = (target, event, act, more) => target.addEventListener(event, act, { signal: left.signal, ...more });
  const player = new Player(...[worklet].flat());
  const cursor = new Cursor(page, root);
  let score = null;
  // Where playing begins next, in whole notes.
  let next = 0;
  let frame = 0;
  let isHeld = false;
  // What the page has given to be gone through: { name, spans }; null for nothing.
  let given = null;
  // The round that was heard last, { round, turn }; null before the first.
  let heardLast = null;
  // Units a minute from the next round on; null for none.
  let nextTempo = null;
  let raised = [];
  // The name of what is heard in between instead of the score; null for nothing.
  let guest = null;

  const marked = () => [Number(part("first").value), Number(part("last").value)].sort((a, b) => a - b);

  function loop() {
    const wish = part("loop").value;
    if (wish === "") return null;
    if (wish === "all") return loopOfAll(score);
    if (wish === "bars") return loopOfWritten(score, ...marked());
    if (wish === "given") return loopOfSpans(score, given.spans);
    return loopOfPhrase(score, Number(wish));
  }

  function say(words) {
    part("trouble").textContent = words;
    part("trouble").hidden = words === "";
  }

  // What goes on with another break is not counted in again.
  function start({ isGoingOn = false } = {}) {
    if (!score) return;
    if (!Player.isPossible) {
      say("This browser cannot play here, for it lacks AudioWorklet. Take a newer one, or a sound file of the break.");
      return;
    }
    say("");
    const span = loop();
    if (span && !holds(span, next)) next = span.from;
    heardLast = null;
    const countIn = isGoingOn ? 0 : Number(part("count").value);
    player.play({ from: countIn > 0 ? barAt(next).at : next, countIn }).catch(sorry);
    showState();
    follow();
  }

  function sorry(why) {
    hush();
    halt();
    say(`The sound could not be started (${why.message}). Load the page again, or take a sound file of the break.`);
  }

  function halt() {
    const now = player.heard();
    if (now && !now.counts) next = cursor.placeOf(now.place);
    player.stop();
    showState();
  }

  const turn = () => (guest !== null ? hush() : player.isPlaying ? halt() : start());

  // Plays something else once from its start, with both hands, at the tempo and levels that are set.
  function hear(name, told) {
    if (!Player.isPossible) return start();
    if (guest === null) halt();
    guest = name;
    cursor.clear();
    player.load(told);
    player.ask("loop", { loop: null });
    player.ask("trade", { trade: null });
    player.ask("open", { isOpen: false });
    player.play().catch(sorry);
    part("place").textContent = `lick: ${name}`;
    showState();
    follow();
  }

  // What is heard in between is over: the score lies there again, with all that was asked of it, where it was.
  function hush() {
    if (guest === null) return;
    guest = null;
    player.load(score);
    setLoop();
    setTrade();
    player.ask("open", { isOpen: part("open").checked });
    showState();
    show(next);
    cursor.clear();
    root.dispatchEvent(new CustomEvent("heardout"));
  }

  function goTo(place) {
    hush();
    next = place;
    if (player.isPlaying) player.seek(place);
    else show(place);
  }

  function showState() {
    root.dataset.hears = guest ?? "";
    part("play").textContent = player.isPlaying ? "Stop" : "Play";
    root.dataset.state = player.isPlaying ? "playing" : "still";
  }

  function follow() {
    frame ||= requestAnimationFrame(step);
  }

  function step() {
    frame = 0;
    const now = player.heard(early);
    if (guest !== null) {
      if (player.isPlaying) follow();
      else hush();
      return;
    }
    if (now?.counts) part("place").textContent = "count-in";
    else if (now) {
      tellRounds(now);
      show(now.place);
    }
    if (player.isPlaying) {
      follow();
    } else if (root.dataset.state === "playing") {
      // It has come to its end.
      next = 0;
      cursor.clear();
      showState();
    }
  }

  // A round that was heard to its end is told to the page as "passdone", with its turn among the loops.
  function tellRounds({ round, turn }) {
    const before = heardLast;
    heardLast = { round, turn };
    if (!before || round <= before.round) return;
    if (nextTempo !== null) setTempo(nextTempo);
    root.dispatchEvent(new CustomEvent("passdone", { detail: { turn: before.turn } }));
  }

  const barAt = (place) => score.bars.findLast((bar) => bar.at <= place + 1e-9) ?? score.bars[0];

  function show(place) {
    cursor.show(place);
    const words = barAt(place).words;
    if (part("place").textContent !== words) {
      part("place").textContent = words;
      part("where").setAttribute("aria-valuetext", words);
    }
    if (!isHeld) part("where").value = String(Math.round((1000 * place) / score.length));
  }

  function setTempo(perMinute) {
    nextTempo = null;
    const box = part("tempo");
    const wanted = Math.round(Number.isFinite(perMinute) ? perMinute : score.tempo.perMinute);
    box.value = String(Math.min(Math.max(wanted, Number(box.min)), Number(box.max)));
    say(Number(box.value) === wanted ? "" : `The tempo is ${box.min} to ${box.max} here.`);
    player.ask("tempo", { perMinute: Number(box.value) });
  }

  function setLoop() {
    hush();
    part("marks").hidden = part("loop").value !== "bars";
    const span = loop();
    player.ask("loop", { loop: span });
    const isPart = span && part("loop").value !== "all";
    cursor.markBars(isPart ? score.bars.filter((bar) => holds(span, bar.at)).map((bar) => bar.bar) : []);
    if (isPart && !player.isPlaying && !holds(span, next)) goTo(span.from);
  }

  function loopBars(first, last) {
    part("loop").value = "bars";
    part("first").value = String(first);
    part("last").value = String(last);
    setLoop();
  }

  // Once through, the whole, a phrase: what the keys go through.
  function stepLoop(by) {
    const choices = [...part("loop").options].filter((option) => option.value !== "bars");
    const at = choices.findIndex((option) => option.selected);
    part("loop").value = choices[Math.min(Math.max(at + by, 0), choices.length - 1)].value;
    setLoop();
  }

  function setTrade() {
    hush();
    const [every, of] = part("trade").value.split(" ");
    player.ask("trade", { trade: every ? { every: Number(every), of } : null });
  }

  on(part("play"), "click", turn);
  on(part("back"), "click", () => goTo(loop()?.from ?? 0));
  on(part("tempo"), "change", () => setTempo(part("tempo").valueAsNumber));
  on(part("loop"), "change", setLoop);
  on(part("first"), "change", setLoop);
  on(part("last"), "change", setLoop);
  on(part("trade"), "change", setTrade);
  on(part("open"), "change", () => player.ask("open", { isOpen: part("open").checked }));
  on(part("where"), "input", () => {
    isHeld = true;
    if (score) goTo(barAt((Number(part("where").value) / 1000) * score.length).at);
  });
  on(part("where"), "change", () => (isHeld = false));
  on(root, "input", (event) => {
    const slider = event.target.closest?.("[data-level]");
    if (slider) setLevel(slider);
  });

  function setLevel(slider, perCent = slider.value) {
    slider.value = String(perCent);
    const level = Number(slider.value) / 100;
    slider.setAttribute("aria-valuetext", level === 0 ? "silent" : `${slider.value} per cent`);
    player.ask("level", { name: slider.dataset.level, level });
  }

  // Keys of the whole page; a box, a list and a button keep their own.
  on(document, "keydown", (event) => {
    if (event.ctrlKey || event.metaKey || !score) return;
    const isOwn = event.target.closest?.("input, textarea, select, button, summary, a");
    if (event.key === " " && !event.altKey && (!isOwn || event.target.type === "range")) turn();
    else if (event.altKey && event.key === "ArrowUp") setTempo(part("tempo").valueAsNumber + 5);
    else if (event.altKey && event.key === "ArrowDown") setTempo(part("tempo").valueAsNumber - 5);
    else if (event.altKey && event.key === "PageDown") stepLoop(1);
    else if (event.altKey && event.key === "PageUp") stepLoop(-1);
    else return;
    event.preventDefault();
  });

  attachPointing(page, cursor, on, { bars: () => score?.bars ?? [], goTo, loopBars });

  function fill(score) {
    const loops = [
      ["", "once through"],
      ["all", "the whole"],
      ...score.phrases.map((phrase) => [String(phrase.number), `phrase ${phrase.number}: ${phrase.words}`]),
      ["bars", "marked bars"],
      ...(given ? [["given", given.name]] : []),
    ];
    setOptions(part("loop"), loops, "all");
    const bars = score.bars.filter((bar, i) => score.bars.findIndex((one) => one.bar === bar.bar) === i);
    const names = bars.sort((a, b) => a.bar - b.bar).map((bar) => [String(bar.bar), bar.name]);
    setOptions(part("first"), names, names[0][0]);
    setOptions(part("last"), names, names.at(-1)[0]);
    const box = part("tempo");
    box.min = String(slowest);
    box.max = String(Math.max(fastest, Math.ceil(score.tempo.perMinute)));
    part("unit").textContent = `${score.tempo.unitName} a minute`;
    setLevels(part("band"), score.parts.slice(1).map((one) => [one.name, one.words]), 0);
    setLevels(part("accents"), [["banjo", "All of it"], ["melody", "Tune"], ["drone", "Short string"], ["fill", "Other notes"]], 100);
  }

  // Sliders that are there keep what a person gave them.
  function setLevels(box, names, usual) {
    for (const [name, words] of names) {
      if (box.querySelector(`[data-level="${name}"]`)) continue;
      const label = document.createElement("label");
      label.textContent = words;
      const slider = Object.assign(document.createElement("input"), { type: "range", min: "0", max: "150", step: "5" });
      slider.value = String(usual);
      slider.dataset.level = name;
      label.append(slider);
      box.append(label);
      setLevel(slider);
    }
  }

  return {
    // Another break of the same piece goes on at the same place, tempo and loop; another piece begins anew.
    load(told, piece) {
      hush();
      const isSame = score !== null && root.dataset.piece === piece;
      const wasPlaying = player.isPlaying;
      const now = player.heard();
      const share = isSame ? (now && !now.counts ? now.place : next) / score.length : 0;
      root.dataset.piece = piece;
      if (!isSame) given = null;
      cursor.clear();
      player.load(told);
      score = told;
      fill(told);
      cursor.load(told, piece);
      next = isSame ? cursor.placeOf(share * told.length) : 0;
      setTempo(isSame ? part("tempo").valueAsNumber : told.tempo.perMinute);
      setLoop();
      setTrade();
      say("");
      if (wasPlaying && isSame) start({ isGoingOn: true });
      else {
        showState();
        show(next);
        cursor.clear();
      }
    },
    say,
    halt,
    // From the start, at once: a phrase again and again, or, for null, as it stands in the list of loops.
    begin(phrase) {
      halt();
      if (phrase !== null) part("loop").value = String(phrase);
      setLoop();
      goTo(loop()?.from ?? 0);
      start();
    },
    hear,
    hush,
    // Gets the device ready; where that fails, playing says why.
    wake: () => (Player.isPossible ? player.wake().catch(() => {}) : undefined),
    // Stretches of whole notes to go through by turns, with a name for the list of loops; it stops and waits there.
    loop(name, spans) {
      hush();
      halt();
      given = { name, spans };
      fill(score);
      part("loop").value = "given";
      setLoop();
      goTo(loop().from);
    },
    // At once, or with the next round where it plays.
    tempo(perMinute, withNextRound = false) {
      if (withNextRound && player.isPlaying) nextTempo = perMinute;
      else setTempo(perMinute);
    },
    // Bars counted in; bars by turns that the banjo plays and rests, 0 for throughout; the right hand alone; the band with it.
    prepare({ countIn, rest, isOpen, hasBand }) {
      part("count").value = String(countIn);
      part("trade").value = rest > 0 ? `${rest} bars` : "";
      setTrade();
      part("open").checked = isOpen;
      player.ask("open", { isOpen });
      // A person's own levels stay; what was raised here goes again.
      for (const slider of raised) if (slider.value === String(bandLevel)) setLevel(slider, 0);
      const band = [...part("band").querySelectorAll("[data-level]")];
      raised = hasBand ? band.filter((slider) => slider.value === "0" && slider.dataset.level !== "click") : [];
      for (const slider of raised) setLevel(slider, bandLevel);
    },
    leave() {
      left.abort();
      cancelAnimationFrame(frame);
      cursor.clear();
      cursor.markBars([]);
      return player.leave();
    },
  };
}

// What was chosen stays where it is still offered.
function setOptions(list, options, usual) {
  const before = list.options.length > 0 ? list.value : usual;
  list.replaceChildren(...options.map(([value, words]) => new Option(words, value)));
  list.value = options.some(([value]) => value === before) ? before : usual;
}
