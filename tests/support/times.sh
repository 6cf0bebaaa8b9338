#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Processor seconds of each test's log, longest first, below their sum.
# usage: times.sh LOG...; a log ends with what the shell's `times` says.
awk '
function seconds(t) { split(t, part, /[ms]/); return part[1] * 60 + part[2] }
FNR == 1 { last = "" }
/^[0-9]+m[0-9.]+s [0-9]+m[0-9.]+s$/ { took[FILENAME] = seconds($1) + seconds($2) }
END {
    for (name in took) {
        all += took[name]
        printf "%8.2f %s\n", took[name], name
    }
    printf "%8.2f all\n", all
}' "$@" | sort -rn
