/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/measured.h"

#include <math.h>

#include "report/lay.h"
#include "report/words.h"

/* "+2.3", "-0.4". */
static struct dew__word gap_of(double x, int decimals)
{
    struct dew__word plain = dew__number(x, decimals), w;

    snprintf(w.text, sizeof w.text, "%s%.20s",
             x >= 0.5 * pow(10.0, -decimals) ? "+" : "", plain.text);
    return w;
}

char *dew__beside_rh(const struct dew_report *r, char *out, size_t size)
{
    const struct dew_gap *g = &r->beside->rh;

    snprintf(out, size,
             "Relative humidity of \"%s\" over the %s h that have it measured: "
             "measured %s %%, model %s %%. Model less measured: %s points in "
             "the mean, root mean square %s points.",
             dew__option(r, 0).text, dew__number(g->hours, 0).text,
             dew__number(100 * g->measured, 1).text,
             dew__number(100 * g->modelled, 1).text,
             gap_of(100 * g->bias, 1).text, dew__number(100 * g->rms, 1).text);
    return out;
}

char *dew__beside_t(const struct dew_report *r, char *out, size_t size)
{
    const struct dew_gap *g = &r->beside->t;
    const char *step = r->system == DEW_SYSTEM_US ? "degF" : "K";
    double scale = r->system == DEW_SYSTEM_US ? 1.8 : 1.0;

    if (r->held) {
        snprintf(out, size,
                 "The house was held at the temperature measured, %s in the "
                 "mean: no heating or cooling equipment acted.",
                 dew__amount(g->measured, DEW_TEMPERATURE, r->system, 1).text);
        return out;
    }
    snprintf(out, size,
             "Temperature over %s h: measured %s, model %s. Model less "
             "measured: %s %s in the mean, root mean square %s %s.",
             dew__number(g->hours, 0).text,
             dew__amount(g->measured, DEW_TEMPERATURE, r->system, 1).text,
             dew__amount(g->modelled, DEW_TEMPERATURE, r->system, 1).text,
             gap_of(scale * g->bias, 1).text, step,
             dew__number(scale * g->rms, 1).text, step);
    return out;
}

static void month_row(const struct dew_report *r, const char *name, int what,
                      FILE *out)
{
    dew__left(out, name, 20);
    for (int m = 0; m < DEW_MONTHS; m++) {
        const struct dew_gap *g = &r->beside->month[m];

        dew__right(out,
                   what == 0   ? dew__number(100 * g->measured, 0).text
                   : what == 1 ? dew__number(100 * g->modelled, 0).text
                               : gap_of(100 * g->bias, 0).text,
                   4);
    }
    fputc('\n', out);
}

void dew__beside_text(const struct dew_report *r, FILE *out)
{
    char text[DEW_SENTENCE];

    if (r->beside == NULL)
        return;
    dew__heading(out, "Your log beside the model");
    dew__wrap(out, "* ", dew__beside_rh(r, text, sizeof text));
    dew__wrap(out, "* ", dew__beside_t(r, text, sizeof text));
    fputc('\n', out);
    dew__left(out, "mean RH, %", 20);
    for (int m = 0; m < DEW_MONTHS; m++)
        dew__right(out, dew__month_short(m), 4);
    fputc('\n', out);
    month_row(r, "measured", 0, out);
    month_row(r, "model", 1, out);
    month_row(r, "difference, points", 2, out);
    dew__wrap(out, "Log: ", dew__clean(r->log, text, sizeof text));
}

/* ---- JSON ------------------------------------------------------------------- */

static json_t *real(double x)
{
    return isfinite(x) ? json_real(x) : json_null();
}

static json_t *gap_json(const struct dew_gap *g, double factor)
{
    return json_pack("{so so so so so}", "hours", real(g->hours), "measured",
                     real(factor * g->measured), "modelled",
                     real(factor * g->modelled), "bias", real(factor * g->bias),
                     "rms", real(factor * g->rms));
}

json_t *dew__beside_json(const struct dew_report *r)
{
    const struct dew_beside *b = r->beside;
    char name[DEW_SENTENCE], log[DEW_SENTENCE];
    json_t *months;

    if (b == NULL)
        return json_null();
    months = json_array();
    for (int m = 0; m < DEW_MONTHS; m++)
        json_array_append_new(months, gap_json(&b->month[m], 100));
    dew__clean(r->log, log, sizeof log);
    snprintf(name, sizeof name, "%s", dew__option(r, 0).text);
    return json_pack("{ss ss sb so so so}", "provenance", log, "option", name,
                     "temperature_held", r->held, "rh_pct",
                     gap_json(&b->rh, 100), "temperature_c", gap_json(&b->t, 1),
                     "rh_pct_by_month", months);
}
