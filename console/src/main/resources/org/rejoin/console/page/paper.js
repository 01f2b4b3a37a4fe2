// A drill on paper: the clearance over the chart, answered with keys or by drawing, timed, marked element by element.
import { html, useState, useEffect, useAsked, tell, clock, Trouble, Working } from '/pieces.js';

const MILE = 10; // units of the drawing to a nautical mile
const EARTH_NM = 3440.07;
const STEP_NM = 1, FINE_NM = 0.2;
const rad = (deg) => deg * Math.PI / 180, deg = (x) => x * 180 / Math.PI;

// Azimuthal equidistant about the middle: directions and miles from there are true, anywhere on earth.
export function projection(middle) {
  const lat0 = rad(middle[0]), lon0 = rad(middle[1]);
  return {
    to(lat, lon) {
      const p = rad(lat), l = rad(lon) - lon0;
      const c = Math.acos(Math.max(-1, Math.min(1, Math.sin(lat0) * Math.sin(p) + Math.cos(lat0) * Math.cos(p) * Math.cos(l))));
      const k = (c < 1e-12 ? 1 : c / Math.sin(c)) * EARTH_NM * MILE;
      return [k * Math.cos(p) * Math.sin(l), -k * (Math.cos(lat0) * Math.sin(p) - Math.sin(lat0) * Math.cos(p) * Math.cos(l))];
    },
    from(x, y) {
      const px = x / MILE / EARTH_NM, py = -y / MILE / EARTH_NM, c = Math.hypot(px, py);
      if (c < 1e-12) { return [middle[0], middle[1]]; }
      const lat = Math.asin(Math.cos(c) * Math.sin(lat0) + py * Math.sin(c) * Math.cos(lat0) / c);
      const lon = lon0 + Math.atan2(px * Math.sin(c), c * Math.cos(lat0) * Math.cos(c) - py * Math.sin(lat0) * Math.sin(c));
      return [deg(lat), ((deg(lon) + 540) % 360) - 180];
    },
  };
}

const spot = (each) => [each.latitude_deg, each.longitude_deg];
const words = (points) => points.map(([lat, lon]) => lat.toFixed(5) + ',' + lon.toFixed(5)).join(' ');
const places = (text) => text.trim().split(/[ ;]+/).map((each) => each.split(',').map(Number)).filter((each) => each.length === 2 && each.every(Number.isFinite));
const ring = (r, n, turn) => Array.from({ length: n }, (none, i) => [r * Math.sin(turn + i * 2 * Math.PI / n), -r * Math.cos(turn + i * 2 * Math.PI / n)].map((v) => v.toFixed(1)).join(',')).join(' ');

// A compass rose stands round each station, turned to its own north: radials are read off it.
function Rose({ at, each }) {
  if (each.north_deg === undefined) { return null; }
  const marks = Array.from({ length: 36 }, (none, i) => {
    const a = rad(i * 10 + each.north_deg), long = i % 3 === 0 ? 12 : 6, r = 60;
    return html`<line x1=${r * Math.sin(a)} y1=${-r * Math.cos(a)} x2=${(r - long) * Math.sin(a)} y2=${-(r - long) * Math.cos(a)} />`;
  });
  const figures = [0, 90, 180, 270].map((d) => { const a = rad(d + each.north_deg); return html`<text x=${74 * Math.sin(a)} y=${-74 * Math.cos(a) + 5} text-anchor="middle">${d === 0 ? '360' : String(d).padStart(3, '0')}</text>`; });
  return html`<g class="rose" transform=${'translate(' + at.join(' ') + ')'}><circle r="60" />${marks}${figures}</g>`;
}

function Ground({ sheet, to, half }) {
  const at = (each) => to(...spot(each));
  const line = (points) => points.map((each) => at(each).map((v) => v.toFixed(1)).join(',')).join(' ');
  return html`<g class="ground"><polyline class="filed" points=${line(sheet.filed)} />
    ${sheet.chart.airways.map((each) => { const a = at(each.points[0]), b = at(each.points[1]); return html`<polyline class="airway" points=${line(each.points)} />
      <text class="name" x=${(a[0] + b[0]) / 2 + 8} y=${(a[1] + b[1]) / 2 - 8}>${each.ident}</text>`; })}
    ${sheet.chart.stations.map((each) => { const p = at(each); return html`<${Rose} at=${p} each=${each} /><polygon class="station" points=${ring(9, each.kind === 'ndb' ? 12 : 6, Math.PI / 6)} transform=${'translate(' + p.join(' ') + ')'} />
      <text class="ident" x=${p[0]} y=${p[1] + 32} text-anchor="middle">${each.ident}</text>`; })}
    ${sheet.chart.fixes.map((each) => { const p = at(each), left = p[0] > half - 8 * MILE; return html`<polygon class="fix" points=${ring(8, 3, 0)} transform=${'translate(' + p.join(' ') + ')'} /><text class="name" x=${p[0] + (left ? -12 : 12)} y=${p[1] + 5} text-anchor=${left ? 'end' : 'start'}>${each.ident}</text>`; })}
    <g class="aircraft" transform=${'translate(' + at(sheet.aircraft).join(' ') + ') rotate(' + sheet.aircraft.heading_true_deg + ')'}><path d="M0 -17V14M-13 -3H13M-6 12H6" /></g></g>`;
}

function Drawn({ points, to, className }) {
  const p = points.map((each) => to(...each));
  if (p.length === 0) { return null; }
  if (p.length === 1) { return html`<g class=${className}><circle cx=${p[0][0]} cy=${p[0][1]} r="11" /><path d=${'M' + (p[0][0] - 16) + ' ' + p[0][1] + 'h32M' + p[0][0] + ' ' + (p[0][1] - 16) + 'v32'} /></g>`; }
  const a = Math.atan2(p[1][1] - p[0][1], p[1][0] - p[0][0]);
  const wing = (side) => (p[1][0] - 26 * Math.cos(a + side)).toFixed(1) + ' ' + (p[1][1] - 26 * Math.sin(a + side)).toFixed(1);
  return html`<g class=${className}><path d=${'M' + p[0].join(' ') + 'L' + p[1].join(' ') + 'M' + wing(0.4) + 'L' + p[1].join(' ') + 'L' + wing(-0.4)} /></g>`;
}

// The chart: what is drawn on it is an answer. Pointer, finger, or a cross that the arrow keys move.
function Chart({ sheet, tool, answers, give, result }) {
  const all = [...sheet.filed, sheet.aircraft].map(spot);
  const first = projection(spot(sheet.aircraft));
  const flat = all.map((each) => first.to(...each));
  const range = (i) => [Math.min(...flat.map((each) => each[i])), Math.max(...flat.map((each) => each[i]))];
  const [x, y] = [range(0), range(1)];
  const middle = first.from((x[0] + x[1]) / 2, (y[0] + y[1]) / 2);
  const { to, from } = projection(middle);
  const half = Math.max(x[1] - x[0], y[1] - y[0]) / 2 + 12 * MILE;
  const [cross, move] = useState([0, 0]);
  const [begun, begin] = useState(null);
  const place = (event) => {
    const svg = event.currentTarget, point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    return [point.x, point.y];
  };
  const set = (a, b) => give(tool.code, words((b ? [a, b] : [a]).map((each) => from(...each))));
  const down = (event) => {
    if (!tool) { return; }
    event.preventDefault();
    event.currentTarget.focus();
    event.currentTarget.setPointerCapture(event.pointerId);
    const at = place(event);
    move(at);
    if (tool.kind === 'point') { set(at); } else { begin(at); }
  };
  const drag = (event) => { if (tool && begun && event.currentTarget.hasPointerCapture(event.pointerId)) { const at = place(event); move(at); if (Math.hypot(at[0] - begun[0], at[1] - begun[1]) > MILE) { set(begun, at); } } };
  const key = (event) => {
    const step = (event.shiftKey ? FINE_NM : STEP_NM) * MILE;
    const go = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[event.key];
    if (go) { event.preventDefault(); move((now) => [now[0] + go[0], now[1] + go[1]]); }
    else if (tool && event.key === 'Enter') {
      event.preventDefault();
      if (tool.kind === 'point') { set(cross); } else if (begun) { set(begun, cross); begin(null); } else { begin(cross); }
    } else if (tool && event.key === 'Escape') { begin(null); give(tool.code, ''); }
  };
  const box = [-half, -half, 2 * half, 2 * half].map((v) => v.toFixed(0)).join(' ');
  const at = from(...cross);
  const [hint, say] = ['Arrow keys move the cross a mile, with Shift a fifth of one; Enter sets a point of what is drawn, Escape takes it away.', tool ? (tool.kind === 'point' ? 'Tap the place, or move the cross and press Enter.' : begun ? 'Now its end.' : 'Drag along the line the way it is flown, or set its beginning and its end with Enter.') : result ? '' : 'Choose what to draw.'];
  return html`<div class="paper-chart"><svg id="paper-chart" viewBox=${box} tabindex="0" role="img" data-middle=${middle.join(',')} aria-label=${'Chart to draw on, true north up. ' + hint} class=${tool ? 'drawing' : ''}
      onPointerDown=${down} onPointerMove=${drag} onPointerUp=${() => begin(null)} onPointerCancel=${() => begin(null)} onKeyDown=${key}>
      <${Ground} sheet=${sheet} to=${to} half=${half} />
      ${sheet.drawings.map((each) => html`<${Drawn} points=${places(answers[each.code] || '')} to=${to} className="drawn" />`)}
      ${result ? result.elements.filter((each) => each.code.startsWith('DRAW_')).map((each) => html`<${Drawn} points=${places(each.answer)} to=${to} className="right-line" />`) : null}
      ${tool ? html`<path class="cross" d=${'M' + (cross[0] - 20) + ' ' + cross[1] + 'h40M' + cross[0] + ' ' + (cross[1] - 20) + 'v40'} />` : null}</svg>
    <p class="soft" role="status" id="paper-say">${say}${tool ? ' Cross at ' + at[0].toFixed(3) + ', ' + at[1].toFixed(3) + '.' : ''}</p></div>`;
}

function Answer({ each, value, give }) {
  const choices = each.among;
  if (choices) {
    return html`<fieldset class="ask"><legend>${each.ask}</legend>${choices.map((one) => html`<label><input type="radio" name=${'q-' + each.code} value=${one} checked=${value === one} onChange=${() => give(each.code, one)} /> ${one}</label>`)}</fieldset>`;
  }
  return html`<label class="ask">${each.ask} <input type="text" id=${'q-' + each.code} value=${value || ''} autocomplete="off" inputmode=${each.kind === 'idents' ? 'text' : 'decimal'} onInput=${(e) => give(each.code, e.target.value)} /></label>`;
}

function Marked({ result }) {
  return html`<section aria-labelledby="marked-title"><h3 id="marked-title" tabindex="-1">${result.right} of ${result.asked} right${result.seconds > 0 ? ' in ' + clock(result.seconds) : ''}</h3>
    <ol class="plain marked">${result.elements.map((each) => html`<li><p><b>${each.right ? '✓ ' : '▲ wrong: '}</b>${each.ask}</p>
      ${each.right ? null : html`<p>${each.given === '' ? 'No answer' : each.code.startsWith('DRAW_') ? 'Your answer is what is drawn' : 'Your answer: ' + each.given}. Correct: ${each.code.startsWith('DRAW_') ? 'what the chart shows now' : each.answer}${each.near ? ', ' + each.near : ''}.</p>`}
      <p class="soft">${each.working}</p></li>`)}</ol></section>`;
}

function Sheet({ sheet, pilot, another }) {
  const [answers, set] = useState({});
  const [tool, choose] = useState(null);
  const [result, mark] = useState(null);
  const [trouble, complain] = useState('');
  const [sent, send] = useState(false);
  const [time] = useState(() => ({ last: performance.now(), seconds: {} }));
  useEffect(() => { if (result) { document.getElementById('marked-title').focus(); } }, [result]);
  const give = (code, text) => {
    if (result) { return; }
    const now = performance.now();
    time.seconds[code] = (time.seconds[code] || 0) + (now - time.last) / 1000;
    time.last = now;
    set((before) => ({ ...before, [code]: text }));
  };
  const done = async (event) => {
    event.preventDefault();
    if (sent) { return; }
    send(true);
    complain('');
    choose(null);
    try { mark(await tell('paper', { pilot, seed: sheet.seed, answers, seconds: time.seconds })); } catch (why) { complain(why.message); } finally { send(false); }
  };
  return html`<p class="next-text">${sheet.say}</p>${sheet.lines.slice(0, -1).map((each) => html`<p>${each}</p>`)}
    <div class="paper-columns"><div><div class="row" role="group" aria-label="Draw on the chart">${sheet.drawings.map((each) => html`<button type="button" id=${'draw-' + each.code} aria-pressed=${tool === each ? 'true' : 'false'} disabled=${result !== null} onClick=${() => choose(tool === each ? null : each)}>${answers[each.code] ? '✓ ' : ''}${each.ask}</button>`)}</div>
      <${Chart} sheet=${sheet} tool=${result ? null : tool} answers=${answers} give=${give} result=${result} /></div>
    <div>${result ? html`<${Marked} result=${result} /><div class="row"><button type="button" id="another" onClick=${another}>Another one</button></div>`
      : html`<form class="asks" onSubmit=${done}>${sheet.questions.map((each) => html`<${Answer} each=${each} value=${answers[each.code]} give=${give} />`)}
        <div class="row"><button type="submit" id="mark-paper" disabled=${sent}>Mark it</button></div></form>`}<${Trouble} text=${trouble} /></div></div>`;
}

export function Paper({ pilot }) {
  const [count, again] = useState(0);
  const [sheet, trouble] = useAsked('paper?pilot=' + encodeURIComponent(pilot), pilot + count);
  return html`<section class="wide card" aria-labelledby="paper-title"><h2 id="paper-title">On paper</h2>
    <p class="soft">Work the clearance out before anything is shown; the time is taken. What stays empty counts as not known.</p>
    ${sheet ? html`<${Sheet} key=${pilot + sheet.seed + '-' + count} sheet=${sheet} pilot=${pilot} another=${() => again(count + 1)} />` : html`<${Working} trouble=${trouble} />`}</section>`;
}
