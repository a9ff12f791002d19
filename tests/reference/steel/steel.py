"""The steel tables of this folder as functions, by scipy's monotone cubic in ln-ln."""

import csv
import math
import pathlib

import numpy as np
from scipy.interpolate import PchipInterpolator

HERE = pathlib.Path(__file__).parent
MU_0 = 4e-7 * math.pi


def rows(name):
    with open(HERE / name, newline="") as file:
        return list(csv.reader(file))[1:]


def field_curve(grade):
    """H(B) in A/m for an array of B in T, odd, μ₀ above the table."""
    points = [(kind, float(h), float(v)) for g, kind, h, v in rows("magnetisation.csv") if g == grade]
    h = np.array([p[1] for p in points])
    b = np.array([p[2] + (MU_0 * p[1] if p[0] == "polarization" else 0.0) for p in points])
    cubic = PchipInterpolator(np.log(b), np.log(h))

    def field(density):
        size = np.abs(np.asarray(density, float))
        low = size / b[0] * h[0]
        middle = np.exp(cubic(np.log(np.clip(size, b[0], b[-1]))))
        high = h[-1] + (size - b[-1]) / MU_0
        return np.sign(density) * np.where(size < b[0], low, np.where(size > b[-1], high, middle))

    return field


def loss_curve(source, frequency):
    """P(B) in W/kg, B² outside the table."""
    points = [(float(b), float(p)) for s, f, b, p in rows("loss.csv") if s == source and int(f) == frequency]
    b, p = (np.array(column) for column in zip(*points))
    cubic = PchipInterpolator(np.log(b), np.log(p))

    def loss(density):
        size = np.abs(np.asarray(density, float))
        inside = np.exp(cubic(np.log(np.clip(size, b[0], b[-1]))))
        return inside * np.where(size < b[0], size / b[0], np.where(size > b[-1], size / b[-1], 1.0)) ** 2

    return loss
