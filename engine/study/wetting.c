/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/wetting.h"

#include <math.h>

#include "dew/air.h"
#include "dew/surface.h"

/* Ends of the trade's bands, degF, from above.  [MN-DPS] */
static const double ends[DEW_WET_ROWS + 1] = {40,  20,  10,       0,
                                              -10, -20, -INFINITY};

static double celsius(double f)
{
    return (f - 32.0) / 1.8;
}

#define ADD(name, words) +w->name
double dew_wetting_sources(const struct dew_tally *y)
{
    const struct dew_water_flows *w = &y->water;
    double kg = 0 DEW_SOURCE_MAP(ADD);

    return y->hours > 0 ? kg / (3600 * y->hours) : 0;
}

static struct dew_wet_row band(const struct dew_case *c, int i)
{
    const struct dew_surface *s = c->house.surfaces;
    struct dew_wet_row r = {.t_low = celsius(ends[i + 1]),
                            .t_high = celsius(ends[i])};

    r.t = isfinite(r.t_low) ? r.t_low : celsius(ends[i] - 10);
    r.glass = dew_house_wets_at(s[DEW_GLASS].factor, DEW_WET_ROOM, r.t);
    r.frame = dew_house_wets_at(s[DEW_EDGE].factor, DEW_WET_ROOM, r.t);
    /* just inside the band: a limit holds from its lower end on */
    r.trade = dew_house_winter_limit(r.t + 0.5);
    return r;
}

static int holds(const struct dew_wet_row *r, double t)
{
    return t >= r->t_low && t < r->t_high;
}

/* Hours of a band, and the humidity ratio outdoors in them; NaN if none. */
static double count_hours(const struct dew_outcome *o, double p,
                          struct dew_wet_row *r)
{
    double w = 0;

    for (size_t h = 0; h < o->count; h++) {
        if (!holds(r, o->series.t_out[h]))
            continue;
        r->hours += 1;
        r->above_trade += o->series.rh[h] > r->trade;
        r->wet += o->series.glass_rh[h] >= 1;
        w += dew_air_w_dew(o->series.dew_point_out[h], p);
    }
    return r->hours > 0 ? w / r->hours : NAN;
}

static double flow_to_keep(const struct dew_wet_row *r, double p, double w_out,
                           double water)
{
    double w_wet = dew_air_w(DEW_WET_ROOM, fmin(r->frame, 1.0), p);
    double density = dew_air_density_run(p);

    if (r->frame >= 1)
        return isnan(w_out) ? NAN : 0;
    return w_wet > w_out ? water / (density * (w_wet - w_out)) : NAN;
}

void dew_wetting_of(const struct dew_outcome *o, const struct dew_case *c,
                    struct dew_wet_row out[DEW_WET_ROWS])
{
    double water = dew_wetting_sources(&o->year);

    for (int i = 0; i < DEW_WET_ROWS; i++) {
        double w_out;

        out[i] = band(c, i);
        w_out = count_hours(o, c->pressure, &out[i]);
        out[i].keeps_dry = flow_to_keep(&out[i], c->pressure, w_out, water);
    }
}
