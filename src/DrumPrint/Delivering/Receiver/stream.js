// Reads ahead of the ear from all files at once, and hands the mixer one block of all of them at a time.

// The first block after a jump is small, to be heard soon; the others are large, for each asks the disk once a file.
const firstFrames = 8192;
const blockFrames = 32768;
const aheadSeconds = 4;

function createStream(waves, rate, frames, mixerSource, volume) {
  let context = null;
  let node = null;
  let generation = 0;
  let sent = 0;
  let heard = 0;
  let begun = 0;
  let isReading = false;
  let isPlaying = false;
  let gains = new Float32Array(waves.length);
  let starved = 0;
  const listeners = { place: [], end: [], fault: [] };
  const tell = (name, value) => listeners[name].forEach(listener => listener(value));

  let opening = null;

  function opened() {
    opening ??= open().catch(error => { opening = null; throw error; });
    return opening;
  }

  async function open() {
    context = new AudioContext({ sampleRate: rate, latencyHint: 'interactive' });
    // A page from a disk has no origin, and browsers take such a module only from its own text.
    await context.audioWorklet.addModule(`data:text/javascript;charset=utf-8,${encodeURIComponent(mixerSource)}`);
    node = new AudioWorkletNode(context, 'mixer', { numberOfInputs: 0, numberOfOutputs: 1, outputChannelCount: [2], processorOptions: { tracks: waves.length, frames, volume } });
    node.port.onmessage = ({ data }) => told(data);
    node.port.postMessage({ kind: 'gain', gains, isAtOnce: true });
    node.connect(context.destination);
  }

  function told(data) {
    if (data.generation !== generation) return;
    starved = data.starved;
    heard = data.at;
    if (heard >= frames && isPlaying) {
      stream.stop();
      stream.move(0);
      tell('end');
      return;
    }
    tell('place', heard);
    read();
  }

  async function read() {
    if (isReading || !node) return;
    isReading = true;
    try {
      while (sent < frames && sent - heard < aheadSeconds * rate) {
        const [mine, from] = [generation, sent];
        const count = Math.min(from === begun ? firstFrames : blockFrames, frames - from);
        const data = await Promise.all(waves.map(wave => wave ? readSides(wave, from, count) : null));
        if (mine !== generation) continue;
        node.port.postMessage({ kind: 'block', generation: mine, from, frames: count, data }, data.flatMap(each => each ? each.map(channel => channel.buffer) : []));
        sent = from + count;
      }
    } catch {
      stream.stop();
      tell('fault');
    } finally {
      isReading = false;
    }
  }

  const stream = {
    get isPlaying() { return isPlaying; },
    get position() { return heard; },
    get starved() { return starved; },
    /** Whether less than a second is read ahead of the ear. */
    get isHungry() { return isPlaying && sent < frames && sent - heard < rate; },
    on(name, listener) { listeners[name].push(listener); },

    async play() {
      await opened();
      await context.resume();
      stream.move(heard);
      isPlaying = true;
      node.port.postMessage({ kind: 'play' });
    },

    stop() {
      if (!isPlaying) return;
      isPlaying = false;
      node.port.postMessage({ kind: 'stop' });
      // Nothing runs while nothing sounds.
      setTimeout(() => { if (!isPlaying) context?.suspend(); }, 300);
    },

    close() {
      isPlaying = false;
      context?.close();
      node = null;
    },

    move(frame) {
      heard = sent = begun = Math.max(0, Math.min(frames - 1, Math.round(frame)));
      generation++;
      node?.port.postMessage({ kind: 'go', generation, frame: heard });
      tell('place', heard);
      read();
    },

    gains(next) {
      gains = Float32Array.from(next);
      node?.port.postMessage({ kind: 'gain', gains });
    },

    volume(gain) {
      volume = gain;
      node?.port.postMessage({ kind: 'level', volume: gain });
    },
  };
  return stream;
}
