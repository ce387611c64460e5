// Both waveforms, one over the other, with the place that is heard and the stretch that is repeated.

function colour(name) {
  return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}

function fitCanvas(canvas) {
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

function createWaveform(canvas, sides, desk, player, clock) {
  const picture = document.createElement('canvas');
  let from = null;
  let dragged = null;

  function drawPicture() {
    const { width, height } = fitCanvas(canvas);
    picture.width = width;
    picture.height = height;
    const pen = picture.getContext('2d');
    const gains = desk.gains();
    const lane = height / 2;
    const top = Math.max(1e-9, desk.peaks[0] * gains[0], desk.peaks[1] * gains[1]);
    for (const [i, side] of [sides.a, sides.b].entries()) {
      const middle = lane * (i + 0.5);
      pen.fillStyle = colour(i === 0 ? '--a' : '--b');
      for (let x = 0; x < width; x++) {
        const start = Math.floor(x * player.frames / width);
        const end = Math.max(start + 1, Math.floor((x + 1) * player.frames / width));
        let [low, high] = [0, 0];
        for (const channel of side) {
          for (let n = start; n < end; n++) {
            const sample = channel[n];
            if (sample < low) low = sample;
            if (sample > high) high = sample;
          }
        }
        const scale = gains[i] / top * lane * 0.47;
        pen.fillRect(x, middle - high * scale, 1, Math.max(1, (high - low) * scale));
      }
    }
  }

  function draw() {
    const { width, height, ratio } = fitCanvas(canvas);
    if (picture.width !== width || picture.height !== height) drawPicture();
    const pen = canvas.getContext('2d');
    pen.clearRect(0, 0, width, height);
    pen.drawImage(picture, 0, 0);
    drawBars(pen, width, height, ratio);
    const { from: start, to: end } = dragged ?? player.loop;
    const [left, right] = [start / player.frames * width, end / player.frames * width];
    pen.fillStyle = colour('--paper');
    pen.globalAlpha = 0.72;
    pen.fillRect(0, 0, left, height);
    pen.fillRect(right, 0, width - right, height);
    pen.globalAlpha = 1;
    pen.fillStyle = colour('--ink');
    if (start > 0 || end < player.frames) {
      pen.fillRect(left, 0, ratio, height);
      pen.fillRect(right - ratio, 0, ratio, height);
    }
    pen.fillRect(player.position() / player.frames * width - ratio, 0, 2 * ratio, height);
    pen.font = `${13 * ratio}px Georgia, serif`;
    pen.fillStyle = colour('--a');
    pen.fillText('A', 2 * ratio, 14 * ratio);
    pen.fillStyle = colour('--b');
    pen.fillText('B', 2 * ratio, height / 2 + 14 * ratio);
  }

  // Bars as thin lines, sections by name.
  function drawBars(pen, width, height, ratio) {
    const x = at => (at - clock.from) / clock.seconds * width;
    pen.fillStyle = colour('--edge');
    pen.globalAlpha = 0.5;
    for (const bar of clock.bars) pen.fillRect(x(bar.at_s), 0, ratio, height);
    pen.globalAlpha = 1;
    pen.font = `${11 * ratio}px system-ui, sans-serif`;
    pen.fillStyle = colour('--ink');
    let free = 16 * ratio;
    for (const section of clock.sections) {
      const left = Math.max(x(section.at_s) + 3 * ratio, 16 * ratio);
      if (left < free || left > width - 20 * ratio) continue;
      pen.fillText(section.name, left, 11 * ratio);
      free = left + pen.measureText(section.name).width + 8 * ratio;
    }
  }

  function frameAt(event) {
    const box = canvas.getBoundingClientRect();
    return Math.min(1, Math.max(0, (event.clientX - box.left) / box.width)) * player.frames;
  }

  canvas.addEventListener('pointerdown', event => {
    from = { x: event.clientX, frame: frameAt(event) };
    canvas.setPointerCapture(event.pointerId);
  });
  canvas.addEventListener('pointermove', event => {
    if (!from || Math.abs(event.clientX - from.x) <= 8) return;
    const frame = frameAt(event);
    dragged = { from: Math.min(from.frame, frame), to: Math.max(from.frame, frame) };
    draw();
    canvas.dispatchEvent(new CustomEvent('loopdrag', { detail: dragged }));
  });
  canvas.addEventListener('pointerup', event => {
    if (!from) return;
    dragged = null;
    if (Math.abs(event.clientX - from.x) > 8) {
      player.repeat(from.frame, frameAt(event));
    } else {
      const frame = frameAt(event);
      if (frame < player.loop.from || frame >= player.loop.to) player.repeat(0, player.frames);
      player.move(frame);
    }
    from = null;
    canvas.dispatchEvent(new CustomEvent('loopchange'));
  });
  canvas.addEventListener('pointercancel', () => { from = dragged = null; canvas.dispatchEvent(new CustomEvent('loopchange')); });
  return { draw, drawPicture };
}
