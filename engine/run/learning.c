/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A house learned from its log: draws in rounds. */
#include "dew/learning.h"

#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "core/parallel.h"
#include "run/learn.h"

/* ---- opening --------------------------------------------------------------------- */

/* The scenario without its log, which is the fit's. */
static enum dew_status open_run(struct dew_run **run,
                                const struct dew_run_ask *from, int logged,
                                struct dew_faults *faults)
{
    const char **sets = calloc(from->set_count + 1, sizeof *sets);
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_run_ask ask = *from;
    enum dew_status status;

    if (sets == NULL)
        return core__fault(faults, &err);
    for (size_t i = 0; i < from->set_count; i++)
        sets[i] = from->sets[i];
    if (logged)
        sets[from->set_count] = "log.file=named on the command line";
    ask.sets = sets;
    ask.set_count = from->set_count + (size_t)logged;
    ask.option_count = 0;
    ask.job = DEW_RUN_MARCH;
    ask.with = DEW_RUN_NO_LOG | (logged ? 0 : DEW_RUN_READINGS);
    status = dew_run_open(run, &ask, faults);
    free(sets);
    return status;
}

/* Of the scenario that the fit read: standard input is read once. */
static enum dew_status open_as_fitted(struct dew_learn *l,
                                      const struct dew_run_ask *from,
                                      const struct dew_fit *fit,
                                      struct dew_faults *faults)
{
    struct dew_run_ask ask = *from;

    l->logged = fit != NULL;
    l->blown = fit != NULL && fit->has_fan;
    if (ask.text == NULL && fit != NULL)
        ask.text = dew_scenario_text(fit->run->scenario, &ask.length);
    return open_run(&l->run, &ask, l->logged, faults);
}

/* What is in doubt of the first option. */
static enum dew_status list_doubts(struct dew_learn *l,
                                   const struct dew_learn_ask *ask,
                                   struct dew_error *err)
{
    struct dew_spread *s = l->doubts = calloc(1, sizeof *s);

    if (s == NULL)
        return core__fail(err, DEW_EMEM, "no memory for draws");
    s->run = l->run;
    s->options = 1;
    s->told_only = ask->told_only;
    if (run__spread_list(s, err) != DEW_OK)
        return err->status;
    if (ask->causes && run__learn_causes(l, err) != DEW_OK)
        return err->status;
    if (s->columns + l->open_count == 0)
        return core__fail(err, DEW_EMISSING,
                          "no figure in doubt changes the house: there is "
                          "nothing to learn.  Write a range behind a figure "
                          "that you are not sure of: \"airtightness: 1.1 ach50 "
                          "(0.7 to 2.0)\", likely (low to high)");
    s->year_column = s->model_column = s->columns;
    return DEW_OK;
}

static enum dew_status make_rounds(struct dew_learn *l,
                                   const struct dew_learn_ask *ask,
                                   struct dew_error *err)
{
    const struct evidence__rounds_ask rounds = {.unknowns = l->doubts->columns +
                                                            l->open_count,
                                                .misfits = l->hours.weigh,
                                                .draws = ask->draws,
                                                .enough = DEW_LEARN_ENOUGH,
                                                .seed = ask->seed,
                                                .threads = l->threads};
    struct dew_spread *s = l->doubts;
    size_t most;

    if (ask->draws > DEW_LEARN_MOST)
        return core__fail(err, DEW_ERANGE, "%zu draws are more than %d",
                          ask->draws, DEW_LEARN_MOST);
    if (evidence__rounds_open(&l->rounds, &rounds, err) != DEW_OK)
        return err->status;
    most = l->rounds->most;
    l->asked = l->draws = s->draws = l->rounds->draws;
    s->u = calloc(most * s->columns + 1, sizeof *s->u);
    l->near = calloc(1 + most, sizeof *l->near);
    if (s->u == NULL || l->near == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu draws", most);
    for (size_t i = 0; i <= most; i++)
        l->near[i] = (struct dew_learn_near){NAN, NAN};
    l->drawn = 1; /* the house as told */
    return DEW_OK;
}

/* Of an Ornstein-Uhlenbeck process of time t the mean over T has, with x = t/T,
   2 x (1 - x (1 - exp(-1/x))) of its variance. */
double run__learn_mean(double x)
{
    return 2 * x * (1 - x * (1 - exp(-1 / x)));
}

/* The habits as means of days show them, a day a step: the slow one goes on,
   what a mean leaves of the quick one and of white noise is white. */
static struct dew_evidence_noise of_days(const struct dew_evidence_noise *n)
{
    double x = n->quick_hours / 24, left = 2 * x * (1 - x * (1 - exp(-1 / x)));

    return (struct dew_evidence_noise){
        .slow = n->slow,
        .slow_hours = n->slow_hours / 24,
        .quick = 0,
        .quick_hours = 1,
        .white = sqrt(left * n->quick * n->quick + n->white * n->white / 24)};
}

static enum dew_status weigh_log(struct dew_learn *l, const struct dew_fit *fit,
                                 struct dew_error *err)
{
    enum dew_status status = run__learn_hours(l, fit, err);

    return status == DEW_OK ? run__learn_habit(l, fit, err) : status;
}

static enum dew_status light_up(struct dew_learn *l, struct dew_error *err)
{
    struct run__learn_hours *h = &l->hours;
    const struct dew_weather weather = {h->weather, h->dates, h->count, NULL};

    return dew_light_open(&h->light, &l->run->cases[0], &weather, err);
}

enum dew_status dew_learn_open(struct dew_learn **learn,
                               const struct dew_run_ask *from,
                               const struct dew_fit *fit,
                               const struct dew_learn_ask *ask,
                               struct dew_faults *faults)
{
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_learn *l = calloc(1, sizeof *l);
    enum dew_status status;

    *learn = NULL;
    if (l == NULL)
        return core__fault(faults, &err);
    err = (struct dew_error){0};
    core__at(&err, from->name, 0, 0);
    l->threads = ask->threads > 0 ? ask->threads : core__processors();
    if (fit != NULL)
        l->noise = of_days(&dew_evidence_learned(fit->evidence)->noise);
    status = open_as_fitted(l, from, fit, faults);
    if (status == DEW_OK) {
        status = list_doubts(l, ask, &err);
        if (status == DEW_OK)
            status = fit != NULL ? weigh_log(l, fit, &err)
                                 : run__learn_seen(l, &err);
        if (status == DEW_OK)
            status = light_up(l, &err);
        if (status == DEW_OK)
            status = make_rounds(l, ask, &err);
        if (status != DEW_OK)
            core__fault(faults, &err);
    }
    if (status == DEW_OK)
        *learn = l;
    else
        dew_learn_close(l);
    return status;
}

enum dew_status dew_learn_houses(const struct dew_learn *l,
                                 const struct dew_run_ask *written,
                                 const struct dew_spread_ask *ask,
                                 struct dew_learn_houses *out,
                                 struct dew_faults *faults)
{
    struct dew_error err = {0};
    struct dew_spread_ask as_learned = *ask;

    *out = (struct dew_learn_houses){.run = NULL};
    if (open_run(&out->run, written, l->logged, faults) != DEW_OK)
        return faults->list[0].status;
    core__at(&err, written->name, 0, 0);
    as_learned.told_only = l->doubts->told_only;
    as_learned.years = as_learned.model = 0;
    if (dew_spread_open(&out->spread, out->run, &as_learned, &err) != DEW_OK ||
        dew_learn_give(l, out->spread, &out->beyond, &err) != DEW_OK)
        core__fault(faults, &err);
    return err.status;
}

void dew_learn_houses_close(struct dew_learn_houses *houses)
{
    dew_spread_close(houses->spread);
    dew_run_close(houses->run);
}

void dew_learn_close(struct dew_learn *l)
{
    if (l == NULL)
        return;
    if (l->doubts != NULL) {
        free(l->doubts->inputs);
        free(l->doubts->u);
    }
    free(l->doubts);
    evidence__rounds_close(l->rounds);
    run__learn_hours_close(&l->hours);
    dew_run_close(l->run);
    free(l->habit.axes);
    free(l->seen.of);
    free(l->near);
    free(l->inputs);
    free(l->pairs);
    free(l);
}

/* ---- rounds ----------------------------------------------------------------------- */

double run__learn_share(double z)
{
    const double least = 1e-12;

    return fmin(fmax(0.5 * erfc(-z / sqrt(2.0)), least), 1 - least);
}

static enum dew_status next_round(struct dew_learn *l, struct dew_error *err)
{
    struct dew_spread *s = l->doubts;
    size_t count;
    enum dew_status status = evidence__rounds_next(l->rounds, &count, err);

    if (status != DEW_OK)
        return status;
    l->draws = s->draws = l->rounds->draws;
    for (size_t i = l->drawn - 1; i < l->drawn - 1 + count; i++)
        for (size_t k = 0; k < s->columns; k++)
            s->u[i * s->columns + k] =
                run__learn_share(evidence__rounds_at(l->rounds, i)[k]);
    l->drawn += count;
    if (count > 0)
        return DEW_OK;
    evidence__rounds_end(l->rounds);
    run__learn_tell_causes(l);
    l->weighed = 1;
    return run__learn_tell(l, err);
}

/* ---- the march ---------------------------------------------------------------------- */

struct team {
    struct dew_learn *l;
    struct run__learn_block *blocks;
};

static void one_block(void *of, size_t i)
{
    const struct team *t = of;

    run__learn_march(t->l, &t->blocks[i]);
}

/* The house as told weighs nothing. */
static void count_in(struct dew_learn *l, const struct run__learn_block *b)
{
    const double *misfits[RUN__LEARN_BLOCK] = {NULL};

    if (b->first == 0)
        return;
    for (size_t k = 0; k < b->count; k++)
        if (b->house[k])
            misfits[k] = &b->white[k * l->hours.weigh];
    evidence__rounds_told(l->rounds, b->first - 1, b->count, misfits);
}

/* Blocks of one size, whatever the threads. */
static size_t lay_blocks(const struct dew_learn *l,
                         struct run__learn_block *blocks, size_t threads)
{
    size_t from = l->marched, n = 0;

    for (; n < threads && from < l->drawn; n++) {
        size_t left = l->drawn - from;

        blocks[n].first = from;
        blocks[n].count = left < RUN__LEARN_BLOCK ? left : RUN__LEARN_BLOCK;
        from += blocks[n].count;
    }
    return n;
}

static enum dew_status march(struct dew_learn *l, struct dew_error *err)
{
    size_t most =
        l->threads < RUN__SPREAD_THREADS ? l->threads : RUN__SPREAD_THREADS;
    struct run__learn_block *blocks = calloc(most, sizeof *blocks);
    struct team t = {l, blocks};
    enum dew_status status = DEW_OK;
    size_t n;

    if (blocks == NULL)
        return core__fail(err, DEW_EMEM, "no memory for draws");
    n = lay_blocks(l, blocks, most);
    core__parallel(l->threads, n, one_block, &t);
    for (size_t i = 0; i < n; i++) {
        if (status == DEW_OK && blocks[i].status == DEW_OK)
            count_in(l, &blocks[i]);
        else if (status == DEW_OK) {
            status = blocks[i].status;
            if (err != NULL && err->status == DEW_OK)
                *err = blocks[i].err;
        }
        l->marched += blocks[i].count;
        free(blocks[i].white);
    }
    free(blocks);
    return status;
}

enum dew_status dew_learn_step(struct dew_learn *l, double *done,
                               struct dew_error *err)
{
    if (l->failed != DEW_OK)
        return core__fail(err, l->failed, "this learning has failed before");
    if (!l->weighed)
        l->failed = l->marched < l->drawn ? march(l, err) : next_round(l, err);
    else if (l->learned.told && l->timed < l->open_count)
        l->failed = run__learn_time(l, err);
    else
        l->done = 1;
    if (l->failed == DEW_OK)
        *done =
            l->done ? 1 : 0.999 * (double)l->marched / (double)(1 + l->draws);
    return l->failed;
}

/* ---- what it came to ------------------------------------------------------------------ */

const struct dew_learned *dew_learn_learned(const struct dew_learn *l)
{
    return l->done ? &l->learned : NULL;
}

const struct dew_learn_input *dew_learn_inputs(const struct dew_learn *l,
                                               size_t *count)
{
    *count = l->done ? l->input_count : 0;
    return l->done ? l->inputs : NULL;
}

const struct dew_learn_pair *dew_learn_pairs(const struct dew_learn *l,
                                             size_t *count)
{
    *count = l->done ? l->pair_count : 0;
    return l->done ? l->pairs : NULL;
}

const struct dew_learn_cause *dew_learn_causes(const struct dew_learn *l,
                                               size_t *count)
{
    *count = l->done ? l->open_count : 0;
    return l->done ? l->causes : NULL;
}
