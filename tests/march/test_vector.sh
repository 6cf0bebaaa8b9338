#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The loop of the whole step over sixteen houses turns into vector
# instructions (gcc on x86).
set -eu
cd "$(dirname "$0")/../.."
command -v gcc >/dev/null || { echo "skip no gcc"; exit 0; }
[ "$(uname -m)" = x86_64 ] || { echo "skip not x86_64"; exit 0; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cat >"$work/lanes.c" <<'END'
#include "support/lanes.h"
void step(struct bundle *b, const struct dew_hour *mid,
          const struct dew_path *path, double dt)
{
    bundle_step(b, mid, path, dt);
}
END
bad=0
for arch in x86-64 x86-64-v3; do
    gcc -std=c11 -D_POSIX_C_SOURCE=200809L -O2 -march=$arch -ffp-contract=off \
        -fno-math-errno -fno-trapping-math -fopenmp-simd \
        -fopt-info-vec-optimized -Iinclude -Iengine -Itests \
        -c "$work/lanes.c" -o "$work/lanes.o" 2>"$work/notes"
    if grep -q 'loop vectorized' "$work/notes"; then
        echo "ok $arch: the step of sixteen houses is vectorized"
    else
        echo "not ok $arch: the step of sixteen houses is not vectorized"
        bad=1
    fi
done
exit $bad
