// Strokes, marks and words on a canvas, in the miles of a view. Words are placed where no other word stands.
import { colours } from './theme.js';

// Where a word may stand beside its point, pixels; its width is taken off where it stands to the left or in the middle.
const BESIDE = [[12, 5, 0], [-12, 5, 1], [0, -13, 0.5], [0, 25, 0.5], [12, -9, 0], [12, 20, 0]];
// An aircraft beside another keeps its name, farther off.
const FARTHER = [...BESIDE, [-12, -9, 1], [-12, 20, 1], [0, -29, 0.5], [0, 41, 0.5]];

const MOST_PICTURES = 200;

export const FOOT = 34; // of the plan, for scale and wind, pixels
const SIDE = 4; // of the plan, free of names, pixels

export class Sheet {
  constructor(pen, view, boxes) {
    this.pen = pen;
    this.view = view;
    this.boxes = boxes; // taken by words, pixels
  }

  lines(all, style, width, dash) {
    const pen = this.pen;
    pen.strokeStyle = style;
    pen.lineWidth = width;
    pen.setLineDash(dash || []);
    pen.beginPath();
    for (const line of all) {
      for (let i = 0; i + 1 < line.length; i += 2) {
        const x = this.view.px(line[i]), y = this.view.py(line[i + 1]);
        if (i === 0) { pen.moveTo(x, y); } else { pen.lineTo(x, y); }
      }
    }
    pen.stroke();
    pen.setLineDash([]);
  }

  // The shape that was traced.
  paint(fill, stroke, width) {
    const pen = this.pen;
    pen.fillStyle = fill;
    pen.fill();
    pen.strokeStyle = stroke;
    pen.lineWidth = width;
    pen.stroke();
  }

  aircraft(x, y, deg, fill, stroke) {
    const pen = this.pen;
    pen.save();
    pen.translate(x, y);
    pen.rotate(deg * Math.PI / 180);
    pen.beginPath();
    pen.moveTo(0, -14); pen.lineTo(9, 11); pen.lineTo(0, 6); pen.lineTo(-9, 11); pen.closePath();
    this.paint(fill, stroke, 2);
    pen.restore();
  }

  dot(at, radius, filled, colour) {
    const pen = this.pen;
    pen.beginPath();
    pen.arc(this.view.px(at[0]), this.view.py(at[1]), radius, 0, 2 * Math.PI);
    pen.lineWidth = 2.6;
    pen.fillStyle = colours.ink;
    pen.strokeStyle = colour || colours.ink;
    if (filled) { pen.fill(); } else { pen.stroke(); }
  }

  // Beside its point, where it stood before if that is free; left out where all places are taken. Words that move are
  // kept as pictures: outlined letters are the dearest thing to draw.
  label(x, y, text, bold, before, kept) {
    const pen = this.pen;
    pen.font = (bold ? '700 ' : '600 ') + '14px system-ui, sans-serif';
    const w = pen.measureText(text).width;
    const places = kept ? FARTHER : BESIDE;
    const order = [...before >= 0 ? [before] : [], ...places.keys()];
    const leftOf = (i) => x + places[i][0] - places[i][2] * w;
    // A name beside an aircraft is not cut off at a side of the plan while there is a place where it is whole.
    const whole = (i) => !kept || (leftOf(i) >= SIDE && leftOf(i) + w <= this.view.width - SIDE);
    for (const i of [...order.filter(whole), ...order.filter((each) => !whole(each))]) {
      const left = leftOf(i), base = y + places[i][1];
      if (base < this.view.height - FOOT && this.room(left, base, w, 14)) {
        if (kept) { this.picture(text, left, base, w, kept); } else { this.text(text, left, base, colours.ink); }
        return i;
      }
    }
    return -1;
  }

  picture(text, x, y, w, kept) {
    const pen = this.pen, dense = pen.getTransform().a;
    const key = [text, colours.ink, dense].join(' ');
    let made = kept.get(key);
    if (!made) {
      if (kept.size > MOST_PICTURES) { kept.clear(); }
      made = document.createElement('canvas');
      made.width = Math.ceil((w + 8) * dense);
      made.height = Math.ceil(24 * dense);
      const own = made.getContext('2d');
      own.setTransform(dense, 0, 0, dense, 0, 0);
      own.font = pen.font;
      own.lineJoin = 'round';
      new Sheet(own, this.view, []).text(text, 4, 17, colours.ink);
      kept.set(key, made);
    }
    // On whole pixels, or the letters blur.
    pen.drawImage(made, Math.round((x - 4) * dense) / dense, Math.round((y - 17) * dense) / dense, made.width / dense, made.height / dense);
  }

  // No word stands on a mark.
  keepFree(x, y, reach) { this.boxes.push([x - reach, y - reach, x + reach, y + reach]); }

  room(x, y, w, h) {
    const box = [x - 2, y - h, x + w + 2, y + 3];
    const taken = this.boxes.some((b) => box[0] < b[2] && box[2] > b[0] && box[1] < b[3] && box[3] > b[1]);
    if (!taken) { this.boxes.push(box); }
    return !taken;
  }

  text(text, x, y, colour) {
    const pen = this.pen;
    pen.lineWidth = 4;
    pen.strokeStyle = colours.field;
    pen.strokeText(text, x, y);
    pen.fillStyle = colour;
    pen.fillText(text, x, y);
  }

  onLine(line, text, colour) {
    if (line.length < 4 || text === '') { return; }
    const pen = this.pen;
    pen.font = '13px system-ui, sans-serif';
    const w = pen.measureText(text).width;
    for (const share of [0.5, 0.35, 0.65, 0.2, 0.8]) {
      const at = share * (line.length / 2 - 1);
      const i = 2 * Math.min(Math.floor(at), line.length / 2 - 2);
      const part = at - i / 2;
      const x = this.view.px(line[i] + part * (line[i + 2] - line[i])) - w / 2;
      const y = this.view.py(line[i + 1] + part * (line[i + 3] - line[i + 1])) - 7;
      if (x > 4 && y > 50 && x + w < this.view.width - 4 && y < this.view.height - FOOT && this.room(x, y, w, 13)) {
        this.text(text, x, y, colour);
        return;
      }
    }
  }

  // Where Enter puts a point.
  cross(x, y) {
    const pen = this.pen;
    pen.strokeStyle = colours.ink;
    pen.lineWidth = 1.4;
    pen.beginPath();
    for (const [dx, dy] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
      pen.moveTo(x + 4 * dx, y + 4 * dy); pen.lineTo(x + 13 * dx, y + 13 * dy);
    }
    pen.stroke();
  }

  arrow(x, y, deg, dash) {
    const pen = this.pen;
    pen.save();
    pen.translate(x, y);
    pen.rotate(deg * Math.PI / 180);
    pen.setLineDash(dash);
    pen.strokeStyle = colours.ink;
    pen.lineWidth = 1.8;
    pen.beginPath();
    pen.moveTo(0, 12); pen.lineTo(0, -12);
    if (dash.length === 0) { pen.moveTo(-4, -6); pen.lineTo(0, -12); pen.lineTo(4, -6); }
    pen.stroke();
    pen.restore();
  }
}
