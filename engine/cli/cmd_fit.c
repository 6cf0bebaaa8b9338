/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger fit: what a logger's file tells of the house as it is. */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/fit.h"
#include "core/out.h"

struct fit {
    struct cli__cli result, common;
    const char *path, *logs[DEW_FIT_LOGS], *series, *until_word;
    struct cli__fit_files charts;
    size_t log_count;
    struct dew_date until;
    int changed; /* until is --changed's                               */
    int house;   /* 1: the house itself is asked for                   */
    struct dew_learn_ask ask;
    const char *yaml, *inputs, *report;
    struct dew_fit *fit;
    struct dew_learn *learn;
    int options; /* 1: marched on the houses learned                   */
    struct dew_spread *spread;
};

enum { ROOM = 320 };

static int open_it(struct fit *f)
{
    struct dew_faults faults = {calloc(ROOM, sizeof *faults.list), ROOM, 0};
    const struct dew_fit_ask ask = {.name = f->path,
                                    .logs = f->logs,
                                    .log_count = f->log_count,
                                    .sets = f->common.sets,
                                    .set_count = f->common.set_count,
                                    .until = f->until_word ? &f->until : NULL,
                                    .changed = f->changed};
    int code = CLI__DONE;

    if (faults.list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    if (dew_fit_open(&f->fit, &ask, &faults) != DEW_OK)
        code = cli__faults(&faults);
    free(faults.list);
    return code;
}

static struct dew_run_ask asked(const struct fit *f)
{
    return (struct dew_run_ask){.name = f->path,
                                .sets = f->common.sets,
                                .set_count = f->common.set_count};
}

static int learn(struct fit *f)
{
    struct dew_faults faults = {calloc(ROOM, sizeof *faults.list), ROOM, 0};
    const struct dew_run_ask from = asked(f);
    struct dew_error err = {0};
    int code = CLI__DONE;
    double done = 0;

    if (faults.list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    if (dew_learn_open(&f->learn, &from, f->fit, &f->ask, &faults) != DEW_OK)
        code = cli__faults(&faults);
    free(faults.list);
    while (code == CLI__DONE && done < 1) {
        cli__progress(done, "%zu houses", f->ask.draws);
        if (dew_learn_step(f->learn, &done, &err) != DEW_OK)
            code = cli__error(&err);
    }
    cli__progress(1, "%zu houses", f->ask.draws);
    return code;
}

/* What a log is wanted for. */
static int files(const struct fit *f, const struct cli__fit *told)
{
    struct dew_error err = {0};

    if (f->series != NULL && cli__fit_series(told, f->series, &err) != DEW_OK)
        return cli__error(&err);
    if (cli__fit_charts(told, &f->charts, &err) != DEW_OK)
        return cli__error(&err);
    return CLI__DONE;
}

static struct dew_spread_ask houses_of(const struct fit *f)
{
    return (struct dew_spread_ask){.draws = DEW_SPREAD_DRAWS,
                                   .seed = f->ask.seed,
                                   .threads = f->ask.threads,
                                   .told_only = f->ask.told_only};
}

static int options_of(struct fit *f, struct cli__fit *told)
{
    const struct dew_spread_ask ask = houses_of(f);

    return f->options ? cli__fit_options(told, &ask, &f->spread) : CLI__DONE;
}

static int may_write_to(const char *path)
{
    struct dew_error err = {0};
    struct core__out out;
    struct stat at;

    /* a pipe would end with a try */
    if (path == NULL ||
        (stat(path, &at) == 0 && !S_ISREG(at.st_mode) && !S_ISDIR(at.st_mode)))
        return CLI__DONE;
    if (core__out_open(&out, path, CORE__OUT_OVER, &err) != DEW_OK)
        return cli__error(&err);
    core__out_drop(&out);
    return CLI__DONE;
}

/* What cannot be written is told before anything else is, the houses beside
   --yaml too. */
static int may_write(const struct fit *f)
{
    char houses[CLI__FIT_PATH];
    const char *const paths[] = {f->report,      f->inputs,     f->yaml,
                                 f->series,      f->charts.log, f->charts.rest,
                                 f->charts.curve};
    int code = CLI__DONE;

    for (size_t i = 0; i < sizeof paths / sizeof *paths; i++)
        if (code == CLI__DONE)
            code = may_write_to(paths[i]);
    if (code == CLI__DONE && f->yaml != NULL &&
        (code = cli__fit_houses(f->yaml, houses)) == CLI__DONE)
        code = may_write_to(houses);
    return code;
}

/* Readings alone, where there is no log. */
static int fit(struct fit *f)
{
    struct cli__fit told = {.units = f->result.units,
                            .until = f->until_word != NULL,
                            .out = stdout};
    struct dew_error err = {0};
    int code = f->log_count > 0 ? open_it(f) : CLI__DONE;

    if (code != CLI__DONE)
        return code;
    told.fit = f->fit;
    if (f->house && (code = learn(f)) != CLI__DONE)
        return code;
    told.learn = f->learn;
    told.why = f->ask.causes;
    if ((code = options_of(f, &told)) != CLI__DONE)
        return code;
    if (f->fit != NULL && (code = files(f, &told)) != CLI__DONE)
        return code;
    if (f->result.json)
        code = cli__json(cli__fit_json(&told));
    else
        cli__fit_print(&told);
    if (code == CLI__DONE && cli__fit_page(&told, f->report, &err) != DEW_OK)
        return cli__error(&err);
    if (code == CLI__DONE && cli__fit_inputs(&told, f->inputs, &err) != DEW_OK)
        return cli__error(&err);
    if (code == CLI__DONE)
        code = cli__fit_yaml(
            &told, &(struct cli__fit_yaml){f->yaml, asked(f), houses_of(f)});
    return code;
}

/* ---- the command line -------------------------------------------------------------- */

enum {
    KEY_UNTIL = 0x400,
    KEY_CHANGED,
    KEY_SERIES,
    KEY_SVG,
    KEY_CURVE,
    KEY_REST,
    KEY_INPUTS,
    KEY_REPORT,
    KEY_HOUSE,
    KEY_WHY,
    KEY_OPTIONS,
    KEY_YAML,
    KEY_DRAWS,
    KEY_THREADS,
    KEY_SEED,
    KEY_TOLD
};

static const struct argp_option options[] = {
    {"until", KEY_UNTIL, "DATE", 0,
     "learn from the hours before it, as in 2024-02-01, and foretell the rest",
     0},
    {"changed", KEY_CHANGED, "DATE", 0,
     "the house was changed that day: hold the days after to what the house as "
     "it was would have made of the same weather",
     0},
    {"series", KEY_SERIES, "FILE", 0, "write every hour as CSV", 0},
    {"svg", KEY_SVG, "FILE", 0, "draw the log over what was learned", 0},
    {"curve", KEY_CURVE, "FILE", 0,
     "draw what the house adds by outdoor temperature", 0},
    {"rest", KEY_REST, "FILE", 0,
     "draw what the log has above and below what was learned", 0},
    {"report", KEY_REPORT, "FILE", 0,
     "write what is told as a page, FILE.html, with all charts in it", 0},
    {"house", KEY_HOUSE, NULL, 0,
     "learn the house itself too: march houses drawn from what the scenario "
     "leaves in doubt through the log's own weather",
     0},
    {"why", KEY_WHY, NULL, 0,
     "ask why it is as damp as it is: wet ground, a blower that runs on, "
     "laundry and others that you did not tell of, each with its chance before "
     "and after (does --house too)",
     0},
    {"options", KEY_OPTIONS, NULL, 0,
     "march the scenario's options through its year on the houses that the log "
     "leaves (does --house too)",
     0},
    {"yaml", KEY_YAML, "FILE", 0,
     "write the scenario with the ranges that the log leaves, and beside it "
     "the houses, FILE-houses.csv, for `run` and `spread` (with --house)",
     0},
    {"inputs", KEY_INPUTS, "FILE", 0,
     "draw the figures of the house that moved, before and after (with "
     "--house)",
     0},
    {"draws", KEY_DRAWS, "N", 0,
     "how many houses (4096; 2048 by readings); where too few of them agree it "
     "goes on by itself, for as many again at the most",
     0},
    {"threads", KEY_THREADS, "N", 0,
     "at most so many at once (as many as processors); the result does not "
     "change with it",
     0},
    {"seed", KEY_SEED, "N", 0, "other draws from the same ranges (1)", 0},
    {"told", KEY_TOLD, NULL, 0,
     "draw only what you gave a range; the rest stays at its usual value", 0},
    {0},
};

static int digits(const char *word, int from, int count)
{
    int n = 0;

    for (int i = from; i < from + count; i++)
        n = word[i] < '0' || word[i] > '9' ? -10000 : 10 * n + word[i] - '0';
    return n;
}

/* "2024-02-01": the hours that end before its first one begins. */
static void take_day(struct argp_state *state, struct fit *f, int changed,
                     const char *word)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    struct dew_date d = {0};
    int leap;

    if (f->until_word != NULL)
        cli__usage(state, "one of --until and --changed, once");
    f->until_word = word;
    f->changed = changed;
    if (strlen(word) == 10 && word[4] == '-' && word[7] == '-') {
        d.year = digits(word, 0, 4);
        d.month = digits(word, 5, 2);
        d.day = digits(word, 8, 2);
    }
    leap = d.year % 4 == 0 && (d.year % 100 != 0 || d.year % 400 == 0);
    if (d.year < 1 || d.month < 1 || d.month > 12 || d.day < 1 ||
        d.day > days[d.month - 1] + (leap && d.month == 2))
        cli__usage(state, "--%s %s: not a day; write it like 2024-02-01",
                   changed ? "changed" : "until", word);
    f->until = d; /* hour 0 */
}

/* What goes with --house. */
static error_t take_house(int key, char *word, struct argp_state *state)
{
    struct fit *f = state->input;

    switch (key) {
    case KEY_HOUSE:
        return f->house = 1, 0;
    case KEY_WHY:
        return f->ask.causes = f->house = 1, 0;
    case KEY_OPTIONS:
        return f->options = f->house = 1, 0;
    case KEY_YAML:
        return f->yaml = word, 0;
    case KEY_INPUTS:
        return f->inputs = word, 0;
    case KEY_DRAWS:
        f->ask.draws = cli__whole(state, "draws", word, 8, DEW_LEARN_MOST);
        return 0;
    case KEY_THREADS:
        f->ask.threads = cli__threads(state, word);
        return 0;
    case KEY_SEED:
        f->ask.seed = cli__seed(state, word);
        return 0;
    case KEY_TOLD:
        return f->ask.told_only = 1, 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

static void check(struct argp_state *state, struct fit *f)
{
    if (f->path == NULL)
        cli__usage(state, "name a scenario file and a logger's file, or a "
                          "scenario with readings");
    if (f->log_count == 0 &&
        (f->until_word != NULL || f->series != NULL || f->charts.log != NULL ||
         f->charts.curve != NULL || f->charts.rest != NULL))
        cli__usage(state, "--until, --changed, --series, --svg, --curve and "
                          "--rest are of a log: name a logger's file");
    f->house |= f->log_count == 0;
    if (f->ask.draws == 0)
        f->ask.draws = f->log_count > 0 ? DEW_LEARN_DRAWS : DEW_LEARN_FEW;
    if ((f->yaml != NULL || f->inputs != NULL) && !f->house)
        cli__usage(state, "--%s goes with --house",
                   f->yaml != NULL ? "yaml" : "inputs");
    if (f->options && f->ask.causes)
        cli__usage(state, "ask --why and --options apart: the options are of "
                          "houses without what may make them damp");
    if (f->yaml != NULL && f->ask.causes)
        cli__usage(state, "ask --why and --yaml apart: what is so or not so "
                          "is no range to write");
}

static error_t take(int key, char *word, struct argp_state *state)
{
    struct fit *f = state->input;

    switch (key) {
    case KEY_UNTIL:
    case KEY_CHANGED:
        take_day(state, f, key == KEY_CHANGED, word);
        return 0;
    case KEY_SERIES:
        f->series = word;
        return 0;
    case KEY_SVG:
        f->charts.log = word;
        return 0;
    case KEY_CURVE:
        f->charts.curve = word;
        return 0;
    case KEY_REST:
        f->charts.rest = word;
        return 0;
    case KEY_REPORT:
        f->report = word;
        return 0;
    case ARGP_KEY_ARG:
        if (f->path == NULL)
            f->path = word;
        else if (f->log_count < DEW_FIT_LOGS)
            f->logs[f->log_count++] = word;
        else
            cli__usage(state, "at most %d files of a log", DEW_FIT_LOGS);
        return 0;
    case ARGP_KEY_END:
        check(state, f);
        return 0;
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &f->result;
        state->child_inputs[1] = &f->common;
        return 0;
    default:
        return take_house(key, word, state);
    }
}

static const char does[] =
    "Learns from a logger's file how much wetter the air of the house is than "
    "the air outdoors, at each outdoor temperature, and how long the house "
    "remembers; and says what the log cannot tell.\v"
    "Without --house only the answers about log.* and weather.*, and "
    "safety.house_age, are used of the scenario; a floor area alone will do.  A log that "
    "carries the outdoor air beside the indoor needs no weather; any other "
    "wants the weather of its own days, as weather.file.  Of several files the "
    "first gives the hours, and the others what it lacks.  Without a log the "
    "scenario's readings are weighed, as with --house.\n\n"
    "  dewledger fit house.yaml log.csv\n"
    "  dewledger fit house.yaml log.csv --set log.sensor=all\n"
    "  dewledger fit house.yaml humidity.csv temperature.csv\n"
    "  dewledger fit house.yaml log.csv --until 2024-02-01 --json\n"
    "  dewledger fit house.yaml before.csv after.csv --changed 2024-02-01\n"
    "  dewledger fit house.yaml log.csv --house --yaml learned.yaml\n"
    "  dewledger fit house.yaml log.csv --options\n"
    "  dewledger fit house.yaml log.csv --why\n"
    "  dewledger fit house.yaml log.csv --house --report log.html\n"
    "  dewledger fit house.yaml --yaml learned.yaml\n";

int cli__cmd_fit(int argc, char **argv)
{
    const struct argp_child children[] = {
        {&cli__result_argp, 0, NULL, 0}, {&cli__pick_argp, 0, NULL, 0}, {0}};
    const struct argp argp = {.options = options,
                              .parser = take,
                              .args_doc = "SCENARIO.yaml [LOG...]",
                              .doc = does,
                              .children = children};
    struct fit *f = calloc(1, sizeof *f);
    int code;

    if (f == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    f->ask = (struct dew_learn_ask){.seed = DEW_SPREAD_SEED};
    code = cli__parse(&argp, argc, argv, f);
    if (code == CLI__DONE)
        code = may_write(f);
    if (code == CLI__DONE)
        code = fit(f);
    dew_spread_close(f->spread);
    dew_learn_close(f->learn);
    dew_fit_close(f->fit);
    free(f);
    return code;
}
