/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The states of a layout's network as the air paths of a case, and the space
   that its ducts outside lie in. */
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/thermal.h"
#include "scenario/case.h"

/* Where pickups take stale air, or what they catch: nothing else of ducts
   makes showers and cooking wetter or drier. */
static int pickups_said(const struct dew_value *v)
{
    return v[KEY_layout].origin.by != DEW_BY_DEFAULT ||
           GIVEN(v, ducts_grilles) || GIVEN(v, ducts_runs) ||
           GIVEN(v, ducts_shower_caught) || GIVEN(v, ducts_cooking_caught) ||
           GIVEN(v, ducts_laundry_caught);
}

/* ---- the paths ----------------------------------------------------------- */

/* The core at each unit's own flows, weighed by its supply. */
static struct dew_core_state core_at(const struct scenario__making *m,
                                     const struct dew_core *core,
                                     const struct dew_duct_state *s)
{
    struct dew_core_state sum = {0};
    double supply = 0;

    for (int j = 0; j < DEW_DUCT_VENTS && scenario__recovers(m->v); j++) {
        const struct dew_duct_unit *u = &s->units[j];
        struct dew_core_state at;

        if (!(u->supply > 0) || !(u->exhaust > 0))
            continue;
        dew_plant_core_at(core, u->supply, u->exhaust, &at);
        sum.sensible += u->supply * at.sensible;
        sum.latent += u->supply * at.latent;
        sum.condensing += u->supply * at.condensing;
        supply += u->supply;
    }
    if (supply > 0) {
        sum.sensible /= s->fresh_gross;
        sum.latent /= s->fresh_gross;
        sum.condensing /= supply;
    }
    return sum;
}

static struct dew_path path_of(const struct scenario__making *m,
                               const struct dew_core *core,
                               const struct dew_duct_state *s)
{
    const struct dew_path *plain = &m->c->paths[s->vent][0];
    struct dew_core_state at = core_at(m, core, s);
    struct dew_duct_core does = {
        .sensible = at.sensible,
        .latent = at.latent,
        .condensing = at.condensing,
        .heat_share = plain->fan_w > 0 ? plain->fan_heat / plain->fan_w : 0};
    struct dew_path p = dew_ducts_path(s, &does);

    if (GIVEN(m->v, ducts_past_coil))
        p.at_coil = p.fresh * SI(m->v, ducts_past_coil);
    if (plain->preheat_w > 0 && plain->supply > 0)
        p.preheat_w = plain->preheat_w * p.supply / plain->supply;
    return p;
}

/* What a pickup catches, less what the core hands back with the fresh air. */
static void catch_events(const struct scenario__making *m,
                         const struct dew_duct_layout *l)
{
    static const enum dew_source of[DEW_DUCT_EVENTS] = {
        [DEW_DUCT_SHOWER] = DEW_SOURCE_showers,
        [DEW_DUCT_COOKING] = DEW_SOURCE_cooking,
        [DEW_DUCT_LAUNDRY] = DEW_SOURCE_laundry};
    const struct dew_value *said = &m->v[KEY_ducts_shower_caught];
    struct dew_case *c = m->c;
    double kept = 1 - c->paths[DEW_VENT_ON][0].latent;

    for (int e = 0; e < DEW_DUCT_EVENTS; e++) {
        const struct dew_duct_range *r = &l->pickup[e];

        c->house.water[of[e]].caught =
            kept * scenario__within(&said[e], r->low, r->likely, r->high);
    }
}

/* What leaks do goes on while a ventilator defrosts as while it is off. */
static void keep_leaks(struct dew_path *path, const struct dew_duct_state *s)
{
    path->leak_in = s->leak_in;
    path->leak_out = s->leak_out;
    path->leak_lost = s->leak_lost;
}

static void put(const struct scenario__making *m, const struct dew_core *core,
                struct dew_duct_state (*states)[DEW_BLOWER_STATES], int blowers)
{
    struct dew_case *c = m->c;
    enum dew_frost strategy = c->plant.frost.strategy;
    struct dew_path paths[DEW_VENT_STATES][DEW_BLOWER_STATES];

    for (int b = 0; b < DEW_BLOWER_STATES; b++) {
        int at = b % blowers;

        for (int s = DEW_VENT_OFF; s <= DEW_VENT_BOOST; s++)
            paths[s][b] = path_of(m, core, &states[s][at]);
        paths[DEW_VENT_DEFROST][b] =
            scenario__path_defrosting(strategy, paths[DEW_VENT_ON][b]);
        keep_leaks(&paths[DEW_VENT_DEFROST][b], &states[DEW_VENT_OFF][at]);
    }
    memcpy(c->paths, paths, sizeof paths);
}

/* Leaks beside a ventilator of one fan, or none, whose flows stay its own. */
static void put_leaks(struct dew_case *c,
                      struct dew_duct_state (*states)[DEW_BLOWER_STATES],
                      int blowers)
{
    for (int s = DEW_VENT_OFF; s < DEW_VENT_STATES; s++)
        for (int b = 0; b < DEW_BLOWER_STATES; b++)
            keep_leaks(&c->paths[s][b], &states[DEW_VENT_OFF][b % blowers]);
}

/* ---- around ducts outside ------------------------------------------------- */

static struct dew_around around_of(const struct dew_value *v)
{
    const double per_hour = 1 / 3600.0;
    const struct dew_value *air = &v[KEY_ducts_place_air];
    /* 1/h, the key's preset */
    double attic_air = scenario__within(air, 5, 6.5, 10);
    double crawl_air = scenario__within(air, 1, 2, 10);
    const double bare_ceiling = 2.5; /* W/m2K, ours */
    double deck = SI(v, ducts_deck_insulation);
    struct dew_attic attic = {
        .absorptance = SI(v, insulation_absorptance),
        .deck = deck,
        .ceiling = deck > 0 ? bare_ceiling : 1 / SI(v, insulation_roof),
        .air = SI_OR(v, ducts_place_air, attic_air * per_hour)};

    if (WORD(v, ducts_place) == DUCTS_IN_attic)
        return dew_house_attic(&attic);
    if (WORD(v, ducts_place) == DUCTS_IN_crawl_space)
        return dew_house_crawl(SI_OR(v, ducts_place_air, crawl_air * per_hour));
    return (struct dew_around){0};
}

/* A ventilator of two fans with its network, or the handlers' alone. */
static enum dew_status put_states(
    const struct scenario__making *m, const struct dew_duct_layout *layout,
    struct dew_duct_state (*states)[DEW_BLOWER_STATES], int blowers)
{
    struct dew_core core = {0};
    enum dew_status status = DEW_OK;

    if (!scenario__two_sided(m->v)) {
        put_leaks(m->c, states, blowers);
        return DEW_OK;
    }
    if (scenario__recovers(m->v))
        status = scenario__core_of(m, &core);
    if (status != DEW_OK)
        return status;
    put(m, &core, states, blowers);
    if (pickups_said(m->v))
        catch_events(m, layout);
    return DEW_OK;
}

static enum dew_status make(struct scenario__making *m,
                            const struct dew_duct_layout *layout,
                            struct dew_duct_state (*states)[DEW_BLOWER_STATES])
{
    struct dew_error inside = {0};
    int blowers;
    enum dew_status status =
        ducts__seen_states(m->seen, layout, states, &blowers, &inside);

    if (status != DEW_OK)
        return scenario__ducts_blame(m, status, &inside);
    status = put_states(m, layout, states, blowers);
    if (status != DEW_OK)
        return status;
    dew_ducts_watch_of(layout, &m->c->watch);
    dew_ducts_watch_leaks(states, blowers, layout->handler_count, &m->c->watch);
    m->c->house.around = around_of(m->v);
    return DEW_OK;
}

enum dew_status scenario__make_ducts(struct scenario__making *m)
{
    struct dew_duct_state(*states)[DEW_BLOWER_STATES];
    struct dew_duct_layout layout;
    enum dew_status status;

    if (!scenario__ducts_said(m->v) && !scenario__ducts_outside(m->v))
        return DEW_OK;
    status = scenario__ducts_layout(m, &layout);
    if (status != DEW_OK)
        return status;
    states = calloc(DEW_DUCT_VENT_STATES, sizeof *states); /* 76 KB */
    if (states == NULL)
        return core__fail(m->err, DEW_EMEM, "no memory for the ducts");
    status = make(m, &layout, states);
    free(states);
    return status;
}
