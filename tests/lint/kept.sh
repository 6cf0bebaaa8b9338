#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Every function that files of the library share is in the command, linked with
# --gc-sections, or in kept.txt with the reason; and what kept.txt names is not.
set -eu
command=$1 lib=$2 list=tests/lint/kept.txt out=build/kept
export LC_ALL=C
mkdir -p $out
names() { nm --defined-only "$1" | awk '$2 == "T" && $3 ~ /^dew_/ {print $3}' | sort -u; }
names "$command" >$out/linked
names "$lib" | comm -23 - $out/linked >$out/ghosts
sed -n 's/^\(dew_[a-z0-9_]*\)  *[^ ].*/\1/p' "$list" | sort >$out/kept
{
    comm -23 $out/ghosts $out/kept | sed 's/^/no program calls, and kept.txt has no reason for: /'
    comm -13 $out/ghosts $out/kept >$out/stale
    comm -12 $out/stale $out/linked | sed 's/^/in kept.txt, but the command has it: /'
    comm -23 $out/stale $out/linked | sed 's/^/in kept.txt, but there is none: /'
} >$out/stray
cat $out/stray >&2
test ! -s $out/stray
