// Puts the bench together.

import { byId, decibels, decibelsOf, element, gainOf, number, showLevel, signed, withNames } from './words.js';
import { createTalk } from './talk.js';
import { createPlayer } from './player.js';
import { createRouting } from './routing.js';
import { createSettings } from './settings.js';
import { createStrips } from './strips.js';
import { createPartner } from './partner.js';
import { createBlind } from './blind-test.js';
import { createSong } from './song.js';
import { createLanes } from './lanes.js';
import { createMeters } from './meters.js';
import { createFindings } from './findings.js';

const talk = createTalk();
const player = createPlayer(talk);
let state = null;
let open = null;
let stretch = null;
let match = null;
let toldChoice = null;
let hasEnded = false;
let flipWords = '';
let asked = null;
let held = -Infinity;
let fading = 0;
let isOfSound = false;

// As long as a sentence of two lines takes to be read, and a look up from the hands.
const freshMs = 8000;

// From the loudest to nothing.
const fallSteps = 60;

const seconds = () => state.frames / state.rate_hz;
const now = () => player.frame / state.rate_hz;

const song = createSong(byId('song'), { move, repeat });
const strips = createStrips(byId('strips'), talk, { open: openBus, move: part => move(part * seconds()) });
const lanes = createLanes({ move, now, seconds, isPlaying: () => player.isPlaying, words: time => song.words(time), waves: bus => strips.wavesOf(bus) });
const partner = createPartner(talk, { move: part => move(part * seconds()), again: draw });
const blind = createBlind(talk, player, {
  listen: () => toggle(),
  passage: () => stretch ? `${song.words(stretch[0])} to ${song.words(stretch[1])}` : song.words(now()),
  running: rest,
});
const routing = createRouting(byId('routing'), openBus);
const settings = createSettings(byId('open'), {
  tryOut: values => talk.tryOut(values),
  set: write,
});

const meters = createMeters(talk, () => state?.band_frequencies ?? []);
const findings = createFindings(talk, { move, say, lineUp: track => whenAllowed(() => talk.say({ kind: 'line_up', track })), again: () => { if (state) findings.show(state, open); } });

// ---- What the chain says -------------------------------------------------------------------------------------------

function write(values) {
  if (values.length > 0) whenAllowed(() => talk.set(values));
}

// The first change asks once.
function whenAllowed(change) {
  if (state.may_write) {
    change();
    return;
  }
  asked = change;
  byId('ask-file').textContent = state.file;
  byId('ask-copy').textContent = state.copy_path;
  byId('ask').showModal();
}

byId('ask-yes').addEventListener('click', () => {
  byId('ask').close('yes');
  talk.say({ kind: 'allow' });
  asked();
  asked = null;
});
byId('ask-no').addEventListener('click', () => byId('ask').close());
byId('ask').addEventListener('close', () => {
  if (asked) talk.say({ kind: 'back' });
  asked = null;
});

function openBus(name) {
  open = name;
  show();
  byId('open-title').focus({ preventScroll: window.matchMedia('(min-width: 70rem)').matches });
}

function show() {
  document.title = `${state.title} – bench`;
  byId('title').textContent = state.title;
  byId('file').textContent = state.file;
  if (open === null || open !== '' && !state.buses.some(bus => bus.name === open)) open = state.buses.find(bus => bus.stages.length > 0)?.name ?? state.buses[0]?.name ?? '';
  byId('open-title').textContent = open === '' ? 'The drum bus' : `The bus ${open}`;
  routing.draw(state, open);
  settings.show(state, open);
  findings.show(state, open);
  meters.draw();
  strips.show(state);
  song.show(state);
  lanes.show(state, open);
  byId('place').max = String(seconds());
  byId('bar').disabled = byId('bar-back').disabled = byId('bar-on').disabled = state.bars.length === 0;
  if (state.bars.length > 0) {
    byId('bar').min = String(state.bars[0].bar);
    byId('bar').max = String(state.bars.at(-1).bar);
  }
  const mistakes = byId('mistakes');
  mistakes.hidden = state.mistakes.length === 0;
  mistakes.replaceChildren(element('h2', 'The chain file has a mistake'), ...state.mistakes.map(text => element('p', text)), element('p', 'The last good state goes on sounding.'));
  byId('with-bus').checked = state.with_bus;
  showChanges();
  blind.show(state);
  byId('exact').textContent = exactWords();
  draw();
}

// While X is hidden nothing else can be set, and no meter tells of it.
function rest(isRunning) {
  for (const part of document.querySelectorAll('.rests')) part.inert = isRunning;
  byId('output').hidden = isRunning;
  partner.blind(isRunning);
  byId('keep').disabled = byId('with-bus').disabled = isRunning;
  if (state) showChanges();
}

function exactWords() {
  const trim = state.trim_db ? ` Heard with the common trim of the last print, ${signed(state.trim_db)} dB.` : '';
  const late = state.forgetting.length > 0 ? ` These remember longer than 20 s, so what is heard after a jump may differ from the print: ${state.forgetting.join(', ')}.` : '';
  return `After a jump, what is heard is the print to −100 dBFS; the print itself is exact.${trim}${late}`;
}

function showChanges() {
  const isOther = state.heard !== undefined && state.heard !== null;
  byId('undo').disabled = state.next_undo.length === 0;
  byId('redo').disabled = state.next_redo.length === 0;
  byId('next-words').textContent = state.next_undo.length > 0 ? `Take back: ${state.next_undo.join('; ')}` : '';
  byId('history').replaceChildren(...state.history.map(sentences => element('li', sentences.join('; '))).reverse());
  const kept = byId('kept');
  const chosen = kept.value;
  kept.replaceChildren(...state.kept.map(each => element('option', each.name, { value: each.number })));
  if ([...kept.options].some(option => option.value === chosen)) kept.value = chosen;
  kept.parentElement.hidden = state.kept.length === 0;
  kept.disabled = byId('flip').disabled = state.kept.length === 0 || blind.isRunning;
  byId('flip').textContent = isOther ? 'Hear after' : 'Hear before';
  byId('flip').classList.toggle('on', isOther);
  // The bench measures how loud the state is that the list shows.
  if (state.kept.length > 0 && kept.value !== toldChoice) {
    toldChoice = kept.value;
    talk.say({ kind: 'choose', kept: Number(kept.value) });
  }
  const name = isOther ? state.kept.find(each => each.number === state.heard)?.name : null;
  byId('open-words').hidden = !isOther;
  byId('open-words').textContent = isOther ? `These are the settings of what you hear: ${name}. A change goes on from the chain as it is.` : '';
}

function flip() {
  if (state.kept.length === 0 || blind.isRunning) return;
  const isOther = state.heard !== undefined && state.heard !== null;
  talk.say(isOther ? { kind: 'hear' } : { kind: 'hear', kept: Number(byId('kept').value) });
  sayFlip(!isOther);
}

function sayFlip(isOther) {
  flipWords = `${isOther ? `Before: ${byId('kept').selectedOptions[0].text}` : 'After: the chain as it is'}. ${matchWords()}`;
  say(flipWords);
}

function matchWords() {
  if (match?.kept !== Number(byId('kept').value)) return 'Not matched in loudness yet …';
  const louder = Math.abs(match.db) < .05 ? 'as loud as' : `${number(Math.abs(match.db))} dB ${match.db > 0 ? 'louder than' : 'softer than'}`;
  return `Matched in loudness; the chain as it is was ${louder} that state.`;
}

// Another state is heard at once where one is heard already.
function choose() {
  const kept = Number(byId('kept').value);
  toldChoice = String(kept);
  if (state.heard === undefined || state.heard === null) talk.say({ kind: 'choose', kept });
  else {
    talk.say({ kind: 'hear', kept });
    sayFlip(true);
  }
}

function say(text, isRefused = false) {
  const words = byId('words');
  words.textContent = text;
  words.classList.toggle('refused', isRefused);
  words.classList.add('fresh');
  isOfSound = false;
  clearTimeout(fading);
  fading = setTimeout(() => words.classList.remove('fresh'), freshMs);
}

// What the sound itself said is over when it goes on.
function sayOfSound(text, isRefused = false) {
  say(text, isRefused);
  isOfSound = true;
}

// ---- Where it plays ------------------------------------------------------------------------------------------------

function move(time) {
  const to = Math.min(Math.max(0, time), seconds() - .01);
  player.move(to * state.rate_hz);
  draw();
}

function repeat(from, to) {
  stretch = to - from >= .1 ? [from, to] : null;
  song.stretch(stretch);
  byId('repeat-off').disabled = !stretch;
  byId('repeat-words').textContent = stretch ? `Repeats ${song.words(stretch[0])} to ${song.words(stretch[1])}.` : '';
  talk.say(stretch ? { kind: 'repeat', frame: Math.round(stretch[0] * state.rate_hz), to: Math.round(stretch[1] * state.rate_hz) } : { kind: 'repeat' });
  if (stretch && (now() < stretch[0] || now() >= stretch[1])) move(stretch[0]);
  draw();
}

function byBars(by) {
  if (state.bars.length === 0) return move(now() + 2 * by);
  const index = state.bars.findLastIndex(bar => bar.at_s <= now() + .05);
  move(state.bars[Math.min(state.bars.length - 1, Math.max(0, index + by))].at_s);
}

async function toggle() {
  if (!state || hasEnded) return;
  if (player.isPlaying) player.stop();
  else await player.play(player.frame >= state.frames - state.block_frames ? 0 : player.frame);
}

function draw() {
  if (!state) return;
  const time = now();
  song.draw(time);
  strips.draw(time / seconds(), seconds(), state.sections);
  lanes.place(time / seconds());
  partner.draw(time / seconds(), seconds(), state.sections);
  const words = song.words(time);
  if (byId('clock').textContent === words) return;
  byId('clock').textContent = byId('clock').title = words;
  if (document.activeElement !== byId('bar')) byId('bar').value = song.bar(time) ?? '';
  byId('place').value = String(time);
  byId('place').setAttribute('aria-valuetext', words);
}

function showLevels(peaks, peak) {
  strips.meters(peaks);
  partner.meter(peaks.at(-1));
  held = Math.max(decibelsOf(peak), held - 1.2);
  showLevel(byId('output').firstChild, held);
  byId('output').classList.toggle('hot', held > -3);
}

// A meter that stands still would tell of a sound that has ended.
let left = 0;
function fall() {
  if (player.isPlaying || left === 0) return;
  left--;
  showLevels([], 0);
  meters.fall();
  requestAnimationFrame(fall);
}

let isDrawing = false;
player.on('place', data => {
  showLevels(data.peaks, data.peak);
  if (isDrawing) return;
  isDrawing = true;
  requestAnimationFrame(() => { isDrawing = false; draw(); });
});
player.on('state', () => {
  byId('play').setAttribute('aria-pressed', String(player.isPlaying));
  byId('play').textContent = player.isPlaying ? 'Stop' : 'Play';
  left = player.isPlaying ? 0 : fallSteps;
  fall();
});

// ---- What the bench says -------------------------------------------------------------------------------------------

talk.on('open', () => {
  say(state ? 'The bench answers again.' : '');
  if (!state) return;
  player.again();
  byId('play').disabled = false;
  strips.again();
  partner.again();
});
talk.on('lost', () => {
  player.stop();
  byId('play').disabled = true;
  say('The bench does not answer. Trying again …', true);
});
talk.on('broken', message => {
  player.stop();
  sayOfSound(message.text, true);
});
player.on('asleep', () => sayOfSound('The system stopped the sound. Press Play to go on.'));
player.on('first', () => { if (isOfSound && player.isPlaying) say('The sound goes on.'); });
talk.on('state', next => {
  const isFirst = state === null;
  const wasWrong = state?.mistakes.length > 0;
  const isWrong = next.mistakes.length > 0;
  const kept = state && next.kept.find(each => each.number > 0 && !state.kept.some(old => old.number === each.number));
  if (kept) say(`Kept as ${kept.name}.`);
  if (isWrong && !wasWrong) say('The chain file has a mistake: look under the song. The last good state goes on sounding.', true);
  else if (wasWrong && !isWrong && byId('words').classList.contains('refused')) say('The chain is whole again.');
  state = next;
  if (isFirst) {
    player.rate(state.rate_hz);
    byId('play').disabled = false;
    setVolume();
  }
  show();
  if (isFirst) {
    strips.again();
    partner.again();
    document.documentElement.dataset.ready = 'true';
  }
});
talk.on('changed', message => {
  if (message.by === 'try') {
    settings.tried(talk.lastTried, message.response);
    return;
  }
  match = null;
  const begun = message.by === 'outside' && state.history.length > 0 ? ' Taking back begins anew, for the file was edited outside.' : '';
  const how = { undo: 'Taken back. ', redo: 'Done again. ', outside: 'Edited outside: ' }[message.by] ?? '';
  say(how + (message.sentences.join('; ') || 'nothing of the sound') + (begun && `.${begun}`));
});
talk.on('refused', message => say(state ? withNames(message.text, state) : message.text, true));
talk.on('match', message => {
  match = message;
  if (flipWords !== '' && byId('words').textContent === flipWords) sayFlip(state.heard !== undefined && state.heard !== null);
});
talk.on('outline', message => {
  strips.outline(message.columns);
  song.waves(strips.waves());
  lanes.take(message);
  if (state) lanes.show(state, open);
  draw();
});
talk.on('progress', message => {
  if (message.job === 'outline') {
    lanes.drawing(message.part);
    if (state) lanes.show(state, open);
  }
  if (message.job !== 'print') return;
  const isRunning = message.activity !== '';
  byId('progress').hidden = byId('stop-print').hidden = !isRunning;
  byId('print').disabled = isRunning;
  byId('progress').value = message.part;
  byId('activity').textContent = isRunning ? `${message.activity} …` : '';
});
talk.on('printed', message => {
  say(`Printed to ${message.folder}.`);
  byId('printed').replaceChildren(...message.sentences.map(text => element('li', text)));
});
talk.on('over', () => {
  player.stop();
  player.move(0);
});
talk.on('ended', message => {
  ended(message.text);
});

function ended(text) {
  hasEnded = true;
  talk.end();
  player.stop();
  say(text);
  for (const part of document.querySelectorAll('main button, main input, main select, header button')) part.disabled = true;
  for (const part of document.querySelectorAll('[role=button]')) part.setAttribute('aria-disabled', 'true');
}

talk.on('closed', () => {
  say('The bench no longer answers: it has ended, or another window has taken it over. What was written is in the chain file. Start it again, or reload this page.', true);
});

// ---- Hands and keys ------------------------------------------------------------------------------------------------

function setVolume() {
  const db = Number(byId('volume').value);
  byId('volume-out').textContent = decibels(db);
  byId('volume').setAttribute('aria-valuetext', decibels(db));
  player.volume(gainOf(db));
  blind.volume(gainOf(db));
}

byId('play').addEventListener('click', toggle);
byId('volume').addEventListener('input', setVolume);
byId('place').addEventListener('input', () => move(Number(byId('place').value)));
byId('bar').addEventListener('change', () => {
  const bar = state.bars.find(each => each.bar === Number(byId('bar').value));
  if (bar) move(bar.at_s);
});
byId('bar-back').addEventListener('click', () => byBars(-1));
byId('bar-on').addEventListener('click', () => byBars(1));
byId('repeat-from').addEventListener('click', () => repeat(now(), stretch && stretch[1] > now() ? stretch[1] : seconds()));
byId('repeat-to').addEventListener('click', () => repeat(stretch && stretch[0] < now() ? stretch[0] : 0, now()));
byId('repeat-off').addEventListener('click', () => repeat(0, 0));
byId('with-bus').addEventListener('change', () => talk.say({ kind: 'bus', on: byId('with-bus').checked }));
byId('flip').addEventListener('click', flip);
byId('keep').addEventListener('click', () => talk.say({ kind: 'keep' }));
byId('undo').addEventListener('click', () => talk.say({ kind: 'undo' }));
byId('redo').addEventListener('click', () => talk.say({ kind: 'redo' }));
byId('unity').addEventListener('click', () => strips.unity());
byId('into-chain').addEventListener('click', () => write(strips.intoChain(state)));
byId('print').addEventListener('click', () => talk.say({ kind: 'print' }));
byId('stop-print').addEventListener('click', () => talk.say({ kind: 'stop_print' }));
byId('kept').addEventListener('change', choose);
byId('end').addEventListener('click', () => {
  if (talk.say({ kind: 'end' }) === 0) return;
  // The way may close before the bench's last word.
  ended('The bench has ended. This page can be closed.');
});

const keys = {
  ' ': toggle,
  ArrowLeft: () => byBars(-1),
  ArrowRight: () => byBars(1),
  b: flip,
  s: () => byId('repeat-from').click(),
  e: () => byId('repeat-to').click(),
  w: () => repeat(0, 0),
  m: () => partner.toggle(),
  u: () => talk.say({ kind: 'undo' }),
  r: () => talk.say({ kind: 'redo' }),
};

// In a blind run the letters are the test's own.
const blindKeys = {
  ' ': toggle,
  ArrowLeft: keys.ArrowLeft,
  ArrowRight: keys.ArrowRight,
  s: keys.s,
  e: keys.e,
  w: keys.w,
  a: () => blind.hear('A'),
  b: () => blind.hear('B'),
  x: () => blind.hear('X'),
  1: () => blind.answer('A'),
  2: () => blind.answer('B'),
};

document.addEventListener('keydown', event => {
  if (event.key === 'Escape' && player.isPlaying) {
    player.stop();
    return;
  }
  if (event.altKey || event.ctrlKey || event.metaKey || !state || byId('ask').open) return;
  const target = event.target;
  const isField = target instanceof HTMLInputElement && target.type !== 'checkbox' || target instanceof HTMLSelectElement;
  if (isField && !(event.key === ' ' && target.type === 'range')) return;
  if (event.key === ' ' && target instanceof HTMLElement && target.closest('button, summary, [role=button]')) return;
  if (event.key === ' ' && target instanceof HTMLInputElement && target.type === 'checkbox') return;
  if (event.key.startsWith('Arrow') && target instanceof HTMLElement && target.classList.contains('scroll')) return;
  if (!byId('keys').checked && event.key.length === 1 && event.key !== ' ') return;
  const action = (blind.isRunning ? blindKeys : keys)[event.key.length === 1 ? event.key.toLowerCase() : event.key];
  if (!action || event.repeat && !event.key.startsWith('Arrow')) return;
  action();
  event.preventDefault();
});

window.addEventListener('resize', () => { if (state) show(); });
window.matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => { if (state) show(); });
window.addEventListener('pagehide', () => player.stop());

// For measuring: when a change was asked for, when its first frame was heard, what was lacking.
window.bench = { player, talk, get state() { return state; } };

talk.open();
