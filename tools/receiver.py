#!/usr/bin/env python3
"""Drives the page of a delivered folder in an installed browser, with nothing but Python's own library.

    receiver.py firefox FOLDER [SECONDS]     by WebDriver BiDi (W3C), which Firefox speaks by itself: no driver program
    receiver.py chromium FOLDER [SECONDS]    by the DevTools protocol

It opens the page from file://, chooses the files, listens, and for SECONDS (60) presses solo and mute and jumps about. Then it holds what the
page gives to the loudspeakers against the rough, sample by sample: the files by their faders, and the rough a key press later. It says how
long the start took and what memory the browser's processes hold (PSS, of /proc). It ends with 1 when anything is out of step, and with 2 when the
machine was too busy to tell.

tools/browsers.py drives the browser. Firefox plays only where there is a sound device. Without one, give it one that nobody hears, with Debian's pulseaudio:
    pulseaudio --start --exit-idle-time=-1; pactl load-module module-null-sink
"""
import glob, json, os, random, sys, time

from browsers import Trouble, begin

TAP = r"""
(() => {
  const connect = AudioNode.prototype.connect;
  window.taken = [];
  window.isTaking = false;
  AudioNode.prototype.connect = function (to, ...rest) {
    if (to instanceof AudioDestinationNode && !window.hasTap) {
      window.hasTap = true;
      const source = `registerProcessor('tap', class extends AudioWorkletProcessor { process([input]) { if (input.length > 0) this.port.postMessage(input[0].slice()); return true; } });`;
      this.context.audioWorklet.addModule(`data:text/javascript,${encodeURIComponent(source)}`).then(() => {
        const tap = new AudioWorkletNode(this.context, 'tap', { numberOfOutputs: 0 });
        tap.port.onmessage = ({ data }) => { if (window.isTaking) window.taken.push(...data); };
        connect.call(this, tap);
      });
    }
    return connect.call(this, to, ...rest);
  };
})();
"""

# Where a stretch of what was heard stands in the rough, and what is left of it there, in dBFS with the volume taken out.
PLACE = r"""
(async () => {
  const data = JSON.parse(document.getElementById('data').textContent);
  const name = data.files.find(file => file.kind === 'rough').name;
  const file = [...document.getElementById('files').files].find(each => each.name === name);
  const view = new DataView(await file.arrayBuffer());
  const text = at => String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));
  let format = null, from = 0, bytes = 0;
  for (let at = 12; at + 8 <= view.byteLength && !bytes;) {
    const length = view.getUint32(at + 4, true);
    if (text(at) === 'fmt ') format = { channels: view.getUint16(at + 10, true), frame: view.getUint16(at + 20, true), bits: view.getUint16(at + 22, true) };
    if (text(at) === 'data') [from, bytes] = [at + 8, length];
    at += 8 + length + length % 2;
  }
  if (format.bits !== 24) throw new Error('this check reads 24-bit roughs');
  const rough = new Float32Array(bytes / format.frame);
  for (let n = 0, at = from; n < rough.length; n++, at += format.frame) rough[n] = (view.getUint8(at) | view.getUint8(at + 1) << 8 | view.getInt8(at + 2) << 16) / 8388608;
  const gain = Math.pow(10, Number(document.getElementById('volume').value) / 20);
  const place = heard => {
    let best = 0, least = Infinity;
    for (let at = 0; at + heard.length <= rough.length; at++) {
      let apart = 0;
      for (let n = 0; n < 400 && apart < least; n++) apart += Math.abs(heard[n] - gain * rough[at + n]);
      if (apart < least) [best, least] = [at, apart];
    }
    let left = 0;
    heard.forEach((sample, n) => { left = Math.max(left, Math.abs(sample / gain - rough[best + n])); });
    return { frame: best, left_db: 20 * Math.log10(Math.max(left, 1e-12)) };
  };
  const [start, then] = [4000, window.switchedAt + 9600];
  return JSON.stringify({ first: place(window.taken.slice(start, start + 9600)), second: place(window.taken.slice(then, then + 9600)), apart: then - start, starved: document.documentElement.dataset.starved });
})()
"""


def main():
    if len(sys.argv) < 3 or sys.argv[1] not in ("firefox", "chromium"):
        raise SystemExit(__doc__)
    folder = os.path.abspath(sys.argv[2])
    seconds = float(sys.argv[3]) if len(sys.argv) > 3 else 60
    page = glob.glob(os.path.join(folder, "*_listen.html"))
    if len(page) != 1:
        raise SystemExit(f"{folder} holds no page to listen on.")
    files = sorted(glob.glob(os.path.join(folder, "*.wav")))
    browser = begin(sys.argv[1])
    try:
        browser.open("file://" + page[0], TAP)
        empty = browser.megabytes()
        begun = time.monotonic()
        browser.choose(files)
        browser.wait("document.getElementById('found').textContent !== ''")
        chosen = time.monotonic()
        browser.evaluate("document.getElementById('listen').click()")
        browser.wait("Number(document.getElementById('position').value) > 0")
        heard = time.monotonic()
        print(f"{sys.argv[1]}: {len(files)} files, {sum(map(os.path.getsize, files)) / 1e6:.0f} MB. {browser.evaluate('''document.getElementById('found').textContent''')}")
        print(f"The files were taken in {chosen - begun:.2f} s; sound began {heard - chosen:.2f} s after the click.")
        length = browser.evaluate("Number(document.getElementById('position').max)")
        strips = browser.evaluate("document.querySelectorAll('#strips > li').length")
        draw, most = random.Random(5), [0, 0]
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            kind = draw.randrange(4)
            if kind < 2:
                button = f"document.querySelectorAll('#strips > li')[{draw.randrange(strips)}].querySelectorAll('button')[{kind}].click()"
                browser.evaluate(button)
                time.sleep(0.08)
                browser.evaluate(button)
            else:
                jump(browser, draw.random() * (length - 5))
            time.sleep(0.2)
            sizes = browser.megabytes()
            most = [max(most[0], sum(sizes)), max(most[1], sizes[1] if len(sizes) > 1 else 0)]
        jump(browser, length / 2)
        browser.evaluate("(() => { const match = document.getElementById('match'); if (match?.checked) match.click(); })()")
        time.sleep(0.5)
        late = browser.evaluate("Number(document.documentElement.dataset.starved)")
        browser.evaluate("(() => { taken = []; isTaking = true; })()")
        time.sleep(0.8)
        browser.evaluate("(() => { switchedAt = taken.length; document.querySelector('#heard input[value=rough]').click(); })()")
        time.sleep(0.8)
        browser.evaluate("(() => { isTaking = false; })()")
        found = json.loads(browser.evaluate(PLACE))
        print(f"All processes held {sum(empty):.0f} MB with the page open and {most[0]:.0f} MB at most while it played; the largest beside the first, {most[1]:.0f} MB.")
        print(f"Files against rough: {found['first']['left_db']:.1f} dBFS are left at the peak; the rough itself: {found['second']['left_db']:.1f} dBFS; {found['starved']} frames came late in {seconds:.0f} s.")
        if int(found["starved"]) != late:
            print("The sound had to wait for the disk just while it was held against the rough: the machine is too busy for this. Try again.")
            return 2
        moved = found["second"]["frame"] - found["first"]["frame"]
        isInStep = found["first"]["left_db"] < -100 and found["second"]["left_db"] < -100 and moved == found["apart"]
        print("In step to the sample." if isInStep else f"OUT OF STEP: {moved} frames lie between, {found['apart']} were heard.")
        verdict = browser.evaluate("document.getElementById('arrived').textContent")
        print(f"Sums: {verdict}")
        return 0 if isInStep else 1
    finally:
        browser.end()


def jump(browser, seconds):
    browser.evaluate(f"(() => {{ const place = document.getElementById('position'); place.value = {seconds}; place.dispatchEvent(new Event('input')); }})()")


if __name__ == "__main__":
    try:
        sys.exit(main())
    except Trouble as trouble:
        sys.exit(str(trouble))
