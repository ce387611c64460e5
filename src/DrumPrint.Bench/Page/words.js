// Numbers and names as people read them, and small helpers.

export const byId = id => document.getElementById(id);

export function element(name, text, attributes = {}) {
  const made = document.createElement(name);
  if (text !== undefined && text !== null) made.textContent = text;
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

export function shape(name, attributes = {}, text) {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  if (text !== undefined) made.textContent = text;
  return made;
}

export function number(value, digits = 1) {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
}

export const signed = (value, digits = 1) => Number(value.toFixed(digits)) > 0 ? '+' + number(value, digits) : number(value, digits);
export const decibels = db => db <= -60 ? 'off' : `${signed(db)} dB`;
export const gainOf = db => db <= -60 ? 0 : Math.pow(10, db / 20);
export const decibelsOf = gain => gain > 0 ? 20 * Math.log10(gain) : -Infinity;
export const colour = name => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

// The unit ends a key; it stands beside the number already.
export function nameOf(setting) {
  const key = setting.key.replace(/_(db_per_oct|in_per_s|dbtp|db|hz|ms|s|pct|deg)$/, '');
  return key.replaceAll('_', ' ');
}

/** A sentence that quotes keys of the chain file, with the names that the page has for them. */
export function withNames(text, state) {
  const stages = [...state.drum_bus, ...state.buses.flatMap(bus => [...bus.feeds, ...bus.stages])];
  const keys = new Set([...stages, ...stages.flatMap(stage => stage.bands ?? [])].flatMap(each => each.settings).map(setting => setting.key));
  return text.replace(/'([a-z_]+)'/g, (quoted, key) => keys.has(key) ? `'${nameOf({ key })}'` : quoted);
}

const shown = new WeakMap();

/** Whether anything of what a canvas shows differs from when it was drawn last. Colours count too. */
export function isChanged(canvas, what) {
  const now = [...what, canvas.width, canvas.height, colour('--ink')];
  const before = shown.get(canvas);
  if (before && before.length === now.length && before.every((each, i) => Object.is(each, now[i]))) return false;
  shown.set(canvas, now);
  return true;
}

/** Shows a level as the length of a bar; −60 dB is none of it. */
export function showLevel(bar, db) {
  const part = Math.round(Math.max(0, Math.min(1, (db + 60) / 60)) * 500) / 500;
  const to = `scaleX(${part})`;
  if (bar.style.transform !== to) bar.style.transform = to;
}

export function fitCanvas(canvas) {
  const ratio = window.devicePixelRatio || 1;
  const box = canvas.getBoundingClientRect();
  const width = Math.max(1, Math.round(box.width * ratio));
  const height = Math.max(1, Math.round(box.height * ratio));
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  return { width, height, ratio };
}
