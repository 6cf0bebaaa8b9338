/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What air holds, without a call, a branch or a loop, so that a loop over
 * houses turns into vector instructions; air.h has its contract, and checks
 * ranges around it.  Private to engine/.
 */
#ifndef DEW_AIR_AIR_STEP_H
#define DEW_AIR_AIR_STEP_H

#include "air/poly.h"
#include "dew/air.h"

/* [ASH-F1] eq. 30, 33 and 35, J/(kg K) and J/kg. */
#define DEW__AIR_CP        1006.0
#define DEW__AIR_CP_VAPOUR 1860.0
#define DEW__AIR_CP_LIQUID 4186.0
#define DEW__AIR_CP_ICE    2100.0
#define DEW__AIR_MELTING   329e3

/* w of vapour at a pressure, and back, [ASH-F1] eq. 20. */
static DEW__INLINE double dew__air_w_pv(double pv, double p)
{
    return DEW_AIR_MASS_RATIO * pv / (p - pv);
}

static DEW__INLINE double dew__air_pv(double w, double p)
{
    return p * (w / (DEW_AIR_MASS_RATIO + w));
}

/* Slope of w where the vapour's pressure has one, and that of pv from 0. */
static DEW__INLINE double dew__air_w_slope(struct dew__line pv, double p)
{
    double dry = p - pv.value;

    return DEW_AIR_MASS_RATIO * p * pv.slope / (dry * dry);
}

static DEW__INLINE double dew__air_per_w(double w, double p)
{
    return p / (DEW_AIR_MASS_RATIO + w);
}

static DEW__INLINE double dew__air_w_sat(double t, double p)
{
    return dew__air_w_pv(dew__poly_pws(t).value, p);
}

/* RH at t of vapour at pv. */
static DEW__INLINE double dew__air_rh_pv(double t, double pv)
{
    return pv / dew__poly_pws(t).value;
}

static DEW__INLINE double dew__air_rh(double t, double w, double p)
{
    return dew__air_rh_pv(t, dew__air_pv(w, p));
}

static DEW__INLINE double dew__air_cp(double w)
{
    return DEW__AIR_CP + DEW__AIR_CP_VAPOUR * w;
}

/* Over that of dry air. */
static DEW__INLINE double dew__air_moist(double w)
{
    return 1.0 + DEW__AIR_CP_VAPOUR / DEW__AIR_CP * w;
}

/* Enthalpy of vapour, and of air. */
static DEW__INLINE double dew__air_h_vapour(double t)
{
    return DEW_AIR_LATENT + DEW__AIR_CP_VAPOUR * t;
}

static DEW__INLINE double dew__air_h(double t, double w)
{
    return DEW__AIR_CP * t + w * dew__air_h_vapour(t);
}

/* Heat of evaporation, liquid and vapour both at t. */
static DEW__INLINE double dew__air_latent(double t)
{
    return DEW_AIR_LATENT - (DEW__AIR_CP_LIQUID - DEW__AIR_CP_VAPOUR) * t;
}

#endif
