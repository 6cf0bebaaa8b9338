/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published amounts of water, each row with its source.  See sources.h. */
#include "dew/sources.h"

#include <math.h>
#include <string.h>

/* clang-format off */

/* pints of [AO88] are 0.473176 kg; meals and dishes are for a family of 4 */
static const struct dew_amount amounts[] = {
    {"shower",               "shower of 5 minutes",          DEW_SOURCE_showers, DEW_PER_EVENT, 0.24, 0.24, 2.6,  "[AO88]; high: older German tables, quoted"},
    {"shower_long",          "shower, towels and splash in", DEW_SOURCE_showers, DEW_PER_EVENT, 1.70, 0.50, 2.6,  "[DIN4108-8] family of tables, quoted"},
    {"bath",                 "tub bath",                     DEW_SOURCE_showers, DEW_PER_EVENT, 0.05, 0.05, 1.0,  "[AO88]; high: [DIN4108-8] family of tables, quoted"},
    {"washing_person",       "person's baths and showers",   DEW_SOURCE_showers, DEW_PER_STAY,  0.20, 0.20, 0.6,  "[BS5250], from memory; high: [NZ-MRM], 1.5 for 2.5 persons"},
    {"sauna",                "hour of sauna or whirlpool",   DEW_SOURCE_showers, DEW_PER_HOUR,  1.30, 0.60, 2.6,  "[AO88]; range ours"},

    {"breakfast_electric",   "breakfast for 4",              DEW_SOURCE_cooking, DEW_PER_EVENT, 0.17, 0.10, 0.35, "[AO88], from memory; range ours"},
    {"lunch_electric",       "lunch for 4",                  DEW_SOURCE_cooking, DEW_PER_EVENT, 0.25, 0.15, 0.50, "[AO88], from memory; range ours"},
    {"dinner_electric",      "dinner for 4",                 DEW_SOURCE_cooking, DEW_PER_EVENT, 0.57, 0.40, 1.20, "[AO88]; range ours"},
    {"breakfast_gas",        "breakfast for 4",              DEW_SOURCE_cooking, DEW_PER_EVENT, 0.43, 0.30, 0.60, "[AO88], from memory; range ours"},
    {"lunch_gas",            "lunch for 4",                  DEW_SOURCE_cooking, DEW_PER_EVENT, 0.57, 0.40, 0.80, "[AO88], from memory; range ours"},
    {"dinner_gas",           "dinner for 4",                 DEW_SOURCE_cooking, DEW_PER_EVENT, 1.33, 0.90, 1.80, "[AO88]; range ours"},
    {"cooking_electric",     "day of three meals for 4",     DEW_SOURCE_cooking, DEW_PER_STAY,  0.99, 0.60, 2.0,  "[AO88], partly from memory; high: [BS5250], from memory"},
    {"cooking_gas",          "day of three meals for 4",     DEW_SOURCE_cooking, DEW_PER_STAY,  2.33, 1.50, 3.0,  "[AO88], partly from memory; high: [BS5250], from memory"},
    {"cooking_hour",         "hour of cooking",              DEW_SOURCE_cooking, DEW_PER_HOUR,  0.50, 0.40, 1.5,  "[DIN4108-8] family of tables, quoted"},

    {"dishes_by_hand",       "day's dishes for 4, by hand",  DEW_SOURCE_dishes,  DEW_PER_STAY,  0.50, 0.32, 1.6,  "[AO88], partly from memory; high: [NZ-MRM], 1.0 for 2.5 persons"},
    {"dishwasher",           "cycle",                        DEW_SOURCE_dishes,  DEW_PER_EVENT, 0.20, 0.10, 0.40, "[DIN4108-8] family of tables, quoted; range ours"},

    {"laundry_load",         "load dried indoors",           DEW_SOURCE_laundry, DEW_PER_EVENT, 2.5,  2.2,  5.0,  "[AO88]; high: [NZ-MRM], tumbled and unvented"},
    {"laundry_person",       "person's drying indoors",      DEW_SOURCE_laundry, DEW_PER_STAY,  1.5,  0.8,  1.5,  "[BS5250], from memory; low ours"},
    {"washing_machine",      "cycle",                        DEW_SOURCE_laundry, DEW_PER_EVENT, 0.28, 0.19, 0.36, "[DIN4108-8] family of tables, quoted"},

    {"house_plants",         "5 to 7 plants",                DEW_SOURCE_plants,  DEW_PER_STAY,  0.43, 0.41, 0.45, "[AO88]"},
    {"pot_plant",            "plant",                        DEW_SOURCE_plants,  DEW_PER_HOUR,  0.010, 0.003, 0.020, "[DIN4108-8] family of tables, quoted; low: [AO88] by the plant"},

    {"pet",                  "animal of 23 kg",              DEW_SOURCE_pets,    DEW_PER_STAY,  0.47, 0.25, 0.70, "1 pint per 50 lb, quoted; range ours"},
    {"aquarium",             "m2 of open water",             DEW_SOURCE_pets,    DEW_PER_HOUR,  0.040, 0.030, 0.050, "older German tables, quoted"},

    {"bare_crawl_space",     "100 m2 of bare damp earth, of which the rooms get a part", DEW_SOURCE_ground, DEW_PER_STAY, 40.0, 0.0, 50.0, "[BRANZ14], 0.4 L/m2; range: [AO88]"},
    {"damp_slab",            "100 m2 of slab without barrier", DEW_SOURCE_ground, DEW_PER_STAY, 1.5, 0.0,  5.0,  "[CD06], 3 lb of 1000 ft2, the most that floors are laid on; high ours"},

    {"new_materials",        "first day of a new house",     DEW_SOURCE_drying,  DEW_PER_STAY,  4.7,  4.0,  5.0,  "[AO88]; 4 to 5 for 18 months elsewhere, quoted"},
    {"firewood",             "cord stored indoors",          DEW_SOURCE_drying,  DEW_PER_STAY,  1.5,  1.0,  2.1,  "[AO88]"},
    {"seasonal_materials",   "house in the heating season",  DEW_SOURCE_drying,  DEW_PER_STAY,  5.0,  3.0,  8.0,  "[AO88]: not beside the buffer, which is the same water"},

    {"kerosene",             "litre burnt without a flue",   DEW_SOURCE_burning, DEW_PER_EVENT, 0.95, 0.95, 1.1,  "[AO88]; high ours"},
    {"bottled_gas",          "kg burnt without a flue",      DEW_SOURCE_burning, DEW_PER_EVENT, 1.6,  1.0,  1.64, "[NZ-MRM]; high: C3H8 makes 4 H2O"},
    {"gas_pilot",            "pilot flame",                  DEW_SOURCE_burning, DEW_PER_STAY,  0.18, 0.10, 0.30, "[AO88]; range ours"},
};

/* clang-format on */

const struct dew_amount *dew_house_amounts(size_t *count)
{
    *count = sizeof amounts / sizeof amounts[0];
    return amounts;
}

const struct dew_amount *dew_house_amount(const char *name)
{
    for (size_t i = 0; i < sizeof amounts / sizeof amounts[0]; i++)
        if (strcmp(amounts[i].name, name) == 0)
            return &amounts[i];
    return NULL;
}
