// The player on the workbench: what it plays comes from the server, the playing itself is the browser's.

import { attach as attachControls } from "/assets/player/controls.js";

// page: is told of every round of a loop that was heard to its end.
export function attach(root, page) {
  const controls = attachControls(root, document.getElementById("break"), "/assets/player/worklet.js");
  root.addEventListener("passdone", ({ detail }) => page.invokeMethodAsync("TellPassDone", detail.turn));
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
    leave: () => controls.leave(),
  };
}
