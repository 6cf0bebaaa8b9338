/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A made year: days, hours, and what is handed out. */
#include "made/made.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"
#include "weather/calendar.h"
#include "weather/year.h"

/* All the room a making needs, in one block. */
struct making {
    struct made__daily days;
    struct made__hourly hours;
};

/* Years of one seed are far apart in the twister's seeds. */
static unsigned long seed_of(const struct dew_made *how)
{
    const unsigned long apart = 2654435761UL; /* of 2^32, [KNUTH3] 6.4 */

    return (how->seed + (unsigned long)how->number * apart) & 0xffffffffUL;
}

static void find_sun(const struct dew_site *site, struct making *m)
{
    for (int h = 0; h < MADE__YEAR_HOURS; h++) {
        int day = h / 24, month = made__month_of(day);
        struct dew_date date = {.month = month + 1,
                                .day = day - made__month_start[month] + 1,
                                .hour = h % 24 + 1};

        m->hours.sun[h] = dew_weather_sun(site, &date);
        m->days.beyond[day] += m->hours.sun[h].horizontal / 24.0;
    }
}

/* To the nearest step; the same on every machine that is right to 1e-9. */
static double rounded(double x, double per_unit)
{
    return round(x * per_unit) / per_unit;
}

static struct dew_hour hand_out(const struct making *m, int h)
{
    const struct made__hourly *from = &m->hours;
    struct dew_hour out = {
        .t = rounded(from->t[h], 100.0),
        .p = rounded(from->pressure[h], 0.1),
        .wind = rounded(from->wind[h], 100.0),
        .global = rounded(from->global[h], 1.0),
    };
    double td = rounded(from->td[h], 100.0);

    dew_weather_split(&from->sun[h], from->global[h], &out.direct,
                      &out.diffuse);
    out.sky = NAN; /* weather__year_sky sets it */
    out.direct = rounded(out.direct, 1.0);
    out.diffuse = rounded(out.diffuse, 1.0);
    out.w = dew_air_w_dew_liquid(td > out.t ? out.t : td, out.p);
    out.w = floor(out.w * 1e8) / 1e8; /* down: never above saturation */
    return out;
}

static enum dew_status fill(const struct dew_climate *place,
                            const struct dew_made *how, const struct making *m,
                            struct dew_year *year, struct dew_error *err)
{
    int64_t first =
        weather__days(WEATHER__TYPICAL, 1, 1) * WEATHER__DAY + WEATHER__HOUR;
    enum dew_status status = DEW_OK;

    year->site = place->site;
    memcpy(year->site.name, place->shown, sizeof year->site.name);
    for (int h = 0; h < MADE__YEAR_HOURS && status == DEW_OK; h++) {
        struct dew_hour hour = hand_out(m, h);

        status = weather__year_append(year, &hour, err);
    }
    if (status != DEW_OK)
        return status;
    weather__year_say(year, "made from monthly figures of %s%s%s, seed %lu",
                      place->site.id, place->site.id[0] != '\0' ? " " : "",
                      place->shown, how->seed);
    if (place->lent[0] != '\0')
        weather__year_say(year, "figures not given are those of %s",
                          place->lent);
    if (how->number > 0)
        weather__year_say(year, "year %d of many", how->number);
    status = weather__year_finish(year, first, 1, err);
    if (status == DEW_OK)
        weather__year_sky(year, m->hours.sun);
    return status;
}

static enum dew_status refuse(const struct dew_climate *place,
                              struct dew_error *err)
{
    struct dew_error first = {0};
    struct dew_faults faults = {&first, 1, 0};

    if (dew_climate_check(place, place->site.id, &faults) == 0)
        return DEW_OK;
    core__in(err, first.path);
    return core__fail(err, first.status, "%s", first.text);
}

enum dew_status dew_made_open(const struct dew_climate *place,
                              const struct dew_made *how,
                              struct dew_year **year, struct dew_error *err)
{
    struct core__random *random = NULL;
    struct making *m = NULL;
    enum dew_status status = refuse(place, err);

    *year = NULL;
    if (status != DEW_OK)
        return status;
    m = calloc(1, sizeof *m);
    if (m == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a made year");
    status = core__random_open(&random, seed_of(how), err);
    if (status == DEW_OK)
        status = weather__year_open(year, MADE__YEAR_HOURS, err);
    if (status == DEW_OK) {
        find_sun(&place->site, m);
        made__days(place, how->number == 0, random, &m->days);
        made__hours(place, &m->days, random, &m->hours);
        status = fill(place, how, m, *year, err);
    }
    if (status != DEW_OK) {
        dew_year_close(*year);
        *year = NULL;
    }
    core__random_close(random);
    free(m);
    return status;
}
