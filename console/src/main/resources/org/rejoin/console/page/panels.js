// Everything on the page that is text. Only ever set as text.
import { model, seat, choose, faultKeys, T, SPEED, ALT, HDG, CROSS } from './model.js';

const byId = (id) => document.getElementById(id);
const two = (n) => String(n).padStart(2, '0');
const clock = (t) => (t >= 3600 ? Math.floor(t / 3600) + ':' : '') + two(Math.floor(t / 60) % 60) + ':' + two(Math.floor(t % 60));
const three = (deg) => String((Math.round(deg) + 359) % 360 + 1).padStart(3, '0');
const LINES_SHOWN = 300;
let logOf = null;

function set(id, text) {
  const element = byId(id);
  if (element && element.textContent !== text) { element.textContent = text; }
}

function element(name, text, style) {
  const made = document.createElement(name);
  made.textContent = text;
  if (style) { made.className = style; }
  return made;
}

function header() {
  const hello = model.hello;
  if (!hello) { return; }
  set('title', hello.title);
  set('route', 'Filed: ' + hello.route);
  set('caution', hello.caution);
}

const STAGES = { WAITING: 'waiting for the start', FLYING: 'in flight', OVER: 'flight over' };

function status() {
  const status = model.status;
  const over = status && status.stage === 'OVER';
  const waiting = status && status.stage === 'WAITING';
  const heard = [...model.seats.values()].some((each) => each.now);
  let text = status ? STAGES[status.stage] : 'connecting';
  if (status && status.stage === 'FLYING' && !heard) { text = 'waiting for the simulator'; }
  if (!model.connected) { text = over ? 'flight over; program closed' : 'connection lost; trying again'; }
  set('stage', text);
  byId('stage').classList.toggle('trouble', !model.connected && !over);
  if (byId('start')) {
    byId('start').hidden = !waiting;
    byId('stop').hidden = Boolean(waiting) || Boolean(over);
  }
  if (status) {
    const parts = [status.pages === 1 ? '1 page open' : status.pages + ' pages open'];
    if (status.dropped > 0) { parts.push(status.dropped + ' that did not read let go'); }
    if (status.behind_s > 1) { parts.push('following is ' + status.behind_s + ' s behind'); }
    if (status.not_taken > 0) { parts.push(status.not_taken + ' datagrams lost before they could be taken'); }
    if (status.lost > 0) { parts.push(status.lost + ' pieces could not be shown'); }
    set('pages', parts.join('; '));
    for (const what of ['next', 'route', 'grade']) {
      const box = byId('show-' + what);
      if (box && document.activeElement !== box) { box.checked = status[what]; }
    }
  }
}

function readings(flown) {
  const now = flown && flown.now;
  set('clock', now ? clock(now[T]) : '--:--');
  set('heading-value', now && now[HDG] !== null ? three(now[HDG]) : '');
  set('altitude-value', now && now[ALT] !== null ? Math.round(now[ALT]) + ' ft, ' + Math.round(now[SPEED]) + ' kt' : '');
  const cross = now && now.length > CROSS ? now[CROSS] : null;
  set('corridor-value', cross === null || cross === undefined ? ''
    : Math.abs(cross).toFixed(2) + ' NM ' + (cross < 0 ? 'left' : 'right'));
  const hidden = model.status && !model.status.next && document.body.dataset.stream.endsWith('student');
  const next = flown && flown.next;
  set('next', hidden ? 'not shown in this lesson' : next ? next.text : ' ');
  set('phase', hidden ? ' ' : next ? next.phase : ' ');
  byId('next').classList.toggle('due', Boolean(next && next.now && !hidden));
}

function seats() {
  const bar = byId('seats');
  bar.hidden = model.seats.size < 2;
  if (bar.hidden) { return; }
  const known = new Map([...bar.children].map((child) => [child.dataset.seat, child]));
  for (const each of model.seats.values()) {
    each.short = each.label.includes(' ') ? each.label.slice(each.label.indexOf(' ') + 1) : each.label;
    let button = known.get(each.name);
    if (!button) {
      button = document.createElement('button');
      button.type = 'button';
      button.dataset.seat = each.name;
      button.title = each.label;
      button.append(element('b', each.short), element('span', '', 'figure'));
      button.addEventListener('click', () => choose(each.name));
      bar.append(button);
    }
    button.setAttribute('aria-pressed', String(each.name === model.chosen));
    const cross = each.now && each.now.length > CROSS && each.now[CROSS] !== null
      ? Math.abs(each.now[CROSS]).toFixed(2) + ' NM ' + (each.now[CROSS] < 0 ? 'L' : 'R') : '--';
    const faults = each.grade ? each.grade.faults.length : 0;
    const text = ' ' + cross + (faults > 0 ? '  ▲' + faults : '') + (each.over ? '  ended' : '');
    const figure = button.lastChild;
    if (figure.textContent !== text) { figure.textContent = text; }
    known.delete(each.name);
  }
  for (const gone of known.values()) { gone.remove(); }
}

function log(flown) {
  const list = byId('lines');
  const view = byId('log');
  const key = flown && flown.name;
  const faults = faultKeys(flown && flown.grade);
  const stamp = [...faults].join();
  const atEnd = view.scrollHeight - view.scrollTop - view.clientHeight < 40;
  if (logOf === null || logOf.key !== key || logOf.stamp !== stamp || !flown || flown.fresh < 0 || logOf.lines !== flown.lines) {
    list.replaceChildren();
    logOf = { key, stamp, lines: flown && flown.lines };
    if (!flown) { return; }
    flown.fresh = Math.max(0, flown.lines.length - LINES_SHOWN);
    if (flown.fresh > 0) { list.append(element('li', flown.fresh + ' earlier lines are in the recording', 'note')); }
  }
  const start = Math.max(flown.fresh, flown.lines.length - LINES_SHOWN);
  const rows = document.createDocumentFragment();
  for (let i = start; i < flown.lines.length; i++) {
    const line = flown.lines[i];
    const fault = faults.has(line.name + '@' + Number(line.t).toFixed(2));
    const item = document.createElement('li');
    item.className = fault ? 'fault' : line.kind;
    item.append(element('span', line.clock, 'figure'),
      element('span', (fault ? '▲ Fault: ' : line.kind === 'remark' ? '■ Remark: ' : '') + line.text));
    rows.append(item);
  }
  list.append(rows);
  flown.fresh = flown.lines.length;
  while (list.children.length > LINES_SHOWN + 1) { list.firstChild.remove(); }
  if (atEnd) { view.scrollTop = view.scrollHeight; }
}

function grade(flown) {
  const grade = flown && flown.grade;
  const student = document.body.dataset.stream.endsWith('student');
  if (student && model.status && !model.status.grade) {
    set('score', 'not shown');
    byId('faults').replaceChildren();
    byId('criteria').replaceChildren();
    return;
  }
  set('score', grade && grade.criteria.length > 0 ? Number(grade.score).toFixed(0) + ' of 100' : '--');
  byId('faults').replaceChildren(...(grade ? grade.faults : []).map((fault) =>
    element('li', '▲ ' + clock(fault.at_s) + ' ' + fault.text)));
  byId('criteria').replaceChildren(...(grade ? grade.criteria : []).map((criterion) => {
    const row = document.createElement('tr');
    row.append(element('td', (criterion.met ? '' : '▲ ') + criterion.title),
      element('td', criterion.measured + ' ' + criterion.unit, 'figure'), element('td', String(criterion.limit), 'figure'),
      element('td', criterion.points + ' of ' + criterion.max_points, 'figure'));
    row.title = criterion.source;
    return row;
  }));
}

export function showPanels(changed) {
  const flown = seat();
  if (changed.has('status')) { header(); }
  if (changed.has('status') || changed.has('seats')) { status(); }
  if (changed.has('text')) { readings(flown); }
  if (changed.has('seats')) { seats(); }
  if (changed.has('log')) { log(flown); }
  if (changed.has('grade')) { grade(flown); }
}
