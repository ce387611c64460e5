// Measures the bench in a headless Chromium: node benchmarks/measure-bench.js ADDRESS [CHANGES] [SECONDS] [PROCESS] [EDITS]
// ADDRESS is what drumprint bench --no-browser shows; the browser's driver is the one that the page tests bring.
const { chromium } = require('../artifacts/bin/DrumPrint.Page.Tests/release/.playwright/package');
const part = (list, p) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.ceil(list.length * p) - 1)];
(async () => {
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', headless: true, args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'] });
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 1000 } })).newPage();
  page.on('console', m => console.log('console', m.type(), m.text(), m.location().url));
  page.on('pageerror', e => console.log('error', e.message));
  await page.goto(process.argv[2]);
  await page.waitForSelector('html[data-ready]', { timeout: 20000, state: 'attached' });
  await page.click('#play'); await page.waitForTimeout(1500); await page.click('#play');
  // play to sound, at ten bars
  const plays = [];
  for (let i = 0; i < 10; i++) {
    await page.evaluate(i => { bench.player.move(bench.state.bars[5 + i * 8].at_s * bench.state.rate_hz); }, i);
    await page.waitForTimeout(700);
    await page.evaluate(() => { window.heard = new Promise(done => { const off = bench.player.on('first', d => { if (d.isBegin) done(d.time); }); }); window.before = null;
      document.getElementById('play').addEventListener('click', () => { window.before ??= performance.now(); window.beforeAudio = bench.player.context.currentTime; }, { capture: true, once: true }); });
    await page.click('#play');
    const ms = await page.evaluate(async () => { const t = await window.heard; const s = performance.now(); return { wall: s - window.before, audio: (t - window.beforeAudio) * 1000 }; });
    plays.push(ms.wall);
    await page.click('#play'); await page.waitForTimeout(200);
  }
  console.log('play to sound ms', plays.map(x => x.toFixed(0)).join(' '), 'median', part(plays, .5).toFixed(0), 'most', Math.max(...plays).toFixed(0));
  // play from a bar directly: seek and play at once
  const jumps = [];
  for (let i = 0; i < 10; i++) {
    const ms = await page.evaluate(async i => {
      const heard = new Promise(done => bench.player.on('first', d => { if (d.isBegin) done(); }));
      const before = performance.now();
      bench.player.play(bench.state.bars[9 + i * 7].at_s * bench.state.rate_hz);
      await heard; return performance.now() - before; }, i);
    jumps.push(ms); await page.waitForTimeout(400);
  }
  console.log('jump to sound ms', jumps.map(x => x.toFixed(0)).join(' '), 'median', part(jumps, .5).toFixed(0), 'most', Math.max(...jumps).toFixed(0));
  // changes at bar 60
  await page.evaluate(() => bench.player.play(bench.state.bars[59].at_s * bench.state.rate_hz));
  await page.waitForTimeout(1500);
  const starvedBefore = await page.evaluate(() => bench.player.starved);
  const times = await page.evaluate(async count => {
    const all = [];
    for (const bus of bench.state.buses) {
      for (const f of bus.feeds) for (const s of f.settings) if (s.kind === 'number' && s.number != null) all.push([f.place, s]);
      for (const st of bus.stages) { for (const s of st.settings) if (s.kind === 'number' && s.number != null) all.push([st.place, s]);
        for (const b of st.bands) for (const s of b.settings) if (s.kind === 'number' && s.number != null) all.push([b.place, s]); }
    }
    let seed = 15; const chance = n => { seed = (seed * 1103515245 + 12345) % 2147483648; return Math.floor(seed / 2147483648 * n); };
    const firsts = new Map(); const waiting = new Map();
    bench.player.on('first', d => { firsts.set(d.version, [d.time, performance.now()]); });
    const answers = new Map();
    bench.talk.on('changed', m => answers.set(m.id, m));
    bench.talk.on('refused', m => answers.set(m.id, { refused: m.text }));
    const out = [];
    while (out.length < count) {
      const [place, s] = all[chance(all.length)];
      const number = s.steps ? s.steps[chance(s.steps.length)] : Math.min(s.most, Math.max(s.least, s.number * (0.8 + chance(40) / 100) + (s.unit === 'dB' ? 1 : 0)));
      if (number === s.number) continue;
      const before = [bench.player.context.currentTime, performance.now()];
      const id = bench.talk.say({ kind: 'try', values: [{ place, key: s.key, number }] });
      while (!answers.has(id)) await new Promise(r => setTimeout(r, 2));
      const a = answers.get(id);
      if (a.refused) continue;
      for (let n = 0; n < 500 && !firsts.has(a.version); n++) await new Promise(r => setTimeout(r, 2));
      const f = firsts.get(a.version);
      if (f) out.push({ what: place.join('/') + '/' + s.key, audio: (f[0] - before[0]) * 1000, wall: f[1] - before[1], engine: a.ms });
      await new Promise(r => setTimeout(r, 150 + chance(200)));
    }
    return out;
  }, Number(process.argv[3] ?? 60));
  for (const t of [...times].sort((a, b) => b.audio - a.audio).slice(0, 8)) console.log('  slow', t.what, t.audio.toFixed(0), t.engine);
  console.log('change to first changed frame ms: median', part(times.map(t => t.audio), .5).toFixed(0), '95 %', part(times.map(t => t.audio), .95).toFixed(0), '| wall', part(times.map(t => t.wall), .5).toFixed(0), part(times.map(t => t.wall), .95).toFixed(0), '| engine', part(times.map(t => t.engine), .5).toFixed(0), part(times.map(t => t.engine), .95).toFixed(0));
  console.log('starved frames while changing', await page.evaluate(b => bench.player.starved - b, starvedBefore), 'output latency ms', await page.evaluate(() => [bench.player.context.baseLatency * 1000, bench.player.context.outputLatency * 1000]));
  // long play
  const seconds = Number(process.argv[4] ?? 0);
  if (seconds > 0) {
    await page.evaluate(() => { bench.talk.say({ kind: 'back' }); const b = bench.state.bars; bench.talk.say({ kind: 'repeat', frame: Math.round(b[20].at_s * bench.state.rate_hz), to: Math.round(b[70].at_s * bench.state.rate_hz) }); bench.player.play(b[20].at_s * bench.state.rate_hz); });
    const fs = require('fs'); const pid = process.argv[5];
    const memory = () => pid ? Number(/VmRSS:\s+(\d+)/.exec(fs.readFileSync(`/proc/${pid}/status`, 'utf8'))[1]) / 1024 : 0;
    const cpu = () => pid ? fs.readFileSync(`/proc/${pid}/stat`, 'utf8').split(' ').slice(13, 15).reduce((a, b) => a + Number(b), 0) / 100 : 0;
    await page.waitForTimeout(3000);
    const s0 = await page.evaluate(() => bench.player.starved);
    const c0 = cpu();
    await page.waitForTimeout(20000);
    console.log('while nothing changes: cores', ((cpu() - c0) / 20).toFixed(2), 'starved', await page.evaluate(b => bench.player.starved - b, s0));
    const m0 = memory(); const s1 = await page.evaluate(() => bench.player.starved);
    const log = [];
    let seen = 0;
    for (let n = 0; n < seconds; n++) {
      await page.evaluate(n => { const bus = bench.state.buses[n % bench.state.buses.length]; const f = bus.feeds[0]; bench.talk.say({ kind: 'try', values: [{ place: f.place, key: 'level_db', number: -3 - (n % 7) }] }); }, n);
      await page.waitForTimeout(1000);
      const now = await page.evaluate(b => [bench.player.starved - b, bench.player.frame / bench.state.rate_hz], s1);
      if (now[0] > seen) console.log(`  starved ${now[0] - seen} in second ${n}, at ${now[1].toFixed(1)} s of the song, ${memory().toFixed(0)} MB`);
      seen = now[0];
      if (n % 60 === 59 || n === seconds - 1) log.push(`${memory().toFixed(0)} MB, ${await page.evaluate(b => bench.player.starved - b, s1)} starved`);
    }
    console.log('begin', m0.toFixed(0), 'MB;', log.join('; '));
  }
  // edits written through the page, and all of them taken back: the file is then to be byte for byte what it was
  const edits = Number(process.argv[6] ?? 0);
  if (edits > 0) {
    const begun = Date.now();
    await page.evaluate(() => bench.player.stop());
    const counts = await page.evaluate(async count => {
      bench.talk.say({ kind: 'allow' });
      while (!bench.state.may_write) await new Promise(wait => setTimeout(wait, 20));
      let seed = 7; const chance = n => { seed = (seed * 1103515245 + 12345) % 2147483648; return Math.floor(seed / 2147483648 * n); };
      const refused = new Set(); bench.talk.on('refused', m => refused.add(m.id));
      const answer = async say => { const before = bench.state; const id = say(); while (bench.state === before) await new Promise(wait => setTimeout(wait, 2)); return !refused.has(id); };
      let written = 0; let tries = 0; let undone = 0;
      while (written < count) {
        const all = [];
        for (const bus of bench.state.buses) {
          for (const f of bus.feeds) for (const s of f.settings) all.push([f.place, s]);
          for (const st of bus.stages) { for (const s of st.settings) if (s.kind !== 'impulse') all.push([st.place, s]); for (const b of st.bands) for (const s of b.settings) all.push([b.place, s]); }
        }
        const [place, s] = all[chance(all.length)];
        const value = s.kind === 'number' ? { number: s.steps ? s.steps[chance(s.steps.length)] : Math.round((s.least + (s.most - s.least) * chance(1000) / 1000) * 100) / 100 } : s.kind === 'toggle' ? { is_on: chance(2) === 1 } : { word: s.choices[chance(s.choices.length)].word };
        tries++;
        const long = bench.state.history.length;
        if (await answer(() => bench.talk.set([{ place, key: s.key, ...value }])) && bench.state.history.length > long) written++;
      }
      while (bench.state.next_undo.length > 0) { await answer(() => bench.talk.say({ kind: 'undo' })); undone++; }
      return { tries, written, undone };
    }, edits);
    console.log('edits through the page', JSON.stringify(counts), ((Date.now() - begun) / 1000).toFixed(0), 's');
  }
  await browser.close();
})().catch(e => { console.log(e); process.exit(1); });
