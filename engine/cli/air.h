/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command air, in three files: cmd_air.c, air_words.c, air_print.c. */
#ifndef DEW_CLI_AIR_H
#define DEW_CLI_AIR_H

#include "cli/cli.h"
#include "dew/air.h"

/* One state as typed: two of t, rh, w, dew, wet, h; perhaps a flow. */
struct dew__air_side {
    enum dew_air_given given[2];
    double value[2];
    const char *word[2]; /* as typed, for messages; borrowed */
    int count;
    double flow; /* m3/s at 20 degC and the pressure; NaN none */
    struct dew_air state;
};

enum { DEW__AIR_WORDS = 64 };

/* Everything the command line asks. */
struct dew__air_request {
    struct dew__cli common;
    int mix;         /* --mix                                       */
    int over_liquid; /* --over-liquid                               */
    int capped;      /* over ice, what was said over liquid         */
    int outdoors;    /* the dew-point test: side 1 is outdoors      */
    int sides;
    struct dew__air_side side[2];
    double p;                   /* Pa                                    */
    double surface;             /* degC, or NaN                          */
    double moisture, heat;      /* shares that a core keeps; heat or NaN */
    int typed[3];               /* units typed, by dew_unit.system       */
    char *words;                /* all of them, cut apart; owned         */
    char *list[DEW__AIR_WORDS]; /* each word, within words        */
    size_t count;
};

/* Read r->list into the rest of *r.  The fault is left in *err. */
enum dew_status dew__air_read(struct dew__air_request *r,
                              struct dew_error *err);

/* Find the whole state of each side. */
enum dew_status dew__air_states(struct dew__air_request *r,
                                struct dew_error *err);

/* Print the answer; r holds solved states.  Returns enum dew__exit. */
int dew__air_print(const struct dew__air_request *r);

/* Enthalpy has a zero of its own in each system, so no row in unit.h. */
struct dew__enthalpy_unit {
    const char *name;
    double factor, offset; /* J/kg = x * factor + offset */
    int system;
};
const struct dew__enthalpy_unit *dew__enthalpy_find(const char *name);
const struct dew__enthalpy_unit *dew__enthalpy_shown(int system);

#endif
