/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger weather make: hourly years out of monthly figures. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/weather.h"
#include "dew/climate.h"
#include "dew/made.h"

enum {
    KEY_YEARS = 0x400,
    KEY_SEED,
    KEY_OUT,
    KEY_NORMALS,
    YEARS_MOST = 1000,
    NAME_MOST = 1024,
    FAULTS = 40,
    TEXT_MOST = 1 << 20 /* bytes of a file of normals */
};

struct making {
    struct dew__cli common;
    char words[200];
    const char *out, *normals;
    struct dew_made how;
    int years;
    struct dew_climate place;
    struct dew__weather_sum (*sums)[12]; /* of each year                     */
};

_Static_assert(DEW_MADE_SEED == 129, "as the help says");

static const struct argp_option options[] = {
    {"years", KEY_YEARS, "N", 0,
     "make N years that stray as real ones do, not the one typical year", 0},
    {"seed", KEY_SEED, "N", 0, "of the random numbers (129)", 0},
    {"out", KEY_OUT, "FILE", 0,
     "write the year there; of several, into FILE-1.csv, FILE-2.csv ...", 0},
    {"normals", KEY_NORMALS, "FILE", 0,
     "monthly figures of a place that the table does not have", 0},
    {0},
};

static unsigned long whole(struct argp_state *state, const char *name,
                           const char *word, double low, double high)
{
    double x;

    if (dew_number_read(word, strlen(word), &x) != strlen(word) ||
        word[0] == '\0' || x < low || x > high || x != floor(x))
        dew__cli_usage(state, "--%s %s: write a whole number in %.0f .. %.0f",
                       name, word, low, high);
    return (unsigned long)x;
}

static error_t take(int key, char *word, struct argp_state *state)
{
    struct making *m = state->input;
    size_t used = strlen(m->words);

    switch (key) {
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &m->common;
        return 0;
    case KEY_YEARS:
        m->years = (int)whole(state, "years", word, 1.0, YEARS_MOST);
        return 0;
    case KEY_SEED:
        m->how.seed = whole(state, "seed", word, 0.0, 4294967295.0);
        return 0;
    case KEY_OUT:
        m->out = word;
        return 0;
    case KEY_NORMALS:
        m->normals = word;
        return 0;
    case ARGP_KEY_ARG:
        snprintf(m->words + used, sizeof m->words - used, "%s%s",
                 used > 0 ? " " : "", word);
        return 0;
    case ARGP_KEY_END:
        if ((m->words[0] == '\0') == (m->normals == NULL))
            dew__cli_usage(state, "name one PLACE, or give --normals FILE");
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

/* Read a file of normals; every fault goes to stderr. */
static int read_normals(struct making *m)
{
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    size_t size;
    int code = DEW__DONE;
    char *text;

    if (dew__run_text(m->normals, &text, &size, &list[0]) != DEW_OK) {
        faults.count = 1;
        return dew__cli_faults(&faults);
    }
    if (size > TEXT_MOST)
        code =
            dew__cli_fail(DEW__BAD_INPUT, "%s: larger than 1 MiB", m->normals);
    else if (dew_climate_read(text, size, m->normals, &m->place, &faults) !=
             DEW_OK)
        code = dew__cli_faults(&faults);
    free(text);
    return code;
}

static int find_place(struct making *m)
{
    struct dew_error err = {0};

    if (m->normals != NULL)
        return read_normals(m);
    if (dew_climate_find(m->words, &m->place, &err) != DEW_OK)
        return dew__cli_error(&err);
    return DEW__DONE;
}

/* "x.csv" of year 3 of many is "x-3.csv". */
static void file_name(const struct making *m, int number, char *out,
                      size_t size)
{
    const char *dot = strrchr(m->out, '.');
    int stem = (int)strlen(m->out);

    if (dot != NULL && strchr(dot, '/') == NULL)
        stem = (int)(dot - m->out);
    if (m->years == 0)
        snprintf(out, size, "%s", m->out);
    else
        snprintf(out, size, "%.*s-%d%s", stem, m->out, number, m->out + stem);
}

static int make_one(struct making *m, int number)
{
    struct dew_error err = {0};
    struct dew_year *year;
    char name[NAME_MOST];
    int code = DEW__DONE;

    m->how.number = number;
    if (dew_made_open(&m->place, &m->how, &year, &err) != DEW_OK)
        return dew__cli_error(&err);
    dew__weather_months(year, m->sums[number > 0 ? number - 1 : 0]);
    if (m->out != NULL) {
        file_name(m, number, name, sizeof name);
        if (dew_weather_write(year, name, &err) != DEW_OK)
            code = dew__cli_error(&err);
    }
    dew_year_close(year);
    return code;
}

/* ---- what is printed ------------------------------------------------------ */

/* Lowest, mean and highest over the years of a figure of a month. */
struct spread {
    double low, mean, high;
};

static struct spread spread_of(const struct making *m, int month, size_t offset)
{
    int count = m->years > 0 ? m->years : 1;
    struct spread s = {INFINITY, 0.0, -INFINITY};

    for (int y = 0; y < count; y++) {
        const char *sum = (const char *)&m->sums[y][month];
        double x = *(const double *)(const void *)(sum + offset);

        s.low = fmin(s.low, x);
        s.high = fmax(s.high, x);
        s.mean += x / count;
    }
    return s;
}

static const struct figure {
    const char *key, *us, *si;
    size_t offset;
    enum dew_quantity quantity;
    int decimals;
} figures[] = {
    {"t_mean_c", "t degF", "t degC", offsetof(struct dew__weather_sum, t),
     DEW_TEMPERATURE, 1},
    {"dew_point_mean_c", "dew pt degF", "dew pt degC",
     offsetof(struct dew__weather_sum, td), DEW_TEMPERATURE, 1},
    {"sun_mean_w_m2", "sun W/m2", "sun W/m2",
     offsetof(struct dew__weather_sum, global), DEW_IRRADIANCE, 0},
};
enum { FIGURES = sizeof figures / sizeof figures[0], COLUMN = 20 };

static void print_cell(const struct spread *s, const struct figure *f,
                       int system, int many)
{
    const struct dew_unit *u = dew_unit_shown(f->quantity, system);
    const double x[] = {s->mean, s->low, s->high};
    char n[3][24], cell[80];

    for (int i = 0; i < 3; i++)
        dew_number_fixed((x[i] - u->offset) / u->factor, f->decimals, n[i],
                         sizeof n[i]);
    if (many)
        snprintf(cell, sizeof cell, "%s (%s to %s)", n[0], n[1], n[2]);
    else
        snprintf(cell, sizeof cell, "%s", n[0]);
    printf(" %*s", many ? COLUMN + 3 : COLUMN - 6, cell);
}

static void print_table(const struct making *m)
{
    static const char *const names[] = {"Jan", "Feb", "Mar", "Apr",
                                        "May", "Jun", "Jul", "Aug",
                                        "Sep", "Oct", "Nov", "Dec"};
    int system = dew__weather_system(&m->common), many = m->years > 1;
    char place[400];

    snprintf(place, sizeof place, "%s%s%s%s%s", m->place.site.id,
             m->place.site.id[0] != '\0' ? " " : "", m->place.site.name,
             m->place.state[0] != '\0' ? " " : "", m->place.state);
    dew__cli_put(stdout, place);
    printf(", made from monthly figures, seed %lu", m->how.seed);
    if (m->years > 0)
        printf(", %d years: mean (lowest to highest)", m->years);
    if (m->place.lent[0] != '\0')
        printf("\nFigures that the file does not give are those of %s.",
               m->place.lent); /* a place of our table */
    printf("\n%-3s", "");
    for (int f = 0; f < FIGURES; f++)
        printf(" %*s", many ? COLUMN + 3 : COLUMN - 6,
               system == 1 ? figures[f].us : figures[f].si);
    putchar('\n');
    for (int month = 0; month < 12; month++) {
        printf("%s", names[month]);
        for (int f = 0; f < FIGURES; f++) {
            struct spread s = spread_of(m, month, figures[f].offset);

            print_cell(&s, &figures[f], system, many);
        }
        putchar('\n');
    }
}

static json_t *month_json(const struct making *m, int month)
{
    json_t *j = json_pack("{s:i}", "month", month + 1);

    for (int f = 0; j != NULL && f < FIGURES; f++) {
        struct spread s = spread_of(m, month, figures[f].offset);

        json_object_set_new(j, figures[f].key,
                            json_pack("{s:f, s:f, s:f}", "lowest", s.low,
                                      "mean", s.mean, "highest", s.high));
    }
    return j;
}

static int print_json(const struct making *m)
{
    json_t *months = json_array();

    for (int month = 0; month < 12; month++)
        json_array_append_new(months, month_json(m, month));
    return dew__cli_json(
        json_pack("{s:s, s:s, s:s, s:s, s:I, s:i, s:b, s:o}", "number",
                  m->place.site.id, "name", m->place.site.name, "state",
                  m->place.state, "figures_lent_by", m->place.lent, "seed",
                  (json_int_t)m->how.seed, "years", m->years > 0 ? m->years : 1,
                  "typical", m->years == 0, "months", months));
}

static int make_all(struct making *m)
{
    int code = DEW__DONE;

    if (m->years == 0)
        code = make_one(m, 0);
    for (int y = 1; code == DEW__DONE && y <= m->years; y++)
        code = make_one(m, y);
    if (code == DEW__DONE && m->common.json)
        return print_json(m);
    if (code == DEW__DONE)
        print_table(m);
    return code;
}

int dew__weather_make(int argc, char **argv)
{
    static const char does[] =
        "Make an hourly year out of twelve months of figures: of a PLACE in "
        "the table (its number, or words of its name and state), or of a file "
        "with one row a month.\v"
        "The typical year meets the months' figures.  With --years, each year "
        "strays from them as the days' persistence makes it: a lower bound, "
        "for slow swings of the climate are not in it.  The same seed gives "
        "the same year.  A file of figures needs twelve rows with month, "
        "lat_deg, lon_deg, elevation_m, utc_offset_h, t_max_c, t_min_c and "
        "rh_mean_pct (or td_mean_c); docs/weather-made.md names the rest, which "
        "is lent by the most similar place where it is absent.\n\n"
        "  dewledger weather make 726580 --out minneapolis.csv\n"
        "  dewledger weather make burlington vermont --years 30\n";
    const struct argp_child children[] = {{&dew__cli_result_argp, 0, NULL, 0},
                                          {0}};
    const struct argp argp = {
        options, take, "PLACE...\n--normals FILE", does, children, NULL, NULL};
    struct making m = {.how = {.seed = DEW_MADE_SEED}};
    int code = dew__cli_parse(&argp, argc, argv, &m);

    if (code == DEW__DONE)
        code = find_place(&m);
    if (code != DEW__DONE)
        return code;
    m.sums = calloc(m.years > 0 ? (size_t)m.years : 1, sizeof *m.sums);
    if (m.sums == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    code = make_all(&m);
    free(m.sums);
    return code;
}
