/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Give a file's year what it lacks, from a place's made year. */
#include <string.h>

#include "cli/weather.h"
#include "core/fail.h"
#include "dew/climate.h"
#include "dew/made.h"

enum dew_status dew__weather_fill(struct dew_year *year, const char *place,
                                  unsigned long seed,
                                  struct dew_year_filled *filled,
                                  struct dew_error *err)
{
    const struct dew_made how = {.seed = seed};
    struct dew_climate found;
    struct dew_year *from = NULL;
    enum dew_status status = DEW_OK;

    if (place != NULL && place[0] != '\0') {
        status = dew_climate_find(place, &found, err);
        if (status == DEW_OK)
            status = dew_made_open(&found, &how, &from, err);
    }
    if (status == DEW_OK)
        status = dew_year_complete(year, from, filled, err);
    dew_year_close(from);
    return status;
}
