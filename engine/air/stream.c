/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Streams of moist air: mixing, and the coil line. */
#include "dew/air.h"

#include <math.h>

#include "air/air_step.h"
#include "air/root.h"

static const double pressures_alike = 0.01; /* share, of dew_air_mix */

static int sound(const struct dew_stream *s)
{
    return dew_air_rh(s->t, s->w, s->p) <= 1.0 + AIR__ROUNDING &&
           s->flow >= 0.0 && isfinite(s->flow);
}

static struct dew_stream nowhere(void)
{
    return (struct dew_stream){NAN, NAN, NAN, NAN};
}

/* Fogged air: all its heat and all its water, per kg of dry air. */
struct fog {
    double h, w, p;
};

static struct air__line fog_gap(double t, const void *in)
{
    const struct fog *f = in;
    struct air__line ws = air__w_rh(t, 1.0, f->p), y;
    int frozen = t < DEW_AIR_TRIPLE;
    double c = frozen ? AIR__CP_ICE : AIR__CP_LIQUID;
    double h_water = c * t - (frozen ? AIR__MELTING : 0.0);

    y.value = dew_air_h(t, ws.value) + (f->w - ws.value) * h_water - f->h;
    y.slope = dew_air_cp(ws.value) + (f->w - ws.value) * c +
              ws.slope * (dew_air_h(t, 1.0) - dew_air_h(t, 0.0) - h_water);
    return y;
}

/* The state of heat h and water w; *fog kg/kg is what the air cannot hold. */
static struct dew_stream settle(double h, double w, double p, double *fog)
{
    struct dew_stream s = {dew_air_t(h, w), w, p, NAN};
    struct fog f = {h, w, p};
    double top = air__t_top(1.0, p), ws;

    *fog = 0.0;
    if (dew_air_rh(s.t, w, p) <= 1.0 + AIR__ROUNDING)
        return s;
    s.t = air__root(fog_gap, &f, AIR__T_LOW, top);
    ws = dew_air_w_sat(s.t, p);
    if (!(w >= ws)) /* no fog: the mix is off the range of t */
        return nowhere();
    s.w = ws;
    *fog = w - s.w;
    return s;
}

static struct dew_stream finish(struct dew_stream s, double flow, double fog,
                                double *water)
{
    if (isnan(s.t) || isnan(s.w))
        return nowhere();
    s.flow = flow;
    if (water != NULL)
        *water = fog * flow;
    return s;
}

struct dew_stream dew_air_mix(const struct dew_stream *a,
                              const struct dew_stream *b, double *water)
{
    double flow = a->flow + b->flow, share = b->flow / flow, fog;
    double ha = dew_air_h(a->t, a->w), hb = dew_air_h(b->t, b->w);
    struct dew_stream s;

    if (!sound(a) || !sound(b) || !(flow > 0.0) ||
        fabs(a->p - b->p) > pressures_alike * a->p)
        return nowhere();
    s = settle(ha + share * (hb - ha), a->w + share * (b->w - a->w), a->p,
               &fog);
    return finish(s, flow, fog, water);
}

/* The coil line: through (t, w) with the slope s. */
struct coil_line {
    double t, w, s, p;
};

/* Slope of saturation less the line's: 0 where the two come closest. */
static struct air__line slope_gap(double t, const void *in)
{
    const struct coil_line *c = in;
    const double step = 1e-3; /* K, for the curvature, which only steers */
    double here = air__w_rh(t, 1.0, c->p).slope;
    struct air__line y;

    y.value = here - c->s;
    y.slope = (air__w_rh(t + step, 1.0, c->p).slope - here) / step;
    return y;
}

/* How far the line lies below saturation: falls as t nears the meeting. */
static struct air__line line_gap(double t, const void *in)
{
    const struct coil_line *c = in;
    struct air__line ws = air__w_rh(t, 1.0, c->p), y;

    y.value = ws.value - (c->w + c->s * (t - c->t));
    y.slope = ws.slope - c->s;
    return y;
}

double dew_air_adp(const struct dew_stream *in, const struct dew_stream *out)
{
    struct coil_line c = {out->t, out->w, (in->w - out->w) / (in->t - out->t),
                          out->p};
    double nearest;

    if (!sound(in) || !sound(out) || !(out->t < in->t) || !(out->w <= in->w) ||
        out->t < DEW_AIR_TRIPLE)
        return NAN;
    if (slope_gap(out->t, &c).value <= 0.0) /* saturation turns away */
        return line_gap(out->t, &c).value <= AIR__ROUNDING * out->w ? out->t
                                                                    : NAN;
    nearest = air__root(slope_gap, &c, DEW_AIR_TRIPLE, out->t);
    if (isnan(nearest))
        nearest = DEW_AIR_TRIPLE;
    if (line_gap(out->t, &c).value <= 0.0)
        return out->t; /* leaves saturated, to rounding */
    return air__root(line_gap, &c, nearest, out->t);
}
