// All seats at once, who needs the instructor first; one clearance to several of them.
import { html, render, useState, useEffect, useRoom, showBar, NoAircraft, SeatTile, byNeed, who } from '/pieces.js';
import { numberKey } from '/dom.js';
import { RoomMap } from '/room-map.js';
import { order } from '/server.js';

function Together({ seats }) {
  const [words, type] = useState('');
  const [chosen, choose] = useState(new Set());
  const [answers, say] = useState([]);
  const flying = seats.filter((seat) => seat.stage === 'flying');
  const to = flying.filter((seat) => chosen.has(seat.id));
  // Again only where it is asked about: elsewhere it was issued, or refused.
  const asked = () => new Set(answers.filter((each) => each.ask).map((each) => each.id));
  const all = (what, told) => Promise.all(to.filter((seat) => !what.again || asked().has(seat.id)).map(async (seat) => {
    const answer = await order({ ...what, show: seat.id, seat: '', text: words.trim() });
    return answer.why ? { text: who(seat) + ': ' + answer.why, bad: true, ask: answer.k === 'ask' && answer.yes, id: seat.id } : told(seat, answer);
  })).then(say);
  // What was issued stays said; what was worked out, refused or asked was of other words, or of other seats.
  const other = () => say((before) => before.filter((each) => each.done));
  const warned = (answer) => (answer.warnings || []).map((each) => ' ▲ ' + each).join('');
  // Before anything is transmitted: from where each of them is.
  const preview = () => all({ do: 'preview' }, (seat, answer) => ({ text: who(seat) + ', not issued: ' + answer.working.join('; ') + '.' + warned(answer) }));
  const issue = (again) => all({ do: 'issue', again }, (seat, answer) => ({ done: true, text: 'Issued to ' + who(seat) + '.' + warned(answer) }));
  if (flying.length === 0) { return null; }
  return html`<section class="card" aria-labelledby="together-title" onKeyDown=${(e) => { if (e.key === 'Escape') { other(); } }}><h2 id="together-title">One clearance to several seats</h2>
    <label class="hidden" for="together">Clearance</label><textarea id="together" rows="2" maxlength="1000" spellcheck="false" value=${words} placeholder="in ATC's words" onInput=${(e) => { type(e.target.value); other(); }}
      onKeyDown=${(e) => { if (e.key === 'Enter' && (e.ctrlKey || e.metaKey)) { e.preventDefault(); issue(false); } }}></textarea>
    <div class="row">${flying.map((seat) => html`<label><input type="checkbox" checked=${chosen.has(seat.id)} onChange=${(e) => {
      const next = new Set(chosen); if (e.target.checked) { next.add(seat.id); } else { next.delete(seat.id); } choose(next); other();
    }} /> ${who(seat)}</label>`)}
      <button type="button" id="preview-together" disabled=${to.length === 0 || words.trim() === ''} onClick=${preview}>Work it out</button>
      <button type="button" disabled=${to.length === 0 || words.trim() === ''} onClick=${() => issue(false)}>Issue${to.length === 0 ? '' : ' to ' + (to.length === 1 ? who(to[0]) : to.length + ' seats')}</button>
      ${answers.some((each) => each.ask) ? html`<button type="button" onClick=${() => issue(true)}>${answers.find((each) => each.ask).ask}</button>` : null}</div>
    <ul class="plain" role="status">${answers.map((each) => html`<li class=${each.bad ? 'refused' : ''}>${each.text}</li>`)}</ul></section>`;
}

function Live({ me }) {
  const room = useRoom();
  useEffect(() => {
    const press = (event) => { if (numberKey(event)) { location.href = '/seat?s=s' + event.key; } };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, []);
  if (!room) { return html`<p>Connecting.</p>`; }
  return html`<div class="wide">${room.seats.length === 0 ? html`<${NoAircraft} feed=${me ? me.feed : ''} />` : html`<p class="soft">The seat that needs you most comes first. Keys 1 to 9 open a seat.</p>`}
    <div class="overview"><div class="tiles">${byNeed(room.seats).map((seat) => html`<${SeatTile} key=${seat.id} seat=${seat} connected=${room.connected} number=${seat.id.slice(1)} to=${'/seat?s=' + seat.id} />`)}</div>
      <div class="room-map" hidden=${room.seats.length === 0}><${RoomMap} tapped=${(name) => { location.href = '/seat?s=' + name; }} /><p class="soft">Press an aircraft to open its seat. <a href="/map">Map of the room</a></p></div></div>
    <${Together} seats=${room.seats} /></div>`;
}

const me = await showBar('All seats');
render(html`<${Live} me=${me} />`, document.getElementById('app'));
