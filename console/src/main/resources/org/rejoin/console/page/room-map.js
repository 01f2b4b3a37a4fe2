// The map of the room: all who fly on one plan, by the drawing of every other plan.
import { html, useEffect, PlanCard } from '/pieces.js';
import { model, connect, mark } from '/model.js';
import { Plan } from '/plan.js';
import { readColours } from '/theme.js';

let plan = null;

export const shown = () => plan;

// Once for a page. tapped: told the name of a seat whose aircraft is pressed.
function begin(tapped) {
  if (plan) { return; }
  model.all = true;
  document.body.dataset.show = 'map';
  readColours();
  plan = new Plan(document.getElementById('plan'));
  plan.tapped = tapped;
  window.addEventListener('theme', () => { readColours(); mark('plan'); });
  window.addEventListener('resize', () => mark('plan'));
  connect('/stream/map');
  let centre = '';
  const frame = () => {
    if (model.changed.has('plan')) {
      // Another plan lies elsewhere: what was looked at is not there any more.
      const now = model.hello ? model.hello.centre.join() : centre;
      if (now !== centre) { centre = now; plan.fit(); }
      model.changed.clear();
      plan.draw();
    }
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
}

export function RoomMap({ tapped }) {
  useEffect(() => begin(tapped), []);
  return html`<${PlanCard} label="Map of the room" follows=${false} />`;
}
