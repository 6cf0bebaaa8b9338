/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The values of a scenario as a report lists them. */
#include "cli/inputs.h"

#include <stdlib.h>

/* What is being listed. */
struct listing {
    struct dew__inputs *into;
    const struct dew_scenario *scenario;
    const size_t *which;
    size_t count;
    enum dew_system system;
};

static const char *origin_of(const struct dew_value *v)
{
    static const char *const text[] = {"default", "file", "option", "set"};

    return (unsigned)v->origin.by < sizeof text / sizeof *text
               ? text[v->origin.by]
               : "file";
}

static void add(const struct listing *l, const struct dew_field *f, size_t key,
                size_t option, const char *name)
{
    const struct dew_value *v = &dew_scenario_values(l->scenario, option)[key];
    struct dew__inputs *in = l->into;
    char *shown = in->values[in->count];

    if (!v->given)
        return;
    dew_scenario_show(f, v, (int)l->system, shown, DEW__SHOWN);
    in->list[in->count++] = (struct dew_report_input){
        .option = name,
        .key = f->path,
        .value = shown,
        .origin = origin_of(v),
        .source = v->origin.by == DEW_BY_DEFAULT && f->source ? f->source : ""};
}

static int differs(const struct listing *l, size_t key)
{
    for (size_t i = 0; i < l->count; i++)
        if (dew_scenario_values(l->scenario, l->which[i])[key].origin.by ==
            DEW_BY_OPTION)
            return 1;
    return 0;
}

static void list_all(const struct listing *l, const struct dew_field *fields,
                     size_t keys)
{
    for (size_t k = 0; k < keys; k++) {
        if (!differs(l, k)) {
            add(l, &fields[k], k, l->which[0], "");
            continue;
        }
        for (size_t i = 0; i < l->count; i++)
            add(l, &fields[k], k, l->which[i],
                dew_scenario_name(l->scenario, l->which[i]));
    }
}

int dew__inputs_open(struct dew__inputs *inputs,
                     const struct dew_scenario *scenario, const size_t *which,
                     size_t count, enum dew_system system)
{
    const struct listing l = {inputs, scenario, which, count, system};
    size_t keys;
    const struct dew_field *fields = dew_scenario_fields(&keys);

    inputs->count = 0;
    inputs->list = calloc(keys * count, sizeof *inputs->list);
    inputs->values = calloc(keys * count, sizeof *inputs->values);
    if (inputs->list == NULL || inputs->values == NULL) {
        dew__inputs_close(inputs);
        return 0;
    }
    list_all(&l, fields, keys);
    return 1;
}

void dew__inputs_close(struct dew__inputs *inputs)
{
    free(inputs->list);
    free(inputs->values);
    inputs->list = NULL;
    inputs->values = NULL;
    inputs->count = 0;
}
