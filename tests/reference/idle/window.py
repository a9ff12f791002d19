"""Writes window.csv: flux linked by a coil in a saturating shell core, by plane finite elements.

One half of the core (x = 0 is the middle of the tongue): tongue 30, window 15 x 45, limbs and yokes
15 mm, 50 mm into the page, steel of full stacking with the curve of M530-50A, air up to 60 mm round it.
Vector potential on a grid of rectangles, second order, Newton's method on H(B). The joint to the I is
open by a gap in all three legs. The coil fills the window's width, over all of its height or only the 18 mm
next to the yoke of the E. Linkage is the flux of the mean turn, both windows, over the stack.
"""

import csv
import pathlib
import sys

import numpy as np
from skfem import Basis, BilinearForm, ElementQuad2, LinearForm, MeshQuad, condense, solve

sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "steel"))
import steel

MU_0 = steel.MU_0
STACK = 0.050
FIELD = steel.field_curve("M530-50A")
# H(B) by table, as its slope is wanted too.
B = np.linspace(0, 2.6, 5201)
H = FIELD(B)
SLOPE = np.gradient(H, B)
NU = H / np.maximum(B, 1e-12)
NU[0] = NU[1]


def line(*pieces):
    """Grid lines through (start, end, count) pieces, in mm."""
    out = [np.linspace(a, b, n + 1) for a, b, n in pieces]
    return np.unique(np.round(np.concatenate(out), 6)) * 1e-3


def grid(gap):
    x = line((0, 15, 6), (15, 30, 6), (30, 45, 6), (45, 105, 5))
    y = line((-60, 0, 5), (0, 15, 6), (15, 33, 6), (33, 60, 9), (60, 60 + gap, 1),
             (60 + gap, 75 + gap, 6), (75 + gap, 135 + gap, 5))
    return MeshQuad.init_tensor(x, y)


def run(gap, top, ampere_turns):
    """Linkage per turn in Wb for each of the ampere-turns, in rising order."""
    mesh = grid(gap)
    basis = Basis(mesh, ElementQuad2())
    x, y = mesh.p[:, mesh.t].mean(axis=1) * 1e3
    leg = ((x < 15) | ((x > 30) & (x < 45))) & (y > 0) & (y < 60)
    yoke = (x < 45) & (((y > 0) & (y < 15)) | ((y > 60 + gap) & (y < 75 + gap)))
    iron = leg | yoke
    coil = (x > 15) & (x < 30) & (y > 15) & (y < top)
    is_iron = iron[:, None] * np.ones((1, basis.X.shape[1]))
    density = coil / (0.015 * (top - 15) * 1e-3)
    in_coil = density[:, None] * np.ones((1, basis.X.shape[1]))

    @LinearForm
    def source(v, w):
        return w.j * v

    @BilinearForm
    def tangent(u, v, w):
        gu, gv, ga = u.grad, v.grad, w.a.grad
        size = np.sqrt(ga[0] ** 2 + ga[1] ** 2) + 1e-12
        nu = np.where(w.iron > 0.5, np.interp(size, B, NU), 1 / MU_0)
        slope = np.where(w.iron > 0.5, np.interp(size, B, SLOPE), 1 / MU_0)
        along = (ga[0] * gu[0] + ga[1] * gu[1]) * (ga[0] * gv[0] + ga[1] * gv[1]) / size**2
        return nu * (gu[0] * gv[0] + gu[1] * gv[1]) + (slope - nu) * along

    @LinearForm
    def inner(v, w):
        ga = w.a.grad
        size = np.sqrt(ga[0] ** 2 + ga[1] ** 2) + 1e-12
        nu = np.where(w.iron > 0.5, np.interp(size, B, NU), 1 / MU_0)
        return nu * (ga[0] * v.grad[0] + ga[1] * v.grad[1])

    load = source.assemble(basis, j=in_coil)
    # A = 0 on the tongue's middle line (a flux line by symmetry) and far away.
    fixed = basis.get_dofs(lambda p: np.isclose(p[0], 0) | np.isclose(p[0], mesh.p[0].max())
                           | np.isclose(p[1], mesh.p[1].min()) | np.isclose(p[1], mesh.p[1].max())).all()
    a = np.zeros(basis.N)
    found = []
    for wanted in ampere_turns:
        for _ in range(200):
            at = basis.interpolate(a)
            residual = load * wanted - inner.assemble(basis, a=at, iron=is_iron)
            free = np.setdiff1d(np.arange(basis.N), fixed)
            size = np.linalg.norm(residual[free]) / np.linalg.norm(load[free] * wanted)
            if size < 1e-5:
                break
            step = solve(*condense(tangent.assemble(basis, a=at, iron=is_iron), residual, D=fixed))
            best = 1.0
            for damping in (1.0, 0.5, 0.25, 0.1, 0.03):
                trial = load * wanted - inner.assemble(basis, a=basis.interpolate(a + damping * step), iron=is_iron)
                if np.linalg.norm(trial[free]) < np.linalg.norm(residual[free]):
                    best = damping
                    break
            a = a + best * step
        else:
            raise RuntimeError(f"no answer at {wanted}, {size}")
        # Mean over the coil of A, from the tongue's middle: half the flux of a turn per metre.
        mean = load @ a
        found.append(2 * mean * STACK)
    return found


if __name__ == "__main__":
    here = pathlib.Path(__file__).parent
    levels = [300, 700]
    with open(here / "window.csv", "w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["coil mm", "gap mm", "ampere-turns", "linkage per turn Wb"])
        for top in (60, 33):
            gap = 0.06
            for level, linkage in zip(levels, run(gap, top, levels)):
                out.writerow([top - 15, gap, level, f"{linkage:.6g}"])
                file.flush()
