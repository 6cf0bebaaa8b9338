/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the wet coil leaves open of an option's hours. */
#include "report/gear.h"
#include "report/words.h"

static const struct dew_choice *choice(const struct dew_report *r, size_t i)
{
    return &r->question->choices[i];
}

int dew__gear_coil_body(const struct dew_report *r, size_t i, char *out,
                        size_t size)
{
    const struct dew_choice *x = choice(r, i);
    struct dew_estimate hours;

    if (!dew_verdict_coil(r->question, i, &hours))
        return 0;
    snprintf(out, size,
             "how much water the blower takes back from the wet coil is not "
             "well known. With a coil that stays dry between runs it is too "
             "humid in %s h, with one as wet as it may be in %s h; the figures "
             "above take %s h.",
             dew__number(x->coil_dry->year.too_humid, 0).text,
             dew__number(x->coil_wet->year.too_humid, 0).text,
             dew__number(hours.likely, 0).text);
    return 1;
}

static json_t *three(double dry, double likely, double wet)
{
    return json_pack("{s:f,s:f,s:f}", "dry", dry, "likely", likely, "wet", wet);
}

json_t *dew__gear_coil(const struct dew_report *r, size_t i)
{
    const struct dew_choice *x = choice(r, i);
    struct dew_estimate hours;

    if (!dew_verdict_coil(r->question, i, &hours))
        return json_null();
    return json_pack("{s:o,s:o,s:o}", "too_humid_h",
                     three(x->coil_dry->year.too_humid, hours.likely,
                           x->coil_wet->year.too_humid),
                     "too_dry_h",
                     three(x->coil_dry->year.too_dry, x->outcome->year.too_dry,
                           x->coil_wet->year.too_dry),
                     "put_back_kg",
                     three(x->coil_dry->year.water.putback,
                           x->outcome->year.water.putback,
                           x->coil_wet->year.water.putback));
}
