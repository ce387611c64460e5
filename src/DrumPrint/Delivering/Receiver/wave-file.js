// Reads a WAV file of the chosen folder piece by piece, straight from the disk: no file is ever held whole.

const firstBytes = 64;

function textAt(view, at) {
  return String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));
}

async function viewOf(file, from, bytes) {
  return new DataView(await file.slice(from, from + bytes).arrayBuffer());
}

/** Finds out what is in a file. Throws an Error that says what is wrong with it. */
async function openWave(file) {
  const head = await viewOf(file, 0, 12);
  const isLong = head.byteLength === 12 && textAt(head, 0) === 'RF64';
  if (head.byteLength < 12 || !isLong && textAt(head, 0) !== 'RIFF' || textAt(head, 8) !== 'WAVE') throw new Error('is no WAV file');
  let longData = 0;
  let format = null;
  for (let at = 12; at + 8 <= file.size;) {
    const chunk = await viewOf(file, at, firstBytes);
    const id = textAt(chunk, 0);
    let bytes = chunk.getUint32(4, true);
    if (id === 'ds64' && chunk.byteLength >= 24) longData = Number(chunk.getBigUint64(16, true));
    if (id === 'fmt ' && chunk.byteLength >= 24) {
      const tag = chunk.getUint16(8, true);
      format = {
        isFloat: (tag === 0xFFFE && chunk.byteLength >= 34 ? chunk.getUint16(32, true) : tag) === 3,
        channels: chunk.getUint16(10, true),
        rate: chunk.getUint32(12, true),
        frameBytes: chunk.getUint16(20, true),
        bits: chunk.getUint16(22, true),
      };
    }
    if (id === 'data') {
      if (!format || format.channels < 1 || format.channels > 2) throw new Error('is not of one channel or two');
      if (isLong && bytes === 0xFFFFFFFF) bytes = longData;
      const bytesHere = Math.min(bytes, file.size - at - 8);
      return { file, ...format, from: at + 8, frames: Math.floor(bytesHere / format.frameBytes) };
    }
    at += 8 + bytes + bytes % 2;
  }
  throw new Error('holds no sound');
}

const readers = {
  i16: (view, at) => view.getInt16(at, true) / 32768,
  i24: (view, at) => (view.getUint8(at) | view.getUint8(at + 1) << 8 | view.getInt8(at + 2) << 16) / 8388608,
  i32: (view, at) => view.getInt32(at, true) / 2147483648,
  f32: (view, at) => view.getFloat32(at, true),
  f64: (view, at) => view.getFloat64(at, true),
};

/** Samples of a stretch, an array for each channel; silence past the end. */
async function readFrames(wave, from, count) {
  const channels = Array.from({ length: wave.channels }, () => new Float32Array(count));
  const here = Math.max(0, Math.min(count, wave.frames - from));
  if (here === 0) return channels;
  const view = await viewOf(wave.file, wave.from + from * wave.frameBytes, here * wave.frameBytes);
  const read = readers[(wave.isFloat ? 'f' : 'i') + wave.bits];
  if (!read) throw new Error(`holds ${wave.bits} bits a sample, which this page does not read`);
  const step = wave.frameBytes / wave.channels;
  for (let c = 0; c < wave.channels; c++) {
    const target = channels[c];
    for (let n = 0, at = c * step; n < here; n++, at += wave.frameBytes) target[n] = read(view, at);
  }
  return channels;
}

/** The same of a sound in one file, or in a file for each side. */
async function readSides({ sides }, from, count) {
  return (await Promise.all(sides.map(wave => readFrames(wave, from, count)))).flat();
}
