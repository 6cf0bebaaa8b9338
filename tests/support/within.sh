#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A command as another root has it, in a tree that is told: the root's programs
# and libraries, this machine's devices, processes and measured data.  What is
# mounted for it is seen by it alone, and gone with it.
# usage: within.sh ROOT TREE COMMAND...
set -eu
alone=-m
[ "$(id -u)" = 0 ] || alone=-rm
mkdir -p "$1/tree" "$1/dev" "$1/proc" "$1/tmp" "$1/data"
exec unshare "$alone" sh -euc '
    root=$1 tree=$2
    shift 2
    mount --bind "$tree" "$root/tree"
    mount --rbind /dev "$root/dev"
    mount --rbind /proc "$root/proc"
    if [ -d "${DEW_DATA:-}" ]; then
        mount --bind "$DEW_DATA" "$root/data"
        export DEW_DATA=/data
    fi
    exec chroot "$root" /bin/sh -c "cd /tree && exec \"\$@\"" sh "$@"' sh "$@"
