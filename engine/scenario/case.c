/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The case of an option. */
#include "scenario/case.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "scenario/agree.h"
#include "scenario/scenario.h"

static const double hour_s = 3600.0;

void scenario__fill_day(const struct dew_value *list, double otherwise,
                        double out[24])
{
    for (size_t h = 0; h < 24; h++)
        out[h] = list->given ? list->items[h].amount.si : otherwise;
}

/* Words are those of the enum, less "unsaid", which stands first. */
static int said(const struct dew_value *word)
{
    return word->given ? word->choice + 1 : 0;
}

/* ---- the weather ------------------------------------------------------------ */

struct dew_weather_request dew_scenario_weather(
    const struct dew_scenario *scenario)
{
    const struct dew_value *v = scenario->base;
    struct dew_weather_request r = {.place = TEXT(v, weather_place),
                                    .file = TEXT(v, weather_file),
                                    .monthly = TEXT(v, weather_monthly),
                                    .fill = TEXT(v, weather_fill),
                                    .seed = (unsigned long)SI(v, weather_seed),
                                    .ask = DEW_WEATHER_ASK,
                                    .units = TEXT(v, weather_units),
                                    .columns = TEXT(v, weather_columns)};

    if (GIVEN(v, weather_station))
        r.ask.station = v[KEY_weather_station].text;
    if (GIVEN(v, weather_year))
        r.ask.year = (int)SI(v, weather_year);
    r.ask.order = (enum dew_date_order)said(&v[KEY_weather_order]);
    r.ask.clock = (enum dew_clock)said(&v[KEY_weather_clock]);
    r.ask.utc_offset = SI_OR(v, weather_utc, r.ask.utc_offset);
    r.ask.latitude = SI_OR(v, weather_latitude, r.ask.latitude);
    r.ask.longitude = SI_OR(v, weather_longitude, r.ask.longitude);
    r.ask.elevation = SI_OR(v, weather_elevation, r.ask.elevation);
    r.ask.frost_point = WORD(v, weather_frost_point);
    r.ask.gap_limit = SI_OR(v, weather_gap, r.ask.gap_limit * hour_s) / hour_s;
    return r;
}

struct dew_draws_request dew_scenario_draws(const struct dew_scenario *scenario)
{
    const struct dew_value *v = &scenario->base[KEY_run_draws];

    return (struct dew_draws_request){.count = (size_t)v->amount.si,
                                      .given = v->origin.by != DEW_BY_DEFAULT,
                                      .file = TEXT(scenario->base, run_houses)};
}

struct dew_log_request dew_scenario_log(const struct dew_scenario *scenario)
{
    const struct dew_value *v = scenario->base;
    struct dew_log_request r = {.file = TEXT(v, log_file),
                                .ask = DEW_LOG_ASK,
                                .units = TEXT(v, log_units),
                                .columns = TEXT(v, log_columns),
                                .held = WORD(v, log_held)};
    const struct dew_value *reads = &v[KEY_log_reads];

    if (GIVEN(v, log_sensor))
        r.ask.sensor = v[KEY_log_sensor].text;
    r.ask.order = (enum dew_date_order)said(&v[KEY_log_order]);
    r.ask.clock = (enum dew_clock)said(&v[KEY_log_clock]);
    r.ask.utc_offset = SI_OR(v, log_utc, r.ask.utc_offset);
    r.ask.checks = reads->given ? reads->count : 0;
    for (size_t i = 0; i < r.ask.checks; i++)
        r.ask.check[i] = (struct dew_log_check){
            .reads = reads->items[i].amount.si, .is = reads->items[i].at};
    return r;
}

enum dew_status dew_scenario_outdoors(const struct dew_year *year,
                                      struct dew_outdoors *out,
                                      struct dew_error *err)
{
    size_t count, dates;
    const struct dew_hour *hours = dew_year_hours(year, &count);
    const struct dew_date *date = dew_year_dates(year, &dates);
    double sum[12] = {0}, n[12] = {0}, t = 0, p = 0;

    if (count == 0)
        return core__fail(err, DEW_EMISSING, "the weather has no hour");
    for (size_t h = 0; h < count; h++) {
        sum[date[h].month - 1] += hours[h].t;
        n[date[h].month - 1] += 1;
        t += hours[h].t;
        p += hours[h].p;
    }
    *out = (struct dew_outdoors){.site = *dew_year_site(year),
                                 .pressure = p / (double)count};
    for (int m = 0; m < 12; m++)
        out->monthly[m] = n[m] > 0 ? sum[m] / n[m] : t / (double)count;
    return DEW_OK;
}

/* ---- changes ------------------------------------------------------------- */

enum { LONE = 4 }; /* keys of "74 % at 95 cfm": two today */

/* Where a case is made: too large for the stack of a small thread. */
struct shop {
    struct dew_value v[SCENARIO__KEYS], lone[LONE]; /* lone: changed entries */
    size_t lone_count;
    struct dew_case c;
};

static struct shop *shop_open(const struct scenario__option *option,
                              const struct dew_outdoors *outdoors,
                              struct dew_error *err)
{
    struct shop *s = calloc(1, sizeof *s);

    if (s == NULL) {
        core__fail(err, DEW_EMEM, "no memory for a case");
        return NULL;
    }
    memcpy(s->v, option->values, sizeof s->v);
    s->c.site = outdoors->site;
    s->c.pressure = outdoors->pressure;
    return s;
}

/* Where the figure of a key is to go; NULL where it has none, or several. */
static struct dew_value *figure_of(struct shop *to, const struct dew_field *f,
                                   struct dew_value *v)
{
    struct dew_value *lone = &to->lone[to->lone_count];

    if (f->kind != DEW_KIND_NUMBER && f->kind != DEW_KIND_AT)
        return NULL;
    if (f->kind == DEW_KIND_NUMBER) {
        v->given = 1;
        if (v->unit == NULL)
            v->unit = dew_unit_shown(f->quantity, 2);
        return v;
    }
    if (v->count != 1 || to->lone_count == LONE)
        return NULL;
    *lone = v->items[0];
    v->items = lone;
    to->lone_count++;
    return lone;
}

/* 0 where the key has no such choice. */
static int change_word(const struct dew_field *f, struct dew_value *v,
                       double choice)
{
    char word[64] = "";
    int i = choice >= 0 && choice < 1000 ? (int)choice : -1;
    int good =
        f->kind == DEW_KIND_FLAG     ? i == 0 || i == 1
        : f->kind == DEW_KIND_ANSWER ? i >= 0 && i <= DEW_ANSWER_YES
        : i < 0                      ? 0
                : scenario__word_at(f->words, i, word, sizeof word)[0] != '\0';

    if (!good)
        return 0;
    v->given = 1;
    v->choice = i;
    return 1;
}

static int is_word(const struct dew_field *f)
{
    return f->kind == DEW_KIND_WORD || f->kind == DEW_KIND_FLAG ||
           f->kind == DEW_KIND_ANSWER;
}

/* 0 where the key is no such. */
static int change_one(struct shop *to, const struct dew_change *c)
{
    size_t count;
    const struct dew_field *f = dew_scenario_field(c->path);
    struct dew_value *v =
        f != NULL ? &to->v[f - dew_scenario_fields(&count)] : NULL;

    if (v == NULL)
        return 0;
    switch (c->how) {
    case DEW_DOUBT_TIMES:
        v->moved.more = c->si - 1;
        return 1;
    case DEW_DOUBT_STEP:
        v->moved.step = c->si;
        return 1;
    case DEW_DOUBT_WITHIN:
        v->moved.within = c->si;
        return 1;
    default:
        if (is_word(f))
            return change_word(f, v, c->si);
        v = figure_of(to, f, v);
        if (v != NULL)
            v->amount = (struct dew_measure){c->si, c->si, c->si};
        return v != NULL;
    }
}

static enum dew_status change(struct shop *to,
                              const struct dew_changes *changes,
                              struct dew_error *err)
{
    for (size_t i = 0; changes != NULL && i < changes->count; i++)
        if (!change_one(to, &changes->list[i])) {
            core__in(err, changes->list[i].path);
            return core__fail(err, DEW_EUNKNOWN,
                              "is no key of a number or of such a word");
        }
    return DEW_OK;
}

/* One part of the case; a fault inside it is told of the key it comes from. */
static enum dew_status part(struct scenario__making *m,
                            enum dew_status (*make)(struct scenario__making *),
                            const char *key)
{
    struct dew_error inside = {0}, *err = m->err;
    enum dew_status status;

    m->err = &inside;
    status = make(m);
    m->err = err;
    if (status == DEW_OK)
        return DEW_OK;
    if (dew_scenario_field(inside.path) != NULL) {
        core__in(err, inside.path);
        return core__fail(err, status, "%s", inside.text);
    }
    core__in(err, key);
    return core__fail(err, status, "%s%s%.200s",
                      strcmp(inside.path, "watts") == 0 ? "power" : inside.path,
                      inside.path[0] ? ": " : "", inside.text);
}

/* The parts of a case that a layout needs. */
static enum dew_status parts(struct scenario__making *m)
{
    enum dew_status status = part(m, scenario__make_house, "house.floor_area");

    if (status == DEW_OK)
        status = part(m, scenario__make_people, "people.count");
    if (status == DEW_OK)
        status = part(m, scenario__make_plant, "cooling.capacity");
    if (status == DEW_OK)
        status = part(m, scenario__make_paths,
                      GIVEN(m->v, ventilator_ratings) ? "ventilator.ratings"
                                                      : "ventilator.sensible");
    return status;
}

static enum dew_status make_parts(struct scenario__making *m)
{
    enum dew_status status = parts(m);

    if (status == DEW_OK)
        status = part(m, scenario__make_ducts, "layout");
    m->c->limits.too_humid = SI(m->v, limits_too_humid);
    m->c->limits.too_dry = SI(m->v, limits_too_dry);
    m->c->clock = (enum dew_clock)said(&m->v[KEY_people_clock]);
    m->c->steps_per_hour = (int)SI(m->v, run_steps_per_hour);
    return status;
}

enum dew_status dew_scenario_case(const struct dew_scenario *scenario,
                                  size_t option,
                                  const struct dew_outdoors *outdoors,
                                  const struct dew_changes *changes,
                                  struct dew_case *out, struct dew_error *err)
{
    const struct scenario__option *of = &scenario->options[option];
    struct shop *s = shop_open(of, outdoors, err);
    struct scenario__making m = {.o = outdoors,
                                 .err = err,
                                 .reading = DEW_READ_LIKELY,
                                 .written = of->written,
                                 .seen = scenario->seen};
    enum dew_status status;

    if (s == NULL)
        return DEW_EMEM;
    m.v = s->v;
    m.c = &s->c;
    status = change(s, changes, err);
    if (status == DEW_OK && changes != NULL && changes->count > 0)
        status = scenario__agree_values(s->v, err);
    if (status == DEW_OK)
        status = make_parts(&m);
    if (status == DEW_OK && out != NULL)
        *out = s->c;
    free(s);
    return status;
}

/* ---- read another way ---------------------------------------------------- */

static int coil_differs(const struct dew_case *a, const struct dew_case *b)
{
    const struct dew_handler *p = &a->plant.handlers[0];
    const struct dew_handler *q = &b->plant.handlers[0];

    return fabs(p->off_delay - q->off_delay) > 0 ||
           fabs(p->still - q->still) > 0;
}

static int core_differs(const struct dew_case *a, const struct dew_case *b)
{
    const double told = 0.005; /* half a point of effectiveness, our own */
    const struct dew_path *p = &a->paths[DEW_VENT_ON][0];
    const struct dew_path *q = &b->paths[DEW_VENT_ON][0];

    return fabs(p->sensible - q->sensible) > told ||
           fabs(p->latent - q->latent) > told;
}

static int cooled(const struct dew_plant *p)
{
    for (int i = 0; i < p->handler_count; i++)
        if (p->handlers[i].capacity > 0)
            return 1;
    return 0;
}

/* 1 where what is asked can be another case at all. */
static int askable(enum dew_otherwise how, const struct dew_plant *p)
{
    switch (how) {
    case DEW_HANDLERS_OTHER:
        return p->handler_count >= 2 && cooled(p);
    case DEW_COIL_DRY:
    case DEW_COIL_WET:
        return cooled(p);
    default:
        return 1;
    }
}

static int differs(enum dew_otherwise how, const struct dew_case *a,
                   const struct dew_case *b)
{
    switch (how) {
    case DEW_HANDLERS_OTHER:
        return 1;
    case DEW_COIL_DRY:
    case DEW_COIL_WET:
        return coil_differs(a, b);
    default:
        return core_differs(a, b);
    }
}

static void read_as(struct scenario__making *m, enum dew_otherwise how)
{
    m->reading = how == DEW_CORE_READ_LOW    ? DEW_READ_LOW
                 : how == DEW_CORE_READ_HIGH ? DEW_READ_HIGH
                                             : DEW_READ_LIKELY;
    m->coil = how == DEW_COIL_DRY ? -1 : how == DEW_COIL_WET ? 1 : 0;
    m->other_handlers = how == DEW_HANDLERS_OTHER;
}

enum dew_status dew_scenario_otherwise(const struct dew_scenario *scenario,
                                       size_t option,
                                       const struct dew_outdoors *outdoors,
                                       struct dew_another *another,
                                       struct dew_error *err)
{
    const struct scenario__option *of = &scenario->options[option];
    struct shop *s; /* its case is the usual one */
    struct scenario__making m = {.written = of->written,
                                 .seen = scenario->seen,
                                 .o = outdoors,
                                 .c = &another->c,
                                 .err = err};
    enum dew_status status;

    another->open = 0;
    another->c = (struct dew_case){.site = outdoors->site,
                                   .pressure = outdoors->pressure};
    s = shop_open(of, outdoors, err);
    if (s == NULL)
        return DEW_EMEM;
    m.v = s->v;
    status = dew_scenario_case(scenario, option, outdoors, NULL, &s->c, err);
    if (status == DEW_OK && askable(another->how, &s->c.plant)) {
        read_as(&m, another->how);
        status = make_parts(&m);
        another->open =
            status == DEW_OK && differs(another->how, &s->c, &another->c);
    }
    free(s);
    return status;
}

static enum dew_status layout_of(const struct scenario__option *option,
                                 const struct dew_outdoors *outdoors,
                                 int as_designed, struct dew_duct_layout *out,
                                 struct dew_error *err)
{
    struct dew_duct_layout l;
    struct shop *s = shop_open(option, outdoors, err);
    struct scenario__making m = {.v = option->values,
                                 .written = option->written,
                                 .o = outdoors,
                                 .err = err,
                                 .reading = DEW_READ_LIKELY,
                                 .as_designed = as_designed};
    enum dew_status status;

    if (s == NULL)
        return DEW_EMEM;
    m.c = &s->c;
    status = parts(&m);
    if (status != DEW_OK) {
        free(s);
        return status;
    }
    if (scenario__two_sided(m.v) || scenario__ducts_outside(m.v)) {
        status = scenario__ducts_layout(&m, &l);
    } else {
        dew_ducts_layout_blank(&l);
        l.vent_count = 0;
    }
    if (status == DEW_OK)
        *out = l;
    free(s);
    return status;
}

enum dew_status dew_scenario_layout(const struct dew_scenario *scenario,
                                    size_t option,
                                    const struct dew_outdoors *outdoors,
                                    struct dew_duct_layout *out,
                                    struct dew_error *err)
{
    return layout_of(&scenario->options[option], outdoors, 0, out, err);
}

enum dew_status dew_scenario_design(const struct dew_scenario *scenario,
                                    size_t option,
                                    const struct dew_outdoors *outdoors,
                                    struct dew_duct_layout *out,
                                    struct dew_error *err)
{
    return layout_of(&scenario->options[option], outdoors, 1, out, err);
}

int dew_scenario_layout_written(const struct dew_scenario *scenario,
                                size_t option)
{
    return scenario__ducts_said(scenario->options[option].values);
}

int dew_scenario_ducts_outside(const struct dew_scenario *scenario,
                               size_t option)
{
    return scenario__ducts_outside(scenario->options[option].values);
}

double dew_scenario_required(const struct dew_scenario *scenario, size_t option)
{
    return scenario__required(scenario->options[option].values);
}

/* The values of an option with changes, without weather, in *s, which is to be
   freed whatever is returned. */
static enum dew_status changed(const struct dew_scenario *scenario,
                               size_t option, const struct dew_changes *changes,
                               struct shop **s, struct dew_error *err)
{
    static const struct dew_outdoors none = {.pressure = 0};

    *s = shop_open(&scenario->options[option], &none, err);
    return *s == NULL ? DEW_EMEM : change(*s, changes, err);
}

enum dew_status dew_scenario_required_with(const struct dew_scenario *scenario,
                                           size_t option,
                                           const struct dew_changes *changes,
                                           double *out, struct dew_error *err)
{
    struct shop *s;
    enum dew_status status = changed(scenario, option, changes, &s, err);

    if (status == DEW_OK)
        *out = scenario__required(s->v);
    free(s);
    return status;
}

enum dew_status dew_scenario_agrees(const struct dew_scenario *scenario,
                                    size_t option,
                                    const struct dew_changes *changes,
                                    struct dew_error *err)
{
    struct shop *s;
    enum dew_status status = changed(scenario, option, changes, &s, err);

    if (status == DEW_OK)
        status = scenario__agree_values(s->v, err);
    free(s);
    return status;
}
