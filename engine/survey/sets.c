/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The houses of a plan, by their numbers. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "survey/survey.h"

/* Which value of an axis a house of the grid has: the last key goes fastest. */
static size_t step_of(const struct dew_survey_plan *p, size_t house,
                      size_t axis)
{
    if (house == 0) /* also where no house is drawn yet */
        return 0;
    for (size_t a = p->axis_count; a-- > axis + 1;)
        house /= p->axes[a].count;
    return house % p->axes[axis].count;
}

/* The figure at a share of a range, as it is typed. */
static const char *at_share(const struct survey__axis *a, double share,
                            char *room)
{
    double x = a->low + (a->high - a->low) * share;
    char number[SURVEY__NUMBER];

    if (a->field->kind == DEW_KIND_COUNT)
        x = fmin(a->low + floor((a->high - a->low + 1) * share), a->high);
    snprintf(room, SURVEY__SET, "%s%s%s",
             dew_number_print(x, 12, number, sizeof number),
             a->unit[0] != '\0' ? " " : "", a->unit);
    return room;
}

const char *survey__cell(const struct dew_survey_plan *p, size_t house,
                         size_t axis, char *room)
{
    const struct survey__axis *a = &p->axes[axis];
    double u;

    if (p->cells != NULL)
        return p->cells[house * p->axis_count + axis];
    if (a->count == 0) /* a range in a sample that is not drawn yet */
        return at_share(
            a, p->u != NULL ? p->u[house * p->axis_count + axis] : 0, room);
    if (p->u == NULL)
        return a->values[step_of(p, house, axis)].text;
    u = p->u[house * p->axis_count + axis];
    return a->values[(size_t)(u * (double)a->count)].text;
}

void survey__set(struct survey__sets *out, const struct dew_field *field,
                 const char *value)
{
    char *room = out->room[out->count];

    snprintf(room, SURVEY__SET, "%s=%s",
             field != NULL ? field->path : "weather.place", value);
    out->list[out->count++] = room;
}

void survey__sets(const struct dew_survey_plan *p, size_t house, size_t place,
                  struct survey__sets *out)
{
    char room[SURVEY__SET];

    out->count = 0;
    for (size_t a = 0; a < p->axis_count; a++)
        survey__set(out, p->axes[a].field, survey__cell(p, house, a, room));
    if (p->place_count > 0)
        survey__set(out, NULL, p->places[place]);
}

/* ---- the first that fits ------------------------------------------------------- */

static enum dew_status open_house(const struct dew_survey_plan *p,
                                  struct dew_scenario_source *from,
                                  struct survey__sets *sets, size_t house,
                                  struct dew_scenario **s,
                                  struct dew_faults *faults)
{
    survey__sets(p, house, 0, sets);
    from->sets = sets->list;
    from->set_count = sets->count;
    return dew_scenario_open(s, from, faults);
}

/* 1 where another combination of keys may do better. */
static int may_not_fit(const struct dew_faults *faults, size_t before)
{
    for (size_t i = before; i < faults->count && i < faults->room; i++)
        if (faults->list[i].status != DEW_ERANGE ||
            strcmp(faults->list[i].source, "--set") == 0)
            return 0;
    return 1;
}

/* The k-th that is looked at: all of a small plan, of a large one some from
   everywhere, for the first key goes slowest. */
static size_t looked_at(const struct dew_survey_plan *p, size_t k)
{
    const uint64_t far = 2654435761; /* a prime */

    return p->houses <= SURVEY__LOOKED ? k : (size_t)(k * far % p->houses);
}

static enum dew_status look_on(const struct dew_survey_plan *p,
                               struct dew_scenario_source *from,
                               struct survey__sets *sets,
                               struct dew_scenario **s)
{
    enum dew_status status = DEW_ERANGE;
    struct dew_faults none = {NULL, 0, 0};

    /* lists and ranges of a sample that is not drawn have a first house alone */
    for (size_t k = 1; k < survey__looked(p) && status != DEW_OK; k++)
        status = open_house(p, from, sets, looked_at(p, k), s, &none);
    return status;
}

size_t survey__looked(const struct dew_survey_plan *p)
{
    if (p->sampled && p->u == NULL)
        return 1;
    return p->houses < SURVEY__LOOKED ? p->houses : SURVEY__LOOKED;
}

enum dew_status survey__first_house(const struct dew_survey_plan *p,
                                    const char *text, size_t length,
                                    struct dew_scenario **scenario,
                                    struct dew_faults *faults)
{
    struct survey__sets *sets = calloc(1, sizeof *sets);
    struct dew_scenario_source from = {
        .text = text, .length = length, .name = p->scenario_name};
    const struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    const size_t before = faults->count;
    enum dew_status status;

    *scenario = NULL;
    if (sets == NULL)
        return core__fault(faults, &err);
    status = open_house(p, &from, sets, 0, scenario, faults);
    if (status == DEW_ERANGE && may_not_fit(faults, before) &&
        look_on(p, &from, sets, scenario) == DEW_OK) {
        faults->count = before;
        status = DEW_OK;
    }
    free(sets);
    return status;
}

enum dew_status survey__sample(struct dew_survey_plan *p, struct dew_error *err)
{
    const struct core__draws d = {p->houses, p->axis_count, p->seed};

    p->u = calloc(p->houses * p->axis_count, sizeof *p->u);
    if (p->u == NULL)
        return core__fail(err, DEW_EMEM, "no memory for %zu houses", p->houses);
    return core__draw(&d, p->u, err);
}
