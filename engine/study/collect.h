/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a study keeps of each hour, and what it draws from them at the end. */
#ifndef DEW_STUDY_COLLECT_H
#define DEW_STUDY_COLLECT_H

#include "dew/study.h"

/* The hours of one option while they are gathered.  Arrays of count values. */
struct study__columns {
#define X(name, heading, factor, decimals) double *name;
    DEW_SERIES_MAP(X)
#undef X
};

enum {
#define X(name, heading, factor, decimals) +1
    STUDY__SERIES = DEW_SERIES_MAP(X)
#undef X
};

/* Books over the year, from the end of its first hour on. */
struct study__books {
    struct dew_state first, last; /* states at both ends                    */
    double water, heat;           /* kg, J   sum of every named flow        */
    double water_in, heat_in;     /* kg, J   sum of the positive ones       */
    size_t hours;
};

/* Point the columns and the outcome's series at store, STUDY__SERIES * count. */
void study__columns_in(struct study__columns *columns,
                       struct dew_outcome *outcome, double *store,
                       size_t count);

/* What gathers the hours of one option. */
struct study__gather {
    struct study__columns columns;
    struct study__books books;
    const struct dew_limits *limits;
    size_t at; /* hours put away so far                                     */
};

/* Put the next hour away: series, tallies and books. */
void study__collect(struct dew_outcome *o, struct study__gather *gather,
                    const struct dew_hour *hour, const struct dew_date *date,
                    const struct dew_result *in);

/* Percentiles, map, surfaces and closure.  dates and scratch have o->count
   entries. */
void study__collect_end(struct dew_outcome *o,
                        const struct study__gather *gather,
                        const struct dew_case *c, const struct dew_date *dates,
                        double *scratch);

#endif
