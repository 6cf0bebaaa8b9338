/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The cooling coil at a state, for one house or several (core/many.h); coil.h
 * has its contract.  Private to engine/.
 *
 * Wet bulb and apparatus dew point are the roots of smooth, convex, rising
 * functions; a quartic in enthalpy starts within 0.05 K at sea level (2 K at
 * 80 kPa), and two Newton steps bring that below 1e-4 K (2e-3 K).  How far off
 * the quartic was changes little from step to step: who hands that on needs
 * one Newton step alone, and is exact from the second call on.
 */
#ifndef DEW_PLANT_COIL_STEP_H
#define DEW_PLANT_COIL_STEP_H

#include "air/air_step.h"
#include "dew/coil.h"

/* Saturation humidity ratio and its slope; t is held to -5 .. 50 degC. */
static CORE__INLINE struct air__line plant__w_sat(double t, double p)
{
    struct air__line pws = air__poly_pws_room(core__hold(t, -5.0, 50.0));
    double dry = 1.0 / (p - pws.value); /* one division for both */

    return (struct air__line){DEW_AIR_MASS_RATIO * pws.value * dry,
                              DEW_AIR_MASS_RATIO * p * pws.slope * dry * dry};
}

/* Temperature of saturated air of enthalpy h, J/kg, at 101325 Pa, to 0.05 K:
   regression on [HW83], -2 .. 33 degC. */
static CORE__INLINE double plant__t_saturated(double h)
{
    double x = (core__hold(h, 6e3, 116e3) - 60e3) * (1.0 / 60e3), t;

    t = CORE__OF(-0.8246059323151664);
    t = t * x + 2.6235534522037487;
    t = t * x - 6.096261552723947;
    t = t * x + 17.097329491594753;
    return t * x + 20.751486706551308;
}

/* An apparatus dew point, degC, and its humidity ratio. */
struct plant__adp {
    double t, w;
};

/* One Newton step towards the temperature of saturated air of enthalpy h; w
   goes along the tangent. */
static CORE__INLINE struct plant__adp plant__adp_step(double t, double h,
                                                      double p)
{
    struct air__line w = plant__w_sat(t, p);
    double gap = air__h(t, w.value) - h;
    double slope = air__cp(w.value) + w.slope * air__h_vapour(t);
    double next = core__hold(t - gap / slope, -4.9, 49.9);

    return (struct plant__adp){next, w.value + w.slope * (next - t)};
}

/* One Newton step towards the wet bulb, [ASH-F1] eq. 33, liquid wick. */
static CORE__INLINE double plant__wet_step(double tw, double t, double w,
                                           double p)
{
    struct air__line s = plant__w_sat(tw, p);
    double gap = s.value * air__latent(tw) - AIR__CP * (t - tw) -
                 w * (air__h_vapour(t) - AIR__CP_LIQUID * tw);
    double slope = s.slope * air__latent(tw) -
                   (AIR__CP_LIQUID - AIR__CP_VAPOUR) * s.value + AIR__CP +
                   AIR__CP_LIQUID * w;

    return core__hold(tw - gap / slope, -4.9, 49.9);
}

/* [NREL-56354] cooling, one speed; the fits are in degF. */
struct plant__curve {
    core__plain a, b, c, d, e, f;
};

static CORE__INLINE double plant__curve(struct plant__curve k, double t_in,
                                        double t_out)
{
    double x = 1.8 * t_in + 32.0, y = 1.8 * t_out + 32.0;

    return k.a + (k.b + k.c * x) * x + (k.d + k.e * y + k.f * x) * y;
}

static CORE__INLINE double plant__capacity(double t_wet, double t_out)
{
    const struct plant__curve k = {3.670270705, -0.098652414, 0.000955906,
                                   0.006552414, -0.0000156,   -0.000131877};

    return plant__curve(k, t_wet, t_out);
}

static CORE__INLINE double plant__eir(double t_wet, double t_out)
{
    const struct plant__curve k = {-3.302695861, 0.137871531, -0.001056996,
                                   -0.012573945, 0.000214638, -0.000145054};

    return plant__curve(k, t_wet, t_out);
}

/* The same in the share of rated air. */
static CORE__INLINE double plant__capacity_flow(double f)
{
    return 0.718605468 + (0.410099989 - 0.128705457 * f) * f;
}

static CORE__INLINE double plant__eir_flow(double f)
{
    return 1.32299905 + (-0.477711207 + 0.154712157 * f) * f;
}

/* Ends of the curves, degC: see coil.h. */
#define PLANT__WET_LOW  (25.0 / 1.8)
#define PLANT__WET_HIGH (43.0 / 1.8)
#define PLANT__OUT_LOW  (33.0 / 1.8)
#define PLANT__OUT_HIGH (83.0 / 1.8)

/* Capacity at an entering wet bulb, held to the curve's ends, W. */
static CORE__INLINE double plant__total(double full, double t_wet, double t_out)
{
    double t = core__hold(t_wet, PLANT__WET_LOW, PLANT__WET_HIGH);

    return full * plant__capacity(t, t_out);
}

/*
 * Entering wet bulb at which a coil only just stays dry: where the apparatus
 * dew point meets the air's own.  from is the solution at w, of wet bulb t_wet
 * and entering enthalpy h; dw_adp / dw is near 0.56 throughout (regression),
 * which places the first guess, and one secant step between the two is
 * enough.  t_wet itself where the coil is wet.
 */
static CORE__INLINE double plant__wet_dry(const struct dew_coil_air *a,
                                          double full, double out, double m_bf,
                                          struct plant__adp from, double t_wet)
{
    double h = air__h(a->t, a->w);
    double gap = from.w - a->w, w1 = a->w + gap / 0.44, h1, tw, h_adp, gap1, w2;
    double h_from = air__h(from.t, from.w);

    h1 = air__h(a->t, w1);
    tw = t_wet + plant__t_saturated(h1) - plant__t_saturated(h);
    tw = plant__wet_step(tw, a->t, w1, a->p);
    h_adp = h1 - plant__total(full, tw, out) / m_bf;
    from.t += plant__t_saturated(h_adp) - plant__t_saturated(h_from);
    gap1 = plant__adp_step(from.t, h_adp, a->p).w - w1;
    w2 = w1 - gap1 * (w1 - a->w) / (gap1 - gap);
    tw = tw + (w2 - w1) * (tw - t_wet) / (w1 - a->w);
    return core__pick(gap > 1e-9, tw,
                      t_wet); /* kg/kg: else no two points to join */
}

/* ---- stages and part load ------------------------------------------------ */

/* What does not change of a handler's stages; coil.c. */
struct plant__stages {
    double slope; /* -    of air's share over the stage's                   */
    double power; /* -    of the air's share, for the blower's              */
};

struct plant__stages plant__stages_of(const struct dew_handler *handler);

/* Share of full air at stage s: dew_plant_stage_air. */
static CORE__INLINE double plant__stage_air(const struct plant__stages *k,
                                            double s)
{
    return core__max(1.0 - k->slope * (1.0 - s), 0.5 * s);
}

static CORE__INLINE double plant__blower_w(const struct dew_handler *handler,
                                           const struct plant__stages *k,
                                           double air)
{
    double share = CORE__OF(1.0);

    if (core__any(air < 1.0)) /* a block: 1 again for air of 1 */
        share = core__pick(air < 1.0, air__poly_pow(air, k->power), 1.0);
    return handler->blower_w * share;
}

static CORE__INLINE double plant__part_load(double plr, double c_d)
{
    return 1.0 - c_d * (1.0 - plr);
}

static CORE__INLINE double plant__run_time(double plr, double c_d)
{
    return plr / plant__part_load(plr, c_d);
}

/* The load of a machine that ran so long: the other way about. */
static CORE__INLINE double plant__run_load(double run, double c_d)
{
    return run * (1.0 - c_d) / (1.0 - c_d * run);
}

/* Contract of dew_plant_off_delay: of each rest, so many cycles an hour into
   3600 (1 - run) s of rest. */
static CORE__INLINE double plant__off_delay(const struct dew_handler *handler,
                                            double run)
{
    double part =
        handler->cycles_max * run * handler->off_delay * (4.0 / 3600.0);

    return (1.0 - run) * core__min(part, CORE__OF(1.0));
}

/* ---- the coil ------------------------------------------------------------- */

/* The same coil at stage s with that share of its air; its bypass follows from
   units. */
static CORE__INLINE struct dew_coil plant__coil_stage(
    const struct dew_coil *coil, double s, double air)
{
    struct dew_coil c = *coil;

    c.capacity *= s;
    c.power *= s;
    c.m *= air;
    c.latent *= s;
    return c;
}

/* How far the last roots lay from the quartic, K; 0 where none is known. */
struct plant__off {
    double wet, adp;
};

/* What a trial far away makes of it must not mislead the next; K. */
#define PLANT__OFF_MOST 12.0

static CORE__INLINE double plant__off_of(double root, double quartic)
{
    return core__hold(root - quartic, -PLANT__OFF_MOST, PLANT__OFF_MOST);
}

/* The coil, from the quartics put right by *off; *off is that of this state
   afterwards. */
static CORE__INLINE struct dew_coil_work plant__coil(
    const struct dew_coil *k, const struct dew_coil_air *a,
    struct plant__off *off)
{
    struct dew_coil_work o;
    double f = core__hold(a->flow, 0.5, 1.2);
    double out = core__hold(a->t_out, PLANT__OUT_LOW, PLANT__OUT_HIGH);
    double full = k->capacity * k->by_capacity * plant__capacity_flow(f);
    double m = k->m * a->flow * a->p * (1.0 / 101325.0);
    double h = air__h(a->t, a->w);
    double total, wet, held, h_adp, quartic;
    struct plant__adp adp;
    core__truth is_dry;

    o.m_bf = m * (1.0 - air__poly_exp2(-AIR__PER_LN_2 * k->units / m));
    o.m_bf = core__pick(k->dry > 0.0, m, o.m_bf);
    quartic = plant__t_saturated(h);
    o.t_wet = plant__wet_step(quartic + off->wet, a->t, a->w, a->p);
    off->wet = plant__off_of(o.t_wet, quartic);

    total = plant__total(full, o.t_wet, out);
    h_adp = h - total / o.m_bf;
    quartic = plant__t_saturated(h_adp);
    adp = plant__adp_step(quartic + off->adp, h_adp, a->p);
    off->adp = plant__off_of(adp.t, quartic);
    o.t_adp = adp.t;
    o.w_adp = adp.w;
    wet = o.t_wet;
    is_dry = adp.w > a->w;
    if (core__any(is_dry)) /* a block: t_wet again for one that is wet */
        wet = plant__wet_dry(a, full, out, o.m_bf, adp, o.t_wet);
    wet = core__pick(k->dry > 0.0, o.t_wet, wet);
    is_dry = is_dry | (k->dry > 0.0);
    held = core__pick(wet < PLANT__WET_LOW, 1.0, 0.0);
    held = core__pick(wet > PLANT__WET_HIGH, 1.0, held);
    held = core__pick(out < a->t_out, 1.0, held);
    held = core__pick(out > a->t_out, 1.0, held);
    held = core__pick(f < a->flow, 1.0, held);
    held = core__pick(f > a->flow, 1.0, held);
    o.held = core__pick(adp.t < 0.0, 1.0, held);
    wet = core__hold(wet, PLANT__WET_LOW, PLANT__WET_HIGH);

    o.total = core__pick(is_dry, full * plant__capacity(wet, out), total);
    o.water = core__pick(is_dry, 0.0, o.m_bf * (a->w - adp.w));
    o.sensible = o.total - o.water * air__h_vapour(a->t);
    o.w_adp =
        core__pick(k->dry > 0.0, 1.0, o.w_adp); /* above any w: never wet */
    o.power = k->power * k->by_eir * plant__eir(wet, out) * plant__eir_flow(f) *
              (o.total / k->capacity);
    return o;
}

#endif
