#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Run each fuzzer for a while, from its own corpus and the project's files.
# usage: fuzz.sh SECONDS PROGRAM...
set -eu
seconds=$1
shift
[ $# -gt 0 ] || { echo "no fuzzers" >&2; exit 1; }
for program in "$@"; do
    name=$(basename "$program")
    corpus=build/fuzz/$name
    mkdir -p "$corpus"
    seeds=
    for folder in "tests/fuzz/$name" scenarios; do
        [ -d "$folder" ] && seeds="$seeds $folder"
    done
    echo "$name: $seconds s"
    "$program" -max_total_time="$seconds" -max_len=16384 -timeout=10 \
        -print_final_stats=0 -verbosity=0 \
        -artifact_prefix="$corpus/" "$corpus" $seeds
done
