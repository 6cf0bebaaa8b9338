/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The work of a survey: workers that take items until there are none. */
#include "dew/survey.h"

#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/parallel.h"
#include "dew/bundle.h"
#include "survey/survey.h"

enum {
    GRAIN = 16,  /* items of one record at most, of those that march singly  */
    SHARES = 16, /* records of a worker at least, where there is so much     */
    FLIGHTS = 4, /* of those that march side by side                         */
    ROWS = 4096, /* of one record, about                                     */
    IN_HAND = 5  /* s  after which a record is put down, where there is a
                    clock: what a kill costs                                 */
};

/* ---- opening ---------------------------------------------------------------------- */

static enum dew_status open_it(struct dew_survey *s, const char *folder,
                               struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    if (folder != NULL) {
        s->folder = strdup(folder);
        if (s->folder == NULL)
            return core__fail(err, DEW_EMEM, "out of memory");
        status = survey__folder_open(s, err);
    }
    s->size = dew_survey_size(s->plan);
    s->state.items = s->size.items;
    s->state.rows = s->size.rows;
    if (status != DEW_OK || s->how == DEW_SURVEY_JOIN)
        return status;
    s->lies = calloc(s->size.items, sizeof *s->lies);
    if (s->lies == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu items",
                          s->size.items);
    return folder != NULL ? survey__find(s, err) : DEW_OK;
}

enum dew_status dew_survey_open(struct dew_survey **survey,
                                struct dew_survey_plan *plan,
                                const char *folder, enum dew_survey_how how,
                                struct dew_error *err)
{
    struct dew_survey *s = calloc(1, sizeof *s);
    struct dew_error inside = {0};
    enum dew_status status;

    *survey = NULL;
    err = err != NULL ? err : &inside;
    if (s == NULL || pthread_mutex_init(&s->lock, NULL) != 0) {
        free(s);
        return core__fail(err, DEW_EMEM, "out of memory");
    }
    s->plan = plan;
    s->how = how;
    s->directory = s->holder = -1;
    status = open_it(s, folder, err);
    if (status == DEW_OK)
        *survey = s;
    else
        dew_survey_close(s);
    return status;
}

void dew_survey_close(struct dew_survey *s)
{
    if (s == NULL)
        return;
    survey__folder_close(s);
    pthread_mutex_destroy(&s->lock);
    free(s->folder);
    free(s->lies);
    free(s);
}

struct dew_survey_state dew_survey_state(const struct dew_survey *s)
{
    return s->state;
}

/* ---- a worker ---------------------------------------------------------------------- */

struct worker {
    struct dew_survey *s;
    struct core__journal journal;
    struct survey__last last;
    struct survey__bytes bytes; /* of the record in hand                     */
    struct dew_survey_state in_hand;
    double from; /* by the clock                                             */
};

static double clock_of(const struct dew_survey *s)
{
    const struct dew_survey_watch *w = s->watch;

    return w != NULL && w->seconds != NULL ? w->seconds(w->of) : 0;
}

static void stop(struct dew_survey *s, const struct dew_error *err)
{
    pthread_mutex_lock(&s->lock);
    if (err != NULL && s->err.status == DEW_OK)
        s->err = *err;
    pthread_mutex_unlock(&s->lock);
    atomic_store(&s->stop, 1);
}

void dew_survey_add(struct dew_survey *s, const struct dew_survey_state *more)
{
    pthread_mutex_lock(&s->lock);
    s->state.done += more->done;
    s->state.faults += more->faults;
    s->state.seconds += more->seconds;
    if (s->watch != NULL && s->watch->look != NULL &&
        s->watch->look(s->watch->of, &s->state) != 0)
        atomic_store(&s->stop, 1);
    pthread_mutex_unlock(&s->lock);
}

/* The record in hand, onto the disk. */
static void put_down(struct worker *w)
{
    struct dew_error err = {0};

    if (w->in_hand.done == 0)
        return;
    w->in_hand.seconds = clock_of(w->s) - w->from;
    memcpy(w->bytes.at, &w->in_hand.seconds, sizeof w->in_hand.seconds);
    if (w->s->folder != NULL &&
        core__journal_add(&w->journal, w->bytes.at, w->bytes.length, &err) !=
            DEW_OK) {
        struct dew_error where = {0};

        core__fail(&where, err.status, "%s: %s", w->s->folder, err.text);
        stop(w->s, &where);
        return;
    }
    dew_survey_add(w->s, &w->in_hand);
}

static void pick_up(struct worker *w)
{
    const double none = 0;

    w->bytes.length = 0;
    w->in_hand = (struct dew_survey_state){0};
    w->from = clock_of(w->s);
    survey__put(&w->bytes, &none, sizeof none);
}

/* The next that are not there yet, next to one another. */
static void next_range(struct dew_survey *s, size_t range[2])
{
    size_t n = s->size.items, most = s->grain;

    if (s->most > 0 && most > s->most - s->taken)
        most = s->most - s->taken;
    while (s->next < n && s->lies[s->next].length > 0)
        s->next++;
    range[0] = s->next;
    while (s->next < n && s->lies[s->next].length == 0 &&
           s->next - range[0] < most)
        s->next++;
    range[1] = s->next;
    s->taken += range[1] - range[0];
}

int dew_survey_hand(struct dew_survey *s, size_t range[2])
{
    const struct dew_survey_share *share =
        s->watch != NULL ? s->watch->share : NULL;

    range[0] = range[1] = 0;
    pthread_mutex_lock(&s->lock);
    if (!atomic_load(&s->stop) && s->how != DEW_SURVEY_JOIN)
        next_range(s, range);
    else if (!atomic_load(&s->stop) && share != NULL)
        share->take(share->of, range);
    pthread_mutex_unlock(&s->lock);
    return range[1] > range[0];
}

/* Count what is there in the record from a byte on. */
static void count(struct worker *w, size_t at)
{
    size_t number, length;
    int fault = 0;

    for (; at < w->bytes.length; at += length) {
        length = survey__skip(w->bytes.at + at, w->bytes.length - at, &number,
                              &fault);
        w->in_hand.done++;
        w->in_hand.faults += (size_t)fault;
    }
}

static void some_items(struct worker *w, size_t first, size_t n)
{
    const struct dew_survey_state none = {0};
    struct dew_error err = {0};
    size_t before = w->bytes.length;

    if (survey__march(w->s->plan, first, n, &w->last, &w->bytes, &err) !=
        DEW_OK) {
        w->bytes.length = before;
        stop(w->s, &err);
        return;
    }
    count(w, before);
    dew_survey_add(w->s, &none);
}

static void work(struct worker *w)
{
    struct dew_survey *s = w->s;
    size_t range[2];

    while (dew_survey_hand(s, range)) {
        pick_up(w);
        for (size_t i = range[0], n; i < range[1] && !atomic_load(&s->stop);
             i += n) {
            n = survey__next(s->plan, i, range[1]);
            some_items(w, i, n);
            if (clock_of(s) - w->from > IN_HAND) {
                put_down(w);
                pick_up(w);
            }
        }
        put_down(w);
    }
}

static size_t process_of(const struct dew_survey *s)
{
    const struct dew_survey_watch *w = s->watch;

    return w != NULL && w->share != NULL ? w->share->process : 0;
}

static void one_worker(void *of, size_t i)
{
    struct dew_survey *s = of;
    struct worker w = {.s = s, .journal = {.file = -1}};
    struct dew_error err = {0}, where = {0};
    char name[32];

    survey__journal_name(process_of(s), i, name);
    if (s->folder != NULL &&
        core__journal_open(&w.journal, s->directory, name, &err) != DEW_OK) {
        core__fail(&where, err.status, "%s/%s: %s", s->folder, name, err.text);
        stop(s, &where);
        return;
    }
    work(&w);
    core__journal_close(&w.journal);
    survey__last_close(&w.last);
    free(w.bytes.at);
}

/* ---- all of them -------------------------------------------------------------------- */

/* Items of one record: of those that march side by side full lanes. */
static size_t grain_of(const struct dew_survey *s, size_t threads)
{
    size_t rows = s->size.options * (1 + s->size.draws);
    size_t together = survey__together(s->plan);
    size_t lanes = (size_t)dew_bundle_lanes();
    size_t shares = together == 1 ? SHARES : s->most > 0 ? 1 : FLIGHTS;
    size_t items = s->most > 0 ? s->most : s->size.items;
    size_t grain = items / (threads * shares);
    size_t most = together > 1 ? together : GRAIN;

    most = most < ROWS / rows ? most : ROWS / rows;
    grain = grain < most ? grain : most;
    if (together > 1 && lanes > 1 && grain > lanes)
        grain -= grain % lanes;
    return grain > 0 ? grain : 1;
}

/* March, or have it marched by others. */
static void have_marched(struct dew_survey *s, size_t threads)
{
    const struct dew_survey_share *share =
        s->watch != NULL ? s->watch->share : NULL;
    int serves = share != NULL && s->how != DEW_SURVEY_JOIN;
    size_t workers = serves && share->workers > 0 ? share->workers : threads;
    struct dew_error err = {0};

    s->grain = grain_of(s, workers);
    if (!serves)
        core__parallel(threads, threads, one_worker, s);
    else if (share->serve(share->of, s, &err) != DEW_OK)
        stop(s, &err);
}

enum dew_status dew_survey_run(struct dew_survey *s, size_t threads,
                               size_t most,
                               const struct dew_survey_watch *watch,
                               struct dew_error *err)
{
    struct dew_error inside = {0};
    enum dew_status status = DEW_OK;

    err = err != NULL ? err : &inside;
    threads = threads > 0 ? threads : core__processors();
    s->watch = watch;
    s->most = most;
    s->taken = s->next = 0;
    s->err = (struct dew_error){0};
    atomic_store(&s->stop, 0);
    have_marched(s, threads);
    s->watch = NULL;
    if (s->err.status != DEW_OK)
        return core__fail(err, s->err.status, "%s", s->err.text);
    if (s->folder != NULL && s->how != DEW_SURVEY_JOIN)
        status = survey__find(s, err);
    return status;
}

enum dew_status dew_survey_write(struct dew_survey *s, struct dew_error *err)
{
    enum dew_status status;

    if (s->folder == NULL || s->state.done < s->state.items)
        return core__fail(err, DEW_EMISSING, "%zu of %zu items are marched",
                          s->state.done, s->state.items);
    status = survey__write_csv(s, err);
    if (status == DEW_OK)
        status = survey__write_faults(s, err);
    return status == DEW_OK ? survey__write_sqlite(s, err) : status;
}

enum dew_status survey__load(const struct dew_survey *s, size_t item,
                             struct survey__bytes *room,
                             struct survey__item *out, struct dew_error *err)
{
    const struct survey__lies *l = &s->lies[item];

    if (l->length > room->room) {
        char *more = realloc(room->at, l->length);

        if (more == NULL)
            return core__fail(err, DEW_EMEM, "out of memory");
        room->at = more;
        room->room = l->length;
    }
    if (core__journal_get(s->files[l->file], l->at, room->at, l->length, err) !=
        DEW_OK)
        return err->status;
    if (survey__unpack(s->plan, room->at, l->length, out) != l->length ||
        (out->rows > 0 && out->rows != s->size.options * (1 + s->size.draws)))
        return core__fail(err, DEW_ESYNTAX,
                          "%s: item %zu is not of this survey", s->folder,
                          item + 1);
    return DEW_OK;
}
