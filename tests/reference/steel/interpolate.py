"""Writes interpolated.csv: H(B) and P(B) between, below and above the listed points."""

import csv

import steel

with open(steel.HERE / "interpolated.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["what", "grade", "density T", "value"])
    for grade in ("M19", "M400-50A", "M530-50A", "M800-50A"):
        field = steel.field_curve(grade)
        for b in (0.001, 0.02, 0.123, 0.456, 0.789, 1.01, 1.234, 1.39, 1.456, 1.567, 1.7, 1.85, 2.0, 2.2, 2.5, 3.3):
            out.writerow(["field A/m", grade, b, f"{float(field(b)):.6g}"])
    for source in ("M19", "M400-50A", "M530-65A"):
        loss = steel.loss_curve(source, 50)
        for b in (0.05, 0.15, 0.55, 1.05, 1.25, 1.45, 1.55, 1.65, 1.9):
            out.writerow(["loss W/kg", source, b, f"{float(loss(b)):.6g}"])
