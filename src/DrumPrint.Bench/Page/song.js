// The song by bars and sections: click to move, drag to repeat.

import { colour, fitCanvas, isChanged, number } from './words.js';
import { drawPeaks } from './strips.js';

export function createSong(canvas, act) {
  let state = null;
  let stretch = null;
  let drag = null;
  let waves = [];
  const cut = new Set();

  const seconds = () => state.frames / state.rate_hz;
  const at = event => {
    const box = canvas.getBoundingClientRect();
    return Math.min(1, Math.max(0, (event.clientX - box.left) / box.width)) * seconds();
  };

  canvas.addEventListener('pointerdown', event => {
    if (!state || event.button !== 0) return;
    canvas.setPointerCapture(event.pointerId);
    drag = { from: at(event), to: at(event), x: event.clientX };
  });
  canvas.addEventListener('pointermove', event => { if (drag) drag.to = at(event); });
  canvas.addEventListener('pointerup', event => {
    if (!drag) return;
    const { from, to, x } = drag;
    drag = null;
    if (Math.abs(event.clientX - x) < 5) act.move(snapped(to));
    else act.repeat(snapped(Math.min(from, to)), snapped(Math.max(from, to)));
  });
  canvas.addEventListener('pointercancel', () => { drag = null; });

  // The whole name of a section, where its place is too short for it.
  canvas.addEventListener('pointermove', event => {
    const section = state && !drag ? state.sections.findLast(each => each.at_s <= at(event)) : null;
    const name = cut.has(section) ? section.name : '';
    if (canvas.title !== name) canvas.title = name;
  });

  function shortened(pen, name, room) {
    if (pen.measureText(name).width <= room) return name;
    let short = name;
    while (short.length > 0 && pen.measureText(`${short}…`).width > room) short = short.slice(0, -1).trimEnd();
    return short.length > 0 ? `${short}…` : '';
  }

  // To a bar where one is near.
  function snapped(time) {
    const near = (state.bars ?? []).map(bar => bar.at_s).reduce((a, b) => Math.abs(b - time) < Math.abs(a - time) ? b : a, Infinity);
    const reach = seconds() / canvas.getBoundingClientRect().width * 8;
    return Math.abs(near - time) < reach ? near : time;
  }

  return {
    show(next) {
      state = next;
      cut.clear();
    },
    stretch(next) { stretch = next; },
    waves(next) { waves = next; },

    /** The number of the bar at a time; none before the first. */
    bar: time => state.bars.findLast(each => each.at_s <= time + 1e-6)?.bar,

    words(time) {
      const bar = state.bars.findLastIndex(each => each.at_s <= time + 1e-6);
      const section = state.sections.filter(each => each.at_s <= time + 1e-6).at(-1)?.name;
      if (bar < 0) return `${number(time, 2)} s`;
      const { bar: name, at_s: from, beats } = state.bars[bar];
      const length = (state.bars[bar + 1]?.at_s ?? seconds()) - from;
      const beat = Math.min(beats, 1 + Math.floor((time - from) / length * beats + 1e-6));
      return [`bar ${name}, beat ${beat}`, section, `${number(time, 1)} s`].filter(Boolean).join(' · ');
    },

    draw(time) {
      if (!state) return;
      const { width, height, ratio } = fitCanvas(canvas);
      const x = s => s / seconds() * width;
      const place = Math.round(x(time));
      if (!isChanged(canvas, [state, stretch, waves, drag?.from, drag?.to, place])) return;
      const pen = canvas.getContext('2d');
      const head = 16 * ratio;
      pen.clearRect(0, 0, width, height);
      pen.fillStyle = colour('--field');
      pen.fillRect(0, 0, width, head);
      pen.save();
      pen.translate(0, head);
      pen.fillStyle = colour('--a');
      pen.globalAlpha = waves.length > 1 ? .28 : 1;
      for (const wave of waves) drawPeaks(pen, wave, 0, width, height - head);
      pen.restore();
      pen.fillStyle = colour('--edge');
      const step = Math.max(1, Math.ceil(state.bars.length / (width / ratio / 14)));
      pen.globalAlpha = .5;
      state.bars.forEach((bar, i) => { if (i % step === 0) pen.fillRect(x(bar.at_s), head, ratio, height - head); });
      pen.globalAlpha = 1;
      pen.font = `${12 * ratio}px system-ui, sans-serif`;
      state.sections.forEach((section, i) => {
        const left = x(section.at_s);
        pen.fillStyle = colour('--edge');
        pen.fillRect(left, 0, ratio, height);
        const name = shortened(pen, section.name, x(state.sections[i + 1]?.at_s ?? seconds()) - left - 8 * ratio);
        if (name === section.name) cut.delete(section); else cut.add(section);
        pen.fillStyle = colour('--ink');
        pen.fillText(name, left + 4 * ratio, 12 * ratio);
      });
      const shown = drag && Math.abs(drag.to - drag.from) > .05 ? [Math.min(drag.from, drag.to), Math.max(drag.from, drag.to)] : stretch;
      if (shown) {
        pen.fillStyle = colour('--paper');
        pen.globalAlpha = .72;
        pen.fillRect(0, head, x(shown[0]), height);
        pen.fillRect(x(shown[1]), head, width, height);
        pen.globalAlpha = 1;
        pen.fillStyle = colour('--d');
        pen.fillRect(x(shown[0]), 0, 2 * ratio, height);
        pen.fillRect(x(shown[1]) - 2 * ratio, 0, 2 * ratio, height);
      }
      pen.fillStyle = colour('--ink');
      pen.fillRect(place - ratio, 0, 2 * ratio, height);
    },
  };
}
