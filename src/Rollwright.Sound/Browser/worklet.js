// The engine on the browser's own thread for sound: nothing that the page does makes it stumble.

import { Engine } from "./engine.js";

class PlayerProcessor extends AudioWorkletProcessor {
  constructor({ processorOptions }) {
    super();
    const { score, start } = processorOptions;
    this.engine = new Engine(score, sampleRate, (told) => this.port.postMessage(told));
    this.port.onmessage = ({ data }) => this.obey(data);
    // For a rendering that cannot wait for messages.
    for (const order of start ?? []) this.obey(order);
  }

  obey({ order, ...wish }) {
    const engine = this.engine;
    const now = currentFrame;
    if (order === "play") engine.play(now + (wish.delay ?? 0), wish);
    else if (order === "stop") engine.stop();
    else if (order === "seek") engine.seek(now, wish.place);
    else if (order === "tempo") engine.setTempo(now, wish.perMinute);
    else if (order === "loop") engine.setLoop(now, wish.loop);
    else if (order === "level") engine.setLevel(wish.name, wish.level);
    else if (order === "trade") engine.setTrade(wish.trade);
    else if (order === "open") engine.setOpen(wish.isOpen);
    else if (order === "leave") this.left = true;
  }

  process(_, [[left, right]]) {
    const sounds = this.engine.sound(left, right ?? new Float32Array(left.length), currentFrame, left.length);
    // One that is left fades out first.
    return sounds || !this.left;
  }
}

registerProcessor("rollwright-player", PlayerProcessor);
