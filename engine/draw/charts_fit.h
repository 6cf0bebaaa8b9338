/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a log told of its house, drawn: each a file of its own. */
#ifndef DEW_DRAW_CHARTS_FIT_H
#define DEW_DRAW_CHARTS_FIT_H

#include <stdio.h>

#include "dew/evidence.h"
#include "dew/report.h"
#include "dew/weather.h"

struct draw__fit {
    const struct dew_report_fit *of;
    enum dew_system system;
    FILE *out;
    int page; /* 1: a figure of a page, with its table                       */
};

/* The log over the model with its band; daily means of what is long.  DEW_EMEM:
   nothing is drawn. */
enum dew_status draw__fit_log(const struct draw__fit *f);

/* The log less the model, with the band of what is left.  The same. */
enum dew_status draw__fit_rest(const struct draw__fit *f);

/* The excess of every day against the outdoor temperature, with the curve.  The same. */
enum dew_status draw__fit_curve(const struct draw__fit *f);

/* The three of them as figures of a page. */
void draw__fit_page(const struct draw__fit *f);

/* A figure of the house, thought before and left after: three places that one
   in ten, half and nine in ten are below, as deviations of a normal score, of
   which before has -1.28, 0 and 1.28. */
struct draw__input {
    const char *name, *before, *after;
    double score[3];
    int usual; /* 1: nobody told it                                          */
};

/* charts_learn.c: the same, in the order given; a line says so where there is
   none. */
enum dew_status draw__fit_inputs(FILE *out, const struct draw__input *inputs,
                                 size_t count);

/* The same as a figure of a page; none where there is none. */
void draw__fit_inputs_page(FILE *out, const struct draw__input *inputs,
                           size_t count);

#endif
