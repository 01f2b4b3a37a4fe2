// Puts the page together: one stream in, at most one drawing a frame out, and only what changed.
import { model, choose, connect, mark } from './model.js';
import { Plan } from './plan.js';
import { drawStrips } from './strips.js';
import { showPanels } from './panels.js';
import { themeSwitch, readColours } from './theme.js';

const READ_MS = 200; // figures that change faster cannot be read

export const plan = new Plan(document.getElementById('plan'));
let figures = -Infinity;

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
    const number = Number(event.key);
    if (number >= 1 && number <= Math.min(9, model.seats.size) && model.seats.size > 1 && !event.ctrlKey && !event.altKey && !event.metaKey
      && !/^(INPUT|TEXTAREA|SELECT)$/.test(event.target.tagName)) { choose([...model.seats.keys()][number - 1]); }
  });
}

function frame(now) {
  if (model.changed.size > 0) {
    const changed = new Set(model.changed);
    model.changed.clear();
    if (changed.has('chosen')) { figures = -Infinity; }
    if (changed.has('text') || changed.has('seats')) {
      if (now - figures >= READ_MS) { figures = now; } else {
        for (const later of ['text', 'seats']) { if (changed.delete(later)) { mark(later); } }
      }
    }
    showPanels(changed);
    if (changed.has('plan')) { plan.draw(); }
    if (changed.has('plan') || changed.has('strips')) { drawStrips(now, changed.has('plan'), changed.has('chosen')); }
  }
  requestAnimationFrame(frame);
}
requestAnimationFrame(frame);
