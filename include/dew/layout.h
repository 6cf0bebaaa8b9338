/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Duct layouts: how a ventilator is tied to the house, from a few numbers.
 *
 *     dew_ducts_layout_blank     nothing said
 *     dew_ducts_layout_fill      what was not said, from what was: trunks from
 *                                the blower's flow and external static, ducts
 *                                from the flows they carry
 *     dew_ducts_open             the network of a layout, its fans set to their
 *                                flows as a fitter would set them
 *     dew_ducts_open_written     or of a network written out in full
 *     dew_ducts_state            what one state of blowers and ventilator does
 *     dew_ducts_states           and all of them
 *     dew_ducts_path             a state as the march wants it
 *
 * A number that was not said is NaN; a count or choice has its own mark.
 * Volume flows are m3/s of air at 20 degC; pressures are over outdoors.
 *
 * Limits  House, outdoors and the space around outside ducts are all at 0 Pa:
 *         envelope leakage is the march's, by equation 51, and not solved
 *         twice.  No buoyancy in ducts.  Air in a duct is mixed where runs
 *         meet and nowhere else, but for `mixing` below.
 */
#ifndef DEW_LAYOUT_H
#define DEW_LAYOUT_H

#include "dew/network.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- a state as the march uses it ---------------------------------------- */

/*
 * One state of the air paths.  Plain.  Positive as named.
 *
 * fresh is outdoor air that reaches the occupied zone by the ventilator: the
 * gross supply less cross leakage and less what short-circuits to the stale
 * pickup.  supply - exhaust (gross, at the envelope) is the imbalance of
 * equation 51 together with the leaks.
 */
struct dew_path {
    double supply;    /* m3/s   gross, drawn from outdoors by the ventilator */
    double exhaust;   /* m3/s   gross, thrown outdoors by the ventilator     */
    double fresh;     /* m3/s   outdoor air delivered, 0 .. supply           */
    double drawn;     /* m3/s   by a lone exhaust fan through leaks: the one
                                imbalance that rules count; else 0           */
    double sensible;  /* -      supply-side temperature effectiveness, 0 .. 1 */
    double latent;    /* -      supply-side moisture effectiveness, 0 .. 1   */
    double unplanned; /* m3/s   outdoor air through an idle unit, unrecovered */
    double spill;     /* m3/s   house air lost through an idle unit          */
    double leak_in;   /* m3/s   outdoor or attic air drawn in by duct leaks  */
    double leak_out;  /* m3/s   air lost by duct leaks                       */
    double leak_lost; /* m3/s   part of leak_in lost again by other leaks    */
    double at_coil;   /* m3/s   part of fresh that passes the coil first     */
    double idle_at_coil; /* m3/s part of unplanned that passes it first      */
    double fan_w;      /* W      ventilator's fans                            */
    double fan_heat;   /* W      part of fan_w that warms the supply air      */
    double preheat_w;  /* W/K    of preheating; 0 = none                      */
    double condensing; /* -     of dew_plant_core_at, at supply and exhaust: a
                                core whose warm side may condense; 0 = none  */
};

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

/* ---- layouts ------------------------------------------------------------- */

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
enum dew_duct_class { DEW_DUCT_SHORT, DEW_DUCT_MEDIUM, DEW_DUCT_LONG };

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
    const char *source; /* label, "common practice, no source", "invented"   */
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

/* ---- a network with its meaning ------------------------------------------ */

enum dew_duct_place {
    DEW_PLACE_DUCT,     /* in a duct: pressure to be found                   */
    DEW_PLACE_HOUSE,    /* 0 Pa                                              */
    DEW_PLACE_OUTDOORS, /* 0 Pa                                              */
    DEW_PLACE_BUFFER    /* attic, crawl space, garage; 0 Pa                  */
};

struct dew_duct_point {
    const char *name;
    enum dew_duct_place place;
};

enum dew_duct_role {
    DEW_ROLE_PLAIN,
    DEW_ROLE_BLOWER,    /* fan of handler of; its air passes the coil       */
    DEW_ROLE_FRESH_FAN, /* of ventilator of                                 */
    DEW_ROLE_STALE_FAN,
    DEW_ROLE_FRESH_UNIT, /* core and casing, damper kind: 1 running, else as
                            idle says; its air is the ventilator's fresh     */
    DEW_ROLE_STALE_UNIT,
    DEW_ROLE_SHUT,      /* damper kind: open with the ventilator, else shut */
    DEW_ROLE_GRILLE,    /* of grille of: supply or own fresh air to house   */
    DEW_ROLE_PICKUP,    /* of grille of: own stale air from the house       */
    DEW_ROLE_RETURN,    /* of handler of: return grilles                    */
    DEW_ROLE_FRESH_TIE, /* of handler of: duct to its fresh tap             */
    DEW_ROLE_STALE_TIE, /* of handler of: duct from its stale tap           */
};

struct dew_duct_run {
    struct dew_duct_branch branch;
    enum dew_duct_role role;
    int of;      /* handler, ventilator or grille, from 0                    */
    double idle; /* -  setting of a unit while the ventilator is off         */
};

/*
 * A network written out in full, for layout.written or _open_written.  What a
 * run with a role leaves at 0 or NULL (fan, flow, power, leak, idle) is that
 * of its handler or ventilator in layout, fans by their sheets and ratings; a
 * fan given is borrowed.  Handlers, ventilators and grilles are counted by the
 * layout, whose kind is read for pickups and mixing alone and whose trunks and
 * ducts are not read: no parts, sizes or sweating places are told of it.
 */
struct dew_duct_written {
    const struct dew_duct_point *points;
    size_t point_count;
    const struct dew_duct_run *runs;
    size_t run_count;
};

struct dew_ducts; /* opaque: network, fans and settings                      */

/*
 * Build a filled layout, and find the fan speeds that give its set flows in
 * its reference state; a fan that cannot runs at full speed and its states
 * say so.
 *
 * Owner      on DEW_OK *ducts is the caller's, for dew_ducts_close; else NULL.
 *            Copies the layout, borrows its names.
 * Errors     DEW_EMEM; DEW_ERANGE with the member in err->path, or as
 *            dew_ducts_network_open: islands and fans on nothing by name.
 */
enum dew_status dew_ducts_open(struct dew_ducts **ducts,
                               const struct dew_duct_layout *layout,
                               struct dew_error *err);
enum dew_status dew_ducts_open_written(struct dew_ducts **ducts,
                                       const struct dew_duct_layout *layout,
                                       const struct dew_duct_written *written,
                                       struct dew_error *err);
void dew_ducts_close(struct dew_ducts *ducts); /* NULL allowed */

/* The network as built, for a sketch; borrowed until close. */
struct dew_duct_written dew_ducts_as_written(const struct dew_ducts *ducts);

/* What one ventilator does in a state.  m3/s, >= 0. */
struct dew_duct_unit {
    double supply, exhaust; /* gross, at the envelope, while it runs         */
    double backflow;  /* against the arrows through the idle (or beaten) unit */
    double unplanned; /* outdoor air through it while idle, either side      */
    double spill;     /* house air out through it while idle, either side    */
    double fan_w;     /* W                                                   */
    int at_limit;     /* 1: a fan at full speed gives less than it was set to */
    int off_sheet;    /* 1: a fan works beyond its sheet                     */
};

/* One state.  m3/s unless said. */
struct dew_duct_state {
    enum dew_vent_state vent;
    int blower;             /* base 3, first handler lowest digit            */
    double fresh_gross;     /* drawn from outdoors by running ventilators    */
    double fresh_delivered; /* of it, what reaches the rooms                 */
    double stale_drawn;     /* thrown outdoors by running ventilators        */
    double short_circuit_share; /* -  of net fresh that went out again; NaN
                                      with the ventilator off                */
    double lost_share;      /* -  of net fresh that duct leaks lost          */
    double imbalance;       /* fresh_gross - stale_drawn                     */
    double imbalance_share; /* -  of the greater of the two; NaN at no flow  */
    int balanced;           /* 1: within 10 % of each other                  */
    double backflow;        /* sum of the units'                             */
    double unplanned, spill;
    double leak_in, leak_out; /* by duct leaks, with outdoors or buffer      */
    double leak_lost;       /* part of leak_in that leaks lose again         */
    double at_coil;         /* part of fresh_delivered that passed a coil    */
    double idle_at_coil;    /* part of unplanned that passed a coil          */
    double blower_w, fan_w; /* W                                             */
    struct dew_duct_unit units[DEW_DUCT_VENTS];
    double fresh_at[DEW_DUCT_GRILLES]; /* fresh air out of each grille       */
    double fresh_at_return[DEW_DUCT_HANDLERS]; /* out of return grilles      */
    double air_at[DEW_DUCT_GRILLES];   /* all air out of its supply and fresh
                                          grilles; < 0: drawn in             */
    double stale_at[DEW_DUCT_GRILLES]; /* stale air by own ducts             */
    double stale_return[DEW_DUCT_HANDLERS]; /* stale air from each return tap */
    double coil_flow[DEW_DUCT_HANDLERS];    /* through each handler          */
    double coil_fresh[DEW_DUCT_HANDLERS];   /* of it, fresh                  */
    double coil_idle[DEW_DUCT_HANDLERS];    /* of it, unplanned              */
    double coil_drawn[DEW_DUCT_HANDLERS];   /* -  of it, drawn in by leaks   */
    double coil_lost[DEW_DUCT_HANDLERS];    /* -  of what the handler gives its
                             air, heat or dryness, lost on the way to rooms;
                             0 in a layout without leaks                     */
    double tap_fresh[DEW_DUCT_HANDLERS]; /* Pa  at the fresh tap; NaN = none */
    double tap_stale[DEW_DUCT_HANDLERS]; /* Pa  at the stale tap             */
    double trunk_resists[DEW_DUCT_HANDLERS]; /* Pa  what the tapped trunk and
                        its grilles lose at the tie's own flow, blower off   */
};

/*
 * vent DEW_VENT_OFF, _ON or _BOOST; blower 0 .. 3^handlers - 1.
 * Errors     DEW_ERANGE, DEW_ESOLVE.  *out only on DEW_OK.
 */
enum dew_status dew_ducts_state(struct dew_ducts *ducts,
                                enum dew_vent_state vent, int blower,
                                struct dew_duct_state *out,
                                struct dew_error *err);

/* Air in a run in the last state; NaN = none such. */
double dew_ducts_run_flow(const struct dew_ducts *ducts, size_t run);
/* Share of fresh air, 0 .. 1, in the air of a run, likewise; of unplanned
   outdoor air with the ventilator off. */
double dew_ducts_run_fresh(const struct dew_ducts *ducts, size_t run);

/* Every state: [ventilator][blower], blower < *blowers = 3^handlers. */
enum dew_status dew_ducts_states(
    const struct dew_duct_layout *layout,
    struct dew_duct_state (*out)[DEW_BLOWER_STATES], int *blowers,
    struct dew_error *err);

/* What the core does at a state's flows; from the plant (core.h). */
struct dew_duct_core {
    double sensible, latent; /* -  supply-side effectiveness                 */
    double heat_share;       /* -  of fan watts that warms the supply air    */
    double condensing; /* -   of dew_plant_core_at; 0 = none condenses       */
};

/* A state as the march wants it.  preheat_w is 0. */
struct dew_path dew_ducts_path(const struct dew_duct_state *state,
                               const struct dew_duct_core *core);

/* "off", "low" or "full": handler's digit of a blower state, 0 .. 2. */
int dew_ducts_blower_digit(int blower, int handler);

#ifdef __cplusplus
}
#endif
#endif
