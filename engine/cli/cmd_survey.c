/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger survey: many houses in many places, kept on disk as they come. */
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "cli/cli.h"
#include "cli/made_options.h"
#include "cli/survey.h"
#include "cli/survey_ranks.h"
#include "core/parallel.h"
#include "dew/survey.h"

/* SEASONED: s  after which the rate says something */
enum { FAULTS = 320, TEXT = 400, SEASONED = 3 };
/* By how much the clock runs ahead of processors that have other work. */
#define BESIDE 1.3

struct survey {
    const char *plan_path, *out;
    struct cli__show show; /* of `show`, the folder also of `status`         */
    size_t words, threads;
    int status, is_show, resume, plan_only;
    struct cli__ranks *ranks;
    struct dew_survey_plan *plan;
    struct dew_survey *survey;
    struct dew_survey_size size;
    /* while it runs */
    double past;   /* s  it took                                              */
    double busy;   /* s  of processors in it                                  */
    double begun;  /* s  by the clock                                       */
    size_t before; /* items that were done then                             */
    size_t most;   /* items to be done in all                               */
    int priced;    /* 1: how long it takes was told                         */
};

static volatile sig_atomic_t asked_to_end;

/* ---- words ---------------------------------------------------------------------------- */

static const char *plural(size_t n)
{
    return n == 1 ? "" : "s";
}

static void say_size(const struct dew_survey_size *z)
{
    char text[TEXT], drawn[80] = "";

    if (z->draws > 0)
        snprintf(drawn, sizeof drawn,
                 ", each as told and in %.20s draws from its ranges",
                 cli__count(z->draws).text);
    snprintf(
        text, sizeof text,
        "%.20s house%s in %.20s place%s with %zu option%s%s: %.24s house-years "
        "to march.",
        cli__count(z->houses).text, plural(z->houses),
        cli__count(z->places).text, plural(z->places), z->options,
        plural(z->options), drawn, cli__count(z->rows).text);
    cli__wrap(stdout, 0, text);
}

static double years_of(const struct survey *s, double items)
{
    return items * (double)s->size.rows / (double)s->size.items;
}

/* What is left, at a rate of items a second so far. */
static void say_price(const struct survey *s, size_t left, double rate)
{
    char text[TEXT], time[40];

    snprintf(text, sizeof text,
             "About %s on %zu thread%s, at the rate of the first houses (%.3g "
             "house-years a second).",
             cli__lasting((double)left / rate, time), s->threads,
             plural(s->threads), years_of(s, rate));
    cli__wrap(stdout, 0, text);
    fflush(stdout);
}

/* How long all of it takes, by a few: where the processors have nothing else to
   do, and where that is not so, by the clock as it went. */
static void say_plan(const struct survey *s, size_t done)
{
    size_t at_once =
        s->threads < core__processors() ? s->threads : core__processors();
    double all = (double)s->size.items / (double)done;
    double own = s->busy / (double)at_once;
    char text[TEXT], time[40];
    size_t used = (size_t)snprintf(
        text, sizeof text,
        "About %s on %zu thread%s with a processor each, by the processor "
        "time of the first %.20s houses (%.3g house-years a second).",
        cli__lasting(all * own, time), s->threads, plural(s->threads),
        cli__count(done).text, years_of(s, (double)done / own));

    if (s->past > BESIDE * own)
        snprintf(text + used, sizeof text - used,
                 " Other work is under way here now: beside it about %s.",
                 cli__lasting(all * s->past, time));
    cli__wrap(stdout, 0, text);
}

/* ---- watching -------------------------------------------------------------------------- */

static double clock_of(clockid_t clock)
{
    struct timespec t;

    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static double seconds(void *of)
{
    (void)of;
    return clock_of(CLOCK_MONOTONIC);
}

static int look(void *of, const struct dew_survey_state *state)
{
    struct survey *s = of;
    size_t fresh = state->done - s->before;
    double past = seconds(NULL) - s->begun;
    double rate = past > 0 ? (double)fresh / past : 0;
    size_t left = state->items - state->done;
    char time[40];

    if (cli__ranks_number() > 0)
        cli__ranks_far(s->ranks, state);
    if (s->plan_only || fresh == 0 || cli__ranks_number() > 0)
        return asked_to_end;
    if (!s->priced && past >= SEASONED && left > 0) {
        say_price(s, left, rate);
        s->priced = 1;
    }
    cli__progress((double)state->done / (double)state->items,
                  "%s of %s items, %.3g house-years a second, %s left",
                  cli__count(state->done).text, cli__count(state->items).text,
                  years_of(s, rate),
                  cli__lasting(rate > 0 ? (double)left / rate : 0, time));
    return asked_to_end;
}

static void end_asked(int signal)
{
    (void)signal;
    asked_to_end = 1;
}

/* The first of them ends in order, a second one at once. */
static void mind_signals(void)
{
    struct sigaction how = {.sa_handler = end_asked,
                            .sa_flags = (int)SA_RESETHAND};

    sigemptyset(&how.sa_mask);
    sigaction(SIGINT, &how, NULL);
    sigaction(SIGTERM, &how, NULL);
}

/* ---- a plan ----------------------------------------------------------------------------- */

static int read_plan(struct survey *s)
{
    struct dew_faults faults = {calloc(FAULTS, sizeof *faults.list), FAULTS, 0};
    int code = CLI__DONE;

    if (faults.list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    if (dew_survey_read(&s->plan, s->plan_path, &faults) != DEW_OK)
        code = cli__faults(&faults);
    free(faults.list);
    return code;
}

/* A scenario without options: those usually tried, made once. */
static int make_options(const struct survey *s)
{
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};
    struct cli__text from = {.text = NULL};
    struct cli__cli *none;
    struct dew_suggest *suggest = NULL;
    const char *text;
    size_t length;
    int code;

    if (!dew_survey_bare(s->plan) || (s->resume && dew_survey_begun(s->out)))
        return CLI__DONE;
    none = calloc(1, sizeof *none);
    if (none == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    from.text = dew_survey_scenario(s->plan, &from.name, &from.length);
    fputs("dewledger: note: the scenario has no options, so those usually "
          "tried are\n  looked at in its own place first, and what is left of "
          "them is surveyed\n",
          stderr);
    code = cli__suggest(&suggest, &from, none, DEW_SUGGEST_DRAWS);
    if (code == CLI__DONE) {
        text = dew_suggest_text(suggest, &length);
        if (dew_survey_give(s->plan, text, length, &faults) != DEW_OK)
            code = cli__faults(&faults);
    }
    dew_suggest_close(suggest);
    free(none);
    return code;
}

/* ---- marching --------------------------------------------------------------------------- */

static int march(struct survey *s, size_t most)
{
    struct dew_survey_watch watch = {.of = s, .seconds = seconds, .look = look};
    struct dew_error err = {0};
    enum dew_status status;

    watch.share = cli__ranks_share(s->ranks);

    s->before = dew_survey_state(s->survey).done;
    s->begun = seconds(NULL);
    s->busy = -clock_of(CLOCK_PROCESS_CPUTIME_ID);
    mind_signals();
    status = dew_survey_run(s->survey, s->threads, most, &watch, &err);
    cli__progress(1, "houses");
    s->past = seconds(NULL) - s->begun;
    s->busy += clock_of(CLOCK_PROCESS_CPUTIME_ID);
    return status == DEW_OK ? CLI__DONE : cli__error(&err);
}

/* How long it would take, by a few of its houses. */
static int try_it(struct survey *s)
{
    struct dew_error err = {0};
    size_t tried = dew_survey_taste(s->plan) * s->threads;
    int code;

    if (dew_survey_open(&s->survey, s->plan, NULL, DEW_SURVEY_NEW, &err) !=
        DEW_OK)
        return cli__error(&err);
    code = march(s, tried);
    if (code != CLI__DONE || asked_to_end)
        return code != CLI__DONE ? code : CLI__FAILED;
    say_plan(s, dew_survey_state(s->survey).done);
    return CLI__DONE;
}

static int say_faults(const struct survey *s,
                      const struct dew_survey_state *state)
{
    char text[TEXT];

    if (state->faults == 0)
        return CLI__DONE;
    snprintf(
        text, sizeof text,
        "%.20s of %.20s could not be marched and are left out: %s/faults.csv "
        "says why.",
        cli__count(state->faults).text, cli__count(state->items).text, s->out);
    cli__wrap(stdout, 0, text);
    return state->faults == state->items ? CLI__BAD_INPUT : CLI__DONE;
}

static int say_cut(const struct survey *s, const struct dew_survey_state *state)
{
    /* where ranks have put it down, a disk may show it late */
    cli__fail(CLI__FAILED, "%s, %s of %s items are kept; to go on:",
              asked_to_end ? "ended as asked" : "not all is to be seen yet",
              cli__count(state->done).text, cli__count(state->items).text);
    fputs("  dewledger survey ", stderr);
    cli__put(stderr, s->plan_path);
    fputs(" --out ", stderr);
    cli__put(stderr, s->out);
    fputs(" --resume\n", stderr);
    return CLI__FAILED;
}

/* What this turn did, and how fast. */
static void say_marched(const struct survey *s,
                        const struct dew_survey_state *state)
{
    double years = years_of(s, (double)(state->done - s->before));
    char time[40];

    if (years > 0 && s->past > 0)
        printf("Marched %s house-years in %s, %.3g a second.\n",
               cli__count((size_t)years).text, cli__lasting(s->past, time),
               years / s->past);
}

static int finish(struct survey *s)
{
    struct dew_survey_state state = dew_survey_state(s->survey);
    struct dew_error err = {0};

    if (state.done < state.items)
        return say_cut(s, &state);
    if (dew_survey_write(s->survey, &err) != DEW_OK)
        return cli__error(&err);
    say_marched(s, &state);
    printf("Written: %s/march.csv and %s/march.sqlite.\n", s->out, s->out);
    return say_faults(s, &state);
}

/* Plan, options and folder, for this process and those that join it. */
static int begin(struct survey *s)
{
    struct dew_error err = {0};
    int code = read_plan(s);

    if (code == CLI__DONE)
        code = make_options(s);
    if (code == CLI__DONE &&
        dew_survey_open(&s->survey, s->plan, s->out,
                        s->resume ? DEW_SURVEY_GO_ON : DEW_SURVEY_NEW,
                        &err) != DEW_OK)
        code = cli__error(&err);
    return cli__ranks_begun(s->ranks, code);
}

static int keep(struct survey *s)
{
    struct dew_survey_state state;
    int code = begin(s);

    if (code != CLI__DONE)
        return code;
    s->size = dew_survey_size(s->plan);
    say_size(&s->size);
    state = dew_survey_state(s->survey);
    if (state.done > 0)
        printf("%s of %s items are there already.\n",
               cli__count(state.done).text, cli__count(state.items).text);
    fflush(stdout);
    code = march(s, 0);
    return code == CLI__DONE ? finish(s) : code;
}

static int how_long(struct survey *s)
{
    int code = read_plan(s);

    if (code == CLI__DONE)
        code = make_options(s);
    if (code != CLI__DONE)
        return code;
    s->size = dew_survey_size(s->plan);
    say_size(&s->size);
    return try_it(s);
}

/* One that marches what rank 0 hands out, and tells it how that ended. */
static int join(struct survey *s)
{
    struct dew_survey_watch watch = {.of = s, .seconds = seconds, .look = look};
    struct dew_error err = {0};

    if (cli__ranks_begun(s->ranks, CLI__DONE) != CLI__DONE)
        return CLI__DONE; /* rank 0 has said why */
    watch.share = cli__ranks_share(s->ranks);
    if (read_plan(s) != CLI__DONE) {
        err.status = DEW_EMISSING;
        snprintf(err.text, sizeof err.text,
                 "the plan or what it names is not there as rank 0 has it");
    } else if (dew_survey_open(&s->survey, s->plan, s->out, DEW_SURVEY_JOIN,
                               &err) == DEW_OK) {
        mind_signals();
        (void)dew_survey_run(s->survey, s->threads, 0, &watch, &err);
    }
    cli__ranks_ended(s->ranks, &err);
    return CLI__DONE;
}

/* Of ranks each takes one thread where it is not told another number: they
   share machines, and are as many as they have processors. */
static int survey(struct survey *s)
{
    size_t told = s->threads;
    int code;

    s->threads = told > 0 ? told : core__processors();
    if (s->plan_only)
        return cli__ranks_number() > 0 ? CLI__DONE : how_long(s);
    code = cli__ranks_open(&s->ranks, told > 0 ? told : 1);
    if (code != CLI__DONE)
        return code;
    if (cli__ranks_share(s->ranks) != NULL && told == 0)
        s->threads = 1;
    return cli__ranks_number() > 0 ? join(s) : keep(s);
}

/* ---- the command line ------------------------------------------------------------------- */

enum {
    KEY_OUT = 0x500,
    KEY_THREADS,
    KEY_RESUME,
    KEY_PLAN,
    KEY_BY,
    KEY_JSON,
    KEY_SVG
};

static const struct argp_option options[] = {
    {"out", KEY_OUT, "DIR", 0, "keep the results in this folder", 0},
    {"threads", KEY_THREADS, "N", 0,
     "at most so many at once (as many as processors); the result does not "
     "change with it",
     0},
    {"resume", KEY_RESUME, NULL, 0,
     "go on with the survey in that folder; nothing is marched twice", 0},
    {"plan", KEY_PLAN, NULL, 0,
     "only say how much it is and how long it takes, by a few of its houses",
     0},
    {"by", KEY_BY, "WHAT,...", 0,
     "of show: a line for each place, state, option, house or value of a key that is "
     "varied (option)",
     0},
    {"json", KEY_JSON, NULL, 0, "of show: the lines as JSON", 0},
    {"svg", KEY_SVG, "FILE", 0, "of show: the hours as a chart, into this file",
     0},
    {0},
};

static error_t take_word(struct survey *s, const char *word,
                         struct argp_state *state)
{
    if (s->words == 0 && strcmp(word, "status") == 0)
        s->status = 1;
    else if (s->words == 0 && strcmp(word, "show") == 0)
        s->is_show = 1;
    else if (s->words == 0)
        s->plan_path = word;
    else if ((s->status || s->is_show) && s->words == 1)
        s->show.folder = word;
    else
        cli__usage(state, "one plan at a time");
    s->words++;
    return 0;
}

static void check_words(const struct survey *s, struct argp_state *state)
{
    int shows = s->show.by != NULL || s->show.svg != NULL || s->show.json;
    int surveys = s->out != NULL || s->threads > 0 || s->resume || s->plan_only;

    if ((s->status || s->is_show) && s->show.folder == NULL)
        cli__usage(state, "name the folder of a survey: %s DIR",
                   s->status ? "status" : "show");
    else if (shows && !s->is_show)
        cli__usage(state, "--by, --json and --svg are of show: show DIR");
    else if (surveys && (s->status || s->is_show))
        cli__usage(state, "%s takes a folder, and nothing of a plan",
                   s->status ? "status" : "show");
    else if (s->status || s->is_show)
        return;
    else if (s->plan_path == NULL)
        cli__usage(state, "name a plan, or status or show and a folder");
    else if (s->out == NULL && !s->plan_only)
        cli__usage(state, "say where the results go: --out DIR");
}

static error_t take(int key, char *word, struct argp_state *state)
{
    struct survey *s = state->input;

    switch (key) {
    case KEY_OUT:
        return s->out = word, 0;
    case KEY_THREADS:
        s->threads = cli__threads(state, word);
        return 0;
    case KEY_RESUME:
        return s->resume = 1, 0;
    case KEY_PLAN:
        return s->plan_only = 1, 0;
    case KEY_BY:
        return s->show.by = word, 0;
    case KEY_JSON:
        return s->show.json = 1, 0;
    case KEY_SVG:
        return s->show.svg = word, 0;
    case ARGP_KEY_ARG:
        return take_word(s, word, state);
    case ARGP_KEY_END:
        check_words(s, state);
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

static const char does[] =
    "Marches many houses in many places, with every option, and keeps what "
    "each came to as a table, for a spreadsheet and for SQLite.  A plan says "
    "which: a scenario, what is varied in it, where.\v"
    "A plan of 6 houses in 2 places:\n\n"
    "  scenario: house.yaml\n"
    "  vary:\n"
    "  - {key: house.airtightness, range: 0.6 to 3 ach50, steps: 3}\n"
    "  - {key: people.count, values: [2, 4]}\n"
    "  places: [722020, Fargo ND]\n\n"
    "It can be ended at any time, even by a power cut: the same command with "
    "--resume goes on, and the table comes out the same.  How far it is:\n\n"
    "  dewledger survey status DIR\n\n"
    "and what it came to:\n\n"
    "  dewledger survey show DIR --by place,option\n";

int cli__cmd_survey(int argc, char **argv)
{
    const struct argp argp = {.options = options,
                              .parser = take,
                              .args_doc = "PLAN.yaml\nstatus DIR\nshow DIR",
                              .doc = does};
    struct survey s = {.threads = 0};
    int code = cli__parse(&argp, argc, argv, &s);

    if (code == CLI__DONE && (s.status || s.is_show))
        code = cli__ranks_number() > 0 ? CLI__DONE
               : s.status              ? cli__survey_status(s.show.folder)
                                       : cli__survey_show(&s.show);
    else if (code == CLI__DONE)
        code = survey(&s);
    dew_survey_close(s.survey);
    dew_survey_plan_close(s.plan);
    cli__ranks_close(s.ranks);
    return code;
}
