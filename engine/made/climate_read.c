/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A place that a person typed: reading it, and every fault in it. */
#include <csv.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"
#include "dew/unit.h"
#include "made/climate.h"

enum { CELLS = 32, CELL_SIZE = 64, IGNORED = -1 };

/* Columns besides the figures, which stand behind them. */
/* clang-format off */
enum {
    ID, NAME, STATE, LAT, LON, ELEVATION, OFFSET, MONTH, RH, SITE_COLUMNS,
    BEFORE_FIGURES = SITE_COLUMNS - 1,
#define X(name, column, factor, offset, low, high, words) IS_##name,
    DEW_NORMAL_MAP(X)
#undef X
    COLUMNS
};
static const struct column {
    const char *name;
    int needed;
    double low, high;
} columns[COLUMNS] = {
    [ID]        = {"station",      0,    0.0,    0.0},
    [NAME]      = {"name",         0,    0.0,    0.0},
    [STATE]     = {"state",        0,    0.0,    0.0},
    [LAT]       = {"lat_deg",      1,  -90.0,   90.0},
    [LON]       = {"lon_deg",      1, -180.0,  180.0},
    [ELEVATION] = {"elevation_m",  1, -500.0, 6000.0},
    [OFFSET]    = {"utc_offset_h", 1,  -12.0,   14.0},
    [MONTH]     = {"month",        1,    1.0,   12.0},
    [RH]        = {"rh_mean_pct",  0,    1.0,  100.0},
#define X(name, column, factor, offset, low, high, words)                      \
    [IS_##name] = {column, 0, low, high},
    DEW_NORMAL_MAP(X)
#undef X
};
/* clang-format on */

/* What one pass over the text knows. */
struct reading {
    struct csv_parser csv;
    char cell[CELLS][CELL_SIZE];
    int cells;
    int column[CELLS]; /* of each cell: site column, SITE_COLUMNS + figure   */
    int columns;
    const char *source;
    int line;
    int rows[12]; /* how often each month came                               */
    int month;    /* of this row, from 0                                     */
    double rh[12];
    unsigned char given[CELLS]; /* of each figure: there is a column         */
    int has_rh;
    struct dew_climate climate;
    struct dew_faults *faults;
    enum dew_status status; /* the first fault's                             */
};

static void tell(struct dew_faults *faults, struct dew_error *err,
                 enum dew_status status, const char *path, const char *text)
{
    core__in(err, path);
    core__fail(err, status, "%s", text);
    core__fault(faults, err);
}

static void fault(struct reading *r, enum dew_status status, int cell,
                  const char *path, const char *text)
{
    struct dew_error err = {0};

    core__at(&err, r->source, r->line, cell);
    tell(r->faults, &err, status, path, text);
    if (r->status == DEW_OK)
        r->status = status;
}

static int column_of(const char *name)
{
    for (int c = 0; c < COLUMNS; c++)
        if (strcmp(name, columns[c].name) == 0)
            return c;
    return IGNORED;
}

static void take_cell(void *data, size_t size, void *to)
{
    struct reading *r = to;

    if (r->cells < CELLS) {
        size_t n = size < CELL_SIZE ? size : CELL_SIZE - 1;

        memcpy(r->cell[r->cells], data, n);
        r->cell[r->cells][n] = '\0';
    }
    r->cells++;
}

/* The highest, the lowest and something of the humidity: all else can be
   lent. */
static int is_needed(const struct reading *r, int c)
{
    return columns[c].needed || c == IS_t_max || c == IS_t_min ||
           (c == IS_td && !r->has_rh);
}

/* The line of names; columns stays 0 when the reading cannot go on. */
static void take_names(struct reading *r)
{
    int seen[COLUMNS] = {0};
    int missing = 0;

    for (int i = 0; i < r->cells && i < CELLS; i++) {
        r->column[i] = column_of(r->cell[i]);
        if (r->column[i] == IGNORED)
            continue;
        if (seen[r->column[i]]++ > 0) {
            fault(r, DEW_EAMBIGUOUS, i + 1, r->cell[i],
                  "this column is there twice");
            missing = 1;
        }
    }
    for (size_t f = 0; f < made__figure_count; f++)
        r->given[f] = seen[SITE_COLUMNS + f] > 0;
    r->has_rh = seen[RH] > 0;
    for (int c = 0; c < COLUMNS; c++)
        if (seen[c] == 0 && is_needed(r, c)) {
            fault(r, DEW_EMISSING, 1, columns[c].name,
                  c == IS_td ? "this column is absent; rh_mean_pct would do"
                             : "this column is absent");
            missing = 1;
        }
    r->columns = missing ? -1 : r->cells;
}

/* A number of column c within its range, or NaN and a fault. */
static double take_number(struct reading *r, int cell, int c)
{
    const char *text = r->cell[cell];
    double low = columns[c].low, high = columns[c].high;
    char words[160];
    double x;

    if (dew_number_read(text, strlen(text), &x) != strlen(text) ||
        *text == '\0') {
        snprintf(words, sizeof words, "\"%.40s\" is not a number", text);
        fault(r, DEW_ESYNTAX, cell + 1, columns[c].name, words);
        return NAN;
    }
    if (!(x >= low && x <= high)) {
        snprintf(words, sizeof words, "%.40s is outside %g .. %g", text, low,
                 high);
        fault(r, DEW_ERANGE, cell + 1, columns[c].name, words);
        return NAN;
    }
    return x;
}

static void take_site(struct reading *r, int cell, int c)
{
    struct dew_site *s = &r->climate.site;
    double *const place[] = {
        [LAT] = &s->latitude,
        [LON] = &s->longitude,
        [ELEVATION] = &s->elevation,
        [OFFSET] = &s->utc_offset,
    };

    if (c == ID)
        snprintf(s->id, sizeof s->id, "%.23s", r->cell[cell]);
    else if (c == NAME)
        snprintf(s->name, sizeof s->name, "%.63s", r->cell[cell]);
    else if (c == STATE)
        snprintf(r->climate.state, sizeof r->climate.state, "%.3s",
                 r->cell[cell]);
    else if (c == RH)
        r->rh[r->month] = take_number(r, cell, c) / 100.0;
    else if (c != MONTH)
        *place[c] = take_number(r, cell, c);
}

/* Which month the line is, from 0; -1 with a fault when it is none. */
static int month_of(struct reading *r)
{
    for (int i = 0; i < r->cells; i++)
        if (r->column[i] == MONTH) {
            double m = take_number(r, i, MONTH);

            if (m == floor(m))
                return (int)m - 1;
            if (!isnan(m))
                fault(r, DEW_ERANGE, i + 1, "month", "not a whole number");
        }
    return -1;
}

static void take_month(struct reading *r)
{
    int month;

    if (r->cells != r->columns) {
        fault(r, DEW_ESYNTAX, 1, "", "this row has not as many cells as names");
        return;
    }
    month = r->month = month_of(r);
    if (month < 0)
        return;
    if (r->rows[month]++ > 0)
        fault(r, DEW_EAMBIGUOUS, 1, "month",
              "a second row for this month: one place a file");
    for (int i = 0; i < r->cells; i++) {
        int c = r->column[i];

        if (c >= SITE_COLUMNS) {
            size_t f = (size_t)(c - SITE_COLUMNS);

            *made__figure_at(&r->climate.month[month], f) =
                take_number(r, i, c) * made__figures[f].factor +
                made__figures[f].shift;
        } else if (c != IGNORED) {
            take_site(r, i, c);
        }
    }
}

/* One physical line, so that line numbers are exact. */
static void take_line(struct reading *r, const char *text, size_t size)
{
    while (size > 0 && (text[size - 1] == '\r' || text[size - 1] == ' '))
        size--;
    if (size == 0 || *text == '#')
        return;
    r->cells = 0;
    if (csv_parse(&r->csv, text, size, take_cell, NULL, r) != size ||
        csv_fini(&r->csv, take_cell, NULL, r) != 0) {
        fault(r, DEW_ESYNTAX, 1, "", csv_strerror(csv_error(&r->csv)));
        return;
    }
    if (r->cells > CELLS)
        fault(r, DEW_ESYNTAX, 1, "", "more than 32 cells");
    else if (r->columns == 0)
        take_names(r);
    else
        take_month(r);
}

static void read_lines(struct reading *r, const char *text, size_t size)
{
    size_t at = 0;

    if (size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0)
        at = 3; /* byte order mark */
    while (at < size && r->columns >= 0) {
        const char *end = memchr(text + at, '\n', size - at);
        size_t length = end != NULL ? (size_t)(end - text) - at : size - at;

        r->line++;
        take_line(r, text + at, length);
        at += length + 1;
    }
}

/* A mean temperature and dew point that follow from others, then what has to
   be lent. */
static void complete(struct reading *r)
{
    size_t t = made__figure_of("t_mean_c"), td = made__figure_of("td_mean_c");

    for (int m = 0; m < 12; m++) {
        struct dew_normal *n = &r->climate.month[m];

        if (!r->given[t])
            n->t = 0.5 * (n->t_max + n->t_min);
        if (!r->given[td])
            n->td = dew_air_t_pws_liquid(r->rh[m] * dew_air_pws_liquid(n->t));
    }
    r->given[t] = r->given[td] = 1;
    if (r->climate.site.name[0] == '\0')
        snprintf(r->climate.site.name, sizeof r->climate.site.name,
                 "unnamed place");
    memcpy(r->climate.shown, r->climate.site.name, sizeof r->climate.shown);
    made__climate_lend(&r->climate, r->given);
}

enum dew_status dew_climate_read(const char *text, size_t size,
                                 const char *source, struct dew_climate *out,
                                 struct dew_faults *faults)
{
    struct reading r = {.source = source, .faults = faults};
    size_t before = faults != NULL ? faults->count : 0;

    if (csv_init(&r.csv, CSV_STRICT | CSV_STRICT_FINI) != 0)
        return DEW_EMEM;
    read_lines(&r, text, size);
    csv_free(&r.csv);
    r.line = 0;
    for (int m = 0; r.columns >= 0 && m < 12; m++)
        if (r.rows[m] == 0) {
            char words[40];

            snprintf(words, sizeof words, "no row for month %d", m + 1);
            fault(&r, DEW_EMISSING, 0, "month", words);
        }
    if (r.status != DEW_OK)
        return r.status;
    complete(&r);
    if (dew_climate_check(&r.climate, source, faults) > 0)
        return faults != NULL && before < faults->room
                   ? faults->list[before].status
                   : DEW_ERANGE;
    *out = r.climate;
    return DEW_OK;
}

/* Checking ---------------------------------------------------------------- */

struct checking {
    const char *source;
    struct dew_faults *faults;
    size_t count;
};

static void complain(struct checking *c, const char *path, const char *text)
{
    struct dew_error err = {0};

    core__at(&err, c->source, 0, 0);
    tell(c->faults, &err, DEW_ERANGE, path, text);
    c->count++;
}

static void within(struct checking *c, const char *path, double x, int column)
{
    double low = columns[column].low, high = columns[column].high;
    char words[120];

    if (x >= low && x <= high)
        return;
    snprintf(words, sizeof words, "%g is outside %g .. %g", x, low, high);
    complain(c, path, words);
}

static void check_month(struct checking *c, const struct dew_normal *n,
                        int month)
{
    struct dew_normal copy = *n;
    char path[64];

    for (size_t f = 0; f < made__figure_count; f++) {
        const struct made__figure *g = &made__figures[f];
        double x = (*made__figure_at(&copy, f) - g->shift) / g->factor;

        snprintf(path, sizeof path, "month %d, %s", month, g->column);
        /* a unit's factor may move the last bit */
        if (!(fabs(x - g->low) <= 1e-9 || fabs(x - g->high) <= 1e-9))
            within(c, path, x, SITE_COLUMNS + (int)f);
    }
    snprintf(path, sizeof path, "month %d", month);
    if (n->t_min > n->t || n->t > n->t_max)
        complain(c, path,
                 "the mean temperature is not between t_min_c and "
                 "t_max_c");
    if (n->td > n->t)
        complain(c, path, "the mean dew point is above the mean temperature");
}

size_t dew_climate_check(const struct dew_climate *climate, const char *source,
                         struct dew_faults *faults)
{
    struct checking c = {source, faults, 0};
    const struct dew_site *s = &climate->site;
    const double site[] = {s->latitude, s->longitude, s->elevation,
                           s->utc_offset};

    for (int i = LAT; i <= OFFSET; i++)
        within(&c, columns[i].name, site[i - LAT], i);
    for (int m = 0; m < 12; m++)
        check_month(&c, &climate->month[m], m + 1);
    return c.count;
}
