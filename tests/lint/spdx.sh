#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Each source file says its licence in its first two lines.
set -eu
bad=0
for f in Makefile .ci/run .packaging/*.mk .packaging/*.sh .packaging/debian/rules \
    engine/*.sh engine/page/*.* engine/page/port/*.[ch] \
    engine/page/port/*/*.h engine/*/*.[chS] engine/cli/*/*.[ch] include/*.h \
    include/dew/*.h tests/*/*.[ch] tests/*/*.sh tests/page/*.mjs; do
    [ -f "$f" ] || continue
    head -n 2 "$f" | grep -q 'SPDX-License-Identifier: GPL-3.0-or-later' ||
        { echo "$f: no SPDX line" >&2; bad=1; }
done
exit $bad
