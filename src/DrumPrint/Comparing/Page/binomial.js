// How likely a run of answers is by guessing alone.

/** The exact probability of at least so many right answers out of so many rounds by guessing: Σ C(n, k) / 2ⁿ. */
function chanceOf(correct, rounds) {
  let ways = 1n;
  let sum = 0n;
  for (let k = 0; k <= rounds; k++) {
    if (k >= correct) sum += ways;
    ways = ways * BigInt(rounds - k) / BigInt(k + 1);
  }
  // Both numbers fit a double's exponent for any run a person would sit through; up to 2⁵³ the quotient is exact.
  return Number(sum) / Number(1n << BigInt(rounds));
}

/** The fewest right answers that guessing reaches at most one time in twenty; null when none do. */
function passMark(rounds) {
  for (let correct = 0; correct <= rounds; correct++) {
    if (chanceOf(correct, rounds) <= 0.05) return correct;
  }
  return null;
}

/** What a result says, and what it does not. */
function resultWords(correct, rounds) {
  const chance = chanceOf(correct, rounds);
  const p = chance < 0.0001 ? 'p below 0.0001' : `p = ${chance.toFixed(4)}`;
  const luck = chance > 0.5 ? 'more often than not' : `about one time in ${Math.round(1 / chance)}`;
  return chance <= 0.05
    ? `You got ${correct} of ${rounds}. By luck alone that, or better, happens ${luck} (${p}). It is good evidence that you heard a difference. It does not say which side is better.`
    : `You got ${correct} of ${rounds}. By luck alone that, or better, happens ${luck} (${p}). It is not proof that you heard a difference, or that you did not.`;
}
