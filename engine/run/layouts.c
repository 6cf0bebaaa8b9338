/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The layouts of a scenario's options, solved. */
#include <stdlib.h>

#include "run/run.h"

/* What is solved; gone when it is. */
struct layouts {
    struct dew_duct_layout *layouts, *designs;
    struct dew_ducts_option *options;
    size_t count;
};

/* quiet: for its list of rooms alone; what cannot be laid out is left out. */
static enum dew_status add(struct dew_run *r, struct layouts *l, size_t i,
                           int quiet)
{
    const struct dew_scenario *s = r->scenario;
    struct dew_duct_layout *layout = &l->layouts[l->count];
    struct dew_duct_layout *design = &l->designs[l->count];
    struct dew_error err = {0};

    if (dew_scenario_layout(s, i, &r->outdoors, layout, &err) != DEW_OK ||
        dew_scenario_design(s, i, &r->outdoors, design, &err) != DEW_OK)
        return quiet ? DEW_OK : run__fault(r, &err);
    l->options[l->count++] = (struct dew_ducts_option){
        .name = dew_scenario_name(s, i),
        .layout = layout,
        .design = design,
        .required = dew_scenario_required(s, i),
        .interlock = dew_scenario_facts(s, i).interlock,
        .hood = dew_scenario_safety(s).hood_into_ventilator,
        .install = dew_scenario_costs(s, i).install.likely,
        .quiet = quiet};
    return DEW_OK;
}

static enum dew_status solve(struct dew_run *r, struct layouts *l)
{
    struct dew_error err = {0};
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < r->count && status == DEW_OK; i++) {
        size_t at = r->options[i].at;

        status = add(r, l, at,
                     r->job == DEW_RUN_MARCH &&
                         !dew_scenario_layout_written(r->scenario, at));
    }
    if (status == DEW_OK &&
        dew_report_ducts_open(&r->ducts, l->options, l->count, &err) != DEW_OK)
        status = run__fault(r, &err);
    return status;
}

enum dew_status run__layouts(struct dew_run *r)
{
    struct layouts l = {.layouts = calloc(r->count, sizeof *l.layouts),
                        .designs = calloc(r->count, sizeof *l.designs),
                        .options = calloc(r->count, sizeof *l.options)};
    int memory = l.layouts != NULL && l.designs != NULL && l.options != NULL;
    enum dew_status status = memory ? solve(r, &l) : run__memory(r);

    free(l.options);
    free(l.designs);
    free(l.layouts);
    return status;
}
