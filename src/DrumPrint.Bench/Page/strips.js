// A strip for each print: how loud it is, a fader that is heard here only, mute and solo.

import { byId, colour, decibels, decibelsOf, element, fitCanvas, gainOf, isChanged, showLevel } from './words.js';

export function createStrips(list, talk, act) {
  const strips = new Map();
  let prints = [];

  const isHeard = strip => {
    const hasSolo = [...strips.values()].some(each => each.isSolo);
    return !strip.isMuted && (!hasSolo || strip.isSolo);
  };

  function apply() {
    for (const strip of strips.values()) {
      talk.say({ kind: 'fader', number: strip.number, gain: isHeard(strip) ? gainOf(strip.db) : 0 });
      draw(strip);
    }
    const moved = [...strips.values()].filter(strip => strip.db !== 0);
    const isRough = moved.length === 0 && [...strips.values()].every(strip => !strip.isSolo && strip.isMuted === strip.isOptional);
    byId('unity-words').textContent = isRough ? 'Every fader at 0: what the mixer hears at unity.' : 'This is no longer what the mixer hears at unity. Nothing in the chain has changed.';
    byId('into-chain').disabled = moved.length === 0;
  }

  function draw(strip) {
    strip.fader.value = String(strip.db);
    strip.fader.setAttribute('aria-valuetext', decibels(strip.db));
    strip.out.textContent = decibels(strip.db);
    strip.mute.setAttribute('aria-pressed', String(strip.isMuted));
    strip.solo.setAttribute('aria-pressed', String(strip.isSolo));
    strip.item.classList.toggle('unheard', !isHeard(strip));
  }

  function make(print) {
    const label = `${String(print.number).padStart(2, '0')} ${print.name}`;
    const item = element('li', undefined, { class: 'strip', 'data-number': print.number });
    const title = element('h3');
    const name = element('button', label + (print.is_optional ? ' (extra)' : ''), { type: 'button', title: `Open the bus ${print.bus}` });
    name.addEventListener('click', () => act.open(print.bus));
    title.append(name);
    const canvas = element('canvas', undefined, { role: 'img', 'aria-label': `How loud ${label} is over the song` });
    canvas.addEventListener('click', event => {
      const box = canvas.getBoundingClientRect();
      act.move((event.clientX - box.left) / box.width);
    });
    const meter = element('span', undefined, { class: 'meter', role: 'img', 'aria-label': `Peak of ${label}` });
    meter.append(element('i'));
    const fader = element('input', undefined, { type: 'range', autocomplete: 'off', min: -60, max: 6, step: .5, value: 0, 'aria-label': `Fader of ${label}` });
    const out = element('output');
    const box = element('span', undefined, { class: 'fader' });
    box.append(fader, out);
    const mute = element('button', 'Mute', { type: 'button', 'aria-label': `Mute ${label}` });
    const solo = element('button', 'Solo', { type: 'button', 'aria-label': `Solo ${label}` });
    const ways = element('span', undefined, { class: 'ways' });
    ways.append(mute, solo);
    item.append(title, canvas, meter, box, ways);
    const strip = { number: print.number, bus: print.bus, isOptional: print.is_optional, item, canvas, meter, fader, out, mute, solo, db: 0, isMuted: print.is_optional, isSolo: false, wave: null, held: -Infinity };
    fader.addEventListener('input', () => { strip.db = Number(fader.value); apply(); });
    fader.addEventListener('dblclick', () => { strip.db = 0; apply(); });
    mute.addEventListener('click', () => { strip.isMuted = !strip.isMuted; apply(); });
    solo.addEventListener('click', () => { strip.isSolo = !strip.isSolo; apply(); });
    list.append(item);
    return strip;
  }

  function drawWave(strip, part, seconds, sections) {
    const { width, height, ratio } = fitCanvas(strip.canvas);
    const place = Math.round(part * width);
    if (!isChanged(strip.canvas, [strip.wave, seconds, sections, place])) return;
    const pen = strip.canvas.getContext('2d');
    pen.clearRect(0, 0, width, height);
    pen.fillStyle = colour('--line');
    for (const section of sections) pen.fillRect(section.at_s / seconds * width, 0, ratio, height);
    pen.fillStyle = colour('--a');
    if (strip.wave) drawPeaks(pen, strip.wave, 0, width, height);
    pen.fillStyle = colour('--ink');
    pen.fillRect(place - ratio, 0, 2 * ratio, height);
  }

  return {
    show(state) {
      const names = JSON.stringify(state.prints.map(print => [print.number, print.name, print.bus, print.is_optional]));
      if (names !== JSON.stringify(prints)) {
        prints = JSON.parse(names);
        list.replaceChildren();
        const before = new Map(strips);
        strips.clear();
        for (const print of state.prints) {
          const strip = make(print);
          const old = before.get(print.number);
          if (old) Object.assign(strip, { db: old.db, isMuted: old.isMuted, isSolo: old.isSolo, wave: old.wave });
          strips.set(print.number, strip);
        }
        apply();
      }
    },

    outline(columns) {
      for (const [text, peaks] of Object.entries(columns)) {
        const strip = strips.get(Number(text));
        if (strip) strip.wave = Uint8Array.from(atob(peaks), c => c.charCodeAt(0));
      }
    },

    waves: () => [...strips.values()].filter(strip => strip.wave && !strip.isOptional).map(strip => strip.wave),

    /** Of the prints of a bus; of all that play for the drum bus. */
    wavesOf: bus => [...strips.values()].filter(strip => strip.wave && (bus === '' ? !strip.isOptional : strip.bus === bus)).map(strip => strip.wave),

    draw(part, seconds, sections) { for (const strip of strips.values()) drawWave(strip, part, seconds, sections); },

    meters(peaks) {
      let i = 0;
      for (const strip of strips.values()) {
        const db = decibelsOf(peaks[i++] ?? 0);
        strip.held = Math.max(db, strip.held - 1.2);
        showLevel(strip.meter.firstChild, strip.held);
        strip.meter.classList.toggle('hot', strip.held > -1);
      }
    },

    unity() {
      for (const strip of strips.values()) Object.assign(strip, { db: 0, isMuted: strip.isOptional, isSolo: false });
      apply();
    },

    /** Levels of prints as the faders have them, and faders back at 0. */
    intoChain(state) {
      const values = state.prints
        .filter(print => strips.get(print.number).db !== 0)
        .map(print => ({ place: print.place, key: 'level_db', number: Number((print.level.number + strips.get(print.number).db).toFixed(2)) }));
      for (const strip of strips.values()) strip.db = 0;
      apply();
      return values;
    },

    again: apply,
  };
}

// Peaks came as square roots, so that what is soft is seen too.
export function drawPeaks(pen, wave, from, width, height) {
  for (let x = 0; x < width; x++) {
    const start = Math.floor(x * wave.length / width);
    const end = Math.max(start + 1, Math.floor((x + 1) * wave.length / width));
    let most = 0;
    for (let c = start; c < end; c++) most = Math.max(most, wave[c]);
    const size = Math.max(1, most / 255 * height * .94);
    pen.fillRect(from + x, (height - size) / 2, 1, size);
  }
}
