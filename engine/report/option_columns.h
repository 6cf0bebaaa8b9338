/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of options: their columns, for text and page alike. */
#ifndef DEW_REPORT_OPTION_COLUMNS_H
#define DEW_REPORT_OPTION_COLUMNS_H

#include "report/words.h"

/* One column: three lines of heading, and the cell of option i. */
struct report__column {
    const char *head[3];
    int width;
    struct report__word (*cell)(const struct dew_report *r, size_t i);
    struct report__word (*limit)(
        const struct dew_report *r); /* or NULL: none */
};

/* At a glance: each head is one line; the second says "money" where it needs
   prices. */
enum report__table {
    REPORT__TABLE_AIR,
    REPORT__TABLE_MORE,
    REPORT__TABLE_MONEY,
    REPORT__TABLE_GLANCE,
    REPORT__TABLE_BRIEF,
    /* where houses like the one told were drawn */
    REPORT__TABLE_SURE,   /* instead of brief                             */
    REPORT__TABLE_HOUSES, /* shares, hours too humid                      */
    REPORT__TABLE_HOUSE_HOURS, /* other hours                                 */
    REPORT__TABLE_HOUSE_MONEY
};

/* The columns of a table; static. */
const struct report__column *report__columns(enum report__table which,
                                             size_t *count);

/* What the heads of the tables of air and of surfaces mean. */
extern const char report__columns_told[];
/* 1 for the row that tells how near the limit the hours are, which houses drawn
   tell better. */
int report__says_how_near(const struct report__column *row);
/* What those of the houses drawn mean. */
extern const char report__houses_told[];

/* A line of heading, "flow" and "temp" replaced by the shown unit. */
const char *report__column_head(const struct dew_report *r, const char *head);

#endif
