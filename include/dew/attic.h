/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The space that ducts outside the envelope lie in: an attic, a crawl space or
 * the open air.  One node without capacity; pure functions.
 *
 * Left out: heat held by the deck, wood that takes up and gives off water,
 * what duct leaks and duct walls do to the space itself.
 */
#ifndef DEW_ATTIC_H
#define DEW_ATTIC_H

#include "dew/house.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What is around that space, in one hour. */
struct dew_around_hour {
    double t_out;    /* degC                                                 */
    double sun;      /* W/m2   on the flat                                   */
    double t_in;     /* degC   house                                         */
    double t_ground; /* degC   under it                                      */
};

/*
 * Sol-air temperature of the roof, degC.
 *
 * Equation   t_out + absorptance I / h_o - 63 emittance / h_o, with h_o 17
 *            W/m2K and emittance 0.9 [ASH-F18]; the same under every sky.
 */
double dew_house_sol_air(double t_out, double sun, double absorptance);

/* What an attic is made of. */
struct dew_attic {
    double absorptance; /* -        of the roof, 0 .. 1                       */
    double deck;        /* m2K/W    insulation on its deck, 0 = bare          */
    double ceiling;     /* W/(m2 K) between rooms and attic                   */
    double air;         /* 1/s      outdoor air changes                       */
};

/*
 * An attic under a roof of 1.12 of the ceiling's area whose bare deck has 0.30
 * m2K/W, and 1 m high on average: ours.
 */
struct dew_around dew_house_attic(const struct dew_attic *attic);

/*
 * A crawl space 0.8 m high with outdoor air changes, 1/s: floor above of 1.0
 * and earth below of 1.0 W/(m2 K).  Our guess; damp earth is another key's.
 */
struct dew_around dew_house_crawl(double air);

/*
 * Temperature there, degC.  Of no exchange at all, t_out.
 *
 * Equation   (G t_sa + U t_in + K t_ground + H t_out) / (G + U + K + H).
 */
double dew_house_around_t(const struct dew_around *around,
                          const struct dew_around_hour *hour);

#ifdef __cplusplus
}
#endif
#endif
