// Hands the token over once and forgets it: from the link's fragment, which no server or log ever sees, or from the form.
import './theme.js';

const answer = document.getElementById('answer');

async function enter(token) {
  const reply = await fetch('/enter', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify({ token }),
  });
  if (reply.ok) {
    location.replace((await reply.json()).to);
  } else {
    answer.textContent = await reply.text();
  }
}

document.getElementById('entry').addEventListener('submit', (event) => {
  event.preventDefault();
  enter(document.getElementById('token').value);
});

if (location.search === '?out') { answer.textContent = 'This device is not in the room any more: your instructor disconnected it, or it joined more than a month ago. Ask your instructor for a new code.'; }

function fromLink() {
  if (location.hash.length < 2) { return; }
  const token = decodeURIComponent(location.hash.slice(1));
  history.replaceState(null, '', '/enter');
  enter(token);
}
window.addEventListener('hashchange', fromLink); // a link that is opened where this page is open already
fromLink();
