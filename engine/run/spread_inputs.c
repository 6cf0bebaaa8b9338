/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which figures of a scenario are doubted, and what a draw makes of them. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "run/spread.h"

static int of_group(const struct dew_field *f, const char *group)
{
    size_t n = strlen(group);

    return strncmp(f->path, group, n) == 0 && f->path[n] == '.';
}

static int is_money(const struct dew_field *f)
{
    return of_group(f, "prices") || of_group(f, "costs");
}

/* Figures that say what is asked, not how the house is. */
static int is_asked(const struct dew_field *f)
{
    return of_group(f, "weather") || of_group(f, "log") || of_group(f, "run") ||
           of_group(f, "limits");
}

static const struct dew_value *value_of(const struct dew_spread *s, size_t key,
                                        size_t option)
{
    return &dew_scenario_values(s->run->scenario,
                                s->run->options[option].at)[key];
}

/* ---- ranges ------------------------------------------------------------------ */

static int wide(const struct dew_value *v)
{
    return v->amount.low < v->amount.high;
}

/* What dew_change may change of a value that somebody gave, or NULL. */
static const struct dew_value *figure(const struct dew_field *f,
                                      const struct dew_value *v)
{
    if (!v->given || v->origin.by == DEW_BY_DEFAULT)
        return NULL;
    if (f->kind == DEW_KIND_NUMBER)
        return v;
    return f->kind == DEW_KIND_AT && v->count == 1 ? &v->items[0] : NULL;
}

static int drawn(const struct dew_field *f, const struct dew_value *v)
{
    const struct dew_value *x = figure(f, v);

    return x != NULL && wide(x);
}

/* A range in one of several values. */
static int listed(const struct dew_field *f, const struct dew_value *v)
{
    size_t cells = v->count * (f->kind == DEW_KIND_ROWS ? f->row_count : 1);

    if (!v->given || v->origin.by == DEW_BY_DEFAULT ||
        (f->kind != DEW_KIND_AT && f->kind != DEW_KIND_LIST &&
         f->kind != DEW_KIND_ROWS))
        return 0;
    for (size_t i = 0; i < cells; i++)
        if (wide(&v->items[i]))
            return 1;
    return 0;
}

/* ---- the list ---------------------------------------------------------------- */

/* The first option whose value is such; the number of options where none is. */
static size_t first_that(const struct dew_spread *s, size_t key,
                         int (*such)(const struct dew_field *f,
                                     const struct dew_value *v))
{
    size_t i = 0;

    while (i < s->options && !such(&s->fields[key], value_of(s, key, i)))
        i++;
    return i;
}

static int sure(const struct dew_field *f, const struct dew_value *v)
{
    return v->given && v->origin.by != DEW_BY_DEFAULT &&
           (f->kind == DEW_KIND_NUMBER || f->kind == DEW_KIND_AT) &&
           !is_money(f) && !is_asked(f);
}

static int differs(const struct dew_spread *s, size_t key)
{
    for (size_t i = 0; i < s->options; i++)
        if (value_of(s, key, i)->origin.by == DEW_BY_OPTION)
            return 1;
    return 0;
}

static void add(struct dew_spread *s, size_t key, size_t option,
                enum dew_spread_why why)
{
    struct dew_spread_input *x = &s->inputs[s->input_count++];
    int money = is_money(&s->fields[key]);

    *x = (struct dew_spread_input){.key = key,
                                   .option = option,
                                   .each = differs(s, key),
                                   .why = money ? DEW_SPREAD_MONEY : why};
    if (x->why == DEW_SPREAD_DRAWN)
        x->column = s->columns++;
}

enum dew_status run__spread_list(struct dew_spread *s, struct dew_error *err)
{
    size_t keys;

    s->fields = dew_scenario_fields(&keys);
    s->inputs = calloc(keys, sizeof *s->inputs);
    if (s->inputs == NULL)
        return core__fail(err, DEW_EMEM, "out of memory");
    for (size_t k = 0; k < keys; k++) {
        size_t by_draw = first_that(s, k, drawn);
        size_t by_list = first_that(s, k, listed);
        size_t by_none = first_that(s, k, sure);

        if (by_draw < s->options)
            add(s, k, by_draw, DEW_SPREAD_DRAWN);
        else if (by_list < s->options)
            add(s, k, by_list, DEW_SPREAD_LISTED);
        else if (by_none < s->options)
            add(s, k, by_none, DEW_SPREAD_SURE);
    }
    return DEW_OK;
}

/* ---- figures ----------------------------------------------------------------- */

static double at_share(const struct dew_value *v, double share)
{
    const struct core__pert p = {v->amount.low, v->amount.si, v->amount.high};

    return core__pert_at(&p, share);
}

double dew_spread_figure(const struct dew_spread *s,
                         const struct dew_spread_input *input, size_t draw,
                         size_t option)
{
    const struct dew_value *v = value_of(s, input->key, option);
    const struct dew_value *x = figure(&s->fields[input->key], v);

    if (x == NULL)
        return v->amount.si;
    return draw < s->draws && wide(x)
               ? at_share(x, s->u[draw * s->columns + input->column])
               : x->amount.si;
}

struct dew_changes run__spread_changes(const struct dew_spread *s, size_t row,
                                       size_t option, struct dew_change *list)
{
    struct dew_changes changes = {list, 0};

    for (size_t k = 0; k < s->input_count && row > 0; k++) {
        const struct dew_spread_input *x = &s->inputs[k];
        const struct dew_field *f = &s->fields[x->key];

        if (x->why == DEW_SPREAD_DRAWN && drawn(f, value_of(s, x->key, option)))
            list[changes.count++] = (struct dew_change){
                f->path, dew_spread_figure(s, x, row - 1, option)};
    }
    return changes;
}

int run__spread_moves(const struct dew_spread *s, size_t option)
{
    if (s->year_column < s->columns || s->model_column < s->columns)
        return 1;
    for (size_t k = 0; k < s->input_count; k++) {
        const struct dew_spread_input *x = &s->inputs[k];

        if (x->why == DEW_SPREAD_DRAWN &&
            drawn(&s->fields[x->key], value_of(s, x->key, option)))
            return 1;
    }
    return 0;
}

/* ---- without effect ------------------------------------------------------------ */

/* Two cases of an option, one figure of which is at either end. */
struct ends {
    struct dew_case at[2];
    double required[2];
};

static enum dew_status at_end(struct dew_error *err, const char *key, int high)
{
    char why[sizeof err->text];

    snprintf(why, sizeof why, "%s", err->text);
    snprintf(err->text, sizeof err->text, "%.150s (at the %s end of %.60s)",
             why, high ? "high" : "low", key);
    return err->status;
}

static enum dew_status make_ends(const struct dew_spread *s,
                                 const struct dew_spread_input *x,
                                 size_t option, struct ends *ends,
                                 struct dew_error *err)
{
    const struct dew_run *r = s->run;
    const struct dew_field *f = &s->fields[x->key];
    const struct dew_value *v = figure(f, value_of(s, x->key, option));
    size_t at = r->options[option].at;

    for (int e = 0; e < 2; e++) {
        const struct dew_change one = {f->path, at_share(v, e)};
        const struct dew_changes changes = {&one, 1};

        if (dew_scenario_case(r->scenario, at, &r->outdoors, &changes,
                              &ends->at[e], err) != DEW_OK ||
            dew_scenario_required_with(r->scenario, at, &changes,
                                       &ends->required[e], err) != DEW_OK)
            return at_end(err, f->path, e);
    }
    return DEW_OK;
}

/* Byte for byte: what differs in padding alone is drawn for nothing. */
static int same(const void *a, const void *b, size_t size)
{
    return memcmp(a, b, size) == 0;
}

static enum dew_status moves(const struct dew_spread *s,
                             struct dew_spread_input *x, struct ends *ends,
                             struct dew_error *err)
{
    for (size_t i = 0; i < s->options; i++) {
        if (!drawn(&s->fields[x->key], value_of(s, x->key, i)))
            continue;
        if (make_ends(s, x, i, ends, err) != DEW_OK)
            return err->status;
        if (!same(&ends->at[0], &ends->at[1], sizeof ends->at[0]) ||
            fabs(ends->required[0] - ends->required[1]) > 0)
            return DEW_OK;
    }
    x->why = DEW_SPREAD_STILL;
    return DEW_OK;
}

enum dew_status run__spread_try(struct dew_spread *s, struct dew_error *err)
{
    struct ends *ends = malloc(sizeof *ends);
    enum dew_status status = DEW_OK;

    if (ends == NULL)
        return core__fail(err, DEW_EMEM, "out of memory");
    for (size_t k = 0; k < s->input_count && status == DEW_OK; k++)
        if (s->inputs[k].why == DEW_SPREAD_DRAWN)
            status = moves(s, &s->inputs[k], ends, err);
    free(ends);
    return status;
}
