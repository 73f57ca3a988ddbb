// The music in sound: all parts of a score, told what to play and when to stop, frame by frame. It knows no page and no
// clock but the frames it is asked for, so that a page, a test and a measurement hear the same.

import { Course } from "./course.js";
import { holds, loopsOf } from "./loops.js";
import { Part } from "./part.js";

// Seconds by which strokes are known before they sound: more than the longest slide takes.
const ahead = 0.15;
// Seconds in which the sound goes when it is stopped.
const fade = 0.005;
// Seconds that the last notes ring on.
const ring = 2;
// Frames in which a level that was moved is there, as a share: no crackle under the slider.
const smoothing = 0.02;
// Where the sound begins to be rounded off instead of clipped.
const knee = 0.75;
// Whole notes that are no time at all.
const tiny = 1e-9;

export class Engine {
  #score;
  #rate;
  #tell;
  #parts;
  #counter;
  #course;
  #state = "still";
  #fadeLeft = 0;
  #loop = null;
  #trade = null;
  #isOpen = false;
  #left = new Float32Array(128);
  #right = new Float32Array(128);

  // score: see docs/player.md; tell: called with what the page should know.
  constructor(score, rate, tell = () => {}) {
    this.#score = score;
    this.#rate = rate;
    this.#tell = tell;
    score.accents.levels ??= { melody: 1, drone: 1, fill: 1 };
    this.#makeParts({});
    this.#course = new Course(rate, this.#secondsPerWhole(score.tempo.perMinute));
  }

  // Plays from a place, in whole notes, after so many bars counted in; the first frame of it is given.
  play(frame, { from = 0, countIn = 0 } = {}) {
    const levels = Object.fromEntries(this.#parts.map((part) => [part.name, part.level]));
    this.#makeParts(levels);
    const pass = this.#passFrom(from);
    const count = this.#countIn(from, countIn);
    this.#course.start(frame, count.length > 0 ? { from: -count.length, to: 0, round: 0, turn: 0, counts: true } : pass);
    if (count.length > 0) {
      for (const click of count.clicks) this.#counter.strike(click, click.at, this.#course);
      this.#course.follow(pass);
    }
    for (const part of this.#parts) part.goTo(from);
    this.#state = "playing";
    this.#write(frame);
    this.#told(frame);
  }

  // Stops within five milliseconds.
  stop() {
    if (this.#state === "still" || this.#state === "fading") return;
    this.#state = "fading";
    this.#fadeLeft = Math.round(fade * this.#rate);
  }

  // Goes to a place while it plays.
  seek(frame, place) {
    if (this.#state !== "playing") return;
    this.#counter.hush(fade);
    for (const part of this.#parts) {
      part.hush(fade);
      part.goTo(place);
    }
    this.#course.start(frame, this.#passFrom(place));
    this.#write(frame);
    this.#told(frame);
  }

  // Units of the score's tempo a minute, from this frame on.
  setTempo(frame, perMinute) {
    this.#course.setTempo(frame, this.#secondsPerWhole(perMinute));
    for (const part of [...this.#parts, this.#counter]) part.retime(this.#course);
    if (this.#state === "playing") this.#told(frame);
  }

  // { from, to } in whole notes, see loops.js, and others that take turns with it in `then`; null to play to the end.
  setLoop(frame, loop) {
    this.#loop = loop;
    if (this.#state !== "playing") return;
    const now = this.#course.placeAt(frame);
    const last = this.#course.last;
    if (!now || now.pass.counts) return;
    if (loop && !holds(loop, now.place)) {
      this.seek(frame, loop.from);
    } else if (last === now.pass && this.#course.frameOf(last.count + last.to - last.from) > frame + ahead * this.#rate) {
      const { to, turn } = this.#passFrom(now.place);
      Object.assign(last, { to, turn });
      this.#told(frame);
    }
  }

  // The level of a part, 0 to 1.5, or of the tune's, drone's and other notes of the banjo.
  setLevel(name, level) {
    if (name in this.#score.accents.levels) this.#score.accents.levels[name] = level;
    const part = this.#parts.find((one) => one.name === name);
    if (part) part.level = level;
  }

  // What the banjo leaves to the player: null, or { every, of } with every so many "bars" or "rounds" by turns.
  setTrade(trade) {
    this.#trade = trade;
  }

  // The right hand alone: every string open, no slurs.
  setOpen(isOpen) {
    this.#isOpen = isOpen;
  }

  // The next frames, at most 128 of them; false when nothing sounds any more.
  sound(left, right, frame, frames) {
    left.fill(0);
    right.fill(0);
    if (this.#state === "still") return false;
    if (this.#state === "playing") this.#write(frame);
    for (const part of this.#parts) this.#mix(part, left, right, frame, frames);
    this.#mix(this.#counter, left, right, frame, frames);
    for (let k = 0; k < frames; k++) {
      left[k] = rounded(left[k]);
      right[k] = rounded(right[k]);
    }
    if (this.#state === "fading") this.#fadeOut(left, right, frames);
    else if (this.#state === "ringing" && frame > this.#course.endFrame + ring * this.#rate) this.stop();
    return true;
  }

  #makeParts(levels) {
    this.#parts = this.#score.parts.map((made) => new Part(made, this.#score, this.#rate));
    for (const part of this.#parts) part.level = part.gain = levels[part.name] ?? (part.name === "banjo" ? 1 : 0);
    // Counts in at its own level, whoever plays.
    const click = this.#score.parts.find((made) => made.name === "click");
    this.#counter = new Part({ ...click, strokes: [] }, this.#score, this.#rate);
  }

  #secondsPerWhole(perMinute) {
    return 60 / (perMinute * this.#score.tempo.unit);
  }

  // What the next round plays is found by its turn.
  #passFrom(place) {
    const loops = loopsOf(this.#loop);
    const turn = Math.max(0, loops.findIndex((one) => place > one.from - tiny && place < one.to));
    const to = loops.length > 0 && place < loops[turn].to ? loops[turn].to : this.#score.length;
    return { from: place, to, round: 1, turn };
  }

  // Writes what will sound within the next moment, pass after pass.
  #write(frame) {
    const until = this.#course.countAt(frame + ahead * this.#rate);
    for (;;) {
      const pass = this.#course.last;
      const reached = pass.from + until - pass.count;
      if (!pass.counts) {
        for (const part of this.#parts)
          part.write(Math.min(pass.to, reached), pass.count - pass.from, this.#course, (stroke) =>
            this.#changed(part, stroke, pass),
          );
      }
      if (reached < pass.to) return;
      if (!this.#loop) {
        this.#state = "ringing";
        this.#tell({ tells: "end", frame: this.#course.endFrame });
        return;
      }
      const loops = loopsOf(this.#loop);
      const turn = (pass.turn + 1) % loops.length;
      const { from, to } = loops[turn];
      for (const part of this.#parts) part.goTo(from);
      this.#course.follow({ from, to, round: pass.round + 1, turn });
      this.#told(frame);
    }
  }

  // What becomes of a stroke: the banjo rests in its turn, and leaves the frets alone where only the right hand plays.
  #changed(part, stroke, pass) {
    if (part.name !== "banjo") return stroke;
    if (this.#trade && this.#rests(stroke, pass)) return null;
    if (!this.#isOpen) return stroke;
    return stroke.right ? { ...stroke, fret: 0, left: undefined, slur: undefined } : null;
  }

  #rests(stroke, pass) {
    const { every, of } = this.#trade;
    const turn = of === "rounds" ? pass.round - 1 : this.#barsBefore(stroke.at, pass);
    return Math.floor(turn / every) % 2 === 1;
  }

  // Full bars that were begun before the one of a place, through all rounds; a pickup belongs to the bar that it leads into.
  #barsBefore(at, pass) {
    const { from, to } = this.#loop ?? { from: 0, to: this.#score.length };
    const bars = this.#score.bars.filter((bar) => bar.at > from - tiny && bar.at < to - tiny);
    const full = bars.filter((bar) => bar.begins > bar.at - tiny);
    const begun = full.filter((bar) => bar.at < at + tiny).length;
    const isFull = full.includes(bars.findLast((bar) => bar.at < at + tiny));
    return (pass.round - 1) * full.length + begun - (isFull ? 1 : 0);
  }

  // Bars of clicks before a place, and the beats of its own bar that lie before it.
  #countIn(place, bars) {
    const bar = this.#score.bars.findLast((one) => one.at < place + tiny);
    if (!(bars > 0) || !bar) return { length: 0, clicks: [] };
    const full = bar.time[0] / bar.time[1];
    const length = bars * full + Math.max(0, place - bar.begins);
    const counted = this.#score.count[bar.time.join("/")];
    const clicks = [];
    for (let begins = 0; begins < length; begins += full)
      for (const click of counted) clicks.push({ ...click, at: begins + click.at });
    return { length, clicks: clicks.filter((click) => click.at < length - tiny) };
  }

  #told(frame) {
    this.#tell({ tells: "course", frame, segments: this.#course.told(frame) });
  }

  #mix(part, left, right, frame, frames) {
    if (part.level === 0 && part.gain === 0) {
      part.pass(frame + frames);
      return;
    }
    const [l, r] = [this.#left, this.#right];
    const [toLeft, toRight] = [this.#score.gain * part.left, this.#score.gain * part.right];
    l.fill(0);
    r.fill(0);
    part.sound(l, r, frame, frames);
    for (let k = 0; k < frames; k++) {
      if (part.gain !== part.level) {
        part.gain += (part.level - part.gain) * smoothing;
        if (Math.abs(part.level - part.gain) < 1e-4) part.gain = part.level;
      }
      left[k] += toLeft * part.gain * l[k];
      right[k] += toRight * part.gain * r[k];
    }
  }

  #fadeOut(left, right, frames) {
    const whole = Math.round(fade * this.#rate);
    for (let k = 0; k < frames; k++) {
      const share = this.#fadeLeft > 0 ? this.#fadeLeft-- / whole : 0;
      left[k] *= share;
      right[k] *= share;
    }
    if (this.#fadeLeft > 0) return;
    this.#state = "still";
    this.#tell({ tells: "still" });
  }
}

// Straight up to the knee, then bent towards full scale.
function rounded(value) {
  const size = Math.abs(value);
  if (size <= knee) return value;
  return Math.sign(value) * (knee + (1 - knee) * Math.tanh((size - knee) / (1 - knee)));
}
