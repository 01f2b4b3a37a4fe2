// Home: who is heard, who sits there, what is flown; pilots and their tablets.
import { html, render, useState, useEffect, useRoom, useAsked, showBar, Act, FromHere, NoAircraft, ToDebrief, Trouble, dataWords, isOld, stageWords, when, lasted, tell, flownBy, enters, scoreOf } from '/pieces.js';
import { useRef } from '/preact.js';
import { JoinCode } from '/code.js';

const FAR_MS = 4000; // between two questions how far it is

// Before it is begun, while there is time to put the aircraft there.
function FarFrom({ seat, lesson }) {
  const [start, trouble] = useAsked('start?seat=' + seat + '&lesson=' + encodeURIComponent(lesson), Math.floor(performance.now() / FAR_MS));
  return start && start.far && !trouble ? html`<p class="warning">▲ ${start.far}.</p>` : null;
}

function Seat({ seat, connected, lessons, pilots }) {
  const [pilot, setPilot] = useState(seat.pilot);
  const [lesson, setLesson] = useState(''); // chosen and not begun yet
  const [touched, touch] = useState(false);
  useEffect(() => touch(false), [seat.pilot]);
  const who = touched ? pilot : seat.pilot;
  // A drill that was drawn for one flight is in no list.
  const listed = lessons.some((each) => each.id === seat.lesson);
  const what = lesson || (listed ? seat.lesson : seat.lesson ? '' : lessons[0] && lessons[0].id) || '';
  const flying = seat.stage === 'flying' || seat.stage === 'beginning';
  const begin = { seat: seat.id, pilot: who, lesson: what };
  return html`<li class=${'card seat-row' + (isOld(seat, connected) ? ' old' : '')} data-seat=${seat.id}>
    <div class="row apart"><h3>${seat.label}</h3>
      <span class=${seat.state === 'flying' ? 'soft' : 'warning'}>${seat.state === 'flying' ? '' : '▲ '}${dataWords(seat, connected)}</span>
      <span class="stage-word">${flying ? (seat.pilot ? seat.pilot + ' flies ' : 'no pilot named; ') + seat.title : stageWords(seat)}</span></div>
    ${seat.lacks.length > 0 ? html`<p class="soft">Its feed does not send: ${seat.lacks.join(', ')}.</p>` : null}
    <${Trouble} text=${seat.trouble} />
    <div class="row">
      <label>Pilot <input type="text" list="pilots" aria-label=${'Pilot at ' + seat.label} value=${who} autocomplete="off" placeholder="name or nickname" onInput=${(e) => { touch(true); setPilot(e.target.value); }} /></label>
      <label>Lesson <select aria-label=${'Lesson at ' + seat.label} value=${what} onChange=${(e) => setLesson(e.target.value)}>${what === '' ? html`<option value="" selected>choose a lesson</option>` : null}${lessons.map((each) => html`<option value=${each.id} selected=${each.id === what}>${each.title}</option>`)}</select></label>
      <${Act} path="assign" order=${begin} disabled=${what === ''} done=${() => { touch(false); setLesson(''); }} sure=${flying ? 'Ends the attempt at ' + seat.label + ': press again' : null}>Begin at ${seat.label}<//>
    </div>
    ${flying || what === '' ? null : html`<${FarFrom} seat=${seat.id} lesson=${what} />`}
    <div class="row">
      ${flying ? html`<a class="button" href=${'/seat?s=' + seat.id}>Open ${seat.label}</a>
        <${Act} path="end" order=${{ seat: seat.id }} sure=${'Press again to end it at ' + seat.label} name=${'End the attempt at ' + seat.label}>End the attempt<//>` : null}
      ${seat.lesson ? html`<${Act} path="again" order=${{ seat: seat.id, pilot: who }} sure=${flying ? 'Again ends the attempt at ' + seat.label + ': press again' : null} name=${'Again at ' + seat.label}>Again<//>
        <${Act} path="again" order=${{ seat: seat.id, pilot: who, next: true }} sure=${flying ? 'The next lesson ends the attempt at ' + seat.label + ': press again' : null} name=${'Next lesson at ' + seat.label}>Next lesson<//>` : null}
      <${FromHere} seat=${seat} pilot=${who} />
      <${ToDebrief} seat=${seat} />
      <${Naming} id=${seat.id} ask="Name this seat" now=${seat.label} most="40" path="name" order=${(label) => ({ seat: seat.id, label })} />
    </div></li>`;
}

// The focus goes into the name that is asked for, and back to the button after it.
function Naming({ id, ask, now, most, path, order, done }) {
  const [naming, name] = useState(null);
  const named = useRef(false);
  const field = 'name-' + id, keep = 'keep-name-' + id, button = 'ask-name-' + id;
  useEffect(() => {
    if (naming !== null) { document.getElementById(field).select(); } else if (named.current) { document.getElementById(button).focus(); }
    named.current = naming !== null;
  }, [naming !== null]);
  return naming === null ? html`<button type="button" id=${button} aria-label=${ask + ', ' + now} onClick=${() => name(now)}>${ask}</button>`
    : html`<label>Name <input id=${field} type="text" value=${naming} maxlength=${most} autocomplete="off" onInput=${(e) => name(e.target.value)} onKeyDown=${(e) => { if (e.key === 'Escape') { name(null); } else { enters(keep)(e); } }} /></label>
      <${Act} id=${keep} path=${path} order=${order(naming)} done=${(got) => { name(null); if (done) { done(got); } }}>Keep the name<//>`;
}

function Pilots({ pilots, changed, outs, out }) {
  const [fresh, type] = useState('');
  const [known, tellKnown] = useState('');
  const [given, give] = useState(null);
  const [gone, tellGone] = useState(''); // said beside the list: it is another list then
  useEffect(() => give(null), [outs]); // a code goes with the tablets
  return html`<section class="card" aria-labelledby="pilots-title"><h2 id="pilots-title">Pilots and their tablets</h2>
    ${given ? html`<${JoinCode} given=${given} close=${() => give(null)} />` : null}
    <p class="soft" role="status" id="tablets-out">${gone}</p>
    <ul class="plain">${pilots.map((each) => html`<li class="row" key=${each.id}><span class="grow">${each.name}</span>
      <${Act} path="code" order=${{ pilot: each.id }} done=${give} name=${'Join code for ' + each.name}>Join code<//>
      <${Act} path="revoke" order=${{ pilot: each.id }} sure=${'Press again to disconnect all tablets of ' + each.name} done=${() => { out(); tellGone(each.name + "'s tablets are disconnected, and open codes do not work any more. Press Join code for a new one."); }} name=${'Disconnect tablets of ' + each.name}>Disconnect tablets<//>
      <a class="button" href=${'/book?pilot=' + encodeURIComponent(each.name)} aria-label=${'Attempts of ' + each.name}>Attempts</a>
      <${Naming} id=${each.id} ask="Rename" now=${each.name} most="80" path="rename" order=${(name) => ({ pilot: each.id, name })} done=${(got) => { tellGone(got.left); changed(); }} /></li>`)}</ul>
    <div class="row"><label>New pilot <input id="new-pilot" type="text" value=${fresh} autocomplete="off" placeholder="name or nickname" onInput=${(e) => { type(e.target.value); tellKnown(''); }} onKeyDown=${enters('add-pilot')} /></label>
      <${Act} id="add-pilot" path="pilots" order=${{ name: fresh }} done=${(got) => { type(''); tellKnown(got.known ? got.name + ' is known already.' : ''); changed(); }}>Add<//><span class="soft" role="status">${known}</span></div></section>`;
}

function Setup({ me, room, changed, outs, out }) {
  const [name, type] = useState(null);
  const [given, give] = useState(null);
  useEffect(() => give(null), [outs]);
  return html`<section class="card" aria-labelledby="setup-title"><h2 id="setup-title">The room</h2>
    <div class="row"><label>Instructor <input id="instructor" type="text" maxlength="80" value=${name ?? me.instructor} onInput=${(e) => type(e.target.value)} onKeyDown=${enters('keep-instructor')} /></label>
      <${Act} id="keep-instructor" path="instructor" order=${{ name: name ?? me.instructor }} done=${changed}>Keep<//></div>
    <label class="row"><input type="checkbox" checked=${room && room.shown} onChange=${(e) => tell('shown', { visible: e.target.checked })} /> pilots see all seats</label>
    ${given ? html`<${JoinCode} given=${given} close=${() => give(null)} />` : null}
    <div class="row"><${Act} path="code" order=${{ instructor: true }} done=${give}>Join code for another instructor<//>
      <${Act} path="revoke" order=${{ all: true }} sure="Press again to disconnect every tablet" done=${out} said="Every tablet is disconnected, and open codes do not work any more.">Disconnect all tablets<//></div>
    ${room && room.lost > 0 ? html`<p class="warning">▲ ${room.lost} datagrams were lost before they could be taken.</p>` : null}
    ${room && room.refused > 0 ? html`<p class="warning">▲ ${room.refused} datagrams came from addresses that are not allowed.</p>` : null}
    ${me.fingerprint ? html`<p class="soft">Fingerprint of the page's certificate (SHA-256): <code>${me.fingerprint}</code></p>` : null}</section>`;
}

// changed: whatever stands for another attempt. Its grade is there some seconds after its end.
function Last({ changed }) {
  const [looks, look] = useState(0);
  useEffect(() => {
    const later = [3, 15].map((s) => setTimeout(() => look((n) => n + 1), s * 1000));
    return () => later.forEach(clearTimeout);
  }, [changed]);
  const [list, trouble] = useAsked('attempts', changed + looks);
  return html`<section class="card" aria-labelledby="last-title"><h2 id="last-title">Last attempts</h2>
    <${Trouble} text=${trouble} />
    ${list && list.rows.length === 0 ? html`<p class="soft">None yet.</p>` : null}
    <ul class="plain">${(list ? list.rows.slice(0, 6) : []).map((row) => html`<li><a href=${'/debrief?id=' + row.id}>${when(row.began_utc)} ${flownBy(row, row.aircraft)}</a>
      <span class="soft"> ${row.lesson}${row.score != null ? ', ' + scoreOf(row.score) + ' of 100' : row.answered ? ', ' + row.answered : row.duration_s == null ? ', in flight' : ''}${lasted(row) && ', ' + lasted(row)}</span></li>`)}</ul></section>`;
}

function Home() {
  const room = useRoom();
  const [changes, change] = useState(0);
  const [outs, put] = useState(0);
  const out = () => put((n) => n + 1);
  const [pilots] = useAsked('pilots', changes + (room ? room.seats.map((seat) => seat.pilot_id + seat.pilot).join() : ''));
  const [lessons, trouble] = useAsked('lessons', 0);
  const [me] = useAsked('me', changes);
  const seats = room ? room.seats : [];
  return html`<datalist id="pilots">${(pilots || []).map((each) => html`<option value=${each.name} />`)}</datalist>
    ${me && me.interrupted.length > 0 ? html`<section class="card wide" aria-labelledby="interrupted-title"><h2 id="interrupted-title">Closed as the room was opened</h2>
      <p>The program was ended in their flight. What was flown until then is recorded and graded:</p>
      <ul class="plain">${me.interrupted.map((row) => html`<li><a href=${'/debrief?id=' + row.id}>${when(row.began_utc)} ${row.pilot || row.aircraft}</a><span class="soft"> ${row.lesson}</span></li>`)}</ul></section>` : null}
    <section aria-labelledby="seats-title" class="wide"><h2 id="seats-title">Aircraft that are heard</h2>
      <${Trouble} text=${trouble} />
      ${seats.length === 0 ? html`<${NoAircraft} feed=${me ? me.feed : '…'} />` : null}
      ${room && room.unread ? room.unread.map((line) => html`<p class="card warning" role="status">▲ ${line}</p>`) : null}
      <ul class="plain seat-list">${seats.map((seat) => html`<${Seat} key=${seat.id} seat=${seat} connected=${room.connected} lessons=${lessons || []} pilots=${pilots || []} />`)}</ul></section>
    <div class="columns">${pilots ? html`<${Pilots} pilots=${pilots} outs=${outs} out=${out} changed=${() => change(changes + 1)} />` : null}
    ${me ? html`<${Setup} me=${me} room=${room} outs=${outs} out=${out} changed=${() => change(changes + 1)} />` : null}
    <${Last} changed=${changes + seats.map((seat) => seat.attempt + seat.stage).join()} /></div>`;
}

await showBar('Practice room');
render(html`<${Home} />`, document.getElementById('app'));
