"""Corners and outlines that OpenCV finds in the pictures beside this script, into find.csv.

The pictures: scikit-image's checkerboard warped by a known homography, a rectangle and an ellipse
drawn in linear light by numpy, one coin of scikit-image's `coins` (a photo). Each line of the
file: picture, what, numbers in pixels from the centre of the upper left pixel.
"""

import csv

import cv2
import numpy as np
import skimage.data

rng = np.random.default_rng(7)


def encoded(light):
    """sRGB (IEC 61966-2-1), 8 bits."""
    light = np.clip(light, 0, 1)
    value = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    return np.clip(np.round(255 * value), 0, 255).astype(np.uint8)


def linear(gray):
    value = gray / 255
    return np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)


def photographed(inside, width, height, dark, bright, fine=8):
    """A shape in linear light, sampled fine x fine to the pixel, blurred and with noise."""
    x = (np.arange(width * fine) + 0.5) / fine - 0.5
    y = (np.arange(height * fine) + 0.5) / fine - 0.5
    share = inside(*np.meshgrid(x, y)).astype(float)
    share = share.reshape(height, fine, width, fine).mean(axis=(1, 3))
    light = cv2.GaussianBlur(dark + (bright - dark) * share, (0, 0), 0.9)
    return encoded(light + rng.normal(0, 0.004, light.shape))


rows = []


def board():
    flat = skimage.data.checkerboard()
    half = np.array([[0, 0], [200, 0], [200, 200], [0, 200]], np.float32)
    seen = np.array([[70, 45], [318, 62], [338, 268], [52, 238]], np.float32)
    to_seen = cv2.getPerspectiveTransform(half, seen)
    # Four times as fine, then the mean of 4 x 4.
    finer = np.array([[4, 0, 0], [0, 4, 0], [0, 0, 1.0]]) @ to_seen
    # White beyond the squares: a corner needs all four.
    warped = cv2.warpPerspective(flat, finer, (1600, 1200), flags=cv2.INTER_NEAREST, borderValue=255)
    gray = cv2.GaussianBlur(cv2.resize(warped, (400, 300), interpolation=cv2.INTER_AREA), (0, 0), 0.8)
    gray = np.clip(0.75 * gray + 25 + rng.normal(0, 1.5, gray.shape), 0, 255).round().astype(np.uint8)
    cv2.imwrite("board.png", gray)
    found, corners = cv2.findChessboardCorners(gray, (7, 7))
    assert found
    stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 100, 1e-4)
    corners = cv2.cornerSubPix(gray, corners, (7, 7), (-1, -1), stop)
    for corner in corners.reshape(-1, 2):
        rows.append(["board", "corner", *corner])


def rectangle():
    size = np.array([[0, 0], [60, 0], [60, 40], [0, 40]], np.float32)
    # A camera of 420 pixels' focal length, turned about all three axes, 120 mm away.
    turn, _ = cv2.Rodrigues(np.array([0.3, -0.2, 0.15]))
    camera = np.array([[420, 0, 199.5], [0, 420, 149.5], [0, 0, 1.0]])
    lens = np.zeros(5)
    flat = np.column_stack([size - [30, 20], np.zeros(4)]).astype(float)
    seen, _ = cv2.projectPoints(flat, cv2.Rodrigues(turn)[0], np.array([2.0, -1.5, 120.0]), camera, lens)
    seen = seen.reshape(4, 2).astype(np.float32)
    back = cv2.getPerspectiveTransform(seen, size)

    def inside(x, y):
        w = back[2, 0] * x + back[2, 1] * y + back[2, 2]
        u = (back[0, 0] * x + back[0, 1] * y + back[0, 2]) / w
        v = (back[1, 0] * x + back[1, 1] * y + back[1, 2]) / w
        return (u > 0) & (u < 60) & (v > 0) & (v < 40)

    gray = photographed(inside, 400, 300, 0.12, 0.6)
    cv2.imwrite("rectangle.png", gray)
    # Its sides' lines, by fitLine on the half-level contour in linear light, eight times as fine.
    contour = half_level(gray)
    corners = seen
    lines = []
    for index in range(4):
        a, b = corners[index], corners[(index + 1) % 4]
        along = (b - a) / np.linalg.norm(b - a)
        t = (contour - a) @ along / np.linalg.norm(b - a)
        off = np.abs((contour - a) @ np.array([-along[1], along[0]]))
        near = contour[(t > 0.1) & (t < 0.9) & (off < 3)].astype(np.float32)
        lines.append(cv2.fitLine(near, cv2.DIST_HUBER, 0, 1e-3, 1e-3).ravel())
    for index in range(4):
        one, two = lines[index - 1], lines[index]
        t = np.linalg.solve(np.array([one[:2], -two[:2]]).T, two[2:] - one[2:])
        rows.append(["rectangle", "corner", *(one[2:] + t[0] * one[:2])])


def half_level(gray):
    """The outline at half the light between inside and outside."""
    fine = 8
    light = cv2.GaussianBlur(linear(gray).astype(np.float32), (0, 0), 0.7)
    large = cv2.resize(light, None, fx=fine, fy=fine, interpolation=cv2.INTER_LINEAR)
    level = (np.percentile(light, 5) + np.percentile(light, 95)) / 2
    contours, _ = cv2.findContours((large > level).astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    inner = max(contours, key=len).reshape(-1, 2)
    contours, _ = cv2.findContours((large <= level).astype(np.uint8), cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    border = lambda c: (c.min() == 0)
    holes = [c.reshape(-1, 2) for c in contours if not border(c)]
    outer = max(holes, key=len)
    # The last bright and the first dark pixels lie half a fine pixel to either side of it.
    both = np.concatenate([inner, outer]).astype(float)
    return (both + 0.5) / fine - 0.5


def ellipse():
    centre, half, angle = (203.4, 151.7), (96.2, 84.9), 0.6

    def inside(x, y):
        x, y = x - centre[0], y - centre[1]
        u = (x * np.cos(angle) + y * np.sin(angle)) / half[0]
        v = (y * np.cos(angle) - x * np.sin(angle)) / half[1]
        return u * u + v * v < 1

    gray = photographed(inside, 400, 300, 0.1, 0.5)
    cv2.imwrite("ellipse.png", gray)
    (x, y), (one, two), degrees = cv2.fitEllipse(half_level(gray).astype(np.float32))
    long, short = max(one, two) / 2, min(one, two) / 2
    rows.append(["ellipse", "ellipse", x, y, long, short, np.radians(degrees + (90 if two > one else 0)) % np.pi])


def coin():
    gray = skimage.data.coins()[8:82, 297:375]
    gray = cv2.resize(gray, None, fx=2, fy=2, interpolation=cv2.INTER_CUBIC)
    cv2.imwrite("coin.png", gray)
    smooth = cv2.GaussianBlur(gray, (0, 0), 1.5)
    _, white = cv2.threshold(smooth, 0, 255, cv2.THRESH_OTSU)
    contours, _ = cv2.findContours(white, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    hull = cv2.convexHull(max(contours, key=cv2.contourArea))
    (x, y), (one, two), degrees = cv2.fitEllipse(hull)
    long, short = max(one, two) / 2, min(one, two) / 2
    rows.append(["coin", "ellipse", x, y, long, short, np.radians(degrees + (90 if two > one else 0)) % np.pi])


board()
rectangle()
ellipse()
coin()
with open("find.csv", "w", newline="") as file:
    writer = csv.writer(file, lineterminator="\n")
    for row in rows:
        writer.writerow([value if isinstance(value, str) else f"{value:.4f}" for value in row])
