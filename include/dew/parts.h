/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a duct layout is built of: sizes for the flows, and the list to buy
 * and fit.  Pure functions of a filled layout.
 */
#ifndef DEW_PARTS_H
#define DEW_PARTS_H

#include "dew/layout.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Diameter, m, of the straight round duct that loses rate at flow q.
 *
 *     q          m3/s   1e-4 .. 50
 *     rate       Pa/m   0.01 .. 50      0.65 is usual (0.08 in. per 100 ft)
 *     roughness  m      0 .. 0.005
 *
 * Equation   dew_ducts_drop at 1.204 kg/m3, solved to 1e-12 of itself.
 * Errors     NaN outside the ranges, or for no diameter in 0.02 .. 3 m.
 */
double dew_ducts_diameter(double q, double rate, double roughness);

#define DEW_DUCTS_USUAL_RATE 0.65 /* Pa/m; common practice, no source */

/* One run of a layout against what its flow wants.  Flow: boost, if more. */
struct dew_duct_sizing {
    const char *name; /* "intake duct"                                       */
    int of;           /* ventilator, or grille of a branch, from 0           */
    int branch;       /* 1: of is a grille                                   */
    double flow;      /* m3/s                                                */
    double least;     /* m     diameter at the rate                          */
    double common;    /* m     next common size, 4 to 20 in                  */
    double now;       /* m     as laid; of a rectangle its equivalent        */
    double rate;      /* Pa/m  as laid                                       */
    double speed;     /* m/s   as laid                                       */
    int small;        /* 1: as laid it loses more than asked                 */
};

enum { DEW_DUCT_SIZINGS = 4 * DEW_DUCT_VENTS + DEW_DUCT_GRILLES };

/* Writes room of them at most; returns how many there are. */
size_t dew_ducts_sizings(const struct dew_duct_layout *layout, double rate,
                         struct dew_duct_sizing *out, size_t room);

/*
 * The list.  hours are one fitter's for each of the unit, our guess: they
 * compare layouts, they are no quotation.
 */
/* clang-format off */
#define DEW_DUCT_PART_MAP(X)                                                   \
    X(ventilator, "ventilator, hung, drained and wired", "", 6.0)              \
    X(duct,       "round duct",                          "m", 0.25)            \
    X(elbow,      "elbow, 90 degrees",                   "", 0.2)              \
    X(tee,        "tee or wye",                          "", 0.3)              \
    X(take_off,   "take-off cut into a trunk",           "", 0.75)             \
    X(cap,        "cap or hood in the outer wall",       "", 1.5)              \
    X(grille,     "grille with its boot",                "", 0.75)             \
    X(balancing,  "balancing damper",                    "", 0.2)              \
    X(motorised,  "motorised damper, wired",             "", 0.75)             \
    X(backdraft,  "backdraft damper",                    "", 0.3)              \
    X(interlock,  "blower interlock, wired and tried",   "", 1.5)              \
    X(insulation, "insulation with a vapour-tight skin", "m2", 0.3)            \
    X(setting,    "flows measured and set, at each ventilator", "", 2.0)
/* clang-format on */

enum dew_duct_part_kind {
#define X(name, words, unit, hours) DEW_PART_##name,
    DEW_DUCT_PART_MAP(X)
#undef X
        DEW_DUCT_PART_KINDS
};

struct dew_duct_part {
    enum dew_duct_part_kind kind;
    double diameter; /* m     0 where it has none                            */
    double amount;   /* of the kind's unit; pieces when it is ""             */
    double hours;    /* of work, all of it                                   */
};

enum { DEW_DUCT_PARTS = 64 };

/*
 * What has to be added to a house whose handlers and their ducts stand, one
 * row for each kind and diameter, in the list's order.
 *
 * Counted: elbows from the losses of a run, one for 0.25 above those of its
 * ends; a tee for each branch beyond the first; a balancing damper at each
 * grille and on each tie; insulation around ducts to outdoors and around what
 * lies outside the envelope; an interlock where both airs are tied to the
 * return.  Writes room at most; returns how many there are.
 */
size_t dew_ducts_parts(const struct dew_duct_layout *layout,
                       struct dew_duct_part *out, size_t room);

/* Words and unit ("m", "m2" or "") of a kind; never NULL. */
const char *dew_ducts_part_text(enum dew_duct_part_kind kind);
const char *dew_ducts_part_unit(enum dew_duct_part_kind kind);

#ifdef __cplusplus
}
#endif
#endif
