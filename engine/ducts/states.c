/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each state of an opened layout does. */
#include <math.h>

#include "core/fail.h"
#include "ducts/opened.h"

static void add_unit(const struct dew_ducts *d, int j,
                     struct dew_duct_state *out)
{
    struct dew_duct_unit *u = &out->units[j];
    double in = ducts__flow_of(d, DEW_ROLE_FRESH_UNIT, j);
    double thrown = ducts__flow_of(d, DEW_ROLE_STALE_UNIT, j);
    double reversed = fmax(-thrown, 0.0), blown = fmax(-in, 0.0);
    int running = d->vent != DEW_VENT_OFF;

    u->supply = running ? fmax(in, 0.0) : 0.0;
    u->exhaust = running ? fmax(thrown, 0.0) : 0.0;
    u->backflow = blown + reversed;
    u->unplanned = reversed + (running ? 0.0 : fmax(in, 0.0));
    u->spill = blown + (running ? 0.0 : fmax(thrown, 0.0));
    u->at_limit = running && d->limit[j][d->vent];
    out->fresh_gross += u->supply;
    out->stale_drawn += u->exhaust;
    out->backflow += u->backflow;
    out->unplanned += u->unplanned;
    out->spill += u->spill;
}

/* Fans' watts by their curves; a sheet without watts, by the cube of speed. */
static void add_fans(const struct dew_ducts *d, struct dew_duct_state *out)
{
    for (size_t i = 0; i < d->m; i++) {
        enum dew_duct_role role = d->runs[i].role;
        int j = d->runs[i].of;
        struct dew_fan_point at;
        double speed = d->setting[i];

        if ((role != DEW_ROLE_FRESH_FAN && role != DEW_ROLE_STALE_FAN) ||
            !(speed > 0.0))
            continue;
        at = dew_ducts_network_fan(d->network, i);
        if (isnan(at.watts))
            at.watts = 0.5 * d->layout.vents[j].watts * speed * speed * speed;
        out->units[j].fan_w += at.watts;
        out->units[j].off_sheet |= at.outside;
        out->fan_w += at.watts;
    }
}

/* Fresh air that leaves a run for a room, and what grilles let through. */
static void add_run(const struct dew_ducts *d, size_t i, double *delivered,
                    double *lost, struct dew_duct_state *out)
{
    const struct dew_duct_run *r = &d->runs[i];
    double q = dew_ducts_network_flow(d->network, i);
    double fresh = d->vent == DEW_VENT_OFF ? 0.0 : fabs(q) * ducts__share(d, i);
    size_t down = q > 0.0 ? r->branch.to : r->branch.from;
    enum dew_duct_place place = d->points[down].place;

    if (place == DEW_PLACE_HOUSE) {
        *delivered += fresh;
        if (r->role == DEW_ROLE_GRILLE)
            out->fresh_at[r->of] += fresh;
        if (r->role == DEW_ROLE_RETURN)
            out->fresh_at_return[r->of] += fresh;
    }
    if (place == DEW_PLACE_BUFFER)
        *lost += fresh;
    if (r->role == DEW_ROLE_GRILLE)
        out->air_at[r->of] += q;
    if (r->role == DEW_ROLE_PICKUP)
        out->stale_at[r->of] += q;
    if (r->role == DEW_ROLE_STALE_TIE)
        out->stale_return[r->of] += q;
}

static void add_leaks(const struct dew_ducts *d, struct dew_duct_state *out)
{
    for (size_t i = 0; i < d->m; i++) {
        const struct dew_duct_branch *b = &d->runs[i].branch;
        double q = dew_ducts_network_flow(d->network, i);
        double in = d->points[b->from].place == DEW_PLACE_BUFFER ? q
                    : d->points[b->to].place == DEW_PLACE_BUFFER ? -q
                                                                 : 0.0;

        out->leak_in += fmax(in, 0.0);
        out->leak_out += fmax(-in, 0.0);
    }
}

/* Outdoor air that handler k's coil meets: fresh, or unplanned with the
   ventilator off.  A gap beside its return grille is drawn in first. */
static double outdoor_air(const struct dew_ducts *d, int k, double flow)
{
    size_t coil = ducts__find(d, DEW_ROLE_BLOWER, k);
    size_t tie = ducts__find(d, DEW_ROLE_FRESH_TIE, k);

    if (coil == d->m || !(flow > 0.0))
        return 0.0;
    if (d->layout.gap && tie < d->m)
        return fmin(fmax(dew_ducts_network_flow(d->network, tie), 0.0) *
                        ducts__share(d, tie),
                    flow);
    return flow * ducts__share(d, coil);
}

static double end_pressure(const struct dew_ducts *d, enum dew_duct_role role,
                           int k)
{
    size_t i = ducts__find(d, role, k);
    const struct dew_duct_branch *b = &d->runs[i].branch;

    if (i == d->m)
        return NAN;
    return dew_ducts_network_pressure(
        d->network, role == DEW_ROLE_FRESH_TIE ? b->to : b->from);
}

static void add_handlers(const struct dew_ducts *d, struct dew_duct_state *out)
{
    int running = d->vent != DEW_VENT_OFF;

    for (int k = 0; k < d->layout.handler_count; k++) {
        const struct dew_duct_handler *h = &d->layout.handlers[k];
        int digit = dew_ducts_blower_digit(d->blower, k);
        double flow = ducts__flow_of(d, DEW_ROLE_BLOWER, k);
        double outdoor = outdoor_air(d, k, flow);

        out->blower_w += digit == 2 ? h->watts : digit == 1 ? h->watts_low : 0;
        out->coil_flow[k] = flow;
        out->coil_fresh[k] = running ? outdoor : 0.0;
        out->coil_idle[k] = running ? 0.0 : outdoor;
        out->tap_fresh[k] = end_pressure(d, DEW_ROLE_FRESH_TIE, k);
        out->tap_stale[k] = end_pressure(d, DEW_ROLE_STALE_TIE, k);
        out->at_coil += out->coil_fresh[k];
        out->idle_at_coil += out->coil_idle[k];
    }
    out->idle_at_coil = fmin(out->idle_at_coil, out->unplanned);
}

/* The tapped trunk at the tie's own part of the set flow. */
static void add_trunks(const struct dew_ducts *d, struct dew_duct_state *out)
{
    const struct dew_duct_layout *l = &d->layout;

    for (int k = 0; k < l->handler_count; k++) {
        double q = 0.0;

        out->trunk_resists[k] = NAN;
        if (l->kind == DEW_LAYOUT_own_ducts || d->copies != NULL)
            continue;
        for (int j = 0; j < l->vent_count; j++) {
            int ties = (l->vents[j].serves & 1) +
                       (l->vents[j].serves >> 1 & 1) +
                       (l->vents[j].serves >> 2 & 1);

            if (l->vents[j].serves >> k & 1)
                q += l->vents[j].set[DEW_VENT_ON] / ties;
        }
        out->trunk_resists[k] =
            ducts__supply_fresh(l)
                ? ducts__supply_resists(&l->handlers[k], q)
                : ducts__return_resists(&l->handlers[k], 1, q);
    }
}

/* What was measured or said in place of what was computed. */
static int speed_class(const struct dew_ducts *d)
{
    int class = 0;

    for (int k = 0; k < d->layout.handler_count; k++) {
        int digit = dew_ducts_blower_digit(d->blower, k);

        class = digit > class ? digit : class;
    }
    return class;
}

static void scale_fresh(struct dew_duct_state *out, double by)
{
    out->fresh_delivered *= by;
    out->at_coil *= by;
    for (int g = 0; g < DEW_DUCT_GRILLES; g++)
        out->fresh_at[g] *= by;
    for (int k = 0; k < DEW_DUCT_HANDLERS; k++) {
        out->fresh_at_return[k] *= by;
        out->coil_fresh[k] *= by;
    }
}

static void as_found(const struct dew_ducts *d, struct dew_duct_state *out)
{
    const struct dew_duct_found *f = &d->layout.found[speed_class(d)];
    double fresh = f->fresh / out->fresh_gross;
    double stale = f->stale / out->stale_drawn;

    if (isfinite(fresh)) {
        scale_fresh(out, fresh);
        out->fresh_gross *= fresh;
    }
    if (isfinite(stale)) {
        out->stale_drawn *= stale;
        for (int g = 0; g < DEW_DUCT_GRILLES; g++)
            out->stale_at[g] *= stale;
        for (int k = 0; k < DEW_DUCT_HANDLERS; k++)
            out->stale_return[k] *= stale;
    }
    for (int j = 0; j < d->layout.vent_count; j++) {
        out->units[j].supply *= isfinite(fresh) ? fresh : 1.0;
        out->units[j].exhaust *= isfinite(stale) ? stale : 1.0;
    }
}

static void as_said(const struct dew_ducts *d, struct dew_duct_state *out)
{
    double said = d->layout.short_circuit[speed_class(d)];
    double now = 1.0 - out->short_circuit_share - out->lost_share;
    double then = 1.0 - said - out->lost_share;

    if (isnan(said))
        return;
    scale_fresh(out, now > 0.0 ? fmax(then, 0.0) / now : 0.0);
    out->short_circuit_share = said;
}

static void tell_fresh(const struct dew_ducts *d, struct dew_duct_state *out)
{
    double net = 0.0, delivered = 0.0, lost = 0.0;

    for (int j = 0; j < d->layout.vent_count; j++)
        net += out->units[j].supply * (1.0 - d->layout.vents[j].eatr);
    for (size_t i = 0; i < d->m; i++)
        add_run(d, i, &delivered, &lost, out);
    out->fresh_delivered = delivered;
    out->at_coil = fmin(out->at_coil, delivered);
    out->lost_share = net > 0.0 ? lost / net : NAN;
    out->short_circuit_share =
        net > 0.0 ? fmax(1.0 - (delivered + lost) / net, 0.0) : NAN;
}

static void tell_balance(struct dew_duct_state *out)
{
    double most = fmax(out->fresh_gross, out->stale_drawn);
    const double allowed = 0.1; /* of design flow, [TIE-MANUALS] */

    out->imbalance = out->fresh_gross - out->stale_drawn;
    out->imbalance_share = most > 0.0 ? out->imbalance / most : NAN;
    out->balanced = fabs(out->imbalance) <= allowed * most;
}

/* Of what is traced, what flows into the rooms. */
static double reaches_rooms(const struct dew_ducts *d)
{
    double sum = 0.0;

    for (size_t i = 0; i < d->m; i++) {
        const struct dew_duct_branch *b = &d->runs[i].branch;
        int ahead = dew_ducts_network_flow(d->network, i) > 0.0;

        if (d->points[ahead ? b->to : b->from].place == DEW_PLACE_HOUSE)
            sum += ducts__carries(d, i);
    }
    return sum;
}

/* Where leaks take part: what they draw in, and what is lost by them. */
static enum dew_status tell_lost(struct dew_ducts *d,
                                 struct dew_duct_state *out,
                                 struct dew_error *err)
{
    enum dew_status status;

    if (!(out->leak_in + out->leak_out > 0.0))
        return DEW_OK;
    status = ducts__carry(d, DUCTS__DRAWN, err);
    out->leak_lost = fmax(out->leak_in - reaches_rooms(d), 0.0);
    for (int k = 0; k < d->layout.handler_count; k++)
        if (out->coil_flow[k] > 0.0)
            out->coil_drawn[k] =
                ducts__carries(d, ducts__find(d, DEW_ROLE_BLOWER, k)) /
                out->coil_flow[k];
    for (int k = 0; k < d->layout.handler_count && status == DEW_OK; k++) {
        if (!(out->coil_flow[k] > 0.0))
            continue;
        status = ducts__carry(d, k, err);
        out->coil_lost[k] =
            fmax(1.0 - reaches_rooms(d) / out->coil_flow[k], 0.0);
    }
    return status;
}

int ducts__blowers(const struct dew_duct_layout *layout)
{
    int states = 1;

    for (int k = 0; k < layout->handler_count; k++)
        states *= 3;
    return states;
}

enum dew_status dew_ducts_state(struct dew_ducts *ducts,
                                enum dew_vent_state vent, int blower,
                                struct dew_duct_state *out,
                                struct dew_error *err)
{
    struct dew_duct_state s = {.vent = vent, .blower = blower};
    enum dew_status status = DEW_OK;

    if ((unsigned)vent > DEW_VENT_BOOST || blower < 0 ||
        blower >= ducts__blowers(&ducts->layout))
        return core__fail(err, DEW_ERANGE, "no such state of the ducts");
    ducts->vent = vent;
    ducts->blower = blower;
    if (ducts->layout.holds_flow && vent != DEW_VENT_OFF)
        status = ducts__tune(ducts, err);
    if (status == DEW_OK)
        status = ducts__solve(ducts, err);
    if (status == DEW_OK)
        status = ducts__trace(ducts, err);
    if (status != DEW_OK)
        return status;
    for (int j = 0; j < ducts->layout.vent_count; j++)
        add_unit(ducts, j, &s);
    add_fans(ducts, &s);
    add_handlers(ducts, &s);
    add_leaks(ducts, &s);
    add_trunks(ducts, &s);
    tell_fresh(ducts, &s);
    status = tell_lost(ducts, &s, err);
    if (status != DEW_OK)
        return status;
    if (vent != DEW_VENT_OFF) {
        as_found(ducts, &s);
        as_said(ducts, &s);
    }
    tell_balance(&s);
    *out = s;
    return DEW_OK;
}

double dew_ducts_run_flow(const struct dew_ducts *ducts, size_t run)
{
    return dew_ducts_network_flow(ducts->network, run);
}

double dew_ducts_run_fresh(const struct dew_ducts *ducts, size_t run)
{
    return run < ducts->m ? ducts__share(ducts, run) : NAN;
}

enum dew_status dew_ducts_states(
    const struct dew_duct_layout *layout,
    struct dew_duct_state (*out)[DEW_BLOWER_STATES], int *blowers,
    struct dew_error *err)
{
    struct dew_ducts *d;
    enum dew_status status = dew_ducts_open(&d, layout, err);
    int states = ducts__blowers(layout), no_boost = ducts__no_boost(layout);

    for (int v = 0; v < DEW_DUCT_VENT_STATES - no_boost; v++)
        for (int b = 0; b < states && status == DEW_OK; b++)
            status =
                dew_ducts_state(d, (enum dew_vent_state)v, b, &out[v][b], err);
    for (int b = 0; b < states && status == DEW_OK && no_boost; b++) {
        out[DEW_VENT_BOOST][b] = out[DEW_VENT_ON][b];
        out[DEW_VENT_BOOST][b].vent = DEW_VENT_BOOST;
    }
    dew_ducts_close(d);
    if (status == DEW_OK)
        *blowers = states;
    return status;
}
