#!/usr/bin/env python3
"""Drives the page of a delivered folder in an installed browser, with nothing but Python's own library.

    receiver.py firefox FOLDER [SECONDS]     by WebDriver BiDi (W3C), which Firefox speaks by itself: no driver program
    receiver.py chromium FOLDER [SECONDS]    by the DevTools protocol

It opens the page from file://, chooses the files, listens, and for SECONDS (60) presses solo and mute and jumps about. Then it holds what the
page gives to the loudspeakers against the rough, sample by sample: the files by their faders, and the rough a key press later. It says how
long the start took and what memory the browser's processes hold (PSS, of /proc). It ends with 1 when anything is out of step, and with 2 when the
machine was too busy to tell.

Firefox plays only where there is a sound device. Without one, give it one that nobody hears, with Debian's pulseaudio:
    pulseaudio --start --exit-idle-time=-1; pactl load-module module-null-sink
"""
import base64, glob, json, os, random, re, shutil, socket, struct, subprocess, sys, tempfile, time

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


class Socket:
    """A WebSocket client (RFC 6455), as much as talking to a browser on this machine takes."""

    def __init__(self, url):
        host, port, path = re.match(r"ws://([^:/]+):(\d+)(/.*)", url).groups()
        self.socket = socket.create_connection((host, int(port)))
        key = base64.b64encode(os.urandom(16)).decode()
        self.socket.sendall(f"GET {path} HTTP/1.1\r\nHost: {host}:{port}\r\nUpgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Key: {key}\r\nSec-WebSocket-Version: 13\r\n\r\n".encode())
        self.held = b""
        while b"\r\n\r\n" not in self.held:
            self.held += self.socket.recv(4096)
        head, self.held = self.held.split(b"\r\n\r\n", 1)
        if b" 101 " not in head.split(b"\r\n")[0]:
            raise SystemExit(f"The browser refused to be driven: {head.splitlines()[0].decode()}")
        self.count = 0

    def take(self, count):
        while len(self.held) < count:
            more = self.socket.recv(1 << 16)
            if not more:
                raise SystemExit("The browser went away.")
            self.held += more
        taken, self.held = self.held[:count], self.held[count:]
        return taken

    def send(self, message):
        data = json.dumps(message).encode()
        mask = os.urandom(4)
        length = bytes([0x80 | len(data)]) if len(data) < 126 else bytes([0x80 | 126]) + struct.pack(">H", len(data)) if len(data) < 1 << 16 else bytes([0x80 | 127]) + struct.pack(">Q", len(data))
        masked = (int.from_bytes(data, "big") ^ int.from_bytes((mask * (len(data) // 4 + 1))[: len(data)], "big")).to_bytes(len(data), "big")
        self.socket.sendall(b"\x81" + length + mask + masked)

    def receive(self):
        whole = b""
        while True:
            first, second = self.take(2)
            length = second & 127
            if length == 126:
                length = struct.unpack(">H", self.take(2))[0]
            elif length == 127:
                length = struct.unpack(">Q", self.take(8))[0]
            data = self.take(length)
            if first & 15 in (0, 1):
                whole += data
                if first & 128:
                    return json.loads(whole)

    def call(self, method, params, **more):
        self.count += 1
        self.send({"id": self.count, "method": method, "params": params, **more})
        while True:
            answer = self.receive()
            if answer.get("id") == self.count:
                if "error" in answer:
                    raise SystemExit(f"{method}: {answer.get('message') or answer['error']}")
                return answer.get("result", {})


class Browser:
    def __init__(self, words, pattern):
        self.profile = tempfile.mkdtemp(prefix="receiver-")
        self.words, self.pattern = words, pattern

    def start(self):
        self.process = subprocess.Popen(self.words, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True)
        for line in self.process.stderr:
            found = re.search(self.pattern, line)
            if found:
                return found.group(1)
        raise SystemExit("The browser did not start.")

    def end(self):
        self.process.terminate()
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
        shutil.rmtree(self.profile, ignore_errors=True)

    def processes(self):
        found = [self.process.pid]
        for pid in found:
            for path in glob.glob(f"/proc/{pid}/task/*/children"):
                try:
                    found += [int(child) for child in open(path).read().split()]
                except OSError:
                    pass
        return found

    def megabytes(self):
        """PSS of each process, the largest first."""
        sizes = []
        for pid in self.processes():
            try:
                sizes.append(int(re.search(r"^Pss:\s+(\d+)", open(f"/proc/{pid}/smaps_rollup").read(), re.M).group(1)) / 1024)
            except (OSError, AttributeError):
                pass
        return sorted(sizes, reverse=True)


class Firefox(Browser):
    def __init__(self, program):
        super().__init__(None, r"WebDriver BiDi listening on (ws://\S+)")
        with open(os.path.join(self.profile, "user.js"), "w") as prefs:
            prefs.write('user_pref("media.autoplay.default", 0);\nuser_pref("media.autoplay.blocking_policy", 0);\nuser_pref("media.autoplay.block-webaudio", false);\nuser_pref("datareporting.policy.dataSubmissionEnabled", false);\n')
        self.words = [program, "--headless", "--no-remote", "--profile", self.profile, "--remote-debugging-port", "0"]
        self.talk = Socket(self.start() + "/session")
        self.talk.call("session.new", {"capabilities": {}})

    def open(self, page):
        self.talk.call("script.addPreloadScript", {"functionDeclaration": f"() => {{ {TAP} }}"})
        self.context = self.talk.call("browsingContext.getTree", {})["contexts"][0]["context"]
        self.talk.call("browsingContext.navigate", {"context": self.context, "url": page, "wait": "complete"})

    def choose(self, files):
        element = self.evaluate("document.getElementById('files')", raw=True)
        self.talk.call("input.setFiles", {"context": self.context, "element": {"sharedId": element["sharedId"]}, "files": files})

    def evaluate(self, expression, raw=False):
        answer = self.talk.call("script.evaluate", {"expression": expression, "target": {"context": self.context}, "awaitPromise": True, "userActivation": True})
        if answer["type"] == "exception":
            raise SystemExit(answer["exceptionDetails"]["text"])
        return answer["result"] if raw else answer["result"].get("value")


class Chromium(Browser):
    def __init__(self, program):
        super().__init__(None, r"DevTools listening on (ws://\S+)")
        self.words = [program, "--headless=new", "--no-sandbox", f"--user-data-dir={self.profile}", "--remote-debugging-port=0", "--autoplay-policy=no-user-gesture-required", "about:blank"]
        self.talk = Socket(self.start())
        page = [t for t in self.talk.call("Target.getTargets", {})["targetInfos"] if t["type"] == "page"][0]
        self.session = self.talk.call("Target.attachToTarget", {"targetId": page["targetId"], "flatten": True})["sessionId"]

    def call(self, method, params):
        return self.talk.call(method, params, sessionId=self.session)

    def open(self, page):
        self.call("Page.enable", {})
        self.call("Page.addScriptToEvaluateOnNewDocument", {"source": TAP})
        self.call("Page.navigate", {"url": page})
        self.wait("document.documentElement?.dataset.ready !== undefined")

    def choose(self, files):
        element = self.call("Runtime.evaluate", {"expression": "document.getElementById('files')"})["result"]["objectId"]
        self.call("DOM.setFileInputFiles", {"files": files, "objectId": element})

    def evaluate(self, expression):
        answer = self.call("Runtime.evaluate", {"expression": expression, "awaitPromise": True, "userGesture": True, "returnByValue": True})
        if "exceptionDetails" in answer:
            raise SystemExit(answer["exceptionDetails"].get("exception", {}).get("description") or answer["exceptionDetails"]["text"])
        return answer["result"].get("value")


def wait(browser, expression, seconds=60):
    end = time.monotonic() + seconds
    while not browser.evaluate(expression):
        if time.monotonic() > end:
            raise SystemExit(f"This did not come true within {seconds} s: {expression}")
        time.sleep(0.02)


Browser.wait = wait


def main():
    if len(sys.argv) < 3 or sys.argv[1] not in ("firefox", "chromium"):
        raise SystemExit(__doc__)
    folder = os.path.abspath(sys.argv[2])
    seconds = float(sys.argv[3]) if len(sys.argv) > 3 else 60
    program = next((p for p in map(shutil.which, {"firefox": ["firefox-esr", "firefox"], "chromium": ["chromium", "chromium-browser"]}[sys.argv[1]]) if p), None)
    if not program:
        raise SystemExit(f"{sys.argv[1]} is not installed.")
    page = glob.glob(os.path.join(folder, "*_listen.html"))
    if len(page) != 1:
        raise SystemExit(f"{folder} holds no page to listen on.")
    files = sorted(glob.glob(os.path.join(folder, "*.wav")))
    browser = (Firefox if sys.argv[1] == "firefox" else Chromium)(program)
    try:
        browser.open("file://" + page[0])
        empty = browser.megabytes()
        begun = time.monotonic()
        browser.choose(files)
        browser.wait("document.getElementById('found').textContent !== ''")
        chosen = time.monotonic()
        browser.evaluate("document.getElementById('listen').click()")
        browser.wait("Number(document.getElementById('position').value) > 0")
        heard = time.monotonic()
        print(f"{os.path.basename(program)}: {len(files)} files, {sum(map(os.path.getsize, files)) / 1e6:.0f} MB. {browser.evaluate('''document.getElementById('found').textContent''')}")
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
    sys.exit(main())
