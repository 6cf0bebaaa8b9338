/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What air holds, for one house or several (core/many.h); air.h has its
 * contract, and checks ranges around it.  Private to engine/.
 */
#ifndef DEW_AIR_AIR_STEP_H
#define DEW_AIR_AIR_STEP_H

#include "air/poly.h"
#include "dew/air.h"

/* [ASH-F1] eq. 30, 33 and 35, J/(kg K) and J/kg. */
#define AIR__CP        1006.0
#define AIR__CP_VAPOUR 1860.0
#define AIR__CP_LIQUID 4186.0
#define AIR__CP_ICE    2100.0
#define AIR__MELTING   329e3

/* w of vapour at a pressure, and back, [ASH-F1] eq. 20. */
static CORE__INLINE double air__w_pv(double pv, double p)
{
    return DEW_AIR_MASS_RATIO * pv / (p - pv);
}

static CORE__INLINE double air__pv(double w, double p)
{
    return p * (w / (DEW_AIR_MASS_RATIO + w));
}

/* Slope of w where the vapour's pressure has one, and that of pv from 0. */
static CORE__INLINE double air__w_slope(struct air__line pv, double p)
{
    double dry = p - pv.value;

    return DEW_AIR_MASS_RATIO * p * pv.slope / (dry * dry);
}

static CORE__INLINE double air__per_w(double w, double p)
{
    return p / (DEW_AIR_MASS_RATIO + w);
}

static CORE__INLINE double air__w_sat(double t, double p)
{
    return air__w_pv(air__poly_pws(t).value, p);
}

/*
 * Dew or frost point of vapour at a pressure, by poly.h's curve: a start from
 * the Magnus form of [WMO-8] (0.3 K over -60 .. 60 degC, regression), then two
 * steps of Newton on ln pws, ln x as 2 (x - 1) / (x + 1): 1e-8 K.
 */
static CORE__INLINE double air__dew_step(double t, double pv)
{
    struct air__line s = air__poly_pws(t);

    return core__hold(t - 2.0 * (s.value - pv) / (s.value + pv) * s.value /
                              s.slope,
                      AIR__POLY_LOW, AIR__POLY_HIGH);
}

static CORE__INLINE double air__dew(double w, double p)
{
    const core__plain triple = 611.2, least = 1.0; /* Pa */
    double pv = core__max(air__pv(w, p), CORE__OF(least));
    double y = AIR__LN_2 * air__poly_log2(pv / triple);
    core__truth ice = y < 0.0;
    double t = core__pick(ice, 272.62, 243.12) * y /
               (core__pick(ice, 22.46, 17.62) - y);

    t = air__dew_step(core__hold(t, AIR__POLY_LOW, AIR__POLY_HIGH), pv);
    return air__dew_step(t, pv);
}

/* RH at t of vapour at pv. */
static CORE__INLINE double air__rh_pv(double t, double pv)
{
    return pv / air__poly_pws(t).value;
}

static CORE__INLINE double air__rh(double t, double w, double p)
{
    return air__rh_pv(t, air__pv(w, p));
}

static CORE__INLINE double air__cp(double w)
{
    return AIR__CP + AIR__CP_VAPOUR * w;
}

/* Over that of dry air. */
static CORE__INLINE double air__moist(double w)
{
    return 1.0 + AIR__CP_VAPOUR / AIR__CP * w;
}

/* Enthalpy of vapour, and of air. */
static CORE__INLINE double air__h_vapour(double t)
{
    return DEW_AIR_LATENT + AIR__CP_VAPOUR * t;
}

static CORE__INLINE double air__h(double t, double w)
{
    return AIR__CP * t + w * air__h_vapour(t);
}

/* Heat of evaporation, liquid and vapour both at t. */
static CORE__INLINE double air__latent(double t)
{
    return DEW_AIR_LATENT - (AIR__CP_LIQUID - AIR__CP_VAPOUR) * t;
}

#endif
