/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What air holds: humidity ratio, relative humidity, dew point, heat, volume. */
#include "dew/air.h"

#include <math.h>

#include "air/air_step.h"
#include "air/root.h"

/* [ASH-F1] eq. 26: the ratio of gas constants of vapour and air. */
static const double gas_ratio = 1.607858;

static int fits(double t, double p)
{
    return core__within(t, AIR__T_LOW, AIR__T_HIGH) &&
           core__within(p, AIR__P_LOW, AIR__P_HIGH);
}

static int holds(double w, double p)
{
    return w >= 0.0 && isfinite(w) && core__within(p, AIR__P_LOW, AIR__P_HIGH);
}

double dew_air_w_pv(double pv, double p)
{
    if (!(pv >= 0.0 && pv < p) || !core__within(p, AIR__P_LOW, AIR__P_HIGH))
        return NAN;
    return air__w_pv(pv, p);
}

double dew_air_pv(double w, double p)
{
    return holds(w, p) ? air__pv(w, p) : NAN;
}

double dew_air_w_sat(double t, double p)
{
    return dew_air_w_pv(dew_air_pws(t), p);
}

double dew_air_w(double t, double rh, double p)
{
    if (!core__within(rh, 0.0, 1.0))
        return NAN;
    return dew_air_w_pv(rh * dew_air_pws(t), p);
}

double dew_air_rh(double t, double w, double p)
{
    return dew_air_pv(w, p) / dew_air_pws(t);
}

double dew_air_w_rh_liquid(double t, double rh, double p)
{
    if (!core__within(rh, 0.0, 1.0))
        return NAN;
    return dew_air_w_pv(rh * dew_air_pws_liquid(t), p);
}

double dew_air_rh_liquid(double t, double w, double p)
{
    return dew_air_pv(w, p) / dew_air_pws_liquid(t);
}

double dew_air_w_dew(double td, double p)
{
    return dew_air_w_pv(dew_air_pws(td), p);
}

double dew_air_dew(double w, double p)
{
    return dew_air_t_pws(dew_air_pv(w, p));
}

double dew_air_w_dew_liquid(double td, double p)
{
    return dew_air_w_pv(dew_air_pws_liquid(td), p);
}

double dew_air_dew_liquid(double w, double p)
{
    return dew_air_t_pws_liquid(dew_air_pv(w, p));
}

double dew_air_w_frost(double tf, double p)
{
    return dew_air_w_pv(dew_air_pws_ice(tf), p);
}

double dew_air_mu(double t, double w, double p)
{
    return holds(w, p) ? w / dew_air_w_sat(t, p) : NAN;
}

double dew_air_cp(double w)
{
    return w >= 0.0 ? air__cp(w) : NAN;
}

double dew_air_h(double t, double w)
{
    if (!core__within(t, AIR__T_LOW, AIR__T_HIGH) || !(w >= 0.0))
        return NAN;
    return air__h(t, w);
}

double dew_air_w_h(double t, double h)
{
    double w = (h - AIR__CP * t) / air__h_vapour(t);

    return core__within(t, AIR__T_LOW, AIR__T_HIGH) && w >= 0.0 ? w : NAN;
}

double dew_air_t(double h, double w)
{
    double t = (h - DEW_AIR_LATENT * w) / dew_air_cp(w);

    return core__within(t, AIR__T_LOW, AIR__T_HIGH) ? t : NAN;
}

double dew_air_v(double t, double w, double p)
{
    if (!fits(t, p) || !(w >= 0.0))
        return NAN;
    return DEW_AIR_GAS * (t + DEW_AIR_KELVIN) * (1.0 + gas_ratio * w) / p;
}

double dew_air_density(double t, double w, double p)
{
    return (1.0 + w) / dew_air_v(t, w, p);
}

double dew_air_density_run(double p)
{
    return 1.0 / dew_air_v(20.0, 0.0, p);
}

struct air__line air__w_rh(double t, double rh, double p)
{
    struct air__line pv = air__pws(t);

    pv.value *= rh;
    pv.slope *= rh;
    return (struct air__line){air__w_pv(pv.value, p), air__w_slope(pv, p)};
}

double air__t_top(double rh, double p)
{
    /* a millionth short of boiling: w is finite, and above any in use */
    double pws = (1.0 - 1e-6) * p / rh;

    if (!(pws < air__pws_liquid(AIR__T_HIGH).value))
        return AIR__T_HIGH;
    return dew_air_t_pws_liquid(pws);
}

double dew_air_t_rh(double rh, double w, double p)
{
    return core__within(rh, 0.0, 1.0) ? dew_air_t_pws(dew_air_pv(w, p) / rh)
                                      : NAN;
}

/* [ASH-F1] eq. 3 and 4, ICAO standard atmosphere. */
static const double sea_level = 101325.0, per_metre = 2.25577e-5,
                    exponent = 5.2559;
static const double z_low = -5000.0, z_high = 11000.0;

double dew_air_std_pressure(double z)
{
    return core__within(z, z_low, z_high)
               ? sea_level * pow(1.0 - per_metre * z, exponent)
               : NAN;
}
