/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Houses side by side come to what each comes to alone. */
#include "support/drawn.h"
#include "support/rows.h"

#include <stdlib.h>
#include <string.h>

#include "march/body_map.h"
#include "march/bundle.h"
#include "march/houses.h"

/* One house alone, from the same place; its tally, and each hour's result. */
static void alone(const struct dew_case *c, int warm, int count,
                  struct dew_result *out, struct dew_tally *sum)
{
    struct dew_error err = {0};
    struct dew_march *m;

    if (dew_march_open(&m, c, &hours[0], &err) != DEW_OK)
        fail_msg("%s: %s", err.path, err.text);
    if (warm)
        assert_int_equal(dew_march_warm_up(m, hours, dates, YEAR, NULL, NULL),
                         DEW_OK);
    for (int h = 0; h < count; h++) {
        assert_int_equal(dew_march_step(m, &hours[h], &dates[h], &out[h], NULL),
                         DEW_OK);
        dew_tally_add(sum, &c->limits, 0.03, &dates[h], &out[h]);
    }
    dew_march_close(m);
}

/* Houses side by side, count hours, against each alone; every other one has the
   light that was made for lit. */
static void compare(const struct march__kernel *kernel,
                    const struct dew_case *lit, const struct dew_case *cases,
                    size_t n, int warm, int count)
{
    const struct march__making making = {kernel, 1};
    struct dew_result *one = calloc((size_t)count * n, sizeof *one);
    struct dew_tally sum[DEW_BUNDLE_MOST] = {0}, lane;
    struct dew_weather weather[DEW_BUNDLE_MOST];
    const struct dew_case *c[DEW_BUNDLE_MOST];
    struct dew_light *light;
    struct dew_bundle *b;

    assert_non_null(one);
    assert_int_equal(dew_light_open(&light, lit, &year, NULL), DEW_OK);
    for (size_t i = 0; i < n; i++) {
        c[i] = &cases[i];
        weather[i] = year;
        weather[i].light = i % 2 == 0 ? light : NULL;
        alone(c[i], warm, count, one + i * (size_t)count, &sum[i]);
    }
    assert_int_equal(march__bundle_open(&b, &making, c, weather, n, NULL),
                     DEW_OK);
    for (size_t i = 0; i < n; i++)
        dew_bundle_require(b, i, 0.03);
    if (warm)
        assert_int_equal(dew_bundle_warm_up(b, NULL, NULL), DEW_OK);
    for (int h = 0; h < count; h++) {
        assert_int_equal(dew_bundle_step(b, (size_t)h, NULL, NULL), DEW_OK);
        dew_bundle_tally(b, 0);
        for (size_t i = 0; i < n; i++) {
            struct dew_result r;

            dew_bundle_result(b, i, &r);
            assert_same(&one[i * (size_t)count + (size_t)h], &r, sizeof r);
        }
    }
    for (size_t i = 0; i < n; i++) {
        dew_bundle_total(b, i, 0, &lane);
        assert_same(&sum[i], &lane, sizeof lane);
    }
    dew_bundle_close(b);
    dew_light_close(light);
    free(one);
}

/* For each width that this processor has, into the summer. */
TEST(a_full_bundle_is_its_houses_alone)
{
    const struct march__kernel *kernel;
    struct dew_case cases[DEW_BUNDLE_MOST];

    make_year();
    for (int i = 0; i < DEW_BUNDLE_MOST; i++)
        cases[i] = house(i);
    for (size_t k = 0; (kernel = march__kernel(k)) != NULL; k++)
        compare(kernel, cases, cases, (size_t)kernel->lanes, 0, 6000);
}

/* Led in, and with fewer houses than lanes. */
TEST(so_is_one_led_in_and_not_full)
{
    const struct march__kernel *kernel;
    struct dew_case cases[] = {house(3)};

    make_year();
    for (size_t k = 0; (kernel = march__kernel(k)) != NULL; k++)
        compare(kernel, cases, cases, 1, 1, 300);
}

/* Every number between 0.7 and 1 of what it was: shares stay shares.  A coil's
   go together and are left. */
static double shrunk(double x, uint64_t *seed)
{
    return x * (0.7 + 0.3 * drawn_share(seed));
}

static const struct march__span spans[] = {MARCH__CASE_SPANS};

static struct dew_case any_house(uint64_t *seed)
{
    struct dew_case c = house((int)(*seed % 7));

    for (size_t s = 0; s < sizeof spans / sizeof spans[0]; s++)
        for (size_t i = 0; i < spans[s].times; i++) {
            int coil = strcmp(spans[s].path, "plant.handlers") == 0;
            char *at = (char *)&c + spans[s].offset + i * spans[s].stride;
            double *x = (double *)(void *)at;

            for (size_t k = 0; k < spans[s].count && !coil; k++)
                x[k] = shrunk(x[k], seed);
        }
    c.site.utc_offset = 0.0;
    c.house.leakage.n = fmax(c.house.leakage.n, 0.5);
    return c;
}

TEST(two_hundred_houses_drawn_are_themselves)
{
    struct dew_case cases[DEW_BUNDLE_MOST];
    uint64_t seed = 20261129;
    int n = dew_bundle_lanes();

    make_year();
    for (int done = 0; n > 0 && done < 200; done += n) {
        for (int i = 0; i < n; i++)
            cases[i] = any_house(&seed);
        compare(march__kernel(0), cases, cases, (size_t)n, 0, 200);
    }
}

/* ---- to the last bit --------------------------------------------------------- */

static struct dew_bundle *led_in(const struct march__kernel *kernel,
                                 const struct dew_case *cases, size_t n)
{
    const struct march__making making = {kernel, 0};
    struct dew_weather weather[DEW_BUNDLE_MOST];
    const struct dew_case *c[DEW_BUNDLE_MOST];
    struct dew_bundle *b;

    for (size_t i = 0; i < n; i++) {
        c[i] = &cases[i];
        weather[i] = year;
    }
    assert_int_equal(march__bundle_open(&b, &making, c, weather, n, NULL),
                     DEW_OK);
    assert_int_equal(dew_bundle_warm_up(b, NULL, NULL), DEW_OK);
    return b;
}

/* A table of many houses must not hang on who marched beside whom: of a bundle
   each comes to the very bits of a bundle that it has to itself. */
static void by_themselves(const struct march__kernel *kernel,
                          const struct dew_case *cases, int count)
{
    size_t n = (size_t)kernel->lanes;
    struct dew_bundle *all = led_in(kernel, cases, n), *one[DEW_BUNDLE_MOST];
    struct dew_result x, y;

    for (size_t i = 0; i < n; i++)
        one[i] = led_in(kernel, &cases[i], 1);
    for (size_t h = 0; h < (size_t)count; h++) {
        assert_int_equal(dew_bundle_step(all, h, NULL, NULL), DEW_OK);
        for (size_t i = 0; i < n; i++) {
            assert_int_equal(dew_bundle_step(one[i], h, NULL, NULL), DEW_OK);
            dew_bundle_result(all, i, &x);
            dew_bundle_result(one[i], 0, &y);
            if (memcmp(&x, &y, sizeof x) != 0)
                fail_msg("house %zu, hour %zu: other bits", i, h + 1);
        }
    }
    for (size_t i = 0; i < n; i++)
        dew_bundle_close(one[i]);
    dew_bundle_close(all);
}

/* Films and coil run over at once, and are emptied to the brim. */
static struct dew_case brimful(int i)
{
    struct dew_case c = house(i);

    for (int f = 0; f < DEW_SURFACES; f++) {
        c.house.surfaces[f].area = 5.0 + i;
        c.house.surfaces[f].film_max = 3e-4;
    }
    c.plant.handlers[0].hold_s = 70.0;
    return c;
}

TEST(a_house_has_the_same_bits_beside_any_others)
{
    const struct march__kernel *kernel;
    struct dew_case cases[DEW_BUNDLE_MOST];

    make_year();
    for (int i = 0; i < DEW_BUNDLE_MOST; i++)
        cases[i] = brimful(i);
    for (size_t k = 0; (kernel = march__kernel(k)) != NULL; k++)
        by_themselves(kernel, cases, 6000);
}

/* Each house under weather of its own. */
TEST(houses_may_have_weather_of_their_own)
{
    static struct dew_hour warmer[YEAR];
    struct dew_case c = house(2);
    const struct dew_case *cases[] = {&c, &c};
    struct dew_weather weather[] = {year, {warmer, dates, YEAR, NULL}};
    struct dew_light *light;
    struct dew_bundle *b;
    struct dew_result one, other;

    if (dew_bundle_lanes() < 2)
        return;
    make_year();
    for (int h = 0; h < YEAR; h++) {
        warmer[h] = hours[h];
        warmer[h].t += 3.0;
        warmer[h].global *= 0.5;
        warmer[h].direct *= 0.5;
        warmer[h].diffuse *= 0.5;
    }
    /* the light of other hours is not theirs */
    assert_int_equal(dew_light_open(&light, &c, &year, NULL), DEW_OK);
    weather[0].light = weather[1].light = light;
    assert_int_equal(dew_bundle_open(&b, cases, weather, 2, 0, NULL), DEW_OK);
    for (size_t h = 0; h < 37; h++)
        assert_int_equal(dew_bundle_step(b, h, NULL, NULL), DEW_OK);
    dew_bundle_result(b, 0, &one);
    dew_bundle_result(b, 1, &other);
    assert_near(other.t_out - one.t_out, 3.0, 1e-9);
    assert_true(one.heat.solar > 0.0);
    assert_true(other.heat.solar < 0.9 * one.heat.solar);
    dew_bundle_close(b);
    dew_light_close(light);
}

/* What was made for a house that stands otherwise lights no other, nor that of
   other hours. */
TEST(light_is_for_houses_that_stand_alike)
{
    const struct dew_case cases[] = {house(2), house(2)};
    struct dew_case lit = cases[0];

    if (dew_bundle_lanes() < 2)
        return;
    make_year();
    compare(march__kernel(0), &lit, cases, 2, 0, 48);
    lit.house.thermal.facades[0].azimuth = 90.0;
    compare(march__kernel(0), &lit, cases, 2, 0, 48);
    lit = cases[0];
    lit.site.latitude += 10.0;
    compare(march__kernel(0), &lit, cases, 2, 0, 48);
    lit = cases[0];
    lit.house.thermal.facade_count = 0;
    compare(march__kernel(0), &lit, cases, 2, 0, 48);
}

/* A temperature held in one house leaves the other its own. */
TEST(a_held_temperature_is_one_houses)
{
    struct dew_case c = house(2);
    const struct dew_case *cases[] = {&c, &c};
    const struct dew_weather weather[] = {year, year};
    double t[100];
    struct dew_bundle *b;
    struct dew_result one, other;

    if (dew_bundle_lanes() < 2)
        return;
    make_year();
    all_day(t, 27.5);
    for (int h = 24; h < 100; h++)
        t[h] = h < 60 ? 27.5 : NAN;
    assert_int_equal(dew_bundle_open(&b, cases, weather, 2, 0, NULL), DEW_OK);
    dew_bundle_prescribe_t(b, 1, t, 100);
    for (size_t h = 0; h < 50; h++)
        assert_int_equal(dew_bundle_step(b, h, NULL, NULL), DEW_OK);
    dew_bundle_result(b, 0, &one);
    dew_bundle_result(b, 1, &other);
    assert_near(other.t, 27.5, 1e-9);
    assert_true(fabs(one.t - 27.5) > 1.0);
    dew_bundle_close(b);
}

static void refuses(const struct dew_case *a, const struct dew_case *b)
{
    const struct dew_case *cases[] = {a, b};
    const struct dew_weather weather[] = {year, year};
    struct dew_bundle *bundle;

    assert_false(dew_bundle_alike(a, b));
    assert_int_equal(dew_bundle_open(&bundle, cases, weather, 2, 0, NULL),
                     DEW_ERANGE);
    assert_null(bundle);
}

TEST(houses_that_branch_differently_are_refused)
{
    struct dew_case a = house(0), b;

    assert_true(dew_bundle_alike(&a, &a));
    b = a, b.plant.handler_count = 0;
    refuses(&a, &b);
    b = a, b.plant.handlers[0].capacity = 0.0;
    refuses(&a, &b);
    b = a, b.plant.handlers[0].mode = DEW_BLOWER_ON;
    refuses(&a, &b);
    b = a, b.plant.frost.strategy = DEW_FROST_PREHEAT;
    refuses(&a, &b);
    b = a, b.paths[DEW_VENT_ON][2].supply += 0.01;
    refuses(&a, &b);
    b = a, b.site.utc_offset += 1.0;
    refuses(&a, &b);
    b = a, b.clock = DEW_CLOCK_US;
    refuses(&a, &b);
}

/* What the march does not look at, and what pads the struct, is no matter. */
TEST(the_same_house_has_the_same_numbers)
{
    struct dew_case a = house(0), b = a;

    assert_true(dew_bundle_same(&a, &b));
    b.site.name[0] ^= 1;
    b.house.bedrooms++;
    assert_true(dew_bundle_same(&a, &b));
    b = a, b.house.volume *= 1.0 + 1e-15;
    assert_false(dew_bundle_same(&a, &b));
    b = a, b.paths[DEW_VENT_STATES - 1][DEW_BLOWER_STATES - 1].supply += 0.01;
    assert_false(dew_bundle_same(&a, &b));
    b = a, b.plant.exhausts[DEW_LOCALS - 1].caught += 0.1;
    assert_false(dew_bundle_same(&a, &b));
    b = a, b.plant.lead_lag = !a.plant.lead_lag;
    assert_false(dew_bundle_same(&a, &b));
    b = a, b.steps_per_hour++;
    assert_false(dew_bundle_same(&a, &b));
}

/* In their order, like with like, and no more than there is room for. */
TEST(who_marches_together_is_dealt_in_order)
{
    const size_t told[] = {0, 2, 1, 4, 3};
    const size_t counts[] = {2, 2, 1, 0};
    struct dew_case cases[5];
    unsigned char taken[5] = {0};
    size_t list[DEW_BUNDLE_MOST], at = 0;

    for (int i = 0; i < 5; i++) {
        cases[i] = house(i);
        cases[i].plant.handler_count = i == 1 || i == 4 ? 0 : 1;
    }
    for (int k = 0; k < 4; k++) {
        size_t n = dew_bundle_next(cases, 5, 2, taken, list);

        assert_int_equal(n, counts[k]);
        for (size_t i = 0; i < n; i++)
            assert_int_equal(list[i], told[at++]);
    }
}

/* The one whose books do not close is named; the other marches on. */
TEST(a_house_that_runs_away_is_named)
{
    struct dew_case good = house(0), bad = house(1);
    const struct dew_case *cases[] = {&good, &bad};
    const struct dew_weather weather[] = {year, year};
    struct dew_bundle *b;
    struct dew_error err = {0};
    struct dew_result r;
    enum dew_status status = DEW_OK;
    size_t failed = 9, h = 0;

    if (dew_bundle_lanes() < 2)
        return;
    make_year();
    bad.house.people.gains_w = 5e6;
    assert_int_equal(dew_bundle_open(&b, cases, weather, 2, 0, NULL), DEW_OK);
    while (status == DEW_OK && h < 100)
        status = dew_bundle_step(b, h++, &failed, &err);
    assert_int_equal(status, DEW_EBALANCE);
    assert_int_equal(failed, 1);
    assert_int_equal(err.hour, h);
    dew_bundle_result(b, 0, &r);
    assert_true(r.t > 0.0 && r.t < 40.0);
    dew_bundle_close(b);
}

/* ---- no number of a case is forgotten ------------------------------------- */

static void cover(unsigned char *seen, size_t offset, size_t bytes)
{
    for (size_t i = 0; i < bytes; i++)
        seen[offset + i]++;
}

#define COVER_INT(member)                                                      \
    cover(seen, offsetof(struct dew_case, member),                             \
          sizeof((struct dew_case *)0)->member);

TEST(every_number_of_a_case_is_put_into_its_lane)
{
    static unsigned char seen[sizeof(struct dew_case)];
    size_t gap = 0;

    for (size_t s = 0; s < sizeof spans / sizeof spans[0]; s++)
        for (size_t i = 0; i < spans[s].times; i++)
            cover(seen, spans[s].offset + i * spans[s].stride,
                  spans[s].count * sizeof(double));
    MARCH__CASE_FORKS(COVER_INT)
    MARCH__CASE_IDLE(COVER_INT)
    COVER_INT(site.id)
    COVER_INT(site.name)
    for (size_t i = 0; i < sizeof seen; i++) {
        assert_true(seen[i] <= 1);
        gap = seen[i] ? 0 : gap + 1;
        assert_true(gap < sizeof(double)); /* what is left is padding */
    }
}

/* Alone with itself the air keeps what its stores have: nothing comes or goes. */
TEST(a_house_begins_where_it_is_put)
{
    struct dew_case c = house(0);
    const struct dew_case *cases[] = {&c};
    struct dew_bundle *b;
    struct dew_result low, high;

    for (int k = 0; k < 2; k++) {
        assert_int_equal(dew_bundle_open(&b, cases, &year, 1, 1, NULL), DEW_OK);
        assert_int_equal(
            dew_bundle_begin(b, 0, 18.3, k == 0 ? 0.31 : 0.62, NULL), DEW_OK);
        assert_int_equal(dew_bundle_step(b, 0, NULL, NULL), DEW_OK);
        dew_bundle_result(b, 0, k == 0 ? &low : &high);
        assert_int_equal(dew_bundle_begin(b, 0, 18.3, 1.02, NULL), DEW_ERANGE);
        assert_int_equal(dew_bundle_begin(b, 0, NAN, 0.5, NULL), DEW_ERANGE);
        dew_bundle_close(b);
    }
    /* stores are in kg of their capacity x RH */
    assert_near(high.end.w_deep / low.end.w_deep, 2, 0.02);
    assert_near(high.rh / low.rh, 2, 0.3);
    assert_near(low.end.t_mass, 18.3, 0.8);
}

RUN_TESTS("march, bundle");
