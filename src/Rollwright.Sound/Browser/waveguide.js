// Strings/Waveguide.cs in JavaScript: one polarization of one string as a delay loop.

// Frames a block holds at most, as in C#: below the shortest round trip.
export const block = 16;

// Points that a value is interpolated from.
const taps = 6;

export class Waveguide {
  #rate;
  #kept;
  #room;
  #line;
  #taps = new Float32Array(taps);
  #write;
  #delay = 0;
  #delayStep = 0;
  #targetDelay = 0;
  #rampLeft = 0;
  #damping = 1;
  #dampingStep = 0;
  #dampingLeft = 0;
  #gain = 0;
  #pole = 0;
  #state = 0;
  #whole = 0;

  // lowestHz: the lowest pitch it will be tuned to; a round trip of it must be kept.
  constructor(rate, lowestHz) {
    this.#rate = rate;
    this.#kept = Math.trunc(rate / lowestHz) + block + 8;
    // Moved back to the front when it is full, which is the rarer the longer it is.
    this.#room = Math.max(8 * this.#kept, 4096);
    this.#line = new Float32Array(this.#room + block + 8);
    this.#write = this.#kept;
  }


  // Tunes the loop to hz within so many frames; 0 at once.
  tune(hz, loss, ramp) {
    this.#gain = Math.fround(loss.gain);
    this.#pole = Math.fround(loss.pole);
    const wanted = this.#rate / hz - loss.phaseDelay(hz, this.#rate);
    this.#targetDelay = Math.min(Math.max(wanted, block + 3), this.#kept - 8);
    if (ramp === 0 || this.#delay === 0) {
      this.#setDelay(this.#targetDelay);
      this.#rampLeft = 0;
    } else {
      this.#rampLeft = ramp;
      this.#delayStep = (this.#targetDelay - this.#delay) / ramp;
    }
  }

  // A finger touches the string: the loop's gain goes there within a ramp.
  damp(to, ramp) {
    this.#dampingLeft = ramp;
    this.#dampingStep = Math.fround((Math.fround(to) - this.#damping) / ramp);
  }

  free() {
    this.#damping = 1;
    this.#dampingLeft = 0;
  }

  // What arrives at the bridge in the next frames goes to arriving[0 .. frames).
  read(arriving, frames) {
    if (this.#rampLeft > 0 || this.#dampingLeft > 0 || this.#damping !== 1) this.#readMoving(arriving, frames);
    else this.#readStill(arriving, frames);
  }

  // Sends the reflected waves back along the string.
  write(reflected, frames) {
    const line = this.#line;
    let at = this.#write;
    for (let k = 0; k < frames; k++) line[at++] = reflected[k];
    if (at > this.#room) {
      line.copyWithin(0, at - this.#kept, at);
      at = this.#kept;
    }
    this.#write = at;
  }

  #readStill(arriving, frames) {
    const line = this.#line;
    const [t0, t1, t2, t3, t4, t5] = this.#taps;
    const gain = this.#gain;
    const pole = this.#pole;
    let s = this.#state;
    let at = this.#write - this.#whole;
    for (let k = 0; k < frames; k++, at++) {
      const near = t0 * line[at + 2] + t1 * line[at + 1] + t2 * line[at];
      const x = near + t3 * line[at - 1] + t4 * line[at - 2] + t5 * line[at - 3];
      s = Math.fround(gain * x + pole * s);
      arriving[k] = s;
    }
    // Numbers too small to hear cost the processor dearly on some machines.
    this.#state = Math.abs(s) < 1e-20 ? 0 : s;
  }

  #readMoving(arriving, frames) {
    const line = this.#line;
    for (let k = 0; k < frames; k++) {
      if (this.#rampLeft > 0)
        this.#setDelay(--this.#rampLeft === 0 ? this.#targetDelay : this.#delay + this.#delayStep);
      if (this.#dampingLeft > 0) {
        this.#dampingLeft--;
        this.#damping = Math.fround(this.#damping + this.#dampingStep);
      }
      const at = this.#write + k - this.#whole;
      let x = 0;
      for (let tap = 0; tap < taps; tap++) x += this.#taps[tap] * line[at + 2 - tap];
      this.#state = Math.fround(this.#gain * x + this.#pole * this.#state);
      arriving[k] = this.#state * this.#damping;
    }
  }

  // Lagrange coefficients for a delay between the two middle taps, where they lose least.
  #setDelay(frames) {
    this.#delay = frames;
    this.#whole = Math.trunc(frames);
    const d = frames - this.#whole + 2;
    for (let tap = 0; tap < taps; tap++) {
      let h = 1;
      for (let other = 0; other < taps; other++) if (other !== tap) h *= (d - other) / (tap - other);
      this.#taps[tap] = h;
    }
  }
}
