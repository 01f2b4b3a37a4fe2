// A drill that was answered, on paper or by ear, after it: what the pilot had before him, his answers, the right ones.
import { html, useState, useEffect, ask, when, clock, OwnMark, Sign } from '/pieces.js';

const SIGNS = { unclear: '?' };

function Element({ each }) {
  return html`<li><p><b>${each.fine ? '✓' : SIGNS[each.verdict] || '▲'} ${each.verdict}: </b>${each.ask}</p>
    ${each.answers ? html`<p>${each.answers}</p>` : null}${each.working ? html`<p class="soft">${each.working}</p>` : null}</li>`;
}

// The answers, as they are kept; after a drill, and whenever it is opened again.
export function Elements({ drill }) {
  return html`<ol class="plain marked">${drill.elements.map((each) => html`<${Element} each=${each} />`)}</ol>`;
}

export function Answers({ first, me, note }) {
  const [attempt, set] = useState(first);
  const [changes, change] = useState(0);
  useEffect(() => { if (changes > 0) { ask('attempt/' + first.id).then(set, () => {}); } }, [changes]);
  const { drill } = attempt;
  return html`<div class="answers wide"><section class="card" aria-labelledby="answers-title"><h2 id="answers-title">${attempt.pilot || 'Nobody named'}: ${attempt.answered}</h2>
      <p>${attempt.lesson}</p><p class="soft">${when(attempt.began_utc)}${attempt.duration_s > 0 ? ', ' + clock(attempt.duration_s) : ''}. Not flown: worked out on paper or read back.</p>
      <div class="row"><button type="button" id="print" onClick=${() => print()}>Print</button><a class="button" href="/book">Record book</a></div>${note ? html`<p>${note}</p>` : null}
      ${drill.sheet.map((line) => html`<p>${line}</p>`)}${drill.readback ? html`<p>Readback: ${drill.readback}</p>` : null}
      ${drill.elements.length > 0 ? html`<${Elements} drill=${drill} />` : html`<p>Its answers were not kept: an earlier version kept the marks alone.</p>`}
      <${OwnMark} mark=${attempt.own_mark} /></section>
    <${Sign} attempt=${attempt} me=${me} changed=${() => change(changes + 1)} /></div>`;
}
