/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/suggest.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/size.h"
#include "run/spread.h"
#include "run/suggest.h"

/* The option that is sized, with its own core and the other one. */
static const unsigned sized[] = {RUN__BIT(heat),
                                 RUN__BIT(heat) | RUN__BIT(dehumidifier)};
enum { HOURS_A_STEP = 730, SIZED = sizeof sized / sizeof sized[0] };

struct dew_suggest {
    struct dew_run_ask from; /* shallow: whose it is stays till the end      */
    struct dew_run *house;   /* as asked, its first option alone             */
    struct dew_size *sizes[SIZED]; /* NULL: no core can be tried             */
    size_t at_size;
    struct dew_run *run; /* all of the list; NULL until the sizes are known  */
    struct dew_spread *spread;
    size_t draws, threads;
    struct run__made made[RUN__SUGGEST_MOST]; /* options 1 .. count - 1      */
    size_t made_count;
    char names[RUN__SUGGEST_MOST + 1][RUN__SUGGEST_NAME + 1];
    struct dew_suggest_option options[RUN__SUGGEST_MOST + 1];
    size_t count;
    char *text; /* of those that are left                                    */
    size_t length;
};

/* ---- opening --------------------------------------------------------------------- */

/* Airflows at which a core keeps the limits.  Where it cannot be tried there
   are none; what is wrong with the house was told before. */
static enum dew_status open_size(struct dew_suggest *s, size_t which,
                                 struct dew_faults *faults)
{
    const struct run__made made = {sized[which], 0};
    char name[RUN__SUGGEST_NAME + 1];
    const char *const names[] = {name};
    struct dew_run_ask from = s->from;
    struct dew_error list[1] = {{0}}, err = {0};
    struct dew_faults inside = {list, 1, 0};
    struct dew_size_ask ask = {
        .from = &from,
        .draws = s->draws < DEW_SUGGEST_SIZED ? s->draws : DEW_SUGGEST_SIZED,
        .seed = DEW_SPREAD_SEED,
        .threads = s->threads,
        .share = 0.8,
        .hours = NAN,
        .knobs = 1u << DEW_SIZE_flow};
    char *text;

    core__at(&err, from.name, 0, 0);
    text = run__suggest_write(s->house, &made, 1, &from.length, &err);
    if (text == NULL)
        return core__fault(faults, &err);
    run__suggest_name(s->house, &made, name);
    from.text = text;
    from.options = names;
    from.option_count = 1;
    (void)dew_size_open(&s->sizes[which], &ask, &inside);
    free(text);
    return list[0].status == DEW_EMEM ? core__fault(faults, &list[0]) : DEW_OK;
}

/* Less than a twentieth from the air asked for is no other option. */
static int is_new(const struct dew_size *size, double flow)
{
    double asked = dew_size_target(size).asked;

    return fabs(flow - asked) > 0.05 * asked;
}

double run__suggest_best(const struct dew_size_curve *c)
{
    if (c->found)
        return c->low;
    return c->points[c->nearest].does > 0 ? c->points[c->nearest].value : 0;
}

static void add_sized(struct dew_suggest *s, size_t which,
                      enum dew_size_core core, unsigned parts)
{
    const struct dew_size *size = s->sizes[which];
    const struct dew_size_curve *c =
        size != NULL ? dew_size_find(size, core, DEW_SIZE_flow) : NULL;
    double flow = c != NULL && c->count > 0
                      ? run__suggest_flow(s->house, run__suggest_best(c))
                      : 0;

    if (flow > 0 && is_new(size, flow) && s->made_count < RUN__SUGGEST_MOST)
        s->made[s->made_count++] = (struct run__made){parts, flow};
}

static void make_list(struct dew_suggest *s)
{
    unsigned parts;

    while (s->made_count < RUN__SUGGEST_MOST &&
           (parts = run__suggest_parts(s->house, s->made_count)) != 0)
        s->made[s->made_count++].parts = parts;
    for (size_t i = 0; i < SIZED; i++) {
        add_sized(s, i, DEW_SIZE_CORE_own, sized[i]);
        add_sized(s, i, DEW_SIZE_CORE_enthalpy,
                  (sized[i] & ~RUN__BIT(heat)) | RUN__BIT(enthalpy));
    }
}

static enum dew_status open_list(struct dew_suggest *s,
                                 struct dew_faults *faults)
{
    struct dew_run_ask ask = s->from;
    struct dew_error err = {0};
    enum dew_status status;
    char *text;

    make_list(s);
    core__at(&err, ask.name, 0, 0);
    text =
        run__suggest_write(s->house, s->made, s->made_count, &ask.length, &err);
    if (text == NULL)
        return core__fault(faults, &err);
    ask.text = text;
    status = dew_run_open(&s->run, &ask, faults);
    free(text);
    for (size_t i = 0; status == DEW_OK && i < s->run->count; i++) {
        snprintf(s->names[i], sizeof s->names[i], "%s",
                 dew_scenario_name(s->run->scenario, s->run->options[i].at));
        s->options[i] =
            (struct dew_suggest_option){.name = s->names[i], .by = -1};
    }
    s->count = status == DEW_OK ? s->run->count : 0;
    return status;
}

static enum dew_status open_all(struct dew_suggest *s,
                                const struct dew_run_ask *from,
                                struct dew_faults *faults)
{
    enum dew_status status;

    s->from = *from;
    s->from.job = DEW_RUN_MARCH;
    s->from.with = 0;
    s->from.option_count = 0;
    status = dew_run_open(&s->house, &s->from, faults);
    if (status == DEW_OK) {
        s->from.text = dew_scenario_text(s->house->scenario, &s->from.length);
        s->from.weather_of = s->house; /* of the sizes and the list too */
    }
    for (size_t i = 0; i < SIZED && status == DEW_OK; i++)
        status = open_size(s, i, faults);
    return status;
}

enum dew_status dew_suggest_open(struct dew_suggest **suggest,
                                 const struct dew_run_ask *from, size_t draws,
                                 struct dew_faults *faults)
{
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_suggest *s = calloc(1, sizeof *s);
    enum dew_status status;

    *suggest = NULL;
    if (s == NULL)
        return core__fault(faults, &err);
    s->draws = draws < DEW_SUGGEST_DRAWS ? draws : DEW_SUGGEST_DRAWS;
    s->threads = from->threads;
    status = open_all(s, from, faults);
    if (status == DEW_OK)
        *suggest = s;
    else
        dew_suggest_close(s);
    return status;
}

void dew_suggest_close(struct dew_suggest *s)
{
    if (s == NULL)
        return;
    dew_spread_close(s->spread);
    dew_run_close(s->run);
    for (size_t i = 0; i < SIZED; i++)
        dew_size_close(s->sizes[i]);
    dew_run_close(s->house);
    free(s->text);
    free(s);
}

/* ---- what is left out ---------------------------------------------------------------- */

/* 1 where b is no worse than a in anything. */
static int no_worse(const struct dew_suggest_option *b,
                    const struct dew_suggest_option *a)
{
    return b->outside <= a->outside && b->air >= a->air && b->does >= a->does &&
           b->cost <= a->cost;
}

/* Of two alike in everything the first stays. */
static int beaten_by(const struct dew_suggest_option *o, size_t count, size_t i)
{
    for (size_t k = 0; k < count; k++)
        if (k != i && no_worse(&o[k], &o[i]) &&
            (k < i || !no_worse(&o[i], &o[k])))
            return (int)k;
    return -1;
}

/* Whether a is to be kept before b: what will do, then less outside, then
   less money. */
static int before(const struct dew_suggest_option *a,
                  const struct dew_suggest_option *b)
{
    if (a->does < b->does || a->does > b->does)
        return a->does > b->does;
    if (a->outside < b->outside || a->outside > b->outside)
        return a->outside < b->outside;
    return a->cost < b->cost;
}

static size_t ahead_of(const struct dew_suggest_option *o, size_t count,
                       size_t i)
{
    size_t ahead = 0;

    for (size_t k = 1; k < count; k++)
        ahead += k != i && o[k].left && before(&o[k], &o[i]);
    return ahead;
}

void run__suggest_leave_out(struct dew_suggest_option *o, size_t count)
{
    int keep[RUN__SUGGEST_MOST + 1];

    for (size_t i = 0; i < count; i++) {
        o[i].by = i > 0 ? beaten_by(o, count, i) : -1;
        o[i].left = o[i].by < 0;
    }
    for (size_t i = 0; i < count; i++)
        keep[i] = i == 0 ||
                  (o[i].left && ahead_of(o, count, i) < DEW_SUGGEST_LEFT - 1);
    for (size_t i = 0; i < count; i++)
        o[i].left = keep[i];
}

void run__suggest_add(struct dew_suggest_option *o, const struct dew_drawn *h,
                      size_t houses)
{
    o->outside += (h->too_humid + h->too_dry + h->glass_wet) / (double)houses;
    o->air += h->ventilates / (double)houses;
    o->does += (h->ventilates && h->keeps) / (double)houses;
}

/* ---- the march ------------------------------------------------------------------------ */

static enum dew_status open_spread(struct dew_suggest *s, struct dew_error *err)
{
    struct dew_spread_ask ask = {
        .draws = s->draws, .seed = DEW_SPREAD_SEED, .threads = s->threads};
    enum dew_status status = run__spread_or_told(&s->spread, s->run, &ask, err);

    s->draws = ask.draws;
    return status;
}

static void sum_up(struct dew_suggest *s)
{
    const struct dew_question *q = dew_run_report(s->run, 0)->question;
    size_t houses = s->draws > 0 ? s->draws : 1;

    for (size_t i = 0; i < s->count; i++) {
        struct dew_suggest_option *o = &s->options[i];

        o->cost = dew_verdict_bill(q, i).present.likely;
        for (size_t k = 0; k < houses; k++)
            run__suggest_add(o, dew_spread_house(s->spread, k, i), houses);
    }
}

static enum dew_status finish(struct dew_suggest *s, struct dew_error *err)
{
    struct run__made left[RUN__SUGGEST_MOST];
    size_t n = 0;

    sum_up(s);
    run__suggest_leave_out(s->options, s->count);
    for (size_t i = 1; i < s->count; i++)
        if (s->options[i].left)
            left[n++] = s->made[i - 1];
    s->text = run__suggest_write(s->house, left, n, &s->length, err);
    return s->text != NULL ? DEW_OK : err->status;
}

static enum dew_status size_step(struct dew_suggest *s, double *done,
                                 struct dew_error *err)
{
    struct dew_size *size = s->sizes[s->at_size];
    enum dew_status status =
        size != NULL ? dew_size_step(size, done, err) : DEW_OK;

    s->at_size += status == DEW_OK && *done >= 1;
    return status;
}

static enum dew_status list_step(struct dew_suggest *s, struct dew_error *err)
{
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};

    if (open_list(s, &faults) != DEW_OK)
        *err = list[0];
    return err->status;
}

/* The sizes; the house as told, for what it costs; the draws. */
enum dew_status dew_suggest_step(struct dew_suggest *s, double *done,
                                 struct dew_error *err)
{
    struct dew_error inside = {0};
    enum dew_status status = DEW_OK;
    double part = 1;

    err = err != NULL ? err : &inside;
    *done = 1;
    if (s->text != NULL)
        return DEW_OK;
    if (s->at_size < SIZED) {
        double before = (double)s->at_size;

        status = size_step(s, &part, err);
        *done = 0.4 * (before + part) / SIZED;
        return status;
    }
    if (s->run == NULL) {
        *done = 0.4;
        return list_step(s, err);
    }
    if (s->spread == NULL) {
        status = dew_run_step(s->run, HOURS_A_STEP, &part, err);
        *done = 0.4 + 0.2 * part;
        if (status == DEW_OK && part >= 1)
            status = open_spread(s, err);
        return status;
    }
    status = dew_spread_step(s->spread, &part, err);
    *done = fmin(0.6 + 0.4 * part, 0.999);
    if (status == DEW_OK && part >= 1) {
        status = finish(s, err);
        *done = 1;
    }
    return status;
}

/* ---- what it came to ------------------------------------------------------------------- */

const struct dew_suggest_option *dew_suggest_options(
    const struct dew_suggest *s, size_t *count)
{
    *count = s->count;
    return s->options;
}

const char *dew_suggest_text(const struct dew_suggest *s, size_t *length)
{
    *length = s->length;
    return s->text;
}
