/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What every command shares: the list of commands, the options they have in
 * common, and how results and messages leave.  Private to engine/cli/ and
 * engine/page/, the only floors that print or exit.
 *
 * A command is one file, engine/cli/cmd_<name>.c, with one function
 *
 *     int cli__cmd_<name>(int argc, char **argv)
 *
 * and one row in CLI__COMMAND_MAP.  argv[0] is "dewledger <name>", so that
 * argp's own messages name the command.  It returns one of enum cli__exit.
 * Results go to stdout, everything else to stderr; a result that cannot be
 * written (full disk, closed pipe) ends the program with CLI__FAILED whatever
 * the command returned, so a command need not check each printf.
 */
#ifndef DEW_CLI_CLI_H
#define DEW_CLI_CLI_H

#include <argp.h>
#include <jansson.h>
#include <stdio.h>

#include "dew/kept.h"
#include "dew/status.h"
#include "dew/unit.h"

/* One row a command, in the order of the help.  name, what it does */
#ifdef __wasm__ /* no SQLite, no threads and no folders there */
#define CLI__SURVEY(X)
#else
#define CLI__SURVEY(X)                                                         \
    X(survey, "many houses in many places, kept on disk as they come")
#endif
#define CLI__COMMAND_MAP(X)                                                    \
    X(run, "every option through its year: the comparison and the verdict")    \
    X(spread,                                                                  \
      "houses like yours, drawn from your ranges: how often what helps")       \
    CLI__SURVEY(X)                                                             \
    X(size, "how much air and drying is enough, or that none is, and why")     \
    X(fit, "a logger's file: what the house adds to the outdoor air")          \
    X(air, "moist air: states, mixing, surfaces, the dew-point test")          \
    X(ducts, "air at every grille in every blower state, for each layout")     \
    X(check, "read a scenario: every fault, or all that was understood")       \
    X(explain, "what a key of a scenario means: form, range, default, source") \
    X(start, "write a commented scenario that runs as it is")                  \
    X(page, "the whole program as one page for a browser, a scenario in it")   \
    X(weather, "weather: look into a file, list places, make a year")          \
    X(complete, "words that could stand next on a command line, for shells")

#define X(name, does) int cli__cmd_##name(int argc, char **argv);
CLI__COMMAND_MAP(X)
#undef X

struct cli__command {
    const char *name;
    int (*run)(int argc, char **argv);
    const char *does;
};

enum {
    CLI__COMMANDS = 0
#define X(name, does) +1
    CLI__COMMAND_MAP(X)
#undef X
};

/* The map above as rows: main finds a command in it, `complete` tells of it. */
extern const struct cli__command cli__commands[CLI__COMMANDS];

enum cli__exit {
    CLI__TOLD = -1, /* only the option table was asked for: see tell.h */
    CLI__DONE = 0,
    CLI__BAD_INPUT = 1, /* a file or value is wrong              */
    CLI__BAD_USAGE = 2, /* the command line is                   */
    CLI__FAILED = 3,    /* disk, memory, or a fault of our own   */
    CLI__STOPPED = 4    /* --strict, and a STOP caution stands   */
};

/* ---- options in common -------------------------------------------------- */

enum { CLI__SETS = 256 };

/* What the shared options said.  Zero it; give it to argp as child input. */
struct cli__cli {
    int json;                    /* --json                             */
    int units;                   /* --units: 0 as typed, 1 us, 2 si    */
    int strict;                  /* --strict                           */
    const char *out;             /* --out DIR, or NULL                 */
    struct dew_kept kept;        /* --kept DIR; get NULL: none is      */
    const char *sets[CLI__SETS]; /* --set key=value, in order          */
    size_t set_count;
    const char *options[CLI__SETS]; /* --option NAME, in order         */
    size_t option_count;
};

/*
 * Children for a command's own struct argp: --json and --units; --set and
 * --option for commands that read a scenario, or those with --out and
 * --strict for commands that judge one.  In the
 * command's parser, at ARGP_KEY_INIT:
 *     state->child_inputs[0] = &mine->common;  (and [1] where both are used)
 */
extern const struct argp cli__result_argp;
extern const struct argp cli__pick_argp;
extern const struct argp cli__scenario_argp;

/*
 * argp_parse with the exit codes above; returns 0 or an enum cli__exit.  A
 * command returns at once on any other than 0: CLI__TOLD says that the table
 * itself was asked for.
 */
int cli__parse(const struct argp *argp, int argc, char **argv, void *input);

/* ---- messages ----------------------------------------------------------- */

/*
 * Whether a write to stdout failed because the reader of the pipe has enough
 * ("| head"): the exit is CLI__FAILED all the same, but nothing is said of it.
 */
int cli__unread(void);

/*
 * Text from outside, on a terminal or in a file: nothing in it is acted on,
 * see core/clean.h.  Messages and cli__wrap pass through here by
 * themselves; what a command prints on its own is for the command to pass.
 */
void cli__put(FILE *out, const char *text);

/* As argp_error, which prints what it is given as it is. */
void cli__usage(struct argp_state *state, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* A whole number in low .. high, or a usage error. */
unsigned long cli__whole(struct argp_state *state, const char *name,
                         const char *word, double low, double high);

/* What --threads and --seed take, of every command that has them. */
unsigned long cli__threads(struct argp_state *state, const char *word);
unsigned long cli__seed(struct argp_state *state, const char *word);

/* "dewledger: ..." on stderr; returns code. */
int cli__fail(enum cli__exit code, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* The same for an error record, or every one of a reading; returns the code. */
int cli__error(const struct dew_error *err);
int cli__faults(const struct dew_faults *faults);

/* The exit code of a status: memory, disk and our own faults are FAILED. */
enum cli__exit cli__code(enum dew_status status);

/* Of count names the one most like word, or NULL when none is alike. */
const char *cli__nearest(const char *word, const char *const *names,
                         size_t count);

/* ---- results ------------------------------------------------------------ */

/*
 * Print root as indented JSON with a newline at the end, whole or not at
 * all, and release it.  NULL (no memory while it was built) is a failure.
 * Returns CLI__DONE or CLI__FAILED.
 */
int cli__json(json_t *root);

/* The same as text, to be freed; NULL when memory is short or root is NULL. */
char *cli__json_text(const json_t *root);

/*
 * o with key, or list with value one longer.  NULL when any of them is NULL or
 * memory is short, and then all are released: what lacks a part is no result,
 * and cli__json says so of the NULL that is left.
 */
json_t *cli__set(json_t *o, const char *key, json_t *value);
json_t *cli__add(json_t *list, json_t *value);

/* x as JSON; null where it is not finite, which JSON cannot say. */
json_t *cli__real(double x);
/* {"p10", "p50", "p90"} */
json_t *cli__range(double p10, double p50, double p90);

/* Columns to print in: the terminal's, 40 .. 120, or 80 where there is none. */
int cli__width(void);

/* Whether colour is wanted: a terminal that is not dumb, and no NO_COLOR. */
int cli__colour(FILE *stream);

/* What is under way and how much of it is done, on a line that is written over
   and at 1 wiped; nothing where stderr is no terminal. */
void cli__progress(double done, const char *what, ...)
    __attribute__((format(printf, 2, 3)));

/* Print text broken at spaces to cli__width, each line indented. */
void cli__wrap(FILE *stream, int indent, const char *text);

/* ---- quantities on the command line ------------------------------------- */

/* A number and its unit, as a person typed them. */
struct cli__typed {
    double si;
    const struct dew_unit *unit;
};

/*
 * Read "75degF" or "75 degF" as quantity.  Errors, with err->path left to the
 * caller: DEW_ESYNTAX for no number; DEW_EUNIT naming the units that fit.
 */
enum dew_status cli__quantity(const char *word, enum dew_quantity quantity,
                              struct cli__typed *out, struct dew_error *err);

#endif
