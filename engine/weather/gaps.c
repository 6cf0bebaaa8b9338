/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a file lacks and a march needs: hours left open are taken from another
 * year at the same month, day and hour; direct and diffuse light come from
 * global by the published split.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"
#include "dew/sun.h"
#include "weather/calendar.h"
#include "weather/year.h"

/* One filling. */
struct filling {
    struct dew_year *year;
    const struct dew_year *from; /* or NULL */
    struct dew_year_filled *filled;
    struct dew_error *err;
    size_t run; /* hours of air filled one after the other */
};

static enum dew_status refuse(const struct filling *f, size_t h,
                              const char *what)
{
    const struct dew_date *d = &f->year->dates[h];

    core__in(f->err, what);
    return core__fail(f->err, DEW_EMISSING,
                      "none in hour %zu, which ends on %04d-%02d-%02d at "
                      "%02d:00; name a place to fill it from, or mend the file",
                      h + 1, d->year, d->month, d->day, d->hour);
}

/* The same hour of the other year; 29 February is like the day before. */
static const struct dew_hour *same_hour(const struct filling *f, size_t h)
{
    struct dew_date d = f->year->dates[h];
    size_t i;

    if (f->from == NULL)
        return NULL;
    d.year = f->from->dates[0].year;
    if (d.month == 2 && d.day == 29 && f->from->count == 8760)
        d.day = 28;
    i = (size_t)((weather__moment_of(&d) -
                  weather__moment_of(&f->from->dates[0])) /
                 WEATHER__HOUR);
    return i < f->from->count ? &f->from->hours[i] : NULL;
}

/* A measured temperature stays; its humidity is then the other year's RH. */
static enum dew_status fill_air(struct filling *f, size_t h)
{
    struct dew_hour *to = &f->year->hours[h];
    const struct dew_hour *other;

    if (!isnan(to->t) && !isnan(to->w)) {
        f->run = 0;
        return DEW_OK;
    }
    other = same_hour(f, h);
    if (other == NULL)
        return refuse(f, h, isnan(to->t) ? "temperature" : "humidity");
    if (isnan(to->t)) {
        to->t = other->t;
        to->w = other->w;
    } else {
        to->w = dew_air_w_rh_liquid(
            to->t, dew_air_rh_liquid(other->t, other->w, other->p), to->p);
    }
    to->w = fmin(to->w, dew_air_w_dew_liquid(to->t, to->p));
    f->filled->air++;
    f->run++;
    if ((long)f->run > f->filled->longest)
        f->filled->longest = (long)f->run;
    return DEW_OK;
}

static enum dew_status fill_lane(struct filling *f, size_t h, double *to,
                                 const double *other, const char *what,
                                 long *filled)
{
    if (!isnan(*to))
        return DEW_OK;
    if (other == NULL)
        return refuse(f, h, what);
    *to = *other;
    ++*filled;
    return DEW_OK;
}

/* ---- light ------------------------------------------------------------------ */

static int needs_split(const struct dew_hour *h)
{
    return !isnan(h->global) && (isnan(h->direct) || isnan(h->diffuse));
}

/* Two of the three known give the third; global alone is split. */
static void part_light(struct filling *f, size_t h)
{
    struct dew_hour *to = &f->year->hours[h];
    struct dew_sun sun = dew_weather_sun(&f->year->site, &f->year->dates[h]);
    double sine = sun.horizontal / sun.normal;

    if (!isnan(to->direct))
        to->diffuse = fmax(0.0, to->global - to->direct * sine);
    else
        dew_weather_split(&sun, to->global, &to->direct, &to->diffuse);
    if (to->global > 0.0)
        f->filled->split++;
}

static enum dew_status fill_light(struct filling *f, size_t h)
{
    struct dew_hour *to = &f->year->hours[h];
    const struct dew_hour *other;

    if (needs_split(to)) {
        part_light(f, h);
        return DEW_OK;
    }
    if (!isnan(to->global) && !isnan(to->direct) && !isnan(to->diffuse))
        return DEW_OK;
    other = same_hour(f, h);
    if (other == NULL)
        return refuse(f, h, "global solar");
    to->global = other->global;
    to->direct = other->direct;
    to->diffuse = other->diffuse;
    f->filled->sun++;
    return DEW_OK;
}

/* ---- where the sun stands ------------------------------------------------------ */

/* The sun is followed only from a known place: ask for all that is not. */
static enum dew_status know_site(const struct dew_year *year,
                                 struct dew_error *err)
{
    const struct dew_site *s = &year->site;
    const struct {
        double value;
        const char *words;
    } rows[] = {{s->latitude, "latitude"},
                {s->longitude, "longitude"},
                {s->utc_offset, "the offset of standard time from UTC"}};
    char text[96] = "";
    size_t used = 0;

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (isnan(rows[i].value))
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%s",
                                     used > 0 ? " and " : "", rows[i].words);
    if (used == 0)
        return DEW_OK;
    core__in(err, "site");
    return core__fail(err, DEW_EMISSING,
                      "the file does not say %s: the sun cannot be followed "
                      "without",
                      text);
}

/* ---- all of it ---------------------------------------------------------------- */

static enum dew_status fill_hour(struct filling *f, size_t h)
{
    struct dew_hour *to = &f->year->hours[h];
    const struct dew_hour *other = same_hour(f, h);
    enum dew_status status;

    if (isnan(to->t) || isnan(to->w) || isnan(to->p) ||
        (isnan(to->global) && !weather__sky_of_file(f->year)))
        to->sky = NAN; /* to be set by what is filled now */
    status = fill_lane(f, h, &to->p, other != NULL ? &other->p : NULL,
                       "pressure", &f->filled->pressure);
    if (status == DEW_OK)
        status = fill_air(f, h);
    if (status == DEW_OK)
        status = fill_lane(f, h, &to->wind, other != NULL ? &other->wind : NULL,
                           "wind speed", &f->filled->wind);
    return status == DEW_OK ? fill_light(f, h) : status;
}

/* A file that does not say where it stands stands where it is filled from. */
static void borrow_site(struct dew_year *year, const struct dew_year *from)
{
    struct dew_site *s = &year->site;

    if (from == NULL || !isnan(s->latitude) || !isnan(s->longitude))
        return;
    s->latitude = from->site.latitude;
    s->longitude = from->site.longitude;
    if (isnan(s->utc_offset))
        s->utc_offset = from->site.utc_offset;
    if (isnan(s->elevation))
        s->elevation = from->site.elevation;
    weather__year_say(year, "its place taken to be that of %s %s",
                      from->site.id, from->site.name);
}

static void say_filled(struct dew_year *year, const struct dew_year *from,
                       const struct dew_year_filled *n)
{
    const struct {
        long hours;
        const char *what;
    } rows[] = {{n->air, "temperature or humidity"},
                {n->pressure, "pressure"},
                {n->wind, "wind"},
                {n->sun, "sunlight"}};
    char text[160] = "";
    size_t used = 0;

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].hours > 0)
            used += (size_t)snprintf(text + used, sizeof text - used,
                                     "%s%ld hours of %s", used > 0 ? ", " : "",
                                     rows[i].hours, rows[i].what);
    if (used > 0)
        weather__year_say(year, "%s filled from the year %s", text,
                          from->provenance);
    if (n->split > 0)
        weather__year_say(year,
                          "direct and diffuse light of %ld hours parted from "
                          "global",
                          n->split);
}

enum dew_status dew_year_complete(struct dew_year *year,
                                  const struct dew_year *from,
                                  struct dew_year_filled *filled,
                                  struct dew_error *err)
{
    struct filling f = {year, from, filled, err, 0};
    enum dew_status status = DEW_OK;

    memset(filled, 0, sizeof *filled);
    if (from != NULL && dew_year_whole(from, err) != DEW_OK)
        return DEW_EMISSING;
    borrow_site(year, from);
    status = know_site(year, err);
    for (size_t h = 0; h < year->count && status == DEW_OK; h++)
        status = fill_hour(&f, h);
    if (status == DEW_OK)
        weather__year_sky(year, NULL);
    if (status == DEW_OK)
        say_filled(year, from, filled);
    return status;
}
