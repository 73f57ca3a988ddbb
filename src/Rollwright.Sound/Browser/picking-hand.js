// Playing/PickingHand.cs in JavaScript: how hard and where the fingers pluck.

import { SeededRandom } from "./seeded-random.js";

export class PickingHand {
  #touches;
  #accents;
  #chance;

  // touches: of the instrument; accents: of the score, with the levels that a person gave them.
  constructor(touches, accents, seed) {
    this.#touches = touches;
    this.#accents = accents;
    this.#chance = new SeededRandom(seed);
  }

  of(stroke) {
    const { melody, drone, fill, uneven, levels } = this.#accents;
    const kind = stroke.melody ? "melody" : stroke.string === 5 ? "drone" : "fill";
    const strength = { melody, drone, fill }[kind] * levels[kind] * (1 + uneven * this.#either());
    return plucked(this.#touches[stroke.right ?? "middle"], strength, this.#either());
  }

  // The knock of a finger that comes down, or the small pluck of one that leaves; far softer than a pick.
  ofSlur(stroke) {
    const { softSlur, levels } = this.#accents;
    const strength = stroke.melody ? levels.melody : softSlur * levels.fill;
    return plucked(this.#touches[stroke.slur === "hammer-on" ? "hammer" : "pull"], strength, 0);
  }

  #either() {
    return this.#chance.next() * 2 - 1;
  }
}

export function plucked({ force, fromBridge, wander, sharp, scrape }, strength, missed) {
  return { force: Math.fround(force * strength), fromBridge: fromBridge + wander * missed, sharpness: sharp, scrape };
}
