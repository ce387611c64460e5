// Puts the page together.

document.documentElement.classList.remove('no-script');
const data = JSON.parse(byId('data').textContent);
const rate = data.rate_hz;
const clock = createClock({ from_s: 0, bars: data.bars, sections: data.sections }, data.frames / rate);
const isRough = file => file.kind === 'rough' || file.kind === 'rough_with_bus';
const strips = data.files.filter(file => !isRough(file));
const roughs = data.files.filter(isRough);
const state = data.files.map(file => ({ db: 0, isMuted: file.kind !== 'playing', isSolo: false }));
const views = new Map();
let stream = null;
let heard = 'files';
let isMatched = true;

function loudest() {
  return Math.min(...roughs.map(file => file.lufs ?? Infinity));
}

// Matching lowers the louder one and raises none.
function roughGain(file) {
  return isMatched && file.lufs !== null && Number.isFinite(loudest()) ? gainOf(Math.min(0, loudest() - file.lufs)) : 1;
}

function isHeard(index) {
  const solos = state.some((each, i) => each.isSolo && !isRough(data.files[i]));
  return !state[index].isMuted && (!solos || state[index].isSolo);
}

function gains() {
  const rough = roughs.find(file => file.kind === 'rough');
  const own = rough ? roughGain(rough) : 1;
  return data.files.map((file, i) => {
    if (isRough(file)) return heard === file.kind ? roughGain(file) : 0;
    return heard === 'files' && isHeard(i) ? own * gainOf(state[i].db) : 0;
  });
}

function apply() {
  stream?.gains(gains());
  strips.forEach(file => drawStrip(file));
  const moved = strips.some(file => { const each = state[data.files.indexOf(file)]; return each.db !== 0 || each.isSolo || each.isMuted !== (file.kind !== 'playing'); });
  byId('unity-words').textContent = moved ? 'Faders were moved: this is no longer the rough.' : 'Every fader at 0: together the files are the rough.';
}

function decibels(db) {
  return db <= -60 ? 'off' : `${signed(db)} dB`;
}

function makeStrip(file) {
  const index = data.files.indexOf(file);
  const item = element('li', undefined, { class: 'strip', 'data-number': String(file.number) });
  const label = `${String(file.number).padStart(2, '0')} ${file.title}`;
  item.append(element(file.kind === 'playing' ? 'h3' : 'h4', label));
  const canvas = element('canvas', undefined, { role: 'img', 'aria-label': `Waveform of ${label}` });
  canvas.addEventListener('click', event => {
    const box = canvas.getBoundingClientRect();
    move((event.clientX - box.left) / box.width * data.frames);
  });
  const fader = element('input', undefined, { type: 'range', min: '-60', max: '6', step: '0.5', value: '0', autocomplete: 'off', 'aria-label': `Fader of ${label}` });
  const out = element('output', decibels(0));
  fader.addEventListener('input', () => {
    const db = Number(fader.value);
    state[index].db = db <= -60 ? -Infinity : db;
    apply();
  });
  fader.addEventListener('dblclick', () => { state[index].db = 0; apply(); });
  const box = element('span', undefined, { class: 'fader' });
  box.append(fader, out);
  const ways = element('span', undefined, { class: 'ways' });
  const mute = element('button', 'Mute', { type: 'button', 'aria-label': `Mute ${label}` });
  const solo = element('button', 'Solo', { type: 'button', 'aria-label': `Solo ${label}` });
  mute.addEventListener('click', () => { state[index].isMuted = !state[index].isMuted; apply(); });
  solo.addEventListener('click', () => { state[index].isSolo = !state[index].isSolo; hear('files'); });
  ways.append(mute, solo);
  item.append(canvas, box, ways, element('p', file.what, { class: 'what' }));
  views.set(file, { item, canvas, fader, out, mute, solo, wave: decodeOutline(file.outline) });
  (file.kind === 'playing' ? byId('strips') : byId('extras')).append(item);
}

function drawStrip(file) {
  const index = data.files.indexOf(file);
  const view = views.get(file);
  view.fader.value = String(Math.max(-60, state[index].db));
  view.fader.setAttribute('aria-valuetext', decibels(state[index].db));
  view.out.textContent = decibels(state[index].db);
  view.mute.setAttribute('aria-pressed', String(state[index].isMuted));
  view.solo.setAttribute('aria-pressed', String(state[index].isSolo));
  view.item.classList.toggle('unheard', heard !== 'files' || !isHeard(index));
}

function decodeOutline(text) {
  return Int8Array.from(atob(text), c => c.charCodeAt(0) << 24 >> 24);
}

function drawWave(file) {
  const { canvas, wave } = views.get(file);
  const { width, height, ratio } = fitCanvas(canvas);
  const pen = canvas.getContext('2d');
  const columns = wave.length / 2;
  const middle = height / 2;
  pen.clearRect(0, 0, width, height);
  pen.fillStyle = colour('--edge');
  for (const section of data.sections) pen.fillRect(section.at_s / clock.seconds * width, 0, ratio, height);
  pen.fillStyle = colour('--a');
  for (let x = 0; x < width; x++) {
    const from = Math.floor(x * columns / width);
    const to = Math.max(from + 1, Math.floor((x + 1) * columns / width));
    let low = 0, high = 0;
    for (let c = from; c < to; c++) {
      low = Math.min(low, wave[2 * c]);
      high = Math.max(high, wave[2 * c + 1]);
    }
    pen.fillRect(x, middle - high / 127 * middle, 1, Math.max(1, (high - low) / 127 * middle));
  }
  pen.fillStyle = colour('--ink');
  pen.fillRect((stream?.position ?? 0) / data.frames * width - ratio, 0, 2 * ratio, height);
}

function drawAll() {
  strips.forEach(drawWave);
}

function drawPosition() {
  const seconds = (stream?.position ?? 0) / rate;
  const words = clock.words(seconds);
  byId('position').value = seconds;
  byId('position').setAttribute('aria-valuetext', words);
  byId('position-out').textContent = words;
}

function drawListening() {
  byId('listen').setAttribute('aria-pressed', String(stream?.isPlaying ?? false));
  byId('listen').textContent = stream?.isPlaying ? 'Stop' : 'Listen';
}

let isDrawn = false;
function drawSoon() {
  if (isDrawn) return;
  isDrawn = true;
  requestAnimationFrame(() => { isDrawn = false; drawPosition(); drawAll(); });
}

function move(frame) {
  stream?.move(frame);
  drawSoon();
}

async function listen() {
  if (!stream) return;
  try {
    if (stream.isPlaying) stream.stop();
    else await stream.play();
  } catch {
    byId('found').className = 'bad';
    byId('found').textContent = 'This browser cannot play the files from here. Try another one, or open them in your own program.';
  }
  drawListening();
}

function hear(which) {
  if (which !== 'files' && !roughs.some(file => file.kind === which)) return;
  heard = which;
  for (const input of document.querySelectorAll('#heard input[type=radio]')) input.checked = input.value === which;
  apply();
}

// A bar back or on, where bars are known.
function stepBar(direction) {
  const at = (stream?.position ?? 0) / rate;
  const bars = data.bars.map(bar => bar.at_s);
  const next = direction > 0 ? bars.find(bar => bar > at + 0.01) : bars.findLast(bar => bar < at - 0.2);
  move((next ?? at + 2 * direction) * rate);
}

function makeChoices() {
  const words = { files: 'the files, by their faders', rough: 'the rough', rough_with_bus: 'the rough through the drum bus' };
  for (const which of ['files', ...roughs.map(file => file.kind)]) {
    const label = element('label', undefined);
    const input = element('input', undefined, { type: 'radio', name: 'heard', value: which, autocomplete: 'off' });
    input.checked = which === heard;
    input.addEventListener('change', () => hear(which));
    label.append(input, words[which]);
    byId('heard').append(label);
  }
  if (roughs.length === 2 && roughs.every(file => file.lufs !== null)) {
    const label = element('label', undefined);
    const input = element('input', undefined, { type: 'checkbox', id: 'match', autocomplete: 'off' });
    input.checked = isMatched;
    input.addEventListener('change', () => { isMatched = input.checked; apply(); });
    const apart = Math.abs(roughs[0].lufs - roughs[1].lufs);
    label.append(input, `as loud as each other (${number(apart)} dB apart; the louder is lowered)`);
    byId('heard').append(label);
  }
}

/** Takes the files that were chosen, and says what is missing. */
async function take(chosen) {
  // Of two files with one name the one further up counts.
  const depth = file => (file.webkitRelativePath ?? '').split('/').length;
  const byName = new Map([...chosen].sort((a, b) => depth(b) - depth(a)).map(file => [file.name, file]));
  stream?.close();
  stream = null;
  drawListening();
  const faults = [];
  const open = async name => {
    const own = byName.get(name);
    if (!own) { faults.push(`${name} is not there`); return null; }
    try {
      const wave = await openWave(own);
      if (wave.rate !== rate || wave.frames !== data.frames) { faults.push(`${name} is of another length or rate than was delivered`); return null; }
      return wave;
    } catch (error) {
      faults.push(`${name} ${error.message}`);
      return null;
    }
  };
  const waves = await Promise.all(data.files.map(async file => {
    const sides = await Promise.all([file.name, file.right].filter(Boolean).map(open));
    return sides.every(Boolean) ? { sides } : null;
  }));
  const count = waves.filter(Boolean).length;
  byId('found').className = faults.length === 0 ? '' : 'bad';
  byId('found').textContent = count === 0 ? 'None of the delivered files is among these. Choose the folder that holds this page.'
    : faults.length === 0 ? `All ${count} sound files are here.`
      : `${count} of ${data.files.length} sound files can be heard: ${faults.slice(0, 4).join('; ')}${faults.length > 4 ? `; and ${faults.length - 4} more` : ''}.`;
  byId('listen').disabled = count === 0;
  if (count === 0) return;
  stream = createStream(waves, rate, data.frames, byId('mixer').textContent, gainOf(Number(byId('volume').value)));
  stream.on('place', () => {
    document.documentElement.dataset.starved = String(stream?.starved ?? 0);
    drawSoon();
  });
  stream.on('end', drawListening);
  stream.on('fault', () => {
    drawListening();
    byId('found').className = 'bad';
    byId('found').textContent = 'A file can no longer be read. Was the folder moved? Choose it again.';
  });
  apply();
  verify(data.sums.map(sum => byName.get(sum.name)).filter(Boolean), byName);
}

let worker = null;
function verify(files, byName) {
  worker?.terminate();
  const url = URL.createObjectURL(new Blob([byId('sums').textContent], { type: 'text/javascript' }));
  worker = new Worker(url);
  const own = worker;
  URL.revokeObjectURL(url);
  const wrong = [];
  const line = byId('arrived');
  line.className = '';
  worker.onmessage = ({ data: message }) => {
    if (message.part !== undefined) {
      const words = `Checking every byte: ${Math.floor(100 * message.part)} %`;
      const goOn = () => {
        const isWaiting = stream?.isHungry ?? false;
        line.textContent = isWaiting ? `${words}; it waits while the sound needs the disk.` : `${words}.`;
        if (isWaiting) setTimeout(goOn, 200);
        else own.postMessage('on');
      };
      goOn();
    } else if (message.isDone) {
      const missing = data.sums.filter(sum => !byName.has(sum.name)).map(sum => sum.name);
      const isWhole = wrong.length === 0 && missing.length === 0;
      line.className = isWhole ? 'good' : wrong.length > 0 ? 'bad' : '';
      line.textContent = isWhole ? `All ${files.length} files are as they were delivered, to the last byte.`
        : wrong.length > 0 ? `Not as delivered: ${wrong.join(', ')}. Ask for ${wrong.length === 1 ? 'it' : 'them'} again.`
          : `The ${files.length} files that were chosen are as they were delivered, to the last byte. Not among them: ${missing.slice(0, 5).join(', ')}${missing.length > 5 ? ` and ${missing.length - 5} more` : ''}.`;
    } else if (message.sum !== data.sums.find(sum => sum.name === message.name).sum) {
      wrong.push(message.name);
    }
  };
  worker.postMessage(files);
}

strips.forEach(makeStrip);
makeChoices();
byId('extras-box').hidden = byId('extras').childElementCount === 0;
byId('position').max = (data.frames / rate).toFixed(2);
byId('volume-out').textContent = `${number(Number(byId('volume').value), 0)} dB`;
byId('choose-folder').addEventListener('click', () => byId('folder').click());
byId('choose-files').addEventListener('click', () => byId('files').click());
for (const id of ['folder', 'files']) byId(id).addEventListener('change', event => { if (event.target.files.length > 0) take(event.target.files); });
byId('listen').addEventListener('click', listen);
byId('unity').addEventListener('click', () => {
  state.forEach((each, i) => Object.assign(each, { db: 0, isMuted: data.files[i].kind !== 'playing', isSolo: false }));
  hear('files');
});
byId('position').addEventListener('input', event => move(Number(event.target.value) * rate));
byId('volume').addEventListener('input', event => {
  const db = Number(event.target.value);
  byId('volume-out').textContent = db <= -60 ? 'off' : `${number(db, 0)} dB`;
  stream?.volume(db <= -60 ? 0 : gainOf(db));
});
listenToKeys({
  ' ': listen,
  Escape: () => { if (stream?.isPlaying) listen(); },
  ArrowLeft: () => stepBar(-1),
  ArrowRight: () => stepBar(1),
  1: () => hear('files'),
  2: () => hear('rough'),
  3: () => hear('rough_with_bus'),
});
addEventListener('resize', drawAll);
matchMedia('(prefers-color-scheme: dark)').addEventListener('change', drawAll);
apply();
drawPosition();
drawAll();
document.documentElement.dataset.ready = String(performance.now());
