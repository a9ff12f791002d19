#!/usr/bin/env bash
# Builds the page of platform/web as an app for Android, from Debian's packages alone: the page and a
# web view that shows it (shell/). target/android-page/curbcore.apk, signed with a key for tests that
# is made here and kept in target/. Needs neither NDK nor SDK.
#   platform/android/apk.sh [--no-page | --shell-only]
#     --no-page      with the page that is already in target/web/page
#     --shell-only   with the page's frame and an empty program: to check the shell, not to install
# With D8=/path/to/d8 (from the SDK's build-tools) the dex is made by that instead of Debian's dx.
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
source platform/android/api/fetch.sh
need aapt zipalign apksigner android-framework-res openjdk-17-jdk-headless python3
want api-29 api-34 dx
page=target/web/page
case "${1:-}" in
--shell-only) page=platform/web/page ;;
--no-page) ;;
*) platform/web/build.sh ;;
esac
[ -s "$page/index.html" ] || { echo "platform/web/build.sh first" >&2; exit 1; }

shell=platform/android/shell
out=target/android-page
work=$out/work
key=$out/test.jks
apk=$out/curbcore.apk
[ "${1:-}" != --shell-only ] || apk=$out/shell-only.apk
rm -rf "$work"
mkdir -p "$work/assets" "$work/res/xml" "$work/java" "$work/classes"
cp -R "$page" "$work/assets/page"
if [ "$page" = platform/web/page ]; then
    echo 'export default async () => {};' >"$work/assets/page/curbcore-web.js"
    for icon in curbcore.svg curbcore-192.png curbcore-512.png; do cp assets/icon/curbcore.svg "$work/assets/page/$icon"; done
fi
# In the package there is nothing to keep for offline.
rm "$work/assets/page/worker.js"

# Icons are those of the other app; its colours and theme are not: they need a library.
for folder in drawable mipmap-anydpi mipmap-anydpi-v26; do
    cp -R "platform/android/res/$folder" "$work/res/"
done
cp -R "$shell/res/." "$work/res/"
# This aapt is of Android 10: what newer ones added (icons in one colour) it does not know.
sed -i '/<monochrome/d' "$work/res/mipmap-anydpi-v26/curbcore.xml"
# The table of resources must lie open in the package for Android 11 and later. -J writes the numbers
# of the texts for the Java code.
aapt package -f -m -J "$work/java" -M "$shell/AndroidManifest.xml" -S "$work/res" -A "$work/assets" -0 arsc \
    -I /usr/share/android-framework-res/framework-res.apk -F "$work/plain.apk" >"$work/aapt.log" ||
    { cat "$work/aapt.log"; exit 1; }

# The shell as dex. dx takes byte code up to Java 8.
android_jar
javac --release 8 -Xlint:all,-options -Werror -cp "$ANDROID_JAR" -d "$work/classes" \
    $(find "$shell/src" "$work/java" -name '*.java')
if [ -n "${D8:-}" ]; then
    "$D8" --release --min-api 24 --lib "$ANDROID_JAR" --output "$work" $(find "$work/classes" -name '*.class')
else
    java -jar "$DX" --dex --min-sdk-version=24 --output="$work/classes.dex" "$work/classes"
fi
(cd "$work" && aapt add plain.apk classes.dex >/dev/null)
zipalign -f -p 4 "$work/plain.apk" "$work/aligned.apk"

[ -s "$key" ] || keytool -genkeypair -keystore "$key" -storepass for-tests -alias test -keyalg RSA \
    -keysize 2048 -validity 10000 -dname "CN=Curbcore test" >/dev/null 2>&1
apksigner sign --ks "$key" --ks-pass pass:for-tests --min-sdk-version 24 --out "$apk" "$work/aligned.apk"
rm -f "$apk.idsig"
rm -rf "$work"
echo "$apk: $(stat -c %s "$apk") bytes"
