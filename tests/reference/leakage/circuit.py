"""The shell core with and without shunts as a differential equation in time, by Radau.

State: flux linkages of primary and winding. Steel by Froehlich's law B = mu0 H + J H/(a + H) with
J = 1.75 T, a = 91 A/m, inverted by table; the shunts in series with two air gaps. Started at the
supply's crest, so that the flux has no standing part, and left to run for 10 periods.
All lumped values are given here as numbers, so that nothing of the project's geometry enters.
Writes r.m.s. and fundamental (r.m.s.) of the current for each load.
"""
import csv

import numpy as np
from scipy.integrate import solve_ivp

MU0 = 4e-7 * np.pi
J, A = 1.75, 91.0
# Tongue 32 x 60 mm, stacking 0.95; limbs and yokes half; window 17 x 50 mm.
AT = 0.032 * 0.060 * 0.95
AL = 0.016 * 0.060 * 0.95
SHARE = 0.45  # of the window's height: primary 18 + half of 9, of 50
ALONG = [SHARE * 0.050 + 0.008, (1 - SHARE) * 0.050 + 0.008]
ACROSS = 0.017 + 0.008 + 0.008
N1, N2 = 150.0, 35.0
R1, R2 = 0.30, 0.018
V, F = 120.0, 60.0

h = np.concatenate([[0], np.geomspace(1e-3, 1e7, 4000)])
b = MU0 * h + J * h / (A + h)


def h_of_b(density):
    return np.interp(density, b, h)


def steel(density):
    return np.sign(density) * h_of_b(abs(density))


def half_core(flux, k):
    return steel(flux / AT) * ALONG[k] + steel(flux / 2 / AL) * (ALONG[k] + ACROSS)


def across_window(air, shunt):
    """Ampere-turns across a window as a function of the whole leakage flux, by table."""
    u = np.concatenate([[0], np.geomspace(1e-3, 1e6, 6000)])
    flux = air * u
    if shunt:
        thickness, stack, width, gap = shunt
        area = thickness * stack * 0.95
        e = 4 / np.pi * gap * np.log(1 + np.pi * (width + 2 * gap) / 12 / gap)
        gap_area = (thickness + e) * (stack + e)
        density = np.concatenate([[0], np.geomspace(1e-7, 1.75 + MU0 * 1e7, 200000)])
        mmf = h_of_b(density) * width + density * area / (MU0 * gap_area) * 2 * gap
        flux = flux + 2 * area * np.interp(u, mmf, density)
    return lambda leak: np.interp(leak, flux, u)


def run(air, shunt, load):
    table = across_window(air, shunt)
    w = 2 * np.pi * F

    def currents(t, y):
        f1, f2 = y[0] / N1, y[1] / N2
        leak = f1 - f2
        u = np.sign(leak) * table(abs(leak))
        return (half_core(f1, 0) + u) / N1, (u - half_core(f2, 1)) / N2

    def rates(t, y):
        i1, i2 = currents(t, y)
        return [np.sqrt(2) * V * np.cos(w * t) - R1 * i1, (R2 + load) * i2]

    end = 10 / F
    answer = solve_ivp(rates, (0, end), [0, 0], method="Radau", rtol=1e-5, atol=1e-6, max_step=5e-4, dense_output=True)
    t = np.linspace(end - 1 / F, end, 401)[:-1]
    i2 = np.array([currents(s, answer.sol(s))[1] for s in t])
    fundamental = abs(np.mean(i2 * np.exp(-1j * w * t))) * np.sqrt(2)
    return np.sqrt(np.mean(i2**2)), fundamental


if __name__ == "__main__":
    air = 1.35e-7  # Wb/A without shunts
    rows = []
    for name, a, shunt in [("none", air, None), ("thin", 1.2e-7, (5e-3, 0.055, 15.6e-3, 0.7e-3)),
                           ("thick", 1.1e-7, (8e-3, 0.060, 16e-3, 0.5e-3))]:
        for load in (1.0, 0.4, 0.2, 0.1, 0.02):
            rms, fundamental = run(a, shunt, load)
            rows.append([name, a, *(shunt or (0, 0, 0, 0)), load, rms, fundamental])
            print(rows[-1], flush=True)
    with open("circuit.csv", "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow("shunts air_permeance thickness stack width air_gap load current_rms current_fundamental".split())
        for row in rows:
            writer.writerow([f"{v:.6g}" if isinstance(v, float) else v for v in row])
