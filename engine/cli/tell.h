/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a command's own option table tells: words that could stand next on a
 * command line, and the command's section of the manual.  cli__parse asks
 * here when argv[1] is one of the two marks, so that completions and manual
 * have no list of their own.
 */
#ifndef DEW_CLI_TELL_H
#define DEW_CLI_TELL_H

#include "cli/cli.h"

/* Marks that nobody types: "complete" puts them behind the command. */
#define CLI__TELL_WORDS  "\vwords"
#define CLI__TELL_MANUAL "\vmanual"

/* Answer a mark in argv[1], if there is one: returns whether it was. */
int cli__tell(const struct argp *argp, int argc, char **argv);

/* An option that is none and holds what a terminal acts on: the parser would
   print it as it is.  NULL: there is none. */
const char *cli__tell_odd(const struct argp *argp, int argc, char **argv);

/*
 * Print what could stand in place of words[count - 1], the words before it
 * given; a line each, "word<TAB>what it is".  A line ":files<TAB>.yaml",
 * ":files" or ":folders" asks the shell for names of files.  count > 0.
 */
void cli__tell_words(const struct argp *argp, char **words, int count);

/* Print the command's section of the manual, roff; name: "dewledger run". */
void cli__tell_manual(const struct argp *argp, const char *name);

/* Print length bytes as roff text; a dash is the one that is typed. */
void cli__roff_put(const char *text, size_t length);

/* A candidate, if word begins with begin; words end in "=" when more follows.*/
void cli__tell_word(const char *lead, const char *word, const char *begin,
                    const char *what);

/*
 * Candidates for a value by the name that the option table gives it ("DIR",
 * "us|si", "KEY=VALUE", "PLACE" ...).  lead goes before each candidate; the
 * words before may name a scenario or more of a place.
 */
struct cli__value_asked {
    const char *name; /* of the value, need not end after length           */
    int length;
    const char *lead;  /* "--units=" or ""                                  */
    const char *begin; /* as typed so far                                   */
    char **words;
    int count;
};
void cli__tell_value(const struct cli__value_asked *asked);

#endif
