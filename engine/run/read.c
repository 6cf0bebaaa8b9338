/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading what was asked: the scenario, what it names, which options. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "run/run.h"

enum { GROUPS = 1000 };

/* ---- faults ---------------------------------------------------------------- */

enum dew_status run__fault(struct dew_run *r, const struct dew_error *err)
{
    if (r->status == DEW_OK)
        r->status = err->status;
    return core__fault(r->faults, err);
}

enum dew_status run__faults(struct dew_run *r, const struct dew_faults *faults)
{
    size_t shown = faults->count < faults->room ? faults->count : faults->room;
    struct dew_error more = {0};

    for (size_t i = 0; i < shown; i++)
        run__fault(r, &faults->list[i]);
    if (faults->count > shown) {
        core__fail(&more, faults->list[0].status, "and %zu more",
                   faults->count - shown);
        run__fault(r, &more);
    }
    return faults->list[0].status;
}

struct dew_faults run__room(struct dew_run *r, size_t most)
{
    memset(r->list, 0, sizeof r->list);
    return (struct dew_faults){r->list, most, 0};
}

enum dew_status run__memory(struct dew_run *r)
{
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};

    return run__fault(r, &err);
}

void run__about(const struct dew_run *r, const char *key, struct dew_error *err)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    const struct dew_origin *o =
        &dew_scenario_base(r->scenario)[dew_scenario_field(key) - f].origin;

    core__at(err, o->by == DEW_BY_SET ? "--set" : r->ask->name, o->line,
             o->column);
    core__in(err, key);
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
    struct dew_faults faults = run__room(r, RUN__FAULTS);

    if (dew_scenario_look(&r->scenario, &from, &faults) != DEW_OK)
        run__faults(r, &faults);
    name_groups(&faults, groups);
    return r->status;
}

static enum dew_status read_scenario(struct dew_run *r, char groups[GROUPS])
{
    struct dew_error err = {0};
    size_t length = r->ask->length;
    char *own = NULL;

    if (r->ask->text == NULL &&
        run__text(r->ask->name, &own, &length, &err) != DEW_OK)
        return run__fault(r, &err);
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

        core__at(&err, r->ask->name, 0, 0);
        if (dew_scenario_case(r->scenario, k, &r->outdoors, NULL, NULL, &err) !=
            DEW_OK)
            run__fault(r, &err);
    }
}

/* Readings of which the weather has no hour. */
static void check_readings(struct dew_run *r)
{
    struct dew_seen seen[DEW_SEEN_MOST];
    size_t count = dew_scenario_seen(r->scenario, seen);

    for (size_t i = 0; i < count; i++) {
        struct dew_error err = {0};

        if (run__seen_there(r, &seen[i]))
            continue;
        run__about(r, "readings", &err);
        if (strcmp(err.source, "--set") != 0)
            core__at(&err, err.source, seen[i].line, seen[i].column);
        core__in(&err, "readings.when");
        core__fail(&err, DEW_EMISSING,
                   seen[i].months != 0
                       ? "the weather has no hour of it"
                       : "the weather is not of that day: give weather.file of "
                         "it, or say the month");
        run__fault(r, &err);
    }
}

static int reads_log(const struct dew_run *r)
{
    return r->job == DEW_RUN_CHECK ||
           (r->job != DEW_RUN_YEARS && (r->with & DEW_RUN_NO_LOG) == 0);
}

/* Everything for which a march would be refused, in one pass. */
enum dew_status run__read(struct dew_run *r)
{
    char groups[GROUPS];
    int sound = read_scenario(r, groups) == DEW_OK;

    if (r->scenario == NULL)
        return r->status;
    if (strstr(groups, "weather,") == NULL && asks_for_weather(r)) {
        if (run__weather(r) != DEW_OK) {
            dew_year_close(r->year); /* as far as it was read */
            r->year = NULL;
        } else {
            if (r->job == DEW_RUN_CHECK || (r->with & DEW_RUN_READINGS) != 0)
                check_readings(r);
            if (sound && r->job == DEW_RUN_CHECK)
                check_cases(r);
        }
    }
    if (strstr(groups, "log,") == NULL && reads_log(r))
        run__log(r);
    core__faults_in_order(r->faults, r->ask->name);
    return r->status;
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
    core__in(&err, about);
    core__fail(&err, DEW_EUNKNOWN,
               "the scenario has no option of that name; it has %s", names);
    return run__fault(r, &err);
}

/* The scenario's first option is today's house and, if so asked, marched in any
   case: whatever is said of "today" is said of it.  One that was picked alone
   is the one that the sheets are about. */
enum dew_status run__pick(struct dew_run *r)
{
    const struct dew_run_ask *ask = r->ask;
    size_t all = dew_scenario_count(r->scenario), picked = 0;

    r->options = calloc(all, sizeof *r->options);
    if (r->options == NULL)
        return run__memory(r);
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
