#!/usr/bin/env bash
# Installs what the tests need and runs them all: the core builds without a window, then every
# test, the real window under a virtual display included. Screenshots land in artefacts/.
set -euo pipefail
cd "$(dirname "$0")/.."
source platform/install.sh
need "${WINDOW_PACKAGES[@]}" xvfb xdotool imagemagick x11-utils
need_rust
cargo check --locked --no-default-features
cargo test --locked
