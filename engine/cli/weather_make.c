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
    struct cli__cli common;
    char words[200];
    const char *out, *normals;
    struct dew_made how;
    int years;
    struct dew_climate place;
    struct cli__weather_sum (*sums)[12]; /* of each year                     */
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

static error_t take(int key, char *word, struct argp_state *state)
{
    struct making *m = state->input;

    switch (key) {
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &m->common;
        return 0;
    case KEY_YEARS:
        m->years = (int)cli__whole(state, "years", word, 1.0, YEARS_MOST);
        return 0;
    case KEY_SEED:
        m->how.seed = cli__seed(state, word);
        return 0;
    case KEY_OUT:
        m->out = word;
        return 0;
    case KEY_NORMALS:
        m->normals = word;
        return 0;
    case ARGP_KEY_ARG:
        cli__weather_word(m->words, sizeof m->words, word);
        return 0;
    case ARGP_KEY_END:
        if ((m->words[0] == '\0') == (m->normals == NULL))
            cli__usage(state, "name one PLACE, or give --normals FILE");
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
    int code = CLI__DONE;
    char *text;

    if (run__text(m->normals, &text, &size, &list[0]) != DEW_OK) {
        faults.count = 1;
        return cli__faults(&faults);
    }
    if (size > TEXT_MOST)
        code = cli__fail(CLI__BAD_INPUT, "%s: larger than 1 MiB", m->normals);
    else if (dew_climate_read(text, size, m->normals, &m->place, &faults) !=
             DEW_OK)
        code = cli__faults(&faults);
    free(text);
    return code;
}

static int find_place(struct making *m)
{
    struct dew_error err = {0};

    if (m->normals != NULL)
        return read_normals(m);
    if (dew_climate_find(m->words, &m->place, &err) != DEW_OK)
        return cli__error(&err);
    return CLI__DONE;
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
    int code = CLI__DONE;

    m->how.number = number;
    if (dew_made_open(&m->place, &m->how, &year, &err) != DEW_OK)
        return cli__error(&err);
    cli__weather_months(year, m->sums[number > 0 ? number - 1 : 0]);
    if (m->out != NULL) {
        file_name(m, number, name, sizeof name);
        if (dew_weather_write(year, name, &err) != DEW_OK)
            code = cli__error(&err);
    }
    dew_year_close(year);
    return code;
}

/* ---- what is printed ------------------------------------------------------ */

static const struct figure {
    const char *key, *words;
    size_t offset;
    enum dew_quantity quantity;
    int decimals;
} figures[] = {
    {"t_mean_c", "t", offsetof(struct cli__weather_sum, t.mean),
     DEW_TEMPERATURE, 1},
    {"dew_point_mean_c", "dew pt", offsetof(struct cli__weather_sum, td.mean),
     DEW_TEMPERATURE, 1},
    {"sun_mean_w_m2", "sun", offsetof(struct cli__weather_sum, global.mean),
     DEW_IRRADIANCE, 0},
};
enum { FIGURES = sizeof figures / sizeof figures[0], MANY = 23, ONE = 14 };

/* Of a figure of a month (from 0), over the years. */
static struct cli__weather_spread spread_of(const struct making *m, int month,
                                            const struct figure *f)
{
    const char *one = (const char *)&m->sums[0][month];
    const char *next = (const char *)&m->sums[1][month];
    const double *first = (const void *)(one + f->offset);

    return cli__weather_spread(first, (size_t)(next - one) / sizeof *first,
                               m->years > 0 ? m->years : 1);
}

static void print_cell(const struct cli__weather_spread *s,
                       const struct figure *f, enum dew_system system, int many)
{
    const double x[] = {s->mean, s->low, s->high};
    struct report__word n[3];
    char cell[80];

    for (int i = 0; i < 3; i++)
        n[i] = report__number(report__shown(x[i], f->quantity, system),
                              f->decimals);
    if (!many)
        printf(" %*s", ONE, n[0].text);
    else if (snprintf(cell, sizeof cell, "%.20s (%.20s to %.20s)", n[0].text,
                      n[1].text, n[2].text) > 0)
        printf(" %*s", MANY, cell);
}

/* What the months below it are of. */
static void print_head(const struct making *m, enum dew_system system)
{
    char head[40];

    cli__put(stdout, m->place.site.id);
    fputs(m->place.site.id[0] != '\0' ? " " : "", stdout);
    cli__put(stdout, m->place.shown);
    fputs(m->place.state[0] != '\0' ? " " : "", stdout);
    cli__put(stdout, m->place.state);
    printf(", made from monthly figures, seed %lu", m->how.seed);
    if (m->years > 0)
        printf(", %d years: mean (lowest to highest)", m->years);
    if (m->place.lent[0] != '\0')
        printf("\nFigures that the file does not give are those of %s.",
               m->place.lent); /* a place of our table */
    printf("\n%-3s", "");
    for (int f = 0; f < FIGURES; f++) {
        snprintf(head, sizeof head, "%s %s", figures[f].words,
                 report__unit(figures[f].quantity, system)->name);
        printf(" %*s", m->years > 1 ? MANY : ONE, head);
    }
    putchar('\n');
}

static void print_table(const struct making *m)
{
    enum dew_system system = cli__weather_system(&m->common);

    print_head(m, system);
    for (int month = 0; month < 12; month++) {
        fputs(report__month_short(month), stdout);
        for (int f = 0; f < FIGURES; f++) {
            struct cli__weather_spread s = spread_of(m, month, &figures[f]);

            print_cell(&s, &figures[f], system, m->years > 1);
        }
        putchar('\n');
    }
}

static json_t *month_json(const struct making *m, int month)
{
    json_t *j = json_pack("{s:i}", "month", month + 1);

    for (int f = 0; j != NULL && f < FIGURES; f++) {
        struct cli__weather_spread s = spread_of(m, month, &figures[f]);

        j = cli__set(j, figures[f].key,
                     json_pack("{s:f, s:f, s:f}", "lowest", s.low, "mean",
                               s.mean, "highest", s.high));
    }
    return j;
}

static int print_json(const struct making *m)
{
    json_t *months = json_array();

    for (int month = 0; month < 12; month++)
        months = cli__add(months, month_json(m, month));
    return cli__json(
        json_pack("{s:s, s:s, s:s, s:s, s:I, s:i, s:b, s:o}", "number",
                  m->place.site.id, "name", m->place.site.name, "state",
                  m->place.state, "figures_lent_by", m->place.lent, "seed",
                  (json_int_t)m->how.seed, "years", m->years > 0 ? m->years : 1,
                  "typical", m->years == 0, "months", months));
}

static int make_all(struct making *m)
{
    int code = CLI__DONE;

    if (m->years == 0)
        code = make_one(m, 0);
    for (int y = 1; code == CLI__DONE && y <= m->years; y++)
        code = make_one(m, y);
    if (code == CLI__DONE && m->common.json)
        return print_json(m);
    if (code == CLI__DONE)
        print_table(m);
    return code;
}

int cli__weather_make(int argc, char **argv)
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
    const struct argp_child children[] = {{&cli__result_argp, 0, NULL, 0}, {0}};
    const struct argp argp = {
        options, take, "PLACE...\n--normals FILE", does, children, NULL, NULL};
    struct making m = {.how = {.seed = DEW_MADE_SEED}};
    int code = cli__parse(&argp, argc, argv, &m);

    if (code == CLI__DONE)
        code = find_place(&m);
    if (code != CLI__DONE)
        return code;
    m.sums = calloc(m.years > 0 ? (size_t)m.years : 1, sizeof *m.sums);
    if (m.sums == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    code = make_all(&m);
    free(m.sums);
    return code;
}
