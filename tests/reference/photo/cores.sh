#!/bin/sh
# Renders cores, finds the face in each by itself and prints what was found and how it was flagged.
#   tests/reference/photo/cores.sh [seed [photos]]
# PICTURES=folder keeps the photos there and takes them from there the next time.
set -eu
cd "$(dirname "$0")/../../.."
SEED=${1:-1} SCENES=${2:-200} cargo test --release --locked --no-default-features --test reference -- \
    --ignored --nocapture photo_scenes::core_series::whole_cores
