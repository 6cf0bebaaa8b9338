/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Books of a cooling month: twelve cases of [NREL-30152], all from memory:
 * the zone, the unit's capacity and power while running in each, the month's
 * consumption.  They hold part load, run time and blower heat together; they
 * say nothing of the capacity map, which is given here case by case.
 */
#include "support/rows.h"

#include "dew/coil.h"
#include "dew/dryer.h"

static const double hours = 672.0, ua = 1.7133; /* W/K */
static const double c_d = 0.229, blower = 230.0;

/* t in degC, loads in W, kwh of the month; capacity net, power of all. */
static const struct row {
    const char *name;
    double t, sensible, latent, out, kwh, coil, capacity, power;
} rows[] = {
    /* clang-format off */
    {"E100, from memory", 22.2, 5400, 0,    46.1, 1531, 3800, 5975, 2451},
    {"E110, from memory", 22.2, 5400, 0,    29.4, 1076, 3765, 6875, 1935},
    {"E120, from memory", 26.7, 5400, 0,    29.4, 1011, 3749, 7648, 1986},
    {"E150, from memory", 22.2, 5400, 1100, 29.4, 1206, 4518, 7278, 1957},
    {"E160, from memory", 26.7, 5400, 1100, 29.4, 1140, 4501, 8107, 2019},
    {"E165, from memory", 23.3, 5400, 1100, 40.6, 1498, 4537, 6841, 2311},
    {"E170, from memory", 22.2, 2100, 1100, 29.4, 638,  2232, 7830, 2002},
    {"E180, from memory", 22.2, 2100, 4400, 29.4, 1083, 4495, 9063, 2098},
    {"E185, from memory", 22.2, 2100, 4400, 46.1, 1543, 4535, 7458, 2544},
    {"E190, from memory", 22.2, 270,  550,  29.4, 165,  578,  8690, 2033},
    {"E195, from memory", 22.2, 270,  550,  46.1, 252,  602,  7107, 2472},
    {"E200, from memory", 26.7, 6120, 1817, 35.0, 1477, 5498, 7951, 2196},
    /* clang-format on */
};

static void month(void **state)
{
    const struct row *r = *state;
    double load = r->sensible + r->latent + ua * (r->out - r->t);
    double plr = fmin(load / r->capacity, 1.0);
    double run = dew_plant_run_time(plr, c_d);

    assert_near(run * r->power * hours / 1000.0, r->kwh, 0.02 * r->kwh);
    assert_near((load + run * blower) * hours / 1000.0, r->coil,
                0.02 * r->coil);
}

static void full_load_runs_the_whole_month(void **state)
{
    const struct row *r = &rows[COUNT_OF(rows) - 1];
    double load = r->sensible + r->latent + ua * (r->out - r->t);

    (void)state; /* E200: 154.8 kWh of blower is 230 W x 673 h */
    assert_near(dew_plant_run_time(fmin(load / r->capacity, 1.0), c_d), 1.0,
                2e-3);
}

static void net_is_gross_less_the_blower(void **state)
{
    struct dew_coil_label l = {.capacity = 7951,
                               .is_net = 1,
                               .shr = 0.778,
                               .air = 0.425,
                               .blower_w = 230,
                               .eer = 7951.0 / 2196.0,
                               .seer = NAN,
                               .cop = NAN,
                               .cycling = NAN};
    struct dew_handler h = {0};

    (void)state; /* gross 8181 W; 1858 W compressor and 108 W outdoor fan */
    assert_int_equal(dew_plant_coil_gross(&l, &h, NULL), DEW_OK);
    assert_near(h.capacity, 8181.0, 1e-9);
    assert_near(h.capacity / h.cop, 1858.0 + 108.0, 1.0);
}

static void latent_gain_becomes_condensate(void **state)
{
    double kg = 1100.0 * hours * 3600.0 / dew_plant_dryer_latent(22.2);

    (void)state; /* 739.2 kWh at 2.45 MJ/kg: 1086 kg */
    assert_near(kg, 1086.0, 1.0);
}

int main(void)
{
    struct CMUnitTest tests[32] = {
        cmocka_unit_test(full_load_runs_the_whole_month),
        cmocka_unit_test(net_is_gross_less_the_blower),
        cmocka_unit_test(latent_gain_becomes_condensate),
    };
    size_t n = 3;

    ADD_ROWS(tests, n, rows, month);
    return _cmocka_run_group_tests("plant, cooling cases", tests, n, NULL,
                                   NULL);
}
