/* SPDX-License-Identifier: GPL-3.0-or-later */
/* wasi-libc's, and its fmax and fmin, to the bit, in place of a call: the greater
   and the less of two numbers are one instruction each where neither is none. */
#ifndef DEW_PAGE_PORT_MATH_H
#define DEW_PAGE_PORT_MATH_H

#include_next <math.h>

static inline double port__fmax(double a, double b)
{
    return a != a ? b : b != b ? a : __builtin_wasm_max_f64(a, b);
}

static inline double port__fmin(double a, double b)
{
    return a != a ? b : b != b ? a : __builtin_wasm_min_f64(a, b);
}

#define fmax port__fmax
#define fmin port__fmin

#endif
