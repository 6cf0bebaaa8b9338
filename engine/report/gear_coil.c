/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the wet coil leaves open of an option's hours. */
#include "report/gear.h"

int report__gear_coil_body(const struct dew_report *r, size_t i, char *out,
                           size_t size)
{
    const struct dew_choice *x = report__choice(r, i);
    struct dew_estimate hours;

    if (!dew_verdict_coil(r->question, i, &hours))
        return 0;
    snprintf(
        out, size,
        "how much water the blower takes back from the wet coil is not "
        "well known. With a coil that stays dry between runs it is too "
        "humid in %s hours, with one as wet as it may be in %s; the figures "
        "above take %s.",
        report__number(x->coil_dry->year.too_humid, 0).text,
        report__number(x->coil_wet->year.too_humid, 0).text,
        report__number(hours.likely, 0).text);
    return 1;
}

const char report__gear_coil_lead[] =
    "How much water the blower takes back from the wet coil is not well known. "
    "Hours too humid with a coil that stays dry between runs, as the figures "
    "above take it, and as wet as it may be:";

int report__gear_coil_brief(const struct dew_report *r, size_t i, char *out,
                            size_t size)
{
    const struct dew_choice *x = report__choice(r, i);
    struct dew_estimate hours;

    if (!dew_verdict_coil(r->question, i, &hours))
        return 0;
    snprintf(out, size, "%s / %s / %s",
             report__number(x->coil_dry->year.too_humid, 0).text,
             report__number(hours.likely, 0).text,
             report__number(x->coil_wet->year.too_humid, 0).text);
    return 1;
}

static void put_range(struct maker *m, json_t *o, const char *key, double dry,
                      double likely, double wet)
{
    put(m, o, key, OF_REALS(m, {"dry", dry}, {"likely", likely}, {"wet", wet}));
}

json_t *report__gear_coil(struct maker *m, size_t i)
{
    const struct dew_choice *x = report__choice(m->r, i);
    const struct dew_tally *dry, *now = &x->outcome->year, *wet;
    struct dew_estimate hours;
    json_t *o;

    if (!dew_verdict_coil(m->r->question, i, &hours))
        return json_null();
    dry = &x->coil_dry->year;
    wet = &x->coil_wet->year;
    o = json_object();
    put_range(m, o, "too_humid_h", dry->too_humid, hours.likely,
              wet->too_humid);
    put_range(m, o, "too_dry_h", dry->too_dry, now->too_dry, wet->too_dry);
    for (int old = 0; old < 2; old++) /* its other name: to 0.2 */
        put_range(m, o, old ? "put_back_kg" : "reevaporated_kg",
                  dry->water.reevaporation, now->water.reevaporation,
                  wet->water.reevaporation);
    return o;
}
