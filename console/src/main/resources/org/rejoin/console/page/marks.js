// How the clearance in force was read back, element by element: as it was heard, or as the instructor taps it.
import { button, line } from './dom.js';
import { seat, whenReadBack } from './model.js';
import { order } from './server.js';

const UNMARKED = ''; // kept as missing
const NEXT = { [UNMARKED]: 'right', right: 'wrong', wrong: 'missing', missing: 'unclear', unclear: 'right' };
const NAMES = { [UNMARKED]: '○ not heard: ', right: '✓ ', wrong: '▲ wrong: ', unclear: '? not clear: ', missing: '∅ missing: ' };
const WAYS = { heard: 'by voice', typed: 'typed', tapped: 'as you tapped it', marked: 'as you marked it' };

function title(back) {
  const times = (back.copy_s === undefined ? '' : ', begun ' + back.copy_s.toFixed(0) + ' s after it was issued') + (back.read_s === undefined ? '' : ', ' + back.read_s.toFixed(0) + ' s long');
  return 'Readback of clearance ' + back.clearance + ' at ' + back.clock + ', ' + (WAYS[back.how] ?? back.how) + ': ' + back.outcome + times + '.';
}

// elements: [what, cleared, read back, verdict, must be]; one tap changes an element.
function show(place, of, back, elements) {
  const verdicts = elements.map((each) => each[3]);
  const buttons = elements.map(([what, cleared, found, , must], i) => {
    const made = button('', () => { verdicts[i] = NEXT[verdicts[i]]; name(); count(); });
    const said = what === 'words' ? '“' + found + '”' : what === 'onward' || cleared.includes(what) ? cleared : what + ' ' + cleared; // "left turns", "then as filed" say what they are
    const name = () => {
      const other = what !== 'words' && found && verdicts[i] !== 'right' && found !== cleared ? ', read back ' + found : '';
      made.textContent = NAMES[verdicts[i]] + said + other + (must || verdicts[i] === 'right' || what === 'words' ? '' : ' (may be left out)');
      made.dataset.verdict = verdicts[i];
      made.dataset.must = String(must);
    };
    name();
    return made;
  });
  const send = async (given) => {
    const kept = await order({
      do: 'tapped', ...of, marked: back !== null, began_s: back?.began_s, ended_s: back?.ended_s,
      elements: elements.map(([what, cleared, found], i) => [what, cleared, given[i] || 'missing', what === 'words' ? found : '']),
    });
    if (kept.k !== 'done') { place.append(line(kept.why, 'refused')); }
  };
  const keep = button('', () => send(verdicts));
  keep.id = 'keep-readback';
  // Before the pilot has spoken there is nothing to keep.
  const count = () => {
    const open = verdicts.filter((each) => each === UNMARKED).length;
    keep.disabled = open === verdicts.length;
    keep.textContent = back ? 'Keep the marks' : 'Keep the readback' + (keep.disabled ? ': nothing is marked yet' : open ? ': ' + open + ' not heard' : '');
  };
  count();
  const all = back ? [] : [button('All right: keep it', () => send(verdicts.map(() => 'right')))];
  all.forEach((each) => { each.id = 'all-right'; });
  place.replaceChildren(line(back ? title(back) : 'Tap what you heard: once for right, again for wrong, missing, not clear.', back ? 'strong' : 'soft'),
    ...(back && back.words ? [line('“' + back.words + '”', 'soft')] : []), ...buttons, ...all, keep);
}

// Shows what there is for the seat that is looked at; shown anew with each readback.
export function marks(place, chosen) {
  const fresh = async () => {
    const read = chosen();
    const answer = await order({ do: 'elements', seat: read });
    if (read !== chosen()) { return; }
    if (answer.k !== 'elements') { place.replaceChildren(); return; }
    const back = seat()?.readbacks.get(answer.clearance) ?? null;
    show(place, { seat: read, clearance: answer.clearance }, back, back ? back.elements : answer.elements.map(([what, cleared, must]) => [what, cleared, '', UNMARKED, must]));
  };
  whenReadBack(fresh);
  return fresh;
}
