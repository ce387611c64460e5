// Plays a stretch of both sides over and over, and knows to the frame where it is.

function createPlayer(sides, rate) {
  const frames = sides.a[0].length;
  const seam = Math.round(switchSeconds * rate);
  let context = null;
  let audition = null;
  let loop = { from: 0, to: frames };
  let buffer = null;
  let startedAt = 0;
  let startedFrame = 0;
  let resting = 0;
  let playing = false;
  let wanted = { a: 1, b: 0, mono: false, volume: gainOf(-20) };

  // The next whole frame, a little ahead, so that nothing is scheduled in the past.
  function soon() {
    return Math.ceil((context.currentTime + 0.01) * rate) / rate;
  }

  function open() {
    if (context) return;
    context = new AudioContext({ sampleRate: rate, latencyHint: 'interactive' });
    audition = createAudition(context);
    const time = soon();
    audition.weigh(wanted.a, wanted.b, time);
    audition.mono(wanted.mono, time);
    audition.volume(wanted.volume, time);
  }

  function begin(frame) {
    buffer ??= joinSides(context, sides.a, sides.b, rate, loop.from, loop.to, seam);
    const time = soon();
    startedFrame = frame;
    startedAt = time;
    audition.play(buffer, frame - loop.from, time);
  }

  const player = {
    frames,
    get loop() { return loop; },
    get isPlaying() { return playing; },
    get isHeard() { return playing && wanted.volume > 0; },

    /** The frame that is heard now. */
    position() {
      if (!playing) return resting;
      const run = Math.max(0, Math.round((context.currentTime - startedAt) * rate));
      return loop.from + (startedFrame - loop.from + run) % (loop.to - loop.from);
    },

    listen() {
      open();
      context.resume();
      if (playing) return;
      playing = true;
      begin(player.within(resting));
    },

    stop() {
      if (!playing) return;
      resting = player.position();
      playing = false;
      audition.stop(soon());
    },

    within(frame) {
      return frame >= loop.from && frame < loop.to ? Math.floor(frame) : loop.from;
    },

    move(frame) {
      const place = player.within(Math.min(Math.max(0, frame), frames - 1));
      resting = place;
      if (playing) begin(place);
    },

    repeat(from, to) {
      const least = Math.min(frames, Math.round(0.1 * rate));
      const start = Math.min(Math.max(0, Math.round(Math.min(from, to))), frames - least);
      const end = Math.max(start + least, Math.min(frames, Math.round(Math.max(from, to))));
      const place = player.position();
      loop = { from: start, to: end };
      buffer = null;
      player.move(place);
    },

    weigh(a, b, dips) {
      wanted = { ...wanted, a, b };
      audition?.weigh(a, b, soon(), dips);
    },

    mono(isMono) {
      wanted = { ...wanted, mono: isMono };
      audition?.mono(isMono, soon());
    },

    volume(gain) {
      wanted = { ...wanted, volume: gain };
      audition?.volume(gain, soon());
    },
  };
  return player;
}
