/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger run: the main job.  Marches every option through its year. */
#include <unistd.h>

#include "cli/load.h"

enum { HOURS_A_STEP = 73, LOG = 4096 };

struct run {
    struct cli__cli common, result;
    const char *path;
    int full;      /* 1: print all */
    int years;     /* other made years to march */
    char log[LOG]; /* log.file=FILE of --log */
    struct dew_run *run;
};

/* One line that is written over, and wiped at the end. */
static void progress(const struct dew_run *run, double done)
{
    size_t count, turn = dew_run_turn(run, &count);

    if (!isatty(STDERR_FILENO))
        return;
    if (done < 1)
        fprintf(stderr, "\roption %zu of %zu, %3.0f %%", turn + 1, count,
                100 * done);
    else
        fprintf(stderr, "\r%40s\r", "");
}

static int march(struct dew_run *run)
{
    struct dew_error err = {0};
    const char *note;
    double done = 0;

    for (size_t i = 0; (note = dew_run_note(run, i)) != NULL; i++)
        fprintf(stderr, "dewledger: note: %s\n", note);
    while (done < 1) {
        if (dew_run_step(run, HOURS_A_STEP, &done, &err) != DEW_OK)
            return cli__error(&err);
        progress(run, done);
    }
    return CLI__DONE;
}

/* Other made years, for how far they differ. */
static int march_years(const struct run *r)
{
    struct dew_error err = {0};

    (void)dew_run_report(r->run, (enum dew_system)r->result.units);
    for (int n = 1; n <= r->years; n++) {
        if (isatty(STDERR_FILENO))
            fprintf(stderr, "\rother year %d of %d", n, r->years);
        if (dew_run_other_year(r->run, n, &err) != DEW_OK)
            return cli__error(&err);
    }
    if (r->years > 0 && isatty(STDERR_FILENO))
        fprintf(stderr, "\r%40s\r", "");
    return CLI__DONE;
}

static int tell(const struct run *r)
{
    const struct dew_report *report =
        dew_run_report(r->run, (enum dew_system)r->result.units);
    struct dew_error err = {0};
    size_t stops = 0;

    if (r->common.out != NULL &&
        dew_report_write(report, r->common.out, &err) != DEW_OK)
        return cli__error(&err);
    if (r->result.json)
        dew_report_json(report, stdout, &err);
    else if (r->full)
        dew_report_text(report, stdout, &err);
    else
        dew_report_brief(report, r->common.out, stdout, &err);
    if (err.status != DEW_OK)
        return cli__error(&err);
    for (size_t i = 0; i < report->caution_count; i++)
        stops += report->cautions[i].level == DEW_STOP;
    return r->common.strict && stops > 0 ? CLI__STOPPED : CLI__DONE;
}

/* ---- the command line -------------------------------------------------------------- */

enum { KEY_LOG = 0x400, KEY_FULL, KEY_YEARS, YEARS_MOST = 200 };

static const struct argp_option options[] = {
    {"log", KEY_LOG, "FILE", 0,
     "lay this log of indoor temperature and humidity over the model; its "
     "answers are the keys log.sensor, log.order and log.clock",
     0},
    {"full", KEY_FULL, NULL, 0, "print all there is to tell, not one screen",
     0},
    {"years", KEY_YEARS, "N", 0,
     "march today's house and the best option through N other made years of "
     "the place too, for how far years differ",
     0},
    {0},
};

/* --log FILE is --set log.file=FILE. */
static void set_log(struct run *r, const char *file, struct argp_state *state)
{
    if (r->common.set_count == CLI__SETS ||
        snprintf(r->log, sizeof r->log, "log.file=%s", file) >=
            (int)sizeof r->log)
        cli__usage(state, "--log %s: too long, or too many --set", file);
    else
        r->common.sets[r->common.set_count++] = r->log;
}

static error_t take(int key, char *word, struct argp_state *state)
{
    struct run *r = state->input;

    switch (key) {
    case KEY_LOG:
        set_log(r, word, state);
        return 0;
    case KEY_YEARS:
        r->years = (int)cli__whole(state, "years", word, 2.0, YEARS_MOST);
        return 0;
    case KEY_FULL:
        r->full = 1;
        return 0;
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &r->result;
        state->child_inputs[1] = &r->common;
        return 0;
    default:
        return cli__one(key, word, state, &r->path);
    }
}

static const char does[] =
    "Marches every option of a scenario through its year of weather, and tells "
    "what is wrong with the house, what helps and what does not.\v"
    "With --out, report.html, summary.json, sheets for the contractor, the "
    "inspector and the owner, the hours of each option and every chart are "
    "written into DIR, all or none: a DIR that has summary.json has them "
    "all.\n\n"
    "  dewledger run house.yaml\n"
    "  dewledger run house.yaml --full\n"
    "  dewledger run house.yaml --years 8\n"
    "  dewledger run house.yaml --out result --units si\n"
    "  dewledger run house.yaml --log bedroom.csv\n"
    "  dewledger run house.yaml --set 'house.airtightness=2 ach50' --json\n";

int cli__cmd_run(int argc, char **argv)
{
    const struct argp_child children[] = {{&cli__result_argp, 0, NULL, 0},
                                          {&cli__scenario_argp, 0, NULL, 0},
                                          {0}};
    const struct argp argp = {.options = options,
                              .parser = take,
                              .args_doc = "SCENARIO.yaml",
                              .doc = does,
                              .children = children};
    struct run r = {.path = NULL};
    int code = cli__parse(&argp, argc, argv, &r);

    if (code == CLI__DONE)
        code = cli__open(&r.run, r.path, &r.common, DEW_RUN_MARCH,
                         r.common.out != NULL
                             ? DEW_RUN_WHOLE
                             : DEW_RUN_WHOLE & ~(unsigned)DEW_RUN_LAYOUTS);
    if (code == CLI__DONE)
        code = march(r.run);
    if (code == CLI__DONE)
        code = march_years(&r);
    if (code == CLI__DONE)
        code = tell(&r);
    dew_run_close(r.run);
    return code;
}
