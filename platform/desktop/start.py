"""Starts programs in turn on a virtual display and looks into its frame buffer until the window shows
something: python3 start.py APP EMPTY. The empty window is started twice: as it comes, and painted by
the processor as the app has itself painted."""

import mmap
import os
import signal
import statistics
import subprocess
import sys
import tempfile
import time

ROUNDS = 5
WIDTH, HEIGHT = 1280, 900
# As the app starts its window.
PROCESSOR = {"WEBKIT_DISABLE_COMPOSITING_MODE": "1"}


def display(folder):
    """A display whose frame buffer is a file of the folder."""
    for number in range(140, 160):
        if os.path.exists(f"/tmp/.X11-unix/X{number}"):
            continue
        server = subprocess.Popen(
            ["Xvfb", f":{number}", "-screen", "0", f"{WIDTH}x{HEIGHT}x24", "-fbdir", folder],
            stderr=subprocess.DEVNULL,
        )
        for _ in range(100):
            if os.path.exists(f"/tmp/.X11-unix/X{number}"):
                return server, f":{number}"
            time.sleep(0.1)
    sys.exit("no virtual display")


def painted(frame):
    """Whether letters are on the display: more shades than a window's bare ground has."""
    end = len(frame)
    shades = set()
    for row in range(4, 500, 4):
        at = end - WIDTH * 4 * (HEIGHT - row)
        shades.update(frame[at : at + WIDTH * 4 : 8])
    return len(shades) > 12


def memory(root):
    """MB of a process and all that it started, each page by its share."""
    all_of, at = [root], 0
    while at < len(all_of):
        try:
            for task in os.listdir(f"/proc/{all_of[at]}/task"):
                with open(f"/proc/{all_of[at]}/task/{task}/children") as children:
                    all_of += [int(child) for child in children.read().split()]
        except FileNotFoundError:
            pass
        at += 1
    total = 0
    for process in all_of:
        try:
            with open(f"/proc/{process}/smaps_rollup") as told:
                total += next(int(line.split()[1]) for line in told if line.startswith("Pss:"))
        except (FileNotFoundError, ProcessLookupError, StopIteration):
            pass
    return total / 1024


def run(program, name, frame, cold, more):
    """Seconds to the first paint, and MB five seconds later."""
    with tempfile.TemporaryDirectory() as data:
        if cold:
            os.sync()
            with open("/proc/sys/vm/drop_caches", "w") as caches:
                caches.write("1")
        begun = time.monotonic()
        process = subprocess.Popen(
            [program],
            env={**os.environ, "DISPLAY": name, "CURBCORE_DATA": data, **more},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        try:
            while not painted(frame):
                if time.monotonic() - begun > 60:
                    sys.exit(f"{program} shows nothing")
                time.sleep(0.004)
            taken = time.monotonic() - begun
            time.sleep(5)
            held = memory(process.pid)
        finally:
            os.killpg(process.pid, signal.SIGTERM)
            process.wait()
        # The display is bare again.
        for _ in range(500):
            if not painted(frame):
                break
            time.sleep(0.02)
        return taken, held


def main():
    app, empty = sys.argv[1:3]
    worst = 0
    with tempfile.TemporaryDirectory() as folder:
        server, name = display(folder)
        try:
            time.sleep(1)
            with open(f"{folder}/Xvfb_screen0", "rb") as file:
                frame = mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ)
            kinds = ["warm"] + (["cold"] if os.geteuid() == 0 else [])
            started = {"app": (app, {}), "empty": (empty, {}), "bare": (empty, PROCESSOR)}
            for kind in kinds:
                found = {which: [] for which in started}
                run(empty, name, frame, False, {})
                for _ in range(ROUNDS):
                    for which, (program, more) in started.items():
                        found[which].append(run(program, name, frame, kind == "cold", more))
                middle = {which: [statistics.median(v) for v in zip(*found[which])] for which in found}
                (paint, held), (empty_paint, empty_held), (bare_paint, bare_held) = middle.values()
                worst = max(worst, paint / empty_paint)
                print(
                    f"{kind}: first paint after {paint:.2f} s, empty {empty_paint:.2f} s, {paint / empty_paint:.2f} times;"
                    f" memory {held:.0f} MB, empty {empty_held:.0f} MB, {held / empty_held:.2f} times;"
                    f" beside an empty window painted the same way {paint / bare_paint:.2f} and"
                    f" {held / bare_held:.2f} times",
                    flush=True,
                )
        finally:
            server.terminate()
            server.wait()
    sys.exit(worst > 1.3)


main()
