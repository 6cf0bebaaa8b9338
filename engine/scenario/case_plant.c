/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Air handlers, heating, control, dryers and local exhausts. */
#include <math.h>

#include "core/fail.h"
#include "dew/air.h"
#include "dew/coil.h"
#include "dew/dryer.h"
#include "dew/library.h"
#include "dew/plant.h"
#include "dew/sources.h"
#include "scenario/case.h"

static const double btu_per_wh = 3.412141633; /* [SP811] */

/* ---- air handlers -------------------------------------------------------------- */

double scenario__heating_capacity(const struct dew_value *v)
{
    const double ample = 150; /* W/m2, more than a house needs, our own */

    return SI_OR(v, heating_capacity, ample * SI(v, house_floor_area));
}

int scenario__handlers(const struct dew_value *v)
{
    int by_air =
        WORD(v, heating_kind) != HEATING_none && WORD(v, heating_by_air);

    if (GIVEN(v, air_handlers))
        return (int)SI(v, air_handlers);
    return GIVEN(v, cooling_capacity) || by_air ? 1 : 0;
}

/* A key of handler i, which falls back on the first one's. */
static const struct dew_value *own(const struct dew_value *v, int i,
                                   enum scenario__key first, int offset)
{
    int keys = KEY_third_handler_capacity - KEY_second_handler_capacity;
    const struct dew_value *mine =
        &v[KEY_second_handler_capacity + (i - 1) * keys + offset];

    return i > 0 && mine->given ? mine : &v[first];
}

enum { CAPACITY, SHR, AIRFLOW, BLOWER_POWER };

/* The library's rows; where a key takes none too, that word stands first. */
static const struct dew_typical_blower *motor(const struct dew_value *v)
{
    return dew_plant_typical_blower((size_t)WORD(v, cooling_motor));
}

const struct dew_typical_cooler *scenario__typical_cooler(
    const struct dew_value *v)
{
    int word = WORD(v, cooling_typical);

    return word > 0 ? dew_plant_typical_cooler((size_t)word - 1) : NULL;
}

static double of_table(const struct dew_value *v, const struct dew_range *r)
{
    return scenario__within(v, r->low, r->likely, r->high);
}

/* A share of the hour, or so long in each. */
static double share_of_hour(const struct dew_value *v)
{
    int is_time = v->unit != NULL && v->unit->quantity == DEW_TIME;

    return v->amount.si / (is_time ? 3600.0 : 1.0);
}

static void blower(const struct dew_value *v, struct dew_handler *h)
{
    const struct dew_typical_blower *row = motor(v);
    double low = GIVEN(v, cooling_low_flow)
                     ? SI(v, cooling_low_flow) * SI(v, cooling_low_flow)
                     : row->low_power;

    h->mode = (enum dew_blower_mode)WORD(v, cooling_blower);
    h->minutes = share_of_hour(&v[KEY_cooling_blower_minutes]);
    h->blower_low = SI_OR(v, cooling_low_flow, row->low_flow);
    h->blower_low_w = SI_OR(v, cooling_low_power, h->blower_w * low);
}

/* What puts water back, at the end of its range that is asked for. */
static double by_coil(const struct scenario__making *m,
                      const struct dew_value *v)
{
    return m->coil < 0   ? v->amount.low
           : m->coil > 0 ? v->amount.high
                         : v->amount.si;
}

/* Air at the low stage: 75 % at 70 % of the capacity, from memory, and a
   straight line from there to the whole. */
static double usual_air(const struct dew_handler *h)
{
    double low = h->turndown < 1 ? h->turndown : h->low_stage;

    return 1 - (1 - low) * (1 - 0.75) / (1 - 0.70);
}

static void coil_habits(const struct scenario__making *m, struct dew_handler *h)
{
    const struct dew_value *v = m->v;
    const struct dew_typical_cooler *row = scenario__typical_cooler(v);

    h->cycling = row != NULL && !SAID(v, cooling_cycling_loss)
                     ? row->cycling
                     : SI(v, cooling_cycling_loss);
    h->cycles_max = SI(v, cooling_cycles) * 3600;
    h->hold_s = SI(v, cooling_coil_hold);
    h->gamma = SI(v, cooling_coil_drying);
    h->off_delay = by_coil(m, &v[KEY_cooling_blower_off_delay]);
    h->still = by_coil(m, &v[KEY_cooling_still_air]);
    h->low_stage = row != NULL && !SAID(v, cooling_low_stage)
                       ? row->low_stage
                       : SI(v, cooling_low_stage);
    h->turndown = row != NULL && !SAID(v, cooling_turndown)
                      ? row->turndown
                      : SI(v, cooling_turndown);
    h->low_air = h->low_stage < 1 || h->turndown < 1
                     ? SI_OR(v, cooling_low_stage_air, usual_air(h))
                     : scenario__cell_or(&v[KEY_cooling_low_stage_air], 1);
    h->overcool = SI(v, cooling_overcool);
    h->overcool_rh = SI(v, cooling_overcool_above);
}

static enum dew_status cooler(const struct scenario__making *m, int i,
                              struct dew_handler *h)
{
    const struct dew_value *v = m->v;
    double capacity = own(v, i, KEY_cooling_capacity, CAPACITY)->amount.si;
    const struct dew_value *w =
        own(v, i, KEY_cooling_blower_power, BLOWER_POWER);
    const struct dew_value *share = own(v, i, KEY_cooling_shr, SHR);
    const struct dew_typical_cooler *row = scenario__typical_cooler(v);
    double air = own(v, i, KEY_cooling_airflow, AIRFLOW)->amount.si * capacity;
    struct dew_coil_label label = {
        .capacity = capacity,
        .is_net = WORD(v, cooling_capacity_is) == CAPACITY_net,
        .shr = row != NULL && share->origin.by == DEW_BY_DEFAULT
                   ? of_table(share, &row->shr)
                   : share->amount.si,
        .air = air,
        .blower_w =
            w->given ? w->amount.si : of_table(w, &motor(v)->power) * air,
        .eer = SI_OR(v, cooling_eer, NAN) / btu_per_wh,
        .seer = GIVEN(v, cooling_eer) ? NAN
                : row != NULL && !SAID(v, cooling_seer)
                    ? of_table(&v[KEY_cooling_seer], &row->seer)
                    : SI(v, cooling_seer) / btu_per_wh,
        .cop = NAN,
        .cycling = h->cycling,
    };

    return dew_plant_coil_gross(&label, h, m->err);
}

/* Heating by air only: a blower without a coil, sized as for 1 ton per 46 m2
   (500 ft2), common practice. */
static void blower_only(const struct scenario__making *m, int count,
                        struct dew_handler *h)
{
    const double air_per_area = 0.18878 / 46.45; /* 400 cfm for 500 ft2 */
    const struct dew_value *v = m->v;

    h->air = air_per_area * SI(v, house_floor_area) / count;
    h->shr = 1;
    h->cop = 3;
    h->blower_w = SI_OR(
        v, cooling_blower_power,
        of_table(&v[KEY_cooling_blower_power], &motor(v)->power) * h->air);
}

/* A coil whose blower turns the rooms' air over within a step wets and dries
   them faster than the march can follow; houses have 3 to 10 an hour, and the
   limit is ours. */
static enum dew_status fits_house(const struct scenario__making *m)
{
    const double most = 30.0;
    const struct dew_plant *p = &m->c->plant;
    double air = 0.0, turns;

    for (int i = 0; i < p->handler_count; i++)
        air += p->handlers[i].capacity > 0.0 ? p->handlers[i].air : 0.0;
    turns = 3600.0 * air / m->c->house.volume;
    if (turns <= most)
        return DEW_OK;
    return core__fail(
        m->err, DEW_ERANGE,
        "its blowers would turn the air of the house over %.0f "
        "times an hour, and %.0f is the most that can be modelled "
        "(houses have 3 to 10): too large a machine for so small "
        "a house",
        turns, most);
}

static enum dew_status make_handlers(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    struct dew_plant *p = &m->c->plant;

    p->handler_count = scenario__handlers(v);
    p->lead_lag =
        (WORD(v, handlers_run) == HANDLERS_lead_lag) != m->other_handlers;
    for (int i = 0; i < p->handler_count; i++) {
        struct dew_handler *h = &p->handlers[i];
        coil_habits(m, h);
        if (GIVEN(v, cooling_capacity)) {
            enum dew_status status = cooler(m, i, h);

            if (status != DEW_OK)
                return status;
        } else {
            blower_only(m, p->handler_count, h);
        }
        blower(v, h);
    }
    return fits_house(m);
}

/* ---- heating ----------------------------------------------------------------- */

static void make_heater(const struct scenario__making *m)
{
    /* Efficiency from memory; the heat pump has its COPs. */
    static const struct {
        double usual;
        int fuel;
    } kinds[] = {
        [HEATING_electric] = {1, 0}, [HEATING_gas] = {0.90, 1},
        [HEATING_oil] = {0.83, 2},   [HEATING_propane] = {0.90, 3},
        [HEATING_wood] = {0.70, 4},  [HEATING_heat_pump] = {0, 0},
    };
    const struct dew_value *v = m->v;
    int kind = WORD(v, heating_kind);
    double capacity;

    if (kind == HEATING_none || m->c->house.comfort.given)
        return;
    capacity = scenario__heating_capacity(v);
    m->c->plant.heater = (struct dew_heater){
        .capacity = capacity,
        .backup =
            kind == HEATING_heat_pump ? SI_OR(v, heating_backup, capacity) : 0,
        .efficiency = kind == HEATING_heat_pump ? 0
                      : kind == HEATING_electric
                          ? scenario__cell_or(&v[KEY_heating_efficiency],
                                              kinds[kind].usual)
                          : SI_OR(v, heating_efficiency, kinds[kind].usual),
        .cop_warm = SI(v, heating_cop_warm),
        .cop_cold = SI(v, heating_cop_cold),
        .fuel = kinds[kind].fuel,
        .by_air = WORD(v, heating_by_air) && m->c->plant.handler_count > 0,
    };
}

/* ---- control -------------------------------------------------------------- */

/* Share of each hour that boosts of showers and meals last. */
static enum dew_status make_events(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    double hours = SI(v, control_boost_time) / 3600;
    struct dew_shape morning, meals;
    enum dew_status status = dew_house_shape("morning", &morning, m->err);

    if (status == DEW_OK)
        status = dew_house_shape("meals", &meals, m->err);
    for (int h = 0; status == DEW_OK && h < 24; h++) {
        double count = scenario__showers(v) * morning.weekday[h] +
                       scenario__meals(v) * meals.weekday[h];

        m->c->plant.control.events[h] = fmin(count * hours, 1);
    }
    return status;
}

static double lockout_w(const struct scenario__making *m)
{
    const double any = 1e-6; /* kg/kg, below all outdoor air */
    const struct dew_value *v = m->v;

    if (GIVEN(v, control_lockout_dew_point))
        return dew_air_w_dew_liquid(SI(v, control_lockout_dew_point),
                                    m->o->pressure);
    if (GIVEN(v, control_lockout_humidity_ratio))
        return SI(v, control_lockout_humidity_ratio);
    return GIVEN(v, control_lockout_unless_drier) ? any : 0;
}

static void make_control(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    struct dew_control *c = &m->c->plant.control;

    scenario__fill_day(&v[KEY_control_weekday], SI(v, control_run),
                       c->on_weekday);
    scenario__fill_day(&v[KEY_control_weekend], SI(v, control_run),
                       c->on_weekend);
    c->boost_rh = SI_OR(v, control_boost_above, 0);
    c->boost_band = SI(v, control_boost_band);
    c->event_boost = SI(v, control_boost_for_events);
    c->lockout_w = lockout_w(m);
    c->lockout_excess = SI_OR(v, control_lockout_unless_drier, NAN);
    c->lockout_least = SI(v, control_lockout_least);
    c->winter_rh[0] = SI_OR(v, control_winter_target, 0);
    c->winter_rh[1] = SI_OR(v, control_winter_target_cold, c->winter_rh[0]);
    c->bypass_low = SI_OR(v, control_bypass_above, NAN);
    c->bypass_indoor =
        SI_OR(v, control_bypass_indoor,
              GIVEN(v, control_bypass_above) ? SI(v, temperature_heat) : NAN);
}

static void make_frost(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    const struct dew_value *f = &v[KEY_ventilator_frost];
    enum dew_frost strategy =
        f->given ? (enum dew_frost)f->choice : DEW_FROST_RECIRCULATE;
    struct dew_plant *p = &m->c->plant;

    p->core_is_wheel = WORD(v, ventilator_core) == DEW_CORE_enthalpy_wheel;
    p->core_passes_water = WORD(v, ventilator_core) >= DEW_CORE_enthalpy_plate;
    if (!scenario__recovers(v))
        strategy = DEW_FROST_NONE;
    p->frost = dew_plant_frost_usual(strategy, p->core_passes_water);
    p->frost.start = SI_OR(v, ventilator_frost_start, p->frost.start);
    p->frost.deep = fmin(SI(v, ventilator_frost_deep), p->frost.start - 1);
    p->frost.share = SI_OR(v, ventilator_frost_time, p->frost.share);
    p->frost.share_deep =
        SI_OR(v, ventilator_frost_time_deep, p->frost.share_deep);
}

/* ---- dryers ------------------------------------------------------------------ */

/* What its owner sees in a day in which it ran only a share of the time. */
static void seen(const struct dew_value *v, struct dew_dryer_label *label)
{
    double running = SI(v, dehumidifier_running);

    label->rating_t = label->t;
    label->rating_rh = label->rh;
    label->rate = SI(v, dehumidifier_observed) / (running > 0 ? running : 1);
    label->t =
        SI_OR(v, dehumidifier_observed_temperature, SI(v, temperature_cool));
    label->rh =
        SI_OR(v, dehumidifier_observed_humidity, SI(v, dehumidifier_set));
}

const struct dew_typical_dryer *scenario__typical_dryer(
    const struct dew_value *v)
{
    int word = WORD(v, dehumidifier_typical);

    return word > 0 ? dew_plant_typical_dryer((size_t)word - 1) : NULL;
}

static enum dew_dryer_test test_of(const struct dew_value *v)
{
    return (enum dew_dryer_test)WORD(v, dehumidifier_rating);
}

/* Of a machine whose efficiency is not told: the least that was sold of its
   size, which is what it takes out at its rating point. */
static double least_sold(const struct dew_value *v,
                         const struct dew_dryer_label *label)
{
    double rate = label->rate;

    if (!isnan(label->rating_t)) /* seen in another air */
        rate *= dew_plant_dryer_removal(label->rating_t, label->rating_rh) /
                dew_plant_dryer_removal(label->t, label->rh);
    return dew_plant_dryer_least_factor(test_of(v), rate);
}

static enum dew_status make_dryer(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    const struct dew_typical_dryer *row = scenario__typical_dryer(v);
    struct dew_dryer *d = &m->c->plant.dryer;
    struct dew_dryer_label label = {
        .rate = SI(v, dehumidifier_rate),
        .factor = GIVEN(v, dehumidifier_power)    ? NAN
                  : GIVEN(v, dehumidifier_factor) ? SI(v, dehumidifier_factor)
                  : row != NULL
                      ? of_table(&v[KEY_dehumidifier_factor], &row->factor)
                      : NAN,
        .watts = SI_OR(v, dehumidifier_power, NAN),
        .t = row != NULL && !SAID(v, dehumidifier_rating)
                 ? row->rating_t
                 : dew_plant_dryer_test_t(test_of(v)),
        .rh = 0.60,
        .rating_t = NAN,
        .rating_rh = NAN,
    };

    if (GIVEN(v, dehumidifier_observed))
        seen(v, &label);
    else if (!GIVEN(v, dehumidifier_rate))
        return DEW_OK;
    if (!(label.rate > 0))
        return DEW_OK;
    if (isnan(label.factor) && isnan(label.watts))
        label.factor =
            scenario__moved(&v[KEY_dehumidifier_factor], least_sold(v, &label));
    d->set = SI(v, dehumidifier_set);
    d->band = SI(v, dehumidifier_band);
    d->outdoor = SI(v, dehumidifier_fresh_air);
    d->drained = SI(v, dehumidifier_running);
    return dew_plant_dryer_of(&label, d, m->err);
}

static void make_humidifier(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;

    if (GIVEN(v, humidifier_rate))
        m->c->plant.humidifier = (struct dew_humidifier){
            SI(v, humidifier_rate), SI(v, humidifier_set),
            SI(v, humidifier_band),
            WORD(v, humidifier_kind) == HUMIDIFIER_evaporative};
}

/* ---- local exhaust ------------------------------------------------------- */

/* Hours of a day on a shape, no hour fuller than what others leave of it. */
static void spread(double hours, const double shape[24], double free_share[24],
                   double out[24])
{
    for (int turn = 0; turn < 24 && hours > 1e-9; turn++) {
        double open = 0, placed = 0;

        for (int h = 0; h < 24; h++)
            open += free_share[h] > 0 ? shape[h] : 0;
        if (!(open > 0))
            return;
        for (int h = 0; h < 24; h++) {
            double part = free_share[h] > 0
                              ? fmin(hours * shape[h] / open, free_share[h])
                              : 0;

            out[h] += part;
            free_share[h] -= part;
            placed += part;
        }
        hours -= placed;
    }
}

/* Hours a day of a fan that runs on by so many hours after each event. */
static double usual_run(const struct dew_value *v, int e, double run_on)
{
    /* h, common practice, no source: a shower, a meal, a day's laundry */
    static const double event[DEW_LOCALS] = {8.0 / 60, 20.0 / 60, 0.7};
    double count = e == DEW_LOCAL_BATH      ? scenario__showers(v)
                   : e == DEW_LOCAL_KITCHEN ? scenario__meals(v)
                                            : 1;

    return count * (event[e] + run_on);
}

static enum dew_status make_exhausts(const struct scenario__making *m)
{
    static const char *const shapes[] = {"morning", "meals", "daytime"};
    static const enum scenario__key flow[] = {
        KEY_bath_fan_flow, KEY_range_hood_flow, KEY_clothes_dryer_flow};
    enum { FLOW, POWER, RUN, RUN_ON, CAPTURE };
    double free_share[24];

    for (int h = 0; h < 24; h++)
        free_share[h] = 1;
    for (int e = 0; e < DEW_LOCALS; e++) {
        const struct dew_value *v = &m->v[flow[e]];
        struct dew_exhaust *x = &m->c->plant.exhausts[e];
        struct dew_shape shape;
        enum dew_status status = dew_house_shape(shapes[e], &shape, m->err);

        if (status != DEW_OK)
            return status;
        if (!v[FLOW].given || !(v[FLOW].amount.si > 0))
            continue;
        x->flow = v[FLOW].amount.si;
        x->watts = v[POWER].amount.si;
        x->caught = v[CAPTURE].amount.si;
        spread(v[RUN].given
                   ? 24 * v[RUN].amount.si
                   : fmin(scenario__moved(
                              &v[RUN],
                              usual_run(m->v, e, v[RUN_ON].amount.si / 3600)),
                          24),
               shape.weekday, free_share, x->hours);
    }
    return DEW_OK;
}

enum dew_status scenario__make_plant(struct scenario__making *m)
{
    enum dew_status status = make_handlers(m);

    make_heater(m);
    make_control(m);
    make_frost(m);
    make_humidifier(m);
    if (status == DEW_OK)
        status = make_events(m);
    if (status == DEW_OK)
        status = make_dryer(m);
    if (status == DEW_OK)
        status = make_exhausts(m);
    return status;
}
