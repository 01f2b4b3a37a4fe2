// Elements made and found, and keys, for what is no part in /pieces.js.

export const byId = (id) => document.getElementById(id);

export function element(name, text, style) {
  const made = document.createElement(name);
  made.textContent = text;
  if (style) { made.className = style; }
  return made;
}

export const line = (text, style) => element('p', text, style);

export function button(text, act) {
  const made = element('button', text);
  made.type = 'button';
  made.addEventListener('click', act);
  return made;
}

// Whether a key is no part of what somebody types, nor of a command of the browser.
export const isFree = (event) => !event.ctrlKey && !event.altKey && !event.metaKey && !/^(INPUT|TEXTAREA|SELECT)$/.test(event.target.tagName);

// Which of the keys 1 to 9; 0 for any other.
export const numberKey = (event) => (/^[1-9]$/.test(event.key) && isFree(event) ? Number(event.key) : 0);
