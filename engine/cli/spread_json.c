/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A spread as JSON. */
#include "cli/spread_worth.h"

static json_t *range(const struct cli__spread *s, size_t option,
                     enum dew_drawn_what what)
{
    struct dew_draws_range r = dew_draws_range(s->told, option, what);

    return cli__set(cli__range(r.p10, r.p50, r.p90), "as_told",
                    cli__real(r.told));
}

static json_t *share(const struct cli__spread *s, size_t count)
{
    struct dew_draws_interval in = dew_draws_interval(count, s->draws);

    return json_pack("{s:I, s:o, s:o}", "houses", (json_int_t)count, "low_pct",
                     cli__real(100 * in.low), "high_pct",
                     cli__real(100 * in.high));
}

static json_t *option(const struct cli__spread *s, size_t i)
{
    struct dew_draws_shares n = dew_draws_shares(s->told, i);
    json_t *o =
        json_pack("{s:s, s:o, s:o, s:o}", "name", cli__spread_name(s, i),
                  "keeps_limits", share(s, n.keeps), "brings_air",
                  share(s, n.ventilates), "best", share(s, n.best));

#define X(name, unit, words)                                                   \
    o = cli__set(o, #name "_" #unit, range(s, i, DEW_DRAWN_##name));
    DEW_DRAWN_MAP(X)
#undef X
    return o;
}

static json_t *input(const struct cli__spread *s,
                     const struct dew_spread_input *x)
{
    static const char *const taken[] = {"drawn", "without_effect", "money",
                                        "likely_of_list", "as_told"};
    size_t keys;
    const struct dew_field *f = &dew_scenario_fields(&keys)[x->key];
    char value[200];

    json_t *o =
        json_pack("{s:s, s:s, s:s, s:s, s:b}", "key", f->path, "value",
                  cli__spread_value(s, x, value, sizeof value), "option",
                  x->each ? cli__spread_name(s, x->option) : "", "taken",
                  taken[x->why], "usual", x->usual);

    if (x->why == DEW_SPREAD_DRAWN)
        o = cli__set(o, "narrows_h",
                     cli__real(cli__spread_narrows(s, x->column)));
    return x->still != NULL ? cli__set(o, "because", json_string(x->still)) : o;
}

json_t *cli__anew_json(const struct dew_spread *s)
{
    size_t count;
    const struct dew_spread_anew *a = dew_spread_anew(s, &count);
    json_t *list = json_array();

    for (size_t k = 0; k < count; k++)
        list = cli__add(list, json_pack("{s:s, s:s, s:I}", "key",
                                        a[k].rule.path, "rule", a[k].rule.text,
                                        "draws", (json_int_t)a[k].count));
    return list;
}

json_t *cli__spread_json(const struct cli__spread *s)
{
    static const char *const by[] = {"cost_over_the_years", "cost_of_a_year"};
    json_t *options = json_array(), *inputs = json_array();
    size_t count;
    const struct dew_spread_input *x = dew_spread_inputs(s->spread, &count);

    for (size_t i = 0; i < s->options; i++)
        options = cli__add(options, option(s, i));
    for (size_t k = 0; k < count; k++)
        inputs = cli__add(inputs, input(s, &x[k]));
    json_t *o = json_pack(
        "{s:s, s:s, s:I, s:I, s:s, s:o, s:o, s:o, s:o}", "title",
        dew_scenario_title(dew_run_scenario(s->run)), "version", DEW_VERSION,
        "draws", (json_int_t)s->draws, "seed", (json_int_t)s->seed, "best_by",
        by[dew_spread_by(s->spread)], "none_will_do",
        share(s, dew_draws_none(s->told)), "options", options, "inputs", inputs,
        "drawn_anew", cli__anew_json(s->spread));

    if (s->from != NULL)
        o = cli__set(o, "draws_from", json_string(s->from));
    if (s->worth != NULL)
        o = cli__set(o, "what_to_measure", cli__worth_json(s, s->worth));
    return s->effects != NULL
               ? cli__set(o, "indices", cli__effects_json(s, s->effects))
               : o;
}
