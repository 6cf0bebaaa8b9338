/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules of thumb: their list, and what the rules share. */
#include "study/thumb.h"

#include <math.h>

#include "study/rules.h"

static const struct row {
    const char *key, *words, *source;
    study__thumb *rule;
} rows[] = {
#define X(name, words, source) {#name, words, source, study__thumb_##name},
    DEW_THUMB_MAP(X)
#undef X
};

static const struct row *row_of(enum dew_thumb_rule rule)
{
    return &rows[(unsigned)rule < DEW_THUMB_RULES ? rule : 0];
}

const char *dew_thumb_key(enum dew_thumb_rule rule)
{
    return row_of(rule)->key;
}

const char *dew_thumb_words(enum dew_thumb_rule rule)
{
    return row_of(rule)->words;
}

const char *dew_thumb_source(enum dew_thumb_rule rule)
{
    return row_of(rule)->source;
}

size_t study__thumb_option(const struct dew_question *q)
{
    int best = study__cheapest(q, DEW_NO_OPTION);
    double least = INFINITY;

    if (best != DEW_NO_OPTION)
        return (size_t)best;
    for (size_t i = 0; i < q->count; i++) {
        double humid = study__outcome(q, i)->year.too_humid;

        if (dew_verdict_ventilates(q, i) && humid < least) {
            least = humid;
            best = (int)i;
        }
    }
    for (size_t i = 0; best == DEW_NO_OPTION && i < q->count; i++)
        if (study__has_ventilator(q, q->count - 1 - i))
            best = (int)(q->count - 1 - i);
    return best == DEW_NO_OPTION ? 0 : (size_t)best;
}

int study__thumb_set(struct dew_thumb *t, double low, double high, double found,
                     double slack)
{
    int below = found < low - slack * fabs(low);
    int above = found > high + slack * fabs(high);

    t->slack = slack;
    t->low = low;
    t->high = high;
    t->found = found;
    t->says = below || above ? DEW_THUMB_DIFFERS : DEW_THUMB_AGREES;
    return 1;
}

int study__thumb_why(struct dew_thumb *t, const char *why)
{
    t->why = t->says == DEW_THUMB_DIFFERS ? why : "";
    return 1;
}

size_t dew_thumb_of(const struct dew_question *question,
                    struct dew_thumb out[DEW_THUMB_RULES])
{
    size_t count = 0;

    for (int k = 0; k < DEW_THUMB_RULES; k++) {
        struct dew_thumb t = {
            .rule = (enum dew_thumb_rule)k, .option = DEW_NO_OPTION, .why = ""};

        if (rows[k].rule(question, &t) && !isnan(t.found))
            out[count++] = t;
    }
    return count;
}
