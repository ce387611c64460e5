#!/usr/bin/env python3
"""Plays and sets a chain on the bench in an installed browser, by real clicks, drags and keys, and tells what it saw.

    try-bench.py firefox|chromium CHAIN [--program DRUMPRINT] [--changes 20] [--pictures FOLDER]

It starts `drumprint bench` on a copy of the chain beside it, which it takes away again; CHAIN itself is not touched. The program is the one that
`dotnet build -c Release` made, or the one given. What is heard is measured where the page gives it to the loudspeakers; times are from the press of
a button or key. With --pictures it keeps pictures of the page as it goes, 1440 and 390 px wide. It ends with 1 when anything was not as it should be.

tools/browsers.py tells how Firefox is driven, and what it needs where there is no sound device.
"""
import argparse, os, re, shutil, signal, statistics, subprocess, sys, tempfile, time

from browsers import Trouble, begin

# What the page gives to the loudspeakers is listened to as well; nothing of the page is changed.
EAR = """
  const connect = AudioNode.prototype.connect;
  AudioNode.prototype.connect = function (to, ...rest) {
    if (to instanceof AudioDestinationNode) {
      window.ear = new AnalyserNode(this.context, { fftSize: 32768 });
      connect.call(this, window.ear);
    }
    return connect.call(this, to, ...rest);
  };
  const dB = gain => gain > 0 ? 20 * Math.log10(gain) : -200;
  window.heard = seconds => {
    const all = new Float32Array(window.ear.fftSize);
    window.ear.getFloatTimeDomainData(all);
    const last = all.subarray(all.length - Math.round(seconds * window.ear.context.sampleRate));
    return { peak: dB(last.reduce((most, x) => Math.max(most, Math.abs(x)), 0)), rms: dB(Math.sqrt(last.reduce((sum, x) => sum + x * x, 0) / last.length)) };
  };
"""

# Notes when a button or key was pressed first, when a change was answered, and when its first frame was played, by the sound's own clock too.
NOTES = """(() => {
  window.notes = { firsts: [], answers: [], refused: [], places: 0, loudest: 0 };
  const { player, talk } = bench;
  const begun = () => { notes.pressed ??= { at: performance.now(), audio: player.context?.currentTime ?? 0 }; };
  for (const kind of ['pointerup', 'keydown', 'input']) document.addEventListener(kind, begun, true);
  player.on('first', told => notes.firsts.push({ ...told, at: performance.now() }));
  player.on('place', told => { notes.places++; notes.loudest = Math.max(notes.loudest, ...told.peaks, 0); });
  talk.on('changed', message => notes.answers.push({ by: message.by, version: message.version, ms: message.ms }));
  talk.on('refused', message => notes.refused.push(message.text));
  return true;
})()"""

PLAYS = "document.getElementById('play').getAttribute('aria-pressed') === 'true'"
HISTORY = "bench.state.history.length"


class Trial:
    def __init__(self, browser, chain, pictures):
        self.browser, self.chain, self.pictures = browser, chain, pictures
        self.rows, self.isWhole, self.isOpen = [], True, False

    def saw(self, what, figure, isRight=True):
        self.rows.append((what, figure, isRight))
        self.isWhole &= isRight
        print(f"{'ok' if isRight else 'WRONG':6}{what:58}{figure}", flush=True)

    def step(self, act):
        before = self.starved() if self.isOpen else 0
        try:
            act()
        except Trouble as trouble:
            self.saw(act.__name__.replace("_", " "), str(trouble), False)
        if self.isOpen and act.__name__ != "end" and self.starved() > before:
            self.saw("  frames starved meanwhile", str(self.starved() - before))

    def keep(self, name):
        if not self.pictures:
            return
        for width in (1440, 390):
            self.browser.window(width, 1000)
            # As high as the page: what sticks to the window stands in its place then.
            self.browser.window(width, min(9000, self.browser.read("document.documentElement.scrollHeight")))
            self.browser.read("scrollTo(0, 0)")
            time.sleep(0.5)
            self.browser.save(os.path.join(self.pictures, f"{name}-{width}.png"))
        self.browser.window(1440, 1000)

    def now(self):
        return self.browser.read("bench.player.frame / bench.state.rate_hz")

    def heard(self, seconds=0.5):
        """After that time of playing: peak and level of what was given to the loudspeakers."""
        time.sleep(seconds + 0.1)
        return self.browser.read(f"heard({seconds})")

    def loudest(self):
        """The loudest of some stretches: what is played changes from one to the next."""
        return max((self.heard() for _ in range(6)), key=lambda each: each["rms"])

    def starved(self):
        return self.browser.read("bench.player.starved")

    def untilBegun(self, act):
        """Milliseconds from a press that plays or jumps to its first frame."""
        self.browser.read("(notes.firsts = [], notes.pressed = null)")
        act()
        self.browser.wait("notes.firsts.some(each => each.isBegin)", 20)
        return self.browser.read("notes.firsts.find(each => each.isBegin).at - notes.pressed.at")

    def untilChanged(self, act):
        """Milliseconds from a press to the first frame that was made after it, by the sound's clock; those in the engine."""
        self.browser.read("(notes.firsts = [], notes.answers = [], notes.refused = [], notes.pressed = null)")
        act()
        self.browser.wait("notes.answers.length > 0 || notes.refused.length > 0", 20)
        if self.browser.read("notes.answers.length") == 0:
            raise Trouble(f"Refused: {self.browser.read('notes.refused[0]')}")
        self.browser.wait("notes.firsts.some(each => each.version >= notes.answers[0].version)", 20)
        return self.browser.read("[(notes.firsts.find(each => each.version >= notes.answers[0].version).time - notes.pressed.audio) * 1000, notes.answers[0].ms]")

    def written(self, act):
        """Whether an act came into the chain's text as one step of the history."""
        before, text = self.browser.read(HISTORY), read(self.chain)
        act()
        self.browser.wait(f"{HISTORY} > {before}", 20)
        return self.browser.read(HISTORY) == before + 1 and read(self.chain) != text

    def openBus(self, name):
        # What was drawn anew between press and release takes no click; a hand clicks again.
        for _ in range(3):
            self.browser.click(f"#routing g[aria-label^='Bus {name},']")
            try:
                self.browser.wait(f"document.getElementById('open-title').textContent === 'The bus {name}'", 4)
                return
            except Trouble:
                continue
        raise Trouble(f"Three clicks on the bus {name} did not open it.")

    # ---- Steps -----------------------------------------------------------------------------------------------------

    def play(self):
        self.browser.read(NOTES)
        self.saw("play to sound, the first time, sound device included", f"{self.untilBegun(lambda: self.browser.click('#play')):.0f} ms")
        time.sleep(1)
        begun, at = self.now(), time.monotonic()
        heard = self.heard(3 * 32768 / 48000 / 4)
        time.sleep(2)
        went, took = self.now() - begun, time.monotonic() - at
        self.saw("the song goes on as fast as the clock", f"{went:.2f} s in {took:.2f} s", abs(went - took) < 0.25)
        self.saw("prints are not silent", f"{self.browser.read('notes.loudest'):.3f} of full scale at most", self.browser.read("notes.loudest") > 0.001)
        self.saw("loudspeakers get sound, softly", f"peak {heard['peak']:.1f} dBFS at a volume of {self.browser.read('document.getElementById(`volume`).value')} dB", -100 < heard["peak"] < -20)
        times = []
        for part in (0.1, 0.3, 0.5, 0.7, 0.85):
            self.browser.press("Escape")
            self.browser.wait(f"!({PLAYS})")
            self.browser.click("#song", part=part, height=0.6)
            time.sleep(0.8)
            times.append(self.untilBegun(lambda: self.browser.click("#play")))
            time.sleep(0.5)
        self.saw("play to sound, five places, median / most", f"{statistics.median(times):.0f} / {max(times):.0f} ms", max(times) < 2000)

    def jump(self):
        seconds, times = self.browser.read("bench.state.frames / bench.state.rate_hz"), []
        for part in (0.7, 0.2, 0.55, 0.35, 0.6):
            times.append(self.untilBegun(lambda: self.browser.click("#song", part=part, height=0.6)))
            if abs(self.now() - part * seconds) > seconds * 0.03 + 1:
                raise Trouble(f"A click at {part:.0%} of the song went to {self.now():.1f} s of {seconds:.0f} s.")
            time.sleep(1)
        self.saw("a jump while it plays to sound, five, median / most", f"{statistics.median(times):.0f} / {max(times):.0f} ms", max(times) < 2000)
        place = self.now()
        self.browser.read("document.activeElement.blur()")
        self.browser.press("ArrowRight", "ArrowRight")
        self.saw("two bars on by the arrow key", f"{self.now() - place:.2f} s on", self.now() > place + 0.5 or self.browser.read("bench.state.bars.length") == 0)

    def repeat(self):
        self.browser.drag("#song", (0.5, 0.51, 0.52, 0.53), height=0.6)
        self.browser.wait("!document.getElementById('repeat-off').disabled", 5)
        words = self.browser.read("document.getElementById('repeat-words').textContent")
        places, end = [], time.monotonic() + 9
        while time.monotonic() < end:
            places.append(self.now())
            time.sleep(0.1)
        backs = sum(b < a - 0.5 for a, b in zip(places, places[1:]))
        self.saw("a stretch dragged over the song is repeated", f"{words} {backs} times in 9 s, {min(places):.1f} to {max(places):.1f} s", backs > 0 and self.now() < max(places) + 0.1)

    def strips(self):
        all_, strip = self.loudest(), "#strips li:first-child"
        solo, mute = f"{strip} .ways button:nth-child(2)", f"{strip} .ways button:nth-child(1)"
        self.browser.click(solo)
        alone = self.loudest()
        self.browser.click(mute)
        time.sleep(1)
        none = self.heard()
        self.browser.click(mute)
        self.browser.click(solo)
        time.sleep(0.3)
        again = self.loudest()
        self.saw("all prints / one solo / that one muted / all again", " / ".join(f"{each['rms']:.1f}" for each in (all_, alone, none, again)) + " dBFS",
                 alone["rms"] < all_["rms"] - 0.5 and none["peak"] < -150 and abs(again["rms"] - all_["rms"]) < 6)

    def settings(self):
        bus = next(each for each in self.browser.read("bench.state.buses") if any(stage["name"] == "compress" for stage in each["stages"]))
        self.openBus(bus["name"])
        before = read(self.chain)
        row = """document.evaluate("//div[@class='stage'][.//h3='compress']//div[contains(@class,'setting')][.//label='threshold']", document, null, 9).singleNodeValue"""
        part = self.browser.read(f"(() => {{ const range = {row}.querySelector('[type=range]'); return range.value / range.max; }})()")
        ms, engine = self.untilChanged(lambda: self.browser.drag(f"{row}.querySelector('[type=range]')", [part, part + 0.04, part + 0.08, part + 0.12]))
        self.saw("a setting dragged is heard before it is written", f"{ms:.0f} ms after it moved, {engine:.0f} ms in the engine", read(self.chain) == before)
        self.browser.wait("document.getElementById('ask').open", 5)
        self.keep("asks")
        isOne = self.written(lambda: self.browser.click("#ask-yes"))
        copy = os.path.join(os.path.dirname(self.chain), self.browser.read("bench.state.copy_path"))
        self.saw("allowed, it is written, and a copy is kept", f"{self.browser.read('bench.state.history[0].join(`; `)')}", isOne and read(copy) == before)
        box = f"{row}.querySelector('[type=number]')"

        def typed():
            self.browser.read(f"{row}.querySelector('[type=range]').focus()")
            self.browser.press("Tab")
            self.browser.press(*"-33.5", "Enter")

        isOne = self.written(typed)
        self.saw("typed and written", self.browser.read(f"{box}.value"), isOne and b"-33.5" in read(self.chain))
        isOne = self.written(lambda: self.browser.press("ArrowUp"))
        self.saw("nudged by a key and written", self.browser.read(f"{box}.value"), isOne and self.browser.read(f"Number({box}.value)") == -33.4)
        isOne = self.written(lambda: self.browser.click(f"{row}.querySelector('[type=range]')", times=2))
        self.browser.wait(f"!{row}.classList.contains('own')", 10)
        self.saw("double-click goes to the default", self.browser.read(f"{box}.value"), self.browser.read(f"!{row}.classList.contains('own')"))

    def changes(self, count):
        """Settings of all buses nudged by real keys while a stretch is repeated, and how soon they are heard."""
        names, times, engine = [bus["name"] for bus in self.browser.read("bench.state.buses")], [], []
        before, i = self.starved(), 0
        while len(times) < count:
            self.openBus(names[i % len(names)])
            boxes = self.browser.read("document.querySelectorAll('#open .setting input[type=number]').length")
            box = f"document.querySelectorAll('#open .setting input[type=number]')[{i * 5 % boxes}]"
            i += 1
            self.browser.read(f"({box}.scrollIntoView({{ block: 'center' }}), {box}.focus())")
            isTop = self.browser.read(f"{box}.value === '' || Number({box}.value) >= Number({box}.max)")
            history = self.browser.read(HISTORY)
            try:
                ms, inside = self.untilChanged(lambda: self.browser.press("ArrowDown" if isTop and self.browser.read(f"{box}.value !== ''") else "ArrowUp"))
            except Trouble as trouble:
                if "Refused" not in str(trouble):
                    raise
                continue
            times.append(ms)
            engine.append(inside)
            self.browser.wait(f"{HISTORY} > {history} || notes.answers.length > 1 || notes.refused.length > 0", 20)
        times.sort()
        self.saw(f"a key to the changed frame, {count}, median / 95 % / most", f"{statistics.median(times):.0f} / {times[int(0.95 * (count - 1))]:.0f} / {times[-1]:.0f} ms, {statistics.median(engine):.0f} in the engine", times[-1] < 3000)
        self.saw("frames starved while they changed", str(self.starved() - before))

    def lanes(self):
        self.openBus(next(each for each in self.browser.read("bench.state.buses") if any(stage["name"] == "gate" for stage in each["stages"]))["name"])
        # It is drawn sooner where nothing plays.
        if self.browser.read(PLAYS):
            self.browser.press("Escape")
        begun = time.monotonic()
        self.browser.wait("document.querySelector('.lane.gate canvas') && !document.getElementById('lanes').classList.contains('old')", 240)
        ink = """(c => {
          const copy = new OffscreenCanvas(c.width, c.height).getContext('2d', { willReadFrequently: true });
          copy.drawImage(c, 0, 0);
          return copy.getImageData(0, 0, c.width, c.height).data.filter((x, i) => i % 4 === 3 && x > 0).length / c.width / c.height;
        })(document.querySelector('.lane canvas'))"""
        self.saw("the gate's lane is drawn", f"{self.browser.read(ink):.0%} of it, {time.monotonic() - begun:.0f} s waited: {self.browser.read('document.querySelector(`.lane p`).textContent')}", self.browser.read(ink) > 0.05)
        if self.browser.read("document.querySelectorAll('.lane .lost button').length") > 0:
            self.browser.click(".lane .lost button:nth-child(2)")
            time.sleep(0.5)
            self.saw("the next lost hit is gone to", self.browser.read("document.querySelector('.lane .lost output').textContent"), self.browser.read("document.querySelector('.lane .lost output').textContent").startswith("Lost hit"))
        self.keep("lanes")

    def flip(self):
        heard, times = "bench.state.heard !== undefined && bench.state.heard !== null", []
        for isOther, act in ((True, lambda: self.browser.press("b")), (False, lambda: self.browser.click("#flip"))):
            self.browser.read("(document.activeElement.blur(), notes.firsts = [], notes.pressed = null)")
            act()
            self.browser.wait(f"({heard}) === {str(isOther).lower()} && notes.firsts.length > 0", 20)
            times.append(self.browser.read("(notes.firsts[0].time - notes.pressed.audio) * 1000"))
            words = self.browser.read("document.getElementById('words').textContent")
            self.saw("after" if not isOther else "before", f"{times[-1]:.0f} ms. {words}", words.startswith("Before" if isOther else "After"))
            time.sleep(1)

    def blind(self):
        self.browser.click("#rounds", times=3)
        self.browser.press("5", "Tab")
        self.browser.click("#blind-start")
        self.browser.wait("!document.getElementById('blind-run').hidden", 60)
        if not self.browser.read(PLAYS):
            self.browser.click("#blind-listen")
        for count in range(5):
            for side in "BXA":
                self.browser.click(f"#blind-{side}")
                time.sleep(0.4)
                if not self.browser.read(f"document.getElementById('blind-{side}').getAttribute('aria-pressed') === 'true'"):
                    raise Trouble(f"{side} was pressed and is not heard.")
            if count == 0:
                level = self.heard()
                self.keep("blind")
            self.browser.click("#answer-A")
            time.sleep(0.3)
        self.browser.wait("!document.getElementById('blind-result').hidden", 10)
        self.saw("a blind run of five, begun and ended", f"{level['rms']:.1f} dBFS in it. {self.browser.read('document.getElementById(`result`).textContent')}", level["rms"] > -100)
        self.browser.click("#blind-again")

    def take_back(self, original):
        undone = 0
        while not self.browser.read("document.getElementById('undo').disabled"):
            before = self.browser.read(HISTORY)
            self.browser.click("#undo")
            self.browser.wait(f"{HISTORY} < {before}", 20)
            undone += 1
        self.saw("all taken back: the file, byte for byte", f"{undone} steps, {len(original)} bytes", read(self.chain) == original)

    def stop(self):
        if not self.browser.read(PLAYS):
            self.browser.click("#play")
            time.sleep(1)
        self.browser.press("Escape")
        self.browser.wait(f"!({PLAYS})", 5)
        time.sleep(0.2)
        place, after = self.now(), self.heard()
        self.saw("stopped by Escape, and silent", f"peak {after['peak']:.0f} dBFS", after["peak"] <= -150 and self.now() == place)
        self.keep("stopped")

    def quiet(self, address):
        host = re.match(r"https?://([^/]+)", address).group(1)
        others = [url for url in self.browser.requests if not re.match(rf"(https?|wss?)://{re.escape(host)}/|(data|blob|about):", url)]
        self.saw("requests to anything but the bench", f"{len(others)} of {len(self.browser.requests)} {' '.join(others)}", not others)
        complaints = self.browser.complaints
        self.saw("errors and warnings of the page", f"{len(complaints)} {' | '.join(complaints)[:300]}", not complaints)

    def end(self, bench):
        self.browser.click("#end")
        try:
            code = bench.wait(15)
        except subprocess.TimeoutExpired:
            code = "still running"
        self.saw("the bench ends when the page says so", f"exit code {code}", code == 0)
        if code != 0:
            print(bench.said())


def read(path):
    with open(path, "rb") as file:
        return file.read()


def serve(program, chain):
    said = tempfile.TemporaryFile("w+")
    bench = subprocess.Popen([program, "bench", chain, "--no-browser"], stdout=subprocess.PIPE, stderr=said, text=True)
    bench.said = lambda: (said.seek(0), said.read())[1]
    address = bench.stdout.readline().strip()
    if not address.startswith("http"):
        raise Trouble(f"{program} bench did not start: {bench.said()}")
    return bench, address


def main():
    root = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("browser", choices=("firefox", "chromium"))
    words.add_argument("chain")
    words.add_argument("--program", default=os.path.join(root, "artifacts", "bin", "DrumPrint.Cli", "release", "drumprint"))
    words.add_argument("--changes", type=int, default=20)
    words.add_argument("--pictures")
    asked = words.parse_args()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))
    if not os.path.isfile(asked.chain):
        raise Trouble(f"There is no chain file {asked.chain}.")
    if asked.pictures:
        os.makedirs(asked.pictures, exist_ok=True)
    chain = os.path.join(os.path.dirname(os.path.abspath(asked.chain)), "tried-on-the-bench.chain.json")
    shutil.copyfile(asked.chain, chain)
    original = read(chain)
    bench = browser = None
    try:
        begun = time.monotonic()
        bench, address = serve(asked.program, chain)
        served = time.monotonic()
        browser = begin(asked.browser)
        trial = Trial(browser, chain, asked.pictures)
        opened = time.monotonic()
        browser.open(address, EAR)
        trial.saw("the bench was ready / the page was ready", f"{served - begun:.1f} / {time.monotonic() - opened:.1f} s")
        browser.window(1440, 1000)
        trial.isOpen = True
        for act in (trial.play, trial.jump, trial.repeat, trial.strips, trial.settings):
            trial.step(act)
        trial.step(named("changes", lambda: trial.changes(asked.changes)))
        trial.step(trial.flip)
        trial.step(trial.lanes)
        trial.step(trial.blind)
        trial.step(named("take back", lambda: trial.take_back(original)))
        time.sleep(5)  # what is measured and drawn after a change
        starved = trial.starved()
        time.sleep(5)
        trial.saw("frames starved in all / in five seconds at rest", f"{trial.starved()} / {trial.starved() - starved}", trial.starved() == starved)
        trial.step(trial.stop)
        trial.step(named("quiet", lambda: trial.quiet(address)))
        trial.step(named("end", lambda: trial.end(bench)))
        print("Everything was as it should be." if trial.isWhole else "NOT as it should be.")
        return 0 if trial.isWhole else 1
    finally:
        for left in (chain, os.path.join(os.path.dirname(chain), f".{os.path.basename(chain)}.before-bench")):
            if os.path.exists(left):
                os.remove(left)
        if browser:
            browser.end()
        if bench and bench.poll() is None:
            bench.terminate()
            try:
                bench.wait(15)
            except subprocess.TimeoutExpired:
                bench.kill()


def named(name, act):
    act.__name__ = name
    return act


if __name__ == "__main__":
    try:
        sys.exit(main())
    except Trouble as trouble:
        sys.exit(str(trouble))
