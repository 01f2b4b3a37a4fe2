// Puts the page together: one stream in, at most one drawing a frame out, only what changed, and no frame where nothing did.
import { model, choose, connect, mark, whenMarked } from './model.js';
import { numberKey } from './dom.js';
import { Plan } from './plan.js';
import { drawStrips } from './strips.js';
import { showPanels } from './panels.js';
import { themeSwitch, readColours } from './theme.js';

const READ_MS = 200; // figures that change faster cannot be read
const UNHURRIED = new Set(['moved', 'strips', 'seats', 'text', 'data']);

export const plan = new Plan(document.getElementById('plan'));
let read = -Infinity; // when figures were shown
let asked = false; // for a frame

if (document.body.classList.contains('room')) {
  readColours();
  window.addEventListener('theme', () => mark('plan', 'chosen'));
} else {
  themeSwitch(document.getElementById('theme'), () => mark('plan', 'chosen'));
}
window.addEventListener('resize', () => mark('plan', 'chosen'));
if (document.body.dataset.stream) { connect(document.body.dataset.stream); }

// A seat by its number: in a room another page opens it, on the page of one lesson it is chosen here.
if (document.getElementById('seats') && !document.body.classList.contains('room')) {
  document.addEventListener('keydown', (event) => {
    const number = model.seats.size > 1 ? numberKey(event) : 0;
    if (number >= 1 && number <= model.seats.size) { choose([...model.seats.keys()][number - 1]); }
  });
}

// What hurries is drawn in the next frame, an aircraft as it moves by what can be seen, the rest as fast as it can be read.
function look() {
  if (asked || model.changed.size === 0) { return; }
  const hurries = [...model.changed].some((each) => !UNHURRIED.has(each));
  if (hurries || performance.now() - read >= READ_MS || plan.moved()) {
    asked = true;
    requestAnimationFrame(frame);
  }
}

function frame(now) {
  asked = false;
  if (model.changed.has('plan')) { model.changed.add('moved'); }
  const all = model.changed.has('chosen');
  const readable = all || now - read >= READ_MS;
  const changed = new Set([...model.changed].filter((each) => readable || !UNHURRIED.has(each)));
  for (const each of changed) { model.changed.delete(each); }
  showPanels(changed);
  if (changed.has('plan') || plan.moved()) { plan.draw(); }
  if (readable) {
    read = now;
    drawStrips(changed.has('moved'), all);
  }
}
whenMarked(look);
setInterval(look, READ_MS);
look();
