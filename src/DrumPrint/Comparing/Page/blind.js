// The blind test. Which side X is stays in here until the last answer.

// An answer before X has been heard so long is a guess, or a slip of the finger.
const leastHeardSeconds = 0.2;

function createBlindTest(desk, player, data, onEnd) {
  const parts = ['setup', 'run', 'result'].map(name => byId('blind-' + name));
  let hidden = [];
  let answers = [];
  let outcome = null;
  const runs = { finished: 0, givenUp: 0 };
  // How long X has been heard in this round, and since when it is.
  let heardSeconds = 0;
  let hearingSince = null;

  function show(part) {
    for (const each of parts) each.hidden = each.id !== 'blind-' + part;
  }

  function rounds() {
    const value = Math.round(Number(byId('rounds').value));
    return Math.min(50, Math.max(5, Number.isFinite(value) ? value : 16));
  }

  // Reads the time off before anything changes that X is heard by: side, listening, volume.
  function takeTime() {
    const now = performance.now() / 1000;
    if (hearingSince !== null) heardSeconds += now - hearingSince;
    hearingSince = test.isRunning && desk.state.side === 'X' && player.isHeard ? now : null;
  }

  function drawPassMark() {
    const count = rounds();
    byId('pass-mark').textContent = `Of ${count} rounds, ${passMark(count)} right are needed: guessing gets there at most one time in twenty.`;
  }

  function hear(side) {
    desk.hear(side, side === 'X' ? hidden[answers.length] : undefined);
    takeTime();
    for (const name of ['A', 'B', 'X']) byId('blind-' + name).setAttribute('aria-pressed', String(name === side));
  }

  function drawRound() {
    byId('round').textContent = `Round ${answers.length + 1} of ${hidden.length}`;
    byId('blind-words').textContent = '';
    hear('A');
    heardSeconds = 0;
  }

  const test = {
    get isRunning() { return hidden.length > 0; },
    hear(side) { if (test.isRunning) hear(side); },
    takeTime,

    start() {
      const count = rounds();
      byId('rounds').value = count;
      const chance = crypto.getRandomValues(new Uint8Array(count));
      hidden = Array.from(chance, byte => byte & 1 ? 'B' : 'A');
      answers = [];
      show('run');
      if (!desk.state.match) desk.match(true);
      desk.trim(0);
      desk.state.isBlind = true;
      drawRound();
      byId('round').focus();
    },

    answer(side) {
      if (!test.isRunning) return;
      takeTime();
      if (heardSeconds < leastHeardSeconds) {
        byId('blind-words').textContent = player.isHeard
          ? 'X has not been heard in this round yet. Listen to X for a moment, then answer; nothing was counted.'
          : 'Nothing can be heard yet. Press Listen, choose X, then answer; nothing was counted.';
        return;
      }
      answers.push(side);
      if (answers.length < hidden.length) {
        drawRound();
        return;
      }
      const correct = answers.filter((answer, i) => answer === hidden[i]).length;
      const chance = chanceOf(correct, hidden.length);
      runs.finished++;
      outcome = {
        blind_test: 1,
        engine: data.engine,
        title: data.title,
        a: data.a.name,
        b: data.b.name,
        passage: data.passage,
        match: { metric: data.match.metric === 'rms' ? 'rms' : 'loudness', offset_db: desk.offset, trim_db: desk.state.trimDb },
        mono: desk.state.mono,
        rounds: hidden.length,
        correct,
        probability_by_guessing: chance,
        passed: chance <= 0.05,
        answers: hidden.map((x, i) => ({ x, answer: answers[i] })),
        runs_finished: runs.finished,
        runs_given_up: runs.givenUp,
        words: resultWords(correct, hidden.length) + runWords(),
      };
      byId('result').textContent = outcome.words;
      end('result');
      byId('result').focus();
    },

    giveUp() {
      if (!test.isRunning) return;
      outcome = null;
      runs.givenUp++;
      end('setup');
      byId('pass-mark').textContent = 'Given up: an unfinished run says nothing and was not kept, but the next result will say that there was one.';
      byId('blind-start').focus();
    },
  };

  // The best of many runs says less than the only one.
  function runWords() {
    if (runs.finished === 1 && runs.givenUp === 0) return '';
    const before = `${runs.finished - 1} finished before it and ${runs.givenUp} given up`;
    return ` It is one of ${runs.finished + runs.givenUp} runs since this page was opened (${before}); a good one among many says less than a first one.`;
  }

  function end(part) {
    hidden = [];
    desk.state.isBlind = false;
    show(part);
    hear('A');
    onEnd();
  }

  function save() {
    const link = element('a', undefined, { download: 'blind-test.json' });
    link.href = URL.createObjectURL(new Blob([JSON.stringify(outcome, null, 2) + '\n'], { type: 'application/json' }));
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  }

  byId('rounds').addEventListener('input', drawPassMark);
  byId('blind-start').addEventListener('click', () => { test.start(); onEnd(); });
  byId('blind-stop').addEventListener('click', test.giveUp);
  byId('blind-save').addEventListener('click', save);
  byId('blind-again').addEventListener('click', () => { show('setup'); drawPassMark(); byId('rounds').focus(); });
  for (const side of ['A', 'B', 'X']) byId('blind-' + side).addEventListener('click', () => test.hear(side));
  for (const side of ['A', 'B']) byId('answer-' + side).addEventListener('click', () => test.answer(side));
  drawPassMark();
  return test;
}
