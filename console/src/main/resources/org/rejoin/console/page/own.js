// A pilot's own seat. It changes with who sits where: the page follows.
import { html, render, useEffect, useFlown, useRoom, showBar, lessonWords, Trouble, DataWords, isOld, FromHere, ToDebrief, ClockRow, Stage, NextCard, LogCard, SeatTile } from '/pieces.js';
import { RadioCard } from '/radio-panel.js';

let shown = null;

function Strip({ me }) {
  const room = useRoom();
  const seat = room && room.seats.find((each) => each.id === room.own);
  const old = !seat || isOld(seat, room.connected);
  useEffect(() => {
    document.body.classList.toggle('old', Boolean(seat) && old);
    // No seat any more, as after a restart of the program: what was flown is not left standing.
    if (!seat && shown !== null && room && room.connected) { location.reload(); return; }
    if (!seat || seat.stage === 'free' || seat.id === shown) { return; }
    if (shown !== null) { location.reload(); return; }
    shown = seat.id;
    document.body.dataset.stream = '/stream/' + seat.id;
    document.body.dataset.show = seat.id;
    // Later: what is drawn while effects run loses its own.
    import('/main.js').then(() => render(html`<${RadioCard} show=${seat.id} />`, document.getElementById('radio')));
  }, [seat && seat.id, seat && seat.stage, old, room && room.connected]);
  useFlown(Boolean(seat) && seat.stage !== 'free');
  if (!room) { return html`<p class="seat-strip">Connecting.</p>`; }
  const none = lessonWords(seat, true);
  return html`<div class="seat-strip">${seat
    ? html`<div class="row"><b>${seat.pilot || (me ? me.pilot : '')}</b><span>${seat.label}</span><${DataWords} seat=${seat} connected=${room.connected} />
      <${Trouble} text=${seat.trouble} />
      ${seat.may_drill || seat.from_here ? html`<${FromHere} seat=${seat} />` : null}
      <${ToDebrief} seat=${seat} /></div>`
    : html`<p>${me && me.pilot ? me.pilot + ', your' : 'Your'} instructor gives you a seat and a lesson; they appear here.</p>`}
    ${none ? html`<p id="no-lesson" class="strong" role="status">${none}</p>` : null}
    ${room.shown ? html`<p><a class="button" href="/map">Map of the room</a></p>` : null}
    ${room.seats.length > 1 ? html`<div class="tiles">${room.seats.filter((each) => each.id !== room.own).map((each) => html`<${SeatTile} seat=${each} connected=${room.connected} to="/own" />`)}</div>` : null}</div>`;
}

render(html`<div id="strip"></div><div class="left"><${Stage} /></div>
  <div class="right"><${ClockRow} /><${NextCard} /><div id="radio"></div><${LogCard} /></div>`, document.getElementById('app'));
document.body.dataset.pilot = 'yes';
const me = await showBar('My seat');
render(html`<${Strip} me=${me} />`, document.getElementById('strip'));
