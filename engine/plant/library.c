/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Typical equipment.  Ranges are for doubt, not for design. */
#include "dew/library.h"

#include <math.h>

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

#define AT(what, key)       what##_##key,
#define ROW(what, key, ...) [what##_##key] = {#key, __VA_ARGS__}

#define PER_CFM    2118.8800032893155 /* W/cfm to W per m3/s                 */
#define BTU_PER_WH (1055.05585262 / 3600.0) /* SEER, EER to W/W              */
#define LITRE_KWH  (1.0 / 3.6e6)            /* L/kWh to kg/J                 */
#define CFM_PER_W  (1.0 / 2118.8800032893155)

/* Both fans of a ventilator: 1.2 cfm/W is the least allowed in manufactured
   homes [CFR460]; very good small units 0.35 .. 0.6 W/cfm, from memory. */
#define BOTH_FANS                                                              \
    {                                                                          \
        0.40 * PER_CFM, 0.70 * PER_CFM, 1.0 * PER_CFM                          \
    }

/* Each row stands where its key stands in the map. */
enum { DEW_TYPICAL_BLOWER_MAP(AT) };
enum { DEW_TYPICAL_COOLER_MAP(AT) };
enum { DEW_TYPICAL_DRYER_MAP(AT) };

/* clang-format off */
static const struct dew_typical_core cores[] = {
    {"crossflow_plate",   "heat recovery, crossflow plates",   "from memory", DEW_CROSSFLOW,   0, {0.50, 0.65, 0.75}, {0,    0,    0},    {0,     0.01, 0.02}, BOTH_FANS},
    {"counterflow_plate", "heat recovery, counterflow plates", "from memory", DEW_HEADERED,    0, {0.75, 0.82, 0.92}, {0,    0,    0},    {0,     0.01, 0.03}, BOTH_FANS},
    {"enthalpy_plate",    "enthalpy plates",                   "from memory", DEW_HEADERED,    1, {0.55, 0.72, 0.80}, {0.25, 0.48, 0.65}, {0,     0.02, 0.05}, BOTH_FANS},
    {"enthalpy_wheel",    "enthalpy wheel",                    "from memory", DEW_WHEEL,       1, {0.65, 0.75, 0.85}, {0.50, 0.65, 0.80}, {0.005, 0.04, 0.10}, BOTH_FANS},
};

static const struct dew_typical_blower blowers[] = {
    ROW(BLOWER, psc,             "fixed-speed (PSC) motor",          "[LBNL-06]: about 2 cfm/W, 500 to 700 W; low speed from memory", {0.36 * PER_CFM, 0.50 * PER_CFM, 0.60 * PER_CFM}, 0.70, 0.75),
    ROW(BLOWER, constant_torque, "constant-torque electronic motor", "[NREL-56354] 0.365 W/cfm; low speed from memory",                {0.25 * PER_CFM, 0.365 * PER_CFM, 0.45 * PER_CFM}, 0.50, 0.25),
    ROW(BLOWER, variable,        "variable-speed electronic motor",  "[NREL-56354] 0.14 W/cfm above SEER 15; low speed from memory",   {0.14 * PER_CFM, 0.30 * PER_CFM, 0.40 * PER_CFM}, 0.40, 0.15),
};

static const struct dew_typical_cooler coolers[] = {
    ROW(COOLER, old_single,  "single stage, before 2006",   "SEER and C_d from memory; share [SHR-TRADE] 75 to 80 % by design", { 8.0 * BTU_PER_WH, 10.0 * BTU_PER_WH, 12.0 * BTU_PER_WH}, {0.70, 0.75, 0.80}, 0.20, 1.0,  1.0),
    ROW(COOLER, single,      "single stage",                "SEER from memory; share [SHR-TRADE] 75 to 80 % by design; C_d [NREL-56354]", {13.0 * BTU_PER_WH, 14.0 * BTU_PER_WH, 16.0 * BTU_PER_WH}, {0.70, 0.75, 0.80}, 0.07, 1.0,  1.0),
    ROW(COOLER, two_stage,   "two stage",                   "SEER from memory; share [SHR-TRADE] 75 to 80 % by design; C_d [NREL-56354]", {15.0 * BTU_PER_WH, 17.0 * BTU_PER_WH, 19.0 * BTU_PER_WH}, {0.69, 0.74, 0.79}, 0.07, 0.70, 1.0),
    ROW(COOLER, variable,    "variable speed",              "SEER from memory; share [SHR-TRADE] 75 to 80 % by design; C_d [NREL-56354]", {17.0 * BTU_PER_WH, 19.0 * BTU_PER_WH, 23.0 * BTU_PER_WH}, {0.68, 0.73, 0.80}, 0.07, 1.0,  0.40),
};

static const struct dew_typical_dryer dryers[] = {
    ROW(DRYER, portable_small, "portable, to 25 pints a day at 65 degF",     "[DOE-DH] least; [ESTAR-DH5] likely; high from memory",           {1.30 * LITRE_KWH, 1.57 * LITRE_KWH, 1.70 * LITRE_KWH}, 18.333, 0.60),
    ROW(DRYER, portable,       "portable, 25 to 50 pints a day at 65 degF",  "[DOE-DH] least; [ESTAR-DH5] likely; high from memory",           {1.60 * LITRE_KWH, 1.80 * LITRE_KWH, 2.00 * LITRE_KWH}, 18.333, 0.60),
    ROW(DRYER, portable_large, "portable, above 50 pints a day at 65 degF",  "[DOE-DH] least; [ESTAR-DH5] likely and high",                    {2.80 * LITRE_KWH, 3.30 * LITRE_KWH, 3.30 * LITRE_KWH}, 18.333, 0.60),
    ROW(DRYER, old_portable,   "portable, labelled at 80 degF",              "[NRCAN-DH] likely, the least of 45 to 54 pints a day; ends from memory", {1.20 * LITRE_KWH, 1.60 * LITRE_KWH, 1.85 * LITRE_KWH}, 26.667, 0.60),
    ROW(DRYER, ducted,         "whole house, case to 8 ft3, at 73 degF",     "[DOE-DH] least, from memory; [ESTAR-DH5] likely; high from memory", {1.77 * LITRE_KWH, 2.09 * LITRE_KWH, 2.20 * LITRE_KWH}, 22.778, 0.60),
    ROW(DRYER, ducted_large,   "whole house, case above 8 ft3, at 73 degF",  "[DOE-DH] least, from memory; [ESTAR-DH5] likely and high",       {2.41 * LITRE_KWH, 3.30 * LITRE_KWH, 3.30 * LITRE_KWH}, 22.778, 0.60),
};

static const struct dew_typical_store stores[] = {
    {"hold_s",     "time the coil takes to fill, s",             "[HR96], from memory", {720, 1000, 1200}},
    {"gamma",      "first evaporation / latent rate",            "[HR96], from memory", {1.0, 1.25, 1.5}},
    {"cycles_max", "most cycles an hour",                        "[HR96], from memory", {2.0, 3.0, 3.5}},
    {"off_delay",  "blower runs on after a cycle, s",            "makers' settings, from memory", {0, 60, 90}},
    {"still",      "blower off: share evaporated all the same",  "no source: our own bound, buoyancy against the filter", {0.0, 0.004, 0.02}},
    {"air",        "air through the coil",           "350 to 450 cfm per ton: common practice, no source",
     {350 / PER_CFM / 3516.8528, 400 / PER_CFM / 3516.8528, 450 / PER_CFM / 3516.8528}},
};

static const struct dew_typical_fan fans[] = {
    {"ventilator", "heat or energy recovery ventilator", "[CFR460] table 1, manufactured homes", 1.2 * CFM_PER_W},
    {"in_line",    "in-line supply or exhaust fan",      "[CFR460] table 1, manufactured homes", 3.8 * CFM_PER_W},
    {"bath_small", "bathroom fan below 90 cfm",          "[CFR460] table 1, manufactured homes", 2.8 * CFM_PER_W},
    {"bath_large", "bathroom fan from 90 cfm",           "[CFR460] table 1, manufactured homes", 3.5 * CFM_PER_W},
    {"hood",       "range hood below 90 cfm",            "[WAC-R403] other exhaust fan, Washington State", 2.8 * CFM_PER_W},
};

/* clang-format on */

const struct dew_typical_core *dew_plant_typical_core(size_t i)
{
    return i < COUNT(cores) ? &cores[i] : NULL;
}

const struct dew_typical_blower *dew_plant_typical_blower(size_t i)
{
    return i < COUNT(blowers) ? &blowers[i] : NULL;
}

const struct dew_typical_cooler *dew_plant_typical_cooler(size_t i)
{
    return i < COUNT(coolers) ? &coolers[i] : NULL;
}

const struct dew_typical_dryer *dew_plant_typical_dryer(size_t i)
{
    return i < COUNT(dryers) ? &dryers[i] : NULL;
}

const struct dew_typical_store *dew_plant_typical_store(size_t i)
{
    return i < COUNT(stores) ? &stores[i] : NULL;
}

const struct dew_typical_fan *dew_plant_typical_fan(size_t i)
{
    return i < COUNT(fans) ? &fans[i] : NULL;
}
