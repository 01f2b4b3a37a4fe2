// The next drill for a pilot, and why; one on paper; one by ear.
import { html, render, useState, useAsked, usePilot, showBar, ask, tell, Act, Trouble, Working } from '/pieces.js';
import { Paper } from '/paper.js';
import { useRef } from '/preact.js';
import { asHeard, times, useVoices, VoiceWishes } from '/radio-panel.js';
import { post } from '/server.js';
import { hush, radioOf, say, soundOn } from '/voice.js';
import { ReadbackPart } from '/readback.js';

const now = () => performance.now() / 1000;
const tenths = (s) => s.toFixed(1) + ' s';

// A clearance is spoken once and read back; how long it took to copy it and to say it is measured.
function Listening({ pilot }) {
  const all = useVoices(null);
  const { who, wordsAMinute } = all;
  const [drill, take] = useState(null);
  const [state, set] = useState('');
  const [trouble, complain] = useState('');
  const [again, count] = useState(0);
  const [done, end] = useState(false);
  const ended = useRef(null); // when ATC's last word was out
  const speak = async (of) => {
    ended.current = null;
    set('ATC is speaking. Copy it.');
    try {
      const where = '/api/speech/said?exercise=' + encodeURIComponent(of.id);
      await say({ who, words: of.spoken, where: where + '&wpm=' + wordsAMinute, wordsAMinute, radio: radioOf(null, all.wish, 1) });
      ended.current = now();
      set('Read it back when you are ready.');
    } catch (why) { set(''); complain(why.message); }
  };
  const call = async () => {
    await soundOn();
    complain('');
    end(false);
    try {
      const got = await ask('listen?pilot=' + encodeURIComponent(pilot));
      take(got);
      count(got.told - 1);
      speak(got);
    } catch (why) { complain(why.message); }
  };
  const sayAgain = () => { complain(''); count(again + 1); speak(drill); };
  const finish = async (answer) => {
    const copy = answer.how === 'typed' || ended.current === null || answer.began_s === null ? null : Math.max(0, answer.began_s - ended.current);
    const read = answer.how === 'typed' || answer.began_s === null || answer.ended_s === null ? null : Math.max(0, answer.ended_s - answer.began_s);
    const got = await tell('listen', { pilot, id: drill.id, words: answer.words, how: answer.how, again, copy_s: copy, read_s: read });
    end(true);
    set('');
    return {
      elements: asHeard(got.elements),
      note: 'ATC said: ' + got.say + '. ' + (copy === null ? '' : 'Copied in ' + tenths(copy) + (read === null ? '. ' : ', read back in ' + tenths(read) + '. '))
        + (again > 0 ? 'Asked to say again ' + times(again) + ': kept, but it marks no skill.' : 'Heard once.'),
    };
  };
  return html`<section class="card radio" aria-labelledby="listen-title"><h2 id="listen-title">A clearance by ear</h2>
    <p>ATC says a clearance once. Copy it and read it back with your callsign.</p>
    ${who?.by === 'nobody' ? html`<p id="no-voice" class="warning">▲ ${who.why}</p>` : null}
    <div class="row">${drill === null || done ? html`<button type="button" id="call" disabled=${!who || who.by === 'nobody'} onClick=${call}>${done ? 'Next clearance' : 'Ready to copy'}</button>`
      : html`<button type="button" id="say-again" onClick=${sayAgain}>Say again</button>`}</div>
    <p id="listen-state" role="status">${state}</p>
    <${Trouble} text=${trouble} />
    ${drill ? html`<p>You are ${drill.callsign}. Filed: ${drill.filed}${again > 0 && !done ? html`<span class="soft">; asked to say again: ${times(again)}</span>` : null}</p>
      <${ReadbackPart} name=${drill.id} hearing=${!done && all.program.hearing !== null} now=${now} began=${hush}
        hear=${(wav) => post('/api/speech/heard?exercise=' + encodeURIComponent(drill.id), wav, 'audio/wav')} count=${finish} />` : null}
    ${all.ready ? html`<${VoiceWishes} ...${all} lessonRadio=${null} />` : null}</section>`;
}

function Next({ pilot, me }) {
  const [kept, keep] = useState('');
  const [got, trouble] = useAsked('drill?pilot=' + encodeURIComponent(pilot), pilot);
  if (!got) { return html`<${Working} trouble=${trouble} />`; }
  return html`<p class="next-text">${got.say || ''}</p><p>${got.why || ''}</p>
    ${me.is_instructor ? html`<div class="row"><${Act} id="keep-drill" path="drill" order=${{ pilot }} done=${(made) => keep(made.id)}>Keep it as a lesson<//></div>` : null}
    ${kept ? html`<p class="strong" role="status">Kept as ${kept}. It can be chosen at every seat.</p>` : null}`;
}

function Drill({ me }) {
  const [pilot, choice, none] = usePilot(me);
  return html`<section class="wide card" aria-labelledby="drill-title"><h2 id="drill-title">The next drill</h2>
    ${choice}${pilot ? html`<${Next} pilot=${pilot} me=${me} />` : none}</section>
    ${pilot ? html`<${Paper} pilot=${pilot} />
      <div class="by-ear"><${Listening} key=${pilot} pilot=${pilot} /></div>` : null}`;
}

const me = await showBar('Drill');
render(html`<${Drill} me=${me} />`, document.getElementById('app'));
