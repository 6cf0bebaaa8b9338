/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of dewledger fit share.  Private to engine/cli/. */
#ifndef DEW_CLI_FIT_H
#define DEW_CLI_FIT_H

#include "cli/load.h"
#include "dew/fit.h"
#include "dew/learning.h"

/* A fit, to be told. */
struct cli__fit {
    const struct dew_fit *fit;
    const struct dew_learn *learn; /* NULL: the house itself is not asked for */
    const struct dew_draws *options; /* of it; NULL: not asked for           */
    const struct dew_spread *spread; /* that options are of                  */
    int units; /* 0 as the scenario is written, 1 us, 2 si                   */
    int why;   /* 1: why it is as damp is asked for, of learn                 */
    int until; /* 1: a part of the log was kept back to be foretold          */
    FILE *out; /* that words go to                                           */
    int page;  /* 1: as parts of a page, its charts among them               */
};

/* fit_page.c: a page of words and charts, NULL: not wanted; what words are made
   with: a paragraph; a heading, after a blank line; a blank line of a text; a
   list below its heading, its lines, its end. */
enum dew_status cli__fit_page(const struct cli__fit *f, const char *path,
                              struct dew_error *err);
void cli__fit_say(const struct cli__fit *f, const char *text);
void cli__fit_head(const struct cli__fit *f, const char *text, int after);
void cli__fit_gap(const struct cli__fit *f);
void cli__fit_list(const struct cli__fit *f, const char *heading);
void cli__fit_item(const struct cli__fit *f, const char *text);
void cli__fit_list_end(const struct cli__fit *f, int last);

/* fit_json.c, fit_print.c and fit_series.c */
json_t *cli__fit_json(const struct cli__fit *f);
void cli__fit_print(const struct cli__fit *f);
enum dew_status cli__fit_series(const struct cli__fit *f, const char *path,
                                struct dew_error *err);

/* fit_house.c: the house itself, where learn is not NULL; as JSON, null where it
   is. */
void cli__fit_house(const struct cli__fit *f);
json_t *cli__fit_house_json(const struct cli__fit *f);

/* fit_yaml.c: the same as a file, its houses as another beside it. */
struct cli__fit_yaml {
    const char *path;        /* NULL: not wanted                            */
    struct dew_run_ask from; /* of dew_learn_open                           */
    struct dew_spread_ask houses;
};
int cli__fit_yaml(const struct cli__fit *f, const struct cli__fit_yaml *to);
/* Where they go: learned.yaml, learned-houses.csv. */
enum { CLI__FIT_PATH = 1024 };
int cli__fit_houses(const char *path, char out[CLI__FIT_PATH]);

/* fit_why.c: why it is as damp as it is, where learn tells anything. */
void cli__fit_why(const struct cli__fit *f);
json_t *cli__fit_why_json(const struct cli__fit *f);

/* fit_options.c: options marched on the houses learned, where any are told;
   *spread is the caller's, also where it fails.  And as told. */
int cli__fit_options(struct cli__fit *f, const struct dew_spread_ask *ask,
                     struct dew_spread **spread);
void cli__fit_print_options(const struct cli__fit *f);
json_t *cli__fit_options_json(const struct cli__fit *f);
json_t *cli__fit_left_out_json(
    const struct cli__fit *f); /* of them, null: no */

/* fit_svg.c: its charts of a log, each a file; NULL: not wanted. */
struct cli__fit_files {
    const char *log, *rest, *curve;
};
enum dew_status cli__fit_charts(const struct cli__fit *f,
                                const struct cli__fit_files *to,
                                struct dew_error *err);
/* The figures that moved, before and after; path may be NULL.  DEW_EMISSING:
   none is told. */
enum dew_status cli__fit_inputs(const struct cli__fit *f, const char *path,
                                struct dew_error *err);

/* A file filled, whole or not at all; none where path is NULL. */
typedef enum dew_status cli__fit_fill(const void *of, FILE *out,
                                      struct dew_error *err);
enum dew_status cli__fit_file(const char *path, cli__fit_fill *fill,
                              const void *of, struct dew_error *err);

/* The charts of the log and of what moved, in a page; nothing in a text. */
void cli__fit_figures(const struct cli__fit *f);
void cli__fit_inputs_page(const struct cli__fit *f);

/* fit_print.c: the system that figures are told in. */
enum dew_system cli__fit_system(const struct cli__fit *f);

#endif
