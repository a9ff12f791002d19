"""Writes place.csv: leakage by where the second coil lies and how full its room is.

Window 20 mm wide and 50 mm long, bounded by iron of infinite permeability, as in field.py. The first coil
stands at one end, 18 mm long; the second fills 20 to 100 % of the rest, 2 mm of insulation between:
"beside" begins next to the first coil and leaves the rest empty, "far" ends at the other yoke.
"over": the first coil is 8 mm thick, the second lies round it, 1 mm away, in 11 mm of width.
Breadths are the coils' extents along the leakage field, the second's and the first's. Coils of one breadth,
and one over the other, stand in the middle; others begin together, 1 mm from the tongue.
"outside": the same coils in front of the stack, 1 mm from the tongue's face.
Last column: the change of the inside, in per cent, when the elements are 0.3 instead of 0.6 mm.
"""

import csv
import pathlib

import field

WIDTH, LENGTH = 20.0, 50.0
BREADTHS = {
    "beside": ((20, 20), (16, 16), (12, 18), (8, 18)),
    "far": ((20, 20), (16, 16), (12, 18), (8, 18)),
    "over": ((50, 50), (45, 45), (48, 30), (48, 20)),
}


def boxes(place, fill, breadth, first_breadth):
    """First and second coil: (x0, x1, y0, y1) in mm."""
    room = LENGTH if place == "over" else WIDTH
    in_the_middle = place == "over" or breadth == first_breadth
    first, second = (
        ((room - wide) / 2, (room + wide) / 2) if in_the_middle else (1, 1 + wide) for wide in (first_breadth, breadth)
    )
    if place == "over":
        return (0, 8, *first), (9, 9 + 11 * fill, *second)
    long = (LENGTH - 20) * fill
    begin = 20 if place == "beside" else LENGTH - long
    return (*first, 0, 18), (*second, begin, begin + long)


def in_front(box, start):
    """A box moved along x so that the innermost one begins 1 mm from the tongue's face."""
    return (box[0] - start + 1, box[1] - start + 1, box[2], box[3])


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
        out.writerow("place,fill,breadth,first breadth,inside nH,outside nH,refinement %".split(","))
        for place, pairs in BREADTHS.items():
            for breadth, first_breadth in pairs:
                for fill in (0.2, 0.4, 0.6, 0.8, 1.0):
                    first, second = boxes(place, fill, breadth, first_breadth)
                    window = (WIDTH, LENGTH)
                    plain = field.leakage(first, second, window)
                    change = 100 * (fine(first, second, window) / plain - 1)
                    start = min(first[0], second[0])
                    outside = field.leakage(in_front(first, start), in_front(second, start))
                    row = [place, fill, breadth, first_breadth, f"{plain:.6g}", f"{outside:.6g}", f"{change:.3f}"]
                    out.writerow(row)
                    file.flush()
