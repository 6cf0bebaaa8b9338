#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Install the packages in a bare Debian of its own, run the command, build a user
# of the library, remove them, and see that nothing is left.  As root.
# usage: .packaging/try.sh FOLDER-OF-PACKAGES
set -euo pipefail
debs=$(realpath "$1")
root=$(mktemp -d)
log=$root.log
trap 'rm -rf "$root" "$log"' EXIT
chmod 755 "$root"
debootstrap --variant=minbase --include=ca-certificates bookworm "$root" \
    "$(awk '$1 == "deb" { sub(/ \[[^]]*\]/, ""); print $2; exit }
            $1 == "URIs:" { print $2; exit }' /etc/apt/sources.list \
            /etc/apt/sources.list.d/*.sources /etc/apt/sources.list.d/*.list \
            2>/dev/null)" >"$log" 2>&1 || { tail -5 "$log"; exit 1; }
cp -r /etc/apt/apt.conf.d "$root/etc/apt/" # a proxy, where there is one
cp /etc/resolv.conf /etc/hosts "$root/etc/"
mkdir "$root/debs"
cp "$debs"/*.deb "$root/debs/"
in_root() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin \
    DEBIAN_FRONTEND=noninteractive "$@"; }
apt_get() {
    in_root sh -c "apt-get -y -qq --no-install-recommends $*" >"$log" 2>&1 ||
        { tail -5 "$log"; exit 1; }
}
apt_get update
apt_get install '/debs/dewledger_*.deb'
in_root dewledger run --quick - \
    <scenarios/first.yaml | head -5
apt_get install gcc libc6-dev pkg-config \
    '/debs/libdew-dev_*.deb /debs/libdew0_*.deb /debs/dewledger-doc_*.deb'
printf '%s\n' '#include <dew.h>' '#include <stdio.h>' \
    'int main(void) { printf("%.1f degC dew point\n",' \
    'dew_air_dew(0.01, 101325.0)); return 0; }' >"$root/debs/user.c"
in_root sh -c 'gcc /debs/user.c $(pkg-config --cflags --libs dew) -o /debs/user &&
    /debs/user'
apt_get purge dewledger libdew0 libdew-dev dewledger-doc
left=$(find "$root/usr" "$root/etc" "$root/var/lib" \( -name '*dewledger*' -o \
    -name '*libdew*' -o -name 'dew.h' -o -name 'dew.pc' \) ! -path '*/apt/*' \
    ! -path '*/dpkg/*')
[ -z "$left" ] || { echo "left: $left"; exit 1; }
echo "installed, run, built with, removed: nothing left"
