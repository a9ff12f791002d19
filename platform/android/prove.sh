#!/usr/bin/env bash
# Proves the package (apk.sh) as far as a machine without Android can: its byte code against what
# Android publishes and by Java's verifier, its permissions, its size, and its own code run on Java
# with Chromium as its web view. README.md says what that proves and what it does not.
#   platform/android/prove.sh [--no-page | --quick]
#     --no-page   with the page that is already in target/web/page
#     --quick     the shell alone, around an empty page (part of platform/test.sh)
# The whole of it proves the native app, too (native/prove.sh). Where Debian's archive is not to be had, this says so and ends with 0: nothing is proved then.
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
source platform/android/api/fetch.sh
how=${1:-}
case $how in '' | --no-page | --quick) ;; *) echo "unknown: $how" >&2; exit 1 ;; esac
if ! want api-29 api-34 api-23 dx; then
    echo "NOTHING PROVED of the package for Android: what Android publishes is not to be had here" >&2
    exit 0
fi
need aapt apksigner zipalign dexdump enjarify libsmali-java openjdk-17-jdk-headless python3 unzip
android=platform/android
out=target/android-page
apk=$out/curbcore.apk
# The SDK's dexer by its switch, and the same classes come out of it.
rm -f "$out/made-by"
D8=$PWD/$android/proof/d8 DX=$DX "$android/apk.sh" --shell-only >/dev/null
[ "$(cat "$out/made-by")" = d8 ] || { echo "D8= was not used" >&2; exit 1; }
by_d8=$(unzip -p "$out/shell-only.apk" classes.dex | sha256sum)
"$android/apk.sh" --shell-only >/dev/null
[ "$(unzip -p "$out/shell-only.apk" classes.dex | sha256sum)" = "$by_d8" ] || { echo "D8= makes another dex" >&2; exit 1; }
echo "D8= is used, by a stand-in"
case $how in
--quick) "$android/apk.sh" --shell-only && apk=$out/shell-only.apk ;;
--no-page) "$android/apk.sh" --no-page ;;
*) "$android/apk.sh" ;;
esac
work=$out/proof
rm -rf "$work"
mkdir -p "$work/verify" "$work/device"
javac -d "$work/verify" "$android/proof/Verify.java"

# Each looks at one thing of a package, or of a dex, and fails with what is wrong.

# Every class, method and field of Android that is named is there, on every version it installs on.
names_are_published() { # APK-OR-DEX
    dexdump -d -a "$1" >"$work/dump.txt"
    /usr/bin/python3 -B "$android/api/check.py" "$work/dump.txt" "$API_29" "$API_34" "$API_23"
}

# Registers hold what the instructions take them for.
passes_the_verifier() { # APK-OR-DEX
    (PATH=/usr/bin:$PATH enjarify "$1" -o "$work/app.jar" -f) >"$work/enjarify.log" 2>&1 || { cat "$work/enjarify.log"; return 1; }
    java -Xverify:all -cp "$work/verify:$work/app.jar:$ANDROID_JAR" Verify "$work/app.jar"
}

asks_for_the_camera_alone() { # APK
    local asked
    asked=$(aapt dump permissions "$1" | sed -n "s/^uses-permission[^:]*: *//p" | sed "s/^name='\(.*\)'$/\1/" | sort -u | paste -sd' ')
    if [ "$asked" != android.permission.CAMERA ]; then
        echo "it asks for: $asked" >&2
        return 1
    fi
    echo "one permission: the camera"
}

is_whole() { # APK
    apksigner verify --min-sdk-version 24 --verbose "$1" | grep '^Verified using v2.*true'
    zipalign -c -p 4 "$1"
    local part listed
    listed=$(aapt list "$1")
    local parts=(assets/page/index.html assets/page/start.js classes.dex resources.arsc)
    [ "$how" = --quick ] || parts+=(assets/page/curbcore-web.js assets/page/curbcore-web_bg.wasm)
    for part in "${parts[@]}"; do
        grep -qx "$part" <<<"$listed" || { echo "$part is missing" >&2; return 1; }
    done
    [ "$(stat -c %s "$1")" -lt 3000000 ] || { echo "3 MB or more" >&2; return 1; }
}

is_whole "$apk"
asks_for_the_camera_alone "$apk"
names_are_published "$apk"
passes_the_verifier "$apk"

# What those would miss, they would miss here, too: one register, one method's name, one call of a newer
# Android and one permission are broken on purpose, and each must be caught.
must_catch() { # WHAT IT-SAYS CHECK FILE
    if "$3" "$4" >"$work/caught.txt" 2>&1; then
        echo "$1 was not caught" >&2
        exit 1
    fi
    grep -qE -- "$2" "$work/caught.txt" || { echo "$1 was caught for another reason:" >&2; cat "$work/caught.txt" >&2; exit 1; }
    echo "caught: $1"
}
broken() { # NAME FILE OLD NEW: the dex with one line of its code changed
    baksmali disassemble -o "$work/$1" "$apk"
    grep -qE -- "$3" "$work/$1/io/curbcore/page/$2" || { echo "$2 has no line like $3" >&2; exit 1; }
    sed -i -E "0,/$3/s//$4/" "$work/$1/io/curbcore/page/$2"
    smali assemble --api 24 -o "$work/$1.dex" "$work/$1"
}
broken register Picker.smali 'invoke-interface \{(v[0-9]+), (v[0-9]+|p[0-9]+)\}(, Landroid\/webkit\/ValueCallback;->onReceiveValue)' 'invoke-interface {\2, \1}\3'
must_catch "a register" VerifyError passes_the_verifier "$work/register.dex"
broken name 'Bridge$1.smali' 'setKeepScreenOn' 'setKeepScreenOm'
must_catch "a method's name" 'setKeepScreenOm:\(Z\)V is not in Android' names_are_published "$work/name.dex"
broken newer Shell.smali 'Landroid\/app\/Activity;->onDestroy\(\)V' 'Landroid\/app\/Activity;->onTopResumedActivityChanged(Z)V'
sed -i -E 's/invoke-super \{(v[0-9]+|p0)\}(, .*onTopResumed)/invoke-super {\1, \1}\2/' "$work/newer/io/curbcore/page/Shell.smali"
smali assemble --api 24 -o "$work/newer.dex" "$work/newer"
must_catch "a call that only Android 10 knows" 'newer than Android.s interface 23, and not guarded' names_are_published "$work/newer.dex"
# Its icons and texts are not what is looked at.
sed -E 's|<uses-feature|<uses-permission android:name="android.permission.INTERNET" />&|; s/ android:\w+="@[^"]*"//' \
    "$android/shell/AndroidManifest.xml" >"$work/AndroidManifest.xml"
aapt package -f -M "$work/AndroidManifest.xml" -I /usr/share/android-framework-res/framework-res.apk -F "$work/permission.apk"
must_catch "a permission" 'android.permission.INTERNET' asks_for_the_camera_alone "$work/permission.apk"

# The package's own dex, run. What it marks as offered to its page is all that the page can call.
need chromium fonts-dejavu-core
command -v npm >/dev/null || need nodejs npm
passes_the_verifier "$apk" >/dev/null
dexdump -a "$apk" >"$work/dump.txt"
OFFERED=$(grep -B1 'VISIBILITY_RUNTIME Landroid/webkit/JavascriptInterface;' "$work/dump.txt" |
    sed -n "s/^Annotations on method #[0-9]* '\(.*\)'$/\1/p" | paste -sd' ')
aapt dump --values resources "$apk" >"$work/texts.txt"
javac -Xlint:all -Werror -cp "$ANDROID_JAR" -d "$work/device" $(find "$android/proof/standins" "$android/proof/device" -name '*.java')
(cd platform/web/test && npm ci --no-audit --no-fund --silent)
export OFFERED APK=$PWD/$apk TEXTS=$PWD/$work/texts.txt
export CLASSES=$PWD/$work/device:$PWD/$work/app.jar:$PWD/$ANDROID_JAR
if [ "$how" = --quick ]; then
    PROGRAM=no node --test --test-concurrency=1 "$android/proof/shell.test.js"
    echo "proved: the shell of the package for Android; platform/android/prove.sh proves the whole of it"
    exit 0
fi
node --test --test-concurrency=1 "$android"/proof/*.test.js
echo "proved: $apk, $(stat -c %s "$apk") bytes"
"$android/native/prove.sh"
