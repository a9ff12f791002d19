#!/usr/bin/env bash
# Builds Curbcore as a folder of files for a browser: target/web/page. Any web server can hand it
# out; a browser keeps data and works offline only over https or from the device itself (README.md).
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
# Debian carries a current Rust with its standard library's source, and a clang and a linker for wasm.
need rustc-web cargo-web rust-web-src clang-19 lld-19 llvm-19 librsvg2-bin gzip build-essential ca-certificates
export CARGO_TARGET_DIR=target/web CARGO_INCREMENTAL=0

# The tool that joins Rust and the browser's script must be of the library's very version.
version=$(sed -n '/^name = "wasm-bindgen"$/{n;s/^version = "\(.*\)"$/\1/p}' Cargo.lock)
bindgen=$CARGO_TARGET_DIR/tools/bin/wasm-bindgen
if [ "$("$bindgen" --version 2>/dev/null)" != "wasm-bindgen $version" ]; then
    need_rust
    cargo install wasm-bindgen-cli --version "$version" --root "$CARGO_TARGET_DIR/tools" --target-dir "$CARGO_TARGET_DIR/tools/build"
    rm -rf "$CARGO_TARGET_DIR/tools/build"
fi

# No path of this machine in what is handed out.
CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER=wasm-ld-19 \
    CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS="--remap-path-prefix=$PWD=curbcore --remap-path-prefix=${CARGO_HOME:-$HOME/.cargo}=cargo" \
    CC_wasm32_unknown_unknown=clang-19 AR_wasm32_unknown_unknown=llvm-ar-19 \
    debian_cargo build --locked --profile web -Zbuild-std=std,panic_abort --target wasm32-unknown-unknown \
    --no-default-features --features web --bin curbcore-web

page=$CARGO_TARGET_DIR/page
rm -rf "$page"
mkdir -p "$page"
"$bindgen" --target web --no-typescript --remove-name-section --remove-producers-section --out-dir "$page" "$CARGO_TARGET_DIR/wasm32-unknown-unknown/web/curbcore-web.wasm"
cp platform/web/page/* assets/icon/curbcore.svg "$page"
for size in 192 512; do
    rsvg-convert -w "$size" -h "$size" assets/icon/curbcore.svg -o "$page/curbcore-$size.png"
done

# The worker knows every file, and a version that changes with any of them.
files=$(cd "$page" && find . -type f ! -name worker.js | LC_ALL=C sort)
version=$(cd "$page" && xargs sha256sum <<<"$files" | sha256sum | cut -c1-16)
list=$(sed 's/^\(.*\)$/"\1"/' <<<"$files" | paste -sd, -)
sed -i "s|@VERSION@|$version|; s|@FILES@|[\"./\",$list]|" "$page/worker.js"

echo "$page: $(du -sk "$page" | cut -f1) KiB, $(tar -C "$page" -c . | gzip -9 | wc -c) bytes compressed, version $version"
