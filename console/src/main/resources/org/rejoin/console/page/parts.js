// Each part of the page by itself, for whoever carries on.
import { Code } from '/code.js';
import { RadioCard } from '/radio-panel.js';
import { html, render, showBar, SeatTile, CriterionRow, NextCard, ClearanceCard, Stage, LogCard, ShownCard } from '/pieces.js';
import { Plot } from '/plot.js';

const seat = { id: 's1', label: 'Seat 1', pilot: 'Anna', stage: 'flying', state: 'flying', age_s: 0.2, title: 'A lesson', next: 'turn right to heading 110', score: 88, faults: 1, now: { altitude_ft: 4710, heading: '098', ground_speed_kt: 118 }, off: [{ what: '290 ft low', for_s: 41 }], lacks: [] };
const criterion = { title: 'Altitude held', measured: 59, unit: 'ft', limit: 100, points: 9.1, max_points: 10, met: true, at_s: 208.5, source: 'as an example' };
const far = { name: 'distance to go, NM', say: (v) => v.toFixed(1) };
const off = { name: 'off the line, NM', say: (v) => v.toFixed(2), band: [-0.25, 0.25], lines: [{ value: 0.25, name: 'limit' }] };
const plotted = [{ name: 'first attempt', points: [[0, 0.4], [2, 0.3], [4, -0.1], [6, 0]], marks: true }, { name: 'second attempt', points: [[0, 0.1], [3, 0.05], [6, 0.02]] }];
const PARTS = [
  ['Seat tile: off a limit', html`<${SeatTile} seat=${seat} connected=${true} number="1" to="/parts" />`],
  ['Seat tile: no data', html`<${SeatTile} seat=${{ ...seat, state: 'silent', age_s: 78, off: [] }} connected=${true} number="1" to="/parts" />`],
  ['Seat tile: waits for a lesson', html`<${SeatTile} seat=${{ ...seat, pilot: '', stage: 'free', off: [], next: '', title: '' }} connected=${true} number="1" to="/parts" />`],
  ['Criterion row', html`<table class="criteria"><tbody><${CriterionRow} criterion=${criterion} /><${CriterionRow} criterion=${{ ...criterion, met: false, measured: 290 }} other=${criterion} /></tbody></table>`],
  ['Code for a tablet', html`<${Code} text="http://192.0.2.1:8047/enter#CODE" />`],
  ['What must happen next', html`<${NextCard} />`], ['The pilot\'s radio', html`<${RadioCard} show="" />`], ['Clearance form, readback, remark', html`<${ClearanceCard} />`],
  ['Plan and strips', html`<${Stage} />`], ['Log', html`<${LogCard} />`], ['Plot', html`<${Plot} label="Off the line against distance to go, of two attempts" x=${far} y=${off} series=${plotted} />`], ['What the pilot sees', html`<${ShownCard} />`],
];

await showBar('Parts of the page');
render(html`<div class="wide">${PARTS.map(([name, part]) => html`<section><h2>${name}</h2>${part}</section>`)}</div>`, document.getElementById('app'));
