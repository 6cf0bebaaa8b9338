/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of many.h for CORE__LANES houses at once.  Included by it alone. */
#ifndef DEW_CORE_LANES_H
#define DEW_CORE_LANES_H

#ifdef __SSE2__
#include <immintrin.h>
#endif
#ifdef __wasm_simd128__
#include <wasm_simd128.h>
#endif

typedef double core__many __attribute__((vector_size(8 * CORE__LANES)));
typedef uint64_t core__bits __attribute__((vector_size(8 * CORE__LANES)));
typedef int64_t core__truth __attribute__((vector_size(8 * CORE__LANES)));

/* Taking away a zero makes a vector of a constant, and is left out of one. */
#define CORE__OF(x) ((x) - (core__many){0})
#define core__pick(c, a, b)                                                    \
    (CORE__ZERO(b) ? core__only(c, CORE__OF(a))                                \
                   : core__blend(c, CORE__OF(a), CORE__OF(b)))
#define core__not(c) (~(c))

/* A call asks for registers to be put away: it pays where there are many. */
#if CORE__LANES == 8
#define core__rare(c) core__any(c)
#define CORE__RARELY  __attribute__((noinline, cold))
#else
#define core__rare(c) 1
#define CORE__RARELY  CORE__INLINE
#endif

/* Whether x is the number 0, and not one of each house. */
#define CORE__ZERO(x) (_Generic((x), core__plain : (x), default : 1.0) == 0.0)

/* a where c, else 0: one instruction, where a choice takes two or three. */
static CORE__INLINE core__many core__only(core__truth c, core__many a)
{
    return (core__many)(c & (core__truth)a);
}

static CORE__INLINE core__many core__blend(core__truth c, core__many a,
                                           core__many b)
{
#if defined __AVX2__ && CORE__LANES == 4
    return _mm256_blendv_pd(b, a, (core__many)c);
#elif defined __SSE4_1__ && CORE__LANES == 2
    return _mm_blendv_pd(b, a, (core__many)c);
#elif defined __wasm_simd128__ && CORE__LANES == 2
    return (core__many)wasm_v128_bitselect((v128_t)a, (v128_t)b, (v128_t)c);
#else
    return (core__many)((c & (core__truth)a) | (~c & (core__truth)b));
#endif
}

#if defined __AVX512F__ && CORE__LANES == 8
#define CORE__WORD(what) _mm512_##what

static CORE__INLINE int core__any(core__truth c)
{
    return _mm512_test_epi64_mask((__m512i)c, (__m512i)c) != 0;
}
#elif defined __AVX2__ && CORE__LANES == 4
#define CORE__WORD(what) _mm256_##what

static CORE__INLINE int core__any(core__truth c)
{
    return _mm256_movemask_pd((__m256d)c) != 0;
}
#endif

#ifdef CORE__WORD
static CORE__INLINE core__many core__sqrt(core__many x)
{
    return CORE__WORD(sqrt_pd)(x);
}

static CORE__INLINE core__many core__max(core__many a, core__many b)
{
    return CORE__WORD(max_pd)(a, b);
}

static CORE__INLINE core__many core__min(core__many a, core__many b)
{
    return CORE__WORD(min_pd)(a, b);
}
#elif defined __wasm_simd128__ && CORE__LANES == 2
static CORE__INLINE int core__any(core__truth c)
{
    return wasm_v128_any_true((v128_t)c);
}

static CORE__INLINE core__many core__sqrt(core__many x)
{
    return (core__many)wasm_f64x2_sqrt((v128_t)x);
}

/* pmax(a, b) is a < b ? b : a. */
static CORE__INLINE core__many core__max(core__many a, core__many b)
{
    return (core__many)wasm_f64x2_pmax((v128_t)b, (v128_t)a);
}

static CORE__INLINE core__many core__min(core__many a, core__many b)
{
    return (core__many)wasm_f64x2_pmin((v128_t)b, (v128_t)a);
}
#else
static CORE__INLINE int core__any(core__truth c)
{
    int any = 0;

    for (int i = 0; i < CORE__LANES; i++)
        any |= c[i] != 0;
    return any;
}

static CORE__INLINE core__many core__sqrt(core__many x)
{
    for (int i = 0; i < CORE__LANES; i++)
        x[i] = sqrt(x[i]);
    return x;
}

static CORE__INLINE core__many core__max(core__many a, core__many b)
{
    return core__blend(a > b, a, b);
}

static CORE__INLINE core__many core__min(core__many a, core__many b)
{
    return core__blend(a < b, a, b);
}
#endif

static CORE__INLINE int core__every(core__truth c)
{
    return !core__any(~c);
}

static CORE__INLINE core__many core__abs(core__many x)
{
    return (core__many)((core__bits)x & (UINT64_MAX >> 1));
}

#endif
