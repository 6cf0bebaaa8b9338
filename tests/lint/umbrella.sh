#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# include/dew.h includes every public header.
set -eu
bad=0
for h in include/dew/*.h; do
    grep -qF "#include \"${h#include/}\"" include/dew.h ||
        { echo "include/dew.h: ${h#include/} is missing" >&2; bad=1; }
done
exit $bad
