/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathering the hours of one option. */
#include <math.h>
#include <stdlib.h>

#include "core/num.h"
#include "dew/air.h"
#include "study/collect.h"

void study__columns_in(struct study__columns *columns,
                       struct dew_outcome *outcome, double *store, size_t count)
{
#define X(name, heading, factor, decimals)                                     \
    columns->name = store;                                                     \
    outcome->series.name = store;                                              \
    store += count;
    DEW_SERIES_MAP(X)
#undef X
}

static double energy_of(const struct dew_energy *e)
{
    double sum = 0;

#define X(name, words) sum += e->name;
    DEW_ENERGY_MAP(X)
#undef X
    return sum - e->heating_fuel;
}

static double water_of(const struct dew_water_flows *f, double *inflow)
{
    double sum = 0;

#define X(name, words)                                                         \
    sum += f->name;                                                            \
    *inflow += fmax(f->name, 0);
    DEW_WATER_MAP(X)
#undef X
    return sum;
}

static double heat_of(const struct dew_heat_flows *f, double *inflow)
{
    double sum = 0;

#define X(name, words)                                                         \
    sum += f->name;                                                            \
    *inflow += fmax(f->name, 0);
    DEW_HEAT_MAP(X)
#undef X
    return sum;
}

/* The first hour only fixes the state from which the books are kept. */
static void keep_books(struct study__books *b, const struct dew_result *in)
{
    if (b->hours++ == 0) {
        b->first = in->end;
    } else {
        b->water += water_of(&in->water, &b->water_in);
        b->heat += heat_of(&in->heat, &b->heat_in);
    }
    b->last = in->end;
}

/* 0 or 1 as the tally counted this hour: the same arithmetic, not another. */
static void keep_counted(const struct study__columns *k, size_t at,
                         double humid, double dry,
                         const struct dew_tally *after)
{
    k->humid[at] = after->too_humid - humid;
    k->dry[at] = after->too_dry - dry;
}

static void keep_columns(const struct study__columns *k, size_t at,
                         const struct dew_hour *hour,
                         const struct dew_result *in)
{
    k->t[at] = in->t;
    k->rh[at] = in->rh;
    k->dew_point[at] = in->dew_point;
    k->t_out[at] = in->t_out;
    k->dew_point_out[at] = dew_air_dew(in->w_out, hour->p);
    k->fresh[at] = in->fresh;
    k->drawn[at] = in->drawn;
    k->leak[at] = in->leak;
    k->co2[at] = in->co2;
    k->glass_t[at] = in->surface_t[DEW_GLASS];
    k->glass_rh[at] = in->surface_rh[DEW_GLASS];
    k->frame_t[at] = in->surface_t[DEW_EDGE];
    k->frame_rh[at] = in->surface_rh[DEW_EDGE];
    k->corner_t[at] = in->surface_t[DEW_CORNER];
    k->corner_rh[at] = in->surface_rh[DEW_CORNER];
    k->supply_t[at] = in->supply_t;
    k->cool[at] = in->duty.cool;
    k->heat[at] = in->duty.heat;
    k->vent[at] = in->duty.vent;
    k->blower[at] = in->duty.blower;
    k->dehumidify[at] = in->duty.dehumidify;
    k->window[at] = in->duty.window;
    k->condensate[at] = in->coil_drained;
    k->power[at] = energy_of(&in->energy) / 3600;
}

void study__collect(struct dew_outcome *o, struct study__gather *gather,
                    const struct dew_hour *hour, const struct dew_date *date,
                    const struct dew_result *in)
{
    const struct dew_limits *limits = gather->limits;
    double humid = o->year.too_humid, dry = o->year.too_dry; /* before it */

    keep_columns(&gather->columns, gather->at, hour, in);
    keep_books(&gather->books, in);
    dew_tally_add(&o->year, limits, o->required, date, in);
    keep_counted(&gather->columns, gather->at++, humid, dry, &o->year);
    dew_tally_add(&o->month[date->month - 1], limits, o->required, date, in);
}

double dew_study_quantile(const double *sorted, size_t count, double share)
{
    return core__quantile(sorted, count, share);
}

static void percentiles(struct dew_outcome *o, double *scratch)
{
    for (size_t i = 0; i < o->count; i++)
        scratch[i] = o->series.rh[i];
    core__sort(scratch, o->count);
    o->rh_5 = dew_study_quantile(scratch, o->count, 0.05);
    o->rh_50 = dew_study_quantile(scratch, o->count, 0.50);
    o->rh_95 = dew_study_quantile(scratch, o->count, 0.95);
    for (int i = 0; i < DEW_DURATION; i++)
        o->duration[i] = dew_study_quantile(scratch, o->count,
                                            1 - (double)i / (DEW_DURATION - 1));
}

static void rh_map(struct dew_outcome *o)
{
    for (int m = 0; m < DEW_MONTHS; m++)
        for (int h = 0; h < DEW_DAY_HOURS; h++) {
            double n = o->month[m].by_hour_count[h];

            o->rh_map[m][h] = n > 0 ? o->month[m].by_hour[h] / n : NAN;
        }
}

static double share(double part, double whole)
{
    return whole > 0 ? fabs(part) / whole : fabs(part);
}

/* What the flows say against what the air and the mass hold at the end. */
static void closure(struct dew_outcome *o, const struct study__books *b,
                    const struct dew_case *c)
{
    const struct dew_thermal *h = &c->house.thermal;
    double air = dew_air_density_run(c->pressure) * c->house.volume;
    double water = air * (b->last.w - b->first.w);
    double heat = h->c_air * (b->last.t_air - b->first.t_air) +
                  h->c_mass * (b->last.t_mass - b->first.t_mass) +
                  (b->last.owed_q - b->first.owed_q);

    o->water_turnover = b->water_in;
    o->heat_turnover = b->heat_in;
    o->water_residual = share(b->water - water, b->water_in);
    o->heat_residual = share(b->heat - heat, b->heat_in);
}

/* The index of each hour is written into its column. */
static void surfaces(struct dew_outcome *o, const struct study__columns *k,
                     const struct dew_date *dates)
{
    const struct dew_face_hours felt[DEW_SURFACES] = {
        {k->glass_t, k->glass_rh, dates, o->count},
        {k->frame_t, k->frame_rh, dates, o->count},
        {k->corner_t, k->corner_rh, dates, o->count}};
    double *const index[DEW_SURFACES] = {k->glass_mould, k->frame_mould,
                                         k->corner_mould};

    for (int s = 0; s < DEW_SURFACES; s++)
        o->faces[s] =
            dew_faces_of((enum dew_surface_kind)s, &felt[s], index[s]);
}

void study__collect_end(struct dew_outcome *o,
                        const struct study__gather *gather,
                        const struct dew_case *c, const struct dew_date *dates,
                        double *scratch)
{
    percentiles(o, scratch);
    rh_map(o);
    surfaces(o, &gather->columns, dates);
    closure(o, &gather->books, c);
}
