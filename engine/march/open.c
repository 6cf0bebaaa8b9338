/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A house made ready for its first hour. */
#include "march/open.h"

#include <math.h>

#include "dew/air.h"
#include "dew/dryer.h"
#include "dew/leakage.h"
#include "march/drive_step.h"
#include "plant/store_step.h"

/* Stores and nodes where a house of that temperature and RH has them. */
void march__settle_at(struct march__body *m, double t, double rh)
{
    const struct march__lane *l = &m->lane;
    struct dew_state x = {0};

    x.t_air = x.t_mass = t;
    x.w = dew_air_w(t, rh, m->before.p);
    x.w_surface = rh * l->cap_surface;
    x.w_mid = rh * l->cap_mid;
    x.w_deep = rh * l->cap_deep;
    x.co2 = m->c.house.co2_outdoors;
    m->at.x = x;
}

static double pressure_of_all(const struct dew_case *c)
{
    double worst = 0.0, local = 0.0;

    for (int e = 0; e < DEW_LOCALS; e++)
        local += c->plant.exhausts[e].flow;
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < DEW_BLOWER_STATES; b++) {
            struct march__moved all = march__moved_by(&c->paths[v][b], local);

            worst = fmin(worst, all.in - all.out);
        }
    return dew_house_pressure(&c->house.leakage, 0.0, -worst);
}

/* 1: some machine changes its stage, or its set point, in a step. */
static int switches(const struct dew_case *c)
{
    int any = 0;

    for (int k = 0; k < c->plant.handler_count; k++) {
        const struct dew_handler *h = &c->plant.handlers[k];

        any |= (h->turndown > 0.0 && h->turndown < 1.0) ||
               (h->low_stage > 0.0 && h->low_stage < 1.0) || h->overcool > 0.0;
    }
    return any;
}

static int tied(const struct dew_case *c)
{
    double all = 0.0;

    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < DEW_BLOWER_STATES; b++)
            all += c->paths[v][b].at_coil + c->paths[v][b].idle_at_coil;
    return all > 0.0;
}

/* 1: the ducts have something to lose. */
static int ducted(const struct dew_duct_watch *w)
{
    double all =
        w->supply_full + w->supply_low + w->return_full + w->return_low;

    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int k = 0; k < DEW_HANDLERS; k++)
            for (int full = 0; full < 2; full++)
                all += w->leaks[v][k][full].drawn + w->leaks[v][k][full].lost;
    return all > 0.0;
}

/* Resolve the coils; a handler without capacity only blows. */
static enum dew_status open_coils(struct march__body *m, struct dew_error *err)
{
    for (int k = 0; k < m->c.plant.handler_count; k++) {
        const struct dew_handler *handler = &m->c.plant.handlers[k];
        enum dew_status status;

        m->at.stage[k] = 1.0;
        m->stages[k] = plant__stages_of(handler);
        if (!(handler->capacity > 0.0))
            continue;
        status = dew_plant_coil_open(handler, &m->coils[k], err);
        if (status != DEW_OK)
            return status;
        m->stores[k] = dew_plant_coil_store_of(handler, &m->coils[k]);
    }
    return DEW_OK;
}

/* A dehumidifier's fits at its own rating. */
static void open_dryer(struct march__body *m)
{
    const struct dew_dryer *d = &m->c.plant.dryer;

    if (!(d->rate > 0.0))
        return;
    m->by_removal = 1.0 / dew_plant_dryer_removal(d->rating_t, d->rating_rh);
    m->by_efficiency =
        1.0 / dew_plant_dryer_efficiency(d->rating_t, d->rating_rh);
}

/* Kinks that this house may have. */
int march__kinds_of(const struct dew_case *c)
{
    int kinds = 0;

    for (int k = 0; k < c->plant.handler_count; k++)
        if (c->plant.handlers[k].capacity > 0.0)
            kinds |= k == 0 ? MARCH__COOLS : MARCH__COOLS | MARCH__COOLS_MORE;
    for (int s = 0; s < DEW_SURFACES; s++)
        if (c->house.surfaces[s].area > 0.0)
            kinds |= MARCH__FILMS;
    kinds |= c->plant.dryer.rate > 0.0 ? MARCH__DRIES : 0;
    kinds |= c->plant.humidifier.rate > 0.0 ? MARCH__WETS : 0;
    kinds |= c->house.water[DEW_SOURCE_ground].rate > 0.0 ? MARCH__GROUND : 0;
    return kinds;
}

enum dew_status march__open(struct march__body *body, const struct dew_case *c,
                            const struct dew_hour *before,
                            struct dew_error *err)
{
    enum dew_status status = march__check(c, err);

    if (status == DEW_OK)
        status = march__numbers(c, err);
    if (status == DEW_OK)
        status = march__one_hour(before, err);
    if (status != DEW_OK)
        return status;
    *body = (struct march__body){.c = *c};
    body->lane = march__lane_of(c);
    body->before = *before;
    body->clock = march__clock_set(before->t);
    march__settle_at(body, c->house.comfort.heat[0], 0.45);
    body->at.x_p = before->p;
    body->alike = march__paths_alike(c);
    body->kinds = march__kinds_of(c);
    body->tied = tied(c);
    body->ducted = ducted(&c->watch);
    body->pressure_all = pressure_of_all(c);
    body->switches = switches(c) ? 1.0 : 0.0;
    open_dryer(body);
    return open_coils(body, err);
}

int march__led_way(size_t h, size_t end)
{
    return h < end - MARCH__FINE ? MARCH__ROUGH : MARCH__IDLE;
}

int march__led_steps(size_t h, size_t end, int steps)
{
    return march__led_way(h, end) == MARCH__ROUGH && steps > MARCH__FEW
               ? MARCH__FEW
               : steps;
}

size_t march__first_year(const struct dew_date *dates, size_t count)
{
    const size_t year = DEW_MARCH_YEAR, day = MARCH__DAY;

    if (count < year)
        return 0;
    if (count >= year + day && (dates[year].month != dates[0].month ||
                                dates[year].day != dates[0].day))
        return year + day;
    return year;
}
