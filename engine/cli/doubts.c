/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the options leave open, marched the other ways. */
#include "cli/doubts.h"

#include <stdlib.h>

enum { HOURS_A_STEP = 8784 };

/* The cases that differ from the options' own. */
static int make_others(struct dew__doubts *d, const struct dew__job *job,
                       const size_t *which, size_t count)
{
    struct dew_error err = {0};

    for (size_t i = 0; i < count; i++)
        for (int how = 0; how < DEW_OTHERWISES && d->count < DEW__DOUBTS;
             how++) {
            struct dew_another *x = &d->cases[d->count];

            x->how = (enum dew_otherwise)how;
            if (dew_scenario_otherwise(job->scenario, which[i], &job->outdoors,
                                       x, &err) != DEW_OK)
                return dew__cli_error(&err);
            if (!x->open)
                continue;
            d->list[d->count++] =
                (struct dew_report_doubt){.option = i, .how = x->how};
        }
    return DEW__DONE;
}

static int open_study(struct dew__doubts *d, const struct dew__job *job,
                      const size_t *which)
{
    struct dew_option options[DEW__DOUBTS];
    struct dew_error err = {0};
    struct dew_weather weather;
    size_t dates;

    weather.hours = dew_year_hours(job->year, &weather.count);
    weather.dates = dew_year_dates(job->year, &dates);
    for (size_t k = 0; k < d->count; k++) {
        size_t i = which[d->list[k].option];

        options[k] = (struct dew_option){
            .name = dew_scenario_name(job->scenario, i),
            .c = &d->cases[k].c,
            .required = dew_scenario_required(job->scenario, i),
            .held = job->held ? job->measured.t : NULL};
    }
    if (dew_study_open(&d->study, options, d->count, &weather, &err) != DEW_OK)
        return dew__cli_error(&err);
    return DEW__DONE;
}

int dew__doubts_march(struct dew__doubts *d, const struct dew__job *job,
                      const size_t *which, size_t count)
{
    struct dew_error err = {0};
    const struct dew_outcome *outcomes;
    double done = 0;
    int code;

    d->cases = calloc(DEW__DOUBTS, sizeof *d->cases);
    if (d->cases == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    code = make_others(d, job, which, count);
    if (code != DEW__DONE || d->count == 0)
        return code;
    code = open_study(d, job, which);
    while (code == DEW__DONE && done < 1)
        if (dew_study_step(d->study, HOURS_A_STEP, &done, &err) != DEW_OK)
            code = dew__cli_error(&err);
    if (code != DEW__DONE)
        return code;
    outcomes = dew_study_outcomes(d->study, &count);
    for (size_t k = 0; k < d->count; k++) {
        d->list[k].c = &d->cases[k].c;
        d->list[k].outcome = &outcomes[k];
    }
    return DEW__DONE;
}

const struct dew_outcome *dew__doubts_of(const struct dew__doubts *d, size_t i,
                                         enum dew_otherwise how)
{
    for (size_t k = 0; k < d->count; k++)
        if (d->list[k].option == i && d->list[k].how == how)
            return d->list[k].outcome;
    return NULL;
}

void dew__doubts_close(struct dew__doubts *d)
{
    dew_study_close(d->study);
    free(d->cases);
}
