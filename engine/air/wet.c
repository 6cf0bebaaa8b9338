/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The thermodynamic wet bulb, both ways. */
#include "dew/air.h"

#include <math.h>

#include "air/air_step.h"
#include "air/root.h"

/* A wick: heat of change at 0 degC, J/kg; its fall, and heat, with tw. */
struct wick {
    double latent, fall, c_water;
};

static const struct wick wetted = {DEW_AIR_LATENT,
                                   AIR__CP_LIQUID - AIR__CP_VAPOUR,
                                   AIR__CP_LIQUID}; /* eq. 33 */
static const struct wick iced = {DEW_AIR_LATENT + AIR__MELTING,
                                 AIR__CP_ICE - AIR__CP_VAPOUR,
                                 AIR__CP_ICE}; /* eq. 35 */

/* kg/kg below 0 that rounding leaves where the air is dry. */
static const double dry_rounding = 1e-12;

struct psychrometer {
    double t, w, p;
    const struct wick *wick;
};

/* w by the wet bulb less w, and its slope in tw. */
static struct air__line gap(double tw, const void *in)
{
    const struct psychrometer *s = in;
    struct air__line ws = air__w_rh(tw, 1.0, s->p), y;
    double heat = s->wick->latent - s->wick->fall * tw;
    double top = heat * ws.value - AIR__CP * (s->t - tw);
    double bottom =
        s->wick->latent + AIR__CP_VAPOUR * s->t - s->wick->c_water * tw;

    y.value = top / bottom - s->w;
    y.slope = (heat * ws.slope - s->wick->fall * ws.value + AIR__CP +
               s->wick->c_water * (top / bottom)) /
              bottom;
    return y;
}

static const struct wick *wick_at(double tw)
{
    return tw < 0.0 ? &iced : &wetted;
}

double dew_air_w_wet(double t, double tw, double p)
{
    struct psychrometer s = {t, 0.0, p, wick_at(tw)};
    double w;

    if (!core__within(t, AIR__T_LOW, AIR__T_HIGH) ||
        !core__within(tw, AIR__T_LOW, t) || isnan(dew_air_w_sat(tw, p)))
        return NAN;
    w = gap(tw, &s).value;
    return w >= -dry_rounding ? fmax(w, 0.0) : NAN;
}

/* Whether w is at most saturation; above the boiling point any w is. */
static int below_saturation(double t, double w, double p)
{
    return dew_air_rh(t, w, p) <= 1.0 + AIR__ROUNDING;
}

double dew_air_wet(double t, double w, double p)
{
    struct psychrometer s = {t, w, p, &wetted};
    double top = fmin(t, air__t_top(1.0, p));

    if (!below_saturation(t, w, p))
        return NAN;
    if (dew_air_rh(t, w, p) >= 1.0)
        return t;
    if (t >= 0.0 && gap(0.0, &s).value <= 0.0)
        return air__root(gap, &s, 0.0, top);
    s.wick = &iced;
    return air__root(gap, &s, AIR__T_LOW, fmin(t, 0.0));
}

double dew_air_t_wet(double tw, double w, double p)
{
    const struct wick *k = wick_at(tw);
    double ws = dew_air_w_sat(tw, p), t;

    if (!(w >= 0.0 && w <= ws * (1.0 + AIR__ROUNDING)))
        return NAN;
    t = ((k->latent - k->fall * tw) * ws + AIR__CP * tw -
         w * (k->latent - k->c_water * tw)) /
        air__cp(w);
    return core__within(t, AIR__T_LOW, AIR__T_HIGH) ? t : NAN;
}
