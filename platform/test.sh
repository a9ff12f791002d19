#!/usr/bin/env bash
# Installs what the tests need and runs them all, the real window under a virtual display included.
# Screenshots land in artefacts/.
set -euo pipefail
cd "$(dirname "$0")/.."
source platform/install.sh
need "${WINDOW_PACKAGES[@]}" xvfb xdotool imagemagick x11-utils chromium fonts-dejavu-core
need_rust
# The core alone must not need a window's libraries.
if cargo tree --locked --no-default-features --edges normal --prefix none | grep -E '^(gtk|wry|webkit2gtk|dioxus)'; then
    echo "these come with the core, without the feature \"app\"" >&2
    exit 1
fi
cargo test --locked
platform/judge.sh
# Pictures of every screen, for a person to look at: artefacts/look.
platform/look.sh >/dev/null
# Every line of the app for Android, type-checked only: the C compiler in it is a stub for a check,
# and nothing is linked or run.
platform/android/native/check.sh
# The shell of the package for Android: its byte code against what Android publishes, and run. The whole
# proof (platform/android/prove.sh) builds the page first and works the job in it: by hand.
platform/android/prove.sh --quick
