/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * libFuzzer target: any bytes as a weather file must give a status, never a
 * crash, a leak or a year on an error.  The first byte picks the answers.
 */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "dew/weather.h"

static const struct dew_month_normal normals[12];

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct dew_weather_report report;
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_year *year;
    struct dew_text text = {"fuzz", (const char *)data + 1, size - 1};

    if (size < 1)
        return 0;
    ask.order = (enum dew_date_order)(data[0] % 3);
    ask.clock = (enum dew_clock)(data[0] / 3 % 4);
    ask.utc_offset = data[0] & 64 ? -6.0 : (double)NAN;
    ask.normals = data[0] & 128 ? normals : NULL;
    ask.keep_gaps = data[0] & 1;
    if (dew_weather_parse(&year, &text, &ask, &report, &faults) != DEW_OK &&
        (year != NULL || faults.count == 0))
        abort();
    dew_year_close(year);
    return 0;
}
