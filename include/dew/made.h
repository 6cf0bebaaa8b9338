/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Made weather: an hourly year out of twelve months of figures, for a place
 * that has no hourly file.
 *
 *     struct dew_year *year;
 *     struct dew_made how = {.seed = DEW_MADE_SEED};
 *     dew_climate_find("722020", &place, &err);
 *     dew_made_open(&place, &how, &year, &err);
 *
 * How       Days first: mean temperature and dew point as a correlated
 *           second-order autoregression with the table's deviations, lag and
 *           correlation.  How a month's days lean, how flat their distribution
 *           is and how they hang together over two days and three follows from
 *           the month's figures by regressions (engine/made/aim.c),
 *           and the twelve months of a typical year differ from those by as
 *           much as real months do, dealt out by the seed.  Each month is the
 *           one of several draws whose persistence is nearest.  Clearness of
 *           the sky by how dry the day is, the day's range by how clear; wind
 *           by fronts, calm clear days, dryness and cold as far as these tell
 *           of it, else by chance.  Then hours: the days' means joined by a
 *           line that keeps them, the day's swing by the sun [PL81], dry days'
 *           dew points falling as the sun mixes the air, sunlight by the sun's
 *           height [CPR79] with passing cloud, split by dew_weather_split.
 * Same      seed and figures give the same year: everything is drawn from the
 *           Mersenne twister and rounded (0.01 K, 0.01 m/s, 1 W/m2, 10 Pa), so
 *           that the last bit of a machine's mathematics does not show; w is
 *           computed from the rounded dew point and cut at 0.01 mg/kg.
 * Meets     in a typical year, monthly means of t and dew point within 0.1 K
 *           and sun within 2 % or 0.02 kWh/m2 day, at each of the 1,007 places
 *           of the table; dew point never above t; the days' mean highest and
 *           lowest within 0.3 K but for 10 of 12,084 months (mountain tops and
 *           the polar night, where days differ more than day and night), 1 K
 *           at worst (tests/made/test_made.c).
 * Against   six typical years of [TMY3], hours with the outdoor dew point
 *           above 60 degF and hours too humid or too dry in a tight house:
 *           docs/weather-made.md has the figures, tests/study/study_made.c and
 *           study_options.c make them.
 * Limits    no rain, no fronts that turn t and dew point within the hour, no
 *           sea breeze, no heat waves longer than the lag makes; pressure is
 *           plain noise around the month's mean; twelve rows do not tell how
 *           the days of one month lean or which way its dry wind blows, so
 *           that counts of rare hours differ from seed to seed.
 */
#ifndef DEW_MADE_H
#define DEW_MADE_H

#include "dew/climate.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * The seed where none is said: the first from 1 on whose typical years hold
 * every option of scenarios/ in hours too humid and too dry within 25 % or
 * 100 h of the real years of six places.  Chosen on those six, as the constants
 * were: of other places it tells nothing (docs/weather-made.md).
 */
enum { DEW_MADE_SEED = 129 };

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
