// The map of the room alone: for a large screen, and for pilots to whom the instructor shows the room.
import { html, render, useRoom, showBar, NoAircraft, dataWords, isOld, who } from '/pieces.js';
import { RoomMap } from '/room-map.js';

function Words({ seats, connected, instructor }) {
  return html`<ul class="plain row" aria-label="Seats in words">${seats.map((seat) => {
    const words = who(seat) + ': ' + (isOld(seat, connected) ? '▲ ' : '') + dataWords(seat, connected) + (seat.off || []).map((each) => ', ▲ ' + each.what).join('');
    return html`<li key=${seat.id}>${instructor ? html`<a class="button" href=${'/seat?s=' + seat.id}>${words}</a>` : words}</li>`;
  })}</ul>`;
}

function View({ me }) {
  const room = useRoom();
  const instructor = Boolean(me && me.is_instructor);
  return html`<${RoomMap} tapped=${instructor ? (name) => { location.href = '/seat?s=' + name; } : null} />
    ${!room ? html`<p>Connecting.</p>` : !instructor && !room.shown ? html`<p role="status">You see your own aircraft. Your instructor can show the room.</p>` : null}
    ${room && room.seats.length === 0 && (instructor || room.shown) ? html`<${NoAircraft} feed=${instructor ? me.feed : ''} />` : null}
    ${room ? html`<${Words} seats=${room.seats} connected=${room.connected} instructor=${instructor} />` : null}`;
}

const me = await showBar('Map of the room', ' ');
render(html`<${View} me=${me} />`, document.getElementById('app'));
