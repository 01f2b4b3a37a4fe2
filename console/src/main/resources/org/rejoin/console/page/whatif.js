// What if: a turn of the flight begun elsewhere, another bank, another wind. The program flies and grades it; the plan shows it.
import { html, useState, useEffect, useAsked, ask, Trouble, Heads, CriterionRow, clock } from '/pieces.js';
import { fixed, scoreOf, three } from '/model.js';

const WAIT_MS = 120;
const LIMITS = { before: [-3, 4, 0.05], bank: [5, 45, 1], from: [0, 360, 10], wind: [0, 100, 5] };

const asFlown = (turn) => ({ before: turn.flown_nm ?? turn.best_nm, bank: turn.bank_deg, from: turn.wind_from_deg, wind: turn.wind_kt });
const asBest = (turn) => ({ before: turn.best_nm, bank: turn.bank_deg, from: turn.wind_from_deg, wind: turn.wind_kt });

const same = (one, two) => Object.keys(LIMITS).every((key) => one[key] === two[key]);

// Outside: the distance as one would say it.
const before = (nm) => (nm >= 0 ? nm.toFixed(2) + ' NM before the line' : (-nm).toFixed(2) + ' NM past the line');

function Setting({ id, name, unit, value, at, set }) {
  const [low, high, step] = LIMITS[id];
  const take = (e) => { const number = Number(e.target.value); if (e.target.value !== '' && Number.isFinite(number)) { set(Math.min(high, Math.max(low, number))); } };
  return html`<div class="setting"><label for=${'w-' + id}>${name}</label>
    <input id=${'w-' + id} type="range" min=${low} max=${high} step=${step} value=${value} onInput=${take} aria-valuetext=${value + ' ' + unit} />
    <input type="number" min=${low} max=${high} step=${step} value=${value} aria-label=${name + ', ' + unit} onChange=${take} /><span class="soft">${unit}</span>
    ${at ? html`<span class="soft">${at}</span>` : null}</div>`;
}

const score = (side) => (side.grade ? (side.grade.score ?? null) : null);
const seconds = (s) => (s === undefined ? '–' : (s < 0 ? '−' + -s : s) + ' s');

// The model flies no turn quite as the pilot did: what is changed is compared with the turn as flown, flown by the model.
// Of what never turned the model flies the best turn in its stead.
function told(mine, base, asIs, flown, turned) {
  if (mine === null) { return 'Not enough was judged to compare the score.'; }
  if (!turned && (asIs || base === null)) { return 'No turn was flown. ' + (asIs ? 'The best one' : 'This one') + ' would have been ' + scoreOf(mine) + ' of 100.'; }
  if (asIs) { return 'The same turn in this model: ' + scoreOf(mine) + ' of 100' + (flown === null ? '.' : ' (flown: ' + scoreOf(flown) + ').'); }
  const better = base === null ? null : mine - base;
  return 'It would have been ' + scoreOf(mine) + ' of 100' + (better === null ? '.' : better === 0 ? (turned ? ', as with the turn as flown.' : ', as with the best turn.')
    : ', ' + fixed(Math.abs(better), 1) + ' points ' + (better > 0 ? 'more' : 'less') + ' than the ' + (turned ? 'turn as flown' : 'best turn') + ' in this model.');
}

// What differs, as numbers of both.
function Compared({ got, turn, base, asIs }) {
  if (got.why) { return html`<p class="warning" id="whatif-result">▲ ${got.why}.</p>`; }
  const { flown, other } = got;
  const changed = (other.grade ? other.grade.criteria : []).map((each) => [each, flown.grade && flown.grade.criteria.find((one) => one.code === each.code)])
    .filter(([each, was]) => !was || each.points !== was.points || each.met !== was.met);
  return html`<p class="strong" id="whatif-result">${told(score(other), base, asIs, score(flown), turn.flown_nm !== undefined)}</p>
    <table class="criteria"><${Heads} names=${['For this clearance', 'Flown', 'What if']} /><tbody>
      <tr><td>carried past the line</td><td class="figure">${flown.past_line_nm === undefined ? '–' : flown.past_line_nm.toFixed(2) + ' NM'}</td><td class="figure">${other.past_line_nm === undefined ? '–' : other.past_line_nm.toFixed(2) + ' NM'}</td></tr>
      <tr><td>turn late (minus: early)</td><td class="figure">${seconds(flown.turned_late_s)}</td><td class="figure">${seconds(other.turned_late_s)}</td></tr>
      <tr><td>time lost to the best path</td><td class="figure">${seconds(flown.lost_s)}</td><td class="figure">${seconds(other.lost_s)}</td></tr>
      <tr><td>score</td><td class="figure">${scoreOf(score(flown))}</td><td class="figure">${scoreOf(score(other))}</td></tr></tbody></table>
    <p class="soft">The turn begins at ${clock(got.begins_s)}; its radius is ${got.radius_nm.toFixed(2)} NM through the air.${turn.hold ? ' The hold itself is not flown otherwise.' : ''}</p>
    ${other.grade && other.grade.faults.length > 0 ? html`<ul class="faults">${other.grade.faults.map((each) => html`<li>▲ ${clock(each.at_s)} ${each.text}</li>`)}</ul>` : html`<p>✓ No fault.</p>`}
    ${changed.length > 0 ? html`<table class="criteria"><${Heads} names=${['What changes', 'What if', 'Flown', 'Limit', 'Points']} />
      <tbody>${changed.map(([each, was]) => html`<${CriterionRow} key=${each.code} criterion=${each} other=${was || null} />`)}</tbody></table>` : null}`;
}

// plan: what the plan shows of it, { show(other), drawn(act) }.
export function WhatIf({ id, plan }) {
  const [open, turnOpen] = useState(false);
  return html`<details class="card whatif" id="whatif" open=${open} onToggle=${(e) => turnOpen(e.target.open)}><summary><b>What if</b> <span class="soft">the turn, the bank or the wind had been another</span></summary>
    ${open ? html`<${Opened} id=${id} plan=${plan} />` : null}</details>`;
}

function Opened({ id, plan }) {
  const [given, trouble] = useAsked('attempt/' + id + '/whatif', 0);
  const [index, choose] = useState(0);
  const [values, set] = useState(null);
  const [got, take] = useState(null);
  const [base, keep] = useState({}); // the turn as flown, by the model
  const [refused, refuse] = useState('');
  const [seen, see] = useState(null);
  const turn = given && given.turns[index];
  const now = values || (turn && asFlown(turn));
  useEffect(() => {
    if (!turn) { return undefined; }
    let current = true;
    const wait = setTimeout(() => ask('attempt/' + id + '/whatif?clearance=' + turn.clearance + '&leg=' + turn.leg + '&before_nm=' + now.before + '&bank_deg=' + now.bank + '&from_deg=' + now.from + '&wind_kt=' + now.wind)
      .then((answer) => { if (current) { take({ ...answer, asIs: same(now, asFlown(turn)) }); if (same(now, asFlown(turn)) && !answer.why) { keep({ turn, score: score(answer.other) }); } refuse(''); if (answer.rows && seen !== turn) { see(turn); plan.lookAt(answer.begins); } plan.show(answer.rows ? { ...answer, line: turn.line, near: turn.near } : null); } },
        (why) => { if (current) { refuse(why.message); } }), WAIT_MS);
    return () => { current = false; clearTimeout(wait); };
  }, [turn, now && now.before, now && now.bank, now && now.from, now && now.wind]);
  useEffect(() => {
    plan.drawn((nm) => set((old) => { const [low, high, step] = LIMITS.before; return { ...(old || asFlown(turn)), before: Math.min(high, Math.max(low, Number((Math.round(nm / step) * step).toFixed(2)))) }; }));
    return () => plan.show(null);
  }, [turn]);
  if (!given) { return html`<${Trouble} text=${trouble} />`; }
  if (!turn) { return html`<p>No clearance of this flight has a turn onto a line that could be begun elsewhere.</p>`; }
  const put = (key) => (value) => set({ ...now, [key]: value });
  return html`<div class="form">
    ${given.turns.length > 1 ? html`<label>Turn <select id="w-turn" onChange=${(e) => { choose(Number(e.target.value)); set(null); }}>${given.turns.map((each, i) => html`<option value=${i} selected=${i === index}>onto ${each.onto}${given.turns.some((one) => one.clearance !== each.clearance) ? ', clearance of ' + clock(each.heard_s) : ''}</option>`)}</select></label>` : html`<p>The turn onto <b>${turn.onto}</b>.</p>`}
    <${Setting} id="before" name="Begin before the line" unit="NM" value=${now.before} set=${put('before')} at=${(turn.flown_nm === undefined ? 'never turned that way' : 'flown ' + before(turn.flown_nm)) + '; best ' + before(turn.best_nm)} />
    <${Setting} id="bank" name="Bank" unit="°" value=${now.bank} set=${put('bank')} at=${'standard rate at ' + turn.tas_kt + ' kt: ' + turn.bank_deg + '°'} />
    <${Setting} id="from" name="Wind from" unit="° true" value=${now.from} set=${put('from')} />
    <${Setting} id="wind" name="Wind" unit="kt" value=${now.wind} set=${put('wind')} at=${'in the lesson: ' + three(turn.wind_from_deg) + ' at ' + turn.wind_kt + ' kt'} />
    <div class="row"><button type="button" onClick=${() => set(asFlown(turn))}>As flown</button><button type="button" id="w-best" onClick=${() => set(asBest(turn))}>As on the best path</button></div>
    <p class="soft">The turn begins at the ring on the plan: drag it. A turn that misses its line closes on it again at 30 degrees.</p></div>
    <${Trouble} text=${refused} /><div role="status">${got ? html`<${Compared} got=${got} turn=${turn} asIs=${got.asIs} base=${base.turn === turn ? base.score : null} />` : null}</div>`;
}
