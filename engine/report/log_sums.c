/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A log beside the model, summed. */
#include "report/log_sums.h"

#include <math.h>

int report__log_tested(const struct dew_report *r)
{
    return r->laid->dew_point_out != NULL || r->laid->same_hours;
}

static void add_hour(const struct dew_report *r, size_t h,
                     struct report__log_sum *s)
{
    const struct dew_report_log *log = r->laid;
    const struct dew_series *model = &r->question->choices[0].outcome->series;
    const double *out =
        log->dew_point_out ? log->dew_point_out : model->dew_point_out;

    if (isfinite(log->dew_point[h] + model->dew_point[h])) {
        s->hours += 1;
        s->dew_read += log->dew_point[h];
        s->dew_model += model->dew_point[h];
    }
    if (isfinite(log->rh[h] + model->rh[h])) {
        s->rh_hours += 1;
        s->rh_read += log->rh[h];
        s->rh_model += model->rh[h];
    }
    if (isfinite(log->t[h] + model->t[h])) {
        s->t_hours += 1;
        s->t_read += log->t[h];
        s->t_model += model->t[h];
    }
    if (report__log_tested(r) && isfinite(log->dew_point[h] + out[h])) {
        s->tested += 1;
        s->dries += out[h] < log->dew_point[h];
    }
}

struct report__log_sum report__log_sum_of(const struct dew_report *r, int month)
{
    size_t count = r->question->choices[0].outcome->count;
    struct report__log_sum s = {.hours = 0};

    for (size_t h = 0; h < count; h++)
        if (month < 0 || r->dates[h].month == month + 1)
            add_hour(r, h, &s);
    s.dew_read /= s.hours;
    s.dew_model /= s.hours;
    s.rh_read /= s.rh_hours;
    s.rh_model /= s.rh_hours;
    s.t_read /= s.t_hours;
    s.t_model /= s.t_hours;
    return s;
}
