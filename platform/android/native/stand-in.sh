# Sourced by check.sh, size.sh and prove.sh, after platform/install.sh: what stands in for the NDK, which
# is not to be had here. Debian's clang with another C library's headers compiles SQLite's C, and empty
# libraries have the names that Android's have. Nothing that comes out of it could ever run.
need rustc-web cargo-web rust-web-src clang-19 lld-19 llvm-19 libc6-dev-arm64-cross
export CARGO_TARGET_DIR=target/android-check CARGO_INCREMENTAL=0
mkdir -p "$CARGO_TARGET_DIR/stubs"
stand_in=$PWD/$CARGO_TARGET_DIR/stub-clang
printf '#!/bin/sh\nexec clang-19 --target=aarch64-linux-android24 -isystem /usr/aarch64-linux-gnu/include "$@"\n' >"$stand_in"
# The packager links the program as a library, too.
cat >"$CARGO_TARGET_DIR/stub-linker" <<'LINKER'
#!/bin/bash
arguments=()
for argument in "$@"; do [ "$argument" = -pie ] || arguments+=("$argument"); done
exec clang-19 --target=aarch64-linux-android24 -shared -nostdlib -fuse-ld=lld-19 -L"$(dirname "$0")/stubs" \
    -Wl,--unresolved-symbols=ignore-all "${arguments[@]}"
LINKER
chmod +x "$stand_in" "$CARGO_TARGET_DIR/stub-linker"
export CC_aarch64_linux_android=$stand_in AR_aarch64_linux_android=llvm-ar-19
export CARGO_TARGET_AARCH64_LINUX_ANDROID_LINKER=$PWD/$CARGO_TARGET_DIR/stub-linker

# Cargo for Android, the standard library from its source.
android_cargo() { # COMMAND OPTIONS...
    debian_cargo "$1" --locked -Zbuild-std=std,panic_abort --target aarch64-linux-android \
        --no-default-features --features mobile --bin curbcore-phone "${@:2}"
}

# Links the library; what the app calls in Android's own libraries is left open.
link_library() { # OPTIONS...
    local name
    for name in c m dl log android unwind OpenSLES c++_shared GLESv2 EGL jnigraphics mediandk; do
        : | clang-19 --target=aarch64-linux-android24 -x c - -shared -nostdlib -fuse-ld=lld-19 -Wl,-soname,"lib$name.so" \
            -o "$CARGO_TARGET_DIR/stubs/lib$name.so"
    done
    android_cargo build "$@"
}
