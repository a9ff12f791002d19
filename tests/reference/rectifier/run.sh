#!/bin/sh
# ngspice's answers to the cases in cases.py, into cases.csv.
set -eu
cd "$(dirname "$0")"
command -v ngspice >/dev/null || apt-get install -y --no-install-recommends ngspice
python3 cases.py
