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
    if ([31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000].includes(band.hz)) {
      shape(svg, 'text', { x: x + step / 2, y: height - 6, 'text-anchor': 'middle' }, band.hz >= 1000 ? `${band.hz / 1000}k` : String(band.hz));
    }
  });
  box.replaceChildren(svg);
  fillTable(table, ['Band', 'A, dBFS', 'B, dBFS', 'B less A, dB'], bands.map(band => [
    frequency(band.hz), number(band.a_db), number(band.b_db), band.difference_db === null ? 'too soft' : signed(band.difference_db),
  ]));
}

/** Reduction of both sides over the passage, one picture for each processor; those that differ most come first. */
function drawReductions(box, curves, seconds) {
  const largest = list => Math.max(0, ...(list ?? []));
  const apart = curve => curve.a && curve.b ? Math.max(0, ...curve.a.map((value, i) => Math.abs(value - (curve.b[i] ?? 0)))) : 100 + largest(curve.a ?? curve.b);
  const working = curves.filter(curve => Math.max(largest(curve.a), largest(curve.b)) >= 0.1).sort((x, y) => apart(y) - apart(x));
  box.replaceChildren();
  const more = element('details');
  more.append(element('summary', 'The other processors, alike in both sides'));
  working.forEach((curve, i) => {
    const figure = reductionFigure(curve, seconds, box.clientWidth || 780);
    (i > 0 && apart(curve) < 0.1 ? more : box).append(figure);
  });
  if (more.children.length > 1) box.append(more);
  return working.length;
}

function reductionFigure(curve, seconds, room) {
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
  for (let second = 0; second <= seconds; second += seconds > 20 ? 10 : 2) {
    shape(svg, 'text', { x: left + second / seconds * (width - left), y: height - 4, 'text-anchor': second === 0 ? 'start' : second >= seconds ? 'end' : 'middle' }, `${second} s`);
  }
  for (const side of ['a', 'b']) {
    const list = curve[side];
    if (!list) continue;
    const points = list.map((value, i) => `${(left + (i + 0.5) * curve.step_s / seconds * (width - left)).toFixed(1)},${(8 + value * scale).toFixed(1)}`);
    shape(svg, 'polyline', { class: `trace ${side}`, points: points.join(' ') });
  }
  const figure = element('figure');
  figure.append(element('figcaption', `${curve.title}: ${words}.`), svg);
  return figure;
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
