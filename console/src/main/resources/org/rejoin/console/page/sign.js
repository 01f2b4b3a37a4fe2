// Signatures under an attempt, and the form to give one.
import { html, useState, Act, when } from '/pieces.js';

export function Sign({ attempt, me, changed }) {
  const [words, set] = useState({ name: me.instructor, certificate: '', remark: '' });
  const type = (key) => (e) => set({ ...words, [key]: e.target.value });
  return html`<section class="card" aria-labelledby="sign-title"><h2 id="sign-title">Signature</h2>
    <ul class="plain">${attempt.signatures.map((each) => html`<li>${each.changed.length === 0 ? '✓' : '▲'} ${each.name}${each.certificate ? ', certificate ' + each.certificate : ''}, ${when(each.at_utc)}${each.remark ? ': ' + each.remark : ''}
      ${each.changed.length > 0 ? html`<span class="refused">changed since: ${each.changed.join(', ')}</span>` : null}</li>`)}</ul>
    ${attempt.signatures.length === 0 ? html`<p class="pen">${['Name', 'Certificate number', 'Date', 'Signature'].map((each) => html`<span>${each}</span>`)}</p>` : null}
    ${me.is_instructor ? html`<div class="form"><label>Name <input id="sign-name" type="text" value=${words.name} onInput=${type('name')} /></label>
      <label>Certificate number <input id="sign-certificate" type="text" value=${words.certificate} onInput=${type('certificate')} /></label>
      <label>Remark <input id="sign-remark" type="text" value=${words.remark} onInput=${type('remark')} /></label>
      <${Act} id="sign" path=${'attempt/' + attempt.id + '/sign'} order=${words} done=${changed}>Sign this attempt of ${attempt.pilot || attempt.aircraft}<//></div>` : null}</section>`;
}
