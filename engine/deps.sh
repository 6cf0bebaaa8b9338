#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Install the Debian packages that are missing and write the flags for make.
# usage: deps.sh OUT "PKG-CONFIG NAMES" "PACKAGES"
# Touches no network when nothing is missing.  Without root and without sudo
# it names the packages and exits 1.
set -eu
out=$1 pkgs=$2 need=$3

give_up() {
    echo "$1" >&2
    echo " $missing" >&2
    exit 1
}

missing=
if command -v dpkg-query >/dev/null; then
    for p in $need; do
        dpkg-query -W -f '${Status}' "$p" 2>/dev/null |
            grep -q 'ok installed' || missing="$missing $p"
    done
elif ! pkg-config --exists $pkgs; then
    missing=" $need"
    give_up "This system has no dpkg; its names for these Debian packages are needed:"
fi

if [ -n "$missing" ]; then
    sudo=
    if [ "$(id -u)" != 0 ]; then
        # ask for a password only where someone can answer
        if command -v sudo >/dev/null &&
            { sudo -n true 2>/dev/null || { [ -t 0 ] && sudo true; }; }; then
            sudo=sudo
        else
            give_up "These Debian packages are missing; ask an administrator:"
        fi
    fi
    echo "installing:$missing" >&2
    $sudo apt-get update -qq >&2 || true # old lists may still do
    $sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq \
        --no-install-recommends $missing >&2 ||
        give_up "These Debian packages could not be installed:"
fi
mkdir -p "$(dirname "$out")"
{
    echo "PKG_CFLAGS := $(pkg-config --cflags $pkgs)"
    echo "PKG_LIBS := $(pkg-config --libs $pkgs)"
    echo "PKG_FOR := $pkgs"
    echo "HAVE := $need"
} >"$out.part"
mv "$out.part" "$out"
