/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of places: walk, search by distance. */
#include "made/climate.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"
#include "dew/unit.h"

#define RAD (3.14159265358979323846 / 180.0) /* rad per deg */

enum { SITE_CELLS = 8 };

#define X(name, column, factor, offset, low, high, words)                      \
    {column, words, offsetof(struct dew_normal, name), factor, offset,         \
     low,    high},
const struct made__figure made__figures[] = {DEW_NORMAL_MAP(X)};
#undef X
const size_t made__figure_count =
    sizeof made__figures / sizeof made__figures[0];

double *made__figure_at(struct dew_normal *month, size_t figure)
{
    return (double *)(void *)((char *)month + made__figures[figure].offset);
}

size_t made__figure_of(const char *column)
{
    size_t f = 0;

    while (f < made__figure_count &&
           strcmp(made__figures[f].column, column) != 0)
        f++;
    return f;
}

const char *made__cut(const char *text, struct made__line *line)
{
    const char *start = text;

    for (line->count = 0; *text != '\0'; text++) {
        if (*text != ',' && *text != '\n')
            continue;
        line->cell[line->count] = start;
        line->length[line->count++] = (size_t)(text - start);
        start = text + 1;
        if (*text == '\n' || line->count == MADE__CELLS)
            return text + 1;
    }
    return text;
}

static double number(const struct made__line *line, size_t cell)
{
    double x = NAN;

    if (cell < line->count)
        dew_number_read(line->cell[cell], line->length[cell], &x);
    return x;
}

static void copy(const struct made__line *line, size_t cell, char *out,
                 size_t size)
{
    size_t n = 0;

    if (cell < line->count) {
        n = line->length[cell] < size ? line->length[cell] : size - 1;
        memcpy(out, line->cell[cell], n);
    }
    out[n] = '\0';
}

static void read_site(const struct made__line *line, struct dew_climate *out)
{
    copy(line, 0, out->site.id, sizeof out->site.id);
    copy(line, 1, out->site.name, sizeof out->site.name);
    made__place_name(out->site.name, out->shown, sizeof out->shown);
    copy(line, 2, out->state, sizeof out->state);
    out->site.latitude = number(line, 3);
    out->site.longitude = number(line, 4);
    out->site.elevation = number(line, 5);
    out->site.utc_offset = number(line, 6);
}

static void read_month(const struct made__line *line, struct dew_normal *month)
{
    for (size_t f = 0; f < made__figure_count; f++)
        *made__figure_at(month, f) =
            number(line, SITE_CELLS + f) * made__figures[f].factor +
            made__figures[f].shift;
}

/* First place: past the comment and the line of names. */
static const char *place_at(size_t at)
{
    const char *text = core__data_climates_csv + at;

    for (int line = 0; at == 0 && line < 2; line++)
        text = strchr(text, '\n') + 1;
    return text;
}

int made__climate_next(size_t *at, struct dew_climate *out, int months)
{
    const char *text = place_at(*at);
    struct made__line line;

    if (*text == '\0')
        return 0;
    memset(out, 0, sizeof *out);
    for (int m = 0; m < 12; m++) {
        if (m > 0 && !months) {
            text = strchr(text, '\n') + 1;
            continue;
        }
        text = made__cut(text, &line);
        if (m == 0)
            read_site(&line, out);
        if (months)
            read_month(&line, &out->month[m]);
    }
    *at = (size_t)(text - core__data_climates_csv);
    return 1;
}

int dew_climate_next(size_t *at, struct dew_climate *out)
{
    return made__climate_next(at, out, 1);
}

/* Great circle, m, by the haversine, which is exact near and far. */
static double between(double latitude, double longitude,
                      const struct dew_site *site)
{
    const double radius = 6371008.8; /* m  [MORITZ00] mean radius */
    double a = sin(0.5 * RAD * (site->latitude - latitude));
    double b = sin(0.5 * RAD * (site->longitude - longitude));
    double h = a * a + b * b * cos(RAD * latitude) * cos(RAD * site->latitude);

    return 2.0 * radius * asin(sqrt(fmin(1.0, h)));
}

/* Put n where it belongs among the *count nearest; a full list drops its last. */
static void rank(struct dew_nearby *list, size_t room, size_t *count,
                 const struct dew_nearby *n)
{
    size_t i = *count < room ? (*count)++ : room - 1;

    for (; i > 0 && list[i - 1].distance > n->distance; i--)
        list[i] = list[i - 1];
    list[i] = *n;
}

enum dew_status dew_climate_near(double latitude, double longitude,
                                 struct dew_nearby *list, size_t room,
                                 size_t *count, struct dew_error *err)
{
    struct dew_nearby n;
    size_t at = 0, found = 0;

    if (!(fabs(latitude) <= 90.0))
        return core__fail(err, DEW_ERANGE, "latitude %g is outside -90 .. 90",
                          latitude);
    if (!(fabs(longitude) <= 180.0))
        return core__fail(err, DEW_ERANGE,
                          "longitude %g is outside -180 .. 180", longitude);
    for (size_t before = 0; made__climate_next(&at, &n.place, 0); before = at) {
        n.distance = between(latitude, longitude, &n.place.site);
        if (found == room && list[room - 1].distance <= n.distance)
            continue;
        made__climate_next(&before, &n.place, 1);
        rank(list, room, &found, &n);
    }
    *count = found;
    return DEW_OK;
}
