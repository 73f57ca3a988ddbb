// Entry of a tune: taps and keys on the drawn neck, and keys of a MIDI instrument. What they mean, the server knows.

const moves = { ArrowLeft: [0, -1], ArrowRight: [0, 1], ArrowUp: [-1, 0], ArrowDown: [1, 0] };
const acts = { Enter: "note", " ": "note", r: "rest", b: "bar", Backspace: "undo", Delete: "undo" };

export function attach(neck, page) {
  const left = new AbortController();
  const on = (target, event, act) => target.addEventListener(event, act, { signal: left.signal });

  on(neck, "click", (event) => {
    const place = event.target.closest?.("[data-string]");
    if (place) page.invokeMethodAsync("Tap", Number(place.dataset.string), Number(place.dataset.fret));
  });

  on(neck, "keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    if (moves[key]) page.invokeMethodAsync("Move", ...moves[key]);
    else if (acts[key]) page.invokeMethodAsync("Do", acts[key]);
    else if (/^[1-9]$/.test(key)) page.invokeMethodAsync("Choose", Number(key));
    else return;
    event.preventDefault();
  });

  let access = null;

  // The instruments may come and go while it listens.
  function hear() {
    const inputs = [...access.inputs.values()].filter((input) => input.state !== "disconnected");
    for (const input of inputs) {
      input.onmidimessage = ({ data }) => {
        // A key goes down (MIDI 1.0: note on, with a velocity above 0).
        if (data.length > 2 && (data[0] & 0xf0) === 0x90 && data[2] > 0) page.invokeMethodAsync("Play", data[1]);
      };
    }
    page.invokeMethodAsync("Hears", inputs.map((input) => input.name ?? "an instrument"));
  }

  function deafen() {
    if (!access) return;
    access.onstatechange = null;
    for (const input of access.inputs.values()) input.onmidimessage = null;
    access = null;
  }

  return {
    // "none" where the browser has no Web MIDI, "refused" where it or the person says no, "listens" otherwise.
    async listen() {
      if (!navigator.requestMIDIAccess) return "none";
      try {
        access = await navigator.requestMIDIAccess();
      } catch {
        return "refused";
      }
      access.onstatechange = hear;
      hear();
      return "listens";
    },
    deafen,
    // The end of what was entered comes into view, in the box and on the staff.
    follow() {
      for (const box of document.querySelectorAll("#abc, .growing")) box.scrollTop = box.scrollHeight;
      neck.querySelector(".chosen")?.scrollIntoView({ block: "nearest", inline: "nearest" });
    },
    leave() {
      deafen();
      left.abort();
    },
  };
}
