// A lesson: phrases to be gone through, licks to be put in, small things to be heard; one player sounds them all.

import { attach } from "./controls.js";
import { watch } from "./video.js";

// packed: base64 of gzip of what LessonScores and PageFigures write, for a lesson has much to show and to play.
export async function teach(root, page, worklet, packed) {
  const bytes = Uint8Array.from(atob(packed.trim()), (letter) => letter.charCodeAt(0));
  const told = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).json();
  for (const place of page.querySelectorAll("[data-drawing]")) place.innerHTML = told.drawings[place.dataset.drawing];
  const player = attach(root, page, worklet);
  const main = "break";
  // The lick that is in a phrase, as an index into the swaps.
  const chosen = new Map();
  // The button whose piece or phrase is played.
  let pressed = null;

  const barOf = (stroke) => Number(stroke.of.split("-")[0]);

  function played() {
    const [banjo, ...band] = told.score.parts;
    let strokes = banjo.strokes;
    for (const swap of [...chosen.values()].map((index) => told.swaps[index]))
      strokes = strokes.filter((stroke) => !swap.bars.includes(barOf(stroke))).concat(swap.strokes);
    return { ...told.score, parts: [{ ...banjo, strokes: strokes.toSorted((one, other) => one.at - other.at) }, ...band] };
  }

  // What a piece shares with the break is not written twice.
  function scoreOf(piece) {
    const own = told.pieces[piece];
    const parts = told.score.parts.map((part, i) => ({ ...part, ...own.parts?.[i] }));
    return { ...told.score, ...own, parts };
  }

  function show() {
    for (const button of page.querySelectorAll("button[data-hear]")) {
      const isOn = button === pressed;
      button.setAttribute("aria-pressed", String(isOn));
      button.textContent = isOn ? "Stop" : button.dataset.words;
    }
  }

  for (const button of page.querySelectorAll("button[data-hear]")) {
    button.dataset.words = button.textContent;
    button.addEventListener("click", () => {
      if (button === pressed) {
        player.halt();
        return;
      }
      const piece = button.dataset.hear;
      if (root.dataset.piece !== (piece || main)) {
        player.halt();
        player.load(piece ? scoreOf(piece) : played(), piece || main);
      }
      player.begin(button.dataset.phrase ? Number(button.dataset.phrase) : null);
      pressed = button;
      show();
    });
  }

  const box = page.querySelector(".take");
  const take = box && watch(box, page, root, told.score, told.take, () => player.halt());

  // Whatever stops the sound lets the button up; where it begins, the take falls silent. lets the button up.
  new MutationObserver(() => {
    if (root.dataset.state === "playing") take?.pause();
    if (root.dataset.state === "playing" || pressed === null) return;
    pressed = null;
    show();
  }).observe(root, { attributes: true, attributeFilter: ["data-state"] });

  page.addEventListener("change", (event) => {
    const choice = event.target.closest?.("input[data-swap]");
    if (!choice) return;
    const phrase = choice.name;
    if (choice.value === "") chosen.delete(phrase);
    else chosen.set(phrase, Number(choice.value));
    for (const version of page.querySelectorAll(`[data-version-of="${phrase}"]`))
      version.hidden = version.dataset.version !== choice.value;
    player.load(played(), main);
  });

  player.load(told.score, main);
  show();
  root.dataset.ready = "here";
}
