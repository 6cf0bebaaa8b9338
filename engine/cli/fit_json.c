/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fit as JSON. */
#include <math.h>

#include "cli/fit.h"

static json_t *score(const struct dew_evidence_score *s)
{
    return json_pack("{s:o, s:o, s:o, s:o, s:o}", "rmse_rh_pct",
                     cli__real(s->rmse_rh), "bias_rh_pct",
                     cli__real(s->bias_rh), "rmse_vapour_pa",
                     cli__real(s->rmse_pv), "band80_coverage",
                     cli__real(s->band80), "days", cli__real(s->days));
}

static json_t *add(json_t *list, const char *name, const char *unit, double x,
                   double sd)
{
    return cli__add(list, json_pack("{s:s, s:s, s:o, s:o}", "name", name,
                                    "unit", unit, "value", cli__real(x), "sd",
                                    cli__real(sd)));
}

static json_t *figure(json_t *list, const char *name, const char *unit,
                      const struct dew_evidence_figure *x)
{
    return add(list, name, unit, x->value, x->sd);
}

static json_t *noises(json_t *list, const struct dew_evidence_noise *n)
{
    list = add(list, "slow_sd", "pct", n->slow, NAN);
    list = add(list, "slow_time", "d", n->slow_hours / 24, NAN);
    list = add(list, "quick_sd", "pct", n->quick, NAN);
    list = add(list, "quick_time", "h", n->quick_hours, NAN);
    return add(list, "white_sd", "pct", n->white, NAN);
}

static json_t *parameters(const struct dew_evidence_learned *l)
{
    json_t *list = json_array();
    char name[64];

    for (int i = 0; i < DEW_EVIDENCE_NODES; i++) {
        snprintf(name, sizeof name, "excess_at_%.0f_degc",
                 dew_evidence_node[i]);
        list = figure(list, name, "Pa", &l->curve[i]);
    }
    list = figure(list, "day_cos", "Pa", &l->day_cos);
    list = figure(list, "day_sin", "Pa", &l->day_sin);
    if (l->young.sd > 0)
        list = figure(list, "drying_at_start", "Pa", &l->young);
    list = figure(list, "z_12_h", "", &l->z[0]);
    list = figure(list, "z_240_h", "", &l->z[1]);
    for (int i = 0; i < DEW_EVIDENCE_MEMORIES; i++) {
        snprintf(name, sizeof name, "weight_%.0f_h", dew_evidence_memory[i]);
        list = add(list, name, "", l->weight[i], NAN);
    }
    return noises(list, &l->noise);
}

static json_t *range(const struct dew_evidence_range *r)
{
    return cli__range(r->p10, r->p50, r->p90);
}

static json_t *change(const struct cli__fit *f)
{
    const struct dew_evidence_change *c = dew_fit_change(f->fit);
    json_t *o;

    if (c == NULL)
        return json_null();
    o = json_pack("{s:o, s:o, s:o}", "days", cli__real(c->days), "drier_chance",
                  cli__real(c->drier), "too_humid_pct",
                  cli__real(100 * dew_fit_too_humid(f->fit)));
    o = cli__set(o, "rh_change_pct", range(&c->rh));
    o = cli__set(o, "vapour_change_pa", range(&c->pv));
    o = cli__set(o, "humid_logged_h", cli__real(c->humid_logged));
    o = cli__set(o, "humid_as_it_was_h", range(&c->humid));
    return cli__set(o, "parameters_after",
                    parameters(dew_evidence_learned(dew_fit_after(f->fit))));
}

static json_t *falls(const struct cli__fit *f, int after)
{
    const struct dew_evidence_falls *x = dew_fit_falls(f->fit, after);

    if (x == NULL)
        return json_null();
    return json_pack("{s:I, s:o}", "falls_of_co2", (json_int_t)x->count,
                     "per_h", range(&x->rate));
}

static json_t *notes(const struct cli__fit *f)
{
    json_t *list = json_array();
    const char *text;

    for (size_t i = 0; (text = dew_fit_note(f->fit, i)) != NULL; i++)
        list = cli__add(list, json_string(text));
    return list;
}

static json_t *log_json(const struct cli__fit *f)
{
    const struct dew_evidence_learned *l =
        dew_evidence_learned(dew_fit_evidence(f->fit));
    const struct dew_evidence_score *line = f->until ? &l->line : &l->line_fit;
    json_t *o = json_object();

    o = cli__set(o, "fit", score(&l->fit));
    o = cli__set(o, "holdout", f->until ? score(&l->rest) : json_null());
    o = cli__set(o, "yardstick",
                 json_pack("{s:s, s:o, s:o}", "of",
                           f->until ? "holdout" : "fit", "rmse_rh_pct",
                           cli__real(line->rmse_rh), "rmse_vapour_pa",
                           cli__real(line->rmse_pv)));
    o = cli__set(o, "parameters", parameters(l));
    o = cli__set(o, "air_change", falls(f, 0));
    o = cli__set(o, "air_change_after",
                 dew_fit_change(f->fit) ? falls(f, 1) : json_null());
    o = cli__set(o, "cooling_ran_share", cli__real(dew_fit_run(f->fit).cool));
    o = cli__set(o, "blower_ran_share", cli__real(dew_fit_run(f->fit).fan));
    o = cli__set(o, "change", change(f));
    o = cli__set(o, "house", cli__fit_house_json(f));
    o = cli__set(o, "innovation_rms", cli__real(l->innovation));
    o = cli__set(o, "outdoor_least_c", cli__real(l->t_least));
    o = cli__set(o, "outdoor_most_c", cli__real(l->t_most));
    return cli__set(o, "assumed", notes(f));
}

/* Of readings the house alone. */
json_t *cli__fit_json(const struct cli__fit *f)
{
    return f->fit != NULL
               ? log_json(f)
               : cli__set(json_object(), "house", cli__fit_house_json(f));
}
