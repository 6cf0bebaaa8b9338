/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of options: their columns, for text and page alike. */
#ifndef DEW_REPORT_OPTION_COLUMNS_H
#define DEW_REPORT_OPTION_COLUMNS_H

#include "report/words.h"

/* One column: three lines of heading, and the cell of option i. */
struct dew__column {
    const char *head[3];
    int width;
    struct dew__word (*cell)(const struct dew_report *r, size_t i);
    struct dew__word (*limit)(const struct dew_report *r); /* or NULL: none */
};

/* At a glance: each head is one line; the second says "money" where it needs
   prices. */
enum dew__table {
    DEW__TABLE_AIR,
    DEW__TABLE_MORE,
    DEW__TABLE_MONEY,
    DEW__TABLE_GLANCE,
    DEW__TABLE_BRIEF
};

/* The columns of a table; static. */
const struct dew__column *dew__columns(enum dew__table which, size_t *count);

/* A line of heading, "flow" and "temp" replaced by the shown unit. */
const char *dew__column_head(const struct dew_report *r, const char *head);

#endif
