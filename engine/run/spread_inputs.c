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

static const struct dew_value *values_of(const struct dew_spread *s,
                                         size_t option)
{
    return dew_scenario_values(s->run->scenario, s->run->options[option].at);
}

static const struct dew_value *value_of(const struct dew_spread *s, size_t key,
                                        size_t option)
{
    return &values_of(s, option)[key];
}

/* ---- ranges ------------------------------------------------------------------ */

static int told(const struct dew_value *v)
{
    return v->given && v->origin.by != DEW_BY_DEFAULT;
}

/* Money that nobody told is in no draw and in no list of them, and with
   told_only nothing that nobody told. */
static enum dew_doubt doubt_of(const struct dew_spread *s, size_t key,
                               size_t option, struct dew_measure *ends)
{
    *ends = value_of(s, key, option)->amount;
    if ((s->told_only || is_money(&s->fields[key])) &&
        !told(value_of(s, key, option)))
        return DEW_DOUBT_NONE;
    return dew_scenario_doubt(values_of(s, option), key, ends);
}

static int drawn(const struct dew_spread *s, size_t key, size_t option)
{
    struct dew_measure ends;

    return doubt_of(s, key, option, &ends) != DEW_DOUBT_NONE;
}

static int drawn_as_told(const struct dew_spread *s, size_t key, size_t option)
{
    return told(value_of(s, key, option)) && drawn(s, key, option);
}

/* A range in one of several values. */
static int listed(const struct dew_spread *s, size_t key, size_t option)
{
    const struct dew_field *f = &s->fields[key];
    const struct dew_value *v = value_of(s, key, option);
    size_t cells = v->count * (f->kind == DEW_KIND_ROWS ? f->row_count : 1);

    if (!told(v) || (f->kind != DEW_KIND_AT && f->kind != DEW_KIND_LIST &&
                     f->kind != DEW_KIND_ROWS))
        return 0;
    for (size_t i = 0; i < cells; i++)
        if (v->items[i].amount.low < v->items[i].amount.high)
            return 1;
    return 0;
}

/* ---- the list ---------------------------------------------------------------- */

/* The first option whose value is such; the number of options where none is. */
static size_t first_that(const struct dew_spread *s, size_t key,
                         int (*such)(const struct dew_spread *s, size_t key,
                                     size_t option))
{
    size_t i = 0;

    while (i < s->options && !such(s, key, i))
        i++;
    return i;
}

static int sure(const struct dew_spread *s, size_t key, size_t option)
{
    const struct dew_field *f = &s->fields[key];

    return told(value_of(s, key, option)) &&
           (f->kind == DEW_KIND_NUMBER || f->kind == DEW_KIND_AT) &&
           !is_money(f) && !is_asked(f);
}

/* ---- without effect ------------------------------------------------------------ */

/* An option with one figure at an end of its range, or one of its words. */
struct end {
    struct dew_case c;
    double required;
};

static enum dew_status blame_end(struct dew_error *err,
                                 const struct dew_change *at)
{
    char why[sizeof err->text];

    snprintf(why, sizeof why, "%s", err->text);
    snprintf(err->text, sizeof err->text, "%.150s (at an end of %.60s)", why,
             at->path);
    return err->status;
}

/* *out stands only where *broken, of a rule between keys, is 0. */
static enum dew_status make_end(const struct dew_spread *s, size_t option,
                                const struct dew_change *at, struct end *out,
                                int *broken, struct dew_error *err)
{
    const struct dew_run *r = s->run;
    const struct dew_changes changes = {at, 1};
    size_t from = r->options[option].at;

    *broken =
        dew_scenario_agrees(r->scenario, from, &changes, NULL) == DEW_ERANGE;
    if (*broken)
        return DEW_OK;
    if (dew_scenario_case(r->scenario, from, &r->outdoors, &changes, &out->c,
                          err) != DEW_OK ||
        dew_scenario_required_with(r->scenario, from, &changes, &out->required,
                                   err) != DEW_OK)
        return blame_end(err, at);
    return DEW_OK;
}

static int same(const struct end *a, const struct end *b)
{
    return dew_bundle_same(&a->c, &b->c) &&
           !(fabs(a->required - b->required) > 0);
}

/* The other end of a range, or the next of the words that it may be; 0 after
   the last. */
static int next_end(const struct dew_spread *s, size_t key, size_t option,
                    const struct dew_measure *range, struct dew_change *at)
{
    const struct dew_value *v = value_of(s, key, option);

    if (at->how != DEW_DOUBT_WORDS) {
        int more = at->si < range->high;

        at->si = range->high;
        return more;
    }
    do
        at->si += 1;
    while (at->si <= range->high && (v->may >> (int)at->si & 1U) == 0);
    return at->si <= range->high;
}

/* *moves: 1 where two ends differ, or one breaks a rule, which others may
   keep. */
static enum dew_status try_option(const struct dew_spread *s, size_t key,
                                  size_t option, struct end *ends, int *moves,
                                  struct dew_error *err)
{
    struct dew_measure range;
    struct dew_change at = {.path = s->fields[key].path,
                            .how = doubt_of(s, key, option, &range)};
    enum dew_status status;

    *moves = 0;
    if (at.how == DEW_DOUBT_NONE)
        return DEW_OK;
    at.si = range.low;
    status = make_end(s, option, &at, &ends[0], moves, err);
    while (status == DEW_OK && !*moves &&
           next_end(s, key, option, &range, &at)) {
        status = make_end(s, option, &at, &ends[1], moves, err);
        if (status == DEW_OK && !*moves)
            *moves = !same(&ends[0], &ends[1]);
    }
    return status;
}

/* Where options have reasons apart, the one closest to the key. */
static const char *why_still(const struct dew_spread *s, size_t key)
{
    int lull = -1;

    for (size_t i = 0; i < s->options; i++) {
        int here;

        if (!drawn(s, key, i))
            continue;
        here = dew_scenario_lull(values_of(s, i), key);
        if (here < 0)
            return dew_scenario_lull_words(here);
        lull = here > lull ? here : lull;
    }
    return dew_scenario_lull_words(lull);
}

static enum dew_status mark(const struct dew_spread *s,
                            struct dew_spread_input *x, struct end *ends,
                            struct dew_error *err)
{
    enum dew_status status = DEW_OK;
    int moves = 0;

    for (size_t i = 0; i < s->options && status == DEW_OK && !moves; i++)
        status = try_option(s, x->key, i, ends, &moves, err);
    if (status == DEW_OK && !moves) {
        x->why = DEW_SPREAD_STILL;
        x->still = why_still(s, x->key);
    }
    return status;
}

static enum dew_status try_all(struct dew_spread *s, struct dew_error *err)
{
    struct end *ends = calloc(2, sizeof *ends);
    enum dew_status status = DEW_OK;

    if (ends == NULL)
        return core__fail(err, DEW_EMEM, "out of memory");
    for (size_t k = 0; k < s->input_count && status == DEW_OK; k++)
        if (s->inputs[k].why == DEW_SPREAD_DRAWN) {
            s->ranges++;
            status = mark(s, &s->inputs[k], ends, err);
        }
    free(ends);
    return status;
}

/* What is told without doubt in one option, and changes nothing where it is
   not told, is as told. */
static void forget_default(const struct dew_spread *s,
                           struct dew_spread_input *x)
{
    size_t option = first_that(s, x->key, sure);

    if (x->why != DEW_SPREAD_STILL || !x->usual || option == s->options)
        return;
    x->option = option;
    x->usual = 0;
    x->why = DEW_SPREAD_SURE;
    x->still = NULL;
}

/* ---- the inputs ---------------------------------------------------------- */

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
    s->inputs[s->input_count++] = (struct dew_spread_input){
        .key = key,
        .option = option,
        .each = differs(s, key),
        .usual = !told(value_of(s, key, option)),
        .why = is_money(&s->fields[key]) ? DEW_SPREAD_MONEY : why};
}

/* A key is listed once: as told before as usual, drawn before any other. */
static void add_key(struct dew_spread *s, size_t key)
{
    static const struct {
        int (*such)(const struct dew_spread *s, size_t key, size_t option);
        enum dew_spread_why why;
    } ways[] = {{drawn_as_told, DEW_SPREAD_DRAWN},
                {listed, DEW_SPREAD_LISTED},
                {drawn, DEW_SPREAD_DRAWN},
                {sure, DEW_SPREAD_SURE}};

    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        size_t option = first_that(s, key, ways[i].such);

        if (option < s->options) {
            add(s, key, option, ways[i].why);
            return;
        }
    }
}

/* What was told comes first: the earlier columns are the more even ones. */
static void number_columns(struct dew_spread *s)
{
    for (int usual = 0; usual <= 1; usual++)
        for (size_t k = 0; k < s->input_count; k++)
            if (s->inputs[k].why == DEW_SPREAD_DRAWN &&
                s->inputs[k].usual == usual)
                s->inputs[k].column = s->columns++;
}

enum dew_status run__spread_list(struct dew_spread *s, struct dew_error *err)
{
    size_t keys;
    enum dew_status status;

    s->fields = dew_scenario_fields(&keys);
    s->inputs = calloc(keys, sizeof *s->inputs);
    if (s->inputs == NULL)
        return core__fail(err, DEW_EMEM, "out of memory");
    for (size_t k = 0; k < keys; k++)
        add_key(s, k);
    status = try_all(s, err);
    for (size_t k = 0; k < s->input_count && status == DEW_OK; k++)
        forget_default(s, &s->inputs[k]);
    if (status == DEW_OK)
        number_columns(s);
    return status;
}

/* ---- figures ----------------------------------------------------------------- */

static double at_share(const struct dew_measure *ends, double share)
{
    const struct core__pert p = {ends->low, ends->si, ends->high};

    return core__pert_at(&p, share);
}

void run__spread_ends(struct dew_spread *s)
{
    for (size_t k = 0; k < s->input_count; k++)
        if (s->inputs[k].why == DEW_SPREAD_DRAWN)
            doubt_of(s, s->inputs[k].key, s->inputs[k].option,
                     &s->ends[s->inputs[k].column]);
}

static int same_range(const struct dew_measure *a, const struct dew_measure *b)
{
    return !(fabs(a->low - b->low) > 0 || fabs(a->si - b->si) > 0 ||
             fabs(a->high - b->high) > 0);
}

/* At a share of the column's range for its first option, worked out once. */
static double remembered(const struct dew_measure *ends, double share,
                         struct run__figure *known)
{
    if (known->share < share || known->share > share)
        *known = (struct run__figure){share, at_share(ends, share)};
    return known->value;
}

/* The beta distribution's inverse costs: options of one range share what is
   known of it; known: NULL, or of the input's column. */
static double figure_at(const struct dew_spread *s,
                        const struct dew_spread_input *input, size_t option,
                        double share, struct run__figure *known)
{
    struct dew_measure ends;
    enum dew_doubt how = doubt_of(s, input->key, option, &ends);

    if (how == DEW_DOUBT_NONE || input->why != DEW_SPREAD_DRAWN)
        return ends.si;
    if (how == DEW_DOUBT_WORDS)
        return dew_scenario_word(value_of(s, input->key, option), share);
    return known != NULL && same_range(&ends, &s->ends[input->column])
               ? remembered(&ends, share, known)
               : at_share(&ends, share);
}

double run__spread_at(const struct dew_spread *s,
                      const struct dew_spread_input *input, size_t option,
                      double share)
{
    return figure_at(s, input, option, share, NULL);
}

double dew_spread_figure(const struct dew_spread *s,
                         const struct dew_spread_input *input, size_t draw,
                         size_t option)
{
    size_t at = draw * s->columns + input->column;
    struct dew_measure ends;

    if (draw < s->draws && input->why == DEW_SPREAD_DRAWN)
        return figure_at(s, input, option, s->u[at],
                         s->figures != NULL ? &s->figures[at] : NULL);
    doubt_of(s, input->key, option, &ends);
    return ends.si;
}

enum dew_doubt run__spread_how(const struct dew_spread *s,
                               const struct dew_spread_input *input,
                               size_t option)
{
    struct dew_measure ends;

    return doubt_of(s, input->key, option, &ends);
}

size_t run__spread_room(const struct dew_spread *s)
{
    return s->columns + s->fixed.count + 1;
}

struct dew_changes run__spread_changes(const struct dew_spread *s, size_t row,
                                       size_t option, struct dew_change *list)
{
    struct dew_changes changes = {list, 0};
    struct dew_measure ends;

    for (size_t k = 0; k < s->input_count && row > 0; k++) {
        const struct dew_spread_input *x = &s->inputs[k];
        enum dew_doubt how = x->why == DEW_SPREAD_DRAWN
                                 ? doubt_of(s, x->key, option, &ends)
                                 : DEW_DOUBT_NONE;

        if (how != DEW_DOUBT_NONE)
            list[changes.count++] = (struct dew_change){
                s->fields[x->key].path,
                dew_spread_figure(s, x, row - 1, option), how};
    }
    for (size_t k = 0; k < s->fixed.count; k++)
        list[changes.count++] = s->fixed.list[k]; /* the last one stands */
    return changes;
}

int run__spread_moves(const struct dew_spread *s, size_t option)
{
    if (s->year_column < s->columns || s->model_column < s->columns)
        return 1;
    for (size_t k = 0; k < s->input_count; k++)
        if (s->inputs[k].why == DEW_SPREAD_DRAWN &&
            drawn(s, s->inputs[k].key, option))
            return 1;
    return 0;
}
