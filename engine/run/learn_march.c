/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Some draws marched through the log's hours, and what is left of the log. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"
#include "evidence/evidence.h"
#include "run/learn.h"

/* An hour, in which t is held: of the mean of a day one leaves 0.03 point where
   controls switch, as in a lead-in (march/open.h). */
enum { STEPS = 1 };

/* A block's houses. */
struct work {
    const struct dew_learn *l;
    struct run__learn_block *b;
    struct dew_case *cases;
    struct dew_change *list; /* room for the changes of one house            */
    double *rest;            /* [lanes][hours]  log less house, % RH         */
    double *day;             /* [days]  the same, means                      */
    struct run__learn_sums *sums; /* [lanes]  of readings                    */
    size_t row[RUN__LEARN_BLOCK], count; /* of the block: houses            */
};

/* ---- making --------------------------------------------------------------------- */

/* The thermostat of a house that cools, as the log has it. */
static void set_comfort(const struct dew_learn *l, struct dew_case *c)
{
    struct dew_comfort *to = &c->house.comfort;

    for (int i = 0; i < RUN__LEARN_CLOCK && l->hours.cooled; i++)
        if (!isnan(l->hours.set[i])) {
            to->cool[i] = l->hours.set[i];
            to->heat[i] = fmin(to->heat[i], to->cool[i] - 1);
        }
}

static enum dew_status blame(struct work *w, size_t k, enum dew_status status)
{
    struct dew_error *err = &w->b->err;
    char why[sizeof err->text];

    snprintf(why, sizeof why, "%s", err->text);
    snprintf(err->text, sizeof err->text, "%.200s (draw %zu)", why,
             w->b->first + k);
    return status;
}

static enum dew_status make(struct work *w)
{
    const struct dew_run *r = w->l->run;
    size_t at = r->options[0].at;

    for (size_t k = 0; k < w->b->count; k++) {
        size_t row = w->b->rows != NULL ? w->b->rows[k] : w->b->first + k;
        struct dew_changes changes =
            run__spread_changes(w->l->doubts, row, 0, w->list);
        enum dew_status status;

        run__learn_caused(w->l, row, w->b->without, &changes, w->list);
        status = dew_scenario_agrees(r->scenario, at, &changes, &w->b->err);
        if (status == DEW_ERANGE && row > 0) {
            memset(&w->b->err, 0, sizeof w->b->err); /* no house */
            continue;
        }
        if (status == DEW_OK)
            status = dew_scenario_case(r->scenario, at, &r->outdoors, &changes,
                                       &w->cases[w->count], &w->b->err);
        if (status != DEW_OK)
            return blame(w, k, status);
        set_comfort(w->l, &w->cases[w->count]);
        if (w->l->seen.count == 0 && w->cases[w->count].steps_per_hour > STEPS)
            w->cases[w->count].steps_per_hour = STEPS;
        w->b->house[k] = 1;
        w->row[w->count++] = k;
    }
    return DEW_OK;
}

/* ---- marching -------------------------------------------------------------------- */

/* Houses that branch alike: their places among the cases. */
struct flight {
    size_t count, at[DEW_BUNDLE_MOST];
};

static enum dew_status open_flight(struct work *w, const struct flight *f,
                                   struct dew_bundle **bundle)
{
    const struct run__learn_hours *h = &w->l->hours;
    const struct dew_case *cases[DEW_BUNDLE_MOST];
    struct dew_weather weather[DEW_BUNDLE_MOST];
    enum dew_status status;

    for (size_t k = 0; k < f->count; k++) {
        cases[k] = &w->cases[f->at[k]];
        weather[k] =
            (struct dew_weather){h->weather, h->dates, h->count, h->light};
    }
    status = dew_bundle_open(bundle, cases, weather, f->count, 1, &w->b->err);
    if (w->l->seen.count > 0)
        return status == DEW_OK ? dew_bundle_warm_up(*bundle, NULL, &w->b->err)
                                : status;
    for (size_t k = 0; k < f->count && status == DEW_OK; k++) {
        dew_bundle_prescribe_t(*bundle, k, h->held, h->count);
        dew_bundle_prescribe_run(*bundle, k, h->run, h->count);
        dew_bundle_prescribe_blower(*bundle, k, h->fan, h->count);
        status =
            dew_bundle_begin(*bundle, k, h->start_t, h->start_rh, &w->b->err);
    }
    return status;
}

double run__learn_rh(const struct run__learn_hours *x, size_t h,
                     const struct dew_result *out)
{
    return 100 * dew_air_pv(out->w, x->weather[h].p) /
           dew_air_pws_liquid(x->t != NULL ? x->t[h] : out->t);
}

/* Log less house. */
static void take_hour(struct work *w, const struct flight *f, size_t h,
                      const struct dew_bundle *bundle)
{
    const struct run__learn_hours *x = &w->l->hours;

    for (size_t k = 0; k < f->count; k++) {
        double *to = &w->rest[k * x->count + h];
        struct dew_result out;

        *to = NAN;
        if (isnan(x->rh[h]))
            continue;
        dew_bundle_result(bundle, k, &out);
        *to = x->rh[h] - run__learn_rh(x, h, &out);
    }
}

static struct dew_learn_near near_of(const double *rest, size_t count)
{
    double n = 0, sum = 0, squares = 0;

    for (size_t h = 0; h < count; h++)
        if (!isnan(rest[h])) {
            n += 1;
            sum += rest[h];
            squares += rest[h] * rest[h];
        }
    return (struct dew_learn_near){.rmse = sqrt(squares / n), .bias = -sum / n};
}

static void take_seen(struct work *w, const struct flight *f, size_t h,
                      const struct dew_bundle *bundle)
{
    for (size_t k = 0; k < f->count && w->l->seen.of[h] != 0; k++) {
        struct dew_result out;

        dew_bundle_result(bundle, k, &out);
        run__learn_seen_hour(w->l, h, &out, &w->sums[k]);
    }
}

static void take_humid(struct work *w, const struct flight *f, size_t h,
                       const struct dew_bundle *bundle)
{
    for (size_t k = 0; k < f->count; k++) {
        struct dew_result out;

        dew_bundle_result(bundle, k, &out);
        w->b->rh[w->row[f->at[k]] * w->l->hours.count + h] =
            run__learn_rh(&w->l->hours, h, &out);
    }
}

static void land_seen(struct work *w, const struct flight *f)
{
    for (size_t k = 0; k < f->count; k++) {
        size_t row = w->row[f->at[k]];

        w->l->near[w->b->first + row] = run__learn_seen_end(
            w->l, &w->sums[k], &w->b->white[row * w->l->hours.weigh]);
    }
}

static void land(struct work *w, const struct flight *f)
{
    const struct run__learn_hours *h = &w->l->hours;

    for (size_t k = 0; k < f->count; k++) {
        const double *rest = &w->rest[k * h->count];
        size_t row = w->row[f->at[k]];

        run__learn_days(h, rest, w->day);
        evidence__whiten(&w->l->noise, w->day, h->days,
                         &w->b->white[row * h->weigh]);
        run__learn_habit_off(w->l, &w->b->white[row * h->weigh]);
        w->l->near[w->b->first + row] = near_of(rest, h->count);
    }
}

static enum dew_status fly(struct work *w, const struct flight *f)
{
    struct dew_bundle *bundle = NULL;
    size_t failed = 0;
    enum dew_status status = open_flight(w, f, &bundle);
    int seen = w->l->seen.count > 0, humid = w->b->rh != NULL;

    memset(w->sums, 0, DEW_BUNDLE_MOST * sizeof *w->sums);
    for (size_t h = 0; h < w->l->hours.count && status == DEW_OK; h++) {
        status = dew_bundle_step(bundle, h, &failed, &w->b->err);
        if (status == DEW_OK)
            (humid  ? take_humid
             : seen ? take_seen
                    : take_hour)(w, f, h, bundle);
    }
    if (status == DEW_OK && !humid)
        (seen ? land_seen : land)(w, f);
    dew_bundle_close(bundle);
    return status == DEW_OK ? DEW_OK : blame(w, w->row[f->at[failed]], status);
}

static enum dew_status march(struct work *w)
{
    unsigned char gone[RUN__LEARN_BLOCK] = {0};
    size_t lanes = (size_t)dew_bundle_lanes();
    enum dew_status status = make(w);
    struct flight f;

    while (status == DEW_OK && (f.count = dew_bundle_next(
                                    w->cases, w->count, lanes, gone, f.at)) > 0)
        status = fly(w, &f);
    return status;
}

void run__learn_march(struct dew_learn *l, struct run__learn_block *b)
{
    size_t hours = l->hours.count * DEW_BUNDLE_MOST + l->hours.days,
           room = run__spread_room(l->doubts) + l->open_count;
    struct work w = {.l = l,
                     .b = b,
                     .cases = calloc(b->count, sizeof *w.cases),
                     .list = calloc(room, sizeof *w.list),
                     .sums = calloc(DEW_BUNDLE_MOST, sizeof *w.sums),
                     .rest = calloc(hours, sizeof *w.rest)};

    if (w.rest != NULL)
        w.day = w.rest + l->hours.count * DEW_BUNDLE_MOST;
    b->white = calloc(b->count * l->hours.weigh, sizeof *b->white);
    memset(b->house, 0, sizeof b->house);
    b->status = w.cases != NULL && w.list != NULL && w.rest != NULL &&
                        w.sums != NULL && b->white != NULL
                    ? march(&w)
                    : core__fail(&b->err, DEW_EMEM, "no memory for %zu houses",
                                 b->count);
    free(w.cases);
    free(w.list);
    free(w.sums);
    free(w.rest);
}
