/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Coils and blowers that are told how long they ran. */
#include "plant/coil_step.h"
#include "support/rows.h"

#include <stdlib.h>

#include "dew/bundle.h"
#include "march/houses.h"

enum { RUN_HOURS = 45 * 24, SETTLED = 24 };

/* Hours of two houses alike, or the second's alone: it is held, and its coil and
   blower run so. */
static void held_and_run(const struct dew_case *c, const double *t,
                         const double *run, const double *fan,
                         struct dew_result *first, struct dew_result *second)
{
    const struct dew_case *cases[] = {c, c};
    const struct dew_weather weather[] = {year, year};
    struct dew_bundle *b;

    assert_int_equal(dew_bundle_open(&b, cases, weather, 2, 0, NULL), DEW_OK);
    dew_bundle_prescribe_t(b, 1, t, RUN_HOURS);
    dew_bundle_prescribe_run(b, 1, run, RUN_HOURS);
    dew_bundle_prescribe_blower(b, 1, fan, RUN_HOURS);
    for (size_t h = 0; h < RUN_HOURS; h++) {
        assert_int_equal(dew_bundle_step(b, h, NULL, NULL), DEW_OK);
        if (first != NULL)
            dew_bundle_result(b, 0, &first[h]);
        dew_bundle_result(b, 1, &second[h]);
    }
    dew_bundle_close(b);
}

/* A house held at what its own thermostat kept, its coil run as it ran, comes to
   the same water: by the hour but for what moves within one, and in all; with
   its coil at rest it is wetter. */
TEST(a_coil_that_is_told_how_long_it_ran)
{
    struct dew_case c = house(2);
    struct dew_result *own = calloc(3 * RUN_HOURS, sizeof *own),
                      *as = own + RUN_HOURS, *rests = as + RUN_HOURS;
    double t[RUN_HOURS], run[RUN_HOURS], free_duty[RUN_HOURS],
        coil = 0, told = 0, off = 0, ran = 0;

    if (dew_bundle_lanes() < 2) {
        free(own);
        return;
    }
    c.plant.handlers[0].overcool = 0;
    c.plant.handlers[0].cycling = 0.17;
    c.house.people.gains_w += 6500; /* it is winter */
    c.house.water[DEW_SOURCE_other].per_day = 12;
    c.plant.dryer.rate = 0;
    for (int i = 0; i < 24; i++)
        c.house.comfort.cool[i] = 22.4;
    make_year();
    for (int h = 0; h < RUN_HOURS; h++)
        t[h] = run[h] = NAN;
    held_and_run(&c, t, run, NULL, own, as); /* nothing told: the same house */
    assert_same(&own[RUN_HOURS - 1], &as[RUN_HOURS - 1], sizeof *own);
    for (int h = SETTLED; h < RUN_HOURS; h++) {
        t[h] = own[h].t;
        run[h] = plant__run_time(own[h].duty.cool, c.plant.handlers[0].cycling);
        ran += run[h];
    }
    assert_true(ran > 40);
    for (int h = 0; h < RUN_HOURS; h++)
        free_duty[h] = own[h].duty.cool;
    held_and_run(&c, t, run, NULL, own, as);
    held_and_run(&c, t, NULL, NULL, own, rests);
    for (int h = SETTLED; h < RUN_HOURS; h++) {
        assert_near(as[h].duty.cool, free_duty[h], 1e-6);
        assert_near(rests[h].duty.cool, 0, 0);
        off += (as[h].w - own[h].w) * (as[h].w - own[h].w);
        coil += own[h].water.coil;
        told += as[h].water.coil;
    }
    off = sqrt(off / (RUN_HOURS - SETTLED));
    assert_true(off < 1e-3 * own[RUN_HOURS - 1].w);
    assert_near(told, coil, 1e-3 * fabs(coil));
    assert_true(rests[RUN_HOURS - 1].w > own[RUN_HOURS - 1].w);
    free(own);
}

static struct dew_result *held_and_blown(const struct dew_case *c,
                                         const double *t, const double *run,
                                         const double *fan)
{
    struct dew_result *out = calloc(RUN_HOURS, sizeof *out);

    assert_non_null(out);
    held_and_run(c, t, run, fan, NULL, out);
    return out;
}

static double put_back(const struct dew_result *r)
{
    double sum = 0;

    for (int h = 0; h < RUN_HOURS; h++)
        sum += r[h].water.reevaporation;
    return sum;
}

/* Blown as it blows by itself nothing changes; all the time it is the house
   whose blower is on; no longer than its coil, and between. */
TEST(a_blower_that_is_told_how_long_it_ran)
{
    struct dew_case c = house(2), on;
    double t[RUN_HOURS], run[RUN_HOURS], fan[RUN_HOURS], own_fan[RUN_HOURS];
    struct dew_result *own, *as, *always, *longer, *shorter;
    const int last = RUN_HOURS - 1;

    if (dew_bundle_lanes() < 2)
        return;
    c.plant.handlers[0].mode = DEW_BLOWER_AUTO;
    c.plant.handlers[0].off_delay = 90;
    c.house.water[DEW_SOURCE_other].per_day = 12;
    make_year();
    on = c;
    on.plant.handlers[0].mode = DEW_BLOWER_ON;
    for (int h = 0; h < RUN_HOURS; h++) {
        t[h] = 24.3;
        run[h] = h % 24 > 11 ? 0.43 : 0;
        fan[h] = NAN;
    }
    own = held_and_blown(&c, t, run, fan);
    for (int h = 0; h < RUN_HOURS; h++)
        own_fan[h] = own[h].duty.blower;
    as = held_and_blown(&c, t, run, own_fan);
    assert_near(as[last].w, own[last].w, 1e-9);
    assert_near(put_back(as), put_back(own), 1e-3 * put_back(own));
    for (int h = 0; h < RUN_HOURS; h++)
        fan[h] = 1;
    always = held_and_blown(&c, t, run, fan);
    longer = held_and_blown(&on, t, run, NULL);
    assert_near(always[last].w, longer[last].w, 1e-9);
    assert_near(always[last].heat.blowers, longer[last].heat.blowers,
                1e-9 * longer[last].heat.blowers);
    assert_near(put_back(always), put_back(longer), 1e-6 * put_back(longer));
    free(longer);
    for (int h = 0; h < RUN_HOURS; h++)
        fan[h] = run[h] > 0 ? 0.6 : 0;
    longer = held_and_blown(&c, t, run, fan);
    for (int h = 0; h < RUN_HOURS; h++)
        fan[h] = 0; /* no shorter than its coil */
    shorter = held_and_blown(&c, t, run, fan);
    assert_near(shorter[last].duty.blower, run[last], 1e-6);
    assert_true(put_back(shorter) < 0.97 * put_back(own));
    assert_true(put_back(longer) > 1.1 * put_back(own));
    assert_true(put_back(always) > put_back(longer));
    assert_true(longer[last].w > own[last].w && own[last].w > shorter[last].w);
    assert_true(own[last].heat.blowers > shorter[last].heat.blowers);
    free(own), free(as), free(always), free(longer), free(shorter);
}

RUN_TESTS("march, told");
