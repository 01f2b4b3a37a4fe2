// Ink-black for a dark room unless the reader chose paper-white.
const root = document.documentElement;
const kept = (() => { try { return localStorage.getItem('theme'); } catch { return null; } })();
root.dataset.theme = kept === 'paper' ? 'paper' : 'ink';

export const colours = {};

export function readColours() {
  const style = getComputedStyle(root);
  for (const name of ['paper', 'ink', 'soft', 'rule', 'field', 'track', 'band', 'heading', 'radial', 'fault', 'grey']) {
    colours[name] = style.getPropertyValue('--' + name).trim();
  }
}

export function themeSwitch(button, changed) {
  const show = () => {
    const paper = root.dataset.theme === 'paper';
    button.setAttribute('aria-pressed', String(paper));
    readColours();
    changed();
  };
  button.addEventListener('click', () => {
    root.dataset.theme = root.dataset.theme === 'paper' ? 'ink' : 'paper';
    try { localStorage.setItem('theme', root.dataset.theme); } catch { /* not kept then */ }
    show();
  });
  show();
}
