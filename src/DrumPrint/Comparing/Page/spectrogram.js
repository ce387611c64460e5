// The spectrogram of what is left when matched B is taken from A.

/** Sines and cosines of one turn in n steps. */
function turns(n) {
  return { cos: Float64Array.from({ length: n }, (_, k) => Math.cos(2 * Math.PI * k / n)), sin: Float64Array.from({ length: n }, (_, k) => Math.sin(2 * Math.PI * k / n)) };
}

/** In-place transform of a power of two of complex values (Cooley and Tukey 1965). */
function transform(re, im, { cos, sin } = turns(re.length)) {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [re[i], re[j]] = [re[j], re[i]];
      [im[i], im[j]] = [im[j], im[i]];
    }
  }
  for (let size = 2; size <= n; size *= 2) {
    const half = size / 2;
    for (let k = 0; k < half; k++) {
      const c = cos[k * (n / size)];
      const s = -sin[k * (n / size)];
      for (let i = k; i < n; i += size) {
        const j = i + half;
        const x = re[j] * c - im[j] * s;
        const y = re[j] * s + im[j] * c;
        re[j] = re[i] - x;
        im[j] = im[i] - y;
        re[i] += x;
        im[i] += y;
      }
    }
  }
}

// What is so far below the loudest of A is left white.
const shownDb = 72;

function drawSpectrogram(canvas, sides, gains, sign, rate, clock) {
  const { width, height, ratio } = fitCanvas(canvas);
  const pen = canvas.getContext('2d');
  const size = 2048;
  const frames = sides.a[0].length;
  const table = turns(size);
  const columns = Math.min(width, 700);
  const window = Float64Array.from({ length: size }, (_, n) => 0.5 - 0.5 * Math.cos(2 * Math.PI * n / size));
  const [lowHz, highHz] = [30, Math.min(20000, rate / 2)];
  const levels = [];
  let top = 1e-12;
  for (let column = 0; column < columns; column++) {
    const re = new Float64Array(size);
    const im = new Float64Array(size);
    const other = new Float64Array(size);
    const none = new Float64Array(size);
    const start = Math.round((column + 0.5) * frames / columns) - size / 2;
    for (let n = 0; n < size; n++) {
      const at = start + n;
      if (at < 0 || at >= frames) continue;
      // Left goes into the real part and right into the imaginary part; their powers come apart below.
      re[n] = (sides.a[0][at] * gains[0] - sign * sides.b[0][at] * gains[1]) * window[n];
      im[n] = (sides.a[1][at] * gains[0] - sign * sides.b[1][at] * gains[1]) * window[n];
      other[n] = (sides.a[0][at] + sides.a[1][at]) / 2 * gains[0] * window[n];
    }
    transform(re, im, table);
    transform(other, none, table);
    const powers = new Float64Array(size / 2);
    for (let k = 1; k < size / 2; k++) {
      powers[k] = (re[k] ** 2 + im[k] ** 2 + re[size - k] ** 2 + im[size - k] ** 2) / 4;
      top = Math.max(top, other[k] ** 2 + none[k] ** 2);
    }
    levels.push(powers);
  }
  // From the paper through the difference's own colour to the ink: what is loud is as strong as print.
  const stops = ['--paper', '--d', '--ink'].map(name => partsOf(colour(name)));
  const image = pen.createImageData(width, height);
  for (let y = 0; y < height; y++) {
    const hz = lowHz * Math.pow(highHz / lowHz, 1 - (y + 0.5) / height);
    const bin = Math.min(size / 2 - 1, Math.max(1, Math.round(hz * size / rate)));
    for (let x = 0; x < width; x++) {
      const power = levels[Math.min(columns - 1, Math.floor(x * columns / width))][bin];
      const share = Math.min(1, Math.max(0, 1 + 10 * Math.log10(power / top + 1e-30) / shownDb));
      const at = 4 * (y * width + x);
      const [from, to, part] = share < 0.6 ? [stops[0], stops[1], share / 0.6] : [stops[1], stops[2], (share - 0.6) / 0.4];
      for (let c = 0; c < 3; c++) image.data[at + c] = Math.round(from[c] + (to[c] - from[c]) * part);
      image.data[at + 3] = 255;
    }
  }
  pen.clearRect(0, 0, width, height);
  pen.putImageData(image, 0, 0);
  pen.font = `${11 * ratio}px system-ui, sans-serif`;
  pen.fillStyle = colour('--edge');
  for (const mark of clock.marks(width / ratio / 70)) pen.fillRect(mark.at / clock.seconds * width, 0, ratio, height);
  for (const hz of [100, 1000, 10000]) {
    const y = height * (1 - Math.log(hz / lowHz) / Math.log(highHz / lowHz));
    pen.fillStyle = colour('--line');
    pen.fillRect(0, y, width, ratio);
    label(pen, frequency(hz), 2 * ratio, y - 3 * ratio, ratio);
  }
  for (const mark of clock.marks(width / ratio / 70)) label(pen, mark.text, mark.at / clock.seconds * width + 3 * ratio, height - 4 * ratio, ratio);
}

// Words that can be read on any ground.
function label(pen, text, x, y, ratio) {
  pen.lineWidth = 3 * ratio;
  pen.strokeStyle = colour('--paper');
  pen.strokeText(text, x, y);
  pen.fillStyle = colour('--ink');
  pen.fillText(text, x, y);
}

// Red, green and blue of any colour that CSS knows, a system's own too.
function partsOf(text) {
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = 1;
  const pen = canvas.getContext('2d');
  pen.fillStyle = text;
  pen.fillRect(0, 0, 1, 1);
  return pen.getImageData(0, 0, 1, 1).data;
}
