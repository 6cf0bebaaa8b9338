/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Ducts at work: the network that a layout builds, what each state of blowers
 * and ventilator does with the air, and what the march watches of it.
 *
 *     dew_ducts_open             the network of a layout, its fans set to their
 *                                flows as a fitter would set them
 *     dew_ducts_open_written     or of a network written out in full
 *     dew_ducts_state            what one state of blowers and ventilator does
 *     dew_ducts_states           and all of them
 *     dew_ducts_path             a state as the march wants it
 *
 * Volume flows are m3/s of air at 20 degC and site pressure, as everywhere.
 *
 * Limits  House, outdoors and the space around outside ducts are all at 0 Pa:
 *         envelope leakage is the march's, by equation 51, and not solved
 *         twice.  No buoyancy in ducts.  Air in a duct is mixed where runs
 *         meet and nowhere else, but for `mixing` below.
 */
#ifndef DEW_DUCTS_H
#define DEW_DUCTS_H

#include "dew/layout.h"

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

/* ---- a network with its meaning ------------------------------------------ */

#define DEW_DUCT_PLACE_MAP(X)                                                  \
    X(DUCT, duct)         /* in a duct: pressure to be found */                \
    X(HOUSE, house)       /* 0 Pa */                                           \
    X(OUTDOORS, outdoors) /* 0 Pa */                                           \
    X(BUFFER, buffer)     /* attic, crawl space, garage; 0 Pa */

enum dew_duct_place {
#define X(name, word) DEW_PLACE_##name,
    DEW_DUCT_PLACE_MAP(X)
#undef X
};

struct dew_duct_point {
    const char *name;
    enum dew_duct_place place;
};

/* clang-format off */
#define DEW_DUCT_ROLE_MAP(X)                                                   \
    X(PLAIN, plain)                                                            \
    X(BLOWER, blower)         /* fan of handler of; its air passes the coil */ \
    X(FRESH_FAN, fresh_fan)   /* of ventilator of */                           \
    X(STALE_FAN, stale_fan)                                                    \
    X(FRESH_UNIT, fresh_unit) /* core and casing, damper kind: 1 running, else \
                                 as idle says; its air is the ventilator's     \
                                 fresh */                                      \
    X(STALE_UNIT, stale_unit)                                                  \
    X(SHUT, shut)             /* damper kind: open with the ventilator, else shut */ \
    X(GRILLE, grille)         /* of grille of: supply or own fresh air to house */ \
    X(PICKUP, pickup)         /* of grille of: own stale air from the house */ \
    X(RETURN, return)         /* of handler of: return grilles */              \
    X(FRESH_TIE, fresh_tie)   /* of handler of: duct to its fresh tap */       \
    X(STALE_TIE, stale_tie)   /* of handler of: duct from its stale tap */
/* clang-format on */

enum dew_duct_role {
#define X(name, word) DEW_ROLE_##name,
    DEW_DUCT_ROLE_MAP(X)
#undef X
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

/* ---- air in ducts --------------------------------------------------------- */

/*
 * What passes through their walls and leaks, and where the march looks for
 * sweat.  Pure functions.
 *
 *     q         volume flow of air at 20 degC      m3/s    > 0
 *     density   of that air                        kg/m3   0.5 .. 2
 *
 * Film inside: Nu = 0.023 Re^0.8 Pr^0.4 from Re 2300, 3.66 below, whichever
 * is more; textbook, from memory.  Film outside: 1 / 0.13 m2K/W [ISO6946].
 * Joints, hangers and the sun on a roof are left out.
 */

/* Through a duct's wall, W/m2K, air to air. */
double dew_ducts_u(const struct dew_duct_line *line, double density, double q);

/*
 * Temperature, degC, of air that entered at t after length m of the duct.
 *
 * Equation   t_around + (t - t_around) exp(-U perimeter length / (m cp)).
 */
struct dew_duct_passage {
    double length;   /* m                                                    */
    double t;        /* degC   entering                                      */
    double t_around; /* degC                                                 */
};
double dew_ducts_along(const struct dew_duct_line *line, double density,
                       double q, const struct dew_duct_passage *passage);

/*
 * Coldest mixed air that heaters should meet, degC: 15.6 (60 degF), the usual
 * limit of makers' sheets; common practice, no source.
 */
#define DEW_DUCTS_HEATER_LEAST 15.6

/* ---- for the march: what to watch of a layout ------------------------------ */

/* Places that may be wet, and air that may be too cold. */
#define DEW_DUCT_SPOT_MAP(X)                                                   \
    X(intake, "skin of the intake duct in the house")                          \
    X(exhaust, "skin of the exhaust duct in the house")                        \
    X(trunk, "inside of the supply trunk, where fresh air comes in")           \
    X(outside, "skin of the supply trunk outside the envelope")                \
    X(heater, "air that reaches the heater below 15.6 degC")

enum dew_duct_spot {
#define X(name, words) DEW_SPOT_##name,
    DEW_DUCT_SPOT_MAP(X)
#undef X
        DEW_DUCT_SPOTS
};

/* Words of a spot; never NULL. */
const char *dew_ducts_spot_text(enum dew_duct_spot spot);

/*
 * What leaks do to the air of one handler, by its own air's flow.  All zero:
 * no leaks.
 */
struct dew_duct_leaking {
    double drawn; /* -   of its air, drawn in from the space around          */
    double lost;  /* -   of what it gives its air, lost on the way to rooms  */
};

/*
 * What an air handler's ducts outside make of its air, all shares of its own
 * flow M and effect E:
 *
 *     rooms gain  M (kept drawn (h_around - h_in) + wall cp (t_around - t_in))
 *                 - E (1 - lost - wall_effect) while it cools, + while it heats
 *
 * Equation   with a_s = 1 - lost, a_r = 1 - drawn, and B_s, B_r what the walls
 *            of supply and return keep of a temperature difference:
 *                kept        = a_s
 *                wall        = a_s a_r (1 - B_s B_r)
 *                wall_effect = a_s (1 - B_s)
 *            which is delivery effectiveness a_s B_s - a_s B_s (1 - a_r B_r)
 *            dt / dt_e - a_s (1 - B_s) dt / dt_e [ASH-152], written as air,
 *            walls and machine apart.  Leaks lie at the handler, walls behind
 *            them.
 */
struct dew_duct_delivery {
    double kept, wall, wall_effect;
};
struct dew_duct_delivery dew_ducts_delivery(
    const struct dew_duct_leaking *leaking, double supply_takes,
    double return_takes);

/*
 * Of a layout, at its set and full flows.  All zero: nothing is watched.
 * follows: of the air's difference to its surroundings, what the skin keeps.
 */
struct dew_duct_watch {
    double intake_follows;  /* -   0 = no such duct in the house             */
    double exhaust_follows; /* -                                             */
    double outside_follows; /* -   of supply trunks outside, 0 = none        */
    int trunk;              /* 1: fresh air comes into a supply trunk        */
    /* -   of the difference to the air around, what trunks outside the
       envelope take, blowers at full or low; a mean of the handlers by air */
    double supply_full, supply_low, return_full, return_low;
    /* leaks by ventilator, handler, and its blower at low [0] or full [1] */
    struct dew_duct_leaking leaks[DEW_VENT_STATES][DEW_DUCT_HANDLERS][2];
};

void dew_ducts_watch_of(const struct dew_duct_layout *layout,
                        struct dew_duct_watch *out);

/* Put in the leaks, from dew_ducts_states: all blowers alike, low and full.  A
   ventilator that defrosts counts as off. */
void dew_ducts_watch_leaks(struct dew_duct_state (*states)[DEW_BLOWER_STATES],
                           int blowers, int handlers,
                           struct dew_duct_watch *watch);

#ifdef __cplusplus
}
#endif
#endif
