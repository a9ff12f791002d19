"""Times ngspice's transient (its own "Total analysis time", without starting the process) and
this project's direct solution of the same cases in one run, and prints the ratio.

    python3 tests/reference/rectifier/timing.py [cargo test options, e.g. --release]
"""
import os
import re
import subprocess
import sys
import tempfile

import cases

here = os.path.dirname(os.path.abspath(__file__))
out = subprocess.run(["cargo", "test", "--no-default-features", *sys.argv[1:], "--test", "reference", "--",
                      "--ignored", "--nocapture", "time_one_solution"],
                     cwd=os.path.join(here, "..", "..", ".."), capture_output=True, text=True).stdout
ours = {m[2]: float(m[1]) for m in re.finditer(r"SECONDS (\S+) (.*)", out)}
for case in cases.CASES:
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "case.cir")
        with open(path, "w") as file:
            # Each program's own end: without "quit" ngspice prints its times.
            file.write(cases.netlist(case).replace("quit\n", "rusage\nquit\n"))
        text = subprocess.run(["ngspice", "-b", path], capture_output=True, text=True, stdin=subprocess.DEVNULL).stdout
    found = re.search(r"Total analysis time \(seconds\) = ([0-9.]+)", text)
    theirs = float(found[1]) if found else float("nan")
    mine = ours.get(case[0].replace(",", ";"), float("nan"))
    print(f"{case[0]:24} ngspice {1000 * theirs:8.1f} ms   direct {1000 * mine:8.3f} ms   ratio {theirs / mine:8.0f}")
