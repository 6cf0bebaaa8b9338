/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/surface.h"

#include <math.h>

#include "air/air_step.h"
#include "house/surface_step.h"

double dew_house_factor(double u, double film)
{
    double factor = 1.0 - u * film;

    return core__within(factor, 0.0, 1.0) ? factor : NAN;
}

double dew_house_surface_t(double factor, double ti, double te)
{
    return core__within(factor, 0.0, 1.0) ? house__surface_t(factor, ti, te)
                                          : NAN;
}

double dew_house_surface_rh(double factor, double ti, double te, double rh)
{
    if (!core__within(rh, 0.0, 1.0))
        return NAN;
    return air__rh_pv(dew_house_surface_t(factor, ti, te),
                      rh * dew_air_pws(ti));
}

double dew_house_wets_at(double factor, double ti, double te)
{
    return dew_air_pws(dew_house_surface_t(factor, ti, te)) / dew_air_pws(ti);
}

double dew_house_winter_limit(double te)
{
    /* [MN-DPS]: degF at and above which the limit holds */
    static const double row[][2] = {{20, 0.40},  {10, 0.35},
                                    {0, 0.30},   {-10, 0.25},
                                    {-20, 0.20}, {-INFINITY, 0.15}};
    double f = te * 1.8 + 32.0;

    if (!(f <= 40.0))
        return NAN;
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        if (f >= row[i][0])
            return row[i][1];
    return NAN;
}

struct dew_surface dew_house_surface(enum dew_surface_kind kind, double factor,
                                     double area)
{
    double film = kind == DEW_CORNER ? 0.2 : 0.05; /* kg/m2 */

    return (struct dew_surface){
        .factor = factor, .area = area, .film_max = film * area};
}
