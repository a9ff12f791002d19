#!/usr/bin/env bash
# Pictures of every screen that the screens' test rendered (artefacts/html), light and dark, as a
# phone (360 by 800) and a desktop (1280 by 800) show them first, and in their whole length:
# artefacts/look/. For a person to look at.
#   platform/look.sh [WORD]   only the renderings whose name has WORD in it
set -euo pipefail
cd "$(dirname "$0")/.."
source platform/install.sh
need chromium imagemagick fonts-dejavu-core
mkdir -p artefacts/look
profile=$(mktemp -d)
trap 'rm -rf "$profile"' EXIT
shoot() { # FILE WIDTH HEIGHT SCHEME (0 dark, 1 light) OUT
    chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --no-first-run \
        --disable-background-networking --disable-component-update --disable-sync \
        --user-data-dir="$profile" --blink-settings=preferredColorScheme="$4" \
        --window-size="$2,$3" --screenshot="$5" "file://$PWD/$1" >/dev/null 2>&1
}
whole() { # The same in its whole length: what is below the page's end is one colour, and cut off.
    shoot "$@"
    convert "$5" -gravity north -background black -define trim:edges=south -trim +repage "$5"
}
for file in artefacts/html/*"${1:-}"*.html; do
    name=$(basename "$file" .html)
    for scheme in light:1 dark:0; do
        light=${scheme%:*}
        shoot "$file" 360 800 "${scheme#*:}" "artefacts/look/$name-360x800-$light.png"
        shoot "$file" 1280 800 "${scheme#*:}" "artefacts/look/$name-1280x800-$light.png"
        whole "$file" 360 9000 "${scheme#*:}" "artefacts/look/$name-360-$light.png"
        whole "$file" 1280 5000 "${scheme#*:}" "artefacts/look/$name-1280-$light.png"
    done
done
echo "artefacts/look"
