// The player on the workbench: what it plays comes from the server, the playing itself is the browser's.

import { attach as attachControls } from "/assets/player/controls.js";

// page: is told of every round of a loop that was heard to its end.
export function attach(root, page) {
  const controls = attachControls(root, document.getElementById("break"), "/assets/player/worklet.js");
  root.addEventListener("passdone", ({ detail }) => page.invokeMethodAsync("TellPassDone", detail.turn));
  root.addEventListener("heardout", () => page.invokeMethodAsync("TellHeardOut"));
  // What will be heard is on its way from the server: the device gets ready meanwhile, under the hand that some browsers want.
  const left = new AbortController();
  const wake = ({ target }) => target.closest?.("[data-wakes-player]") && controls.wake();
  document.addEventListener("click", wake, { capture: true, signal: left.signal });
  let asked = 0;
  return {
    // An answer that comes after a later question is dropped.
    async load(address, piece) {
      const mine = ++asked;
      const answer = await fetch(address);
      const told = answer.ok ? await answer.json() : await answer.text();
      if (mine !== asked) return;
      if (!answer.ok) {
        controls.say(told);
        return;
      }
      controls.load(told, piece);
      root.dataset.ready = address;
    },
    loop: (name, spans) => controls.loop(name, spans),
    tempo: (perMinute, withNextRound) => controls.tempo(perMinute, withNextRound),
    prepare: (wish) => controls.prepare(wish),
    hear: (name, score) => controls.hear(name, JSON.parse(score)),
    hush: () => controls.hush(),
    leave() {
      left.abort();
      return controls.leave();
    },
  };
}
