/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws that are no house: the next points of the sequence in their place. */
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "run/spread.h"

enum dew_status run__spread_agrees(const struct dew_spread *s, size_t row,
                                   struct dew_change *list,
                                   struct dew_error *err)
{
    const struct dew_run *r = s->run;
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < s->options && status == DEW_OK; i++) {
        const struct dew_changes changes = run__spread_changes(s, row, i, list);

        status =
            dew_scenario_agrees(r->scenario, r->options[i].at, &changes, err);
    }
    return status;
}

void run__spread_note(struct dew_spread *s, const struct dew_error *rule)
{
    size_t i = 0;

    while (i < s->anew_count &&
           (strcmp(s->anew[i].rule.path, rule->path) != 0 ||
            strcmp(s->anew[i].rule.text, rule->text) != 0))
        i++;
    if (i == s->anew_count && i < DEW_SPREAD_RULES)
        s->anew[s->anew_count++].rule = *rule;
    s->anew[i < s->anew_count ? i : i - 1].count++;
}

enum dew_status run__spread_too_many(const struct dew_spread *s, size_t broken,
                                     struct dew_error *err)
{
    const struct dew_spread_anew *most = &s->anew[0];

    for (size_t i = 1; i < s->anew_count; i++)
        if (s->anew[i].count > most->count)
            most = &s->anew[i];
    core__in(err, most->rule.path);
    return core__fail(err, DEW_ERANGE,
                      "%.150s (so in %zu of the first %zu houses drawn: "
                      "narrow the ranges)",
                      most->rule.text, broken, s->draws);
}

/* Points beyond the draws: those of a sequence twice as long. */
static enum dew_status further(const struct dew_spread *s, unsigned long seed,
                               double **out, struct dew_error *err)
{
    const struct core__draws d = {2 * s->draws, s->columns, seed};

    *out = calloc(d.count * d.columns, sizeof **out);
    return *out != NULL
               ? core__draw(&d, *out, err)
               : core__fail(err, DEW_EMEM, "no memory for %zu draws", d.count);
}

struct anew {
    double *u;                  /* [2 * draws][columns]                       */
    size_t next;                /* of its rows                                */
    unsigned char *broken;      /* [draws]                                    */
    struct dew_change *changes; /* room for those of one house                */
};

static void take_next(struct dew_spread *s, struct anew *a, size_t draw)
{
    memcpy(&s->u[draw * s->columns], &a->u[a->next++ * s->columns],
           s->columns * sizeof *s->u);
}

/* DEW_ERANGE for a rule; whatever else is wrong is so in every draw. */
static enum dew_status find_broken(struct dew_spread *s, struct anew *a,
                                   size_t *count, struct dew_error *err)
{
    for (size_t i = 0; i < s->draws; i++) {
        struct dew_error rule = {0};
        enum dew_status status =
            run__spread_agrees(s, 1 + i, a->changes, &rule);

        a->broken[i] = status == DEW_ERANGE;
        *count += a->broken[i];
        if (a->broken[i])
            run__spread_note(s, &rule);
        else if (status != DEW_OK) {
            *err = rule;
            return status;
        }
    }
    return 2 * *count > s->draws ? run__spread_too_many(s, *count, err)
                                 : DEW_OK;
}

static enum dew_status replace(struct dew_spread *s, struct anew *a,
                               size_t count, struct dew_error *err)
{
    for (size_t i = 0; i < s->draws; i++) {
        struct dew_error rule = {0};

        while (a->broken[i]) {
            if (a->next == 2 * s->draws)
                return run__spread_too_many(s, count, err);
            take_next(s, a, i);
            a->broken[i] =
                run__spread_agrees(s, 1 + i, a->changes, &rule) != DEW_OK;
        }
    }
    return DEW_OK;
}

enum dew_status run__spread_anew(struct dew_spread *s, unsigned long seed,
                                 struct dew_error *err)
{
    struct anew a = {.next = s->draws,
                     .broken = calloc(s->draws, 1),
                     .changes = calloc(run__spread_room(s), sizeof *a.changes)};
    enum dew_status status = DEW_OK;
    size_t count = 0;

    if (a.broken == NULL || a.changes == NULL)
        status = core__fail(err, DEW_EMEM, "out of memory");
    if (status == DEW_OK)
        status = find_broken(s, &a, &count, err);
    if (status == DEW_OK && count > 0)
        status = further(s, seed, &a.u, err);
    if (status == DEW_OK)
        status = replace(s, &a, count, err);
    free(a.u);
    free(a.broken);
    free(a.changes);
    return status;
}

/* The draw after i that is not broken; one is. */
static size_t next_whole(const struct dew_spread *s, const struct anew *a,
                         size_t i)
{
    while (a->broken[i])
        i = (i + 1) % s->draws;
    return i;
}

enum dew_status dew_spread_mend(struct dew_spread *s, struct dew_error *err)
{
    struct anew a = {.broken = calloc(s->draws + 1, 1),
                     .changes = calloc(run__spread_room(s), sizeof *a.changes)};
    enum dew_status status = DEW_OK;
    size_t count = 0;

    if (a.broken == NULL || a.changes == NULL)
        status = core__fail(err, DEW_EMEM, "out of memory");
    else if (s->marched > 0)
        status = core__fail(err, DEW_ERANGE,
                            "draws that are marched are not to be changed");
    if (status == DEW_OK)
        status = find_broken(s, &a, &count, err);
    for (size_t i = 0; i < s->draws && status == DEW_OK; i++)
        if (a.broken[i])
            memcpy(&s->u[i * s->columns],
                   &s->u[next_whole(s, &a, i) * s->columns],
                   s->columns * sizeof *s->u);
    free(a.broken);
    free(a.changes);
    return status;
}

const struct dew_spread_anew *dew_spread_anew(const struct dew_spread *spread,
                                              size_t *count)
{
    *count = spread->anew_count;
    return spread->anew;
}
