#!/usr/bin/env bash
# How soon the window shows something, and what memory it takes then, side by side with an empty
# Dioxus window of the same kind: cold (the disk's cache emptied before, which needs root) and warm.
# Fails where the app takes more than 1.3 times the empty window's time to its first paint. Told too: the
# same beside an empty window painted by the processor, as the app is.
#
# Figures are in README.md.
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
need "${WINDOW_PACKAGES[@]}" xvfb python3
need_rust
release_cargo build --bin curbcore --bin curbcore-window --example empty_window
exec /usr/bin/python3 platform/desktop/start.py target/release/curbcore target/release/examples/empty_window
