/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured beside the model, in sentences. */
#include "report/measured.h"

#include <math.h>

#include "report/words.h"

/* "+2.3", "-0.4". */
static struct report__word gap_of(double x, int decimals)
{
    struct report__word plain = report__number(x, decimals), w;

    snprintf(w.text, sizeof w.text, "%s%.20s",
             x >= 0.5 * pow(10.0, -decimals) ? "+" : "", plain.text);
    return w;
}

char *report__beside_rh(const struct dew_report *r, char *out, size_t size)
{
    const struct dew_gap *g = &r->beside->rh;

    snprintf(
        out, size,
        "Relative humidity of \"%s\" over the %s hours that have it measured: "
        "measured %s %%, model %s %%. Model less measured: %s points in "
        "the mean, root mean square %s points.",
        report__option(r, 0).text, report__number(g->hours, 0).text,
        report__number(100 * g->measured, 1).text,
        report__number(100 * g->modelled, 1).text,
        gap_of(100 * g->bias, 1).text, report__number(100 * g->rms, 1).text);
    return out;
}

char *report__beside_t(const struct dew_report *r, char *out, size_t size)
{
    const struct dew_gap *g = &r->beside->t;
    const char *step = r->system == DEW_SYSTEM_US ? "degF" : "K";
    double scale = r->system == DEW_SYSTEM_US ? 1.8 : 1.0;

    if (r->prescribed_t) {
        snprintf(
            out, size,
            "The house was held at the temperature measured, %s in the "
            "mean: no heating or cooling equipment acted.",
            report__amount(g->measured, DEW_TEMPERATURE, r->system, 1).text);
        return out;
    }
    snprintf(out, size,
             "Temperature over %s hours: measured %s, model %s. Model less "
             "measured: %s %s in the mean, root mean square %s %s.",
             report__number(g->hours, 0).text,
             report__amount(g->measured, DEW_TEMPERATURE, r->system, 1).text,
             report__amount(g->modelled, DEW_TEMPERATURE, r->system, 1).text,
             gap_of(scale * g->bias, 1).text, step,
             report__number(scale * g->rms, 1).text, step);
    return out;
}
