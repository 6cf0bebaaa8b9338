/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The layouts of a scenario's options, solved. */
#include "cli/layouts.h"

#include <stdlib.h>

#include "dew/scenario.h"

/* quiet: for its list of rooms alone; what cannot be laid out is left out. */
static int add(struct dew__layouts *l, const struct dew__job *job, size_t i,
               int quiet)
{
    const struct dew_scenario *s = job->scenario;
    struct dew_duct_layout *layout = &l->layouts[l->count];
    struct dew_duct_layout *design = &l->designs[l->count];
    struct dew_error err = {0};

    if (dew_scenario_layout(s, i, &job->outdoors, layout, &err) != DEW_OK ||
        dew_scenario_design(s, i, &job->outdoors, design, &err) != DEW_OK)
        return quiet ? DEW__DONE : dew__cli_error(&err);
    l->options[l->count++] = (struct dew_ducts_option){
        .name = dew_scenario_name(s, i),
        .layout = layout,
        .design = design,
        .required = dew_scenario_required(s, i),
        .interlock = dew_scenario_facts(s, i).interlock,
        .hood = dew_scenario_safety(s).hood_into_ventilator,
        .quiet = quiet};
    return DEW__DONE;
}

int dew__layouts_open(struct dew__layouts *l, const struct dew__job *job,
                      const size_t *which, size_t count, int for_run)
{
    struct dew_error err = {0};
    int code = DEW__DONE;

    *l = (struct dew__layouts){.layouts = calloc(count, sizeof *l->layouts),
                               .designs = calloc(count, sizeof *l->designs),
                               .options = calloc(count, sizeof *l->options)};
    if (l->layouts == NULL || l->designs == NULL || l->options == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    for (size_t i = 0; i < count && code == DEW__DONE; i++)
        code = add(l, job, which[i],
                   for_run &&
                       !dew_scenario_layout_written(job->scenario, which[i]));
    if (code == DEW__DONE &&
        dew_report_ducts_open(&l->report, l->options, l->count, &err) != DEW_OK)
        code = dew__cli_error(&err);
    return code;
}

void dew__layouts_close(struct dew__layouts *l)
{
    dew_report_ducts_close(l->report);
    free(l->options);
    free(l->designs);
    free(l->layouts);
    *l = (struct dew__layouts){.count = 0};
}
