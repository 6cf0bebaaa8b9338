/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger size: how much air, and how much drying, is enough. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/size.h"
#include "cli/spread.h"
#include "cli/spread_csv.h"

enum { ROOM = 320 };

struct size {
    struct cli__cli result, common;
    const char *path, *svg, *better;
    int full; /* 1: print every curve */
    struct dew_size_ask ask;
    struct dew_size *size;
    int asked; /* 1: --draws was given                                  */
    struct cli__houses houses; /* of run.houses                         */
};

double cli__size_rate(const struct cli__size *s, enum dew_rate_rule rule)
{
    return dew_house_rate(rule, &s->target.home);
}

/* The run that is sized, of the first core that is tried. */
static const struct dew_run *run_of(const struct size *s)
{
    const struct dew_run *run = NULL;
    const char *why;

    for (int k = 0; k < DEW_SIZE_CORES && run == NULL; k++)
        run = dew_size_run(s->size, (enum dew_size_core)k, &why);
    return run;
}

/* text: NULL, of the file. */
static int open_as(struct size *s, const char *text, size_t length)
{
    struct dew_faults faults = {calloc(ROOM, sizeof *faults.list), ROOM, 0};
    const struct dew_run_ask from = {.name = s->path,
                                     .text = text,
                                     .length = length,
                                     .sets = s->common.sets,
                                     .set_count = s->common.set_count,
                                     .options = s->common.options,
                                     .option_count = s->common.option_count};
    int code = CLI__DONE;

    if (faults.list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    s->ask.from = &from;
    if (dew_size_open(&s->size, &s->ask, &faults) != DEW_OK)
        code = cli__faults(&faults);
    s->ask.from = NULL;
    free(faults.list);
    return code;
}

/* A copy of the scenario, to be read again: standard input is read once. */
static char *text_of(const struct dew_run *run, size_t *length)
{
    const char *text = dew_scenario_text(dew_run_scenario(run), length);
    char *copy = malloc(*length + 1);

    if (copy != NULL)
        memcpy(copy, text, *length);
    return copy;
}

/* The houses of a core are those of the file. */
static int give(struct size *s, struct dew_spread *spread, int first)
{
    int code = cli__houses_part(&s->houses, spread, first);

    if (code == CLI__DONE && first)
        cli__anew_print(stderr, spread, s->ask.draws);
    return code;
}

/* Where --draws does not ask for new houses, the scenario may name a file: so
   many of it are drawn, and take what stands there. */
static int open_it(struct size *s)
{
    struct dew_spread_ask draws = {0};
    int code = open_as(s, NULL, 0), first = 1;
    char *text;
    size_t length;

    if (code == CLI__DONE && !s->asked)
        code = cli__houses_read(&s->houses, run_of(s), s->path, &draws);
    if (code != CLI__DONE || s->houses.draws.draws == 0)
        return code;
    text = text_of(run_of(s), &length);
    if (text == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    cli__houses_thin(&s->houses, DEW_SIZE_DRAWS);
    s->ask.draws = s->houses.draws.draws;
    s->ask.years = draws.years;
    s->ask.model = draws.model;
    dew_size_close(s->size);
    s->size = NULL;
    code = open_as(s, text, length);
    free(text);
    for (int k = 0; k < DEW_SIZE_CORES && code == CLI__DONE; k++) {
        struct dew_spread *spread =
            dew_size_spread(s->size, (enum dew_size_core)k);

        if (spread == NULL)
            continue;
        code = give(s, spread, first);
        first = 0;
    }
    return code;
}

/* What cannot be drawn is refused before hundreds of years are marched. */
static int can_draw(struct size *s)
{
    int cores = 0;

    for (int k = 0; k < DEW_SIZE_CORES; k++)
        cores += dew_size_spread(s->size, (enum dew_size_core)k) != NULL;
    return s->better == NULL || cores > 1 ? CLI__DONE : cli__size_no_better();
}

static int march(struct size *s)
{
    struct dew_error err = {0};
    double done = 0;

    while (done < 1) {
        cli__progress(done, "trying sizes");
        if (dew_size_step(s->size, &done, &err) != DEW_OK)
            return cli__error(&err);
    }
    cli__progress(1, "trying sizes");
    return CLI__DONE;
}

static int tell(const struct size *s)
{
    struct cli__size told = {.size = s->size,
                             .target = dew_size_target(s->size),
                             .system = (enum dew_system)s->result.units,
                             .seed = s->ask.seed,
                             .full = s->full};
    int code = CLI__DONE;

    told.run = run_of(s);
    if (told.system == 0)
        told.system =
            (enum dew_system)dew_scenario_system(dew_run_scenario(told.run));
    if (s->svg != NULL)
        code = cli__size_svg(&told, s->svg);
    if (code == CLI__DONE && s->better != NULL)
        code = cli__size_better_svg(&told, s->better);
    if (code != CLI__DONE)
        return code;
    if (s->result.json)
        return cli__json(cli__size_json(&told));
    cli__size_print(&told);
    return CLI__DONE;
}

/* ---- the command line -------------------------------------------------------------- */

enum {
    KEY_DRAWS = 0x400,
    KEY_THREADS,
    KEY_SEED,
    KEY_SHARE,
    KEY_HOURS,
    KEY_SVG,
    KEY_BETTER,
    KEY_FULL,
    DRAWS_MOST = 4096,
    HOURS_MOST = 8760
};

static const struct argp_option options[] = {
    {"share", KEY_SHARE, "PERCENT", 0,
     "of the houses drawn, how many are to keep the target (80)", 0},
    {"hours", KEY_HOURS, "N", 0,
     "a limit is kept in N hours of the year or fewer (2 % of them)", 0},
    {"svg", KEY_SVG, "FILE", 0, "draw the hours against airflow into FILE", 0},
    {"better", KEY_BETTER, "FILE", 0,
     "draw in how many of 100 houses each core is the better one, against "
     "airflow, into FILE",
     0},
    {"full", KEY_FULL, NULL, 0, "print every curve, not airflow's alone", 0},
    {"draws", KEY_DRAWS, "N", 0,
     "how many houses; 0: the one as told (32; of run.houses as many, every "
     "fourth of 128)",
     0},
    {"threads", KEY_THREADS, "N", 0,
     "at most so many at once (as many as processors); the result does not "
     "change with it",
     0},
    {"seed", KEY_SEED, "N", 0, "other draws from the same ranges (1)", 0},
    {0},
};

static error_t take(int key, char *word, struct argp_state *state)
{
    struct size *s = state->input;

    switch (key) {
    case KEY_SHARE:
        s->ask.share = 0.01 * (double)cli__whole(state, "share", word, 1, 100);
        return 0;
    case KEY_HOURS:
        s->ask.hours = (double)cli__whole(state, "hours", word, 0, HOURS_MOST);
        return 0;
    case KEY_FULL:
        s->full = 1;
        return 0;
    case KEY_SVG:
        s->svg = word;
        return 0;
    case KEY_BETTER:
        s->better = word;
        return 0;
    case KEY_DRAWS:
        s->ask.draws = cli__whole(state, "draws", word, 0, DRAWS_MOST);
        s->asked = 1;
        return 0;
    case KEY_THREADS:
        s->ask.threads = cli__threads(state, word);
        return 0;
    case KEY_SEED:
        s->ask.seed = cli__seed(state, word);
        return 0;
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &s->result;
        state->child_inputs[1] = &s->common;
        return 0;
    default:
        return cli__one(key, word, state, &s->path);
    }
}

static const char does[] =
    "Varies the airflow of one option, with its own core and with typical "
    "ones, then the dehumidifier, its set point and the humidifier where they "
    "are called for, and tells the least of each that keeps the limits in 80 "
    "of 100 houses like yours; or that none does, and why.\v"
    "Sized is the option of --option, else the first that has a core, else "
    "the house as it stands with typical cores.  All else stays as told.  "
    "Houses are drawn from the ranges in the scenario as for `spread`; "
    "without ranges it is the house as told alone.\n\n"
    "  dewledger size house.yaml\n"
    "  dewledger size house.yaml --option 'enthalpy core' --svg size.svg\n"
    "  dewledger size house.yaml --share 90 --hours 100\n";

int cli__cmd_size(int argc, char **argv)
{
    const struct argp_child children[] = {
        {&cli__result_argp, 0, NULL, 0}, {&cli__pick_argp, 0, NULL, 0}, {0}};
    const struct argp argp = {.options = options,
                              .parser = take,
                              .args_doc = "SCENARIO.yaml",
                              .doc = does,
                              .children = children};
    struct size *s = calloc(1, sizeof *s);
    int code;

    if (s == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    s->ask = (struct dew_size_ask){.draws = DEW_SIZE_DRAWS,
                                   .seed = DEW_SPREAD_SEED,
                                   .share = 0.8,
                                   .hours = NAN,
                                   .years = 1,
                                   .model = 1};
    code = cli__parse(&argp, argc, argv, s);
    if (code == CLI__DONE)
        code = open_it(s);
    if (code == CLI__DONE)
        code = can_draw(s);
    if (code == CLI__DONE)
        code = march(s);
    if (code == CLI__DONE)
        code = tell(s);
    dew_size_close(s->size);
    cli__draws_close(&s->houses.draws);
    free(s);
    return code;
}
