#!/usr/bin/env bash
# What is judged without running anything: lints (pedantic, with the exceptions named in
# Cargo.toml), documentation, and the licences and origins of what the crate is built from.
#   platform/judge.sh --all   also cargo-deny, which has to be compiled first: the texts of licences,
#                             and known faults where their list can be fetched. Before a release.
set -euo pipefail
cd "$(dirname "$0")/.."
source platform/install.sh
need "${WINDOW_PACKAGES[@]}" python3
need_rust
# With the features of the tests: what the build itself runs is compiled already.
cargo clippy --locked --all-targets -- -D warnings
RUSTDOCFLAGS="-D warnings" cargo doc --locked --no-deps --lib
python3 platform/origins.py
[ "${1:-}" = --all ] || exit 0
command -v cargo-deny >/dev/null || CARGO_TARGET_DIR=target/deny cargo install cargo-deny --version 0.20.2 --locked --quiet
cargo deny --locked check licenses bans sources
if cargo deny --locked fetch db >/dev/null 2>&1; then
    cargo deny --locked check --disable-fetch advisories
else
    echo "known faults were not looked up: the list could not be fetched" >&2
fi
