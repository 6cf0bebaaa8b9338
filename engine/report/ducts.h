/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts as they are told.  Private to the report. */
#ifndef DEW_REPORT_DUCTS_H
#define DEW_REPORT_DUCTS_H

#include "dew/ducts_report.h"
#include "report/words.h"

enum { REPORT__TOLD_CAUTIONS = 6, REPORT__TOLD_STATES = 6 };

/* One option's layout, solved. */
struct report__told {
    struct dew_ducts_option option; /* layout: the copy below               */
    struct dew_duct_layout layout, design;
    struct dew_ducts *ducts; /* for the flows of single runs                */
    struct dew_duct_state states[DEW_DUCT_VENT_STATES][DEW_BLOWER_STATES];
    int blowers;                        /* states of the air handlers       */
    int boost;                          /* 1: the boost flow is another     */
    double shortest[DEW_BLOWER_STATES]; /* -  short circuit by the low end  */
    double longest[DEW_BLOWER_STATES];  /* -  and the high end of mixing    */
    int shown[REPORT__TOLD_STATES];     /* blower states worth a row        */
    int shown_count;
    struct dew_caution cautions[REPORT__TOLD_CAUTIONS];
    size_t caution_count;
};

/* An option without a ventilator of two fans: what its air handlers' leaks do,
   all at full flow; 0 where there are none. */
struct report__without {
    const char *name;
    double drawn, lost; /* m3/s */
};

/* "as it stands: no ventilator with two fans, ..." */
void report__without_words(const struct report__without *without,
                           enum dew_system system, char *out, size_t size);

struct dew_report_ducts {
    struct report__told *list; /* options that have a layout */
    size_t count;
    struct report__without *without; /* those that do not */
    size_t without_count;
};

/* Cautions of all layouts, each once; options: bit i = layout i. */
enum { REPORT__GATHERED = 2 * REPORT__TOLD_CAUTIONS, REPORT__OF_LONG = 2400 };
struct report__gathered {
    struct dew_caution list[REPORT__GATHERED];
    size_t count;
};
/* Those with that answer, STOP first. */
void report__ducts_gather(const struct dew_report_ducts *ducts,
                          enum dew_answer answer, struct report__gathered *out);
/* " Of: one, another."; "" where there is but one layout. */
char *report__ducts_of(const struct dew_report_ducts *ducts,
                       const struct dew_caution *c, char *out, size_t size);
/* "Cautions, told above: STOP return_tie, CHECK no_damper (asked)." or "". */
char *report__told_keys(const struct report__told *t, char *out, size_t size);

/* The layout of the option of that name, or NULL; ducts may be NULL. */
const struct report__told *report__told_of(const struct dew_report_ducts *ducts,
                                           const char *name);
/* How many layouts a run's page draws. */
size_t report__told_drawn(const struct dew_report_ducts *ducts);

/* Every air handler off, or at full flow. */
int report__told_full(const struct report__told *t);

/* Fresh air in state s to the rooms of air handler k, and out of its return
   grilles, which stand among them. */
double report__told_to_rooms(const struct report__told *t,
                             const struct dew_duct_state *s, int k);

/* "full off", "-" without an air handler. */
struct report__word report__told_blowers(const struct report__told *t,
                                         int blower);
const char *report__told_vent(enum dew_vent_state vent);

/* "95 cfm" or "44.8 L/s"; the figure alone. */
struct report__word report__air(double flow, enum dew_system system);
struct report__word report__air_figure(double flow, enum dew_system system);

/* ---- in words ------------------------------------------------------------ */

enum { REPORT__SAID = 16, REPORT__SAID_LONG = 420 };
struct report__said {
    char text[REPORT__SAID][REPORT__SAID_LONG];
    size_t count;
};

/* What the states mean, in sentences with their figures. */
void report__told_words(const struct report__told *t, enum dew_system system,
                        struct report__said *said);
/* 1 where a blower works on the ventilator's ducts. */
int report__told_tied(const struct report__told *t);
/* "own ducts for fresh and stale air" */
const char *report__told_kind(const struct report__told *t);
/* Both as a sentence: "Own ducts ...; one ventilator, one air handler." */
char *report__told_said(const struct report__told *t, char *out, size_t size);

/* ---- sketches ------------------------------------------------------------ */

/* Said in place of sketch, parts and sizes of a network written out in full. */
extern const char report__told_bare[];

/* "Ventilator on, blower full" */
struct report__word report__sketch_title(const struct report__told *t,
                                         enum dew_vent_state vent, int blower);
/* One state, DRAW__PLAN_WIDE wide and this high. */
double report__sketch_height(const struct report__told *t);
void report__sketch_panel(const struct report__told *t,
                          enum dew_vent_state vent, int blower,
                          enum dew_system system, FILE *out);

/* A figure of all its states that are worth one, with the legend. */
void report__sketches(const struct report__told *t, enum dew_system system,
                      FILE *out);

/* ---- on a page ----------------------------------------------------------- */

/* A section of another page: sketches, sentences, tables; nothing for NULL.
   option: whose layout stands on paper too, where there are many. */
void report__ducts_section(const struct dew_report_ducts *ducts,
                           const char *option, enum dew_system system,
                           FILE *out);

/* One line to measure: m3/s with the blower off and at full; 0 none. */
struct report__point {
    const char *name, *what;
    double off, full;
    double found; /* NaN = not measured                                     */
};
enum { REPORT__POINTS_MOST = 2 + 3 * DEW_DUCT_GRILLES };

/* Fill list of REPORT__POINTS_MOST; returns how many. */
size_t report__commissioning_points(const struct report__told *t,
                                    struct report__point *list);
/* "good", "12 % low"; "" where nothing was measured. */
struct report__word report__commissioning_judged(const struct report__point *p);

/* Its tables as text, on a page, in a section of another page: there without
   parts and sizes, which a network written out in full never has. */
enum report__ducts_place {
    REPORT__IN_TEXT,
    REPORT__ON_PAGE,
    REPORT__IN_SECTION
};
void report__ducts_tables(const struct report__told *t, enum dew_system system,
                          enum report__ducts_place where, FILE *out);

#endif
