// Instruments/Instrument.cs in JavaScript: strings that meet at the bridge, and the body that the bridge drives.

import { ModalBody } from "./modal-body.js";
import { PluckedString } from "./plucked-string.js";
import { block } from "./waveguide.js";

export class Instrument {
  #rate;
  #strings;
  #body;
  #yield;
  #across;
  #along = new Float32Array(block);
  #force = new Float32Array(block);
  #bridge = new Float32Array(block);

  // made: the instrument of a part of the score, see docs/player.md.
  constructor(made, rate, seed) {
    this.#rate = rate;
    this.#yield = Math.fround(made.yield);
    this.#strings = made.strings.map((voice, i) => {
      const own = (Math.imul(seed, 2654435761) ^ Math.imul(i + 1, 40503)) >>> 0;
      return new PluckedString(voice, rate, made.yield, made.along, own);
    });
    this.#across = made.strings.map(() => new Float32Array(block));
    this.#body = new ModalBody(made.body, made.direct, rate);
  }

  // act: what a hand does, with its ramp in seconds; 0 at once.
  do(act) {
    const string = this.#strings[act.string - 1];
    const ramp = act.ramp > 0 ? Math.max(1, Math.trunc(act.ramp * this.#rate)) : 0;
    if (act.does === "stop") string.stop(act.above, ramp);
    else if (act.does === "pluck") string.start(act.pluck);
    else if (act.does === "touch") string.touch(ramp);
    else string.release();
  }

  // A hand laid on all strings.
  hush(seconds) {
    for (const string of this.#strings) string.touch(Math.max(1, Math.trunc(seconds * this.#rate)));
  }

  // Adds the next frames, at most a block of them.
  sound(left, right, from, frames) {
    this.#force.fill(0);
    if (this.#yield === 0) this.#soundApart(frames);
    else this.#soundTogether(frames);
    this.#body.radiate(this.#force, left, right, from, frames);
  }

  // The bridge must know what arrives along every string before any of it goes back.
  #soundTogether(frames) {
    const strings = this.#strings;
    const bridge = this.#bridge;
    bridge.fill(0);
    for (let i = 0; i < strings.length; i++) {
      const across = this.#across[i];
      strings[i].across.read(across, frames);
      for (let k = 0; k < frames; k++) bridge[k] += across[k];
    }
    for (let i = 0; i < strings.length; i++) {
      const across = this.#across[i];
      for (let k = 0; k < frames; k++) across[k] -= this.#yield * bridge[k];
      this.#finish(strings[i], across, frames);
    }
  }

  // Over a bridge that does not yield, strings that are still cost nothing.
  #soundApart(frames) {
    for (const string of this.#strings) {
      if (string.isStill) continue;
      const across = this.#across[0];
      string.across.read(across, frames);
      this.#finish(string, across, frames);
      string.listen(across, this.#along, frames);
    }
  }

  #finish(string, across, frames) {
    const along = this.#along;
    const force = this.#force;
    string.along.read(along, frames);
    string.excite(across, along, frames);
    for (let k = 0; k < frames; k++) force[k] += across[k] + along[k];
    string.across.write(across, frames);
    string.along.write(along, frames);
  }
}
