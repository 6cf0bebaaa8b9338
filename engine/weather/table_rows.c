/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of a table, once it is known which cells are which. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "weather/calendar.h"
#include "weather/table.h"

/* ---- a number in a cell ----------------------------------------------------- */

static int is_missing(const char *text)
{
    static const char *const words[] = {
        "-",    "--",      "---",     "na",          "n/a",    "nan", "null",
        "none", "missing", "unknown", "unavailable", "m",      "mm",  "*",
        "**",   "***",     "****",    "?",           "vrb",    "t",   "nil",
        "#n/a", "inf",     ".",       "nodata",      "no data"};
    char low[16];
    size_t n = 0;

    for (; text[n] != '\0' && n < sizeof low - 1; n++)
        low[n] =
            (char)(text[n] >= 'A' && text[n] <= 'Z' ? text[n] + 32 : text[n]);
    low[n] = '\0';
    if (text[n] != '\0')
        return 0;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strcmp(low, words[i]) == 0)
            return 1;
    return n == 0;
}

/* Numbers that say "no number" in published files, whatever the unit. */
static int is_missing_number(double x)
{
    return x == -9900.0 || x == -9999.0 || x == -999.0 || x == -99999.0 ||
           x == 9999.0 || x == -999.9 || x == -9999.9;
}

/* The number's text with a point; a comma in a file whose separator is not a
   comma is decimal, and so is one that parts no group of three. */
static size_t read_number(const char *text, size_t n, char delimiter, double *x)
{
    const char *comma;
    char copy[64];
    size_t used = delimiter == ',' ? dew_number_read(text, n, x) : 0;

    if (used > 0 && used == n)
        return used;
    comma = memchr(text, ',', n);
    if (comma == NULL || n >= sizeof copy ||
        (delimiter == ',' && text + n - comma == 4))
        return dew_number_read(text, n, x);
    memcpy(copy, text, n);
    copy[n] = '\0';
    copy[comma - text] = '.';
    used = dew_number_read(copy, n, x);
    return used;
}

enum weather__cell_kind weather__cell_number(const char *text, char delimiter,
                                             double *x)
{
    size_t n, used;
    double value;

    while (*text == ' ' || *text == '\t')
        text++;
    n = strlen(text);
    while (n > 0 && (text[n - 1] == ' ' || text[n - 1] == '\t'))
        n--;
    used = read_number(text, n, delimiter, &value);
    if (used == 0)
        return is_missing(text) ? WEATHER__CELL_MISSING : WEATHER__CELL_BAD;
    if (is_missing_number(value))
        return WEATHER__CELL_MISSING;
    if (used < n) /* a mark behind: "0.06s", "30*" */
        return n - used <= 2 ? WEATHER__CELL_FLAGGED : WEATHER__CELL_BAD;
    *x = value;
    return WEATHER__CELL_NUMBER;
}

static double plain_number(const struct weather__table *t,
                           const struct weather__column *c)
{
    double x = NAN;

    if (c == NULL ||
        weather__cell_number(weather__cell(&t->cells, (size_t)c->cell),
                             t->delimiter, &x) != WEATHER__CELL_NUMBER)
        return NAN;
    return x;
}

/* ---- time --------------------------------------------------------------------- */

static const char *cell_at(const struct weather__table *t, int cell)
{
    return cell < 0 ? "" : weather__cell(&t->cells, (size_t)cell);
}

static int has_parts(const struct weather__table *t)
{
    return t->part[0] >= 0 && t->part[1] >= 0 && t->part[2] >= 0 &&
           t->part[3] >= 0;
}

/* Look at one row: which cells hold the time.  UTC is preferred. */
static void plan_time(struct weather__table *t)
{
    struct weather__time_plan p = {0, -1, -1, -1, 0, -1, 0};
    struct weather__stamp s;
    int utc = -1;

    for (int i = 0; i < t->time_count; i++) {
        int cell = t->times[i];

        if (!weather__stamp_read(cell_at(t, cell), &s))
            continue;
        if (s.has_date && s.has_clock && s.has_zone && utc < 0)
            utc = cell;
        else if (s.has_date && s.has_clock && p.whole < 0)
            p.whole = cell;
        else if (s.has_date && !s.has_clock && p.date < 0)
            p.date = cell;
        else if (!s.has_date && s.has_clock && p.clock < 0)
            p.clock = cell;
    }
    if (utc >= 0) {
        p.local = p.whole;
        p.local_parts = p.whole < 0 && has_parts(t);
        p.whole = utc;
    }
    p.parts = p.whole < 0 && has_parts(t) && (p.date < 0 || p.clock < 0);
    p.known = p.whole >= 0 || p.parts || (p.date >= 0 && p.clock >= 0) ||
              (p.date >= 0 && t->part[3] >= 0);
    t->plan = p;
    t->r->time_cell = (p.whole >= 0        ? p.whole
                       : p.parts           ? t->part[0]
                       : p.date >= 0       ? p.date
                       : t->time_count > 0 ? t->times[0]
                                           : 0) +
                      1;
}

static int whole_number(const char *text, int low, int high, int *x)
{
    double value;

    if (weather__cell_number(text, ',', &value) != WEATHER__CELL_NUMBER ||
        value != floor(value) || value < low || value > high)
        return 0;
    *x = (int)value;
    return 1;
}

static int hour_cell(const struct weather__table *t, struct weather__stamp *s)
{
    int hour, minute = 0;

    if (!whole_number(cell_at(t, t->part[3]), 0, 24, &hour))
        return 0;
    if (t->part[4] >= 0 &&
        !whole_number(cell_at(t, t->part[4]), 0, 59, &minute))
        return 0;
    s->seconds = hour * WEATHER__HOUR + minute * WEATHER__MINUTE;
    s->has_clock = 1;
    return s->seconds <= WEATHER__DAY;
}

static int parts_stamp(const struct weather__table *t, struct weather__stamp *s)
{
    memset(s, 0, sizeof *s);
    s->ordered = s->has_date = 1;
    return whole_number(cell_at(t, t->part[0]), 1, 9999, &s->year) &&
           whole_number(cell_at(t, t->part[1]), 1, 12, &s->a) &&
           whole_number(cell_at(t, t->part[2]), 1, 31, &s->b) &&
           s->b <= weather__month_days(s->year, s->a) && hour_cell(t, s);
}

static int read_stamp(const struct weather__table *t, struct weather__stamp *s)
{
    const struct weather__time_plan *p = &t->plan;
    struct weather__stamp clock;

    if (p->whole >= 0)
        return weather__stamp_read(cell_at(t, p->whole), s) && s->has_date &&
               s->has_clock;
    if (p->parts)
        return parts_stamp(t, s);
    if (!weather__stamp_read(cell_at(t, p->date), s) || !s->has_date)
        return 0;
    if (p->clock < 0)
        return hour_cell(t, s);
    if (!weather__stamp_read(cell_at(t, p->clock), &clock) ||
        !clock.has_clock || clock.has_date)
        return 0;
    s->has_clock = 1;
    s->seconds = clock.seconds;
    s->has_zone = clock.has_zone;
    s->zone = clock.zone;
    return 1;
}

static int64_t as_moment(const struct weather__stamp *s)
{
    return weather__days(s->year, s->a, s->b) * WEATHER__DAY;
}

/* Which of two small numbers is the month: a row with a day above 12 tells. */
static void place_day(struct weather__reader *r, struct weather__stamp *s,
                      struct weather__sample *out)
{
    if (!s->ordered && s->a > 12) {
        int day = s->a;

        s->a = s->b;
        s->b = day;
        if (r->day_first == 0)
            r->day_first = out->line;
    } else if (!s->ordered && s->b > 12) {
        if (r->month_first == 0)
            r->month_first = out->line;
    } else {
        out->swaps = !s->ordered && s->a != s->b;
    }
    out->moment = as_moment(s);
    out->seconds = s->seconds;
    out->has_zone = (uint8_t)s->has_zone;
    out->zone = s->zone;
}

/* The local clock beside a UTC one: how far apart the two are. */
static void place_local(const struct weather__table *t,
                        struct weather__sample *out)
{
    struct weather__stamp s;
    int found = t->plan.local >= 0
                    ? weather__stamp_read(cell_at(t, t->plan.local), &s) &&
                          s.has_date && s.has_clock && s.ordered
                    : t->plan.local_parts && parts_stamp(t, &s);

    if (!found)
        return;
    out->has_local = 1;
    out->local = (int32_t)(as_moment(&s) + s.seconds -
                           (out->moment + out->seconds - out->zone));
}

int weather__table_time(struct weather__table *t, struct weather__sample *out)
{
    struct weather__stamp s;

    if (!t->plan.known)
        plan_time(t);
    if (!t->plan.known || !read_stamp(t, &s))
        return 0;
    place_day(t->r, &s, out);
    if (t->plan.local >= 0 || t->plan.local_parts)
        place_local(t, out);
    if (t->r->first_date[0] == '\0')
        snprintf(t->r->first_date, sizeof t->r->first_date, "%s",
                 cell_at(t, t->r->time_cell - 1));
    return 1;
}

/* ---- values -------------------------------------------------------------------- */

static void bad_cell(struct weather__table *t, enum weather__lane lane,
                     const char *text)
{
    struct weather__reader *r = t->r;
    const struct dew_unit *unit = t->lane[lane]->unit;

    weather__note(r, DEW_NOTICE_NOT_NUMBER, t->in->line);
    if (r->bad_value_line == 0) {
        r->bad_value_line = t->in->line;
        r->bad_value_cell = r->cell[lane];
        snprintf(r->bad_value, sizeof r->bad_value, "%s", text);
    }
    if (r->strict)
        weather__reader_fault(r, DEW_ESYNTAX, r->header[lane], t->in->line,
                              r->cell[lane],
                              "\"%.40s\" is not a number; a number in %s would "
                              "be, or -9900 where there is none",
                              text, unit != NULL ? unit->name : "its unit");
}

/* Returns 1 when the lane got a value. */
static int read_lane(struct weather__table *t, enum weather__lane lane,
                     struct weather__sample *s)
{
    const struct weather__column *c = t->lane[lane];
    const char *text = weather__cell(&t->cells, (size_t)c->cell);
    double x;

    switch (weather__cell_number(text, t->delimiter, &x)) {
    case WEATHER__CELL_NUMBER:
        if (c->unit != NULL)
            x = x * c->unit->factor + c->unit->offset;
        weather__reader_put(t->r, s, lane, x);
        break;
    case WEATHER__CELL_MISSING:
        if (lane <= WEATHER__LANE_W && *text != '\0')
            weather__note(t->r, DEW_NOTICE_MISSING, t->in->line);
        break;
    case WEATHER__CELL_FLAGGED:
        weather__note(t->r, DEW_NOTICE_FLAGGED, t->in->line);
        break;
    default:
        bad_cell(t, lane, text);
    }
    return !isnan(s->lane[lane]);
}

/* ---- rows ----------------------------------------------------------------------- */

/* Rows that sum up a day or a month, and reports that repeat an hourly one:
   the report types of [NOAA-LCD1]. */
static int is_summary(const char *type)
{
    return strncmp(type, "SOD", 3) == 0 || strncmp(type, "SOM", 3) == 0;
}

static int other_row(struct weather__table *t)
{
    const char *id, *name;

    if (t->report != NULL &&
        is_summary(weather__cell(&t->cells, (size_t)t->report->cell))) {
        weather__note(t->r, DEW_NOTICE_SUMMARY, t->in->line);
        return 1;
    }
    if (t->station == NULL)
        return 0;
    id = weather__cell(&t->cells, (size_t)t->station->cell);
    name =
        t->name != NULL ? weather__cell(&t->cells, (size_t)t->name->cell) : "";
    return !weather__reader_station(t->r, id, name, t->in->line);
}

static void site_from_row(struct weather__table *t)
{
    struct dew_site *s = &t->r->site;
    const struct dew_unit *unit =
        t->elevation != NULL ? t->elevation->unit : NULL;

    if (isnan(s->latitude))
        s->latitude = plain_number(t, t->latitude);
    if (isnan(s->longitude))
        s->longitude = plain_number(t, t->longitude);
    if (isnan(s->elevation))
        s->elevation =
            plain_number(t, t->elevation) * (unit != NULL ? unit->factor : 1.0);
    if (s->name[0] == '\0' && t->name != NULL)
        snprintf(s->name, sizeof s->name, "%s",
                 weather__cell(&t->cells, (size_t)t->name->cell));
}

static void no_time(struct weather__table *t)
{
    struct weather__reader *r = t->r;

    weather__note(r, DEW_NOTICE_NO_TIME, t->in->line);
    if (r->bad_time_line == 0) {
        r->bad_time_line = t->in->line;
        snprintf(r->bad_time, sizeof r->bad_time, "%s",
                 cell_at(t, r->time_cell - 1));
    }
    if (r->strict)
        weather__reader_fault(
            r, DEW_ESYNTAX, "time", t->in->line, r->time_cell,
            "\"%.40s\" is no time of a day; 2020-01-31 13:00 or "
            "1/31/2020 and 13:00 would be",
            cell_at(t, r->time_cell - 1));
}

static enum dew_status read_row(struct weather__table *t)
{
    struct weather__reader *r = t->r;
    struct weather__sample *s;
    int values = 0;

    if (t->cells.count == 0 || other_row(t))
        return DEW_OK;
    s = weather__reader_sample(r);
    if (s == NULL)
        return r->status;
    s->line = t->in->line;
    if (!weather__table_time(t, s)) {
        no_time(t);
        r->count--;
        return DEW_OK;
    }
    for (int i = 0; i < WEATHER__LANES; i++)
        if (t->lane[i] != NULL)
            values += read_lane(t, (enum weather__lane)i, s) &&
                      i != WEATHER__LANE_CLOUD && i != WEATHER__LANE_INFRARED;
    if (values == 0) {
        weather__note(r, DEW_NOTICE_EMPTY, t->in->line);
        r->count -= !r->strict;
        return DEW_OK;
    }
    s->synoptic = t->report != NULL &&
                  strncmp(weather__cell(&t->cells, (size_t)t->report->cell),
                          "FM-12", 5) == 0;
    r->hourly += !s->synoptic;
    if (r->count == 1)
        site_from_row(t);
    return DEW_OK;
}

/* A line that cannot be split: a fault where order is kept, else left out. */
static enum dew_status broken_row(struct weather__table *t,
                                  const struct dew_error *err)
{
    weather__note(t->r, DEW_NOTICE_BROKEN, t->in->line);
    if (t->r->strict || err->status == DEW_EMEM)
        weather__reader_error(t->r, err);
    return err->status == DEW_EMEM ? DEW_EMEM : DEW_OK;
}

enum dew_status weather__table_rows(struct weather__table *t)
{
    enum dew_status status = DEW_OK;
    int more = 1;

    while (status == DEW_OK) {
        struct dew_error err = {0};

        if (weather__lines_next(t->in, &more, &err) != DEW_OK)
            return weather__reader_error(t->r, &err);
        if (!more)
            break;
        if (t->in->length == 0)
            continue;
        t->r->report->rows++;
        if (weather__cells_split(&t->cells, t->in, t->delimiter, &err) !=
            DEW_OK)
            status = broken_row(t, &err);
        else
            status = read_row(t);
    }
    return t->r->status;
}
