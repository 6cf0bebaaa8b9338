/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where ducts outside the envelope lie. */
#include "dew/thermal.h"

#include "house/around_step.h"

static const double heat_of_air = 1206.0; /* J/(m3 K) at 20 degC */

double dew_house_sol_air(double t_out, double sun, double absorptance)
{
    return house__sol_air(t_out, sun, absorptance);
}

struct dew_around dew_house_attic(const struct dew_attic *attic)
{
    const double slope = 1.12, bare_deck = 0.30, height = 1.0; /* ours */

    return (struct dew_around){
        .absorptance = attic->absorptance,
        .roof = slope / (1.0 / HOUSE__OUTER + bare_deck + attic->deck),
        .rooms = attic->ceiling,
        .air = heat_of_air * height * attic->air};
}

struct dew_around dew_house_crawl(double air)
{
    const double height = 0.8, above = 1.0, earth = 1.0; /* our guess */

    return (struct dew_around){
        .rooms = above, .ground = earth, .air = heat_of_air * height * air};
}

double dew_house_around_t(const struct dew_around *a,
                          const struct dew_around_hour *h)
{
    return house__around_t(a, h);
}
