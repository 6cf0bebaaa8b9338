/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Air through the envelope: from what a blower door says to the flow of any
 * hour, with fans or without.  Pure functions; nothing here allocates.
 *
 *     c, n      m3/(s Pa^n), -   Q = c dp^n
 *     area      m2               of an orifice that would pass the same flow
 *     dt        K                indoors minus outdoors, either sign
 *     wind      m/s    0 .. 80   at the weather station
 *     supply, exhaust  m3/s >= 0 gross flows of all fans at the envelope
 *
 * An argument outside its range gives NaN, never a clamped value.
 */
#ifndef DEW_LEAKAGE_H
#define DEW_LEAKAGE_H

#include "dew/house.h"
#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The forms in which airtightness is told. */
enum dew_airtight_form {
    DEW_AIRTIGHT_ACH50,  /* 1/h     air changes at 50 Pa; needs volume      */
    DEW_AIRTIGHT_FLOW50, /* m3/s    at 50 Pa (cfm50, m3/h at 50 Pa)         */
    DEW_AIRTIGHT_AREA4,  /* m2      effective leakage area: 4 Pa, C_D 1     */
    DEW_AIRTIGHT_AREA10, /* m2      equivalent leakage area: 10 Pa, C_D 0.611 */
    DEW_AIRTIGHT_C       /* m3/(s Pa^n)                                     */
};

struct dew_airtight {
    enum dew_airtight_form form;
    double value;   /* as form says                  > 0                    */
    double n;       /* -       0.5 .. 1              0.65 is usual, [ASH-F16] */
    double volume;  /* m3      20 .. 5000            read for ACH50 only    */
    double density; /* kg/m3   0.5 .. 1.6            of the air passing, read
                                                     for areas only         */
};

/*
 * Flow coefficient c of *in.
 *
 * Equations  [ASH-F16] eqs 40 and 41, turned to c (its eqs 42 - 45).
 * Errors     DEW_ERANGE with the member's name in err->path.
 * Limits     a blower door taken down to 4 Pa can err by 40 % [ASH-F16].
 * Checked    test_leakage.c, area_rows and form_rows.
 */
enum dew_status dew_house_airtight_c(const struct dew_airtight *in, double *c,
                                     struct dew_error *err);

/* Flow at dp, m3/s; dp >= 0. */
double dew_house_flow_at(double c, double n, double dp);

/* Leakage area, m2, of c and n at dp (Pa) and discharge coefficient cd, in
   air of the given density.  [ASH-F16] eq. 41. */
double dew_house_area_at(double c, double n, double dp, double cd,
                         double density);
double dew_house_area4(double c, double n, double density);

/* How the house stands in the wind. */
struct dew_siting {
    double storeys; /* -   1 .. 3   between whole storeys: straight line    */
    int shelter;    /* 1 no obstacle, 2 isolated rural, 3 buildings across the
                       street, 4 urban large lots, 5 immediately adjacent   */
    int flue;       /* 1: a flue open to the rooms; enhanced model only     */
    int crawlspace; /* 1: over a crawl space; 0: slab or basement           */
};

/*
 * Natural infiltration by the basic (Sherman and Grimsrud) model.
 *
 *     density  kg/m3   for the area at 4 Pa
 *
 * Equation   [ASH-F16] eq. 48, tables 4 - 6.
 * Errors     DEW_ERANGE with the member's name in err->path.
 * Checked    test_leakage.c, basic_rows: the chapter's examples 2 - 4.
 */
enum dew_status dew_house_leakage_basic(double c, double n, double density,
                                        const struct dew_siting *siting,
                                        struct dew_leakage *out,
                                        struct dew_error *err);

/*
 * Natural infiltration by the enhanced model (Walker and Wilson).
 *
 * Equations  [ASH-F16] eqs 47, 49, 50, tables 7 - 9.
 * Limits     tables drawn for n = 0.67, a 15 cm flue 2 m above the ceiling,
 *            half the leakage in the walls; "typically 10 %" [ASH-F16].
 * Errors     as above.
 * Checked    test_leakage.c, enhanced_rows: the chapter's examples 5 - 7.
 */
enum dew_status dew_house_leakage_enhanced(double c, double n,
                                           const struct dew_siting *siting,
                                           struct dew_leakage *out,
                                           struct dew_error *err);

/* The flow of nature given outright, m3/s; c and n still give pressures. */
struct dew_leakage dew_house_leakage_given(double c, double n, double flow);

/*
 * Natural infiltration, m3/s: stack and wind in quadrature, and the constant.
 * dt of either sign; NaN for a wind below 0.  Wholly still air counts as 1e-6
 * K and m/s.  engine/house/leakage_step.h has the formula, for the march too.
 */
double dew_house_leakage_natural(const struct dew_leakage *leakage, double dt,
                                 double wind);

/*
 * Total air exchange with fans running, m3/s: balanced part plus unbalanced
 * part and nature in quadrature, [ASH-F16] eq. 51.
 *
 * Limits     weigh whole fan states by their duty, never flows before this.
 *            Against the exact balance of two equal leaks it runs from 10 %
 *            low to 18 % high where fan and nature are alike, and is right at
 *            both ends.
 * Checked    test_leakage.c, fan_rows and the exact balance.
 */
double dew_house_leakage_total(double natural, double supply, double exhaust);

/*
 * Of that, what comes in through the leaks, m3/s: total - supply, formed
 * without cancellation.  Cross leakage inside a core changes supply and
 * exhaust alike, so gross and net flows give the same.  The march's own, from
 * engine/house/leakage_step.h.
 */
double dew_house_leakage_in(double natural, double supply, double exhaust);

/*
 * House over outdoors, Pa, that the imbalance makes without wind and stack:
 * sign(supply - exhaust) (|supply - exhaust| / c)^(1/n).  Negative when more
 * is drawn out.  Never a proof of safety.
 */
double dew_house_pressure(const struct dew_leakage *leakage, double supply,
                          double exhaust);

/* 1, 1.18, 1.32, 1.44, 1.55 for 1, 1.5 .. 3 storeys: storeys^0.4.  [NREL-SWS] */
double dew_house_storey_factor(double storeys);

/*
 * Infiltration credit of [ASH-622], m3/s: 0.052 wsf factor flow50 [NREL-SWS].
 *
 *     wsf     -   0 .. 2   weather and shielding factor of the place
 *     factor  -            dew_house_storey_factor
 */
double dew_house_credit_flow50(double flow50, double factor, double wsf);

/* ---- windows opened by habit in mild weather ----------------------------- */

/* For every hour.  A plain model of ours: it knows no rain, no noise and no
   open door, and no study that we know says what people in cooled houses do. */

/*
 * Running mean outdoors after hours (>= 0) more at t: a memory of 0.8 a day,
 * [EN16798], from memory, taken without steps at midnight.  A NaN before
 * starts it at t.
 */
double dew_house_running_mean(double before, double t, double hours);

/*
 * Share of full opening, 0 .. 1: 0 up to mild_low, 1 from mild_high, between
 * them 3x^2 - 2x^3; 0 while the house is cooled, and where flow is 0.
 */
double dew_house_window_share(const struct dew_windows *windows,
                              double running_mean, int cooling);

/*
 * 1 where one who looks at the dew point leaves windows open: that outdoors
 * (w_out, kg/kg) is below that of the air indoors (w) and below that of the
 * limit rh (0 .. 1) at the indoor temperature t (degC), at p (Pa).  Outdoor
 * air then takes water out of the house, and brings none.
 */
int dew_house_window_dries(double w_out, double w, double t, double rh,
                           double p);

#ifdef __cplusplus
}
#endif
#endif
