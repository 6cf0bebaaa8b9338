#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The library keeps no writable state: no object in .data, .bss or thread-local
# storage.  (.data.rel.ro is written by the loader alone.)
set -eu
objdump -t "$1" | awk '
    $0 !~ / d / && $0 ~ /[ \t](\.data|\.bss|\.tdata|\.tbss|\.data\.rel|\.data\.rel\.local|\*COM\*)[ \t]/ {
        print "writable static: " $NF
        bad = 1
    }
    END { exit bad }' >&2
