// A take on the page: a file or the microphone becomes sound that goes to this computer's own server; what was heard is
// followed in the tab, marked there and looped.

// Nothing above 6 kHz is looked at: this holds what is below 10.
const rate = 22050;
const longest = 30 * 60;

export function attach(root, page) {
  const part = (name) => root.querySelector(`[data-part="${name}"]`);
  const left = new AbortController();
  const on = (target, event, act) => target.addEventListener(event, act, { signal: left.signal });
  const sound = part("sound");
  let address = null;
  let recording = null;
  // What was heard, by time: { at, ids }.
  let strokes = [];
  let shown = [];
  let span = null;
  let frame = 0;

  const amiss = (words) => page.invokeMethodAsync("Amiss", words);

  async function take(blob, name) {
    let decoded;
    try {
      decoded = await new OfflineAudioContext(1, 1, rate).decodeAudioData(await blob.arrayBuffer());
    } catch {
      return amiss(`this browser finds no sound in ${name}; choose another file, or use 'rollwright listen' on it`);
    }
    if (decoded.duration > longest)
      return amiss(`${name} is longer than half an hour; cut it, or use 'rollwright listen' on it`);
    if (address) URL.revokeObjectURL(address);
    sound.src = address = URL.createObjectURL(blob);
    sound.parentElement.hidden = false;
    loop(0, 0, 1);
    const answer = await fetch("take", { method: "POST", headers: { "Content-Type": "audio/wav" }, body: wave(decoded) });
    const text = await answer.text();
    return answer.ok ? page.invokeMethodAsync("Took", text, name) : amiss(text);
  }

  on(part("file"), "change", (event) => {
    const file = event.target.files[0];
    if (file) take(file, file.name);
  });

  on(part("record"), "click", async () => {
    if (recording) return recording.finish();
    let stream;
    try {
      const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
      stream = await navigator.mediaDevices.getUserMedia({ audio: plain });
    } catch {
      return amiss("the browser gives no microphone to this page; allow it beside the address, or choose a file");
    }
    const context = new AudioContext();
    await context.audioWorklet.addModule("/assets/listen-worklet.js");
    const tap = new AudioWorkletNode(context, "take-tap", { numberOfOutputs: 0 });
    const blocks = [];
    tap.port.onmessage = ({ data }) => {
      blocks.push(data);
      let peak = 0;
      for (const value of data) peak = Math.max(peak, Math.abs(value));
      const meter = part("level");
      meter.value = Math.max(peak, meter.value * 0.9);
    };
    context.createMediaStreamSource(stream).connect(tap);
    const most = setTimeout(() => recording?.finish(), longest * 1000);
    show(true);
    recording = {
      async finish() {
        clearTimeout(most);
        recording = null;
        show(false);
        for (const track of stream.getTracks()) track.stop();
        await context.close();
        if (blocks.length === 0) return amiss("the microphone gave no sound; look whether it is the right one");
        const values = new Float32Array(blocks.reduce((sum, block) => sum + block.length, 0));
        let at = 0;
        for (const block of blocks) {
          values.set(block, at);
          at += block.length;
        }
        const whole = new AudioBuffer({ length: values.length, sampleRate: context.sampleRate });
        whole.copyToChannel(values, 0);
        await take(new Blob([wave(whole)], { type: "audio/wav" }), "recorded take");
      },
    };
  });

  function show(isOn) {
    part("record").textContent = isOn ? "Stop" : "Record";
    part("record").setAttribute("aria-pressed", String(isOn));
    part("level").value = 0;
  }

  // One stretch again and again, or all of it once; the browser keeps the pitch.
  function loop(from, until, speed) {
    span = until > from ? { from, until } : null;
    sound.preservesPitch = true;
    sound.playbackRate = speed;
    if (span) {
      sound.currentTime = from;
      sound.play();
    }
  }

  function follow() {
    const now = sound.currentTime;
    if (span && !sound.paused && (now >= span.until || now < span.from - 0.5)) sound.currentTime = span.from;
    let last = -1;
    while (last + 1 < strokes.length && strokes[last + 1].at <= now + 0.012) last++;
    const ids = last < 0 || now - strokes[last].at > 1.5 ? [] : strokes[last].ids;
    if (ids.join() !== shown.map((one) => one.id).join()) {
      for (const one of shown) one.classList.remove("heard-now");
      shown = ids.flatMap((id) => [...root.querySelectorAll(`[id="${id}"]`)]);
      for (const one of shown) one.classList.add("heard-now");
    }
    frame = sound.paused ? 0 : requestAnimationFrame(follow);
  }

  // Sound alone needs no picture.
  on(sound, "loadedmetadata", () => sound.classList.toggle("sound-alone", sound.videoWidth === 0));
  on(sound, "play", () => (frame ||= requestAnimationFrame(follow)));
  on(sound, "seeked", () => (frame ||= requestAnimationFrame(follow)));

  root.dataset.listens = "";
  return {
    strokes: (list) => {
      strokes = list;
      shown = [];
    },
    // { id, text } each: a sign above a stroke of the tab.
    mark(list) {
      for (const old of root.querySelectorAll(".take-mark")) old.remove();
      for (const { id, text } of list)
        for (const stroke of root.querySelectorAll(`[id="${id}"]`)) {
          const box = stroke.getBBox();
          if (box.width === 0) continue;
          const sign = document.createElementNS("http://www.w3.org/2000/svg", "text");
          sign.setAttribute("class", "take-mark");
          sign.setAttribute("x", box.x + box.width / 2);
          sign.setAttribute("y", box.y - 1);
          sign.textContent = text;
          stroke.parentNode.append(sign);
        }
    },
    loop,
    // A take that the program sounds itself.
    async demo(address, name) {
      const answer = await fetch(address);
      return answer.ok ? take(await answer.blob(), name) : amiss(await answer.text());
    },
    leave() {
      left.abort();
      cancelAnimationFrame(frame);
      recording?.finish();
      sound.pause();
      if (address) URL.revokeObjectURL(address);
    },
  };
}

// A WAV file of 16 bits, of one or two channels.
function wave(buffer) {
  const channels = Math.min(2, buffer.numberOfChannels);
  const view = new DataView(new ArrayBuffer(44 + buffer.length * channels * 2));
  const text = (at, letters) => [...letters].forEach((letter, i) => view.setUint8(at + i, letter.charCodeAt(0)));
  text(0, "RIFF");
  view.setUint32(4, view.byteLength - 8, true);
  text(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, buffer.sampleRate, true);
  view.setUint32(28, buffer.sampleRate * channels * 2, true);
  view.setUint16(32, channels * 2, true);
  view.setUint16(34, 16, true);
  text(36, "data");
  view.setUint32(40, view.byteLength - 44, true);
  for (let channel = 0; channel < channels; channel++) {
    const values = buffer.getChannelData(channel);
    for (let i = 0; i < values.length; i++)
      view.setInt16(44 + 2 * (i * channels + channel), Math.max(-1, Math.min(1, values[i])) * 32767, true);
  }
  return view.buffer;
}
