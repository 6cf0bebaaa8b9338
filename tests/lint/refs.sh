#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Every [LABEL] cited is defined in docs/references.md, once; every label
# defined is cited; the list is sorted.
set -eu
label='\[[A-Z][A-Z0-9]*[0-9-][A-Z0-9-]*\]'
list=docs/references.md
cited=$(grep -rhoE "$label" include engine tests weather scenarios \
    --include='*.[chS]' --include='*.csv' --include='*.yaml' \
    --include='*.js' --include='*.sh' --exclude-dir=lint 2>/dev/null | sort -u)
bad=0
for l in $cited; do
    grep -qF "* $l " $list || { echo "undefined reference $l" >&2; bad=1; }
done
defined=$(sed -nE "s/^\* ($label) .*/\1/p" $list)
if [ "${STRICT-0}" = 1 ]; then # make lint; a landing may be in between
    echo "$defined" | tr -d "[]" | LC_ALL=C sort -C || { echo "$list is not sorted" >&2; bad=1; }
    twice=$(echo "$defined" | LC_ALL=C sort | uniq -d)
    [ -z "$twice" ] || { echo "defined twice: $twice" >&2; bad=1; }
    for l in $defined; do
        echo "$cited" | grep -qF "$l" || { echo "defined, not cited: $l" >&2; bad=1; }
    done
fi
exit $bad
