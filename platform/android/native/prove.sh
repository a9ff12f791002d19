#!/usr/bin/env bash
# What can be proved of the native app without SDK and NDK: the framework's own Kotlin compiles against
# what Android publishes; its native methods are those that the library shows, no more and no fewer;
# the library has nothing in it that Android's standard library refuses; the calls that the app makes
# of Android by name are published.
#   platform/android/native/prove.sh [--release]   by the release build, which is slow
# Where Debian's archive is not to be had, this says so and ends with 0: nothing is proved then.
set -euo pipefail
cd "$(dirname "$0")/../../.."
source platform/install.sh
source platform/android/api/fetch.sh
if ! want api-29 api-34 api-23; then
    echo "NOTHING PROVED of the native app for Android: what Android publishes is not to be had here" >&2
    exit 0
fi
need openjdk-17-jdk-headless python3
command -v npm >/dev/null || need nodejs npm
need_rust
native=platform/android/native
work=target/android-native
rm -rf "$work"
mkdir -p "$work/kotlin" "$work/androidx"

# What the app calls of Android by names in its own code.
/usr/bin/python3 -B platform/android/api/calls.py src/ui/android.rs "$API_29" "$API_34" "$API_23"

# The framework's Kotlin, as its packager fills it in. Of androidx there are names only (androidx/): it is
# not to be had here.
version=$(sed -n '/^name = "wry"$/{n;s/^version = "\(.*\)"$/\1/p}' Cargo.lock)
cargo fetch --locked --quiet
sources=$(echo "${CARGO_HOME:-$HOME/.cargo}"/registry/src/*/wry-"$version"/src/android/kotlin)
for file in "$sources"/*.kt; do
    sed 's/{{package}}/dev.dioxus.main/g; s/{{library}}/main/g; s/{{class-[a-z]*}}//g' "$file" >"$work/kotlin/${file##*/}"
done
echo 'package dev.dioxus.main
class MainActivity : WryActivity()
object BuildConfig { const val DEBUG = false }' >"$work/kotlin/MainActivity.kt"
KOTLIN=2.4.20
if [ ! -s "$CACHE/kotlin_$KOTLIN/node_modules/kotlin-compiler/lib/kotlin-compiler.jar" ]; then
    mkdir -p "$CACHE/kotlin_$KOTLIN"
    npm install --prefix "$CACHE/kotlin_$KOTLIN" --no-audit --no-fund --silent "kotlin-compiler@$KOTLIN"
fi
android_jar
javac -nowarn -cp "$ANDROID_JAR" -d "$work/androidx" $(find "$native/androidx" -name '*.java')
bash "$CACHE/kotlin_$KOTLIN/node_modules/kotlin-compiler/bin/kotlinc" -nowarn -jvm-target 1.8 \
    -cp "$ANDROID_JAR:$work/androidx" -d "$work/kotlin.jar" "$work"/kotlin/*.kt
asked=$work/asked.txt shown=$work/shown.txt
for class in $(jar tf "$work/kotlin.jar" | sed -n 's|/|.|g; s|\.class$||p'); do
    javap -p -cp "$work/kotlin.jar:$ANDROID_JAR:$work/androidx" "$class" |
        sed -n "s/.* native .* \([A-Za-z]*\)(.*/Java_${class//./_}_\1/p"
done | sort >"$asked"
echo "the framework's Kotlin compiles; it has $(wc -l <"$asked") native methods"

source platform/android/native/stand-in.sh
source platform/android/native/small.sh
kind=debug
[ "${1:-}" != --release ] || kind=release
if [ "$kind" = release ]; then link_library --release; else link_library; fi
library=$CARGO_TARGET_DIR/aarch64-linux-android/$kind/curbcore-phone
llvm-nm-19 --dynamic --defined-only --format=posix "$library" | awk '{print $1}' | grep '^Java_' | sort >"$shown"
diff "$asked" "$shown" || { echo "what the Kotlin asks for (<) is not what the library shows (>)" >&2; exit 1; }
echo "the library shows exactly those"

# Texts of the standard library's refusals; they are in the library if anything in it can meet them.
if strings -a "$library" | grep -oE '(try_)?lock(_shared)?\(\) not supported'; then
    echo "something in the library locks files by the standard library, which Android refuses" >&2
    exit 1
fi
echo "nothing in it locks files by the standard library"
llvm-readelf-19 --needed-libs "$library"
