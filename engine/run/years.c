/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far years differ: today and the option looked at, through other made
   years of the place. */
#include <math.h>

#include "core/fail.h"
#include "run/run.h"

/* A made year and the two cases in it. */
struct another {
    struct dew_year *year;
    struct dew_outdoors outdoors;
    struct dew_case cases[2];
    struct dew_study *study;
};

static enum dew_status open_study(const struct dew_run *r,
                                  const size_t which[2], struct another *a,
                                  struct dew_error *err)
{
    struct dew_option options[2];
    struct dew_weather weather = {0};
    size_t dates;

    weather.hours = dew_year_hours(a->year, &weather.count);
    weather.dates = dew_year_dates(a->year, &dates);
    for (int k = 0; k < 2; k++) {
        size_t at = r->options[which[k]].at;

        if (dew_scenario_case(r->scenario, at, &a->outdoors, NULL, &a->cases[k],
                              err) != DEW_OK)
            return err->status;
        options[k] = (struct dew_option){
            .name = dew_scenario_name(r->scenario, at),
            .c = &a->cases[k],
            .required = dew_scenario_required(r->scenario, at)};
    }
    if (dew_study_open(&a->study, options, which[1] > 0 ? 2 : 1, &weather,
                       err) != DEW_OK)
        return err->status;
    dew_study_threads(a->study, r->threads);
    return DEW_OK;
}

static enum dew_status march(struct another *a, struct dew_error *err)
{
    double done = 0;

    while (done < 1)
        if (dew_study_step(a->study, DEW_MARCH_YEAR, &done, err) != DEW_OK)
            return err->status;
    return DEW_OK;
}

static void count_in(struct dew_report_years *y, const struct another *a)
{
    size_t marched;
    const struct dew_outcome *o = dew_study_outcomes(a->study, &marched);

    for (size_t k = 0; k < marched; k++) {
        double hours = o[k].year.too_humid;

        y->low[k] = y->count > 0 ? fmin(y->low[k], hours) : hours;
        y->high[k] = y->count > 0 ? fmax(y->high[k], hours) : hours;
    }
    y->count++;
}

enum dew_status dew_run_other_year(struct dew_run *run, int number,
                                   struct dew_error *err)
{
    struct another a = {.year = NULL};
    size_t which[2] = {0, 0};
    enum dew_status status;

    if (run->report.version == NULL || run->report.years == NULL)
        return core__fail(err, DEW_ERANGE,
                          "a file has its own years: name weather.place or "
                          "weather.monthly");
    which[1] = run->years.option = dew_report_beside_today(&run->report);
    status = run__made_year(run, number, &a.year, &a.outdoors, err);
    if (status == DEW_OK)
        status = open_study(run, which, &a, err);
    if (status == DEW_OK)
        status = march(&a, err);
    if (status == DEW_OK)
        count_in(&run->years, &a);
    dew_study_close(a.study);
    dew_year_close(a.year);
    return status;
}
