#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Loops over houses of the coil, its store, the condensing core, the frost and
# the dryer turn into vector instructions (gcc on x86).
set -eu
cd "$(dirname "$0")/../.."
command -v gcc >/dev/null || { echo "skip no gcc"; exit 0; }
[ "$(uname -m)" = x86_64 ] || { echo "skip not x86_64"; exit 0; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cat >"$work/lanes.c" <<'END'
#include "plant/coil_step.h"
#include "plant/control_step.h"
#include "plant/core_step.h"
#include "plant/store_step.h"
struct lanes {
    double a[16], b[16], c[16], d[16], e[16], f[16], x[16], y[16];
};
void coil(const struct dew_coil *k, struct lanes *l)
{
#pragma omp simd
    for (int i = 0; i < 16; i++) {
        struct dew_coil_air a = {l->a[i], l->b[i], l->c[i], l->d[i], l->e[i]};
        struct plant__off off = {l->f[i], l->y[i]};
        struct dew_coil_work o = plant__coil(k, &a, &off);
        l->x[i] = o.sensible;
        l->y[i] = o.w_adp;
    }
}
void store(const struct dew_coil_store *k, struct lanes *l)
{
#pragma omp simd
    for (int i = 0; i < 16; i++) {
        struct dew_coil_store_in a = {l->a[i], l->b[i], l->c[i],
                                      l->d[i], l->e[i], l->f[i]};
        struct dew_coil_store_out o = plant__store_step(k, &a);
        l->x[i] = o.m;
        l->y[i] = o.reevaporated;
    }
}
void core(struct lanes *l)
{
#pragma omp simd
    for (int i = 0; i < 16; i++) {
        struct dew_core_meeting m = {l->a[i], l->b[i], l->c[i],
                                     l->d[i], l->e[i], 98400.0};
        struct dew_core_wet o = plant__core_wet(&m, l->f[i]);
        l->x[i] = o.sensible;
        l->y[i] = o.water;
    }
}
void frost(const struct dew_frost_rule *r, struct lanes *l)
{
#pragma omp simd
    for (int i = 0; i < 16; i++)
        l->x[i] = plant__frost(r, l->a[i], l->b[i]);
}
void dryer(struct lanes *l)
{
#pragma omp simd
    for (int i = 0; i < 16; i++) {
        struct plant__dryer o =
            plant__dryer(l->a[i], l->b[i], l->c[i], l->d[i]);
        l->x[i] = o.rate;
        l->y[i] = o.power;
    }
}
END
bad=0
for arch in x86-64 x86-64-v3; do
    gcc -std=c11 -D_POSIX_C_SOURCE=200809L -O2 -march=$arch -ffp-contract=off \
        -fno-math-errno -fno-trapping-math -fopenmp-simd \
        -fopt-info-vec-optimized -Iinclude -Iengine \
        -c "$work/lanes.c" -o "$work/lanes.o" 2>"$work/notes"
    n=$(grep 'loop vectorized' "$work/notes" | cut -d: -f2 | sort -u | wc -l)
    if [ "$n" = 5 ]; then
        echo "ok $arch: every loop vectorized"
    else
        echo "not ok $arch: $n of 5 loops vectorized"
        bad=1
    fi
done
exit $bad
