// Numbers as people read them; a dash for what was not measured or is none.

function number(value, digits = 1) {
  if (value === null || value === undefined) return '–';
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
}

function signed(value, digits = 1) {
  const text = number(value, digits);
  return value !== null && value !== undefined && Number(value.toFixed(digits)) > 0 ? '+' + text : text;
}

// The side signal against the middle: a word where there is no side or no middle.
function width(measures) {
  if (measures.width_db !== null) return number(measures.width_db);
  return measures.is_mono ? 'mono' : 'side only';
}

function frequency(hz) {
  return hz >= 1000 ? `${Number((hz / 1000).toFixed(2))} kHz` : `${hz} Hz`;
}

function byId(id) {
  return document.getElementById(id);
}

function element(name, text, attributes = {}) {
  const made = document.createElement(name);
  if (text !== undefined) made.textContent = text;
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}
