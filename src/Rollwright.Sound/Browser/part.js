// One part of the music: its instrument, its hands, and the acts that wait for their frame.

import { Hands } from "./hands.js";
import { Instrument } from "./instrument.js";
import { StrummingHands } from "./strumming-hands.js";
import { block } from "./waveguide.js";

export class Part {
  #hands;
  #freshHands;
  #instrument;
  #acts = [];
  #isPassed = false;
  #next = 0;

  // made: the part of the score.
  constructor(made, score, rate) {
    this.name = made.name;
    this.strokes = made.strokes;
    this.level = 1;
    this.gain = 1;
    [this.left, this.right] = made.sides;
    const Kind = made.name === "banjo" ? Hands : StrummingHands;
    this.#freshHands = () => new Kind(made, score, score.seed);
    this.#hands = this.#freshHands();
    this.#instrument = new Instrument(made.instrument, rate, score.seed);
  }

  // The next strokes are those from a place on.
  goTo(place) {
    this.#next = this.strokes.findIndex((stroke) => stroke.at >= place - 1e-9);
    if (this.#next < 0) this.#next = this.strokes.length;
  }

  // Writes the acts of all strokes before a place. counted: the count of place 0; change: what becomes of a stroke, null for
  // nothing.
  write(place, counted, course, change) {
    for (; this.#next < this.strokes.length && this.strokes[this.#next].at < place - 1e-9; this.#next++) {
      const stroke = change(this.strokes[this.#next]);
      if (stroke) this.strike(stroke, counted + stroke.at, course);
    }
  }

  // One stroke, at a count.
  strike(stroke, count, course) {
    for (const act of this.#hands.play(stroke, count, course.secondsPerWhole)) {
      act.frame = course.frameOf(act.count, act.lead);
      // Behind all that come no later: at one frame, first come, first done.
      let at = this.#acts.length;
      while (at > 0 && this.#acts[at - 1].frame > act.frame) at--;
      this.#acts.splice(at, 0, act);
    }
  }

  // The tempo has changed: what waits comes at another frame.
  retime(course) {
    for (const act of this.#acts) act.frame = course.frameOf(act.count, act.lead);
    this.#acts.sort((a, b) => a.frame - b.frame);
  }

  // Drops what waits, and lays a hand on the strings.
  hush(seconds) {
    this.#acts = [];
    this.#hands = this.#freshHands();
    this.#instrument.hush(seconds);
  }

  // Nobody listens: what comes before a frame is not done.
  pass(frame) {
    if (!this.#isPassed) this.#instrument.hush(0.005);
    this.#isPassed = true;
    while (this.#acts.length > 0 && this.#acts[0].frame < frame) this.#acts.shift();
  }

  // Adds the frames from one on, which is the first of the arrays.
  sound(left, right, frame, frames) {
    this.#isPassed = false;
    let at = 0;
    while (at < frames) {
      while (this.#acts.length > 0 && this.#acts[0].frame <= frame + at) this.#instrument.do(this.#acts.shift());
      const until = this.#acts.length > 0 ? Math.min(frames, this.#acts[0].frame - frame) : frames;
      const count = Math.min(block, until - at);
      this.#instrument.sound(left, right, at, count);
      at += count;
    }
  }
}
