"""A browser to ask: Debian's chromium behind its chromedriver, spoken to as in W3C WebDriver, with nothing but the standard library."""

import contextlib
import json
import os
import shutil
import socket
import subprocess
import tempfile
import time
import urllib.error
import urllib.request

START_MOST = 30  # s
ANSWER_MOST = 60  # s

# As root chromium starts without its own sandbox alone; it opens files of ours only. The rest keeps it from looking out.
SWITCHES = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-dev-shm-usage", "--no-first-run",
            "--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-extensions",
            "--hide-scrollbars"]


def missing():
    """The first of the programs that is not here, or None."""
    return next((name for name in ("chromium", "chromedriver") if not shutil.which(name)), None)


class Browser:
    """A session. Elements are the dictionaries that WebDriver gives."""

    def __init__(self, at):
        self.at = at
        self.session = None

    def ask(self, method, path, body=None):
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(self.at + path, data=data, method=method,
                                         headers={"Content-Type": "application/json; charset=utf-8"})
        try:
            with urllib.request.urlopen(request, timeout=ANSWER_MOST) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as refused:
            said = json.load(refused)["value"]
            raise RuntimeError(f"{method} {path}: {said['error']}: {said['message']}") from None

    def begin(self, port):
        wanted = {"browserName": "chrome", "pageLoadStrategy": "normal", "goog:loggingPrefs": {"browser": "ALL"},
                  "goog:chromeOptions": {"debuggerAddress": f"127.0.0.1:{port}"}}
        made = self.ask("POST", "/session", {"capabilities": {"alwaysMatch": wanted}})
        self.session = "/session/" + made["sessionId"]
        self.devtools("Emulation.setFocusEmulationEnabled", enabled=True)  # as if its window lay on top

    def end(self):
        if self.session:
            self.ask("DELETE", self.session)
            self.session = None

    def open(self, url):
        self.ask("POST", self.session + "/url", {"url": url})

    def run(self, script, *arguments):
        return self.ask("POST", self.session + "/execute/sync", {"script": script, "args": list(arguments)})

    def find(self, selector):
        return self.ask("POST", self.session + "/elements", {"using": "css selector", "value": selector})

    def role(self, element):
        return self.ask("GET", f"{self.session}/element/{next(iter(element.values()))}/computedrole")

    def label(self, element):
        return self.ask("GET", f"{self.session}/element/{next(iter(element.values()))}/computedlabel")

    def devtools(self, command, **parameters):
        """A command of the Chrome DevTools protocol, for what WebDriver has no word for."""
        return self.ask("POST", self.session + "/goog/cdp/execute", {"cmd": command, "params": parameters})

    def log(self):
        """What the browser wrote to its console since it was asked last."""
        return self.ask("POST", self.session + "/se/log", {"type": "browser"})

    def screen(self, width, height):
        self.devtools("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)

    def media(self, scheme, kind=""):
        self.devtools("Emulation.setEmulatedMedia", media=kind,
                      features=[{"name": "prefers-color-scheme", "value": scheme}])


def wait_for(port, driver):
    limit = time.monotonic() + START_MOST
    while time.monotonic() < limit and driver.poll() is None:
        with contextlib.suppress(OSError), urllib.request.urlopen(f"http://127.0.0.1:{port}/status", timeout=5) as answer:
            if json.load(answer)["value"]["ready"]:
                return
        time.sleep(0.05)
    raise RuntimeError("chromedriver did not start")


def port_of(profile, chromium):
    """Where the browser listens; it writes that into its profile. A name such as localhost may not be known here."""
    told = os.path.join(profile, "DevToolsActivePort")
    limit = time.monotonic() + START_MOST
    while time.monotonic() < limit and chromium.poll() is None:
        with contextlib.suppress(OSError, IndexError, ValueError), open(told, encoding="ascii") as file:
            return int(file.read().split()[0])
        time.sleep(0.05)
    raise RuntimeError("chromium did not start")


def end(process):
    process.terminate()
    try:
        process.wait(10)
    except subprocess.TimeoutExpired:
        process.kill()


@contextlib.contextmanager
def browser():
    """A browser of one's own, with a new profile; ended and cleared away on the way out."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    with tempfile.TemporaryDirectory(prefix="rebato-browser-", ignore_cleanup_errors=True) as profile:
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
        chromium = subprocess.Popen([shutil.which("chromium"), *SWITCHES, f"--user-data-dir={profile}",
                                     "--remote-debugging-port=0", "about:blank"], **quiet)
        driver = subprocess.Popen([shutil.which("chromedriver"), f"--port={port}"], **quiet)
        made = Browser(f"http://127.0.0.1:{port}")
        try:
            wait_for(port, driver)
            made.begin(port_of(profile, chromium))
            yield made
        finally:
            try:
                made.end()
            finally:
                end(driver)
                end(chromium)
