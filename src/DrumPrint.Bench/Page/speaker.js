// Runs where the sound is made. Plays blocks in order, counts what it lacks, and says where it is.

const aheadBlocks = 6;
const mostBack = 8;
const inFrames = Math.round(0.05 * sampleRate);
const outFrames = Math.round(0.03 * sampleRate);
const tailFrames = Math.round(0.005 * sampleRate);
const knee = Math.pow(10, -3 / 20);
const ceiling = 0.98;

class Speaker extends AudioWorkletProcessor {
  constructor({ processorOptions: { volume } }) {
    super();
    this.volume = this.wantedVolume = volume;
    this.blocks = [];
    this.at = 0;
    this.last = 0;
    this.isLate = false;
    this.run = 0;
    this.version = 0;
    this.isOn = false;
    this.hasBegun = false;
    this.fade = 0;
    this.starved = 0;
    this.told = 0;
    this.peak = 0;
    this.tail = null;
    this.port.onmessage = ({ data }) => this[data.kind](data);
  }

  feed({ port }) {
    this.source = port;
    port.onmessage = ({ data }) => data === 'open' ? this.room(aheadBlocks) : this.take(data);
  }

  room(blocks) { if (blocks > 0) this.source.postMessage(blocks); }

  level({ volume }) { this.wantedVolume = volume; }

  // From here on only blocks of this run count.
  play({ run }) {
    this.run = run;
    this.isOn = true;
    this.hasBegun = false;
    this.drop();
  }

  stop() { this.isOn = false; }

  // What sounded is faded out, so that a jump does not click.
  drop() {
    const block = this.blocks[0];
    if (block && block.run !== this.run && this.fade > 0) this.tail = { samples: block.samples.subarray(this.at, this.at + 2 * tailFrames), level: this.fade, at: 0 };
    const left = this.blocks.filter(block => block.run === this.run);
    this.room(this.blocks.length - left.length);
    this.blocks = left;
    this.at = 0;
    this.fade = 0;
  }

  take(data) {
    const head = new Int32Array(data, 0, 4);
    const block = { run: head[0], version: head[1], frame: head[2], peaks: new Float32Array(data, 16, head[3]), samples: new Float32Array(data, 16 + 4 * head[3]) };
    if (block.run !== this.run) {
      this.room(1);
      return;
    }
    // It follows, or it takes the place of one that has not begun.
    const place = this.blocks.findIndex(other => other.frame === block.frame);
    const isBack = block.frame <= this.last && block.frame > this.last - mostBack * block.samples.length / 2;
    if (place > 0 || (place === 0 && this.at === 0)) {
      if (this.isLate) blend(this.blocks[place].samples, block.samples);
      this.blocks[place] = block;
    } else if (isBack && this.hasBegun) {
      this.isLate = true;
      return;
    } else {
      this.blocks.push(block);
      this.last = block.frame;
    }
    this.isLate = false;
  }

  process(_, [[left, right]]) {
    const now = currentTime;
    for (let n = 0; n < left.length; n++) {
      this.volume += (this.wantedVolume - this.volume) * 0.001;
      this.fade = this.isOn ? Math.min(1, this.fade + 1 / inFrames) : Math.max(0, this.fade - 1 / outFrames);
      const block = this.fade > 0 ? this.blocks[0] : null;
      if (!block) {
        // The first block may be awaited; later each frame without one is counted.
        if (this.isOn && this.hasBegun) this.starved++;
        if (this.isOn && !this.hasBegun) this.fade = 0;
        left[n] = right[n] = 0;
        this.addTail(left, right, n);
        continue;
      }
      if (!this.hasBegun || block.version !== this.version) {
        this.version = block.version;
        this.port.postMessage({ kind: 'first', version: block.version, run: block.run, time: now + n / sampleRate, isBegin: !this.hasBegun });
        this.hasBegun = true;
      }
      const level = this.fade * this.volume;
      left[n] = block.samples[this.at] * level;
      right[n] = block.samples[this.at + 1] * level;
      this.addTail(left, right, n);
      left[n] = limited(left[n]);
      right[n] = limited(right[n]);
      this.peak = Math.max(this.peak, Math.abs(left[n]), Math.abs(right[n]));
      this.at += 2;
      if (this.at >= block.samples.length) {
        this.played = block;
        this.blocks.shift();
        this.at = 0;
        this.room(1);
      }
    }
    if (this.fade === 0 && !this.isOn && this.blocks.length > 0) {
      this.room(this.blocks.length);
      this.blocks = [];
      this.at = 0;
    }
    if (++this.told % 12 === 0 && this.played) {
      this.port.postMessage({ kind: 'place', run: this.played.run, frame: this.played.frame, peaks: this.played.peaks, peak: this.peak, starved: this.starved, queued: this.blocks.length });
      this.peak = 0;
    }
    return true;
  }

  addTail(left, right, n) {
    if (!this.tail) return;
    const { samples, level, at } = this.tail;
    if (at >= samples.length) {
      this.tail = null;
      return;
    }
    const gain = level * this.volume * (1 - at / samples.length);
    left[n] += samples[at] * gain;
    right[n] += samples[at + 1] * gain;
    this.tail.at += 2;
  }
}

// What comes too late to come in by itself.
function blend(from, to) {
  for (let n = 0; n < to.length; n++) to[n] = from[n] + (to[n] - from[n]) * (n / to.length);
}

// Straight up to −3 dBFS, then bending to a ceiling it never passes. No memory, so no delay and no pumping.
function limited(x) {
  const size = Math.abs(x);
  if (size <= knee) return x;
  return Math.sign(x) * (knee + (ceiling - knee) * Math.tanh((size - knee) / (ceiling - knee)));
}

registerProcessor('speaker', Speaker);
