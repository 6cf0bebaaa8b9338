/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger spread: many houses like the one told, drawn from its ranges. */
#include <stdlib.h>
#include <string.h>

#include "cli/kept_folder.h"
#include "cli/spread_csv.h"

struct spread {
    struct cli__cli result, common;
    const char *path;
    struct dew_spread_ask ask;
    const char *csv, *from; /* files of draws, or NULL                      */
    struct cli__draws draws;
    struct cli__houses houses; /* of run.houses                              */
    int draws_told; /* --draws was given                                     */
    size_t indices; /* points of them; 0: none asked for                    */
    struct dew_run *run;
    struct dew_spread *spread;
};

static int march(struct spread *s)
{
    struct dew_error err = {0};
    double done = 0;

    while (done < 1) {
        cli__progress(done, "%zu houses", s->ask.draws);
        if (dew_spread_step(s->spread, &done, &err) != DEW_OK)
            return cli__error(&err);
    }
    cli__progress(1, "%zu houses", s->ask.draws);
    return CLI__DONE;
}

/* What is told beside the counts, into *worth and *effects. */
static enum dew_status work_out(const struct spread *s,
                                struct cli__spread *told,
                                struct cli__worth *worth,
                                struct cli__effects *effects,
                                struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    if (cli__worth_tells(told)) {
        status = cli__worth_of(told, worth, err);
        told->worth = worth;
    }
    if (s->indices > 0 && status == DEW_OK) {
        effects->points = s->indices;
        status = cli__effects_of(told, effects, err);
        told->effects = effects;
    }
    return status;
}

static int tell(const struct spread *s)
{
    struct cli__spread told = {.run = s->run,
                               .spread = s->spread,
                               .told = dew_spread_draws(s->spread),
                               .draws = s->ask.draws,
                               .options = dew_run_count(s->run),
                               .seed = s->ask.seed,
                               .from = s->from,
                               .units = s->result.units,
                               .told_only = s->ask.told_only};
    struct cli__worth worth = {0};
    struct cli__effects effects = {0};
    struct dew_error err = {0};
    int code = CLI__DONE;

    if (work_out(s, &told, &worth, &effects, &err) != DEW_OK ||
        (s->csv != NULL && cli__draws_write(&told, s->csv, &err) != DEW_OK))
        code = cli__error(&err);
    else if (s->result.json)
        code = cli__json(cli__spread_json(&told));
    else
        cli__spread_print(&told);
    cli__worth_close(&worth);
    cli__effects_close(&effects);
    return code;
}

/* The scenario, and what is drawn from it. */
static int open_spread(struct spread *s)
{
    struct dew_error err = {0};
    int code =
        cli__open(&s->run, s->path, &s->common, DEW_RUN_MARCH, DEW_RUN_TODAY);

    if (code != CLI__DONE)
        return code;
    if (s->from == NULL && !s->draws_told) {
        code = cli__houses_read(&s->houses, s->run, s->path, &s->ask);
        if (code != CLI__DONE)
            return code;
    }
    snprintf(err.source, sizeof err.source, "%s",
             strcmp(s->path, "-") == 0 ? "standard input" : s->path);
    if (dew_spread_open(&s->spread, s->run, &s->ask, &err) != DEW_OK)
        return cli__error(&err);
    if (s->from != NULL)
        return cli__draws_give(&s->draws, s->spread);
    if (s->houses.draws.draws > 0)
        s->from = s->houses.path;
    return cli__houses_give(&s->houses, s->spread);
}

static int spread(struct spread *s)
{
    int code =
        s->from != NULL ? cli__draws_read(&s->draws, s->from) : CLI__DONE;

    if (s->from != NULL)
        s->ask.draws = s->draws.draws;
    if (code == CLI__DONE)
        code = open_spread(s);
    if (code == CLI__DONE)
        code = march(s);
    return code == CLI__DONE ? tell(s) : code;
}

/* ---- the command line -------------------------------------------------------------- */

enum {
    KEY_DRAWS = 0x400,
    KEY_THREADS,
    KEY_SEED,
    KEY_TOLD,
    KEY_INDICES,
    KEY_CSV,
    KEY_FROM,
    KEY_KEPT
};

static const struct argp_option options[] = {
    {"draws", KEY_DRAWS, "N", 0,
     "how many houses; best 128, 256, 512, 1024 ... (128)", 0},
    {"threads", KEY_THREADS, "N", 0,
     "at most so many at once (as many as processors); the result does not "
     "change with it",
     0},
    {"seed", KEY_SEED, "N", 0, "other draws from the same ranges (1)", 0},
    {"told", KEY_TOLD, NULL, 0,
     "draw only what you gave a range; the rest stays at its usual value", 0},
    {"indices", KEY_INDICES, "POINTS", OPTION_ARG_OPTIONAL,
     "where the doubt in the hours too humid comes from, figure by figure; "
     "marches POINTS (512) houses up to 15 times for each of two options, "
     "minutes",
     0},
    {"csv", KEY_CSV, "FILE", 0,
     "write the draws there: what each took of the ranges, and what every "
     "option came to",
     0},
    {"from", KEY_FROM, "FILE", 0,
     "take the draws of such a file in place of new ones", 0},
    {"kept", KEY_KEPT, "DIR", OPTION_HIDDEN, "as in run", 0},
    {0},
};

static error_t take(int key, char *word, struct argp_state *state)
{
    struct spread *s = state->input;

    switch (key) {
    case KEY_DRAWS:
        s->draws_told = 1;
        s->ask.draws = cli__whole(state, "draws", word, 8, DEW_SPREAD_MOST);
        return 0;
    case KEY_THREADS:
        s->ask.threads = cli__threads(state, word);
        return 0;
    case KEY_SEED:
        s->ask.seed = cli__seed(state, word);
        return 0;
    case KEY_TOLD:
        s->ask.told_only = 1;
        return 0;
    case KEY_CSV:
        return s->csv = word, 0;
    case KEY_FROM:
        return s->from = word, 0;
    case KEY_KEPT:
        s->common.kept = cli__kept(word);
        return 0;
    case KEY_INDICES:
        s->indices = word == NULL
                         ? DEW_EFFECTS_POINTS
                         : cli__whole(state, "indices", word, DEW_EFFECTS_LEAST,
                                      DEW_EFFECTS_MOST);
        return 0;
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &s->result;
        state->child_inputs[1] = &s->common;
        return 0;
    case ARGP_KEY_END:
        if (s->from != NULL && s->draws_told)
            cli__usage(state, "--from has its own draws: leave --draws out");
        return 0;
    default:
        return cli__one(key, word, state, &s->path);
    }
}

static const char does[] =
    "Draws many houses like yours from the ranges in the scenario, marches "
    "every option through the year in each, and tells in how many of 100 it "
    "keeps the limits, brings the air and is the best, and how far the hours "
    "go apart.\v"
    "A range is written behind a figure that you are not sure of, likely (low "
    "to high): airtightness: 1.1 ach50 (0.7 to 2.0).  Each figure is drawn by "
    "itself, mostly near the likely one and never beyond the ends.  What you did not "
    "tell is drawn too, from what is usual: `check` says from where to where.  "
    "Ranges of "
    "money belong to the costs that `run` tells, and are not drawn.\n\n"
    "  dewledger spread house.yaml\n"
    "  dewledger spread house.yaml --draws 1024\n"
    "  dewledger spread house.yaml --set 'people.count=4 (3 to 6)' --json\n";

int cli__cmd_spread(int argc, char **argv)
{
    const struct argp_child children[] = {
        {&cli__result_argp, 0, NULL, 0}, {&cli__pick_argp, 0, NULL, 0}, {0}};
    const struct argp argp = {.options = options,
                              .parser = take,
                              .args_doc = "SCENARIO.yaml",
                              .doc = does,
                              .children = children};
    struct spread *s = calloc(1, sizeof *s);
    int code;

    if (s == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    s->ask = (struct dew_spread_ask){.draws = DEW_SPREAD_DRAWS,
                                     .seed = DEW_SPREAD_SEED,
                                     .years = 1,
                                     .model = 1};
    code = cli__parse(&argp, argc, argv, s);
    if (code == CLI__DONE)
        code = spread(s);
    cli__draws_close(&s->draws);
    cli__draws_close(&s->houses.draws);
    dew_spread_close(s->spread);
    dew_run_close(s->run);
    free(s);
    return code;
}
