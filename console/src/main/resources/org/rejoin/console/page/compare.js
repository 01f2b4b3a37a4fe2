// Two or more attempts beside one another: what changed from the first to the last, in numbers and on one plot.
import { html, useState, useMemo } from '/preact.js';
import { when } from '/pieces.js';
import { LEG, CROSS, TO_GO, LIMIT, LINE, fixed, measuredOf, markOf, scoreOf } from '/model.js';
import { Plot } from '/plot.js';

const MOST_POINTS = 400;

const name = (attempt) => when(attempt.began_utc).slice(0, 16) + (attempt.pilot ? ' ' + attempt.pilot : '');
const criterion = (attempt, code) => (attempt.grade ? attempt.grade.criteria.find((each) => each.code === code) : undefined);
const say = (each) => (each === undefined ? '–' : markOf(each) + ' ' + measuredOf(each));

function Table({ attempts }) {
  const codes = new Map();
  for (const attempt of attempts) { for (const each of attempt.grade ? attempt.grade.criteria : []) { if (!codes.has(each.code)) { codes.set(each.code, each.title); } } }
  const first = attempts[0], last = attempts[attempts.length - 1];
  const change = (was, is) => (was === undefined || is === undefined || was === null || is === null ? '' : (is - was >= 0 ? '+' : '−') + fixed(Math.abs(is - was), 1));
  return html`<div class="scroll" tabindex="0" role="region" aria-label="What changed"><table class="criteria"><thead><tr><th scope="col">What</th>${attempts.map((each) => html`<th scope="col" key=${each.id}>${name(each)}</th>`)}<th scope="col">Change in points, first to last</th></tr></thead><tbody>
    <tr><th scope="row">Score</th>${attempts.map((each) => html`<td class="figure strong">${scoreOf(each.grade && each.grade.score)}</td>`)}<td class="figure">${change(first.grade && first.grade.score, last.grade && last.grade.score)}</td></tr>
    <tr><th scope="row">Faults</th>${attempts.map((each) => html`<td class="figure">${each.grade ? each.grade.faults.length : '–'}</td>`)}<td></td></tr>
    ${[...codes].map(([code, title]) => html`<tr key=${code}><th scope="row">${title}</th>${attempts.map((each) => html`<td class="figure">${say(criterion(each, code))}</td>`)}
      <td class="figure">${change(criterion(first, code)?.points, criterion(last, code)?.points)}</td></tr>`)}</tbody></table></div>`;
}

// What was flown by the route in force at the end: a clearance that was withdrawn, or gave way to another, had another line.
const stands = (rows) => {
  const last = rows.findLast((row) => row[LINE] > 0);
  return last ? rows.filter((row) => row[LINE] === last[LINE]) : [];
};

// How far off the line of one leg, against the distance to its end.
function lines(seats, leg) {
  return seats.map(({ label, rows }) => {
    const on = stands(rows).filter((row) => row[LEG] === leg && row[CROSS] !== null && row[TO_GO] !== null && row[CROSS] !== undefined);
    const step = Math.max(1, Math.ceil(on.length / MOST_POINTS));
    return { name: label, points: on.filter((row, i) => i % step === 0).map((row) => [row[TO_GO], row[CROSS]]).sort((a, b) => a[0] - b[0]) };
  }).filter((each) => each.points.length > 1);
}

// The limit where it is the same all along; a needle's grows with the distance from its station.
function bandOf(seats, leg) {
  const limits = seats.flatMap(({ rows }) => stands(rows).filter((row) => row[LEG] === leg && row[LIMIT] !== undefined).map((row) => row[LIMIT]));
  const low = Math.min(...limits), high = Math.max(...limits);
  return high - low < 0.02 ? [-high, high] : null;
}

const FAR = { name: 'distance to the end of the leg, NM', say: (v) => v.toFixed(0), backward: true };

// attempts: whole ones, by date. seats: label and rows of each that lies on the plan, likewise. legs: of the route, in words.
export function Compared({ attempts, seats, legs }) {
  const flown = [...new Set(seats.flatMap(({ rows }) => stands(rows).filter((row) => row[CROSS] !== null && row[CROSS] !== undefined).map((row) => row[LEG])))].sort((a, b) => a - b);
  const [chosen, choose] = useState(null);
  const leg = chosen ?? flown[0];
  const series = useMemo(() => lines(seats, leg), [seats, leg]);
  const off = useMemo(() => {
    const band = bandOf(seats, leg);
    // Near the line it matters; far off, on the way to it, may lie outside the plot.
    const reach = Math.min(band ? 1.6 * band[1] : Infinity, Math.max(0.1, ...series.flatMap(({ points }) => points.map(([, cross]) => Math.abs(cross)))) * 1.06);
    return { name: 'off the line, NM, right +', say: (v) => v.toFixed(2), from: -reach, to: reach, band, lines: [{ value: 0, name: '' }] };
  }, [seats, leg, series]);
  return html`<section class="card" aria-labelledby="changed-title" id="changed"><h2 id="changed-title">What changed</h2><${Table} attempts=${attempts} />
    ${flown.length > 1 ? html`<label>Leg <select id="leg" onChange=${(e) => choose(Number(e.target.value))}>${flown.map((each) => html`<option value=${each} selected=${each === leg}>${legs[each] || 'leg ' + (each + 1)}</option>`)}</select></label>` : null}
    ${series.length > 0 ? html`<${Plot} label=${'Off the line of ' + (legs[leg] || 'the leg') + ' against the distance to its end, of each attempt; the shaded part is within the limit'} x=${FAR} y=${off} series=${series} height=${240} />` : null}</section>`;
}
