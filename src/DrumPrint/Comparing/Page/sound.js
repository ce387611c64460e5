// The sound that the page carries: 24-bit samples, interleaved, in base64.

function decodeSide(text, channels, frames, scale) {
  const binary = atob(text.trim());
  const sides = [];
  for (let c = 0; c < channels; c++) sides.push(new Float32Array(frames));
  const step = scale / 8388608;
  for (let n = 0, at = 0; n < frames; n++) {
    for (let c = 0; c < channels; c++, at += 3) {
      const value = binary.charCodeAt(at) | binary.charCodeAt(at + 1) << 8 | binary.charCodeAt(at + 2) << 16;
      sides[c][n] = (value << 8 >> 8) * step;
    }
  }
  return channels === 2 ? sides : [sides[0], sides[0]];
}

function gainOf(decibels) {
  return Math.pow(10, decibels / 20);
}

function decibelsOf(gain) {
  return gain > 0 ? 20 * Math.log10(gain) : -Infinity;
}

/** Level that brings B to A; at true level what it would take in loudness. */
function matchOffset(match) {
  if (match.a === null || match.b === null) return 0;
  return match.metric === 'true_level' ? match.a - match.b : match.offset_db;
}

/** Gains of both sides. Matching lowers the louder one and raises none. */
function sideGains(match, offsetDb, trimDb) {
  const b = match ? offsetDb + trimDb : 0;
  return [gainOf(Math.min(0, -b)), gainOf(Math.min(0, b))];
}

/** Largest sample of a side. */
function peakOf(side) {
  let peak = 0;
  for (const channel of side) {
    for (let n = 0; n < channel.length; n++) {
      const size = channel[n] < 0 ? -channel[n] : channel[n];
      if (size > peak) peak = size;
    }
  }
  return peak;
}

/** Largest sample of what is left when the one is taken from the other. */
function peakOfRest(a, b, gains, sign) {
  let peak = 0;
  for (let c = 0; c < 2; c++) {
    const [x, y, p, q] = [a[c], b[c], gains[0], gains[1] * sign];
    for (let n = 0; n < x.length; n++) {
      const rest = Math.abs(x[n] * p - y[n] * q);
      if (rest > peak) peak = rest;
    }
  }
  return peak;
}
