#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# No path of one machine, and no promise of later work, in what is shipped; a
# private name, x__y, begins with the room that declares it.
set -eu
bad=0
look() { # pattern, what it is
    found=$(grep -rnIE "$1" Makefile README.md DEVELOPERS.md .ci .packaging engine include \
        docs scenarios weather tests 2>/dev/null | grep -v '^tests/lint/' || true)
    [ -z "$found" ] || { echo "$found" | sed "s/^/$2: /" >&2; bad=1; }
}
look '(^|[^a-zA-Z0-9_./])/(work|home|root|Users|mnt|srv)/' 'a path of one machine'
look '\b(TODO|FIXME|XXX|HACK)\b' 'a promise'
look '\b(for now|simplified for|placeholder|stubbed|not yet implemented)\b' 'a promise'
for room in engine/*/; do
    room=$(basename "$room")
    found=$(grep -snoE '^(#define +|(static inline |extern )?[A-Za-z].*[ *]|(struct|enum|union) +)[A-Za-z]+__[A-Za-z0-9_]+( *\(| *\{|\[|;)' \
        engine/"$room"/*.h /dev/null |
        grep -viE "[^a-z]${room}__[a-z0-9_]+[^a-z0-9_]*\$" || true)
    [ -z "$found" ] || { echo "$found" | sed 's/^/a private name without its room: /' >&2; bad=1; }
done
exit $bad
