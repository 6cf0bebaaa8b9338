/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/sources.h"

#include <math.h>
#include <stddef.h>

#include "dew/air.h"
#include "house/co2_step.h"

double dew_house_basal(enum dew_sex sex, double age, double mass)
{
    /* clang-format off */
    static const struct {
        double from, slope[2], base[2]; /* female, male; MJ/day */
    } rows[] = {
        {60.0, {0.038, 0.049}, {2.755, 2.459}}, /* [SCHO85] */
        {30.0, {0.034, 0.048}, {3.538, 3.653}},
        {18.0, {0.062, 0.063}, {2.036, 2.896}},
        {10.0, {0.056, 0.074}, {2.898, 2.754}},
        { 3.0, {0.085, 0.095}, {2.033, 2.110}},
    };
    /* clang-format on */
    if (!(mass > 0.0) || !core__within(age, 3.0, 120.0) ||
        (unsigned)sex > DEW_MALE)
        return NAN;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (age >= rows[i].from)
            return rows[i].slope[sex] * mass + rows[i].base[sex];
    return NAN;
}

double dew_house_co2(double basal, double met, double t, double p)
{
    const double quotient = 0.85; /* [PJ17] */

    if (!(basal > 0.0) || !core__within(met, 0.7, 10.0) ||
        !core__within(t, -20.0, 60.0) || !core__within(p, 50e3, 110e3))
        return NAN;
    return 1e-3 * quotient * basal * met * (t + DEW_AIR_KELVIN) / (p / 1e3) *
           0.000211;
}

double dew_house_co2_adult(double met)
{
    double man = dew_house_basal(DEW_MALE, 25.0, 84.9);
    double woman = dew_house_basal(DEW_FEMALE, 25.0, 71.9);

    return dew_house_co2(0.5 * (man + woman), met, 20.0, 101325.0);
}

double dew_house_co2_rise(double generation, double flow)
{
    return flow > 0.0 ? 1e6 * generation / flow : NAN;
}

double dew_house_co2_step(const struct dew_co2_room *room, double start,
                          double time)
{
    if (!(room->volume > 0.0 && room->flow >= 0.0 && time > 0.0))
        return NAN;
    return house__co2_step(room, start, time);
}
