/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Dehumidifier and humidifier.  struct dew_dryer stands in plant.h.
 */
#ifndef DEW_DRYER_H
#define DEW_DRYER_H

#include "dew/plant.h"
#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Water removal and energy factor as multiples of those at 26.7 degC, 60 %.
 *
 *     t   degC   15 .. 32
 *     rh  -      0.30 .. 0.90
 *
 * Equation   [NREL-52791], quadratic in t and rh; the coefficients from memory
 *            of the report, in agreement with texts that cite it.  Neither is
 *            exactly 1 at 26.7 degC, 60 %.
 * Errors     NaN outside the ranges, and where the fit is not positive.
 */
double dew_plant_dryer_removal(double t, double rh);
double dew_plant_dryer_efficiency(double t, double rh);

/* A label or what the owner sees.  NaN = not known. */
struct dew_dryer_label {
    double rate;      /* kg/s   water at the rating point, or observed     */
    double factor;    /* kg/J   energy factor there; or                    */
    double watts;     /* W      power there                                */
    double t, rh;     /* degC, -  where rate holds: the rating point (18.3
                                 and 60 %; 26.7 and 60 % before 2019; 22.8
                                 and 60 % ducted) or the house's own air    */
    double rating_t;  /* degC   the label's point when rate was observed
                                 elsewhere; NaN: t                          */
    double rating_rh; /* -      NaN: rh                                    */
};

/*
 * rate, factor, rating_t and rating_rh of a dryer; its other members are left
 * alone.  A rate observed elsewhere ("fills two gallons a day") is taken to
 * the rating point by the fit; watts count as those at t, rh.
 *
 * Errors     DEW_EMISSING; DEW_ERANGE with the member in err->path: a factor
 *            below 0.3 or above 8 kg/kWh fits no dehumidifier, a rate above
 *            250 kg a day no house.
 */
enum dew_status dew_plant_dryer_of(const struct dew_dryer_label *label,
                                   struct dew_dryer *out,
                                   struct dew_error *err);

/* Whose test a label is of: 65, 80 and 73 degF, all at 60 %. */
#define DEW_DRYER_TEST_MAP(X)                                                  \
    X(PORTABLE, portable_65F) /* since June 2019 */                            \
    X(OLD, old_80F)           /* portable and older */                         \
    X(DUCTED, ducted_73F)     /* whole house, since June 2019 */

enum dew_dryer_test {
#define X(name, word) DEW_TEST_##name,
    DEW_DRYER_TEST_MAP(X)
#undef X
        DEW_DRYER_TESTS
};

/* degC of that test; NaN for none. */
double dew_plant_dryer_test_t(enum dew_dryer_test test);

/*
 * Least energy factor, kg/J at its own rating point, of machines sold by that
 * test, by the water on the label, kg/s.  Portable: 1.30, 1.60, 2.80 kg/kWh to
 * 25.00, to 50.00 and from 50.01 pints a day [DOE-DH].  Older: 1.35, 1.50,
 * 1.60, 1.70, 2.5 to 35, 45, 54, 75 and above, the limits of October 2012
 * [NRCAN-DH].  Ducted: 1.77, of cases to 8 ft3; larger ones 2.41, but the case
 * is not asked for ([DOE-DH], from memory).  NaN for no test or no rate.
 */
double dew_plant_dryer_least_factor(enum dew_dryer_test test, double rate);

/* What a dryer does, running without a stop. */
struct dew_dryer_work {
    double rate;  /* kg/s   water out of the air                           */
    double power; /* W                                                     */
    double heat;  /* W      into the air's sensible heat: power + what the
                             water gives up condensing                      */
    double held;  /* -      1: the fit was held at the end of its range    */
};

/*
 * At the state it draws in.  Outside the fit's range the fit is held at its
 * end and held is 1.  t 0 .. 45 degC, w in kg/kg, p in Pa; NaN beyond, where
 * the march lets the machine rest.
 * Checked    a sealed box warms by power plus the heat of condensation.
 */
void dew_plant_dryer_at(const struct dew_dryer *dryer, double t, double w,
                        double p, struct dew_dryer_work *out);

/*
 * Air a dryer moves, m3/s, 2.75 cfm for each pint a day [DH-AIR].
 */
double dew_plant_dryer_air(const struct dew_dryer *dryer);

/*
 * What a ventilating dryer draws in: house air at t, w with dryer->outdoor of
 * its air from outdoors at t_out, w_out, mixed at constant pressure without
 * regard to the vapour's own heat capacity (0.03 K).  All of it from outdoors
 * when dryer->outdoor exceeds dew_plant_dryer_air.
 */
struct dew_dryer_inlet {
    double t, w;    /* degC, kg/kg                                          */
    double outdoor; /* -      share of it from outdoors                     */
};
struct dew_dryer_inlet dew_plant_dryer_inlet(const struct dew_dryer *dryer,
                                             double t, double w, double t_out,
                                             double w_out);

/* Part-load fraction 0.90 + 0.10 PLR [DH-AIR]; energy = power PLR / PLF. */
double dew_plant_dryer_part_load(double plr);

/* Heat of condensation, J/kg, h_g - h_f at t, degC: 2501e3 - 2326 t. */
double dew_plant_dryer_latent(double t);

/*
 * Humidifier at share 0 .. 1 of its output: kg/s, and W it takes from the
 * air's sensible heat (evaporative) or from its own power (steam).
 */
struct dew_humidifier_work {
    double rate, air_heat, power; /* kg/s, W out of the air, W              */
};
struct dew_humidifier_work dew_plant_humidifier_at(
    const struct dew_humidifier *humidifier, double share, double t);

#ifdef __cplusplus
}
#endif
#endif
