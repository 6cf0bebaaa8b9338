/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heating in the march: what a heat pump can give, and what it cannot. */
#include "dew/coil.h"
#include "support/cooled.h"

static const double loss = 200.0; /* W/K, air to outdoors */

/* Nothing but a heat pump of 8 kW at 47 degF against what is lost by air. */
static struct dew_case pumped(double backup)
{
    struct dew_case c = bare_case(310.0, 20.0);

    c.house.comfort.given = 0;
    c.house.comfort.band = 0.2;
    all_day(c.house.comfort.heat, 20.0);
    all_day(c.house.comfort.cool, 60.0);
    c.house.leakage.constant = loss / (1006.0 * dew_air_density_run(p0));
    c.plant.heater = (struct dew_heater){
        .capacity = 8000.0, .backup = backup, .cop_warm = 3.6, .cop_cold = 2.5};
    c.steps_per_hour = 4;
    return c;
}

static struct dew_hour dry(double t)
{
    return (struct dew_hour){.t = t, .w = 0.0, .p = p0};
}

/*
 * [NREL-56354] table 12 at 70 degF indoors, degF, by hand:
 *     k(y) = 0.463772 + 0.008942114 y + 0.0000506 y^2
 *     k(5) / k(47) = 0.509747 / 0.995827 = 0.51188 at -15 degC
 *     k(17) / k(47) = 0.63041 / 0.995827 = 0.63306 at -8.33 degC
 */
static const struct cold_row {
    const char *name;
    double t_out, share;
} cold_rows[] = {
    {"-15 degC: 51 % of its label", -15.0, 0.51188},
    {"17 degF: 63 % of its label", -75.0 / 9.0, 0.63306},
};

/* Closed form: it settles where the loss is what the pump can give. */
static void a_heat_pump_gives_less_in_the_cold(void **state)
{
    const struct cold_row *row = *state;
    struct dew_case c = pumped(0.0);
    struct dew_hour out = dry(row->t_out);
    struct dew_result r;
    double heat = row->share * 8000.0 * 3600.0, t;

    c.house.leakage.constant *= 2.0; /* so that 17 degF is too cold as well */
    r = run(&c, &out, 24 * 60, NULL);
    t = row->t_out + row->share * 8000.0 / (2.0 * loss);
    assert_near(r.heat.heating, heat, 1e-4 * heat);
    assert_near(r.duty.heat, 1.0, 1e-9);
    assert_near(r.t, t, 0.003);
    assert_near(r.short_heat, 1.0, 1e-9);
    assert_near(r.energy.heating_power,
                heat / dew_plant_heat_pump_cop(&c.plant.heater, row->t_out),
                1e-4 * heat);
}

/* At 20 degC 7000 W are lost at -15 degC: 4095 W by the pump, the rest by
   the resistance. */
TEST(resistance_carries_the_rest)
{
    struct dew_case c = pumped(4000.0);
    struct dew_hour out = dry(-15.0);
    struct dew_result r;
    double pump = 0.51188 * 8000.0 * 3600.0, heat, cop;

    r = run(&c, &out, 24 * 60, NULL);
    cop = dew_plant_heat_pump_cop(&c.plant.heater, -15.0);
    heat = loss * (r.t + 15.0) * 3600.0;
    assert_true(r.t > 19.8 && r.t <= 20.0);
    assert_near(r.heat.heating, heat, 1e-4 * heat);
    assert_near(r.energy.heating_power, pump / cop + heat - pump, 1e-4 * heat);
    assert_near(r.short_heat, 0.0, 0.0);
}

/* In mild weather it is the pump alone, and other heaters know no cold. */
TEST(in_mild_weather_the_pump_does_it_alone)
{
    struct dew_case c = pumped(4000.0);
    struct dew_hour mild = dry(6.0), frost = dry(-15.0);
    struct dew_result r = run(&c, &mild, 24 * 60, NULL);
    double cop = dew_plant_heat_pump_cop(&c.plant.heater, 6.0);

    assert_near(r.energy.heating_power, r.heat.heating / cop,
                1e-9 * r.heat.heating);
    c.plant.heater.efficiency = 1.0;
    c.plant.heater.backup = 0.0;
    r = run(&c, &frost, 24 * 60, NULL);
    assert_true(r.t > 19.8);
    assert_near(r.energy.heating_power, r.heat.heating, 1e-9 * r.heat.heating);
    c.plant.heater.efficiency = 0.8;
    c.plant.heater.fuel = 1;
    r = run(&c, &frost, 24 * 60, NULL);
    assert_near(r.energy.heating_fuel, r.heat.heating / 0.8, 1.0);
    assert_near(r.energy.heating_power, 0.0, 0.0);
}

/* The blower carries the heat as long as the pump runs, not as long as pump
   and resistance together would. */
TEST(the_blower_runs_as_long_as_the_pump)
{
    static const double backup[] = {0.0, 4000.0, 12000.0};

    for (size_t i = 0; i < COUNT_OF(backup); i++) {
        struct dew_case c = pumped(backup[i]);
        struct dew_hour mild = dry(75.0 / 9.0); /* 47 degF */
        struct dew_result r;
        double run_for;

        c.plant.heater.by_air = 1;
        c.plant.handler_count = 1;
        c.plant.handlers[0] =
            (struct dew_handler){.air = 0.4, .blower_w = 300.0, .cop = 3.0};
        r = run(&c, &mild, 24 * 60, NULL);
        run_for = r.heat.heating / (8000.0 * 3600.0);
        assert_true(run_for > 0.2 && run_for < 0.5);
        assert_near(r.duty.heat, run_for, 1e-6);
        assert_near(r.duty.blower, run_for, 1e-4);
        assert_near(r.energy.blower, 300.0 * 3600.0 * run_for, 100.0);
    }
}

/* A house that is held is not short, one 0.4 K under its band is not yet. */
TEST(hours_short_of_heat_are_counted)
{
    struct dew_case c = pumped(0.0);
    struct dew_tally day = {0};
    struct dew_hour out = dry(-15.0);

    run(&c, &out, 24 * 30, &day);
    assert_near(day.short_heat, 24.0, 1e-9);
    assert_near(day.t_min, -15.0 + 0.51188 * 8000.0 / loss, 0.01);
    /* 19.8 is the band's foot: 19.4 is borne, 19.2 is not */
    c.plant.heater.efficiency = 1.0;
    c.plant.heater.capacity = loss * (19.4 + 15.0);
    day = (struct dew_tally){0};
    run(&c, &out, 24 * 30, &day);
    assert_near(day.short_heat, 0.0, 0.0);
    c.plant.heater.capacity = loss * (19.2 + 15.0);
    day = (struct dew_tally){0};
    run(&c, &out, 24 * 30, &day);
    assert_near(day.short_heat, 24.0, 1e-9);
}

ROWS(cold_rows, a_heat_pump_gives_less_in_the_cold);
RUN_TESTS("march, heater");
