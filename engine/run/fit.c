/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A log and the outdoors beside it, to learn a house from. */
#include "dew/fit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "run/fit.h"

enum { FAULTS = 50, DRAWS = 400 };

static const double YOUNG = 2.0 * 365.25 * 86400.0; /* s */

/* ---- the scenario --------------------------------------------------------------- */

/* A key that is wanting has no place; here it need not be given.  One that
   --set gave has none either where a rule speaks of it. */
static int wanting(const struct dew_run *r, const struct dew_error *err)
{
    const struct dew_field *f = dew_scenario_field(err->path);

    return err->line == 0 && strcmp(err->source, "--set") != 0 &&
           (f == NULL ||
            run__value(dew_scenario_base(r->scenario), err->path)->origin.by !=
                DEW_BY_SET);
}

static enum dew_status take(struct dew_run *r, const char *text, size_t length,
                            const char *const *sets, size_t count)
{
    struct dew_scenario_source from = {.text = text,
                                       .length = length,
                                       .name = r->ask->name,
                                       .sets = sets,
                                       .set_count = count};
    struct dew_faults faults = run__room(r, RUN__FAULTS);

    if (dew_scenario_look(&r->scenario, &from, &faults) != DEW_OK)
        for (size_t i = 0; i < faults.count && i < faults.room; i++)
            if (r->scenario == NULL || !wanting(r, &faults.list[i]))
                run__fault(r, &faults.list[i]);
    return r->status;
}

/* With the log of the command line in the place of the scenario's. */
static enum dew_status read_scenario(struct dew_run *r,
                                     const struct dew_fit_ask *ask)
{
    const char **sets = calloc(ask->set_count + 1, sizeof *sets);
    struct dew_error err = {0};
    size_t length = 0;
    char *text = NULL;

    if (sets == NULL)
        return run__memory(r);
    for (size_t i = 0; i < ask->set_count; i++)
        sets[i] = ask->sets[i];
    sets[ask->set_count] = "log.file=named on the command line";
    if (run__text(ask->name, &text, &length, &err) != DEW_OK)
        run__fault(r, &err);
    else
        take(r, text, length, sets, ask->set_count + 1);
    free(text);
    free(sets);
    return r->status;
}

/* ---- the log and the outdoors --------------------------------------------------- */

/* Where an answer goes. */
static enum dew_status hint(struct dew_run *r, int further)
{
    enum dew_status status = r->status;
    struct dew_error err = {0};

    if (status == DEW_EUNIT)
        return run__fit_say_units(r);
    if (status == DEW_EAMBIGUOUS)
        core__fail(&err, status,
                   "answer with --set log.sensor=, log.order= or "
                   "log.clock=, or in the scenario");
    else if (status == DEW_EMISSING && further)
        core__fail(&err, status,
                   "a file of the outdoors alone is named by --set "
                   "weather.file=, or in the scenario");
    else
        return status;
    return run__fault(r, &err);
}

static enum dew_status read_log(struct dew_fit *f, const char *name,
                                const struct dew_log_ask *ask,
                                struct dew_log **log)
{
    const struct dew_text text = {.name = name};
    struct dew_run *r = f->run;
    struct dew_faults faults = run__room(r, FAULTS);

    if (dew_log_parse(log, &text, ask, &f->read, &faults) == DEW_OK)
        return DEW_OK;
    run__faults(r, &faults);
    if (r->status == DEW_EUNIT)
        run__fit_outdoor_units(f, name, ask);
    return hint(r, log != &r->log);
}

/* Every file; one of them has a humidity. */
static enum dew_status read_logs(struct dew_fit *f,
                                 const struct dew_fit_ask *ask,
                                 const struct dew_log_ask *how)
{
    int humid = 0;

    for (size_t k = 0; k < ask->log_count; k++) {
        if (read_log(f, ask->logs[k], how,
                     k > 0 ? &f->joined[k] : &f->run->log) != DEW_OK)
            return f->run->status;
        humid |= f->read.without_rh < f->read.hours;
    }
    f->logs = ask->log_count;
    return humid ? DEW_OK
                 : run__no_humidity(f->run, ask->logs[0], &f->read.file);
}

static const struct dew_value *value_of(const struct dew_fit *f,
                                        const char *key)
{
    return run__value(dew_scenario_base(f->run->scenario), key);
}

/* ---- learning -------------------------------------------------------------------- */

static int before(const struct dew_date *a, const struct dew_date *b)
{
    const int left[] = {a->year, a->month, a->day, a->hour};
    const int right[] = {b->year, b->month, b->day, b->hour};

    for (int i = 0; i < 4; i++)
        if (left[i] != right[i])
            return left[i] < right[i];
    return 0;
}

/* Hours that end before a day; what ends as it begins is a row of the day. */
static size_t earlier(const struct dew_date *dates, size_t count,
                      const struct dew_date *day)
{
    size_t n = 0;

    while (n < count && before(&dates[n], day))
        n++;
    return n > 0 && dates[n - 1].hour == 24 ? n - 1 : n;
}

static enum dew_status outside(struct dew_fit *f, struct dew_error *err)
{
    const struct dew_date *d = f->dates, *last = &d[f->count - 1];

    core__fail(err, DEW_ERANGE,
               "--until and --changed want a day within the log, %d-%02d-%02d "
               "to %d-%02d-%02d",
               d->year, d->month, d->day, last->year, last->month, last->day);
    return run__fault(f->run, err);
}

/* The days after, when the stores have settled: drawn as it was, and learned
   by themselves. */
static enum dew_status compare(struct dew_fit *f, struct dew_error *err)
{
    size_t from = f->until + 24 * DEW_FIT_SETTLES;
    const struct dew_evidence_change_ask ask = {.hours = f->hours,
                                                .from = from,
                                                .too_humid =
                                                    dew_fit_too_humid(f),
                                                .draws = DRAWS,
                                                .seed = 1};
    struct dew_evidence_ask of = {.hours = f->hours + from,
                                  .count = f->count - from,
                                  .until = f->count - from,
                                  .young = f->young,
                                  .prior = DEW_EVIDENCE_PRIOR};

    if (from >= f->count)
        return outside(f, err);
    if (dew_evidence_changed(f->evidence, &ask, &f->change, err) != DEW_OK ||
        dew_evidence_open(&f->after, &of, err) != DEW_OK)
        return run__fault(f->run, err);
    return DEW_OK;
}

static enum dew_status count_falls(struct dew_fit *f, struct dew_error *err)
{
    double outdoor = value_of(f, "limits.outdoor_carbon_dioxide")->amount.si;

    if (dew_evidence_falls(f->co2, f->until, outdoor, &f->falls[0], err) !=
            DEW_OK ||
        dew_evidence_falls(f->co2 + f->until, f->count - f->until, outdoor,
                           &f->falls[1], err) != DEW_OK)
        return run__fault(f->run, err);
    return DEW_OK;
}

static enum dew_status learn(struct dew_fit *f, const struct dew_fit_ask *ask)
{
    struct dew_evidence_ask of = {.hours = f->hours,
                                  .count = f->count,
                                  .until = f->count,
                                  .young = f->young,
                                  .prior = DEW_EVIDENCE_PRIOR};
    struct dew_error err = {0};

    core__at(&err, ask->logs[0], 0, 0);
    if (ask->until != NULL)
        of.until = earlier(f->dates, f->count, ask->until);
    if (of.until == 0 || (ask->until != NULL && of.until + 1 >= f->count))
        return outside(f, &err);
    f->until = of.until;
    if (dew_evidence_open(&f->evidence, &of, &err) != DEW_OK) {
        err.hour = 0;
        return run__fault(f->run, &err);
    }
    if (count_falls(f, &err) != DEW_OK)
        return f->run->status;
    return ask->changed && ask->until != NULL ? compare(f, &err) : DEW_OK;
}

/* ---- what was assumed -------------------------------------------------------------- */

static void note(struct dew_fit *f, const char *text, const char *of)
{
    if (f->note_count < RUN__FIT_NOTES)
        snprintf(f->notes[f->note_count++], RUN__FIT_NOTE, "%s%s", text, of);
}

static void assume(struct dew_fit *f, const struct dew_log_ask *ask)
{
    const struct dew_value *age = value_of(f, "safety.house_age");

    f->young = age->given && age->amount.si < YOUNG;
    if (f->logs == 1)
        note(f,
             f->read.taken_count > 1 ? "The mean of these sensors: "
                                     : "The sensor: ",
             f->read.taken);
    note(f,
         f->own ? "The outdoor air is the log's own"
                : "The outdoor air is that of weather.file",
         "");
    if (ask->clock == DEW_CLOCK_UNSAID)
        note(f, "The logger's clock shows standard time all year", "");
    if (!age->given)
        note(f, "The house is two years old or older (safety.house_age)", "");
    else if (f->young)
        note(f,
             "The house was under two years old when the log began "
             "(safety.house_age) and dries by itself",
             "");
    note(f,
         ask->checks > 0
             ? "The sensor's humidity was put right by log.reads"
             : "The sensors are right: an offset of theirs would be learned as "
               "the house's (log.reads puts it right)",
         "");
    note(f, "Whatever the windows, fans and people did, they go on doing", "");
}

/* ---- the fit ------------------------------------------------------------------------ */

static enum dew_status open_it(struct dew_fit *f, const struct dew_fit_ask *ask)
{
    struct run__log_answers *answers = calloc(1, sizeof *answers);

    if (answers == NULL)
        run__memory(f->run);
    else if (ask->log_count < 1 || ask->log_count > DEW_FIT_LOGS)
        run__fault(f->run, &(struct dew_error){
                               .status = DEW_ERANGE,
                               .text = "a fit takes 1 to 8 files of a log"});
    else if (read_scenario(f->run, ask) == DEW_OK &&
             run__log_answers(f->run, answers) == DEW_OK &&
             read_logs(f, ask, &answers->ask) == DEW_OK &&
             run__fit_hours(f, ask, &answers->ask) == DEW_OK) {
        assume(f, &answers->ask);
        learn(f, ask);
    }
    free(answers);
    return f->run->status;
}

enum dew_status dew_fit_open(struct dew_fit **fit,
                             const struct dew_fit_ask *ask,
                             struct dew_faults *faults)
{
    const struct dew_run_ask as_run = {.name = ask->name};
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_fit *f = calloc(1, sizeof *f);
    enum dew_status status;

    *fit = NULL;
    if (f == NULL || (f->run = calloc(1, sizeof *f->run)) == NULL) {
        free(f);
        return core__fault(faults, &err);
    }
    f->run->ask = &as_run;
    f->run->faults = faults;
    open_it(f, ask);
    status = f->run->status;
    f->run->ask = NULL;
    f->run->faults = NULL;
    if (status == DEW_OK)
        *fit = f;
    else
        dew_fit_close(f);
    return status;
}

void dew_fit_close(struct dew_fit *fit)
{
    if (fit == NULL)
        return;
    dew_evidence_close(fit->evidence);
    dew_evidence_close(fit->after);
    for (size_t k = 1; k < DEW_FIT_LOGS; k++)
        dew_log_close(fit->joined[k]);
    dew_run_close(fit->run);
    free(fit->hours);
    free(fit->dates);
    free(fit->co2);
    free(fit);
}

const struct dew_evidence *dew_fit_evidence(const struct dew_fit *fit)
{
    return fit->evidence;
}

const struct dew_evidence_hour *dew_fit_hours(const struct dew_fit *fit,
                                              size_t *count)
{
    *count = fit->count;
    return fit->hours;
}

const struct dew_date *dew_fit_dates(const struct dew_fit *fit, size_t *count)
{
    *count = fit->count;
    return fit->dates;
}

size_t dew_fit_until(const struct dew_fit *fit)
{
    return fit->until;
}

struct dew_report_fit dew_fit_told(const struct dew_fit *fit)
{
    return (struct dew_report_fit){.hours = fit->hours,
                                   .told = dew_evidence_told(fit->evidence),
                                   .dates = fit->dates,
                                   .count = fit->count,
                                   .until = fit->until,
                                   .learned =
                                       dew_evidence_learned(fit->evidence)};
}

int dew_fit_system(const struct dew_fit *fit)
{
    return dew_scenario_system(fit->run->scenario);
}

const struct dew_evidence_change *dew_fit_change(const struct dew_fit *fit)
{
    return fit->after != NULL ? &fit->change : NULL;
}

const struct dew_evidence *dew_fit_after(const struct dew_fit *fit)
{
    return fit->after;
}

const struct dew_evidence_falls *dew_fit_falls(const struct dew_fit *fit,
                                               int after)
{
    return fit->has_co2 ? &fit->falls[after != 0] : NULL;
}

static double mean_of(const double *x, size_t count)
{
    double sum = 0, n = 0;

    for (size_t k = 0; k < count; k++)
        if (!isnan(x[k])) {
            sum += x[k];
            n += 1;
        }
    return sum / n;
}

struct dew_fit_run dew_fit_run(const struct dew_fit *fit)
{
    return (struct dew_fit_run){mean_of(fit->cool, fit->count),
                                mean_of(fit->fan, fit->count)};
}

double dew_fit_too_humid(const struct dew_fit *fit)
{
    return value_of(fit, "limits.too_humid")->amount.si;
}

const char *dew_fit_note(const struct dew_fit *fit, size_t i)
{
    return i < fit->note_count ? fit->notes[i] : NULL;
}
