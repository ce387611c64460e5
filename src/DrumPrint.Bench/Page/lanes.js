// What the open bus does over the song: how far each processor turns down, when a gate is open, and the hits it loses.

import { byId, colour, element, fitCanvas, number } from './words.js';
import { drawPeaks } from './strips.js';

// Decibels that the lower edge can stand for.
const scales = [1, 3, 6, 12, 24, 48, 64];
const stepsPerDb = 4;
const runUpS = .1;
const nearPx = 9;

export function createLanes(act) {
  let outline = null;
  let isOld = false;
  let problem = null;
  let part = 0;
  let lanes = [];
  let shown = '';

  const clock = time => act.words(time).replace(/ · [^·]*s$/, '');

  function take(message) {
    isOld = Boolean(message.is_old);
    problem = message.problem ?? null;
    part = 0;
    if (!isOld || Object.keys(message.columns).length > 0) outline = { lines: message.lines, has: Object.keys(message.columns).length > 0 };
  }

  function show(state, bus) {
    const name = bus === '' ? 'the drum bus' : bus;
    const lines = (outline?.lines ?? []).filter(line => line.bus === bus);
    byId('lanes-title').textContent = `What ${name} does over the song`;
    byId('lanes').classList.toggle('old', isOld);
    const words = wordsOf(state, bus, lines);
    if (byId('lanes-words').textContent !== words) byId('lanes-words').textContent = words;
    const next = JSON.stringify([bus, lines.map(line => [line.name, line.most_db, line.most_at_s, line.gate?.open.length, line.gate?.lost.length]), state.frames]);
    if (next !== shown) {
      shown = next;
      lanes = lines.map(line => make(line));
      byId('lanes-list').replaceChildren(...lanes.map(lane => lane.item));
    }
    lanes.forEach((lane, i) => { lane.line = lines[i]; paint(lane, state, bus); });
  }

  function wordsOf(state, bus, lines) {
    if (problem) return `${outline?.has ? 'This is from before the last change. ' : ''}It could not be drawn: ${problem}`;
    const far = part > 0 ? ` ${number(part * 100, 0)} %${act.isPlaying?.() ? ' (faster when stopped)' : ''}` : '';
    if (!outline?.has) return `Being drawn …${far}`;
    const heard = state.heard === undefined || state.heard === null ? '' : ' It is that of the chain as it is, not of the state you hear.';
    if (isOld && lines.length > 0) return `This is from before the last change; it is being drawn again …${far}${heard}`;
    const isMade = bus === '' || isInPrint(state, bus);
    if (lines.length === 0) return (isMade ? 'Nothing in it moves the gain.' : 'It is in no print, so it is not run.') + heard;
    const prints = act.waves(bus).length;
    const pale = prints === 0 ? '' : `Pale: ${prints === 1 ? 'its print' : 'its prints'}. `;
    const curve = lines.every(line => line.gate) ? '' : 'The deeper the curve hangs, the more is turned down. ';
    return `${pale}${curve}Click to go there.${heard}`;
  }

  /** How far the picture that is being made is. */
  function drawing(done) { part = done; }

  function isInPrint(state, bus) {
    const reached = new Set();
    const open = state.prints.map(print => print.bus);
    while (open.length > 0) {
      const name = open.pop();
      const next = state.buses.find(each => each.name === name);
      if (!next || reached.has(name)) continue;
      reached.add(name);
      open.push(...next.feeds.filter(feed => !feed.is_off).map(feed => feed.source), ...next.stages.filter(stage => !stage.is_off).map(stage => stage.key).filter(Boolean));
    }
    return reached.has(bus);
  }

  // ---- One processor -----------------------------------------------------------------------------------------------

  function make(line) {
    const item = element('div', undefined, { class: line.gate ? 'lane gate' : 'lane' });
    const head = element('div', undefined, { class: 'tells' });
    head.append(element('h3', line.name), element('p', line.gate ? gateWords(line) : gainWords(line)));
    const ground = element('div', undefined, { class: 'ground' });
    const canvas = element('canvas', undefined, { role: 'img', 'aria-label': line.gate ? `When ${line.name} is open over the song` : `How far ${line.name} turns down over the song; the lower edge is ${scaleOf(line)} dB down` });
    const here = element('i', undefined, { class: 'here' });
    ground.append(canvas, here);
    item.append(head, ground);
    const lane = { item, canvas, here, line, out: null };
    if (line.gate?.lost.length > 0) item.append(lostLine(lane));
    canvas.addEventListener('click', event => {
      const near = lostNear(lane, event);
      if (near >= 0) goToLost(lane, near);
      else act.move(partOf(canvas, event) * act.seconds());
    });
    canvas.addEventListener('pointermove', event => {
      const near = lostNear(lane, event);
      canvas.title = near >= 0 ? lostWords(lane, near) : '';
      canvas.style.cursor = near >= 0 ? 'pointer' : '';
    });
    return lane;
  }

  function gainWords(line) {
    if (line.most_db < .05) return 'Never turns down.';
    return `Turns down by ${number(line.most_db)} dB at most, at ${clock(line.most_at_s)}.`;
  }

  function gateWords({ gate }) {
    const times = gate.open.length / 2;
    const part = number(gate.open_s / act.seconds() * 100, 0);
    const opens = times === 0 ? 'Never opens.' : `Opens ${times === 1 ? 'once' : `${times} times`} and is open ${part} % of the song (filled).`;
    if (gate.hits === undefined || gate.hits === null) return `${opens} Hits are not counted: ${gate.not_counted}.`;
    if (gate.lost.length === 0) return `${opens} ${gate.hits === 0 ? 'No hit comes to it.' : `None of ${gate.hits} hits is lost.`}`;
    return `${opens} ${gate.lost.length} of ${gate.hits} hits ${gate.lost.length === 1 ? 'is' : 'are'} lost (marked): ${gate.lost.length === 1 ? 'it comes' : 'they come'} out over 12 dB softer.`;
  }

  function lostLine(lane) {
    const row = element('div', undefined, { class: 'lost' });
    const back = element('button', 'Previous lost hit', { type: 'button', 'aria-label': `Previous lost hit, ${lane.line.name}` });
    const on = element('button', 'Next lost hit', { type: 'button', 'aria-label': `Next lost hit, ${lane.line.name}` });
    lane.out = element('output');
    back.addEventListener('click', () => step(lane, -1));
    on.addEventListener('click', () => step(lane, 1));
    row.append(back, on, lane.out);
    return row;
  }

  // From where it plays; at the last one it goes on with the first.
  function step(lane, by) {
    const places = lane.line.gate.lost.map(hit => Math.max(0, hit.at_s - runUpS));
    const next = by > 0 ? places.findIndex(place => place > act.now() + .03) : places.findLastIndex(place => place < act.now() - .03);
    goToLost(lane, next >= 0 ? next : by > 0 ? 0 : places.length - 1);
  }

  function goToLost(lane, index) {
    act.move(Math.max(0, lane.line.gate.lost[index].at_s - runUpS));
    lane.out.textContent = lostWords(lane, index);
  }

  function lostWords({ line }, index) {
    const hit = line.gate.lost[index];
    return `Lost hit ${index + 1} of ${line.gate.lost.length}: ${clock(hit.at_s)}, peak ${number(hit.peak_db)} dBFS before the gate.`;
  }

  function lostNear({ line, canvas }, event) {
    const { width } = canvas.getBoundingClientRect();
    const x = partOf(canvas, event) * width;
    let best = -1;
    let least = nearPx;
    for (const [i, hit] of (line.gate?.lost ?? []).entries()) {
      const distance = Math.abs(hit.at_s / act.seconds() * width - x);
      if (distance < least) [best, least] = [i, distance];
    }
    return best;
  }

  function partOf(canvas, event) {
    const box = canvas.getBoundingClientRect();
    return Math.min(1, Math.max(0, (event.clientX - box.left) / box.width));
  }

  // ---- Pictures ----------------------------------------------------------------------------------------------------

  const scaleOf = line => scales.find(db => db >= line.most_db) ?? scales.at(-1);

  function paint(lane, state, bus) {
    const { width, height, ratio } = fitCanvas(lane.canvas);
    const pen = lane.canvas.getContext('2d');
    pen.clearRect(0, 0, width, height);
    pen.fillStyle = colour('--line');
    pen.globalAlpha = .55;
    for (const wave of act.waves(bus)) drawPeaks(pen, wave, 0, width, height);
    pen.globalAlpha = 1;
    for (const section of state.sections) pen.fillRect(section.at_s / act.seconds() * width, 0, ratio, height);
    if (lane.line.gate) paintGate(pen, width, height, ratio, lane.line.gate);
    else paintGain(pen, width, height, ratio, lane.line);
  }

  function paintGain(pen, width, height, ratio, line) {
    const steps = Uint8Array.from(atob(line.columns), c => c.charCodeAt(0));
    const depth = (height - 2 * ratio) / scaleOf(line) / stepsPerDb;
    const at = x => {
      const first = Math.floor(x * steps.length / width);
      const end = Math.max(first + 1, Math.floor((x + 1) * steps.length / width));
      let most = 0;
      for (let i = first; i < end; i++) most = Math.max(most, steps[i]);
      return most * depth;
    };
    pen.beginPath();
    pen.moveTo(0, 0);
    for (let x = 0; x < width; x++) pen.lineTo(x + .5, at(x));
    pen.strokeStyle = colour('--a');
    pen.lineWidth = 1.3 * ratio;
    pen.lineJoin = 'round';
    pen.stroke();
    pen.lineTo(width, 0);
    pen.closePath();
    pen.fillStyle = colour('--a');
    pen.globalAlpha = .22;
    pen.fill();
    pen.globalAlpha = 1;
    // What the lower edge stands for.
    pen.font = `${11 * ratio}px system-ui, sans-serif`;
    pen.lineWidth = 3 * ratio;
    pen.strokeStyle = colour('--paper');
    pen.fillStyle = colour('--ink');
    for (const draw of ['strokeText', 'fillText']) pen[draw](`−${scaleOf(line)} dB`, 3 * ratio, height - 4 * ratio);
  }

  // Open above, lost below: a mark stands where the band has a hole.
  function paintGate(pen, width, height, ratio, gate) {
    const x = time => time / act.seconds() * width;
    const foot = height * .62;
    pen.fillStyle = colour('--d');
    for (let i = 0; i < gate.open.length; i += 2) pen.fillRect(x(gate.open[i]), 0, Math.max(ratio, x(gate.open[i + 1]) - x(gate.open[i])), foot);
    pen.fillRect(0, foot, width, ratio);
    pen.fillStyle = colour('--b');
    gate.lost.forEach((hit, i) => {
      // Where many stand together each is narrower.
      const middle = x(hit.at_s);
      const room = Math.min(middle - x(gate.lost[i - 1]?.at_s ?? -1e9), x(gate.lost[i + 1]?.at_s ?? 1e9) - middle);
      const half = Math.max(1.2 * ratio, Math.min(4.5 * ratio, room * .4));
      pen.beginPath();
      pen.moveTo(middle, foot + 2 * ratio);
      pen.lineTo(middle - half, height);
      pen.lineTo(middle + half, height);
      pen.fill();
    });
  }

  return {
    show,
    take,
    drawing,

    /** Where it plays, as a part of the song. */
    place(part) { for (const lane of lanes) lane.here.style.left = `${part * 100}%`; },
  };
}
