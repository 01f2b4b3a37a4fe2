// The plan view: chart, routes, tracks, on one canvas, true north up. Miles from the centre of the plan in, pixels out.
import { model, seat, mark, rowAt, faultKeys, T, X, Y, TRACK, APART } from './model.js';
import { colours } from './theme.js';

const OTHER_SEATS_S = 180;
const LENGTHS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500];

export class Plan {
  constructor(canvas) {
    this.canvas = canvas;
    this.pen = canvas.getContext('2d');
    this.x = 0; this.y = 0; this.scale = 0; // centre in miles, pixels a mile; 0: not yet fitted
    this.following = false;
    this.measuring = false;
    this.from = null; this.to = null;
    this.pointers = new Map();
    this.touched = false;
    this.listen();
  }

  listen() {
    const on = (id, act) => document.getElementById(id).addEventListener('click', act);
    on('closer', () => this.zoom(1.5));
    on('wider', () => this.zoom(1 / 1.5));
    on('follow', () => this.follow(!this.following));
    on('all', () => this.fit());
    on('measure', () => this.measure(!this.measuring));
    const canvas = this.canvas;
    canvas.addEventListener('wheel', (event) => {
      event.preventDefault();
      this.zoom(Math.exp(-event.deltaY / 400), event.offsetX, event.offsetY);
    }, { passive: false });
    canvas.addEventListener('pointerdown', (event) => {
      canvas.setPointerCapture(event.pointerId);
      this.pointers.set(event.pointerId, { x: event.offsetX, y: event.offsetY });
      if (this.measuring && this.pointers.size === 1) { this.point(event.offsetX, event.offsetY); }
    });
    canvas.addEventListener('pointermove', (event) => this.dragged(event));
    for (const end of ['pointerup', 'pointercancel']) {
      canvas.addEventListener(end, (event) => this.pointers.delete(event.pointerId));
    }
    canvas.addEventListener('keydown', (event) => this.key(event));
  }

  dragged(event) {
    const before = this.pointers.get(event.pointerId);
    if (!before || this.measuring) { return; }
    const others = [...this.pointers.entries()].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
    if (others.length === 1) {
      const was = Math.hypot(before.x - others[0].x, before.y - others[0].y);
      const is = Math.hypot(event.offsetX - others[0].x, event.offsetY - others[0].y);
      if (was > 5 && is > 5) { this.zoom(is / was, others[0].x, others[0].y); }
    } else {
      this.move((before.x - event.offsetX) / this.scale, (before.y - event.offsetY) / this.scale);
    }
    this.pointers.set(event.pointerId, { x: event.offsetX, y: event.offsetY });
  }

  key(event) {
    const step = 60 / this.scale;
    const act = {
      ArrowLeft: () => this.move(-step, 0), ArrowRight: () => this.move(step, 0),
      ArrowUp: () => this.move(0, -step), ArrowDown: () => this.move(0, step),
      '+': () => this.zoom(1.25), '=': () => this.zoom(1.25), '-': () => this.zoom(0.8),
      f: () => this.follow(!this.following), a: () => this.fit(), m: () => this.measure(!this.measuring),
      Enter: () => { if (this.measuring) { this.point(this.width / 2, this.height / 2); } },
      Escape: () => this.measure(false),
    }[event.key];
    if (act && !event.ctrlKey && !event.metaKey && !event.altKey) { event.preventDefault(); act(); }
  }

  move(dx, dy) {
    this.x += dx; this.y += dy; this.touched = true;
    this.follow(false);
  }

  zoom(by, atX = this.width / 2, atY = this.height / 2) {
    const scale = Math.min(4000, Math.max(0.5, this.scale * by));
    if (!this.following) {
      this.x += (atX - this.width / 2) * (1 / this.scale - 1 / scale);
      this.y += (atY - this.height / 2) * (1 / this.scale - 1 / scale);
    }
    this.scale = scale;
    this.touched = true;
    mark('plan');
  }

  follow(on) {
    this.following = on;
    this.touched = true;
    document.getElementById('follow').setAttribute('aria-pressed', String(on));
    mark('plan');
  }

  fit() {
    this.follow(false);
    this.touched = false;
    mark('plan');
  }

  measure(on) {
    this.measuring = on;
    this.from = null; this.to = null;
    document.getElementById('measure').setAttribute('aria-pressed', String(on));
    document.getElementById('measured').textContent = on
      ? 'Choose two points: with the pointer, or Enter at the cross.' : '';
    this.canvas.classList.toggle('measuring', on);
    mark('plan');
  }

  point(px, py) {
    if (this.scale === 0) { return; }
    const at = { x: this.x + (px - this.width / 2) / this.scale, y: this.y + (py - this.height / 2) / this.scale };
    if (!this.from || this.to) {
      this.from = at; this.to = null;
      document.getElementById('measured').textContent = 'Choose the second point.';
    } else { this.to = at; this.ask(); }
    mark('plan');
  }

  async ask() {
    const said = document.getElementById('measured');
    const asked = this.to;
    const say = (text) => { if (this.to === asked) { said.textContent = text; } };
    try {
      const reply = await fetch('/measure', {
        method: 'POST', headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify({ at: [this.from.x, this.from.y, this.to.x, this.to.y] }),
      });
      say(reply.ok ? (await reply.json()).text : await reply.text());
    } catch {
      say('The program does not answer.');
    }
  }

  // Everything that matters: the route worked out, where the aircraft was, else the filed route.
  wanted() {
    const points = [];
    const flown = seat();
    const add = (list) => { for (let i = 0; i + 1 < list.length; i += 2) { points.push([list[i], list[i + 1]]); } };
    if (flown && flown.rows.length > 0) {
      for (const row of flown.rows) { points.push([row[X], row[Y]]); }
      const route = model.preview || flown.amended;
      if (route) {
        route.heading.forEach(add);
        for (const line of route.amended.slice(0, 3)) { add(line); }
      } else { model.hello.filed.forEach(add); }
    } else { model.hello.filed.forEach(add); }
    return points;
  }

  frameAll() {
    const points = this.wanted();
    if (points.length === 0) { return; }
    const xs = points.map((p) => p[0]);
    const ys = points.map((p) => p[1]);
    const left = Math.min(...xs), right = Math.max(...xs), top = Math.min(...ys), bottom = Math.max(...ys);
    // Room for the buttons above, scale and wind below, labels at the sides.
    const scale = Math.min((this.width - 150) / Math.max(right - left, 2), (this.height - 125) / Math.max(bottom - top, 2));
    this.scale = Math.max(0.5, scale);
    this.x = (left + right) / 2;
    this.y = (top + bottom) / 2 - 8 / this.scale;
  }

  px(x) { return (x - this.x) * this.scale + this.width / 2; }

  py(y) { return (y - this.y) * this.scale + this.height / 2; }

  draw() {
    if (!model.hello) { return; }
    const pen = this.pen;
    const dense = window.devicePixelRatio || 1;
    this.width = this.canvas.clientWidth;
    this.height = this.canvas.clientHeight;
    if (this.canvas.width !== Math.round(this.width * dense) || this.canvas.height !== Math.round(this.height * dense)) {
      this.canvas.width = Math.round(this.width * dense);
      this.canvas.height = Math.round(this.height * dense);
    }
    if (!this.touched || this.scale === 0) { this.frameAll(); }
    const flown = seat();
    if (this.following && flown && flown.now) { this.x = flown.now[X]; this.y = flown.now[Y]; }
    pen.setTransform(dense, 0, 0, dense, 0, 0);
    pen.fillStyle = colours.field;
    pen.fillRect(0, 0, this.width, this.height);
    pen.lineJoin = 'round';
    this.boxes = [];
    this.chart();
    const route = flown && flown.amended;
    if (route) { this.route(route, false); }
    if (model.preview) { this.route(model.preview, true); }
    for (const airway of model.hello.airways) {
      for (const line of airway.lines) { this.onLine(line, airway.name, colours.soft); }
    }
    for (const each of model.seats.values()) {
      if (each !== flown) { this.track(each, true); }
    }
    if (flown) { this.track(flown, false); this.events(flown); }
    this.places(model.preview || route);
    for (const each of model.seats.values()) { this.aircraft(each, each === flown); }
    this.measureLine();
    this.foot();
  }

  lines(all, style, width, dash) {
    const pen = this.pen;
    pen.strokeStyle = style;
    pen.lineWidth = width;
    pen.setLineDash(dash || []);
    pen.beginPath();
    for (const line of all) {
      for (let i = 0; i + 1 < line.length; i += 2) {
        const x = this.px(line[i]), y = this.py(line[i + 1]);
        if (i === 0) { pen.moveTo(x, y); } else { pen.lineTo(x, y); }
      }
    }
    pen.stroke();
    pen.setLineDash([]);
  }

  chart() {
    for (const airway of model.hello.airways) { this.lines(airway.lines, colours.grey, 1.2); }
    this.pen.lineCap = 'round';
    this.lines(model.hello.filed, colours.ink, 3.4, [0.1, 8]);
    this.pen.lineCap = 'butt';
  }

  route(route, preview) {
    this.pen.lineCap = 'round';
    this.lines(route.amended, colours.band, preview ? 18 : 12);
    this.lines(route.heading, colours.band, preview ? 18 : 12);
    this.pen.lineCap = 'butt';
    this.lines(route.radial, colours.radial, 2, [18, 5, 3, 5]);
    this.lines(route.amended, colours.ink, 2, preview ? [4, 4] : [16, 7]);
    this.lines(route.heading, colours.heading, 2.6, [6, 5]);
    for (const line of route.heading) { this.onLine(line, (preview ? 'preview: ' : '') + (route.heading_name || ''), colours.ink); }
    for (const line of route.radial) { this.onLine(line, route.radial_name || '', colours.ink); }
    if (route.lead) { this.dot(route.lead, 3.5, true); }
    if (route.intercept) { this.dot(route.intercept, 8, false, colours.heading); }
  }

  dot(at, radius, filled, colour) {
    const pen = this.pen;
    pen.beginPath();
    pen.arc(this.px(at[0]), this.py(at[1]), radius, 0, 2 * Math.PI);
    pen.lineWidth = 2.6;
    pen.fillStyle = colours.ink;
    pen.strokeStyle = colour || colours.ink;
    if (filled) { pen.fill(); } else { pen.stroke(); }
  }

  track(flown, other) {
    const pen = this.pen;
    pen.strokeStyle = other ? colours.soft : colours.track;
    pen.lineWidth = other ? 1.6 : 3.6;
    pen.beginPath();
    const rows = flown.rows;
    let i = 0;
    if (other && flown.now) {
      while (i < rows.length && rows[i][T] < flown.now[T] - OTHER_SEATS_S) { i++; }
    }
    let fresh = true;
    for (; i < rows.length; i++) {
      const x = this.px(rows[i][X]), y = this.py(rows[i][Y]);
      if (fresh || rows[i][APART] === 1) { pen.moveTo(x, y); } else { pen.lineTo(x, y); }
      fresh = false;
    }
    if (!fresh && flown.now && flown.now[APART] !== 1) { pen.lineTo(this.px(flown.now[X]), this.py(flown.now[Y])); }
    pen.stroke();
  }

  // Faults as triangles, everything else that happened as small circles; the log says what.
  events(flown) {
    if (flown.rows.length === 0) { return; }
    const pen = this.pen;
    const faults = faultKeys(flown.grade);
    const lines = flown.lines.length > 400 ? flown.lines.slice(-400) : flown.lines;
    for (const line of lines) {
      if (line.t === null) { continue; }
      const row = rowAt(flown.rows, line.t);
      const x = this.px(row[X]), y = this.py(row[Y]);
      pen.beginPath();
      if (faults.has(line.name + '@' + Number(line.t).toFixed(2))) {
        pen.moveTo(x, y - 10); pen.lineTo(x + 9, y + 6); pen.lineTo(x - 9, y + 6); pen.closePath();
        pen.fillStyle = colours.fault;
      } else if (line.kind === 'remark') {
        pen.rect(x - 5, y - 5, 10, 10);
        pen.fillStyle = colours.ink;
      } else {
        pen.arc(x, y, 4, 0, 2 * Math.PI);
        pen.fillStyle = colours.paper;
      }
      pen.fill();
      pen.strokeStyle = colours.ink;
      pen.lineWidth = 1.6;
      pen.stroke();
    }
  }

  places(route) {
    const pen = this.pen;
    if (route && route.fix) {
      const x = this.px(route.fix[1]), y = this.py(route.fix[2]);
      pen.strokeStyle = colours.ink;
      pen.lineWidth = 2.4;
      pen.strokeRect(x - 7, y - 7, 14, 14);
      this.label(x, y, route.fix[0], true);
    }
    for (const [name, kind, px, py] of model.hello.points) {
      const x = this.px(px), y = this.py(py);
      if (x < -20 || y < -20 || x > this.width + 20 || y > this.height + 20) { continue; }
      pen.beginPath();
      if (kind === 'FIX') {
        pen.moveTo(x, y - 6); pen.lineTo(x + 6, y + 5); pen.lineTo(x - 6, y + 5); pen.closePath();
      } else if (kind === 'AIRPORT') {
        pen.arc(x, y, 5, 0, 2 * Math.PI);
      } else {
        for (let i = 0; i < 6; i++) { pen.lineTo(x + 8 * Math.cos(i * Math.PI / 3), y + 8 * Math.sin(i * Math.PI / 3)); }
        pen.closePath();
      }
      pen.fillStyle = colours.paper;
      pen.fill();
      pen.strokeStyle = colours.ink;
      pen.lineWidth = 1.8;
      pen.stroke();
      this.label(x, y, name, false);
    }
  }

  // Beside its point, where no other label stands; left out where all places are taken.
  label(x, y, text, bold) {
    const pen = this.pen;
    pen.font = (bold ? '700 ' : '600 ') + '14px system-ui, sans-serif';
    const w = pen.measureText(text).width;
    for (const [dx, dy] of [[12, 5], [-12 - w, 5], [-w / 2, -13], [-w / 2, 25], [12, -9], [12, 20]]) {
      if (this.room(x + dx, y + dy, w, 14)) { this.text(text, x + dx, y + dy, colours.ink); return; }
    }
  }

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
      const x = this.px(line[i] + part * (line[i + 2] - line[i])) - w / 2;
      const y = this.py(line[i + 1] + part * (line[i + 3] - line[i + 1])) - 7;
      if (x > 4 && y > 50 && x + w < this.width - 4 && y < this.height - 34 && this.room(x, y, w, 13)) {
        this.text(text, x, y, colour);
        return;
      }
    }
  }

  aircraft(flown, chosen) {
    if (!flown.now) { return; }
    const pen = this.pen;
    const x = this.px(flown.now[X]), y = this.py(flown.now[Y]);
    pen.save();
    pen.translate(x, y);
    pen.rotate(flown.now[TRACK] * Math.PI / 180);
    pen.beginPath();
    pen.moveTo(0, -14); pen.lineTo(9, 11); pen.lineTo(0, 6); pen.lineTo(-9, 11); pen.closePath();
    pen.fillStyle = chosen ? colours.ink : colours.soft;
    pen.fill();
    pen.strokeStyle = colours.paper;
    pen.lineWidth = 2;
    pen.stroke();
    pen.restore();
    if (!chosen && model.seats.size <= 16) { this.label(x, y, flown.short || flown.label, false); }
  }

  measureLine() {
    if (this.measuring) { this.cross(this.width / 2, this.height / 2); }
    if (!this.from) { return; }
    this.dot([this.from.x, this.from.y], 4, true);
    if (this.to) {
      this.lines([[this.from.x, this.from.y, this.to.x, this.to.y]], colours.ink, 1.6);
      this.dot([this.to.x, this.to.y], 4, true);
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

  // Scale, north true and magnetic, wind.
  foot() {
    const pen = this.pen;
    const y = this.height - 14;
    pen.fillStyle = colours.field;
    pen.fillRect(0, this.height - 34, this.width, 34);
    pen.strokeStyle = colours.ink;
    pen.lineWidth = 2;
    let length = LENGTHS[0];
    for (const each of LENGTHS) { if (each * this.scale <= 130) { length = each; } }
    const w = length * this.scale;
    pen.beginPath();
    pen.moveTo(12, y - 6); pen.lineTo(12, y + 4); pen.lineTo(12 + w, y + 4); pen.lineTo(12 + w, y - 6);
    pen.stroke();
    pen.font = '13px system-ui, sans-serif';
    this.text(length + ' NM', 18 + w, y + 5, colours.ink);
    const h = model.hello;
    let x = 200;
    this.arrow(x, y - 3, 0, []);
    this.arrow(x, y - 3, h.variation_deg, [3, 3]);
    const north = 'true north up; dashed: magnetic, ' + Math.abs(h.variation_deg).toFixed(1) + '° '
      + (h.variation_deg < 0 ? 'west' : 'east');
    this.text(north, x + 18, y + 2, colours.ink);
    x += 18 + pen.measureText(north).width + 34;
    const wind = h.wind_kt > 0
      ? 'wind ' + String(Math.round(h.wind_from_deg)).padStart(3, '0') + ' true, ' + Math.round(h.wind_kt) + ' kt'
      : 'wind calm';
    if (x + 170 < this.width) {
      if (h.wind_kt > 0) { this.arrow(x, y - 3, h.wind_from_deg + 180, []); }
      this.text(wind, x + 18, y + 2, colours.ink);
    }
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
