/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Air in ducts: what passes through their walls and leaks, and where the march
 * looks for sweat.  Pure functions.
 *
 *     q         volume flow of air at 20 degC      m3/s    > 0
 *     density   of that air                        kg/m3   0.5 .. 2
 *
 * Film inside: Nu = 0.023 Re^0.8 Pr^0.4 from Re 2300, 3.66 below, whichever
 * is more; textbook, from memory.  Film outside: 1 / 0.13 m2K/W [ISO6946].
 * Joints, hangers and the sun on a roof are left out.
 */
#ifndef DEW_DUCTAIR_H
#define DEW_DUCTAIR_H

#include "dew/layout.h"

#ifdef __cplusplus
extern "C" {
#endif

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
