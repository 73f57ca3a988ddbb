// The course of the music: which place of the break comes at which frame, round after round, at a tempo that may change.
//
// A count of whole notes runs on from the start of playing. A pass is a stretch of places that is played through; the next
// one begins where it ends, so that a loop has no gap. The count-in is a pass too, of places below zero.

export class Course {
  #rate;
  #secondsPerWhole;
  #anchor = { frame: 0, count: 0 };

  // Passes that are not over, the one that is written to last at the end.
  passes = [];

  constructor(rate, secondsPerWhole) {
    this.#rate = rate;
    this.#secondsPerWhole = secondsPerWhole;
  }

  get secondsPerWhole() {
    return this.#secondsPerWhole;
  }

  get last() {
    return this.passes.at(-1);
  }

  // Begins anew with a pass at a frame.
  start(frame, pass) {
    this.#anchor = { frame, count: 0 };
    this.passes = [{ ...pass, count: 0 }];
  }

  // Goes on with a pass where the last one ends.
  follow(pass) {
    const { count, from, to } = this.last;
    this.passes.push({ ...pass, count: count + to - from });
  }

  // From this frame on the tempo is another; what was counted stays counted.
  setTempo(frame, secondsPerWhole) {
    this.#anchor = { frame, count: this.countAt(frame) };
    this.#secondsPerWhole = secondsPerWhole;
  }

  countAt(frame) {
    return this.#anchor.count + (frame - this.#anchor.frame) / this.#rate / this.#secondsPerWhole;
  }

  // The frame of what happens some seconds before a count; a tie goes to the even frame, as in C#.
  frameOf(count, lead = 0) {
    const frames = ((count - this.#anchor.count) * this.#secondsPerWhole - lead) * this.#rate;
    const down = Math.floor(frames);
    const half = frames - down === 0.5;
    return this.#anchor.frame + (half ? down + (down & 1) : Math.round(frames));
  }

  get endFrame() {
    const { count, from, to } = this.last;
    return this.frameOf(count + to - from);
  }

  // The place that a frame has, in the pass that it falls in; null before and after all passes.
  placeAt(frame) {
    const count = this.countAt(frame);
    const pass = this.passes.findLast((one) => one.count <= count);
    return pass ? { pass, place: Math.min(pass.from + count - pass.count, pass.to) } : null;
  }

  // What a cursor needs from a frame on: where each pass is then, and how fast it goes.
  told(frame) {
    this.passes = this.passes.filter((pass, i) => {
      const next = this.passes[i + 1];
      return !next || this.frameOf(next.count) > frame;
    });
    return this.passes.map((pass) => {
      const start = Math.max(frame, this.frameOf(pass.count));
      return {
        frame: start,
        place: pass.from + Math.max(0, this.countAt(start) - pass.count),
        until: pass.to,
        secondsPerWhole: this.#secondsPerWhole,
        round: pass.round,
        turn: pass.turn,
        counts: pass.counts === true,
      };
    });
  }
}
