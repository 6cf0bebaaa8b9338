/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Control, frost, dryer at a state: inline, by choices and not by branches,
 * so that a loop over houses turns into vector instructions.  Contracts in
 * plant.h and dryer.h.  Private to engine/.
 */
#ifndef DEW_PLANT_CONTROL_STEP_H
#define DEW_PLANT_CONTROL_STEP_H

#include "air/poly.h"
#include "dew/plant.h"

static CORE__INLINE double plant__ramp(double x, double low, double width)
{
    double share = (x - low) / core__pick(width > 0.0, width, 1.0);

    share = core__pick(width > 0.0, share, core__pick(x > low, 1.0, 0.0));
    return core__hold(share, 0.0, 1.0);
}

static CORE__INLINE double plant__boost(const struct dew_control *c, double rh)
{
    double share = plant__ramp(rh, c->boost_rh, c->boost_band);

    return core__pick(c->boost_rh > 0.0, share, 0.0);
}

/* Width over which a lockout comes in, kg/kg; ours, a tenth of a degree of
   dew point and more, so that the step's size does not show. */
#define PLANT__LOCKOUT_WIDTH 0.0002

static CORE__INLINE double plant__lockout(const struct dew_control *c,
                                          double w_out, double w_in)
{
    const core__plain half = 0.5 * PLANT__LOCKOUT_WIDTH;
    const double width = CORE__OF(2.0 * half);
    double wet = plant__ramp(w_out, c->lockout_w - half, width);
    double more = plant__ramp(w_out - w_in, c->lockout_excess - half, width);
    core__truth asks_more =
        c->lockout_excess == c->lockout_excess; /* not NaN */

    more = core__pick(asks_more, more, 1.0);
    wet = core__pick(c->lockout_w > 0.0, wet * more, 0.0);
    return 1.0 - wet * (1.0 - c->lockout_least);
}

static CORE__INLINE double plant__bypass(const struct dew_control *c,
                                         double t_out, double t_in)
{
    const double width = CORE__OF(0.5); /* K; ours */
    double share = plant__ramp(t_out, c->bypass_low, width) *
                   plant__ramp(t_in, c->bypass_indoor, width) *
                   plant__ramp(t_in - t_out, CORE__OF(0.0), width);

    return core__pick((c->bypass_low == c->bypass_low) & /* not NaN */
                          (c->bypass_indoor == c->bypass_indoor),
                      share, 0.0);
}

/* Of a control that has a target. */
static CORE__INLINE double plant__winter_rh(const struct dew_control *c,
                                            double t_out)
{
    const double cold = CORE__OF(20.0); /* K below 0 degC: the second's */

    return c->winter_rh[0] + (c->winter_rh[1] - c->winter_rh[0]) *
                                 plant__ramp(-t_out, CORE__OF(0.0), cold);
}

/*
 * A humidistat's band as a straight line: a dryer's share rises from 0 at end,
 * a humidifier's falls to 0 there.  Of a device that is absent: one of width 1
 * that the air never comes into.
 */
struct plant__band {
    double end, width, per; /* RH, RH, 1 / RH */
};

static CORE__INLINE struct plant__band plant__dry_band(
    const struct dew_dryer *d)
{
    double width = core__pick(d->rate > 0.0, d->band, 1.0);
    double end = core__pick(d->rate > 0.0, d->set - 0.5 * d->band, 2.0);

    return (struct plant__band){end, width, 1.0 / width};
}

static CORE__INLINE struct plant__band plant__wet_band(
    const struct dew_humidifier *h)
{
    double width = core__pick(h->rate > 0.0, h->band, 1.0);
    double end = core__pick(h->rate > 0.0, h->set + 0.5 * h->band, -1.0);

    return (struct plant__band){end, width, 1.0 / width};
}

static CORE__INLINE double plant__dry_share(double rh, double end, double per)
{
    return core__share((rh - end) * per);
}

static CORE__INLINE double plant__wet_share(double rh, double end, double per)
{
    return core__share((end - rh) * per);
}

/* Share of time lost to defrosting. */
static CORE__INLINE double plant__frost(const struct dew_frost_rule *r,
                                        double t_out, double dew)
{
    const double fade = CORE__OF(2.0); /* K of dew point; ours */
    double depth = plant__ramp(-t_out, -r->start, r->start - r->deep);
    double share = r->share + (r->share_deep - r->share) * depth;
    int loses = r->strategy == DEW_FROST_RECIRCULATE ||
                r->strategy == DEW_FROST_EXHAUST_ONLY;

    share *= plant__ramp(dew, r->dry_dew, fade);
    return loses ? core__pick(t_out < r->start, share, 0.0) : CORE__OF(0.0);
}

/* [NREL-52791]; t in degC, r in percent. */
struct plant__fit {
    core__plain a, b, c, d, e, f;
};

static CORE__INLINE double plant__fit(struct plant__fit k, double t, double r)
{
    return k.a + (k.b + k.c * t) * t + (k.d + k.e * r + k.f * t) * r;
}

static CORE__INLINE double plant__removal(double t, double rh)
{
    const struct plant__fit k = {-1.162525707, 0.02271469,    -0.000113208,
                                 0.021110538,  -0.0000693034, 0.000378843};

    return plant__fit(k, t, 100.0 * rh);
}

static CORE__INLINE double plant__efficiency(double t, double rh)
{
    const struct plant__fit k = {-1.902154518, 0.063466565,  -0.000622839,
                                 0.039540407,  -0.000125637, -0.000176722};

    return plant__fit(k, t, 100.0 * rh);
}

/* Ends of the fit, and what it is held above: below a twentieth of the rating
   it tells nothing any more. */
#define PLANT__DRYER_T_LOW   15.0
#define PLANT__DRYER_T_HIGH  32.0
#define PLANT__DRYER_RH_LOW  0.30
#define PLANT__DRYER_RH_HIGH 0.90
#define PLANT__DRYER_LEAST   0.05

/*
 * Rate and power of a dryer at t and rh as multiples of those at its rating
 * point; by_removal and by_efficiency are the fits there, inverted.
 */
struct plant__dryer {
    double rate, power, held;
};

static CORE__INLINE struct plant__dryer plant__dryer(double t, double rh,
                                                     double by_removal,
                                                     double by_efficiency)
{
    struct plant__dryer o;
    double th = core__pick(t < PLANT__DRYER_T_LOW, PLANT__DRYER_T_LOW, t);
    double rhh = core__pick(rh < PLANT__DRYER_RH_LOW, PLANT__DRYER_RH_LOW, rh);
    double removal, efficiency;

    th = core__pick(th > PLANT__DRYER_T_HIGH, PLANT__DRYER_T_HIGH, th);
    rhh = core__pick(rhh > PLANT__DRYER_RH_HIGH, PLANT__DRYER_RH_HIGH, rhh);
    removal = plant__removal(th, rhh) * by_removal;
    efficiency = plant__efficiency(th, rhh) * by_efficiency;
    o.held =
        core__pick((th == t) & (rhh == rh) & (removal >= PLANT__DRYER_LEAST) &
                       (efficiency >= PLANT__DRYER_LEAST),
                   0.0, 1.0);
    removal =
        core__pick(removal < PLANT__DRYER_LEAST, PLANT__DRYER_LEAST, removal);
    efficiency = core__pick(efficiency < PLANT__DRYER_LEAST, PLANT__DRYER_LEAST,
                            efficiency);
    o.power = removal / efficiency;
    o.power =
        core__pick(o.power > 1.25, 1.25, o.power); /* dry corner of the fit */
    o.rate = removal;
    return o;
}

/* The same of a machine, in its own units; [DH-AIR] for its air, 2.75 cfm for
   each pint a day, and its part load. */
static CORE__INLINE double plant__dryer_air(const struct dew_dryer *d)
{
    const core__plain day = 86400.0, pint = 0.473176473, /* s, kg as litres */
        cfm = 0.3048 * 0.3048 * 0.3048 / 60.0;           /* m3/s */

    return d->rate * (2.75 * cfm * day / pint);
}

static CORE__INLINE double plant__dryer_outdoor(const struct dew_dryer *d)
{
    double air = plant__dryer_air(d);
    core__truth moves = air > 0.0;

    return core__pick(
        moves,
        core__min(d->outdoor / core__pick(moves, air, 1.0), CORE__OF(1.0)),
        0.0);
}

static CORE__INLINE double plant__dryer_part_load(double plr)
{
    return 0.90 + 0.10 * plr;
}

/* Where it rests: the march asks it of air within 0 .. 45 degC only. */
static CORE__INLINE core__truth plant__dryer_works(double t)
{
    return (t >= 0.0) & (t <= 45.0);
}

/* Steam from 15 degC mains water to 100 degC vapour, 2676e3 - 63e3 J/kg. */
static CORE__INLINE double plant__humidifier_power(
    const struct dew_humidifier *h, double share)
{
    double steam = share * h->rate * 2613e3;

    return steam * (1.0 - h->heat);
}

#endif
