#!/usr/bin/env bash
# Pictures of every screen that the screens' test rendered (artefacts/html), light and dark, as a
# phone (360 by 800) and a desktop (1280 by 800) show them first, and in their whole length:
# artefacts/look/. For a person to look at; made on demand, with one start of a browser.
#   cargo test --no-default-features --features ui --test screens
#   platform/look.sh [WORD]   only the renderings whose name has WORD in it
set -euo pipefail
cd "$(dirname "$0")/.."
source platform/install.sh
need chromium python3 fonts-dejavu-core
python3 platform/look.py artefacts/look artefacts/html/*"${1:-}"*.html
echo "artefacts/look"
