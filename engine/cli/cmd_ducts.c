/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger ducts: air at every grille in every state, for each layout. */
#include "cli/layouts.h"
#include "cli/load.h"

enum { PICKS = 64 };

/* All that the command owns, in the order it is made. */
struct ducts {
    struct dew__cli common, result;
    const char *path;
    struct dew__job job;
    size_t which[PICKS], count;
    struct dew__layouts layouts;
};

static int tell(const struct ducts *d)
{
    struct dew_error err = {0};
    struct dew_ducts_frame frame = {
        .title = dew_scenario_title(d->job.scenario),
        .version = DEW_VERSION,
        .sha256 = d->job.scenario_hash,
        .system =
            (enum dew_system)dew__cli_system(&d->result, d->job.scenario)};

    if (d->common.out != NULL &&
        dew_report_ducts_write(d->layouts.report, &frame, d->common.out,
                               &err) != DEW_OK)
        return dew__cli_error(&err);
    if (d->result.json)
        dew_report_ducts_json(d->layouts.report, &frame, stdout, &err);
    else
        dew_report_ducts_text(d->layouts.report, &frame, stdout, &err);
    if (err.status != DEW_OK)
        return dew__cli_error(&err);
    return d->common.strict && dew_report_ducts_stops(d->layouts.report) > 0
               ? DEW__STOPPED
               : DEW__DONE;
}

static error_t take(int key, char *word, struct argp_state *state)
{
    struct ducts *d = state->input;

    switch (key) {
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &d->result;
        state->child_inputs[1] = &d->common;
        return 0;
    default:
        return dew__cli_one(key, word, state, &d->path);
    }
}

static const char does[] =
    "Works out the ducts of every option: the air at each grille with the "
    "ventilator and each air handler off, low or at full flow, what goes "
    "straight back out, what an idle unit lets through, and what is "
    "dangerous.\v"
    "With --out, ducts.html, ducts.json and a sketch for each option are "
    "written into DIR, all or none.\n\n"
    "  dewledger ducts house.yaml\n"
    "  dewledger ducts house.yaml --option 'tied to the return' --units si\n"
    "  dewledger ducts house.yaml --set ventilator.damper=yes --json\n";

int dew__cmd_ducts(int argc, char **argv)
{
    const struct argp_child children[] = {{&dew__cli_result_argp, 0, NULL, 0},
                                          {&dew__cli_scenario_argp, 0, NULL, 0},
                                          {0}};
    const struct argp argp = {.parser = take,
                              .args_doc = "SCENARIO.yaml",
                              .doc = does,
                              .children = children};
    struct ducts d = {0};
    int code = dew__cli_parse(&argp, argc, argv, &d);

    if (code == DEW__DONE)
        code = dew__job_open(&d.job, d.path, &d.common);
    if (code != DEW__DONE)
        return code;
    code = dew__cli_chosen(&d.common, d.job.scenario, d.which, PICKS, &d.count);
    if (code == DEW__DONE)
        code = dew__layouts_open(&d.layouts, &d.job, d.which, d.count, 0);
    if (code == DEW__DONE)
        code = tell(&d);
    dew__layouts_close(&d.layouts);
    dew__job_close(&d.job);
    return code;
}
