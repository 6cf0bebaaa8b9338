/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger run: the main job.  Marches every option through its year. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/kept_folder.h"
#include "cli/made_options.h"
#include "cli/spread_csv.h"
#include "core/clean.h"
#include "dew/fit.h"
#include "dew/spread.h"
#include "run/run.h"

enum { HOURS_A_STEP = 73, LOG = 4096 };
#define AS_KEY SIZE_MAX

struct run {
    struct cli__cli common, result;
    const char *path;
    int full;      /* 1: print all */
    int years;     /* other made years to march */
    int suggests;  /* 1: options are made */
    int yaml;      /* 1: and printed, nothing else */
    int few;       /* 1: --few */
    char log[LOG]; /* log.file=FILE of --log */
    size_t draws;  /* of --draws and --quick; AS_KEY: run.draws */
    struct dew_suggest *suggest;
    struct dew_run *run;
    struct dew_spread *spread; /* NULL: no house is drawn */
    struct cli__houses houses; /* of run.houses */
    char log_path[LOG];
    struct dew_fit *fit; /* NULL: report.html has nothing of it */
    struct dew_report_fit learned;
};

static void progress(const struct dew_run *run, double done)
{
    size_t count, turn = dew_run_turn(run, &count);

    cli__progress(done, "option %zu of %zu", turn + 1, count);
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

/* The answer for the likely house, while those like it are marched. */
static void say_likely(const struct run *r, char *out, size_t size)
{
    const struct dew_report *report =
        dew_run_report(r->run, (enum dew_system)r->result.units);
    int best = report->verdict->best;
    char name[100];

    snprintf(out, size, "as told: none does");
    if (best >= 0)
        snprintf(out, size, "as told: %.40s",
                 core__clean(report->question->choices[best].outcome->name,
                             name, sizeof name));
}

/* Where --draws does not ask for new ones, the scenario may name a file. */
static int open_draws(struct run *r, struct dew_spread_ask *ask)
{
    struct dew_error err = {0};
    int code = r->draws == AS_KEY
                   ? cli__houses_read(&r->houses, r->run, r->path, ask)
                   : CLI__DONE;

    if (code == CLI__DONE &&
        dew_spread_open(&r->spread, r->run, ask, &err) != DEW_OK)
        code = cli__error(&err);
    if (code == CLI__DONE)
        code = cli__houses_give(&r->houses, r->spread);
    if (code == CLI__DONE && r->houses.draws.draws > 0)
        cli__anew_print(stderr, r->spread, ask->draws);
    return code;
}

static int draw(struct run *r, size_t draws)
{
    struct dew_spread_ask ask = {
        .draws = draws, .seed = DEW_SPREAD_SEED, .years = 1, .model = 1};
    struct dew_error err = {0};
    char likely[80];
    double done = 0;
    int code = open_draws(r, &ask);

    if (code != CLI__DONE)
        return code;
    say_likely(r, likely, sizeof likely);
    while (done < 1) {
        cli__progress(done, "%s; %zu houses like it", likely, ask.draws);
        if (dew_spread_step(r->spread, &done, &err) != DEW_OK)
            return cli__error(&err);
    }
    cli__progress(1, "%s", likely);
    dew_run_judge_by(r->run, dew_spread_draws(r->spread));
    return CLI__DONE;
}

/* Houses like the one told, of a whole year. */
static int march_draws(struct run *r)
{
    size_t draws = r->draws == AS_KEY ? dew_run_draws(r->run) : r->draws;
    size_t hours;

    (void)dew_year_hours(dew_run_year(r->run), &hours);
    if (draws == 0)
        return CLI__DONE;
    if (hours < DEW_MARCH_YEAR) {
        fprintf(stderr, "dewledger: note: no houses like yours are drawn: the "
                        "weather is less than a year\n");
        return CLI__DONE;
    }
    return draw(r, draws);
}

/* What the log tells by itself, for report.html; where it cannot be learned, a
   note says why. */
static void learn(struct run *r)
{
    const char *file = dew_scenario_log(dew_run_scenario(r->run)).file,
               *path = r->log_path;
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};
    const struct dew_fit_ask ask = {.name = r->path,
                                    .logs = &path,
                                    .log_count = 1,
                                    .sets = r->common.sets,
                                    .set_count = r->common.set_count};

    if (r->common.out == NULL || file[0] == '\0' || strcmp(r->path, "-") == 0)
        return;
    if (run__find_beside(r->path, file, r->log_path, list) == DEW_OK &&
        dew_fit_open(&r->fit, &ask, &faults) == DEW_OK) {
        r->learned = dew_fit_told(r->fit);
        dew_run_learned(r->run, &r->learned);
    } else
        fprintf(stderr,
                "dewledger: note: report.html does not have what the log tells "
                "by itself: %s\n",
                list[0].text);
}

static enum dew_status write_to(const struct run *r,
                                const struct dew_report *report,
                                struct dew_error *err)
{
    return r->few ? dew_report_write_few(report, r->common.out, err)
                  : dew_report_write(report, r->common.out, err);
}

static int tell(const struct run *r)
{
    const struct dew_report *report =
        dew_run_report(r->run, (enum dew_system)r->result.units);
    struct dew_error err = {0};
    size_t stops = 0;

    if (r->common.out != NULL && write_to(r, report, &err) != DEW_OK)
        return cli__error(&err);
    if (r->result.json)
        dew_report_json(report, stdout, &err);
    else if (r->full)
        dew_report_text(report, stdout, &err);
    else
        dew_report_brief(report, r->common.out, stdout, &err);
    if (err.status != DEW_OK)
        return cli__error(&err);
    if (r->suggest != NULL)
        cli__suggest_say(r->result.json ? stderr : stdout, r->suggest, r->full);
    else if (!r->result.json &&
             dew_scenario_count(dew_run_scenario(r->run)) == 1)
        cli__wrap(stdout, 0,
                  "One option is no comparison: `dewledger run --suggest` with "
                  "this file marches what is usually tried for such a house.");
    for (size_t i = 0; i < report->caution_count; i++)
        stops += report->cautions[i].level == DEW_STOP;
    return r->common.strict && stops > 0 ? CLI__STOPPED : CLI__DONE;
}

/* ---- the command line -------------------------------------------------------------- */

enum {
    KEY_LOG = 0x400,
    KEY_FULL,
    KEY_YEARS,
    KEY_DRAWS,
    KEY_QUICK,
    KEY_SUGGEST,
    KEY_YAML,
    KEY_KEPT,
    KEY_FEW,
    YEARS_MOST = 200
};

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
    {"draws", KEY_DRAWS, "N", 0,
     "draw N houses like yours from your ranges, for how sure the answer is; "
     "for the key run.draws (128)",
     0},
    {"suggest", KEY_SUGGEST, NULL, 0,
     "march options made for this house in the place of its own, and leave out "
     "what is no better than another; so it is where the file has none",
     0},
    {"yaml", KEY_YAML, NULL, 0,
     "with --suggest: print the scenario with the options made, and no more",
     0},
    /* for a program that asks again and again, as the page does */
    {"kept", KEY_KEPT, "DIR", OPTION_HIDDEN,
     "take from this folder what options came to that did not change, and put "
     "there what they come to; of one build of the program",
     0},
    {"few", KEY_FEW, NULL, OPTION_HIDDEN,
     "with --out: report.html and summary.json alone", 0},
    {"quick", KEY_QUICK, NULL, 0,
     "draw none: the likely house alone; make no options unless asked to", 0},
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
    case KEY_DRAWS:
        r->draws = cli__whole(state, "draws", word, 0, DEW_SPREAD_MOST);
        return 0;
    case KEY_SUGGEST:
        r->suggests = 1;
        return 0;
    case KEY_YAML:
        r->yaml = 1;
        return 0;
    case ARGP_KEY_END:
        if (r->yaml && !r->suggests)
            cli__usage(state, "--yaml goes with --suggest");
        return 0;
    case KEY_KEPT:
        r->common.kept = cli__kept(word);
        return 0;
    case KEY_FEW:
        r->few = 1;
        return 0;
    case KEY_QUICK:
        r->draws = 0;
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
    "  dewledger run house.yaml --quick\n"
    "  dewledger run house.yaml --years 8\n"
    "  dewledger run house.yaml --out result --units si\n"
    "  dewledger run house.yaml --log bedroom.csv\n"
    "  dewledger run house.yaml --suggest\n"
    "  dewledger run house.yaml --suggest --yaml >options.yaml\n"
    "  dewledger run house.yaml --set 'house.airtightness=2 ach50' --json\n";

static unsigned with_what(const struct run *r)
{
    return r->common.out != NULL ? DEW_RUN_WHOLE
                                 : DEW_RUN_WHOLE & ~(unsigned)DEW_RUN_LAYOUTS;
}

/* A file without options asks what to do, unless it lays a log over the house
   as it is or draws no houses; those take a whole year. */
static int asks_for_options(const struct run *r)
{
    const struct dew_scenario *s = dew_run_scenario(r->run);
    size_t hours;

    (void)dew_year_hours(dew_run_year(r->run), &hours);
    return dew_scenario_bare(s) && r->common.option_count == 0 &&
           dew_scenario_log(s).file[0] == '\0' && hours >= DEW_MARCH_YEAR &&
           (r->draws == AS_KEY ? dew_run_draws(r->run) : r->draws) > 0;
}

/* In the place of the run that is open the same with options made. */
static int open_made(struct run *r)
{
    struct cli__text from = {.name = r->path};
    struct dew_run *house = r->run;
    int code = CLI__DONE;

    from.text = dew_scenario_text(dew_run_scenario(house), &from.length);
    code = cli__suggest_unasked(&r->suggest, &from, &r->common, r->draws);
    if (code != CLI__DONE || r->suggest == NULL)
        return code;
    from.text = dew_suggest_text(r->suggest, &from.length);
    code =
        cli__open_text(&r->run, &from, &r->common, DEW_RUN_MARCH, with_what(r));
    dew_run_close(house);
    return code;
}

/* The run of the scenario, or of the same with options made for it. */
static int open_it(struct run *r)
{
    struct cli__text from = {.name = r->path};
    int code = r->suggests
                   ? cli__suggest(&r->suggest, &from, &r->common, r->draws)
                   : CLI__DONE;

    if (code == CLI__DONE && r->suggest != NULL)
        from.text = dew_suggest_text(r->suggest, &from.length);
    if (code == CLI__DONE && !r->yaml)
        code = cli__open_text(&r->run, &from, &r->common, DEW_RUN_MARCH,
                              with_what(r));
    if (code == CLI__DONE && r->yaml)
        fwrite(from.text, 1, from.length, stdout);
    if (code == CLI__DONE && !r->suggests && asks_for_options(r))
        code = open_made(r);
    return code;
}

/* All that follows the opening. */
static int answer(struct run *r)
{
    int code = march(r->run);

    if (code == CLI__DONE)
        code = march_draws(r);
    if (code == CLI__DONE)
        code = march_years(r);
    if (code == CLI__DONE)
        learn(r);
    return code == CLI__DONE ? tell(r) : code;
}

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
    struct run *r = calloc(1, sizeof *r);
    int code;

    if (r == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    r->draws = AS_KEY;
    code = cli__parse(&argp, argc, argv, r);

    if (code == CLI__DONE)
        code = open_it(r);
    if (code == CLI__DONE && !r->yaml)
        code = answer(r);
    cli__draws_close(&r->houses.draws);
    dew_spread_close(r->spread);
    dew_run_close(r->run);
    dew_fit_close(r->fit);
    dew_suggest_close(r->suggest);
    free(r);
    return code;
}
