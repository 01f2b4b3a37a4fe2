// Everything on the page that is text. Only ever set as text.
import { model, seat, choose, faultKeys, isOld, ageS, clock, figure, measuredOf, markOf, pointsOf, scoreOf, three, T, SPEED, ALT, HDG, CROSS } from './model.js';
import { byId, button, element } from './dom.js';

const LINES_SHOWN = 300;
const pilotLooks = () => document.body.dataset.pilot === 'yes' || (document.body.dataset.stream || '').endsWith('student');
let logOf = null;
let following = true; // the log, unless the reader has scrolled up
let unread = 0;

function below() {
  const more = byId('below');
  if (!more) { return; }
  more.hidden = following || unread === 0;
  more.textContent = unread === 1 ? '1 line below' : unread + ' lines below';
}

if (byId('log')) {
  const view = byId('log');
  // Only the reader's own scrolling counts: the list also moves when a panel above it grows.
  for (const kind of ['wheel', 'touchmove', 'keydown', 'pointerdown']) {
    view.addEventListener(kind, () => setTimeout(() => {
      following = view.scrollHeight - view.scrollTop - view.clientHeight < 40;
      if (following) { unread = 0; }
      below();
    }, 60), { passive: true });
  }
  new ResizeObserver(() => { if (following) { view.scrollTop = view.scrollHeight; } }).observe(view);
  if (byId('below')) { byId('below').addEventListener('click', () => { following = true; unread = 0; view.scrollTop = view.scrollHeight; below(); }); }
}

function set(id, text) {
  const element = byId(id);
  if (element && element.textContent !== text) { element.textContent = text; }
}

function header() {
  const hello = model.hello;
  if (!hello) {
    // What was flown before the program was started again is flown no more.
    if (document.body.dataset.stream) { set('title', document.title); set('route', ' '); }
    return;
  }
  set('title', hello.title || document.title);
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
  if (status && status.stage === 'FLYING' && !heard && (status.position || !pilotLooks())) { text = 'waiting for the simulator'; }
  if (!model.connected) { text = over ? 'flight over; program closed' : 'connection lost; trying again'; }
  const flown = seat();
  if (model.connected && flown && flown.over && !over) { text = 'attempt over'; }
  if (model.connected && flown && !over && flown.state === 'PAUSED') { text = 'paused'; }
  // Beside data that is greyed nothing says that all is well.
  const silent = model.connected && Boolean(flown) && !over && isOld(flown);
  if (silent) { text = 'no data'; }
  const unkept = model.connected && status && !over ? status.not_recorded : '';
  if (unkept) { text += '; recording stopped: ' + unkept + (/space/i.test(unkept) ? ': make room on the disk, it goes on by itself' : ', it is tried again'); }
  set('stage', document.body.dataset.stream ? text : '');
  byId('stage').classList.toggle('trouble', (!model.connected && !over) || silent || Boolean(unkept));
  if (byId('start')) {
    byId('start').hidden = !waiting;
    byId('stop').hidden = Boolean(waiting) || Boolean(over);
  }
  if (status) {
    const parts = [status.pages === 1 ? '1 page open' : status.pages + ' pages open'];
    if (status.dropped > 0) { parts.push(status.dropped === 1 ? '1 page that did not keep up was closed' : status.dropped + ' pages that did not keep up were closed'); }
    if (status.behind_s > 1) { parts.push('Rejoin is ' + status.behind_s + ' s behind what is sent'); }
    if (status.not_taken > 0) { parts.push(status.not_taken + ' datagrams lost before they could be taken'); }
    if (heard) { parts.push(...status.unread.map((line) => '▲ ' + line)); }
    if (status.lost > 0) { parts.push(status.lost + ' lines or positions could not be shown'); }
    set('pages', document.body.dataset.stream ? parts.join('; ') : '');
    for (const what of ['next', 'route', 'grade', 'position', 'words']) {
      const box = byId('show-' + what);
      if (box && document.activeElement !== box) { box.checked = status[what]; }
    }
  }
}

// Age and state of the data; what is old is greyed.
const STATES = { PAUSED: 'paused', JUMPED: 'moved elsewhere', ENDED: 'ended', WAITING: '' };

function dataWords(flown) {
  if (isOld(flown)) { return 'no data for ' + Math.round(ageS(flown)) + ' s'; }
  return STATES[flown.state] ?? 'data ' + Math.max(0, ageS(flown)).toFixed(1) + ' s old';
}

function data(flown) {
  if (!document.body.dataset.stream) { return; }
  const old = Boolean(flown) && (isOld(flown) || (!model.connected && !flown.over));
  if (!byId('strip')) {
    document.body.classList.toggle('old', old);
    const words = byId('data');
    if (words && flown) {
      set('data', (old || flown.state === 'PAUSED' || flown.state === 'JUMPED' ? '▲ ' : '') + dataWords(flown));
      words.classList.toggle('warning', old || flown.state === 'PAUSED' || flown.state === 'JUMPED');
    }
  }
  for (const one of byId('seats').children) {
    const each = model.seats.get(one.dataset.seat);
    if (each) { one.classList.toggle('old', isOld(each)); }
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
  const hidden = model.status && !model.status.next && pilotLooks();
  const next = flown && !flown.over ? flown.next : null;
  // Before an aircraft is heard, nothing is more urgent than that what comes cannot be read.
  const unread = !flown && model.status ? model.status.unread : [];
  set('next', flown && flown.over ? 'The flight is over.' : unread.length > 0 ? '▲ ' + unread.join('\n▲ ')
    : model.status?.stage === 'WAITING' ? (pilotLooks() ? 'Wait for the start of the lesson.' : 'Press “Start the lesson” when the pilot is ready.')
      : hidden ? 'not shown in this lesson' : next ? next.text : ' ');
  set('phase', hidden ? ' ' : next ? next.phase : ' ');
  if (byId('next')) { byId('next').classList.toggle('due', Boolean(next && next.now && !hidden)); }
}

function seats() {
  const bar = byId('seats');
  bar.hidden = model.seats.size < 2;
  if (bar.hidden) { return; }
  const known = new Map([...bar.children].map((child) => [child.dataset.seat, child]));
  for (const each of model.seats.values()) {
    each.short = each.label.includes(' ') ? each.label.slice(each.label.indexOf(' ') + 1) : each.label;
    let one = known.get(each.name);
    if (!one) {
      one = button('', () => choose(each.name));
      one.dataset.seat = each.name;
      const number = bar.children.length + 1;
      one.title = each.label + (number < 10 ? ', key ' + number : '');
      if (number < 10) { one.setAttribute('aria-keyshortcuts', String(number)); }
      one.append(element('b', each.short), element('span', '', 'figure'));
      bar.append(one);
    }
    const pressed = String(each.name === model.chosen);
    if (one.getAttribute('aria-pressed') !== pressed) { one.setAttribute('aria-pressed', pressed); }
    const cross = each.now && each.now.length > CROSS && each.now[CROSS] !== null
      ? Math.abs(each.now[CROSS]).toFixed(2) + ' NM ' + (each.now[CROSS] < 0 ? 'L' : 'R') : '--';
    const faults = each.grade ? each.grade.faults.length : 0;
    const text = ' ' + cross + (faults > 0 ? '  ▲' + faults : '') + (each.over ? '  ended' : isOld(each) ? '  ▲ no data' : each.state === 'PAUSED' ? '  paused' : '');
    const figure = one.lastChild;
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
      element('span', (fault ? '▲ Fault: ' : line.kind === 'remark' ? '■ Remark: ' : line.kind === 'readback' ? '■ Readback: ' : '') + line.text));
    rows.append(item);
  }
  list.append(rows);
  if (!following) { unread += flown.lines.length - start; }
  flown.fresh = flown.lines.length;
  while (list.children.length > LINES_SHOWN + 1) { list.firstChild.remove(); }
  if (following) { view.scrollTop = view.scrollHeight; }
  below();
}

function measured(criterion) {
  const cell = element('td', measuredOf(criterion), 'figure');
  if (criterion.at_s != null) { cell.append(document.createElement('br'), 'at ' + clock(criterion.at_s)); }
  return cell;
}

function grade(flown) {
  const grade = flown && flown.grade;
  const student = pilotLooks();
  if (student && model.status && !model.status.grade) {
    set('score', 'not shown');
    byId('faults').replaceChildren();
    byId('criteria').replaceChildren();
    return;
  }
  set('score-of', flown && flown.over ? 'grade' : 'grade so far');
  set('score', grade && grade.criteria.length > 0 ? scoreOf(grade.score) + ' of 100' : '--');
  if (!byId('faults')) { return; }
  byId('faults').replaceChildren(...(grade ? grade.faults : []).map((fault) =>
    element('li', '▲ ' + clock(fault.at_s) + ' ' + fault.text)));
  byId('criteria').replaceChildren(...(grade ? grade.criteria : []).map((criterion) => {
    const row = document.createElement('tr');
    row.append(element('td', (criterion.met ? '' : markOf(criterion) + ' ') + criterion.title),
      measured(criterion), element('td', figure(criterion.limit, criterion.unit), 'figure'),
      element('td', pointsOf(criterion), 'figure'));
    row.title = criterion.source;
    return row;
  }));
}

export function showPanels(changed) {
  const flown = seat();
  if (changed.has('status')) { header(); }
  if (changed.has('status') || changed.has('seats') || changed.has('data')) { status(); }
  if (changed.has('status') || changed.has('data')) { data(flown); }
  if (changed.has('seats') || changed.has('data')) { seats(); }
  if (changed.has('text')) { readings(flown); }
  if (changed.has('log')) { log(flown); }
  if (changed.has('grade')) { grade(flown); }
}
