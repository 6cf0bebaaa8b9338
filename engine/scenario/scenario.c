/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/scenario.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "scenario/case.h"

static enum dew_status open_fault(struct dew_faults *faults,
                                  enum dew_status status, const char *text)
{
    struct dew_error err = {0};

    core__fail(&err, status, "%s", text);
    return core__fault(faults, &err);
}

/* The networks that options write out in full. */
static enum dew_status write_out(struct dew_scenario *s,
                                 struct dew_faults *faults)
{
    for (size_t k = 0; k < s->count; k++) {
        struct scenario__option *o = &s->options[k];

        if (GIVEN(o->values, ducts_runs) &&
            !scenario__written_make(&s->arena, o->values, &o->written))
            return open_fault(faults, DEW_EMEM, "out of memory");
    }
    return DEW_OK;
}

/* Each option as told, as doubted, and one more, each of them twice, with the
   fans' own watts and with those told; not without end. */
static size_t layouts_of(const struct dew_scenario *s)
{
    const size_t most = 128; /* 5 MiB */

    return 6 * s->count < most ? 6 * s->count : most;
}

/* keep: hand over what was read in spite of faults in it. */
static enum dew_status open_it(struct dew_scenario **scenario,
                               const struct dew_scenario_source *from,
                               struct dew_faults *faults, int keep)
{
    struct dew_scenario *s = calloc(1, sizeof *s);
    enum dew_status status;

    *scenario = NULL;
    if (s == NULL)
        return open_fault(faults, DEW_EMEM, "out of memory");
    s->length = from->length;
    s->text = from->length <= SCENARIO__LONGEST
                  ? scenario__arena_text(&s->arena, from->text, from->length)
                  : from->text;
    if (s->text == NULL)
        status = open_fault(faults, DEW_EMEM, "out of memory");
    else
        status = scenario__read(s, from, faults);
    if (status != DEW_OK)
        scenario__agree_beside(s, from->name, faults);
    else
        status = write_out(s, faults);
    s->seen = ducts__seen_open(layouts_of(s));
    if (status == DEW_OK)
        status = scenario__agree(s, from->name, faults);
    core__faults_in_order(faults, from->name);
    if (status == DEW_OK || (keep && s->count > 0))
        *scenario = s;
    else
        dew_scenario_close(s);
    return status;
}

enum dew_status dew_scenario_open(struct dew_scenario **scenario,
                                  const struct dew_scenario_source *from,
                                  struct dew_faults *faults)
{
    return open_it(scenario, from, faults, 0);
}

enum dew_status dew_scenario_look(struct dew_scenario **scenario,
                                  const struct dew_scenario_source *from,
                                  struct dew_faults *faults)
{
    return open_it(scenario, from, faults, 1);
}

void dew_scenario_close(struct dew_scenario *scenario)
{
    if (scenario == NULL)
        return;
    ducts__seen_close(scenario->seen);
    scenario__arena_free(&scenario->arena);
    free(scenario);
}

const char *dew_scenario_title(const struct dew_scenario *scenario)
{
    const struct dew_value *title = &scenario->base[KEY_title];

    return title->given ? title->text : "";
}

size_t dew_scenario_count(const struct dew_scenario *scenario)
{
    return scenario->count;
}

const char *dew_scenario_name(const struct dew_scenario *scenario,
                              size_t option)
{
    return scenario->options[option].name;
}

int dew_scenario_bare(const struct dew_scenario *scenario)
{
    return scenario->bare;
}

size_t dew_scenario_find(const struct dew_scenario *scenario, const char *name)
{
    size_t i = 0;

    while (i < scenario->count && strcmp(scenario->options[i].name, name) != 0)
        i++;
    return i;
}

const struct dew_value *dew_scenario_values(const struct dew_scenario *scenario,
                                            size_t option)
{
    return scenario->options[option].values;
}

const struct dew_value *dew_scenario_base(const struct dew_scenario *scenario)
{
    return scenario->base;
}

const char *dew_scenario_text(const struct dew_scenario *scenario,
                              size_t *length)
{
    *length = scenario->length;
    return scenario->text;
}

int dew_scenario_system(const struct dew_scenario *scenario)
{
    return scenario->systems[2] > scenario->systems[1] ? 2 : 1;
}
