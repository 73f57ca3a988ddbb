// What can be gone through again and again, as { from, to } in whole notes of the music as played.

// Bars from one in order of play to another. Bars that begin with a pickup, and the whole tune, come again after whole bars
// (as Playing/PlayedSpan.cs has it): the pickup stands where the last bar leaves room for it, or in place of its end.
export function loopOfBars(score, first, last) {
  const [one, other] = [score.bars[first], score.bars[last]];
  const [from, end] = [one.at, other.at + other.length];
  const entry = from - one.begins;
  const pickup = entry > tiny && last > first ? barOf(one) - entry : 0;
  const room = Math.max(barOf(other) - (end - other.begins), 0);
  const isWhole = first === 0 && last === score.bars.length - 1;
  return { from, to: pickup > tiny || isWhole ? end - pickup + room : end };
}

// Written bars, in order of play from the first time that the first of them is played.
export function loopOfWritten(score, one, other) {
  const [low, high] = [Math.min(one, other), Math.max(one, other)];
  const first = score.bars.findIndex((bar) => bar.bar >= low && bar.bar <= high);
  let last = first;
  score.bars.forEach((bar, i) => {
    if (i > first && i === last + 1 && bar.bar >= low && bar.bar <= high && bar.bar > score.bars[last].bar) last = i;
  });
  return loopOfBars(score, first, last);
}

export function loopOfPhrase(score, number) {
  const bars = score.bars.filter((bar) => bar.phrase === number).map((bar) => bar.bar);
  return loopOfWritten(score, Math.min(...bars), Math.max(...bars));
}

// Stretches of the music as { from, to }, as a plan of practice names them: the bars that begin in each. Where there are several
// they take turns.
export function loopOfSpans(score, spans) {
  const [first, ...then] = spans.map(({ from, to }) =>
    loopOfBars(
      score,
      score.bars.findIndex((bar) => bar.at > from - tiny),
      score.bars.findLastIndex((bar) => bar.at < to - tiny),
    ),
  );
  return { ...first, then };
}

// The stretches of a loop, in turn; none for null.
export function loopsOf(loop) {
  return loop ? [loop, ...(loop.then ?? [])] : [];
}

export function holds(loop, place) {
  return loopsOf(loop).some(({ from, to }) => place > from - tiny && place < to);
}

export function loopOfAll(score) {
  return loopOfBars(score, 0, score.bars.length - 1);
}

const tiny = 1e-9;

function barOf(bar) {
  return bar.time[0] / bar.time[1];
}
