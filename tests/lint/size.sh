#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# No source file is longer than 600 lines.  (Functions: see .clang-tidy.)
set -eu
for f in engine/*/*.[ch] engine/cli/*/*.[ch] include/*.h include/dew/*.h tests/*/*.[ch] tests/*/*.sh; do
    [ -f "$f" ] && wc -l "$f"
done | awk '$1 > 600 {print $2 ": " $1 " lines, above 600"; bad = 1} END {exit bad}' >&2
