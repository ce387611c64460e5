// The song's own mix beside the prints: heard here only, muted at first, with a level of its own.

import { byId, colour, decibels, decibelsOf, fitCanvas, gainOf, isChanged, showLevel } from './words.js';
import { drawPeaks } from './strips.js';

// What was mixed to be loud comes in well below the prints.
const firstDb = -12;

export function createPartner(talk, act) {
  const strip = byId('partner-strip');
  const fader = byId('partner-fader');
  const mute = byId('partner-mute');
  const meter = byId('partner-meter');
  let isThere = false;
  let isMuted = true;
  let isBlind = false;
  let db = firstDb;
  let held = -Infinity;
  let wave = null;

  function apply() {
    const isHeard = isThere && !isMuted;
    talk.say({ kind: 'partner', gain: isHeard ? gainOf(db) : 0 });
    fader.value = String(db);
    fader.setAttribute('aria-valuetext', decibels(db));
    byId('partner-out').textContent = decibels(db);
    mute.setAttribute('aria-pressed', String(isMuted));
    mute.disabled = fader.disabled = !isThere || isBlind;
    strip.classList.toggle('unheard', !isHeard);
  }

  talk.on('partner', message => {
    byId('partner').hidden = !message.file;
    isThere = Boolean(message.file) && !message.problem && !message.is_opening;
    wave = message.columns ? Uint8Array.from(atob(message.columns), c => c.charCodeAt(0)) : null;
    byId('partner-file').textContent = message.file ?? '';
    const words = byId('partner-words');
    words.textContent = message.problem ?? (message.is_opening ? 'It is being opened …' : '');
    words.classList.toggle('refused', Boolean(message.problem));
    apply();
    act.again();
  });

  fader.addEventListener('input', () => { db = Number(fader.value); apply(); });
  fader.addEventListener('dblclick', () => { db = firstDb; apply(); });
  mute.addEventListener('click', () => { isMuted = !isMuted; apply(); });
  byId('partner-wave').addEventListener('click', event => {
    const box = byId('partner-wave').getBoundingClientRect();
    act.move((event.clientX - box.left) / box.width);
  });

  return {
    again: apply,
    toggle() { if (!mute.disabled) mute.click(); },

    /** In a blind test it neither comes nor goes. */
    blind(is) { isBlind = is; apply(); },

    meter(peak) {
      held = Math.max(decibelsOf(peak ?? 0), held - 1.2);
      showLevel(meter.firstElementChild, held);
      meter.classList.toggle('hot', held > -1);
    },

    draw(part, seconds, sections) {
      if (byId('partner').hidden) return;
      const canvas = byId('partner-wave');
      const { width, height, ratio } = fitCanvas(canvas);
      const place = Math.round(part * width);
      if (!isChanged(canvas, [wave, seconds, sections, place])) return;
      const pen = canvas.getContext('2d');
      pen.clearRect(0, 0, width, height);
      pen.fillStyle = colour('--line');
      for (const section of sections) pen.fillRect(section.at_s / seconds * width, 0, ratio, height);
      pen.fillStyle = colour('--d');
      if (wave) drawPeaks(pen, wave, 0, width, height);
      pen.fillStyle = colour('--ink');
      pen.fillRect(place - ratio, 0, 2 * ratio, height);
    },
  };
}
