// What of the plan stays as it is from one frame to the next: chart, routes, tracks so far, events, scale and wind.
import { model, seat, rowAt, faultKeys, three, T, X, Y, APART } from './model.js';
import { colours } from './theme.js';
import { FOOT } from './sheet.js';

export const MARGIN = 64; // drawn beyond the edges, so that following draws anew only now and then, pixels
const MOST_KEPT_FREE = 60; // marks that words keep clear of
const OTHER_SEATS_S = 180;
const LENGTHS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500];

function chart(sheet) {
  for (const airway of model.hello.airways) { sheet.lines(airway.lines, colours.grey, 1.2); }
  sheet.pen.lineCap = 'round';
  sheet.lines(model.hello.filed, colours.ink, 3.4, [0.1, 8]);
  sheet.pen.lineCap = 'butt';
}

function drawRoute(sheet, route, preview) {
  sheet.pen.lineCap = 'round';
  sheet.lines(route.amended, colours.band, preview ? 18 : 12);
  sheet.lines(route.heading, colours.band, preview ? 18 : 12);
  sheet.pen.lineCap = 'butt';
  sheet.lines(route.radial, colours.radial, 2, [18, 5, 3, 5]);
  sheet.lines(route.amended, colours.ink, 2, preview ? [4, 4] : [16, 7]);
  sheet.lines(route.heading, colours.heading, 2.6, [6, 5]);
  if (route.lead) { sheet.dot(route.lead, 3.5, true); }
  if (route.intercept) { sheet.dot(route.intercept, 8, false, colours.heading); }
}

function names(sheet, route, preview) {
  for (const line of route.heading) { sheet.onLine(line, (preview ? 'preview: ' : '') + (route.heading_name || ''), colours.ink); }
  for (const line of route.radial) { sheet.onLine(line, route.radial_name || '', colours.ink); }
}

// Rows of a track from a time on, and to where the aircraft is.
export function drawTrack(sheet, flown, since, other, withNow) {
  const pen = sheet.pen, view = sheet.view, rows = flown.rows;
  let i = rows.length;
  while (i > 0 && rows[i - 1][T] >= since) { i--; }
  pen.strokeStyle = other ? colours.soft : colours.track;
  pen.lineWidth = other ? 1.6 : 3.6;
  pen.beginPath();
  let fresh = true;
  for (; i < rows.length; i++) {
    const x = view.px(rows[i][X]), y = view.py(rows[i][Y]);
    if (fresh || rows[i][APART] === 1) { pen.moveTo(x, y); } else { pen.lineTo(x, y); }
    fresh = false;
  }
  // A replay may stand at an earlier moment than the last row.
  if (withNow && !fresh && flown.now && flown.now[APART] !== 1 && flown.now[T] >= rows[rows.length - 1][T]) { pen.lineTo(view.px(flown.now[X]), view.py(flown.now[Y])); }
  pen.stroke();
}

// Faults as triangles, everything else that happened as small circles; the log says what.
function events(sheet, flown) {
  if (flown.rows.length === 0) { return; }
  const pen = sheet.pen;
  const faults = faultKeys(flown.grade);
  const lines = flown.lines.length > 400 ? flown.lines.slice(-400) : flown.lines;
  for (const line of lines) {
    if (line.t === null) { continue; }
    const row = rowAt(flown.rows, line.t);
    const x = sheet.view.px(row[X]), y = sheet.view.py(row[Y]);
    if (sheet.boxes.length < MOST_KEPT_FREE) { sheet.keepFree(x, y, 6); }
    let fill = colours.paper;
    pen.beginPath();
    if (faults.has(line.name + '@' + Number(line.t).toFixed(2))) {
      pen.moveTo(x, y - 10); pen.lineTo(x + 9, y + 6); pen.lineTo(x - 9, y + 6); pen.closePath();
      fill = colours.fault;
    } else if (line.kind === 'remark') {
      pen.rect(x - 5, y - 5, 10, 10);
      fill = colours.ink;
    } else {
      pen.arc(x, y, 4, 0, 2 * Math.PI);
    }
    sheet.paint(fill, colours.ink, 1.6);
  }
}

function places(sheet, route) {
  const pen = sheet.pen;
  if (route && route.fix) {
    const x = sheet.view.px(route.fix[1]), y = sheet.view.py(route.fix[2]);
    pen.strokeStyle = colours.ink;
    pen.lineWidth = 2.4;
    pen.strokeRect(x - 7, y - 7, 14, 14);
    sheet.label(x, y, route.fix[0], true);
  }
  for (const [name, kind, px, py] of model.hello.points) {
    const x = sheet.view.px(px), y = sheet.view.py(py);
    if (x < -MARGIN || y < -MARGIN || x > sheet.view.width + MARGIN || y > sheet.view.height + MARGIN) { continue; }
    pen.beginPath();
    if (kind === 'FIX') {
      pen.moveTo(x, y - 6); pen.lineTo(x + 6, y + 5); pen.lineTo(x - 6, y + 5); pen.closePath();
    } else if (kind === 'AIRPORT') {
      pen.arc(x, y, 5, 0, 2 * Math.PI);
    } else {
      for (let i = 0; i < 6; i++) { pen.lineTo(x + 8 * Math.cos(i * Math.PI / 3), y + 8 * Math.sin(i * Math.PI / 3)); }
      pen.closePath();
    }
    sheet.paint(colours.paper, colours.ink, 1.8);
    sheet.label(x, y, name, false);
  }
}

export function drawGround(sheet) {
  const flown = seat();
  const route = flown && flown.amended;
  sheet.pen.lineJoin = 'round';
  chart(sheet);
  if (route) { drawRoute(sheet, route, false); }
  if (model.preview) { drawRoute(sheet, model.preview, true); }
  for (const each of model.seats.values()) {
    if (each !== flown && each.now) { drawTrack(sheet, each, model.whole ? -Infinity : each.now[T] - OTHER_SEATS_S, !model.all, false); }
  }
  if (flown) { drawTrack(sheet, flown, -Infinity, false, false); events(sheet, flown); }
  if (model.preview) { names(sheet, model.preview, true); }
  if (route) { names(sheet, route, false); }
  for (const airway of model.hello.airways) {
    for (const line of airway.lines) { sheet.onLine(line, airway.name, colours.soft); }
  }
  places(sheet, model.preview || route);
}

// Scale, north true and magnetic, wind.
export function drawFoot(sheet) {
  const pen = sheet.pen;
  const y = sheet.view.height - 14;
  pen.fillStyle = colours.field;
  pen.fillRect(0, sheet.view.height - FOOT, sheet.view.width, FOOT);
  pen.strokeStyle = colours.ink;
  pen.lineWidth = 2;
  let length = LENGTHS[0];
  for (const each of LENGTHS) { if (each * sheet.view.scale <= 130) { length = each; } }
  const w = length * sheet.view.scale;
  pen.beginPath();
  pen.moveTo(12, y - 6); pen.lineTo(12, y + 4); pen.lineTo(12 + w, y + 4); pen.lineTo(12 + w, y - 6);
  pen.stroke();
  pen.font = '13px system-ui, sans-serif';
  sheet.text(length + ' NM', 18 + w, y + 5, colours.ink);
  const h = model.hello;
  let x = 200;
  sheet.arrow(x, y - 3, 0, []);
  sheet.arrow(x, y - 3, h.variation_deg, [3, 3]);
  const whole = 'true north up; dashed: magnetic, ' + Math.abs(h.variation_deg).toFixed(1) + '° '
    + (h.variation_deg < 0 ? 'west' : 'east');
  const north = x + 18 + pen.measureText(whole).width < sheet.view.width ? whole : 'true north up';
  sheet.text(north, x + 18, y + 2, colours.ink);
  x += 18 + pen.measureText(north).width + 34;
  const wind = h.wind_kt > 0
    ? 'wind ' + three(h.wind_from_deg) + ' true, ' + Math.round(h.wind_kt) + ' kt'
    : 'wind calm';
  if (h.wind_kt !== undefined && x + 170 < sheet.view.width) { // each lesson has its own
    if (h.wind_kt > 0) { sheet.arrow(x, y - 3, h.wind_from_deg + 180, []); }
    sheet.text(wind, x + 18, y + 2, colours.ink);
  }
}
