/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a plan varies: keys with a list of values each, or a range. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "survey/survey.h"

enum { STEPS = 10000 };

/* ---- a key ------------------------------------------------------------------- */

/* Why a key cannot be varied; NULL: it can. */
static const char *refusal(const struct dew_survey_plan *p, const char *path)
{
    static const char *const files[] = {"weather.file", "weather.monthly",
                                        "log.file"};

    for (size_t i = 0; i < sizeof files / sizeof *files; i++)
        if (strcmp(path, files[i]) == 0)
            return "a file is read once and not varied: for other weather "
                   "vary the place";
    if (strcmp(path, "weather.place") == 0 && p->places != NULL)
        return "places has the places: leave one of the two";
    if (p->axis_count == DEW_SURVEY_KEYS)
        return "more than 64 keys are varied";
    for (size_t a = 0; a < p->axis_count; a++)
        if (strcmp(p->axes[a].field->path, path) == 0)
            return "varied twice: write all its values in one list";
    return NULL;
}

struct survey__axis *survey__axis(struct survey__reading *r, const char *path,
                                  struct dew_error *at)
{
    struct dew_survey_plan *p = r->plan;
    const struct dew_field *f = dew_scenario_field(path);
    const char *near = dew_scenario_nearest(path), *no = NULL;
    struct survey__axis *a = NULL;
    size_t keys;

    core__in(at, path);
    if (f == NULL)
        core__fail(at, DEW_EUNKNOWN, "no such key of a scenario%s%s%s",
                   near != NULL ? "; the nearest is \"" : "",
                   near != NULL ? near : "", near != NULL ? "\"" : "");
    else if ((no = refusal(p, path)) != NULL)
        core__fail(at, DEW_ERANGE, "%s", no);
    if (f == NULL || no != NULL) {
        survey__pass_on(r, at);
        return NULL;
    }
    a = &p->axes[p->axis_count++];
    *a = (struct survey__axis){.field = f,
                               .key = (size_t)(f - dew_scenario_fields(&keys)),
                               .number = f->kind == DEW_KIND_NUMBER ||
                                         f->kind == DEW_KIND_COUNT,
                               .quantity = f->quantity};
    return a;
}

/* ---- values ------------------------------------------------------------------- */

static int room_for(struct survey__reading *r, struct survey__axis *a,
                    size_t count)
{
    a->values =
        scenario__arena_take(&r->plan->arena, count * sizeof *a->values);
    if (a->values == NULL)
        survey__memory(r);
    return a->values != NULL;
}

static int take_list(struct survey__reading *r, struct survey__axis *a,
                     const struct scenario__node *list)
{
    size_t n = survey__entries(list);

    if (list->shape != SCENARIO__LIST || n == 0) {
        survey__blame(r, list, a->field->path, DEW_ESYNTAX,
                      "write a list of values: values: [1 ach50, 2 ach50]");
        return 0;
    }
    if (!room_for(r, a, n))
        return 0;
    for (const struct scenario__node *e = list->first; e != NULL; e = e->next) {
        const char *text = survey__slice(r, e);

        if (text != NULL && strlen(text) + 100 > SURVEY__SET)
            survey__blame(r, e, a->field->path, DEW_ERANGE,
                          "longer than 3996 letters");
        else if (text != NULL)
            a->values[a->count++] = (struct survey__value){text, e};
    }
    return a->count > 0;
}

/* ---- ranges ------------------------------------------------------------------- */

/* One end, "0.6" or "0.6 ach50", up to stop; its unit to *unit. */
static int take_end(const char *text, const char *stop, double *x,
                    const char **unit, size_t *unit_length)
{
    size_t length = (size_t)(stop - text);
    size_t used = dew_number_read(text, length, x);

    while (used > 0 && used < length && text[used] == ' ')
        used++;
    while (length > used && text[length - 1] == ' ')
        length--;
    *unit = text + used;
    *unit_length = length - used;
    return used > 0;
}

static int take_ends(struct survey__axis *a, const char *text)
{
    const char *to = strstr(text, " to "), *end = text + strlen(text);
    const char *first, *unit;
    size_t first_length, length;

    if (to == NULL || !take_end(text, to, &a->low, &first, &first_length) ||
        !take_end(to + 4 + strspn(to + 4, " "), end, &a->high, &unit, &length))
        return 0;
    if (length >= SURVEY__UNIT || !(a->low < a->high))
        return 0;
    memcpy(a->unit, unit, length);
    a->unit[length] = '\0';
    return first_length == 0 ||
           (first_length == length && memcmp(first, unit, length) == 0);
}

/* Step i of so many, the ends among them, as it is typed. */
static int add_step(struct survey__reading *r, struct survey__axis *a, size_t i,
                    size_t steps, const struct scenario__node *node)
{
    char text[100], number[SURVEY__NUMBER];
    double x = a->low + (a->high - a->low) * (double)i / (double)(steps - 1);

    dew_number_print(i + 1 == steps ? a->high : x, 12, number, sizeof number);
    snprintf(text, sizeof text, "%s%s%s", number, a->unit[0] != '\0' ? " " : "",
             a->unit);
    a->values[i] = (struct survey__value){
        scenario__arena_text(&r->plan->arena, text, strlen(text)), node};
    if (a->values[i].text == NULL)
        survey__memory(r);
    return a->values[i].text != NULL;
}

static size_t read_steps(struct survey__reading *r,
                         const struct survey__axis *a,
                         const struct scenario__node *range,
                         const struct scenario__node *steps, int sample)
{
    double x = 2;

    if (sample && steps == NULL)
        return 2;
    if (sample)
        survey__blame(r, steps, a->field->path, DEW_EAMBIGUOUS,
                      "a sample takes figures anywhere in the range: leave "
                      "steps out");
    else if (steps == NULL)
        survey__blame(r, range, a->field->path, DEW_EMISSING,
                      "into how many figures? write steps: 5, or a sample");
    else if (steps->shape == SCENARIO__SCALAR && steps->text[0] != '\0' &&
             dew_number_read(steps->text, strlen(steps->text), &x) ==
                 strlen(steps->text) &&
             x >= 2 && x <= STEPS && x == floor(x))
        return (size_t)x;
    else
        survey__blame(r, steps, a->field->path, DEW_ERANGE,
                      "write a whole number of steps in 2 .. %d", STEPS);
    return 0;
}

static int take_range(struct survey__reading *r, struct survey__axis *a,
                      const struct scenario__node *range,
                      const struct scenario__node *steps, int sample)
{
    size_t count = read_steps(r, a, range, steps, sample);

    if (!a->number)
        survey__blame(r, range, a->field->path, DEW_ESYNTAX,
                      "this key is no number: write a list of values");
    else if (range->shape != SCENARIO__SCALAR || !take_ends(a, range->text))
        survey__blame(r, range, a->field->path, DEW_ESYNTAX,
                      "write a range as low to high, its unit behind: 0.6 to 3 "
                      "ach50");
    else if (count > 0 && room_for(r, a, count)) {
        for (size_t i = 0; i < count; i++)
            if (!add_step(r, a, i, count, range))
                return 0;
        a->count = sample ? 0 : count;
        a->is_range = 1;
        return 1;
    }
    return 0;
}

/* ---- the list ------------------------------------------------------------------ */

enum part { KEY, VALUES, RANGE, STEPS_OF, PARTS };

static void take_parts(struct survey__reading *r,
                       const struct scenario__node *map,
                       const struct scenario__node *of[PARTS])
{
    static const char *const names[PARTS] = {"key", "values", "range", "steps"};

    for (const struct scenario__node *e = map->first; e != NULL; e = e->next) {
        size_t k = 0;

        while (k < PARTS && strcmp(names[k], e->key->text) != 0)
            k++;
        if (k == PARTS)
            survey__blame(r, e->key, "vary", DEW_EUNKNOWN,
                          "\"%s\": what is varied has a key, and values or a "
                          "range with steps",
                          e->key->text);
        else if (of[k] != NULL)
            survey__blame(r, e->key, "vary", DEW_EAMBIGUOUS,
                          "%s is told twice: leave one", names[k]);
        else
            of[k] = e;
    }
}

static void take_one(struct survey__reading *r,
                     const struct scenario__node *map, int sample)
{
    const struct scenario__node *of[PARTS] = {NULL};
    struct dew_error at = {0};
    struct survey__axis *a;
    int good;

    if (map->shape != SCENARIO__MAP) {
        survey__blame(r, map, "vary", DEW_ESYNTAX,
                      "write {key: KEY, values: [...]}");
        return;
    }
    take_parts(r, map, of);
    if (of[KEY] == NULL || of[KEY]->shape != SCENARIO__SCALAR) {
        survey__blame(r, map, "vary", DEW_EMISSING,
                      "which key is varied? write key: house.airtightness");
        return;
    }
    core__at(&at, r->plan->name, of[KEY]->line, of[KEY]->column);
    a = survey__axis(r, of[KEY]->text, &at);
    if (a == NULL)
        return;
    if ((of[VALUES] == NULL) == (of[RANGE] == NULL)) {
        survey__blame(r, map, a->field->path, DEW_EMISSING,
                      "write either values or a range");
        good = 0;
    } else {
        good = of[VALUES] != NULL
                   ? take_list(r, a, of[VALUES])
                   : take_range(r, a, of[RANGE], of[STEPS_OF], sample);
    }
    if (good && of[VALUES] != NULL && of[STEPS_OF] != NULL)
        survey__blame(r, of[STEPS_OF], a->field->path, DEW_EAMBIGUOUS,
                      "steps belong to a range: leave them out");
    r->plan->axis_count -= (size_t)!good; /* it is the last */
}

void survey__vary(struct survey__reading *r, const struct scenario__node *node,
                  int sample)
{
    if (node->shape != SCENARIO__LIST || node->first == NULL)
        survey__blame(r, node, "vary", DEW_ESYNTAX,
                      "write a list of keys: - {key: KEY, values: [...]}");
    for (const struct scenario__node *e = node->first; e != NULL; e = e->next)
        take_one(r, e, sample);
}

/* ---- are they taken? ------------------------------------------------------------ */

size_t survey__look(struct survey__reading *r, struct survey__look *look,
                    size_t first, size_t last, struct dew_scenario **s)
{
    struct dew_survey_plan *p = r->plan;
    struct dew_faults faults = {look->list, SURVEY__FAULTS, 0};
    const struct dew_scenario_source from = {.text = p->scenario,
                                             .length = p->scenario_length,
                                             .name = p->scenario_name,
                                             .sets = look->sets.list,
                                             .set_count = look->sets.count};
    size_t told = 0;

    memset(look->list, 0, sizeof look->list);
    *s = NULL;
    (void)dew_scenario_look(s, &from, &faults);
    for (size_t i = 0; i < faults.count && i < faults.room; i++) {
        const struct dew_error *e = &look->list[i];
        size_t set = (size_t)e->line - 1;
        struct dew_error err;

        if (strcmp(e->source, "--set") != 0 || set < first || set >= last)
            continue;
        err = look->at[set];
        core__in(&err, e->path);
        core__fail(&err, e->status, "%s", e->text);
        survey__pass_on(r, &err);
        told++;
    }
    return told;
}

void survey__known(struct survey__reading *r, struct survey__axis *a,
                   const struct dew_scenario *s, struct dew_error *at)
{
    const struct dew_value *v = &dew_scenario_base(s)[a->key];
    enum dew_quantity q = v->unit != NULL ? v->unit->quantity : a->quantity;

    if (!a->number || v->unit == NULL)
        return;
    if (a->seen && a->quantity != q) {
        core__in(at, a->field->path);
        core__fail(at, DEW_EUNIT,
                   "%s, and the first of its values was %s: write all of them "
                   "as one",
                   dew_quantity_text(q), dew_quantity_text(a->quantity));
        survey__pass_on(r, at);
    }
    if (!a->seen)
        a->quantity = q;
    a->seen = 1;
}

/* 1 where it is taken. */
static int check_value(struct survey__reading *r, struct survey__look *look,
                       size_t axis, size_t i)
{
    struct survey__axis *a = &r->plan->axes[axis];
    struct dew_scenario *s;
    int good;

    survey__sets(r->plan, 0, 0, &look->sets);
    look->sets.list[axis] = look->sets.room[axis];
    snprintf(look->sets.room[axis], SURVEY__SET, "%s=%s", a->field->path,
             a->values[i].text);
    look->at[axis] = (struct dew_error){0};
    core__at(&look->at[axis], r->plan->name, a->values[i].node->line,
             a->values[i].node->column);
    good = survey__look(r, look, axis, axis + 1, &s) == 0;
    if (good && s != NULL)
        survey__known(r, a, s, &look->at[axis]);
    dew_scenario_close(s);
    return good;
}

void survey__check(struct survey__reading *r)
{
    struct survey__look *look = calloc(1, sizeof *look);

    for (size_t k = 0; k < r->plan->axis_count && look != NULL; k++) {
        const struct survey__axis *a = &r->plan->axes[k];
        size_t count = a->count > 0 ? a->count : 2;

        for (size_t i = 0; i < count && a->values != NULL; i++)
            if (!check_value(r, look, k, i) && a->is_range)
                break; /* the next step would be told at the same place */
    }
    if (look == NULL)
        survey__memory(r);
    free(look);
}
