/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Items marched: one with its draws, or some of a place side by side. */
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/spread.h"
#include "survey/survey.h"

struct marched {
    struct dew_run *run;
    struct dew_spread *spread;
    struct dew_error err;
};

/* 1 where all houses of a place have its weather: nothing of it is varied. */
static int is_shared(const struct dew_survey_plan *p)
{
    for (size_t a = 0; a < p->axis_count; a++)
        if (strncmp(p->axes[a].field->path, "weather.", 8) == 0)
            return 0;
    return 1;
}

/* Of items that march side by side: rows, about, for each holds some 130 KiB
   until all have marched; and as many items as the widest lanes at least. */
enum { ROWS = 256, FEW = 8 };

size_t survey__together(const struct dew_survey_plan *p)
{
    size_t most = ROWS / (p->options_all > 0 ? p->options_all : 1);

    if (p->draws > 0 || !is_shared(p))
        return 1;
    most = most > FEW ? most : FEW;
    return most < SURVEY__TOGETHER ? most : SURVEY__TOGETHER;
}

size_t survey__next(const struct dew_survey_plan *p, size_t first, size_t end)
{
    size_t most = survey__together(p);
    size_t of_place = p->houses - first % p->houses;

    most = most < of_place ? most : of_place;
    return most < end - first ? most : end - first;
}

/* Enough to fill the lanes; with draws four, or fewer that are as many rows. */
size_t dew_survey_taste(const struct dew_survey_plan *p)
{
    const size_t items = 4, most = 4 * ROWS;
    size_t together = survey__together(p);
    size_t rows = p->options_all * (1 + p->draws);

    if (together > 1)
        return together;
    if (rows * items <= most)
        return items;
    return rows < most ? most / rows : 1;
}

/* ---- opening ------------------------------------------------------------------------ */

void survey__last_close(struct survey__last *last)
{
    dew_spread_close(last->spread);
    dew_run_close(last->run);
    last->spread = NULL;
    last->run = NULL;
}

static void open_run(const struct dew_survey_plan *p, size_t item,
                     struct survey__last *last, struct survey__sets *sets,
                     struct marched *m)
{
    size_t place = item / p->houses;
    struct dew_faults faults = {&m->err, 1, 0};
    struct dew_run_ask ask = {.name = p->scenario_name,
                              .sets = sets->list,
                              .options = p->options,
                              .option_count = p->option_count,
                              .job = DEW_RUN_MARCH,
                              .with = DEW_RUN_NO_LOG,
                              .threads = 1};

    if (last->run != NULL && (last->place != place || !is_shared(p)))
        survey__last_close(last);
    survey__sets(p, item % p->houses, place, sets);
    ask.set_count = sets->count;
    ask.weather_of = last->run;
    ask.text = survey__scenario(p, &ask.length);
    (void)dew_run_open(&m->run, &ask, &faults);
}

static void open_one(const struct dew_survey_plan *p, size_t item,
                     struct survey__last *last, struct survey__sets *sets,
                     struct marched *m)
{
    struct dew_spread_ask ask = {.draws = p->draws,
                                 .seed = p->seed,
                                 .threads = 1,
                                 .years = p->draws > 0,
                                 .model = p->draws > 0};

    open_run(p, item, last, sets, m);
    if (m->run == NULL)
        return;
    ask.light_of = last->spread;
    (void)dew_spread_open(&m->spread, m->run, &ask, &m->err);
    if (last->run != NULL)
        return;
    last->run = m->run;
    last->place = item / p->houses;
    last->spread = p->draws > 0 ? NULL : m->spread;
}

/* The first run of a place is kept: the year is its own, and the light on it. */
static void close_one(struct marched *m, const struct survey__last *last)
{
    if (m->spread != last->spread)
        dew_spread_close(m->spread);
    if (m->run != last->run)
        dew_run_close(m->run);
}

/* ---- marching ----------------------------------------------------------------------- */

/* Where that fails each goes by itself, so that one alone is at fault. */
static void likely(struct marched *m, size_t count)
{
    struct dew_spread *spreads[SURVEY__TOGETHER];
    struct dew_error err = {0};
    size_t n = 0;

    for (size_t i = 0; i < count; i++)
        if (m[i].spread != NULL)
            spreads[n++] = m[i].spread;
    if (n > 1)
        (void)dew_spread_likely(spreads, n, &err);
}

static void to_the_end(struct marched *m)
{
    double done = 0;

    while (m->spread != NULL && done < 1)
        if (dew_spread_step(m->spread, &done, &m->err) != DEW_OK)
            return;
}

static enum dew_status put_one(const struct dew_survey_plan *p, size_t item,
                               const struct marched *m, struct survey__bytes *b,
                               struct dew_error *err)
{
    enum dew_status status = m->err.status;

    if (status == DEW_EMEM || status == DEW_EIO)
        return core__fail(err, status, "house %zu: %s", item + 1, m->err.text);
    if (status != DEW_OK)
        survey__put_fault(p, &m->err, item, b);
    else
        survey__put_rows(p, m->run, m->spread, item, b);
    return b->failed ? core__fail(err, DEW_EMEM, "no memory for results")
                     : DEW_OK;
}

enum dew_status survey__march(const struct dew_survey_plan *p, size_t first,
                              size_t count, struct survey__last *last,
                              struct survey__bytes *b, struct dew_error *err)
{
    struct survey__sets *sets = calloc(1, sizeof *sets);
    struct marched *m = calloc(count, sizeof *m);
    enum dew_status status = DEW_OK;

    if (sets == NULL || m == NULL)
        status = core__fail(err, DEW_EMEM, "no memory for %zu houses", count);
    for (size_t i = 0; i < count && status == DEW_OK; i++)
        open_one(p, first + i, last, sets, &m[i]);
    if (status == DEW_OK && count > 1)
        likely(m, count);
    for (size_t i = 0; i < count && status == DEW_OK; i++) {
        to_the_end(&m[i]);
        status = put_one(p, first + i, &m[i], b, err);
    }
    for (size_t i = 0; i < count && m != NULL; i++)
        close_one(&m[i], last);
    free(sets);
    free(m);
    return status;
}
