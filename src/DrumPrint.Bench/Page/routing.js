// The routing as a picture: tracks, buses in the order of the signal, prints. Made from the chain alone.

import { shape, element } from './words.js';

const rowHeight = 27;
const boxHeight = 21;
const top = 34;

export function createRouting(svg, openBus) {
  let state = null;
  let open = null;
  let drawn = '';

  // How many buses lie before one.
  function depths(buses) {
    const known = new Map();
    const names = new Map(buses.map(bus => [bus.name, bus]));
    const depth = name => {
      if (!names.has(name)) return 0;
      if (!known.has(name)) {
        known.set(name, 0);
        const bus = names.get(name);
        const before = [...bus.feeds.map(feed => feed.source), ...bus.stages.map(stage => stage.key).filter(Boolean)];
        known.set(name, 1 + Math.max(0, ...before.map(depth)));
      }
      return known.get(name);
    };
    for (const bus of buses) depth(bus.name);
    return known;
  }

  function draw(next, opened) {
    state = next;
    open = opened;
    // Drawn anew it lets go of the place that keys have come to, and of a press that has not ended.
    const picture = JSON.stringify([opened, state.tracks, state.buses.map(bus => [bus.name, bus.feeds.map(feed => feed.source), bus.stages.map(stage => [stage.key, stage.is_off])]), state.prints.map(print => [print.number, print.name, print.bus]), state.drum_bus.map(stage => stage.is_off)]);
    if (picture === drawn) return;
    drawn = picture;
    const depth = depths(state.buses);
    const deepest = Math.max(1, ...depth.values());
    const columns = deepest + 2;
    const width = Math.max(760, columns * 168);
    const step = (width - 12) / columns;
    const boxWidth = Math.min(150, step - 28);
    const rows = Array.from({ length: columns }, () => 0);
    const places = new Map();
    const put = (key, column) => places.set(key, { x: 6 + column * step, y: top + rowHeight * rows[column]++ });
    for (const track of state.tracks) put(`track ${track}`, 0);
    for (const bus of state.buses) put(`bus ${bus.name}`, depth.get(bus.name));
    for (const print of state.prints) put(`print ${print.number}`, columns - 1);
    // The drum bus is behind the prints, and heard by the mixer only.
    rows[columns - 1] += .6;
    put('drum bus', columns - 1);
    const height = top + rowHeight * Math.max(...rows) + 6;
    // Shorter columns stand in the middle.
    for (const place of places.values()) {
      const column = Math.round((place.x - 6) / step);
      place.y += (Math.max(...rows) - rows[column]) * rowHeight / 2;
    }
    svg.replaceChildren();
    svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
    const heads = [[0, 'tracks'], [1, 'buses'], [columns - 1, 'prints']];
    for (const [column, text] of heads) svg.append(shape('text', { x: 6 + column * step, y: 18, class: 'head' }, text));
    const isBus = new Set(state.buses.map(bus => bus.name));
    const from = name => places.get(isBus.has(name) ? `bus ${name}` : `track ${name}`);
    const wire = (a, b, isNear) => {
      if (!a || !b) return;
      const [x1, y1, x2, y2] = [a.x + boxWidth, a.y + boxHeight / 2, b.x, b.y + boxHeight / 2];
      const bend = (x2 - x1) / 2;
      return svg.append(shape('path', { class: isNear ? 'wire near' : 'wire', d: `M${x1} ${y1}C${x1 + bend} ${y1} ${x2 - bend} ${y2} ${x2} ${y2}` }));
    };
    const wires = [];
    for (const bus of state.buses) for (const feed of bus.feeds) wires.push([from(feed.source), places.get(`bus ${bus.name}`), bus.name === open || feed.source === open]);
    for (const print of state.prints) wires.push([places.get(`bus ${print.bus}`), places.get(`print ${print.number}`), print.bus === open]);
    wires.sort((a, b) => a[2] - b[2]).forEach(each => wire(...each));
    for (const track of state.tracks) box(places.get(`track ${track}`), track, boxWidth);
    for (const bus of state.buses) box(places.get(`bus ${bus.name}`), bus.name, boxWidth, bus);
    for (const print of state.prints) box(places.get(`print ${print.number}`), `${String(print.number).padStart(2, '0')} ${print.name}`, boxWidth);
    box(places.get('drum bus'), 'drum bus', boxWidth, { name: '', stages: state.drum_bus });
  }

  function box(place, text, width, bus) {
    const group = shape('g', bus ? { role: 'button', tabindex: 0, 'aria-pressed': String(bus.name === open), 'aria-label': `${bus.name === '' ? 'The drum bus' : `Bus ${bus.name}`}, ${bus.stages.length} ${bus.stages.length === 1 ? 'processor' : 'processors'}` } : {});
    group.append(shape('rect', { class: 'box', x: place.x, y: place.y, width, height: boxHeight, rx: 2 }));
    // A long name is squeezed, not cut.
    const squeezed = text.length > 19 ? { textLength: width - 14, lengthAdjust: 'spacingAndGlyphs' } : {};
    group.append(shape('text', { x: place.x + 7, y: place.y + 15, ...squeezed }, text));
    // A dot for each processor.
    bus?.stages.forEach((stage, i) => group.append(shape('circle', { class: 'through', cx: place.x + width - 7 - i * 7, cy: place.y + boxHeight - 4, r: 2.2, opacity: stage.is_off ? .3 : 1 })));
    if (bus) {
      group.addEventListener('click', () => openBus(bus.name));
      group.addEventListener('keydown', event => {
        if (event.key !== 'Enter' && event.key !== ' ') return;
        event.preventDefault();
        event.stopPropagation();
        openBus(bus.name);
      });
    }
    svg.append(group);
  }

  return { draw };
}
