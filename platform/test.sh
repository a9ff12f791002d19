#!/usr/bin/env bash
# Installs what the tests need and runs them all: the core without a window, then everything,
# the real window under a virtual display included. Screenshots land in artefacts/.
set -euo pipefail
cd "$(dirname "$0")/.."
source platform/install.sh
need "${WINDOW_PACKAGES[@]}" xvfb xdotool imagemagick x11-utils
need_rust
cargo test --locked --no-default-features --lib
cargo test --locked
