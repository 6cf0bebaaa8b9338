/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A log and the outdoors beside it, to learn a house from. */
#include "dew/fit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"
#include "run/run.h"

enum { FAULTS = 50, NOTES = 8, NOTE = 320 };
static const double YOUNG = 2.0 * 365.25 * 86400.0; /* s */

struct dew_fit {
    struct dew_run *run; /* scenario, outdoors, log                         */
    struct dew_log_report read;
    struct dew_log *joined[DEW_FIT_LOGS]; /* the first is run->log: NULL     */
    size_t logs;
    int own; /* 1: the outdoors are the logs' own                           */
    struct dew_evidence_hour *hours;
    struct dew_evidence *evidence;
    size_t until;
    int young;
    char notes[NOTES][NOTE];
    size_t note_count;
};

/* ---- the scenario --------------------------------------------------------------- */

/* A key that is wanting has no place; here it need not be given. */
static int wanting(const struct dew_error *err)
{
    return err->line == 0 && strcmp(err->source, "--set") != 0;
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
            if (r->scenario == NULL || !wanting(&faults.list[i]))
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

static enum dew_status read_log(struct dew_fit *f, const char *name,
                                const struct dew_log_ask *ask,
                                struct dew_log **log)
{
    const struct dew_text text = {.name = name};
    struct dew_run *r = f->run;
    struct dew_faults faults = run__room(r, FAULTS);
    struct dew_error err = {0};

    if (dew_log_parse(log, &text, ask, &f->read, &faults) != DEW_OK) {
        run__faults(r, &faults);
        if (r->status == DEW_EAMBIGUOUS) {
            core__fail(&err, r->status,
                       "answer with --set log.sensor=, log.order= or "
                       "log.clock=, or in the scenario");
            run__fault(r, &err);
        }
        return r->status;
    }
    return DEW_OK;
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

static enum dew_status no_outdoors(struct dew_run *r, const char *log)
{
    struct dew_error err = {0};

    core__at(&err, log, 0, 0);
    core__fail(&err, DEW_EMISSING,
               "no outdoor temperature and humidity beside the indoor ones: "
               "give the weather of the log's own days as weather.file, in the "
               "scenario or with --set weather.file=FILE");
    return run__fault(r, &err);
}

/* ---- hours ----------------------------------------------------------------------- */

/* A log's figures at the hours of the first, where there are none yet. */
static void lay(const struct dew_fit *f, const struct dew_log *log, double *t,
                double *rh)
{
    size_t count;
    const struct dew_log_hour *first = dew_log_hours(f->run->log, &count),
                              *of = dew_log_hours(log, &count);
    const struct dew_date *dates = dew_log_dates(log, &count);

    for (size_t h = 0; h < count; h++) {
        const struct dew_log_hour *at = dew_log_at(f->run->log, &dates[h]);

        if (at == NULL)
            continue;
        if (isnan(t[at - first]))
            t[at - first] = of[h].t;
        if (isnan(rh[at - first]))
            rh[at - first] = of[h].rh;
    }
}

/* The outdoor columns of every file; a file may have none. */
static void lay_outdoors(struct dew_fit *f, const struct dew_fit_ask *ask,
                         const struct dew_log_ask *how,
                         struct dew_log_report *read, double *t, double *rh)
{
    struct dew_log_ask outside = *how;

    outside.outdoors = 1;
    for (size_t k = 0; k < ask->log_count; k++) {
        const struct dew_text text = {.name = ask->logs[k]};
        struct dew_error list[1] = {{0}};
        struct dew_faults faults = {list, 1, 0};
        struct dew_log *log;

        if (dew_log_parse(&log, &text, &outside, read, &faults) == DEW_OK)
            lay(f, log, t, rh);
        dew_log_close(log);
    }
}

static void lay_weather(struct dew_fit *f)
{
    size_t count;
    const struct dew_log_hour *first = dew_log_hours(f->run->log, &count);
    const struct dew_hour *out = dew_year_hours(f->run->year, &count);
    const struct dew_date *dates = dew_year_dates(f->run->year, &count);

    for (size_t h = 0; h < count; h++) {
        const struct dew_log_hour *at = dew_log_at(f->run->log, &dates[h]);

        if (at == NULL)
            continue;
        f->hours[at - first].t_out = out[h].t;
        f->hours[at - first].pv_out = dew_air_pv(out[h].w, out[h].p);
    }
}

/* How many hours have all four figures. */
static size_t whole(const struct dew_fit *f, size_t count)
{
    size_t n = 0;

    for (size_t k = 0; k < count; k++) {
        const struct dew_evidence_hour *x = &f->hours[k];

        n += (size_t)!isnan(x->t_in + x->rh + x->t_out + x->pv_out);
    }
    return n;
}

/* Indoors, all files together; t and rh of the outdoors NaN. */
static void lay_indoors(struct dew_fit *f, const struct dew_log_ask *ask,
                        double *t, double *rh)
{
    size_t count;
    const struct dew_date *dates = dew_log_dates(f->run->log, &count);

    for (size_t k = 0; k < count; k++)
        t[k] = rh[k] = NAN;
    lay(f, f->run->log, t, rh);
    for (size_t i = 1; i < f->logs; i++)
        lay(f, f->joined[i], t, rh);
    for (size_t k = 0; k < count; k++) {
        struct dew_date clock =
            dew_weather_by_clock(&dates[k], ask->clock, ask->utc_offset);

        f->hours[k] = (struct dew_evidence_hour){.t_in = t[k],
                                                 .rh = rh[k],
                                                 .t_out = NAN,
                                                 .pv_out = NAN,
                                                 .clock = clock.hour % 24};
        t[k] = rh[k] = NAN;
    }
}

static enum dew_status no_hour(struct dew_fit *f, const char *name)
{
    size_t count;
    const struct dew_date *d = dew_log_dates(f->run->log, &count);
    struct dew_error err = {0};

    core__at(&err, name, 0, 0);
    core__fail(&err, DEW_EMISSING,
               "no hour of the log has temperature, humidity and weather: the "
               "log runs from %d-%02d-%02d to %d-%02d-%02d, and the weather "
               "must be of these days",
               d[0].year, d[0].month, d[0].day, d[count - 1].year,
               d[count - 1].month, d[count - 1].day);
    return run__fault(f->run, &err);
}

/* The outdoors: the logs' own, where both t and rh are had, else the weather. */
static enum dew_status take_outdoors(struct dew_fit *f, size_t count,
                                     const double *t, const double *rh,
                                     const char *name)
{
    for (size_t k = 0; k < count; k++) {
        f->hours[k].t_out = t[k];
        f->hours[k].pv_out = rh[k] * dew_air_pws_liquid(t[k]);
        f->own |= !isnan(t[k] + rh[k]);
    }
    if (f->own)
        return DEW_OK;
    if (dew_scenario_weather(f->run->scenario).file[0] == '\0')
        return no_outdoors(f->run, name);
    if (run__weather_air(f->run) == DEW_OK)
        lay_weather(f);
    return f->run->status;
}

static enum dew_status make_hours(struct dew_fit *f,
                                  const struct dew_fit_ask *ask,
                                  const struct dew_log_ask *how)
{
    size_t count;
    struct dew_log_report *read = calloc(1, sizeof *read);
    double *t;

    (void)dew_log_hours(f->run->log, &count);
    f->hours = calloc(count, sizeof *f->hours);
    t = calloc(2 * count, sizeof *t);
    if (f->hours == NULL || t == NULL || read == NULL) {
        run__memory(f->run);
    } else {
        lay_indoors(f, how, t, t + count);
        lay_outdoors(f, ask, how, read, t, t + count);
        if (take_outdoors(f, count, t, t + count, ask->logs[0]) == DEW_OK &&
            whole(f, count) == 0)
            no_hour(f, ask->logs[0]);
    }
    free(read);
    free(t);
    return f->run->status;
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

static enum dew_status learn(struct dew_fit *f, const struct dew_fit_ask *ask)
{
    size_t count;
    const struct dew_date *dates = dew_log_dates(f->run->log, &count);
    struct dew_evidence_ask of = {.hours = f->hours,
                                  .count = count,
                                  .until = count,
                                  .young = f->young,
                                  .prior = DEW_EVIDENCE_PRIOR};
    struct dew_error err = {0};

    core__at(&err, ask->logs[0], 0, 0);
    if (ask->until != NULL)
        of.until = earlier(dates, count, ask->until);
    if (of.until == 0 || (ask->until != NULL && of.until + 1 >= count))
        return core__fail(&err, DEW_ERANGE,
                          "--until wants a day within the log, %d-%02d-%02d to "
                          "%d-%02d-%02d",
                          dates[0].year, dates[0].month, dates[0].day,
                          dates[count - 1].year, dates[count - 1].month,
                          dates[count - 1].day),
               run__fault(f->run, &err);
    f->until = of.until;
    if (dew_evidence_open(&f->evidence, &of, &err) != DEW_OK) {
        err.hour = 0;
        return run__fault(f->run, &err);
    }
    return DEW_OK;
}

/* ---- what was assumed -------------------------------------------------------------- */

static void note(struct dew_fit *f, const char *text, const char *of)
{
    if (f->note_count < NOTES)
        snprintf(f->notes[f->note_count++], NOTE, "%s%s", text, of);
}

static void assume(struct dew_fit *f, const struct dew_log_ask *ask)
{
    size_t keys;
    const struct dew_field *fields = dew_scenario_fields(&keys);
    const struct dew_value *age = &dew_scenario_base(
        f->run->scenario)[dew_scenario_field("safety.house_age") - fields];

    f->young = age->given && age->amount.si < YOUNG;
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
         "The sensors are right: an offset of theirs would be learned as "
         "the house's",
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
             make_hours(f, ask, &answers->ask) == DEW_OK) {
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
    const struct dew_run_ask as_run = {.name = ask->name, .job = DEW_RUN_CHECK};
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
    for (size_t k = 1; k < DEW_FIT_LOGS; k++)
        dew_log_close(fit->joined[k]);
    dew_run_close(fit->run);
    free(fit->hours);
    free(fit);
}

const struct dew_evidence *dew_fit_evidence(const struct dew_fit *fit)
{
    return fit->evidence;
}

const struct dew_evidence_hour *dew_fit_hours(const struct dew_fit *fit,
                                              size_t *count)
{
    (void)dew_log_hours(fit->run->log, count);
    return fit->hours;
}

const struct dew_date *dew_fit_dates(const struct dew_fit *fit, size_t *count)
{
    return dew_log_dates(fit->run->log, count);
}

size_t dew_fit_until(const struct dew_fit *fit)
{
    return fit->until;
}

int dew_fit_system(const struct dew_fit *fit)
{
    return dew_scenario_system(fit->run->scenario);
}

const char *dew_fit_note(const struct dew_fit *fit, size_t i)
{
    return i < fit->note_count ? fit->notes[i] : NULL;
}
