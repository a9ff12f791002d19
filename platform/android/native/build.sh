#!/usr/bin/env bash
# Builds the app for Android, for a person with the SDK and the NDK (README.md says which, and what
# of this was never run). With a keystore in Dioxus.toml the release build is signed.
#   platform/android/native/build.sh [debug|release]
set -euo pipefail
cd "$(dirname "$0")/../../.."
kind=${1:-release}
: "${ANDROID_HOME:?the folder of the SDK}" "${ANDROID_NDK_HOME:?the folder of the NDK}" "${JAVA_HOME:?the folder of JDK 17}"
# The packager writes its own resources into this folder and leaves ours beside them.
project=target/dx/curbcore-phone/$kind/android/app
mkdir -p "$project/app/src/main/res"
cp -R platform/android/res/. "$project/app/src/main/res/"
flags=()
if [ "$kind" = release ]; then
    flags=(--release)
    source platform/android/native/small.sh
fi
dx build --platform android --target aarch64-linux-android --bin curbcore-phone \
    --no-default-features --features mobile "${flags[@]}"
find "$project" -name '*.apk' -o -name '*.aab'
