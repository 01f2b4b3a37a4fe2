// On the browser's sound thread: hands the microphone's samples on, a fiftieth of a second at a time.
class Microphone extends AudioWorkletProcessor {
  constructor() {
    super();
    this.piece = new Float32Array(Math.round(sampleRate / 50));
    this.filled = 0;
  }

  process([[samples]]) {
    for (const each of samples ?? []) {
      this.piece[this.filled++] = each;
      if (this.filled === this.piece.length) {
        this.port.postMessage(this.piece);
        this.piece = new Float32Array(this.piece.length);
        this.filled = 0;
      }
    }
    return true;
  }
}

registerProcessor('microphone', Microphone);
