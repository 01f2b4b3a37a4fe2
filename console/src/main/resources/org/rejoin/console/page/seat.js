// One seat, as the instructor works it.
import { html, render, useRoom, useEffect, useFlown, showBar, parameter, who, DataWords, isOld, lessonWords, Act, FromHere, ToDebrief, Trouble, ClockRow, Stage, NextCard, ClearanceCard, LogCard, ShownCard } from '/pieces.js';
import { numberKey } from '/dom.js';

const id = /^s\d+$/.test(parameter('s')) ? parameter('s') : 's1';
document.body.dataset.stream = '/stream/' + id;
document.body.dataset.show = id;

function Strip({ me }) {
  const room = useRoom();
  const seat = room && room.seats.find((each) => each.id === id);
  const old = !seat || isOld(seat, room.connected);
  useEffect(() => { document.body.classList.toggle('old', room !== null && old); document.body.dataset.label = seat ? who(seat) : ''; window.dispatchEvent(new Event('seat-named')); }, [old, seat && who(seat), room !== null]);
  useFlown(Boolean(seat) && seat.stage !== 'free');
  if (!room) { return html`<p class="seat-strip">Connecting.</p>`; }
  const none = lessonWords(seat, false);
  const closed = seat && seat.lesson && me ? me.interrupted.filter((each) => each.aircraft === seat.label).pop() : null;
  return html`<div class="seat-strip">
    <nav class="row" aria-label="Seats">${room.seats.map((each) => html`<a class=${'button' + (isOld(each, room.connected) ? ' old' : '')} href=${'/seat?s=' + each.id} aria-current=${each.id === id ? 'page' : null}>
      ${each.id.slice(1)} ${who(each)}${(each.off || []).length > 0 ? ' ▲' : ''}</a>`)}</nav>
    ${seat ? html`<div class="row"><b>${seat.pilot || seat.label}</b><${DataWords} seat=${seat} connected=${room.connected} />
      ${(seat.off || []).map((each) => html`<span class="warning">▲ ${each.what}</span>`)}<${Trouble} text=${seat.trouble} />
      <span class="grow"></span>
      ${seat.stage === 'flying' ? html`<${Act} path="end" order=${{ seat: id }} sure=${'Press again: ends for ' + who(seat)}>End the attempt<//>` : null}
      <${FromHere} seat=${seat} />
      <${ToDebrief} seat=${seat} />
      ${seat.lesson ? html`<${Act} path="again" order=${{ seat: id }} sure=${seat.stage === 'flying' ? 'Ends this attempt: press again' : null}>Again<//>
      <${Act} path="again" order=${{ seat: id, next: true }} sure=${seat.stage === 'flying' ? 'Ends this attempt: press again' : null}>Next lesson<//>` : html`<a class="button" href="/">Choose pilot and lesson</a>`}</div>` : html`<p>No aircraft is heard at this seat. <a href="/">Home</a> lists those that are.</p>`}
    ${none ? html`<p id="no-lesson" class="strong" role="status">${none}${closed ? html` <a href=${'/debrief?id=' + closed.id}>Debrief of the attempt before</a>` : null}</p>` : null}</div>`;
}

render(html`<div id="strip"></div><div class="left"><${Stage} /></div>
  <div class="right"><${ClockRow} /><${NextCard} /><${ClearanceCard} /><${LogCard} /><${ShownCard} /></div>`, document.getElementById('app'));
const me = await showBar('One seat', ' ');
render(html`<${Strip} me=${me} />`, document.getElementById('strip'));
await import('/desk.js'); // its buttons work before there is a flight to press them for
await import('/main.js');
document.addEventListener('keydown', (event) => {
  if (numberKey(event) && event.target.tagName !== 'CANVAS') { location.href = '/seat?s=s' + event.key; }
});
