/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The log beside the model, as part of the summary. */
#include "report/json.h"
#include "report/log_sums.h"

static json_t *gap(struct maker *m, const struct dew_gap *g, double factor)
{
    return OF_REALS(m, {"hours", g->hours}, {"measured", factor * g->measured},
                    {"modelled", factor * g->modelled},
                    {"bias", factor * g->bias}, {"rms", factor * g->rms});
}

static json_t *months(struct maker *m, const struct dew_beside *b)
{
    json_t *list = json_array();

    for (int k = 0; k < DEW_MONTHS; k++)
        append(m, list, gap(m, &b->month[k], 100));
    return list;
}

/* The dew-point test; how many hours, or null where it cannot be made. */
static json_t *test(struct maker *m, const struct report__log_sum *s)
{
    int told = report__log_tested(m->r);
    json_t *o = OF_REALS(m, {"of_h", told ? s->tested : NAN},
                         {"could_dry_h", told ? s->dries : NAN});

    put(m, o, "outdoor_columns_of_the_log",
        json_boolean(m->r->laid->dew_point_out != NULL));
    return o;
}

json_t *report__json_log(struct maker *m)
{
    const struct dew_report *r = m->r;
    struct report__log_sum s;
    json_t *o;

    if (r->beside == NULL || r->laid == NULL)
        return json_null();
    s = report__log_sum_of(r, -1);
    o = OF_TEXTS(m, {"provenance", r->log},
                 {"option", report__option(r, 0).text});
    put(m, o, "temperature_held", json_boolean(r->prescribed_t));
    put(m, o, "same_hours", json_boolean(r->laid->same_hours));
    put(m, o, "rh_pct", gap(m, &r->beside->rh, 100));
    put(m, o, "temperature_c", gap(m, &r->beside->t, 1));
    put(m, o, "rh_pct_by_month", months(m, r->beside));
    put(m, o, "dew_point_c",
        OF_REALS(m, {"hours", s.hours}, {"measured", s.dew_read},
                 {"modelled", s.dew_model},
                 {"bias", s.dew_model - s.dew_read}));
    put(m, o, "outdoor_air", test(m, &s));
    return o;
}
