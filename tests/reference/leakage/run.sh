#!/bin/sh
# Finite elements of two coils in a window, and the nonlinear shunt circuit in time, into
# field.csv and circuit.csv.
set -eu
cd "$(dirname "$0")"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
python3 -m venv "$folder/venv"
"$folder/venv/bin/pip" install -q scikit-fem==12.0.2 meshio==5.3.5 numpy==2.4.6 scipy==1.17.1
"$folder/venv/bin/python" field.py
"$folder/venv/bin/python" place.py
"$folder/venv/bin/python" circuit.py
