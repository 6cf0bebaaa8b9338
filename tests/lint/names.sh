#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# No path of one machine, and no promise of later work, in what is shipped.
set -eu
bad=0
look() { # pattern, what it is
    found=$(grep -rnIE "$1" Makefile README.md DEVELOPERS.md .ci engine include \
        docs scenarios weather tests 2>/dev/null | grep -v '^tests/lint/' || true)
    [ -z "$found" ] || { echo "$found" | sed "s/^/$2: /" >&2; bad=1; }
}
look '(^|[^a-zA-Z0-9_./])/(work|home|root|Users|mnt|srv)/' 'a path of one machine'
look '\b(TODO|FIXME|XXX|HACK)\b' 'a promise'
look '\b(for now|simplified for|placeholder|stubbed|not yet implemented)\b' 'a promise'
exit $bad
