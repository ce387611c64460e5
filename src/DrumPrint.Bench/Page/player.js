// Plays, stops and goes to a place. The sound itself comes by another way than the page's words.

export function createPlayer(talk) {
  const listeners = { place: [], state: [], first: [], asleep: [] };
  const tell = (name, value) => listeners[name].forEach(listener => listener(value));
  let context = null;
  let node = null;
  let worker = null;
  let opening = null;
  let run = 0;
  let volume = 0;
  let rate = 48000;
  let isPlaying = false;
  let frame = 0;
  let starved = 0;
  let resting = 0;
  let isMending = false;

  const address = `ws://${location.host}/sound`;

  async function open() {
    context = new AudioContext({ sampleRate: rate, latencyHint: 'interactive' });
    await context.audioWorklet.addModule('speaker.js');
    node = new AudioWorkletNode(context, 'speaker', { numberOfInputs: 0, numberOfOutputs: 1, outputChannelCount: [2], processorOptions: { volume } });
    node.port.onmessage = ({ data }) => told(data);
    const channel = new MessageChannel();
    node.port.postMessage({ kind: 'feed', port: channel.port1 }, [channel.port1]);
    worker = new Worker('socket.js');
    // Where only the way of the sound breaks, it is opened again and the sound goes on from where it was.
    worker.onmessage = () => { if (isPlaying && !isMending) mend(); };
    worker.postMessage({ port: channel.port2, address }, [channel.port2]);
    node.connect(context.destination);
    // The system stops the sound when it sleeps, or gives it to another program.
    context.addEventListener('statechange', () => {
      if (!isPlaying || context.state === 'running') return;
      player.stop();
      tell('asleep');
    });
  }

  function mend() {
    isMending = true;
    setTimeout(() => {
      isMending = false;
      if (!isPlaying) return;
      worker.postMessage({ address });
      player.play(frame);
    }, 500);
  }

  function told(data) {
    if (data.kind === 'first') {
      tell('first', data);
      return;
    }
    starved = data.starved;
    if (data.run !== run || !isPlaying) return;
    frame = data.frame;
    tell('place', data);
  }

  const player = {
    get isPlaying() { return isPlaying; },
    get frame() { return frame; },
    get starved() { return starved; },
    get context() { return context; },
    on(name, listener) { listeners[name].push(listener); },
    rate(hz) { rate = hz; },

    /** The bench answers again after it did not. */
    again() { worker?.postMessage({ address }); },

    /** Opens the way for the sound; a browser lets it be heard only after a click. */
    ready() { return opening ??= open().catch(error => { opening = null; throw error; }); },

    async play(from = frame) {
      await player.ready();
      const resumed = context.resume();
      run++;
      isPlaying = true;
      frame = from;
      node.port.postMessage({ kind: 'play', run });
      talk.say({ kind: 'play', frame: Math.round(from), to: run });
      tell('state');
      await resumed;
    },

    stop() {
      if (!isPlaying) return;
      isPlaying = false;
      node.port.postMessage({ kind: 'stop' });
      talk.say({ kind: 'stop', frame: Math.round(frame) });
      tell('state');
    },

    move(to) {
      frame = to;
      if (isPlaying) {
        player.play(to);
        return;
      }
      tell('place', { frame, peaks: [], peak: 0 });
      clearTimeout(resting);
      resting = setTimeout(() => { if (!isPlaying) talk.say({ kind: 'ready', frame: Math.round(frame) }); }, 60);
    },

    volume(gain) {
      volume = gain;
      node?.port.postMessage({ kind: 'level', volume: gain });
    },
  };
  return player;
}
