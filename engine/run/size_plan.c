/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which figures are worth trying with a core, and what is held meanwhile. */
#include <math.h>
#include <string.h>

#include "run/size.h"

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

const struct dew_value *run__size_value(const struct dew_run *run,
                                        const char *key)
{
    return run__value(dew_scenario_values(run->scenario, run->options[0].at),
                      key);
}

static double figure(const struct dew_run *run, const char *key,
                     double otherwise)
{
    const struct dew_value *v = run__size_value(run, key);

    return v->given ? v->amount.si : otherwise;
}

static int told(const struct dew_run *run, const char *key)
{
    const struct dew_value *v = run__size_value(run, key);

    return v->given && v->origin.by != DEW_BY_DEFAULT;
}

/* ---- what is wanted -------------------------------------------------------------- */

/* Whether a limit is broken in too many houses at about that flow. */
static int broken(const struct dew_size_curve *flow, double at,
                  enum dew_drawn_what what)
{
    size_t near = 0;

    for (size_t i = 1; i < flow->count; i++)
        if (fabs(flow->points[i].value - at) <
            fabs(flow->points[near].value - at))
            near = i;
    return flow->houses - flow->points[near].fails[what] < flow->need;
}

static int wanted(const struct dew_size *s, enum dew_size_core core,
                  enum dew_size_knob knob, double at)
{
    const struct dew_run *run = s->cores[core].run;
    const struct dew_size_curve *flow = dew_size_find(s, core, DEW_SIZE_flow);
    const struct dew_size_curve *dryer =
        dew_size_find(s, core, DEW_SIZE_dehumidifier);
    const struct dew_size_curve *wetter =
        dew_size_find(s, core, DEW_SIZE_humidifier);

    if (s->knobs != 0 && (s->knobs >> knob & 1U) == 0)
        return 0;
    if (knob == DEW_SIZE_flow)
        return 1;
    if (flow == NULL || flow->count == 0)
        return 0;
    switch (knob) {
    case DEW_SIZE_boost:
        return told(run, "control.boost_above") ||
               told(run, "control.boost_for_events");
    case DEW_SIZE_dehumidifier: /* one that is seen at work has its rate */
        return !told(run, "dehumidifier.observed") &&
               (told(run, "dehumidifier.rate") ||
                broken(flow, at, DEW_DRAWN_too_humid));
    case DEW_SIZE_set_point:
        return dryer != NULL && dryer->found;
    case DEW_SIZE_humidifier:
        return told(run, "humidifier.rate") ||
               broken(flow, at, DEW_DRAWN_too_dry);
    default:
        return (dryer != NULL || wetter != NULL) &&
               (dryer == NULL || dryer->found) &&
               (wetter == NULL || wetter->found);
    }
}

/* ---- the first figures ------------------------------------------------------------- */

/* Times the fresh air asked for, or the flow of at; pints a day; percent from
   the limit; percent above the limit. */
static const double flows[] = {0.25, 0.5, 0.75, 1, 1.25, 1.5, 2, 3};
static const double boosts[] = {1, 1.5, 2, 3, 4};
static const double pints[] = {5, 10, 20, 30, 50, 70, 95, 130};
static const double sets[] = {-20, -15, -10, -5, -2, 0, 4};
static const double targets[] = {-5, 0, 3, 6, 10, 15, 20};

static void grid_of(struct run__size_curve *c, const double *list, size_t count,
                    double times, double from)
{
    for (size_t i = 0; i < count; i++) {
        double x = from + times * list[i];

        if (x > 0)
            c->grid[c->grid_count++] = x;
    }
}

size_t run__size_flows(const struct dew_size *s, double flow[RUN__SIZE_GRID])
{
    for (size_t i = 0; i < COUNT(flows); i++)
        flow[i] = s->target.asked * flows[i];
    return COUNT(flows);
}

static void grid(const struct dew_size *s, const struct dew_run *run,
                 struct run__size_curve *c)
{
    switch (c->told.knob) {
    case DEW_SIZE_flow:
        grid_of(c, flows, COUNT(flows), s->target.asked, 0);
        return;
    case DEW_SIZE_boost:
        grid_of(c, boosts, COUNT(boosts), c->told.at_flow, 0);
        return;
    case DEW_SIZE_dehumidifier:
        grid_of(c, pints, COUNT(pints), RUN__PINT_A_DAY, 0);
        return;
    case DEW_SIZE_set_point:
        grid_of(c, sets, COUNT(sets), 0.01,
                figure(run, "limits.too_humid", NAN));
        return;
    case DEW_SIZE_together:
        c->grid[c->grid_count++] = c->told.at_flow;
        return;
    default:
        grid_of(c, targets, COUNT(targets), 0.01,
                figure(run, "limits.too_dry", NAN));
    }
}

/* The dehumidifier whose set point is tried: the one told, else the size found
   with what is lost between sizes, in tens of pints. */
static double rate_for_set(const struct dew_size *s, enum dew_size_core core)
{
    const struct dew_run *run = s->cores[core].run;
    const struct dew_size_curve *dryer =
        dew_size_find(s, core, DEW_SIZE_dehumidifier);

    if (told(run, "dehumidifier.rate"))
        return fmax(dryer->low, figure(run, "dehumidifier.rate", NAN));
    return 10 * RUN__PINT_A_DAY *
           ceil(dryer->low / (10 * RUN__PINT_A_DAY) - 1e-9);
}

/* The flow told; else the air asked for, or the flow that brings it where that
   is more. */
static double flow_for_others(const struct dew_size *s, enum dew_size_core core)
{
    const struct dew_size_curve *flow = dew_size_find(s, core, DEW_SIZE_flow);
    const struct run__size_core *own = &s->cores[DEW_SIZE_CORE_own];

    if (own->run != NULL && told(own->run, "ventilator.flow"))
        return figure(own->run, "ventilator.flow", NAN);
    return flow != NULL ? fmax(flow->air, s->target.asked) : s->target.asked;
}

int run__size_plan(const struct dew_size *s, enum dew_size_core core,
                   enum dew_size_knob knob, struct run__size_curve *c)
{
    double at = knob == DEW_SIZE_flow ? NAN : flow_for_others(s, core);

    if (s->cores[core].run == NULL || !wanted(s, core, knob, at))
        return 0;
    memset(c, 0, sizeof *c);
    c->told = (struct dew_size_curve){.core = core,
                                      .knob = knob,
                                      .houses = 1,
                                      .need = 1,
                                      .at_flow = at,
                                      .air = NAN,
                                      .rate = NAN};
    if (s->cores[core].draws > 0) {
        c->told.houses = s->cores[core].draws;
        c->told.need =
            (size_t)ceil(s->target.share * (double)c->told.houses - 1e-9);
    }
    if (knob == DEW_SIZE_set_point)
        c->told.rate = rate_for_set(s, core);
    grid(s, s->cores[core].run, c);
    return 1;
}

/* ---- what is held -------------------------------------------------------------------- */

static void hold(struct dew_changes *held, struct run__size_curve *c,
                 const char *key, double si)
{
    c->list[held->count++] = (struct dew_change){.path = key, .si = si};
}

/* Flow, with the stale air and the fans' watts in step with it; fans differ
   from flow to flow as units do, by watts for each cfm, not as one unit that is
   turned up. */
static void hold_flow(struct dew_changes *held, struct run__size_curve *c,
                      const struct dew_run *run, double flow, double usual)
{
    double by = flow / figure(run, "ventilator.flow", usual);

    hold(held, c, "ventilator.flow", flow);
    if (told(run, "ventilator.exhaust_flow"))
        hold(held, c, "ventilator.exhaust_flow",
             by * figure(run, "ventilator.exhaust_flow", NAN));
    if (told(run, "ventilator.power"))
        hold(held, c, "ventilator.power",
             by * figure(run, "ventilator.power", NAN));
}

/* Beside the rate of a dehumidifier. */
static void hold_dryer(struct dew_changes *held, struct run__size_curve *c,
                       const struct dew_run *run, double rate)
{
    double limit = figure(run, "limits.too_humid", NAN);

    hold(held, c, "dehumidifier.rate", rate);
    if (told(run, "dehumidifier.power") && told(run, "dehumidifier.rate"))
        hold(held, c, "dehumidifier.power",
             figure(run, "dehumidifier.power", NAN) * rate /
                 figure(run, "dehumidifier.rate", NAN));
    if (c->told.knob != DEW_SIZE_set_point && !told(run, "dehumidifier.set"))
        hold(held, c, "dehumidifier.set",
             fmin(figure(run, "dehumidifier.set", NAN), limit - 0.05));
}

static void hold_humidifier(struct dew_changes *held, struct run__size_curve *c,
                            const struct dew_run *run, double set)
{
    const double ample = 15 * 8 * RUN__PINT_A_DAY; /* 15 gal/day, from memory */

    if (!told(run, "humidifier.rate"))
        hold(held, c, "humidifier.rate", ample);
    hold(held, c, "humidifier.set", set);
}

/* Both sizes that were found. */
static void hold_found(struct dew_changes *held, const struct dew_size *s,
                       struct run__size_curve *c)
{
    enum dew_size_core core = c->told.core;
    const struct dew_size_curve *dryer =
        dew_size_find(s, core, DEW_SIZE_dehumidifier);
    const struct dew_size_curve *wetter =
        dew_size_find(s, core, DEW_SIZE_humidifier);

    if (dryer != NULL)
        hold_dryer(held, c, s->cores[core].run, dryer->low);
    if (wetter != NULL)
        hold_humidifier(held, c, s->cores[core].run, wetter->low);
}

struct dew_changes run__size_changes(const struct dew_size *s,
                                     struct run__size_curve *c, double value)
{
    const struct dew_run *run = s->cores[c->told.core].run;
    struct dew_changes held = {c->list, 0};
    enum dew_size_knob knob = c->told.knob;
    double flow = knob == DEW_SIZE_flow ? value : c->told.at_flow;

    hold_flow(&held, c, run, flow, s->target.asked);
    /* continuous where it is the flow that is tried */
    if (knob == DEW_SIZE_boost ||
        (knob == DEW_SIZE_flow && told(run, "ventilator.boost_flow")))
        hold(&held, c, "ventilator.boost_flow", value);
    else if (knob == DEW_SIZE_dehumidifier)
        hold_dryer(&held, c, run, value);
    else if (knob == DEW_SIZE_set_point) {
        hold_dryer(&held, c, run, c->told.rate);
        hold(&held, c, "dehumidifier.set", value);
    } else if (knob == DEW_SIZE_humidifier)
        hold_humidifier(&held, c, run, value);
    else if (knob == DEW_SIZE_together)
        hold_found(&held, s, c);
    return held;
}
