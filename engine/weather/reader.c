/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/reader.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "weather/calendar.h"
#include "weather/year.h"

/* Ranges a reading must be in to be one, SI: records of the earth's surface
   with some room; the rows of struct dew_hour. */
static const struct range {
    double low, high;
    const char *text;
} ranges[WEATHER__LANES] = {
    [WEATHER__LANE_T] = {-70.0, 60.0, "-70 .. 60 degC"},
    [WEATHER__LANE_TD] = {-90.0, 40.0, "-90 .. 40 degC"},
    [WEATHER__LANE_RH] = {0.0, 105.0, "0 .. 105 %"},
    [WEATHER__LANE_TWB] = {-70.0, 45.0, "-70 .. 45 degC"},
    [WEATHER__LANE_W] = {0.0, 0.06, "0 .. 60 g/kg"},
    [WEATHER__LANE_P] = {50e3, 110e3, "500 .. 1100 hPa"},
    [WEATHER__LANE_WIND] = {0.0, 80.0, "0 .. 80 m/s"},
    [WEATHER__LANE_GLOBAL] = {-20.0, 1500.0, "0 .. 1500 W/m2"},
    [WEATHER__LANE_DIRECT] = {-20.0, 1500.0, "0 .. 1500 W/m2"},
    [WEATHER__LANE_DIFFUSE] = {-20.0, 1000.0, "0 .. 1000 W/m2"},
    [WEATHER__LANE_CLOUD] = {0.0, 1.0, "0 .. 100 %"},
    [WEATHER__LANE_INFRARED] = {50.0, 700.0, "50 .. 700 W/m2"},
    [WEATHER__LANE_CO2] = {0.0, 50e3, "0 .. 50000 ppm"},
};

const char *dew_notice_text(enum dew_notice_code code)
{
    static const char *const text[] = {
#define X(code, words) words,
        DEW_NOTICE_MAP(X)
#undef X
    };
    return (unsigned)code < DEW_NOTICE_COUNT ? text[code] : "unknown notice";
}

void weather__note(struct weather__reader *r, enum dew_notice_code code,
                   int line)
{
    struct dew_notice *n = &r->report->notices[code];

    if (n->count++ == 0)
        n->line = line;
}

enum dew_status weather__reader_error(struct weather__reader *r,
                                      const struct dew_error *err)
{
    if (r->status == DEW_OK)
        r->status = err->status;
    return core__fault(r->faults, err);
}

enum dew_status weather__reader_fault(struct weather__reader *r,
                                      enum dew_status status, const char *key,
                                      int line, int column, const char *format,
                                      ...)
{
    struct dew_error err = {0};
    char text[sizeof err.text];
    va_list args;

    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    core__at(&err, r->path, line, column);
    core__in(&err, key);
    core__fail(&err, status, "%s", text);
    return weather__reader_error(r, &err);
}

struct weather__sample *weather__reader_sample(struct weather__reader *r)
{
    struct weather__sample *s;

    if (r->count == r->room) {
        size_t room = r->room == 0 ? 8832 : r->room + r->room / 2;
        struct weather__sample *more = realloc(r->samples, room * sizeof *more);

        if (more == NULL) {
            weather__reader_fault(r, DEW_EMEM, "", 0, 0,
                                  "no memory for %zu rows", room);
            return NULL;
        }
        r->samples = more;
        r->room = room;
    }
    s = &r->samples[r->count++];
    memset(s, 0, sizeof *s);
    for (int i = 0; i < WEATHER__LANES; i++)
        s->lane[i] = NAN;
    return s;
}

/* Lanes that a run goes without. */
static int is_extra(enum weather__lane lane)
{
    return lane == WEATHER__LANE_CLOUD || lane == WEATHER__LANE_INFRARED;
}

/* RH whose unit is said comes as a share. */
static int is_share(const struct weather__reader *r, enum weather__lane lane)
{
    return lane == WEATHER__LANE_RH && !r->no_unit[lane];
}

static int in_range(const struct weather__reader *r, enum weather__lane lane,
                    double x)
{
    double percent = is_share(r, lane) ? 100.0 : 1.0;

    return x * percent >= ranges[lane].low && x * percent <= ranges[lane].high;
}

static int is_temperature(enum weather__lane lane)
{
    return lane == WEATHER__LANE_T || lane == WEATHER__LANE_TD ||
           lane == WEATHER__LANE_TWB;
}

/* x is outside: as which other unit of temperature would it not be? */
static void look_for_unit(const struct weather__reader *r,
                          enum weather__lane lane, double x,
                          struct weather__seen *seen)
{
    seen->outside++;
    if (!is_temperature(lane))
        return;
    seen->as_degf += in_range(r, lane, (x - 32.0) * 5.0 / 9.0);
    seen->as_k += in_range(r, lane, x - 273.15);
    seen->as_degc += in_range(r, lane, x + 273.15);
}

void weather__reader_put(struct weather__reader *r, struct weather__sample *s,
                         enum weather__lane lane, double x)
{
    struct weather__seen *seen = &r->seen[lane];

    if (r->no_unit[lane] && lane != WEATHER__LANE_RH) {
        s->lane[lane] = x; /* kept as written, to find out what fits */
        return;
    }
    if (lane == WEATHER__LANE_COOL || lane == WEATHER__LANE_FAN) {
        s->lane[lane] = x; /* judged as a share, when rows are told apart */
        return;
    }
    if (is_extra(lane) && !in_range(r, lane, x))
        return;
    if (!in_range(r, lane, x)) {
        look_for_unit(r, lane, x, seen);
        weather__note(r, DEW_NOTICE_RANGE, s->line);
        if (r->strict)
            weather__reader_fault(r, DEW_ERANGE, r->header[lane], s->line,
                                  r->cell[lane], "%.6g is outside %s",
                                  is_share(r, lane) ? x * 100.0 : x,
                                  ranges[lane].text);
        return;
    }
    seen->inside++;
    if (lane == WEATHER__LANE_RH && x > 1.5)
        r->over_one++;
    else if (lane == WEATHER__LANE_RH)
        r->to_one++;
    if (lane >= WEATHER__LANE_GLOBAL && x < 0.0)
        x = 0.0; /* a sensor's zero at night */
    s->lane[lane] = x;
}

static const char *likely_unit(const struct weather__seen *seen)
{
    long half = seen->outside / 2;

    return seen->as_degf > half   ? "degF"
           : seen->as_k > half    ? "K"
           : seen->as_degc > half ? "degC"
                                  : "right";
}

enum dew_status weather__reader_ranges(struct weather__reader *r)
{
    for (int i = 0; i <= WEATHER__LANE_W; i++) {
        const struct weather__seen *seen = &r->seen[i];

        if (seen->outside > seen->inside)
            weather__reader_fault(
                r, DEW_EUNIT, r->header[i], r->report->header_line, r->cell[i],
                "%ld of %ld values are outside %s: is the unit "
                "%s?",
                seen->outside, seen->outside + seen->inside, ranges[i].text,
                likely_unit(seen));
    }
    return r->status;
}

void weather__reader_took(struct weather__reader *r, const char *header,
                          const char *meaning, const char *unit)
{
    struct dew_column_taken *c;

    if (r->report->column_count == DEW_COLUMNS_TAKEN)
        return;
    c = &r->report->columns[r->report->column_count++];
    snprintf(c->header, sizeof c->header, "%s", header);
    snprintf(c->meaning, sizeof c->meaning, "%s", meaning);
    snprintf(c->unit, sizeof c->unit, "%s", unit);
}

int weather__reader_station(struct weather__reader *r, const char *id,
                            const char *name, int line)
{
    const char *asked = r->ask->station;
    int n = r->station_count;

    if (asked != NULL && strcmp(asked, id) != 0 &&
        !weather__same_words(asked, id) && !weather__same_words(asked, name)) {
        weather__note(r, DEW_NOTICE_STATION, line);
        return 0;
    }
    for (int i = n - 1; i >= 0; i--)
        if (strncmp(r->stations[i], id, WEATHER__ID_MAX - 1) == 0)
            return 1;
    if (n < WEATHER__STATIONS_MAX) {
        snprintf(r->stations[n], WEATHER__ID_MAX, "%s", id);
        r->station_count++;
    }
    return 1;
}

char *weather__moment_text(int64_t moment, int typical, char *out, size_t size)
{
    struct dew_date d;

    weather__date_of(moment, typical, &d);
    if (typical)
        snprintf(out, size, "%02d-%02d %02d:00", d.month, d.day, d.hour);
    else
        snprintf(out, size, "%04d-%02d-%02d %02d:00", d.year, d.month, d.day,
                 d.hour);
    return out;
}

/* A file of several stations and none asked for. */
static void ask_station(struct weather__reader *r)
{
    char list[160] = "";
    size_t n = 0;

    if (r->ask->station != NULL && r->station_count == 0)
        weather__reader_fault(r, DEW_EUNKNOWN, "station", 0, 0,
                              "no row is of station \"%s\"", r->ask->station);
    if (r->station_count < 2)
        return;
    for (int i = 0; i < r->station_count && n < sizeof list - 50; i++)
        n += (size_t)snprintf(list + n, sizeof list - n, "%s%s",
                              i > 0 ? ", " : "", r->stations[i]);
    weather__reader_fault(r, DEW_EAMBIGUOUS, "station", 0, 0,
                          "the file holds several stations (%s): say which",
                          list);
}

/* What the person says of the place goes over what the file says. */
static void settle_site(struct weather__reader *r)
{
    const struct dew_weather_ask *a = r->ask;

    if (!isnan(a->latitude))
        r->site.latitude = a->latitude;
    if (!isnan(a->longitude))
        r->site.longitude = a->longitude;
    if (!isnan(a->elevation))
        r->site.elevation = a->elevation;
    if (r->site.id[0] == '\0' && r->station_count > 0)
        snprintf(r->site.id, sizeof r->site.id, "%.23s", r->stations[0]);
}

static enum dew_status read_rows(struct weather__reader *r)
{
    struct dew_error err = {0};
    struct weather__lines in;
    int more = 0;

    if (weather__lines_open(&in, r->text, &err) == DEW_OK &&
        weather__lines_next(&in, &more, &err) == DEW_OK) {
        if (more && weather__isd_is(&in))
            weather__isd_read(r, &in);
        else
            weather__table_read(r, &in);
    } else {
        weather__reader_error(r, &err);
    }
    weather__lines_close(&in);
    if (r->status == DEW_OK && !r->strict)
        weather__reader_ranges(r);
    if (r->status == DEW_OK)
        ask_station(r);
    settle_site(r);
    return r->status;
}

static enum dew_status build(struct weather__reader *r, struct dew_year **year)
{
    struct dew_error err = {0};
    const char *name = strrchr(r->path, '/');

    if (weather__year_open(year, 8784, &err) != DEW_OK)
        return weather__reader_error(r, &err);
    if (weather__hours(r, *year) != DEW_OK)
        return r->status;
    (*year)->site = r->site;
    weather__year_sky(*year, NULL);
    if (r->provenance[0] != '\0') {
        weather__year_say(*year, "file %s, which says: %s",
                          name != NULL ? name + 1 : r->path, r->provenance);
    } else {
        weather__year_say(*year, "file %s", name != NULL ? name + 1 : r->path);
        weather__year_say(*year, "%s", r->report->method);
    }
    for (int i = DEW_NOTICE_JUMP; i < DEW_NOTICE_COUNT; i++)
        if (r->report->notices[i].count > 0)
            weather__year_say(*year, "%ld %s", r->report->notices[i].count,
                              dew_notice_text((enum dew_notice_code)i));
    return r->status;
}

enum dew_status dew_weather_parse(struct dew_year **year,
                                  const struct dew_text *text,
                                  const struct dew_weather_ask *ask,
                                  struct dew_weather_report *report,
                                  struct dew_faults *faults)
{
    struct dew_year *made = NULL;
    struct weather__reader r = {.path = text->name,
                                .text = text,
                                .ask = ask,
                                .report = report,
                                .faults = faults,
                                .site = {.latitude = NAN,
                                         .longitude = NAN,
                                         .elevation = NAN,
                                         .utc_offset = NAN}};

    *year = NULL;
    memset(report, 0, sizeof *report);
    if (read_rows(&r) == DEW_OK && weather__moments(&r) == DEW_OK) {
        weather__humid(&r);
        if (r.status == DEW_OK)
            build(&r, &made);
    }
    free(r.samples);
    if (r.status != DEW_OK) {
        dew_year_close(made);
        return r.status;
    }
    *year = made;
    return DEW_OK;
}

enum dew_status dew_weather_read(struct dew_year **year, const char *path,
                                 const struct dew_weather_ask *ask,
                                 struct dew_weather_report *report,
                                 struct dew_faults *faults)
{
    const struct dew_text text = {.name = path};

    return dew_weather_parse(year, &text, ask, report, faults);
}
