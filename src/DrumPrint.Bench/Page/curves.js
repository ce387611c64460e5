// What a processor does, drawn: an equaliser over frequency, a compressor or gate over level.

import { colour, fitCanvas } from './words.js';

export function drawStage(canvas, stage, frequencies) {
  const { width, height, ratio } = fitCanvas(canvas);
  const pen = canvas.getContext('2d');
  pen.clearRect(0, 0, width, height);
  pen.font = `${11 * ratio}px system-ui, sans-serif`;
  pen.lineWidth = ratio;
  if (stage.response) drawResponse(pen, width, height, ratio, stage.response, frequencies);
  else drawStatic(pen, width, height, ratio, stage);
}

export const hasCurve = stage => Boolean(stage.response) || ['compress', 'gate'].includes(stage.name);

function line(pen, x1, y1, x2, y2) {
  pen.beginPath();
  pen.moveTo(x1, y1);
  pen.lineTo(x2, y2);
  pen.stroke();
}

function drawResponse(pen, width, height, ratio, response, frequencies) {
  const most = Math.max(12, Math.ceil(Math.max(...response.map(Math.abs).filter(db => db < 40)) / 6) * 6);
  const span = Math.min(24, most);
  const x = hz => Math.log(hz / 20) / Math.log(1000) * width;
  const y = db => height / 2 - Math.max(-1.1, Math.min(1.1, db / span)) * height * .44;
  pen.strokeStyle = colour('--line');
  pen.fillStyle = colour('--soft');
  for (const [hz, text] of [[50, '50'], [100, '100'], [200, '200'], [500, '500'], [1000, '1k'], [2000, '2k'], [5000, '5k'], [10000, '10k']]) {
    line(pen, x(hz), 0, x(hz), height);
    pen.fillText(text, x(hz) + 3 * ratio, height - 4 * ratio);
  }
  for (const db of [-span / 2, span / 2]) {
    line(pen, 0, y(db), width, y(db));
    pen.fillText(`${db > 0 ? '+' : '−'}${span / 2} dB`, 3 * ratio, y(db) - 3 * ratio);
  }
  pen.strokeStyle = colour('--edge');
  line(pen, 0, y(0), width, y(0));
  pen.strokeStyle = colour('--a');
  pen.lineWidth = 2.2 * ratio;
  pen.beginPath();
  response.forEach((db, i) => pen.lineTo(x(frequencies[i]), y(db)));
  pen.stroke();
}

// Level out over level in, by the declared meaning of threshold, ratio and knee.
export function staticLevel(stage, level) {
  const at = key => stage.settings.find(setting => setting.key === key);
  if (stage.name === 'compress') {
    const [threshold, ratio, knee, makeUp] = [at('threshold_db').number, at('ratio').number, at('knee_db').number, at('make_up_db').number];
    const over = level - threshold;
    const slope = 1 / ratio - 1;
    const change = 2 * over < -knee ? 0 : 2 * Math.abs(over) <= knee && knee > 0 ? slope * (over + knee / 2) ** 2 / (2 * knee) : slope * over;
    return level + change + makeUp;
  }
  const [open, range] = [at('open_db').number, at('range_db').number];
  if (at('action').word === 'expand') return level + Math.max(range, Math.min(0, (at('ratio').number - 1) * (level - open)));
  return level >= open ? level : level + range;
}

function drawStatic(pen, width, height, ratio, stage) {
  const low = -72;
  const x = db => (db - low) / -low * width;
  const y = db => height - (db - low) / (-low + 6) * height;
  pen.strokeStyle = colour('--line');
  pen.fillStyle = colour('--soft');
  for (let db = -60; db < 0; db += 12) {
    line(pen, x(db), 0, x(db), height);
    line(pen, 0, y(db), width, y(db));
    pen.fillText(String(db).replace('-', '−'), x(db) + 3 * ratio, height - 4 * ratio);
  }
  pen.fillText('dB in', width - 34 * ratio, height - 4 * ratio);
  pen.strokeStyle = colour('--edge');
  line(pen, x(low), y(low), x(0), y(0));
  pen.strokeStyle = colour('--a');
  pen.lineWidth = 2.2 * ratio;
  pen.beginPath();
  for (let db = low; db <= 0; db += .5) pen.lineTo(x(db), Math.max(1, y(staticLevel(stage, db))));
  pen.stroke();
}
