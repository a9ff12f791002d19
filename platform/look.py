#!/usr/bin/env python3
"""Takes pictures of HTML files with one headless Chromium, driven over its debugging pipe.

usage: look.py [--sizes WIDTHxHEIGHT,...] OUT FILE...

For each file: a phone (360 by 800) and a desktop (1280 by 800), or the sizes given, as they show it first
and in its whole length, light and dark. Only the standard library is needed.
"""

import base64
import json
import os
import subprocess
import sys
import tempfile

SIZES = ((360, 800), (1280, 800))
SCHEMES = ("light", "dark")


class Browser:
    """A headless Chromium; its debugging protocol is read and written as JSON, each message ended by a zero byte."""

    def __init__(self, profile):
        commands, self._write = os.pipe()
        self._read, answers = os.pipe()
        # The browser reads commands from descriptor 3 and writes answers to descriptor 4.
        self._process = subprocess.Popen(
            [
                "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
                "--no-first-run", "--disable-background-networking", "--disable-component-update",
                "--disable-sync", "--disable-dev-shm-usage", "--remote-debugging-pipe",
                f"--user-data-dir={profile}", "about:blank",
            ],
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            close_fds=False,
            preexec_fn=lambda: self._as_descriptors(commands, answers),
        )
        os.close(commands)
        os.close(answers)
        self._buffer = b""
        self._number = 0

    @staticmethod
    def _as_descriptors(commands, answers):
        # First out of the way of 3 and 4, then to them.
        commands, answers = os.dup(commands), os.dup(answers)
        high = [os.dup2(fd, 100 + at) for at, fd in enumerate((commands, answers))]
        for at, fd in enumerate(high):
            os.dup2(fd, 3 + at, inheritable=True)

    def _message(self):
        while b"\0" not in self._buffer:
            piece = os.read(self._read, 1 << 20)
            if not piece:
                sys.exit("the browser ended by itself")
            self._buffer += piece
        message, self._buffer = self._buffer.split(b"\0", 1)
        return json.loads(message)

    def send(self, method, session=None, **parameters):
        """Sends a command and returns its result."""
        self._number += 1
        message = {"id": self._number, "method": method, "params": parameters}
        if session:
            message["sessionId"] = session
        os.write(self._write, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._message()
            if answer.get("id") == self._number:
                if "error" in answer:
                    sys.exit(f"{method}: {answer['error']}")
                return answer["result"]

    def wait(self, method, session):
        """Waits for an event of the page."""
        while True:
            message = self._message()
            if message.get("method") == method and message.get("sessionId") == session:
                return

    def close(self):
        self.send("Browser.close")
        self._process.wait()


def main():
    arguments = sys.argv[1:]
    sizes = SIZES
    if arguments[:1] == ["--sizes"]:
        sizes = [tuple(map(int, size.split("x"))) for size in arguments[1].split(",")]
        arguments = arguments[2:]
    out, files = arguments[0], arguments[1:]
    os.makedirs(out, exist_ok=True)
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        browser = Browser(profile)
        target = browser.send("Target.createTarget", url="about:blank")["targetId"]
        session = browser.send("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]

        def page(method, **parameters):
            return browser.send(method, session, **parameters)

        page("Page.enable")
        for file in files:
            name = os.path.splitext(os.path.basename(file))[0]
            for width, height in sizes:
                def resize(to):
                    page("Emulation.setDeviceMetricsOverride", width=width, height=to, deviceScaleFactor=1, mobile=width < 800)

                resize(height)
                page("Page.navigate", url="file://" + os.path.abspath(file))
                browser.wait("Page.loadEventFired", session)
                whole = page("Page.getLayoutMetrics")["cssContentSize"]["height"]
                # A window as high as the page: what is fixed to its foot stands at the end.
                for part, to in ((f"{width}x{height}", height), (f"{width}", min(max(int(whole), height), 16000))):
                    resize(to)
                    for scheme in SCHEMES:
                        page("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": scheme}])
                        picture = page("Page.captureScreenshot", format="png", optimizeForSpeed=True)["data"]
                        with open(os.path.join(out, f"{name}-{part}-{scheme}.png"), "wb") as to_file:
                            to_file.write(base64.b64decode(picture))
        browser.close()


if __name__ == "__main__":
    main()
