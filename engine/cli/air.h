/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command air, in three files: cmd_air.c, air_words.c, air_print.c. */
#ifndef DEW_CLI_AIR_H
#define DEW_CLI_AIR_H

#include "cli/cli.h"
#include "dew/air.h"

/* Rows of the table: the first six are enum dew_air_given, those before
   DEW__AIR_TYPED may be typed, and the rest is only told. */
/* clang-format off */
enum {
    T, RH, W, DEW, WET, H,
    FLOW, PRESSURE, ELEVATION, SURFACE, MOISTURE, HEAT, DEW__AIR_TYPED,
    RH_LIQUID = DEW__AIR_TYPED, DEW_LIQUID, VOLUME, DENSITY, VAPOUR, SATURATION,
    DEW__AIR_NAMES
};
/* clang-format on */

/* One quantity, as it is typed and as it is told. */
struct dew__air_row {
    const char *name;           /* typed before "="                        */
    enum dew_quantity quantity; /* PURE: a percentage, or in units         */
    const struct dew_unit
        *units;               /* of its own, last one's name NULL; else NULL */
    double low, high;         /* SI   of what may be typed               */
    int decimals[2];          /* inch-pound, metric                      */
    const char *label, *none; /* in text; what stands for NaN            */
    const char *json;         /* its key                                 */
    double json_factor;       /* figure there per SI                     */
    size_t member;            /* of struct dew_air, where it is told     */
};
extern const struct dew__air_row dew__air_rows[DEW__AIR_NAMES];

/* The unit that system prints a row in. */
const struct dew_unit *dew__air_unit(int name, int system);

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
    int typed[3];               /* units typed, by dew_unit.system         */
    char *words;                /* all of them, cut apart; owned           */
    char *list[DEW__AIR_WORDS]; /* each word, within words                 */
    size_t count;
    int word_count; /* as argp left them, before they were cut */
};

/* Read r->list into the rest of *r.  The fault is left in *err. */
enum dew_status dew__air_read(struct dew__air_request *r,
                              struct dew_error *err);

/* Find the whole state of each side. */
enum dew_status dew__air_states(struct dew__air_request *r,
                                struct dew_error *err);

/* The units of more of the typed words. */
int dew__air_system(const struct dew__air_request *r);

/* Print the answer; r holds solved states.  Returns enum dew__exit. */
int dew__air_print(struct dew__air_request *r);

#endif
