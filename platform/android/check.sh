#!/usr/bin/env bash
# Type-checks every line of the app for Android (aarch64), camera, screens and store included.
# It links nothing and makes nothing to install: the C compiler is a stub for a check only (Debian's
# clang with another C library's headers), and whatever it compiles is thrown away. What a person
# needs to build the app is in README.md beside this file.
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
# Debian carries a current Rust with its standard library's source, and a clang for other machines.
need rustc-web cargo-web rust-web-src clang-19 lld-19 llvm-19 libc6-dev-arm64-cross
export CARGO_TARGET_DIR=target/android-check CARGO_INCREMENTAL=0
mkdir -p "$CARGO_TARGET_DIR"
stub=$PWD/$CARGO_TARGET_DIR/stub-clang
printf '#!/bin/sh\nexec clang-19 --target=aarch64-linux-android24 -isystem /usr/aarch64-linux-gnu/include "$@"\n' >"$stub"
chmod +x "$stub"
CC_aarch64_linux_android=$stub AR_aarch64_linux_android=llvm-ar-19 \
    debian_cargo check --locked -Zbuild-std=std,panic_abort --target aarch64-linux-android \
    --no-default-features --features mobile --lib --bin curbcore-phone
echo "type-checks for Android"
