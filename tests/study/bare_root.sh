#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The two commands of README.md on a bare Debian 12: as root, through sudo, and
# by a user with neither.  By hand, as root; needs debootstrap and a mirror.
# usage: tests/study/bare_root.sh [BASE]
# BASE is a minimal root made before (debootstrap --variant=minbase bookworm
# BASE); without it one is made.
set -eu
[ "$(id -u)" = 0 ] || { echo "bare_root.sh: run it as root" >&2; exit 1; }
work=$(mktemp -d)
tidy() {
    for root in "$work"/root-*; do
        for mount in proc dev; do
            umount "$root/$mount" 2>/dev/null || true
        done
    done
    rm -rf --one-file-system "$work"
}
trap tidy EXIT
base=${1-$work/base}
[ -d "$base/usr" ] || debootstrap --variant=minbase bookworm "$base" >/dev/null

bad=0
line() { # the README's command for a goal
    grep -x "sh engine/make.sh $1" README.md | head -n 1
}
fresh() { # a root with the project, this machine's apt and names
    root=$work/root-$1
    cp -a "$base" "$root"
    rm -rf "$root/etc/apt"
    cp -a /etc/apt "$root/etc/apt"
    cp /etc/resolv.conf /etc/hosts "$root/etc/"
    mkdir -p "$root/src"
    git archive HEAD | tar -x -C "$root/src"
    mount -t proc proc "$root/proc"
    mount --bind /dev "$root/dev"
    chroot "$root" useradd -m person
    chroot "$root" chown -R person /src
}
try() { # name, user, goal, wanted status
    text=$(line "$3")
    began=$(date +%s)
    status=0
    chroot "$root" su "$2" -s /bin/sh -c "cd /src && { $text; }" \
        >"$work/out" 2>&1 </dev/null || status=$?
    took=$(($(date +%s) - began))
    if [ "$status" = "$4" ]; then
        echo "ok $1: make $3, $took s: $(tail -n 1 "$work/out")"
    else
        echo "not ok $1: make $3, status $status, wanted $4"
        tail -n 20 "$work/out"
        bad=1
    fi
}

fresh root
try "as root" root demo 0
try "as root, again" root demo 0
try "as root" root check 0

fresh sudo
chroot "$root" sh -c 'apt-get update -qq && apt-get install -y -qq sudo' >/dev/null 2>&1
echo 'person ALL=(ALL) NOPASSWD: ALL' >"$root/etc/sudoers.d/person"
try "through sudo" person demo 0
try "through sudo" person check 0

fresh neither
try "with neither, make missing" person demo 1
grep -F 'ask an administrator' "$work/out" || { echo "not ok names make"; bad=1; }
chroot "$root" sh -c 'apt-get update -qq && apt-get install -y -qq make' >/dev/null 2>&1
try "with neither" person demo 2
grep -E 'libgsl-dev' "$work/out" || { echo "not ok names the packages"; bad=1; }
exit $bad
