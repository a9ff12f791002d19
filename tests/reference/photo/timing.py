"""The steps of the photo room in OpenCV, on one thread: decode, reduce, edges, four-sided outlines
of the right proportions, corners at full size. Prints the best and the median of nine runs.

    python timing.py photo.jpg
"""

import statistics
import sys
import time

import cv2
import numpy as np

cv2.setNumThreads(1)
data = np.frombuffer(open(sys.argv[1], "rb").read(), np.uint8)


def decoded():
    return cv2.imdecode(data, cv2.IMREAD_GRAYSCALE)


def found():
    full = decoded()
    factor = -(-max(full.shape) // 1600)
    small = cv2.resize(full, None, fx=1 / factor, fy=1 / factor, interpolation=cv2.INTER_AREA)
    smooth = cv2.GaussianBlur(small, (5, 5), 0)
    edges = cv2.dilate(cv2.Canny(smooth, 30, 90, L2gradient=True), None)
    contours, _ = cv2.findContours(edges, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
    best = None
    for contour in contours:
        if len(contour) < 80:
            continue
        outline = cv2.approxPolyDP(contour, 0.02 * cv2.arcLength(contour, True), True)
        if len(outline) == 4 and cv2.isContourConvex(outline):
            (_, size, _) = cv2.minAreaRect(outline)
            ratio = max(size) / max(min(size), 1)
            area = cv2.contourArea(outline)
            if 1.2 < ratio < 1.9 and (best is None or area > best[0]):
                best = area, outline
    corners = ((best[1].reshape(-1, 1, 2) + 0.5) * factor - 0.5).astype(np.float32)
    stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 40, 1e-3)
    return cv2.cornerSubPix(full, corners, (11, 11), (-1, -1), stop).reshape(-1, 2)


def timed(work):
    times = []
    for _ in range(9):
        start = time.perf_counter()
        work()
        times.append(1e3 * (time.perf_counter() - start))
    return f"{min(times):.0f} ms best, {statistics.median(times):.0f} ms median"


print("OpenCV", cv2.__version__, "corners", found().round(1).tolist())
print("decode          ", timed(decoded))
print("decode and find ", timed(found))
