#!/usr/bin/env bash
# What is judged without running anything: lints (pedantic, with the exceptions named in
# Cargo.toml), documentation, and the licences and origins of what the crate is built from. The
# list of known faults (`cargo deny check advisories`) is fetched from a repository; where that is
# not to be had, this says so and goes on.
set -euo pipefail
cd "$(dirname "$0")/.."
source platform/install.sh
need_rust
cargo clippy --locked --no-default-features --features ui --all-targets -- -D warnings
RUSTDOCFLAGS="-D warnings" cargo doc --locked --no-deps --no-default-features --features ui
command -v cargo-deny >/dev/null || CARGO_TARGET_DIR=target/deny cargo install cargo-deny --version 0.20.2 --locked --quiet
cargo deny --locked check licenses bans sources
if cargo deny --locked fetch db >/dev/null 2>&1; then
    cargo deny --locked check --disable-fetch advisories
else
    echo "known faults were not looked up: the list could not be fetched" >&2
fi
