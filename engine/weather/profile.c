/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published layouts that leave their units to a document. */
#include <stdio.h>
#include <string.h>

#include "weather/table.h"

struct weather__profile {
    const char *name;     /* and where the units are said                    */
    const char *needs[3]; /* headers that must be there                     */
    const char *lacks;    /* and one that must not; NULL: none               */
    const char *t, *p, *wind, *solar;
    int standard; /* local standard time all year, or UTC                   */
    int instants; /* solar of the moment                                    */
};

/* clang-format off */
static const struct weather__profile profiles[] = {
    {"NOAA local climatological data, version 1 [NOAA-LCD1]",
     {"HourlyDryBulbTemperature", "HourlyStationPressure", "REPORT_TYPE"},
     "ELEVATION", "degF", "inHg", "mph", NULL, 1, 0},
    {"NOAA local climatological data, version 2 [NOAA-LCD2]",
     {"HourlyDryBulbTemperature", "HourlyStationPressure", "ELEVATION"},
     NULL, "degC", "hPa", "m/s", NULL, 1, 0},
    {"Environment Canada hourly data, tidied [ECCC-HLY]",
     {"temp_dew", "wind_spd", "rel_hum"},
     NULL, "degC", "kPa", "km/h", NULL, 1, 0},
    {"Met Eireann hourly data [METEIREANN]",
     {"rhum", "wdsp", "wddir"},
     NULL, "degC", "hPa", "knot", NULL, 1, 0},
    {"European Commission PVGIS typical year [PVGIS]",
     {"T2m", "WS10m", "Gb(n)"},
     NULL, "degC", "Pa", "m/s", "W/m2", 1, 1},
    {"NREL NSRDB half hours [NSRDB-PSM3]",
     {"DHI", "Clearsky GHI", "Solar Zenith Angle"},
     NULL, NULL, NULL, NULL, NULL, 1, 1},
};
/* clang-format on */

static int has_header(const struct weather__table *t, const char *name)
{
    for (size_t i = 0; i < t->cells.count; i++)
        if (weather__same_words(weather__cell(&t->cells, i), name))
            return 1;
    return 0;
}

static int fits(const struct weather__table *t,
                const struct weather__profile *p)
{
    for (int i = 0; i < 3; i++)
        if (!has_header(t, p->needs[i]))
            return 0;
    return p->lacks == NULL || !has_header(t, p->lacks);
}

void weather__profile_find(struct weather__table *t)
{
    for (size_t i = 0; i < sizeof profiles / sizeof profiles[0]; i++) {
        const struct weather__profile *p = &profiles[i];

        if (!fits(t, p))
            continue;
        t->profile = p;
        t->r->standard = p->standard;
        t->r->instants = p->instants;
        if (p->t != NULL)
            snprintf(t->r->report->units_by, sizeof t->r->report->units_by,
                     "%s", p->name);
        return;
    }
}

const struct dew_unit *weather__profile_unit(const struct weather__table *t,
                                             enum weather__meaning meaning)
{
    enum dew_quantity q = weather__meaning_quantity(meaning);
    const char *unit = NULL;

    if (t->profile == NULL)
        return NULL;
    if (q == DEW_TEMPERATURE)
        unit = t->profile->t;
    else if (q == DEW_PRESSURE)
        unit = t->profile->p;
    else if (q == DEW_SPEED)
        unit = t->profile->wind;
    else if (q == DEW_IRRADIANCE)
        unit = t->profile->solar;
    return unit == NULL ? NULL : dew_unit_find(unit, strlen(unit), q);
}
