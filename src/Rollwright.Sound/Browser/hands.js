// Playing/Hands.cs in JavaScript: strokes become acts of the hands on the strings.
//
// An act happens so many seconds before its stroke, and the stroke stands at a count of whole notes: so the tempo may change
// while acts wait, and nothing is late or early for it.

import { PickingHand } from "./picking-hand.js";

export class Hands {
  #strings;
  #limits;
  #picking;
  #held;

  // part: of the score, whose "hands" and "accents" are the same for all.
  constructor(part, score, seed) {
    this.#strings = part.instrument.strings;
    this.#limits = score.hands;
    this.#picking = new PickingHand(part.instrument.touches, score.accents, seed);
    this.#held = [null, ...this.#strings.map(() => free)];
  }

  // The acts of a stroke at a count of whole notes.
  play(stroke, count, secondsPerWhole) {
    const now = { count, secondsPerWhole, acts: [] };
    this.#freeFinger(stroke, now);
    const before = this.#held[stroke.string];
    if (!stroke.right && stroke.slur && before.rings) this.#slur(stroke, before, now);
    else this.#pluck(stroke, before, now);
    this.#held[stroke.string] = { since: count, fret: stroke.fret, finger: stroke.left, rings: true };
    return now.acts;
  }

  #pluck(stroke, before, now) {
    if (before.rings) {
      const contact = Math.min(this.#limits.contact, gap(before, now) / 2);
      add(now, "touch", stroke.string, { lead: contact, ramp: contact * 0.6 });
    }
    add(now, "stop", stroke.string, { above: this.#above(stroke.string, stroke.fret) });
    add(now, "pluck", stroke.string, { pluck: this.#picking.of(stroke) });
  }

  #slur(stroke, before, now) {
    const { bend, bendTime, comeDown } = this.#limits;
    const above = this.#above(stroke.string, stroke.fret);
    if (stroke.slur === "slide") {
      this.#slide(stroke, before, now);
    } else if (stroke.slur === "choke") {
      add(now, "stop", stroke.string, { above: above + bend, ramp: bendTime });
    } else {
      add(now, "stop", stroke.string, { above, ramp: comeDown });
      add(now, "pluck", stroke.string, { pluck: this.#picking.ofSlur(stroke) });
    }
  }

  // A finger that stays down passes every fret between and arrives on time.
  #slide(stroke, before, now) {
    const from = this.#above(stroke.string, before.fret);
    const to = this.#above(stroke.string, stroke.fret);
    const frets = Math.abs(to - from);
    const each = Math.min(this.#limits.slide, gap(before, now) * 0.6) / frets;
    for (let passed = 1; passed <= frets; passed++) {
      const lead = (frets - passed) * each + each * 0.4;
      add(now, "stop", stroke.string, { lead, above: from + passed * Math.sign(to - from), ramp: each * 0.4 });
    }
  }

  // One finger cannot be in two places: what it held elsewhere stops, and that string is open again.
  #freeFinger(stroke, now) {
    if (stroke.left === undefined) return;
    for (let other = 1; other <= this.#strings.length; other++) {
      const note = this.#held[other];
      if (other === stroke.string || !note.rings || note.finger !== stroke.left || note.fret === stroke.fret) continue;
      if (note.since >= now.count) continue;
      const { lift, liftTime } = this.#limits;
      add(now, "touch", other, { lead: Math.min(lift, gap(note, now) / 2), ramp: liftTime });
      add(now, "stop", other, {});
      add(now, "release", other, {});
      this.#held[other] = free;
    }
  }

  // Semitones above open: the frets of a string are counted from where it starts on the neck.
  #above(string, fret) {
    return fret === 0 ? 0 : fret - this.#strings[string - 1].starts;
  }
}

const free = { since: 0, fret: 0, finger: undefined, rings: false };

// Seconds since the string was struck.
function gap(before, now) {
  return (now.count - before.since) * now.secondsPerWhole;
}

// lead: seconds before the count; above: semitones above open; ramp: seconds that it takes.
function add(now, does, string, { lead = 0, above = 0, ramp = 0, pluck }) {
  now.acts.push({ count: now.count, lead, does, string, above, ramp, pluck });
}
