#!/bin/sh
# First inrush peaks by ngspice: a nonlinear inductor as a behavioural source over the flux.
# Needs ngspice (Debian: apt-get install ngspice) and python3 with venv.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
command -v ngspice >/dev/null || apt-get install -y ngspice
tmp=$(mktemp -d)
trap 'rm -rf "$tmp"' EXIT
python3 -m venv "$tmp/venv"
"$tmp/venv/bin/pip" install --quiet numpy==2.4.6 scipy==1.17.1
cd "$tmp"
PYTHONPATH="$here/../steel" "$tmp/venv/bin/python" "$here/inrush.py"
