/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The unit table.  Factors are written as products of the defining constants
 * below, so that each is exact up to one rounding and can be read.  Within a
 * quantity the rows stand in the order a person is offered them; the first
 * row of a system is the one results are printed in.
 */
#include <string.h>

#include "dew/unit.h"

/* Definitions of 1959 and later, [SP811] appendix B.8. */
#define FOOT 0.3048
#define INCH 0.0254
#define FT2  (FOOT * FOOT)
#define FT3  (FOOT * FOOT * FOOT)
#define LB   0.45359237
#define GAL  3.785411784e-3 /* m3, 231 in3 */
#define PINT (GAL / 8.0)
#define BTU  1055.05585262 /* J, International Table */
#define DEGF (5.0 / 9.0)   /* K */
#define MIN  60.0
#define HOUR 3600.0
#define DAY  86400.0
#define GRAV 9.80665 /* m/s2, standard */
#define KWH  3.6e6
#define KGM3 1000.0  /* water at 1 kg/L, as the trade weighs it */
#define HG   13595.1 /* kg/m3, conventional mercury */

#define SI     "SI"
#define EXACT  "[SP811] B.8, exact"
#define WATER1 "[SP811] volume; water taken at 1 kg/L"
#define ITBTU  "[SP811] International Table Btu, 1055.05585262 J"
#define YEAR   "a year of 365 days, its month a twelfth"

enum { BOTH, IP, METRIC };

/* clang-format off */
static const struct dew_unit units[] = {
/*   name          quantity               factor                     offset  system  source */
    {"",           DEW_PURE,              1.0,                       0.0,    BOTH,   "a bare number"},
    {"%",          DEW_PURE,              0.01,                      0.0,    BOTH,   "one in a hundred"},

    {"degF",       DEW_TEMPERATURE,       DEGF,         -32.0 * DEGF,        IP,     EXACT},
    {"degC",       DEW_TEMPERATURE,       1.0,                       0.0,    METRIC, SI},
    {"K",          DEW_TEMPERATURE,       1.0,                    -273.15,   BOTH,   "SI, 0 degC = 273.15 K"},

    {"degF",       DEW_TEMPERATURE_STEP,  DEGF,                      0.0,    IP,     EXACT},
    {"K",          DEW_TEMPERATURE_STEP,  1.0,                       0.0,    METRIC, SI},
    {"degC",       DEW_TEMPERATURE_STEP,  1.0,                       0.0,    METRIC, SI},

    {"ft",         DEW_LENGTH,            FOOT,                      0.0,    IP,     EXACT},
    {"in",         DEW_LENGTH,            INCH,                      0.0,    IP,     EXACT},
    {"m",          DEW_LENGTH,            1.0,                       0.0,    METRIC, SI},
    {"cm",         DEW_LENGTH,            1e-2,                      0.0,    METRIC, SI},
    {"mm",         DEW_LENGTH,            1e-3,                      0.0,    METRIC, SI},

    {"ft2",        DEW_AREA,              FT2,                       0.0,    IP,     EXACT},
    {"in2",        DEW_AREA,              INCH * INCH,               0.0,    IP,     EXACT},
    {"m2",         DEW_AREA,              1.0,                       0.0,    METRIC, SI},
    {"cm2",        DEW_AREA,              1e-4,                      0.0,    METRIC, SI},

    {"ft3",        DEW_VOLUME,            FT3,                       0.0,    IP,     EXACT},
    {"gal",        DEW_VOLUME,            GAL,                       0.0,    IP,     EXACT},
    {"m3",         DEW_VOLUME,            1.0,                       0.0,    METRIC, SI},
    {"L",          DEW_VOLUME,            1e-3,                      0.0,    METRIC, SI},

    {"cfm",        DEW_FLOW,              FT3 / MIN,                 0.0,    IP,     EXACT},
    {"L/s",        DEW_FLOW,              1e-3,                      0.0,    METRIC, SI},
    {"m3/h",       DEW_FLOW,              1.0 / HOUR,                0.0,    METRIC, SI},
    {"m3/s",       DEW_FLOW,              1.0,                       0.0,    METRIC, SI},

    {"ach50",      DEW_ACH50,             1.0,                       0.0,    BOTH,   "air changes per hour at 50 Pa"},

    {"cfm50",      DEW_FLOW50,            FT3 / MIN,                 0.0,    IP,     "cfm at 50 Pa"},
    {"m3/h50",     DEW_FLOW50,            1.0 / HOUR,                0.0,    METRIC, "m3/h at 50 Pa"},
    {"L/s50",      DEW_FLOW50,            1e-3,                      0.0,    METRIC, "L/s at 50 Pa"},

    {"in2",        DEW_LEAKAGE_AREA,      INCH * INCH,               0.0,    IP,     EXACT},
    {"cm2",        DEW_LEAKAGE_AREA,      1e-4,                      0.0,    METRIC, SI},
    {"m2",         DEW_LEAKAGE_AREA,      1.0,                       0.0,    METRIC, SI},

    {"Pa",         DEW_PRESSURE,          1.0,                       0.0,    BOTH,   SI},
    {"inwg",       DEW_PRESSURE,          INCH * KGM3 * GRAV,        0.0,    IP,     "[SP811] conventional inch of water"},
    {"inHg",       DEW_PRESSURE,          INCH * HG * GRAV,          0.0,    IP,     "[SP811] conventional inch of mercury"},
    {"kPa",        DEW_PRESSURE,          1e3,                       0.0,    METRIC, SI},
    {"hPa",        DEW_PRESSURE,          1e2,                       0.0,    METRIC, SI},
    {"mbar",       DEW_PRESSURE,          1e2,                       0.0,    METRIC, EXACT},
    {"mmHg",       DEW_PRESSURE,          1e-3 * HG * GRAV,          0.0,    METRIC, "[SP811] conventional millimetre of mercury"},

    {"hft2F/Btu",  DEW_RSI,               HOUR * FT2 * DEGF / BTU,   0.0,    IP,     ITBTU},
    {"R",          DEW_RSI,               HOUR * FT2 * DEGF / BTU,   0.0,    IP,     "h ft2 degF/Btu, as on insulation"},
    {"m2K/W",      DEW_RSI,               1.0,                       0.0,    METRIC, SI},
    {"RSI",        DEW_RSI,               1.0,                       0.0,    METRIC, "m2 K/W, as on insulation"},

    {"Btu/hft2F",  DEW_USI,               BTU / HOUR / FT2 / DEGF,   0.0,    IP,     ITBTU},
    {"W/m2K",      DEW_USI,               1.0,                       0.0,    METRIC, SI},

    {"Btu/hF",     DEW_CONDUCTANCE,       BTU / HOUR / DEGF,         0.0,    IP,     ITBTU},
    {"W/K",        DEW_CONDUCTANCE,       1.0,                       0.0,    METRIC, SI},

    {"Btu/F",      DEW_CAPACITY,          BTU / DEGF,                0.0,    IP,     ITBTU},
    {"kJ/K",       DEW_CAPACITY,          1e3,                       0.0,    METRIC, SI},
    {"MJ/K",       DEW_CAPACITY,          1e6,                       0.0,    METRIC, SI},
    {"Wh/K",       DEW_CAPACITY,          HOUR,                      0.0,    METRIC, SI},
    {"J/K",        DEW_CAPACITY,          1.0,                       0.0,    METRIC, SI},

    {"Btu/ft2F",   DEW_AREA_CAPACITY,     BTU / DEGF / FT2,          0.0,    IP,     ITBTU},
    {"kJ/m2K",     DEW_AREA_CAPACITY,     1e3,                       0.0,    METRIC, SI},
    {"Wh/m2K",     DEW_AREA_CAPACITY,     HOUR,                      0.0,    METRIC, SI},
    {"J/m2K",      DEW_AREA_CAPACITY,     1.0,                       0.0,    METRIC, SI},

    {"Btu/h",      DEW_POWER,             BTU / HOUR,                0.0,    IP,     ITBTU},
    {"kBtu/h",     DEW_POWER,             1e3 * BTU / HOUR,          0.0,    IP,     ITBTU},
    {"ton",        DEW_POWER,             12e3 * BTU / HOUR,         0.0,    IP,     "ton of refrigeration, 12,000 Btu/h"},
    {"W",          DEW_POWER,             1.0,                       0.0,    METRIC, SI},
    {"kW",         DEW_POWER,             1e3,                       0.0,    METRIC, SI},

    {"kWh",        DEW_ENERGY,            KWH,                       0.0,    BOTH,   SI},
    {"Wh",         DEW_ENERGY,            HOUR,                      0.0,    BOTH,   SI},
    {"Btu",        DEW_ENERGY,            BTU,                       0.0,    IP,     ITBTU},
    {"kBtu",       DEW_ENERGY,            1e3 * BTU,                 0.0,    IP,     ITBTU},
    {"MMBtu",      DEW_ENERGY,            1e6 * BTU,                 0.0,    IP,     ITBTU},
    {"therm",      DEW_ENERGY,            1e5 * BTU,                 0.0,    IP,     "100,000 Btu, International Table"},
    {"J",          DEW_ENERGY,            1.0,                       0.0,    METRIC, SI},
    {"MJ",         DEW_ENERGY,            1e6,                       0.0,    METRIC, SI},
    {"GJ",         DEW_ENERGY,            1e9,                       0.0,    METRIC, SI},

    {"pint/day",   DEW_WATER_RATE,        PINT * KGM3 / DAY,         0.0,    IP,     WATER1},
    {"gal/day",    DEW_WATER_RATE,        GAL * KGM3 / DAY,          0.0,    IP,     WATER1},
    {"lb/day",     DEW_WATER_RATE,        LB / DAY,                  0.0,    IP,     EXACT},
    {"lb/h",       DEW_WATER_RATE,        LB / HOUR,                 0.0,    IP,     EXACT},
    {"L/day",      DEW_WATER_RATE,        1e-3 * KGM3 / DAY,         0.0,    METRIC, WATER1},
    {"kg/day",     DEW_WATER_RATE,        1.0 / DAY,                 0.0,    METRIC, SI},
    {"L/h",        DEW_WATER_RATE,        1e-3 * KGM3 / HOUR,        0.0,    METRIC, WATER1},
    {"kg/h",       DEW_WATER_RATE,        1.0 / HOUR,                0.0,    METRIC, SI},
    {"g/h",        DEW_WATER_RATE,        1e-3 / HOUR,               0.0,    METRIC, SI},
    {"kg/s",       DEW_WATER_RATE,        1.0,                       0.0,    METRIC, SI},

    {"gal",        DEW_WATER,             GAL * KGM3,                0.0,    IP,     WATER1},
    {"pint",       DEW_WATER,             PINT * KGM3,               0.0,    IP,     WATER1},
    {"lb",         DEW_WATER,             LB,                        0.0,    IP,     EXACT},
    {"L",          DEW_WATER,             1e-3 * KGM3,               0.0,    METRIC, WATER1},
    {"kg",         DEW_WATER,             1.0,                       0.0,    METRIC, SI},
    {"g",          DEW_WATER,             1e-3,                      0.0,    METRIC, SI},

    {"L/kWh",      DEW_WATER_PER_ENERGY,  1e-3 * KGM3 / KWH,         0.0,    BOTH,   WATER1},
    {"pint/kWh",   DEW_WATER_PER_ENERGY,  PINT * KGM3 / KWH,         0.0,    IP,     WATER1},
    {"kg/kWh",     DEW_WATER_PER_ENERGY,  1.0 / KWH,                 0.0,    METRIC, SI},

    {"grain/lb",   DEW_HUMIDITY_RATIO,    1.0 / 7000.0,              0.0,    IP,     "[SP811] 7,000 grains to the pound"},
    {"lb/lb",      DEW_HUMIDITY_RATIO,    1.0,                       0.0,    IP,     EXACT},
    {"g/kg",       DEW_HUMIDITY_RATIO,    1e-3,                      0.0,    METRIC, SI},
    {"kg/kg",      DEW_HUMIDITY_RATIO,    1.0,                       0.0,    METRIC, SI},

    {"mph",        DEW_SPEED,             5280.0 * FOOT / HOUR,      0.0,    IP,     EXACT},
    {"ft/min",     DEW_SPEED,             FOOT / MIN,                0.0,    IP,     EXACT},
    {"m/s",        DEW_SPEED,             1.0,                       0.0,    METRIC, SI},
    {"km/h",       DEW_SPEED,             1e3 / HOUR,                0.0,    METRIC, SI},
    {"knot",       DEW_SPEED,             1852.0 / HOUR,             0.0,    BOTH,   EXACT},

    {"h",          DEW_TIME,              HOUR,                      0.0,    BOTH,   SI},
    {"min",        DEW_TIME,              MIN,                       0.0,    BOTH,   SI},
    {"s",          DEW_TIME,              1.0,                       0.0,    BOTH,   SI},
    {"day",        DEW_TIME,              DAY,                       0.0,    BOTH,   SI},
    {"week",       DEW_TIME,              7.0 * DAY,                 0.0,    BOTH,   "7 days"},
    {"month",      DEW_TIME,              365.0 / 12.0 * DAY,        0.0,    BOTH,   YEAR},
    {"year",       DEW_TIME,              365.0 * DAY,               0.0,    BOTH,   YEAR},

    {"%",          DEW_SHARE_OF_TIME,     0.01,                      0.0,    BOTH,   "one in a hundred"},
    {"min/h",      DEW_SHARE_OF_TIME,     MIN / HOUR,                0.0,    BOTH,   "60 minutes to the hour"},
    {"h/day",      DEW_SHARE_OF_TIME,     HOUR / DAY,                0.0,    BOTH,   "24 hours to the day"},
    {"",           DEW_SHARE_OF_TIME,     1.0,                       0.0,    BOTH,   "a bare number"},

    {"per day",    DEW_PER_DAY,           1.0 / DAY,                 0.0,    BOTH,   SI},
    {"per week",   DEW_PER_DAY,           1.0 / (7.0 * DAY),         0.0,    BOTH,   "7 days"},
    {"per hour",   DEW_PER_DAY,           1.0 / HOUR,                0.0,    BOTH,   SI},

    {"$",          DEW_MONEY,             1.0,                       0.0,    BOTH,   "the user's money"},

    {"$/kWh",      DEW_ENERGY_PRICE,      1.0 / KWH,                 0.0,    BOTH,   SI},
    {"cent/kWh",   DEW_ENERGY_PRICE,      0.01 / KWH,                0.0,    BOTH,   SI},
    {"$/therm",    DEW_ENERGY_PRICE,      1.0 / (1e5 * BTU),         0.0,    IP,     ITBTU},
    {"$/MMBtu",    DEW_ENERGY_PRICE,      1.0 / (1e6 * BTU),         0.0,    IP,     ITBTU},
    {"$/MJ",       DEW_ENERGY_PRICE,      1e-6,                      0.0,    METRIC, SI},
    {"$/GJ",       DEW_ENERGY_PRICE,      1e-9,                      0.0,    METRIC, SI},

    {"$/h",        DEW_WAGE,              1.0 / HOUR,                0.0,    BOTH,   SI},

    {"W/m2",       DEW_IRRADIANCE,        1.0,                       0.0,    BOTH,   SI},
    {"Btu/hft2",   DEW_IRRADIANCE,        BTU / HOUR / FT2,          0.0,    IP,     ITBTU},

    {"kWh/m2day",  DEW_IRRADIATION,       KWH,                       0.0,    BOTH,   SI},
    {"Btu/ft2day", DEW_IRRADIATION,       BTU / FT2,                 0.0,    IP,     ITBTU},
    {"MJ/m2day",   DEW_IRRADIATION,       1e6,                       0.0,    METRIC, SI},

    {"cfm/W",      DEW_FLOW_PER_POWER,    FT3 / MIN,                 0.0,    IP,     EXACT},
    {"L/sW",       DEW_FLOW_PER_POWER,    1e-3,                      0.0,    METRIC, SI},

    {"cfm/ton",    DEW_FLOW_PER_CAPACITY, FT3 / MIN * HOUR / (12e3 * BTU), 0.0, IP,  "ton of refrigeration, 12,000 Btu/h"},
    {"L/skW",      DEW_FLOW_PER_CAPACITY, 1e-6,                      0.0,    METRIC, SI},

    {"g/m2%",      DEW_BUFFER_VALUE,      1e-3 / 0.01,               0.0,    BOTH,   "SI; per point of RH"},
    {"kg/m2",      DEW_BUFFER_VALUE,      1.0,                       0.0,    METRIC, "SI; per unit RH"},

    {"deg",        DEW_ANGLE,             1.0,                       0.0,    BOTH,   "degree of arc"},

    {"ppm",        DEW_CO2,               1.0,                       0.0,    BOTH,   "parts per million by volume"},

    {"lb",         DEW_MASS,              LB,                        0.0,    IP,     EXACT},
    {"kg",         DEW_MASS,              1.0,                       0.0,    METRIC, SI},
    {"g",          DEW_MASS,              1e-3,                      0.0,    METRIC, SI},

    {"lb/ft3",     DEW_DENSITY,           LB / FT3,                  0.0,    IP,     EXACT},
    {"kg/m3",      DEW_DENSITY,           1.0,                       0.0,    METRIC, SI},
};

/* Other spellings that people type; taken, never printed. */
static const struct {
    const char *typed, *name;
} spellings[] = {
    {"F", "degF"},             {"\u00b0F", "degF"},
    {"C", "degC"},             {"\u00b0C", "degC"},
    {"sqft", "ft2"},           {"sq ft", "ft2"},
    {"ft\u00b2", "ft2"},       {"ft^2", "ft2"},
    {"m\u00b2", "m2"},         {"m^2", "m2"},
    {"cuft", "ft3"},           {"cu ft", "ft3"},
    {"ft\u00b3", "ft3"},       {"ft^3", "ft3"},
    {"m\u00b3", "m3"},         {"m^3", "m3"},
    {"l", "L"},                {"l/s", "L/s"},
    {"l/day", "L/day"},        {"l/h", "L/h"},
    {"l/kWh", "L/kWh"},        {"m\u00b3/h", "m3/h"},
    {"CFM", "cfm"},            {"CFM50", "cfm50"},
    {"ACH50", "ach50"},        {"iwg", "inwg"},
    {"in wg", "inwg"},         {"in wc", "inwg"},
    {"inwc", "inwg"},          {"tons", "ton"},
    {"therms", "therm"},       {"kwh", "kWh"},
    {"pints/day", "pint/day"}, {"pt/day", "pint/day"},
    {"gallons/day", "gal/day"},{"gallon/day", "gal/day"},
    {"pints", "pint"},         {"gallons", "gal"},
    {"gallon", "gal"},         {"lbs", "lb"},
    {"lbs/day", "lb/day"},     {"gr/lb", "grain/lb"},
    {"grains/lb", "grain/lb"}, {"knots", "knot"},
    {"fpm", "ft/min"},         {"hours", "h"},
    {"hour", "h"},             {"hr", "h"},
    {"minutes", "min"},        {"days", "day"},
    {"weeks", "week"},         {"months", "month"},
    {"years", "year"},         {"min per hour", "min/h"},
    {"h per day", "h/day"},    {"hours per day", "h/day"},
    {"/day", "per day"},       {"a day", "per day"},
    {"/week", "per week"},     {"a week", "per week"},
    {"dollars", "$"},          {"USD", "$"},
    {"$/hour", "$/h"},         {"share", ""},
    {"\u00b0", "deg"},         {"degrees", "deg"},
};
/* clang-format on */

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

static const struct {
    const char *si, *words;
} quantities[] = {
#define X(code, si, words) {si, words},
    DEW_QUANTITY_MAP(X)
#undef X
};

static int same(const char *name, const char *text, size_t length)
{
    return strlen(name) == length && memcmp(name, text, length) == 0;
}

static const struct dew_unit *row_of(const char *name, size_t length,
                                     enum dew_quantity quantity)
{
    for (size_t i = 0; i < COUNT(units); i++)
        if (units[i].quantity == quantity && same(units[i].name, name, length))
            return &units[i];
    return NULL;
}

const struct dew_unit *dew_unit_all(size_t *count)
{
    *count = COUNT(units);
    return units;
}

const struct dew_unit *dew_unit_find(const char *name, size_t length,
                                     enum dew_quantity quantity)
{
    const struct dew_unit *found = row_of(name, length, quantity);

    for (size_t i = 0; found == NULL && i < COUNT(spellings); i++)
        if (same(spellings[i].typed, name, length))
            found =
                row_of(spellings[i].name, strlen(spellings[i].name), quantity);
    return found;
}

char *dew_unit_fitting(enum dew_quantity quantity, char *out, size_t size)
{
    size_t used = 0;

    out[0] = '\0';
    for (size_t i = 0; i < COUNT(units); i++) {
        const char *name = units[i].name[0] ? units[i].name : "no unit";
        const char *between = used > 0 ? ", " : "";
        size_t more = strlen(between) + strlen(name);

        if (units[i].quantity != quantity)
            continue;
        if (used + more >= size)
            break;
        memcpy(out + used, between, strlen(between));
        memcpy(out + used + strlen(between), name, strlen(name) + 1);
        used += more;
    }
    return out;
}

const struct dew_unit *dew_unit_shown(enum dew_quantity quantity, int system)
{
    const struct dew_unit *first = NULL;

    for (size_t i = 0; i < COUNT(units); i++) {
        if (units[i].quantity != quantity)
            continue;
        if (units[i].system == BOTH || units[i].system == system)
            return &units[i];
        if (first == NULL)
            first = &units[i];
    }
    return first != NULL ? first : &units[0];
}

const char *dew_quantity_text(enum dew_quantity quantity)
{
    return (unsigned)quantity < COUNT(quantities) ? quantities[quantity].words
                                                  : "no such quantity";
}

const char *dew_quantity_si(enum dew_quantity quantity)
{
    return (unsigned)quantity < COUNT(quantities) ? quantities[quantity].si
                                                  : "";
}
