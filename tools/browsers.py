"""Drives an installed browser with nothing but Python's own library: Firefox by WebDriver BiDi (W3C), which it speaks by itself without a driver
program, and Chromium by its DevTools protocol. Both have the same methods, and a hand that presses real buttons and keys.

Firefox plays only where there is a sound device. Without one, give it one that nobody hears, with Debian's pulseaudio:
    pulseaudio --start --exit-idle-time=-1; pactl load-module module-null-sink
"""
import base64, glob, json, os, re, shutil, socket, struct, subprocess, tempfile, time


class Trouble(Exception):
    """The browser did not do what was asked."""


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
            raise Trouble(f"The browser refused to be driven: {head.splitlines()[0].decode()}")
        self.count = 0
        self.told = lambda method, params: None

    def take(self, count):
        while len(self.held) < count:
            more = self.socket.recv(1 << 16)
            if not more:
                raise Trouble("The browser went away.")
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
                    raise Trouble(f"{method}: {answer.get('message') or answer['error']}")
                return answer.get("result", {})
            if "method" in answer:
                self.told(answer["method"], answer["params"])


class Browser:
    """What both have. Pages complain into `complaints`; what they ask for is in `requests`."""

    def __init__(self, words, pattern):
        self.profile = tempfile.mkdtemp(prefix="browser-")
        self.words, self.pattern = words, pattern
        self.complaints, self.requests = [], []

    def start(self):
        self.process = subprocess.Popen(self.words, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True)
        for line in self.process.stderr:
            found = re.search(self.pattern, line)
            if found:
                return found.group(1)
        raise Trouble("The browser did not start.")

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

    def read(self, expression):
        """The value of an expression, of whatever kind JSON has; it may await."""
        return json.loads(self.evaluate(f"(async () => JSON.stringify(({expression}) ?? null))()"))

    def wait(self, expression, seconds=60):
        end = time.monotonic() + seconds
        while not self.evaluate(f"Boolean({expression})"):
            if time.monotonic() > end:
                raise Trouble(f"This did not come true within {seconds} s: {expression}")
            time.sleep(0.02)

    # ---- A hand ----------------------------------------------------------------------------------------------------

    def point(self, selector, part=0.5, height=0.5, seconds=5):
        """A place within an element, scrolled into view, once nothing else covers it."""
        one = selector if selector.startswith("document") else f"document.querySelector({json.dumps(selector)})"
        end = time.monotonic() + seconds
        while True:
            found = self.read(f"""(() => {{
              const one = {one};
              if (!one) return {{ text: 'is not there' }};
              one.scrollIntoView({{ block: 'center', inline: 'center', behavior: 'instant' }});
              let box = one.getBoundingClientRect();
              // Firefox does not scroll to a part of a drawing.
              if (box.top < 0 || box.bottom > innerHeight) {{
                scrollBy({{ top: box.top - innerHeight / 2, behavior: 'instant' }});
                box = one.getBoundingClientRect();
              }}
              const [x, y] = [Math.round(box.left + box.width * {part}), Math.round(box.top + box.height * {height})];
              const there = document.elementFromPoint(x, y);
              return one === there || one.contains(there) || there?.contains(one) ? {{ x, y }} : {{ text: `is covered by ${{there?.outerHTML.slice(0, 80)}}, at ${{x}}, ${{y}} of ${{innerWidth}} x ${{innerHeight}}` }};
            }})()""")
            if "text" not in found:
                return found["x"], found["y"]
            if time.monotonic() > end:
                raise Trouble(f"{selector} {found['text']}.")
            time.sleep(0.1)

    def click(self, selector, times=1, part=0.5, height=0.5):
        self.point(selector, part, height)
        place = self.point(selector, part, height)  # what scrolled may have moved something that sticks to the window
        self.pointer([place], times)

    def drag(self, selector, parts, height=0.5):
        """Presses at the first of some places along an element, moves over the others, lets go at the last."""
        self.point(selector, parts[0], height)
        self.pointer([self.point(selector, part, height) for part in parts])

    def save(self, path):
        with open(path, "wb") as file:
            file.write(base64.b64decode(self.picture()))


class Firefox(Browser):
    KEYS = {"Enter": "\ue007", "Escape": "\ue00c", "ArrowLeft": "\ue012", "ArrowUp": "\ue013", "ArrowRight": "\ue014", "ArrowDown": "\ue015", "Tab": "\ue004"}

    def __init__(self, program, prefs=None):
        super().__init__(None, r"WebDriver BiDi listening on (ws://\S+)")
        usual = {"media.autoplay.default": 0, "media.autoplay.blocking_policy": 0, "media.autoplay.block-webaudio": False, "datareporting.policy.dataSubmissionEnabled": False}
        with open(os.path.join(self.profile, "user.js"), "w") as file:
            file.writelines(f"user_pref({json.dumps(name)}, {json.dumps(value)});\n" for name, value in {**usual, **(prefs or {})}.items())
        self.words = [program, "--headless", "--no-remote", "--profile", self.profile, "--remote-debugging-port", "0"]
        self.talk = Socket(self.start() + "/session")
        self.talk.told = self.told
        self.talk.call("session.new", {"capabilities": {}})
        self.talk.call("session.subscribe", {"events": ["log.entryAdded", "network.beforeRequestSent"]})

    def told(self, method, params):
        if method == "log.entryAdded" and params["level"] in ("error", "warn"):
            self.complaints.append(params.get("text") or "")
        elif method == "network.beforeRequestSent":
            self.requests.append(params["request"]["url"])

    def open(self, page, preload=""):
        self.talk.call("script.addPreloadScript", {"functionDeclaration": f"() => {{ {preload} }}"})
        self.context = self.talk.call("browsingContext.getTree", {})["contexts"][0]["context"]
        self.talk.call("browsingContext.navigate", {"context": self.context, "url": page, "wait": "complete"})
        self.wait("document.documentElement?.dataset.ready !== undefined")

    def window(self, width, height, ratio=1):
        self.talk.call("browsingContext.setViewport", {"context": self.context, "viewport": {"width": width, "height": height}, "devicePixelRatio": ratio})

    def picture(self):
        return self.talk.call("browsingContext.captureScreenshot", {"context": self.context})["data"]

    def choose(self, files):
        element = self.evaluate("document.getElementById('files')", raw=True)
        self.talk.call("input.setFiles", {"context": self.context, "element": {"sharedId": element["sharedId"]}, "files": files})

    def evaluate(self, expression, raw=False):
        answer = self.talk.call("script.evaluate", {"expression": expression, "target": {"context": self.context}, "awaitPromise": True, "userActivation": True})
        if answer["type"] == "exception":
            raise Trouble(answer["exceptionDetails"]["text"])
        return answer["result"] if raw else answer["result"].get("value")

    def pointer(self, places, times=1):
        move = [{"type": "pointerMove", "x": x, "y": y, "duration": 40} for x, y in places]
        press, let_go = {"type": "pointerDown", "button": 0}, {"type": "pointerUp", "button": 0}
        acts = [move[0], *[press, let_go] * (times - 1), press, *move[1:], let_go]
        self.act("pointer", acts, parameters={"pointerType": "mouse"})

    def press(self, *keys):
        for key in keys:
            value = self.KEYS.get(key, key)
            self.act("key", [{"type": "keyDown", "value": value}, {"type": "keyUp", "value": value}])

    def act(self, kind, acts, **more):
        self.talk.call("input.performActions", {"context": self.context, "actions": [{"type": kind, "id": kind, "actions": acts, **more}]})


class Chromium(Browser):
    CODES = {"Enter": 13, "Escape": 27, "ArrowLeft": 37, "ArrowUp": 38, "ArrowRight": 39, "ArrowDown": 40, "Tab": 9, " ": 32}

    def __init__(self, program):
        super().__init__(None, r"DevTools listening on (ws://\S+)")
        self.words = [program, "--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", f"--user-data-dir={self.profile}", "--remote-debugging-port=0", "--autoplay-policy=no-user-gesture-required", "about:blank"]
        self.talk = Socket(self.start())
        self.talk.told = self.told
        page = [t for t in self.talk.call("Target.getTargets", {})["targetInfos"] if t["type"] == "page"][0]
        self.session = self.talk.call("Target.attachToTarget", {"targetId": page["targetId"], "flatten": True})["sessionId"]

    def told(self, method, params):
        if method == "Runtime.exceptionThrown":
            details = params["exceptionDetails"]
            self.complaints.append(details.get("exception", {}).get("description") or details["text"])
        elif method == "Runtime.consoleAPICalled" and params["type"] in ("error", "warning"):
            self.complaints.append(" ".join(str(each.get("value", each.get("description"))) for each in params["args"]))
        elif method == "Log.entryAdded" and params["entry"]["level"] in ("error", "warning"):
            self.complaints.append(params["entry"]["text"])
        elif method == "Network.requestWillBeSent":
            self.requests.append(params["request"]["url"])
        elif method == "Network.webSocketCreated":
            self.requests.append(params["url"])

    def call(self, method, params):
        return self.talk.call(method, params, sessionId=self.session)

    def open(self, page, preload=""):
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.call(f"{domain}.enable", {})
        self.call("Page.addScriptToEvaluateOnNewDocument", {"source": preload})
        self.call("Page.navigate", {"url": page})
        self.wait("document.documentElement?.dataset.ready !== undefined")

    def window(self, width, height, ratio=1):
        self.call("Emulation.setDeviceMetricsOverride", {"width": width, "height": height, "deviceScaleFactor": ratio, "mobile": False})

    def picture(self):
        return self.call("Page.captureScreenshot", {})["data"]

    def choose(self, files):
        element = self.call("Runtime.evaluate", {"expression": "document.getElementById('files')"})["result"]["objectId"]
        self.call("DOM.setFileInputFiles", {"files": files, "objectId": element})

    def evaluate(self, expression):
        answer = self.call("Runtime.evaluate", {"expression": expression, "awaitPromise": True, "userGesture": True, "returnByValue": True})
        if "exceptionDetails" in answer:
            raise Trouble(answer["exceptionDetails"].get("exception", {}).get("description") or answer["exceptionDetails"]["text"])
        return answer["result"].get("value")

    def pointer(self, places, times=1):
        tell = lambda kind, place, **more: self.call("Input.dispatchMouseEvent", {"type": kind, "x": place[0], "y": place[1], **more})
        tell("mouseMoved", places[0])
        for count in range(1, times + 1):
            tell("mousePressed", places[0], button="left", buttons=1, clickCount=count)
            for place in places[1:]:
                time.sleep(0.04)
                tell("mouseMoved", place, button="left", buttons=1)
            tell("mouseReleased", places[-1], button="left", buttons=0, clickCount=count)

    def press(self, *keys):
        for key in keys:
            code = self.CODES.get(key, ord(key.upper()) if len(key) == 1 and key.isalnum() else 0)
            text = {"text": "\r" if key == "Enter" else key} if len(key) == 1 or key == "Enter" else {}
            self.call("Input.dispatchKeyEvent", {"type": "keyDown", "key": key, "windowsVirtualKeyCode": code, **text})
            self.call("Input.dispatchKeyEvent", {"type": "keyUp", "key": key, "windowsVirtualKeyCode": code})


def begin(name):
    """Starts one of them by its name."""
    program = next((p for p in map(shutil.which, {"firefox": ["firefox-esr", "firefox"], "chromium": ["chromium", "chromium-browser"]}[name]) if p), None)
    if not program:
        raise Trouble(f"{name} is not installed.")
    return (Firefox if name == "firefox" else Chromium)(program)
