/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole state from any two of its values. */
#include "dew/air.h"

#include <math.h>

#include "air/root.h"
#include "core/fail.h"

const char *dew_air_given_name(enum dew_air_given given)
{
    static const char *const name[] = {
#define X(code, name, unit) name,
        DEW_AIR_GIVEN_MAP(X)
#undef X
    };

    return (unsigned)given < DEW_AIR_GIVEN_COUNT ? name[given] : "";
}

/* The two given, in the order of DEW_AIR_GIVEN_MAP. */
struct pair {
    enum dew_air_given first, second;
    double x, y, p;
};

/* h of air at rh, less the h given. */
static struct air__line h_gap(double t, const void *in)
{
    const struct pair *g = in;
    struct air__line w = air__w_rh(t, g->x, g->p), y;

    y.value = dew_air_h(t, w.value) - g->y;
    y.slope =
        dew_air_cp(w.value) + w.slope * (dew_air_h(t, 1.0) - dew_air_h(t, 0.0));
    return y;
}

/* t less the t at which air of that rh has the wet bulb given. */
static struct air__line wet_gap(double t, const void *in)
{
    const struct pair *g = in;
    double w_wet = dew_air_w_wet(t, g->y, g->p);
    struct air__line w = air__w_rh(t, g->x, g->p), y;

    /* too hot for any water: past the root */
    y.value = w.value - (isnan(w_wet) ? 0.0 : w_wet);
    y.slope = w.slope + dew_air_cp(w.value) / DEW_AIR_LATENT;
    return y;
}

static double t_of_rh_and(const struct pair *g)
{
    double top;

    if (!core__within(g->x, 0.0, 1.0))
        return NAN;
    top = air__t_top(g->x, g->p);
    if (g->second == DEW_AIR_BY_W)
        return dew_air_t_rh(g->x, g->y, g->p);
    if (g->second == DEW_AIR_BY_H)
        return air__root(h_gap, g, AIR__T_LOW, top);
    if (g->x == 1.0)
        return g->y; /* at saturation the wet bulb is the dry bulb */
    return air__root(wet_gap, g, g->y, top);
}

static double t_of_w_and(const struct pair *g)
{
    if (g->second == DEW_AIR_BY_H)
        return dew_air_t(g->y, g->x);
    return dew_air_t_wet(g->y, g->x, g->p);
}

static double w_of(enum dew_air_given given, double value, double t, double p)
{
    switch (given) {
    case DEW_AIR_BY_RH:
        return dew_air_w(t, value, p);
    case DEW_AIR_BY_WET:
        return dew_air_w_wet(t, value, p);
    case DEW_AIR_BY_H:
        return dew_air_w_h(t, value);
    default:
        return value;
    }
}

static void fill(struct dew_air *a)
{
    a->rh = dew_air_rh(a->t, a->w, a->p);
    a->rh_liquid = dew_air_rh_liquid(a->t, a->w, a->p);
    a->pv = dew_air_pv(a->w, a->p);
    a->dew = dew_air_dew(a->w, a->p);
    a->dew_liquid = dew_air_dew_liquid(a->w, a->p);
    a->wet = dew_air_wet(a->t, a->w, a->p);
    a->h = dew_air_h(a->t, a->w);
    a->v = dew_air_v(a->t, a->w, a->p);
    a->density = dew_air_density(a->t, a->w, a->p);
    a->mu = dew_air_mu(a->t, a->w, a->p);
}

static void order(struct pair *g)
{
    if (g->first > g->second) {
        struct pair other = {g->second, g->first, g->y, g->x, g->p};

        *g = other;
    }
}

/* A dew point says w; the rest then goes by w alone. */
static void dew_to_w(struct pair *g)
{
    if (g->first == DEW_AIR_BY_DEW) {
        g->first = DEW_AIR_BY_W;
        g->x = dew_air_w_dew(g->x, g->p);
    } else if (g->second == DEW_AIR_BY_DEW) {
        g->second = DEW_AIR_BY_W;
        g->y = dew_air_w_dew(g->y, g->p);
    }
}

static enum dew_status refuse_twins(const struct pair *g, struct dew_error *err)
{
    if (g->first == g->second ||
        (g->first == DEW_AIR_BY_W && g->second == DEW_AIR_BY_DEW))
        return core__fail(
            err, DEW_EAMBIGUOUS, "%s and %s say the same thing: give another",
            dew_air_given_name(g->first), dew_air_given_name(g->second));
    if (g->first == DEW_AIR_BY_WET && g->second == DEW_AIR_BY_H)
        return core__fail(err, DEW_EAMBIGUOUS,
                          "wet and h say nearly the same thing: give another");
    return DEW_OK;
}

/* A little over 1 is the rounding of what this floor gave as saturated. */
static double rounded(enum dew_air_given given, double x)
{
    int over = given == DEW_AIR_BY_RH && x > 1.0 && x <= 1.0 + AIR__ROUNDING;

    return over ? 1.0 : x;
}

/* The range of each value alone. */
static enum dew_status refuse_range(enum dew_air_given given, double x,
                                    struct dew_error *err)
{
    static const double low[] = {-100, 0, 0, -100, -100, -101e3};
    static const double high[] = {90, 1, 10, 90, 90, 1e9};

    if (core__within(x, low[given], high[given]))
        return DEW_OK;
    core__in(err, dew_air_given_name(given));
    return core__fail(err, DEW_ERANGE, "%g is outside %g .. %g", x, low[given],
                      high[given]);
}

static enum dew_status state_at(const struct pair *g, struct dew_air *a,
                                struct dew_error *err)
{
    double t = g->x;

    if (g->first == DEW_AIR_BY_RH)
        t = t_of_rh_and(g);
    if (g->first == DEW_AIR_BY_W)
        t = t_of_w_and(g);
    a->t = t;
    a->p = g->p;
    a->w = g->first == DEW_AIR_BY_W ? g->x : w_of(g->second, g->y, t, g->p);
    fill(a);
    if (isnan(a->t) || isnan(a->w) || a->w < 0.0)
        return core__fail(err, DEW_ESOLVE,
                          "no air from -100 to 90 degC has both");
    if (a->rh > 1.0 + AIR__ROUNDING)
        return core__fail(
            err, DEW_ESOLVE,
            "air of %.4g degC cannot hold that: it is full at %.4g "
            "g/kg",
            a->t, 1e3 * dew_air_w_sat(a->t, a->p));
    return DEW_OK;
}

enum dew_status dew_air_solve(const enum dew_air_given given[2],
                              const double value[2], double p,
                              struct dew_air *out, struct dew_error *err)
{
    struct pair g = {given[0], given[1], rounded(given[0], value[0]),
                     rounded(given[1], value[1]), p};
    struct dew_air a;
    enum dew_status status;

    order(&g);
    status = refuse_twins(&g, err);
    if (status == DEW_OK)
        status = refuse_range(g.first, g.x, err);
    if (status == DEW_OK)
        status = refuse_range(g.second, g.y, err);
    if (status == DEW_OK && !core__within(p, AIR__P_LOW, AIR__P_HIGH)) {
        core__in(err, "p");
        status =
            core__fail(err, DEW_ERANGE, "%g Pa is outside 50e3 .. 110e3", p);
    }
    if (status != DEW_OK)
        return status;
    dew_to_w(&g);
    order(&g);
    status = state_at(&g, &a, err);
    if (status == DEW_OK)
        *out = a;
    return status;
}
