#!/bin/sh
# OpenCV's planes, poses and lenses, into homography.csv, pose.csv and lens.csv; its corners and
# outlines in four pictures, into find.csv; its corners in thirteen real photos, into real.csv.
set -eu
cd "$(dirname "$0")"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
python3 -m venv "$folder/venv"
"$folder/venv/bin/pip" install -q -r requirements.txt
"$folder/venv/bin/python" homography.py
"$folder/venv/bin/python" corners.py
"$folder/venv/bin/python" real.py
