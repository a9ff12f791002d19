"""Corners that OpenCV finds in the photos of the folder real/, into real.csv.

The photos: a checkerboard of 9 x 6 inner corners held before a camera, the left camera's set of
OpenCV's calibration example, as Debian's package opencv-doc 4.6.0 ships it (examples/data,
Apache-2.0; copied unchanged). Its squares are as wide as they are high; how large they are is not
said, so a square is the unit. Each line: photo, column, row, place in pixels.
"""

import csv
import pathlib

import cv2

stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 100, 1e-4)
with open("real.csv", "w", newline="") as file:
    writer = csv.writer(file, lineterminator="\n")
    for path in sorted(pathlib.Path("real").glob("*.jpg")):
        gray = cv2.imread(str(path), cv2.IMREAD_GRAYSCALE)
        found, corners = cv2.findChessboardCorners(gray, (9, 6))
        assert found, path
        corners = cv2.cornerSubPix(gray, corners, (5, 5), (-1, -1), stop).reshape(-1, 2)
        for index, (x, y) in enumerate(corners):
            writer.writerow([path.stem, index % 9, index // 9, f"{x:.4f}", f"{y:.4f}"])
