// Three strips: cross-track against distance to go, heading and altitude against time, each with its limits as a band.
import { model, seat, mark, three, T, ALT, HDG, HDG_ERR, ALT_ERR, APART, CLEARANCE, LEG, CROSS, TO_GO, LIMIT, LINE } from './model.js';
import { colours } from './theme.js';
import { surface } from './surface.js';

const SPAN_S = 240;

const surfaces = new Map();

const STRIPS = {
  corridor: (flown, all) => corridor(flown, all),
  heading: (flown, all) => against('heading', flown, all, HDG, HDG_ERR, model.hello.heading_limit_deg, 20, 'magnetic', true),
  height: (flown, all) => against('height', flown, all, ALT, ALT_ERR, model.hello.altitude_limit_ft, 300, 'ft', false),
};
const stale = new Set();

for (const id of Object.keys(STRIPS)) {
  surfaces.set(id, surface(document.getElementById(id), () => { stale.add(id); mark('strips'); }));
}

function prepare(id) {
  const { pen, dense, width, height } = surfaces.get(id);
  pen.setTransform(dense, 0, 0, dense, 0, 0);
  pen.fillStyle = colours.field;
  pen.fillRect(0, 0, width, height);
  pen.font = '13px system-ui, sans-serif';
  return { pen, w: width, h: height };
}

// Cut where there is no room for all of it: letters that are pressed together cannot be read.
function cut(pen, text, most) {
  if (pen.measureText(text).width <= most) { return text; }
  let end = text.length - 1;
  while (end > 3 && pen.measureText(text.slice(0, end) + '…').width > most) { end--; }
  return end > 3 ? text.slice(0, end) + '…' : '';
}

function say(pen, text, x, y, align, most) {
  pen.textAlign = align || 'left';
  pen.fillStyle = colours.ink;
  pen.fillText(most === undefined ? text : cut(pen, text, most), x, y);
  pen.textAlign = 'left';
}

function rule(pen, x1, y1, x2, y2, colour, width, dash) {
  pen.setLineDash(dash || []);
  pen.strokeStyle = colour;
  pen.lineWidth = width;
  pen.beginPath();
  pen.moveTo(x1, y1); pen.lineTo(x2, y2);
  pen.stroke();
  pen.setLineDash([]);
}

function curve(pen, points) {
  pen.strokeStyle = colours.track;
  pen.lineWidth = 2.8;
  pen.lineJoin = 'round';
  pen.beginPath();
  let down = false;
  for (const p of points) {
    if (p === null) { down = false; } else if (down) { pen.lineTo(p[0], p[1]); } else { pen.moveTo(p[0], p[1]); down = true; }
  }
  pen.stroke();
  const last = points[points.length - 1];
  if (last) {
    pen.beginPath();
    pen.arc(last[0], last[1], 5, 0, 2 * Math.PI);
    pen.fillStyle = colours.ink;
    pen.fill();
  }
}

// The first of each half pixel's time, so that the same rows stay as time goes on; gaps and the last stay too.
function thinned(rows, w) {
  if (rows.length < 3) { return rows; }
  const step = (rows[rows.length - 1][T] - rows[0][T]) / (2 * Math.max(w, 1));
  let before = -Infinity;
  return rows.filter((row, i) => {
    const part = Math.floor(row[T] / step);
    const stays = part > before || i === rows.length - 1 || row[APART] === 1;
    before = part;
    return stays;
  });
}

// Points of rows, with a gap where no line leads.
const inPieces = (rows, at) => rows.flatMap((row, i) => (row[APART] === 1 ? [null, at(row, i)] : [at(row, i)]));

const withNow = (flown) => (flown.now && (flown.rows.length === 0 || flown.now[T] > flown.rows[flown.rows.length - 1][T])
  ? [...flown.rows, flown.now] : flown.rows);

// A drill in finding out where one is: the page does not tell.
function positionHidden(flown, pen, h) {
  const hidden = Boolean(flown && !flown.now && model.status && !model.status.position);
  if (hidden) { say(pen, 'your position is hidden', 10, h / 2); }
  return hidden;
}

function corridor(flown, all) {
  const { pen, w, h } = prepare('corridor');
  if (positionHidden(flown, pen, h)) { return; }
  const now = flown && flown.now;
  if (!now || now.length <= LEG || now[CROSS] === null || now[TO_GO] === null) {
    const hidden = now && now.length <= LEG;
    say(pen, !flown ? '' : hidden ? 'the line is hidden in this lesson' : flown.next && flown.next.phase === 'holding' ? 'in the hold' : 'no line to be on yet', 10, h / 2);
    return;
  }
  let i = all.length - 1;
  // By the route: an altitude or a speed alone leaves it as it is.
  while (i > 0 && all[i - 1][LINE] === now[LINE] && all[i - 1][LEG] === now[LEG]) { i--; }
  const rows = thinned(all.slice(i).filter((row) => row[CROSS] !== null && row[TO_GO] !== null), w);
  const far = Math.max(...rows.map((row) => row[TO_GO]), now[TO_GO] + 0.5);
  const near = Math.min(...rows.map((row) => row[TO_GO]), 0);
  const most = Math.min(Math.max(...rows.slice(-400).map((row) => Math.abs(row[CROSS])), now[LIMIT]) * 1.15, now[LIMIT] * 6);
  const left = 8, right = w - 8, top = 6, bottom = h - 22;
  const px = (toGo) => right - (toGo - near) / (far - near) * (right - left);
  const py = (cross) => (top + bottom) / 2 + Math.max(-1, Math.min(1, cross / most)) * (bottom - top) / 2;
  pen.fillStyle = colours.band;
  pen.beginPath();
  for (const row of rows) { pen.lineTo(px(row[TO_GO]), py(-row[LIMIT])); }
  pen.lineTo(px(near), py(-now[LIMIT]));
  pen.lineTo(px(near), py(now[LIMIT]));
  for (const row of [...rows].reverse()) { pen.lineTo(px(row[TO_GO]), py(row[LIMIT])); }
  pen.closePath();
  pen.fill();
  rule(pen, left, py(0), right, py(0), colours.ink, 1.4);
  curve(pen, inPieces(rows, (row) => [px(row[TO_GO]), py(row[CROSS])]));
  const leg = flown.amended && flown.amended.clearance === now[CLEARANCE] ? flown.amended.legs[now[LEG]] : '';
  say(pen, (leg || ''), left, h - 6, 'left', right - left - 122);
  say(pen, 'left', right - 4, top + 12, 'right');
  say(pen, 'right', right - 4, bottom - 4, 'right');
  say(pen, '±' + now[LIMIT].toFixed(2) + ' NM, end ▸', right, h - 6, 'right');
}

function against(id, flown, all, value, error, limit, least, unit, turning) {
  const { pen, w, h } = prepare(id);
  if (positionHidden(flown, pen, h)) { return; }
  const end = flown && flown.now ? flown.now[T] : 0;
  const from = Math.max(0, end - SPAN_S);
  let i = all.length;
  while (i > 0 && all[i - 1][T] >= from - 2) { i--; }
  const rows = thinned(all.slice(i).filter((row) => row[value] !== null), w);
  if (rows.length === 0) {
    say(pen, flown && flown.now ? 'not sent by the simulator' : '', 10, h / 2);
    return;
  }
  // Directions unrolled, so that a turn through north draws no leap.
  let before = null;
  const values = rows.map((row) => {
    let v = row[value];
    if (turning && before !== null) { v = before + ((v - before + 540) % 360 + 360) % 360 - 180; }
    before = v;
    return v;
  });
  const bands = rows.map((row, k) => (row[error] === null ? null : values[k] - row[error]));
  let low = Math.min(...values), high = Math.max(...values);
  for (const b of bands) { if (b !== null) { low = Math.min(low, b - limit); high = Math.max(high, b + limit); } }
  const room = Math.max(0, least - (high - low)) / 2 + (high - low) * 0.06;
  low -= room; high += room;
  const left = 46, right = w - 10, top = 6, bottom = h - 22;
  const px = (t) => left + (t - from) / SPAN_S * (right - left);
  const py = (v) => bottom - (v - low) / (high - low) * (bottom - top);
  const within = () => { pen.save(); pen.beginPath(); pen.rect(left, 0, right - left + 8, bottom + 2); pen.clip(); };
  within();
  pen.fillStyle = colours.band;
  // One rectangle for as long as the limits stay as they are.
  for (let k = 1, began = 0; k < rows.length; k++) {
    if (bands[k] === null) { began = k; continue; }
    if (k + 1 < rows.length && bands[k + 1] !== null && Math.abs(bands[k + 1] - bands[k]) < 0.05) { continue; }
    const x = px(rows[began][T]), y = py(bands[k] + limit);
    pen.fillRect(x, y, px(rows[k][T]) - x, py(bands[k] - limit) - y);
    rule(pen, x, y, px(rows[k][T]), y, colours.soft, 1);
    rule(pen, x, py(bands[k] - limit), px(rows[k][T]), py(bands[k] - limit), colours.soft, 1);
    began = k;
  }
  pen.restore();
  rule(pen, left, top, left, bottom, colours.ink, 1.2);
  const show = (v) => (turning ? three(v) : String(Math.round(v)));
  const step = (turning ? [5, 10, 20, 30, 60, 90, 180] : [50, 100, 200, 500, 1000, 2000, 5000, 10000])
    .find((each) => (high - low) / each <= 4) || 20000;
  for (let v = Math.ceil(low / step) * step; v <= high; v += step) {
    if (py(v) > top + 4 && py(v) < bottom - 2) {
      rule(pen, left, py(v), right, py(v), colours.rule, 1);
      say(pen, show(v), left - 6, py(v) + 5, 'right');
    }
  }
  within();
  curve(pen, inPieces(rows, (row, k) => [px(row[T]), py(values[k])]));
  pen.restore();
  say(pen, unit, left, h - 6, 'left', right - left - 44);
  say(pen, SPAN_S / 60 + ' min', right, h - 6, 'right');
}

// One strip at a time, or all of them at once: in half a second a strip moves by less than a pixel.
export function drawStrips(changed, all) {
  if (!model.hello) {
    for (const id of Object.keys(STRIPS)) { if (surfaces.get(id).ready()) { prepare(id); } }
    return;
  }
  if (all || changed) { Object.keys(STRIPS).forEach((id) => stale.add(id)); }
  const flown = seat();
  for (const id of all ? [...stale] : [...stale].slice(0, 1)) {
    stale.delete(id);
    if (surfaces.get(id).ready()) { STRIPS[id](flown, flown ? withNow(flown) : []); }
  }
  if (stale.size > 0) { mark('strips'); }
}
