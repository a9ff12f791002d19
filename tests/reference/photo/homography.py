"""Planes seen by cameras, by OpenCV: what the photo room's geometry is compared with.

homography.csv: 50 planes, each from 4 exact or 5 to 20 noisy pairs; findHomography with method 0
(all points, least squares in the picture), its nine numbers, and the sides of a marked
quadrilateral through perspectiveTransform with the inverse.

pose.csv: 30 cameras above a rectangle; the pose by solvePnP (IPPE) from its four corners, then
the ends of segments on a plane raised or lowered, by projectPoints.

lens.csv: 20 lattices and 3 straight edges through projectPoints with a Brown coefficient k1,
which is not the project's own model of a lens.

Rows: case, what, up to four numbers.
"""
import csv

import cv2
import numpy as np

random = np.random.default_rng(7)
WIDTH, HEIGHT = 4000, 3000
CENTRE = np.array([(WIDTH - 1) / 2, (HEIGHT - 1) / 2])


def camera(lean):
    """A camera matrix, a rotation vector and a translation, looking near (60, 40)."""
    f = random.uniform(2600, 4200)
    matrix = np.array([[f, 0, CENTRE[0]], [0, f, CENTRE[1]], [0, 0, 1]])
    way, angle = random.uniform(0, 2 * np.pi), random.uniform(0, lean)
    tilt, _ = cv2.Rodrigues(angle * np.array([np.cos(way), np.sin(way), 0.0]))
    roll, _ = cv2.Rodrigues(np.array([0, 0, random.uniform(-np.pi, np.pi)]))
    rotation = tilt @ roll
    away = np.array([random.uniform(-30, 30), random.uniform(-30, 30), random.uniform(300, 500)])
    translation = away - rotation @ np.array([60.0, 40.0, 0.0])
    return matrix, cv2.Rodrigues(rotation)[0], translation


def seen(points, eye, distortion=None):
    """Pictures of points (x, y, up towards the camera)."""
    matrix, rotation, translation = eye
    space = np.array([(x, y, -up) for x, y, up in points])
    return cv2.projectPoints(space, rotation, translation, matrix, distortion)[0].reshape(-1, 2)


def quadrilateral():
    middle = random.uniform([0, 0], [150, 110])
    turn = random.uniform(0, 2 * np.pi)
    angles = turn + np.array([0.0, 1.5, 3.0, 4.6]) + random.uniform(-0.3, 0.3, 4)
    return middle + random.uniform(15, 45, (4, 1)) * np.stack([np.cos(angles), np.sin(angles)], axis=1)


def write(name, rows):
    with open(name, "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(["case", "what", "a", "b", "c", "d"])
        for case, what, *numbers in rows:
            cells = [f"{x:.12g}" for x in numbers]
            writer.writerow([case, what, *cells, *[""] * (4 - len(cells))])


def homographies():
    for case in range(50):
        eye = camera(np.radians(60))
        if case % 2 == 0:
            w, h = random.uniform(20, 220), random.uniform(20, 220)
            plane = np.array([[0, 0], [w, 0], [w, h], [0, h]])
            noise = 0.0
        else:
            plane = random.uniform([0, 0], [160, 120], (random.integers(5, 21), 2))
            noise = 1.0
        picture = seen([(x, y, 0) for x, y in plane], eye) + noise * random.standard_normal(plane.shape)
        # findHomography works on single precision points: give both sides the same ones.
        plane, picture = (points.astype(np.float32).astype(float) for points in (plane, picture))
        found, _ = cv2.findHomography(plane, picture, 0)
        for (x, y), (u, v) in zip(plane, picture):
            yield case, "pair", x, y, u, v
        for row in found:
            yield case, "row", *row
        marks = np.round(seen([(x, y, 0) for x, y in quadrilateral()], eye), 6)
        flat = cv2.perspectiveTransform(marks.reshape(-1, 1, 2), np.linalg.inv(found)).reshape(-1, 2)
        for index, (u, v) in enumerate(marks):
            yield case, "mark", u, v, np.linalg.norm(flat[(index + 1) % 4] - flat[index])


def poses():
    for case in range(30):
        eye = camera(np.radians(45))
        w, h = random.uniform(50, 220), random.uniform(50, 220)
        up = random.uniform(-40, 40)
        corners = np.array([[0, 0, 0], [w, 0, 0], [w, h, 0], [0, h, 0]], dtype=float)
        picture = seen(corners, eye)
        good, rotation, translation = cv2.solvePnP(corners, picture, eye[0], None, flags=cv2.SOLVEPNP_IPPE)
        assert good
        again = (eye[0], rotation, translation.reshape(3))
        yield case, "size", w, h, up, eye[0][0, 0]
        for u, v in picture:
            yield case, "corner", u, v
        ends = random.uniform([-30, -30], [150, 120], (2, 2))
        for u, v in seen([(x, y, up) for x, y in ends], again):
            yield case, "end", u, v
        sight = cv2.Rodrigues(rotation)[0] @ np.array([w / 2, h / 2, 0]) + translation.reshape(3)
        normal = cv2.Rodrigues(rotation)[0][:, 2]
        angle = np.degrees(np.arccos(abs(sight @ normal) / np.linalg.norm(sight)))
        yield case, "answer", np.linalg.norm(ends[1] - ends[0]), angle


def lenses():
    for case in range(20):
        eye = camera(np.radians(25))
        # k1 acts on (r / f)²; the corner is at half the diagonal.
        at_corner = random.uniform(-0.08, 0.04)
        k1 = at_corner / ((WIDTH**2 + HEIGHT**2) / 4 / eye[0][0, 0] ** 2)
        distortion = np.array([k1, 0, 0, 0, 0])
        noise = 0.3
        yield case, "lens", at_corner
        for column in range(9):
            for row in range(7):
                (place,) = seen([(column * 15.0, row * 15.0, 0)], eye, distortion)
                u, v = place + noise * random.standard_normal(2)
                yield case, "corner", column, row, u, v
        ends = random.uniform([-20, -20], [140, 110], (2, 2))
        for u, v in seen([(x, y, 0) for x, y in ends], eye, distortion):
            yield case, "end", u, v
        yield case, "answer", np.linalg.norm(ends[1] - ends[0])
        for edge, (x, y) in enumerate([(-60.0, -45.0), (-60.0, 130.0), (190.0, -45.0)]):
            dx, dy = (250.0, 0.0) if edge < 2 else (0.0, 180.0)
            for part in np.linspace(0, 1, 9):
                (place,) = seen([(x + part * dx, y + part * dy, 0)], eye, distortion)
                u, v = place + noise * random.standard_normal(2)
                yield case, "edge", edge, u, v


write("homography.csv", homographies())
write("pose.csv", poses())
write("lens.csv", lenses())
