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

/* ---- mould --------------------------------------------------------------- */

/*
 * Growth index, 0 (none) .. 6 (all over), on a surface whose temperature and
 * humidity are known hour by hour.  1: germs under the microscope; 3: seen by
 * eye.  [ASH-160] (2016) passes a surface whose index stays at or below 3
 * (from memory).
 *
 * Two forms, not to be mixed: the 1999 form for pine and spruce [HV99], and
 * the later one by sensitivity class [OV11], which has its own rate beyond 1
 * and leaves wood and surface out of the times.
 *
 *     t   degC
 *     rh  -       of the air at the surface; above 1 counts as 1, being wet
 *
 * Growth needs 0 < t < 50 and rh at or above the critical one.
 */

enum dew_mould_class {
    DEW_MOULD_VERY_SENSITIVE, /* pine sapwood                              */
    DEW_MOULD_SENSITIVE,      /* planed wood, paper-faced boards           */
    DEW_MOULD_MEDIUM,         /* concrete, aerated concrete, mineral wool  */
    DEW_MOULD_RESISTANT,      /* glass, metal, tiles                       */
    DEW_MOULD_CLASSES
};

/* What grows on what.  Zeroed: the 1999 form on resawn pine, but for decline,
   which must be given. */
struct dew_mould_rule {
    int by_class;               /* 0: 1999 form; 1: by sensitivity class    */
    enum dew_mould_class which; /* read by the class form                   */
    int spruce;                 /* 1999 form: 0 pine, 1 spruce              */
    int kiln_dried;             /* 1999 form: 0 resawn, 1 original surface  */
    double decline;             /* -  0 .. 1   of the loss in dry times: 1,
                                   0.5, 0.25 or 0.1, from memory            */
};

/* What the next hour needs to know. */
struct dew_mould {
    double index;     /* 0 .. 6                                             */
    double dry_hours; /* h   without growth until now                       */
};

/* Critical rh, - : [HV99], at least 0.80; 0.85 for the two hardier classes;
   1 at and below 0 degC. */
double dew_house_mould_critical(const struct dew_mould_rule *rule, double t);

/* Weeks to index 1 and to index 3 at a steady climate, [HV99]; NaN where
   nothing grows. */
double dew_house_mould_start(const struct dew_mould_rule *rule, double t,
                             double rh);
double dew_house_mould_seen(const struct dew_mould_rule *rule, double t,
                            double rh);

/* Highest index a steady climate leads to; may be negative. */
double dew_house_mould_most(const struct dew_mould_rule *rule, double t,
                            double rh);

/*
 * One hour at t and rh.  Growth k1 k2 / (7 x 24 t_m) by one explicit step, as
 * the published figures are made; in hours without it a loss of 0.032 a day
 * for the first 6 h, none to 24 h, 0.016 a day after, times decline.  Never
 * below 0.  A NaN climate makes the index NaN.
 *
 * Checked    test_mould.c: hours to 1 and 3, index after 30, 90 and 365 days
 *            at twelve steady climates; decline.
 */
void dew_house_mould_hour(const struct dew_mould_rule *rule, double t,
                          double rh, struct dew_mould *state);

#ifdef __cplusplus
}
#endif
#endif
