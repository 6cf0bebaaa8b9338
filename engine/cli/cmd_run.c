/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger run: the main job.  Marches every option through its year. */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/doubts.h"
#include "cli/inputs.h"
#include "cli/job.h"
#include "cli/layouts.h"
#include "cli/load.h"
#include "dew/drying.h"
#include "dew/report.h"

enum { MOST = 64, HOURS_A_STEP = 73 };

/* All that a run owns, in the order it is made. */
struct run {
    struct dew__cli common, result;
    const char *path;
    struct dew__job job;
    size_t which[MOST], count; /* options to march, as the file numbers them */
    int handed;                /* 1: the second was picked alone            */
    struct dew_case *cases;    /* then those once dry       */
    size_t dry[MOST];          /* their place; 0 = none     */
    size_t runs;               /* options and dry ones      */
    struct dew_option_facts facts[MOST];
    struct dew_costs costs[MOST];
    struct dew_choice choices[MOST];
    struct dew_study *study;
    struct dew_safety safety;
    struct dew_prices prices;
    struct dew_question question;
    struct dew_verdict *verdict;
    struct dew_caution cautions[DEW_CAUTIONS];
    struct dew__layouts layouts;
    struct dew__inputs inputs;
    struct dew__doubts doubts;
    char log[DEW__PATH];      /* log.file=FILE of --log */
    struct dew_beside beside; /* the first option, where there is a log      */
};

/* ---- which options --------------------------------------------------------- */

/* The scenario's first option is today's house and is marched in any case:
   whatever is said of "today" is said of it.  One that was picked alone is the
   one that the sheets are about. */
static int pick_options(struct run *r)
{
    int code =
        dew__cli_chosen(&r->common, r->job.scenario, r->which, MOST, &r->count);

    if (code != DEW__DONE || r->which[0] == 0)
        return code;
    if (r->count == MOST)
        return dew__cli_fail(DEW__BAD_INPUT,
                             "more than %d options with today's house, the "
                             "first: pick fewer by --option",
                             MOST);
    memmove(&r->which[1], &r->which[0], r->count * sizeof r->which[0]);
    r->which[0] = 0;
    r->handed = r->count == 1;
    r->count++;
    return code;
}

/* ---- the march --------------------------------------------------------------- */

static int make_cases(struct run *r)
{
    struct dew_error err = {0};

    r->cases = calloc(2 * r->count, sizeof *r->cases);
    r->verdict = calloc(1, sizeof *r->verdict);
    if (r->cases == NULL || r->verdict == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    for (size_t i = 0; i < r->count; i++) {
        if (dew_scenario_case(r->job.scenario, r->which[i], &r->job.outdoors,
                              NULL, &r->cases[i], &err) != DEW_OK)
            return dew__cli_error(&err);
        r->facts[i] = dew_scenario_facts(r->job.scenario, r->which[i]);
        r->costs[i] = dew_scenario_costs(r->job.scenario, r->which[i]);
    }
    return DEW__DONE;
}

/* Options that still give off construction water are marched dry too. */
static void add_dry_ones(struct run *r)
{
    r->runs = r->count;
    for (size_t i = 0; i < r->count; i++) {
        if (!dew_drying_matters(&r->cases[i]))
            continue;
        r->cases[r->runs] = dew_drying_settled(&r->cases[i]);
        r->dry[i] = r->runs++;
    }
}

static int open_study(struct run *r)
{
    struct dew_option options[2 * MOST];
    struct dew_error err = {0};
    struct dew_weather weather;
    size_t dates;

    weather.hours = dew_year_hours(r->job.year, &weather.count);
    weather.dates = dew_year_dates(r->job.year, &dates);
    for (size_t i = 0; i < r->count; i++) {
        options[i] = (struct dew_option){
            dew_scenario_name(r->job.scenario, r->which[i]), &r->cases[i],
            dew_scenario_required(r->job.scenario, r->which[i]),
            r->job.held ? r->job.measured.t : NULL};
        if (r->dry[i] == 0)
            continue;
        options[r->dry[i]] = options[i];
        options[r->dry[i]].c = &r->cases[r->dry[i]];
    }
    if (dew_study_open(&r->study, options, r->runs, &weather, &err) != DEW_OK)
        return dew__cli_error(&err);
    return DEW__DONE;
}

/* Sums are of the hours there are, and nothing makes a year of them. */
static void note_length(const struct run *r)
{
    char span[200];
    size_t count;

    (void)dew_year_hours(r->job.year, &count);
    if (dew_report_span(count, span, sizeof span)[0] != '\0')
        fprintf(stderr, "dewledger: note: %s\n", span);
}

/* One line that is written over, and wiped at the end. */
static void progress(const struct run *r, double done)
{
    size_t turn = dew_study_turn(r->study);

    if (!isatty(STDERR_FILENO))
        return;
    if (done < 1)
        fprintf(stderr, "\roption %zu of %zu, %3.0f %%", turn + 1, r->runs,
                100 * done);
    else
        fprintf(stderr, "\r%40s\r", "");
}

static int march(struct run *r)
{
    struct dew_error err = {0};
    double done = 0;

    while (done < 1) {
        if (dew_study_step(r->study, HOURS_A_STEP, &done, &err) != DEW_OK)
            return dew__cli_error(&err);
        progress(r, done);
    }
    return DEW__DONE;
}

/* ---- the verdict --------------------------------------------------------------- */

static int any_price(const struct dew_prices *p)
{
    return !isnan(p->electricity.likely) || !isnan(p->gas.likely) ||
           !isnan(p->oil.likely) || !isnan(p->propane.likely) ||
           !isnan(p->wood.likely);
}

static void judge(struct run *r)
{
    size_t count;
    const struct dew_outcome *outcomes = dew_study_outcomes(r->study, &count);

    for (size_t i = 0; i < r->count; i++)
        r->choices[i] =
            (struct dew_choice){&outcomes[i],
                                &r->cases[i],
                                &r->facts[i],
                                &r->costs[i],
                                r->dry[i] > 0 ? &outcomes[r->dry[i]] : NULL,
                                dew__doubts_of(&r->doubts, i, DEW_COIL_DRY),
                                dew__doubts_of(&r->doubts, i, DEW_COIL_WET)};
    r->safety = dew_scenario_safety(r->job.scenario);
    r->prices = dew_scenario_prices(r->job.scenario);
    r->question = (struct dew_question){
        .choices = r->choices,
        .count = r->count,
        .safety = &r->safety,
        .prices = any_price(&r->prices) ? &r->prices : NULL,
        .judging = dew_verdict_judging()};
    dew_verdict_of(&r->question, r->verdict);
}

/* ---- the report ------------------------------------------------------------------ */

static int write_report(const struct run *r, const struct dew_report *report)
{
    struct dew_error err = {0};

    if (r->common.out != NULL &&
        dew_report_write(report, r->common.out, &err) != DEW_OK)
        return dew__cli_error(&err);
    if (r->result.json)
        dew_report_json(report, stdout, &err);
    else
        dew_report_text(report, stdout, &err);
    return err.status == DEW_OK ? DEW__DONE : dew__cli_error(&err);
}

static size_t list_files(const struct run *r, struct dew_report_file files[3])
{
    size_t n = 0;

    files[n++] = (struct dew_report_file){"scenario", r->job.scenario_hash};
    if (r->job.weather_hash[0] != '\0')
        files[n++] = (struct dew_report_file){"weather", r->job.weather_hash};
    if (r->job.log_hash[0] != '\0')
        files[n++] = (struct dew_report_file){"log", r->job.log_hash};
    return n;
}

static void lay_beside(struct run *r, struct dew_report *report)
{
    if (r->job.log == NULL)
        return;
    r->beside = dew_study_beside(r->choices[0].outcome, report->dates,
                                 &r->job.measured);
    report->beside = &r->beside;
    r->question.measured = &r->beside;
    report->log = dew_log_provenance(r->job.log);
    report->laid = &r->job.laid;
    report->held = r->job.held;
}

static int tell(struct run *r)
{
    size_t stops = 0, dates;
    struct dew_report_file files[3];
    struct dew_report report = {.title = dew_scenario_title(r->job.scenario),
                                .version = DEW_VERSION,
                                .question = &r->question,
                                .verdict = r->verdict,
                                .cautions = r->cautions,
                                .weather = dew_year_provenance(r->job.year),
                                .weather_notes = r->job.note,
                                .weather_note_count = r->job.note_count,
                                .site = dew_year_site(r->job.year),
                                .dates = dew_year_dates(r->job.year, &dates),
                                .files = files,
                                .file_count = list_files(r, files),
                                .system = (enum dew_system)dew__cli_system(
                                    &r->result, r->job.scenario)};
    int code;

    lay_beside(r, &report);
    report.caution_count =
        dew_cautions_of(&r->question, r->cautions, DEW_CAUTIONS);
    if (!dew__inputs_open(&r->inputs, r->job.scenario, r->which, r->count,
                          report.system))
        return dew__cli_fail(DEW__FAILED, "out of memory");
    report.inputs = r->inputs.list;
    report.input_count = r->inputs.count;
    report.doubts = r->doubts.list;
    report.doubt_count = r->doubts.count;
    report.ducts = r->layouts.report;
    report.handed = r->handed ? &r->choices[1] : NULL;
    for (size_t i = 0; i < report.caution_count; i++)
        stops += r->cautions[i].level == DEW_STOP;
    code = write_report(r, &report);
    return code == DEW__DONE && r->common.strict && stops > 0 ? DEW__STOPPED
                                                              : code;
}

static int all_of_it(struct run *r)
{
    int code = pick_options(r);

    if (code == DEW__DONE)
        code = make_cases(r);
    if (code == DEW__DONE) {
        add_dry_ones(r);
        code = open_study(r);
    }
    if (code == DEW__DONE)
        note_length(r);
    if (code == DEW__DONE)
        code = march(r);
    if (code == DEW__DONE)
        code = dew__doubts_march(&r->doubts, &r->job, r->which, r->count);
    if (code == DEW__DONE && r->common.out != NULL)
        code = dew__layouts_open(&r->layouts, &r->job, r->which, r->count, 1);
    if (code != DEW__DONE)
        return code;
    judge(r);
    return tell(r);
}

/* ---- the command line -------------------------------------------------------------- */

enum { KEY_LOG = 0x400 };

static const struct argp_option options[] = {
    {"log", KEY_LOG, "FILE", 0,
     "lay this log of indoor temperature and humidity over the model; its "
     "answers are the keys log.sensor, log.order and log.clock",
     0},
    {0},
};

/* --log FILE is --set log.file=FILE. */
static void set_log(struct run *r, const char *file, struct argp_state *state)
{
    if (r->common.set_count == DEW__CLI_SETS ||
        snprintf(r->log, sizeof r->log, "log.file=%s", file) >=
            (int)sizeof r->log)
        dew__cli_usage(state, "--log %s: too long, or too many --set", file);
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
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &r->result;
        state->child_inputs[1] = &r->common;
        return 0;
    default:
        return dew__cli_one(key, word, state, &r->path);
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
    "  dewledger run house.yaml --out result --units si\n"
    "  dewledger run house.yaml --log bedroom.csv\n"
    "  dewledger run house.yaml --set 'house.airtightness=2 ach50' --json\n";

int dew__cmd_run(int argc, char **argv)
{
    const struct argp_child children[] = {{&dew__cli_result_argp, 0, NULL, 0},
                                          {&dew__cli_scenario_argp, 0, NULL, 0},
                                          {0}};
    const struct argp argp = {.options = options,
                              .parser = take,
                              .args_doc = "SCENARIO.yaml",
                              .doc = does,
                              .children = children};
    struct run *r = calloc(1, sizeof *r);
    int code;

    if (r == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    code = dew__cli_parse(&argp, argc, argv, r);
    if (code == DEW__DONE)
        code = dew__job_open(&r->job, r->path, &r->common);
    if (code == DEW__DONE)
        code = all_of_it(r);
    dew__layouts_close(&r->layouts);
    dew__inputs_close(&r->inputs);
    dew__doubts_close(&r->doubts);
    dew_study_close(r->study);
    free(r->verdict);
    free(r->cases);
    dew__job_close(&r->job);
    free(r);
    return code;
}
