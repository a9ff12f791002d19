#!/usr/bin/env bash
# Builds the page and tests it as a phone: Chromium, which Android's web view is too, with a touch
# screen of a phone's size. Pictures of every screen land in artefacts/web.
#   platform/web/test.sh [FILE...]   only these files of platform/web/test
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
need chromium fonts-dejavu-core
command -v npm >/dev/null || need nodejs npm
platform/web/build.sh
# The desktop's program, which takes the phone's file in.
need_rust
CARGO_INCREMENTAL=0 cargo build --locked --no-default-features --bin curbcore
cd platform/web/test
npm ci --no-audit --no-fund --silent
if [ $# = 0 ]; then set -- *.test.js; fi
exec node --test --test-concurrency=1 "$@"
