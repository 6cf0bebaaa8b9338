/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saturation pressure over ice and over liquid water, and its inverse. */
#include "air/root.h"
#include "dew/air.h"

#include <math.h>

/* [HW83] by [ASH-F1] eq. 5: ln pws over ice and its slope; T in K. */
static struct air__line ln_ice(double T)
{
    static const double c[] = {-5.6745359e3, 6.3925247,    -9.6778430e-3,
                               6.2215701e-7, 2.0747825e-9, -9.4840240e-13,
                               4.1635019};
    struct air__line y;

    y.value = c[0] / T + c[1] +
              T * (c[2] + T * (c[3] + T * (c[4] + T * c[5]))) + c[6] * log(T);
    y.slope = (c[6] - c[0] / T) / T + c[2] +
              T * (2 * c[3] + T * (3 * c[4] + T * 4 * c[5]));
    return y;
}

/* [HW83] by [ASH-F1] eq. 6: the same over liquid water. */
static struct air__line ln_liquid(double T)
{
    static const double c[] = {-5.8002206e3, 1.3914993,     -4.8640239e-2,
                               4.1764768e-5, -1.4452093e-8, 6.5459673};
    struct air__line y;

    y.value =
        c[0] / T + c[1] + T * (c[2] + T * (c[3] + T * c[4])) + c[5] * log(T);
    y.slope = (c[5] - c[0] / T) / T + c[2] + T * (2 * c[3] + T * 3 * c[4]);
    return y;
}

static struct air__line from_ln(struct air__line ln)
{
    struct air__line y;

    y.value = exp(ln.value);
    y.slope = y.value * ln.slope;
    return y;
}

struct air__line air__pws_liquid(double t)
{
    return from_ln(ln_liquid(t + DEW_AIR_KELVIN));
}

struct air__line air__pws_ice(double t)
{
    return from_ln(ln_ice(t + DEW_AIR_KELVIN));
}

struct air__line air__pws(double t)
{
    return t < DEW_AIR_TRIPLE ? air__pws_ice(t) : air__pws_liquid(t);
}

double dew_air_pws(double t)
{
    return core__within(t, AIR__T_LOW, AIR__T_HIGH) ? air__pws(t).value : NAN;
}

double dew_air_pws_liquid(double t)
{
    return core__within(t, AIR__T_LOW, AIR__T_HIGH) ? air__pws_liquid(t).value
                                                    : NAN;
}

double dew_air_pws_ice(double t)
{
    return core__within(t, AIR__T_LOW, DEW_AIR_TRIPLE) ? air__pws_ice(t).value
                                                       : NAN;
}

/* ln pws is nearly straight in t, so its zero is found in few steps. */
static struct air__line liquid_gap(double t, const void *ln_pv)
{
    struct air__line y = ln_liquid(t + DEW_AIR_KELVIN);

    y.value -= *(const double *)ln_pv;
    return y;
}

static struct air__line ice_gap(double t, const void *ln_pv)
{
    struct air__line y = ln_ice(t + DEW_AIR_KELVIN);

    y.value -= *(const double *)ln_pv;
    return y;
}

double dew_air_t_pws_liquid(double pv)
{
    double ln_pv = pv > 0.0 ? log(pv) : NAN;

    return air__root(liquid_gap, &ln_pv, AIR__T_LOW, AIR__T_HIGH);
}

double dew_air_t_pws_ice(double pv)
{
    double ln_pv = pv > 0.0 ? log(pv) : NAN;

    return air__root(ice_gap, &ln_pv, AIR__T_LOW, DEW_AIR_TRIPLE);
}

double dew_air_t_pws(double pv)
{
    if (pv >= air__pws_liquid(DEW_AIR_TRIPLE).value)
        return dew_air_t_pws_liquid(pv);
    /* the branches miss each other by 1 mPa at the triple point */
    if (pv >= air__pws_ice(DEW_AIR_TRIPLE).value)
        return DEW_AIR_TRIPLE;
    return dew_air_t_pws_ice(pv);
}
