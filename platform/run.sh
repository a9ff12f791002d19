#!/usr/bin/env bash
# Installs what is missing, builds Curbcore and opens it. Anything behind the name goes to it:
# platform/run.sh demo, platform/run.sh --window 360x800.
set -euo pipefail
cd "$(dirname "$0")/.."
source platform/install.sh
need "${WINDOW_PACKAGES[@]}"
need_rust
release_cargo build
exec target/release/curbcore "$@"
