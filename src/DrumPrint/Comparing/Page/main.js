// Puts the page together.

document.documentElement.classList.remove('no-script');
byId('thirds-details').open = false;
const report = JSON.parse(byId('data').textContent);
// Another print is another load of this page: nothing of the one before is left playing.
const asked = Number(new URLSearchParams(location.hash.slice(1)).get('print'));
const chosen = Math.max(0, report.prints.findIndex(print => location.hash && print.number === asked));
const data = { ...report, ...report.prints[chosen], prints: undefined };
const rate = data.audio.rate_hz;
const sides = {
  a: decodeSide(byId(`audio-${chosen}-a`).textContent, data.audio.a.channels, data.audio.frames, data.audio.a.scale),
  b: decodeSide(byId(`audio-${chosen}-b`).textContent, data.audio.b.channels, data.audio.frames, data.audio.b.scale),
};
for (const id of [`audio-${chosen}-a`, `audio-${chosen}-b`]) byId(id).textContent = '';
const clock = createClock(data.passage, data.audio.frames / rate);
const sign = data.alignment.is_inverted ? -1 : 1;
const player = createPlayer(sides, rate);
const desk = createDesk(sides, data.match, sign, player);
const waveform = createWaveform(byId('wave'), sides, desk, player, clock);
const blind = createBlindTest(desk, player, data, drawControls);
const unit = data.match.metric === 'rms' ? 'dBFS mean level' : 'LUFS';

function matchWords() {
  const { a, b } = data.match;
  const apart = b - a;
  if (a === null || b === null) return 'One side is silent; there is no level to match.';
  const louder = Math.abs(apart) < 0.005 ? 'Both are equally loud' : `B is ${number(Math.abs(apart), 2)} dB ${apart > 0 ? 'louder' : 'softer'}`;
  const readings = `${number(a)} and ${number(b)} ${unit}`;
  if (!desk.state.match) return `True level: ${louder} (${readings}).`;
  const total = desk.offset + desk.state.trimDb;
  if (Math.abs(total) < 0.005) return `Both are at ${number(a)} ${unit}: nothing had to be turned down.`;
  return `${total < 0 ? 'B' : 'A'} is turned down by ${number(Math.abs(total), 2)} dB (${readings}${desk.state.trimDb ? `; ${signed(desk.state.trimDb, 2)} dB given to B by hand in that` : ''}).`;
}

function boostWords() {
  if (desk.state.isSilent) return 'Nothing is left of the difference: there is nothing to raise.';
  if (desk.state.capDb === 0) return 'The difference is as loud as the sides themselves: there is nothing to raise.';
  if (desk.state.side !== 'D') return `Only while A−B is heard, by at most ${desk.state.capDb} dB; it falls back to 0 by itself.`;
  return `By at most ${desk.state.capDb} dB, so that it stays below the louder side. It falls back to 0 when you leave it.`;
}

function drawControls() {
  const { side, match, trimDb, boostDb, capDb, mono } = desk.state;
  const running = blind.isRunning;
  for (const name of ['A', 'B', 'D', 'S']) byId('side-' + name).setAttribute('aria-pressed', String(!running && side === name));
  for (const name of ['side-A', 'side-B', 'side-D', 'side-S', 'match', 'trim', 'mono', 'print']) byId(name).disabled = running;
  byId('match').checked = match;
  byId('trim').value = trimDb;
  byId('trim').disabled = running || !match;
  byId('trim-out').textContent = `${signed(trimDb, 2)} dB`;
  byId('boost').max = Math.max(1, capDb);
  byId('boost').value = boostDb;
  byId('boost').disabled = running || side !== 'D' || capDb === 0;
  byId('boost-out').textContent = `${signed(boostDb, 0)} dB`;
  byId('boost-words').textContent = boostWords();
  byId('mono').checked = mono;
  byId('match-words').textContent = matchWords();
}

function drawListening() {
  for (const id of ['listen', 'blind-listen']) {
    byId(id).setAttribute('aria-pressed', String(player.isPlaying));
    byId(id).textContent = player.isPlaying ? 'Stop' : 'Listen';
  }
}

function drawLoop() {
  byId('loop-from').value = clock.song(player.loop.from / rate).toFixed(2);
  byId('loop-to').value = clock.song(player.loop.to / rate).toFixed(2);
  byId('drag-out').textContent = '';
  drawPosition();
}

function drawPosition() {
  const seconds = player.position() / rate;
  const words = clock.words(seconds);
  byId('position').value = clock.song(seconds);
  byId('position').setAttribute('aria-valuetext', words);
  byId('position-out').textContent = words;
  document.documentElement.style.setProperty('--at', String(seconds / clock.seconds));
  if (data.overview) document.documentElement.style.setProperty('--song-at', String(clock.song(seconds) / data.overview.to_s));
  waveform.draw();
}

function tick() {
  if (!player.isPlaying) return;
  drawPosition();
  requestAnimationFrame(tick);
}

function say(text) {
  byId('status').textContent = text;
}

function toggleListening() {
  if (player.isPlaying) {
    player.stop();
    blind.takeTime();
    desk.stopped();
    say('Stopped');
  } else {
    player.listen();
    blind.takeTime();
    requestAnimationFrame(tick);
    say('Listening');
  }
  drawListening();
  drawPosition();
}

function hear(side) {
  if (blind.isRunning) {
    if (side === 'D' || side === 'S') return;
    blind.hear(side);
  } else if (side === 'X') {
    return;
  } else {
    desk.hear(side);
  }
  say(`Hearing ${side === 'D' ? 'the difference' : side === 'S' ? 'A and B together' : side}`);
}

function setLoop(from, to) {
  player.repeat(from, to);
  drawLoop();
}

function redrawPictures() {
  waveform.drawPicture();
  waveform.draw();
  drawSong();
  drawSpectra(byId('spectra'), data.third_octaves);
  drawThirds(byId('thirds'), byId('thirds-table'), data.third_octaves);
  byId('reduction-section').hidden = data.gain_reduction.length === 0;
  if (data.gain_reduction.length > 0) {
    byId('reduction-section').hidden = drawReductions(byId('reduction'), data.gain_reduction, clock) === 0;
  }
}

function redrawAll() {
  redrawPictures();
  drawRest();
}

function drawRest() {
  byId('rest-words').textContent = data.null.is_identical
    ? 'Nothing is left: every sample is the same.'
    : `A less ${data.match.metric === 'true_level' ? '' : 'matched '}B: ${number(data.null.rms_db)} dB against A, peaks at ${number(data.null.peak_dbfs)} dBFS. The darker, the louder; ${shownDb} dB from end to end.${sign < 0 ? ' B’s polarity is turned back for this and for A−B.' : ''}`;
  const isDark = window.matchMedia('(prefers-color-scheme: dark)').matches;
  if (isDark && !document.documentElement.classList.contains('paper') && !window.matchMedia('print').matches) byId('rest-words').textContent = byId('rest-words').textContent.replace('darker', 'brighter');
  drawSpectrogram(byId('spectrogram'), sides, desk.gains(), sign, rate, clock);
}

function fillNumbers() {
  const rows = [
    ['Loudness, LUFS', 'loudness_lufs'], ['Peak, dBFS', 'peak_dbfs'], ['True peak, dBTP', 'true_peak_dbtp'],
    ['Mean level, dBFS', 'rms_dbfs'], ['Crest factor, dB', 'crest_db'], ['Loudness range, LU', 'range_lu'],
    ['Side against middle, dB', 'width_db'], ['Lost in mono, dB', 'mono_loss_db'], ['Correlation', 'correlation'],
  ].map(([name, key]) => {
    const [a, b] = [data.a.measures[key], data.b.measures[key]];
    const digits = key === 'correlation' ? 2 : 1;
    const difference = a === null || b === null ? (a === b ? 'none' : '') : signed(b - a, digits);
    const words = side => key === 'width_db' ? width(side.measures) : number(side.measures[key], digits);
    return [name, words(data.a), words(data.b), difference];
  });
  const hits = data.hits;
  rows.push(
    [`Attack of ${hits.count} hits, matched, dB`, '', '', hits.attack_db === null ? 'none' : signed(hits.attack_db)],
    [`Sustain of ${hits.sustain_count} hits, matched, dB`, '', '', hits.sustain_db === null ? 'none' : signed(hits.sustain_db)],
    ['Null, matched, dB', '', '', data.null.is_identical ? '−∞' : number(data.null.rms_db)],
    ['Delay taken out, ms', '', '', number(data.alignment.delay_ms, 2)]);
  fillTable(byId('numbers'), ['Measured', 'A', 'B', 'B less A'], rows);
  const others = data.in_short.filter(other => other.title !== data.title);
  byId('others-box').hidden = others.length === 0;
  if (others.length > 0) {
    fillTable(byId('others'), ['Print', 'Loudness, LU', 'Crest, dB', 'Null, dB'], others.map(other => [
      other.title, other.is_identical ? 'identical' : signed(other.loudness_lu), other.is_identical ? '' : signed(other.crest_db), other.is_identical ? '−∞' : number(other.null_db),
    ]));
  }
  if (data.recipe.length > 0) {
    byId('recipe-box').hidden = false;
    byId('recipe').replaceChildren(...data.recipe.map(text => element('li', text)));
  }
  byId('notes').replaceChildren(...data.notes.map(text => element('li', text)));
}

/** Says on top what the chosen print is: the page was written for the first one. */
function fillHeader() {
  byId('over').textContent = data.over;
  byId('place').textContent = data.place;
  byId('verdict').textContent = data.line;
  byId('measured').textContent = data.rest;
  byId('measured-title').parentElement.hidden = data.rest === '';
  const choose = byId('print');
  choose.selectedIndex = chosen;
  choose.addEventListener('change', () => {
    location.hash = `print=${report.prints[choose.selectedIndex].number}`;
    location.reload();
  });
}

function drawSong() {
  byId('song-section').hidden = !data.overview;
  if (!data.overview) return;
  byId('song-words').replaceChildren(`${data.overview.title} from end to end at true level, and below it what its processors turned down: `, element('span', 'A drawn through', { class: 'a' }), ', ', element('span', 'B dashed', { class: 'b' }), '. The passage of this page is marked.');
  drawOverview(byId('song'), data.overview, data.passage);
}

for (const side of ['A', 'B']) byId('label-' + side).textContent = data[side.toLowerCase()].name;
byId('side-S').hidden = !data.two_files || data.null.is_identical;
for (const side of ['A', 'B', 'D', 'S']) byId('side-' + side).addEventListener('click', () => hear(side));
byId('listen').addEventListener('click', toggleListening);
byId('blind-listen').addEventListener('click', toggleListening);
byId('volume').addEventListener('input', event => {
  const db = Number(event.target.value);
  player.volume(db <= -60 ? 0 : gainOf(db));
  blind.takeTime();
  byId('volume-out').textContent = db <= -60 ? 'off' : `${number(db, 0)} dB`;
});
// Browsers may put back what was set before; listening starts quietly every time.
byId('volume').value = -20;
byId('volume-out').textContent = `${number(-20, 0)} dB`;
byId('position').min = clock.from.toFixed(2);
byId('position').max = clock.song(clock.seconds).toFixed(2);
byId('position').addEventListener('input', event => {
  const frame = (Number(event.target.value) - clock.from) * rate;
  if (frame < player.loop.from || frame >= player.loop.to) player.repeat(0, player.frames);
  player.move(frame);
  drawLoop();
});
byId('wave').addEventListener('loopchange', drawLoop);
byId('wave').addEventListener('loopdrag', event => {
  byId('drag-out').textContent = `${clock.words(event.detail.from / rate)} to ${clock.words(event.detail.to / rate)}`;
});
for (const id of ['loop-from', 'loop-to']) byId(id).addEventListener('change', () => setLoop((Number(byId('loop-from').value) - clock.from) * rate, (Number(byId('loop-to').value) - clock.from) * rate));
byId('loop-start').addEventListener('click', () => setLoop(player.position(), Math.max(player.loop.to, player.position() + rate / 10)));
byId('loop-end').addEventListener('click', () => setLoop(player.loop.from, player.position()));
byId('loop-all').addEventListener('click', () => setLoop(0, player.frames));
byId('match').addEventListener('change', event => { desk.match(event.target.checked); waveform.drawPicture(); waveform.draw(); });
byId('trim').addEventListener('input', event => desk.trim(Number(event.target.value)));
byId('trim').addEventListener('change', () => { waveform.drawPicture(); waveform.draw(); drawRest(); });
byId('boost').addEventListener('input', event => desk.boost(Number(event.target.value)));
byId('mono').addEventListener('change', event => desk.mono(event.target.checked));
listenToKeys({
  ' ': toggleListening,
  a: () => hear('A'),
  b: () => hear('B'),
  d: () => hear('D'),
  x: () => hear('X'),
  1: () => blind.answer('A'),
  2: () => blind.answer('B'),
  l: () => byId('match').disabled || byId('match').click(),
  m: () => byId('mono').click(),
  w: () => setLoop(0, player.frames),
  s: () => byId('loop-start').click(),
  e: () => byId('loop-end').click(),
  '+': () => byId('side-S').hidden || hear('S'),
  ArrowLeft: () => { player.move(player.position() - rate); drawPosition(); },
  ArrowRight: () => { player.move(player.position() + rate); drawPosition(); },
});
desk.onChange(drawControls);
desk.hear('A');
fillHeader();
fillNumbers();
drawLoop();
drawListening();
redrawPictures();
// Everything can be used now; the spectrogram follows a moment later.
setTimeout(() => { drawRest(); document.documentElement.dataset.drawn = 'true'; }, 30);
let resizing = 0;
window.addEventListener('resize', () => { clearTimeout(resizing); resizing = setTimeout(redrawAll, 150); });
for (const mode of ['(prefers-color-scheme: dark)', '(forced-colors: active)', 'print']) window.matchMedia(mode).addEventListener('change', redrawAll);
// Paper is white: pictures are drawn anew in its colours while a page is printed.
window.addEventListener('beforeprint', () => { document.documentElement.classList.add('paper'); redrawAll(); });
window.addEventListener('afterprint', () => { document.documentElement.classList.remove('paper'); redrawAll(); });

// For tests and the curious: the parts and copies of what they hold. Player and desk themselves stay in here: whoever could
// put a function of his own in their place would be told which side X is.
const copy = side => side.map(channel => channel.slice());
window.drumPrint = Object.freeze({
  number, chanceOf, passMark, resultWords, createAudition, joinSides, sideGains, limiterCurve, transform,
  get sides() { return { a: copy(sides.a), b: copy(sides.b) }; },
  get data() { return structuredClone(data); },
  player: Object.freeze({ position: () => player.position() }),
  desk: Object.freeze({
    get state() { return { ...desk.state }; },
    gains: () => desk.gains(),
    boost(db) { if (!blind.isRunning) desk.boost(db); },
  }),
});
document.documentElement.dataset.ready = String(Math.round(performance.now()));
