/* SPDX-License-Identifier: GPL-3.0-or-later */
/* People, and the ways an amount becomes a source.  See sources.h. */
#include "dew/sources.h"

#include <math.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"

enum { HOURS = 24 };

static const double day_s = 86400.0;
static const double weekdays = 5.0 / 7.0;
static const double normal_t = 20.0;  /* degC  at which a felt source is told */
static const double normal_rh = 0.50; /* -     likewise; both ours */
static const double ln2 = 0.69314718055994530942;

const struct dew_body *dew_house_body(enum dew_activity activity)
{
    /* clang-format off */
    static const struct dew_body rows[DEW_ACTIVITIES] = {
        /*          kg/h  low    high   W     met */
        {"asleep", 0.040, 0.030, 0.050, 55.0, 1.0,
         "water: [DIN4108-8] family of tables, quoted; heat: 0.8 met of "
         "[ISO7730] less the water's, from memory"},
        {"at rest", 0.055, 0.030, 0.067, 70.0, 1.2,
         "water: between [ASH-F18], 45 W of latent heat or 67 g/h at 24 degC, "
         "and older German tables, 30 to 60 g/h, quoted; heat: [ASH-F18]"},
        {"active", 0.081, 0.055, 0.175, 75.0, 1.8,
         "water: 55 W of latent heat, [ASH-F18], [DIN4108-8] family 90 g/h; "
         "heat: [ASH-F18]"},
    };
    /* clang-format on */
    return (unsigned)activity < DEW_ACTIVITIES ? &rows[activity] : NULL;
}

/* Sums over one day of a habit, per person of the household. */
struct day_sums {
    double hours, water, heat, co2;
    double water_at[HOURS];
};

static struct day_sums day_of(const struct dew_habit *habit, int weekend)
{
    struct day_sums sum = {0};

    for (int h = 0; h < HOURS; h++) {
        double here = habit->present[weekend][h];
        double asleep = here * habit->asleep[weekend][h];
        double active = (here - asleep) * habit->active[weekend][h];
        double share[DEW_ACTIVITIES] = {asleep, here - asleep - active, active};

        sum.hours += here;
        for (int a = 0; a < DEW_ACTIVITIES; a++) {
            const struct dew_body *body = dew_house_body((enum dew_activity)a);

            sum.water_at[h] += share[a] * body->water;
            sum.heat += share[a] * body->sensible;
            sum.co2 += share[a] * dew_house_co2_adult(body->met);
        }
        sum.water += sum.water_at[h];
    }
    return sum;
}

/* Shares of the day's water by hour; a day with nobody there is spread flat,
   since a shape must sum to 1. */
static void water_shape(const struct day_sums *day, double out[HOURS])
{
    for (int h = 0; h < HOURS; h++)
        out[h] = day->water > 0.0 ? day->water_at[h] / day->water : 1.0 / HOURS;
}

static double week(double working, double weekend)
{
    return weekdays * working + (1.0 - weekdays) * weekend;
}

enum dew_status dew_house_people(double count, const struct dew_habit *habit,
                                 struct dew_people *people,
                                 struct dew_water *water, struct dew_error *err)
{
    struct day_sums working = day_of(habit, 0), weekend = day_of(habit, 1);
    double hours = week(working.hours, weekend.hours);
    struct dew_water out = {0};

    if (!(count >= 0.0 && count <= 40.0)) {
        core__in(err, "count");
        return core__fail(err, DEW_ERANGE, "%g is outside 0 .. 40 persons",
                          count);
    }
    people->count = count;
    people->sensible_w = week(working.heat, weekend.heat) / hours;
    people->co2 = week(working.co2, weekend.co2) / hours;
    memcpy(people->present_weekday, habit->present[0],
           sizeof people->present_weekday);
    memcpy(people->present_weekend, habit->present[1],
           sizeof people->present_weekend);
    out.per_day = count * week(working.water, weekend.water);
    water_shape(&working, out.shape.weekday);
    water_shape(&weekend, out.shape.weekend);
    *water = out;
    return DEW_OK;
}

double dew_house_gains(double floor_area)
{
    return 3.0 * floor_area;
}

static double heat_share_of(enum dew_source source)
{
    return source == DEW_SOURCE_laundry || source == DEW_SOURCE_plants ||
                   source == DEW_SOURCE_ground
               ? 1.0
               : 0.0;
}

struct dew_water dew_house_scheduled(enum dew_source source, double per_day,
                                     const struct dew_shape *shape)
{
    return (struct dew_water){
        .per_day = per_day,
        .shape = *shape,
        .heat_share = heat_share_of(source),
    };
}

static struct dew_shape flat(void)
{
    struct dew_shape out;

    for (int h = 0; h < HOURS; h++)
        out.weekday[h] = out.weekend[h] = 1.0 / HOURS;
    return out;
}

static double normal_drive(void)
{
    return (1.0 - normal_rh) * dew_air_pws(normal_t);
}

struct dew_water dew_house_felt(enum dew_source source, double per_day)
{
    return (struct dew_water){
        .shape = flat(),
        .rate = per_day / day_s / normal_drive(),
        .heat_share = heat_share_of(source),
    };
}

double dew_house_told(const struct dew_water *water)
{
    return water->per_day + water->rate * normal_drive() * day_s;
}

struct dew_water dew_house_drying(double kg, double half_life, double start_day)
{
    return (struct dew_water){
        .per_day = half_life > 0.0 ? kg * ln2 / half_life : NAN,
        .shape = flat(),
        .half_life = half_life,
        .start_day = start_day,
        .heat_share = 0.0,
    };
}

double dew_house_dried(const struct dew_water *drying, double start, double end)
{
    double rate = ln2 / drying->half_life;
    double from = fmax(start - drying->start_day, 0.0);
    double to = fmax(end - drying->start_day, from);

    return drying->per_day / rate * exp(-rate * from) *
           -expm1(-rate * (to - from));
}

enum dew_status dew_house_spread_total(double total,
                                       const struct dew_shape *shape,
                                       struct dew_water water[DEW_SOURCES],
                                       struct dew_error *err)
{
    double sum = 0.0;

    if (!(total >= 0.0 && total <= 500.0)) {
        core__in(err, "total");
        return core__fail(err, DEW_ERANGE, "%g is outside 0 .. 500 kg/day",
                          total);
    }
    for (int i = 0; i < DEW_SOURCES; i++)
        sum += water[i].per_day;
    if (sum > 0.0)
        for (int i = 0; i < DEW_SOURCES; i++)
            water[i].per_day *= total / sum;
    else
        water[DEW_SOURCE_other] =
            dew_house_scheduled(DEW_SOURCE_other, total, shape);
    return DEW_OK;
}
