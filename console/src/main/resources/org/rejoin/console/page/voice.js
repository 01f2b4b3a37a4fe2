// Who speaks ATC's words: a voice of this device, else the program's own voice through the radio, else a line that says why not.
import { RATE, samplesOf, throughRadio } from '/radio.js';
import { ask } from '/server.js';

const KEPT = 'radio';
export const SLOW = 80;
export const FAST = 220;
const LOUD_AND_CLEAR_DB = 20;
const USUAL_PACE = 175; // words a minute of a voice at rate 1, until it was heard (common practice, no source)
const pace = new Map();

// What this device's user chose; kept for the page.
export function wishes() {
  let kept = {};
  try { kept = JSON.parse(localStorage.getItem(KEPT)) ?? {}; } catch { /* as if nothing was kept */ }
  return { voice: '', network: false, noise_db: LOUD_AND_CLEAR_DB, ...kept };
}

export function keepWishes(changed) {
  const now = { ...wishes(), ...changed };
  try { localStorage.setItem(KEPT, JSON.stringify(now)); } catch { /* not kept then */ }
  return now;
}

const english = (voice) => /^en\b/i.test(voice.lang);

// Voices come late in some browsers.
export async function browserVoices() {
  if (!('speechSynthesis' in window)) { return []; }
  for (let i = 0; i < 10 && speechSynthesis.getVoices().length === 0; i++) { await new Promise((done) => setTimeout(done, 100)); }
  return speechSynthesis.getVoices().filter(english);
}

// What the program can say and hear.
export async function programSpeech() {
  const none = { voice: null, hearing: null, words_a_minute: 100, install: null };
  try { return { ...none, ...await ask('speech') }; } catch { return none; }
}

// Who speaks. A voice that sends the words away is used only where the user agreed; a lesson with radio noise needs the program's.
export function speaker({ voices, program, wish, lessonRadio }) {
  const local = voices.filter((voice) => voice.localService === true);
  const remote = voices.filter((voice) => voice.localService !== true);
  const asked = voices.find((voice) => voice.voiceURI === wish.voice && (voice.localService === true || wish.network));
  const byProgram = program.voice ? { by: 'program', name: program.voice.program } : null;
  if (byProgram && (wish.voice === 'program' || (lessonRadio && !asked))) { return byProgram; }
  const chosen = asked ?? local[0];
  if (chosen) { return { by: 'browser', voice: chosen, name: chosen.name }; }
  if (byProgram) { return byProgram; }
  if (wish.network && remote[0]) { return { by: 'browser', voice: remote[0], name: remote[0].name }; }
  return { by: 'nobody', why: 'Nobody can speak here: this browser has no voice of its own' + (remote.length > 0 ? ' (its other voices send the words over the network; agree to that under Voice and sound)' : '')
    + '. On the machine that Rejoin runs on: ' + (program.install || 'install flite') + ', then start Rejoin again.' };
}

let context = null;
let playing = null;

// Browsers make no sound before the user has pressed something.
export async function soundOn() {
  context ??= new AudioContext();
  if (context.state !== 'running') { await Promise.race([context.resume(), new Promise((done) => setTimeout(done, 300))]); }
  return context.state === 'running';
}

export const isSoundOn = () => context !== null && context.state === 'running';

export function hush() {
  if ('speechSynthesis' in window) { speechSynthesis.cancel(); }
  if (playing) { playing.stop(); playing = null; }
}

const count = (words) => words.trim().split(/\s+/).length;

// Resolves when the last word is out.
function byBrowser(words, voice, wordsAMinute) {
  const said = new SpeechSynthesisUtterance(words);
  const usual = pace.get(voice.voiceURI) ?? USUAL_PACE;
  said.voice = voice;
  said.lang = voice.lang;
  said.rate = Math.max(0.5, Math.min(2, wordsAMinute / usual));
  return new Promise((resolve, reject) => {
    let began = performance.now();
    said.onstart = () => { began = performance.now(); };
    said.onend = () => {
      const minutes = (performance.now() - began) / 60000;
      // How fast this voice really is; the next clearance is nearer to what was asked.
      if (count(words) > 6 && minutes > 0.01) { pace.set(voice.voiceURI, Math.max(80, Math.min(400, count(words) / minutes / said.rate))); }
      resolve(minutes * 60);
    };
    said.onerror = (event) => (event.error === 'canceled' || event.error === 'interrupted' ? resolve(0) : reject(new Error('The voice of this browser does not speak: ' + event.error + '.')));
    speechSynthesis.speak(said);
  });
}

export async function play(samples) {
  if (!await soundOn()) { throw new Error('The browser makes no sound before you press something: press Say again.'); }
  const buffer = context.createBuffer(1, samples.length, RATE);
  buffer.copyToChannel(samples, 0);
  const source = new AudioBufferSourceNode(context, { buffer });
  source.connect(context.destination);
  playing = source;
  return new Promise((resolve) => {
    source.onended = () => { if (playing === source) { playing = null; } resolve(buffer.duration); };
    source.start();
  });
}

// The program's voice, through the radio where noise is wanted; where is the address of the sound.
async function byProgram(where, radio) {
  const reply = await fetch(where);
  if (!reply.ok) { throw new Error(await reply.text()); }
  const clean = await samplesOf(await reply.arrayBuffer());
  return play(radio ? (await throughRadio(clean, radio)).samples : clean);
}

// Speaks: words for a voice of this browser, an address for the program's. Resolves after the last word; throws one line.
export async function say({ who, words, where, wordsAMinute, radio }) {
  hush();
  if (who.by === 'nobody') { throw new Error(who.why); }
  if (who.by === 'program') { return byProgram(where, radio); }
  return byBrowser(words, who.voice, wordsAMinute);
}

// How a lesson's or the user's own wish sounds; null for a clean voice.
export function radioOf(lessonRadio, wish, clearance) {
  if (lessonRadio) { return { voice_over_noise_db: lessonRadio.voice_over_noise_db, seed: lessonRadio.seed + clearance }; }
  return wish.noise_db === null ? null : { voice_over_noise_db: wish.noise_db, seed: clearance };
}
