// How each print moves from song to song.

document.documentElement.classList.remove('no-script');
const data = JSON.parse(byId('data').textContent);
const unit = data.against_rough ? 'LU against the rough' : 'LUFS';

function level(cell) {
  return cell === null ? null : data.against_rough ? cell.against_rough_lu : cell.loudness_lufs;
}

/** One line of dots for a print: each song's level less the middle of all. */
function moveFigure(print, most) {
  const values = print.songs.map(level);
  const known = values.filter(value => value !== null).sort((x, y) => x - y);
  const middle = known.length === 0 ? 0 : (known[Math.floor((known.length - 1) / 2)] + known[Math.ceil((known.length - 1) / 2)]) / 2;
  const room = byId('moves').clientWidth || 780;
  const width = Math.max(300, Math.min(780, room));
  const [height, left] = [104, 30];
  const words = `moves by ${number(print.move_lu)} LU`;
  const svg = picture(width, height, `${print.name} ${words}: ` + values.map((value, i) => `${data.songs[i]} ${value === null ? 'none' : number(value)}`).join(', '));
  const half = 30;
  const y = value => 42 - (value - middle) / most * half;
  shape(svg, 'line', { class: 'zero', x1: left, x2: width, y1: 42, y2: 42 });
  for (const edge of [-1, 1]) {
    shape(svg, 'line', { class: 'grid', x1: left, x2: width, y1: 42 - edge * half, y2: 42 - edge * half });
    shape(svg, 'text', { x: left - 6, y: 42 - edge * half + 4, 'text-anchor': 'end' }, signed(edge * most, 0));
  }
  const step = (width - left) / values.length;
  const x = i => left + (i + 0.5) * step;
  const points = values.map((value, i) => value === null ? null : `${x(i).toFixed(1)},${y(value).toFixed(1)}`).filter(point => point !== null);
  shape(svg, 'polyline', { class: 'trace a', points: points.join(' ') });
  values.forEach((value, i) => {
    shape(svg, 'text', { x: x(i), y: height - 6, 'text-anchor': 'middle' }, shorter(data.songs[i], step / 6.4));
    if (value === null) return;
    shape(svg, 'circle', { cx: x(i), cy: y(value), r: 4, class: 'bar' });
    shape(svg, 'text', { class: 'on-picture', x: x(i) + 8, y: y(value) + 4 }, number(value));
  });
  const figure = element('figure');
  figure.append(element('figcaption', `${print.name}: ${words}.`), svg);
  return figure;
}

function shorter(name, characters) {
  return name.length <= characters ? name : name.slice(0, Math.max(1, Math.floor(characters) - 1)) + '…';
}

// A line that does not move has nothing to show.
function drawMoves() {
  const moving = data.prints.filter(print => print.move_lu !== null && print.move_lu >= 0.1).sort((x, y) => y.move_lu - x.move_lu);
  const still = data.prints.filter(print => print.move_lu !== null && print.move_lu < 0.1);
  const alone = data.prints.filter(print => print.move_lu === null);
  const most = Math.max(1, Math.ceil(Math.max(0, ...data.prints.map(print => print.move_lu ?? 0))));
  byId('moves-words').textContent = moving.length === 0 ? '' : `Each dot is a song, with its level (${unit}); the line through the middle is the median, the scale is the same for all.`;
  byId('moves').replaceChildren(...moving.map(print => moveFigure(print, most)));
  byId('still').textContent = [
    still.length > 0 ? `Within 0.1 LU in every song: ${still.map(print => print.name).join(', ')}.` : '',
    alone.length > 0 ? `In one song only: ${alone.map(print => print.name).join(', ')}.` : '',
  ].filter(Boolean).join(' ');
}

function drawTable() {
  const metric = byId('metric').value;
  const value = cell => metric === 'level' ? level(cell) : cell?.[metric] ?? null;
  const digits = metric === 'correlation' ? 2 : 1;
  fillTable(byId('table'), ['Print', ...data.songs, 'Moves by'], data.prints.map(print => {
    const values = print.songs.map(value).filter(each => each !== null);
    const move = values.length < 2 ? '' : number(Math.max(...values) - Math.min(...values), digits);
    return [`${String(print.number).padStart(2, '0')} ${print.name}`, ...print.songs.map(cell => cell === null ? 'none' : number(value(cell), digits)), move];
  }));
}

// One sound for each song, through the same way to the ears as a comparison's.
let context = null;
let audition = null;
let heard = 0;
let isPlaying = false;
const sounds = data.audio.map(() => null);

function soundOf(song) {
  const audio = data.audio[song];
  sounds[song] ??= decodeSide(byId(`audio-${song}-side`).textContent, audio.side.channels, audio.frames, audio.side.scale);
  return joinSides(context, sounds[song], sounds[song], audio.rate_hz, 0, audio.frames, Math.round(switchSeconds * audio.rate_hz));
}

function play() {
  if (!context) {
    context = new AudioContext();
    audition = createAudition(context);
    setVolume();
  }
  context.resume();
  const time = context.currentTime + 0.01;
  audition.weigh(gainOf(data.audio[heard].gain_db), 0, time);
  audition.play(soundOf(heard), 0, time);
}

function setVolume() {
  const db = Number(byId('volume').value);
  byId('volume-out').textContent = db <= -60 ? 'off' : `${number(db, 0)} dB`;
  audition?.volume(db <= -60 ? 0 : gainOf(db), context.currentTime);
}

function drawListening() {
  byId('listen').setAttribute('aria-pressed', String(isPlaying));
  byId('listen').textContent = isPlaying ? 'Stop' : 'Listen';
  [...byId('choices').children].forEach((button, song) => button.setAttribute('aria-pressed', String(song === heard)));
}

byId('choices').replaceChildren(...data.songs.map((name, song) => {
  const button = element('button', name, { type: 'button', class: 'side s' });
  button.addEventListener('click', () => {
    heard = song;
    if (isPlaying) play();
    drawListening();
  });
  return button;
}));
byId('listen').addEventListener('click', () => {
  isPlaying = !isPlaying;
  if (isPlaying) play();
  else audition.stop(context.currentTime);
  drawListening();
});
// Browsers may put back what was set before; listening starts quietly every time.
byId('volume').value = -20;
byId('volume').addEventListener('input', setVolume);
setVolume();
drawListening();

byId('metric').options[0].textContent = unit;
byId('metric').addEventListener('change', drawTable);
byId('notes').replaceChildren(...data.notes.map(text => element('li', text)));
drawTable();
drawMoves();
let resizing = 0;
window.addEventListener('resize', () => { clearTimeout(resizing); resizing = setTimeout(drawMoves, 150); });
document.documentElement.dataset.ready = String(Math.round(performance.now()));
