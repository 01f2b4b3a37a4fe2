// What the instructor does: works a clearance out, issues it, speaks it, takes it back, checks a readback, makes a remark.
import { model, seat, mark, whenAnotherIsChosen } from './model.js';
import { browserVoices, programSpeech, radioOf, say, speaker, wishes } from '/voice.js';
import { byId, button, element, line } from '/dom.js';
import { marks } from '/marks.js';
import { order } from '/server.js';

const words = byId('words');
const worked = byId('worked');
const caret = byId('caret');
let spoken = '';
let asked = null; // what the panel waits for; an answer to anything else comes too late

const NOT = { preview: 'Not worked out. ', undo: 'Not taken back. ' };
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

const chosen = () => (seat() ? seat().name : '');
// Of the page of one seat, also before the flight's first picture has come.
const labelOf = (name) => model.seats.get(name)?.label || document.body.dataset.label || name;

function refused(answer, what) {
  worked.replaceChildren(line((NOT[what.do] ?? 'Not issued. ') + capital(answer.why), 'refused'));
  const shown = answer.column !== undefined;
  caret.hidden = !shown;
  if (!shown) { caret.textContent = ''; return; }
  // The part of the words that is meant, so that it needs no scrolling.
  const all = worded().replaceAll('\n', ' ');
  const from = Math.max(0, answer.column - 20);
  const lead = from > 0 ? '… ' : '';
  caret.textContent = lead + all.slice(from, from + 40) + '\n' + ' '.repeat(lead.length + answer.column - from)
    + '^'.repeat(Math.max(1, Math.min(answer.length, 40)));
}

// What is done is folded away, so that the log keeps its room.
function show(answer, title, done) {
  caret.hidden = true;
  const working = answer.working.map((text) => line(text));
  const warnings = answer.warnings.map((text) => line('▲ ' + text, 'warning'));
  if (done && working.length > 0) {
    const folded = document.createElement('details');
    folded.append(element('summary', title, 'strong'), ...working);
    worked.replaceChildren(folded, ...warnings);
  } else { worked.replaceChildren(line(title, 'strong'), ...working, ...warnings); }
  spoken = answer.spoken;
}

// The altitude belongs to the words: spoken, logged, read back and checked with them.
function worded() {
  const text = words.value.trim();
  const feet = byId('altitude').value;
  return text === '' || feet === '' ? text : text + ', maintain ' + feet;
}

async function preview() {
  const what = { do: 'preview', seat: chosen(), text: worded() };
  asked = what;
  const answer = await order(what);
  if (asked !== what) { return false; }
  model.preview = answer.k === 'preview' ? answer : null;
  if (model.preview) { show(answer, 'Worked out, not issued:'); } else { refused(answer, what); }
  mark('plan');
  return model.preview !== null;
}

// What was ordered is done or refused whatever is looked at since; for another seat it is said with the seat's name.
async function issue(what, title) {
  asked = what;
  const answer = await order(what);
  if (what.seat !== chosen()) {
    const label = labelOf(what.seat);
    worked.prepend(answer.k === 'issued' ? line(title + ' ' + label + '.', 'strong')
      : line('Not issued to ' + label + '. ' + answer.why, 'refused'));
    return;
  }
  if (answer.k === 'ask') { askAgain(what, title, answer); return; }
  if (answer.k === 'issued') {
    model.preview = null;
    show(answer, title + ' ' + labelOf(what.seat), true);
    // What was issued is not left standing for a second press.
    words.value = '';
    byId('altitude').value = '';
    byId('checked').replaceChildren();
    taps();
    mark('plan');
  } else { refused(answer, what); }
}

// The same clearance twice is rather a slip, and what another page has just issued was not read yet.
function askAgain(what, title, { why, yes }) {
  const row = element('div', '', 'row');
  const leave = () => { worked.replaceChildren(); words.focus(); };
  row.append(button(yes, () => issue({ ...what, again: true }, title)), button('Leave it', leave));
  row.addEventListener('keydown', (event) => { if (event.key === 'Escape') { leave(); } });
  worked.replaceChildren(line(why, 'strong'), row);
  row.firstChild.focus();
}

const taps = byId('taps') ? marks(byId('taps'), chosen) : () => {};
if (seat()) { taps(); } // the stream may have been quicker than this script

// What was worked out and not issued is of other words, or not wanted; whether there was any.
function dropPreview() {
  if (!model.preview) { return false; }
  model.preview = null;
  worked.replaceChildren();
  mark('plan');
  return true;
}

// The seat's name stands on the buttons.
function named() {
  const label = document.body.dataset.label || (seat() ? seat().label : '');
  byId('issue').textContent = label ? 'Issue to ' + label : 'Issue';
}
window.addEventListener('seat-named', named);
new MutationObserver(named).observe(byId('seats'), { childList: true, subtree: true, attributes: true, attributeFilter: ['aria-pressed'] });
setTimeout(named, 500);

whenAnotherIsChosen(() => {
  asked = null;
  spoken = '';
  words.value = '';
  byId('altitude').value = '';
  caret.hidden = true;
  worked.replaceChildren();
  byId('checked').replaceChildren();
  named();
  taps();
});
byId('clearance-form').addEventListener('submit', (event) => { event.preventDefault(); preview(); });
const issueWords = () => issue({ do: 'issue', seat: chosen(), text: worded() }, 'Issued to');
byId('issue').addEventListener('click', issueWords);
byId('cancel').addEventListener('click', () => {
  if (!dropPreview()) { issue({ do: 'undo', seat: chosen() }, 'Taken back at'); }
});
for (const typed of [words, byId('altitude')]) {
  typed.addEventListener('input', () => {
    caret.hidden = true;
    asked = null;
    dropPreview();
  });
}
words.addEventListener('keydown', (event) => {
  if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) { event.preventDefault(); issueWords(); return; }
  if (event.key === 'Escape' && dropPreview()) { return; }
  if (event.key === 'Enter' && !event.shiftKey) { event.preventDefault(); preview(); }
});

// What is not issued has no number, and only a voice of this browser can speak it.
byId('speak').addEventListener('click', async () => {
  const current = seat() && seat().amended;
  const inForce = worded() === '' || (current && current.say === worded());
  if (!inForce && !model.preview && !await preview()) { return; }
  const text = model.preview ? model.preview.spoken : current ? current.spoken : spoken;
  if (!text) { return; }
  const program = await programSpeech();
  const wish = wishes();
  const number = model.preview || !current ? null : current.clearance;
  const who = speaker({ voices: await browserVoices(), program: number === null ? { ...program, voice: null } : program, wish, lessonRadio: null });
  const wordsAMinute = wish.words_a_minute ?? program.words_a_minute;
  try {
    if (who.by === 'nobody' && number === null && program.voice) { throw new Error('This browser has no voice of its own. The program speaks a clearance once it is issued.'); }
    await say({
      who, words: text, wordsAMinute, radio: radioOf(null, wish, number ?? 0),
      where: '/api/speech/said?seat=' + encodeURIComponent(document.body.dataset.show || chosen()) + '&clearance=' + number + '&wpm=' + wordsAMinute,
    });
  } catch (why) { worked.append(line(why.message, 'refused')); }
});

byId('readback-form').addEventListener('submit', async (event) => {
  event.preventDefault();
  const read = chosen();
  const answer = await order({ do: 'readback', seat: read, text: byId('readback').value });
  if (read !== chosen()) { return; }
  const list = byId('checked');
  const item = (text, style) => { const made = element('li', ''); made.append(line(text, style)); return made; };
  if (answer.k !== 'readback') { list.replaceChildren(item(answer.why, 'refused')); return; }
  const signs = { RIGHT: '✓', MISSING: '∅ missing:', WRONG: '▲ wrong:', UNCLEAR: '? not clear:' };
  list.replaceChildren(...answer.elements.map(([what, verdict, expected, found]) =>
    item(signs[verdict] + ' ' + (what === 'onward' || what === 'words' || expected.split(' ').includes(what) ? '' : what + ' ') + (verdict === 'WRONG' ? (found || 'nothing') + (expected ? ', cleared ' + expected : ', no part of the clearance') : expected),
      verdict === 'RIGHT' ? '' : 'warning')));
});

// What a full disk refuses stays in the box until it is kept.
const REMARK_AGAIN_MS = 1000;
async function remark(what) {
  const answer = await order(what);
  if (answer.k === 'waits') { setTimeout(() => remark({ ...what, waits: true }), REMARK_AGAIN_MS); }
  if (byId('remark').value !== what.text) { return; }
  if (answer.k === 'done') { byId('remark').value = ''; }
  byId('remark-said').replaceChildren(...answer.k === 'done' ? [] : [line(answer.why, 'refused')]);
}
byId('remark-form').addEventListener('submit', (event) => {
  event.preventDefault();
  remark({ do: 'remark', seat: chosen(), text: byId('remark').value });
});
byId('remark').addEventListener('input', () => byId('remark-said').replaceChildren());

if (byId('start')) { byId('start').addEventListener('click', () => order({ do: 'start' })); }
if (byId('stop')) { byId('stop').addEventListener('click', () => {
  const button = byId('stop');
  if (button.dataset.sure !== 'yes') {
    button.dataset.sure = 'yes';
    button.textContent = 'Press again to end';
    setTimeout(() => { button.dataset.sure = ''; button.textContent = 'End the lesson'; }, 4000);
    return;
  }
  order({ do: 'stop' });
}); }
for (const what of ['next', 'route', 'grade', 'position', 'words']) {
  byId('show-' + what).addEventListener('change', (event) => order({ do: 'show', what, visible: event.target.checked }));
}
