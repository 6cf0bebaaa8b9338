/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Water held: the depth of a day's cycle, and a room whose exact periodic
   answer is known. */
#include "support/rows.h"

#include <complex.h>
#include <string.h>

#include "dew/buffer.h"

static const double pi = 3.14159265358979323846;
static const double psat_20 = 2338.8; /* Pa */

/* A deep material: kg/m3, kg/kg per unit of RH, kg/(m s Pa). */
struct material {
    const char *source;
    double density, slope, permeability, psat;
};

/* clang-format off */
static const struct material material_rows[] = {
    {"aerated concrete, [IEA-A41] common exercise 1, from memory", 650.0, 0.0661, 3e-11, 2338.8},
    {"soft wood",        430.0, 0.1730, 4.3e-12, 2810.0},
    {"dense and cold",   2300.0, 0.0123, 1.9e-12, 1228.0},
};
static const struct material *const aerated = &material_rows[0];

static const struct fault { const char *text; double value, area, film, psat; } fault_rows[] = {
    {"value: -0.1 is outside the numbers above 0", -0.1, 1, 1, 1},
    {"value: inf is outside the numbers above 0",  INFINITY, 1, 1, 1},
    {"area: 0 is outside the numbers above 0",     1, 0, 1, 1},
    {"film: -1 is outside the numbers above 0",    1, 1, -1, 1},
    {"psat: nan is outside the numbers above 0",   1, 1, 1, NAN},
};
/* clang-format on */

/* Moisture effusivity, kg/(m2 Pa s^0.5), and its buffer value [RODE05]. */
static double effusivity(const struct material *m)
{
    return sqrt(m->permeability * m->density * m->slope / m->psat);
}

static double value_of(const struct material *m)
{
    return dew_house_buffer_value(effusivity(m), m->psat);
}

/* The cycle's constant: 2/pi sum sin^2(n pi / 3) / n^1.5, over sqrt(pi).  The
   sum is 3/4 zeta(3/2) (1 - 3^-3/2) = 1.58222; [RODE05] prints 0.00568 per %,
   and the last digit printed is the tolerance. */
TEST(buffer_constant_is_its_series)
{
    const double zeta = 2.612375348685488; /* Riemann's, at 3/2 */
    double sum = 0.75 * zeta * (1.0 - 1.0 / (3.0 * sqrt(3.0)));

    assert_near(dew_house_buffer_value(1.0, 1.0) / sqrt(DEW_BUFFER_DAY),
                2.0 / pi * sum / sqrt(pi), 0.0005);
}

TEST(aerated_concrete_has_its_value)
{
    assert_near(1e7 * effusivity(aerated), 7.424, 0.0005);
    assert_near(10.0 * value_of(aerated), 2.899, 0.0006);
}

/* A layer holds density x slope of its depth, and resists that over the
   permeability: sqrt(permeability psat day / (pi density slope)) [RODE05]. */
static void stores_are_layers_of_the_day_s_depth(void **state)
{
    const struct material *m = *state;
    double depth = sqrt(m->permeability * m->psat * DEW_BUFFER_DAY /
                        (pi * m->density * m->slope));
    double holds = 73.1 * m->density * m->slope * depth;
    double passes = 73.1 * m->permeability / depth;
    struct dew_buffer s;

    assert_int_equal(
        dew_house_buffer_mbv(value_of(m), 73.1, 2.3e-8, m->psat, &s, NULL),
        DEW_OK);
    assert_near(s.surface_kg, 0.494 * holds, 1e-12 * holds);
    assert_near(s.mid_kg, 1.614 * holds, 1e-12 * holds);
    assert_near(s.deep_kg, 7.617 * holds, 1e-12 * holds);
    assert_near(1 / s.surface_rate, 1 / (73.1 * 2.3e-8) + 0.190 / passes,
                1e-12 / s.surface_rate);
    assert_near(s.mid_rate, passes / 0.850, 1e-12 * passes);
    assert_near(s.deep_rate, passes / 3.002, 1e-12 * passes);
    /* the day's layer holds value / (0.568 sqrt(pi)) of it: 0.568 b psat
       sqrt(T) against b psat sqrt(T / pi) */
    assert_near(s.surface_kg / 73.1 / value_of(m), 0.494 / 0.568 / sqrt(pi),
                1e-12);
}

/* ---- stores beside the exact half-space ---- */

/* Per m2 of a deep material of value 0.08 kg/m2; film as good as none. */
static struct dew_buffer bare_stores(double *b)
{
    struct dew_buffer s;

    *b = dew_house_buffer_effusivity(0.08, psat_20);
    assert_int_equal(dew_house_buffer_mbv(0.08, 1.0, 1e3, psat_20, &s, NULL),
                     DEW_OK);
    return s;
}

/* What flows into the stores (RH each, x) from air of rh; rises of x, 1/s. */
static double into_stores(const struct dew_buffer *s, double rh,
                          const double x[3], double rise[3])
{
    double in = s->surface_rate * psat_20 * (rh - x[0]);
    double mid = s->mid_rate * psat_20 * (x[0] - x[1]);
    double deep = s->deep_rate * psat_20 * (x[1] - x[2]);

    rise[0] = (in - mid) / s->surface_kg;
    rise[1] = (mid - deep) / s->mid_kg;
    rise[2] = deep / s->deep_kg;
    return in;
}

/* Half a minute at rh, midpoint rule. */
static void advance(const struct dew_buffer *s, double rh, double x[3])
{
    const double dt = 30.0;
    double mid[3], rise[3];

    into_stores(s, rh, x, rise);
    for (int k = 0; k < 3; k++)
        mid[k] = x[k] + 0.5 * dt * rise[k];
    into_stores(s, rh, mid, rise);
    for (int k = 0; k < 3; k++)
        x[k] += dt * rise[k];
}

static double held_by(const struct dew_buffer *s, const double x[3])
{
    return s->surface_kg * x[0] + s->mid_kg * x[1] + s->deep_kg * x[2];
}

/* kg/m2 taken up in time after a step of RH by 1, of the exact 2 b psat
   sqrt(t / pi). */
static double step_share(double time)
{
    double b, x[3] = {0};
    struct dew_buffer s = bare_stores(&b);

    for (int i = 0; i < (int)(time / 30.0 + 0.5); i++)
        advance(&s, 1.0, x);
    return held_by(&s, x) / (2.0 * b * psat_20 * sqrt(time / pi));
}

/* Size of the flow over that of the pressure in a cycle, of the exact
   |b sqrt(j omega)|: the ladder's admittance. */
static double cycle_share(double period)
{
    double b, omega = 2.0 * pi / period;
    struct dew_buffer s = bare_stores(&b);
    double complex jw = omega / psat_20 * I;
    double complex y = s.deep_kg * jw;

    y = s.mid_kg * jw + 1.0 / (1.0 / s.deep_rate + 1.0 / y);
    y = s.surface_kg * jw + 1.0 / (1.0 / s.mid_rate + 1.0 / y);
    y = 1.0 / (1.0 / s.surface_rate + 1.0 / y);
    return cabs(y) / (b * sqrt(omega));
}

/* Worked out from the fit (regression); the half-space is exact. */
static const struct uptake {
    const char *name;
    double (*share)(double seconds);
    double hours, figure;
} uptakes[] = {
    {"step, 2 h: 0.979 of the half-space", step_share, 2, 0.979},
    {"step, 6 h: 0.987", step_share, 6, 0.987},
    {"step, a day: 1.013", step_share, 24, 1.013},
    {"step, a week: 1.050", step_share, 168, 1.050},
    {"step, three weeks: 0.950", step_share, 504, 0.950},
    {"cycle, 2 h: 0.949 of the half-space", cycle_share, 2, 0.949},
    {"cycle, 6 h: 1.033", cycle_share, 6, 1.033},
    {"cycle, a day: 0.974", cycle_share, 24, 0.974},
    {"cycle, a week: 0.960", cycle_share, 168, 0.960},
    {"cycle, three weeks: 1.054", cycle_share, 504, 1.054},
    {"cycle, a year: 0.710", cycle_share, 8760, 0.710},
};

static void uptake_stands_beside_the_half_space(void **state)
{
    const struct uptake *row = *state;
    double got = row->share(3600.0 * row->hours);

    assert_near(got, row->figure, 0.001);
    assert_near(got, 1.0, row->hours < 600.0 ? 0.10 : 1.0);
}

/* The 8 h / 16 h cycle that defines the buffer value: between its ends the
   stores give and take 0.9935 of it (two stores of whole periods 0.863). */
TEST(value_cycle_gives_the_value)
{
    double b, x[3] = {1 / 3.0, 1 / 3.0, 1 / 3.0};
    struct dew_buffer s = bare_stores(&b);
    double low = 0, held = 0;

    for (int day = 0; day < 200; day++)
        for (int i = 0; i < 2880; i++) {
            if (i == 0)
                low = held_by(&s, x);
            advance(&s, i < 960 ? 1.0 : 0.0, x);
            if (i == 959)
                held = held_by(&s, x);
        }
    assert_near((held - low) / 0.08, 0.9935, 0.0005);
}

TEST(houses_rise)
{
    struct dew_buffer low =
        dew_house_buffer_house(DEW_HOLDS_LOW, 137.0, psat_20);
    struct dew_buffer mid =
        dew_house_buffer_house(DEW_HOLDS_LIKELY, 137.0, psat_20);
    struct dew_buffer high =
        dew_house_buffer_house(DEW_HOLDS_HIGH, 137.0, psat_20);

    assert_near(low.surface_kg / 137.0, 0.494 * 0.125 / 1.0067, 1e-4);
    assert_near(mid.surface_kg / 137.0, 0.494 * 0.24 / 1.0067, 1e-4);
    assert_near(high.surface_kg / 137.0, 0.494 * 0.60 / 1.0067, 1e-4);
    assert_nan(
        dew_house_buffer_house((enum dew_holding)3, 137.0, psat_20).surface_kg);
}

static void fault_names_its_member(void **state)
{
    const struct fault *row = *state;
    struct dew_buffer out = {.surface_kg = 3.25};
    struct dew_error err = {0};
    char line[300];

    assert_int_equal(dew_house_buffer_mbv(row->value, row->area, row->film,
                                          row->psat, &out, &err),
                     DEW_ERANGE);
    assert_string_equal(dew_error_line(&err, line, sizeof line), row->text);
    assert_near(out.surface_kg, 3.25, 0.0);
}

ROWS(uptakes, uptake_stands_beside_the_half_space);
ROWS(material_rows, stores_are_layers_of_the_day_s_depth);
ROWS(fault_rows, fault_names_its_member);
RUN_TESTS("house, buffer");
