#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# No source file is longer than 600 lines.  (Functions: see .clang-tidy.)
set -eu
find engine include tests -regex '\(engine\|include\|tests\)/.*\.[ch]\|tests/.*\.sh' -exec wc -l {} + |
    awk '$1 > 600 && $2 != "total" {
        print $2 ": " $1 " lines, above 600"; bad = 1 } END {exit bad}' >&2
