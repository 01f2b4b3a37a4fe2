// A lesson of one's own: chart, route, start, clearances; worked out, drawn and flown once; kept.
import { html, render, useState, useEffect, useAsked, ask, tell, showBar, ClockRow, Stage, LogCard, Trouble, clock, scoreOf } from '/pieces.js';
import { model, messages, takeMessage } from '/model.js';

const DRAW_MS = 400; // after the last key
const AS_IN_A_FILE = /^amendment (\d+): (?:say: )?/; // how a lesson's file calls a clearance

const EMPTY = { title: '', chart: '', filed: '', date: '', time: '', at: '', altitude: '5000', heading: '', speed: '120', from: '', wind: '', standard: 'instrument-rating',
  amendments: [{ kind: 'elapsed_s', value: '30', say: '', altitude: '' }] };

// The form as a lesson file has it; numbers that were left out are left out.
function lesson(form) {
  const number = (text) => (text === '' ? undefined : Number(text));
  const made = { title: form.title, chart: form.chart, filed: form.filed, standard: form.standard };
  if (form.date !== '') { made.date = form.date; }
  if (form.time !== '') { made.time_utc = form.time; }
  if (form.at !== '') { made.start = { at: form.at, altitude_ft: number(form.altitude), heading_magnetic_deg: number(form.heading), speed_kt: number(form.speed) }; }
  if (form.wind !== '') { made.wind = { from_true_deg: number(form.from), speed_kt: number(form.wind) }; }
  made.amendments = form.amendments.filter((each) => each.say.trim() !== '').map((each) => ({
    when: each.kind === 'abeam' ? { abeam: each.value } : { elapsed_s: number(each.value) ?? 30 }, say: each.say, ...(each.altitude === '' ? {} : { altitude_ft: Number(each.altitude) }),
  }));
  return made;
}

// What is drawn of it before it is flown: chart, filed route, start.
const drawnOf = (form) => ({ ...lesson(form), title: '', amendments: [] });
const flownOf = (form) => JSON.stringify({ ...lesson(form), title: '' });

function formOf(read, chart, title) {
  const text = (value) => (value === undefined || value === null ? '' : String(value));
  const start = read.start || {}, wind = read.wind || {};
  return { title, chart, filed: text(read.filed), date: text(read.date), time: text(read.time_utc), at: text(start.at), altitude: text(start.altitude_ft), heading: text(start.heading_magnetic_deg), speed: text(start.speed_kt),
    from: text(wind.from_true_deg), wind: text(wind.speed_kt), standard: text(read.standard) || 'instrument-rating',
    amendments: (read.amendments || []).map((each) => ({ kind: each.when && each.when.abeam ? 'abeam' : 'elapsed_s', value: text(each.when && (each.when.abeam ?? each.when.elapsed_s)), say: text(each.say), altitude: text(each.altitude_ft) })) };
}

function Field({ id, name, form, change, kind, hint, width }) {
  return html`<label>${name} <input id=${'f-' + id} type=${kind || 'text'} class=${width || ''} value=${form[id]} placeholder=${hint || ''} autocomplete="off" onInput=${(e) => change({ ...form, [id]: e.target.value })} /></label>`;
}

function Prepare({ draw }) {
  const [form, set] = useState(EMPTY);
  const [charts] = useAsked('charts', 0);
  const [again, reload] = useState(0);
  const [lessons] = useAsked('lessons', again);
  const [result, show] = useState(null);
  const [trouble, say] = useState('');
  const [kept, keep] = useState('');
  const [asks, asked] = useState(''); // before a lesson takes another's place
  const [flown, fly] = useState(''); // what was flown: ticks and score are of nothing else, whatever its title
  const [busy, wait] = useState(false);
  const [tries] = useState(() => new Set()); // a flight of this is shown, or comes: no drawing takes its place
  const chart = form.chart || (charts && charts[0]) || '';
  const full = { ...form, chart };
  const change = (next) => { keep(''); asked(''); set(next); };
  const now = result !== null && flown === flownOf(full) ? result : null;
  // What cannot be read yet is being typed; whoever has it flown is told what is wrong.
  const shape = JSON.stringify(drawnOf(full));
  useEffect(() => {
    if (chart === '' || form.filed.trim() === '') { return undefined; }
    let current = true;
    const wait = setTimeout(() => tell('draw', drawnOf(full)).then((got) => { if (current && got.picture && !tries.has(shape)) { show(null); draw(got.picture, false); } }, () => {}), DRAW_MS);
    return () => { current = false; clearTimeout(wait); };
  }, [shape]);
  const amendment = (i, key) => (e) => change({ ...form, amendments: form.amendments.map((each, k) => (k === i ? { ...each, [key]: e.target.value } : each)) });
  const run = async (act) => { wait(true); say(''); try { await act(); } catch (why) { say(why.message.replace(AS_IN_A_FILE, 'Clearance $1: ')); } wait(false); };
  const tried = () => run(async () => { tries.clear(); tries.add(shape); const got = await tell('try', lesson(full)); show(got); fly(flownOf(full)); draw(got.picture, true); });
  const save = (replace) => run(async () => {
    const got = await tell('keep', { ...lesson(full), replace });
    asked(got.asks || ''); keep(got.id ? full.title.trim() : '');
    if (got.id) { reload(again + 1); }
  });
  const load = (id) => run(async () => { if (id !== '') { const read = await ask('lessons?id=' + encodeURIComponent(id)); const own = lessons.find((each) => each.id === id && each.own); set(formOf(read, (charts || []).find((each) => String(read.chart).endsWith(each)) || chart, own ? own.title : '')); show(null); } });
  return html`<section class="card" aria-labelledby="lesson-title"><h2 id="lesson-title">The lesson</h2>
    <form class="form" onSubmit=${(e) => { e.preventDefault(); tried(); }}>
      <label>Begin with <select id="from-lesson" onChange=${(e) => load(e.target.value)}><option value="">an empty form</option>${(lessons || []).map((each) => html`<option value=${each.id}>${each.title}</option>`)}</select></label>
      <${Field} id="title" name="Title" form=${form} change=${change} />
      <label>Chart <select id="chart" value=${chart} onChange=${(e) => change({ ...form, chart: e.target.value })}>${(charts || []).map((each) => html`<option value=${each} selected=${each === chart}>${each}</option>`)}</select></label>
      <${Field} id="filed" name="Filed route" form=${form} change=${change} hint="XAAA DCT AAA V31 BBB DCT XBBB" />
      ${form.filed.trim() === '' ? html`<p class="soft">Begin with a lesson, or type a filed route: it is drawn on the chart.</p>` : null}
      <${Field} id="date" name="Date, for the magnetic variation" form=${form} change=${change} hint="2026-06-01; else the day of the flight" />
      <${Field} id="time" name="Time of day at the start, UTC" form=${form} change=${change} hint="1500, where ATC says times" />
      <fieldset class="row"><legend>Start</legend><${Field} id="at" name="at" form=${form} change=${change} hint="AAA/078/12" />
        <${Field} id="altitude" name="altitude, ft" form=${form} change=${change} kind="number" /><${Field} id="heading" name="heading, magnetic" form=${form} change=${change} kind="number" /><${Field} id="speed" name="true airspeed, kt" form=${form} change=${change} kind="number" /></fieldset>
      <fieldset class="row"><legend>Wind</legend><${Field} id="from" name="from, true" form=${form} change=${change} kind="number" /><${Field} id="wind" name="speed, kt" form=${form} change=${change} kind="number" /></fieldset>
      <label>Standard <select id="standard" onChange=${(e) => change({ ...form, standard: e.target.value })}>${['instrument-rating', 'gps', 'vor', 'strict'].map((each) => html`<option value=${each} selected=${each === form.standard}>${each}</option>`)}</select></label>
      ${form.amendments.map((each, i) => html`<fieldset class="clearance-row" key=${i}><legend>Clearance ${i + 1}</legend>
        <div class="row"><label>comes <select onChange=${amendment(i, 'kind')}><option value="elapsed_s" selected=${each.kind === 'elapsed_s'}>at second</option><option value="abeam" selected=${each.kind === 'abeam'}>abeam</option></select></label>
          <label><span class="hidden">when</span><input type="text" class="short" value=${each.value} aria-label=${'When clearance ' + (i + 1) + ' comes'} onInput=${amendment(i, 'value')} /></label>
          <button type="button" onClick=${() => change({ ...form, amendments: form.amendments.filter((one, k) => k !== i) })} aria-label=${'Remove clearance ' + (i + 1)}>Remove</button></div>
        <label>ATC says <textarea rows="2" class="say" value=${each.say} spellcheck="false" onInput=${amendment(i, 'say')}></textarea></label>
        <label>altitude assigned with it, ft; empty where the words say one <input type="number" class="short" value=${each.altitude} aria-label=${'Altitude assigned with clearance ' + (i + 1) + ', feet'} onInput=${amendment(i, 'altitude')} /></label>
        ${now && now.spoken[i] ? html`<p class="strong">${clock(now.spoken[i].t)} ${now.spoken[i].warnings.length === 0 ? '✓ worked out' : ''}</p>${now.spoken[i].warnings.map((one) => html`<p class="warning">▲ ${one}</p>`)}` : null}</fieldset>`)}
      <div class="row"><button type="button" onClick=${() => change({ ...form, amendments: [...form.amendments, { kind: 'elapsed_s', value: '', say: '', altitude: '' }] })}>One more clearance</button></div>
      <div class="row"><button type="submit" id="try" disabled=${busy}>Work it out and fly it once</button><button type="button" id="keep" disabled=${busy || form.title.trim() === ''} onClick=${() => save(false)}>Keep the lesson</button>
        ${asks ? html`<button type="button" id="replace" disabled=${busy} onClick=${() => save(true)}>Replace it</button>` : null}
        ${form.title.trim() === '' ? html`<span class="soft">To keep it, give it a title.</span>` : null}</div></form>
    <${Trouble} text=${trouble} />
    <div role="status">${asks ? html`<p class="warning" id="asks">▲ ${asks}</p>` : null}
      ${result && !now ? html`<p class="soft" id="changed">Changed since it was flown: picture and log are those of the flight before. Fly it again.</p>` : null}
      ${kept ? html`<p class="strong" id="kept">Kept: ${kept}. It can be chosen at every seat.</p>` : null}
      ${now ? html`<p id="flown">${now.problem ? '▲ ' + now.problem : 'The practice aircraft flew it: ' + (now.score != null ? scoreOf(now.score) + ' of 100.' : 'nothing to judge.')}</p>${now.notes.map((each) => html`<p class="warning">▲ ${each}</p>`)}` : null}</div></section>`;
}

render(html`<div class="left"><${Stage} /></div><div class="right"><div id="form"></div><${ClockRow} /><${LogCard} after=${true} /></div>`, document.getElementById('app'));
await showBar('Prepare a lesson');
await import('/main.js'); // it draws on what is there now
model.connected = true;
// What only stands at its start has no log.
const draw = (picture, flown) => messages(picture).filter((message) => flown || message.k !== 'event').forEach(takeMessage);
render(html`<${Prepare} draw=${draw} />`, document.getElementById('form'));
