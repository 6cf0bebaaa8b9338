/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Marching several options through one year, the caller driving.  Options that
 * branch alike march side by side in a bundle, and as many marches at once as
 * there are threads; each option's figures are what it alone would give.
 */
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/pages.h"
#include "core/parallel.h"
#include "dew/bundle.h"
#include "study/collect.h"
#include "study/kept.h"

enum { NAME_ROOM = 96, MOST_OPTIONS = 256, MOST_FLIGHTS = 64 };

/* A bundle costs as much as two or three houses alone, however few it has. */
enum { ENOUGH = 3 };

/* What marches together: one option alone, or several in a bundle. */
struct flight {
    size_t options[DEW_BUNDLE_MOST], count;
    size_t at;     /* hours done                                            */
    double *store; /* of the options that keep no hours, or NULL            */
    struct dew_march *march;
    struct dew_bundle *bundle;
    struct dew_error err; /* of this flight's thread                        */
    enum dew_status status;
};

struct dew_study {
    size_t options, threads;
    struct dew_weather weather;
    struct dew_light *light; /* of bundles                                   */
    struct dew_case *cases;
    char (*names)[NAME_ROOM];
    const double *
        *prescribed_t; /* of each option, or NULL; borrowed                */
    struct dew_outcome *outcomes;
    struct study__gather *gathers; /* of each option                        */
    unsigned char *done; /* of each option: 1 in a flight or finished        */
    size_t finished; /* options                                             */
    size_t keeping;  /* options that keep their hours                        */
    double *store;   /* [keeping][STUDY__SERIES][hours]                      */
    double **hours;  /* of each option in store; NULL: it keeps none         */
    double *scratch; /* [hours]                                             */
    const struct dew_kept *kept; /* NULL: nothing is; borrowed           */
    struct dew_outcome *spare;   /* room for one that comes or goes      */
    char (*kept_names)[DEW_KEPT_NAME]; /* of each option, with kept          */
    struct flight flights[MOST_FLIGHTS];
    size_t flying;
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

/* Numbers of the hours of an option. */
static size_t room_of(const struct dew_study *s)
{
    return STUDY__SERIES * s->weather.count;
}

static void keep_options(struct dew_study *s, const struct dew_option *options)
{
    size_t kept = 0;

    for (size_t i = 0; i < s->options; i++) {
        keep_name(s->names[i], options[i].name);
        s->cases[i] = *options[i].c;
        s->prescribed_t[i] = options[i].prescribed_t;
        s->outcomes[i].name = s->names[i];
        s->outcomes[i].required = options[i].required;
        s->outcomes[i].count = s->weather.count;
        if (!options[i].counts_only)
            s->hours[i] = s->store + room_of(s) * kept++;
    }
}

static int take_room(struct dew_study *s)
{
    size_t hours = s->weather.count;
    size_t store = (s->keeping + 1) * room_of(s) * sizeof *s->store;

    s->cases = calloc(s->options, sizeof *s->cases);
    s->names = calloc(s->options, sizeof *s->names);
    s->prescribed_t = calloc(s->options, sizeof *s->prescribed_t);
    s->outcomes = calloc(s->options, sizeof *s->outcomes);
    s->gathers = calloc(s->options, sizeof *s->gathers);
    s->done = calloc(s->options, sizeof *s->done);
    s->hours = calloc(s->options, sizeof *s->hours);
    s->store = malloc(store);
    core__few_pages(s->store, store);
    s->scratch = calloc(hours, sizeof *s->scratch);
    return s->cases && s->names && s->prescribed_t && s->outcomes &&
           s->gathers && s->done && s->hours && s->store && s->scratch;
}

/* Several bundles may march: they share the year's light. */
static enum dew_status light_up(struct dew_study *s, struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    if (s->weather.light == NULL && s->options - s->finished > ENOUGH &&
        s->weather.count >= DEW_MARCH_YEAR)
        status = dew_light_open(&s->light, &s->cases[0], &s->weather, err);
    if (s->light != NULL)
        s->weather.light = s->light;
    return status;
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
    s->threads = core__processors();
    s->weather = *weather;
    for (size_t i = 0; i < count; i++)
        s->keeping += !options[i].counts_only;
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

/* ---- who marches together ------------------------------------------------- */

/* The next option and those that branch like it.  A few go one by one, and so
   does weather of less than a year, which is led in otherwise. */
static void fill_flight(struct dew_study *s, struct flight *f)
{
    int whole = s->weather.count >= DEW_MARCH_YEAR;

    *f = (struct flight){0};
    f->count = dew_bundle_next(s->cases, s->options,
                               whole ? (size_t)dew_bundle_lanes() : 1, s->done,
                               f->options);
    while (f->count > 1 && f->count < ENOUGH)
        s->done[f->options[--f->count]] = 0;
}

static enum dew_status take_off(struct dew_study *s, struct dew_error *err)
{
    size_t left = s->options - s->finished;
    size_t most = s->threads < MOST_FLIGHTS ? s->threads : MOST_FLIGHTS;

    s->flying = 0;
    if (light_up(s, err) != DEW_OK)
        return DEW_EMEM;
    while (left > 0 && s->flying < most) {
        struct flight *f = &s->flights[s->flying++];

        fill_flight(s, f);
        left -= f->count;
    }
    return DEW_OK;
}

/* ---- one flight ----------------------------------------------------------- */

static enum dew_status open_alone(struct dew_study *s, struct flight *f)
{
    size_t i = f->options[0];
    const struct dew_weather *w = &s->weather;
    enum dew_status status =
        dew_march_open(&f->march, &s->cases[i], &w->hours[0], &f->err);

    if (status != DEW_OK)
        return status;
    dew_march_prescribe_t(f->march, s->prescribed_t[i], w->count);
    return dew_march_warm_up(f->march, w->hours, w->dates, w->count,
                             &s->outcomes[i].turns, &f->err);
}

static enum dew_status open_bundle(struct dew_study *s, struct flight *f)
{
    const struct dew_case *cases[DEW_BUNDLE_MOST];
    struct dew_weather weather[DEW_BUNDLE_MOST];
    enum dew_status status;

    for (size_t k = 0; k < f->count; k++) {
        cases[k] = &s->cases[f->options[k]];
        weather[k] = s->weather;
        s->outcomes[f->options[k]].turns = 1;
    }
    status = dew_bundle_open(&f->bundle, cases, weather, f->count, 0, &f->err);
    if (status != DEW_OK)
        return status;
    for (size_t k = 0; k < f->count; k++)
        dew_bundle_prescribe_t(f->bundle, k, s->prescribed_t[f->options[k]],
                               s->weather.count);
    return dew_bundle_warm_up(f->bundle, NULL, &f->err);
}

/* Room for the hours of a flight of which some option keeps none. */
static enum dew_status take_store(const struct dew_study *s, struct flight *f)
{
    int all = 1;

    for (size_t k = 0; k < f->count; k++)
        all = all && s->hours[f->options[k]] != NULL;
    if (all)
        return DEW_OK;
    f->store = calloc(f->count, room_of(s) * sizeof *f->store);
    core__few_pages(f->store, f->count * room_of(s) * sizeof *f->store);
    return f->store != NULL
               ? DEW_OK
               : core__fail(&f->err, DEW_EMEM, "no memory for %zu hours",
                            s->weather.count);
}

static enum dew_status open_flight(struct dew_study *s, struct flight *f)
{
    if (take_store(s, f) != DEW_OK)
        return DEW_EMEM;
    for (size_t k = 0; k < f->count; k++) {
        size_t i = f->options[k];

        s->gathers[i] = (struct study__gather){.limits = &s->cases[i].limits};
        study__columns_in(&s->gathers[i].columns, &s->outcomes[i],
                          s->hours[i] != NULL ? s->hours[i]
                                              : f->store + k * room_of(s),
                          s->weather.count);
    }
    return f->count > 1 ? open_bundle(s, f) : open_alone(s, f);
}

static void put_away(struct dew_study *s, size_t i, size_t at,
                     const struct dew_result *result)
{
    study__collect(&s->outcomes[i], &s->gathers[i], &s->weather.hours[at],
                   &s->weather.dates[at], result);
}

static enum dew_status one_hour(struct dew_study *s, struct flight *f)
{
    struct dew_result result;
    enum dew_status status;

    if (f->bundle == NULL) {
        status = dew_march_step(f->march, &s->weather.hours[f->at],
                                &s->weather.dates[f->at], &result, &f->err);
        if (status == DEW_OK)
            put_away(s, f->options[0], f->at, &result);
        return status;
    }
    status = dew_bundle_step(f->bundle, f->at, NULL, &f->err);
    for (size_t k = 0; k < f->count && status == DEW_OK; k++) {
        dew_bundle_result(f->bundle, k, &result);
        put_away(s, f->options[k], f->at, &result);
    }
    return status;
}

static void close_flight(struct flight *f)
{
    dew_march_close(f->march);
    dew_bundle_close(f->bundle);
    free(f->store);
    f->march = NULL;
    f->bundle = NULL;
    f->store = NULL;
}

/* Each option of a flight that failed, alone: the first that fails says why. */
static void ask_why(struct dew_study *s, struct flight *f)
{
    struct flight all = *f;

    close_flight(f);
    for (size_t k = 0; k < all.count; k++) {
        *f = (struct flight){.options = {all.options[k]}, .count = 1};
        core__in(&f->err, s->names[all.options[k]]);
        f->status = open_alone(s, f);
        while (f->status == DEW_OK && f->at < s->weather.count) {
            struct dew_result r;

            f->status = dew_march_step(f->march, &s->weather.hours[f->at],
                                       &s->weather.dates[f->at], &r, &f->err);
            f->at++;
        }
        close_flight(f);
        if (f->status != DEW_OK)
            return;
    }
    f->status = all.status;
    f->err = all.err;
}

static void some_hours(struct dew_study *s, struct flight *f, size_t hours)
{
    core__in(&f->err, s->names[f->options[0]]); /* or the march's member */
    if (f->march == NULL && f->bundle == NULL)
        f->status = open_flight(s, f);
    while (f->status == DEW_OK && hours-- > 0 && f->at < s->weather.count) {
        f->status = one_hour(s, f);
        f->at++;
    }
    if (f->status != DEW_OK && f->count > 1)
        ask_why(s, f);
}

/* ---- what is kept ---------------------------------------------------------- */

/* All that an option comes to depends on its case, the hours and what is held
   in them, and the fresh air asked for. */
static void name_kept(const struct dew_study *s, size_t i, const char *weather,
                      char out[DEW_KEPT_NAME])
{
    const struct dew_outcome *o = &s->outcomes[i];
    struct study__name name =
        study__name_of("year of an option",
                       sizeof *o + (s->hours[i] != NULL ? room_of(s) : 0));

    study__name_add(&name, weather, DEW_KEPT_NAME);
    study__name_add(&name, &o->required, sizeof o->required);
    study__name_case(&name, &s->cases[i]);
    study__name_end(&name, out);
}

/* The outcome without what points elsewhere, and its hours where it has any. */
static size_t parts_of(const struct dew_study *s, size_t i,
                       struct dew_outcome *o, struct dew_kept_part parts[2])
{
    parts[0] = (struct dew_kept_part){o, sizeof *o};
    parts[1] =
        (struct dew_kept_part){s->hours[i], room_of(s) * sizeof *s->store};
    return s->hours[i] != NULL ? 2 : 1;
}

static void put_kept(const struct dew_study *s, size_t i)
{
    struct dew_kept_part parts[2];

    *s->spare = s->outcomes[i];
    s->spare->name = NULL;
    s->spare->series = (struct dew_series){0};
    s->kept->put(s->kept->of, s->kept_names[i], parts,
                 parts_of(s, i, s->spare, parts));
}

static int get_kept(struct dew_study *s, size_t i)
{
    struct dew_outcome *had = s->spare, *is = &s->outcomes[i];
    struct study__columns columns;
    struct dew_kept_part parts[2];

    if (!s->kept->get(s->kept->of, s->kept_names[i], parts,
                      parts_of(s, i, had, parts)))
        return 0;
    had->name = is->name;
    had->required = is->required;
    had->count = is->count;
    *is = *had;
    if (s->hours[i] != NULL)
        study__columns_in(&columns, is, s->hours[i], s->weather.count);
    return 1;
}

enum dew_status dew_study_keep(struct dew_study *s, const struct dew_kept *kept,
                               struct dew_error *err)
{
    char weather[DEW_KEPT_NAME] = "";

    if (kept == NULL)
        return DEW_OK;
    s->kept_names = calloc(s->options, sizeof *s->kept_names);
    s->spare = malloc(sizeof *s->spare);
    if (s->kept_names == NULL || s->spare == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a study");
    s->kept = kept;
    for (size_t i = 0; i < s->options; i++) {
        if (i == 0 || s->prescribed_t[i] != s->prescribed_t[i - 1])
            study__name_weather(&s->weather, s->prescribed_t[i], weather);
        name_kept(s, i, weather, s->kept_names[i]);
        if (get_kept(s, i)) {
            s->done[i] = 1;
            s->finished++;
        }
    }
    return DEW_OK;
}

/* ---- the end of a flight ---------------------------------------------------- */

static void land(struct dew_study *s, struct flight *f)
{
    for (size_t k = 0; k < f->count; k++) {
        size_t i = f->options[k];

        study__collect_end(&s->outcomes[i], &s->gathers[i], &s->cases[i],
                           s->weather.dates, s->scratch);
        if (s->hours[i] == NULL)
            s->outcomes[i].series = (struct dew_series){0};
        if (s->kept != NULL)
            put_kept(s, i);
    }
    close_flight(f);
    s->finished += f->count;
}

/* ---- all of them ---------------------------------------------------------- */

/* A job of core__parallel: hours of one flight. */
struct leg {
    struct dew_study *study;
    size_t hours;
};

static void one_flight(void *of, size_t i)
{
    const struct leg *leg = of;

    some_hours(leg->study, &leg->study->flights[i], leg->hours);
}

/* So many hours of each flight; the first that failed tells. */
static enum dew_status fly(struct dew_study *s, size_t hours,
                           struct dew_error *err)
{
    int arrived = 1;

    if (s->flying == 0 && take_off(s, err) != DEW_OK)
        return DEW_EMEM;
    core__parallel(s->threads, s->flying, one_flight, &(struct leg){s, hours});
    for (size_t i = 0; i < s->flying; i++) {
        if (s->flights[i].status != DEW_OK) {
            if (err != NULL && err->status == DEW_OK)
                *err = s->flights[i].err;
            return s->flights[i].status;
        }
        arrived = arrived && s->flights[i].at == s->weather.count;
    }
    for (size_t i = 0; i < s->flying && arrived; i++)
        land(s, &s->flights[i]);
    s->flying = arrived ? 0 : s->flying;
    return DEW_OK;
}

/* Hours of all options that are done, of all. */
static double share_done(const struct dew_study *s)
{
    size_t hours = s->finished * s->weather.count;

    for (size_t i = 0; i < s->flying; i++)
        hours += s->flights[i].at * s->flights[i].count;
    return (double)hours / (double)(s->options * s->weather.count);
}

void dew_study_threads(struct dew_study *s, size_t threads)
{
    s->threads = threads > 0 ? threads : core__processors();
}

enum dew_status dew_study_step(struct dew_study *s, size_t hours, double *done,
                               struct dew_error *err)
{
    if (s->failed != DEW_OK)
        return core__fail(err, s->failed, "this study has failed before");
    if (s->finished < s->options)
        s->failed = fly(s, hours, err);
    if (s->failed == DEW_OK)
        *done = share_done(s);
    return s->failed;
}

/* The first option that is not finished: it waits, or is in a flight. */
static size_t first_missing(const struct dew_study *s)
{
    size_t first = s->options;

    for (size_t i = s->options; i-- > 0;)
        first = s->done[i] ? first : i;
    for (size_t i = 0; i < s->flying; i++)
        for (size_t k = 0; k < s->flights[i].count; k++)
            if (s->flights[i].options[k] < first)
                first = s->flights[i].options[k];
    return first;
}

size_t dew_study_turn(const struct dew_study *s)
{
    return s->finished;
}

const struct dew_outcome *dew_study_outcomes(const struct dew_study *s,
                                             size_t *count)
{
    *count = first_missing(s);
    return s->outcomes;
}

void dew_study_close(struct dew_study *s)
{
    if (s == NULL)
        return;
    for (size_t i = 0; i < s->flying; i++)
        close_flight(&s->flights[i]);
    dew_light_close(s->light);
    free(s->kept_names);
    free(s->spare);
    free(s->scratch);
    free(s->store);
    free(s->hours);
    free(s->done);
    free(s->gathers);
    free(s->outcomes);
    free(s->names);
    free(s->prescribed_t);
    free(s->cases);
    free(s);
}
