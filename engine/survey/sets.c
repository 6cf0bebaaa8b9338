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

enum dew_status survey__first_house(const struct dew_survey_plan *p,
                                    const char *text, size_t length,
                                    struct dew_scenario **scenario,
                                    struct dew_faults *faults)
{
    struct survey__sets *sets = calloc(1, sizeof *sets);
    struct dew_scenario_source from = {
        .text = text, .length = length, .name = p->scenario_name};
    const struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    enum dew_status status;

    *scenario = NULL;
    if (sets == NULL)
        return core__fault(faults, &err);
    survey__sets(p, 0, 0, sets);
    from.sets = sets->list;
    from.set_count = sets->count;
    status = dew_scenario_open(scenario, &from, faults);
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
