#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Each floor includes the floors below it and nothing above or beside it.
# include/dew/NAME.h stands on the floor whose folder holds NAME.c, else on the
# floor called NAME.  Only engine/core/num*.c sees GSL.  A header without its
# .c has no floor: with STRICT=1, as in make lint, that is a fault.
set -eu
below() {
    case $1 in
    core) echo core ;;
    air) echo core air ;;
    weather | house | plant | ducts | evidence) echo core air "$1" ;;
    march | made) echo core air weather house plant ducts "$1" ;;
    study) echo core air weather house plant ducts march made study ;;
    scenario | report) echo core air weather house plant ducts march made study "$1" ;;
    draw) echo core air weather house plant ducts evidence march made study report draw ;;
    sheets) echo core air weather house plant ducts march made study report draw sheets ;;
    run) echo core air weather house plant ducts evidence march made study scenario report draw sheets run ;;
    survey) echo core air weather house plant ducts evidence march made study scenario report draw sheets run survey ;;
    cli) echo core air weather house plant ducts evidence march made study scenario report draw sheets run survey cli ;;
    *) echo "$2: no such floor: $1" >&2; return 1 ;;
    esac
}
floor_of() { # a public header's name
    for c in engine/*/"$1".c; do
        [ -f "$c" ] && { basename "$(dirname "$c")"; return; }
    done
    case $1 in
    air | weather | house | plant | ducts | evidence | march | made | study | scenario | report) echo "$1" ;;
    *) echo "nowhere:$1" ;;
    esac
}
bad=0
for file in engine/*/*.[ch] engine/cli/*/*.[ch] include/dew/*.h; do
    [ -f "$file" ] || continue
    case $file in
    include/dew/*) floor=$(floor_of "$(basename "$file" .h)") ;;
    *) floor=${file#engine/} floor=${floor%%/*} ;;
    esac
    case ${STRICT-0}$floor in 0nowhere:*) continue ;; esac
    allowed=" $(below "$floor" "$file") " || { bad=1; continue; }
    for name in $(sed -n 's,^ *# *include "\([a-z0-9_]*/[a-z0-9_]*\)[./].*,\1,p' "$file"); do
        case $name in
        dew/*) seen=$(floor_of "${name#dew/}") ;;
        *) seen=${name%%/*} ;;
        esac
        case ${STRICT-0}$seen in 0nowhere:*) continue ;; esac
        case $allowed in
        *" $seen "*) ;;
        *) echo "$file: floor $floor may not include $name of $seen" >&2; bad=1 ;;
        esac
    done
done
grep -rHn --include='*.[ch]' '^ *# *include "dew\.h"' engine include/dew >&2 && bad=1
grep -rHn --include='*.[ch]' '^ *# *include *<gsl' engine include/dew |
    grep -v '^engine/core/num[^/]*\.c:' >&2 && bad=1
exit $bad
