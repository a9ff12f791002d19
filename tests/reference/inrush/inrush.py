"""Writes inrush.csv: first current peaks of a 230 V, 50 Hz winding on an E-I core, by ngspice.

Linkage is the state: a capacitor of 1 F charged by the voltage across the winding. A piecewise
linear table of current against linkage (tongue 30, stack 50, window 15 x 45, limbs and yokes
15 mm, stacking 0.95; linkage = N (flux + P_air x ampere-turns)) gives the winding's current.
"""

import csv
import math
import pathlib
import re
import subprocess

import numpy as np

import steel

MU_0 = steel.MU_0
TURNS = 480


def table(grade):
    tongue, stack, ww, wh, k = 0.030, 0.050, 0.015, 0.045, 0.95
    area = tongue * stack * k
    a = ww / 2
    inside = tongue * stack + 2 * a * (tongue + stack) + math.pi * a * a
    air = MU_0 * (inside - area) / wh
    length = 6 * tongue
    field = steel.field_curve(grade)
    density = np.concatenate([np.linspace(0, 1.2, 13)[:-1], np.linspace(1.2, 2.1, 91)[:-1], np.linspace(2.1, 8, 8)])
    mmf = field(density) * length
    linkage = TURNS * (density * area + air * mmf)
    current = mmf / TURNS
    linkage = np.concatenate([-linkage[:0:-1], linkage])
    current = np.concatenate([-current[:0:-1], current])
    return linkage, current, area, air


def first_peak(grade, degrees, ohms, remanence, volts=230.0, f=50.0):
    linkage, current, area, air = table(grade)
    field = steel.field_curve(grade)
    flux = remanence * math.sqrt(2) * volts / (2 * math.pi * f * TURNS)
    start = TURNS * (flux + air * 0.18 * float(field(flux / area)))
    pairs = ", ".join(f"{x:.9g},{y:.9g}" for x, y in zip(linkage, current))
    deck = f"""inrush
Vs s 0 sin(0 {math.sqrt(2) * volts:.9g} {f} 0 0 {degrees})
R1 s w {ohms}
Bw w 0 i = pwl(v(lam), {pairs})
Blam 0 lam i = v(w)
C1 lam 0 1 ic={start:.9g}
.options method=gear reltol=1e-5
.tran 10u 25m 0 10u uic
.control
run
meas tran top max i(vs)
meas tran bottom min i(vs)
.endc
.end
"""
    pathlib.Path("case.cir").write_text(deck)
    said = subprocess.run(["ngspice", "-b", "case.cir"], capture_output=True, text=True).stdout
    found = re.search(r"^bottom\s*=\s*(\S+)", said, re.M)
    if not found:
        raise SystemExit(said)
    return -float(found.group(1))


with open(pathlib.Path(__file__).parent / "inrush.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["grade", "closing deg", "ohms", "remanence", "first peak A"])
    for grade in ("M400-50A", "M800-50A"):
        for degrees, ohms, remanence in ((0, 1, 0), (0, 1, 0.6), (0, 3, 0.6), (45, 1, 0.6), (90, 1, 0.3), (0, 0.3, 0.8)):
            out.writerow([grade, degrees, ohms, remanence, f"{first_peak(grade, degrees, ohms, remanence):.5g}"])
