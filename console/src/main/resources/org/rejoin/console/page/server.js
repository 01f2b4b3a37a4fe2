// How a page speaks with its program: streams, questions, orders.

const AGAIN_MS = 3000;

// Whoever is not let in any more finds the page of the code where this one was; what it shows does not stay.
async function leaveIfOut() {
  try {
    const reply = await fetch(location.href);
    if (reply.redirected) { location.replace(reply.url); }
  } catch { /* the program does not answer: that is said as a lost connection */ }
}

// A stream that is asked for again where it was refused, which a browser does not do by itself. A browser has six connections for
// all its pages of one server: one that nobody sees lets its stream go until it is seen, but for a pilot's, whose radio goes on.
// Returns what ends it.
export function stream(path, { open, lost, told: tell }) {
  let source = null;
  let later = 0;
  const begin = () => {
    source = new EventSource(path);
    source.onopen = open;
    source.onerror = () => {
      lost();
      leaveIfOut();
      if (source && source.readyState === EventSource.CLOSED) { source = null; later = setTimeout(look, AGAIN_MS); }
    };
    source.onmessage = (event) => tell(event.data);
  };
  const end = () => {
    clearTimeout(later);
    if (source) { source.close(); source = null; }
  };
  const seen = () => document.visibilityState !== 'hidden' || document.body.dataset.pilot === 'yes' || !document.body.classList.contains('room');
  function look() { if (!seen()) { end(); } else if (!source) { clearTimeout(later); begin(); } }
  document.addEventListener('visibilitychange', look);
  look();
  return () => { document.removeEventListener('visibilitychange', look); end(); };
}

// Of two instructors the program tells which one has not read yet what the other has just issued: one tab is one of them, whichever
// of the pages he goes to in it.
const TAB = (() => {
  const fresh = Math.random().toString(36).slice(2);
  try {
    const kept = sessionStorage.getItem('tab') ?? fresh;
    sessionStorage.setItem('tab', kept);
    return kept;
  } catch { return fresh; }
})();

const sent = (path, body, type) => fetch(path, { method: 'POST', headers: { 'Content-Type': type ?? 'application/json' }, body: type ? body : JSON.stringify(body) });

async function read(reply) {
  if (reply.status === 401) { leaveIfOut(); }
  if (!reply.ok) { throw new Error(await reply.text()); }
  return reply.headers.get('Content-Type').startsWith('application/json') ? reply.json() : reply.text();
}

// Questions and orders; they throw one line. A type is that of a body that is no JSON.
export const get = async (path) => read(await fetch(path));
export async function post(path, body, type) {
  const answer = await read(await sent(path, body, type));
  if (answer.k === 'refused') { throw new Error(answer.why); }
  return answer;
}
export const ask = (path) => get('/api/' + path);
export const tell = (path, order) => post('/api/' + path, order || {});

// An order to the flight of this page, or of another show; what is refused is an answer too.
export const order = (what) => answered('/order', what, 'the program does not answer');

export async function answered(path, what, silence) {
  try {
    const reply = await sent(path, { show: document.body.dataset.show || '', page: TAB, ...what });
    return reply.ok ? await reply.json() : { k: 'refused', why: await reply.text() };
  } catch { return { k: 'refused', why: silence }; }
}
