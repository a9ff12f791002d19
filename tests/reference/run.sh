#!/bin/sh
# Makes the outside values again: all topics, or those named.
#   tests/reference/run.sh [topic ...]
# Each topic installs its own tools (PyPI packages into a temporary folder, ngspice through apt)
# and rewrites the data files beside its script. `cargo test` only reads those files.
set -eu
cd "$(dirname "$0")"
if [ "$#" -eq 0 ]; then
    set -- */
fi
for topic in "$@"; do
    topic=${topic%/}
    if [ ! -f "$topic/run.sh" ]; then
        echo "no topic \"$topic\"; there are: $(ls -d */ | tr -d / | tr '\n' ' ')" >&2
        exit 2
    fi
    echo "== $topic"
    sh "$topic/run.sh"
done
