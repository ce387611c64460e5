// The blind test of the comparison page, on any two states of the chain. Both play in step on the bench; which one X is stays in the test.

import { byId, element } from './words.js';

/* global createBlindTest */

const file = '';

export function createBlind(talk, player, act) {
  const [first, second] = [byId('blind-first'), byId('blind-second')];
  // Taken once, so that nothing the window holds can listen in.
  const { say } = talk;
  let state = null;
  let isMatching = false;
  let volume = 0;
  let told = '';

  const named = picked => picked.selectedOptions[0]?.text ?? '';
  const number = picked => picked.value === file ? undefined : Number(picked.value);

  const desk = {
    state: { side: 'A', match: true, trimDb: 0, mono: false, isBlind: false },
    offset: 0,
    match() {},
    trim() {},
    hear(side, hidden) {
      desk.state.side = side;
      say({ kind: 'side', on: (hidden ?? side) === 'B' });
    },
  };
  const listener = { get isHeard() { return player.isPlaying && volume > 0; } };
  const data = {
    get engine() { return state.engine; },
    get title() { return state.title; },
    a: { get name() { return named(first); } },
    b: { get name() { return named(second); } },
    get passage() { return act.passage(); },
    match: { metric: 'loudness' },
  };

  // Levels are matched first, so the test's own start waits for the bench.
  byId('blind-start').addEventListener('click', event => {
    event.stopImmediatePropagation();
    if (isMatching) return;
    isMatching = true;
    told = '';
    draw();
    byId('blind-ready').textContent = 'Both are measured at this spot …';
    say({ kind: 'blind', kept: number(first), other: number(second) });
  });
  const test = createBlindTest(desk, listener, data, over);

  function over() {
    say({ kind: 'blind_end' });
    act.running(false);
    draw();
  }

  function options(picked, otherwise) {
    const chosen = picked.options.length > 0 ? picked.value : undefined;
    const all = [element('option', 'the chain as it is', { value: file }), ...state.kept.map(each => element('option', each.name, { value: each.number }))];
    picked.replaceChildren(...all);
    picked.value = all.some(option => option.value === chosen) && picked.dataset.picked ? chosen : otherwise;
  }

  function draw() {
    if (!state) return;
    const canStart = state.kept.length > 0 && first.value !== second.value && !isMatching;
    byId('blind-start').disabled = !canStart;
    first.disabled = second.disabled = isMatching || state.kept.length === 0;
    if (!isMatching) byId('blind-ready').textContent = state.kept.length === 0 ? 'Change something, or keep a state first: it takes two.' : first.value === second.value ? 'Choose two that differ.' : told;
    byId('blind-listen').textContent = player.isPlaying ? 'Stop' : 'Listen';
    byId('blind-listen').setAttribute('aria-pressed', String(player.isPlaying));
  }

  for (const picked of [first, second]) {
    picked.addEventListener('change', () => {
      picked.dataset.picked = 'true';
      draw();
    });
  }
  byId('blind-listen').addEventListener('click', () => act.listen());

  talk.on('blind', message => {
    isMatching = false;
    told = message.text ?? '';
    if (message.on) {
      desk.offset = message.db;
      act.running(true);
      test.start();
    } else if (test.isRunning) {
      test.giveUp();
    }
    draw();
  });
  talk.on('lost', () => {
    isMatching = false;
    if (test.isRunning) test.giveUp();
    draw();
  });
  player.on('state', () => {
    test.takeTime();
    draw();
  });

  return {
    get isRunning() { return test.isRunning; },
    show(next) {
      state = next;
      options(first, state.kept.length > 0 ? String(state.kept[0].number) : file);
      options(second, file);
      draw();
    },
    volume(gain) {
      volume = gain;
      test.takeTime();
    },
    hear: side => test.hear(side),
    answer: side => test.answer(side),
  };
}
