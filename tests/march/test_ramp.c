/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Outdoors something rises evenly for days.  Indoors it then rises as evenly, and
 * is behind by the same amount at every moment: closed forms, ours, exact to
 * rounding however long the steps, for both stages see outdoor air of their own
 * times.  An hour's mean is the value in its middle.
 */
#include "support/marched.h"

#include "support/lively.h"

enum { DAYS = 60 };

struct row {
    const char *name;
    double per_hour; /* outdoors: K, or kg/kg                               */
    int steps;
    double walls, panes; /* W/K                                             */
};

/* One room with a leak of two air changes an hour, and no walls. */
static struct dew_case leaky(int steps, double t)
{
    struct dew_case c = bare_case(300.0, t);

    c.house.comfort.given = 0;
    all_day(c.house.comfort.cool, 55.0);
    c.house.leakage.constant = 2.0 * 300.0 / 3600.0;
    c.steps_per_hour = steps;
    return c;
}

/* w = w_out - slope / n */
static void water_is_behind_by_an_air_change(void **state)
{
    const struct row *row = *state;
    struct dew_case c = leaky(row->steps, 20.0);
    struct dew_hour out = {.t = 20.0, .w = 0.004, .p = 101325.0};
    struct dew_result r = {0};
    struct dew_march *m = opened(&c, &out);

    for (int h = 0; h < 24 * DAYS; h++) {
        out.w += row->per_hour;
        r = step(m, &out, h);
    }
    dew_march_close(m);
    assert_near(r.end.w, out.w - row->per_hour / 2.0, 1e-12);
    assert_near(r.w, r.end.w - 0.5 * row->per_hour, 1e-12);
}

/*
 * Behind the air outdoors, of air, surface and mass, K, at s K a second:
 *
 *     C_a s = (m c_p) a + h_is (a - f)
 *     0     = h_is (f - a) + h_ms (f - b) + h_w f
 *     C_m s = h_em b + h_ms (b - f)
 */
static double air_is_behind(const struct dew_thermal *t, double flow, double s)
{
    double air = flow * 1006.0 + t->h_is, mass = t->h_em + t->h_ms;
    double held = t->h_is * t->c_air * s / air + t->h_ms * t->c_mass * s / mass;
    double f = held / (t->h_is * (1.0 - t->h_is / air) +
                       t->h_ms * (1.0 - t->h_ms / mass) + t->h_w);

    return (t->c_air * s + t->h_is * f) / air;
}

static void heat_is_behind_by_what_the_room_holds(void **state)
{
    const struct row *row = *state;
    struct dew_case c = leaky(row->steps, -20.0);
    struct dew_hour out = {.t = -20.0, .w = 0.0, .p = 101325.0};
    struct dew_result r = {0};
    struct dew_march *m;
    double flow = c.house.leakage.constant * dew_air_density_run(c.pressure);

    c.house.thermal.h_em = row->walls;
    c.house.thermal.h_w = row->panes;
    m = opened(&c, &out);
    for (int h = 0; h < 24 * DAYS; h++) {
        out.t += row->per_hour;
        r = step(m, &out, h);
    }
    dew_march_close(m);
    assert_near(out.t - r.end.t_air,
                air_is_behind(&c.house.thermal, flow, row->per_hour / 3600.0),
                1e-9);
    assert_near(r.t, r.end.t_air - 0.5 * row->per_hour, 1e-9);
}

static const struct row waters[] = {
    {"water, whole hours", 2e-6, 4, 0.0, 0.0},
    {"water, half hours", -1e-6, 2, 0.0, 0.0},
    {"water, thirds", 2e-6, 3, 0.0, 0.0},
};

static const struct row heats[] = {
    {"heat, whole hours", 0.02, 4, 0.0, 0.0},
    {"heat, whole hours, walls", 0.02, 4, 130.0, 0.0},
    {"heat, whole hours, panes", 0.02, 4, 0.0, 40.0},
    {"heat, halves", -0.01, 2, 60.0, 30.0},
    {"heat, thirds", 0.02, 3, 60.0, 30.0},
};

ROWS(waters, water_is_behind_by_an_air_change);
ROWS(heats, heat_is_behind_by_what_the_room_holds);
RUN_TESTS("march, ramps");
