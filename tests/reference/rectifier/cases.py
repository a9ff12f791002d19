"""Runs each rectifier case through ngspice's transient analysis and writes cases.csv.

A case: name, connection, r.m.s. volts (of one half with a centre tap), hertz, source ohms,
source henries, saturation amperes, emission coefficient, diode ohms, load kind, three load
values (capacitor: farads, ohms, 0; back voltage: volts, ohms, henries of choke).

Traps: the source floats between the diodes, so both its ends are tied to ground by 1 MΩ; the
diodes get a junction capacitance; behind a leakage inductance a resistor of 2 kΩ damps what
that capacitance would ring with.
"""
import csv
import os
import re
import subprocess
import tempfile

CASES = [
    ("textbook smooth", "bridge", 70.710678, 60, 1.0, 0, 1e-14, 0.1, 1e-3, "capacitor", 2652.58e-6, 100, 0),
    ("textbook rippled", "bridge", 70.710678, 60, 1.0, 0, 1e-14, 0.1, 1e-3, "capacitor", 265.258e-6, 100, 0),
    ("small supply", "bridge", 12, 60, 0.1, 0, 1e-14, 1.2, 0, "capacitor", 10e-3, 6, 0),
    ("supply with leakage", "bridge", 18, 50, 0.08, 150e-6, 1e-9, 1.8, 5e-3, "capacitor", 22e-3, 4, 0),
    ("supply from centre tap", "centre tap", 15, 60, 0.06, 60e-6, 1e-9, 1.8, 5e-3, "capacitor", 15e-3, 3, 0),
    ("battery", "bridge", 14, 60, 0.05, 0, 1e-9, 1.8, 5e-3, "back voltage", 12.4, 0.04, 0),
    ("battery with leakage", "bridge", 15, 50, 0.06, 200e-6, 1e-9, 1.8, 5e-3, "back voltage", 12.6, 0.03, 0),
    ("battery from centre tap", "centre tap", 14.5, 60, 0.05, 80e-6, 1e-9, 1.8, 5e-3, "back voltage", 12.2, 0.05, 0),
    ("battery with choke", "bridge", 18, 50, 0.05, 100e-6, 1e-9, 1.8, 5e-3, "back voltage", 12.6, 0.05, 1e-3),
    ("arc, smooth", "bridge", 40, 60, 0.03, 80e-6, 1e-8, 1.9, 1e-3, "back voltage", 20, 0.04, 500e-6),
    ("arc, long overlap", "bridge", 45, 60, 0.02, 400e-6, 1e-8, 1.9, 1e-3, "back voltage", 20, 0.04, 300e-6),
    ("arc, interrupted", "bridge", 22, 60, 0.05, 50e-6, 1e-8, 1.9, 1e-3, "back voltage", 20, 0.04, 100e-6),
    ("arc from centre tap", "centre tap", 42, 50, 0.04, 150e-6, 1e-8, 1.9, 1e-3, "back voltage", 20, 0.04, 400e-6),
]
PERIODS_MEASURED = 6
SETTLING = 0.6  # seconds; more than eight of the longest time constant among the cases


def netlist(case):
    (name, kind, volts, hertz, rs, ls, sat, n, rd, load, v1, v2, v3) = case
    end = SETTLING + PERIODS_MEASURED / hertz
    start = end - PERIODS_MEASURED / hertz
    lines = [name, f"Vs s 0 SIN(0 {volts * 2 ** 0.5} {hertz})", f"Rs s a {rs}"]
    if ls > 0:
        lines += [f"Ls a x {ls}", "Rdamp x 0 2k"]
    else:
        lines += ["Vls a x 0"]
    if kind == "bridge":
        # The source's lower end is ground; the direct side floats on the diodes.
        lines += ["D1 x pd dm", "D2 0 pd dm", "D3 n x dm", "D4 n 0 dm", "Rg1 pd 0 1meg", "Rg2 n 0 1meg"]
        winding = "i(Vw)"
        lines = [line.replace("Rs s a", "Vw s s2 0\nRs s2 a") for line in lines]
    else:
        lines += ["E1 e1 n x 0 1", "E2 e2 n x 0 -1", "Vh1 e1 h1 0", "Vh2 e2 h2 0",
                  "F1 x 0 Vh1 1", "F2 x 0 Vh2 -1", "D1 h1 pd dm", "D2 h2 pd dm", "Rg n 0 1"]
        winding = "i(Vh1)"
    lines.append("Vd pd p 0")
    if load == "capacitor":
        lines += [f"Cl p n {v1} ic={0.9 * volts * 2 ** 0.5}", f"Rl p n {v2}"]
    else:
        if v3 > 0:
            lines += [f"Lc p q {v3}"]
        else:
            lines += ["Vc p q 0"]
        lines += [f"Rb q b {v2}", f"Vb b n {v1}"]
    terminal = "v(p,n)" if load == "capacitor" else "v(q,n)"
    lines += [
        f".model dm d(is={sat} n={n} rs={rd} cjo=1n)",
        ".options reltol=1e-4 abstol=1e-7 method=gear",
        f".tran 10u {end} {start} 10u{' uic' if load == 'capacitor' else ''}",
        ".control", "run", f"let load = {terminal}", "let direct = i(Vd)", f"let winding = {winding}",
        "let direct2 = direct*direct", "let winding2 = winding*winding",
    ]
    for label, what in [("mean_voltage", "avg load"), ("lowest_voltage", "min load"), ("highest_voltage", "max load"),
                        ("mean_current", "avg direct"), ("direct2", "avg direct2"), ("winding2", "avg winding2"),
                        ("peak_current", "max direct")]:
        lines.append(f"meas tran {label} {what} from={start} to={end}")
    blocked = "v(pd)-v(x)" if kind == "bridge" else "v(pd)-v(h1)"
    lines += [f"let blocked = {blocked}", f"meas tran reverse_voltage max blocked from={start} to={end}"]
    lines += ["quit", ".endc", ".end"]
    return "\n".join(lines) + "\n"


def solve(case):
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "case.cir")
        with open(path, "w") as file:
            file.write(netlist(case))
        out = subprocess.run(["ngspice", "-b", path], capture_output=True, text=True, stdin=subprocess.DEVNULL).stdout
    found = {m[1]: float(m[2]) for m in re.finditer(r"^(\w+)\s*=\s*([-+0-9.eE]+)", out, re.M)}
    try:
        return [found["mean_voltage"], found["lowest_voltage"], found["highest_voltage"], found["mean_current"],
                found["direct2"] ** 0.5, found["winding2"] ** 0.5, found["peak_current"], found["reverse_voltage"]]
    except KeyError:
        raise SystemExit(f"{case[0]}: ngspice gave no answer\n{out}")


if __name__ == "__main__":
    with open("cases.csv", "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow("name connection volts hertz source_ohms source_henries saturation emission diode_ohms load "
                        "first second third mean_voltage lowest_voltage highest_voltage mean_current direct_rms "
                        "winding_rms peak_current reverse_voltage".split())
        for case in CASES:
            result = solve(case)
            writer.writerow([f.replace(",", ";") if isinstance(f, str) else f for f in case]
                            + [f"{value:.6g}" for value in result])
            print(case[0], result)
