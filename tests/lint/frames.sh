#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# No function takes more than 8 KiB of stack; those of a file in frames.txt no
# more than stands there, and one of them still more than 8.
# usage: frames.sh FOLDER of gcc's .su files
set -eu
list=${FRAMES_LIST:-tests/lint/frames.txt}
# "engine/report/sheet.c:248:13:all	49248	static"
find "$1" -name '*.su' -exec cat {} + | sort | awk -F'\t' -v list="$list" '
BEGIN {
    while ((getline line < list) > 0)
        if (split(line, word, " ") == 2 && word[1] !~ /^#/)
            most[word[1]] = word[2]
}
{
    n = split($1, part, ":")
    seen++
    file = part[1]
    sub(/.*\/engine\//, "engine/", file)
    if ($2 > 8192)
        large[file] = 1
    if ($2 > 1024 * (file in most ? most[file] : 8)) {
        print $1 ": " $2 " bytes of stack: take large things from the caller or the heap"
        bad = 1
    }
}
END {
    for (file in most)
        if (!(file in large)) {
            print list ": " file " has no frame above 8 KiB: take it out"
            bad = 1
        }
    if (!seen)
        print "no .su files"
    exit bad || !seen
}' >&2
