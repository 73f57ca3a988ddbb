// What System.Random of .NET gives for a seed: Knuth's subtractive generator (The Art of Computer Programming, volume 2,
// section 3.2.2) with its constants. A hand of the same seed is uneven in the same way here and there.

const most = 2147483647;

export class SeededRandom {
  #numbers = new Int32Array(56);
  #at = 0;
  #behind = 21;

  constructor(seed) {
    const numbers = this.#numbers;
    let last = (161803398 - Math.abs(seed)) | 0;
    numbers[55] = last;
    let next = 1;
    for (let i = 1, at = 0; i < 55; i++) {
      at = (at + 21) % 55;
      numbers[at] = next;
      next = (last - next) | 0;
      if (next < 0) next += most;
      last = numbers[at];
    }
    for (let round = 1; round < 5; round++) {
      for (let i = 1; i < 56; i++) {
        const n = (numbers[i] - numbers[1 + ((i + 30) % 55)]) | 0;
        numbers[i] = n < 0 ? n + most : n;
      }
    }
  }

  // From 0 up to but not including 1.
  next() {
    if (++this.#at >= 56) this.#at = 1;
    if (++this.#behind >= 56) this.#behind = 1;
    let n = (this.#numbers[this.#at] - this.#numbers[this.#behind]) | 0;
    if (n === most) n--;
    if (n < 0) n += most;
    this.#numbers[this.#at] = n;
    return n * (1 / most);
  }
}
