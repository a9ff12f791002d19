#!/usr/bin/env bash
# Type-checks every line of the native app for Android (aarch64), camera, screens and store included.
# It links nothing and makes nothing to install. What a person needs to build the app is in README.md
# beside this file.
set -euo pipefail
cd "$(dirname "$0")/../../.."
source platform/install.sh
source platform/android/native/stand-in.sh
android_cargo check --lib
echo "type-checks for Android"
