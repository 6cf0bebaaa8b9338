#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# This build makes the bytes of the gcc build from the scenarios that come
# along: of their years, or, where sanitizers are slow, of a January or a July.
# usage: DEW_BUILD=build/clang tests/cli/test_same_bytes.sh
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
this=$here/${DEW_BUILD:-build/clang}/dewledger
gcc=$here/build/gcc/dewledger
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
bad=0

same() { # NAME A B
    if diff -r "$2" "$3" >differ 2>&1; then
        echo "ok $1: the same bytes"
    else
        echo "not ok $1: other bytes than the gcc build's"
        head -5 differ | cut -c1-200
        bad=1
    fi
}
# made PROGRAM FOLDER SCENARIO WORD...: all it says and writes, in FOLDER
made() {
    program=$1 folder=$2
    shift 2
    rm -rf "$folder"
    mkdir "$folder"
    "$program" run --full --out "$folder/set" "$@" >"$folder/full" 2>"$folder/errors"
    echo $? >"$folder/status"
}

year() { # SCENARIO
    known=$(DEW_BUILD=build/gcc DEWLEDGER=$gcc \
        sh "$here/tests/support/shipped.sh" "$1")
    made "$this" year "$1" --draws 3
    same "$(basename "$1")" "$known/set" year/set
    same "$(basename "$1"), as text" "$known/full" year/full
}

month() { # SCENARIO 01..12
    weather=$here/weather/minneapolis-made.csv
    { grep '^[#t]' "$weather" | grep -v '^# year'
        sed -n "/^2001-$2-01 01/,/^2001-$2-31 24/p" "$weather"; } >$2.csv
    for build in gcc this; do
        eval "made \"\$$build\" month-$build \"$1\" \
            --set weather.place=none --set weather.file=$2.csv"
    done
    same "$(basename "$1"), month $2" month-gcc month-this
    [ "$(cat month-this/status)" = 0 ] || { echo "not ok $1 fails"; bad=1; }
}

next=01
for file in "$here"/scenarios/*.yaml; do
    case ${DEW_BUILD:-} in
    *-san)
        month "$file" $next
        case $next in 01) next=07 ;; *) next=01 ;; esac ;;
    *) year "$file" ;;
    esac
done
exit $bad
