// The record book: every attempt, filtered while typing, sorted, two or more compared.
import { html, render, useState, useEffect, useAsked, showBar, parameter, Trouble, when, lasted, flownBy, faultWords, keepInAddress, scoreOf } from '/pieces.js';

const ORDERS = [['date', 'Date'], ['pilot', 'Pilot'], ['lesson', 'Lesson'], ['score', 'Score']];

function Row({ row, chosen, choose }) {
  return html`<tr data-attempt=${row.id}><td>${row.answered ? null : html`<input type="checkbox" aria-label=${'Compare ' + flownBy(row, row.aircraft) + ', ' + row.lesson + ', ' + when(row.began_utc)} checked=${chosen.has(row.id)} onChange=${(e) => choose(row.id, e.target.checked)} />`}</td>
    <td><a href=${'/debrief?id=' + row.id}>${when(row.began_utc)}</a></td><td>${flownBy(row, '(' + row.aircraft + ')')}</td><td>${row.lesson}</td><td data-name="Standard">${row.standard}</td>
    <td class="figure" data-name="Score">${row.score != null ? scoreOf(row.score) : row.answered || '–'}${row.own_mark != null ? ' (own ' + row.own_mark + ')' : ''}</td>
    <td data-name="Met">${row.met === true ? '✓ met' : row.met === false ? '▲ not met' : row.answered ? '– not flown' : row.duration_s == null ? '– in flight' : '– not judged'}</td>
    <td data-name="Faults">${row.faults.map(faultWords).join(', ')}</td>
    <td class="figure" data-name="Lasted">${lasted(row)}</td><td data-name="Instructor">${row.instructor}</td>
    <td data-name="Signed">${row.signed_by ? (row.signature_matches ? '✓ ' : '▲ changed since: ') + row.signed_by : ''}${row.changed_for.map((name) => '; ▲ changed since: ' + name).join('')}</td></tr>`;
}

function Book({ me }) {
  const [words, type] = useState(parameter('find') || parameter('pilot'));
  const [order, sort] = useState(parameter('order') || 'date');
  const [backward, turn] = useState(parameter('order') === '' || parameter('backward') !== '');
  const [chosen, pick] = useState(new Set(parameter('with').split(',').filter((each) => each !== '')));
  const [list, trouble] = useAsked('attempts?words=' + encodeURIComponent(words) + '&order=' + order + '&backward=' + (backward ? 'yes' : 'no'), 0, 120);
  useEffect(() => keepInAddress({ pilot: '', find: words, order: order === 'date' && backward ? '' : order, backward: order !== 'date' && backward ? 'yes' : '', with: [...chosen].join(',') }), [words, order, backward, chosen]);
  const choose = (id, on) => pick((before) => { const next = new Set(before); if (on) { next.add(id); } else { next.delete(id); } return next; });
  const by = (to) => { if (to === order) { turn(!backward); } else { sort(to); } };
  const ids = [...chosen];
  return html`<section class="wide" aria-label="Attempts"><div class="row">
      <label>Find <input id="find" type="search" value=${words} placeholder="pilot, lesson, 2026-11-28" onInput=${(e) => type(e.target.value)} /></label>
      ${ids.length > 1 ? html`<a class="button" id="compare" href=${'/debrief?id=' + ids[0] + '&with=' + ids.slice(1).join(',')}>Compare ${ids.length} attempts</a>` : html`<span class="soft">Choose two or more flights to compare them.</span>`}</div>
    <${Trouble} text=${trouble} />
    <p class="soft" role="status">${list ? list.all + (list.all === 1 ? ' attempt' : ' attempts') + (list.all > list.rows.length ? ', the first ' + list.rows.length + ' shown' : '') + (list.all > 0 ? '' : words.trim() !== '' ? ': nothing in the record book is called “' + words.trim() + '”. Look for a pilot, a lesson, an aircraft or a date.' : ' yet. What is flown in this room, or answered as a drill, is kept here.') : ''}</p>
    <div class="scroll" tabindex="0" role="region" aria-label="List of attempts"><table class="book stacks"><thead><tr><th scope="col"><span class="hidden">Compare</span></th>${ORDERS.slice(0, 3).map(([key, name]) => html`<${Head} key=${key} name=${name} at=${key} order=${order} backward=${backward} sort=${by} />`)}
      <th scope="col">Standard</th><${Head} name="Score" at="score" order=${order} backward=${backward} sort=${by} />
      <th scope="col">Met</th><th scope="col">Faults</th><th scope="col">Lasted</th><th scope="col">Instructor</th><th scope="col">Signed</th></tr></thead>
      <tbody>${(list ? list.rows : []).map((row) => html`<${Row} key=${row.id} row=${row} chosen=${chosen} choose=${choose} />`)}</tbody></table></div>
    ${me && me.is_instructor ? html`<p class="soft">As files: <code>attempts --csv</code>, <code>attempts --json</code> on the command line.</p>` : null}</section>`;
}

function Head({ name, at, order, backward, sort }) {
  return html`<th scope="col" aria-sort=${at === order ? (backward ? 'descending' : 'ascending') : 'none'}><button type="button" class="plain-button" onClick=${() => sort(at)}>${name}${at === order ? (backward ? ' ▾' : ' ▴') : ''}</button></th>`;
}

const me = await showBar('Record book');
if (me && !me.is_instructor) { document.title = 'My attempts'; document.getElementById('title').textContent = 'My attempts'; }
render(html`<${Book} me=${me} />`, document.getElementById('app'));
