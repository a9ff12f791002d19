#!/usr/bin/env bash
# Builds the package, installs it into a clean Debian, starts it there in a window of a virtual
# display, and removes it again. A picture of the window is artefacts/deb.png. Needs root.
#   platform/desktop/test.sh [release|debug]   of what the tests have built: debug
set -euo pipefail
cd "$(dirname "$0")/../.."
source platform/install.sh
need debootstrap xvfb imagemagick x11-utils
[ "$(id -u)" = 0 ] || { echo "a root of its own needs root" >&2; exit 1; }
rm -f target/deb/curbcore_*.deb
platform/desktop/deb.sh "${1:-release}"
package=$(ls target/deb/curbcore_*.deb)

fail() { echo "the package: $*" >&2; exit 1; }
root=$(mktemp -d /var/tmp/clean-root.XXXXXX)
# The package manager fetches as a user of its own.
chmod 755 "$root"
display=
cleanup() {
    [ -z "${window:-}" ] || kill "$window" 2>/dev/null || true
    [ -z "$display" ] || kill "$display" 2>/dev/null || true
    for place in tmp/.X11-unix dev proc; do
        mountpoint -q "$root/$place" && umount "$root/$place"
    done
    rm -rf --one-file-system "$root"
}
trap cleanup EXIT

# The Debian of this machine, from where this machine has it.
release=$(. /etc/os-release && echo "$VERSION_CODENAME")
site=$(apt-get indextargets --format '$(SITE) $(CODENAME)' "Created-By: Packages" | awk -v release="$release" '$2 == release { print $1; exit }')
debootstrap --variant=minbase --include=ca-certificates "$release" "$root" "$site" >"$root.log" 2>&1 || { tail -5 "$root.log"; fail "no clean root"; }
rm -f "$root.log"
cp -L /etc/resolv.conf "$root/etc/resolv.conf" 2>/dev/null || true
cp -r /etc/apt/apt.conf.d/. "$root/etc/apt/apt.conf.d/"
mount -t proc proc "$root/proc"
mount --bind /dev "$root/dev"
inside() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LANG=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"; }

inside curbcore --version 2>/dev/null && fail "the clean root has it already"
cp "$package" "$root/var/tmp/curbcore.deb"
inside apt-get update -qq
inside apt-get install -y -qq /var/tmp/curbcore.deb >/dev/null 2>&1 || fail "does not install"
inside dpkg --verify curbcore
inside dpkg -L curbcore >"$root/var/tmp/files"
for program in curbcore curbcore-window; do
    inside ldd "/usr/lib/curbcore/$program" | grep 'not found' && fail "$program misses a library"
done
inside curbcore --version
inside sh -c 'cd /var/tmp && curbcore demo >demo.json && curbcore report demo.json >page.html'
grep -q '<html' "$root/var/tmp/page.html" || fail "makes no report"

# The window, shown on a display of this machine.
for number in $(seq 120 140); do
    [ -e "/tmp/.X11-unix/X$number" ] && continue
    Xvfb ":$number" -screen 0 1280x800x24 >/dev/null 2>&1 &
    display=$!
    break
done
for _ in $(seq 50); do [ -e "/tmp/.X11-unix/X$number" ] && break; sleep 0.2; done
mkdir -p "$root/tmp/.X11-unix" artefacts
mount --bind /tmp/.X11-unix "$root/tmp/.X11-unix"
chroot "$root" env -i PATH=/usr/bin:/bin HOME=/root LANG=C.UTF-8 DISPLAY=":$number" CURBCORE_LOG=curbcore=debug \
    curbcore >"$root/var/tmp/window.log" 2>&1 &
window=$!
colours=0
for _ in $(seq 120); do
    kill -0 "$window" 2>/dev/null || { cat "$root/var/tmp/window.log"; fail "the window ended by itself"; }
    if grep -q 'shown: ' "$root/var/tmp/window.log"; then
        DISPLAY=":$number" import -window root artefacts/deb.png
        colours=$(identify -format %k artefacts/deb.png)
        [ "$colours" -gt 20 ] && break
    fi
    sleep 0.5
done
[ "$colours" -gt 20 ] || { cat "$root/var/tmp/window.log"; fail "the window stays empty"; }
kill "$window"
wait "$window" 2>/dev/null || true
window=

# Gone again, all of it but the person's own data.
data=$root/root/.local/share/curbcore
[ -e "$data/curbcore.db" ] || fail "kept no data in $(ls -d "$root"/root/.local/share/* 2>/dev/null)"
inside apt-get purge -y -qq curbcore >/dev/null 2>&1 || fail "does not go"
inside apt-get autoremove -y -qq --purge >/dev/null 2>&1
while read -r file; do
    case $file in *curbcore*) [ ! -e "$root$file" ] && [ ! -L "$root$file" ] || fail "leaves $file" ;; esac
done <"$root/var/tmp/files"
left=$(find "$root" -mindepth 1 -xdev -iname '*curbcore*' ! -path "$root/var/tmp/*" ! -path "$root/root/*" | head -3)
[ -z "$left" ] || fail "leaves $left"
[ -e "$data/curbcore.db" ] || fail "took the person's data along"
echo "1 passed, 0 failed"
echo "the package installs, starts ($colours colours in artefacts/deb.png) and goes again"
