#!/usr/bin/env bash
# Installs what the tests need and runs them all, those of the real window and of paper included.
# Screenshots land in artefacts/, and how long each phase took in artefacts/timing.txt.
#   platform/test.sh [--whole]   also the page as a phone works it, and the package and the native app
#                                for Android proved with all of it: an hour more
set -euo pipefail
cd "$(dirname "$0")/.."
source platform/install.sh
how=${1:-}
case $how in '' | --whole) ;; *) echo "unknown: $how" >&2; exit 1 ;; esac
mkdir -p artefacts
: >artefacts/timing.txt
phase() { # NAME COMMAND...
    local name=$1 from=$SECONDS
    shift
    "$@"
    printf '%5d s  %s\n' "$((SECONDS - from))" "$name" >>artefacts/timing.txt
}
trap 'echo; cat artefacts/timing.txt' EXIT

phase "packages" need "${WINDOW_PACKAGES[@]}" xvfb xdotool imagemagick x11-utils chromium python3 fonts-dejavu-core
need_rust
# The core alone must not need a window's libraries.
if cargo tree --locked --no-default-features --edges normal --prefix none | grep -E '^(gtk|wry|webkit2gtk|dioxus)'; then
    echo "these come with the core, without the feature \"app\"" >&2
    exit 1
fi
phase "build" cargo test --locked --no-run
phase "tests" cargo test --locked
# Those that need a display or a browser, which `cargo test` alone leaves out. The whole job in the real
# window takes a quarter of an hour: by hand.
phase "window and paper" cargo test --locked --test window --test print -- --ignored \
    --skip from_a_find_to_a_proved_core
phase "lints, documentation, licences" platform/judge.sh
# Every line of the app for Android, type-checked only: the C compiler in it is a stub for a check,
# and nothing is linked or run.
phase "check for Android" platform/android/native/check.sh
# The shell of the package for Android: its byte code against what Android publishes, and run. The whole
# proof works the job in the page, which takes a quarter of an hour to build.
if [ "$how" = --whole ]; then
    phase "page" platform/web/test.sh
    phase "package and native app for Android" platform/android/prove.sh --no-page
else
    phase "shell for Android" platform/android/prove.sh --quick
fi
