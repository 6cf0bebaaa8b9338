/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where ducts outside the envelope lie. */
#include "dew/thermal.h"

static const double outer = 17.0;                   /* W/m2K   h_o [ASH-F18] */
static const double emittance = 0.9, to_sky = 63.0; /* -, W/m2 [ASH-F18] */
static const double heat_of_air = 1206.0;           /* J/(m3 K) at 20 degC */

double dew_house_sol_air(double t_out, double sun, double absorptance)
{
    return t_out + (absorptance * sun - emittance * to_sky) / outer;
}

struct dew_around dew_house_attic(const struct dew_attic *attic)
{
    const double slope = 1.12, bare_deck = 0.30, height = 1.0; /* ours */

    return (struct dew_around){.absorptance = attic->absorptance,
                               .roof = slope /
                                       (1.0 / outer + bare_deck + attic->deck),
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
    double sum = a->roof + a->rooms + a->ground + a->air;
    double roof = dew_house_sol_air(h->t_out, h->sun, a->absorptance);

    if (!(sum > 0.0))
        return h->t_out;
    return h->t_out +
           (a->roof * (roof - h->t_out) + a->rooms * (h->t_in - h->t_out) +
            a->ground * (h->t_ground - h->t_out)) /
               sum;
}
