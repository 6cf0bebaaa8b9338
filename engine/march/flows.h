/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The named flows of a step, of water and of heat.  Private; see step.h. */
#ifndef DEW_MARCH_FLOWS_H
#define DEW_MARCH_FLOWS_H

#include "march/water.h"

/* ---- the named flows, each from its own equation ------------------------- */

/* What the flows are made of; all of them are straight lines of these, so that
   the weighted mean of two stages gives the flows of the step. */
/* clang-format off */
#define DEW_AT_MAP(X)                                                          \
    X(t_air) X(t_mass) X(w)                                                    \
    X(pws_air)  /* Pa    of the air                                    */      \
    X(p_store)  /* Pa    at the surface of the furnishings             */      \
    X(coil)     /* kg/s  condensed                                     */      \
    X(glass)    /* kg/s  onto the films                                */      \
    X(ground)   /* kg/s  off wet ground                                */      \
    X(heat) X(cool) X(cool_2) X(cool_3) X(dry) X(wet)                          \
    X(fog)      /* kg/s                                                */      \
    X(prescribed)     /* W                                                   */
/* clang-format on */
DEW_LANE_STRUCT(march__at, DEW_AT_MAP);

/* What the coils take out that the rooms feel. */
DEW_LANE double march__onto_coils(const struct march__pieces *p, double w)
{
    double out = CORE__OF(0.0);

    if (p->kinds & MARCH__COOLS)
        out += MARCH__BENT(p, coil, w);
    if (p->kinds & MARCH__COOLS_MORE)
        out += MARCH__BENT(p, coil_2, w) + MARCH__BENT(p, coil_3, w);
    return out;
}

DEW_LANE struct march__at march__at_of(const struct march__now *n,
                                       const struct march__terms *k,
                                       const struct march__pieces *p,
                                       const struct dew_state *x,
                                       const struct march__warm *warm)
{
    struct march__at a;

    a.t_air = warm->t_air;
    a.t_mass = warm->t_mass;
    a.w = x->w;
    a.pws_air = k->pws_air;
    a.p_store = x->w_surface * (k->pws_store * n->lane->per_surface);
    a.coil = march__onto_coils(p, x->w) / (1.0 - n->drive.lost_cool);
    a.glass = p->kinds & MARCH__FILMS
                  ? MARCH__ONTO(p, glass, x->w) + MARCH__ONTO(p, edge, x->w) +
                        MARCH__ONTO(p, corner, x->w)
                  : CORE__OF(0.0);
    a.ground = p->kinds & MARCH__GROUND ? march__off_ground(n, k, x->w)
                                        : CORE__OF(0.0);
    a.heat = warm->duty.heat;
    a.cool = warm->duty.cool;
    a.cool_2 = warm->duty.cool_2;
    a.cool_3 = warm->duty.cool_3;
    a.dry = march__dry_share(n, p->per_rh * x->w);
    a.wet = march__wet_share(n, p->per_rh * x->w);
    a.fog = p->fog;
    a.prescribed = warm->prescribed;
    return a;
}

#define MARCH__SET_SOURCE(name, words) f.name = s->name;
DEW_LANE struct dew_water_flows march__water_flows(const struct march__now *n,
                                                   const struct march__terms *k,
                                                   const struct march__at *a)
{
    const struct march__lane *l = n->lane;
    const struct march__drive *s = &n->drive;
    double gap = n->mid.w - a->w, pv = k->per_w * a->w;
    struct dew_water_flows f;

    DEW_SOURCE_MAP(MARCH__SET_SOURCE)
    f.laundry += l->evap_laundry * (a->pws_air - pv); /* beta A (p_s - p_v) */
    f.plants += l->evap_plants * (a->pws_air - pv);
    f.ground += a->ground;
    f.humidifier = s->wet_rate * a->wet;
    f.leakage = n->blend.leak * gap; /* m (w_o - w) */
    f.windows = l->rho * s->window * gap;
    f.fresh = n->blend.fresh * gap;
    f.recovered = -n->blend.fresh_latent * gap; /* eff_lat m (w - w_o) */
    f.unplanned = n->blend.unplanned * gap;
    f.ductleak = n->blend.ductleak * (s->place_w - a->w);
    f.ductlost = s->lost_cool * a->coil - s->lost_rest * s->reevaporation;
    f.coil = -a->coil;
    f.reevaporation = s->reevaporation;
    f.dehumidifier = -s->dry_rate * a->dry;
    f.glass = -a->glass;
    f.fog = -a->fog;
    f.store = l->rate_surface * (a->p_store - pv); /* beta A (p_sfc - p_v) */
    return f;
}

/* Latent heat that the flows take from the air node, W. */
DEW_LANE double march__latent_air(const struct march__now *n,
                                  const struct dew_water_flows *f)
{
    const struct march__lane *l = n->lane;

    return -DEW_LATENT *
           (l->cool_plants * f->plants + l->cool_laundry * f->laundry +
            l->cool_ground * f->ground +
            (1.0 - n->drive.lost_rest) * f->reevaporation + f->fog);
}

/* And from the surface node: what furnishings and films give up or take. */
DEW_LANE double march__latent_surface(const struct dew_water_flows *f)
{
    return -DEW_LATENT * (f->store + f->glass);
}

DEW_LANE double march__drier_heat(const struct march__now *n,
                                  const struct dew_water_flows *f, double dry)
{
    return n->drive.dry_power * dry - DEW_LATENT * f->dehumidifier -
           DEW_LATENT * n->lane->wet_heat * f->humidifier;
}

/*
 * Heat is booked here, each flow from its own equation, and solved apart: the
 * ledger then vouches for both.  Beside each flow: where it is solved, by the
 * coefficient of march__sources or of solve.h.
 */
DEW_LANE struct dew_heat_flows march__heat_flows(
    const struct march__now *n, const struct march__terms *k,
    const struct march__node *node, const struct dew_water_flows *w,
    const struct march__at *a)
{
    const struct march__lane *l = n->lane;
    const struct march__drive *s = &n->drive;
    const struct march__blend *b = &n->blend;
    double gap = k->cp * (n->mid.t - a->t_air);
    double radiant = (1.0 - l->convective) * (s->bodies + s->gains) + s->solar;
    double all = n->c1.sensible + n->c2.sensible + n->c3.sensible;
    double sensible = a->cool * n->c1.sensible + a->cool_2 * n->c2.sensible +
                      a->cool_3 * n->c3.sensible;
    double cold;
    struct dew_heat_flows f;

    f.bodies = s->bodies;                 /* air_source; the rest as radiant */
    f.gains = s->gains;                   /* the same */
    f.solar = s->solar;                   /* mass_source, surface_source */
    f.dropped = -l->lost_share * radiant; /* what those two are not given */
    /* opaque and earth: mass_source, per_mass; glazing: surface_node */
    f.opaque = l->h_em * (n->mid.t - a->t_mass) + s->sunlit;
    f.glazing =
        l->h_w * (n->mid.t - march__surface_t(node, a->t_air, a->t_mass));
    f.earth = l->h_ground * (s->t_ground - a->t_mass);
    f.sky = -s->sky_opaque - s->sky_glazed; /* mass_source, surface_source */
    f.infiltration = b->leak * gap;         /* air_g */
    f.airing = l->rho * s->window * gap;    /* air_g */
    f.freshair = b->fresh * gap;            /* air_g */
    f.recovery = -b->fresh_sensible * gap;  /* air_g */
    /* air_g, air_source by ductleak */
    f.ductair =
        b->unplanned * gap + b->ductleak * k->cp * (s->place_t - a->t_air);
    f.fans = b->fan_heat + b->preheat; /* air_source */
    /* air_source, heat_full, cool_full */
    f.blowers = s->blower_idle + s->blower_heat * a->heat +
                s->blower_cool * march__ratio(sensible, all);
    f.heating = s->heat_cap * a->heat;         /* heat_full */
    f.cooling = -sensible;                     /* cool_full */
    f.drier = march__drier_heat(n, w, a->dry); /* evap_air */
    /* evap_air, evap_surface, sorb; what they miss is owed, see finish */
    f.evaporation = march__latent_air(n, w) + march__latent_surface(w);
    /* air_g by duct_g; heat_full and cool_full by duct_* and lost_* */
    cold = (all - s->blower_cool) * march__ratio(sensible, all);
    f.ductwall = s->duct_g * (s->place_t - a->t_air) -
                 s->duct_heat * (s->heat_cap + s->blower_heat) * a->heat +
                 s->duct_cool * cold;
    f.ductlost = s->lost_cool * cold - s->lost_rest * s->blower_idle -
                 s->lost_heat * (s->heat_cap + s->blower_heat) * a->heat;
    f.prescribed = a->prescribed; /* march__warm_stage */
    return f;
}

#endif
