/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/run.h"

#include <stdlib.h>

#include "core/fail.h"
#include "dew/drying.h"
#include "dew/made.h"

/* ---- cases -------------------------------------------------------------------- */

static enum dew_status make_cases(struct dew_run *r, struct dew_error *err)
{
    for (size_t i = 0; i < r->count; i++) {
        r->of[i] = i;
        if (dew_scenario_case(r->scenario, r->options[i].at, &r->outdoors, NULL,
                              &r->cases[i], err) != DEW_OK)
            return err->status;
    }
    return DEW_OK;
}

/* What the options leave open, the other ways. */
static enum dew_status add_others(struct dew_run *r, struct dew_error *err)
{
    for (size_t i = 0; i < r->count; i++)
        for (int how = 0; how < DEW_OTHERWISES && r->doubt_count < RUN__OTHERS;
             how++) {
            struct dew_another x = {.how = (enum dew_otherwise)how};
            size_t k = r->count + r->doubt_count;

            if (dew_scenario_otherwise(r->scenario, r->options[i].at,
                                       &r->outdoors, &x, err) != DEW_OK)
                return err->status;
            if (!x.open)
                continue;
            r->cases[k] = x.c;
            r->of[k] = i;
            r->doubts[r->doubt_count++] = (struct dew_report_doubt){
                .option = i, .how = x.how, .c = &r->cases[k]};
        }
    return DEW_OK;
}

/* Options that still give off construction water, once more when dry. */
static void add_dry_ones(struct dew_run *r)
{
    size_t n = r->count + r->doubt_count;

    for (size_t i = 0; i < r->count; i++) {
        r->options[i].dry = 0;
        if (!(r->with & DEW_RUN_DRY) || !dew_drying_matters(&r->cases[i]))
            continue;
        r->cases[n] = dew_drying_settled(&r->cases[i]);
        r->of[n] = i;
        r->options[i].dry = n++;
    }
    r->cases_count = n;
}

static enum dew_status make_room(struct dew_run *r)
{
    struct dew_error err = {0};
    size_t keys,
        others = r->with & DEW_RUN_ALTERNATIVES ? DEW_OTHERWISES * r->count : 0;
    size_t room = 2 * r->count + (others < RUN__OTHERS ? others : RUN__OTHERS);

    core__fail(&err, DEW_ERANGE, "%zu options: a run has at most %d", r->count,
               (RUN__MOST - RUN__OTHERS) / 2);
    if (2 * r->count + RUN__OTHERS > RUN__MOST)
        return run__fault(r, &err);
    (void)dew_scenario_fields(&keys);
    /* only what there may be, for a survey holds many runs at once */
    r->cases = calloc(room, sizeof *r->cases);
    r->choices = calloc(r->count, sizeof *r->choices);
    r->inputs = calloc(keys * r->count, sizeof *r->inputs);
    r->values = calloc(keys * r->count, sizeof *r->values);
    return r->cases != NULL && r->choices != NULL && r->inputs != NULL &&
                   r->values != NULL
               ? DEW_OK
               : run__memory(r);
}

static enum dew_status set_up(struct dew_run *r)
{
    struct dew_error err = {0};
    size_t hours;

    if (make_room(r) != DEW_OK)
        return r->status;
    if (make_cases(r, &err) != DEW_OK ||
        ((r->with & DEW_RUN_ALTERNATIVES) && add_others(r, &err) != DEW_OK))
        return run__fault(r, &err);
    for (size_t i = 0; i < r->count; i++) {
        struct run__option *o = &r->options[i];

        o->facts = dew_scenario_facts(r->scenario, o->at);
        o->costs = dew_scenario_costs(r->scenario, o->at);
    }
    add_dry_ones(r);
    (void)dew_year_hours(r->year, &hours);
    dew_report_span(hours, r->span, sizeof r->span);
    return r->with & DEW_RUN_LAYOUTS ? run__layouts(r) : DEW_OK;
}

/* ---- the run ------------------------------------------------------------------ */

enum dew_status dew_run_open(struct dew_run **run,
                             const struct dew_run_ask *ask,
                             struct dew_faults *faults)
{
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_run *r = calloc(1, sizeof *r);
    enum dew_status status;

    *run = NULL;
    if (r == NULL)
        return core__fault(faults, &err);
    r->ask = ask;
    r->faults = faults;
    r->job = ask->job;
    r->threads = ask->threads;
    r->kept = ask->kept;
    r->with = ask->job == DEW_RUN_MARCH ? ask->with : 0;
    if (run__read(r) == DEW_OK && run__pick(r) == DEW_OK) {
        if (r->job == DEW_RUN_DUCTS)
            run__layouts(r);
        else if (r->job != DEW_RUN_CHECK)
            set_up(r);
    }
    status = r->status;
    r->ask = NULL;
    r->faults = NULL;
    if (status == DEW_OK)
        *run = r;
    else
        dew_run_close(r);
    return status;
}

void dew_run_close(struct dew_run *run)
{
    if (run == NULL)
        return;
    dew_study_close(run->study);
    dew_report_ducts_close(run->ducts);
    free(run->cases);
    free(run->choices);
    free(run->inputs);
    free(run->values);
    free(run->options);
    free(run->hours);
    dew_log_close(run->log);
    if (!run->lent)
        dew_year_close(run->year);
    dew_scenario_close(run->scenario);
    free(run);
}

const struct dew_value *run__value(const struct dew_value *values,
                                   const char *key)
{
    size_t keys;

    return &values[dew_scenario_field(key) - dew_scenario_fields(&keys)];
}

const struct dew_scenario *dew_run_scenario(const struct dew_run *run)
{
    return run->scenario;
}

const struct dew_year *dew_run_year(const struct dew_run *run)
{
    return run->year;
}

size_t dew_run_count(const struct dew_run *run)
{
    return run->count;
}

size_t dew_run_option(const struct dew_run *run, size_t i)
{
    return run->options[i].at;
}

struct dew_case *dew_run_case(struct dew_run *run, size_t i)
{
    return &run->cases[i];
}

const char *dew_run_note(const struct dew_run *run, size_t i)
{
    return i == 0 && run->span[0] != '\0' ? run->span : NULL;
}

/* ---- the march ------------------------------------------------------------------ */

void dew_run_again(struct dew_run *run)
{
    dew_study_close(run->study);
    run->study = NULL;
    run->report.version = NULL;
}

enum dew_status run__made_year(const struct dew_run *r, int number,
                               struct dew_year **year,
                               struct dew_outdoors *outdoors,
                               struct dew_error *err)
{
    const struct dew_made how = {.seed = dew_scenario_weather(r->scenario).seed,
                                 .number = number};

    enum dew_status status = dew_made_open(&r->place, &how, year, err);

    return status == DEW_OK ? dew_scenario_outdoors(*year, outdoors, err)
                            : status;
}

enum dew_status dew_run_made(struct dew_run *run, int number,
                             struct dew_error *err)
{
    struct dew_year *year = NULL;
    enum dew_status status =
        run__made_year(run, number, &year, &run->outdoors, err);

    if (year == NULL)
        return status;
    dew_run_again(run);
    if (!run->lent)
        dew_year_close(run->year);
    run->lent = 0;
    run->year = year;
    return status == DEW_OK ? make_cases(run, err) : status;
}

static enum dew_status open_study(struct dew_run *r, struct dew_error *err)
{
    struct dew_option options[RUN__MOST];
    struct dew_weather weather = {0};
    enum dew_status status;
    size_t dates;

    add_dry_ones(r); /* of the cases as they now are */
    weather.hours = dew_year_hours(r->year, &weather.count);
    weather.dates = dew_year_dates(r->year, &dates);
    for (size_t k = 0; k < r->cases_count; k++) {
        size_t at = r->options[r->of[k]].at;

        options[k] = (struct dew_option){
            .name = dew_scenario_name(r->scenario, at),
            .c = &r->cases[k],
            .required = dew_scenario_required(r->scenario, at),
            .counts_only = k >= r->count && k < r->count + r->doubt_count,
            .prescribed_t = r->held ? r->measured.t : NULL};
    }
    status = dew_study_open(&r->study, options, r->cases_count, &weather, err);
    if (status != DEW_OK)
        return status;
    dew_study_threads(r->study, r->threads);
    return dew_study_keep(r->study, r->kept, err);
}

enum dew_status dew_run_step(struct dew_run *run, size_t hours, double *done,
                             struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    if (run->cases == NULL) {
        *done = 1;
        return DEW_OK;
    }
    if (run->study == NULL)
        status = open_study(run, err);
    return status == DEW_OK ? dew_study_step(run->study, hours, done, err)
                            : status;
}

size_t dew_run_turn(const struct dew_run *run, size_t *of)
{
    *of = run->cases_count;
    return run->study != NULL ? dew_study_turn(run->study) : 0;
}

const struct dew_outcome *dew_run_outcome(const struct dew_run *run, size_t i)
{
    size_t count = 0;
    const struct dew_outcome *o =
        run->study != NULL ? dew_study_outcomes(run->study, &count) : NULL;

    return i < count && i < run->count ? &o[i] : NULL;
}
