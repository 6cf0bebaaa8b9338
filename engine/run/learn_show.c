/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures before and after in words. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "run/learn.h"

enum { DIGITS = 3, NUMBER = 32, VALUE = 200 };

static const struct dew_field *field_of(size_t key)
{
    size_t keys;

    return &dew_scenario_fields(&keys)[key];
}

static const struct dew_value *values_of(const struct dew_learn *l)
{
    return dew_scenario_values(l->run->scenario, l->run->options[0].at);
}

/* To three digits in its unit. */
static double rounded(const struct dew_unit *u, double si)
{
    double x = (si - u->offset) / u->factor;
    char text[NUMBER];

    dew_number_print(x, DIGITS, text, sizeof text);
    dew_number_read(text, strlen(text), &x);
    return x * u->factor + u->offset;
}

char *run__learn_typed(const struct dew_learn *l, size_t key,
                       const struct dew_measure *range, char *out, size_t size)
{
    const struct dew_field *f = field_of(key);
    struct dew_value v = values_of(l)[key], item = v;

    if (f->kind == DEW_KIND_AT && v.count == 1)
        item = v.items[0];
    if (item.unit == NULL)
        item.unit =
            dew_unit_shown(f->quantity, dew_scenario_system(l->run->scenario));
    item.amount = (struct dew_measure){rounded(item.unit, range->si),
                                       rounded(item.unit, range->low),
                                       rounded(item.unit, range->high)};
    item.given = 1;
    item.may = 0;
    if (f->kind == DEW_KIND_AT && v.count == 1)
        v.items = &item;
    else
        v = item;
    return dew_scenario_show(f, &v, 0, out, size);
}

/* The word that a choice is. */
static char *show_word(const struct dew_learn *l, size_t key, double choice,
                       char *out, size_t size)
{
    struct dew_value v = values_of(l)[key];

    v.given = 1;
    v.choice = (int)choice;
    v.may = 0;
    return dew_scenario_show(field_of(key), &v, 0, out, size);
}

static char *show_words(const struct dew_learn *l, size_t key,
                        const struct dew_evidence_range *r, char *out,
                        size_t size)
{
    char low[VALUE], high[VALUE];

    show_word(l, key, r->p10, low, sizeof low);
    show_word(l, key, r->p90, high, sizeof high);
    if (strcmp(low, high) == 0)
        snprintf(out, size, "%s", low);
    else
        snprintf(out, size, "%s or %s", low, high);
    return out;
}

/* "0.9 times the usual (0.7 to 1.1)" */
static char *show_moved(const struct dew_evidence_range *r, double factor,
                        const char *unit, char *out, size_t size)
{
    char x[NUMBER], low[NUMBER], high[NUMBER];

    double middle = fabs(r->p50) > 1e-9 * (r->p90 - r->p10) ? r->p50 : 0;

    dew_number_print(middle / factor, DIGITS, x, sizeof x);
    dew_number_print(r->p10 / factor, DIGITS, low, sizeof low);
    dew_number_print(r->p90 / factor, DIGITS, high, sizeof high);
    snprintf(out, size, "%s%s (%s to %s)", x, unit, low, high);
    return out;
}

static char *show_step(const struct dew_learn *l, const struct dew_field *f,
                       const struct dew_evidence_range *r, char *out,
                       size_t size)
{
    const struct dew_unit *u = dew_unit_shown(
        f->quantity == DEW_TEMPERATURE ? DEW_TEMPERATURE_STEP : f->quantity,
        dew_scenario_system(l->run->scenario));
    char unit[60];

    snprintf(unit, sizeof unit, " %.30s from the usual", u->name);
    return show_moved(r, u->factor, unit, out, size);
}

char *dew_learn_show(const struct dew_learn *l,
                     const struct dew_learn_input *input, int after, char *out,
                     size_t size)
{
    const struct dew_evidence_range *r = after ? &input->after : &input->before;
    const struct dew_measure range = {r->p50, r->p10, r->p90};

    switch (input->how) {
    case DEW_DOUBT_WORDS:
        return show_words(l, input->key, r, out, size);
    case DEW_DOUBT_TIMES:
        return show_moved(r, 1, " times the usual", out, size);
    case DEW_DOUBT_STEP:
        return show_step(l, field_of(input->key), r, out, size);
    case DEW_DOUBT_WITHIN:
        return show_moved(r, 1, " of -1 low to 1 high", out, size);
    default:
        return run__learn_typed(l, input->key, &range, out, size);
    }
}

char *dew_learn_sure(const struct dew_learn *l, char *out, size_t size)
{
    const struct dew_spread *s = l->doubts;
    size_t used = 0;

    out[0] = '\0';
    for (size_t k = 0; k < s->input_count; k++)
        if (s->inputs[k].why == DEW_SPREAD_SURE && used < size)
            used += (size_t)snprintf(out + used, size - used, "%s%s",
                                     used > 0 ? ", " : "",
                                     s->fields[s->inputs[k].key].path);
    return out;
}
