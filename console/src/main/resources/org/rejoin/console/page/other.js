// Another flight over the one that was flown: its path, the aircraft on it at the replay's moment, and a handle where its
// turn begins, which can be drawn along the plan.
import { T, X, Y, TRACK, rowAt } from './model.js';
import { colours } from './theme.js';

const REACH = 18; // of the handle, pixels

// Signed distance from a line of points [x, y, x, y, ...], miles, right of its direction positive; y is to the south.
export function crossTrack(line, x, y) {
  let best = Infinity, cross = 0;
  for (let i = 0; i + 3 < line.length; i += 2) {
    const dx = line[i + 2] - line[i], dy = line[i + 3] - line[i + 1];
    const length = Math.hypot(dx, dy) || 1e-9;
    const px = x - line[i], py = y - line[i + 1];
    const along = Math.max(0, Math.min(length, (px * dx + py * dy) / length));
    const apart = Math.hypot(px - along * dx / length, py - along * dy / length);
    if (apart < best) { best = apart; cross = (dx * py - dy * px) / length; }
  }
  return cross;
}

export const onHandle = (other, view, px, py) => other !== null
  && Math.hypot(view.px(other.begins[0]) - px, view.py(other.begins[1]) - py) <= REACH;

export function drawOther(sheet, other, at) {
  const { pen, view } = sheet;
  const line = other.rows.flatMap((row) => [row[X], row[Y]]);
  sheet.lines([line], colours.ink, 2.2, [10, 4, 2, 4]);
  const row = at === null ? null : rowAt(other.rows, at);
  if (row && row[T] <= at + 0.01) {
    sheet.aircraft(view.px(row[X]), view.py(row[Y]), row[TRACK], colours.paper, colours.ink);
  }
  const x = view.px(other.begins[0]), y = view.py(other.begins[1]);
  pen.beginPath();
  pen.arc(x, y, 10, 0, 2 * Math.PI);
  sheet.paint(colours.paper, colours.ink, 2.6);
  sheet.cross(x, y);
  sheet.keepFree(x, y, 12);
  sheet.label(x, y, 'what if: turn here', true);
}
