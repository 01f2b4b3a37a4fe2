// What part of the plan is looked at: miles from the centre of the plan in, pixels of the canvas out.

export class View {
  constructor() {
    this.x = 0; this.y = 0; this.scale = 0; // centre in miles, pixels a mile; 0: not yet fitted
    this.width = 0; this.height = 0;
  }

  px(x) { return (x - this.x) * this.scale + this.width / 2; }

  py(y) { return (y - this.y) * this.scale + this.height / 2; }

  at(px, py) {
    return { x: this.x + (px - this.width / 2) / this.scale, y: this.y + (py - this.height / 2) / this.scale };
  }

  // A point of the canvas stays where it is, or the middle.
  zoom(by, atX, atY) {
    const scale = Math.min(4000, Math.max(0.5, this.scale * by));
    this.x += (atX - this.width / 2) * (1 / this.scale - 1 / scale);
    this.y += (atY - this.height / 2) * (1 / this.scale - 1 / scale);
    this.scale = scale;
  }

  // Room for the buttons above, scale and wind below, labels at the sides; more for what is still growing.
  fit([left, top, right, bottom], growing) {
    const more = growing ? 1.2 : 1;
    this.scale = Math.max(0.5, Math.min((this.width - 150) / Math.max((right - left) * more, 2),
      (this.height - 125) / Math.max((bottom - top) * more, 2)));
    this.x = (left + right) / 2;
    this.y = (top + bottom) / 2 - 8 / this.scale;
  }

  shows([left, top, right, bottom]) {
    return this.px(left) > 60 && this.px(right) < this.width - 60 && this.py(top) > 50 && this.py(bottom) < this.height - 40;
  }
}

export const NOWHERE = [Infinity, Infinity, -Infinity, -Infinity];

export function around(box, x, y) {
  return [Math.min(box[0], x), Math.min(box[1], y), Math.max(box[2], x), Math.max(box[3], y)];
}

export function both(one, other) {
  return [Math.min(one[0], other[0]), Math.min(one[1], other[1]), Math.max(one[2], other[2]), Math.max(one[3], other[3])];
}

export function aroundLine(box, line) {
  let all = box;
  for (let i = 0; i + 1 < line.length; i += 2) { all = around(all, line[i], line[i + 1]); }
  return all;
}
