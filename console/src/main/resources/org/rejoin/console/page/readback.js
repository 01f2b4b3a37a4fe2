// A readback by the pilot's own voice, or typed: recorded while he holds, shown as it was heard, corrected, then counted.
import { html, useState, useEffect, useRef } from '/preact.js';
import { Microphone, MOST_S, whyNoMicrophone } from '/talk.js';

const SIGNS = { right: '✓', wrong: '▲', unclear: '?', missing: '∅', heard: '•' };
const SAYS = { right: 'right', wrong: 'wrong', unclear: 'not clear', missing: 'missing', heard: 'heard' };
const QUIET = 0.02; // of full scale
const STATES = {
  idle: '', opening: 'The microphone opens. Wait for "Talk now".', talking: 'Talk now.', sent: 'What you said is being worked out.', known: 'Your voice is known on this machine until Rejoin ends.',
};
const TYPED_IN = 'input, textarea, select, button, summary'; // what a space is meant for

// One element, as it was heard. Before it counts nothing tells what ATC said or what is right; a press leads to the words that were heard.
function Heard({ element, correct, counted }) {
  const words = element.verdict === 'missing' ? '' : element.heard || '';
  const says = element.verdict === 'missing' && !element.must ? 'left out' : SAYS[element.verdict];
  const text = html`<b>${SIGNS[element.verdict]} ${element.element}</b>${words ? html`<span>${words}</span>` : null}
    <span class=${element.verdict === 'right' || element.verdict === 'heard' || says === 'left out' ? 'soft' : 'warning'}>${says}</span>
    ${counted && element.verdict !== 'right' ? html`<span>${element.said ? 'ATC said: ' + element.said : 'ATC said nothing of the kind'}</span>` : null}
    ${counted && element.element !== 'words' ? html`<span class="soft">${element.must ? 'must be read back' : 'may be left out'}</span>` : null}`;
  return html`<li data-verdict=${element.verdict} data-must=${String(Boolean(element.must))}>${counted ? text : html`<button type="button" onClick=${correct}
    aria-label=${element.element + ' ' + (words || '') + ': ' + says + '. Press to change the words.'}>${text}</button>`}</li>`;
}

// Records while a button or the space key is held.
function Talk({ state, begin, end, loudness, paused }) {
  const held = useRef(false);
  const latest = useRef({});
  latest.current = { begin, end, paused };
  const press = () => { if (!held.current && !latest.current.paused) { held.current = true; latest.current.begin(); } };
  const release = () => { if (held.current) { held.current = false; latest.current.end(); } };
  // Once: the meter draws this part anew fifty times a second.
  useEffect(() => {
    const down = (event) => {
      if (event.key !== ' ' || event.ctrlKey || event.altKey || event.metaKey || (event.target.id !== 'talk' && event.target.closest?.(TYPED_IN))) { return; }
      event.preventDefault();
      if (!event.repeat) { press(); }
    };
    // A button that a finger pressed has no further need of the space key.
    const pressed = (event) => { if (event.pointerType) { event.target.closest?.('.radio button:not(#talk)')?.blur(); } };
    const up = (event) => { if (event.key === ' ' && held.current) { event.preventDefault(); release(); } };
    document.addEventListener('keydown', down);
    document.addEventListener('keyup', up);
    document.addEventListener('click', pressed);
    window.addEventListener('blur', release);
    return () => {
      document.removeEventListener('keydown', down);
      document.removeEventListener('keyup', up);
      document.removeEventListener('click', pressed);
      window.removeEventListener('blur', release);
    };
  }, []);
  const grab = (event) => {
    if (event.button !== 0) { return; }
    event.preventDefault();
    event.target.focus();
    event.target.setPointerCapture(event.pointerId);
    press();
  };
  // Without a pointer and without the space key, as by a switch: one press begins, the next one ends.
  const switched = (event) => { if (event.detail === 0) { if (held.current) { release(); } else { press(); } } };
  const talking = state === 'talking' || state === 'opening';
  return html`<div class="talk"><button type="button" id="talk" aria-pressed=${String(talking)} aria-disabled=${String(paused)}
      onPointerDown=${grab} onPointerUp=${release} onPointerCancel=${release} onClick=${switched} onContextMenu=${(e) => e.preventDefault()}>
      ${state === 'talking' ? 'Talking: let go to end' : 'Hold to talk'}</button>
    <meter min="0" max="1" low="0.02" high="0.95" optimum="0.4" value=${loudness} aria-label="Loudness of the microphone"></meter>
    <span class="soft">or hold the space key; ${MOST_S} s at most</span></div>`;
}

const NOTHING = { began: null, ended: null, how: 'typed' };

// hear(wav) says what was heard and counts nothing; count(answer) does; learn.ask() gives a sentence, learn.tell(wav) says whether the voice is known by it. now() is the time that is kept with it, seconds. Of another name, it is another clearance.
export function ReadbackPart({ name, hearing, hear, learn, count, now, began }) {
  const [state, set] = useState('idle');
  const [trouble, tell] = useState('');
  const [loudness, show] = useState(0);
  const [heard, take] = useState(null);
  const [words, type] = useState('');
  const [counted, done] = useState(null);
  const [sentence, read] = useState(null); // to be read so that the voice is known
  const span = useRef(NOTHING);
  const microphone = useRef(null);
  const wanted = useRef(false);
  const current = useRef(name);
  const field = useRef(null);
  const clear = () => { take(null); type(''); done(null); tell(''); span.current = { ...NOTHING }; };
  useEffect(() => { current.current = name; clear(); set('idle'); }, [name]);
  useEffect(() => () => microphone.current?.turnOff(), []);

  const reading = useRef(false);
  const ask = async () => {
    clear();
    try { read((await learn.ask()).sentence); reading.current = true; } catch (why) { tell(why.message); }
  };
  const known = async (wav) => {
    try {
      if ((await learn.tell(wav)).ok) { reading.current = false; read(null); set('known'); } else { set('idle'); tell('That was not the sentence as it stands here. Read it once more.'); }
    } catch (why) { set('idle'); tell(why.message); }
  };
  const end = async () => {
    wanted.current = false;
    if (!microphone.current) { return; }
    const asked = current.current;
    span.current.ended = now();
    const recorded = await microphone.current.end();
    if (recorded === null) { set((was) => (was === 'talking' ? 'idle' : was)); return; }
    if (recorded.seconds < 0.4) { set('idle'); tell('That was too short. Hold the button as long as you talk.'); return; }
    if (recorded.loudest < QUIET) { set('idle'); tell('Nothing was heard. Is this the right microphone, and is it on?'); return; }
    set('sent');
    if (reading.current) { await known(recorded.wav); return; }
    try {
      const answer = await hear(recorded.wav);
      if (asked !== current.current) { return; }
      take(answer);
      type(answer.words || '');
      set('heard');
    } catch (why) { if (asked === current.current) { set('idle'); tell(why.message); } }
  };
  const begin = async () => {
    clear();
    began?.();
    wanted.current = true;
    microphone.current ??= new Microphone(show);
    if (!microphone.current.open) {
      set('opening');
      try { await microphone.current.turnOn(); } catch (why) { set('idle'); tell(why.message); return; }
      if (!wanted.current) { set('idle'); tell('The microphone is open now. Hold the button and talk.'); return; }
    }
    microphone.current.timeOver = end;
    microphone.current.begin();
    span.current = { began: now(), ended: null, how: 'heard' };
    set('talking');
  };
  const typing = (event) => {
    if (span.current.began === null) { span.current.began = now(); began?.(); }
    if (span.current.how === 'typed') { span.current.ended = now(); }
    type(event.target.value);
  };
  // To the words of one element, so that what was heard wrong is typed over.
  const correct = (element) => {
    const at = words.toLowerCase().indexOf((element.heard || ' ').toLowerCase());
    field.current.focus();
    if (at >= 0 && element.verdict !== 'missing') { field.current.setSelectionRange(at, at + element.heard.length); } else { field.current.setSelectionRange(words.length, words.length); }
  };
  const finish = async (event) => {
    event.preventDefault();
    if (words.trim() === '') { tell(heard ? 'Nothing was heard. Try again, or type the words.' : 'Type what you read back.'); return; }
    tell('');
    set('sent');
    try {
      done(await count({ how: span.current.how, words: words.trim(), began_s: span.current.began, ended_s: span.current.ended ?? now() }));
      set('idle');
    } catch (why) { set(heard ? 'heard' : 'idle'); tell(why.message); }
  };
  const why = hearing ? whyNoMicrophone() : '';
  const shown = counted ?? heard;
  const changed = heard && words.trim() !== (heard.words || '').trim();
  return html`
    ${hearing && !why ? html`<${Talk} state=${state} begin=${begin} end=${end} loudness=${loudness} paused=${state === 'sent'} />` : null}
    ${hearing && !why && learn ? sentence === null ? html`<button type="button" id="learn" class="small" onClick=${ask}>Let it learn your voice</button>`
      : html`<p>Hold the button and read: <b id="sentence">${sentence}</b></p><button type="button" class="small" onClick=${() => { reading.current = false; read(null); }}>Leave it</button>` : null}
    ${why ? html`<p id="no-microphone" class="warning">▲ ${why}</p>` : null}
    <p id="talk-state" role="status">${counted ? 'Counted.' : STATES[state] ?? ''}</p>
    ${trouble ? html`<p role="alert" class="refused">${trouble}</p>` : null}
    ${shown ? html`<section aria-labelledby="heard-title"><h3 id="heard-title">${counted ? 'Your readback' : 'This was heard'}</h3>
      ${heard?.doubt && !counted ? html`<p class="warning">? Not all of it was clear: say it again, or put the words right. What is not clear never counts as wrong.</p>` : null}
      <ul id="heard" class="heard">${shown.elements.map((each) => html`<${Heard} element=${each} counted=${Boolean(counted)} correct=${() => correct(each)} />`)}</ul></section>` : null}
    ${counted ? html`${counted.note ? html`<p id="counted-note">${counted.note}</p>` : null}` : html`<form onSubmit=${finish}>
      <label for="typed" class=${heard ? '' : 'hidden'}>${heard ? 'The words; change them if you said others' : 'Readback, typed'}</label>
      <textarea id="typed" ref=${field} rows=${heard ? 2 : 1} maxlength="1000" autocomplete="off" spellcheck="false" value=${words} placeholder=${hearing ? 'or type the readback' : 'type the readback'} onInput=${typing}
        onKeyDown=${(e) => { if (e.key === 'Enter' && !e.shiftKey) { finish(e); } }}></textarea>
      <div class="row">${heard || words ? html`<button type="submit" id="count" class="first" disabled=${state === 'sent'}>Count it</button>` : null}
      ${heard ? html`<button type="button" id="try-again" onClick=${() => { clear(); set('idle'); }}>Try again</button>` : null}</div>
      ${changed ? html`<p class="soft">These words are checked when you press Count it.</p>` : null}</form>`}`;
}
