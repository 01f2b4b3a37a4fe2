// An attempt after it: its flight again on the plan, the grade, what the instructor says and signs; several over one another.
import { html, render, useState, useEffect, ask, showBar, parameter, Act, Trouble, ClockRow, Stage, LogCard, CRITERION, Heads, CriterionRow, Moment, OwnMark, Sign, when, clock, flownBy, enters, scoreOf } from '/pieces.js';
import { model, choose, mark, messages, rowAt, takeMessage, T } from '/model.js';
import { Compared } from '/compare.js';
import { WhatIf } from '/whatif.js';
import { Answers } from '/answers.js';

const id = parameter('id');
const others = parameter('with').split(',').filter((each) => each !== '');
document.body.dataset.show = '';
const CLOSE_NM = 4; // around a turn
const replay = { show: () => {}, go: (t) => replay.show(t) }; // once the flight is drawn

function Marks({ attempt, me, time, changed }) {
  const [text, type] = useState('');
  const [score, setScore] = useState('');
  const [reason, setReason] = useState('');
  const [pilot, setPilot] = useState('');
  return html`<section class="card" aria-labelledby="remarks-title"><h2 id="remarks-title">Remarks</h2>
    <ul class="plain">${attempt.remarks.map((each) => html`<li><b class="figure">${clock(each.t)}</b> ${each.text}</li>`)}</ul>
    ${attempt.readbacks.length > 0 ? html`<h3>Readbacks</h3><ul class="plain">${attempt.readbacks.map((each) => html`<li><b class="figure">${clock(each.elapsed_s)}</b> ${each.elements.map((one) => (one.verdict === 'right' ? '✓ ' + one.called : one.verdict === 'missing' && !one.must ? 'left out: ' + one.called : '▲ ' + one.verdict + ': ' + one.called)).join(', ')}</li>`)}</ul>` : null}
    <${OwnMark} mark=${attempt.own_mark} />
    ${me.is_instructor ? html`<div class="form"><label>Remark at ${clock(time)} <input id="late-remark" type="text" value=${text} onInput=${(e) => type(e.target.value)} onKeyDown=${enters('keep-remark')} /></label>
      <${Act} id="keep-remark" path=${'attempt/' + id + '/remark'} order=${{ t: time, text }} done=${() => { type(''); changed(); }}>Remark<//>
      <label>Own mark, 0 to 100 <input id="mark" type="number" min="0" max="100" value=${score} onInput=${(e) => setScore(e.target.value)} /></label>
      <label>Reason <input id="mark-reason" type="text" value=${reason} onInput=${(e) => setReason(e.target.value)} /></label>
      <${Act} id="keep-mark" path=${'attempt/' + id + '/mark'} order=${{ score: Number(score), by: me.instructor, reason }} disabled=${score === ''} done=${() => { setScore(''); setReason(''); changed(); }}>Keep own mark<//>
      <label>Flown by <input id="flown-by" type="text" value=${pilot} placeholder=${attempt.pilot || 'nobody named'} onInput=${(e) => setPilot(e.target.value)} /></label>
      <${Act} path=${'attempt/' + id + '/pilot'} order=${{ name: pilot }} disabled=${pilot === ''} done=${() => { setPilot(''); changed(); }}>Give it to this pilot<//></div>` : null}</section>`;
}

function Criteria({ criteria }) {
  return html`<table class="criteria"><${Heads} names=${CRITERION} />
    <tbody>${criteria.map((each) => html`<${CriterionRow} criterion=${each} go=${replay.go} />`)}</tbody></table>`;
}

function Grade({ attempt }) {
  const grade = attempt.grade;
  // Of the attempt that the score is of, a table each: one clearance's measure says nothing of another's.
  const clearances = grade ? grade.attempts.map((each) => each.amendments).filter((each) => each.length > 0).pop() || [] : [];
  if (!grade) { return html`<section class="card"><h2>The grade</h2><p>In flight: the grade comes when it is over.</p></section>`; }
  return html`<section class="card" aria-labelledby="grade-title"><h2 id="grade-title">The grade</h2>
    <p class="next-text" id="result">${grade.score != null ? scoreOf(grade.score) + ' of 100' : 'no score'}, ${grade.met === true ? '✓ standard met' : grade.met === false ? '▲ standard not met' : 'standard not judged'} (${grade.standard})</p>
    <ul class="faults">${grade.faults.map((each) => html`<li>▲ <${Moment} at=${each.at_s} go=${replay.go} /> ${each.text}</li>`)}</ul>
    ${clearances.length < 2 ? html`<${Criteria} criteria=${grade.criteria} />`
      : clearances.map((each) => html`<p><b><${Moment} at=${each.at_s} go=${replay.go} /></b> “${each.say}”: ${each.score != null ? scoreOf(each.score) + ' of 100, ' : ''}${each.met === true ? '✓ met' : each.met === false ? '▲ not met' : '– not judged' + (each.not_judged ? ': ' + each.not_judged : '')}</p>
        ${each.criteria.length > 0 ? html`<${Criteria} criteria=${each.criteria} />` : null}`)}</section>`;
}

function Replay({ moved }) {
  const last = Math.max(0, ...[...model.seats.values()].map((seat) => (seat.rows.length > 0 ? seat.rows[seat.rows.length - 1][T] : 0)));
  const [time, set] = useState(last);
  const [playing, play] = useState(false);
  const show = (t) => {
    const at = Math.min(Math.max(t, 0), last);
    set(at);
    moved(at);
    for (const seat of model.seats.values()) { const row = rowAt(seat.rows, at); if (row) { seat.now = row; } }
    mark('plan', 'strips', 'text', 'chosen');
  };
  replay.show = show;
  useEffect(() => moved(last), []); // a remark is made at the moment that is shown
  useEffect(() => {
    if (!playing) { return undefined; }
    let t = time >= last ? 0 : time;
    const step = setInterval(() => { t += 2; show(t); if (t >= last) { play(false); } }, 100);
    return () => clearInterval(step);
  }, [playing]);
  return html`<div class="card row replay"><button type="button" id="play" aria-pressed=${String(playing)} onClick=${() => play(!playing)}>${playing ? 'Stop' : 'Play'}</button>
    <label class="hidden" for="time">Time</label><input id="time" type="range" min="0" max=${Math.ceil(last)} step="1" value=${time} onInput=${(e) => show(Number(e.target.value))} />
    <span class="figure">${clock(time)} of ${clock(last)}</span></div>`;
}

function Side({ me, moved, plan, flown, first, beside }) {
  const [changes, change] = useState(0);
  const [attempt, set] = useState(first);
  const [compared, setCompared] = useState(beside);
  const [laid, lay] = useState(null);
  plan.laid = lay;
  const [trouble, tell] = useState('');
  const [time, setTime] = useState(0);
  moved.act = setTime;
  // What did not come at first is asked for again, so that it is said why.
  useEffect(() => { if (changes > 0 || !first) { ask('attempt/' + id).then(set, (why) => tell(why.message)); } }, [changes]);
  useEffect(() => { if (beside.length < flown.length) { Promise.all(flown.map((each) => ask('attempt/' + each))).then(setCompared, (why) => tell(why.message)); } }, []);
  if (!attempt) { return html`<${Trouble} text=${trouble} />`; }
  const changed = () => change(changes + 1);
  return html`<${Trouble} text=${trouble} /><section class="card"><h2>${flownBy(attempt, 'Nobody named')}</h2><p>${attempt.lesson}</p><p class="soft">${when(attempt.began_utc)}, ${attempt.aircraft}${attempt.instructor ? ', instructor ' + attempt.instructor : ''}</p>
      <div class="row"><a class="button" id="report" href=${'/api/attempt/' + id + '/report'} target="_blank" rel="noopener">Report to print</a><a class="button" href="/book">Record book</a></div>${flown.length < others.length ? html`<p>${NOT_COMPARED}</p>` : null}</section>
    ${compared.length > 0 ? html`<${Compared} attempts=${byDate([attempt, ...compared])} seats=${laid ? laid.seats : NONE} legs=${laid ? laid.legs : NONE} />` : null}<${Grade} attempt=${attempt} />${attempt.grade ? html`<${WhatIf} id=${id} plan=${plan} />` : null}<${Marks} attempt=${attempt} me=${me} time=${time} changed=${changed} /><${Sign} attempt=${attempt} me=${me} changed=${changed} />`;
}

const NOT_COMPARED = 'A drill on paper or by ear has no flight: it is not compared.';
const NONE = [];
const byDate = (attempts) => [...attempts].sort((a, b) => a.began_utc.localeCompare(b.began_utc));
const moved = { act: () => {} };
const plan = { draw: null, act: () => {}, lookAt: () => {}, laid: () => {}, show(other) { if (plan.draw) { plan.draw(other); } }, drawn(act) { plan.act = act; } };
// flown: the others, without those that were answered and not flown.
async function flight(me, flown, first, beside) {
  render(html`<div class="left"><div id="replay"><p role="status">Working the flight out again …</p></div><${Stage} /></div><div class="right"><${ClockRow} />
    <div id="side"></div><${LogCard} after=${true} /></div>`, document.getElementById('app'));
  render(html`<${Side} me=${me} moved=${moved} plan=${plan} flown=${flown} first=${first} beside=${beside} />`, document.getElementById('side'));
  const { plan: drawn } = await import('/main.js'); // it draws on what is there now
  plan.lookAt = (at) => drawn.lookAt(at[0], at[1], CLOSE_NM);
  try {
    messages(await ask('attempt/' + id + '/picture')).forEach(takeMessage);
    const { route } = model.hello;
    for (const each of flown) {
      const more = messages(await ask('attempt/' + each + '/picture'));
      if (more.find((message) => message.k === 'hello').route !== route) {
        document.getElementById('pages').textContent = 'An attempt of another route cannot be laid over this one; its grade stands beside.';
      } else { more.filter((message) => !['hello', 'status', 'ready'].includes(message.k)).forEach(takeMessage); }
    }
    plan.draw = (other) => { model.other = other && { ...other, drawn: (nm) => plan.act(nm) }; mark('plan'); };
    model.whole = true;
    model.connected = true;
    choose(model.seats.keys().next().value ?? null);
    // By name, which begins with the date.
    const seats = [...model.seats.values()].sort((a, b) => a.name.localeCompare(b.name));
    plan.laid({ seats: seats.map((each) => ({ label: each.label, rows: each.rows })), legs: (seats.find((each) => each.amended) || { amended: { legs: [] } }).amended.legs });
    mark('status');
    document.getElementById('replay').replaceChildren();
    render(html`<${Replay} moved=${(t) => moved.act(t)} />`, document.getElementById('replay'));
  } catch (why) {
    // Of an attempt that is not there the side says so.
    document.getElementById('replay').replaceChildren();
    if (first) { render(html`<${Trouble} text=${why.message} />`, document.getElementById('replay')); }
  }
}

const me = await showBar('Debrief') || { is_instructor: false, instructor: '' };
const [shown, ...compared] = await Promise.all((id === '' ? [] : [id, ...others]).map((each) => ask('attempt/' + each).catch(() => null)));
const flown = others.filter((each, i) => !compared[i]?.drill);
if (id === '') {
  document.body.className = 'room book';
  render(html`<section class="card wide"><p><b>No attempt is chosen.</b></p><p>Open one in the <a href="/book">${me.is_instructor ? 'record book' : 'list of your attempts'}</a>.</p></section>`, document.getElementById('app'));
} else if (shown?.drill) {
  document.body.className = 'room book'; // a page that scrolls: there is no plan to fit into the window
  render(html`<${Answers} first=${shown} me=${me} note=${others.length > 0 ? NOT_COMPARED : ''} />`, document.getElementById('app'));
} else {
  const beside = compared.filter((each) => each && !each.drill);
  await flight(me, flown, shown, beside.length === flown.length ? beside : []);
}
