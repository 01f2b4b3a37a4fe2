// Another flight over the one that was flown: its path, the aircraft on it at the replay's moment, and a handle where its
// turn begins, which can be drawn along the plan.
import { T, X, Y, rowAt } from './model.js';
import { colours } from './theme.js';

const REACH = 18; // of the handle, pixels
const TRACK = 3;

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
    pen.save();
    pen.translate(view.px(row[X]), view.py(row[Y]));
    pen.rotate(row[TRACK] * Math.PI / 180);
    pen.beginPath();
    pen.moveTo(0, -14); pen.lineTo(9, 11); pen.lineTo(0, 6); pen.lineTo(-9, 11); pen.closePath();
    pen.fillStyle = colours.paper;
    pen.fill();
    pen.strokeStyle = colours.ink;
    pen.lineWidth = 2;
    pen.stroke();
    pen.restore();
  }
  const x = view.px(other.begins[0]), y = view.py(other.begins[1]);
  pen.beginPath();
  pen.arc(x, y, 10, 0, 2 * Math.PI);
  pen.fillStyle = colours.paper;
  pen.fill();
  pen.strokeStyle = colours.ink;
  pen.lineWidth = 2.6;
  pen.stroke();
  sheet.cross(x, y);
  sheet.keepFree(x, y, 12);
  sheet.label(x, y, 'what if: turn here', true);
}
