// The code by which a tablet joins, in letters and as a square to scan.
import { html } from '/preact.js';

// A square that a tablet's camera reads; the program draws it.
export const Code = ({ text }) => html`<img class="code" src=${'/code.svg?text=' + encodeURIComponent(text)} alt=${'Code to scan: ' + text} />`;

// Where no tablet comes to.
const OWN_MACHINE = /^https?:\/\/(127\.|localhost|\[::1\])/;

export function JoinCode({ given, close }) {
  return html`<div class="card join" role="status">
    <${Code} text=${given.link} />
    <div><p id="join-for">${given.for ? html`For <b>${given.for}</b>: whoever types it sees and works this pilot's seat and attempts.` : html`For <b>another instructor</b>: whoever types it may do everything.`}</p>
      <p>Open <b>${given.page}</b> on the tablet and type</p><p class="code-text">${given.code}</p>
      <p class="soft">Good until ${new Date(given.until_utc).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })} by this device's clock, on as many devices as it is typed on. Each stays in for a month.</p>
      ${OWN_MACHINE.test(given.page) ? html`<p class="warning">▲ Only this machine reaches that address. For tablets start the room with <code>--page-bind</code> and this machine's address in your network.</p>` : null}
      ${given.fingerprint ? html`<p class="soft">The page's certificate must have this fingerprint (SHA-256): <code>${given.fingerprint}</code></p>` : null}
      <button type="button" onClick=${close}>Done</button></div></div>`;
}
