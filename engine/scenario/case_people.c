/* SPDX-License-Identifier: GPL-3.0-or-later */
/* People, their heat and the water set free. */
#include <math.h>

#include "core/fail.h"
#include "dew/sources.h"
#include "scenario/case.h"

static const double day_s = 86400.0;
static const double hour_s = 3600.0;

double scenario__people_count(const struct dew_value *v)
{
    return SI_OR(v, people_count, SI(v, house_bedrooms) + 1);
}

/* ---- people ------------------------------------------------------------------- */

static double mean_hours(const struct dew_people *p)
{
    double hours = 0;

    for (int h = 0; h < 24; h++)
        hours += (5 * p->present_weekday[h] + 2 * p->present_weekend[h]) / 7;
    return hours;
}

static const struct dew_habit *habit_of(const struct scenario__making *m,
                                        struct dew_habit *own,
                                        double present[2][24])
{
    size_t count;
    char word[40];
    const struct dew_value *v = m->v;
    const struct dew_field *f =
        &dew_scenario_fields(&count)[KEY_people_schedule];
    const struct dew_habit *habit = dew_house_habit(
        dew_scenario_show(f, &v[KEY_people_schedule], 0, word, sizeof word));

    if (habit == NULL)
        return NULL;
    *own = *habit;
    for (int d = 0; d < 2; d++)
        if (v[KEY_people_weekday + d].given) {
            scenario__fill_day(&v[KEY_people_weekday + d], 0, present[d]);
            own->present[d] = present[d];
        }
    return own;
}

static enum dew_status make_people(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    struct dew_people *p = &m->c->house.people;
    struct dew_water *water = &m->c->house.water[DEW_SOURCE_people];
    struct dew_habit own;
    double present[2][24];
    const struct dew_habit *habit = habit_of(m, &own, present);
    enum dew_status status;

    if (habit == NULL)
        return core__fail(m->err, DEW_EUNKNOWN, "no such schedule of people");
    status =
        dew_house_people(scenario__people_count(v), habit, p, water, m->err);
    if (status != DEW_OK)
        return status;
    p->sensible_w = SI_OR(v, people_heat_each, p->sensible_w);
    p->co2 = SI_OR(v, people_carbon_dioxide_each, p->co2);
    water->per_day =
        GIVEN(v, people_water_each)
            ? SI(v, people_water_each) * hour_s * mean_hours(p) * p->count
            : scenario__moved(&v[KEY_people_water_each], water->per_day);
    p->gains_w =
        SI_OR(v, people_appliances, dew_house_gains(SI(v, house_floor_area)));
    p->gains_convective = 0.5; /* [ISO13790] annex C */
    return dew_house_shape("waking", &p->gains_shape, m->err);
}

/* ---- water ------------------------------------------------------------------ */

/* kg/day of a key that takes events (each of kg) or water a day. */
static double daily(const struct dew_value *v, double each)
{
    if (!v->given)
        return 0;
    if (v->unit != NULL && v->unit->quantity == DEW_WATER_RATE)
        return v->amount.si * day_s;
    if (v->unit != NULL && v->unit->quantity == DEW_PER_DAY)
        return v->amount.si * day_s * each;
    return v->amount.si * each;
}

/* kg/day of these people, by the published figure for four. */
static double for_four(const struct dew_value *v, const char *amount)
{
    return dew_house_amount(amount)->likely * scenario__people_count(v) / 4;
}

static double cooking(const struct dew_value *v)
{
    if (WORD(v, moisture_cooking) == COOKING_none)
        return 0;
    if (GIVEN(v, moisture_cooking_water))
        return SI(v, moisture_cooking_water) * day_s;
    return scenario__moved(&v[KEY_moisture_cooking_water],
                           for_four(v, WORD(v, moisture_cooking) == COOKING_gas
                                           ? "cooking_gas"
                                           : "cooking_electric"));
}

static double dishes(const struct dew_value *v)
{
    return GIVEN(v, moisture_dishes)
               ? SI(v, moisture_dishes) * day_s
               : scenario__moved(&v[KEY_moisture_dishes],
                                 for_four(v, "dishes_by_hand"));
}

/* One a day for each. */
static double usual_showers(const struct dew_value *v)
{
    return scenario__moved(&v[KEY_moisture_showers], scenario__people_count(v));
}

static double showers(const struct dew_value *v)
{
    double taken =
        GIVEN(v, moisture_showers)
            ? daily(&v[KEY_moisture_showers], SI(v, moisture_shower_water))
            : usual_showers(v) * SI(v, moisture_shower_water);

    return taken + daily(&v[KEY_moisture_baths], SI(v, moisture_bath_water));
}

/* Events a day of a key that takes events or their water. */
static double events(const struct dew_value *v, double each)
{
    int water = v->unit != NULL && v->unit->quantity == DEW_WATER_RATE;

    if (!v->given)
        return 0;
    return v->amount.si * day_s / (water ? each : 1);
}

double scenario__showers(const struct dew_value *v)
{
    double taken =
        GIVEN(v, moisture_showers)
            ? events(&v[KEY_moisture_showers], SI(v, moisture_shower_water))
            : usual_showers(v);

    return taken + events(&v[KEY_moisture_baths], SI(v, moisture_bath_water));
}

double scenario__meals(const struct dew_value *v)
{
    return WORD(v, moisture_cooking) == COOKING_none ? 0 : 3; /* a day */
}

static double pets(const struct dew_value *v)
{
    const double per_kg = 0.47 / 23;  /* kg/day, a pint for 50 lb, quoted */
    const double per_m2 = 0.040 * 24; /* kg/day [DIN4108-8] */

    return daily(&v[KEY_moisture_pets], per_kg) +
           SI(v, moisture_aquarium) * per_m2;
}

struct line {
    enum dew_source source;
    double per_day;
    const char *shape;
    int feels;
};

static enum dew_status put(const struct scenario__making *m,
                           const struct line *l)
{
    struct dew_water *water = &m->c->house.water[l->source];
    struct dew_shape shape;
    enum dew_status status = dew_house_shape(l->shape, &shape, m->err);

    if (status != DEW_OK)
        return status;
    *water = l->feels && l->per_day > 0
                 ? dew_house_felt(l->source, l->per_day)
                 : dew_house_scheduled(l->source, l->per_day, &shape);
    return DEW_OK;
}

static enum dew_status put_all(const struct scenario__making *m,
                               const struct line *lines, size_t count)
{
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < count && status == DEW_OK; i++)
        status = put(m, &lines[i]);
    return status;
}

static enum dew_status living(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    int feels = WORD(v, moisture_felt) && !GIVEN(v, moisture_total);
    const struct line lines[] = {
        {DEW_SOURCE_showers, showers(v), "morning", 0},
        {DEW_SOURCE_cooking, cooking(v), "meals", 0},
        {DEW_SOURCE_dishes, dishes(v), "meals", 0},
        {DEW_SOURCE_laundry,
         daily(&v[KEY_moisture_laundry_dried_indoors],
               SI(v, moisture_laundry_water)),
         "daytime", 0},
        {DEW_SOURCE_plants,
         daily(&v[KEY_moisture_plants], SI(v, moisture_plant_water) * day_s),
         "all_day", feels},
        {DEW_SOURCE_pets, pets(v), "all_day", 0},
        {DEW_SOURCE_burning, SI(v, moisture_burning) * day_s, "waking", 0},
        {DEW_SOURCE_other, SI(v, moisture_other) * day_s, "all_day", 0},
    };
    struct dew_shape waking;
    enum dew_status status = put_all(m, lines, sizeof lines / sizeof lines[0]);

    if (status == DEW_OK)
        status = dew_house_shape("waking", &waking, m->err);
    if (status == DEW_OK && GIVEN(v, moisture_total))
        status = dew_house_spread_total(SI(v, moisture_total) * day_s, &waking,
                                        m->c->house.water, m->err);
    return status;
}

/*
 * kg of construction water left when the year begins.  Where it is not told
 * but the house is younger than two years: what gives off 4.7 kg/day when just
 * finished, [AO88], less what has gone since by its half-life.
 */
double scenario__construction_water(const struct dew_value *v)
{
    const double fresh = 4.7, young = 2 * 365 * day_s; /* kg/day, s */
    double half_life = SI(v, moisture_drying_half_life);

    if (GIVEN(v, moisture_drying))
        return SI(v, moisture_drying);
    if (!GIVEN(v, safety_house_age) || SI(v, safety_house_age) >= young)
        return 0;
    return scenario__moved(&v[KEY_moisture_drying],
                           fresh * half_life / day_s / log(2) *
                               exp2(-SI(v, safety_house_age) / half_life));
}

/* What the ventilator's stale-air grilles are said to take; a layout that is
   written down works it out afterwards. */
static void make_pickups(const struct scenario__making *m)
{
    struct dew_water *water = m->c->house.water;

    water[DEW_SOURCE_showers].caught = SI_OR(m->v, ducts_shower_caught, 0);
    water[DEW_SOURCE_cooking].caught = SI_OR(m->v, ducts_cooking_caught, 0);
    water[DEW_SOURCE_laundry].caught = SI_OR(m->v, ducts_laundry_caught, 0);
}

static enum dew_status make_water(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    struct line ground = {DEW_SOURCE_ground, SI(v, moisture_ground) * day_s,
                          "all_day", WORD(v, moisture_felt)};
    struct dew_water *water = m->c->house.water;
    enum dew_status status = living(m);

    if (status == DEW_OK)
        status = put(m, &ground);
    if (status != DEW_OK)
        return status;
    if (WORD(v, ventilator_core) != DEW_CORE_none)
        make_pickups(m);
    if (scenario__construction_water(v) > 0)
        water[DEW_SOURCE_drying] =
            dew_house_drying(scenario__construction_water(v),
                             SI(v, moisture_drying_half_life) / day_s, 0);
    return DEW_OK;
}

enum dew_status scenario__make_people(struct scenario__making *m)
{
    enum dew_status status = make_people(m);

    return status == DEW_OK ? make_water(m) : status;
}
