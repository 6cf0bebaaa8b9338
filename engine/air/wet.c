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
                                   DEW__AIR_CP_LIQUID - DEW__AIR_CP_VAPOUR,
                                   DEW__AIR_CP_LIQUID}; /* eq. 33 */
static const struct wick iced = {DEW_AIR_LATENT + DEW__AIR_MELTING,
                                 DEW__AIR_CP_ICE - DEW__AIR_CP_VAPOUR,
                                 DEW__AIR_CP_ICE}; /* eq. 35 */

/* kg/kg below 0 that rounding leaves where the air is dry. */
static const double dry_rounding = 1e-12;

struct psychrometer {
    double t, w, p;
    const struct wick *wick;
};

/* w by the wet bulb less w, and its slope in tw. */
static struct dew__line gap(double tw, const void *in)
{
    const struct psychrometer *s = in;
    struct dew__line ws = dew__w_rh(tw, 1.0, s->p), y;
    double heat = s->wick->latent - s->wick->fall * tw;
    double top = heat * ws.value - DEW__AIR_CP * (s->t - tw);
    double bottom =
        s->wick->latent + DEW__AIR_CP_VAPOUR * s->t - s->wick->c_water * tw;

    y.value = top / bottom - s->w;
    y.slope = (heat * ws.slope - s->wick->fall * ws.value + DEW__AIR_CP +
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

    if (!dew__within(t, DEW__T_LOW, DEW__T_HIGH) ||
        !dew__within(tw, DEW__T_LOW, t) || isnan(dew_air_w_sat(tw, p)))
        return NAN;
    w = gap(tw, &s).value;
    return w >= -dry_rounding ? fmax(w, 0.0) : NAN;
}

/* Whether w is at most saturation; above the boiling point any w is. */
static int below_saturation(double t, double w, double p)
{
    return dew_air_rh(t, w, p) <= 1.0 + DEW__ROUNDING;
}

double dew_air_wet(double t, double w, double p)
{
    struct psychrometer s = {t, w, p, &wetted};
    double top = fmin(t, dew__t_top(1.0, p));

    if (!below_saturation(t, w, p))
        return NAN;
    if (dew_air_rh(t, w, p) >= 1.0)
        return t;
    if (t >= 0.0 && gap(0.0, &s).value <= 0.0)
        return dew__root(gap, &s, 0.0, top);
    s.wick = &iced;
    return dew__root(gap, &s, DEW__T_LOW, fmin(t, 0.0));
}

double dew_air_t_wet(double tw, double w, double p)
{
    const struct wick *k = wick_at(tw);
    double ws = dew_air_w_sat(tw, p), t;

    if (!(w >= 0.0 && w <= ws * (1.0 + DEW__ROUNDING)))
        return NAN;
    t = ((k->latent - k->fall * tw) * ws + DEW__AIR_CP * tw -
         w * (k->latent - k->c_water * tw)) /
        dew__air_cp(w);
    return dew__within(t, DEW__T_LOW, DEW__T_HIGH) ? t : NAN;
}
