/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Integrated surface data, fixed width: the control and mandatory sections and
 * the MA1 group of station pressure, by the positions of [NOAA-ISD].  Time is
 * UTC; a 9 in every digit is a missing value; a quality code of 2, 3, 6 or 7
 * is a suspect or wrong one.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "weather/calendar.h"
#include "weather/reader.h"

/* Positions count from 0 here, from 1 in the document. */
enum {
    ID_AT = 4,
    DATE_AT = 15,
    LATITUDE_AT = 28,
    LONGITUDE_AT = 34,
    TYPE_AT = 41,
    ELEVATION_AT = 46,
    CALL_AT = 51,
    WIND_AT = 65,
    T_AT = 87,
    TD_AT = 93,
    SEA_AT = 99,
    MANDATORY = 105
};

static int all_digits(const char *text, size_t n)
{
    return strspn(text, "0123456789") >= n;
}

int weather__isd_is(const struct weather__lines *in)
{
    const char *text = in->text;

    return in->length >= MANDATORY && all_digits(text, 4) &&
           all_digits(text + DATE_AT, 12) &&
           strchr("+-", text[LATITUDE_AT]) != NULL &&
           all_digits(text + LATITUDE_AT + 1, 5) &&
           strchr("+-", text[LONGITUDE_AT]) != NULL &&
           all_digits(text + LONGITUDE_AT + 1, 6);
}

/* n characters at from: a sign and digits.  0 when they are not. */
static int number_at(const char *text, int from, int n, double *x)
{
    char copy[12];
    double value;

    snprintf(copy, sizeof copy, "%.*s", n, text + from);
    if (dew_number_read(copy, (size_t)n, &value) != (size_t)n)
        return 0;
    *x = value;
    return 1;
}

/* One field with its scale, its value for missing, and its quality code. */
struct field {
    int at, length;
    double scale, missing;
    enum weather__lane lane;
};

static void put_field(struct weather__reader *r, struct weather__sample *s,
                      const char *text, const struct field *f)
{
    char quality = text[f->at + f->length];
    double x;

    if (!number_at(text, f->at, f->length, &x)) {
        weather__note(r, DEW_NOTICE_NOT_NUMBER, s->line);
        return;
    }
    if (fabs(x) == f->missing) {
        if (f->lane <= WEATHER__LANE_TD)
            weather__note(r, DEW_NOTICE_MISSING, s->line);
        return;
    }
    if (strchr("2367", quality) != NULL) {
        weather__note(r, DEW_NOTICE_FLAGGED, s->line);
        return;
    }
    weather__reader_put(r, s, f->lane, x * f->scale);
}

/* Group MA1: altimeter setting, its code, station pressure, its code. */
static void put_pressure(struct weather__reader *r, struct weather__sample *s,
                         const char *text, size_t length)
{
    const struct field station = {9, 5, 10.0, 99999.0, WEATHER__LANE_P};
    const char *group = strstr(text + MANDATORY, "MA1");
    double altimeter;

    if (group == NULL || (size_t)(group - text) + 15 > length)
        return;
    put_field(r, s, group, &station);
    if (!isnan(s->lane[WEATHER__LANE_P]) || isnan(r->site.elevation) ||
        !number_at(group, 3, 5, &altimeter) || altimeter == 99999.0)
        return;
    weather__reader_put(r, s, WEATHER__LANE_P, altimeter * 10.0);
    if (!isnan(s->lane[WEATHER__LANE_P]))
        s->lane[WEATHER__LANE_P] *= -1.0; /* below zero: still at sea level */
}

static void read_site(struct weather__reader *r, const char *text)
{
    struct dew_site *s = &r->site;
    double x;

    snprintf(s->id, sizeof s->id, "%.11s", text + ID_AT);
    snprintf(s->name, sizeof s->name, "%.5s", text + CALL_AT);
    s->name[strcspn(s->name, " 9")] = '\0';
    if (number_at(text, LATITUDE_AT, 6, &x) && x != 99999.0)
        s->latitude = x / 1000.0;
    if (number_at(text, LONGITUDE_AT, 7, &x) && x != 999999.0)
        s->longitude = x / 1000.0;
    if (number_at(text, ELEVATION_AT, 5, &x) && x != 9999.0)
        s->elevation = x;
}

static int other_row(struct weather__reader *r, const char *text, int line)
{
    char id[12];

    if (strncmp(text + TYPE_AT, "SOD", 3) == 0 ||
        strncmp(text + TYPE_AT, "SOM", 3) == 0) {
        weather__note(r, DEW_NOTICE_SUMMARY, line);
        return 1;
    }
    snprintf(id, sizeof id, "%.11s", text + ID_AT);
    return !weather__reader_station(r, id, "", line);
}

static enum dew_status read_row(struct weather__reader *r,
                                const struct weather__lines *in)
{
    static const struct field fields[] = {
        {WIND_AT, 4, 0.1, 9999.0, WEATHER__LANE_WIND},
        {T_AT, 5, 0.1, 9999.0, WEATHER__LANE_T},
        {TD_AT, 5, 0.1, 9999.0, WEATHER__LANE_TD},
    };
    struct weather__stamp stamp;
    struct weather__sample *s;
    char time[13];

    snprintf(time, sizeof time, "%.12s", in->text + DATE_AT);
    if (!weather__stamp_read(time, &stamp)) {
        weather__note(r, DEW_NOTICE_NO_TIME, in->line);
        return DEW_OK;
    }
    s = weather__reader_sample(r);
    if (s == NULL)
        return r->status;
    s->line = in->line;
    s->moment = weather__days(stamp.year, stamp.a, stamp.b) * WEATHER__DAY;
    s->seconds = stamp.seconds;
    s->has_zone = 1;
    s->synoptic = strncmp(in->text + TYPE_AT, "FM-12", 5) == 0;
    r->hourly += !s->synoptic;
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
        put_field(r, s, in->text, &fields[i]);
    put_pressure(r, s, in->text, in->length);
    return DEW_OK;
}

static void took(struct weather__reader *r)
{
    static const enum weather__lane lanes[] = {
        WEATHER__LANE_T, WEATHER__LANE_TD, WEATHER__LANE_WIND, WEATHER__LANE_P};

    for (size_t i = 0; i < sizeof lanes / sizeof lanes[0]; i++)
        r->has[lanes[i]] = 1;
    snprintf(r->header[WEATHER__LANE_T], sizeof r->header[WEATHER__LANE_T],
             "temperature");
    r->cell[WEATHER__LANE_T] = T_AT + 1;
    weather__reader_took(r, "characters 88-92", "temperature", "0.1 degC");
    weather__reader_took(r, "characters 94-98", "dew point", "0.1 degC");
    weather__reader_took(r, "characters 66-69", "wind speed", "0.1 m/s");
    weather__reader_took(r, "group MA1", "pressure", "0.1 hPa");
    snprintf(r->report->format, sizeof r->report->format,
             "fixed-width surface observations");
    snprintf(r->report->units_by, sizeof r->report->units_by,
             "NOAA integrated surface data [NOAA-ISD]");
}

enum dew_status weather__isd_read(struct weather__reader *r,
                                  struct weather__lines *in)
{
    enum dew_status status = DEW_OK;
    int more = 1;

    took(r);
    r->time_cell = DATE_AT + 1;
    while (status == DEW_OK && more) {
        struct dew_error err = {0};

        r->report->rows++;
        if (!weather__isd_is(in)) {
            weather__note(r, DEW_NOTICE_BROKEN, in->line);
        } else if (!other_row(r, in->text, in->line)) {
            if (isnan(r->site.latitude))
                read_site(r, in->text);
            status = read_row(r, in);
        }
        if (weather__lines_next(in, &more, &err) != DEW_OK)
            return weather__reader_error(r, &err);
    }
    return r->status;
}
