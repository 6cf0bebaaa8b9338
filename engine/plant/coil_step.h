/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The cooling coil at a state, without a call, a branch or a loop, so that a
 * loop over houses turns into vector instructions; coil.h has its contract.
 * Private to engine/.
 *
 * Wet bulb and apparatus dew point are the roots of smooth, convex, rising
 * functions; a quartic in enthalpy starts within 0.05 K at sea level (2 K at
 * 80 kPa), and two Newton steps bring that below 1e-4 K (2e-3 K).
 */
#ifndef DEW_PLANT_COIL_STEP_H
#define DEW_PLANT_COIL_STEP_H

#include "air/air_step.h"
#include "dew/coil.h"

/* Saturation humidity ratio and its slope; t is held to -5 .. 50 degC. */
static DEW__INLINE struct dew__line dew__plant_w_sat(double t, double p)
{
    struct dew__line pws = dew__poly_pws_room(dew__hold(t, -5.0, 50.0));
    double dry = 1.0 / (p - pws.value); /* one division for both */

    return (struct dew__line){DEW_AIR_MASS_RATIO * pws.value * dry,
                              DEW_AIR_MASS_RATIO * p * pws.slope * dry * dry};
}

/* Temperature of saturated air of enthalpy h, J/kg, at 101325 Pa, to 0.05 K:
   regression on [HW83], -2 .. 33 degC. */
static DEW__INLINE double dew__plant_t_saturated(double h)
{
    double x = (dew__hold(h, 6e3, 116e3) - 60e3) / 60e3, t;

    t = -0.8246059323151664;
    t = t * x + 2.6235534522037487;
    t = t * x - 6.096261552723947;
    t = t * x + 17.097329491594753;
    return t * x + 20.751486706551308;
}

/* An apparatus dew point, degC, and its humidity ratio. */
struct dew__plant_adp {
    double t, w;
};

/* One Newton step towards the temperature of saturated air of enthalpy h; w
   goes along the tangent. */
static DEW__INLINE struct dew__plant_adp dew__plant_adp_step(double t, double h,
                                                             double p)
{
    struct dew__line w = dew__plant_w_sat(t, p);
    double gap = dew__air_h(t, w.value) - h;
    double slope = dew__air_cp(w.value) + w.slope * dew__air_h_vapour(t);
    double next = dew__hold(t - gap / slope, -4.9, 49.9);

    return (struct dew__plant_adp){next, w.value + w.slope * (next - t)};
}

/* One Newton step towards the wet bulb, [ASH-F1] eq. 33, liquid wick. */
static DEW__INLINE double dew__plant_wet_step(double tw, double t, double w,
                                              double p)
{
    struct dew__line s = dew__plant_w_sat(tw, p);
    double gap = s.value * dew__air_latent(tw) - DEW__AIR_CP * (t - tw) -
                 w * (dew__air_h_vapour(t) - DEW__AIR_CP_LIQUID * tw);
    double slope = s.slope * dew__air_latent(tw) -
                   (DEW__AIR_CP_LIQUID - DEW__AIR_CP_VAPOUR) * s.value +
                   DEW__AIR_CP + DEW__AIR_CP_LIQUID * w;

    return dew__hold(tw - gap / slope, -4.9, 49.9);
}

/* [NREL-56354] cooling, one speed; the fits are in degF. */
struct dew__plant_curve {
    double a, b, c, d, e, f;
};

static DEW__INLINE double dew__plant_curve(struct dew__plant_curve k,
                                           double t_in, double t_out)
{
    double x = 1.8 * t_in + 32.0, y = 1.8 * t_out + 32.0;

    return k.a + (k.b + k.c * x) * x + (k.d + k.e * y + k.f * x) * y;
}

static DEW__INLINE double dew__plant_capacity(double t_wet, double t_out)
{
    const struct dew__plant_curve k = {3.670270705, -0.098652414, 0.000955906,
                                       0.006552414, -0.0000156,   -0.000131877};

    return dew__plant_curve(k, t_wet, t_out);
}

static DEW__INLINE double dew__plant_eir(double t_wet, double t_out)
{
    const struct dew__plant_curve k = {-3.302695861, 0.137871531, -0.001056996,
                                       -0.012573945, 0.000214638, -0.000145054};

    return dew__plant_curve(k, t_wet, t_out);
}

/* The same in the share of rated air. */
static DEW__INLINE double dew__plant_capacity_flow(double f)
{
    return 0.718605468 + (0.410099989 - 0.128705457 * f) * f;
}

static DEW__INLINE double dew__plant_eir_flow(double f)
{
    return 1.32299905 + (-0.477711207 + 0.154712157 * f) * f;
}

/* Ends of the curves, degC: see coil.h. */
#define DEW__PLANT_WET_LOW  (25.0 / 1.8)
#define DEW__PLANT_WET_HIGH (43.0 / 1.8)
#define DEW__PLANT_OUT_LOW  (33.0 / 1.8)
#define DEW__PLANT_OUT_HIGH (83.0 / 1.8)

/* Capacity at an entering wet bulb, held to the curve's ends, W. */
static DEW__INLINE double dew__plant_total(double full, double t_wet,
                                           double t_out)
{
    double t = dew__hold(t_wet, DEW__PLANT_WET_LOW, DEW__PLANT_WET_HIGH);

    return full * dew__plant_capacity(t, t_out);
}

/*
 * Entering wet bulb at which a coil only just stays dry: where the apparatus
 * dew point meets the air's own.  from is the solution at w, of wet bulb t_wet
 * and entering enthalpy h; dw_adp / dw is near 0.56 throughout (regression),
 * which places the first guess, and one secant step between the two is
 * enough.  t_wet itself where the coil is wet.
 */
static DEW__INLINE double dew__plant_wet_dry(const struct dew_coil_air *a,
                                             double full, double out,
                                             double m_bf,
                                             struct dew__plant_adp from,
                                             double t_wet)
{
    double h = dew__air_h(a->t, a->w);
    double gap = from.w - a->w, w1 = a->w + gap / 0.44, h1, tw, h_adp, gap1, w2;
    double h_from = dew__air_h(from.t, from.w);

    h1 = dew__air_h(a->t, w1);
    tw = t_wet + dew__plant_t_saturated(h1) - dew__plant_t_saturated(h);
    tw = dew__plant_wet_step(tw, a->t, w1, a->p);
    h_adp = h1 - dew__plant_total(full, tw, out) / m_bf;
    from.t += dew__plant_t_saturated(h_adp) - dew__plant_t_saturated(h_from);
    gap1 = dew__plant_adp_step(from.t, h_adp, a->p).w - w1;
    w2 = w1 - gap1 * (w1 - a->w) / (gap1 - gap);
    tw = tw + (w2 - w1) * (tw - t_wet) / (w1 - a->w);
    return gap > 1e-9 ? tw : t_wet; /* kg/kg: else no two points to join */
}

static DEW__INLINE struct dew_coil_work dew__plant_coil(
    const struct dew_coil *k, const struct dew_coil_air *a)
{
    struct dew_coil_work o;
    double f = dew__hold(a->flow, 0.5, 1.2);
    double out = dew__hold(a->t_out, DEW__PLANT_OUT_LOW, DEW__PLANT_OUT_HIGH);
    double full = k->capacity * k->by_capacity * dew__plant_capacity_flow(f);
    double m = k->m * a->flow * a->p * (1.0 / 101325.0);
    double h = dew__air_h(a->t, a->w);
    double total, wet, held, h_adp;
    struct dew__plant_adp adp;
    int is_dry;

    o.m_bf = m * (1.0 - dew__poly_exp2(-1.4426950408889634 * k->units / m));
    o.m_bf = k->dry > 0.0 ? m : o.m_bf;
    o.t_wet = dew__plant_t_saturated(h);
    o.t_wet = dew__plant_wet_step(o.t_wet, a->t, a->w, a->p);
    o.t_wet = dew__plant_wet_step(o.t_wet, a->t, a->w, a->p);

    total = dew__plant_total(full, o.t_wet, out);
    h_adp = h - total / o.m_bf;
    adp.t = dew__plant_t_saturated(h_adp);
    adp = dew__plant_adp_step(adp.t, h_adp, a->p);
    adp = dew__plant_adp_step(adp.t, h_adp, a->p);
    o.t_adp = adp.t;
    o.w_adp = adp.w;
    wet = dew__plant_wet_dry(a, full, out, o.m_bf, adp, o.t_wet);
    wet = k->dry > 0.0 ? o.t_wet : wet;
    is_dry = adp.w > a->w;
    is_dry = k->dry > 0.0 ? 1 : is_dry;
    held = wet < DEW__PLANT_WET_LOW ? 1.0 : 0.0;
    held = wet > DEW__PLANT_WET_HIGH ? 1.0 : held;
    held = out < a->t_out ? 1.0 : held;
    held = out > a->t_out ? 1.0 : held;
    held = f < a->flow ? 1.0 : held;
    held = f > a->flow ? 1.0 : held;
    o.held = adp.t < 0.0 ? 1.0 : held;
    wet = dew__hold(wet, DEW__PLANT_WET_LOW, DEW__PLANT_WET_HIGH);

    o.total = is_dry ? full * dew__plant_capacity(wet, out) : total;
    o.water = is_dry ? 0.0 : o.m_bf * (a->w - adp.w);
    o.sensible = o.total - o.water * dew__air_h_vapour(a->t);
    o.w_adp = k->dry > 0.0 ? 1.0 : o.w_adp; /* above any w: never wet */
    o.power = k->power * k->by_eir * dew__plant_eir(wet, out) *
              dew__plant_eir_flow(f) * (o.total / k->capacity);
    return o;
}

#endif
