/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Made weather: an hourly year out of twelve months of figures, for a place
 * that has no hourly file.
 *
 *     struct dew_year *year;
 *     dew_climate_find("722020", &place, &err);
 *     dew_made_open(&place, &(struct dew_made){.seed = 1}, &year, &err);
 *
 * How       Days first: mean temperature and dew point as a correlated
 *           second-order autoregression with the table's deviations, lag and
 *           correlation (cold and warm spells end sooner than those of a first
 *           order); dew points of warm humid months lean to the dry side, both
 *           lean to the cold side in cold months.  A month of the typical year
 *           is the one of several draws whose persistence over one day and two
 *           is nearest to what it should be.  Clearness of the sky by how dry
 *           the day is, the day's range by how clear.  Then hours: the days'
 *           means joined by a line that keeps them, the day's swing by the sun
 *           [PL81], sunlight by the sun's height [CPR79] with passing cloud,
 *           split by dew_weather_split.
 * Same      seed and figures give the same year: everything is drawn from the
 *           Mersenne twister and rounded (0.01 K, 0.01 m/s, 1 W/m2, 10 Pa), so
 *           that the last bit of a machine's mathematics does not show; w is
 *           computed from the rounded dew point and cut at 0.01 mg/kg.
 * Meets     in a typical year, monthly means of t and dew point within 0.1 K
 *           and sun within 2 % or 0.02 kWh/m2 day, at each of the 1,007 places
 *           of the table; dew point never above t; the days' mean highest and
 *           lowest within 0.3 K but for 10 of 12,084 months (mountain tops and
 *           the polar night, where days differ more than day and night), 1 K
 *           at worst (tests/weather/test_made.c).
 * Against   six typical years of [TMY3], hours with the outdoor dew point
 *           above 60 degF and hours too humid or too dry in a tight house:
 *           docs/weather-made.md has the figures, tests/study/study_made.c and
 *           study_options.c make them.
 * Limits    no rain, no fronts that turn t and dew point within the hour, no
 *           sea breeze, no heat waves longer than the lag makes; wind and
 *           pressure are plain noise around the month's mean.
 */
#ifndef DEW_MADE_H
#define DEW_MADE_H

#include "dew/climate.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Which year to make.  Plain. */
struct dew_made {
    unsigned long seed;
    int number; /* 0: the typical year, which meets the months' figures;
                   1 ..: one of many years, whose months stray from the figures
                   as far as the days' own persistence makes them stray */
};

/*
 * Make a year of 8,760 hours, with year 0 in its dates.
 *
 * Owner      on DEW_OK *year is the caller's, for dew_year_close; else NULL.
 * Errors     DEW_ERANGE with the first fault of dew_climate_check; DEW_EMEM.
 */
enum dew_status dew_made_open(const struct dew_climate *place,
                              const struct dew_made *how,
                              struct dew_year **year, struct dew_error *err);

#ifdef __cplusplus
}
#endif
#endif
