#!/bin/sh
# Interpolated field strengths and losses by scipy's PchipInterpolator, from magnetisation.csv and
# loss.csv. Needs python3 with venv; everything else goes into a temporary folder.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
tmp=$(mktemp -d)
trap 'rm -rf "$tmp"' EXIT
python3 -m venv "$tmp/venv"
"$tmp/venv/bin/pip" install --quiet numpy==2.4.6 scipy==1.17.1
"$tmp/venv/bin/python" "$here/interpolate.py"
