// Band/StrummingHands.cs in JavaScript: what the band strikes and stops becomes acts on the strings.

import { plucked } from "./picking-hand.js";
import { SeededRandom } from "./seeded-random.js";

export class StrummingHands {
  #voice;
  #limits;
  #touch;
  #chance;
  #ringsSince = [];

  constructor(part, score, seed) {
    this.#voice = part.instrument;
    this.#limits = score.strum;
    this.#touch = Object.values(part.instrument.touches)[0];
    this.#chance = new SeededRandom(seed);
  }

  // The acts of a stroke at a count of whole notes: strings that are stopped, then those that are struck, one by one.
  play(stroke, count, secondsPerWhole) {
    const now = { count, secondsPerWhole, acts: [] };
    for (const string of stroke.stops ?? []) this.#stop(string, 0, now);
    stroke.plucks?.forEach(([string, above], i) => this.#pluck(string, above, stroke.strength, -i * this.#voice.spread, now));
    return now.acts;
  }

  #pluck(string, above, strength, lead, now) {
    const since = this.#ringsSince[string];
    if (since) {
      const rung = (now.count - since.count) * now.secondsPerWhole - lead + since.lead;
      const round = 1.2 / this.#voice.strings[string - 1].hz;
      const contact = Math.min(Math.max(this.#limits.contact, round), rung / 2);
      add(now, "touch", string, { lead: lead + contact, ramp: contact * 0.6 });
    }
    add(now, "stop", string, { lead, above });
    const uneven = strength * (1 + this.#limits.uneven * this.#either());
    add(now, "pluck", string, { lead, pluck: plucked(this.#touch, uneven, this.#either()) });
    this.#ringsSince[string] = { count: now.count, lead };
    if (this.#voice.ring < this.#limits.longRing) this.#stop(string, lead - this.#voice.ring, now);
  }

  #stop(string, lead, now) {
    if (!this.#ringsSince[string]) return;
    add(now, "touch", string, { lead, ramp: this.#limits.stopTime });
    this.#ringsSince[string] = null;
  }

  #either() {
    return this.#chance.next() * 2 - 1;
  }
}

function add(now, does, string, { lead, above = 0, ramp = 0, pluck }) {
  now.acts.push({ count: now.count, lead, does, string, above, ramp, pluck });
}
