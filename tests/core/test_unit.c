/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Units: each factor against the independent program `units`. */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dew/unit.h"

/* clang-format off */
/* name as a test, our unit, its quantity, the same in the words of `units` */
static const struct oracle_row {
    const char *test, *name;
    enum dew_quantity quantity;
    const char *have, *want;
} oracle_rows[] = {
#define ROW(name, code, have, want) {"units(1): " #code " " name, name, DEW_##code, have, want}
    ROW("%", PURE, "percent", "1"),
    ROW("ft", LENGTH, "ft", "m"), ROW("in", LENGTH, "inch", "m"),
    ROW("m", LENGTH, "m", "m"), ROW("cm", LENGTH, "cm", "m"), ROW("mm", LENGTH, "mm", "m"),
    ROW("ft2", AREA, "ft^2", "m^2"), ROW("in2", AREA, "in^2", "m^2"), ROW("cm2", AREA, "cm^2", "m^2"),
    ROW("ft3", VOLUME, "ft^3", "m^3"), ROW("gal", VOLUME, "usgallon", "m^3"), ROW("L", VOLUME, "liter", "m^3"),
    ROW("cfm", FLOW, "cfm", "m^3/s"), ROW("L/s", FLOW, "L/s", "m^3/s"), ROW("m3/h", FLOW, "m^3/hr", "m^3/s"),
    ROW("cfm50", FLOW50, "cfm", "m^3/s"), ROW("m3/h50", FLOW50, "m^3/hr", "m^3/s"), ROW("L/s50", FLOW50, "L/s", "m^3/s"),
    ROW("in2", LEAKAGE_AREA, "in^2", "m^2"), ROW("cm2", LEAKAGE_AREA, "cm^2", "m^2"),
    ROW("inwg", PRESSURE, "inH2O", "Pa"), ROW("inHg", PRESSURE, "inHg", "Pa"), ROW("mmHg", PRESSURE, "mmHg", "Pa"),
    ROW("kPa", PRESSURE, "kPa", "Pa"), ROW("hPa", PRESSURE, "hPa", "Pa"), ROW("mbar", PRESSURE, "mbar", "Pa"),
    ROW("degF", TEMPERATURE_STEP, "degF", "K"), ROW("degC", TEMPERATURE_STEP, "degC", "K"),
    ROW("R", RSI, "hr ft^2 degF/btu", "m^2 K/W"), ROW("hft2F/Btu", RSI, "hr ft^2 degF/btu", "m^2 K/W"),
    ROW("Btu/hft2F", USI, "btu/hr ft^2 degF", "W/m^2 K"),
    ROW("Btu/hF", CONDUCTANCE, "btu/hr degF", "W/K"),
    ROW("Btu/F", CAPACITY, "btu/degF", "J/K"), ROW("Wh/K", CAPACITY, "Wh/K", "J/K"),
    ROW("kJ/K", CAPACITY, "kJ/K", "J/K"), ROW("MJ/K", CAPACITY, "MJ/K", "J/K"),
    ROW("Btu/ft2F", AREA_CAPACITY, "btu/ft^2 degF", "J/m^2 K"), ROW("Wh/m2K", AREA_CAPACITY, "Wh/m^2 K", "J/m^2 K"),
    ROW("kJ/m2K", AREA_CAPACITY, "kJ/m^2 K", "J/m^2 K"),
    ROW("Btu/h", POWER, "btu/hr", "W"), ROW("kBtu/h", POWER, "1000 btu/hr", "W"),
    ROW("ton", POWER, "12000 btu/hr", "W"), ROW("kW", POWER, "kW", "W"),
    ROW("kWh", ENERGY, "kWh", "J"), ROW("Wh", ENERGY, "Wh", "J"), ROW("Btu", ENERGY, "btu", "J"),
    ROW("kBtu", ENERGY, "1000 btu", "J"), ROW("MMBtu", ENERGY, "1e6 btu", "J"), ROW("therm", ENERGY, "1e5 btu", "J"),
    ROW("MJ", ENERGY, "MJ", "J"), ROW("GJ", ENERGY, "GJ", "J"),
    ROW("pint/day", WATER_RATE, "uspint kg/L day", "kg/s"), ROW("gal/day", WATER_RATE, "usgallon kg/L day", "kg/s"),
    ROW("lb/day", WATER_RATE, "lb/day", "kg/s"), ROW("lb/h", WATER_RATE, "lb/hr", "kg/s"),
    ROW("L/day", WATER_RATE, "kg/day", "kg/s"), ROW("kg/day", WATER_RATE, "kg/day", "kg/s"),
    ROW("L/h", WATER_RATE, "kg/hr", "kg/s"), ROW("kg/h", WATER_RATE, "kg/hr", "kg/s"), ROW("g/h", WATER_RATE, "g/hr", "kg/s"),
    ROW("gal", WATER, "usgallon kg/L", "kg"), ROW("pint", WATER, "uspint kg/L", "kg"), ROW("lb", WATER, "lb", "kg"),
    ROW("L", WATER, "kg", "kg"), ROW("g", WATER, "g", "kg"),
    ROW("L/kWh", WATER_PER_ENERGY, "kg/kWh", "kg/J"), ROW("pint/kWh", WATER_PER_ENERGY, "uspint kg/L kWh", "kg/J"),
    ROW("kg/kWh", WATER_PER_ENERGY, "kg/kWh", "kg/J"),
    ROW("grain/lb", HUMIDITY_RATIO, "grain/lb", "1"), ROW("g/kg", HUMIDITY_RATIO, "g/kg", "1"),
    ROW("mph", SPEED, "mph", "m/s"), ROW("ft/min", SPEED, "ft/min", "m/s"), ROW("km/h", SPEED, "km/hr", "m/s"),
    ROW("knot", SPEED, "knot", "m/s"),
    ROW("h", TIME, "hr", "s"), ROW("min", TIME, "min", "s"), ROW("day", TIME, "day", "s"), ROW("week", TIME, "week", "s"),
    ROW("month", TIME, "365 day/12", "s"), ROW("year", TIME, "365 day", "s"),
    ROW("%", SHARE_OF_TIME, "percent", "1"), ROW("min/h", SHARE_OF_TIME, "min/hr", "1"), ROW("h/day", SHARE_OF_TIME, "hr/day", "1"),
    ROW("per day", PER_DAY, "1/day", "1/s"), ROW("per week", PER_DAY, "1/week", "1/s"), ROW("per hour", PER_DAY, "1/hr", "1/s"),
    ROW("$/kWh", ENERGY_PRICE, "1/kWh", "1/J"), ROW("cent/kWh", ENERGY_PRICE, "0.01/kWh", "1/J"),
    ROW("$/therm", ENERGY_PRICE, "1e-5/btu", "1/J"), ROW("$/MMBtu", ENERGY_PRICE, "1e-6/btu", "1/J"),
    ROW("$/MJ", ENERGY_PRICE, "1/MJ", "1/J"), ROW("$/GJ", ENERGY_PRICE, "1/GJ", "1/J"),
    ROW("$/h", WAGE, "1/hr", "1/s"),
    ROW("Btu/hft2", IRRADIANCE, "btu/hr ft^2", "W/m^2"),
    ROW("kWh/m2day", IRRADIATION, "kWh/m^2", "J/m^2"), ROW("Btu/ft2day", IRRADIATION, "btu/ft^2", "J/m^2"),
    ROW("MJ/m2day", IRRADIATION, "MJ/m^2", "J/m^2"),
    ROW("cfm/W", FLOW_PER_POWER, "cfm/W", "m^3/J"), ROW("L/sW", FLOW_PER_POWER, "L/s W", "m^3/J"),
    ROW("cfm/ton", FLOW_PER_CAPACITY, "cfm/(12000 btu/hr)", "m^3/s W"), ROW("L/skW", FLOW_PER_CAPACITY, "L/s kW", "m^3/s W"),
    ROW("g/m2%", BUFFER_VALUE, "g/m^2 percent", "kg/m^2"),
    ROW("lb", MASS, "lb", "kg"), ROW("g", MASS, "g", "kg"),
    ROW("lb/ft3", DENSITY, "lb/ft^3", "kg/m^3"),
#undef ROW
};

/* SI codes of units whose factor is 1 by definition: nothing to ask about. */
static const struct { const char *name; enum dew_quantity quantity; } plain[] = {
    {"", DEW_PURE}, {"K", DEW_TEMPERATURE_STEP}, {"m2", DEW_AREA}, {"m3", DEW_VOLUME},
    {"m3/s", DEW_FLOW}, {"ach50", DEW_ACH50}, {"m2", DEW_LEAKAGE_AREA}, {"Pa", DEW_PRESSURE},
    {"m2K/W", DEW_RSI}, {"RSI", DEW_RSI}, {"W/m2K", DEW_USI}, {"W/K", DEW_CONDUCTANCE},
    {"J/K", DEW_CAPACITY}, {"J/m2K", DEW_AREA_CAPACITY}, {"W", DEW_POWER}, {"J", DEW_ENERGY},
    {"kg/s", DEW_WATER_RATE}, {"kg", DEW_WATER}, {"lb/lb", DEW_HUMIDITY_RATIO}, {"kg/kg", DEW_HUMIDITY_RATIO},
    {"m/s", DEW_SPEED}, {"s", DEW_TIME}, {"", DEW_SHARE_OF_TIME}, {"$", DEW_MONEY},
    {"W/m2", DEW_IRRADIANCE}, {"kg/m2", DEW_BUFFER_VALUE}, {"deg", DEW_ANGLE}, {"ppm", DEW_CO2},
    {"kg", DEW_MASS}, {"kg/m3", DEW_DENSITY},
};

/* A reading of each thermometer, converted by `units`. */
static const struct thermometer_row {
    const char *test, *name, *have;
    double x;
} thermometer_rows[] = {
    {"units(1): 68.7 degF", "degF", "tempF(68.7)", 68.7},
    {"units(1): -40.3 degF", "degF", "tempF(-40.3)", -40.3},
    {"units(1): 27.3 degC", "degC", "tempC(27.3)", 27.3},
    {"units(1): 281.4 K", "K", "tempK(281.4)", 281.4},
};

static const struct spelling_row {
    const char *test, *typed;
    enum dew_quantity quantity;
    const char *name; /* NULL: must not be found */
} spelling_rows[] = {
    {"degree sign", "\u00b0F", DEW_TEMPERATURE, "degF"},
    {"degree sign, difference", "\u00b0C", DEW_TEMPERATURE_STEP, "degC"},
    {"two words", "sq ft", DEW_AREA, "ft2"},
    {"raised figure", "m\u00b3/h", DEW_FLOW, "m3/h"},
    {"plural", "pints/day", DEW_WATER_RATE, "pint/day"},
    {"per day", "per day", DEW_PER_DAY, "per day"},
    {"gal of water", "gal", DEW_WATER, "gal"},
    {"a cfm is no pressure", "cfm", DEW_PRESSURE, NULL},
    {"a cfm at 50 Pa is no plain flow", "cfm50", DEW_FLOW, NULL},
    {"a prefix is no unit", "cf", DEW_FLOW, NULL},
    {"nothing is no area", "", DEW_AREA, NULL},
    {"nothing is a share", "", DEW_PURE, ""},
    {"kilowatts are no energy", "kW", DEW_ENERGY, NULL},
    {"case matters: mW is not MW, and neither is here", "mW", DEW_POWER, NULL},
};

static const struct shown_row {
    const char *test;
    enum dew_quantity quantity;
    int system;
    const char *name;
} shown_rows[] = {
    {"air flow, inch-pound", DEW_FLOW, 1, "cfm"},
    {"air flow, metric", DEW_FLOW, 2, "L/s"},
    {"temperature, inch-pound", DEW_TEMPERATURE, 1, "degF"},
    {"temperature, metric", DEW_TEMPERATURE, 2, "degC"},
    {"pressure is in Pa for both", DEW_PRESSURE, 1, "Pa"},
    {"energy is in kWh for both", DEW_ENERGY, 1, "kWh"},
    {"water, inch-pound", DEW_WATER_RATE, 1, "pint/day"},
    {"water, metric", DEW_WATER_RATE, 2, "L/day"},
    {"humidity ratio, inch-pound", DEW_HUMIDITY_RATIO, 1, "grain/lb"},
};
/* clang-format on */

static const struct dew_unit *find(const char *name, enum dew_quantity quantity)
{
    return dew_unit_find(name, strlen(name), quantity);
}

static int have_units_program(void)
{
    return system("command -v units >/dev/null 2>&1") == 0;
}

/* What `units` makes of have in want. */
static double ask(const char *have, const char *want)
{
    char command[256], line[64] = "";
    FILE *pipe;

    snprintf(command, sizeof command, "LC_ALL=C units -t -o %%.17g '%s' '%s'",
             have, want);
    pipe = popen(command, "r");
    assert_non_null(pipe);
    assert_non_null(fgets(line, sizeof line, pipe));
    assert_int_equal(pclose(pipe), 0);
    return strtod(line, NULL);
}

static void units_agrees(void **state)
{
    const struct oracle_row *row = *state;
    const struct dew_unit *unit = find(row->name, row->quantity);
    double want;

    assert_non_null(unit);
    if (!have_units_program())
        skip();
    want = ask(row->have, row->want);
    assert_near(unit->factor, want, 1e-9 * fabs(want));
    assert_true(unit->offset == 0.0);
}

static void units_agrees_on_thermometers(void **state)
{
    const struct thermometer_row *row = *state;
    const struct dew_unit *unit = find(row->name, DEW_TEMPERATURE);

    assert_non_null(unit);
    if (!have_units_program())
        skip();
    assert_near(row->x * unit->factor + unit->offset, ask(row->have, "tempC"),
                1e-9 * 100);
}

static int asked(const struct dew_unit *unit)
{
    for (size_t i = 0; i < COUNT_OF(oracle_rows); i++)
        if (find(oracle_rows[i].name, oracle_rows[i].quantity) == unit)
            return 1;
    for (size_t i = 0; i < COUNT_OF(plain); i++)
        if (find(plain[i].name, plain[i].quantity) == unit)
            return unit->factor == 1.0 && unit->offset == 0.0;
    return unit->quantity == DEW_TEMPERATURE;
}

TEST(every_row_is_checked)
{
    size_t count;
    const struct dew_unit *all = dew_unit_all(&count);

    for (size_t i = 0; i < count; i++)
        if (!asked(&all[i]))
            fail_msg("no check of %s, %s", all[i].name,
                     dew_quantity_text(all[i].quantity));
}

TEST(every_row_goes_there_and_back)
{
    size_t count;
    const struct dew_unit *all = dew_unit_all(&count);

    for (size_t i = 0; i < count; i++) {
        double x = 27.318, si = x * all[i].factor + all[i].offset;

        assert_true(all[i].factor > 0.0);
        assert_near((si - all[i].offset) / all[i].factor, x, 1e-12);
        assert_true(all[i].system >= 0 && all[i].system <= 2);
        assert_true(all[i].source != NULL && all[i].source[0] != '\0');
        assert_ptr_equal(find(all[i].name, all[i].quantity), &all[i]);
    }
}

TEST(every_quantity_has_units_in_both_systems)
{
    char text[200];

    for (int q = 0; q < DEW_QUANTITY_COUNT; q++) {
        for (int system = 1; system <= 2; system++)
            assert_int_equal(
                dew_unit_shown((enum dew_quantity)q, system)->quantity, q);
        dew_unit_fitting((enum dew_quantity)q, text, sizeof text);
        assert_true(text[0] != '\0');
    }
    assert_string_equal(dew_quantity_text(DEW_QUANTITY_COUNT),
                        "no such quantity");
    assert_string_equal(dew_quantity_si(DEW_USI), "W/m2K");
}

TEST(fitting_lists_and_is_cut_at_a_name)
{
    char text[200];

    assert_string_equal(dew_unit_fitting(DEW_FLOW, text, sizeof text),
                        "cfm, L/s, m3/h, m3/s");
    assert_string_equal(dew_unit_fitting(DEW_FLOW, text, 14), "cfm, L/s");
    assert_string_equal(dew_unit_fitting(DEW_FLOW, text, 9), "cfm, L/s");
    assert_string_equal(dew_unit_fitting(DEW_FLOW, text, 1), "");
    assert_string_equal(dew_unit_fitting(DEW_PURE, text, sizeof text),
                        "no unit, %");
}

static void spelling_is_taken(void **state)
{
    const struct spelling_row *row = *state;
    const struct dew_unit *unit = find(row->typed, row->quantity);

    if (row->name == NULL)
        assert_null(unit);
    else
        assert_string_equal(unit->name, row->name);
}

static void shown_unit_suits_the_system(void **state)
{
    const struct shown_row *row = *state;

    assert_string_equal(dew_unit_shown(row->quantity, row->system)->name,
                        row->name);
}

ROWS(oracle_rows, units_agrees);
ROWS(thermometer_rows, units_agrees_on_thermometers);
ROWS(spelling_rows, spelling_is_taken);
ROWS(shown_rows, shown_unit_suits_the_system);
RUN_TESTS("core, units");
