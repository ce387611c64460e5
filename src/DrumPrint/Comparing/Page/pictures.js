// Pictures made of lines and bars.

const svgName = 'http://www.w3.org/2000/svg';

function shape(parent, name, attributes, text) {
  const made = document.createElementNS(svgName, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text !== undefined) made.textContent = text;
  parent.append(made);
  return made;
}

function picture(width, height, title) {
  const svg = document.createElementNS(svgName, 'svg');
  svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', title);
  return svg;
}

/** Bars of the difference in each third of an octave. */
function drawThirds(box, table, bands) {
  const known = bands.filter(band => band.difference_db !== null);
  const most = Math.max(3, Math.ceil(Math.max(0, ...known.map(band => Math.abs(band.difference_db)))));
  const width = Math.max(320, Math.min(780, box.clientWidth || 780));
  const [height, left, bottom] = [230, 44, 24];
  const svg = picture(width, height, `B less A from ${frequency(bands[0].hz)} to ${frequency(bands.at(-1).hz)}; the table below holds the values`);
  const middle = (height - bottom) / 2;
  const scale = (middle - 12) / most;
  const step = (width - left) / bands.length;
  for (const level of [-most, -most / 2, 0, most / 2, most]) {
    const y = middle - level * scale;
    shape(svg, 'line', { class: level === 0 ? 'zero' : 'grid', x1: left, x2: width, y1: y, y2: y });
    shape(svg, 'text', { x: left - 6, y: y + 4, 'text-anchor': 'end' }, signed(level, Number.isInteger(level) ? 0 : 1) + (level === most ? ' dB' : ''));
  }
  bands.forEach((band, i) => {
    const x = left + i * step;
    if (band.difference_db !== null) {
      const tall = Math.abs(band.difference_db) * scale;
      shape(svg, 'rect', { class: 'bar', x: x + step * 0.14, width: step * 0.72, y: band.difference_db > 0 ? middle - tall : middle, height: Math.max(tall, 0.5) });
    }
  });
  drawFrequencies(svg, bands, left, step, height);
  box.replaceChildren(svg);
  fillTable(table, ['Band', 'A, dBFS', 'B, dBFS', 'B less A, dB'], bands.map(band => [
    frequency(band.hz), number(band.a_db), number(band.b_db), band.difference_db === null ? 'too soft' : signed(band.difference_db),
  ]));
}

/** Both sides' own level in each third of an octave. */
function drawSpectra(box, bands) {
  const known = bands.flatMap(band => [band.a_db, band.b_db]).filter(level => level !== null);
  if (known.length === 0) {
    box.replaceChildren();
    return;
  }
  const top = Math.ceil(Math.max(...known) / 6) * 6;
  const bottom = Math.max(top - 72, Math.floor(Math.min(...known) / 6) * 6);
  const width = Math.max(320, Math.min(780, box.clientWidth || 780));
  const [height, left, foot] = [230, 44, 24];
  const svg = picture(width, height, `Levels of A and B from ${frequency(bands[0].hz)} to ${frequency(bands.at(-1).hz)}, ${number(bottom, 0)} to ${number(top, 0)} dBFS; the table below holds the values`);
  const y = level => 10 + (top - Math.max(bottom, level)) / (top - bottom) * (height - foot - 16);
  const step = (width - left) / bands.length;
  for (let level = top; level >= bottom; level -= 12) {
    shape(svg, 'line', { class: 'grid', x1: left, x2: width, y1: y(level), y2: y(level) });
    shape(svg, 'text', { x: left - 6, y: y(level) + 4, 'text-anchor': 'end' }, number(level, 0) + (level === top ? ' dB' : ''));
  }
  drawFrequencies(svg, bands, left, step, height);
  for (const side of ['a', 'b']) {
    const points = bands.map((band, i) => band[side + '_db'] === null ? null : `${(left + (i + 0.5) * step).toFixed(1)},${y(band[side + '_db']).toFixed(1)}`).filter(point => point !== null);
    shape(svg, 'polyline', { class: `trace ${side}`, points: points.join(' ') });
  }
  box.replaceChildren(svg);
}

function drawFrequencies(svg, bands, left, step, height) {
  bands.forEach((band, i) => {
    if ([31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000].includes(band.hz)) {
      shape(svg, 'text', { x: left + (i + 0.5) * step, y: height - 6, 'text-anchor': 'middle' }, band.hz >= 1000 ? `${band.hz / 1000}k` : String(band.hz));
    }
  });
}

/** A picture over time, with a playhead that the page's clock moves. */
function timed(svg, left, width) {
  const box = element('div', undefined, { class: 'timed' });
  box.style.setProperty('--left', `${100 * left / width}%`);
  box.append(svg, element('i', undefined, { class: 'head' }));
  return box;
}

/** Reduction of both sides over the passage, one picture for each processor; those that differ most come first. */
function drawReductions(box, curves, clock) {
  const largest = list => Math.max(0, ...(list ?? []));
  const apart = curve => curve.a && curve.b ? Math.max(0, ...curve.a.map((value, i) => Math.abs(value - (curve.b[i] ?? 0)))) : 100 + largest(curve.a ?? curve.b);
  const working = curves.filter(curve => Math.max(largest(curve.a), largest(curve.b)) >= 0.1).sort((x, y) => apart(y) - apart(x));
  box.replaceChildren();
  const more = element('details');
  more.append(element('summary', 'The other processors, alike in both sides'));
  working.forEach((curve, i) => {
    const figure = reductionFigure(curve, clock, box.clientWidth || 780);
    (i > 0 && apart(curve) < 0.1 ? more : box).append(figure);
  });
  if (more.children.length > 1) box.append(more);
  return working.length;
}

function reductionFigure(curve, clock, room) {
  const seconds = clock.seconds;
  const width = Math.max(320, Math.min(780, room));
  const [height, left, bottom] = [120, 44, 20];
  const most = Math.max(3, Math.ceil(Math.max(...(curve.a ?? [0]), ...(curve.b ?? [0])) / 3) * 3);
  const words = ['a', 'b'].map(side => {
    const list = curve[side];
    if (!list) return `${side.toUpperCase()} has no such processor`;
    const peak = Math.max(0, ...list);
    const mean = list.reduce((sum, value) => sum + value, 0) / Math.max(1, list.length);
    return `${side.toUpperCase()} up to ${number(peak)} dB, ${number(mean)} dB on average`;
  }).join('; ');
  const svg = picture(width, height, `${curve.title}: ${words}`);
  const scale = (height - bottom - 8) / most;
  for (const level of [0, most / 3, 2 * most / 3, most]) {
    const y = 8 + level * scale;
    shape(svg, 'line', { class: level === 0 ? 'zero' : 'grid', x1: left, x2: width, y1: y, y2: y });
    shape(svg, 'text', { x: left - 6, y: y + 4, 'text-anchor': 'end' }, number(-level, 0) + (level === most ? ' dB' : ''));
  }
  for (const mark of clock.marks(width / 90)) {
    const x = left + mark.at / seconds * (width - left);
    shape(svg, 'line', { class: 'grid', x1: x, x2: x, y1: 8, y2: height - bottom });
    shape(svg, 'text', { x: Math.min(x, width - 24), y: height - 4 }, mark.text);
  }
  for (const side of ['a', 'b']) {
    const list = curve[side];
    if (!list) continue;
    const points = list.map((value, i) => `${(left + (i + 0.5) * curve.step_s / seconds * (width - left)).toFixed(1)},${(8 + value * scale).toFixed(1)}`);
    shape(svg, 'polyline', { class: `trace ${side}`, points: points.join(' ') });
  }
  const figure = element('figure');
  figure.append(element('figcaption', `${curve.title}: ${words}.`), timed(svg, left, width));
  return figure;
}

/** The whole song: both waveforms, the passage that is compared, sections, and what was turned down. */
function drawOverview(box, song, passage) {
  const width = Math.max(320, Math.min(780, box.clientWidth || 780));
  const [left, lane] = [44, 54];
  const curves = song.gain_reduction;
  const height = 18 + 2 * lane + curves.length * (lane + 4) + 20;
  const svg = picture(width, height, `${song.title} over the whole song, ${number(song.to_s, 0)} s: waveforms of A and B${curves.map(curve => ', ' + curve.title).join('')}; the compared passage is marked`);
  const x = seconds => left + seconds / song.to_s * (width - left);
  const foot = height - 18;
  shape(svg, 'rect', { class: 'passage', x: x(passage.from_s), width: Math.max(1, x(passage.to_s) - x(passage.from_s)), y: 14, height: foot - 14 });
  let free = 0;
  for (const section of song.sections) {
    const at = x(section.from_s);
    shape(svg, 'line', { class: 'grid', x1: at, x2: at, y1: 14, y2: foot });
    if (at < free || at > width - 30) continue;
    shape(svg, 'text', { x: at + 2, y: 10 }, section.name);
    free = at + 8 + 6.2 * section.name.length;
  }
  const most = Math.max(1e-9, ...song.peaks_a, ...song.peaks_b);
  ['a', 'b'].forEach((side, i) => {
    const middle = 18 + lane * (i + 0.5);
    const peaks = song['peaks_' + side];
    const up = peaks.map((peak, n) => `${(left + (n + 0.5) / peaks.length * (width - left)).toFixed(1)},${(middle - peak / most * lane * 0.47).toFixed(1)}`);
    const down = peaks.map((peak, n) => `${(left + (n + 0.5) / peaks.length * (width - left)).toFixed(1)},${(middle + peak / most * lane * 0.47).toFixed(1)}`).reverse();
    shape(svg, 'polygon', { class: `fill ${side}`, points: [...up, ...down].join(' ') });
    shape(svg, 'text', { x: left - 6, y: middle + 4, 'text-anchor': 'end' }, side.toUpperCase());
  });
  curves.forEach((curve, i) => {
    const top = 18 + 2 * lane + 4 + i * (lane + 4);
    const deepest = Math.max(3, ...(curve.a ?? [0]), ...(curve.b ?? [0]));
    shape(svg, 'line', { class: 'zero', x1: left, x2: width, y1: top, y2: top });
    for (const side of ['a', 'b']) {
      const list = curve[side];
      if (list) shape(svg, 'polyline', { class: `trace ${side}`, points: list.map((value, n) => `${(left + (n + 0.5) / list.length * (width - left)).toFixed(1)},${(top + value / deepest * (lane - 12)).toFixed(1)}`).join(' ') });
    }
    shape(svg, 'text', { x: left - 6, y: top + lane - 8, 'text-anchor': 'end' }, `${number(-deepest, 0)} dB`);
    shape(svg, 'text', { class: 'on-picture', x: width - 2, y: top + lane - 6, 'text-anchor': 'end' }, curve.title);
  });
  for (let second = 0; second <= song.to_s; second += song.to_s > 60 ? 30 : 5) shape(svg, 'text', { x: Math.min(x(second), width - 24), y: height - 4 }, `${second} s`);
  const figure = timed(svg, left, width);
  figure.classList.add('song');
  box.replaceChildren(figure);
}

function fillTable(table, heads, rows) {
  const head = element('tr');
  for (const text of heads) head.append(element('th', text, { scope: 'col' }));
  const body = element('tbody');
  for (const row of rows) {
    const line = element('tr');
    row.forEach((text, i) => line.append(i === 0 ? element('th', text, { scope: 'row' }) : element('td', text)));
    body.append(line);
  }
  const top = element('thead');
  top.append(head);
  table.replaceChildren(top, body);
}
