// Runs beside the page: the SHA-256 of files (FIPS 180-4), a piece at a time.

const sumPieceBytes = 1 << 22;
const roundConstants = new Int32Array(64);
const firstWords = new Int32Array(8);

// The first bits of the fraction of the roots of the first primes.
for (let n = 2, count = 0; count < 64; n++) {
  let isPrime = true;
  for (let d = 2; d * d <= n && isPrime; d++) isPrime = n % d !== 0;
  if (!isPrime) continue;
  const bits = root => (root - Math.floor(root)) * 4294967296 | 0;
  if (count < 8) firstWords[count] = bits(Math.sqrt(n));
  roundConstants[count++] = bits(Math.cbrt(n));
}

class Sum {
  constructor() {
    this.words = firstWords.slice();
    this.schedule = new Int32Array(64);
    this.rest = new Uint8Array(64);
    this.held = 0;
    this.bytes = 0;
  }

  add(bytes) {
    this.bytes += bytes.length;
    let at = 0;
    if (this.held > 0) {
      at = Math.min(64 - this.held, bytes.length);
      this.rest.set(bytes.subarray(0, at), this.held);
      this.held += at;
      if (this.held < 64) return;
      this.mix(this.rest, 0);
      this.held = 0;
    }
    for (; at + 64 <= bytes.length; at += 64) this.mix(bytes, at);
    this.rest.set(bytes.subarray(at));
    this.held = bytes.length - at;
  }

  end() {
    const bits = this.bytes * 8;
    const tail = new Uint8Array(this.held < 56 ? 64 - this.held : 128 - this.held);
    tail[0] = 0x80;
    const view = new DataView(tail.buffer);
    view.setUint32(tail.length - 8, Math.floor(bits / 4294967296));
    view.setUint32(tail.length - 4, bits >>> 0);
    this.add(tail);
    return Array.from(this.words, word => (word >>> 0).toString(16).padStart(8, '0')).join('');
  }

  mix(bytes, at) {
    const w = this.schedule;
    for (let i = 0; i < 16; i++, at += 4) w[i] = bytes[at] << 24 | bytes[at + 1] << 16 | bytes[at + 2] << 8 | bytes[at + 3];
    for (let i = 16; i < 64; i++) {
      const [x, y] = [w[i - 15], w[i - 2]];
      w[i] = w[i - 16] + ((x >>> 7 | x << 25) ^ (x >>> 18 | x << 14) ^ x >>> 3) + w[i - 7] + ((y >>> 17 | y << 15) ^ (y >>> 19 | y << 13) ^ y >>> 10) | 0;
    }
    let a = this.words[0], b = this.words[1], c = this.words[2], d = this.words[3];
    let e = this.words[4], f = this.words[5], g = this.words[6], h = this.words[7];
    for (let i = 0; i < 64; i++) {
      const one = h + ((e >>> 6 | e << 26) ^ (e >>> 11 | e << 21) ^ (e >>> 25 | e << 7)) + (e & f ^ ~e & g) + roundConstants[i] + w[i] | 0;
      const two = ((a >>> 2 | a << 30) ^ (a >>> 13 | a << 19) ^ (a >>> 22 | a << 10)) + (a & b ^ a & c ^ b & c) | 0;
      h = g; g = f; f = e; e = d + one | 0;
      d = c; c = b; b = a; a = one + two | 0;
    }
    const words = this.words;
    words[0] += a; words[1] += b; words[2] += c; words[3] += d;
    words[4] += e; words[5] += f; words[6] += g; words[7] += h;
  }
}

let goOn = null;

// After each piece it waits for a word, so that the page can read what is to be heard first.
onmessage = ({ data }) => {
  if (data !== 'on') check(data);
  else goOn?.();
};

async function check(files) {
  const all = files.reduce((sum, file) => sum + file.size, 0);
  let done = 0;
  for (const file of files) {
    try {
      const sum = new Sum();
      for (let at = 0; at < file.size; at += sumPieceBytes) {
        sum.add(new Uint8Array(await file.slice(at, at + sumPieceBytes).arrayBuffer()));
        done += Math.min(sumPieceBytes, file.size - at);
        postMessage({ part: all > 0 ? done / all : 1 });
        await new Promise(resolve => { goOn = resolve; });
      }
      postMessage({ name: file.name, sum: sum.end() });
    } catch {
      postMessage({ name: file.name, sum: null });
    }
  }
  postMessage({ isDone: true });
}
