#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A loop over engine/air/poly.h turns into vector instructions (gcc on x86).
set -eu
cd "$(dirname "$0")/../.."
command -v gcc >/dev/null || { echo "skip no gcc"; exit 0; }
[ "$(uname -m)" = x86_64 ] || { echo "skip not x86_64"; exit 0; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cat >"$work/lanes.c" <<'END'
#include "air/poly.h"
#define LANES(name, expression)                                                \
    void name(const double *restrict t, double *restrict out)                  \
    {                                                                          \
        _Pragma("omp simd") for (int i = 0; i < 16; i++) out[i] = expression;  \
    }
void lane_pws(const double *restrict, double *restrict);
void lane_liquid(const double *restrict, double *restrict);
void lane_room(const double *restrict, double *restrict);
void lane_slope(const double *restrict, double *restrict);
void lane_pow(const double *restrict, double *restrict);
LANES(lane_pws, air__poly_pws(t[i]).value)
LANES(lane_liquid, air__poly_pws_liquid(t[i]).value)
LANES(lane_room, air__poly_pws_room(t[i]).value)
LANES(lane_slope, air__poly_pws(t[i]).slope)
LANES(lane_pow, air__poly_pow(t[i], 0.67))
END
bad=0
for arch in x86-64 x86-64-v3; do
    gcc -std=c11 -D_POSIX_C_SOURCE=200809L -O2 -march=$arch -ffp-contract=off \
        -fno-math-errno -fopenmp-simd -fopt-info-vec-optimized -Iengine \
        -c "$work/lanes.c" -o "$work/lanes.o" 2>"$work/notes"
    n=$(grep -c 'loop vectorized' "$work/notes" || true)
    if [ "$n" = 5 ]; then
        echo "ok $arch: every loop vectorized"
    else
        echo "not ok $arch: $n of 5 loops vectorized"
        bad=1
    fi
done
exit $bad
