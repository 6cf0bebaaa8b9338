/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the page that are pieces of text: cautions, inputs, sources. */
#ifndef DEW_SHEETS_PAGE_PARTS_H
#define DEW_SHEETS_PAGE_PARTS_H

#include "dew/report.h"

/* The cautions that say STOP, in a section of their own; the others. */
void sheets__part_stops(const struct dew_report *r, FILE *out);
void sheets__part_cautions(const struct dew_report *r, FILE *out);

/* Today beside the best option, in a few figures. */
void sheets__part_glance(const struct dew_report *r, FILE *out);

/* Every value as it was understood: those told, then those taken. */
void sheets__part_inputs(const struct dew_report *r, FILE *out);

/* A few words of it explained, as docs/words.md has them. */
void sheets__part_words(FILE *out);

/* How it was worked out, judged and closed, and what it cannot see. */
void sheets__part_method(const struct dew_report *r, FILE *out);

/* The references that the page cites, whole. */
void sheets__part_sources(const struct dew_report *r, FILE *out);

/* The weather, the files and the program that this page was made from. */
void sheets__part_origin(const struct dew_report *r, FILE *out);

#endif
