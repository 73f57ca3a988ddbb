// A recorded take beside the lesson: the tab follows it, phrases are its chapters, and where its bars fall can be marked by hand.

import { Cursor } from "./cursor.js";

// box: the section of the take; score: the break's; words: what is said of each phrase, by its number; others: stops what else sounds.
export function watch(box, page, root, score, { bars, words }, others) {
  const take = page.querySelector(".screen video, .screen audio");
  const part = (name) => box.querySelector(`[data-part="${name}"]`);
  const cursor = new Cursor(page, root);
  cursor.load(score, "break");
  // Where each bar in order of play begins, in seconds, and the last one's end.
  let starts = bars ? [...bars] : [];
  // Phrases in order of play: { from, to } as indices of played bars, and the phrase.
  let chapters = [];
  let looped = null;

  const captions = take.addTextTrack("captions", "What the hands do", document.documentElement.lang);

  function lay() {
    chapters = [];
    score.bars.forEach((bar, i) => {
      if (i >= starts.length - 1) return;
      const last = chapters.at(-1);
      if (last && last.phrase === bar.phrase && score.bars[i - 1].bar < bar.bar) last.to = i + 1;
      else chapters.push({ phrase: bar.phrase, from: i, to: i + 1, words: bar.words });
    });
    looped = null;
    part("chapters").replaceChildren(...chapters.map(button));
    for (const cue of [...(captions.cues ?? [])]) captions.removeCue(cue);
    for (const { phrase, from, to } of chapters)
      if (words[phrase]) captions.addCue(new VTTCue(starts[from], starts[to], words[phrase]));
    part("unmarked").hidden = chapters.length > 0;
    part("follow").hidden = chapters.length === 0;
  }

  function button(chapter) {
    const own = document.createElement("button");
    own.type = "button";
    own.textContent = `Phrase ${chapter.phrase}`;
    own.title = chapter.words;
    own.addEventListener("click", () => {
      looped = part("again").checked ? chapter : null;
      take.currentTime = starts[chapter.from];
      take.play();
    });
    return own;
  }

  // The place in whole notes at a second of the take; null outside of what was marked.
  function placeAt(second) {
    const i = starts.findLastIndex((start) => start <= second);
    if (i < 0 || i >= starts.length - 1) return null;
    const bar = score.bars[i];
    return bar.at + (bar.length * (second - starts[i])) / (starts[i + 1] - starts[i]);
  }

  let frame = 0;
  function follow() {
    frame = 0;
    if (looped && take.currentTime >= starts[looped.to] - 0.01) take.currentTime = starts[looped.from];
    const place = placeAt(take.currentTime);
    if (place === null) cursor.clear();
    else cursor.show(place);
    const at = chapters.findIndex(({ from, to }) => take.currentTime >= starts[from] - 0.01 && take.currentTime < starts[to]);
    [...part("chapters").children].forEach((own, i) => i === at ? own.setAttribute("aria-current", "true") : own.removeAttribute("aria-current"));
    if (!take.paused && !take.ended) frame = requestAnimationFrame(follow);
  }
  const begin = () => (frame ||= requestAnimationFrame(follow));

  take.addEventListener("play", () => {
    others();
    begin();
  });
  take.addEventListener("seeked", begin);
  take.addEventListener("error", () => {
    part("trouble").hidden = false;
    part("trouble").textContent = "The recording cannot be played here: keep it beside this page, in a form that browsers play (MP4, WebM, Ogg, MP3, WAV).";
  });

  // Slower, and at its own pitch: the browser stretches it.
  take.preservesPitch = true;
  part("speed").addEventListener("change", () => (take.playbackRate = Number(part("speed").value)));
  part("again").addEventListener("change", () => {
    if (!part("again").checked) looped = null;
  });

  // Marking: one press at the beginning of each bar, in order of play, and one at the end.
  let marks = null;
  const showMarks = () => {
    const next = marks && score.bars[marks.length];
    part("marked").textContent =
      marks === null ? "" : next ? `Next: ${next.words}` : marks.length === score.bars.length ? "Now the end" : "All bars are marked";
    part("mark").disabled = marks === null || marks.length > score.bars.length;
    part("save").disabled = marks === null || marks.length < 2;
  };
  part("start").addEventListener("click", () => {
    marks = [];
    take.currentTime = 0;
    take.play();
    showMarks();
    part("mark").focus();
  });
  part("mark").addEventListener("click", () => {
    const second = Math.round(take.currentTime * 1000) / 1000;
    if (marks.length > 0 && second <= marks.at(-1)) return;
    marks.push(second);
    if (marks.length > 1) {
      starts = [...marks];
      lay();
    }
    showMarks();
  });
  part("back").addEventListener("click", () => {
    if (!marks || marks.length === 0) return;
    marks.pop();
    showMarks();
  });
  part("save").addEventListener("click", () => {
    const told = {
      format: "rollwright bar times",
      version: 1,
      starts: marks.slice(0, -1),
      end: marks.at(-1),
    };
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([JSON.stringify(told)], { type: "application/json" }));
    link.download = "bar-times.json";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  });

  lay();
  showMarks();
  return {
    pause() {
      take.pause();
      cancelAnimationFrame(frame);
      frame = 0;
      cursor.clear();
    },
  };
}
