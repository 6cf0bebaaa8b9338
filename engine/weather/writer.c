/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A year as a table in the project's own form, whole or not at all. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/clean.h"
#include "core/out.h"
#include "dew/unit.h"
#include "weather/calendar.h"
#include "weather/year.h"

enum { DIGITS = 9 }; /* more than any instrument has */

static void put_text(FILE *out, const char *key, const char *text)
{
    if (text[0] == '\0')
        return;
    fprintf(out, "# %s: ", key);
    core__clean_put(out, text, strlen(text)); /* a line is a line */
    fputc('\n', out);
}

static void put_key(FILE *out, const char *key, double x)
{
    char number[32];

    if (!isnan(x))
        put_text(out, key, dew_number_print(x, DIGITS, number, sizeof number));
}

/* A cell; empty where there is no value. */
static void put_cell(FILE *out, double x)
{
    char number[32] = "";

    if (!isnan(x))
        dew_number_print(x, DIGITS, number, sizeof number);
    fprintf(out, ",%s", number);
}

static void put_head(FILE *out, const struct dew_year *year)
{
    const struct dew_site *s = &year->site;

    fputs("# dewledger weather: an hour ends at its time; local standard time; "
          "solar is the mean of the hour\n",
          out);
    put_text(out, "name", s->name);
    put_text(out, "id", s->id);
    put_key(out, "latitude", s->latitude);
    put_key(out, "longitude", s->longitude);
    put_key(out, "elevation", s->elevation);
    put_key(out, "utc offset", s->utc_offset);
    if (year->count > 0 && year->dates[0].year == 0)
        put_text(out, "year", "typical");
    put_text(out, "provenance", year->provenance);
    fputs("time,temperature (degC),humidity ratio (g/kg),pressure (Pa),"
          "wind speed (m/s),global solar (W/m2),direct solar (W/m2),"
          "diffuse solar (W/m2)",
          out);
    fputs(weather__sky_of_file(year) ? ",sky infrared (W/m2)\n" : "\n", out);
}

static void put_hour(FILE *out, const struct dew_date *d,
                     const struct dew_hour *h, int sky)
{
    fprintf(out, "%04d-%02d-%02d %02d:00",
            d->year == 0 ? WEATHER__TYPICAL : d->year, d->month, d->day,
            d->hour);
    put_cell(out, h->t);
    put_cell(out, h->w * 1e3);
    put_cell(out, h->p);
    put_cell(out, h->wind);
    put_cell(out, h->global);
    put_cell(out, h->direct);
    put_cell(out, h->diffuse);
    if (sky)
        put_cell(out, dew_weather_infrared(h->t, h->sky));
    fputc('\n', out);
}

enum dew_status dew_weather_write(const struct dew_year *year, const char *path,
                                  struct dew_error *err)
{
    struct core__out out;
    enum dew_status status = core__out_open(&out, path, CORE__OUT_OVER, err);

    if (status != DEW_OK)
        return status;
    put_head(out.file, year);
    for (size_t h = 0; h < year->count; h++)
        put_hour(out.file, &year->dates[h], &year->hours[h],
                 weather__sky_of_file(year));
    return core__out_close(&out, err);
}
