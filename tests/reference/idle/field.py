"""Writes field.csv: magnetising current of whole E-I cores by plane finite elements, 1.2 to 1.75 T.

One half of a core (x = 0 is the middle of the tongue), with air round it, the sheets stacked to 0.95: along
them B = 0.95 B(H) + 0.05 mu0 H, with B(H) of the grade's table. The joint to the I is open by a gap in all
three legs. The coil fills the window's width, from the yoke of the E up to its height. The vector potential
is solved on a grid of rectangles, second order, by Newton's method on H(B), for rising ampere-turns; the
linkage of the mean turn against them is inverted (monotone cubic), and the r.m.s. and the peak follow from 720
instants of a sinusoidal linkage of 250 turns whose peak is the flux density times the net section of the tongue.
"""

import csv
import pathlib
import sys

import numpy as np
from scipy.interpolate import PchipInterpolator
from skfem import Basis, BilinearForm, ElementQuad2, LinearForm, MeshQuad, condense, solve

HERE = pathlib.Path(__file__).parent
sys.path.insert(0, str(HERE.parent / "steel"))
import steel

MU_0 = steel.MU_0
STACKING = 0.95
TURNS = 250
# grade, tongue, stack, window's width and height, limb, yoke, gap, coil's height (mm)
CASES = [
    ("M530-50A", 30, 50, 15, 45, 15, 15, 0.06, 45),
    ("M530-50A", 30, 50, 15, 45, 15, 15, 0.06, 18),
    ("M400-50A", 32, 60, 17, 50, 16, 16, 0.06, 22),
    ("M19", 38, 70, 19, 57, 19, 19, 0.02, 25),
    ("M800-50A", 30, 50, 15, 45, 15, 15, 0.12, 30),
    ("M530-50A", 30, 50, 15, 45, 13, 17, 0.06, 18),
    ("M400-50A", 25, 40, 25, 60, 12.5, 12.5, 0.06, 30),
]
DENSITIES = [1.2, 1.4, 1.55, 1.65, 1.75]


def material(grade):
    """Reluctivity and dH/dB of the stack by its gross flux density."""
    sheet = np.linspace(0, 2.6, 10401)
    field = steel.field_curve(grade)(sheet)
    gross = STACKING * sheet + (1 - STACKING) * MU_0 * field
    b = np.linspace(0, 2.6, 5201)
    h = np.interp(b, gross, field)
    nu = h / np.maximum(b, 1e-12)
    nu[0] = nu[1]
    return b, nu, np.gradient(h, b)


def line(*pieces):
    """Grid lines through (start, end, count) pieces, in mm."""
    out = [np.linspace(a, b, n + 1) for a, b, n in pieces]
    return np.unique(np.round(np.concatenate(out), 6)) * 1e-3


class Core:
    def __init__(self, grade, tongue, stack, ww, wh, limb, yoke, gap, coil):
        half, out = tongue / 2, tongue / 2 + ww
        right, top, joint = out + limb, yoke + coil, yoke + wh
        x = line((0, half, 6), (half, out, 6), (out, right, 6), (right, right + 60, 5))
        upper = [(top, joint, 8)] if top < joint else []
        y = line((-60, 0, 5), (0, yoke, 6), (yoke, top, 8), *upper, (joint, joint + gap, 1),
                 (joint + gap, joint + gap + yoke, 6), (joint + gap + yoke, joint + gap + yoke + 60, 5))
        self.stack = stack * 1e-3
        self.curve = material(grade)
        self.mesh = MeshQuad.init_tensor(x, y)
        self.basis = Basis(self.mesh, ElementQuad2())
        mx, my = self.mesh.p[:, self.mesh.t].mean(axis=1) * 1e3
        leg = ((mx < half) | ((mx > out) & (mx < right))) & (my > 0) & (my < joint)
        yokes = (mx < right) & (((my > 0) & (my < yoke)) | ((my > joint + gap) & (my < joint + gap + yoke)))
        winding = (mx > half) & (mx < out) & (my > yoke) & (my < top)
        ones = np.ones((1, self.basis.X.shape[1]))
        self.iron = (leg | yokes)[:, None] * ones
        density = (winding / (ww * (top - yoke) * 1e-6))[:, None] * ones

        @LinearForm
        def source(v, w):
            return w.j * v

        self.load = source.assemble(self.basis, j=density)
        p = self.mesh.p
        # A = 0 on the tongue's middle line (a flux line by symmetry) and far away.
        self.fixed = self.basis.get_dofs(
            lambda q: np.isclose(q[0], 0) | np.isclose(q[0], p[0].max())
            | np.isclose(q[1], p[1].min()) | np.isclose(q[1], p[1].max())
        ).all()
        self.free = np.setdiff1d(np.arange(self.basis.N), self.fixed)
        self.a = np.zeros(self.basis.N)

    def inner(self, a):
        b, nu, _ = self.curve

        @LinearForm
        def form(v, w):
            ga = w.a.grad
            size = np.sqrt(ga[0] ** 2 + ga[1] ** 2) + 1e-12
            r = np.where(w.iron > 0.5, np.interp(size, b, nu), 1 / MU_0)
            return r * (ga[0] * v.grad[0] + ga[1] * v.grad[1])

        return form.assemble(self.basis, a=self.basis.interpolate(a), iron=self.iron)

    def tangent(self, a):
        b, nu, slope = self.curve

        @BilinearForm
        def form(u, v, w):
            gu, gv, ga = u.grad, v.grad, w.a.grad
            size = np.sqrt(ga[0] ** 2 + ga[1] ** 2) + 1e-12
            r = np.where(w.iron > 0.5, np.interp(size, b, nu), 1 / MU_0)
            s = np.where(w.iron > 0.5, np.interp(size, b, slope), 1 / MU_0)
            along = (ga[0] * gu[0] + ga[1] * gu[1]) * (ga[0] * gv[0] + ga[1] * gv[1]) / size**2
            return r * (gu[0] * gv[0] + gu[1] * gv[1]) + (s - r) * along

        return form.assemble(self.basis, a=self.basis.interpolate(a), iron=self.iron)

    def linkage(self, ampere_turns):
        """Webers in the mean turn; begins at the last answer."""
        size = np.linalg.norm(self.load[self.free] * ampere_turns)
        residual = self.load * ampere_turns - self.inner(self.a)
        for _ in range(150):
            off = np.linalg.norm(residual[self.free])
            if off < 1e-5 * size:
                return 2 * (self.load @ self.a) * self.stack
            step = solve(*condense(self.tangent(self.a), residual, D=self.fixed))
            for damping in (1.0, 0.5, 0.25, 0.1, 0.03):
                trial = self.a + damping * step
                after = self.load * ampere_turns - self.inner(trial)
                if np.linalg.norm(after[self.free]) < off:
                    break
            self.a, residual = trial, after
        raise RuntimeError(f"no answer at {ampere_turns}: {off / size}")


def main():
    with open(HERE / "field.csv", "w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow("grade,tongue mm,stack mm,window width mm,window height mm,limb mm,yoke mm,gap mm,coil mm,"
                     "peak T,rms A,peak A".split(","))
        for case in CASES:
            core = Core(*case)
            area = case[1] * case[2] * 1e-6 * STACKING
            driven, linked = [0.0], [0.0]
            for ampere_turns in 20 * 1.35 ** np.arange(30):
                driven.append(ampere_turns)
                linked.append(core.linkage(ampere_turns))
                print(case, f"{ampere_turns:.0f} {linked[-1] / area:.4f}", file=sys.stderr, flush=True)
                if linked[-1] > 1.02 * DENSITIES[-1] * area:
                    break
            current = PchipInterpolator(linked, driven)
            for density in DENSITIES:
                angle = np.arange(720) * np.pi / 1440
                amps = current(density * area * np.sin(angle)) / TURNS
                rms, peak = np.sqrt(np.mean(amps**2)), float(current(density * area)) / TURNS
                out.writerow(list(case) + [density, f"{rms:.5g}", f"{peak:.5g}"])
            file.flush()


if __name__ == "__main__":
    main()
