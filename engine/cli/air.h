/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command air, in three files: cmd_air.c, air_words.c, air_print.c. */
#ifndef DEW_CLI_AIR_H
#define DEW_CLI_AIR_H

#include "cli/cli.h"
#include "dew/air.h"

/* Rows of the table: the first six are enum dew_air_given, those before
   CLI__AIR_TYPED may be typed, and the rest is only told. */
/* clang-format off */
enum {
    T, RH, W, DEW, WET, H,
    FLOW, PRESSURE, ELEVATION, SURFACE, MOISTURE, HEAT, CLI__AIR_TYPED,
    RH_LIQUID = CLI__AIR_TYPED, DEW_LIQUID, VOLUME, DENSITY, VAPOUR, SATURATION,
    CLI__AIR_NAMES
};
/* clang-format on */

/* One quantity, as it is typed and as it is told. */
struct cli__air_row {
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
extern const struct cli__air_row cli__air_rows[CLI__AIR_NAMES];

/* The unit that system prints a row in. */
const struct dew_unit *cli__air_unit(int name, int system);

/* One state as typed: two of t, rh, w, dew, wet, h; perhaps a flow. */
struct cli__air_side {
    enum dew_air_given given[2];
    double value[2];
    const char *word[2]; /* as typed, for messages; borrowed */
    int count;
    double flow; /* m3/s at 20 degC and the pressure; NaN none */
    struct dew_air state;
};

enum { CLI__AIR_WORDS = 64 };

/* Everything the command line asks. */
struct cli__air_request {
    struct cli__cli common;
    int mix;         /* --mix                                       */
    int over_liquid; /* --over-liquid                               */
    int capped;      /* over ice, what was said over liquid         */
    int outdoors;    /* the dew-point test: side 1 is outdoors      */
    int sides;
    struct cli__air_side side[2];
    double p;                   /* Pa                                    */
    double surface;             /* degC, or NaN                          */
    double moisture, heat;      /* shares that a core keeps; heat or NaN */
    int typed[3];               /* units typed, by dew_unit.system         */
    char *words;                /* all of them, cut apart; owned           */
    char *list[CLI__AIR_WORDS]; /* each word, within words                 */
    size_t count;
    int word_count; /* as argp left them, before they were cut */
};

/* Read r->list into the rest of *r.  The fault is left in *err. */
enum dew_status cli__air_read(struct cli__air_request *r,
                              struct dew_error *err);

/* Find the whole state of each side. */
enum dew_status cli__air_states(struct cli__air_request *r,
                                struct dew_error *err);

/* The units of more of the typed words. */
int cli__air_system(const struct cli__air_request *r);

/* Print the answer; r holds solved states.  Returns enum cli__exit. */
int cli__air_print(struct cli__air_request *r);

#endif
