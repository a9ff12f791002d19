"""Writes idle.csv: idle current of an E-I core at sinusoidal flux.

The core: tongue 30, stack 50, window 15 x 45, outer limb and yoke as given (mm), stacking 0.95.
The flux is sampled at 20000 instants of a cycle; limbs and yokes carry half the tongue's flux.
Gaps: the same at the three faces, fringing by McLyman's form on the gross face. Loss of the
M400-50A table at 50 Hz, or M19's 50 Hz column; mass from the volume at 7650 kg/m3.
"""

import csv
import math
import pathlib

import numpy as np

import steel

MU_0 = steel.MU_0


def face(gap, width, stack, window):
    if gap == 0:
        return 0.0
    area = width * stack
    return gap / (MU_0 * area * (1 + gap / math.sqrt(area) * math.log(2 * window / gap)))


def case(grade, volts, turns, gap, limb, yoke):
    tongue, stack, ww, wh, k = 0.030, 0.050, 0.015, 0.045, 0.95
    f, n = 50.0, 20000
    t = np.arange(n) / n
    peak = math.sqrt(2) * volts / (2 * math.pi * f * turns)
    flux = peak * np.sin(2 * math.pi * t)
    field = steel.field_curve(grade)
    legs = [
        (wh + yoke, tongue * stack * k, 1.0),
        (2 * (ww + tongue / 4 + limb / 2), yoke * stack * k, 0.5),
        (wh + yoke, limb * stack * k, 0.5),
    ]
    mmf = sum(length * field(share * flux / area) for length, area, share in legs)
    mmf = mmf + flux * (face(gap, tongue, stack, wh) + face(gap, limb, stack, wh) / 2)
    loss = steel.loss_curve(grade, 50)
    # The whole lamination is weighed and shared out by the pieces' volumes.
    face_area = (tongue + 2 * ww + 2 * limb) * (wh + 2 * yoke) - 2 * ww * wh
    mass = 7650 * face_area * stack * k
    volumes = [length * area / share for length, area, share in legs]
    watts = sum(
        mass * v / sum(volumes) * float(loss(share * peak / area)) for v, (_, area, share) in zip(volumes, legs)
    )
    current = mmf / turns + math.sqrt(2) * watts / volts * np.cos(2 * math.pi * t)
    spectrum = np.abs(np.fft.rfft(current)) / n * math.sqrt(2)
    return [
        peak / (tongue * stack * k),
        math.sqrt(np.mean(current**2)),
        float(np.max(current)),
        watts,
        spectrum[1],
        spectrum[3],
        spectrum[5],
        spectrum[7],
    ]


with open(pathlib.Path(__file__).parent / "idle.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    head = "grade,volts,turns,gap mm,limb mm,yoke mm,peak T,rms A,peak A,core W,h1 A,h3 A,h5 A,h7 A"
    file.write(head + "\n")
    for grade in ("M400-50A", "M19"):
        for volts in (90.0, 110.0, 130.0, 150.0):
            for gap, limb, yoke in ((0.0, 15.0, 15.0), (0.05, 15.0, 15.0), (0.2, 13.0, 17.0)):
                answer = case(grade, volts, 250, gap * 1e-3, limb * 1e-3, yoke * 1e-3)
                out.writerow([grade, volts, 250, gap, limb, yoke] + [f"{x:.6g}" for x in answer])
