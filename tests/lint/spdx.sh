#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Each source file says its licence in its first two lines.
set -eu
set -- Makefile .ci/run .packaging/*.mk .packaging/*.sh .packaging/debian/rules \
    engine/*.sh engine/page/*.* engine/page/port/*.[ch] \
    engine/page/port/*/*.h engine/*/*.[chS] engine/cli/*/*.[ch] include/*.h \
    include/dew/*.h tests/*/*.[ch] tests/*/*.sh tests/page/*.mjs
for f in "$@"; do # a pattern that no file has
    shift
    [ ! -f "$f" ] || set -- "$@" "$f"
done
[ $# -gt 0 ]
awk 'FNR <= 2 && /SPDX-License-Identifier: GPL-3.0-or-later/ { says[FILENAME] }
FNR == 2 { nextfile }
END {
    for (i = 1; i < ARGC; i++)
        if (!(ARGV[i] in says)) { print ARGV[i] ": no SPDX line"; bad = 1 }
    exit bad
}' "$@" >&2
