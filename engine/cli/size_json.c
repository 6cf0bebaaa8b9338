/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes as JSON. */
#include <math.h>

#include "cli/size.h"

/* Name, key, unit of JSON and its factor, of each figure varied. */
static const struct figure {
    const char *name, *key, *unit;
    double factor;
} figures[DEW_SIZE_KNOBS] = {
#define X(name, key) [DEW_SIZE_##name] = {#name, key, "%", 100},
    DEW_SIZE_MAP(X)
#undef X
};

static struct figure figure_of(enum dew_size_knob knob)
{
    struct figure f = figures[knob];

    if (knob == DEW_SIZE_flow || knob == DEW_SIZE_boost) {
        f.unit = "L/s";
        f.factor = 1000;
    } else if (knob == DEW_SIZE_dehumidifier) {
        f.unit = "kg/day";
        f.factor = 86400;
    }
    return f;
}

static const char *const core_names[] = {
#define X(name, words, core) #name,
    DEW_SIZE_CORE_MAP(X)
#undef X
};

static const char *const counts[] = {
#define X(name, unit, words) #name,
    DEW_DRAWN_MAP(X)
#undef X
};

static json_t *hours(const struct dew_draws_range *r)
{
    return cli__set(cli__range(r->p10, r->p50, r->p90), "as_told",
                    cli__real(r->told));
}

static json_t *point(const struct dew_size_point *p, double factor)
{
    json_t *o =
        json_pack("{s:o, s:I, s:b, s:b}", "value", cli__real(factor * p->value),
                  "houses_that_do", (json_int_t)p->does, "enough", p->enough,
                  "halved", p->halved);

    for (int k = 0; k < DEW_SIZE_LIMITS; k++) {
        char key[60];

        snprintf(key, sizeof key, "%s_h", counts[k]);
        o = cli__set(o, key, hours(&p->hours[k]));
        snprintf(key, sizeof key, "%s_houses", counts[k]);
        o = cli__set(o, key, json_integer((json_int_t)p->fails[k]));
    }
    return o;
}

static json_t *curve(const struct dew_size_curve *c)
{
    const struct figure f = figure_of(c->knob);
    double size = c->knob == DEW_SIZE_set_point ? c->high : c->low;
    json_t *points = json_array(), *o;

    for (size_t i = 0; i < c->count; i++)
        points = cli__add(points, point(&c->points[i], f.factor));
    o = json_pack("{s:s, s:s, s:s, s:s, s:I, s:I, s:o}", "core",
                  core_names[c->core], "varied", f.name, "key", f.key, "unit",
                  f.unit, "houses", (json_int_t)c->houses, "houses_needed",
                  (json_int_t)c->need, "size", cli__real(f.factor * size));
    o = cli__set(o, "from", cli__real(f.factor * c->low));
    o = cli__set(o, "to", cli__real(f.factor * c->high));
    o = cli__set(o, "stretches", json_integer((json_int_t)c->stretches));
    o = cli__set(o, "nearest",
                 cli__real(f.factor * c->points[c->nearest].value));
    o = cli__set(o, "breaks_there", json_string(counts[c->breaks]));
    o = cli__set(o, "brings_air_from_l_s", cli__real(1000 * c->air));
    o = cli__set(o, "at_flow_l_s", cli__real(1000 * c->at_flow));
    o = cli__set(o, "at_rate_kg_day", cli__real(86400 * c->rate));
    o = cli__set(o, "left_out", json_string(c->stopped));
    return cli__set(o, "points", points);
}

static json_t *rules(const struct cli__size *s)
{
    json_t *o = json_object();

    for (int r = 0; r < DEW_RATE_RULES; r++)
        o = cli__set(
            o, dew_house_rate_key((enum dew_rate_rule)r),
            cli__real(1000 * cli__size_rate(s, (enum dew_rate_rule)r)));
    return o;
}

/* Houses in which each core is the better one, by airflow. */
static json_t *best(const struct cli__size *s)
{
    json_t *list = json_array();
    struct dew_size_best b;

    for (size_t i = 0; dew_size_best(s->size, i, &b); i++) {
        json_t *o = json_pack(
            "{s:o, s:I, s:I}", "flow_l_s", cli__real(1000 * b.flow), "houses",
            (json_int_t)b.houses, "alike", (json_int_t)b.alike);

        for (int k = 0; k < DEW_SIZE_CORES; k++)
            o = cli__set(o, core_names[k], json_integer((json_int_t)b.best[k]));
        list = cli__add(list, o);
    }
    return list;
}

json_t *cli__size_json(const struct cli__size *s)
{
    const struct dew_scenario *scenario = dew_run_scenario(s->run);
    const struct dew_size_outdoors out = dew_size_outdoors(s->size);
    const struct dew_size_curve *c;
    json_t *curves = json_array(), *o;

    for (size_t i = 0; (c = dew_size_curve(s->size, i)) != NULL; i++)
        curves = cli__add(curves, curve(c));
    o = json_pack(
        "{s:s, s:s, s:s, s:I, s:I, s:o, s:o, s:o}", "title",
        dew_scenario_title(scenario), "version", DEW_VERSION, "option",
        dew_scenario_name(scenario, dew_run_option(s->run, 0)), "draws",
        (json_int_t)s->target.draws, "seed", (json_int_t)s->seed, "share_pct",
        cli__real(100 * s->target.share), "limit_h", cli__real(s->target.hours),
        "fresh_air_l_s", cli__real(1000 * s->target.asked));
    o = cli__set(o, "years", json_integer(s->target.years));
    o = cli__set(o, "model_error_pct", cli__real(100 * s->target.model));
    o = cli__set(o, "outdoors_too_humid_h", cli__real(out.too_humid));
    o = cli__set(o, "outdoors_too_dry_h", cli__real(out.too_dry));
    o = cli__set(o, "rules_l_s", rules(s));
    o = cli__set(o, "better_core", best(s));
    return cli__set(o, "curves", curves);
}
