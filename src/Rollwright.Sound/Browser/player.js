// The engine in a page: starts it, passes on what is asked, and knows which place is heard at this moment.

// Frames a second that the model is made for; other devices get the first and the browser fits it to them.
const rates = [48000, 44100];
// Milliseconds of silence after which the device is let go.
const idle = 3000;

export class Player {
  // Whether this browser can play at all.
  static get isPossible() {
    return typeof AudioWorkletNode === "function" && typeof AudioContext === "function";
  }

  #worklet;
  #context = null;
  #loaded = null;
  #node = null;
  #score = null;
  #orders = new Map();
  #segments = [];
  #isPlaying = false;
  #end = Infinity;

  // worklet: addresses of worklet.js, of which the first that loads is taken.
  constructor(...worklet) {
    this.#worklet = worklet;
  }

  get isPlaying() {
    return this.#isPlaying;
  }

  // Puts another score in; what played is stopped.
  load(score) {
    this.stop();
    this.#node?.port.postMessage({ order: "leave" });
    this.#node = null;
    this.#score = score;
  }

  // Plays from a place in whole notes, after so many bars counted in. A browser wants a hand on the page before it.
  async play({ from = 0, countIn = 0 } = {}) {
    this.#isPlaying = true;
    const score = this.#score;
    const node = await this.#ready();
    // Something else may have been asked meanwhile.
    if (!this.#isPlaying || score !== this.#score) return;
    this.#segments = [];
    this.#end = Infinity;
    node.port.postMessage({ order: "play", from, countIn });
  }

  // Gets the device ready before there is something to play; where nothing comes it rests again.
  async wake() {
    await this.#open();
    setTimeout(() => this.#rest(), idle);
  }

  stop() {
    if (!this.#isPlaying) return;
    this.#isPlaying = false;
    this.#node?.port.postMessage({ order: "stop" });
  }

  seek(place) {
    if (this.#isPlaying) this.#node?.port.postMessage({ order: "seek", place });
  }

  // What stays asked for, also of the next score: tempo, loop, level, trade, open.
  ask(order, wish) {
    const message = { order, ...wish };
    this.#orders.set(order === "level" ? `level ${wish.name}` : order, message);
    this.#node?.port.postMessage(message);
  }

  // What is heard so many seconds from now: { place, counts, round, turn }; null before the sound begins and after it ends.
  heard(lead = 0) {
    if (!this.#isPlaying || !this.#context) return null;
    const frame = (this.#secondsHeard() + lead) * this.#context.sampleRate;
    if (frame >= this.#end) {
      this.#isPlaying = false;
      return null;
    }
    const segment = this.#segments.findLast((one) => one.frame <= frame);
    if (!segment) return null;
    const gone = (frame - segment.frame) / this.#context.sampleRate / segment.secondsPerWhole;
    const { until, counts, round, turn } = segment;
    return { place: Math.min(segment.place + gone, until), counts, round, turn };
  }

  async leave() {
    this.load(null);
    await this.#context?.close();
    this.#context = null;
  }

  // The time of the context that leaves the loudspeaker now: behind the one that is reckoned by the device's latency.
  #secondsHeard() {
    const context = this.#context;
    const now = context.currentTime - (context.outputLatency || context.baseLatency || 0);
    const stamp = context.getOutputTimestamp?.();
    if (!(stamp?.contextTime > 0)) return now;
    const exact = stamp.contextTime + (performance.now() - stamp.performanceTime) / 1000;
    // Some browsers give stamps that mean something else: believed where they are near.
    return Math.abs(exact - now) < 0.1 ? exact : now;
  }

  async #ready() {
    await this.#open();
    this.#node ??= this.#makeNode();
    return this.#node;
  }

  async #open() {
    if (!this.#context) {
      this.#context = new AudioContext({ latencyHint: "interactive" });
      if (!rates.includes(this.#context.sampleRate)) {
        await this.#context.close();
        this.#context = new AudioContext({ latencyHint: "interactive", sampleRate: rates[0] });
      }
      this.#loaded = this.#load();
    }
    await Promise.all([this.#loaded, this.#context.resume()]);
  }

  async #load() {
    const [first, ...others] = this.#worklet;
    let loading = this.#context.audioWorklet.addModule(first);
    for (const other of others) loading = loading.catch(() => this.#context.audioWorklet.addModule(other));
    await loading;
  }

  // A device that nobody listens to costs a phone its battery.
  #rest() {
    if (!this.#isPlaying && this.#context?.state === "running") this.#context.suspend();
  }

  #makeNode() {
    const node = new AudioWorkletNode(this.#context, "rollwright-player", {
      numberOfInputs: 0,
      outputChannelCount: [2],
      processorOptions: { score: this.#score, start: [...this.#orders.values()] },
    });
    node.port.onmessage = ({ data }) => {
      if (node === this.#node) this.#told(data);
    };
    node.connect(this.#context.destination);
    return node;
  }

  #told({ tells, frame, segments }) {
    if (tells === "course") {
      this.#segments = [...this.#segments.filter((one) => one.frame < frame), ...segments].slice(-16);
      this.#end = Infinity;
    } else if (tells === "end") {
      this.#end = frame;
    } else if (tells === "still") {
      setTimeout(() => this.#rest(), idle);
    }
  }
}
