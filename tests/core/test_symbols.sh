#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What the packages say that the library exports is what it exports.
set -eu
cd "$(dirname "$0")/../.."
so=$(ls "${DEW_BUILD:-build/gcc}"/libdew.so.[0-9]*)
number=${so##*.}
said=.packaging/debian/libdew$number.symbols
now=$(mktemp)
trap 'rm -f "$now"' EXIT
sh .packaging/symbols.sh "$so" "$number" >"$now"
[ "$(wc -l <"$now")" -gt 100 ] || { echo "not ok no symbols in $so"; exit 1; }
if cmp -s "$said" "$now"; then
    echo "ok $said is what the library exports"
else
    echo "not ok $said is another list: make symbols"
    diff "$said" "$now" | head
    exit 1
fi
