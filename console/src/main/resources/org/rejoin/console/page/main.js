// Puts the page together: one stream in, one drawing a frame out, and only what changed.
import { model, connect, mark } from './model.js';
import { Plan } from './plan.js';
import { drawStrips } from './strips.js';
import { showPanels } from './panels.js';
import { themeSwitch } from './theme.js';

export const plan = new Plan(document.getElementById('plan'));

themeSwitch(document.getElementById('theme'), () => mark('plan', 'text'));
window.addEventListener('resize', () => mark('plan', 'text'));
connect(document.body.dataset.stream);

function frame() {
  if (model.changed.size > 0) {
    const changed = new Set(model.changed);
    model.changed.clear();
    showPanels(changed);
    if (changed.has('plan')) { plan.draw(); }
    if (changed.has('plan') || changed.has('text')) { drawStrips(); }
  }
  requestAnimationFrame(frame);
}
requestAnimationFrame(frame);
