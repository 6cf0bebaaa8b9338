/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Inside surfaces that may sweat or grow mould: how cold they are and what
 * humidity they feel.  Pure functions, allocation-free.
 *
 *     factor  -      0 .. 1   f_Rsi: ts = te + factor (ti - te)
 *     ti, te  degC            indoors, outdoors; ts of the surface
 *     rh      -      0 .. 1   of the room's air
 *
 * Saturation is over ice below 0.01 degC, as frost forms there.  An argument
 * outside its range gives NaN.
 */
#ifndef DEW_SURFACE_H
#define DEW_SURFACE_H

#include <stddef.h>

#include "dew/house.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Inside films, m2K/W.  Every limit hangs on the one used, so name it: at 20
 * degF outdoors and 70 degF indoors glass of U 0.50 Btu/(h ft2 F) wets at 55 %
 * with the first and 52 % with the second.
 */
#define DEW_FILM_TRADE 0.12 /* about 0.68 h ft2 F/Btu, trade                */
#define DEW_FILM_GLASS 0.13 /* [ISO6946] horizontal; [ISO13788] glass, frames */
#define DEW_FILM_MOULD 0.25 /* [ISO13788] opaque parts, mould               */

/*
 * The least film that counts as wet, kg/m2: a thousandth of a millimetre, about
 * what a breath leaves on a pane.  Common practice, no source.
 */
#define DEW_FILM_SEEN 1e-3

/* 1 - u film; u W/(m2 K).  NaN where it leaves 0 .. 1. */
double dew_house_factor(double u, double film);

double dew_house_surface_t(double factor, double ti, double te);

/* RH of the air at the surface: rh pws(ti) / pws(ts).  May pass 1: it sweats.
   NaN for ts outside -60 .. 60 degC; engine/house/surface_step.h has both
   formulas, for the march too. */
double dew_house_surface_rh(double factor, double ti, double te, double rh);

/* Room RH at which it wets: pws(ts) / pws(ti).  Above 1: never. */
double dew_house_wets_at(double factor, double ti, double te);

/*
 * Highest indoor RH the trade advises in winter at te, double glazing, 70 degF
 * indoors: 0.40 .. 0.15; NaN above 40 degF, where its table ends.
 * [MN-DPS], quoted.  It protects edges and frames: well below the glass's own.
 */
double dew_house_winter_limit(double te);

/* Coldest corner: 0.70 is the least [DIN4108-2] lets pass; 0.75 [IP106], from
   memory; 0.85 in a well insulated house, from memory. */
#define DEW_CORNER_LEAST 0.70
#define DEW_CORNER_GOOD  0.85

/*
 * A surface for the march: area in m2, 0 = watched only.  Film before it runs
 * off: 0.05 kg/m2 on upright glass and its edge, where droplets begin to run at
 * 30 to 50 g/m2 [BS5250], from memory; 0.2 on a corner, [ISO13788]'s limit for
 * what a surface that soaks may hold.
 */
struct dew_surface dew_house_surface(enum dew_surface_kind kind, double factor,
                                     double area);

#ifdef __cplusplus
}
#endif
#endif
