/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/drying.h"
#include "dew/made.h"

enum { FAULTS = 100, GROUPS = 1000 };

/* ---- faults ---------------------------------------------------------------- */

enum dew_status dew__run_fault(struct dew_run *r, const struct dew_error *err)
{
    if (r->status == DEW_OK)
        r->status = err->status;
    return dew__fault(r->faults, err);
}

enum dew_status dew__run_faults(struct dew_run *r,
                                const struct dew_faults *faults)
{
    size_t shown = faults->count < faults->room ? faults->count : faults->room;
    struct dew_error more = {0};

    for (size_t i = 0; i < shown; i++)
        dew__run_fault(r, &faults->list[i]);
    if (faults->count > shown) {
        dew__fail(&more, faults->list[0].status, "and %zu more",
                  faults->count - shown);
        dew__run_fault(r, &more);
    }
    return faults->list[0].status;
}

enum dew_status dew__run_memory(struct dew_run *r)
{
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};

    return dew__run_fault(r, &err);
}

void dew__run_about(const struct dew_run *r, const char *key,
                    struct dew_error *err)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    const struct dew_origin *o =
        &dew_scenario_base(r->scenario)[dew_scenario_field(key) - f].origin;

    dew__at(err, o->by == DEW_BY_SET ? "--set" : r->ask->name, o->line,
            o->column);
    dew__in(err, key);
}

/* ---- reading ----------------------------------------------------------------- */

/* The groups of the keys at fault: names with a comma behind each, cut. */
static void name_groups(const struct dew_faults *faults, char groups[GROUPS])
{
    size_t used = 0;

    groups[0] = '\0';
    for (size_t i = 0; i < faults->count && i < faults->room; i++) {
        const char *path = faults->list[i].path;

        if (used + 1 < GROUPS)
            used += (size_t)snprintf(groups + used, GROUPS - used, "%.*s,",
                                     (int)strcspn(path, "."), path);
    }
}

static enum dew_status take_scenario(struct dew_run *r, const char *text,
                                     size_t length, char groups[GROUPS])
{
    const struct dew_run_ask *ask = r->ask;
    struct dew_scenario_source from = {.text = text,
                                       .length = length,
                                       .name = ask->name,
                                       .sets = ask->sets,
                                       .set_count = ask->set_count};
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};

    if ((r->job == DEW_RUN_CHECK ? dew_scenario_look : dew_scenario_open)(
            &r->scenario, &from, &faults) != DEW_OK)
        dew__run_faults(r, &faults);
    name_groups(&faults, groups);
    return r->status;
}

static enum dew_status read_scenario(struct dew_run *r, char groups[GROUPS])
{
    struct dew_error err = {0};
    size_t length = r->ask->length;
    char *own = NULL;

    if (r->ask->text == NULL &&
        dew__run_text(r->ask->name, &own, &length, &err) != DEW_OK)
        return dew__run_fault(r, &err);
    take_scenario(r, own != NULL ? own : r->ask->text, length, groups);
    free(own);
    if (r->status == DEW_OK) {
        const char *text = dew_scenario_text(r->scenario, &length);

        dew_report_sha256(text, length, r->hashes[0]);
    }
    return r->status;
}

/* Whether the scenario names any; where its group is misspelt it does not, and
   that was said. */
static int asks_for_weather(const struct dew_run *r)
{
    const struct dew_weather_request ask = dew_scenario_weather(r->scenario);

    return ask.place[0] != '\0' || ask.file[0] != '\0' ||
           ask.monthly[0] != '\0';
}

/* Each option as a case of this weather. */
static void check_cases(struct dew_run *r)
{
    for (size_t k = 0; k < dew_scenario_count(r->scenario); k++) {
        struct dew_error err = {0};
        struct dew_case c;

        dew__at(&err, r->ask->name, 0, 0);
        if (dew_scenario_case(r->scenario, k, &r->outdoors, NULL, &c, &err) !=
            DEW_OK)
            dew__run_fault(r, &err);
    }
}

/* Everything for which a march would be refused, in one pass. */
static enum dew_status check_all(struct dew_run *r)
{
    char groups[GROUPS];
    int sound = read_scenario(r, groups) == DEW_OK;

    if (r->scenario == NULL)
        return r->status;
    if (strstr(groups, "weather,") == NULL && asks_for_weather(r)) {
        if (dew__run_weather(r) != DEW_OK) {
            dew_year_close(r->year); /* as far as it was read */
            r->year = NULL;
        } else if (sound) {
            check_cases(r);
        }
    }
    if (strstr(groups, "log,") == NULL)
        dew__run_log(r);
    return r->status;
}

static enum dew_status read_all(struct dew_run *r)
{
    char groups[GROUPS];

    if (r->job == DEW_RUN_CHECK)
        return check_all(r);
    if (read_scenario(r, groups) != DEW_OK || dew__run_weather(r) != DEW_OK ||
        (r->job != DEW_RUN_YEARS && dew__run_log(r) != DEW_OK))
        return r->status;
    return DEW_OK;
}

/* ---- which options ------------------------------------------------------------ */

static enum dew_status no_option(struct dew_run *r, const char *name)
{
    char names[400] = "", about[100];
    size_t used = 0, count = dew_scenario_count(r->scenario);
    struct dew_error err = {0};

    for (size_t i = 0; i < count && used < sizeof names; i++)
        used += (size_t)snprintf(names + used, sizeof names - used, "%s\"%s\"",
                                 i > 0 ? ", " : "",
                                 dew_scenario_name(r->scenario, i));
    snprintf(about, sizeof about, "--option %s", name);
    dew__in(&err, about);
    dew__fail(&err, DEW_EUNKNOWN,
              "the scenario has no option of that name; it has %s", names);
    return dew__run_fault(r, &err);
}

/* The scenario's first option is today's house and, if so asked, marched in any
   case: whatever is said of "today" is said of it.  One that was picked alone
   is the one that the sheets are about. */
static enum dew_status pick_options(struct dew_run *r)
{
    const struct dew_run_ask *ask = r->ask;
    size_t all = dew_scenario_count(r->scenario), picked = 0;

    r->options = calloc(all, sizeof *r->options);
    if (r->options == NULL)
        return dew__run_memory(r);
    for (size_t i = 0; i < ask->option_count; i++)
        if (dew_scenario_find(r->scenario, ask->options[i]) == all)
            return no_option(r, ask->options[i]);
    for (size_t k = 0; k < all; k++) {
        int asked = ask->option_count == 0;

        for (size_t i = 0; i < ask->option_count && !asked; i++)
            asked = dew_scenario_find(r->scenario, ask->options[i]) == k;
        picked += (size_t)asked;
        if (asked || (k == 0 && (r->with & DEW_RUN_TODAY)))
            r->options[r->count++].at = k;
    }
    r->handed = picked == 1 && r->count == 2;
    return DEW_OK;
}

/* ---- cases -------------------------------------------------------------------- */

static enum dew_status make_cases(struct dew_run *r, struct dew_error *err)
{
    for (size_t i = 0; i < r->count; i++)
        if (dew_scenario_case(r->scenario, r->options[i].at, &r->outdoors, NULL,
                              &r->march.cases[i], err) != DEW_OK)
            return err->status;
    return DEW_OK;
}

/* Options that still give off construction water, once more when dry. */
static void add_dry_ones(struct dew_run *r)
{
    struct dew__run_march *m = &r->march;

    m->count = r->count;
    for (size_t i = 0; i < r->count; i++) {
        m->option[i] = i;
        r->options[i].dry = 0;
        if (!(r->with & DEW_RUN_DRY) || !dew_drying_matters(&m->cases[i]))
            continue;
        m->cases[m->count] = dew_drying_settled(&m->cases[i]);
        m->option[m->count] = i;
        r->options[i].dry = m->count++;
    }
}

/* What the options leave open, the other ways. */
static enum dew_status add_others(struct dew_run *r, struct dew_error *err)
{
    struct dew__run_march *m = &r->others;

    for (size_t i = 0; i < r->count; i++)
        for (int how = 0; how < DEW_OTHERWISES && m->count < DEW__RUN_MOST;
             how++) {
            struct dew_another x = {.how = (enum dew_otherwise)how};

            if (dew_scenario_otherwise(r->scenario, r->options[i].at,
                                       &r->outdoors, &x, err) != DEW_OK)
                return err->status;
            if (!x.open)
                continue;
            m->cases[m->count] = x.c;
            m->option[m->count] = i;
            r->doubts[m->count++] =
                (struct dew_report_doubt){.option = i, .how = x.how};
        }
    return DEW_OK;
}

static enum dew_status make_room(struct dew_run *r)
{
    size_t keys;

    (void)dew_scenario_fields(&keys);
    r->march.cases = calloc(2 * r->count, sizeof *r->march.cases);
    r->others.cases = calloc(DEW__RUN_MOST, sizeof *r->others.cases);
    r->choices = calloc(r->count, sizeof *r->choices);
    r->inputs = calloc(keys * r->count, sizeof *r->inputs);
    r->values = calloc(keys * r->count, sizeof *r->values);
    return r->march.cases != NULL && r->others.cases != NULL &&
                   r->choices != NULL && r->inputs != NULL && r->values != NULL
               ? DEW_OK
               : dew__run_memory(r);
}

static enum dew_status set_up(struct dew_run *r)
{
    struct dew_error err = {0};
    size_t hours;

    if (make_room(r) != DEW_OK)
        return r->status;
    if (make_cases(r, &err) != DEW_OK ||
        ((r->with & DEW_RUN_ALTERNATIVES) && add_others(r, &err) != DEW_OK))
        return dew__run_fault(r, &err);
    for (size_t i = 0; i < r->count; i++) {
        r->options[i].facts = dew_scenario_facts(r->scenario, r->options[i].at);
        r->options[i].costs = dew_scenario_costs(r->scenario, r->options[i].at);
    }
    (void)dew_year_hours(r->year, &hours);
    dew_report_span(hours, r->span, sizeof r->span);
    add_dry_ones(r);
    return r->with & DEW_RUN_LAYOUTS ? dew__run_layouts(r) : DEW_OK;
}

/* ---- the run ------------------------------------------------------------------ */

enum dew_status dew_run_open(struct dew_run **run,
                             const struct dew_run_ask *ask,
                             struct dew_faults *faults)
{
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_run *r = calloc(1, sizeof *r);
    enum dew_status status;

    *run = NULL;
    if (r == NULL)
        return dew__fault(faults, &err);
    r->ask = ask;
    r->faults = faults;
    r->job = ask->job;
    r->with = ask->job == DEW_RUN_MARCH ? ask->with : 0;
    if (read_all(r) == DEW_OK && pick_options(r) == DEW_OK) {
        if (r->job == DEW_RUN_DUCTS)
            dew__run_layouts(r);
        else if (r->job != DEW_RUN_CHECK)
            set_up(r);
    }
    status = r->status;
    r->ask = NULL;
    r->faults = NULL;
    if (status == DEW_OK)
        *run = r;
    else
        dew_run_close(r);
    return status;
}

void dew_run_close(struct dew_run *run)
{
    if (run == NULL)
        return;
    dew_study_close(run->march.study);
    dew_study_close(run->others.study);
    dew_report_ducts_close(run->ducts);
    free(run->march.cases);
    free(run->others.cases);
    free(run->choices);
    free(run->inputs);
    free(run->values);
    free(run->options);
    free(run->hours);
    dew_log_close(run->log);
    dew_year_close(run->year);
    dew_scenario_close(run->scenario);
    free(run);
}

const struct dew_scenario *dew_run_scenario(const struct dew_run *run)
{
    return run->scenario;
}

const struct dew_year *dew_run_year(const struct dew_run *run)
{
    return run->year;
}

size_t dew_run_count(const struct dew_run *run)
{
    return run->count;
}

size_t dew_run_option(const struct dew_run *run, size_t i)
{
    return run->options[i].at;
}

struct dew_case *dew_run_case(struct dew_run *run, size_t i)
{
    return &run->march.cases[i];
}

const char *dew_run_note(const struct dew_run *run, size_t i)
{
    return i == 0 && run->span[0] != '\0' ? run->span : NULL;
}

/* ---- the march ------------------------------------------------------------------ */

void dew_run_again(struct dew_run *run)
{
    struct dew__run_march *const marches[] = {&run->march, &run->others};

    for (int i = 0; i < 2; i++) {
        dew_study_close(marches[i]->study);
        marches[i]->study = NULL;
        marches[i]->turn = 0;
    }
    run->report.version = NULL;
    run->report.system = (enum dew_system)0;
}

enum dew_status dew_run_made(struct dew_run *run, int number,
                             struct dew_error *err)
{
    const struct dew_made how = {
        .seed = dew_scenario_weather(run->scenario).seed, .number = number};
    struct dew_year *year;

    if (dew_made_open(&run->place, &how, &year, err) != DEW_OK)
        return err->status;
    dew_run_again(run);
    dew_year_close(run->year);
    run->year = year;
    if (dew_scenario_outdoors(year, &run->outdoors, err) != DEW_OK)
        return err->status;
    return make_cases(run, err);
}

static enum dew_status open_march(struct dew_run *r, struct dew__run_march *m,
                                  struct dew_error *err)
{
    struct dew_option options[DEW__RUN_MOST];
    struct dew_weather weather;
    size_t dates;

    weather.hours = dew_year_hours(r->year, &weather.count);
    weather.dates = dew_year_dates(r->year, &dates);
    for (size_t k = 0; k < m->count; k++) {
        size_t at = r->options[m->option[k]].at;

        options[k] = (struct dew_option){
            .name = dew_scenario_name(r->scenario, at),
            .c = &m->cases[k],
            .required = dew_scenario_required(r->scenario, at),
            .held = r->held ? r->measured.t : NULL};
    }
    return dew_study_open(&m->study, options, m->count, &weather, err);
}

/* *done is the share of this march. */
static enum dew_status step(struct dew_run *r, struct dew__run_march *m,
                            size_t hours, double *done, struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    if (m == &r->march && m->study == NULL)
        add_dry_ones(r); /* of the cases as they now are */
    if (m->study == NULL)
        status = open_march(r, m, err);
    if (status == DEW_OK)
        status = dew_study_step(m->study, hours, done, err);
    if (status == DEW_OK)
        m->turn = dew_study_turn(m->study);
    return status;
}

enum dew_status dew_run_step(struct dew_run *run, size_t hours, double *done,
                             struct dew_error *err)
{
    struct dew__run_march *m =
        run->march.turn < run->march.count ? &run->march : &run->others;
    enum dew_status status = DEW_OK;
    double share = 0, before = 0;
    size_t all, turn;

    if (m->turn < m->count)
        status = step(run, m, hours, &share, err);
    if (status != DEW_OK)
        return status;
    if (m == &run->others)
        before = (double)run->march.count;
    turn = dew_run_turn(run, &all);
    *done = turn == all ? 1 : (before + share * (double)m->count) / (double)all;
    return DEW_OK;
}

size_t dew_run_turn(const struct dew_run *run, size_t *of)
{
    *of = run->march.count + run->others.count;
    return run->march.turn + run->others.turn;
}

const struct dew_outcome *dew_run_outcome(const struct dew_run *run, size_t i)
{
    size_t count;
    const struct dew_outcome *o =
        run->march.study != NULL ? dew_study_outcomes(run->march.study, &count)
                                 : NULL;

    return o != NULL && i < run->march.turn && i < run->count ? &o[i] : NULL;
}
