#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Lines of engine/ that the tests reached, by file and over all.
set -eu
find "$1/engine" -name '*.gcda' -exec gcov -n -r -s . {} + 2>/dev/null |
    awk '
    /^File / { file = $2; gsub(/\047/, "", file) }
    /^Lines executed:/ && file != "" {
        split($0, part, /[:% ]+/)
        printf "%6.2f %% of %5d  %s\n", part[3], part[5], file
        lines += part[5]; reached += part[3] * part[5] / 100
        file = ""
    }
    END {
        if (lines > 0)
            printf "%6.2f %% of %5d  all\n", 100 * reached / lines, lines
        exit lines == 0
    }'
