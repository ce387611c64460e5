// Runs where the sound is made. One place for all files: they cannot part, and a fader moves a gain and nothing else.

const switchFrames = Math.round(0.005 * sampleRate);
const inFrames = Math.round(0.2 * sampleRate);
const outFrames = Math.round(0.05 * sampleRate);
const knee = Math.pow(10, -3 / 20);
const ceiling = 0.98;

class Mixer extends AudioWorkletProcessor {
  constructor({ processorOptions: { tracks, frames, volume } }) {
    super();
    this.gains = new Float32Array(tracks);
    this.wanted = new Float32Array(tracks);
    this.steps = new Float32Array(tracks);
    this.volume = this.wantedVolume = volume;
    this.frames = frames;
    this.hasBegun = false;
    this.fade = 0;
    this.fadeStep = 0;
    this.isWanted = false;
    this.blocks = [];
    this.at = 0;
    this.generation = 0;
    this.starved = 0;
    this.told = 0;
    this.pending = null;
    this.port.onmessage = ({ data }) => this[data.kind](data);
  }

  gain({ gains, isAtOnce }) {
    for (let t = 0; t < gains.length; t++) {
      this.wanted[t] = gains[t];
      if (isAtOnce) this.gains[t] = gains[t];
      this.steps[t] = (gains[t] - this.gains[t]) / switchFrames;
    }
  }

  level({ volume }) { this.wantedVolume = volume; }

  // What was queued for another place is faded out first, so that a jump does not click.
  go({ generation, frame }) {
    this.pending = { generation, frame };
    if (this.fade === 0) this.jump();
    else this.fadeStep = -1 / switchFrames;
  }

  jump() {
    this.blocks = this.blocks.filter(block => block.generation === this.pending.generation);
    this.at = this.pending.frame;
    this.generation = this.pending.generation;
    this.pending = null;
    this.hasBegun = false;
    if (this.isWanted) this.fadeStep = 1 / switchFrames;
  }

  block(block) {
    const newest = this.pending?.generation ?? this.generation;
    if (block.generation === newest) this.blocks.push(block);
  }

  play() {
    this.isWanted = true;
    if (!this.pending) this.fadeStep = 1 / inFrames;
  }

  stop() { this.isWanted = false; this.fadeStep = -1 / outFrames; }

  process(_, [[left, right]]) {
    for (let n = 0; n < left.length; n++) {
      const block = this.fade > 0 || this.fadeStep > 0 ? this.current() : null;
      this.volume += (this.wantedVolume - this.volume) * 0.001;
      if (!block) {
        // The first block of a place may be awaited; later, each frame without one is counted.
        if (this.hasBegun && this.fade > 0 && this.at < this.frames) this.starved++;
        left[n] = right[n] = 0;
        if (this.hasBegun || !this.isWanted) this.moveFade();
        continue;
      }
      this.hasBegun = true;
      const i = this.at++ - block.from;
      let l = 0, r = 0;
      for (let t = 0; t < this.gains.length; t++) {
        if (this.steps[t] !== 0) this.step(t);
        const gain = this.gains[t];
        const channels = block.data[t];
        if (gain === 0 || !channels) continue;
        l += gain * channels[0][i];
        r += gain * channels[channels.length - 1][i];
      }
      this.moveFade();
      const level = this.fade * this.volume;
      left[n] = limited(l * level);
      right[n] = limited(r * level);
    }
    if (++this.told % 8 === 0) this.port.postMessage({ at: this.at, generation: this.generation, starved: this.starved });
    return true;
  }

  moveFade() {
    this.fade = Math.min(1, Math.max(0, this.fade + this.fadeStep));
    if (this.fade > 0 && this.fade < 1) return;
    if (this.fade === 1 || this.fadeStep < 0) this.fadeStep = 0;
    if (this.fade === 0 && this.pending) this.jump();
  }

  step(t) {
    this.gains[t] += this.steps[t];
    const isThere = this.steps[t] > 0 ? this.gains[t] >= this.wanted[t] : this.gains[t] <= this.wanted[t];
    if (isThere) {
      this.gains[t] = this.wanted[t];
      this.steps[t] = 0;
    }
  }

  current() {
    while (this.blocks.length > 0) {
      const block = this.blocks[0];
      if (block.generation === this.generation && this.at >= block.from && this.at < block.from + block.frames) return block;
      // What is meant for the place to come waits until that is gone to.
      if (block.generation === this.generation ? this.at < block.from : block.generation === this.pending?.generation) return null;
      this.blocks.shift();
    }
    return null;
  }
}

// Straight up to −3 dBFS, then bending to a ceiling it never passes. No memory, so no delay and no pumping.
function limited(x) {
  const size = Math.abs(x);
  if (size <= knee) return x;
  return Math.sign(x) * (knee + (ceiling - knee) * Math.tanh((size - knee) / (ceiling - knee)));
}

registerProcessor('mixer', Mixer);
