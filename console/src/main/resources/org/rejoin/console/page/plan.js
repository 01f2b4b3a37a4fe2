// The plan view on one canvas, true north up: what stays is drawn once and copied in each frame, what moves over it.
import { model, seat, mark, isOld, T, X, Y, TRACK } from './model.js';
import { answered } from './server.js';
import { colours } from './theme.js';
import { surface, layer } from './surface.js';
import { View, NOWHERE, both, around, aroundLine } from './view.js';
import { FOOT, Sheet } from './sheet.js';
import { MARGIN, drawGround, drawTrack, drawFoot } from './ground.js';
import { crossTrack, drawOther, onHandle } from './other.js';

const BAKED_S = 15; // of track that may be missing from the ground
const STILL = 6; // moved by less it is pressed, not drawn, pixels
const TAP_REACH = 26; // from an aircraft, pixels
const SEEN_PX = 0.5; // what moved by less looks the same
const SEEN_DEG = 2; // the same at the aircraft's nose

// Whether what was made by this key still holds.
const holdsBy = (made, key) => made !== null && made.key.every((each, i) => each === key[i]);

// A long name would lie over half the map; the tiles have all of it.
const MOST_LETTERS = 24;
const MOST_LETTERS_ON_A_PHONE = 12;
const NARROW = 500; // pixels
const brief = (name, width) => { const letters = [...name], most = width < NARROW ? MOST_LETTERS_ON_A_PHONE : MOST_LETTERS; return letters.length > most ? letters.slice(0, most - 1).join('') + '…' : name; };

export class Plan {
  constructor(canvas) {
    this.canvas = canvas;
    this.surface = surface(canvas, () => mark('plan'));
    this.view = new View();
    this.following = false;
    this.measuring = false;
    this.from = null; this.to = null;
    this.pointers = new Map();
    this.touched = false;
    this.handling = false;
    this.tapped = null; // told the name of an aircraft that is pressed
    this.fitted = null; this.ground = null; this.foot = null;
    this.words = new Map(); // pictures of the names that move
    this.drawn = new Map(); // the row of each aircraft as it was drawn
    this.listen();
  }

  listen() {
    const on = (id, act) => document.getElementById(id)?.addEventListener('click', act); // nobody to follow on a map of all
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
      this.pointers.set(event.pointerId, { x: event.offsetX, y: event.offsetY, fromX: event.offsetX, fromY: event.offsetY });
      this.handling = !this.measuring && onHandle(model.other, this.view, event.offsetX, event.offsetY);
      if (this.measuring && this.pointers.size === 1) { this.point(event.offsetX, event.offsetY); }
    });
    canvas.addEventListener('pointermove', (event) => this.dragged(event));
    canvas.addEventListener('pointerup', (event) => this.tap(event, this.pointers.get(event.pointerId)));
    for (const end of ['pointerup', 'pointercancel']) {
      canvas.addEventListener(end, (event) => this.pointers.delete(event.pointerId));
    }
    canvas.addEventListener('keydown', (event) => this.key(event));
  }

  tap(event, began) {
    const still = began && Math.hypot(event.offsetX - began.fromX, event.offsetY - began.fromY) < STILL;
    if (!this.tapped || !still || this.measuring) { return; }
    let nearest = null, least = TAP_REACH;
    for (const each of model.seats.values()) {
      const apart = each.now ? Math.hypot(this.view.px(each.now[X]) - event.offsetX, this.view.py(each.now[Y]) - event.offsetY) : Infinity;
      if (apart < least) { least = apart; nearest = each; }
    }
    if (nearest) { this.tapped(nearest.name); }
  }

  dragged(event) {
    const before = this.pointers.get(event.pointerId);
    if (!before || this.measuring) { return; }
    if (this.handling && model.other) {
      const at = this.view.at(event.offsetX, event.offsetY);
      model.other.drawn(model.other.near * crossTrack(model.other.line, at.x, at.y));
      return;
    }
    const others = [...this.pointers.entries()].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
    if (others.length === 1) {
      const was = Math.hypot(before.x - others[0].x, before.y - others[0].y);
      const is = Math.hypot(event.offsetX - others[0].x, event.offsetY - others[0].y);
      if (was > 5 && is > 5) { this.zoom(is / was, others[0].x, others[0].y); }
    } else {
      this.move((before.x - event.offsetX) / this.view.scale, (before.y - event.offsetY) / this.view.scale);
    }
    this.pointers.set(event.pointerId, { ...before, x: event.offsetX, y: event.offsetY });
  }

  key(event) {
    const step = 60 / this.view.scale;
    const act = {
      ArrowLeft: () => this.move(-step, 0), ArrowRight: () => this.move(step, 0),
      ArrowUp: () => this.move(0, -step), ArrowDown: () => this.move(0, step),
      '+': () => this.zoom(1.25), '=': () => this.zoom(1.25), '-': () => this.zoom(0.8),
      f: () => this.follow(!this.following), a: () => this.fit(), m: () => this.measure(!this.measuring),
      Enter: () => { if (this.measuring) { this.point(this.view.width / 2, this.view.height / 2); } },
      Escape: () => this.measure(false),
    }[event.key];
    if (act && !event.ctrlKey && !event.metaKey && !event.altKey) { event.preventDefault(); act(); }
  }

  // Before the first picture there is nothing to move or to bring closer: no miles to a pixel yet.
  move(dx, dy) {
    if (this.view.scale === 0) { return; }
    this.view.x += dx; this.view.y += dy; this.touched = true;
    this.follow(false);
  }

  zoom(by, atX = this.view.width / 2, atY = this.view.height / 2) {
    if (this.view.scale === 0) { return; }
    this.view.zoom(by, atX, atY);
    this.touched = true;
    mark('plan');
  }

  follow(on) {
    this.following = on;
    this.touched = true;
    document.getElementById('follow')?.setAttribute('aria-pressed', String(on));
    mark('plan');
  }

  fit() {
    this.follow(false);
    this.touched = false;
    this.fitted = null;
    mark('plan');
  }

  // A place in the middle, and so many miles around it.
  lookAt(x, y, reach) {
    if (this.view.scale === 0) { return; }
    this.view.x = x; this.view.y = y;
    this.view.scale = Math.min(this.view.width, this.view.height) / (2 * reach);
    this.touched = true;
    this.follow(false);
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
    if (this.view.scale === 0) { return; }
    const at = this.view.at(px, py);
    if (!this.from || this.to) {
      this.from = at; this.to = null;
      document.getElementById('measured').textContent = 'Choose the second point.';
    } else { this.to = at; this.ask(); }
    mark('plan');
  }

  async ask() {
    const said = document.getElementById('measured');
    const asked = this.to;
    const { text, why } = await answered('/measure', { at: [this.from.x, this.from.y, this.to.x, this.to.y] }, 'The program does not answer.');
    if (this.to === asked) { said.textContent = text ?? why; }
  }

  // Everything that matters: the route worked out, where the aircraft was, else the filed route.
  wanted(route) {
    let box = NOWHERE;
    if (route) {
      for (const line of [...route.heading, ...route.amended.slice(0, 3)]) { box = aroundLine(box, line); }
    } else {
      for (const line of model.hello.filed) { box = aroundLine(box, line); }
    }
    return box;
  }

  // The view changes only when it must: a new route, or an aircraft that leaves it.
  frameAll(flown, route) {
    const key = [model.hello, flown, route, this.view.width, this.view.height];
    const same = holdsBy(this.fitted, key);
    const wanted = same ? this.fitted.wanted : this.wanted(route);
    this.fitted = { key, wanted };
    let box = both(wanted, flown ? flown.box : NOWHERE);
    for (const { now } of model.all ? model.seats.values() : []) { if (now) { box = around(box, now[X], now[Y]); } }
    if (!Number.isFinite(box[0])) { return; }
    if (!same) { this.view.fit(box, false); } else if (!this.view.shows(box)) { this.view.fit(box, true); }
  }

  // Whether an aircraft has moved, since it was drawn, by what can be seen.
  moved() {
    const seen = SEEN_PX / (this.view.scale * this.surface.dense);
    return [...model.seats.values()].some(({ name, now }) => {
      const drawn = this.drawn.get(name);
      return now && now !== drawn && (!drawn || Math.hypot(now[X] - drawn[X], now[Y] - drawn[Y]) >= seen
        || Math.abs((now[TRACK] - drawn[TRACK] + 540) % 360 - 180) >= SEEN_DEG);
    });
  }

  draw() {
    const { pen, dense } = this.surface;
    const view = this.view;
    if (!this.surface.ready()) { return; }
    if (!model.hello) { pen.fillStyle = colours.field; pen.fillRect(0, 0, this.surface.width * dense, this.surface.height * dense); return; }
    view.width = this.surface.width;
    view.height = this.surface.height;
    this.drawn = new Map([...model.seats.values()].map(({ name, now }) => [name, now]));
    const flown = seat();
    const route = model.preview || (flown && flown.amended);
    if (!this.touched || view.scale === 0) { this.frameAll(flown, route); } else { this.fitted = null; }
    if (this.following && flown && flown.now) { view.x = flown.now[X]; view.y = flown.now[Y]; }
    const sheet = this.laidDown(flown, dense);
    for (const each of model.seats.values()) {
      drawTrack(sheet, each, this.ground.baked.get(each.name) ?? -Infinity, each !== flown && !model.all, true);
    }
    for (const { now } of model.seats.values()) {
      if (now) { sheet.keepFree(view.px(now[X]), view.py(now[Y]), 9); }
    }
    if (model.other) { drawOther(sheet, model.other, flown && flown.now ? flown.now[T] : null); }
    for (const each of model.seats.values()) { if (each !== flown) { this.aircraft(sheet, each, false); } }
    if (flown) { this.aircraft(sheet, flown, true); }
    this.measureLine(sheet);
    this.footing(pen, dense);
  }

  // The ground copied in, drawn anew where it no longer holds.
  laidDown(flown, dense) {
    const view = this.view, pen = this.surface.pen;
    const key = [model.hello, flown, flown && flown.amended, model.preview, flown ? flown.logged : 0,
      flown && flown.grade ? flown.grade.faults.length : 0, colours.paper, view.scale, view.width, view.height, dense,
      model.seats.size];
    let dx = 0, dy = 0;
    let holds = holdsBy(this.ground, key);
    if (holds) {
      dx = Math.round((this.ground.view.x - view.x) * view.scale * dense) / dense;
      dy = Math.round((this.ground.view.y - view.y) * view.scale * dense) / dense;
      holds = Math.abs(dx) <= MARGIN && Math.abs(dy) <= MARGIN && this.fresh();
    }
    if (!holds) { dx = 0; dy = 0; this.bake(key, dense); }
    pen.setTransform(dense, 0, 0, dense, 0, 0);
    if (dx !== 0 || dy !== 0) { pen.fillStyle = colours.field; pen.fillRect(0, 0, view.width, view.height); }
    pen.drawImage(this.ground.canvas, dx - MARGIN, dy - MARGIN, view.width + 2 * MARGIN, view.height + 2 * MARGIN);
    pen.lineJoin = 'round';
    const boxes = this.ground.boxes.map(([a, b, c, d]) => [a + dx, b + dy, c + dx, d + dy]);
    return new Sheet(pen, view, boxes);
  }

  fresh() {
    return [...model.seats.values()].every(({ name, rows }) => rows.length === 0
      || rows[rows.length - 1][T] - (this.ground.baked.get(name) ?? -Infinity) < BAKED_S);
  }

  bake(key, dense) {
    const view = Object.assign(new View(), this.view);
    const w = view.width + 2 * MARGIN, h = view.height + 2 * MARGIN;
    const { canvas, pen } = layer(this.ground && this.ground.canvas, w, h, dense);
    pen.fillStyle = colours.field;
    pen.fillRect(0, 0, w, h);
    pen.translate(MARGIN, MARGIN);
    const sheet = new Sheet(pen, view, []);
    drawGround(sheet);
    const baked = new Map();
    for (const each of model.seats.values()) {
      if (each.rows.length > 0) { baked.set(each.name, each.rows[each.rows.length - 1][T]); }
    }
    this.ground = { key, view, canvas, baked, boxes: sheet.boxes };
  }

  aircraft(sheet, flown, chosen) {
    if (!flown.now) { return; }
    const x = this.view.px(flown.now[X]), y = this.view.py(flown.now[Y]);
    if (x < -20 || y < -20 || x > this.view.width + 20 || y > this.view.height + 20) { return; }
    const old = model.all && isOld(flown);
    const fill = old ? colours.paper : chosen || model.all ? colours.ink : colours.soft;
    sheet.aircraft(x, y, flown.now[TRACK], fill, old ? colours.soft : colours.paper);
    if (!chosen && model.seats.size <= 16) { flown.beside = sheet.label(x, y, (flown.off ? '▲ ' : '') + brief(flown.short || flown.label, this.view.width), Boolean(flown.off), flown.beside, this.words); }
  }

  measureLine(sheet) {
    if (this.measuring) { sheet.cross(this.view.width / 2, this.view.height / 2); }
    if (!this.from) { return; }
    sheet.dot([this.from.x, this.from.y], 4, true);
    if (this.to) {
      sheet.lines([[this.from.x, this.from.y, this.to.x, this.to.y]], colours.ink, 1.6);
      sheet.dot([this.to.x, this.to.y], 4, true);
    }
  }

  footing(pen, dense) {
    const view = this.view;
    const key = [model.hello, colours.paper, view.scale, view.width, dense];
    if (!holdsBy(this.foot, key)) {
      const made = layer(this.foot && this.foot.canvas, view.width, FOOT, dense);
      const strip = Object.assign(new View(), view, { height: FOOT });
      drawFoot(new Sheet(made.pen, strip, []));
      this.foot = { key, canvas: made.canvas };
    }
    pen.drawImage(this.foot.canvas, 0, view.height - FOOT, view.width, FOOT);
  }
}
