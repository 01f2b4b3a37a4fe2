// The student's page of one flight has a radio too.
import { html, render } from '/preact.js';
import { RadioCard } from '/radio-panel.js';

const place = document.createElement('div');
place.id = 'radio';
document.querySelector('.log').before(place);
render(html`<${RadioCard} show="" />`, place);
