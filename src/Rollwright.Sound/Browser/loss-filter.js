// Strings/LossFilter.cs in JavaScript: the loss of one round trip along a string, a one-pole low-pass.

// Hz at which the high decay time is met.
const highAt = 6000;

export class LossFilter {
  constructor(gain, pole) {
    this.gain = gain;
    this.pole = pole;
  }

  static design(hz, rate, decay, highDecay, alreadyLost) {
    const wanted = Math.pow(10, -3 / (hz * decay));
    const wantedHigh = Math.pow(10, -3 / (hz * Math.min(decay, highDecay)));
    const ratio = (wanted / wantedHigh) * (wanted / wantedHigh);
    let pole = 0;
    if (ratio > 1 + 1e-9) {
      const k = (ratio - Math.cos((2 * Math.PI * highAt) / rate)) / (ratio - 1);
      pole = k - Math.sqrt(k * k - 1);
    }
    const shape = new LossFilter(1 - pole, pole);
    const gain = Math.min(wanted / (1 - alreadyLost) / shape.magnitude(hz, rate), 0.99999);
    return new LossFilter(gain * (1 - pole), pole);
  }

  magnitude(hz, rate) {
    const w = (2 * Math.PI * hz) / rate;
    return this.gain / Math.sqrt(1 - 2 * this.pole * Math.cos(w) + this.pole * this.pole);
  }

  // Phase delay in frames: what the delay line must be shorter by.
  phaseDelay(hz, rate) {
    const w = (2 * Math.PI * hz) / rate;
    return Math.atan2(this.pole * Math.sin(w), 1 - this.pole * Math.cos(w)) / w;
  }
}
