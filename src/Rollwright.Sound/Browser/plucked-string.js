// Strings/PluckedString.cs in JavaScript: one string, two waveguides for its two polarizations.

import { Excitation } from "./excitation.js";
import { LossFilter } from "./loss-filter.js";
import { Waveguide } from "./waveguide.js";

// Waves below this magnitude (some −110 dB) are not heard.
const quiet = 1e-6;

export class PluckedString {
  #voice;
  #rate;
  #bridgeLoss;
  #along;
  #excitation;
  #roundTrip;
  #quietFrames;
  #semitones = 0;

  // voice: a string of the score, see docs/player.md.
  constructor(voice, rate, bridgeLoss, along, seed) {
    this.#voice = voice;
    this.#rate = rate;
    this.#bridgeLoss = bridgeLoss;
    this.#along = Math.fround(along);
    this.#roundTrip = Math.trunc(rate / voice.hz) + 1;
    // Silent until it is struck.
    this.#quietFrames = this.#roundTrip;
    this.#excitation = new Excitation(rate, seed);
    this.across = new Waveguide(rate, voice.hz);
    this.along = new Waveguide(rate, voice.hz);
    this.stop(0, 0);
  }

  // Whether a round trip has passed without a wave to speak of.
  get isStill() {
    return this.#quietFrames >= this.#roundTrip;
  }

  // Stops the string at so many semitones above open, without plucking it.
  stop(above, ramp) {
    this.#semitones = above;
    const { fast, slow, fastHalving, slowHalving, high } = this.#voice;
    const hz = this.#hz;
    const fastNow = fast * Math.pow(2, -above / fastHalving);
    const slowNow = slow * Math.pow(2, -above / slowHalving);
    this.across.tune(hz, LossFilter.design(hz, this.#rate, fastNow, high, this.#bridgeLoss), ramp);
    this.along.tune(hz, LossFilter.design(hz, this.#rate, slowNow, high * 1.6, 0), ramp);
  }

  // A finger touches the string and takes its note away.
  touch(ramp) {
    this.across.damp(0.05, ramp);
    this.along.damp(0.05, ramp);
  }

  release() {
    this.across.free();
    this.along.free();
  }

  start(pluck) {
    this.release();
    this.#quietFrames = 0;
    const swinging = this.#voice.length * Math.pow(2, -this.#semitones / 12);
    const bright = atRegister(this.#voice.bright, this.#semitones);
    const thin = atRegister(this.#voice.thin, this.#semitones);
    this.#excitation.start(pluck, this.#hz, swinging, bright, thin);
  }

  // Adds the pluck's force to the waves that go from the bridge, by polarization.
  excite(across, along, frames) {
    if (!this.#excitation.isSounding) return;
    this.#excitation.addTo(across, frames, 1);
    this.#excitation.addTo(along, frames, this.#along);
    this.#excitation.advance(frames);
  }

  // Counts the frames in which nothing is heard of what arrives.
  listen(across, along, frames) {
    let loudest = 0;
    for (let k = 0; k < frames; k++) loudest = Math.max(loudest, Math.abs(across[k]), Math.abs(along[k]));
    this.#quietFrames = loudest < quiet && !this.#excitation.isSounding ? this.#quietFrames + frames : 0;
  }

  get #hz() {
    return this.#voice.hz * Math.pow(2, this.#semitones / 12);
  }
}

// Rows of [semitones above open, Hz]: between two by equal ratios a semitone; beyond the last it rises with the pitch.
function atRegister(rows, semitones) {
  let above = 1;
  while (above < rows.length && rows[above][0] < semitones) above++;
  const [from, start] = rows[above - 1];
  if (above === rows.length) return start * Math.pow(2, (semitones - from) / 12);
  const [to, end] = rows[above];
  return start * Math.pow(end / start, (semitones - from) / (to - from));
}
