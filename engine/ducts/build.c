/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a filled layout to points, runs and fans. */
#include "ducts/build.h"

#include <math.h>
#include <stdio.h>

#include "core/fail.h"

static const double wide = 10.0; /* a unit's loss while its fan runs is in its
                                    sheet: what is left is 0.01 Pa at flow */
static const double open_damper = 3.0; /* likewise: 0.11 Pa at flow */
static const double leak_at =
    50.0; /* Pa at which a shut damper's leak is said */
static const double leak_power = 0.65; /* [ASH-F21] eq. 37 */

/* Names of one thing at each handler or ventilator. */
static const char *one_of(const char *const names[3], int k)
{
    return k >= 0 && k < 3 ? names[k] : names[0];
}

#define OF(name, k)                                                            \
    one_of((const char *const[]){name " 1", name " 2", name " 3"}, k)

static size_t point(struct ducts__built *b, const char *name,
                    enum dew_duct_place place)
{
    b->points[b->point_count] = (struct dew_duct_point){name, place};
    return b->point_count++;
}

/* The places every layout has, first. */
enum { HOUSE, OUTDOORS, BUFFER };

static size_t joint(struct ducts__built *b, const char *name)
{
    return point(b, name, DEW_PLACE_DUCT);
}

static struct dew_duct_run *run(struct ducts__built *b, const char *name,
                                size_t from, size_t to)
{
    struct dew_duct_run *r = &b->runs[b->run_count++];

    *r = (struct dew_duct_run){
        .branch = {.name = name, .from = from, .to = to, .power = 0.5}};
    return r;
}

static void role(struct dew_duct_run *r, enum dew_duct_role role, int of)
{
    r->role = role;
    r->of = of;
}

static struct dew_duct_run *duct(struct ducts__built *b, const char *name,
                                 size_t from, size_t to,
                                 const struct dew_duct *d)
{
    struct dew_duct_run *r = run(b, name, from, to);

    r->branch.kind = DEW_BRANCH_DUCT;
    r->branch.duct = *d;
    return r;
}

static struct dew_duct_run *fixed(struct ducts__built *b, const char *name,
                                  size_t from, size_t to, double flow)
{
    struct dew_duct_run *r = run(b, name, from, to);

    r->branch.kind = DEW_BRANCH_FIXED;
    r->branch.flow = fmax(flow, 1e-7);
    return r;
}

/* ---- air handlers -------------------------------------------------------- */

/* The trunk's own section, another length, no fittings. */
static struct dew_duct piece(const struct dew_duct *trunk, double length)
{
    struct dew_duct d = *trunk;

    d.length = length;
    d.extra = 0.0;
    d.loss = 0.0;
    return d;
}

static double lost_in(const struct dew_duct *d, double q)
{
    return dew_ducts_drop(d, DEW_DUCTS_DENSITY, q, NULL);
}

static double return_ducts(const struct dew_duct_handler *h, double q)
{
    struct dew_duct rest = piece(&h->return_trunk.duct, h->between + h->before);

    return lost_in(&h->return_trunk.duct, q) + lost_in(&rest, q);
}

static double supply_ducts(const struct dew_duct_handler *h, double q)
{
    struct dew_duct rest = piece(&h->supply_trunk.duct, h->after);

    return lost_in(&h->supply_trunk.duct, q) + lost_in(&rest, q);
}

/* What is left of the external static for grilles and their branches. */
static double return_left(const struct dew_duct_handler *h)
{
    return h->external * h->return_share - return_ducts(h, h->flow);
}

static double supply_left(const struct dew_duct_handler *h)
{
    return h->external * (1.0 - h->return_share) - supply_ducts(h, h->flow);
}

static double square(double x)
{
    return x * x;
}

double ducts__return_resists(const struct dew_duct_handler *h, int fresh,
                             double flow)
{
    struct dew_duct taps = piece(&h->return_trunk.duct, h->between);

    return lost_in(&h->return_trunk.duct, flow) +
           (fresh ? lost_in(&taps, flow) : 0.0) +
           return_left(h) * square(flow / h->flow);
}

double ducts__supply_resists(const struct dew_duct_handler *h, double flow)
{
    return lost_in(&h->supply_trunk.duct, flow) +
           supply_left(h) * square(flow / h->flow);
}

static enum dew_status too_small(int k, const char *side, double loses,
                                 double left, struct dew_error *err)
{
    core__in_row(err, "handlers", (size_t)k, side);
    return core__fail(err, DEW_ERANGE,
                      "loses %.3g Pa at full flow; the external static leaves "
                      "%.3g Pa for it and its grilles",
                      loses, left);
}

static enum dew_status trunks_fit(const struct dew_duct_handler *h, int k,
                                  struct dew_error *err)
{
    double in = h->external * h->return_share;

    if (!(return_left(h) > 0.0))
        return too_small(k, "return_trunk", return_ducts(h, h->flow), in, err);
    if (!(supply_left(h) > 0.0))
        return too_small(k, "supply_trunk", supply_ducts(h, h->flow),
                         h->external - in, err);
    return DEW_OK;
}

/* Where a handler's ducts can be tapped. */
struct taps {
    size_t stale, fresh, supply;
};

/* What a leak of that share lets through at 1 Pa.  The share is of the full
   flow as it stands with the leak, which takes air off the trunk: its pressure
   is then that of the rest, by the square. */
static double leak_at_1(double share, double flow, double pressure)
{
    return share * flow / pow(pressure * square(1.0 - share), leak_power);
}

static void leaks(struct ducts__built *b, const struct dew_duct_handler *h,
                  int k, const size_t plenums[2])
{
    double in = h->external * h->return_share;
    double out = h->external - in;

    if (h->leak_return > 0.0)
        fixed(b, OF("leaks of return", k), BUFFER, plenums[0],
              leak_at_1(h->leak_return, h->flow, in))
            ->branch.power = leak_power;
    if (h->leak_supply > 0.0)
        fixed(b, OF("leaks of supply", k), plenums[1], BUFFER,
              leak_at_1(h->leak_supply, h->flow, out))
            ->branch.power = leak_power;
}

/* Grilles of handler k, each with its share of what is left. */
static void supply_grilles(struct ducts__built *b,
                           const struct dew_duct_layout *l, int k, size_t from)
{
    const struct dew_duct_handler *h = &l->handlers[k];
    double open = h->flow / sqrt(supply_left(h));

    for (int g = 0; g < l->grille_count; g++)
        if (l->grilles[g].handler == k && l->grilles[g].share > 0.0)
            role(fixed(b, l->grilles[g].name, from, HOUSE,
                       open * l->grilles[g].share),
                 DEW_ROLE_GRILLE, g);
}

static void return_side(struct ducts__built *b,
                        const struct dew_duct_handler *h, int k, struct taps *t,
                        size_t plenum)
{
    size_t grilles = joint(b, OF("behind return grilles", k));
    struct dew_duct between = piece(&h->return_trunk.duct, h->between);
    struct dew_duct before = piece(&h->return_trunk.duct, h->before);

    t->stale = joint(b, OF("stale tap of return", k));
    t->fresh = joint(b, OF("fresh tap of return", k));
    role(fixed(b, OF("return grilles", k), HOUSE, grilles,
               h->flow / sqrt(return_left(h))),
         DEW_ROLE_RETURN, k);
    duct(b, OF("return trunk", k), grilles, t->stale, &h->return_trunk.duct);
    duct(b, OF("between the taps of return", k), t->stale, t->fresh, &between);
    duct(b, OF("return to handler", k), t->fresh, plenum, &before);
}

static enum dew_status blower_of(const struct dew_duct_handler *h,
                                 struct dew_fan **fan, struct dew_error *err)
{
    struct dew_fan_row rated = {h->flow, h->external + h->inside, h->watts};

    return dew_ducts_blower_open(fan, &rated, h->free, err);
}

static enum dew_status handler(struct ducts__built *b,
                               const struct dew_duct_layout *l, int k,
                               struct taps *t, struct dew_error *err)
{
    const struct dew_duct_handler *h = &l->handlers[k];
    struct dew_duct after = piece(&h->supply_trunk.duct, h->after);
    struct dew_fan **fan = &b->fans[b->fan_count];
    enum dew_status status = trunks_fit(h, k, err);
    size_t plenums[2], last;
    struct dew_duct_run *blower;

    if (status == DEW_OK)
        status = blower_of(h, fan, err);
    if (status != DEW_OK)
        return status;
    b->fan_count++;
    plenums[0] = joint(b, OF("return plenum", k));
    plenums[1] = joint(b, OF("supply plenum", k));
    return_side(b, h, k, t, plenums[0]);
    blower = run(b, OF("air handler", k), plenums[0], plenums[1]);
    role(blower, DEW_ROLE_BLOWER, k);
    blower->branch.kind = DEW_BRANCH_FAN;
    blower->branch.fan = *fan;
    blower->branch.flow = h->flow / sqrt(h->inside);
    t->supply = joint(b, OF("fresh tap of supply", k));
    last = joint(b, OF("supply trunk's end", k));
    duct(b, OF("handler to fresh tap", k), plenums[1], t->supply, &after);
    duct(b, OF("supply trunk", k), t->supply, last, &h->supply_trunk.duct);
    supply_grilles(b, l, k, last);
    leaks(b, h, k, plenums);
    return DEW_OK;
}

/* ---- ventilators --------------------------------------------------------- */

static enum dew_status side_fan(const struct dew_duct_vent *v,
                                struct dew_fan **fan, struct dew_error *err)
{
    struct dew_fan_row rows[DEW_DUCT_ROWS];
    struct dew_fan_row rated = {v->flow, v->pressure, 0.5 * v->watts};
    const double free =
        1.75; /* of a small ventilator, from memory 1.6 to 1.9 */

    for (int i = 0; i < v->row_count; i++) {
        rows[i] = v->rows[i];
        rows[i].watts *= 0.5;
    }
    return v->row_count > 0
               ? dew_ducts_fan_open(fan, rows, (size_t)v->row_count, err)
               : dew_ducts_blower_open(fan, &rated, free, err);
}

static void fan_run(const struct dew_duct_vent *v, const struct dew_fan *fan,
                    struct dew_duct_run *r)
{
    r->branch.kind = DEW_BRANCH_FAN;
    r->branch.fan = fan;
    r->branch.flow = wide * v->flow;
}

static double idle_setting(const struct dew_duct_vent *v)
{
    return 1.0 / (wide * sqrt(v->core));
}

static void unit_run(const struct dew_duct_vent *v, struct dew_duct_run *r)
{
    r->branch.kind = DEW_BRANCH_DAMPER;
    r->branch.flow = wide * v->flow;
    r->branch.leak = 1e-4;
    r->idle = idle_setting(v);
}

/* From a to b, by a motorised damper when there is one. */
static size_t shut(struct ducts__built *b, const struct dew_duct_layout *l,
                   const struct dew_duct_vent *v, const char *const names[2],
                   size_t from)
{
    struct dew_duct_run *r;
    size_t to;

    if (l->damper != DEW_DUCT_FITTED)
        return from;
    to = joint(b, names[0]);
    r = run(b, names[1], from, to);
    r->role = DEW_ROLE_SHUT;
    r->branch.kind = DEW_BRANCH_DAMPER;
    r->branch.flow = open_damper * v->flow;
    r->branch.leak = l->damper_leak / (open_damper * sqrt(leak_at));
    return to;
}

static void fresh_tie(struct ducts__built *b, const struct dew_duct_layout *l,
                      const struct dew_duct_vent *v, int k,
                      const size_t ends[2])
{
    struct dew_duct_run *r;
    size_t at = ends[1];

    if (l->backdraft == DEW_DUCT_FITTED)
        at = joint(b, OF("before the backdraft damper", k));
    r = duct(b, OF("fresh air to handler", k), ends[0], at, &v->fresh.duct);
    if (l->backdraft == DEW_DUCT_FITTED) {
        r = run(b, OF("backdraft damper to handler", k), at, ends[1]);
        r->branch.kind = DEW_BRANCH_BACKDRAFT;
        r->branch.flow = open_damper * v->flow;
        r->branch.leak = l->damper_leak / (open_damper * sqrt(leak_at));
    }
    role(r, DEW_ROLE_FRESH_TIE, k);
}

/*
 * A grille's own branch.  With its damper or face set it takes its share at
 * 8 Pa, the usual allowance of 0.03 in. of water; common practice, no source.
 */
static const double grille_drop = 8.0;

static void own_fresh(struct ducts__built *b, const struct dew_duct_layout *l,
                      int j, size_t header)
{
    const struct dew_duct_vent *v = &l->vents[j];
    size_t first = joint(b, OF("first fresh branch of ventilator", j));

    duct(b, OF("fresh air duct of ventilator", j), header, first,
         &v->fresh.duct);
    for (int g = 0; g < l->grille_count; g++) {
        const struct dew_duct_grille *grille = &l->grilles[g];
        double part = grille->fresh * v->set[DEW_VENT_ON];
        size_t face;

        if (grille->vent != j || !(part > 0.0))
            continue;
        face = joint(b, grille->name);
        duct(b, grille->name, first, face, &grille->line.duct);
        role(fixed(b, grille->name, face, HOUSE, part / sqrt(grille_drop)),
             DEW_ROLE_GRILLE, g);
    }
}

static void own_stale(struct ducts__built *b, const struct dew_duct_layout *l,
                      int j, size_t header)
{
    const struct dew_duct_vent *v = &l->vents[j];
    size_t last = joint(b, OF("last stale branch of ventilator", j));

    duct(b, OF("stale air duct of ventilator", j), last, header,
         &v->stale.duct);
    for (int g = 0; g < l->grille_count; g++) {
        const struct dew_duct_grille *grille = &l->grilles[g];
        double part = grille->stale * v->set_stale[DEW_VENT_ON];
        size_t face;

        if (grille->vent != j || !(part > 0.0))
            continue;
        face = joint(b, grille->name);
        role(fixed(b, grille->name, HOUSE, face, part / sqrt(grille_drop)),
             DEW_ROLE_PICKUP, g);
        duct(b, grille->name, face, last, &grille->line.duct);
    }
}

static void in_the_house(struct ducts__built *b,
                         const struct dew_duct_layout *l, int j,
                         const struct taps *taps, const size_t headers[2])
{
    const struct dew_duct_vent *v = &l->vents[j];

    for (int k = 0; k < l->handler_count; k++) {
        size_t fresh = ducts__return_fresh(l) ? taps[k].fresh : taps[k].supply;
        size_t ends[2] = {headers[0], l->gap ? HOUSE : fresh};

        if (!(v->serves >> k & 1))
            continue;
        if (l->kind != DEW_LAYOUT_own_ducts)
            fresh_tie(b, l, v, k, ends);
        if (ducts__return_stale(l))
            role(duct(b, OF("stale air from handler", k), taps[k].stale,
                      headers[1], &v->stale.duct),
                 DEW_ROLE_STALE_TIE, k);
    }
    if (ducts__own_fresh(l))
        own_fresh(b, l, j, headers[0]);
    if (!ducts__return_stale(l))
        own_stale(b, l, j, headers[1]);
}

static enum dew_status vent(struct ducts__built *b,
                            const struct dew_duct_layout *l, int j,
                            const struct taps *taps, struct dew_error *err)
{
    const struct dew_duct_vent *v = &l->vents[j];
    const char *const in[2] = {OF("behind the intake damper", j),
                               OF("intake damper of ventilator", j)};
    const char *const out[2] = {OF("before the exhaust damper", j),
                                OF("exhaust damper of ventilator", j)};
    struct dew_fan **fan = &b->fans[b->fan_count];
    enum dew_status status = side_fan(v, fan, err);
    size_t headers[2], at, next;
    struct dew_duct_run *r;

    if (status != DEW_OK)
        return status;
    b->fan_count++;
    at = joint(b, OF("intake of ventilator", j));
    duct(b, OF("intake duct of ventilator", j), OUTDOORS, at, &v->intake.duct);
    at = shut(b, l, v, in, at);
    next = joint(b, OF("after the supply fan", j));
    r = run(b, OF("supply fan of ventilator", j), at, next);
    role(r, DEW_ROLE_FRESH_FAN, j);
    fan_run(v, *fan, r);
    headers[0] = joint(b, OF("fresh air of ventilator", j));
    r = run(b, OF("core of ventilator, fresh side", j), next, headers[0]);
    role(r, DEW_ROLE_FRESH_UNIT, j);
    unit_run(v, r);
    headers[1] = joint(b, OF("stale air of ventilator", j));
    at = joint(b, OF("after the core, stale side", j));
    r = run(b, OF("core of ventilator, stale side", j), headers[1], at);
    role(r, DEW_ROLE_STALE_UNIT, j);
    unit_run(v, r);
    next = joint(b, OF("after the exhaust fan", j));
    r = run(b, OF("exhaust fan of ventilator", j), at, next);
    role(r, DEW_ROLE_STALE_FAN, j);
    fan_run(v, *fan, r);
    at = shut(b, l, v, out, next);
    duct(b, OF("exhaust duct of ventilator", j), at, OUTDOORS,
         &v->discharge.duct);
    in_the_house(b, l, j, taps, headers);
    return DEW_OK;
}

enum dew_status ducts__build(const struct dew_duct_layout *layout,
                             struct ducts__built *b, struct dew_error *err)
{
    enum dew_status status = DEW_OK;
    struct taps taps[DEW_DUCT_HANDLERS] = {{0}};

    if (layout->handler_count < 0 ||
        layout->handler_count > DEW_DUCT_HANDLERS || layout->vent_count < 0 ||
        layout->vent_count > DEW_DUCT_VENTS || layout->grille_count < 1 ||
        layout->grille_count > DEW_DUCT_GRILLES)
        return core__fail(err, DEW_ERANGE, "the layout was not filled in");
    point(b, "house", DEW_PLACE_HOUSE);
    point(b, "outdoors", DEW_PLACE_OUTDOORS);
    point(b, "outside space", DEW_PLACE_BUFFER);
    for (int k = 0; k < layout->handler_count && status == DEW_OK; k++)
        status = handler(b, layout, k, &taps[k], err);
    for (int j = 0; j < layout->vent_count && status == DEW_OK; j++)
        status = vent(b, layout, j, taps, err);
    return status;
}

/* ---- written out ----------------------------------------------------------- */

static void or_else(double *x, double value)
{
    if (!(*x > 0.0))
        *x = value;
}

/* The fan of a handler or ventilator, made when first asked for. */
static enum dew_status fan_for(const struct dew_duct_layout *l,
                               struct dew_duct_run *r, struct ducts__built *b,
                               struct dew_error *err)
{
    int blower = r->role == DEW_ROLE_BLOWER;
    struct dew_fan **fan = &b->fans[blower ? r->of : DEW_DUCT_HANDLERS + r->of];
    enum dew_status status = DEW_OK;

    if (*fan == NULL)
        status = blower ? blower_of(&l->handlers[r->of], fan, err)
                        : side_fan(&l->vents[r->of], fan, err);
    r->branch.fan = *fan;
    return status;
}

static void complete_damper(const struct dew_duct_layout *l,
                            struct dew_duct_run *r)
{
    const struct dew_duct_vent *v = &l->vents[r->of];

    if (r->role == DEW_ROLE_SHUT) {
        or_else(&r->branch.flow, open_damper * v->flow);
        or_else(&r->branch.leak,
                l->damper_leak * v->flow / (r->branch.flow * sqrt(leak_at)));
        return;
    }
    or_else(&r->branch.flow, wide * v->flow);
    or_else(&r->branch.leak, 1e-4);
    or_else(&r->idle, v->flow / (r->branch.flow * sqrt(v->core)));
}

enum dew_status ducts__complete(const struct dew_duct_layout *l,
                                struct dew_duct_run *run,
                                struct ducts__built *b, struct dew_error *err)
{
    struct dew_duct_branch *at = &run->branch;
    const struct dew_duct_handler *h;

    switch (run->role) {
    case DEW_ROLE_BLOWER:
        h = &l->handlers[run->of];
        or_else(&at->flow, h->flow / sqrt(h->inside));
        break;
    case DEW_ROLE_FRESH_FAN:
    case DEW_ROLE_STALE_FAN:
        or_else(&at->flow, wide * l->vents[run->of].flow);
        break;
    case DEW_ROLE_FRESH_UNIT:
    case DEW_ROLE_STALE_UNIT:
    case DEW_ROLE_SHUT:
        complete_damper(l, run);
        break;
    default:
        return DEW_OK;
    }
    or_else(&at->power, 0.5);
    return at->kind == DEW_BRANCH_FAN && at->fan == NULL
               ? fan_for(l, run, b, err)
               : DEW_OK;
}
