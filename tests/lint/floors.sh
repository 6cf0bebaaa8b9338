#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Each floor includes the floors below it and nothing above or beside it.
# include/dew/NAME.h stands on the floor whose folder holds NAME.c, else on the
# floor called NAME.  Only engine/core/num*.c sees GSL.  A header without its
# .c has no floor: with STRICT=1, as in make lint, that is a fault.
set -eu
bad=0
# shellcheck disable=SC2046
awk -v strict="${STRICT-0}" '
function stands(floor, on) { below[floor] = " " on " " floor " " }
function floor_of(name) { # of a public header
    return name in at ? at[name] : name in public ? name : "nowhere:" name
}
function fault(text) { print text | "cat >&2"; bad = 1 }
function look(file,    part) { # sets floor; whether it is one
    split(file, part, "/")
    floor = part[2]
    if (file ~ /^include/) {
        sub(/\.h$/, "", part[3])
        floor = floor_of(part[3])
    }
    if (!(floor in below) && (strict == 1 || floor !~ /^nowhere/))
        fault(file ": no such floor: " floor)
    return floor in below
}
BEGIN {
    stands("core")
    stands("air", "core")
    rooms = "weather house plant ducts"
    for (i = split(rooms " evidence", room, " "); i > 0; i--)
        stands(room[i], "core air")
    stands("march", "core air " rooms)
    stands("made", "core air " rooms)
    stands("study", "core air " rooms " march made")
    told = "core air " rooms " march made study"
    stands("scenario", told)
    stands("report", told)
    stands("draw", told " report evidence")
    stands("sheets", told " report draw")
    all = told " evidence scenario report draw sheets"
    stands("run", all)
    stands("survey", all " run")
    stands("cli", all " run survey")
    for (i = split("air evidence march made study scenario report " rooms, room, " "); i > 0; i--)
        public[room[i]]
    for (i = 1; i < ARGC; i++)
        if (split(ARGV[i], part, "/") == 3 && sub(/\.c$/, "", part[3]) && !(part[3] in at))
            at[part[3]] = part[2]
    for (i = 1; i < ARGC; i++)
        if (look(ARGV[i]))
            floors[ARGV[i]] = floor
}
FILENAME in floors && /^ *# *include "[a-z0-9_]*\/[a-z0-9_]*[.\/]/ {
    split($0, part, "\"")
    split(part[2], part, /[.\/]/)
    seen = part[1] == "dew" ? floor_of(part[2]) : part[1]
    if (strict != 1 && seen ~ /^nowhere/)
        next
    if (index(below[floors[FILENAME]], " " seen " ") == 0)
        fault(FILENAME ": floor " floors[FILENAME] " may not include " part[1] "/" part[2] " of " seen)
}
END { exit bad }' $(ls engine/*/*.[ch] engine/cli/*/*.[ch] include/dew/*.h 2>/dev/null) || bad=1
grep -rHn --include='*.[ch]' '^ *# *include "dew\.h"' engine include/dew >&2 && bad=1
grep -rHn --include='*.[ch]' '^ *# *include *<gsl' engine include/dew |
    grep -v '^engine/core/num[^/]*\.c:' >&2 && bad=1
exit $bad
