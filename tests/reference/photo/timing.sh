#!/bin/sh
# A photo of 12 megapixels from the file to the reference found, by this program and by OpenCV, one
# after the other on one core each.
set -eu
cd "$(dirname "$0")"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
python3 -m venv "$folder/venv"
"$folder/venv/bin/pip" install -q -r requirements.txt
cd ../../..
cargo run --release --locked --no-default-features --example bench_photo -- "$folder/photo.jpg"
taskset -c 0 cargo bench --locked --no-default-features --bench photo
taskset -c 0 "$folder/venv/bin/python" tests/reference/photo/timing.py "$folder/photo.jpg"
