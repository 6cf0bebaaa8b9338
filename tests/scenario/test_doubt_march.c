/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Ranges marched: from low to high each figure moves what a house comes to
 * where what it is about stands; where it does not stand the reason is told,
 * and it moves nothing.
 */
#include "support/rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "dew/bundle.h"
#include "scenario/case_further.h"
#include "scenario/case_open.h"

enum { DAYS = 24, HOURS = 24 * DAYS };

/* ---- a made-up year of 24 days ------------------------------------------------- */

/* From -18 to 36 degC: frost, mild days for windows, days to cool. */
static struct dew_hour weather(int h)
{
    const double pi = 3.14159265358979323846;
    double year = sin(2 * pi * (h / 24.0 - DAYS / 4.0) / DAYS);
    double day = sin(2 * pi * (h % 24 - 9.3) / 24.0);
    double spell = sin(2 * pi * h / 127.0);
    double t = 9.0 + 18.0 * year + 5.0 * day + 4.0 * spell;
    double sun = day > 0 ? 600 * day * (0.7 + 0.3 * year) : 0;

    return (struct dew_hour){.t = t,
                             .w = dew_air_w(t, 0.72 - 0.15 * day, 98512),
                             .p = 98512,
                             .wind = 3.7 + 2.1 * spell - 1.1 * day,
                             .global = sun,
                             .direct = 0.6 * sun,
                             .diffuse = 0.5 * sun,
                             .sky = 9.1 + 4.7 * spell};
}

static struct dew_date date(int h)
{
    static const int before[] = {0, 31, 59, 90};
    int day = h / 24, month = 1;

    while (day >= before[month])
        month++;
    return (struct dew_date){.month = month,
                             .day = day - before[month - 1] + 1,
                             .hour = h % 24 + 1,
                             .weekday = day % 7,
                             .yearday = day + 1};
}

/* Every figure of a tally is a double: 1 where one is another by that share. */
static int differ(const struct dew_tally *a, const struct dew_tally *b,
                  double share)
{
    for (size_t i = 0; i + sizeof(double) <= sizeof *a; i += sizeof(double)) {
        double x, y;

        memcpy(&x, (const char *)a + i, sizeof x);
        memcpy(&y, (const char *)b + i, sizeof y);
        if (isnan(x) != isnan(y) || fabs(x - y) > share * fabs(x + y))
            return 1;
    }
    return 0;
}

/* ---- the ends of a range --------------------------------------------------------- */

/* Of a default or as told; a figure told without one, a tenth less and more. */
static int ends_of(const struct dew_scenario *s, size_t key,
                   struct dew_change *low, struct dew_change *high)
{
    size_t count;
    const struct dew_field *f = &dew_scenario_fields(&count)[key];
    const struct dew_value *v = &dew_scenario_values(s, 0)[key];
    const struct dew_value *x = f->kind == DEW_KIND_NUMBER ? v
                                : f->kind == DEW_KIND_AT && v->count == 1
                                    ? v->items
                                    : NULL;
    struct dew_measure ends;
    enum dew_doubt how =
        dew_scenario_doubt(dew_scenario_values(s, 0), key, &ends);

    if (how == DEW_DOUBT_NONE && (x == NULL || !v->given))
        return 0;
    if (how == DEW_DOUBT_NONE) {
        double by = fabs(x->amount.si) > 0 ? 0.1 * fabs(x->amount.si) : 0.05;

        ends.low = fmax(x->amount.si - by, f->low);
        ends.high = fmin(x->amount.si + by, f->high);
    }
    *low = (struct dew_change){f->path, ends.low, how};
    *high = (struct dew_change){f->path, ends.high, how};
    return 1;
}

struct end {
    struct dew_case c;
    double required;
};

static int make_end(const struct dew_scenario *s, const struct dew_change *one,
                    struct end *out)
{
    const struct dew_changes changes = {one, 1};

    memset(out, 0, sizeof *out);
    return dew_scenario_case(s, 0, &place, &changes, &out->c, NULL) == DEW_OK &&
           dew_scenario_required_with(s, 0, &changes, &out->required, NULL) ==
               DEW_OK;
}

/* ---- both ends, side by side ----------------------------------------------------- */

struct house {
    const struct end *of;
    struct dew_march *m;
    struct dew_tally sum;
};

static void open_house(struct house *house, const struct end *of)
{
    struct dew_hour first = weather(0);
    struct dew_error err = {0};

    *house = (struct house){.of = of};
    if (dew_march_open(&house->m, &of->c, &first, &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
}

static void step_house(struct house *house, int h)
{
    struct dew_hour now = weather(h + 1);
    struct dew_date at = date(h);
    struct dew_error err = {0};
    struct dew_result r;

    if (dew_march_step(house->m, &now, &at, &r, &err) != DEW_OK)
        fail_msg("hour %d: %s", err.hour, err.text);
    dew_tally_add(&house->sum, &house->of->c.limits, house->of->required, &at,
                  &r);
}

/* What a key's range does in a scenario: it has none; it moves nothing, as a
   case or marched; it moves what the house comes to, a little or more.  A
   little is also what steps of another length come to. */
enum effect { NO_RANGE, SAME_CASE, SAME_MARCH, STIRS, MOVES };

static const double little = 1e-6, more = 1e-3; /* of a figure               */

/* soon: to the first evening at which more is seen, for of what grows, and a day
   has begun, more than a little stays. */
static enum effect effect_marched(const struct end ends[2], int soon)
{
    struct house a, b;
    int moves = 0;
    enum effect e;

    open_house(&a, &ends[0]);
    open_house(&b, &ends[1]);
    for (int h = 0; h < HOURS && !(soon && moves); h++) {
        step_house(&a, h);
        step_house(&b, h);
        if ((soon && h % 24 == 23) || h == HOURS - 1)
            moves = differ(&a.sum, &b.sum, more);
    }
    e = moves ? MOVES : differ(&a.sum, &b.sum, little) ? STIRS : SAME_MARCH;
    dew_march_close(a.m);
    dew_march_close(b.m);
    return e;
}

static enum effect effect_in(const struct dew_scenario *s, size_t key, int soon)
{
    static struct end ends[2]; /* low, high */
    struct dew_change low, high;

    if (!ends_of(s, key, &low, &high) || !make_end(s, &low, &ends[0]) ||
        !make_end(s, &high, &ends[1]))
        return NO_RANGE;
    return dew_bundle_same(&ends[0].c, &ends[1].c) &&
                   !(fabs(ends[0].required - ends[1].required) > 0)
               ? SAME_CASE
               : effect_marched(ends, soon);
}

static const char *ground(size_t i)
{
    if (i < COUNT_OF(grounds))
        return grounds[i];
    i -= COUNT_OF(grounds);
    return i < COUNT_OF(further) ? further[i] : NULL;
}

/* ---- every key -------------------------------------------------------------------- */

/* A reason is told only where the range moves nothing; a ground that tells none
   is not marched for one that moves something already. */
static enum effect in_ground(size_t g, size_t key, int moved)
{
    size_t count;
    const char *path = dew_scenario_fields(&count)[key].path;
    struct dew_scenario *s = opened(ground(g), NULL, 0);
    int lull = dew_scenario_lull(dew_scenario_values(s, 0), key);
    enum effect e = moved && lull < 0 ? NO_RANGE : effect_in(s, key, lull < 0);

    dew_scenario_close(s);
    if (e == MOVES && lull >= 0)
        fail_msg("%s moves the house of ground %zu, where \"%s\"", path, g,
                 dew_scenario_lull_words(lull));
    return e;
}

static void a_range_moves_what_a_house_comes_to(void **state)
{
    const struct dew_field *f = *state;
    size_t count, key = (size_t)(f - dew_scenario_fields(&count));
    enum effect most = NO_RANGE;

    for (size_t g = 0; ground(g) != NULL; g++) {
        enum effect e = in_ground(g, key, most >= STIRS);

        most = e > most ? e : most;
    }
    if (most < STIRS)
        fail_msg("%s: %s", f->path,
                 most == NO_RANGE    ? "no ground has a figure of it"
                 : most == SAME_CASE ? "its range changes no house"
                                     : "its range changes no march");
}

/* In a house of which nothing is told but its size. */
static void a_bare_house_says_what_it_lacks(void **state)
{
    const struct dew_field *f = *state;
    size_t count, key = (size_t)(f - dew_scenario_fields(&count));
    struct dew_scenario *s = opened(BARE, NULL, 0);
    int lull = dew_scenario_lull(dew_scenario_values(s, 0), key);
    enum effect e = effect_in(s, key, lull < 0);

    dew_scenario_close(s);
    if ((e == SAME_CASE || e == SAME_MARCH) && lull < 0)
        fail_msg("%s: moves nothing, and no reason is told", f->path);
    if (e == MOVES && lull >= 0)
        fail_msg("%s: moves the house, where \"%s\"", f->path,
                 dew_scenario_lull_words(lull));
}

/* What is asked, and money, move no house. */
static int is_of_the_house(const struct dew_field *f)
{
    static const char *const others[] = {"weather.", "log.",   "run.",
                                         "prices.",  "costs.", "limits."};

    for (size_t i = 0; i < COUNT_OF(others); i++)
        if (strncmp(f->path, others[i], strlen(others[i])) == 0)
            return f->doubt != DEW_DOUBT_NONE;
    return f->kind == DEW_KIND_NUMBER || f->kind == DEW_KIND_AT ||
           f->doubt != DEW_DOUBT_NONE;
}

__attribute__((constructor)) static void add_keys(void)
{
    static char names[400][80];
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);

    for (size_t i = 0; i < count; i++) {
        if (!is_of_the_house(&f[i]))
            continue;
        add_test(f[i].path, a_range_moves_what_a_house_comes_to, &f[i]);
        snprintf(names[i], sizeof names[i], "bare: %s", f[i].path);
        add_test(names[i], a_bare_house_says_what_it_lacks, &f[i]);
    }
}

RUN_TESTS("scenario, ranges marched");
