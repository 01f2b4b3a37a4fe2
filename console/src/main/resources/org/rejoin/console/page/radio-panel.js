// The radio in the pilot's page: speaks each clearance once, and again on request; takes the readback.
import { html, useState, useEffect, useRef } from '/preact.js';
import { seat, whenCleared, whenTakenBack, clock, T } from '/model.js';
import { FAST, SLOW, browserVoices, hush, isSoundOn, keepWishes, programSpeech, radioOf, say, soundOn, speaker, wishes } from '/voice.js';
import { ReadbackPart } from '/readback.js';
import { isFree } from '/dom.js';
import { get, post } from '/server.js';

const NOISES = [['', 'none'], ['20', '20 dB under the voice: loud and clear'], ['10', '10 dB under the voice: hard to read'], ['5', '5 dB under the voice: hardly readable']];
const noise = (lessonRadio) => 'The lesson sets the radio: voice ' + lessonRadio.voice_over_noise_db + ' dB over the noise.';

// Voices of this browser, the program's, what this device's user wishes, and by them who speaks and how fast.
export function useVoices(lessonRadio) {
  const [voices, find] = useState(null);
  const [program, hear] = useState(null);
  const [wish, set] = useState(wishes);
  useEffect(() => {
    browserVoices().then(find);
    programSpeech().then(hear);
  }, []);
  const ready = voices !== null && program !== null;
  return {
    voices, program, wish, ready, change: (changed) => set(keepWishes(changed)), who: ready ? speaker({ voices, program, wish, lessonRadio }) : null,
    wordsAMinute: ready ? wish.words_a_minute ?? program.words_a_minute : 0,
  };
}

export function VoiceWishes({ voices, program, wish, change, wordsAMinute, lessonRadio }) {
  const remote = voices.filter((voice) => voice.localService !== true);
  const usable = voices.filter((voice) => voice.localService === true || wish.network);
  const [open, fold] = useState(false);
  return html`<details class="wishes" onToggle=${(e) => fold(e.target.open)}><summary>Voice and sound</summary>${open ? html`<div class="form">
    <label>Voice <select id="voice" value=${wish.voice} onChange=${(e) => change({ voice: e.target.value })}>
      <option value="" selected=${wish.voice === ''}>the first there is</option>
      ${program.voice ? html`<option value="program" selected=${wish.voice === 'program'}>${program.voice.program}, through the radio</option>` : null}
      ${usable.map((voice) => html`<option value=${voice.voiceURI} selected=${wish.voice === voice.voiceURI}>${voice.name}${voice.localService === true ? '' : ', over the network'}</option>`)}</select></label>
    <label>Words a minute <input id="words-a-minute" class="short" type="number" min=${SLOW} max=${FAST} step="10" value=${wordsAMinute}
      onChange=${(e) => { const asked = Number(e.target.value); if (asked >= SLOW && asked <= FAST) { change({ words_a_minute: asked }); } else { e.target.value = wordsAMinute; } }} /></label>
    ${lessonRadio ? html`<p>${noise(lessonRadio)}</p>` : program.voice ? html`<label>Radio noise <select id="noise" onChange=${(e) => change({ noise_db: e.target.value === '' ? null : Number(e.target.value) })}>
      ${NOISES.map(([value, name]) => html`<option value=${value} selected=${value === String(wish.noise_db ?? '')}>${name}</option>`)}</select></label>` : null}
    ${remote.length > 0 ? html`<label class="row"><input type="checkbox" id="network" checked=${wish.network} onChange=${(e) => change({ network: e.target.checked })} />
      <span>use voices that send the words over the network to whoever made them</span></label>` : null}</div>` : null}</details>`;
}

// The clearance last issued to the seat that is looked at.
function useCleared() {
  const [cleared, set] = useState(null);
  useEffect(() => whenCleared((message, fresh) => set(message ? { ...message, fresh, radio: seat().radio } : null)), []);
  return cleared;
}

export const times = (count) => (count === 1 ? 'once' : count + ' times');

const now = () => { const at = seat()?.now; return at ? at[T] : null; };

// show: name of the seat's show, empty on the page of one flight.
export function RadioCard({ show }) {
  const cleared = useCleared();
  const lessonRadio = cleared?.radio ?? null;
  const all = useVoices(lessonRadio);
  const { who, wordsAMinute } = all;
  const [sound, turn] = useState(isSoundOn());
  const [state, tell] = useState('');
  const [trouble, complain] = useState('');
  const [again, count] = useState(0);
  const spoken = useRef({ seat: '', clearance: 0 });
  const speaking = useRef(0);
  const keyOf = () => show || seat()?.name || '';
  const where = (path, clearance) => '/api/speech/' + path + '?seat=' + encodeURIComponent(keyOf()) + '&clearance=' + clearance;

  const speak = async () => {
    const mine = ++speaking.current;
    complain('');
    tell('ATC is speaking.');
    try {
      await say({ who, words: cleared.spoken, where: where('said', cleared.clearance) + '&wpm=' + wordsAMinute, wordsAMinute, radio: radioOf(lessonRadio, all.wish, cleared.clearance) });
      if (mine === speaking.current) { tell('Read it back.'); }
    } catch (why) { if (mine === speaking.current) { tell('Clearance ' + cleared.clearance + ' was issued at ' + clock(cleared.t) + '.'); complain(why.message); } }
  };
  useEffect(() => {
    if (!cleared || !who) { return; }
    const before = spoken.current;
    if (before.seat === cleared.seat && before.clearance === cleared.clearance && before.t === cleared.t) { return; }
    // In force again by a disregard, which was said: nothing new.
    if (cleared.given_back) { spoken.current = cleared; count(0); return; }
    hush();
    // What was issued before anybody looked is not news.
    if (!cleared.fresh && before.seat !== cleared.seat) { spoken.current = cleared; tell('Clearance ' + cleared.clearance + ' was issued at ' + clock(cleared.t) + '.' + (who.by === 'nobody' ? '' : ' Press Say again to hear it.')); return; }
    if (!sound && who.by !== 'nobody') { tell('ATC calls you. Turn the radio on.'); return; }
    spoken.current = cleared;
    count(0);
    speak();
  }, [cleared, who !== null, sound]);
  useEffect(() => { if (!cleared) { complain(''); } }, [cleared === null]);
  // ATC takes the last clearance back: said whatever is in force after it.
  const back = useRef(null);
  back.current = async (message) => {
    const mine = ++speaking.current;
    hush();
    complain('');
    const left = () => { const now = seat()?.cleared; return now ? 'As cleared before: nothing to read back.' : 'No amended clearance is in force: go on as filed.'; };
    if (!sound || !who) { tell('ATC: disregard. ' + left()); return; }
    tell('ATC is speaking.');
    try {
      await say({ who, words: message.spoken, where: where('said', 0) + '&disregard=' + message.number + '&wpm=' + wordsAMinute, wordsAMinute, radio: radioOf(lessonRadio, all.wish, 1000 + message.number) });
      if (mine === speaking.current) { tell('ATC: disregard. ' + left()); }
    } catch (why) { if (mine === speaking.current) { tell('ATC: disregard. ' + left()); complain(why.message); } }
  };
  useEffect(() => whenTakenBack((message) => back.current(message)), []);

  const on = async () => { turn(await soundOn() || who?.by === 'browser'); };
  const sayAgain = async () => {
    if (who.by === 'nobody') { complain(who.why); return; }
    await on();
    spoken.current = cleared;
    count(again + 1);
    speak();
    // Asked for is counted, whoever speaks it; the page of one flight counts for itself alone.
    try { await post('/api/speech/again', { seat: keyOf(), clearance: cleared.clearance }); } catch { /* shown here, not kept there */ }
  };
  const latest = useRef({});
  latest.current = { ready: cleared && who, sayAgain, on };
  useEffect(() => {
    const key = (event) => {
      if (event.key === 's' && isFree(event) && latest.current.ready) { latest.current.sayAgain(); }
    };
    // Any press turns the sound on: browsers ask for one.
    const any = (event) => { if (!isSoundOn() && event.target.id !== 'radio-on') { latest.current.on(); } };
    document.addEventListener('keydown', key);
    document.addEventListener('pointerup', any);
    document.addEventListener('keyup', any);
    return () => {
      document.removeEventListener('keydown', key);
      document.removeEventListener('pointerup', any);
      document.removeEventListener('keyup', any);
    };
  }, []);

  return html`<section class="card radio" aria-labelledby="radio-title">
    <div class="row apart"><h2 id="radio-title">Radio</h2>
      <button type="button" id="radio-on" aria-pressed=${String(sound)} onClick=${() => { if (sound) { speaking.current++; hush(); turn(false); tell('The radio is off.'); } else { tell(''); on(); } }}>Radio on</button>
      <button type="button" id="say-again" disabled=${!cleared || !who} onClick=${sayAgain} aria-keyshortcuts="s">Say again</button></div>
    <p id="radio-state" role="status">${state || (cleared ? '' : 'ATC has not called yet.')}${again > 0 ? ' Asked to say again: ' + times(again) + '.' : ''}</p>
    ${trouble ? html`<p role="alert" class="refused">${trouble}</p>` : who?.by === 'nobody' ? html`<p id="no-voice" class="warning">▲ ${who.why}</p>` : null}
    ${cleared && !cleared.given_back && all.ready ? html`<${ReadbackPart} name=${keyOf() + ' ' + cleared.clearance} hearing=${all.program.hearing !== null} now=${now}
      began=${() => { hush(); speaking.current++; tell(''); }}
      hear=${(wav) => post(where('heard', cleared.clearance), wav, 'audio/wav')}
      learn=${{ ask: () => get(where('calibrate', cleared.clearance)), tell: (wav) => post(where('calibrate', cleared.clearance), wav, 'audio/wav') }} count=${(answer) => counted(show, cleared.clearance, answer)} />` : null}
    ${all.ready ? html`<${VoiceWishes} ...${all} lessonRadio=${lessonRadio} />` : null}</section>`;
}

// The answer's elements as those of what was heard: [what, VERDICT, cleared, read back, must be].
export const asHeard = (elements) => elements.map(([element, verdict, said, heard, must]) => ({ element, verdict: verdict.toLowerCase(), said, heard, must }));

async function counted(show, clearance, answer) {
  const kept = await post('/order', { do: 'readback', show: show || '', seat: seat()?.name ?? '', clearance, ...answer, text: answer.words });
  return { elements: asHeard(kept.elements) };
}
