// The next drill for a pilot, and why.
import { html, render, useState, useAsked, showBar, Act, Trouble } from '/pieces.js';
import { Paper } from '/paper.js';

function Next({ pilot, me }) {
  const [kept, keep] = useState('');
  const [got, trouble] = useAsked('drill?pilot=' + encodeURIComponent(pilot), pilot);
  if (!got) { return html`<${Trouble} text=${trouble} />`; }
  return html`<p class="next-text">${got.say || ''}</p><p>${got.why || ''}</p>
    ${me.is_instructor ? html`<div class="row"><${Act} id="keep-drill" path="drill" order=${{ pilot }} done=${(made) => keep(made.id)}>Keep it as a lesson<//></div>` : null}
    ${kept ? html`<p class="strong" role="status">Kept as ${kept}. It can be chosen at every seat.</p>` : null}`;
}

function Drill({ me }) {
  const [pilots] = useAsked(me && me.is_instructor ? 'pilots' : 'me', 0);
  const [pilot, choose] = useState(me && !me.is_instructor ? me.pilot_id : '');
  return html`<section class="wide card" aria-labelledby="drill-title"><h2 id="drill-title">The next drill</h2>
    ${me && me.is_instructor ? html`<label>Pilot <select id="whose" onChange=${(e) => choose(e.target.value)}><option value="">choose</option>${(Array.isArray(pilots) ? pilots : []).map((each) => html`<option value=${each.id}>${each.name}</option>`)}</select></label>` : null}
    ${pilot ? html`<${Next} pilot=${pilot} me=${me} />` : html`<p>Choose a pilot.</p>`}</section>
    ${pilot ? html`<${Paper} pilot=${pilot} />` : null}`;
}

const me = await showBar('Drill');
render(html`<${Drill} me=${me} />`, document.getElementById('app'));
