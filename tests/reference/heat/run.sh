#!/bin/sh
# scipy's integration of the heating network, into network.csv.
set -eu
cd "$(dirname "$0")"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
python3 -m venv "$folder/venv"
"$folder/venv/bin/pip" install -q numpy==2.4.6 scipy==1.17.1
"$folder/venv/bin/python" network.py
