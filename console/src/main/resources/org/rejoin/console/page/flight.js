// The page of one flight, of the parts that a seat of the room has too: the instructor's with what he works it by, the student's
// with a place for his radio.
import { html, render, Stage, NextCard, ClearanceCard, LogCard, ShownCard } from '/pieces.js';

const instructor = document.body.dataset.stream === '/stream';
render(html`<${NextCard} /><div class="left"><${Stage} /></div>
  <div class="right">${instructor ? html`<${ClearanceCard} />` : html`<div id="radio"></div>`}<${LogCard} /></div>`, document.getElementById('main'));
if (instructor) {
  const place = document.createElement('div');
  render(html`<${ShownCard} position="where they are" />`, place);
  document.getElementById('caution').after(...place.childNodes);
}
