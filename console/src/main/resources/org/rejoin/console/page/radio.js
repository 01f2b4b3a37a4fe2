// How a voice sounds through an aircraft's radio: a narrow band, levelled, a little driven, with hiss and the tail of the
// squelch. The same seed gives the same sound. Nothing here knows of seats, servers or the page.

export const LOW_HZ = 300;
export const HIGH_HZ = 3000;
export const RATE = 16000;

// A Butterworth filter of the fourth order is two sections of these Q; low-pass and high-pass take it in decibels (Web Audio API, 1.13).
const SECTIONS = [0.5412, 1.3066];
const LEAD_S = 0.15; // the carrier opens the squelch before somebody speaks
const HANG_S = 0.1;
const TAIL_S = 0.18; // the squelch closes late
const TAIL_UNDER_VOICE_DB = 6; // common practice, no source
const PEAK = 0.7;

export const db = (ratio) => 20 * Math.log10(ratio);
const ratio = (decibels) => Math.pow(10, decibels / 20);

// Numbers from -1 to 1, always the same ones for a seed: a shift register of 32 bits (Marsaglia, Xorshift RNGs, 2003).
export function randomFrom(seed) {
  let state = (Math.imul(seed | 0, 0x9e3779b1) ^ 0x2545f491) || 1;
  const next = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 0x80000000 - 1;
  };
  for (let i = 0; i < 8; i++) { next(); }
  return next;
}

export function whiteNoise(seed, length) {
  const next = randomFrom(seed);
  return Float32Array.from({ length }, next);
}

// Pink: rows of random steps, each held twice as long as the one before, added (R. F. Voss's method, as told by
// M. Gardner, Scientific American, April 1978; from memory).
export function pinkNoise(seed, length) {
  const next = randomFrom(seed);
  const rows = Float32Array.from({ length: 13 }, next);
  const noise = new Float32Array(length);
  for (let i = 0; i < length; i++) {
    const row = Math.min(rows.length - 1, 31 - Math.clz32(i & -i || 1));
    rows[row] = next();
    let sum = next();
    for (const each of rows) { sum += each; }
    noise[i] = sum / (rows.length + 1);
  }
  return noise;
}

function inARow(nodes) {
  for (let i = 1; i < nodes.length; i++) { nodes[i - 1].connect(nodes[i]); }
  return nodes;
}

// The band that a radio lets through.
export function band(context) {
  const section = (type, frequency, q) => new BiquadFilterNode(context, { type, frequency, Q: db(q) });
  return inARow([...SECTIONS.map((q) => section('highpass', LOW_HZ, q)), ...SECTIONS.map((q) => section('lowpass', HIGH_HZ, q))]);
}

// The band, then a leveller, then a stage that is driven a little too hard.
export function transmitter(context) {
  const leveller = new DynamicsCompressorNode(context, { threshold: -30, ratio: 8, attack: 0.003, release: 0.1 });
  const curve = Float32Array.from({ length: 2049 }, (each, i) => Math.tanh(2 * (i / 1024 - 1)));
  return inARow([...band(context), leveller, new WaveShaperNode(context, { curve, oversample: '2x' })]);
}

// What comes out of nodes for these samples.
export async function through(make, samples) {
  const context = new OfflineAudioContext(1, samples.length, RATE);
  const buffer = context.createBuffer(1, samples.length, RATE);
  buffer.copyToChannel(samples, 0);
  const source = new AudioBufferSourceNode(context, { buffer });
  const nodes = make(context);
  source.connect(nodes[0]);
  nodes[nodes.length - 1].connect(context.destination);
  source.start();
  return (await context.startRendering()).getChannelData(0);
}

export const loudest = (samples) => samples.reduce((most, each) => Math.max(most, Math.abs(each)), 0);

// Mean level from the first to the last sound: silence before and after does not count.
export function level(samples) {
  const heard = loudest(samples) / 100;
  let first = 0;
  let last = samples.length - 1;
  while (first < last && Math.abs(samples[first]) < heard) { first++; }
  while (last > first && Math.abs(samples[last]) < heard) { last--; }
  let sum = 0;
  for (let i = first; i <= last; i++) { sum += samples[i] * samples[i]; }
  return Math.sqrt(sum / (last - first + 1));
}

// A clean voice of 16 kHz as the pilot hears it; voice and noise also apart, so that the distance can be measured.
export async function throughRadio(clean, { voice_over_noise_db: distance, seed }) {
  const lead = Math.round(LEAD_S * RATE);
  const spoken = new Float32Array(lead + clean.length + Math.round(HANG_S * RATE));
  spoken.set(clean, lead);
  const voice = await through(transmitter, spoken);
  const voiceLevel = level(voice);
  const noise = await through(band, pinkNoise(seed, voice.length));
  const toNoise = voiceLevel * ratio(-distance) / level(noise);
  const tail = await through(band, whiteNoise(seed + 1, Math.round(TAIL_S * RATE)));
  const toTail = voiceLevel * ratio(-TAIL_UNDER_VOICE_DB) / level(tail);
  const mixed = new Float32Array(voice.length + tail.length);
  for (let i = 0; i < voice.length; i++) {
    noise[i] *= toNoise;
    mixed[i] = voice[i] + noise[i];
  }
  const fade = Math.round(0.02 * RATE);
  for (let i = 0; i < tail.length; i++) { mixed[voice.length + i] = tail[i] * toTail * Math.min(1, (tail.length - i) / fade); }
  const most = loudest(mixed);
  const scale = most > 0 ? PEAK / most : 1;
  for (let i = 0; i < mixed.length; i++) { mixed[i] *= scale; }
  return { samples: mixed, voice, noise };
}

// A sound file as samples of 16 kHz, one channel, whatever it was recorded with.
export async function samplesOf(file) {
  const buffer = await new OfflineAudioContext(1, 1, RATE).decodeAudioData(file);
  return buffer.getChannelData(0);
}

// Samples of one channel as a WAV file of 16 bits.
export function wav(samples, rate) {
  const view = new DataView(new ArrayBuffer(44 + 2 * samples.length));
  const word = (at, text) => [...text].forEach((letter, i) => view.setUint8(at + i, letter.charCodeAt(0)));
  word(0, 'RIFF');
  view.setUint32(4, view.byteLength - 8, true);
  word(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, 2 * rate, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  word(36, 'data');
  view.setUint32(40, 2 * samples.length, true);
  samples.forEach((each, i) => view.setInt16(44 + 2 * i, Math.round(Math.max(-1, Math.min(1, each)) * 32767), true));
  return view.buffer;
}
