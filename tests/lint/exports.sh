#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The shared library exports what the public headers declare: no more, and no
# less.
set -eu
lib=$1 out=build/exports
mkdir -p $out
# comments and static inline bodies away, then names before a ( [ or ;
cat include/dew/*.h | sed 's,/\*[^*]*\*/,,g' |
    awk '/\/\*/ {c = 1} !c {print} /\*\// {c = 0}' >$out/code
grep -A1 'static inline' $out/code | grep -oE '\bdew_[a-z][a-z0-9_]*\(' |
    tr -d '(' | sort -u >$out/inline
# what ends in ( must be there; what ends in [ or ; may be: a member's name too
grep -oE '\bdew_[a-z][a-z0-9_]*(\(|\[|;)' $out/code | tr -d '([;' |
    sort -u | comm -23 - $out/inline >$out/declared
grep -oE '\bdew_[a-z][a-z0-9_]*\(' $out/code | tr -d '(' |
    sort -u | comm -23 - $out/inline >$out/wanted
nm -D --defined-only "$lib" | awk '$2 ~ /[TDRBV]/ {print $3}' | sort -u >$out/exported
{
    comm -13 $out/declared $out/exported | sed 's/^/exported, not declared: /'
    comm -23 $out/wanted $out/exported | sed 's/^/declared, not exported: /'
} >$out/stray
cat $out/stray >&2
test ! -s $out/stray
