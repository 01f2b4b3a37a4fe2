// The pilot's microphone: open only after he pressed, recording only while he holds. What it records leaves by the caller's hand.
import { RATE, loudest, samplesOf, wav } from '/radio.js';

export const MOST_S = 20;
const AFTER_S = 0.2; // the last syllable comes with the finger
const IDLE_MS = 120000; // then the microphone is closed
const LOUD = 0.7; // of full scale, as it is handed on

// Why nobody can talk here, and what to do about it; empty where one can.
export function whyNoMicrophone() {
  if (!window.isSecureContext) {
    return 'The browser gives no microphone to a page that comes unencrypted over the network. Start the program with --tls, or open the page on the machine it runs on.';
  }
  if (!navigator.mediaDevices?.getUserMedia || !window.AudioWorkletNode) { return 'This browser gives a page no microphone. Type the readback, or use another browser.'; }
  return '';
}

const WHY = {
  NotAllowedError: 'The microphone is not allowed. Allow it beside the page\'s address, then press again.',
  NotFoundError: 'No microphone is connected. Connect a headset, then press again.',
  NotReadableError: 'Another program has the microphone. Close it there, then press again.',
};

export class Microphone {
  #context = null;
  #stream = null;
  #pieces = null;
  #gathered = 0;
  #idle = 0;

  // Told the loudness of each piece, 0 to 1, and when the time is over.
  constructor(loudness) {
    this.loudness = loudness;
    this.timeOver = () => {};
  }

  get open() { return this.#stream !== null; }

  // Throws one line where there is no microphone.
  async turnOn() {
    if (this.open) { return; }
    const why = whyNoMicrophone();
    if (why) { throw new Error(why); }
    let stream;
    try {
      stream = await navigator.mediaDevices.getUserMedia({ audio: { channelCount: 1, echoCancellation: false, noiseSuppression: false, autoGainControl: false } });
    } catch (error) {
      throw new Error(WHY[error.name] ?? 'The microphone does not open: ' + error.message, { cause: error });
    }
    const context = new AudioContext();
    try {
      await context.audioWorklet.addModule('/talk-worklet.js');
      await context.resume();
    } catch (error) {
      for (const track of stream.getTracks()) { track.stop(); }
      context.close();
      throw new Error('The microphone does not open: ' + error.message, { cause: error });
    }
    const listener = new AudioWorkletNode(context, 'microphone', { channelCount: 1, channelCountMode: 'explicit' });
    listener.port.onmessage = (event) => this.#take(event.data);
    // A node that leads nowhere is not asked for its samples; what it gives on is silence.
    new MediaStreamAudioSourceNode(context, { mediaStream: stream }).connect(listener).connect(context.destination);
    stream.getTracks()[0].addEventListener('ended', () => this.turnOff());
    this.#context = context;
    this.#stream = stream;
    this.#rest();
  }

  turnOff() {
    clearTimeout(this.#idle);
    for (const track of this.#stream?.getTracks() ?? []) { track.stop(); }
    this.#context?.close();
    this.#stream = null;
    this.#context = null;
    this.#pieces = null;
    this.loudness(0);
  }

  #rest() {
    clearTimeout(this.#idle);
    this.#idle = setTimeout(() => this.turnOff(), IDLE_MS);
  }

  #take(piece) {
    if (this.#pieces === null) { return; }
    this.#pieces.push(piece);
    this.#gathered += piece.length;
    this.loudness(loudest(piece));
    if (this.#gathered >= MOST_S * this.#context.sampleRate) { this.timeOver(); }
  }

  begin() {
    clearTimeout(this.#idle);
    this.#pieces = [];
    this.#gathered = 0;
  }

  // What was said, as a WAV file of 16 kHz and 16 bits, and how long it is.
  async end() {
    if (this.#pieces === null) { return null; }
    if (this.#gathered < MOST_S * this.#context.sampleRate) { await new Promise((done) => setTimeout(done, AFTER_S * 1000)); }
    const pieces = this.#pieces;
    if (pieces === null) { return null; }
    this.#pieces = null;
    this.loudness(0);
    this.#rest();
    const most = Math.round(MOST_S * this.#context.sampleRate);
    const samples = new Float32Array(Math.min(most, pieces.reduce((sum, each) => sum + each.length, 0)));
    let at = 0;
    for (const piece of pieces) { samples.set(piece.subarray(0, samples.length - at), at); at += Math.min(piece.length, samples.length - at); }
    return atSixteen(samples, this.#context.sampleRate);
  }
}

// The browser's own converter takes what lies above 8 kHz away before it thins the samples out.
export async function atSixteen(samples, rate) {
  const most = loudest(samples);
  const gain = most > 0 ? LOUD / most : 1;
  const converted = await samplesOf(wav(samples.map((each) => each * gain), rate));
  return { wav: wav(converted, RATE), seconds: converted.length / RATE, loudest: most };
}
