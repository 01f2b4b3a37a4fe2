// Numbers against one another, with axes, units and limits, in the page's own colours. What is drawn stands in words or in a
// table beside it: a drawing is not heard.
import uPlot from '/uplot.js';
import { html, useEffect, useRef } from '/preact.js';
import { colours, readColours } from '/theme.js';

// A line is known by its dash and its mark too, not by its colour alone.
const STYLES = [
  { colour: 'track', dash: [], width: 2.6 }, { colour: 'radial', dash: [9, 5], width: 2.4 },
  { colour: 'heading', dash: [2, 4], width: 3 }, { colour: 'soft', dash: [14, 4, 2, 4], width: 2 },
];
const FONT = '13px system-ui, sans-serif';

// Lines with x of their own become columns over all x; null where a line has no point (then it is drawn through).
function columns(series) {
  const tables = series.map(({ points }) => [points.map(([at]) => at), points.map(([, value]) => value)]);
  return tables.length === 0 ? [[]] : uPlot.join(tables, tables.map(() => [1]));
}

function axis({ name, say, every }, side, grid) {
  return {
    scale: side, side: side === 'x' ? 2 : 3, label: name, labelFont: '600 ' + FONT, labelSize: 20, font: FONT, size: side === 'x' ? 30 : 58, gap: 4,
    stroke: () => colours.ink, ticks: { stroke: () => colours.soft, width: 1, size: 5 }, grid: { show: grid, stroke: () => colours.rule, width: 1 },
    values: (plot, splits) => splits.map((value) => (value === null ? '' : say(value))), ...(every ? { incrs: every } : {}),
  };
}

// Limits as a band or as lines with their names, under what was measured.
function drawLimits(plot, { band, lines }) {
  const pen = plot.ctx, { left, top, width, height } = plot.bbox, dense = uPlot.pxRatio;
  pen.save();
  pen.beginPath();
  pen.rect(left, top, width, height);
  pen.clip();
  for (const [low, high] of band ? [band] : []) {
    pen.fillStyle = colours.band;
    pen.fillRect(left, plot.valToPos(high, 'y', true), width, plot.valToPos(low, 'y', true) - plot.valToPos(high, 'y', true));
  }
  pen.font = 13 * dense + 'px system-ui, sans-serif';
  for (const { value, name } of lines || []) {
    const y = plot.valToPos(value, 'y', true);
    pen.strokeStyle = colours.soft;
    pen.lineWidth = 1.4 * dense;
    pen.setLineDash([6 * dense, 4 * dense]);
    pen.beginPath();
    pen.moveTo(left, y); pen.lineTo(left + width, y);
    pen.stroke();
    pen.fillStyle = colours.ink;
    pen.textAlign = 'right';
    pen.fillText(name, left + width - 4 * dense, y - 4 * dense);
  }
  pen.restore();
}

function options(of, width, height, read) {
  const range = ({ from, to }) => (plot, low, high) => (low === null ? [from ?? 0, to ?? 1] : [
    from ?? low - (high - low || 1) * 0.06, to ?? high + (high - low || 1) * 0.06]);
  return {
    width, height, legend: { show: false }, padding: [10, 12, 0, 0],
    cursor: { drag: { setScale: false, x: false, y: false }, points: { show: false }, y: false },
    scales: { x: { time: false, dir: of.x.backward ? -1 : 1, range: range(of.x) }, y: { range: range(of.y) } },
    axes: [axis(of.x, 'x', false), axis(of.y, 'y', true)],
    series: [{}, ...of.series.map((each, i) => {
      const style = STYLES[i % STYLES.length];
      return {
        label: each.name, stroke: () => colours[style.colour], width: each.marks === 'only' ? 0 : style.width, dash: style.dash, spanGaps: true,
        points: { show: Boolean(each.marks), size: 9, width: 2, dash: [], stroke: () => colours[style.colour], fill: () => colours.paper },
      };
    })],
    hooks: { drawClear: [(plot) => drawLimits(plot, of.y)], setCursor: [read] },
  };
}

// What the lines are under the pointer.
function readAt(of, data, i) {
  if (i === null || i === undefined) { return ''; }
  const values = of.series.map((each, k) => [each.name, data[k + 1][i]]).filter(([, value]) => value !== null && value !== undefined);
  return values.length === 0 ? '' : of.x.say(data[0][i]) + ': ' + values.map(([name, value]) => name + ' ' + of.y.say(value)).join(', ');
}

function Sample({ style }) {
  const { colour, dash, width } = STYLES[style % STYLES.length];
  return html`<svg width="34" height="10" aria-hidden="true"><line x1="1" y1="5" x2="33" y2="5" stroke=${'var(--' + colour + ')'} stroke-width=${width} stroke-dasharray=${dash.join(' ')} /></svg>`;
}

// label: one sentence that says what is seen. x and y: name with unit, say (number to text); from, to where fixed; x may be backward; of y also
// band [low, high] and lines [{ value, name }]. series: name, points [[x, y], ...] by x, marks (true or 'only'); it is drawn anew
// where it is another array.
export function Plot({ label, x, y, series, height }) {
  const place = useRef(null);
  const said = useRef(null);
  useEffect(() => {
    readColours();
    const of = { x, y, series };
    const data = columns(series);
    const read = (plot) => { said.current.textContent = readAt(of, data, plot.cursor.idx); };
    const plot = new uPlot(options(of, place.current.clientWidth, height || 220, read), data, place.current);
    const size = new ResizeObserver(() => plot.setSize({ width: place.current.clientWidth, height: height || 220 }));
    size.observe(place.current);
    const look = () => { readColours(); plot.redraw(false, true); };
    window.addEventListener('theme', look);
    return () => { size.disconnect(); window.removeEventListener('theme', look); plot.destroy(); };
  }, [series, height]);
  return html`<figure class="plot"><div role="img" aria-label=${label} ref=${place}></div>
    <figcaption class="row soft">${series.map((each, i) => html`<span key=${each.name}>${each.marks === 'only' ? '○' : html`<${Sample} style=${i} />`} ${each.name}</span>`)}<span class="figure" ref=${said}></span></figcaption></figure>`;
}
