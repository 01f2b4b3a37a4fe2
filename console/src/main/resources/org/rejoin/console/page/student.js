// The student's page of one flight has a radio too.
import { html, render } from '/preact.js';
import { RadioCard } from '/radio-panel.js';

render(html`<${RadioCard} show="" />`, document.getElementById('radio'));
