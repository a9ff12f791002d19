#!/usr/bin/env bash
# Installs Debian packages that are missing, and a Rust toolchain where there is none new enough.
# Sourced by run.sh and test.sh: `need PACKAGE...`, then `need_rust`.
set -euo pipefail

as_root() { if [ "$(id -u)" = 0 ]; then "$@"; else sudo "$@"; fi; }

need() {
  local missing=() package
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} = 0 ] && return 0
  echo "Installing: ${missing[*]}"
  as_root apt-get update -qq
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}"
}

# The oldest Rust that builds this: rust-version in Cargo.toml.
RUST_LEAST=$(sed -n 's/^rust-version = "\(.*\)"/\1/p' Cargo.toml)

rust_is_new_enough() {
  command -v cargo >/dev/null || return 1
  local found
  found=$(cargo --version | awk '{print $2}')
  [ "$(printf '%s\n%s\n' "$RUST_LEAST" "$found" | sort -V | head -n 1)" = "$RUST_LEAST" ]
}

need_rust() {
  rust_is_new_enough && return 0
  # Debian 12 carries a current Rust beside its own old one, for its browsers.
  need rustc-web cargo-web
  hash -r
  rust_is_new_enough || { echo "Rust $RUST_LEAST or newer is needed; install it and run this again." >&2; exit 1; }
}

# Cargo and rustc of Debian, whatever else is installed: they can build the standard library for
# another machine from source, which is asked for by RUSTC_BOOTSTRAP.
debian_cargo() { PATH=/usr/bin:$PATH RUSTC_BOOTSTRAP=1 RUSTC=/usr/bin/rustc /usr/bin/cargo "$@"; }

# Cargo for what is handed out or measured: no path of this machine is in it.
release_cargo() {
  RUSTFLAGS="--remap-path-prefix=$PWD=curbcore --remap-path-prefix=${CARGO_HOME:-$HOME/.cargo}=cargo" \
    CARGO_INCREMENTAL=0 cargo "$1" --release --locked "${@:2}"
}

# What the window is built with and shown by; zenity shows the file dialog where no desktop does.
WINDOW_PACKAGES=(build-essential pkg-config libwebkit2gtk-4.1-dev libxdo-dev libssl-dev zenity fonts-dejavu-core ca-certificates)
