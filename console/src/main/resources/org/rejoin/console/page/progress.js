// How each skill stands, from the record; the numbers are those of the command progress.
import { html, render, useState, useAsked, showBar, Trouble, parameter } from '/pieces.js';

function Skills({ pilot }) {
  const [got, trouble] = useAsked('progress?pilot=' + encodeURIComponent(pilot), pilot);
  if (!got) { return html`<${Trouble} text=${trouble} />`; }
  return html`<p role="status">${got.attempts} ${got.attempts === 1 ? 'attempt' : 'attempts'}.</p><table class="book"><thead><tr><th scope="col">Skill</th><th scope="col">Chance to meet the standard</th><th scope="col">In words</th><th scope="col">Last</th></tr></thead>
    <tbody>${got.skills.map((each) => html`<tr><td>${each.skill}</td><td><meter min="0" max="1" value=${each.p} aria-label=${each.skill}></meter> ${Math.round(each.p * 100)} % (${Math.round(each.low * 100)} to ${Math.round(each.high * 100)})</td><td>${each.words}</td><td>${each.last || ''}</td></tr>`)}</tbody></table>`;
}

function Progress({ me }) {
  const [pilots] = useAsked(me && me.is_instructor ? 'pilots' : 'me', 0);
  const [pilot, choose] = useState(me && !me.is_instructor ? me.pilot_id : parameter('pilot'));
  const list = Array.isArray(pilots) ? pilots : [];
  return html`<section class="wide card" aria-labelledby="progress-title"><h2 id="progress-title">Progress</h2>
    ${me && me.is_instructor ? html`<label>Pilot <select id="whose" onChange=${(e) => choose(e.target.value)}><option value="">choose</option>${list.map((each) => html`<option value=${each.id} selected=${each.id === pilot}>${each.name}</option>`)}</select></label>` : null}
    ${pilot ? html`<${Skills} pilot=${pilot} />` : html`<p>Choose a pilot.</p>`}</section>`;
}

const me = await showBar('Progress');
render(html`<${Progress} me=${me} />`, document.getElementById('app'));
