/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger ducts: air at every grille in every state, for each layout. */
#include "cli/load.h"

struct ducts {
    struct cli__cli common, result;
    const char *path;
    int full; /* 1: print all */
    struct dew_run *run;
};

static int tell(const struct ducts *d)
{
    const struct dew_report_ducts *ducts = dew_run_ducts(d->run);
    const struct dew_ducts_frame frame =
        dew_run_frame(d->run, (enum dew_system)d->result.units);
    struct dew_error err = {0};

    if (d->common.out != NULL &&
        dew_report_ducts_write(ducts, &frame, d->common.out, &err) != DEW_OK)
        return cli__error(&err);
    if (d->result.json)
        dew_report_ducts_json(ducts, &frame, stdout, &err);
    else if (d->full)
        dew_report_ducts_text(ducts, &frame, stdout, &err);
    else
        dew_report_ducts_brief(ducts, &frame, d->common.out, stdout, &err);
    if (err.status != DEW_OK)
        return cli__error(&err);
    return d->common.strict && dew_report_ducts_stops(ducts) > 0 ? CLI__STOPPED
                                                                 : CLI__DONE;
}

enum { KEY_FULL = 0x400 };

static const struct argp_option options[] = {
    {"full", KEY_FULL, NULL, 0, "print all there is to tell, not one screen",
     0},
    {0},
};

static error_t take(int key, char *word, struct argp_state *state)
{
    struct ducts *d = state->input;

    switch (key) {
    case KEY_FULL:
        d->full = 1;
        return 0;
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &d->result;
        state->child_inputs[1] = &d->common;
        return 0;
    default:
        return cli__one(key, word, state, &d->path);
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

int cli__cmd_ducts(int argc, char **argv)
{
    const struct argp_child children[] = {{&cli__result_argp, 0, NULL, 0},
                                          {&cli__scenario_argp, 0, NULL, 0},
                                          {0}};
    const struct argp argp = {.options = options,
                              .parser = take,
                              .args_doc = "SCENARIO.yaml",
                              .doc = does,
                              .children = children};
    struct ducts d = {.path = NULL};
    int code = cli__parse(&argp, argc, argv, &d);

    if (code == CLI__DONE)
        code = cli__open(&d.run, d.path, &d.common, DEW_RUN_DUCTS, 0);
    if (code == CLI__DONE)
        code = tell(&d);
    dew_run_close(d.run);
    return code;
}
