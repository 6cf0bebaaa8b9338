/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The log beside the model, as part of the summary. */
#include "report/json_log.h"

#include <math.h>

#include "report/log_sums.h"
#include "report/words.h"

static json_t *real(double x)
{
    return isfinite(x) ? json_real(x) : json_null();
}

static json_t *gap(const struct dew_gap *g, double factor)
{
    return json_pack("{s:o, s:o, s:o, s:o, s:o}", "hours", real(g->hours),
                     "measured", real(factor * g->measured), "modelled",
                     real(factor * g->modelled), "bias", real(factor * g->bias),
                     "rms", real(factor * g->rms));
}

static json_t *months(const struct dew_beside *b)
{
    json_t *list = json_array();

    for (int m = 0; list != NULL && m < DEW_MONTHS; m++)
        if (json_array_append_new(list, gap(&b->month[m], 100)) != 0) {
            json_decref(list);
            return NULL;
        }
    return list;
}

/* The dew-point test; how many hours, or null where it cannot be made. */
static json_t *test(const struct dew_report *r)
{
    struct dew__log_sum s = dew__log_sum_of(r, -1);
    int told = dew__log_tested(r);

    return json_pack("{s:o, s:o, s:b}", "of_h", real(told ? s.tested : NAN),
                     "could_dry_h", real(told ? s.dries : NAN),
                     "outdoor_columns_of_the_log",
                     r->laid->dew_point_out != NULL);
}

static json_t *dew_points(const struct dew_report *r)
{
    struct dew__log_sum s = dew__log_sum_of(r, -1);

    return json_pack("{s:o, s:o, s:o, s:o}", "hours", real(s.hours), "measured",
                     real(s.dew_read), "modelled", real(s.dew_model), "bias",
                     real(s.dew_model - s.dew_read));
}

json_t *dew__json_log(const struct dew_report *r)
{
    char log[DEW_SENTENCE];

    if (r->beside == NULL || r->laid == NULL)
        return json_null();
    return json_pack(
        "{s:s, s:s, s:b, s:b, s:o, s:o, s:o, s:o, s:o}", "provenance",
        dew__clean(r->log, log, sizeof log), "option", dew__option(r, 0).text,
        "temperature_held", r->held, "same_hours", r->laid->same_hours,
        "rh_pct", gap(&r->beside->rh, 100), "temperature_c",
        gap(&r->beside->t, 1), "rh_pct_by_month", months(r->beside),
        "dew_point_c", dew_points(r), "outdoor_air", test(r));
}
