// Strings/Excitation.cs in JavaScript: the force that a pluck sends to the bridge and into the loop.

const longest = 2048;

export class Excitation {
  #rate;
  #shape = new Float32Array(longest);
  #length = 0;
  #at = longest;
  #noise;

  constructor(rate, seed) {
    this.#rate = rate;
    this.#noise = seed === 0 ? 1 : seed;
  }

  get isSounding() {
    return this.#at < this.#length;
  }

  start(pluck, hz, lengthOfString, bright, thin) {
    const rate = this.#rate;
    const shape = this.#shape;
    const period = rate / hz;
    // High on the neck the pick comes near the middle of what swings, never past it.
    const mirror = Math.min(Math.max(pluck.fromBridge / lengthOfString, 0.02), 0.5) * period;
    const tail = Math.trunc((rate / bright) * 2);
    const width = Math.max(1.5, rate / pluck.sharpness);
    const length = Math.min(longest, Math.trunc(mirror) + tail + Math.trunc(width) + 2);
    const fall = Math.exp((-2 * Math.PI * bright) / rate);
    const body = Math.exp((-2 * Math.PI * thin) / rate);
    const click = Math.exp(-1 / (0.0012 * rate));
    let held = 0;
    let low = 0;
    let energy = 0;
    for (let k = 0; k < length; k++) {
      held = fall * held + kink(k, width) - kink(k - mirror, width);
      low = body * low + (1 - body) * held;
      const force = held - low;
      shape[k] = force;
      energy += force * force;
    }
    const level = pluck.force / Math.sqrt(energy);
    let scrape = pluck.scrape * pluck.force;
    for (let k = 0; k < length; k++) {
      shape[k] = level * shape[k] + scrape * this.#chance();
      scrape *= click;
    }
    this.#length = length;
    this.#at = 0;
  }

  addTo(waves, frames, share) {
    const count = Math.min(frames, this.#length - this.#at);
    for (let k = 0; k < count; k++) waves[k] += share * this.#shape[this.#at + k];
  }

  advance(frames) {
    this.#at = Math.min(this.#length, this.#at + frames);
  }

  // xorshift32 (Marsaglia 2003): the same seed scrapes the same way.
  #chance() {
    let noise = this.#noise;
    noise = (noise ^ (noise << 13)) >>> 0;
    noise ^= noise >>> 17;
    noise = (noise ^ (noise << 5)) >>> 0;
    this.#noise = noise;
    return noise / 2147483648 - 1;
  }
}

// A raised cosine of the pick's width with the area 1: the same push however sharp the pick.
function kink(k, width) {
  return k < 0 || k >= width ? 0 : (1 - Math.cos((2 * Math.PI * (k + 0.5)) / width)) / width;
}
