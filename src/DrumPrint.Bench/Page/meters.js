// How loud the sum is, before the drum bus and after it: in figures, and by frequency.

import { byId, colour, fitCanvas, number, signed } from './words.js';

const top = 0;
const bottom = -72;
const fallDb = 2;

export function createMeters(talk, frequencies) {
  let last = null;
  let isDrawing = false;

  function figures(row, reading) {
    const texts = reading ? [reading.lufs, reading.true_peak_db, reading.crest_db] : [];
    [...row.cells].slice(1).forEach((cell, i) => {
      const value = texts[i];
      cell.textContent = value === undefined || value === null ? '–' : i === 2 ? number(value) : signed(value);
    });
  }

  function draw() {
    isDrawing = false;
    const rows = byId('meters').tBodies[0].rows;
    figures(rows[0], last?.before);
    figures(rows[1], last?.after);
    const canvas = byId('bands');
    const { width, height, ratio } = fitCanvas(canvas);
    const pen = canvas.getContext('2d');
    const count = frequencies().length;
    const foot = 14 * ratio;
    const y = db => (height - foot) * (db - top) / (bottom - top);
    pen.clearRect(0, 0, width, height);
    pen.font = `${11 * ratio}px system-ui, sans-serif`;
    pen.fillStyle = colour('--soft');
    for (const db of [-12, -36, -60]) {
      pen.fillText(`${number(db, 0)} dB`, 2 * ratio, y(db) - 2 * ratio);
      pen.fillRect(0, y(db), width, ratio / 2);
    }
    frequencies().forEach((hz, i) => {
      const name = { 100: '100', 1000: '1 k', 10000: '10 k' }[Math.round(hz)];
      if (name) pen.fillText(`${name} Hz`, i / count * width, height - 2 * ratio);
    });
    pen.fillStyle = colour('--a');
    last?.before.bands_db.forEach((db, i) => {
      const from = Math.max(0, y(db));
      if (db > bottom) pen.fillRect(i / count * width + ratio, from, width / count - 2 * ratio, height - foot - from);
    });
    if (!last?.after) return;
    pen.strokeStyle = colour('--ink');
    pen.lineWidth = 2 * ratio;
    pen.beginPath();
    last.after.bands_db.forEach((db, i) => pen.lineTo((i + .5) / count * width, Math.min(height - foot, Math.max(0, y(db)))));
    pen.stroke();
  }

  /** The bars fall a step, once nothing is heard; the figures stay to be read. */
  function fall() {
    if (!last) return;
    for (const reading of [last.before, last.after]) if (reading) reading.bands_db = reading.bands_db.map(db => db - fallDb);
    draw();
  }

  talk.on('meters', message => {
    last = message;
    if (isDrawing) return;
    isDrawing = true;
    requestAnimationFrame(draw);
  });
  return { draw, fall };
}
