#!/usr/bin/env bash
# How large the native app's shared library is: links it as build.sh release does, for measure only.
set -euo pipefail
cd "$(dirname "$0")/../../.."
source platform/install.sh
source platform/android/native/stand-in.sh
source platform/android/native/small.sh
link_library --release
library=$CARGO_TARGET_DIR/aarch64-linux-android/release/curbcore-phone
bytes=$(stat -c %s "$library")
echo "for measure only, never to ship: $bytes bytes, $(gzip -9 -c "$library" | wc -c) packed"
[ "$bytes" -lt 9000000 ] || { echo "9 MB or more" >&2; exit 1; }
