/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What names a house of which the outcome is kept: all its numbers, and no
   more. */
#include <string.h>

#include "march/case_map.h"
#include "study/kept.h"
#include "support/cases.h"
#include "support/rows.h"

static const struct march__span spans[] = {MARCH__CASE_SPANS};

static void name_of(const struct dew_case *c, char out[DEW_KEPT_NAME])
{
    struct study__name name = study__name_of("a house", 1);

    study__name_case(&name, c);
    study__name_end(&name, out);
}

static int alike(const struct dew_case *a, const struct dew_case *b)
{
    char one[DEW_KEPT_NAME], other[DEW_KEPT_NAME];

    name_of(a, one);
    name_of(b, other);
    return strcmp(one, other) == 0;
}

TEST(each_number_tells_a_case_from_another)
{
    struct dew_case a = bare_case(300, 21), b;

    for (size_t s = 0; s < COUNT_OF(spans); s++)
        for (size_t i = 0; i < spans[s].times; i++)
            for (size_t k = 0; k < spans[s].count; k++) {
                double *x;

                memcpy(&b, &a, sizeof b);
                x = (double *)(void *)((char *)&b + spans[s].offset +
                                       i * spans[s].stride) +
                    k;
                *x = *x > 0.5 ? 0.25 : 0.75; /* another, whatever it was */
                assert_false(alike(&a, &b));
            }
#define OTHER(member)                                                          \
    b = a;                                                                     \
    b.member++;                                                                \
    assert_false(alike(&a, &b));
    MARCH__CASE_FORKS(OTHER)
    MARCH__CASE_IDLE(OTHER)
}

/* Copied number by number onto other bytes, a case is itself. */
TEST(what_lies_between_numbers_tells_nothing)
{
    struct dew_case a = bare_case(300, 21), b;

    memset(&b, 0x5a, sizeof b);
    for (size_t s = 0; s < COUNT_OF(spans); s++)
        for (size_t i = 0; i < spans[s].times; i++) {
            size_t at = spans[s].offset + i * spans[s].stride;

            memcpy((char *)&b + at, (const char *)&a + at,
                   spans[s].count * sizeof(double));
        }
#define COPY(member) b.member = a.member;
    MARCH__CASE_FORKS(COPY)
    MARCH__CASE_IDLE(COPY)
    assert_int_not_equal(memcmp(&a, &b, sizeof a), 0);
    assert_true(alike(&a, &b));
}

/* ---- the weather ----------------------------------------------------------------- */

enum { HOURS = 9 };

struct outside {
    struct dew_hour hours[HOURS];
    struct dew_date dates[HOURS];
    double t[HOURS];
};

static void weather_name(const struct outside *o, char out[DEW_KEPT_NAME])
{
    const struct dew_weather w = {
        .hours = o->hours, .dates = o->dates, .count = HOURS};

    study__name_weather(&w, o->t, out);
}

/* One bit of any byte, the last hour's too. */
TEST(each_hour_tells_a_weather_from_another)
{
    struct outside a, b;
    char name[DEW_KEPT_NAME], other[DEW_KEPT_NAME];

    memset(&a, 0, sizeof a);
    weather_name(&a, name);
    for (size_t i = 0; i < sizeof a; i++) {
        memcpy(&b, &a, sizeof b);
        ((unsigned char *)&b)[i] ^= 1;
        weather_name(&b, other);
        assert_string_not_equal(name, other);
    }
}

TEST(held_or_not_a_weather_has_another_name)
{
    struct outside a;
    char held[DEW_KEPT_NAME], free_[DEW_KEPT_NAME];
    const struct dew_weather w = {
        .hours = a.hours, .dates = a.dates, .count = HOURS};

    memset(&a, 0, sizeof a);
    weather_name(&a, held);
    study__name_weather(&w, NULL, free_);
    assert_string_not_equal(held, free_);
}

RUN_TESTS("study: names of what is kept");
