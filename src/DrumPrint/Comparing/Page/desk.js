// What is heard: which side, at which level, raised by how much.

const mostBoostDb = 24;

function createDesk(sides, matching, sign, player) {
  const state = { side: 'A', match: matching.metric !== 'true_level', trimDb: matching.trim_db, boostDb: 0, capDb: 0, mono: false, isBlind: false };
  const peaks = [peakOf(sides.a), peakOf(sides.b)];
  const offset = matchOffset(matching);
  const listeners = [];
  let hiddenSide;

  function gains() {
    return sideGains(state.match, offset, state.trimDb);
  }

  function apply(isSwitch) {
    const [a, b] = gains();
    const heard = hiddenSide ?? state.side;
    // In a blind test every switch sounds the same, also one that changes nothing.
    const dips = isSwitch && state.isBlind;
    if (heard === 'A') player.weigh(a, 0, dips);
    else if (heard === 'B') player.weigh(0, b, dips);
    // Half of each, so that two sides that are alike are as loud together as alone.
    else if (heard === 'S') player.weigh(a / 2, sign * b / 2);
    else player.weigh(a * gainOf(state.boostDb), -sign * b * gainOf(state.boostDb));
    for (const listener of listeners) listener(state);
  }

  // The difference may be raised, but never above the louder side, and only while it is heard.
  function settle() {
    const [a, b] = gains();
    const rest = peakOfRest(sides.a, sides.b, [a, b], sign);
    const side = Math.max(peaks[0] * a, peaks[1] * b);
    state.capDb = rest > 0 ? Math.floor(Math.min(mostBoostDb, Math.max(0, decibelsOf(side / rest)))) : 0;
    state.isSilent = rest === 0;
    state.boostDb = 0;
  }

  const desk = {
    state,
    peaks,
    offset,
    gains,
    onChange(listener) { listeners.push(listener); },

    /** @param side A, B, D (the difference), S (the sum) or X. @param hidden which side X is, known to the blind test alone. */
    hear(side, hidden) {
      if (side !== 'D') state.boostDb = 0;
      state.side = side;
      hiddenSide = hidden;
      apply(true);
    },

    match(isMatched) { state.match = isMatched; settle(); apply(); },
    trim(db) { state.trimDb = Math.min(3, Math.max(-3, db)); settle(); apply(); },
    boost(db) { state.boostDb = state.side === 'D' ? Math.min(state.capDb, Math.max(0, db)) : 0; apply(); },
    mono(isMono) { state.mono = isMono; player.mono(isMono); apply(); },
    stopped() { state.boostDb = 0; if (state.side !== 'X') apply(); },
  };
  settle();
  return desk;
}
