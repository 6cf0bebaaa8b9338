/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/size.h"

#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "dew/air.h"
#include "run/size.h"
#include "run/spread.h"

enum { CORE_SETS = 256 + 2, SET_TEXT = 160 };

static const char *const core_words[DEW_SIZE_CORES] = {
#define X(name, words, core) core,
    DEW_SIZE_CORE_MAP(X)
#undef X
};

/* ---- opening ------------------------------------------------------------------ */

static int has_core(const struct dew_run *run, size_t option)
{
    return dew_scenario_facts(run->scenario, option).core >=
           DEW_CORE_heat_plate;
}

/* The option to size: the one picked, the first with a core, the first. */
static size_t picked(const struct dew_run *run)
{
    for (size_t i = 0; i < run->count; i++)
        if (has_core(run, run->options[i].at))
            return run->options[i].at;
    return run->options[0].at;
}

static enum dew_status check(const struct dew_size_ask *ask,
                             struct dew_faults *faults)
{
    struct dew_error err = {0};

    if (ask->from->option_count > 1)
        core__fail(&err, DEW_EAMBIGUOUS,
                   "one option is sized at a time: name one");
    else if (!(ask->share > 0 && ask->share <= 1))
        core__fail(&err, DEW_ERANGE, "a share of the houses is 0 < .. 1");
    else if (ask->hours < 0)
        core__fail(&err, DEW_ERANGE, "hours are 0 or more");
    return err.status == DEW_OK ? DEW_OK : core__fault(faults, &err);
}

/* The draws; of a house without ranges none. */
static enum dew_status open_spread(struct dew_size *s,
                                   struct run__size_core *core,
                                   const struct dew_size_ask *ask,
                                   struct dew_error *err)
{
    struct dew_spread_ask draws = {.draws = ask->draws,
                                   .seed = ask->seed,
                                   .threads = ask->threads,
                                   .years = ask->years,
                                   .model = ask->model};
    enum dew_status status =
        run__spread_or_told(&core->spread, core->run, &draws, err);

    core->draws = draws.draws;
    if (status == DEW_OK && draws.draws > s->target.draws) {
        s->target.draws = draws.draws;
        s->target.years = (int)core->spread->year_count;
        s->target.model = ask->model ? DEW_SPREAD_MODEL : 0;
    }
    return status;
}

/* The same option with another core, or why there is none.  Errors: DEW_EMEM
   alone. */
static enum dew_status open_other(struct dew_size *s, enum dew_size_core which,
                                  const struct dew_run_ask *base,
                                  const struct dew_size_ask *ask)
{
    struct run__size_core *core = &s->cores[which];
    const char *sets[CORE_SETS];
    char none[SET_TEXT], given[SET_TEXT];
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};
    struct dew_run_ask other = *base;

    snprintf(none, sizeof none, "options.%s.ventilator=none", base->options[0]);
    snprintf(given, sizeof given,
             "options.%s.ventilator={core: %s, typical: yes}", base->options[0],
             core_words[which]);
    for (size_t i = 0; i < base->set_count; i++)
        sets[i] = base->sets[i];
    sets[base->set_count] = none;
    sets[base->set_count + 1] = given;
    other.sets = sets;
    other.set_count = base->set_count + 2;
    if (dew_run_open(&core->run, &other, &faults) == DEW_OK &&
        open_spread(s, core, ask, &list[0]) == DEW_OK)
        return DEW_OK;
    dew_run_close(core->run);
    core->run = NULL;
    snprintf(core->why, sizeof core->why, "%.120s%s%.60s", list[0].text,
             list[0].path[0] ? ": " : "", list[0].path);
    return list[0].status == DEW_EMEM ? DEW_EMEM : DEW_OK;
}

static int passes_water(enum dew_core_kind kind)
{
    return kind >= DEW_CORE_enthalpy_plate;
}

/* The option as told, and the same with cores of the other kinds. */
static enum dew_status open_cores(struct dew_size *s,
                                  const struct dew_size_ask *ask,
                                  const struct dew_run *all,
                                  struct dew_faults *faults)
{
    const char *name = dew_scenario_name(all->scenario, picked(all));
    enum dew_core_kind kind =
        dew_scenario_facts(all->scenario, picked(all)).core;
    struct dew_run_ask base = *ask->from;
    struct run__size_core *core = &s->cores[DEW_SIZE_CORE_own];
    const struct dew_error memory = {.status = DEW_EMEM,
                                     .text = "out of memory"};
    struct dew_error err = {0};

    base.text = dew_scenario_text(all->scenario, &base.length);
    base.options = &name;
    base.option_count = 1;
    base.job = DEW_RUN_MARCH;
    base.with = 0;
    if (base.set_count + 2 > CORE_SETS)
        base.set_count = CORE_SETS - 2;
    if (kind != DEW_CORE_none) {
        if (dew_run_open(&core->run, &base, faults) != DEW_OK)
            return faults->list[0].status;
        core__at(&err, ask->from->name, 0, 0);
        if (open_spread(s, core, ask, &err) != DEW_OK)
            return core__fault(faults, &err);
    }
    for (int k = DEW_SIZE_CORE_own + 1; k < DEW_SIZE_CORES; k++)
        if (kind < DEW_CORE_heat_plate ||
            passes_water(kind) != (k == DEW_SIZE_CORE_enthalpy))
            if (open_other(s, (enum dew_size_core)k, &base, ask) != DEW_OK)
                return core__fault(faults, &memory);
    return DEW_OK;
}

static void set_target(struct dew_size *s, const struct dew_size_ask *ask,
                       const struct dew_run *run)
{
    const struct dew_house *h = &run->cases[0].house;
    size_t hours;

    (void)dew_year_hours(run->year, &hours);
    s->target.home = (struct dew_dwelling){h->floor_area, h->volume,
                                           h->bedrooms, h->people.count};
    s->target.hours = isnan(ask->hours)
                          ? dew_verdict_judging().kept_share * (double)hours
                          : ask->hours;
    s->target.share = ask->share;
    s->knobs = ask->knobs;
    s->target.asked = dew_scenario_required(run->scenario, run->options[0].at);
    if (!(s->target.asked > 0))
        s->target.asked = dew_house_rate(DEW_RATE_622_2013, &s->target.home);
}

static enum dew_status open_all(struct dew_size *s,
                                const struct dew_size_ask *ask,
                                struct dew_faults *faults)
{
    struct dew_run_ask first = *ask->from;
    struct dew_run *all = NULL;
    const struct dew_run *any = NULL;
    enum dew_status status;

    first.job = DEW_RUN_MARCH;
    first.with = 0;
    status = dew_run_open(&all, &first, faults);
    if (status == DEW_OK)
        status = open_cores(s, ask, all, faults);
    for (int k = 0; k < DEW_SIZE_CORES && any == NULL; k++)
        any = s->cores[k].run;
    if (status == DEW_OK && any != NULL) {
        struct dew_error err = {0};

        set_target(s, ask, any);
        if (run__size_pair(s, &err) != DEW_OK)
            status = core__fault(faults, &err);
    }
    if (status == DEW_OK && any == NULL) {
        struct dew_error err = {0};

        core__at(&err, ask->from->name, 0, 0);
        core__fail(&err, DEW_ERANGE, "no core can be tried here: %s",
                   s->cores[DEW_SIZE_CORES - 1].why);
        status = core__fault(faults, &err);
    }
    dew_run_close(all);
    return status;
}

enum dew_status dew_size_open(struct dew_size **size,
                              const struct dew_size_ask *ask,
                              struct dew_faults *faults)
{
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_size *s = calloc(1, sizeof *s);
    enum dew_status status;

    *size = NULL;
    if (s == NULL)
        return core__fault(faults, &err);
    s->curves = calloc(RUN__SIZE_CURVES, sizeof *s->curves);
    status = s->curves != NULL ? check(ask, faults) : core__fault(faults, &err);
    if (status == DEW_OK)
        status = open_all(s, ask, faults);
    if (status == DEW_OK)
        *size = s;
    else
        dew_size_close(s);
    return status;
}

void dew_size_close(struct dew_size *s)
{
    if (s == NULL)
        return;
    for (int k = 0; k < DEW_SIZE_CORES; k++) {
        free(s->cores[k].outside);
        dew_spread_close(s->cores[k].spread);
        dew_run_close(s->cores[k].run);
    }
    free(s->curves);
    free(s);
}

/* ---- the march ------------------------------------------------------------------ */

/* The next curve worth trying; 0 when there is none. */
static int open_curve(struct dew_size *s)
{
    while (!s->open && s->next < RUN__SIZE_CURVES) {
        size_t at = s->next++;

        s->open = run__size_plan(s, (enum dew_size_core)(at / DEW_SIZE_KNOBS),
                                 (enum dew_size_knob)(at % DEW_SIZE_KNOBS),
                                 &s->curves[s->count]);
    }
    return s->open;
}

/* A figure that makes no house is left out, and ends the closing in; a curve
   of such alone is an error. */
static enum dew_status leave_out(struct run__size_curve *c,
                                 struct dew_error *err)
{
    int last = c->tried + 1 >= c->grid_count;

    if (err->status != DEW_ERANGE || (last && c->told.count == 0))
        return err->status;
    snprintf(c->told.stopped, sizeof c->told.stopped, "%.60s: %.90s", err->path,
             err->text);
    c->ended = c->tried >= c->grid_count;
    *err = (struct dew_error){0};
    return DEW_OK;
}

static enum dew_status one_more(struct dew_size *s, struct dew_error *err)
{
    struct run__size_curve *c = &s->curves[s->count];
    double value;

    if (!c->ended && run__size_next(c, &value)) {
        enum dew_status status = run__size_try(s, c, value, err);

        if (status != DEW_OK)
            status = leave_out(c, err);
        c->tried += c->tried < c->grid_count;
        return status;
    }
    run__size_tell(c);
    s->count++;
    s->open = 0;
    return DEW_OK;
}

static double share_done(const struct dew_size *s)
{
    const double usual = 14; /* figures of a curve */
    double within = 0;

    if (s->open)
        within = fmin(1, (double)s->curves[s->count].told.count / usual) - 1;
    return ((double)s->next + within) / RUN__SIZE_CURVES;
}

enum dew_status dew_size_step(struct dew_size *s, double *done,
                              struct dew_error *err)
{
    struct dew_error inside = {0};
    enum dew_status status = DEW_OK;

    err = err != NULL ? err : &inside;
    if (open_curve(s))
        status = one_more(s, err);
    *done = !s->open && s->next == RUN__SIZE_CURVES ? 1 : share_done(s);
    return status;
}

/* ---- what it came to -------------------------------------------------------------- */

const struct dew_size_curve *dew_size_curve(const struct dew_size *s, size_t i)
{
    return i < s->count ? &s->curves[i].told : NULL;
}

const struct dew_size_curve *dew_size_find(const struct dew_size *s,
                                           enum dew_size_core core,
                                           enum dew_size_knob knob)
{
    for (size_t i = 0; i < s->count; i++)
        if (s->curves[i].told.core == core && s->curves[i].told.knob == knob)
            return &s->curves[i].told;
    return NULL;
}

const struct dew_run *dew_size_run(const struct dew_size *s,
                                   enum dew_size_core core, const char **why)
{
    *why = s->cores[core].why;
    return s->cores[core].run;
}

struct dew_spread *dew_size_spread(struct dew_size *s, enum dew_size_core core)
{
    return s->cores[core].draws > 0 ? s->cores[core].spread : NULL;
}

struct dew_size_target dew_size_target(const struct dew_size *s)
{
    return s->target;
}

struct dew_size_outdoors run__outdoors(const struct dew_run *run)
{
    const struct dew_limits *limits = &run->cases[0].limits;
    double heat = run__size_value(run, "temperature.heat")->amount.si;
    double cool = run__size_value(run, "temperature.cool")->amount.si;
    struct dew_size_outdoors sum = {0};
    size_t count;
    const struct dew_hour *h = dew_year_hours(run->year, &count);

    sum.hours = (double)count;
    for (size_t i = 0; i < count; i++) {
        double t = fmin(fmax(h[i].t, heat), cool);
        double rh = dew_air_rh_liquid(t, h[i].w, h[i].p);

        sum.too_humid += rh > limits->too_humid;
        sum.too_dry += rh < limits->too_dry;
    }
    return sum;
}

struct dew_size_outdoors dew_size_outdoors(const struct dew_size *s)
{
    int k = 0;

    while (s->cores[k].run == NULL)
        k++;
    return run__outdoors(s->cores[k].run);
}
