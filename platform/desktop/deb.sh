#!/usr/bin/env bash
# Builds Curbcore as a package for Debian: target/deb/curbcore_VERSION_ARCHITECTURE.deb.
#   platform/desktop/deb.sh [release|debug]   debug: of what the tests have built, not to hand out
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
need "${WINDOW_PACKAGES[@]}" dpkg-dev desktop-file-utils fakeroot
need_rust
kind=${1:-release}
if [ "$kind" = release ]; then
    release_cargo build --bin curbcore --bin curbcore-window
else
    CARGO_INCREMENTAL=0 cargo build --locked --bin curbcore --bin curbcore-window
fi

version=$(sed -n '/^\[package\]/,/^\[/s/^version = "\(.*\)"/\1/p' Cargo.toml)
architecture=$(dpkg --print-architecture)
work=target/deb/work
tree=$work/tree
rm -rf "$work"
mkdir -p "$tree/DEBIAN" "$work/debian"

install -D -m 755 -t "$tree/usr/lib/curbcore" "target/$kind/curbcore" "target/$kind/curbcore-window"
mkdir -p "$tree/usr/bin"
# It finds its window beside itself, through the link.
ln -s ../lib/curbcore/curbcore "$tree/usr/bin/curbcore"
install -D -m 644 -t "$tree/usr/share/applications" platform/desktop/curbcore.desktop
install -D -m 644 -t "$tree/usr/share/icons/hicolor/scalable/apps" assets/icon/curbcore.svg
install -D -m 644 -t "$tree/usr/share/doc/curbcore" README.md
install -D -m 644 -t "$tree/usr/share/doc/curbcore/docs" docs/*.md
install -D -m 644 LICENSE "$tree/usr/share/doc/curbcore/copyright"
desktop-file-validate "$tree/usr/share/applications/curbcore.desktop"

# What the two programs are linked with, by the packages that carry it, at the versions they need.
printf 'Source: curbcore\n\nPackage: curbcore\nArchitecture: any\n' >"$work/debian/control"
linked=$(cd "$work" && dpkg-shlibdeps -O tree/usr/lib/curbcore/curbcore tree/usr/lib/curbcore/curbcore-window | sed -n 's/^shlibs:Depends=//p')
cat >"$tree/DEBIAN/control" <<CONTROL
Package: curbcore
Version: $version
Architecture: $architecture
Maintainer: The Curbcore project <curbcore@localhost>
Installed-Size: $(du -sk "$tree/usr" | cut -f1)
Depends: $linked
Recommends: fonts-dejavu-core | fonts-freefont-ttf, xdg-desktop-portal | zenity
Section: electronics
Priority: optional
Description: from a scrapped transformer to a winding that fits
 For a home shop that salvages the transformers of scrapped microwave ovens:
 sizes up a find, leads through taking it apart with a gate before each hazard,
 measures the core, designs a winding for a new use, and proves it on the bench.
 Everything stays on this machine; nothing is sent anywhere.
CONTROL
(cd "$tree" && find usr -type f -print0 | LC_ALL=C sort -z | xargs -0 md5sum) >"$tree/DEBIAN/md5sums"
find "$tree" -type d -exec chmod 755 {} +
find "$tree" -exec touch -h -d "@$(git log -1 --format=%ct 2>/dev/null || echo 0)" {} +
package=target/deb/curbcore_${version}_$architecture.deb
packed=(-Zxz)
[ "$kind" = release ] || packed=(-Zgzip -z1)
fakeroot dpkg-deb "${packed[@]}" --build "$tree" "$package" >/dev/null
rm -rf "$work"
echo "$package: $(stat -c %s "$package") bytes"
