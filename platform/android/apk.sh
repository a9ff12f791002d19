#!/usr/bin/env bash
# Builds the page of platform/web as an app for Android, from Debian's packages alone: the page and a
# web view that shows it (shell/). target/android-page/curbcore.apk, signed with a key for tests that
# is made here and kept in target/. Needs neither NDK nor SDK. Never run on a phone yet.
#   platform/android/apk.sh [--no-page]   with the page that is already in target/web/page
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
need aapt zipalign apksigner libsmali-java dexdump android-framework-res openjdk-17-jdk-headless
[ "${1:-}" = --no-page ] || platform/web/build.sh
[ -s target/web/page/index.html ] || { echo "platform/web/build.sh first" >&2; exit 1; }

shell=platform/android/shell
work=target/android-page/work
key=target/android-page/test.jks
apk=target/android-page/curbcore.apk
rm -rf "$work"
mkdir -p "$work/assets" "$work/res/xml"
cp -R target/web/page "$work/assets/page"
# In the package there is nothing to keep for offline.
rm "$work/assets/page/worker.js"

smali assemble --api 24 -o "$work/classes.dex" "$shell"/code/*.smali

# Icons are those of the other app; its colours and theme are not: they need a library.
for folder in drawable mipmap-anydpi mipmap-anydpi-v26; do
    cp -R "platform/android/res/$folder" "$work/res/"
done
cp -R "$shell/res/." "$work/res/"
# This aapt is of Android 10: what newer ones added (icons in one colour) it does not know.
sed -i '/<monochrome/d' "$work/res/mipmap-anydpi-v26/curbcore.xml"
# The table of resources must lie open in the package for Android 11 and later.
aapt package -f -M "$shell/AndroidManifest.xml" -S "$work/res" -A "$work/assets" -0 arsc \
    -I /usr/share/android-framework-res/framework-res.apk -F "$work/plain.apk" >"$work/aapt.log" ||
    { cat "$work/aapt.log"; exit 1; }
(cd "$work" && aapt add plain.apk classes.dex >/dev/null)
zipalign -f -p 4 "$work/plain.apk" "$work/aligned.apk"

[ -s "$key" ] || keytool -genkeypair -keystore "$key" -storepass for-tests -alias test -keyalg RSA \
    -keysize 2048 -validity 10000 -dname "CN=Curbcore test" >/dev/null 2>&1
apksigner sign --ks "$key" --ks-pass pass:for-tests --min-sdk-version 24 --out "$apk" "$work/aligned.apk"
rm -f "$apk.idsig"

# What a person would be asked to trust: who signed it, and what it may do.
apksigner verify --min-sdk-version 24 --verbose "$apk" | grep '^Verified using v2'
zipalign -c -p 4 "$apk"
if aapt dump permissions "$apk" | grep uses-permission; then
    echo "it asks for a permission" >&2
    exit 1
fi
listed=$(aapt list "$apk")
for part in assets/page/index.html assets/page/curbcore-web_bg.wasm classes.dex resources.arsc; do
    grep -qx "$part" <<<"$listed" || { echo "$part is missing" >&2; exit 1; }
done
rm -rf "$work"
echo "$apk: $(stat -c %s "$apk") bytes, no permission"
