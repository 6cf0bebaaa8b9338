/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Why a house is as damp as it is: what may make it so, switched in the draws. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "core/parallel.h"
#include "evidence/evidence.h"
#include "run/learn.h"

#define DAY   86400.0
#define CFM   4.719474432e-4 /* m3/s */
#define GUESS "our guess"

/* clang-format off */
const struct run__learn_cause run__learn_cause_rows[] = {
/*   what                          key                                how               low         likely      high        chance  source, beside, with */
    {"wet ground under the house", "moisture.ground",                 DEW_DOUBT_RANGE, 2 / DAY,    5 / DAY,    15 / DAY,   0.20, GUESS ", within published figures, which reach 50 kg/day", NULL, NULL},
    {"laundry or dryer indoors",   "moisture.laundry_dried_indoors",  DEW_DOUBT_RANGE, 0.3 / DAY,  0.7 / DAY,  1.5 / DAY,  0.20, GUESS, NULL, NULL},
    {"long or many showers",       "moisture.shower_water",           DEW_DOUBT_RANGE, 0.6,        0.9,        2.0,        0.15, GUESS ", within published figures, 0.24 to 2.6 kg", NULL, NULL},
    {"more people than bedrooms",  "people.count",                    DEW_DOUBT_TIMES, 1.25,       1.5,        2.5,        0.10, GUESS, NULL, NULL},
    {"many plants",                "moisture.plants",                 DEW_DOUBT_RANGE, 12,         25,         60,         0.10, GUESS, NULL, NULL},
    {"aquarium or open water",     "moisture.aquarium",               DEW_DOUBT_RANGE, 0.3,        0.7,        2.0,        0.05, GUESS, NULL, NULL},
    {"heater without a flue",      "moisture.burning",                DEW_DOUBT_RANGE, 1 / DAY,    3 / DAY,    8 / DAY,    0.05, GUESS ", from the water of burnt gas", NULL, NULL},
    {"water left from building",   "moisture.drying",                 DEW_DOUBT_RANGE, 100,        400,        1200,       0.10, GUESS ", up to what [AO88] has of a new house", "safety.house_age", NULL},
    {"bath fan not used",          "bath_fan.run",                    DEW_DOUBT_TIMES, 0,          0,          0.2,        0.30, GUESS, NULL, NULL},
    {"range hood not used",        "range_hood.run",                  DEW_DOUBT_TIMES, 0,          0,          0.2,        0.30, GUESS, NULL, NULL},
    {"ventilator moves too little","ventilator.found",                DEW_DOUBT_RANGE, 0.1,        0.5,        0.8,        0.30, GUESS ": field studies find less than is set", NULL, NULL},
    {"windows open when warm",     "airing.flow",                     DEW_DOUBT_RANGE, 100 * CFM,  250 * CFM,  800 * CFM,  0.20, GUESS, NULL, NULL},
    {"blower runs all the time",   "cooling.blower",                  DEW_DOUBT_WORDS, DEW_BLOWER_ON, 0, 0,                0.15, GUESS, NULL, "cooling.capacity"},
    {"return ducts leak",          "ducts.leak_return",               DEW_DOUBT_RANGE, 0.03,       0.08,       0.20,       0.20, GUESS ", around [ASH-F17] 5 to 11 %", NULL, NULL},
    {NULL, NULL, DEW_DOUBT_NONE, 0, 0, 0, 0, NULL, NULL, NULL}};
/* clang-format on */

/* Of so many draws that have it, effective ones, the hours are told. */
static const double ENOUGH = 10;
/* Errors by chance below which two are not said to go together. */
static const double CHANCE = 2.5;

/* ---- which are open ---------------------------------------------------------------- */

static int told(const struct dew_learn *l, const char *path)
{
    size_t keys;
    const struct dew_value *v = &dew_scenario_values(
        l->run->scenario, l->run->options[0].at)[dew_scenario_field(path) -
                                                 dew_scenario_fields(&keys)];

    return v->given && v->origin.by != DEW_BY_DEFAULT;
}

/* How long the blower ran is in the log: no cause is to be guessed from what
   that does. */
static int logged(const struct dew_learn *l, const struct run__learn_cause *c)
{
    return l->blown && strcmp(c->key, "cooling.blower") == 0;
}

static int is_open(const struct dew_learn *l, const struct run__learn_cause *c)
{
    return !told(l, c->key) && !logged(l, c) &&
           (c->beside == NULL || !told(l, c->beside)) &&
           (c->with == NULL || told(l, c->with));
}

/* What its key becomes at a share of its size. */
static struct dew_change change_at(const struct run__learn_cause *c,
                                   double share)
{
    const struct core__pert size = {c->low, c->likely, c->high};

    return (struct dew_change){
        .path = c->key,
        .how = c->how,
        .si = c->how == DEW_DOUBT_WORDS ? c->low : core__pert_at(&size, share)};
}

/* 1 where it makes another house of the one told; cases: room for two. */
static int changes_house(const struct dew_learn *l,
                         const struct run__learn_cause *c,
                         struct dew_case *cases)
{
    const struct dew_run *r = l->run;
    size_t at = r->options[0].at;
    const struct dew_change change = change_at(c, 0.5);
    const struct dew_changes changes = {&change, 1};

    return dew_scenario_agrees(r->scenario, at, &changes, NULL) == DEW_OK &&
           dew_scenario_case(r->scenario, at, &r->outdoors, NULL, &cases[0],
                             NULL) == DEW_OK &&
           dew_scenario_case(r->scenario, at, &r->outdoors, &changes, &cases[1],
                             NULL) == DEW_OK &&
           !dew_bundle_same(&cases[0], &cases[1]);
}

enum dew_status run__learn_causes(struct dew_learn *l, struct dew_error *err)
{
    struct dew_case *cases = calloc(2, sizeof *cases);

    if (cases == NULL)
        return core__fail(err, DEW_EMEM, "out of memory");
    for (const struct run__learn_cause *c = run__learn_cause_rows;
         c->name != NULL && l->open_count < RUN__LEARN_CAUSES; c++)
        if (is_open(l, c) && changes_house(l, c, cases))
            l->open[l->open_count++] = c;
    free(cases);
    return DEW_OK;
}

/* ---- in a draw ----------------------------------------------------------------------- */

/* Where in the size of a cause a draw is, 0 .. 1; below 0: it has it not.  The
   normal score is that of both: the chance ends it above. */
static double size_of(const struct dew_learn *l, size_t draw, size_t i)
{
    double share = run__learn_share(
               evidence__rounds_at(l->rounds, draw)[l->doubts->columns + i]),
           off = 1 - l->open[i]->chance;

    return (share - off) / (1 - off);
}

int run__learn_has(const struct dew_learn *l, size_t draw, size_t cause)
{
    return cause == RUN__LEARN_CAUSES || size_of(l, draw, cause) > 0;
}

void run__learn_caused(const struct dew_learn *l, size_t row, size_t without,
                       struct dew_changes *changes, struct dew_change *list)
{
    for (size_t i = 0; i < l->open_count && row > 0; i++) {
        double size = size_of(l, row - 1, i);

        if (size > 0 && i + 1 != without)
            list[changes->count++] = change_at(l->open[i], size);
    }
}

/* ---- how likely ------------------------------------------------------------------------ */

/* Chances of causes, and of two at once. */
static double chance_of(const struct dew_learn *l, size_t a, size_t b)
{
    double sum = 0;

    for (size_t d = 0; d < l->draws; d++)
        if (run__learn_has(l, d, a) && run__learn_has(l, d, b))
            sum += l->rounds->weights[d];
    return sum;
}

/* Of the two being so: instead of each other. */
static int instead(const struct dew_learn *l, size_t a, size_t b)
{
    double p = l->causes[a].after, q = l->causes[b].after,
           spread = sqrt(p * (1 - p) * q * (1 - q)),
           least =
               fmin(DEW_LEARN_TOGETHER, -CHANCE / sqrt(l->rounds->effective));

    return spread > 0 && (chance_of(l, a, b) - p * q) / spread < least;
}

/* One name for all that are linked. */
static void rename_all(struct dew_learn *l, size_t from, size_t to)
{
    for (size_t i = 0; i < l->open_count; i++)
        if (l->causes[i].together == from)
            l->causes[i].together = to;
}

static void tell_any(struct dew_learn *l, size_t group)
{
    double before = 1, after = 0;

    for (size_t i = 0; i < l->open_count; i++)
        before *= l->causes[i].together == group ? 1 - l->causes[i].before : 1;
    for (size_t d = 0; d < l->draws; d++) {
        int any = 0;

        for (size_t i = 0; i < l->open_count && !any; i++)
            any = l->causes[i].together == group && run__learn_has(l, d, i);
        after += any ? l->rounds->weights[d] : 0;
    }
    for (size_t i = 0; i < l->open_count; i++)
        if (l->causes[i].together == group) {
            l->causes[i].any_before = 1 - before;
            l->causes[i].any_after = fmin(after, 1);
        }
}

static void tell_together(struct dew_learn *l)
{
    const size_t apart = l->open_count;
    size_t groups = 0;

    for (size_t i = 0; i < l->open_count; i++)
        l->causes[i].together = apart + 1 + i;
    for (size_t a = 0; a < l->open_count; a++)
        for (size_t b = 0; b < a; b++)
            if (instead(l, a, b))
                rename_all(l, l->causes[a].together, l->causes[b].together);
    for (size_t i = 0; i < l->open_count; i++) {
        size_t name = l->causes[i].together, alike = 0;

        for (size_t k = 0; k < l->open_count; k++)
            alike += l->causes[k].together == name;
        if (name > apart)
            rename_all(l, name, alike > 1 ? ++groups : 0);
    }
    for (size_t g = 1; g <= groups; g++)
        tell_any(l, g);
}

void run__learn_tell_causes(struct dew_learn *l)
{
    for (size_t i = 0; i < l->open_count; i++)
        l->causes[i] =
            (struct dew_learn_cause){.name = l->open[i]->name,
                                     .key = l->open[i]->key,
                                     .source = l->open[i]->source,
                                     .before = l->open[i]->chance,
                                     .after = fmin(chance_of(l, i, i), 1)};
    tell_together(l);
}

/* ---- the hours of one -------------------------------------------------------------------- */

/* Rows of draws that have it, as often as they weigh; 0 where they are worth too
   few. */
static size_t pick(const struct dew_learn *l, size_t cause, size_t *rows)
{
    const double *w = l->rounds->weights;
    double sum = 0, squares = 0;
    size_t n;

    for (size_t d = 0; d < l->draws; d++)
        if (run__learn_has(l, d, cause)) {
            sum += w[d];
            squares += w[d] * w[d];
        }
    if (!(sum * sum >= ENOUGH * squares) || !(sum > 0))
        return 0;
    n = run__learn_pick(l, cause, sum, RUN__LEARN_PAIRED, rows);
    for (size_t i = 0; i < n; i++)
        rows[i]++; /* row 0 is the house as told */
    return n;
}

/* Hours that are too humid with, less those without; with: of the log where
   there is one, which is then drier by as much as the house. */
static double hours_less(const struct dew_learn *l, const double *with,
                         const double *without)
{
    double limit = 100 * l->run->cases[0].limits.too_humid, n = 0;

    for (size_t h = 0; h < l->hours.count; h++) {
        double now = l->hours.rh != NULL ? l->hours.rh[h] : with[h];

        if (!isnan(now))
            n += (now > limit) - (now - with[h] + without[h] > limit);
    }
    return n;
}

/* h too humid as it is, of the log where there is one. */
static double hours_now(const struct dew_learn *l, const double *with)
{
    const double *now = l->hours.rh != NULL ? l->hours.rh : with;
    double limit = 100 * l->run->cases[0].limits.too_humid, n = 0;

    for (size_t h = 0; h < l->hours.count; h++)
        n += now[h] > limit;
    return n;
}

static void tell_hours(struct dew_learn *l, const struct run__learn_block *b)
{
    struct dew_learn_cause *to = &l->causes[l->timed];
    double less[RUN__LEARN_PAIRED];
    size_t n = 0, hours = l->hours.count;
    double now = 0;

    for (size_t k = 0; k < b[0].count; k++)
        if (b[0].house[k] && b[1].house[k]) {
            now += hours_now(l, &b[0].rh[k * hours]);
            less[n++] = hours_less(l, &b[0].rh[k * hours], &b[1].rh[k * hours]);
        }
    if (n == 0)
        return;
    to->humid = now / (double)n;
    to->hours = evidence__range(less, n);
    to->timed = 1;
}

struct pair {
    struct dew_learn *l;
    struct run__learn_block *blocks;
};

static void one_of_pair(void *of, size_t i)
{
    const struct pair *p = of;

    run__learn_march(p->l, &p->blocks[i]);
}

static enum dew_status march_pair(struct dew_learn *l,
                                  struct run__learn_block *b,
                                  struct dew_error *err)
{
    struct pair p = {l, b};

    core__parallel(l->threads, 2, one_of_pair, &p);
    for (int i = 0; i < 2; i++)
        if (b[i].status != DEW_OK) {
            if (err != NULL && err->status == DEW_OK)
                *err = b[i].err;
            return b[i].status;
        }
    tell_hours(l, b);
    return DEW_OK;
}

enum dew_status run__learn_time(struct dew_learn *l, struct dew_error *err)
{
    size_t rows[RUN__LEARN_PAIRED], n = pick(l, l->timed, rows);
    struct run__learn_block *b = calloc(2, sizeof *b);
    double *rh = calloc(2 * n * l->hours.count + 1, sizeof *rh);
    enum dew_status status = DEW_OK;

    if (b == NULL || rh == NULL)
        status = core__fail(err, DEW_EMEM, "no memory for %zu houses", n);
    else if (n > 0) {
        for (size_t i = 0; i < 2; i++) {
            b[i].rows = rows;
            b[i].count = n;
            b[i].without = i * (l->timed + 1);
            b[i].rh = rh + i * n * l->hours.count;
        }
        status = march_pair(l, b, err);
        free(b[0].white);
        free(b[1].white);
    }
    free(b);
    free(rh);
    l->timed++;
    return status;
}
