/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The layout that the keys describe, and the air paths it makes. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/fail.h"
#include "dew/air.h"
#include "dew/network.h"
#include "scenario/case.h"

/* ---- whether a layout is computed ---------------------------------------- */

int scenario__two_sided(const struct dew_value *v)
{
    return WORD(v, ventilator_core) >= DEW_CORE_balanced;
}

static int trunk_outside(const struct dew_value *v)
{
    for (int i = 0; i < (int)v[KEY_ducts_lines].count; i++)
        if (LINE(v, i, line)->choice >= LINE_IS_supply_trunk &&
            scenario__cell_or(LINE(v, i, outside), 0) > 0)
            return 1;
    return 0;
}

int scenario__ducts_outside(const struct dew_value *v)
{
    return scenario__handlers(v) > 0 &&
           (SI(v, ducts_leak_return) > 0 || SI(v, ducts_leak_supply) > 0 ||
            trunk_outside(v));
}

/* Keys that change no flow: what was typed in place of a network before there
   was one, and where ducts lie. */
static int says_no_layout(int key)
{
    return key == KEY_ducts_short_circuit || key == KEY_ducts_past_coil ||
           key == KEY_ducts_place || key == KEY_ducts_place_air ||
           key == KEY_ducts_deck_insulation;
}

/* A layout written down, or any key of ducts that tells of one. */
int scenario__ducts_said(const struct dew_value *v)
{
    if (!scenario__two_sided(v))
        return 0;
    if (v[KEY_layout].origin.by != DEW_BY_DEFAULT || GIVEN(v, ventilator_fan) ||
        GIVEN(v, ventilator_fan_pressure) ||
        v[KEY_ventilator_core_loss].origin.by != DEW_BY_DEFAULT)
        return 1;
    for (int k = KEY_ducts_length; k <= KEY_ducts_found; k++)
        if (!says_no_layout(k) && v[k].given &&
            v[k].origin.by != DEW_BY_DEFAULT)
            return 1;
    return 0;
}

/* ---- air handlers -------------------------------------------------------- */

static struct dew_duct_range range_of(const struct dew_value *v)
{
    if (!v->given)
        return (struct dew_duct_range){NAN, NAN, NAN};
    return (struct dew_duct_range){v->amount.low, v->amount.si, v->amount.high};
}

static void handlers(const struct scenario__making *m,
                     struct dew_duct_layout *l)
{
    const struct dew_value *v = m->v;
    const struct dew_plant *p = &m->c->plant;

    l->handler_count = p->handler_count;
    for (int k = 0; k < p->handler_count; k++) {
        struct dew_duct_handler *h = &l->handlers[k];

        h->flow = p->handlers[k].air;
        h->watts = p->handlers[k].blower_w;
        h->low = p->handlers[k].blower_low;
        h->watts_low = p->handlers[k].blower_low_w;
        h->external = SI(v, ducts_external_static);
        h->inside = SI(v, ducts_inside_static);
        h->free = SI(v, ducts_blower_free);
        h->return_share = SI(v, ducts_return_share);
        h->between = SI(v, ducts_tap_spacing);
        h->before = SI(v, ducts_return_tap);
        h->after = SI(v, ducts_supply_tap);
        h->leak_return = SI(v, ducts_leak_return);
        h->leak_supply = SI(v, ducts_leak_supply);
    }
}

/* ---- ventilators --------------------------------------------------------- */

static void fan_rows(const struct dew_value *v, struct dew_duct_vent *vent)
{
    vent->row_count = (int)v[KEY_ventilator_fan].count;
    for (int i = 0; i < vent->row_count; i++)
        vent->rows[i] = (struct dew_fan_row){
            CELL(v, ventilator_fan, i, FAN, flow)->amount.si,
            CELL(v, ventilator_fan, i, FAN, pressure)->amount.si,
            scenario__cell_or(CELL(v, ventilator_fan, i, FAN, power), NAN)};
}

/* Flows are rated net of what comes back through the core; ducts carry it. */
static void ventilators(const struct scenario__making *m,
                        struct dew_duct_layout *l)
{
    const struct dew_value *v = m->v;
    int n = WORD(v, ducts_ventilators) == VENTILATORS_one_each &&
                    l->handler_count > 1
                ? l->handler_count
                : 1;
    int tied = WORD(v, ducts_tied_to);
    double found = SI(v, ventilator_found);
    double by = m->as_designed && found > 0 ? 1 / found : 1;

    l->vent_count = n;
    for (int j = 0; j < n; j++) {
        struct dew_duct_vent *vent = &l->vents[j];

        for (int s = DEW_VENT_ON; s <= DEW_VENT_BOOST; s++) {
            vent->set[s] = by * m->c->paths[s][0].supply / n;
            vent->set_stale[s] = by * m->c->paths[s][0].exhaust / n;
        }
        vent->pressure = SI_OR(v, ventilator_fan_pressure, NAN);
        vent->core = SI(v, ventilator_core_loss);
        vent->eatr = scenario__recovers(v) ? scenario__cross_leakage(v) : 0;
        if (tied > 0 && n == 1)
            vent->serves = 1 << (tied - 1);
        if (GIVEN(v, ventilator_fan))
            fan_rows(v, vent);
    }
}

/* ---- ducts known one by one ---------------------------------------------- */

static double fitting(const char *name)
{
    return dew_ducts_fitting_named(name)->loss;
}

double scenario__wall(int word)
{
#define X(name, word) name,
    static const char *const names[] = {SCENARIO__WALLS(X)};
#undef X

    return dew_ducts_wall_named(names[word])->roughness;
}

/* What stands on the outdoor end of a duct: a cap with its screen. */
static double end_loss(int which)
{
    double screen = fitting("grille 0.7 free");

    return which == LINE_IS_intake      ? fitting("room to duct") + screen
           : which == LINE_IS_discharge ? fitting("duct to room") + screen
                                        : 0;
}

static struct dew_duct_line line_of(const struct dew_value *v, int i)
{
    int which = LINE(v, i, line)->choice;
    struct dew_duct_line l = {
        .outside = scenario__cell_or(LINE(v, i, outside), 0),
        .r = scenario__cell_or(LINE(v, i, insulation), NAN)};

    l.duct = (struct dew_duct){
        .diameter = scenario__cell_or(LINE(v, i, diameter), 0),
        .width = scenario__cell_or(LINE(v, i, width), 0),
        .height = scenario__cell_or(LINE(v, i, height), 0),
        .length = LINE(v, i, length)->amount.si,
        .roughness = scenario__wall(LINE(v, i, wall)->choice),
        .compression = scenario__cell_or(LINE(v, i, slack), 0),
        .loss = scenario__cell_or(LINE(v, i, loss), end_loss(which)) +
                fitting("elbow 90 smooth") *
                    scenario__cell_or(LINE(v, i, elbows), 0)};
    return l;
}

static struct dew_duct_line *place_of(struct dew_duct_layout *l, int which,
                                      int k)
{
    struct dew_duct_vent *vent = &l->vents[k];
    struct dew_duct_handler *h = &l->handlers[k];
    struct dew_duct_line *const lines[] = {
        [LINE_IS_intake] = &vent->intake,
        [LINE_IS_discharge] = &vent->discharge,
        [LINE_IS_fresh] = &vent->fresh,
        [LINE_IS_stale] = &vent->stale,
        [LINE_IS_supply_trunk] = &h->supply_trunk,
        [LINE_IS_return_trunk] = &h->return_trunk};

    return lines[which];
}

static void lines(const struct dew_value *v, struct dew_duct_layout *l)
{
    for (int i = 0; i < (int)v[KEY_ducts_lines].count; i++) {
        struct dew_duct_line line = line_of(v, i);
        int which = LINE(v, i, line)->choice;
        int of = (int)scenario__cell_or(LINE(v, i, of), 0);
        int count =
            which >= LINE_IS_supply_trunk ? l->handler_count : l->vent_count;

        for (int k = 0; k < count; k++)
            if (of == 0 || of == k + 1)
                *place_of(l, which, k) = line;
    }
}

/* ---- grilles ------------------------------------------------------------- */

/* Its share, or NaN where only a measured flow tells it. */
static double share(const struct dew_value *share,
                    const struct dew_value *found)
{
    return share->given ? share->amount.si : found->given ? NAN : 0;
}

static void own_branch(const struct dew_value *v, int i,
                       struct dew_duct_grille *g)
{
    const struct dew_value *d = GRILLE(v, i, diameter);
    const struct dew_value *n = GRILLE(v, i, length);

    if (d->given && n->given)
        g->line = (struct dew_duct_line){
            .duct = {.diameter = d->amount.si,
                     .length = n->amount.si,
                     .roughness = scenario__wall(0),
                     .loss = fitting("elbow 90 smooth") *
                             scenario__cell_or(GRILLE(v, i, elbows), 0)},
            .outside = 0,
            .r = NAN};
}

static void grille(const struct dew_value *v, int i,
                   const struct dew_duct_layout *l, struct dew_duct_grille *g)
{
    const struct dew_value *supply = GRILLE(v, i, supply_found);
    const struct dew_value *fresh = GRILLE(v, i, fresh_found);
    const struct dew_value *stale = GRILLE(v, i, stale_found);
    int first = l->handler_count > 0 ? 1 : 0;
    int handler = (int)scenario__cell_or(GRILLE(v, i, handler), first);
    int own = handler > 0 && handler <= l->vent_count ? handler : 1;

    g->name = GRILLE(v, i, room)->text;
    g->share = share(GRILLE(v, i, supply), supply);
    g->fresh = share(GRILLE(v, i, fresh), fresh);
    g->stale = share(GRILLE(v, i, stale), stale);
    g->handler = g->share == 0 ? -1 : handler - 1;
    g->vent = (int)scenario__cell_or(GRILLE(v, i, ventilator), own) - 1;
    g->found_supply = scenario__cell_or(supply, NAN);
    g->found_fresh = scenario__cell_or(fresh, NAN);
    g->found_stale = scenario__cell_or(stale, NAN);
    own_branch(v, i, g);
}

/* An air handler blows somewhere, also where only own ducts were described. */
static void rest_of_house(struct dew_duct_layout *l)
{
    static const char *const names[] = {"rooms of air handler 1",
                                        "rooms of air handler 2",
                                        "rooms of air handler 3"};

    for (int k = 0; k < l->handler_count; k++) {
        struct dew_duct_grille *g = &l->grilles[l->grille_count];
        int any = 0;

        for (int i = 0; i < l->grille_count; i++)
            any |= l->grilles[i].handler == k;
        if (any || l->grille_count == DEW_DUCT_GRILLES)
            continue;
        g->name = names[k];
        g->handler = k;
        g->fresh = g->stale = 0;
        l->grille_count++;
    }
}

static void grilles(const struct scenario__making *m, struct dew_duct_layout *l)
{
    l->grille_count = (int)m->v[KEY_ducts_grilles].count;
    for (int i = 0; i < l->grille_count; i++) {
        struct dew_duct_grille *g = &l->grilles[i];

        grille(m->v, i, l, g);
        if (m->as_designed)
            g->found_supply = g->found_fresh = g->found_stale = NAN;
    }
    if (l->grille_count > 0)
        rest_of_house(l);
}

/* ---- what was measured or said ------------------------------------------- */

/* Grilles measured with the blower at full; NaN where one was not. */
static struct dew_duct_found grilles_at_full(const struct dew_value *v)
{
    struct dew_duct_found sum = {0, 0};
    int fresh = 0, stale = 0;

    for (int i = 0; i < (int)v[KEY_ducts_grilles].count; i++) {
        const struct dew_value *f = GRILLE(v, i, fresh_found_full);
        const struct dew_value *s = GRILLE(v, i, stale_found_full);

        fresh += f->given;
        stale += s->given;
        sum.fresh += scenario__cell_or(
            f, scenario__cell_or(GRILLE(v, i, fresh_found), 0));
        sum.stale += scenario__cell_or(
            s, scenario__cell_or(GRILLE(v, i, stale_found), 0));
    }
    return (struct dew_duct_found){fresh > 0 ? sum.fresh : NAN,
                                   stale > 0 ? sum.stale : NAN};
}

static void found(const struct dew_value *v, struct dew_duct_layout *l)
{
    if (l->kind == DEW_LAYOUT_own_ducts)
        l->found[2] = grilles_at_full(v);
    for (int i = 0; i < (int)v[KEY_ducts_found].count; i++) {
        struct dew_duct_found *f = &l->found[FOUND(v, i, blower)->choice];

        f->fresh = scenario__cell_or(FOUND(v, i, fresh), f->fresh);
        f->stale = scenario__cell_or(FOUND(v, i, stale), f->stale);
    }
}

static void said(const struct dew_value *v, struct dew_duct_layout *l)
{
    static const int alike[] = {0, 1, 1 + 3, 1 + 3 + 9};

    for (int i = 0; i < 3; i++)
        l->short_circuit[i] = SI_OR(v, ducts_short_circuit, NAN);
    l->short_circuit[2] =
        SI_OR(v, ducts_short_circuit_full, l->short_circuit[2]);
    l->pickup[DEW_DUCT_SHOWER] = range_of(&v[KEY_ducts_shower_caught]);
    l->pickup[DEW_DUCT_COOKING] = range_of(&v[KEY_ducts_cooking_caught]);
    l->pickup[DEW_DUCT_LAUNDRY] = range_of(&v[KEY_ducts_laundry_caught]);
    l->reference = WORD(v, ducts_set_while) * alike[l->handler_count];
}

static enum dew_duct_fit fitted(int answer)
{
    return answer == DEW_ANSWER_YES  ? DEW_DUCT_FITTED
           : answer == DEW_ANSWER_NO ? DEW_DUCT_NONE
                                     : DEW_DUCT_UNSAID;
}

/* ---- the layout ---------------------------------------------------------- */

static void from_keys(const struct scenario__making *m,
                      struct dew_duct_layout *l)
{
    const struct dew_value *v = m->v;

    dew_ducts_layout_blank(l);
    l->kind = (enum dew_layout)WORD(v, layout);
    l->bedrooms = (int)SI(v, house_bedrooms);
    handlers(m, l);
    ventilators(m, l);
    if (m->written == NULL) {
        lines(v, l);
        grilles(m, l);
    }
    if (!m->as_designed)
        found(v, l);
    said(v, l);
    l->length = (enum dew_duct_class)WORD(v, ducts_length);
    l->damper = fitted(WORD(v, ventilator_damper));
    l->backdraft = fitted(WORD(v, ducts_backdraft));
    l->damper_leak = SI(v, ducts_damper_leak);
    l->gap = WORD(v, ducts_open_end);
    l->also_own = WORD(v, ducts_own_branches);
    l->holds_flow = WORD(v, ventilator_holds_flow);
    l->mixing = range_of(&v[KEY_ducts_mixing]);
    l->density = dew_air_density_run(m->o->pressure);
    l->written = m->written;
    if (m->written != NULL)
        scenario__written_rooms(v, l);
}

/* The air handlers alone, where no ventilator has two fans: their trunks and
   leaks, and grilles that they blow from. */
static void handlers_alone(const struct scenario__making *m,
                           struct dew_duct_layout *l)
{
    dew_ducts_layout_blank(l);
    l->vent_count = 0;
    handlers(m, l);
    lines(m->v, l);
    grilles(m, l);
    for (int i = 0; i < l->grille_count; i++)
        l->grilles[i].vent = -1;
    l->density = dew_air_density_run(m->o->pressure);
}

/* Fans as the case has them at the set flow, in the state they were set in. */
static enum dew_status scale_watts(const struct scenario__making *m,
                                   struct dew_duct_layout *l)
{
    struct dew_error inside = {0};
    struct dew_duct_state s;
    enum dew_status status =
        ducts__seen_running(m->seen, l, l->reference, &s, &inside);
    double by;

    if (status != DEW_OK)
        return scenario__ducts_blame(m, status, &inside);
    if (GIVEN(m->v, ventilator_fan) && !GIVEN(m->v, ventilator_power) &&
        !isnan(l->vents[0].rows[0].watts))
        return DEW_OK;
    by = s.fan_w > 0 ? m->c->paths[DEW_VENT_ON][0].fan_w / s.fan_w : 0;
    for (int j = 0; j < l->vent_count; j++) {
        l->vents[j].watts *= by;
        for (int i = 0; i < l->vents[j].row_count; i++)
            l->vents[j].rows[i].watts *= by;
    }
    return DEW_OK;
}

enum dew_status scenario__ducts_layout(const struct scenario__making *m,
                                       struct dew_duct_layout *out)
{
    struct dew_error inside = {0};
    enum dew_status status;

    if (scenario__two_sided(m->v))
        from_keys(m, out);
    else
        handlers_alone(m, out);
    status = dew_ducts_layout_fill(out, &inside);
    if (status != DEW_OK)
        return scenario__ducts_blame(m, status, &inside);
    return out->vent_count > 0 ? scale_watts(m, out) : DEW_OK;
}
