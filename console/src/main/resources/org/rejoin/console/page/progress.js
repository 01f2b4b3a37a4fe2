// How each skill stands and how it came to be, from the record; the numbers are those of the command progress.
import { html, render, useState, useAsked, usePilot, showBar, Working, Heads, clock, faultWords } from '/pieces.js';
import { Plot } from '/plot.js';

const DAY_MS = 86400000;
const WEEK = 7, YEAR = 300; // days: the shortest span shown, and the longest whose days are named
const EVERY = [1, 2, 7, 14, 28, 56, 91, 182, 364];
const of100 = (value) => String(Math.round(value));
const days = (utc) => Date.parse(utc) / DAY_MS;

// A week at least, so that one flight is seen too. A little past today, so that its last point is whole.
function dates(got, now) {
  const first = Math.min(now, ...got.history.map((each) => days(each.at)), ...got.work_out.map((each) => days(each.at)));
  const from = Math.min(first, now - WEEK) - 0.2, to = now + (now - from) * 0.03;
  return { name: to - from > YEAR ? 'month' : 'month-day', from, to, every: EVERY, say: (at) => { const utc = new Date(at * DAY_MS).toISOString(); return to - from > YEAR ? utc.slice(0, 7) : utc.slice(5, 10); } };
}

// Estimate and its interval of 90 per cent; what is forgotten until today is drawn on to its right end.
function SkillPlot({ skill, got, x, now }) {
  const history = got.history.filter((each) => each.skill === skill.skill);
  if (history.length === 0) { return null; }
  const line = (key) => [...history.map((each) => [days(each.at), each[key] * 100]), [now, skill[key] * 100]];
  const [series] = useState(() => [{ name: 'estimate', points: line('p'), marks: true }, { name: 'upper end', points: line('high'), marks: history.length === 1 }, { name: 'lower end', points: line('low'), marks: history.length === 1 }]);
  return html`<section><h3>${skill.skill}: ${skill.words}</h3><${Plot} height=${190} series=${series}
    label=${skill.skill + ', right of 100 at standard difficulty, over time: now ' + of100(skill.p * 100) + ', between ' + of100(skill.low * 100) + ' and ' + of100(skill.high * 100) + ', after ' + skill.marks + ' marks'}
    x=${x} y=${{ name: 'right of 100', say: of100, from: 0, to: 100 }} /></section>`;
}

// The interval alone: a point in it, or a bar up to one, would be read as a mark out of 100.
const Interval = ({ low, high }) => html`<svg class="interval" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
  <rect class="scale" width="100" height="10" /><rect class="within" x=${low * 100} width=${(high - low) * 100} height="10" /></svg>`;

function TimePlot({ got, x }) {
  const points = got.work_out.map((each) => [days(each.at), each.seconds]);
  const [series] = useState(() => [{ name: 'time to work a clearance out', points, marks: true }]);
  return points.length === 0 ? null : html`<section><h3>Time to work a clearance out</h3><${Plot} height=${190} series=${series}
    label=${'Seconds to work a clearance out, over time: last ' + points[points.length - 1][1]}
    x=${x} y=${{ name: 'min:s', say: (s) => clock(s), from: 0 }} /></section>`;
}

function Skills({ pilot }) {
  const [got, trouble] = useAsked('progress?pilot=' + encodeURIComponent(pilot), pilot);
  const [now] = useState(() => Date.now() / DAY_MS);
  if (!got) { return html`<${Working} trouble=${trouble} />`; }
  const faults = Object.entries(got.faults);
  return html`<p role="status">${got.attempts} ${got.attempts === 1 ? 'attempt' : 'attempts'}.</p>${got.note ? html`<p class="warning">▲ ${got.note}.</p>` : null}<div class="scroll" tabindex="0" role="region" aria-label="Skills in a table"><table class="book stacks"><${Heads} names=${['Skill', 'Right of 100', 'In words', 'Marks', 'Last', 'Due']} />
    <tbody>${got.skills.map((each) => html`<tr><th scope="row">${each.skill}<span class="soft says">${each.says}</span></th><td><${Interval} low=${each.low} high=${each.high} /> between ${Math.round(each.low * 100)} and ${Math.round(each.high * 100)}</td><td data-name="In words">${each.words}</td><td data-name="Marks">${each.marks}</td><td data-name="Last">${each.last || '–'}</td><td data-name="Due">${each.due}</td></tr>`)}</tbody></table></div>
    <p class="soft">Of 100 drills of standard difficulty the pilot gets between … and … right; the true figure lies there in 9 of 10 cases. It does not say whether a pilot is ready for anything.</p>
    <div class="columns plots">${got.skills.map((each) => html`<${SkillPlot} key=${pilot + each.skill} skill=${each} got=${got} x=${dates(got, now)} now=${now} />`)}<${TimePlot} key=${pilot} got=${got} x=${dates(got, now)} /></div>
    ${faults.length > 0 ? html`<h3>Faults</h3><ul class="plain">${faults.map(([code, count]) => html`<li>${faultWords(code)}: ${count}</li>`)}</ul>` : null}`;
}

function Progress({ me }) {
  const [pilot, choice, none] = usePilot(me);
  return html`<section class="wide card" aria-labelledby="progress-title"><h2 id="progress-title">Progress</h2>
    ${choice}${pilot ? html`<${Skills} key=${pilot} pilot=${pilot} />` : none}</section>`;
}

const me = await showBar('Progress');
render(html`<${Progress} me=${me} />`, document.getElementById('app'));
