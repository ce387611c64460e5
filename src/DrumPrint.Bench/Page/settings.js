// A bus opened: every setting of everything in it, each control made from the one declaration of its parameter.

import { element, nameOf, number } from './words.js';
import { drawStage, hasCurve } from './curves.js';

const ticks = 1000;
const restMs = 500;

export function createSettings(box, act) {
  let views = [];
  let shapeOf = '';
  let shown = null;
  let frequencies = [];

  function show(state, bus) {
    frequencies = state.frequencies;
    const groups = bus === null ? [] : groupsOf(state, bus);
    const next = JSON.stringify(groups.map(group => [group.title, group.settings.map(setting => [setting.key, setting.kind])]));
    if (next !== shapeOf || shown !== bus) {
      shapeOf = next;
      shown = bus;
      build(groups);
    }
    groups.forEach((group, g) => {
      const view = views[g];
      view.item.classList.toggle('off', Boolean(group.isOff));
      view.data = group;
      group.settings.forEach((setting, s) => view.controls[s].show(setting));
      if (view.canvas) drawStage(view.canvas, group.stage, state.frequencies);
    });
  }

  function groupsOf(state, name) {
    const isDrumBus = name === '';
    const bus = state.buses.find(each => each.name === name);
    const groups = [];
    if (bus) {
      for (const feed of bus.feeds) groups.push({ title: `from ${feed.source}`, help: feed.also ?? '', place: feed.place, settings: feed.settings, isOff: feed.is_off, isFeed: true });
    }
    for (const stage of isDrumBus ? state.drum_bus : bus?.stages ?? []) {
      const key = stage.key ? ` It listens to ${stage.key}.` : '';
      groups.push({ title: stage.name, help: stage.help + key, place: stage.place, settings: stage.settings, isOff: stage.is_off, stage: hasCurve(stage) ? stage : null });
      for (const band of stage.bands) groups.push({ title: band.name.replaceAll('_', ' '), help: band.help, place: band.place, settings: band.settings, isBand: true, isOff: stage.is_off });
    }
    return groups;
  }

  function build(groups) {
    views = [];
    box.replaceChildren();
    if (groups.length === 0) box.append(element('p', 'Nothing is in it.', { class: 'hint' }));
    for (const group of groups) {
      const item = element('div', undefined, { class: 'stage' });
      const head = element('header');
      head.append(element(group.isBand ? 'h4' : 'h3', group.title), element('p', group.help, { class: 'help' }));
      item.append(head);
      const view = { item, data: group, canvas: null, controls: [] };
      if (group.stage) {
        view.canvas = element('canvas', undefined, { role: 'img', 'aria-label': group.stage.response ? `Level over frequency of ${group.title}` : `Level out over level in of ${group.title}` });
        item.append(view.canvas);
      }
      group.settings.forEach((setting, s) => {
        const control = makeControl(setting, group, value => act.tryOut(valueOf(view, s, value)), value => act.set(valueOf(view, s, value)));
        view.controls.push(control);
        item.append(control.item);
      });
      views.push(view);
      box.append(item);
    }
  }

  function valueOf(view, s, value) {
    const { place, settings } = view.data;
    const setting = settings[s];
    const named = value === null ? {} : setting.kind === 'number' ? { number: value } : setting.kind === 'toggle' ? { is_on: value } : { word: value };
    return [{ place, key: setting.key, ...named }];
  }

  /** What is tried while a hand moves is drawn before it is written. */
  function tried(values, response) {
    if (values.length !== 1) return;
    const place = values[0].place.join('/');
    for (const view of views) {
      const { data, canvas } = view;
      if (!canvas || !place.startsWith(data.place.join('/'))) continue;
      const settings = data.stage.settings.map(setting => setting.key === values[0].key && place === data.place.join('/') ? { ...setting, ...values[0] } : setting);
      drawStage(canvas, { ...data.stage, settings, response: response ?? data.stage.response }, frequencies);
    }
  }

  return { show, tried };
}

let made = 0;

function makeControl(setting, group, tryOut, set) {
  const item = element('div', undefined, { class: 'setting' });
  const id = `setting-${++made}`;
  const label = element('label', nameOf(setting), { for: id, title: setting.help });
  item.append(label);
  // Two of one name are told apart by what they are counted in, which an eye sees beside the number.
  const isTwice = group.settings.filter(each => nameOf(each) === nameOf(setting)).length > 1;
  const unit = isTwice && (setting.unit_word || setting.unit) ? ` in ${setting.unit_word || setting.unit}` : '';
  if (unit) label.append(element('span', unit, { class: 'hidden' }));
  const about = `${nameOf(setting)}${unit} of ${group.title}`;
  if (setting.kind === 'toggle') return toggle(setting, item, id, about, set);
  if (setting.kind === 'choice') return choice(setting, item, id, about, set);
  if (setting.kind === 'impulse') return word(setting, item);
  return numeric(setting, item, id, about, label, tryOut, set);
}

function toggle(setting, item, id, about, set) {
  const box = element('input', undefined, { type: 'checkbox', id, autocomplete: 'off', 'aria-label': about });
  box.addEventListener('change', () => set(box.checked));
  item.append(box);
  return { item, show(next) { box.checked = next.is_on; item.classList.toggle('own', next.is_on !== next.default_is_on); } };
}

function choice(setting, item, id, about, set) {
  const select = element('select', undefined, { id, autocomplete: 'off', 'aria-label': about });
  for (const each of setting.choices) select.append(element('option', each.word.replaceAll('_', ' '), { value: each.word, title: each.help }));
  select.addEventListener('change', () => set(select.value));
  item.append(select);
  return { item, show(next) { select.value = next.word; item.classList.toggle('own', next.word !== next.default_word); } };
}

function word(setting, item) {
  const text = element('span', setting.word, { class: 'word' });
  item.append(text);
  return { item, show(next) { text.textContent = next.word; } };
}

function numeric(setting, item, id, about, label, tryOut, set) {
  const scale = scaleOf(setting);
  const range = element('input', undefined, { type: 'range', autocomplete: 'off', min: 0, max: scale.ticks, step: 1, 'aria-label': about, title: setting.help });
  const box = element('input', undefined, { type: 'number', id, autocomplete: 'off', min: setting.least, max: setting.most, step: 'any', title: setting.help });
  const unit = element('span', setting.unit ?? '', { class: 'unit' });
  const none = element('button', '×', { type: 'button', class: 'none', title: `Leave it out: ${leftOut(setting)}`, 'aria-label': `Leave out ${about}` });
  let now = setting;
  let isAtHand = false;
  const put = value => {
    range.value = String(scale.toTick(value));
    range.setAttribute('aria-valuetext', `${value} ${setting.unit_word ?? ''}`);
    // Writing the same number again would let go of what is marked in it.
    if (box.value !== String(value)) box.value = String(value);
  };
  range.addEventListener('input', () => {
    const value = scale.fromTick(Number(range.value));
    put(value);
    tryOut(value);
  });
  // Each step of a key is a change to the browser; it is written once, when the keys rest.
  let isByKey = false;
  let write = null;
  let rest = 0;
  const writeNow = () => {
    clearTimeout(rest);
    isAtHand = false;
    const last = write;
    write = null;
    last?.();
  };
  range.addEventListener('keydown', () => { isByKey = true; });
  range.addEventListener('pointerdown', () => { isByKey = false; });
  range.addEventListener('keyup', () => { isByKey = false; });
  range.addEventListener('change', () => {
    const value = scale.fromTick(Number(range.value));
    write = () => set(value);
    if (!isByKey) return writeNow();
    isAtHand = true;
    clearTimeout(rest);
    rest = setTimeout(writeNow, restMs);
  });
  range.addEventListener('blur', () => { if (write) writeNow(); });
  // Who comes here by keys types another number. Not every browser takes hold of the old one then.
  box.addEventListener('keyup', event => { if (event.key === 'Tab') box.select(); });
  box.addEventListener('input', () => { isAtHand = true; });
  box.addEventListener('change', () => {
    isAtHand = false;
    clearTimeout(box.rest);
    if (box.validity.badInput) {
      control.show(now);
      return;
    }
    if (box.value === '') {
      if (setting.left_out !== undefined) set(null); else put(now.number);
      return;
    }
    const value = scale.allowed(Number(box.value));
    put(value);
    set(value);
  });
  box.addEventListener('blur', () => {
    if (!isAtHand) return;
    isAtHand = false;
    control.show(now);
  });
  box.addEventListener('keydown', event => {
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
    event.preventDefault();
    isAtHand = true;
    const value = scale.nudge(box.value === '' ? scale.rest : Number(box.value), (event.key === 'ArrowUp' ? 1 : -1) * (event.shiftKey ? 10 : 1));
    put(value);
    tryOut(value);
    clearTimeout(box.rest);
    box.rest = setTimeout(() => {
      isAtHand = false;
      set(value);
    }, restMs);
  });
  const back = () => set(setting.default_number ?? null);
  // Two clicks into the number take hold of it, as everywhere.
  for (const each of [range, label]) if (!setting.is_required) each.addEventListener('dblclick', back);
  none.addEventListener('click', () => set(null));
  item.append(range, box, unit);
  if (setting.left_out !== undefined) item.append(none);
  const control = {
    item,
    show(next) {
      now = next;
      const isNone = next.number === undefined || next.number === null;
      none.disabled = isNone;
      box.placeholder = leftOut(next);
      item.classList.toggle('own', !isNone && next.number !== next.default_number);
      // What a hand is at is left to it.
      if (isAtHand || document.activeElement === range && range.matches(':active')) return;
      if (isNone) {
        box.value = '';
        range.value = String(scale.toTick(scale.rest));
        range.setAttribute('aria-valuetext', leftOut(next) || 'off');
      } else {
        put(next.number);
      }
    },
  };
  return control;
}

// What holds while nothing is set, with other settings named as they stand on the page.
const leftOut = setting => (setting.left_out ?? '').replace(/\b[a-z]+(_[a-z]+)+\b/g, key => nameOf({ key }));

// How a hand's way goes over the range: frequencies by octaves, times and ratios finer where they are short, levels evenly.
function scaleOf(setting) {
  const [least, most] = [setting.least, setting.most];
  const round = value => {
    if (setting.is_whole) return Math.round(value);
    const digits = setting.unit === 'dB' ? 1 : Math.max(0, 2 - Math.floor(Math.log10(Math.max(1e-3, Math.abs(value)))));
    return Number(value.toFixed(Math.min(3, digits)));
  };
  const allowed = value => Number.isFinite(value) ? Math.min(most, Math.max(least, value)) : least;
  // Where a hand begins while nothing is set: what goes both ways, such as a pan, begins in the middle.
  const rest = least === -most ? 0 : least;
  if (setting.steps) {
    const nearest = value => setting.steps.reduce((a, b) => Math.abs(b - value) < Math.abs(a - value) ? b : a);
    return {
      rest,
      ticks: setting.steps.length - 1,
      toTick: value => setting.steps.indexOf(nearest(value)),
      fromTick: tick => setting.steps[tick],
      allowed: nearest,
      nudge: (value, by) => setting.steps[Math.min(setting.steps.length - 1, Math.max(0, setting.steps.indexOf(nearest(value)) + Math.sign(by)))],
    };
  }
  const isLog = setting.unit === 'Hz' && least > 0;
  const bend = isLog ? 1 : ['ms', 's', ''].includes(setting.unit ?? '') && least >= 0 && most / Math.max(least, .01) > 50 ? 3 : 1;
  const from = part => isLog ? least * Math.pow(most / least, part) : least + (most - least) * Math.pow(part, bend);
  const to = value => isLog ? Math.log(value / least) / Math.log(most / least) : Math.pow((value - least) / (most - least), 1 / bend);
  return {
    rest,
    ticks,
    toTick: value => Math.round(ticks * to(allowed(value))),
    fromTick: tick => allowed(round(from(tick / ticks))),
    allowed,
    nudge: (value, by) => allowed(round(isLog ? value * Math.pow(2, by / 24) : value + by * (setting.unit === 'dB' ? .1 : setting.is_whole || setting.unit === '%' ? 1 : Math.max(.01, Math.abs(value) / 100)))),
  };
}
