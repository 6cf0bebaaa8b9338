#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Install the Debian packages that a goal needs and write the flags for make.
# usage: deps.sh OUT GOALS PKGS NEED_ALL NEED_CHECK NEED_LINT
set -eu
out=$1 goals=$2 pkgs=$3
case " $goals " in
*" lint "*|*" tidy "*|*" format"*|*" fuzz "*) need=$6 ;;
*" check "*|*" coverage "*|*" bench "*|*" study "*) need=$5 ;;
*) need=$4 ;;
esac
missing=
for p in $need; do
    dpkg-query -W -f '${Status}' "$p" 2>/dev/null | grep -q 'ok installed' ||
        missing="$missing $p"
done
if [ -n "$missing" ]; then
    sudo=
    if [ "$(id -u)" != 0 ]; then
        command -v sudo >/dev/null && sudo -n true 2>/dev/null && sudo=sudo || {
            echo "These Debian packages are missing; ask an administrator:" >&2
            echo " $missing" >&2
            exit 1
        }
    fi
    echo "installing:$missing" >&2
    $sudo apt-get update -qq >&2
    DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -qq \
        --no-install-recommends $missing >&2
fi
mkdir -p "$(dirname "$out")"
{
    echo "PKG_CFLAGS := $(pkg-config --cflags $pkgs)"
    echo "PKG_LIBS := $(pkg-config --libs $pkgs)"
} >"$out.part"
mv "$out.part" "$out"
