// The way from both sides to the ears. It works in any audio context, so that it can be measured offline.
// Both sides are the four channels of one buffer: they cannot part, and switching only moves two gains.

const switchSeconds = 0.005;
const fadeInSeconds = 0.2;
const fadeOutSeconds = 0.05;
const limiterKnee = gainOf(-3);
const limiterReach = 4;

/** A gain that always knows where it is, even in the middle of a ramp. */
class Ramp {
  constructor(param, value) {
    this.param = param;
    this.from = this.to = value;
    this.start = this.end = 0;
    param.setValueAtTime(value, 0);
  }

  at(time) {
    if (time >= this.end) return this.to;
    if (time <= this.start) return this.from;
    return this.from + (this.to - this.from) * (time - this.start) / (this.end - this.start);
  }

  go(value, time, seconds) {
    const now = this.at(time);
    const isUnderWay = time > this.start && time < this.end;
    this.param.cancelScheduledValues(time);
    // A ramp that is cut short still has to reach the place where it is cut.
    if (isUnderWay) this.param.linearRampToValueAtTime(now, time);
    else this.param.setValueAtTime(now, time);
    this.param.linearRampToValueAtTime(value, time + seconds);
    [this.from, this.to, this.start, this.end] = [now, value, time, time + seconds];
  }
}

// Straight up to −3 dBFS, then bending to a ceiling it never passes. No memory, so no delay and no pumping.
function limiterCurve() {
  const points = 16385;
  const curve = new Float32Array(points);
  for (let i = 0; i < points; i++) {
    const x = (2 * i / (points - 1) - 1) * limiterReach;
    const over = Math.max(0, Math.abs(x) - limiterKnee);
    const room = 0.98 - limiterKnee;
    curve[i] = Math.sign(x) * (Math.min(Math.abs(x), limiterKnee) + room * Math.tanh(over / room));
  }
  return curve;
}

/** One buffer of four channels from two sides of two. */
function joinSides(context, a, b, rate, from, to, seamFrames) {
  const frames = to - from;
  const buffer = context.createBuffer(4, frames, rate);
  [a[0], a[1], b[0], b[1]].forEach((source, channel) => {
    const target = buffer.getChannelData(channel);
    target.set(source.subarray(from, to));
    // The end of a repeated stretch melts into what comes before its start, so that the seam does not click.
    const seam = Math.min(seamFrames, frames);
    for (let i = 0; i < seam; i++) {
      const share = (i + 1) / seam;
      const before = from - seam + i;
      const at = frames - seam + i;
      target[at] = target[at] * (1 - share) + (before >= 0 ? source[before] : 0) * share;
    }
  });
  return buffer;
}

function createAudition(context) {
  const weights = [context.createGain(), context.createGain()];
  const stereo = context.createGain();
  const mono = context.createGain();
  const fade = context.createGain();
  const dip = context.createGain();
  const volume = context.createGain();
  const reach = context.createGain();
  const limiter = context.createWaveShaper();
  mono.channelCount = 1;
  mono.channelCountMode = 'explicit';
  reach.gain.value = 1 / limiterReach;
  limiter.curve = limiterCurve();
  for (const weight of weights) {
    weight.connect(stereo);
    weight.connect(mono);
  }
  stereo.connect(fade);
  mono.connect(fade);
  fade.connect(dip).connect(volume).connect(reach).connect(limiter).connect(context.destination);

  const ramps = {
    a: new Ramp(weights[0].gain, 0),
    b: new Ramp(weights[1].gain, 0),
    stereo: new Ramp(stereo.gain, 1),
    mono: new Ramp(mono.gain, 0),
    fade: new Ramp(fade.gain, 0),
    dip: new Ramp(dip.gain, 1),
    volume: new Ramp(volume.gain, gainOf(-20)),
  };
  let voice = null;

  function begin(buffer, offsetFrames, time, seconds) {
    const source = context.createBufferSource();
    const split = context.createChannelSplitter(4);
    source.buffer = buffer;
    source.loop = true;
    source.connect(split);
    const levels = [context.createGain(), context.createGain()];
    weights.forEach((weight, side) => {
      const join = context.createChannelMerger(2);
      split.connect(join, 2 * side, 0);
      split.connect(join, 2 * side + 1, 1);
      join.connect(levels[side]).connect(weight);
    });
    const ramp = levels.map(l => new Ramp(l.gain, seconds > 0 ? 0 : 1));
    if (seconds > 0) ramp.forEach(r => r.go(1, time, seconds));
    source.start(time, offsetFrames / buffer.sampleRate);
    return { source, ramp, levels };
  }

  function end(old, time, seconds) {
    old.ramp.forEach(ramp => ramp.go(0, time, seconds));
    old.source.stop(time + 2 * seconds);
    old.source.onended = () => old.levels.forEach(level => level.disconnect());
  }

  return {
    /** Plays a buffer from a frame; what plays already is faded out meanwhile. */
    play(buffer, offsetFrames, time) {
      const old = voice;
      voice = begin(buffer, offsetFrames, time, old ? switchSeconds : 0);
      if (old) {
        end(old, time, switchSeconds);
      } else {
        ramps.fade.go(1, time, fadeInSeconds);
      }
    },

    stop(time) {
      if (!voice) return;
      ramps.fade.go(0, time, fadeOutSeconds);
      end(voice, time, fadeOutSeconds);
      voice = null;
    },

    /** Goes over to other gains of both sides. @param dips whether through silence, so that no switch can be told from another. */
    weigh(a, b, time, dips) {
      const start = dips ? time + switchSeconds : time;
      if (dips) {
        ramps.dip.go(0, time, switchSeconds);
        ramps.dip.go(1, time + 2 * switchSeconds, switchSeconds);
      }
      ramps.a.go(a, start, switchSeconds);
      ramps.b.go(b, start, switchSeconds);
    },

    mono(isMono, time) {
      ramps.stereo.go(isMono ? 0 : 1, time, switchSeconds);
      ramps.mono.go(isMono ? 1 : 0, time, switchSeconds);
    },

    volume(gain, time) {
      ramps.volume.go(gain, time, 0.05);
    },
  };
}
