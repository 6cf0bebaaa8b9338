/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The values of a scenario as a report lists them. */
#include "run/run.h"

static const char *origin_of(const struct dew_value *v)
{
    static const char *const text[] = {"default", "file", "option", "set"};

    return (unsigned)v->origin.by < sizeof text / sizeof *text
               ? text[v->origin.by]
               : "file";
}

/* The value of a key at an option, as in into[*count], where it has one. */
static void add(struct dew_run *r, size_t key, const struct run__option *at,
                const char *name, size_t *count)
{
    size_t keys;
    const struct dew_field *f = &dew_scenario_fields(&keys)[key];
    const struct dew_value *v = &dew_scenario_values(r->scenario, at->at)[key];
    char *shown = r->values[*count];

    if (!v->given)
        return;
    dew_scenario_show(f, v, (int)r->report.system, shown, RUN__SHOWN);
    r->inputs[(*count)++] = (struct dew_report_input){
        .option = name,
        .key = f->path,
        .value = shown,
        .origin = origin_of(v),
        .source = v->origin.by == DEW_BY_DEFAULT && f->source ? f->source : ""};
}

static int differs(const struct dew_run *r, size_t key)
{
    for (size_t i = 0; i < r->count; i++)
        if (dew_scenario_values(r->scenario, r->options[i].at)[key].origin.by ==
            DEW_BY_OPTION)
            return 1;
    return 0;
}

size_t run__inputs(struct dew_run *r)
{
    size_t keys, count = 0;

    (void)dew_scenario_fields(&keys);
    for (size_t k = 0; k < keys; k++) {
        int each = differs(r, k);

        for (size_t i = 0; i < (each ? r->count : 1); i++)
            add(r, k, &r->options[i],
                each ? dew_scenario_name(r->scenario, r->options[i].at) : "",
                &count);
    }
    return count;
}
