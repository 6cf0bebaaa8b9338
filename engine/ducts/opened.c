/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A layout's network opened, and its fans set. */
#include "ducts/opened.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"

/* ---- settings and flows --------------------------------------------------- */

static double blower_speed(const struct dew_ducts *d, int handler)
{
    int digit = dew_ducts_blower_digit(d->blower, handler);

    return digit == 2   ? 1.0
           : digit == 1 ? d->layout.handlers[handler].low
                        : 0.0;
}

static double setting_of(const struct dew_ducts *d,
                         const struct dew_duct_run *r)
{
    int running = d->vent != DEW_VENT_OFF;

    switch (r->role) {
    case DEW_ROLE_BLOWER:
        return blower_speed(d, r->of);
    case DEW_ROLE_FRESH_FAN:
        return running ? d->speed[r->of][d->vent][0] : 0.0;
    case DEW_ROLE_STALE_FAN:
        return running ? d->speed[r->of][d->vent][1] : 0.0;
    case DEW_ROLE_FRESH_UNIT:
    case DEW_ROLE_STALE_UNIT:
        return running ? 1.0 : r->idle;
    case DEW_ROLE_SHUT:
        return running;
    default:
        return 1.0;
    }
}

enum dew_status ducts__solve(struct dew_ducts *d, struct dew_error *err)
{
    for (size_t i = 0; i < d->m; i++)
        d->setting[i] = setting_of(d, &d->runs[i]);
    return dew_ducts_network_solve(d->network, d->setting, d->layout.density,
                                   err);
}

size_t ducts__find(const struct dew_ducts *d, enum dew_duct_role role, int of)
{
    for (size_t i = 0; i < d->m; i++)
        if (d->runs[i].role == role && d->runs[i].of == of)
            return i;
    return d->m;
}

double ducts__flow_of(const struct dew_ducts *d, enum dew_duct_role role,
                      int of)
{
    size_t i = ducts__find(d, role, of);

    return i < d->m ? dew_ducts_network_flow(d->network, i) : 0.0;
}

/* ---- setting the fans ------------------------------------------------------ */

/* A fan on its way to its speed: where it is and was, and what it missed. */
struct aim {
    double speed, missed, last_speed, last_missed;
};

/*
 * A new speed by the line through the last two, where flow rose with speed
 * between them; at first in proportion.  Flow is steeper than that where the
 * blower works against the fan, and flatter where it works with it.
 */
static void correct(struct aim *a, double got, double want)
{
    double ratio = got > 0.1 * want ? want / got : 10.0, next, slope;
    const double least = 0.02, most = 3.0; /* ours: of speed, and of a step */

    a->missed = got - want;
    slope = (a->missed - a->last_missed) / (a->speed - a->last_speed);
    next = a->speed * ratio;
    if (slope > 0.0 && isfinite(slope))
        next = a->speed - a->missed / slope;
    next = fmin(fmax(next, a->speed / most), a->speed * most);
    a->last_speed = a->speed;
    a->last_missed = a->missed;
    a->speed = fmin(fmax(next, least), 1.0);
}

/* One round over all fans; returns the greatest change of a speed. */
static double tune_once(struct dew_ducts *d, struct aim (*aims)[2])
{
    double most = 0.0;

    for (int j = 0; j < d->layout.vent_count; j++) {
        const struct dew_duct_vent *v = &d->layout.vents[j];
        double got[2] = {ducts__flow_of(d, DEW_ROLE_FRESH_UNIT, j),
                         ducts__flow_of(d, DEW_ROLE_STALE_UNIT, j)};
        double want[2] = {v->set[d->vent], v->set_stale[d->vent]};

        for (int side = 0; side < 2; side++) {
            struct aim *a = &aims[j][side];

            correct(a, got[side], want[side]);
            most = fmax(most, fabs(a->speed - a->last_speed));
            d->speed[j][d->vent][side] = a->speed;
        }
    }
    return most;
}

static void note_limits(struct dew_ducts *d)
{
    for (int j = 0; j < d->layout.vent_count; j++) {
        const double *s = d->speed[j][d->vent];

        d->limit[j][d->vent] = s[0] >= 1.0 || s[1] >= 1.0;
    }
}

enum dew_status ducts__tune(struct dew_ducts *d, struct dew_error *err)
{
    enum dew_status status = DEW_OK;
    struct aim aims[DEW_DUCT_VENTS][2];
    double change = 1.0;
    enum { ROUNDS = 200 };
    const double settled = 1e-9, first = 0.7;

    for (int j = 0; j < d->layout.vent_count; j++)
        for (int side = 0; side < 2; side++) {
            aims[j][side] = (struct aim){.speed = first};
            d->speed[j][d->vent][side] = first;
        }
    for (int i = 0; i < ROUNDS && change > settled && status == DEW_OK; i++) {
        status = ducts__solve(d, err);
        if (status == DEW_OK)
            change = tune_once(d, aims);
    }
    if (status == DEW_OK && change > settled)
        status = core__fail(err, DEW_ESOLVE,
                            "the ventilator's fans could not be set");
    note_limits(d);
    return status;
}

/* ---- opening --------------------------------------------------------------- */

static int take(struct dew_ducts *d)
{
    size_t n = d->n, m = d->m;
    double *block = calloc(n * n + 4 * n + m, sizeof *block);

    if (block == NULL)
        return 0;
    d->matrix = block;
    d->right = block + n * n;
    d->work = d->right + n;
    d->fresh = d->work + n;
    d->carried = d->fresh + n;
    d->setting = d->carried + n;
    return 1;
}

static enum dew_status connect(struct dew_ducts *d, struct dew_duct_node *nodes,
                               struct dew_duct_branch *branches,
                               struct dew_error *err)
{
    for (size_t i = 0; i < d->n; i++)
        nodes[i] = (struct dew_duct_node){
            d->points[i].name,
            d->points[i].place == DEW_PLACE_DUCT ? NAN : 0.0};
    for (size_t i = 0; i < d->m; i++)
        branches[i] = d->runs[i].branch;
    return dew_ducts_network_open(&d->network, nodes, d->n, branches, d->m,
                                  err);
}

static enum dew_status join(struct dew_ducts *d, struct dew_error *err)
{
    struct dew_duct_node *nodes = calloc(d->n + 1, sizeof *nodes);
    struct dew_duct_branch *branches = calloc(d->m + 1, sizeof *branches);
    enum dew_status status;

    if (nodes != NULL && branches != NULL && take(d))
        status = connect(d, nodes, branches, err);
    else
        status = core__fail(err, DEW_EMEM, "no memory for a duct layout");
    free(nodes);
    free(branches);
    return status;
}

int ducts__no_boost(const struct dew_duct_layout *layout)
{
    for (int j = 0; j < layout->vent_count; j++) {
        const struct dew_duct_vent *v = &layout->vents[j];

        if (!(fabs(v->set[DEW_VENT_BOOST] - v->set[DEW_VENT_ON]) <= 0) ||
            !(fabs(v->set_stale[DEW_VENT_BOOST] - v->set_stale[DEW_VENT_ON]) <=
              0))
            return 0;
    }
    return 1;
}

/* The boost as what runs, where it is set to the same. */
static void take_as_running(struct dew_ducts *d)
{
    for (int j = 0; j < d->layout.vent_count; j++) {
        d->limit[j][DEW_VENT_BOOST] = d->limit[j][DEW_VENT_ON];
        for (int side = 0; side < 2; side++)
            d->speed[j][DEW_VENT_BOOST][side] = d->speed[j][DEW_VENT_ON][side];
    }
}

static enum dew_status set_fans(struct dew_ducts *d, struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    if (ducts__no_boost(&d->layout)) {
        d->vent = DEW_VENT_ON;
        d->blower = d->layout.reference;
        status = ducts__tune(d, err);
        take_as_running(d);
        return status;
    }

    for (int s = DEW_VENT_ON; s <= DEW_VENT_BOOST && status == DEW_OK; s++) {
        d->vent = (enum dew_vent_state)s;
        d->blower = d->layout.reference;
        status = ducts__tune(d, err);
    }
    return status;
}

static struct dew_ducts *fresh_ducts(const struct dew_duct_layout *layout,
                                     struct dew_error *err)
{
    struct dew_ducts *d = calloc(1, sizeof *d);

    if (d == NULL)
        core__fail(err, DEW_EMEM, "no memory for a duct layout");
    else
        d->layout = *layout;
    return d;
}

static enum dew_status opened(struct dew_ducts *d, struct dew_ducts **ducts,
                              enum dew_status status, struct dew_error *err)
{
    if (status == DEW_OK)
        status = join(d, err);
    if (status == DEW_OK)
        status = set_fans(d, err);
    if (status == DEW_OK)
        *ducts = d;
    else
        dew_ducts_close(d);
    return status;
}

static int in_range(const struct dew_duct_layout *l,
                    const struct dew_duct_run *r)
{
    switch (r->role) {
    case DEW_ROLE_PLAIN:
        return 1;
    case DEW_ROLE_GRILLE:
    case DEW_ROLE_PICKUP:
        return r->of >= 0 && r->of < l->grille_count;
    case DEW_ROLE_FRESH_FAN:
    case DEW_ROLE_STALE_FAN:
    case DEW_ROLE_FRESH_UNIT:
    case DEW_ROLE_STALE_UNIT:
    case DEW_ROLE_SHUT:
        return r->of >= 0 && r->of < l->vent_count;
    default:
        return r->of >= 0 && r->of < l->handler_count;
    }
}

static enum dew_status check_written(const struct dew_duct_layout *l,
                                     const struct dew_duct_written *w,
                                     struct dew_error *err)
{
    for (size_t i = 0; i < w->run_count; i++) {
        const struct dew_duct_run *r = &w->runs[i];
        enum dew_duct_kind kind = r->branch.kind;
        int fan = r->role == DEW_ROLE_BLOWER || r->role == DEW_ROLE_FRESH_FAN ||
                  r->role == DEW_ROLE_STALE_FAN;
        int damper = r->role == DEW_ROLE_FRESH_UNIT ||
                     r->role == DEW_ROLE_STALE_UNIT || r->role == DEW_ROLE_SHUT;

        int there = in_range(l, r);

        if (there && (!fan || kind == DEW_BRANCH_FAN) &&
            (!damper || kind == DEW_BRANCH_DAMPER))
            continue;
        core__in_row(err, "runs", i, NULL);
        if (!there)
            return core__fail(err, DEW_ERANGE,
                              "run '%s' belongs to number %d, which there is "
                              "not",
                              r->branch.name, r->of + 1);
        return core__fail(err, DEW_ERANGE, "run '%s' has to be a %s",
                          r->branch.name, fan ? "fan" : "damper");
    }
    return DEW_OK;
}

/* The caller's rows copied, and what they leave open filled in. */
static enum dew_status copy_written(struct dew_ducts *d,
                                    const struct dew_duct_written *w,
                                    struct dew_error *err)
{
    size_t length = w->run_count * sizeof *w->runs;
    size_t points = w->point_count * sizeof *w->points;
    char *block = calloc(1, length + points + 1);
    struct dew_duct_run *runs = (void *)block;
    enum dew_status status = DEW_OK;

    if (block == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a duct layout");
    d->copies = block;
    if (length > 0)
        memcpy(block, w->runs, length);
    if (points > 0)
        memcpy(block + length, w->points, points);
    for (size_t i = 0; i < w->run_count && status == DEW_OK; i++)
        status = ducts__complete(&d->layout, &runs[i], &d->built, err);
    d->built.fan_count = DUCTS__FANS;
    d->runs = runs;
    d->points = (const void *)(block + length);
    d->n = w->point_count;
    d->m = w->run_count;
    return status;
}

static enum dew_status opened_as(struct dew_ducts *d, struct dew_ducts **ducts,
                                 const struct dew_duct_written *w,
                                 struct dew_error *err)
{
    enum dew_status status = check_written(&d->layout, w, err);

    if (status == DEW_OK)
        status = copy_written(d, w, err);
    return opened(d, ducts, status, err);
}

enum dew_status dew_ducts_open(struct dew_ducts **ducts,
                               const struct dew_duct_layout *layout,
                               struct dew_error *err)
{
    struct dew_ducts *d = fresh_ducts(layout, err);
    enum dew_status status;

    *ducts = NULL;
    if (d == NULL)
        return DEW_EMEM;
    if (layout->written != NULL)
        return opened_as(d, ducts, layout->written, err);
    status = ducts__build(&d->layout, &d->built, err);
    d->points = d->built.points;
    d->runs = d->built.runs;
    d->n = d->built.point_count;
    d->m = d->built.run_count;
    return opened(d, ducts, status, err);
}

enum dew_status dew_ducts_open_written(struct dew_ducts **ducts,
                                       const struct dew_duct_layout *layout,
                                       const struct dew_duct_written *written,
                                       struct dew_error *err)
{
    struct dew_ducts *d = fresh_ducts(layout, err);

    *ducts = NULL;
    if (d == NULL)
        return DEW_EMEM;
    return opened_as(d, ducts, written, err);
}

void dew_ducts_close(struct dew_ducts *ducts)
{
    if (ducts == NULL)
        return;
    dew_ducts_network_close(ducts->network);
    for (size_t i = 0; i < ducts->built.fan_count; i++)
        dew_ducts_fan_close(ducts->built.fans[i]);
    free(ducts->copies);
    free(ducts->matrix);
    free(ducts);
}

struct dew_duct_written dew_ducts_as_written(const struct dew_ducts *ducts)
{
    return (struct dew_duct_written){ducts->points, ducts->n, ducts->runs,
                                     ducts->m};
}
