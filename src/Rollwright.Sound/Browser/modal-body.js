// Body/ModalBody.cs in JavaScript: the body as parallel resonators driven by the force at the bridge.

export class ModalBody {
  #count;
  #direct;
  // A row a mode: pull, first, second, left, right; and its last two values.
  #numbers;
  #states;
  #before = 0;
  #twoBefore = 0;

  constructor(modes, direct, rate) {
    this.#count = modes.length;
    this.#direct = Math.fround(direct);
    this.#numbers = new Float32Array(5 * modes.length);
    this.#states = new Float32Array(2 * modes.length);
    modes.forEach((mode, i) => {
      const radius = Math.exp((-Math.PI * mode.hz) / (mode.q * rate));
      const sign = i % 2 === 0 ? 1 : -1;
      this.#numbers.set(
        [
          (1 - radius * radius) / 2,
          2 * radius * Math.cos((2 * Math.PI * mode.hz) / rate),
          -radius * radius,
          sign * mode.level * (1 - 0.5 * mode.side),
          sign * mode.level * (1 + 0.5 * mode.side),
        ],
        5 * i,
      );
    });
  }

  // What is heard of the force on the bridge is added to left and right.
  radiate(force, left, right, from, frames) {
    let before = this.#before;
    let twoBefore = this.#twoBefore;
    for (let k = 0; k < frames; k++) {
      const stiff = this.#direct * (force[k] - before);
      left[from + k] += stiff;
      right[from + k] += stiff;
      twoBefore = before;
      before = force[k];
    }
    // Mode by mode, so that its numbers stay where the processor is quick with them.
    for (let i = 0; i < this.#count; i++) this.#ring(i, force, left, right, from, frames);
    this.#before = before;
    this.#twoBefore = twoBefore;
  }

  #ring(i, force, left, right, from, frames) {
    const n = this.#numbers;
    const [pull, first, second] = [n[5 * i], n[5 * i + 1], n[5 * i + 2]];
    const [toLeft, toRight] = [n[5 * i + 3], n[5 * i + 4]];
    let one = this.#states[2 * i];
    let two = this.#states[2 * i + 1];
    let before = this.#before;
    let twoBefore = this.#twoBefore;
    for (let k = 0; k < frames; k++) {
      const x = force[k];
      const now = pull * (x - twoBefore) + first * one + second * two;
      left[from + k] += now * toLeft;
      right[from + k] += now * toRight;
      two = one;
      one = now;
      twoBefore = before;
      before = x;
    }
    // A sound too small to hear would go on for ever in numbers that some processors are slow with.
    this.#states[2 * i] = Math.abs(one) > 1e-20 ? one : 0;
    this.#states[2 * i + 1] = Math.abs(two) > 1e-20 ? two : 0;
  }
}
