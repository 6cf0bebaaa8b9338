/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The charts of the page, each a figure with its table beside it. */
#ifndef DEW_REPORT_CHARTS_H
#define DEW_REPORT_CHARTS_H

#include "dew/report.h"

/* Patterns that the tones of every chart use; once a page. */
void dew__chart_patterns(FILE *out);

/* Indoor and outdoor dew point through the year, days too humid shaded. */
void dew__chart_dew_points(const struct dew_report *r, size_t option,
                           FILE *out);
/* Hours too humid by month, a bar an option. */
void dew__chart_humid_months(const struct dew_report *r, FILE *out);
/* Water in and out by month, stacked by named flow. */
void dew__chart_water(const struct dew_report *r, size_t option, FILE *out);
/* Outdoor temperature against indoor RH, and where the glass wets. */
void dew__chart_glass(const struct dew_report *r, size_t option, FILE *out);
/* Mean RH by month and hour of the day. */
void dew__chart_map(const struct dew_report *r, size_t option, FILE *out);
/* Energy by end use, a bar an option. */
void dew__chart_energy(const struct dew_report *r, FILE *out);

/* Open and close a figure: heading, drawing, what is pointed at, table. */
void dew__figure_open(FILE *out, const char *heading, const char *note);
void dew__figure_table(FILE *out, const char *caption);
void dew__figure_close(FILE *out);
/* One line of a legend. */
void dew__legend_open(FILE *out);
void dew__legend(FILE *out, int tone, int line, const char *words);
void dew__legend_close(FILE *out);

#endif
