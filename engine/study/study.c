/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marching several options through one year, the caller driving. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "study/collect.h"

enum { NAME_ROOM = 96, MOST_OPTIONS = 256 };

struct dew_study {
    size_t options, turn; /* count, whose turn                               */
    struct dew_weather weather;
    struct dew_case *cases;
    char (*names)[NAME_ROOM];
    const double *
        *prescribed_t; /* of each option, or NULL; borrowed                */
    struct dew_outcome *outcomes;
    double *store;   /* [options][STUDY__SERIES][hours]                       */
    double *scratch; /* [hours]                                             */
    struct dew_lit *lit; /* [hours] the sun on the house whose turn it is     */
    struct dew_march *march;
    struct study__gather
        gather; /* of the option whose turn it is             */
    enum dew_status failed;
};

/* Options of the same house differ in a word at the end: keep the tail. */
static void keep_name(char *out, const char *name)
{
    size_t length = strlen(name);

    if (length >= NAME_ROOM)
        name += length - (NAME_ROOM - 1);
    memcpy(out, name, strlen(name) + 1);
}

static void keep_options(struct dew_study *s, const struct dew_option *options)
{
    for (size_t i = 0; i < s->options; i++) {
        keep_name(s->names[i], options[i].name);
        s->cases[i] = *options[i].c;
        s->prescribed_t[i] = options[i].prescribed_t;
        s->outcomes[i].name = s->names[i];
        s->outcomes[i].required = options[i].required;
        s->outcomes[i].count = s->weather.count;
    }
}

static int take_room(struct dew_study *s)
{
    size_t hours = s->weather.count;

    s->cases = calloc(s->options, sizeof *s->cases);
    s->names = calloc(s->options, sizeof *s->names);
    s->prescribed_t = calloc(s->options, sizeof *s->prescribed_t);
    s->outcomes = calloc(s->options, sizeof *s->outcomes);
    s->store = calloc(s->options * STUDY__SERIES, hours * sizeof *s->store);
    s->scratch = calloc(hours, sizeof *s->scratch);
    s->lit = calloc(hours, sizeof *s->lit);
    return s->cases && s->names && s->prescribed_t && s->outcomes && s->store &&
           s->scratch && s->lit;
}

enum dew_status dew_study_open(struct dew_study **study,
                               const struct dew_option *options, size_t count,
                               const struct dew_weather *weather,
                               struct dew_error *err)
{
    struct dew_study *s;

    *study = NULL;
    if (count == 0 || count > MOST_OPTIONS)
        return core__fail(err, DEW_ERANGE,
                          "%zu options: a study compares 1 to %d", count,
                          MOST_OPTIONS);
    if (weather->count == 0)
        return core__fail(err, DEW_ERANGE, "the weather has no hour");
    s = calloc(1, sizeof *s);
    if (s == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a study");
    s->options = count;
    s->weather = *weather;
    if (!take_room(s)) {
        dew_study_close(s);
        return core__fail(err, DEW_EMEM,
                          "no memory for %zu options of %zu hours", count,
                          weather->count);
    }
    keep_options(s, options);
    *study = s;
    return DEW_OK;
}

static int same_facades(const struct dew_thermal *a,
                        const struct dew_thermal *b)
{
    return a->facade_count == b->facade_count &&
           memcmp(a->facades, b->facades,
                  (size_t)a->facade_count * sizeof *a->facades) == 0;
}

/* The sun that the option before was in shines on this one too, where nothing
   of its facades was changed. */
static void share_sun(struct dew_study *s)
{
    const struct dew_case *c = &s->cases[s->turn];

    if (s->turn == 0 || !same_facades(&c->house.thermal, &c[-1].house.thermal))
        for (size_t h = 0; h < s->weather.count; h++)
            s->lit[h] = (struct dew_lit){NAN, NAN};
    dew_march_share_sun(s->march, s->lit, s->weather.count);
}

static enum dew_status begin_option(struct dew_study *s, struct dew_error *err)
{
    struct dew_outcome *o = &s->outcomes[s->turn];
    const struct dew_weather *w = &s->weather;
    enum dew_status status;

    s->gather = (struct study__gather){.limits = &s->cases[s->turn].limits};
    study__columns_in(&s->gather.columns, o,
                      s->store + s->turn * STUDY__SERIES * w->count, w->count);
    status = dew_march_open(&s->march, &s->cases[s->turn], &w->hours[0], err);
    if (status != DEW_OK)
        return status;
    dew_march_prescribe_t(s->march, s->prescribed_t[s->turn], w->count);
    share_sun(s);
    return dew_march_warm_up(s->march, w->hours, w->dates, w->count, &o->turns,
                             err);
}

static void end_option(struct dew_study *s)
{
    study__collect_end(&s->outcomes[s->turn], &s->gather, &s->cases[s->turn],
                       s->weather.dates, s->scratch);
    dew_march_close(s->march);
    s->march = NULL;
    s->turn++;
    s->gather.at = 0;
}

static enum dew_status one_hour(struct dew_study *s, struct dew_error *err)
{
    const struct dew_hour *hour = &s->weather.hours[s->gather.at];
    const struct dew_date *date = &s->weather.dates[s->gather.at];
    struct dew_result result;
    enum dew_status status;

    status = dew_march_step(s->march, hour, date, &result, err);
    if (status == DEW_OK)
        study__collect(&s->outcomes[s->turn], &s->gather, hour, date, &result);
    return status;
}

static enum dew_status some_hours(struct dew_study *s, size_t hours,
                                  struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    core__in(err, s->names[s->turn]); /* unless the march names a member */
    if (s->march == NULL)
        status = begin_option(s, err);
    while (status == DEW_OK && hours-- > 0 && s->gather.at < s->weather.count)
        status = one_hour(s, err);
    if (status == DEW_OK && s->gather.at == s->weather.count)
        end_option(s);
    return status;
}

enum dew_status dew_study_step(struct dew_study *s, size_t hours, double *done,
                               struct dew_error *err)
{
    if (s->failed != DEW_OK)
        return core__fail(err, s->failed, "this study has failed before");
    if (s->turn < s->options)
        s->failed = some_hours(s, hours, err);
    if (s->failed != DEW_OK)
        return s->failed;
    *done =
        ((double)s->turn + (double)s->gather.at / (double)s->weather.count) /
        (double)s->options;
    return DEW_OK;
}

size_t dew_study_turn(const struct dew_study *s)
{
    return s->turn;
}

const struct dew_outcome *dew_study_outcomes(const struct dew_study *s,
                                             size_t *count)
{
    *count = s->turn;
    return s->outcomes;
}

void dew_study_close(struct dew_study *s)
{
    if (s == NULL)
        return;
    dew_march_close(s->march);
    free(s->lit);
    free(s->scratch);
    free(s->store);
    free(s->outcomes);
    free(s->names);
    free(s->prescribed_t);
    free(s->cases);
    free(s);
}
