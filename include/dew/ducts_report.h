/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What layouts of ducts do, told: text, JSON, a page with sketches, and a
 * sheet for whoever sets and measures the grilles.
 *
 *     dew_report_ducts_open     solve every state of every layout
 *     dew_report_ducts_brief    which layouts work, a line each
 *     dew_report_ducts_text     tables and sentences, 80 columns
 *     dew_report_ducts_json     the same for programs; units do not change
 *     dew_report_ducts_html     one page that needs no other file
 *     dew_report_ducts_svg      one sketch of the air paths
 *     dew_report_ducts_write    the page and its sketches into a directory
 */
#ifndef DEW_DUCTS_REPORT_H
#define DEW_DUCTS_REPORT_H

#include <stdio.h>

#include "dew/ducts.h"
#include "dew/report.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One option as the ducts see it.  Layouts are copied, names borrowed. */
struct dew_ducts_option {
    const char *name;
    const struct dew_duct_layout *layout; /* filled; vent_count 0 = none     */
    const struct dew_duct_layout *design; /* as meant; NULL: as the layout   */
    double required;           /* m3/s  fresh air asked for; 0 = none       */
    enum dew_answer interlock; /* a blower runs whenever the ventilator does */
    enum dew_answer hood;      /* a hood or dryer is ducted into it          */
    double install; /* money once; NaN = not given                           */
    int quiet;      /* 1: nothing of it was written down: a run's page does not
                  draw it, and where it cannot be solved it is left out      */
};

/* What stands around the tables.  Borrowed. */
struct dew_ducts_frame {
    const char *title;
    const char *version;
    const char *sha256; /* of the scenario, or ""                           */
    char currency[8];   /* before a price                                    */
    enum dew_system system;
};

struct dew_report_ducts; /* opaque: the layouts, solved */

/*
 * Owner      on DEW_OK *ducts is the caller's, for _close; else NULL.
 * Errors     DEW_EMEM; those of dew_ducts_open and dew_ducts_state.
 */
enum dew_status dew_report_ducts_open(struct dew_report_ducts **ducts,
                                      const struct dew_ducts_option *options,
                                      size_t count, struct dew_error *err);
void dew_report_ducts_close(struct dew_report_ducts *ducts); /* NULL allowed */

/* STOP cautions that stand, over all options. */
size_t dew_report_ducts_stops(const struct dew_report_ducts *ducts);

/* Errors     DEW_EMEM; DEW_EIO when out could not be written.  directory is
   where dew_report_ducts_write wrote its files, NULL = nowhere. */
enum dew_status dew_report_ducts_brief(const struct dew_report_ducts *ducts,
                                       const struct dew_ducts_frame *frame,
                                       const char *directory, FILE *out,
                                       struct dew_error *err);
enum dew_status dew_report_ducts_text(const struct dew_report_ducts *ducts,
                                      const struct dew_ducts_frame *frame,
                                      FILE *out, struct dew_error *err);
enum dew_status dew_report_ducts_json(const struct dew_report_ducts *ducts,
                                      const struct dew_ducts_frame *frame,
                                      FILE *out, struct dew_error *err);
enum dew_status dew_report_ducts_html(const struct dew_report_ducts *ducts,
                                      const struct dew_ducts_frame *frame,
                                      FILE *out, struct dew_error *err);

/* Layouts that can be drawn, and the sketch of one of them, every state. */
enum dew_status dew_report_ducts_svg(const struct dew_report_ducts *ducts,
                                     size_t layout, enum dew_system system,
                                     FILE *out, struct dew_error *err);

/*
 * Write ducts.html and sketches/ducts-N-NAME.svg for each layout into
 * directory, as dew_report_write does; ducts.json is the summary.
 */
enum dew_status dew_report_ducts_write(const struct dew_report_ducts *ducts,
                                       const struct dew_ducts_frame *frame,
                                       const char *directory,
                                       struct dew_error *err);

#ifdef __cplusplus
}
#endif
#endif
