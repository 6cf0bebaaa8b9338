/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Moist air: the ground floor.  Pure functions of their arguments, no state.
 *
 * Symbols, units and ranges, the same in every file of this project:
 *
 *     t     dry-bulb temperature        degC     -100 .. 90
 *     p     total pressure              Pa       50e3 .. 110e3
 *     w     humidity ratio              kg/kg    0 ..        (per dry air)
 *     rh    relative humidity           -        0 .. 1
 *     pv    partial pressure of vapour  Pa       0 .. p
 *     pws   saturation pressure         Pa
 *     td    dew point                   degC     -100 .. 90
 *     tw    thermodynamic wet bulb      degC     -100 .. t
 *     h     enthalpy                    J/kg     (per dry air; 0 for dry air
 *                                                and liquid water at 0 degC)
 *     z     elevation                   m        -5000 .. 11000
 *
 * An argument outside its range gives NaN, never a clamped or sentinel value;
 * NaN in gives NaN out.
 *
 * Two branches of saturation.  Below the triple point (0.01 degC) the
 * Handbook counts over ice: its "dew point" is then the frost point, and
 * "100 %" is saturation over ice.  Weather services count over liquid
 * (supercooled) water at every temperature [WMO-8]: their dew points and
 * relative humidities below 0 degC go through the functions that end in
 * _liquid.  At -20 degC the two differ by a fifth of the vapour pressure.
 *
 * Gases are perfect here: no enhancement factor.  Against real moist air w at
 * saturation is low by 0.43 % (0 degC), 0.47 % (25 degC), 0.55 % (40 degC)
 * and 0.75 % (60 degC) at sea level; h by 0.2 kJ/kg of 76.5 at 25 degC.
 *
 * What must be solved for is found by Newton steps kept inside a bracket, to
 * 1e-9 of the value.  Checked in tests/air/.
 */
#ifndef DEW_AIR_H
#define DEW_AIR_H

#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Ratio of the molar masses of water and dry air [ASH-F1]. */
#define DEW_AIR_MASS_RATIO 0.621945
/* Gas constant of dry air, J/(kg K), 8314.472 / 28.966 [ASH-F1] eq. 1. */
#define DEW_AIR_GAS 287.042
/* Temperature where ice, water and vapour meet, degC, and 0 degC in K. */
#define DEW_AIR_TRIPLE 0.01
#define DEW_AIR_KELVIN 273.15
/* J/kg of water evaporated at 0 degC; h = 1006 t + w (2501e3 + 1860 t). */
#define DEW_AIR_LATENT 2501e3

/* ---- saturation --------------------------------------------------------- */

/*
 * Saturation pressure of water vapour, Pa: over ice for t < 0.01 degC, else
 * over liquid; and each branch alone.
 *
 *     dew_air_pws         t  degC   -100 .. 90
 *     dew_air_pws_liquid  t  degC   -100 .. 90    below 0 supercooled water
 *     dew_air_pws_ice     t  degC   -100 .. 0.01
 *
 * Equation   [HW83], the coefficients of [ASH-F1] eq. 5 (ice), 6 (liquid).
 * Accuracy   the liquid branch was fitted from 0 degC up; carried on below it
 *            agrees with the supercooled-water formula of [MK05] within 0.15 %
 *            to -20, 0.35 % to -30 and 1 % to -40 degC.
 */
double dew_air_pws(double t);
double dew_air_pws_liquid(double t);
double dew_air_pws_ice(double t);

/* Their inverses, degC: the temperature at which pv, Pa, saturates. */
double dew_air_t_pws(double pv);
double dew_air_t_pws_liquid(double pv);
double dew_air_t_pws_ice(double pv);

/* ---- humidity ratio and what measures it -------------------------------- */

/* w of vapour at pressure pv, and back.  [ASH-F1] eq. 20.  pv < p. */
double dew_air_w_pv(double pv, double p);
double dew_air_pv(double w, double p);

/* w at saturation.  NaN at and above the boiling point. */
double dew_air_w_sat(double t, double p);

/*
 * w at relative humidity rh, and rh of air that holds w.  The latter may
 * exceed 1: such air cannot stay as it is.  [ASH-F1] eq. 12, 22.
 */
double dew_air_w(double t, double rh, double p);
double dew_air_rh(double t, double w, double p);
/* The same where rh is counted over liquid water at every t [WMO-8]. */
double dew_air_w_rh_liquid(double t, double rh, double p);
double dew_air_rh_liquid(double t, double w, double p);

/* w at dew point td (frost point below 0.01 degC), and back. */
double dew_air_w_dew(double td, double p);
double dew_air_dew(double w, double p);
/* The same over liquid at every td, as weather services report it [WMO-8]. */
double dew_air_w_dew_liquid(double td, double p);
double dew_air_dew_liquid(double w, double p);
/* The first over ice alone; NaN above 0.01 degC. */
double dew_air_w_frost(double tf, double p);

/*
 * w at dry bulb t and wet bulb tw <= t, and back.  [ASH-F1] eq. 33 (tw >= 0,
 * a wet wick) and 35 (tw < 0, an iced one).
 *
 * Just around 0 degC both wicks have a solution for the same air; dew_air_wet
 * then gives the wet one (0 or above), so that a tw between about -0.8 and 0
 * need not come back from the round trip.  NaN where w is above saturation
 * (1e-9 of it is let pass, for rounding) or tw would be negative humidity.
 */
double dew_air_w_wet(double t, double tw, double p);
double dew_air_wet(double t, double w, double p);

/* Degree of saturation, w / w_sat. */
double dew_air_mu(double t, double w, double p);

/* ---- heat, volume, density ---------------------------------------------- */

/* Enthalpy; w from it at t; t from it at w.  [ASH-F1] eq. 30. */
double dew_air_h(double t, double w);
double dew_air_w_h(double t, double h);
double dew_air_t(double h, double w);

/* Heat capacity at constant pressure, J/(kg K), per dry air: 1006 + 1860 w. */
double dew_air_cp(double w);

/* Volume, m3 per kg of dry air.  [ASH-F1] eq. 26. */
double dew_air_v(double t, double w, double p);

/* Density of the moist air, kg/m3: (1 + w) / v.  [ASH-F1] eq. 11. */
double dew_air_density(double t, double w, double p);

/*
 * Density of dry air at 20 degC, kg/m3: the one by which a whole run turns
 * volume flows (actual m3/s at 20 degC and site pressure) into kg/s.
 */
double dew_air_density_run(double p);

/* ---- t from two others -------------------------------------------------- */

/* t at which air that holds w > 0 has rh (over ice below 0.01 degC). */
double dew_air_t_rh(double rh, double w, double p);
/* t at which air that holds w has wet bulb tw. */
double dew_air_t_wet(double tw, double w, double p);

/* ---- the standard atmosphere -------------------------------------------- */

/* Pressure, Pa, at z, m.  [ASH-F1] eq. 3. */
double dew_air_std_pressure(double z);

/* ---- a whole state from any two ----------------------------------------- */

/* What two may be given: code, name, unit. */
#define DEW_AIR_GIVEN_MAP(X)                                                   \
    X(T, "t", "degC")                                                          \
    X(RH, "rh", "-")                                                           \
    X(W, "w", "kg/kg")                                                         \
    X(DEW, "dew", "degC")                                                      \
    X(WET, "wet", "degC")                                                      \
    X(H, "h", "J/kg")

enum dew_air_given {
#define X(code, name, unit) DEW_AIR_BY_##code,
    DEW_AIR_GIVEN_MAP(X)
#undef X
        DEW_AIR_GIVEN_COUNT
};

/* Everything about one state.  Plain. */
struct dew_air {
    double t;          /* degC                                              */
    double w;          /* kg/kg                                             */
    double p;          /* Pa                                                */
    double rh;         /* -      over ice below 0.01 degC                   */
    double rh_liquid;  /* -      over liquid at every t                     */
    double pv;         /* Pa                                                */
    double dew;        /* degC   frost point below 0.01; NaN for dry air    */
    double dew_liquid; /* degC   as weather services report it              */
    double wet;        /* degC                                              */
    double h;          /* J/kg                                              */
    double v;          /* m3/kg  of dry air                                 */
    double density;    /* kg/m3  of moist air                               */
    double mu;         /* -      degree of saturation                       */
};

/*
 * The state at p that has the two given values; a differs from b.
 * w and dew say the same thing, and wet and h nearly: those pairs fail.
 * Errors: DEW_EAMBIGUOUS for such a pair; DEW_ERANGE with the name of the
 * member at fault in err->path; DEW_ESOLVE when no air from -100 to 90 degC
 * has both.  *out is written only on DEW_OK.
 */
enum dew_status dew_air_solve(const enum dew_air_given given[2],
                              const double value[2], double p,
                              struct dew_air *out, struct dew_error *err);

/* The words and the unit of DEW_AIR_GIVEN_MAP; never NULL. */
const char *dew_air_given_name(enum dew_air_given given);

/* ---- streams ------------------------------------------------------------ */

/* A stream of moist air.  Plain. */
struct dew_stream {
    double t;    /* degC   -100 .. 90                     */
    double w;    /* kg/kg     0 .. w_sat(t, p)            */
    double p;    /* Pa     50e3 .. 110e3                  */
    double flow; /* kg/s      0 ..         of dry air     */
};

/*
 * Two streams mixed without heat.  Where the mix would be above saturation,
 * fog is split off: *water kg/s (may be NULL), and the air left is saturated
 * at the temperature at which the heat closes.  Water in the fog carries
 * 4186 t J/kg as liquid, 2100 t - 329e3 as ice below 0.01 degC (what eq. 33
 * and 35 of [ASH-F1] imply); at 0.01 degC itself it may be part of each.
 * The mix has a's pressure.  All NaN when the pressures differ by more than
 * 1 %, both flows are 0, or a stream is outside its ranges.
 */
struct dew_stream dew_air_mix(const struct dew_stream *a,
                              const struct dew_stream *b, double *water);

/*
 * Apparatus dew point, degC: where the straight line from the entering to the
 * leaving state (in t and w), carried on, first meets saturation.  NaN when
 * it misses, when the air is not cooled, when it gains water, and below
 * 0.01 degC, where a coil ices up.  With no water removed the line meets
 * saturation at the dew point: a coil that cold only begins to be wet.
 */
double dew_air_adp(const struct dew_stream *in, const struct dew_stream *out);

#ifdef __cplusplus
}
#endif
#endif
