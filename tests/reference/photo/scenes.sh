#!/bin/sh
# Takes and measures the whole series of rendered photos and prints what came of each.
#   tests/reference/photo/scenes.sh [seed [photos]]
# PICTURES=folder keeps the photos there and takes them from there the next time.
set -eu
cd "$(dirname "$0")/../../.."
SEED=${1:-1} SCENES=${2:-500} cargo test --release --locked --no-default-features --test reference -- \
    --ignored --nocapture photo_scenes::series::whole
