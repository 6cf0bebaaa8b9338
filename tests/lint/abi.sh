#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What a program built against the library relies on - functions, and the sizes
# and members of public structs - is as tests/lint/abi.xml.xz has it.
# usage: abi.sh LIBRARY [write]     compare, or write it anew (`make abi`)
set -eu
lib=$1 kept=tests/lint/abi.xml.xz work=build/abi
mkdir -p $work
# without a debugger's types there is nothing to compare: -g1 leaves them out
if ! readelf --debug-dump=abbrev "$lib" | grep -q DW_TAG_structure_type; then
    echo "abi: $lib has no types in it: build it with -g" >&2
    exit 1
fi
if [ "${2-}" = write ]; then
    abidw --headers-dir include --drop-private-types --no-show-locs --short-locs \
        --no-corpus-path --no-comp-dir-path --no-elf-needed --no-parameter-names \
        --type-id-style hash --out-file $work/abi.xml "$lib"
    xz -9 -c $work/abi.xml >$kept
    exit
fi
xz -dc $kept >$work/kept.xml
status=0
abidiff --headers-dir2 include --drop-private-types $work/kept.xml "$lib" \
    >$work/diff || status=$?
[ $status = 0 ] && exit
cat $work/diff >&2
if [ $((status & 8)) != 0 ]; then
    echo "abi: programs built before break: another SOVERSION, then make abi" >&2
else
    echo "abi: the library offers more, or other, than before: make abi" >&2
fi
exit 1
