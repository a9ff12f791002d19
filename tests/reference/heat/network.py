"""The heating network written again from its description, integrated by LSODA to 1e-9.

Lumps: primary (1.1 kg copper, 0.35 ohm), winding (0.6 kg copper, 0.0021 ohm), core (3.4 kg steel at
490 J/kgK). To the room: Churchill-Chu free convection with air from power laws fitted here to the
handbook table at 300, 350, 400 K (Incropera and DeWitt, table A.4: nu 15.89, 20.92, 26.41e-6 m2/s;
k 26.3, 30.0, 33.8e-3 W/mK; Pr 0.707, 0.700, 0.690), and grey radiation. A fan adds forced
convection by cubes. So neither the air's properties nor the integrator are the project's.
"""
import csv

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, fsolve

T_TABLE = np.log([300.0, 350.0, 400.0])
NU = np.polyfit(T_TABLE, np.log([15.89e-6, 20.92e-6, 26.41e-6]), 1)
K = np.polyfit(T_TABLE, np.log([26.3e-3, 30.0e-3, 33.8e-3]), 1)
PR = np.polyfit(T_TABLE, np.log([0.707, 0.700, 0.690]), 1)
CAPACITY = np.array([1.1 * 385, 0.6 * 385, 3.4 * 490])
AREA = np.array([0.012, 0.009, 0.045])
HEIGHT = np.array([0.025, 0.020, 0.085])
P_CORE, W_CORE, P_W = 0.55, 0.45, 0.12
R20 = np.array([0.35, 0.0021])
EMISSIVITY = 0.9


def film(surface, ambient, height, speed):
    tf = np.log((surface + ambient) / 2 + 273.15)
    nu, k, pr = (np.exp(np.polyval(p, tf)) for p in (NU, K, PR))
    ra = 9.80665 / np.exp(tf) * abs(surface - ambient) * height**3 * pr / nu**2
    free = (0.825 + 0.387 * ra ** (1 / 6) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2
    forced = 0.664 * np.sqrt(speed * height / nu) * pr ** (1 / 3)
    h = (free**3 + forced**3) ** (1 / 3) * k / height
    a, b = surface + 273.15, ambient + 273.15
    radiated = EMISSIVITY * 5.670374e-8 * (a**4 - b**4)
    return h * (surface - ambient) + radiated  # W/m2


def rates(T, load, ambient, speed):
    p, w, c = T
    ip, iw, core = load
    out = [AREA[k] * film(T[k], ambient, HEIGHT[k], speed) for k in range(3)]
    heat_p = ip**2 * R20[0] * (1 + 0.00393 * (p - 20)) - P_CORE * (p - c) - P_W * (p - w) - out[0]
    heat_w = iw**2 * R20[1] * (1 + 0.00393 * (w - 20)) - W_CORE * (w - c) + P_W * (p - w) - out[1]
    heat_c = core + P_CORE * (p - c) + W_CORE * (w - c) - out[2]
    return np.array([heat_p, heat_w, heat_c]) / CAPACITY


def advance(T, load, seconds, ambient, speed):
    answer = solve_ivp(lambda _, y: rates(y, load, ambient, speed), (0, seconds), T, method="LSODA", rtol=1e-9, atol=1e-9)
    return answer.y[:, -1]


def cycles(on, pause, on_time, period, total, ambient, speed):
    T, now = np.full(3, ambient), 0.0
    while now < total - 1e-9:
        for length, load in ((on_time, on), (period - on_time, pause)):
            length = min(length, total - now)
            if length > 1e-9:
                T = advance(T, load, length, ambient, speed)
                now += length
    return T


def permitted(on, pause, ambient, speed, limit):
    """Share of 600 s at which the primary or winding ends its load at the limit, for ever."""
    def over(duty):
        T = np.full(3, ambient + 30.0)
        for _ in range(60):
            hot = advance(T, on, 600 * duty, ambient, speed)
            T = advance(hot, pause, 600 * (1 - duty), ambient, speed)
        return max(hot[0], hot[1]) - limit
    return brentq(over, 0.02, 0.98, xtol=1e-4)


if __name__ == "__main__":
    rows = []
    idle = (1.2, 0.0, 45.0)
    off = (0.0, 0.0, 0.0)
    for name, on, pause, on_time, period, total, speed in [
        ("steady load", (8.0, 90.0, 40.0), idle, 600.0, 600.0, 3600.0, 0.0),
        ("60 percent cycle", (14.0, 170.0, 40.0), idle, 360.0, 600.0, 3600.0, 0.0),
        ("20 percent cycle with fan", (22.0, 260.0, 40.0), idle, 120.0, 600.0, 3540.0, 4.0),
        ("short cycle", (18.0, 210.0, 40.0), off, 20.0, 90.0, 1800.0, 0.0),
    ]:
        T = cycles(on, pause, on_time, period, total, 25.0, speed)
        rows.append(["history", name, *on, *pause, on_time, period, total, speed, *T])
    for name, on, speed in [("still", (8.0, 90.0, 40.0), 0.0), ("fan", (12.0, 140.0, 40.0), 4.0)]:
        T = fsolve(lambda y: rates(y, on, 25.0, speed), [90.0, 90.0, 80.0], xtol=1e-12)
        rows.append(["steady", name, *on, *off, 0, 0, 0, speed, *T])
    on = (14.0, 170.0, 40.0)
    answer = solve_ivp(lambda _, y: rates(y, on, 25.0, 0.0), (0, 9000), np.full(3, 25.0), method="LSODA", rtol=1e-9,
                       atol=1e-9, events=[lambda _, y: max(y[0], y[1]) - 120.0])
    rows.append(["time to 120", "overload", *on, *off, 0, 0, 0, 0.0, answer.t_events[0][0], 0, 0])
    cool = solve_ivp(lambda _, y: rates(y, off, 25.0, 0.0), (0, 40000), [120.0, 118.0, 85.0], method="LSODA", rtol=1e-9,
                     atol=1e-9, events=[lambda _, y: max(y) - 45.0])
    rows.append(["cooling to 45", "from 120 118 85", *off, *off, 0, 0, 0, 0.0, cool.t_events[0][0], 0, 0])
    rows.append(["permitted duty", "120 mean", *on, *idle, 0, 600, 0, 0.0, permitted(on, idle, 25.0, 0.0, 120.0), 0, 0])
    with open("network.csv", "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow("what name on_primary on_winding on_core pause_primary pause_winding pause_core on_time period "
                        "total air_speed first second third".split())
        for row in rows:
            writer.writerow([f"{v:.6g}" if isinstance(v, (float, np.floating)) else v for v in row])
            print(row)
