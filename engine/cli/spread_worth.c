/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What it is worth to know, column by column and measurement by measurement. */
#include <stdlib.h>
#include <string.h>

#include "cli/spread_worth.h"
#include "core/fail.h"

/* ---- what a person would do ------------------------------------------------------ */

static const char logging[] = "A month of logging indoors";

/* The first row that a key begins with is how to come to know it.  Common
   practice, no source. */
static const struct measuring {
    const char *start, *measure;
    int logged; /* 1: a month of logging indoors tells of it too             */
} measuring[] = {
    {"house.airtightness", "A blower-door test", 0},
    {"house.leakage", "A blower-door test", 0},
    {"house.constant_leakage", "A blower-door test", 0},
    {"house.", "A tape measure", 0},
    {"insulation.", "A look into walls, floor and attic", 0},
    {"windows.u", "The labels of the windows", 0},
    {"windows.sun_gain", "The labels of the windows", 0},
    {"windows.", "A tape measure", 0},
    {"people.", "Counting who is at home, for a week", 1},
    {"moisture.", "Counting showers, cooking and washing, for a week", 1},
    {"temperature.", "A thermometer indoors for a week", 1},
    {"airing.", "Writing down when windows are open, for a week", 1},
    {"buffering.", logging, 1},
    {"surfaces.", "A thermometer at corners and panes", 0},
    {"ground.", "A thermometer in the ground", 0},
    {"heating.", "The plate of the heating", 0},
    {"cooling.", "The plate of the cooling, and watching it run for a day", 0},
    {"ventilator.flow", "Measuring the air at the grilles", 0},
    {"ventilator.exhaust_flow", "Measuring the air at the grilles", 0},
    {"ventilator.found", "Measuring the air at the grilles", 0},
    {"ventilator.", "The data sheet of the ventilator", 0},
    {"ducts.", "A duct leakage test", 0},
    {"dehumidifier.", "The dehumidifier's plate, and its bucket for a week", 0},
    {"humidifier.", "The humidifier's plate, and its tank for a week", 0},
};

static const struct measuring *measuring_of(const char *key)
{
    for (size_t i = 0; i < sizeof measuring / sizeof *measuring; i++)
        if (strncmp(key, measuring[i].start, strlen(measuring[i].start)) == 0)
            return &measuring[i];
    return NULL;
}

const char cli__weather_column[] = "the weather",
           cli__model_column[] = "the model itself";

const char *cli__spread_column(const struct cli__spread *s, size_t column)
{
    const struct dew_spread_column c = dew_spread_column(s->spread, column);
    size_t keys;

    return c.of == DEW_SPREAD_OF_YEAR    ? cli__weather_column
           : c.of == DEW_SPREAD_OF_MODEL ? cli__model_column
           : c.of == DEW_SPREAD_OF_INPUT
               ? dew_scenario_fields(&keys)[c.input->key].path
               : "";
}

/* How a column is measured; NULL: nobody can, or nobody has said how. */
static const char *measure_of(const struct cli__spread *s, size_t column)
{
    const struct measuring *m = measuring_of(cli__spread_column(s, column));

    if (dew_spread_column(s->spread, column).of == DEW_SPREAD_OF_MODEL)
        return logging;
    return m != NULL ? m->measure : NULL;
}

static int is_logged(const struct cli__spread *s, size_t column)
{
    const struct measuring *m = measuring_of(cli__spread_column(s, column));

    return dew_spread_column(s->spread, column).of == DEW_SPREAD_OF_MODEL ||
           (m != NULL && m->logged);
}

/* ---- gains ----------------------------------------------------------------------- */

/* What the work needs. */
struct work {
    const struct cli__spread *s;
    struct dew_worth *worth;
    size_t columns;
    double *x;    /* [columns][draws]                                        */
    double *loss; /* [draws][options]                                        */
};

/* The best where no other is ever chosen. */
static size_t most_often(const struct work *k)
{
    size_t best = dew_worth_best(k->worth), most = best, times = 0;
    const size_t *choice = dew_worth_choice(k->worth);

    for (size_t d = 0; d < k->s->options; d++) {
        size_t n = 0;

        for (size_t i = 0; i < k->s->draws && d != best; i++)
            n += choice[i] == d;
        if (n > times) {
            times = n;
            most = d;
        }
    }
    return most;
}

static enum dew_status gain(const struct work *k, struct cli__known *known,
                            struct dew_error *err)
{
    const double *x[DEW_WORTH_TOGETHER];
    enum dew_status status;

    for (size_t i = 0; i < known->count; i++)
        x[i] = k->x + known->column[i] * k->s->draws;
    status = dew_worth_of(k->worth, x, known->count, &known->gain, err);
    if (status != DEW_OK)
        return status;
    known->to = most_often(k);
    known->saved = dew_worth_saved(k->worth, k->s->told);
    return DEW_OK;
}

static int by_value(const void *a, const void *b)
{
    const struct cli__known *x = a, *y = b;

    if (x->gain.told != y->gain.told)
        return y->gain.told - x->gain.told;
    if (x->gain.value > y->gain.value || x->gain.value < y->gain.value)
        return x->gain.value > y->gain.value ? -1 : 1;
    return x->column[0] < y->column[0] ? -1 : x->column[0] > y->column[0];
}

static enum dew_status each_alone(const struct work *k, struct cli__worth *w,
                                  struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    for (size_t c = 0; c < k->columns && status == DEW_OK; c++) {
        struct cli__known *known = &w->each[w->each_count];

        if (dew_spread_column(k->s->spread, c).of == DEW_SPREAD_OF_NOTHING)
            continue;
        *known = (struct cli__known){.column = {c}, .count = 1};
        status = gain(k, known, err);
        w->each_count++;
    }
    qsort(w->each, w->each_count, sizeof *w->each, by_value);
    return status;
}

static struct cli__known *measured_by(struct cli__worth *w, const char *measure)
{
    for (size_t i = 0; i < w->measure_count; i++) {
        const char *has = w->measure[i].measure;

        if (has != NULL && strcmp(has, measure) == 0)
            return &w->measure[i];
    }
    w->measure[w->measure_count] = (struct cli__known){.measure = measure};
    return &w->measure[w->measure_count++];
}

/* Those worth most by themselves come first; past the most that may be known
   together they are left out. */
static void add(struct cli__known *known, size_t column)
{
    if (known->count < DEW_WORTH_TOGETHER)
        known->column[known->count++] = column;
}

static enum dew_status together(const struct work *k, struct cli__worth *w,
                                struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < w->each_count; i++) {
        size_t column = w->each[i].column[0];
        const char *measure = measure_of(k->s, column);

        if (measure != NULL && measure != logging)
            add(measured_by(w, measure), column);
        if (is_logged(k->s, column))
            add(measured_by(w, logging), column);
    }
    for (size_t i = 0; i < w->measure_count && status == DEW_OK; i++)
        status = gain(k, &w->measure[i], err);
    qsort(w->measure, w->measure_count, sizeof *w->measure, by_value);
    return status;
}

static enum dew_status gains(struct work *k, struct cli__worth *w,
                             struct dew_error *err)
{
    const struct cli__spread *s = k->s;
    const struct dew_worth_table table = {s->draws, s->options, k->loss};
    const struct dew_prices prices =
        dew_scenario_prices(dew_run_scenario(s->run));
    enum dew_status status;

    for (size_t c = 0; c < k->columns; c++)
        for (size_t i = 0; i < s->draws; i++)
            k->x[c * s->draws + i] = dew_spread_known(s->spread, c, i);
    w->of = dew_worth_losses(s->told, &prices, k->loss);
    status = dew_worth_open(&k->worth, &table, err);
    if (status != DEW_OK)
        return status;
    w->best = dew_worth_best(k->worth);
    w->perfect = dew_worth_perfect(k->worth);
    status = each_alone(k, w, err);
    return status == DEW_OK ? together(k, w, err) : status;
}

enum dew_status cli__worth_of(const struct cli__spread *s, struct cli__worth *w,
                              struct dew_error *err)
{
    struct work k = {.s = s, .columns = dew_spread_columns(s->spread)};
    enum dew_status status;

    k.x = calloc(k.columns * s->draws, sizeof *k.x);
    k.loss = calloc(s->draws * s->options, sizeof *k.loss);
    w->each = calloc(k.columns, sizeof *w->each);
    w->measure = calloc(k.columns + 1, sizeof *w->measure);
    if (k.x != NULL && k.loss != NULL && w->each != NULL && w->measure != NULL)
        status = gains(&k, w, err);
    else
        status = core__fail(err, DEW_EMEM, "out of memory");
    dew_worth_close(k.worth);
    free(k.x);
    free(k.loss);
    return status;
}

void cli__worth_close(struct cli__worth *w)
{
    free(w->each);
    free(w->measure);
}

int cli__worth_tells(const struct cli__spread *s)
{
    return s->options > 1 && s->draws >= DEW_WORTH_DRAWS;
}
