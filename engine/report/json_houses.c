/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The houses drawn, as JSON. */
#include "report/json.h"

static json_t *range(struct maker *m, const struct dew_draws_range *r)
{
    return OF_REALS(m, {"p10", r->p10}, {"p50", r->p50}, {"p90", r->p90},
                    {"as_told", r->told});
}

/* "of" 128 houses drawn, and what share of all such houses that may be. */
static json_t *share(struct maker *m, size_t count)
{
    struct dew_draws_interval in =
        dew_draws_interval(count, m->r->question->draws->count);
    json_t *o =
        OF_REALS(m, {"low_pct", 100 * in.low}, {"high_pct", 100 * in.high});

    put(m, o, "houses", json_integer((json_int_t)count));
    return o;
}

static json_t *option(struct maker *m, size_t i)
{
    const struct dew_draws *d = m->r->question->draws;
    struct dew_draws_shares n = dew_draws_shares(d, i);
    json_t *o = json_object(), *months = json_array();
    struct dew_draws_range r;

    put(m, o, "name", report__json_option(m, (int)i));
    put(m, o, "keeps_limits", share(m, n.keeps));
    put(m, o, "brings_air", share(m, n.ventilates));
    put(m, o, "best", share(m, n.best));
#define X(name, unit, words)                                                   \
    r = dew_draws_range(d, i, DEW_DRAWN_##name);                               \
    put(m, o, #name "_" #unit, range(m, &r));
    DEW_DRAWN_MAP(X)
#undef X
    for (int k = 0; k < DEW_DRAWS_MONTHS; k++) {
        r = dew_draws_month(d, i, k);
        append(m, months, range(m, &r));
    }
    put(m, o, "too_humid_by_month_h", months);
    return o;
}

json_t *report__json_houses(struct maker *m)
{
    const struct dew_draws *d = m->r->question->draws;
    json_t *o, *options = json_array();

    if (d == NULL) {
        json_decref(options);
        return json_null();
    }
    o = json_object();
    put(m, o, "drawn", json_integer((json_int_t)d->count));
    put(m, o, "seed", json_integer((json_int_t)d->seed));
    put(m, o, "figures_drawn", json_integer((json_int_t)d->doubted));
    put(m, o, "made_years", json_integer(d->years));
    put(m, o, "model_error_pct", number(100 * d->model));
    put(m, o, "none_will_do", share(m, dew_draws_none(d)));
    for (size_t i = 0; i < d->options; i++)
        append(m, options, option(m, i));
    put(m, o, "options", options);
    return o;
}
