#!/bin/sh
# Idle currents of a gapped core by numpy: own path, own quadrature, Fourier coefficients; and the flux
# across the window and the idle current of saturating cores by plane finite elements (minutes).
set -eu
here=$(cd "$(dirname "$0")" && pwd)
tmp=$(mktemp -d)
trap 'rm -rf "$tmp"' EXIT
python3 -m venv "$tmp/venv"
"$tmp/venv/bin/pip" install --quiet numpy==2.4.6 scipy==1.17.1 scikit-fem==12.0.2
PYTHONPATH="$here/../steel" "$tmp/venv/bin/python" "$here/idle.py"
PYTHONPATH="$here/../steel" "$tmp/venv/bin/python" "$here/window.py"
PYTHONPATH="$here/../steel" "$tmp/venv/bin/python" "$here/field.py"
