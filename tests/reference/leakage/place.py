"""Writes place.csv: leakage inside the window by where the second coil lies and how full its room is.

Window 20 mm wide and 50 mm long, bounded by iron of infinite permeability, as in field.py. The first coil
stands at one end, 18 mm long; the second fills 20 to 100 % of the rest, 2 mm of insulation between:
"beside" begins next to the first coil and leaves the rest empty, "far" ends at the other yoke.
"over": both coils are as long as their breadth, the first is 8 mm thick, the second lies round it, 1 mm away, in 11 mm of width.
Last column: the change, in per cent, when the elements are 0.3 instead of 0.6 mm.
"""

import csv
import pathlib

import field

WIDTH, LENGTH = 20.0, 50.0


def boxes(place, fill, breadth):
    """First and second coil: (x0, x1, y0, y1) in mm."""
    x = (WIDTH - breadth) / 2
    if place == "over":
        y = (LENGTH - breadth) / 2
        return (0, 8, y, y + breadth), (9, 9 + 11 * fill, y, y + breadth)
    room = LENGTH - 20
    start = 20 if place == "beside" else LENGTH - room * fill
    return (x, x + breadth, 0, 18), (x, x + breadth, start, start + room * fill)


def fine(*given):
    """The same with elements of half the size."""
    coarse = field.axis
    field.axis = lambda marks, step, far=None: coarse(marks, step / 2, far)
    try:
        return field.leakage(*given)
    finally:
        field.axis = coarse


if __name__ == "__main__":
    with open(pathlib.Path(__file__).parent / "place.csv", "w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow("place,fill,breadth,nanohenries,refinement %".split(","))
        for place, breadths in (("beside", (20, 16)), ("far", (20, 16)), ("over", (50, 45))):
            for breadth in breadths:
                for fill in (0.2, 0.4, 0.6, 0.8, 1.0):
                    first, second = boxes(place, fill, breadth)
                    window = (WIDTH, LENGTH)
                    plain = field.leakage(first, second, window)
                    change = 100 * (fine(first, second, window) / plain - 1)
                    out.writerow([place, fill, breadth, f"{plain:.6g}", f"{change:.3f}"])
                    file.flush()
