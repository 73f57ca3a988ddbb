// Hands on what the microphone hears, block by block.
registerProcessor(
  "take-tap",
  class extends AudioWorkletProcessor {
    process([input]) {
      if (input[0]) this.port.postMessage(input[0].slice());
      return true;
    }
  },
);
