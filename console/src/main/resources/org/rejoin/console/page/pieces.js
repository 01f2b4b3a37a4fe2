// The set of parts that all views are made of. Each is written once; /parts shows them.
import { html, render, useState, useEffect } from '/preact.js';
import { themeSwitch } from '/theme.js';
import { clock, figure, measuredOf, markOf, pointsOf, scoreOf } from '/model.js';
import { ask, stream, tell } from '/server.js';

export { ask, clock, figure, scoreOf, html, render, tell, useEffect, useState };

// The room as it is told twice a second; null before the first word, with .connected and the time it was heard.
function listenToRoom(act) {
  return stream('/stream/room', {
    open() { /* the room follows at once */ },
    lost() { act((before) => (before ? { ...before, connected: false } : { seats: [], connected: false })); },
    told(text) {
      const room = JSON.parse(text);
      if (room.k === 'room') { act({ ...room, connected: true }); }
    },
  });
}

const SILENT_MS = 3000;

export function useRoom() {
  const [room, set] = useState(null);
  useEffect(() => {
    let heardMs = performance.now();
    const end = listenToRoom((what) => { heardMs = performance.now(); set(what); });
    // A program that stands still leaves its connection open.
    const silent = setInterval(() => {
      if (performance.now() - heardMs > SILENT_MS) { set((before) => (before && before.connected ? { ...before, connected: false } : before)); }
    }, 500);
    return () => { clearInterval(silent); end(); };
  }, []);
  return room;
}

// wait: after the last change, milliseconds.
export function useAsked(path, again, wait) {
  const [answer, set] = useState(null);
  const [trouble, tellTrouble] = useState('');
  useEffect(() => {
    let current = true;
    const now = () => ask(path).then((got) => { if (current) { set(got); tellTrouble(''); } }, (why) => { if (current) { tellTrouble(why.message); } });
    let later = 0;
    if (wait) { later = setTimeout(now, wait); } else { now(); }
    return () => { current = false; clearTimeout(later); };
  }, [path, again]);
  return [answer, trouble];
}

export const when = (utc) => utc.slice(0, 10) + ' ' + utc.slice(11, 16) + ' UTC';
// A fault by the name it has in every list.
export const faultWords = (code) => code.toLowerCase().replaceAll('_', ' ');
// A flight of the practice aircraft is in nobody's name alone.
export const flownBy = (row, nobody) => (row.pilot || nobody) + (row.practice_pilot ? ' (practice aircraft)' : '');
// What is chosen stays in the address: it is there again after Back and after a reload.
export function keepInAddress(chosen) {
  const query = new URLSearchParams(location.search);
  for (const [name, value] of Object.entries(chosen)) { if (value) { query.set(name, value); } else { query.delete(name); } }
  history.replaceState(null, '', location.pathname + (query.size > 0 ? '?' + query : ''));
}

export const parameter = (name) => new URLSearchParams(location.search).get(name) || '';

// Who sits there, and where: two simulators may have one callsign, and a seat two pilots in a day.
export const who = (seat) => (seat.pilot ? seat.pilot + ', ' + seat.label : seat.label);

// How old the data of a seat is, in words; null where it is of this moment.
export function dataWords(seat, connected) {
  if (connected === false) { return 'connection lost'; }
  if (seat.state === 'silent') { return 'no data for ' + Math.round(seat.age_s) + ' s'; }
  if (seat.state === 'paused') { return 'paused'; }
  if (seat.state === 'jumped') { return 'moved elsewhere'; }
  return 'flying, data ' + seat.age_s.toFixed(1) + ' s old';
}

export const isOld = (seat, connected) => connected === false || seat.state === 'silent';

// A seat without a lesson shows no empty panels but one sentence; null where one is flown, begins or is over. own: to its pilot.
export function lessonWords(seat, own) {
  if (!seat || seat.stage !== 'free') { return null; }
  const closed = seat.lesson && !seat.attempt && !seat.trouble ? 'The program was started again, and what was flown here before is closed.' : 'No lesson here yet.';
  return closed + (own ? ' Wait for a lesson from your instructor.' : ' Choose a lesson on Home.');
}

// What is drawn of a flight is shown where there is one, and nothing is issued where there is none.
export function useFlown(flown) {
  useEffect(() => {
    document.body.classList.toggle('no-lesson', !flown);
    const issue = document.getElementById('issue');
    if (issue) { issue.disabled = !flown; }
  }, [flown]);
}

const STAGES = { free: 'waits for a lesson', beginning: 'begins', ended: 'ended' };
export const stageWords = (seat) => STAGES[seat.stage] || '';

const VIEWS = [['/', 'Home'], ['/live', 'All seats'], ['/prepare', 'Prepare'], ['/book', 'Record book'], ['/progress', 'Progress'], ['/drill', 'Drill'], ['/guide', 'Guide']];
const OWN = [['/own', 'My seat'], ['/book', 'My attempts'], ['/progress', 'Progress'], ['/drill', 'Drill'], ['/guide', 'Guide']];

// Head of every view. The first Tab stop leads past it.
function Bar({ title, me, detail }) {
  useEffect(() => themeSwitch(document.getElementById('theme'), () => window.dispatchEvent(new Event('theme'))), []);
  const views = !me || me.is_instructor ? VIEWS : OWN;
  return html`<header>
    <a class="skip" href="#app">To the content</a>
    <div class="what"><h1 id="title">${title}</h1><p id="route" class="soft">${detail || (me && me.pilot) || ''}</p></div>
    <nav class="views" aria-label="Views">${views.map(([path, name]) => html`
      <a href=${path} aria-current=${location.pathname === path ? 'page' : null}>${name}</a>`)}</nav>
    <button type="button" id="theme" aria-pressed="false">Light page</button>
  </header>`;
}

export async function showBar(title, detail) {
  let me = null;
  try { me = await ask('me'); } catch { /* said by what the view itself asks */ }
  document.title = title;
  // Pages without a stream: what a pilot's tablet shows goes when the tablet is out.
  if (me && !me.is_instructor) { setInterval(() => ask('me').catch(() => {}), 5000); }
  render(html`<${Bar} title=${title} me=${me} detail=${detail} />`, document.getElementById('bar'));
  return me;
}

// Enter in a field is its button.
export const enters = (id) => (event) => { if (event.key === 'Enter') { event.preventDefault(); document.getElementById(id).click(); } };

// A button that says what became of its order.
export function Act({ path, order, children, done, sure, disabled, name, id, said }) {
  const [state, set] = useState('');
  const [is, tellDone] = useState('');
  const press = async () => {
    tellDone('');
    if (sure && state !== 'sure') { set('sure'); setTimeout(() => set((now) => (now === 'sure' ? '' : now)), 4000); return; }
    set('busy');
    try { const got = await tell(path, typeof order === 'function' ? order() : order); set(''); tellDone(said || ''); if (done) { done(got); } } catch (why) { set(why.message); }
  };
  return html`<button type="button" id=${id} onClick=${press} disabled=${disabled || state === 'busy'} aria-label=${state === 'sure' ? null : name}>
    ${state === 'sure' ? sure : children}</button>
    ${state && state !== 'busy' && state !== 'sure' ? html`<span role="alert" class="refused">${state}</span>` : null}
    ${is ? html`<span role="status" class="soft">${is}</span>` : null}`;
}

// One press: a drill from where the aircraft is, for whoever is named, else who sits there. Until it suits, the seat says what is waited for.
export function FromHere({ seat, pilot }) {
  return seat.from_here
    ? html`<span class="from-here" role="status">Drill from here: ${seat.from_here}.</span><${Act} path="here" order=${{ seat: seat.id, stop: true }} name=${'No drill at ' + seat.label}>No drill<//>`
    : html`<${Act} path="here" order=${{ seat: seat.id, pilot }} name=${'Drill from here at ' + seat.label}>Drill from here<//>`;
}

// While an answer is worked out, that; then why there is none.
export const Working = ({ trouble }) => (trouble ? html`<${Trouble} text=${trouble} />` : html`<p class="soft" role="status">Working …</p>`);

export function Trouble({ text }) { return text ? html`<p role="alert" class="refused">${text}</p>` : null; }

// Before the first is heard: what to do so that one is. feed: where its datagrams are to go; empty where a pilot looks.
export const NoAircraft = ({ feed }) => html`<div class="card wide" role="status"><p><b>No aircraft is heard yet.</b></p>${feed ? html`<p>Send your simulator's UDP to <b>${feed}</b>. It appears here with its first position.</p>` : null}</div>`;

// To the attempt that was flown here, once it is over.
export const ToDebrief = ({ seat }) => (seat.stage === 'ended' ? html`<a class="button" href=${'/debrief?id=' + seat.attempt}>Debrief</a>` : null);

// How its data stands, in words that are marked where it is not flying.
export function DataWords({ seat, connected }) {
  const odd = isOld(seat, connected) || seat.state !== 'flying';
  return html`<span id="data" class=${odd ? 'warning' : 'soft'}>${odd ? '▲ ' : ''}${dataWords(seat, connected)}</span>`;
}

// The pilot that a view is of: himself, or whom the instructor chooses, at first the one of the address. Gives his id, the choice, and what is said before there is one.
export function usePilot(me) {
  const [pilots] = useAsked(me && me.is_instructor ? 'pilots' : 'me', 0);
  const [pilot, choose] = useState(me && !me.is_instructor ? me.pilot_id : parameter('pilot'));
  const list = Array.isArray(pilots) ? pilots : [];
  // In an address he may be called by his name.
  const named = list.find((each) => each.id !== pilot && each.name.toLowerCase() === pilot.toLowerCase());
  useEffect(() => { if (named) { choose(named.id); } }, [named && named.id]);
  return [pilot,
    me && me.is_instructor ? html`<label>Pilot <select id="whose" onChange=${(e) => { choose(e.target.value); keepInAddress({ pilot: e.target.value }); }}><option value="">choose</option>${list.map((each) => html`<option value=${each.id} selected=${each.id === pilot}>${each.name}</option>`)}</select></label>` : null,
    html`<p>${Array.isArray(pilots) && list.length === 0 ? 'There is no pilot yet. Add one on Home.' : 'Choose a pilot.'}</p>`];
}

// One seat of the overview: what it needs now stands first.
export function SeatTile({ seat, connected, number, to }) {
  const old = isOld(seat, connected);
  const off = seat.off || [];
  const now = seat.now || {};
  return html`<a class=${'tile' + (old ? ' old' : '') + (off.length > 0 && !old ? ' off' : '')} href=${to}>
    <span class="row apart"><b>${number ? number + '  ' : ''}${seat.pilot || seat.label}</b><span class="soft">${seat.pilot ? seat.label : ''}</span></span>
    <span class=${'state' + (old || seat.state !== 'flying' ? ' warning' : ' soft')}>${old || seat.state !== 'flying' ? '▲ ' : ''}${dataWords(seat, connected)}${seat.stage !== 'flying' ? '; ' + stageWords(seat) : ''}</span>
    ${off.map((each) => html`<span class="warning off-line">▲ ${each.what}, for ${clock(each.for_s)}</span>`)}
    ${seat.trouble ? html`<span class="refused">${seat.trouble}</span>` : null}
    <span class="figure">${[now.altitude_ft != null ? now.altitude_ft + ' ft' : '', now.heading ? 'heading ' + now.heading : '', now.ground_speed_kt != null ? now.ground_speed_kt + ' kt' : ''].filter(Boolean).join(', ')}</span>
    <span class="next-line">${seat.next || ''}</span>
    <span class="soft">${seat.title || ''}${seat.score != null ? ', ' + scoreOf(seat.score) + ' of 100 so far' : ''}${seat.faults > 0 ? ', faults before: ' + seat.faults : ''}</span>
  </a>`;
}

// Who needs the instructor most stands first: off a limit now, then old data, then without a lesson, then the rest, then who is done.
export function need(seat) {
  const off = (seat.off || []).length > 0 && seat.state !== 'silent';
  if (off) { return 0; }
  if (seat.stage === 'flying' && (seat.state === 'silent' || seat.state === 'jumped')) { return 1; }
  if (seat.trouble) { return 2; }
  if (seat.stage === 'free') { return 3; }
  if (seat.stage === 'flying' && seat.state === 'paused') { return 4; }
  return seat.stage === 'ended' || seat.complete ? 6 : 5;
}

export function byNeed(seats) {
  const longest = (seat) => Math.max(0, ...(seat.off || []).map((each) => each.for_s));
  return [...seats].sort((a, b) => need(a) - need(b) || longest(b) - longest(a) || a.id.localeCompare(b.id, 'en', { numeric: true }));
}

// A moment of the flight; pressed, the replay goes there.
export function Moment({ at, go }) {
  return go ? html`<button type="button" class="plain-button figure moment" aria-label=${'Go to ' + clock(at)} onClick=${() => go(at)}>${clock(at)}</button>` : html`<span class="figure">${clock(at)}</span>`;
}

export function CriterionRow({ criterion, other, go }) {
  const say = (each) => (each ? measuredOf(each) : '');
  return html`<tr title=${criterion.source}><td>${markOf(criterion)} ${criterion.title}</td><td class="figure">${say(criterion)}${criterion.at_s != null ? html`<br />at <${Moment} at=${criterion.at_s} go=${go} />` : null}</td>
    ${other === undefined ? null : html`<td class="figure">${say(other)}</td>`}
    <td class="figure">${figure(criterion.limit, criterion.unit)}</td>
    <td class="figure">${pointsOf(criterion)}</td></tr>`;
}

export const CRITERION = ['What', 'Measured', 'Limit', 'Points'];

export function Heads({ names }) { return html`<thead><tr>${names.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>`; }

// The canvas of the plan, with its tools. label: what is seen.
export function PlanCard({ label, follows }) {
  return html`<section class="card plan" aria-labelledby="plan-title"><h2 id="plan-title" class="hidden">${label}</h2>
    <div class="stack">
      <canvas id="plan" tabindex="0" role="img" aria-label=${label + ', true north up. Arrow keys move it, plus and minus change the scale, ' + (follows ? 'f follows the aircraft, ' : '') + 'a shows all, m measures between two points that Enter sets at the middle.'}></canvas>
      <div class="tools" role="group" aria-label=${label}>
        <button type="button" id="closer" aria-label="Closer">+</button>
        <button type="button" id="wider" aria-label="Wider">−</button>
        ${follows ? html`<button type="button" id="follow" aria-pressed="false">Follow</button>` : null}
        <button type="button" id="all">All</button>
        <button type="button" id="measure" aria-pressed="false">Measure</button>
      </div>
      <p id="measured" class="measured" role="status"></p>
    </div></section>`;
}

// Plan and strips: the canvases that main.js draws on.
export function Stage() {
  return html`<${PlanCard} label="Plan view" follows=${true} />
    <div class="strips">
      <section class="card"><h2>Corridor <span id="corridor-value" class="figure"></span></h2><canvas id="corridor" role="img" aria-label="Cross-track distance against distance to go, with the limits as a band"></canvas></section>
      <section class="card"><h2>Heading <span id="heading-value" class="figure"></span></h2><canvas id="heading" role="img" aria-label="Magnetic heading against time, with the limits of the assigned heading as a band"></canvas></section>
      <section class="card"><h2>Altitude <span id="altitude-value" class="figure"></span></h2><canvas id="height" role="img" aria-label="Altitude against time, with the limits of the assigned altitude as a band"></canvas></section>
    </div>`;
}

// The clock of what is shown, where it stands, and whose it is.
export function ClockRow() {
  return html`<div class="row"><span id="clock" class="clock">--:--</span><span id="stage" class="stage" role="status"></span></div><div id="seats" hidden></div>`;
}

export function NextCard() {
  return html`<section class="card next" aria-labelledby="next-title"><h2 id="next-title">What must happen next</h2>
    <p id="next" class="next-text"> </p><p id="phase" class="soft"> </p></section>`;
}

// The log; in flight with the grade so far.
export function LogCard({ after }) {
  return html`<section class="card log" aria-labelledby="log-title">
    <h2 id="log-title">What happened ${after ? html`<span id="score" class="score"></span>` : html`<span><span id="score-of">grade so far</span> <span id="score" class="figure score"></span></span>`}</h2>
    ${after ? null : html`<details><summary>Faults and criteria</summary><ul id="faults" class="faults"></ul>
      <table class="criteria"><${Heads} names=${CRITERION} /><tbody id="criteria"></tbody></table></details>`}
    <div id="log" role="log" tabindex="0" aria-labelledby="log-title"><ol id="lines"></ol></div>
    <button type="button" id="below" hidden></button></section>`;
}

export function ClearanceCard() {
  return html`<section class="card clearance" aria-labelledby="clearance-title">
    <form id="clearance-form"><div class="row apart"><h2 id="clearance-title">Clearance in ATC's words</h2>
      <span class="pair"><label for="altitude">altitude, ft</label> <input id="altitude" type="number" min="0" max="60000" step="100" inputmode="numeric" /></span></div>
      <label class="hidden" for="words">Clearance</label>
      <textarea id="words" rows="2" maxlength="1000" spellcheck="false" autocomplete="off" placeholder="fly heading 110, intercept the … radial, join …, then as filed"></textarea>
      <pre id="caret" class="caret" hidden></pre>
      <div class="row"><button type="submit" id="preview">Work it out</button><button type="button" id="issue">Issue</button>
        <button type="button" id="speak">Speak</button><button type="button" id="cancel">Take back the last clearance</button></div></form>
    <div id="worked" class="worked" role="status"></div></section>
  <section class="card" aria-labelledby="notes-title"><h2 id="notes-title" class="hidden">Readback and remarks</h2>
    <div id="taps" class="taps"></div>
    <form id="readback-form" class="row"><label class="hidden" for="readback">The pilot's readback, typed</label>
      <input id="readback" type="text" maxlength="1000" autocomplete="off" placeholder="the pilot's readback, typed" /><button type="submit">Check</button></form>
    <div role="status"><ul id="checked" class="checked"></ul></div>
    <form id="remark-form" class="row"><label class="hidden" for="remark">Remark at this moment</label>
      <input id="remark" type="text" maxlength="1000" autocomplete="off" placeholder="remark at this moment" /><button type="submit">Remark</button></form><div id="remark-said" role="status"></div></section>`;
}

export function ShownCard({ position }) {
  return html`<fieldset class="row shown"><legend>The pilot sees</legend>
    <label><input type="checkbox" id="show-next" checked /> what is next</label>
    <label><input type="checkbox" id="show-route" checked /> the route</label>
    <label><input type="checkbox" id="show-grade" checked /> the grade</label>
    <label><input type="checkbox" id="show-position" checked /> ${position ?? 'where he is'}</label>
    <label><input type="checkbox" id="show-words" checked /> the words of a clearance</label></fieldset>`;
}

// The instructor's own mark under an attempt, where there is one.
export const OwnMark = ({ mark }) => (mark ? html`<p>Own mark: <b>${mark.score} of 100</b>${mark.by ? ', ' + mark.by : ''}: ${mark.reason}</p>` : null);

// How long an attempt lasted; empty where nobody knows, as of a drill that was answered in no time.
export const lasted = (row) => (row.duration_s != null && !(row.answered && row.duration_s === 0) ? clock(row.duration_s) : '');

// Signatures under an attempt, and the form to give one.
export function Sign({ attempt, me, changed }) {
  const [words, set] = useState({ name: me.instructor, certificate: '', remark: '' });
  const type = (key) => (e) => set({ ...words, [key]: e.target.value });
  return html`<section class="card" aria-labelledby="sign-title"><h2 id="sign-title">Signature</h2>
    <ul class="plain">${attempt.signatures.map((each) => html`<li>${each.changed.length === 0 ? '✓' : '▲'} ${each.name}${each.certificate ? ', certificate ' + each.certificate : ''}, ${when(each.at_utc)}${each.remark ? ': ' + each.remark : ''}
      ${each.changed.length > 0 ? html`<span class="refused">changed since: ${each.changed.join(', ')}</span>` : null}</li>`)}</ul>
    ${attempt.signatures.length === 0 ? html`<p class="pen">${['Name', 'Certificate number', 'Date', 'Signature'].map((each) => html`<span>${each}</span>`)}</p>` : null}
    ${me.is_instructor ? html`<div class="form"><label>Name <input id="sign-name" type="text" value=${words.name} onInput=${type('name')} /></label>
      <label>Certificate number <input id="sign-certificate" type="text" value=${words.certificate} onInput=${type('certificate')} /></label>
      <label>Remark <input id="sign-remark" type="text" value=${words.remark} onInput=${type('remark')} /></label>
      <${Act} id="sign" path=${'attempt/' + attempt.id + '/sign'} order=${words} done=${changed}>Sign this attempt of ${attempt.pilot || attempt.aircraft}<//></div>` : null}</section>`;
}
