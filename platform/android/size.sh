#!/usr/bin/env bash
# How large Android's shared library is: links it, for measure only. Nothing of it could ever run:
# there is no NDK here, so SQLite's C is compiled with another C library's headers, and the system's
# libraries are empty stand-ins that have the names asked for and nothing behind them.
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
need rustc-web cargo-web rust-web-src clang-19 lld-19 llvm-19 libc6-dev-arm64-cross
source platform/android/small.sh
export CARGO_TARGET_DIR=target/android-check CARGO_INCREMENTAL=0
stubs=$PWD/$CARGO_TARGET_DIR/stubs
mkdir -p "$stubs"
stub=$PWD/$CARGO_TARGET_DIR/stub-clang
printf '#!/bin/sh\nexec clang-19 --target=aarch64-linux-android24 -isystem /usr/aarch64-linux-gnu/include "$@"\n' >"$stub"
chmod +x "$stub"
# Empty libraries under the names that Android has; what the app calls in them is left open.
for name in c m dl log android unwind OpenSLES c++_shared GLESv2 EGL jnigraphics mediandk; do
    : | clang-19 --target=aarch64-linux-android24 -x c - -shared -nostdlib -fuse-ld=lld-19 -Wl,-soname,"lib$name.so" -o "$stubs/lib$name.so"
done
linker=$CARGO_TARGET_DIR/stub-linker
# The packager links the program as a library, too.
cat >"$linker" <<'LINKER'
#!/bin/bash
arguments=()
for argument in "$@"; do [ "$argument" = -pie ] || arguments+=("$argument"); done
exec clang-19 --target=aarch64-linux-android24 -shared -nostdlib -fuse-ld=lld-19 -L"$(dirname "$0")/stubs" \
    -Wl,--unresolved-symbols=ignore-all "${arguments[@]}"
LINKER
chmod +x "$linker"
CC_aarch64_linux_android=$stub AR_aarch64_linux_android=llvm-ar-19 CARGO_TARGET_AARCH64_LINUX_ANDROID_LINKER=$PWD/$linker \
    debian_cargo build --release --locked -Zbuild-std=std,panic_abort --target aarch64-linux-android \
    --no-default-features --features mobile --bin curbcore-phone
library=$CARGO_TARGET_DIR/aarch64-linux-android/release/curbcore-phone
bytes=$(stat -c %s "$library")
echo "for measure only, never to ship: $bytes bytes, $(gzip -9 -c "$library" | wc -c) packed"
[ "$bytes" -lt 12000000 ] || { echo "more than 12 MB" >&2; exit 1; }
