#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Each public header stands alone, and all stand together, in C and in C++.
set -u
bad=0
flags="-Wall -Wextra -Wpedantic -Werror -Iinclude -fsyntax-only"
try() { # name, text, languages
    for language in $3; do
        standard=-std=c11
        [ $language = c ] || standard=-std=c++11
        if echo "$2" | gcc -x $language $standard $flags - 2>&1; then
            echo "ok $1 in $language"
        else
            echo "not ok $1 in $language"
            bad=1
        fi
    done
}
all=
for header in include/dew/*.h; do
    text="#include \"${header#include/}\""
    try "${header#include/}" "$text" c
    all="$all
$text"
done
try "all together" "$all" "c c++"
# one call, a compiler for each of them
if gcc -x c++ -std=c++11 $flags include/dew/*.h 2>&1; then
    echo "ok each alone in c++"
else
    echo "not ok each alone in c++"
    bad=1
fi
exit $bad
