# Sourced by build.sh and size.sh: the release profile as a phone wants it, small before fast (as the
# profile `web` of Cargo.toml), and a library that shows only what Android looks up. Its addresses to be
# filled in at the load are packed, in the form that Android reads from API 23 on (bionic,
# android-changes-for-ndk-developers.md, "Relative relocations"); they would be half a megabyte.
export CARGO_PROFILE_RELEASE_OPT_LEVEL=s CARGO_PROFILE_RELEASE_LTO=fat
export CARGO_PROFILE_RELEASE_CODEGEN_UNITS=1 CARGO_PROFILE_RELEASE_PANIC=abort
export CARGO_TARGET_AARCH64_LINUX_ANDROID_RUSTFLAGS="-Clink-arg=-Wl,--version-script=$PWD/platform/android/native/exports.map -Clink-arg=-Wl,--pack-dyn-relocs=android"
