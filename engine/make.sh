#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Bring make where it is missing, then call it at the top of the project.
# usage: sh engine/make.sh [GOAL or NAME=VALUE]...
set -eu
cd "$(dirname "$0")/.."
if ! command -v make >/dev/null; then
    sudo=
    if [ "$(id -u)" != 0 ]; then
        # ask for a password only where someone can answer
        if command -v sudo >/dev/null &&
            { sudo -n true 2>/dev/null || { [ -t 0 ] && sudo true; }; }; then
            sudo=sudo
        else
            echo "make is missing; ask an administrator to install it." >&2
            exit 1
        fi
    fi
    echo "installing: make" >&2
    $sudo apt-get update -qq >&2 || true # old lists may still do
    $sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq \
        --no-install-recommends make >&2
fi
exec make "$@"
