'use strict';
// Replays the flight on the plan and the strips. Numbers come from the data block; text is only ever set as text.
(function () {
  const byId = (id) => document.getElementById(id);
  const flight = JSON.parse(byId('flight-data').textContent);
  const time = byId('time');
  const play = byId('play');
  const reading = byId('reading');
  const strips = byId('strips');
  const cursor = byId('cursor');
  const last = flight.time.length - 1;
  const end = flight.time[last];
  const rate = 20;
  let playing = false;
  let before = 0;

  function sampleAt(t) {
    let low = 0;
    let high = last;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (flight.time[middle] > t) { high = middle; } else { low = middle; }
    }
    return t >= end ? last : low;
  }

  const two = (n) => String(n).padStart(2, '0');
  const clock = (t) => two(Math.floor(t / 60)) + ':' + two(Math.floor(t % 60));
  const three = (deg) => String((Math.round(deg) + 359) % 360 + 1).padStart(3, '0');

  function say(i, t) {
    const parts = [clock(t)];
    if (flight.heading[i] !== null) { parts.push('heading ' + three(flight.heading[i])); }
    if (flight.altitude[i] !== null) { parts.push(flight.altitude[i] + ' ft'); }
    parts.push('ground speed ' + flight.speed[i] + ' kt');
    const cross = flight.cross[i];
    if (cross !== null) {
      parts.push(Math.abs(cross).toFixed(2) + ' NM ' + (0 > cross ? 'left' : 'right') + ' of course');
    }
    return parts.join(', ');
  }

  function show() {
    const t = Number(time.value);
    const i = sampleAt(t);
    const next = Math.min(i + 1, last);
    const span = flight.time[next] - flight.time[i];
    const share = span > 0 ? Math.min(1, (t - flight.time[i]) / span) : 0;
    const same = flight.plan[next] === flight.plan[i];
    const x = flight.x[i] + (same ? share * (flight.x[next] - flight.x[i]) : 0);
    const y = flight.y[i] + (same ? share * (flight.y[next] - flight.y[i]) : 0);
    for (const mark of document.querySelectorAll('.aircraft')) {
      if (mark.id === 'aircraft-' + flight.plan[i]) {
        mark.setAttribute('transform', 'translate(' + x + ' ' + y + ') rotate(' + flight.track[i] + ')');
        mark.removeAttribute('display');
      } else {
        mark.setAttribute('display', 'none');
      }
    }
    const left = Number(strips.dataset.left);
    const right = Number(strips.dataset.right);
    const at = left + (right - left) * t / Math.max(end, 0.001);
    cursor.setAttribute('x1', at);
    cursor.setAttribute('x2', at);
    cursor.removeAttribute('display');
    const text = say(i, t);
    reading.textContent = text;
    time.setAttribute('aria-valuetext', text);
    let now = -1;
    flight.events.forEach((s, index) => { if (t + 0.05 >= s) { now = index; } });
    for (const row of document.querySelectorAll('tr.now')) { row.classList.remove('now'); }
    const row = byId('event-' + (now + 1));
    if (row) { row.classList.add('now'); }
  }

  function stop() {
    playing = false;
    play.textContent = 'Play';
  }

  function step(stamp) {
    if (!playing) { return; }
    const t = Number(time.value) + rate * (stamp - before) / 1000;
    before = stamp;
    time.value = Math.min(t, end);
    show();
    if (t >= end) { stop(); } else { requestAnimationFrame(step); }
  }

  play.addEventListener('click', () => {
    if (playing) { stop(); return; }
    if (Number(time.value) >= end) { time.value = 0; }
    playing = true;
    play.textContent = 'Pause';
    requestAnimationFrame((stamp) => { before = stamp; step(stamp); });
  });
  time.addEventListener('keydown', (event) => {
    const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -10, PageUp: 10 }[event.key];
    if (by) {
      event.preventDefault();
      stop();
      time.value = Math.min(end, Math.max(0, Number(time.value) + by));
      show();
    }
  });
  time.addEventListener('input', () => { stop(); show(); });
  time.max = end;
  byId('replay').hidden = false;
  show();
}());
