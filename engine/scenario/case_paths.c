/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Air paths from the ventilator's own figures, all blower states alike.
 * Where a layout is written down, case_ducts.c puts the states of its network
 * in their place; else short-circuit and coil shares are the keys'.
 */
#include <math.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"
#include "dew/core.h"
#include "dew/rates.h"
#include "scenario/case.h"

int scenario__recovers(const struct dew_value *v)
{
    return WORD(v, ventilator_core) >= DEW_CORE_heat_plate;
}

/* m3/s */
double scenario__required(const struct dew_value *v)
{
    const struct dew_dwelling home = {.floor_area = SI(v, house_floor_area),
                                      .bedrooms = (int)SI(v, house_bedrooms)};

    if (GIVEN(v, limits_fresh_air))
        return SI(v, limits_fresh_air);
    if (WORD(v, limits_fresh_air_rule) == FRESH_AIR_none)
        return 0;
    return dew_house_rate(WORD(v, limits_fresh_air_rule) ==
                                  FRESH_AIR_floor_and_bedrooms_old
                              ? DEW_RATE_622_2010
                              : DEW_RATE_622_2013,
                          &home);
}

double scenario__vent_flow(const struct dew_value *v)
{
    return SI_OR(v, ventilator_flow, scenario__required(v));
}

/* ---- core ---------------------------------------------------------------------- */

const struct dew_typical_core *scenario__typical_core(const struct dew_value *v)
{
    const char *key =
        WORD(v, ventilator_core) == DEW_CORE_enthalpy_plate   ? "enthalpy_plate"
        : WORD(v, ventilator_core) == DEW_CORE_enthalpy_wheel ? "enthalpy_wheel"
        : WORD(v, ventilator_exchange) == EXCHANGE_crossflow
            ? "crossflow_plate"
            : "counterflow_plate";
    const struct dew_typical_core *row;

    if (!WORD(v, ventilator_typical) || !scenario__recovers(v))
        return NULL;
    for (size_t i = 0; (row = dew_plant_typical_core(i)) != NULL; i++)
        if (strcmp(row->key, key) == 0)
            return row;
    return NULL;
}

/* One end of a typical range, or between them as a change has it. */
static double typical(const struct dew_value *v, const struct dew_range *r,
                      enum dew_reading reading)
{
    return reading == DEW_READ_LOW ? r->low
           : reading == DEW_READ_HIGH
               ? r->high
               : scenario__within(v, r->low, r->likely, r->high);
}

double scenario__cross_leakage(const struct dew_value *v)
{
    const struct dew_typical_core *row = scenario__typical_core(v);
    /* Plates and wheels, from memory. */
    double usual =
        WORD(v, ventilator_core) == DEW_CORE_enthalpy_wheel ? 0.04 : 0.01;

    return SI_OR(v, ventilator_cross_leakage,
                 row != NULL ? typical(&v[KEY_ventilator_cross_leakage],
                                       &row->eatr, DEW_READ_LIKELY)
                             : usual);
}

/* W at the set flow: the least of manufactured homes, 1.2 cfm/W [CFR460]. */
static double fan_watts(const struct dew_value *v)
{
    const struct dew_typical_core *row = scenario__typical_core(v);
    const double watts_per_flow =
        row != NULL
            ? typical(&v[KEY_ventilator_power], &row->power, DEW_READ_LIKELY)
            : 1 / (1.2 * 4.719474432e-4);
    int both = WORD(v, ventilator_core) >= DEW_CORE_balanced;

    return SI_OR(v, ventilator_power,
                 watts_per_flow * scenario__vent_flow(v) * (both ? 1 : 0.5));
}

static void blank_row(struct dew_core_row *row)
{
    *row = (struct dew_core_row){NAN, NAN, NAN, NAN, NAN, NAN, NAN,
                                 NAN, NAN, NAN, NAN, NAN, NAN};
}

/* "74 % at 95 cfm" rows: a row for each flow that either list names. */
static void rows_of_lists(const struct dew_value *v,
                          struct dew_core_sheet *sheet)
{
    const struct dew_value *lists[] = {&v[KEY_ventilator_sensible],
                                       &v[KEY_ventilator_moisture]};

    for (int l = 0; l < 2; l++)
        for (size_t i = 0; i < lists[l]->count; i++) {
            const struct dew_value *item = &lists[l]->items[i];
            int k = 0;

            while (k < sheet->count && sheet->rows[k].flow != item->at)
                k++;
            if (k == DEW_CORE_ROWS)
                return;
            if (k == sheet->count) {
                blank_row(&sheet->rows[sheet->count++]);
                sheet->rows[k].flow = item->at;
                sheet->rows[k].eatr = scenario__cross_leakage(v);
            }
            if (l == 0)
                sheet->rows[k].sensible = item->amount.si;
            else
                sheet->rows[k].latent = item->amount.si;
        }
}

static void rows_of_ratings(const struct dew_value *v,
                            struct dew_core_sheet *sheet)
{
    const struct dew_value *ratings = &v[KEY_ventilator_ratings];

    sheet->count = (int)ratings->count;
    for (int k = 0; k < sheet->count; k++) {
        const struct dew_value *cell =
            &ratings->items[k * SCENARIO__RATING_COLUMNS];
        struct dew_core_row *row = &sheet->rows[k];

#define RATED(name)                                                            \
    (cell[RATING_##name].given ? cell[RATING_##name].amount.si : NAN)
        *row = (struct dew_core_row){
            .flow = RATED(flow),
            .watts = RATED(power),
            .pressure = RATED(pressure),
            .t_out = RATED(outdoor),
            .t_in = RATED(indoor),
            .sre = RATED(sre),
            .ase = RATED(ase),
            .asre = RATED(asre),
            .sensible = RATED(sensible),
            .tre = RATED(tre),
            .lrmt = RATED(lrmt),
            .latent = RATED(moisture),
            .eatr = cell[RATING_cross_leakage].given
                        ? RATED(cross_leakage)
                        : scenario__cross_leakage(v),
        };
#undef RATED
    }
}

/* A row at its set flow, where the figures of its kind must do. */
static void row_of_typical(const struct scenario__making *m,
                           struct dew_core_sheet *sheet)
{
    const struct dew_typical_core *row = scenario__typical_core(m->v);
    struct dew_core_row *r = &sheet->rows[0];

    if (row == NULL || GIVEN(m->v, ventilator_sensible))
        return;
    if (sheet->count == 0) {
        blank_row(r);
        sheet->count = 1;
        r->flow = scenario__vent_flow(m->v);
        r->eatr = scenario__cross_leakage(m->v);
    }
    r->sensible =
        typical(&m->v[KEY_ventilator_sensible], &row->sensible, m->reading);
    if (isnan(r->latent) && sheet->passes_water)
        r->latent =
            typical(&m->v[KEY_ventilator_moisture], &row->latent, m->reading);
}

static enum dew_exchange exchange(const struct dew_value *v)
{
    static const enum dew_exchange plates[] = {
        [EXCHANGE_counterflow] = DEW_COUNTERFLOW,
        [EXCHANGE_crossflow] = DEW_CROSSFLOW,
        [EXCHANGE_headered] = DEW_HEADERED};

    return WORD(v, ventilator_core) == DEW_CORE_enthalpy_wheel
               ? DEW_WHEEL
               : plates[WORD(v, ventilator_exchange)];
}

enum dew_status scenario__core_of(const struct scenario__making *m,
                                  struct dew_core *core)
{
    const struct dew_value *v = m->v;
    struct dew_core_sheet sheet;
    enum dew_status status;

    dew_plant_core_blank(&sheet);
    sheet.kind = exchange(v);
    sheet.supply_share = SI(v, ventilator_supply_fan_share);
    sheet.before_core = SI(v, ventilator_exhaust_fan_ahead);
    sheet.passes_water = WORD(v, ventilator_core) >= DEW_CORE_enthalpy_plate;
    if (GIVEN(v, ventilator_ratings))
        rows_of_ratings(v, &sheet);
    else
        rows_of_lists(v, &sheet);
    if (!GIVEN(v, ventilator_ratings))
        row_of_typical(m, &sheet);
    status = dew_plant_core_fit(&sheet, m->reading, core, m->err);
    if (status == DEW_OK && !(core->watts > 0)) {
        core->watts = fan_watts(v);
        core->flow = core->flow > 0 ? core->flow : scenario__vent_flow(v);
    }
    return status;
}

/* ---- paths ------------------------------------------------------------------ */

/* Supply and exhaust, net, of one speed. */
struct speed {
    double supply, exhaust, watts;
};

static struct speed speed_of(const struct dew_value *v, double flow)
{
    int core = WORD(v, ventilator_core);
    double found = SI(v, ventilator_found), set = scenario__vent_flow(v);
    double stale = SI_OR(v, ventilator_exhaust_flow, set) * flow / set;
    double by = flow / set;
    struct speed s = {flow * found, stale * found, fan_watts(v) * by * by * by};

    if (core == DEW_CORE_exhaust_only)
        s.supply = 0;
    if (core == DEW_CORE_supply_only)
        s.exhaust = 0;
    return s;
}

static double short_circuit(const struct dew_value *v)
{
    return SI_OR(v, ducts_short_circuit, 0);
}

static double past_coil(const struct dew_value *v)
{
    int layout = WORD(v, layout);
    int before = layout == DEW_LAYOUT_return_tie || layout == DEW_LAYOUT_mix;

    return SI_OR(v, ducts_past_coil, before ? 1 : 0);
}

static struct dew_path plain_path(const struct dew_value *v,
                                  const struct speed *s)
{
    struct dew_path p = {.supply = s->supply,
                         .exhaust = s->exhaust,
                         .fresh = s->supply,
                         .fan_w = s->watts};

    p.drawn = s->supply > 0 ? 0 : s->exhaust;
    p.fan_heat = s->supply > 0 ? s->watts * (s->exhaust > 0 ? 0.5 : 1) : 0;
    p.fresh *= 1 - short_circuit(v);
    p.at_coil = p.fresh * past_coil(v);
    return p;
}

static struct dew_path core_path(const struct scenario__making *m,
                                 const struct dew_core *core,
                                 const struct speed *s)
{
    const struct dew_value *v = m->v;
    double gross = s->supply / (1 - core->eatr);
    double stale = s->exhaust + (gross - s->supply);
    struct dew_core_state at;
    struct dew_path p = {.supply = gross, .exhaust = stale};

    if (!(s->supply > 0) || !(s->exhaust > 0))
        return plain_path(v, s);
    dew_plant_core_at(core, gross, stale, &at);
    p.sensible = at.sensible;
    p.latent = at.latent;
    p.condensing = at.condensing;
    p.fresh = at.fresh * (1 - short_circuit(v));
    p.at_coil = p.fresh * past_coil(v);
    p.fan_w = GIVEN(v, ventilator_power) ? s->watts : at.watts;
    p.fan_heat = at.watts > 0 ? p.fan_w * at.heat / at.watts : p.fan_w / 2;
    return p;
}

/* What a defrosting unit does: circulates the house's air, or draws it out. */
struct dew_path scenario__path_defrosting(enum dew_frost strategy,
                                          struct dew_path on)
{
    struct dew_path p = {.fan_w = on.fan_w, .fan_heat = on.fan_w};

    if (strategy == DEW_FROST_EXHAUST_ONLY) {
        p.exhaust = on.exhaust;
        p.fan_w = on.fan_w / 2;
        p.fan_heat = 0;
    }
    return strategy == DEW_FROST_RECIRCULATE ||
                   strategy == DEW_FROST_EXHAUST_ONLY
               ? p
               : on;
}

static void fill(struct dew_path *row, const struct dew_path *path)
{
    for (int b = 0; b < DEW_BLOWER_STATES; b++)
        row[b] = *path;
}

enum dew_status scenario__make_paths(struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    double set = scenario__vent_flow(v),
           boost = SI_OR(v, ventilator_boost_flow, set);
    struct speed speeds[2];
    struct dew_core core = {0};
    struct dew_path paths[3];

    if (WORD(v, ventilator_core) == DEW_CORE_none)
        return DEW_OK;
    if (!(set > 0)) {
        core__in(m->err, "ventilator.flow");
        return core__fail(m->err, DEW_EMISSING,
                          "is needed where no fresh air rule gives it");
    }
    if (scenario__recovers(v)) {
        enum dew_status status = scenario__core_of(m, &core);

        if (status != DEW_OK)
            return status;
    }
    speeds[0] = speed_of(v, set);
    speeds[1] = speed_of(v, boost);
    for (int i = 0; i < 2; i++)
        paths[i] = scenario__recovers(v) ? core_path(m, &core, &speeds[i])
                                         : plain_path(v, &speeds[i]);
    paths[2] = scenario__path_defrosting(m->c->plant.frost.strategy, paths[0]);
    if (m->c->plant.frost.strategy == DEW_FROST_PREHEAT)
        for (int i = 0; i < 2; i++)
            paths[i].preheat_w =
                1006 * dew_air_density_run(m->o->pressure) * paths[i].supply;
    fill(m->c->paths[DEW_VENT_ON], &paths[0]);
    fill(m->c->paths[DEW_VENT_BOOST], &paths[1]);
    fill(m->c->paths[DEW_VENT_DEFROST], &paths[2]);
    return DEW_OK;
}
