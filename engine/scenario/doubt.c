/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is in doubt of a key: a range that was told, or what its default leaves
   open. */
#include "scenario/case.h"

enum { MOST_WORDS = 32 };

static int wide(const struct dew_value *v)
{
    return v->amount.low < v->amount.high;
}

/* The one figure that a change may take the place of, or NULL. */
static const struct dew_value *figure(const struct dew_field *f,
                                      const struct dew_value *v)
{
    if (f->kind == DEW_KIND_NUMBER)
        return v;
    return f->kind == DEW_KIND_AT && v->count == 1 ? &v->items[0] : NULL;
}

static int told(const struct dew_value *v)
{
    return v->given && v->origin.by != DEW_BY_DEFAULT;
}

/* How the default of a key comes about, where a row of the library may stand
   in the place of what the key's own row says. */
static enum dew_doubt by_library(const struct dew_value *v, size_t key,
                                 enum dew_doubt otherwise)
{
    int core = scenario__typical_core(v) != NULL;
    int row;

    switch (key) {
    case KEY_cooling_seer:
    case KEY_cooling_shr:
        row = scenario__typical_cooler(v) != NULL;
        break;
    case KEY_cooling_cycling_loss: /* there a figure without a range */
        return scenario__typical_cooler(v) != NULL ? DEW_DOUBT_NONE : otherwise;
    case KEY_dehumidifier_factor:
        row = scenario__typical_dryer(v) != NULL;
        break;
    case KEY_ventilator_sensible:
    case KEY_ventilator_moisture:
        return core ? otherwise : DEW_DOUBT_NONE;
    case KEY_ventilator_cross_leakage:
    case KEY_ventilator_power:
        row = core;
        break;
    default:
        row = 0;
    }
    return row ? DEW_DOUBT_WITHIN : otherwise;
}

static int may(const struct dew_value *v, int choice)
{
    return (int)(v->may >> choice & 1U);
}

static int lowest(const struct dew_value *v)
{
    int i = 0;

    while (!may(v, i))
        i++;
    return i;
}

static int highest(const struct dew_value *v)
{
    int i = MOST_WORDS - 1;

    while (!may(v, i))
        i--;
    return i;
}

static enum dew_doubt words(const struct dew_value *v, struct dew_measure *ends)
{
    *ends = (struct dew_measure){v->choice, lowest(v), highest(v)};
    return DEW_DOUBT_WORDS;
}

int dew_scenario_word(const struct dew_value *value, double share)
{
    int count = 0, nth;

    for (int i = 0; i < MOST_WORDS; i++)
        count += may(value, i);
    if (count == 0)
        return value->choice;
    nth = (int)(share * count);
    if (nth >= count)
        nth = count - 1;
    for (int i = lowest(value);; i++)
        if (may(value, i) && nth-- == 0)
            return i;
}

enum dew_doubt dew_scenario_doubt(const struct dew_value *values, size_t key,
                                  struct dew_measure *ends)
{
    size_t count;
    const struct dew_field *f = &dew_scenario_fields(&count)[key];
    const struct dew_value *v = &values[key], *x = figure(f, v);
    enum dew_doubt how;

    if (v->may != 0)
        return words(v, ends);
    if (told(v) && (x == NULL || !wide(x)))
        return DEW_DOUBT_NONE;
    how = told(v) ? DEW_DOUBT_RANGE : by_library(values, key, f->doubt);
    if (how == DEW_DOUBT_RANGE)
        *ends = told(v) ? x->amount
                        : (struct dew_measure){v->amount.si, v->least, v->most};
    else if (how == DEW_DOUBT_WITHIN)
        *ends = (struct dew_measure){0, -1, 1};
    else if (how != DEW_DOUBT_NONE)
        *ends = (struct dew_measure){how == DEW_DOUBT_TIMES, f->least_by,
                                     f->most_by};
    return how;
}
