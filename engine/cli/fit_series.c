/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hours of a fit as CSV. */
#include <math.h>

#include "cli/fit.h"
#include "core/out.h"

static const double BAND80 = 1.2816; /* of an sd, to both sides             */

static void cell(FILE *out, double x, int decimals)
{
    char text[64];

    fputc(',', out);
    if (isfinite(x))
        fputs(dew_number_fixed(x, decimals, text, sizeof text), out);
}

static void row(const struct cli__fit *f, size_t h, FILE *out)
{
    size_t count;
    const struct dew_date *d = &dew_fit_dates(f->fit, &count)[h];
    const struct dew_evidence_hour *x = &dew_fit_hours(f->fit, &count)[h];
    const struct dew_evidence_told *t =
        &dew_evidence_told(dew_fit_evidence(f->fit))[h];

    fprintf(out, "%04d-%02d-%02d,%d,%d", d->year, d->month, d->day, d->hour,
            h < dew_fit_until(f->fit));
    cell(out, x->t_out, 2);
    cell(out, x->pv_out, 1);
    cell(out, x->t_in, 2);
    cell(out, 100 * x->rh, 2);
    cell(out, t->model, 2);
    cell(out, t->rh, 2);
    cell(out, t->rh - BAND80 * t->sd, 2);
    cell(out, t->rh + BAND80 * t->sd, 2);
    fputc('\n', out);
}

enum dew_status cli__fit_series(const struct cli__fit *f, const char *path,
                                struct dew_error *err)
{
    struct core__out out;
    size_t count;

    if (core__out_open(&out, path, CORE__OUT_OVER, err) != DEW_OK)
        return err->status;
    (void)dew_fit_dates(f->fit, &count);
    fputs("date,hour_of_day,learned_from,t_out_c,vapour_out_pa,t_in_c,"
          "rh_logged_pct,rh_model_pct,rh_told_pct,rh_low_pct,rh_high_pct\n",
          out.file);
    for (size_t h = 0; h < count; h++)
        row(f, h, out.file);
    return core__out_close(&out, err);
}
