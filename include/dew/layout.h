/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Duct layouts: how a ventilator is tied to the house, from a few numbers.
 *
 *     dew_ducts_layout_blank     nothing said
 *     dew_ducts_layout_fill      what was not said, from what was: trunks from
 *                                the blower's flow and external static, ducts
 *                                from the flows they carry
 *
 * A number that was not said is NaN; a count or choice has its own mark.
 * Volume flows are m3/s of air at 20 degC; pressures are over outdoors.
 */
#ifndef DEW_LAYOUT_H
#define DEW_LAYOUT_H

#include "dew/network.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Ventilator: off, on (its normal flow), boost, and defrosting.
 * Blowers: each of up to three handlers off / low / full, in base 3, the
 * first handler the lowest digit.
 */
enum dew_vent_state {
    DEW_VENT_OFF,
    DEW_VENT_ON,
    DEW_VENT_BOOST,
    DEW_VENT_DEFROST,
    DEW_VENT_STATES
};
enum { DEW_BLOWER_STATES = 27 };

/* Where the ventilator's air comes in and goes out. */
#define DEW_LAYOUT_MAP(X)                                                      \
    X(own_ducts, "own ducts for fresh and stale air")                          \
    X(return_tie, "fresh and stale air both tied to the return duct")          \
    X(supply_tie, "fresh air tied to the supply duct, stale air by own ducts") \
    X(return_to_supply, "stale air from the return, fresh to the supply duct") \
    X(mix, "fresh air into the return duct, stale air by own ducts")

enum dew_layout {
#define X(name, words) DEW_LAYOUT_##name,
    DEW_LAYOUT_MAP(X)
#undef X
        DEW_LAYOUTS
};

enum {
    DEW_DUCT_HANDLERS = 3,
    DEW_DUCT_VENTS = 3,
    DEW_DUCT_GRILLES = 16,
    DEW_DUCT_ROWS = 12,
    DEW_DUCT_VENT_STATES = DEW_VENT_BOOST + 1 /* off, on, boost */
};

/* What a stale-air pickup may catch before it mixes with the house. */
enum dew_duct_event {
    DEW_DUCT_SHOWER,
    DEW_DUCT_COOKING,
    DEW_DUCT_LAUNDRY,
    DEW_DUCT_EVENTS
};

/* Something known only within bounds.  likely NaN = not said. */
struct dew_duct_range {
    double low, likely, high;
};

/* How long own ducts are, when they are not given one by one. */
#define DEW_DUCT_CLASS_MAP(X) X(SHORT, short) X(MEDIUM, medium) X(LONG, long)

enum dew_duct_class {
#define X(name, word) DEW_DUCT_##name,
    DEW_DUCT_CLASS_MAP(X)
#undef X
};

/* Is it there?  Unsaid is taken as not there. */
enum dew_duct_fit { DEW_DUCT_UNSAID, DEW_DUCT_NONE, DEW_DUCT_FITTED };

enum dew_duct_reading { DEW_DUCT_LIKELY, DEW_DUCT_LOW, DEW_DUCT_HIGH };

/* One run of duct.  duct.diameter and duct.width both 0 = not given. */
struct dew_duct_line {
    struct dew_duct duct;
    double outside; /* -      share of its length outside the envelope       */
    double r;       /* m2K/W  of its insulation                              */
};

/*
 * One air handler: its blower and the two trunks that hang on it.
 *
 *     house - grilles - trunk - stale tap - fresh tap - [filter, blower, coil]
 *           - fresh tap - trunk - grilles - house
 */
struct dew_duct_handler {
    double flow;      /* m3/s  at full, as rated            0.05 .. 3     */
    double low;       /* -     low flow, share of flow      0.05 .. 1     */
    double external;  /* Pa    external static at flow      10 .. 500     */
    double inside;    /* Pa    filter, coil and casing at flow, beyond
                                  the external static          1 .. 500      */
    double free;      /* -     flow without resistance / flow 1.01 .. 3   */
    double watts;     /* W     at flow                                    */
    double watts_low; /* W     at low flow                                */
    double
        return_share; /* -     of external that the return loses 0.1 .. 0.9 */
    struct dew_duct_line return_trunk; /* grilles to stale tap               */
    struct dew_duct_line supply_trunk; /* fresh tap to grilles               */
    double between;     /* m     stale tap to fresh tap in the return       */
    double before;      /* m     fresh tap in the return to the handler     */
    double after;       /* m     handler to fresh tap in the supply         */
    double leak_return; /* -     of flow, drawn from outside the envelope   */
    double leak_supply; /* -     of flow, blown outside the envelope        */
};

/*
 * One ventilator: two fans, a core, two ducts outdoors, and its ducts in the
 * house.  Rows are those of its sheet: flow and pressure outside the unit of
 * one side, watts of the whole unit; without rows, a shape through the rated
 * point.
 */
struct dew_duct_vent {
    struct dew_fan_row rows[DEW_DUCT_ROWS];
    int row_count;   /* 0 = by shape, else 3 .. DEW_DUCT_ROWS               */
    double flow;     /* m3/s  rated, gross, each side        0.003 .. 1     */
    double pressure; /* Pa    outside the unit at flow       10 .. 500      */
    double watts;    /* W     of the whole unit at flow                     */
    double core;     /* Pa    a side's loss in the unit at flow, fan still  */
    double eatr;     /* -     stale air that comes back      0 .. 0.5       */
    double set[DEW_DUCT_VENT_STATES];       /* m3/s  fresh, asked for; [0] is
                                               not read; gross               */
    double set_stale[DEW_DUCT_VENT_STATES]; /* m3/s  stale, likewise         */
    int serves; /* bits: handlers its ties lead to; -1 = not said      */
    struct dew_duct_line intake, discharge; /* to and from outdoors          */
    struct dew_duct_line fresh, stale;      /* unit to tap or first branch   */
};

/*
 * A grille or a group of them in one room.  It may hang on a handler's supply
 * trunk, on own fresh-air ducts and on own stale-air ducts; a share of NaN is
 * an equal part with the others of its kind, 0 none.
 */
struct dew_duct_grille {
    const char *name;          /* borrowed as long as the layout is used     */
    int handler;               /* 0 .. 2, of its supply air; -1 = none       */
    double share;              /* -    of that handler's supply air          */
    int vent;                  /* 0 .. 2, of its own ducts; -1 = none        */
    double fresh, stale;       /* -    of that ventilator's own-duct air     */
    double found_supply;       /* m3/s as measured, blower at full           */
    double found_fresh;        /* m3/s as measured, ventilator on            */
    double found_stale;        /* m3/s                                       */
    struct dew_duct_line line; /* its own fresh or stale branch              */
};

/* Flows of all ventilators together, as measured; NaN = not measured. */
struct dew_duct_found {
    double fresh, stale; /* m3/s  gross                                      */
};

struct dew_duct_written; /* below */

/* A whole layout.  Plain; the caller's. */
struct dew_duct_layout {
    enum dew_layout kind;
    struct dew_duct_handler handlers[DEW_DUCT_HANDLERS];
    int handler_count; /* 0 .. 3; ties need one                              */
    struct dew_duct_vent vents[DEW_DUCT_VENTS];
    int vent_count; /* 1 shared, or one for each handler; 0 = none, handlers
                       alone                                                 */
    struct dew_duct_grille grilles[DEW_DUCT_GRILLES];
    int grille_count; /* 0 = those of dew_ducts_rooms                      */
    int bedrooms;     /* 0 .. 12, which those count                        */
    enum dew_duct_class length;  /* of own ducts not given one by one        */
    enum dew_duct_fit damper;    /* motorised, on both outdoor ducts         */
    enum dew_duct_fit backdraft; /* on each fresh-air tie                    */
    double damper_leak; /* -  of the ventilator's rated flow, shut, at 50 Pa
                            0.003 .. 1                                       */
    int gap;      /* 1: the fresh tie ends in the open beside a return grille */
    int also_own; /* 1: fresh air also by own ducts to grilles with fresh > 0 */
    struct dew_duct_range mixing;   /* -  air mixed back from the fresh tap to
                                the stale tap of one return duct, of the fresh
                                air there, beside what flows       0 .. 1     */
    enum dew_duct_reading reading;  /* which end of mixing is computed with  */
    double short_circuit[3];        /* -  said instead of computed, with blowers
                                off, low, full; NaN                          */
    struct dew_duct_found found[3]; /* likewise, ventilator on           */
    struct dew_duct_range pickup[DEW_DUCT_EVENTS]; /* -  of an event's water
                                caught by the stale pickup                   */
    const struct dew_duct_written *written; /* the network written out, in
                       place of one by kind; NULL = none; borrowed           */
    int holds_flow; /* 1: the ventilators' own control holds their set flows
                       in every state, as far as their sheets go            */
    int reference;  /* blower state in which the fitter set the flows, base 3 */
    double density; /* kg/m3  of the air, 0.5 .. 2                           */
};

/* Everything unsaid, DEW_LAYOUT_own_ducts, one ventilator, no handler. */
void dew_ducts_layout_blank(struct dew_duct_layout *layout);

/*
 * Put in what is unsaid.  Needs: set[DEW_VENT_ON] or flow of each ventilator,
 * flow of each handler.  Every preset and its source: engine/ducts/fill.c,
 * and dew_ducts_preset.  Nothing that was said is changed.
 *
 * Errors     DEW_EMISSING, DEW_ERANGE with the member in err->path;
 *            *layout is then as it was.
 */
enum dew_status dew_ducts_layout_fill(struct dew_duct_layout *layout,
                                      struct dew_error *err);

/* Preset i of _fill, from 0, in words for a page; NULL past the end. */
struct dew_duct_preset {
    const char *name;   /* "external static"                                 */
    const char *value;  /* "124 Pa"                                          */
    const char *source; /* label, "common practice, no source", "our guess"  */
};
const struct dew_duct_preset *dew_ducts_preset(size_t i);

/*
 * The rooms of a house of so many bedrooms (0 .. 12) whose grilles were not
 * told, into out of DEW_DUCT_GRILLES; returns how many.  Every list of rooms
 * is this one.
 *
 * Split      fresh [F326]: two parts to the main bedroom, one to each other;
 *            two to the living room for the people in it, our own.  stale:
 *            two from the kitchen, one from each bath, common practice, no
 *            source.
 */
struct dew_duct_room {
    const char *name;    /* static                                          */
    int tier;            /* of the first, second, last air handler: 0, 1, 2 */
    int supply;          /* 1: an air handler blows there                   */
    double fresh, stale; /* parts of own-duct air; 0 none                   */
};
size_t dew_ducts_rooms(int bedrooms, struct dew_duct_room *out);

/*
 * Share of an event's water that a layout's stale pickup catches before it
 * mixes, at q m3/s drawn in the room of the event; NaN for q < 0.
 *
 * Equation   q / (q + flow through the door), two zones mixed each; for a
 *            central return tap next to nothing.  See dew_ducts_preset.
 */
struct dew_duct_range dew_ducts_pickup(enum dew_layout kind,
                                       enum dew_duct_event event, double q);

#ifdef __cplusplus
}
#endif
#endif
