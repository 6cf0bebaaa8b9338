#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Install the packages in a bare Debian of its own, run the command, build a user
# of the library, remove them, and see that nothing is left.  As root.
# usage: .packaging/try.sh FOLDER-OF-PACKAGES
set -euo pipefail
debs=$(realpath "$1")
root=$(mktemp -d)
trap 'rm -rf "$root"' EXIT
debootstrap --variant=minbase --include=ca-certificates bookworm "$root" \
    "$(awk '$1 == "deb" { sub(/ \[[^]]*\]/, ""); print $2; exit }
            $1 == "URIs:" { print $2; exit }' /etc/apt/sources.list \
            /etc/apt/sources.list.d/* 2>/dev/null)" >"$root.log" 2>&1 ||
    { tail -5 "$root.log"; exit 1; }
cp -r /etc/apt/sources.list /etc/apt/sources.list.d /etc/apt/apt.conf.d \
    "$root/etc/apt/" 2>/dev/null || true
cp /etc/resolv.conf /etc/hosts "$root/etc/"
mkdir "$root/debs"
cp "$debs"/*.deb "$root/debs/"
in_root() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin \
    DEBIAN_FRONTEND=noninteractive "$@"; }
in_root apt-get update -qq
in_root apt-get install -y -qq --no-install-recommends /debs/dewledger_*.deb \
    >/dev/null 2>&1
in_root dewledger run --quick /dev/stdin \
    <scenarios/first.yaml | head -5
in_root apt-get install -y -qq --no-install-recommends gcc libc6-dev pkg-config \
    /debs/libdew-dev_*.deb /debs/libdew0_*.deb /debs/dewledger-doc_*.deb \
    >/dev/null 2>&1
printf '%s\n' '#include <dew.h>' '#include <stdio.h>' \
    'int main(void) { printf("%.1f degC dew point\n",' \
    'dew_air_dew(0.01, 101325.0)); return 0; }' >"$root/debs/user.c"
in_root sh -c 'gcc /debs/user.c $(pkg-config --cflags --libs dew) -o /debs/user &&
    /debs/user'
in_root apt-get purge -y -qq dewledger libdew0 libdew-dev dewledger-doc \
    >/dev/null 2>&1
left=$(find "$root/usr" "$root/etc" "$root/var/lib" \( -name '*dewledger*' -o \
    -name '*libdew*' -o -name 'dew.h' -o -name 'dew.pc' \) ! -path '*/apt/*' \
    ! -path '*/dpkg/*')
[ -z "$left" ] || { echo "left: $left"; exit 1; }
echo "installed, run, built with, removed: nothing left"
