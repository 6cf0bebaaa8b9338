/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole spec sheet fitted, and the core at any pair of flows. */
#include "dew/core.h"

#include <math.h>

#include "core/fail.h"

/* Outdoor tests colder than this hold defrost and case losses. */
static const double coldest_rating = -5.0; /* degC */

/* A straight line y = mean + slope (x - centre), by least squares. */
struct line {
    double n, x, y, xx, xy; /* sums */
};

static void line_add(struct line *l, double x, double y)
{
    l->n += 1.0;
    l->x += x;
    l->y += y;
    l->xx += x * x;
    l->xy += x * y;
}

/* Slope; otherwise when all x are alike to a part in a thousand. */
static double line_slope(const struct line *l, double otherwise)
{
    double spread = l->xx - l->x * l->x / l->n;

    return spread > 1e-6 ? (l->xy - l->x * l->y / l->n) / spread : otherwise;
}

/* y at x, given the slope. */
static double line_at(const struct line *l, double slope, double x)
{
    return l->y / l->n + slope * (x - l->x / l->n);
}

static double read_span(const struct dew_core_span *s, enum dew_reading r)
{
    return r == DEW_READ_LOW    ? s->low
           : r == DEW_READ_HIGH ? s->high
                                : s->likely;
}

static double ntu_of(const struct dew_core_sheet *s, double eps)
{
    double rotor = s->kind == DEW_WHEEL ? dew_plant_rotor(s->rotor) : 1.0;

    return dew_plant_ntu(s->kind, eps / rotor, 1.0);
}

/* Is it a row by which the sensible side is fitted? */
static int warm_enough(const struct dew_core_row *r)
{
    return isnan(r->t_out) || r->t_out > coldest_rating;
}

static int has_sensible(const struct dew_core_row *r)
{
    return !(isnan(r->sensible) && isnan(r->sre) && isnan(r->ase) &&
             isnan(r->asre));
}

static int any_warm(const struct dew_core_sheet *s)
{
    for (int i = 0; i < s->count; i++)
        if (has_sensible(&s->rows[i]) && warm_enough(&s->rows[i]))
            return 1;
    return 0;
}

static enum dew_status unreached(struct dew_error *err, const char *member,
                                 double eps)
{
    core__in(err, member);
    return core__fail(err, DEW_ERANGE,
                      "no core of this kind has an effectiveness of %.3f", eps);
}

/* The conductance goes as q^slope: 0 laminar, 0.8 turbulent. */
static enum dew_status slope_sound(double slope, const char *member,
                                   struct dew_error *err)
{
    if (slope >= -1.0 && slope <= 1.0)
        return DEW_OK;
    core__in(err, member);
    return core__fail(err, DEW_ERANGE,
                      slope > 1.0
                          ? "recovery rises with flow: are rows changed over?"
                          : "recovery falls with flow faster than any core's");
}

static enum dew_status take_sensible(const struct dew_core_sheet *s,
                                     enum dew_reading reading,
                                     struct dew_core *c, struct dew_error *err)
{
    struct line l = {0};
    int warm = any_warm(s);

    for (int i = 0; i < s->count; i++) {
        struct dew_core_point point;
        enum dew_status bad = dew_plant_core_point(s, i, 0.0, &point, err);
        double eps = bad ? NAN : read_span(&point.sensible, reading);

        if (bad && has_sensible(&s->rows[i]))
            return bad;
        if (isnan(eps) || (warm && !warm_enough(&s->rows[i])))
            continue;
        if (!(ntu_of(s, eps) > 0.0))
            return unreached(err, "sensible", eps);
        line_add(&l, log(point.gross), log(ntu_of(s, eps)));
    }
    if (l.n < 1.0) {
        core__in(err, "sensible");
        return core__fail(err, DEW_EMISSING,
                          "no row has a sensible effectiveness");
    }
    double fall = line_slope(&l, -1.0);

    c->flow = exp(l.x / l.n);
    c->ntu = exp(l.y / l.n);
    c->slope = 1.0 + fall;
    return slope_sound(c->slope, "sensible", err);
}

/* Which rows tell of water: lrmt or latent when any has one, else tre. */
static int tells_water(const struct dew_core_row *r, int directly)
{
    int direct = !isnan(r->latent) || !isnan(r->lrmt);

    return directly ? direct : !isnan(r->tre);
}

static int any_direct(const struct dew_core_sheet *s)
{
    for (int i = 0; i < s->count; i++)
        if (tells_water(&s->rows[i], 1))
            return 1;
    return 0;
}

static enum dew_status take_water(const struct dew_core_sheet *s,
                                  enum dew_reading reading, struct dew_core *c,
                                  struct dew_error *err)
{
    struct line l = {0};
    int directly = any_direct(s);

    for (int i = 0; i < s->count && s->passes_water; i++) {
        struct dew_core_state at;
        struct dew_core_point point;
        double q = s->rows[i].flow / (1.0 - c->eatr);

        if (!tells_water(&s->rows[i], directly))
            continue;
        dew_plant_core_at(c, q, q, &at);
        enum dew_status bad =
            dew_plant_core_point(s, i, at.sensible, &point, err);
        if (bad)
            return bad;
        double eps = read_span(&point.latent, reading);

        if (eps <= 0.0)
            continue;
        if (!(ntu_of(s, eps) > 0.0))
            return unreached(err, "latent", eps);
        line_add(&l, log(point.gross), log(ntu_of(s, eps)));
    }
    c->ntu_w = 0.0;
    c->slope_w = 0.0;
    if (l.n < 1.0)
        return DEW_OK;
    double fall = line_slope(&l, -1.0);

    c->ntu_w = exp(line_at(&l, fall, log(c->flow)));
    c->slope_w = 1.0 + fall;
    return slope_sound(c->slope_w, "latent", err);
}

static void take_watts(const struct dew_core_sheet *s, struct dew_core *c)
{
    struct line l = {0};

    for (int i = 0; i < s->count; i++)
        if (s->rows[i].watts > 0.0)
            line_add(&l, log(s->rows[i].flow / (1.0 - c->eatr)),
                     log(s->rows[i].watts));
    c->watts_power = l.n > 0.0 ? line_slope(&l, 3.0) : 3.0; /* fan laws */
    c->watts = l.n > 0.0 ? exp(line_at(&l, c->watts_power, log(c->flow))) : 0.0;
}

static void take_leak(const struct dew_core_sheet *s, struct dew_core *c)
{
    double sum = 0.0, n = 0.0;

    for (int i = 0; i < s->count; i++)
        if (!isnan(s->rows[i].eatr)) {
            sum += s->rows[i].eatr;
            n += 1.0;
        }
    c->eatr = n > 0.0 ? sum / n : 0.0;
    c->q_low = INFINITY;
    c->q_high = 0.0;
    for (int i = 0; i < s->count; i++) {
        double q = s->rows[i].flow / (1.0 - c->eatr);

        c->q_low = fmin(c->q_low, q);
        c->q_high = fmax(c->q_high, q);
    }
}

enum dew_status dew_plant_core_fit(const struct dew_core_sheet *sheet,
                                   enum dew_reading reading,
                                   struct dew_core *out, struct dew_error *err)
{
    struct dew_core c = {.kind = sheet->kind,
                         .passes_water = sheet->passes_water,
                         .rotor = sheet->rotor,
                         .supply_share = sheet->supply_share,
                         .before_core = sheet->before_core};
    enum dew_status bad;

    if (sheet->count < 1 || sheet->count > DEW_CORE_ROWS) {
        core__in(err, "rows");
        return core__fail(err, DEW_EMISSING, "a core needs 1 to %d rows",
                          (int)DEW_CORE_ROWS);
    }
    bad = take_sensible(sheet, reading, &c, err);
    if (bad)
        return bad;
    take_leak(sheet, &c);
    take_watts(sheet, &c);
    bad = take_water(sheet, reading, &c, err);
    if (!bad)
        *out = c;
    return bad;
}

/* ---- at two flows ------------------------------------------------------- */

/*
 * Supply-side effectiveness.  The conductance is that of two films in series,
 * each going as its own q^slope, so that one flow alone may change.
 */
static double at_flows(const struct dew_core *c, double ntu, double slope,
                       double supply, double exhaust)
{
    double least = fmin(supply, exhaust), most = fmax(supply, exhaust);
    double films =
        0.5 * (pow(supply / c->flow, -slope) + pow(exhaust / c->flow, -slope));
    double n = ntu * c->flow / (films * least);
    double eps = dew_plant_effectiveness(c->kind, fmin(n, 500.0), least / most);

    if (c->kind == DEW_WHEEL)
        eps *= dew_plant_rotor(fmax(c->rotor * c->flow / least, 1.0));
    return eps * least / supply;
}

/* The units on the lesser flow, for what condensing does. */
static double units_at(const struct dew_core *c, double supply, double exhaust)
{
    double films = 0.5 * (pow(supply / c->flow, -c->slope) +
                          pow(exhaust / c->flow, -c->slope));

    return c->ntu * c->flow / (films * fmin(supply, exhaust));
}

/* See struct dew_core_state; no more units than dew_plant_core_wet takes. */
static double condensing(const struct dew_core *c, double sensible,
                         double supply, double exhaust)
{
    const double most_units = 200.0;
    double least = fmin(supply, exhaust), most = fmax(supply, exhaust);
    double n =
        dew_plant_ntu(DEW_COUNTERFLOW, sensible * supply / least, least / most);

    if (c->passes_water)
        return 0.0;
    return n <= most_units ? n * least / supply : most_units;
}

void dew_plant_core_at(const struct dew_core *core, double supply,
                       double exhaust, struct dew_core_state *out)
{
    struct dew_core_state s = {NAN, NAN, NAN, NAN, NAN, NAN, NAN, 0};
    const double slack = 1e-9; /* of a flow, for rounding */

    if (supply > 0.0 && exhaust > 0.0) {
        double q = fmax(supply, exhaust), exhaust_w;

        s.sensible = at_flows(core, core->ntu, core->slope, supply, exhaust);
        s.latent = core->ntu_w > 0.0 ? at_flows(core, core->ntu_w,
                                                core->slope_w, supply, exhaust)
                                     : 0.0;
        s.fresh = supply * (1.0 - core->eatr);
        s.ntu = units_at(core, supply, exhaust);
        s.condensing = condensing(core, s.sensible, supply, exhaust);
        s.watts = core->watts * pow(q / core->flow, core->watts_power);
        exhaust_w = (1.0 - core->supply_share) * s.watts;
        s.heat = core->supply_share * s.watts +
                 s.sensible * core->before_core * exhaust_w * supply / exhaust;
        s.extrapolated = supply < core->q_low * (1.0 - slack) ||
                         supply > core->q_high * (1.0 + slack);
    }
    *out = s;
}
