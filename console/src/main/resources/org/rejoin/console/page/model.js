// What the page knows of the flight: filled from the stream, read by everything that draws. Text stays text.
import { NOWHERE, around } from './view.js';
import { stream } from './server.js';

// Columns of a row, as the server writes them (Row.java).
export const T = 0, X = 1, Y = 2, TRACK = 3, SPEED = 4, ALT = 5, HDG = 6, HDG_ERR = 7, ALT_ERR = 8, APART = 9,
  CLEARANCE = 10, LEG = 11, CROSS = 12, TO_GO = 13, LIMIT = 14, LINE = 15;

const two = (n) => String(n).padStart(2, '0');
// Of the tenths, as log, sheet and terminal have them, the whole seconds: 408.97 is 6:49.0 there and 6:49 here.
export const clock = (t) => {
  const s = Math.floor(Math.round(t * 10) / 10);
  return (s >= 3600 ? Math.floor(s / 3600) + ':' : '') + two(Math.floor(s / 60) % 60) + ':' + two(s % 60);
};

// A direction in three figures; north is 360.
export const three = (deg) => String(((Math.round(deg) - 1) % 360 + 360) % 360 + 1).padStart(3, '0');

// As exact as the eye can use it.
const DIGITS = { NM: 2, deg: 1, ft: 0, kt: 0, s: 0, count: 0 };
// Of several clearances together a criterion may be judged for one and not for another: then it has points, and its measure is shown.
const isJudged = (criterion) => criterion.max_points > 0;
export const measuredOf = (criterion) => (isJudged(criterion) ? figure(criterion.measured, criterion.unit) + (criterion.not_judged ? ', in part not judged' : '') : 'not judged');
export const markOf = (criterion) => (criterion.met === true ? '✓' : criterion.met === false ? '▲' : '–');
export const pointsOf = (criterion) => (isJudged(criterion) ? fixed(Number(criterion.points), 1) + ' of ' + criterion.max_points : 'none');
// As sheet and terminal round it, half up in the decimals that were sent: 0.045 is 0.05, 9.85 is 9.9.
export const fixed = (value, digits) => { const up = Math.round(Number(value + 'e' + digits)); return Number.isFinite(up) ? (up / 10 ** digits).toFixed(digits) : value.toFixed(digits); };
// A score as everybody says it; a dash where nothing was judged.
export const scoreOf = (score) => (score === null || score === undefined ? '–' : fixed(Number(score), 1));
export const figure = (value, unit) => (value === null || value === undefined ? '' : fixed(Number(value), DIGITS[unit] ?? 1) + (unit === 'count' ? '' : ' ' + unit));

const MOST_ROWS = 8000;
const MOST_LINES = 20000;

export const model = {
  hello: null, status: null, seats: new Map(), chosen: null, connected: false, preview: null,
  all: false, // a map of all seats: nobody is chosen
  whole: false, // whether all of every track is shown, not only what is recent
  other: null, // another flight over the flown one: rows, begins, line, near, drawn
  changed: new Set(), // what must be drawn again: 'plan', 'moved', 'strips', 'seats', 'text', 'log', 'grade', 'status', 'data'; 'chosen': all at once
};

export function seat() {
  return model.seats.get(model.chosen) || null;
}

// Who is told of something; hear() gives what ends it.
function telling() {
  const acts = new Set();
  return { tell(...what) { for (const act of acts) { act(...what); } }, hear(act) { acts.add(act); return () => acts.delete(act); } };
}

const choosing = telling(), called = telling(), takenBack = telling(), readBack = telling(), marked = telling();
let told = false; // everything that was before
let opened = false; // told once

// What was said or worked out for one seat is not left standing for the next.
export const whenAnotherIsChosen = choosing.hear;

// Each clearance of the seat that is looked at: fresh where it may have been issued since the page was opened; null where there is none.
export function whenCleared(act) {
  act(seat()?.cleared ?? null, false);
  return called.hear(act);
}

// Each "disregard" to the seat that is looked at, while it is looked at.
export const whenTakenBack = takenBack.hear;

// Each readback of the seat that is looked at.
export const whenReadBack = readBack.hear;

// Who draws.
export const whenMarked = marked.hear;

const tellCleared = (fresh) => called.tell(seat()?.cleared ?? null, fresh);

export function choose(name) {
  if (name !== model.chosen) {
    model.chosen = name;
    model.preview = null;
    choosing.tell();
    if (told) { tellCleared(false); }
  }
  mark('plan', 'seats', 'text', 'log', 'grade', 'chosen');
}

function newSeat(name, label) {
  return {
    name, label, rows: [], box: NOWHERE, now: null, lines: [], logged: 0, fresh: 0, amended: null, cleared: null, radio: null, readbacks: new Map(), next: null, grade: null,
    over: false, state: 'WAITING', heardAt: -Infinity,
  };
}

function seatOf(message) {
  let found = model.seats.get(message.seat);
  if (!found) {
    found = newSeat(message.seat, message.label || message.seat);
    model.seats.set(message.seat, found);
    if (model.chosen === null && !model.all) { model.chosen = message.seat; }
    mark('seats', 'plan', 'log');
  }
  return found;
}

export function mark(...what) {
  for (const each of what) { model.changed.add(each); }
  marked.tell();
}

function markText(found) {
  if (found.name === model.chosen) { mark('text'); }
}

function line(found, entry) {
  found.lines.push(entry);
  found.logged++;
  if (found.lines.length > MOST_LINES) { found.lines.splice(0, found.lines.length - MOST_LINES); found.fresh = -1; }
  if (found.name === model.chosen) { mark('log', 'plan'); }
}

const takers = {
  age(m) {
    const found = seatOf(m);
    found.state = m.state;
    found.heardAt = performance.now() - m.age_s * 1000;
    mark('data');
  },
  nothing() { model.hello = null; model.seats.clear(); model.chosen = null; mark('plan', 'seats', 'text', 'log', 'grade', 'status'); },
  hello(m) {
    told = false;
    model.hello = m;
    model.seats.clear();
    model.status = null;
    mark('plan', 'seats', 'text', 'log', 'grade', 'status');
  },
  status(m) { model.status = m; mark('status', 'text', 'grade'); },
  // Who is on the map of the room, and who is off a limit now.
  here(m) {
    const here = new Set(m.seats.map((each) => each.seat));
    for (const name of [...model.seats.keys()]) { if (!here.has(name)) { model.seats.delete(name); } }
    for (const each of m.seats) { const found = seatOf(each); found.label = each.label; found.off = each.off; }
    mark('plan');
  },
  seat(m) { seatOf(m).radio = m.radio ?? null; },
  rows(m) {
    const found = seatOf(m);
    for (const row of m.rows) { found.rows.push(row); found.box = around(found.box, row[X], row[Y]); }
    if (found.rows.length > MOST_ROWS) {
      found.rows = found.rows.filter((row, i) => i % 2 === 0 || row[APART] === 1);
    }
    if (m.now) { found.now = m.now; }
    mark('moved', 'seats');
    markText(found);
  },
  event(m) { line(seatOf(m), { kind: 'event', t: m.t, name: m.name, clock: m.clock, text: m.text }); },
  note(m) { line(seatOf(m), { kind: 'note', t: null, name: 'note', clock: '', text: m.text }); },
  remark(m) { line(seatOf(m), { kind: m.kind || 'remark', t: m.t, name: 'remark', clock: m.clock, text: m.text }); },
  next(m) { seatOf(m).next = m; markText(seatOf(m)); },
  amended(m) { seatOf(m).amended = m.clearance ? m : null; mark('plan', 'text'); },
  readback(m) {
    seatOf(m).readbacks.set(m.clearance, m);
    if (told && m.seat === model.chosen) { readBack.tell(); }
  },
  disregard(m) {
    const found = seatOf(m);
    const fresh = m.number > (found.disregarded ?? 0);
    found.disregarded = m.number;
    if (told && fresh && m.seat === model.chosen) { takenBack.tell(m); }
  },
  cleared(m) {
    seatOf(m).cleared = m.clearance ? m : null;
    if (told && m.seat === model.chosen) { tellCleared(true); }
  },
  grade(m) {
    const found = seatOf(m), before = found.grade;
    found.grade = m.grade;
    mark('seats');
    if (m.seat !== model.chosen) { return; }
    mark('grade', 'log');
    if (!before || before.faults.length !== m.grade.faults.length) { mark('plan'); }
  },
  over(m) { seatOf(m).over = true; mark('text', 'seats', 'grade'); },
  ready() {
    if (model.seats.has(model.chosen)) { choose(model.chosen); } else { choose(model.seats.keys().next().value ?? null); }
    told = true;
    tellCleared(opened);
    readBack.tell();
    opened = true;
    mark('status');
  },
};

// What a stream tells, as text of its own.
export const messages = (text) => text.split('\n').filter((line) => line.startsWith('data: ')).map((line) => JSON.parse(line.slice(6)));

export function takeMessage(message) {
  const taker = Object.hasOwn(takers, message.k) ? takers[message.k] : null;
  if (taker) { taker(message); }
}

// Seconds since a seat was heard; also where the program itself is silent.
export const ageS = (found) => (performance.now() - found.heardAt) / 1000;
const OLD_S = 3;
export const isOld = (found) => !found.over && found.state !== 'WAITING' && (found.state === 'SILENT' || ageS(found) > OLD_S);

export function connect(path) {
  setInterval(() => mark('data'), 500);
  stream(path, {
    open() { model.connected = true; mark('status'); },
    lost() { model.connected = false; mark('status'); },
    told(text) { text.split('\n').forEach((line) => takeMessage(JSON.parse(line))); }, // all that is new at one time
  });
}

// The event each fault was found in; the rest have the same name.
const FAULT_EVENTS = {
  HEADING_NOT_HELD: 'heading_deviation_began', ALTITUDE_NOT_HELD: 'altitude_deviation_began',
  SPEED_NOT_HELD: 'speed_deviation_began',
  NOT_ACHIEVED: 'amendment_not_achieved',
};

export function faultKeys(grade) {
  return new Set((grade ? grade.faults : []).map((fault) =>
    (FAULT_EVENTS[fault.code] || fault.code.toLowerCase()) + '@' + Number(fault.at_s).toFixed(2)));
}

export function rowAt(rows, t) {
  let low = 0;
  let high = rows.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (rows[middle][T] <= t + 0.01) { low = middle; } else { high = middle - 1; }
  }
  return rows[low] || null;
}
