/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a plan: its keys, and what they name. */
#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/spread.h"
#include "run/run.h"
#include "survey/survey.h"

/* ---- faults ------------------------------------------------------------------ */

enum dew_status survey__blame(struct survey__reading *r,
                              const struct scenario__node *node,
                              const char *path, enum dew_status status,
                              const char *format, ...)
{
    struct dew_error err = {0};
    char text[sizeof err.text];
    va_list args;

    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    core__at(&err, r->plan->name, node != NULL ? node->line : 0,
             node != NULL ? node->column : 0);
    core__in(&err, path);
    core__fail(&err, status, "%s", text);
    if (r->status == DEW_OK)
        r->status = status;
    return core__fault(r->faults, &err);
}

enum dew_status survey__memory(struct survey__reading *r)
{
    return survey__blame(r, NULL, "", DEW_EMEM, "out of memory");
}

void survey__pass_on(struct survey__reading *r, const struct dew_error *err)
{
    if (r->status == DEW_OK)
        r->status = err->status;
    core__fault(r->faults, err);
}

const char *survey__slice(struct survey__reading *r,
                          const struct scenario__node *node)
{
    const char *text;

    if (node->shape == SCENARIO__SCALAR)
        return node->text;
    text = scenario__arena_text(&r->plan->arena, r->plan->bytes + node->offset,
                                node->length);
    if (text == NULL)
        survey__memory(r);
    return text;
}

/* ---- the keys of a plan -------------------------------------------------------- */

#define KEYS(X)                                                                \
    X(scenario, "the file of the house, beside the plan")                      \
    X(vary, "keys of the scenario, each with values or a range")               \
    X(sample, "so many houses, drawn from what is varied")                     \
    X(houses, "a CSV file of houses, one a row")                               \
    X(places, "all, or a list of places")                                      \
    X(options, "names of options; all where absent")                           \
    X(draws, "houses like each one, drawn from its ranges")                    \
    X(seed, "of the sample and the draws")

enum key {
#define X(name, words) KEY_##name,
    KEYS(X)
#undef X
        KEY_COUNT
};

static const char *const key_names[KEY_COUNT] = {
#define X(name, words) #name,
    KEYS(X)
#undef X
};

/* The nodes of the keys that are there. */
static void take_keys(struct survey__reading *r,
                      const struct scenario__node *root,
                      const struct scenario__node *of[KEY_COUNT])
{
    for (const struct scenario__node *e = root->first; e != NULL; e = e->next) {
        size_t k = 0;

        while (k < KEY_COUNT && strcmp(key_names[k], e->key->text) != 0)
            k++;
        if (k == KEY_COUNT)
            survey__blame(r, e->key, e->key->text, DEW_EUNKNOWN,
                          "no key of a plan, which has scenario, vary, sample, "
                          "houses, places, options, draws and seed");
        else if (of[k] != NULL)
            survey__blame(r, e->key, e->key->text, DEW_EAMBIGUOUS,
                          "told twice: leave one");
        else
            of[k] = e;
    }
}

/* A whole number. */
static size_t whole(struct survey__reading *r, const struct scenario__node *e,
                    const char *key, size_t low, size_t high)
{
    double x;

    if (e->shape == SCENARIO__SCALAR && e->text[0] != '\0' &&
        dew_number_read(e->text, strlen(e->text), &x) == strlen(e->text) &&
        x >= (double)low && x <= (double)high && x == floor(x))
        return (size_t)x;
    survey__blame(r, e, key, DEW_ERANGE, "write a whole number in %zu .. %zu",
                  low, high);
    return low;
}

/* ---- the scenario ------------------------------------------------------------- */

/* A file beside the plan, unpacked, its bytes to the caller. */
static char *beside(struct survey__reading *r, const struct scenario__node *e,
                    size_t most, size_t *length, char **name)
{
    struct run__file *f = calloc(1, sizeof *f);
    struct dew_error err = {0};
    char *bytes = NULL;

    if (f == NULL || e->shape != SCENARIO__SCALAR || e->text[0] == '\0') {
        survey__blame(r, e, e->key->text, f == NULL ? DEW_EMEM : DEW_ESYNTAX,
                      f == NULL ? "out of memory" : "write the name of a file");
        free(f);
        return NULL;
    }
    core__at(&err, r->plan->name, e->line, e->column);
    core__in(&err, e->key->text);
    if (run__beside(r->plan->name, e->text, most, f, &err) != DEW_OK ||
        run__unpack(&f->bytes, &f->length, &err) != DEW_OK) {
        survey__pass_on(r, &err);
    } else {
        bytes = f->bytes;
        *length = f->length;
        *name = scenario__arena_text(&r->plan->arena, f->name, strlen(f->name));
    }
    free(f);
    return bytes;
}

static void take_scenario(struct survey__reading *r,
                          const struct scenario__node *e)
{
    struct dew_survey_plan *p = r->plan;

    if (e == NULL) {
        survey__blame(r, NULL, "scenario", DEW_EMISSING,
                      "name the file of the house: scenario: house.yaml");
        return;
    }
    p->scenario =
        beside(r, e, SURVEY__TEXT, &p->scenario_length, &p->scenario_name);
}

/* ---- places ------------------------------------------------------------------- */

static int add_place(struct survey__reading *r, const struct dew_climate *c,
                     const struct scenario__node *node)
{
    struct dew_survey_plan *p = r->plan;

    for (size_t i = 0; i < p->place_count && node != NULL; i++)
        if (strcmp(p->places[i], c->site.id) == 0) {
            survey__blame(r, node, "places", DEW_EAMBIGUOUS,
                          "%s is named twice: leave one", c->shown);
            return 0;
        }
    snprintf(p->places[p->place_count++], SURVEY__ID, "%s", c->site.id);
    return 1;
}

static void all_places(struct survey__reading *r)
{
    struct dew_climate c;

    for (size_t at = 0; dew_climate_next(&at, &c);)
        add_place(r, &c, NULL);
}

static void one_place(struct survey__reading *r,
                      const struct scenario__node *node)
{
    struct dew_climate c;
    struct dew_error err = {0};

    core__at(&err, r->plan->name, node->line, node->column);
    core__in(&err, "places");
    if (node->shape != SCENARIO__SCALAR)
        survey__blame(r, node, "places", DEW_ESYNTAX,
                      "write a place in words, as of weather.place");
    else if (dew_climate_find(node->text, &c, &err) != DEW_OK)
        survey__pass_on(r, &err);
    else
        add_place(r, &c, node);
}

size_t survey__entries(const struct scenario__node *list)
{
    size_t n = 0;

    for (const struct scenario__node *e = list->first; e != NULL; e = e->next)
        n++;
    return n;
}

static size_t places_of_table(void)
{
    struct dew_climate c;
    size_t n = 0;

    for (size_t at = 0; dew_climate_next(&at, &c);)
        n++;
    return n;
}

static void take_places(struct survey__reading *r,
                        const struct scenario__node *e)
{
    int all = e->shape == SCENARIO__SCALAR && strcmp(e->text, "all") == 0;
    size_t most = all ? places_of_table() : survey__entries(e);

    if ((!all && e->shape != SCENARIO__LIST) || most == 0) {
        survey__blame(r, e, "places", DEW_ESYNTAX,
                      "write all, or a list of places: [Miami FL, Fargo ND]");
        return;
    }
    r->plan->places = calloc(most, sizeof *r->plan->places);
    if (r->plan->places == NULL) {
        survey__memory(r);
        return;
    }
    if (all)
        all_places(r);
    for (const struct scenario__node *n = e->first; n != NULL; n = n->next)
        one_place(r, n);
}

/* ---- options ------------------------------------------------------------------ */

static void take_options(struct survey__reading *r,
                         const struct scenario__node *e)
{
    struct dew_survey_plan *p = r->plan;

    if (e->shape != SCENARIO__LIST || e->first == NULL) {
        survey__blame(r, e, "options", DEW_ESYNTAX,
                      "write a list of names of options of the scenario");
        return;
    }
    p->options = scenario__arena_take(&p->arena,
                                      survey__entries(e) * sizeof *p->options);
    if (p->options == NULL) {
        survey__memory(r);
        return;
    }
    for (const struct scenario__node *n = e->first; n != NULL; n = n->next) {
        for (size_t i = 0; i < p->option_count; i++)
            if (strcmp(p->options[i], n->text) == 0)
                survey__blame(r, n, "options", DEW_EAMBIGUOUS,
                              "\"%s\" is named twice: leave one", n->text);
        p->options[p->option_count++] = n->text;
    }
}

/* The names of those that are marched, by the scenario that is. */
static int take_names(struct dew_survey_plan *p, const struct dew_scenario *s)
{
    size_t count =
        p->option_count > 0 ? p->option_count : dew_scenario_count(s);
    const char **names = scenario__arena_take(&p->arena, count * sizeof *names);

    for (size_t i = 0; i < count && names != NULL; i++) {
        const char *name =
            p->option_count > 0 ? p->options[i] : dew_scenario_name(s, i);

        names[i] = scenario__arena_text(&p->arena, name, strlen(name));
        if (names[i] == NULL)
            return 0;
    }
    p->names = names;
    p->options_all = count;
    return names != NULL;
}

/* Once the scenario is read: are they there? */
static void check_options(struct survey__reading *r,
                          const struct scenario__node *e,
                          const struct dew_scenario *s)
{
    struct dew_survey_plan *p = r->plan;

    p->bare = dew_scenario_bare(s);
    if (!take_names(p, s))
        survey__memory(r);
    if (e == NULL || e->shape != SCENARIO__LIST)
        return;
    if (p->bare) {
        survey__blame(r, e, "options", DEW_EUNKNOWN,
                      "the scenario has no options, and those usually tried "
                      "are marched: leave this out");
        return;
    }
    for (const struct scenario__node *n = e->first; n != NULL; n = n->next)
        if (dew_scenario_find(s, n->text) == dew_scenario_count(s))
            survey__blame(r, n, "options", DEW_EUNKNOWN,
                          "the scenario has no option named \"%s\"", n->text);
}

/* ---- the whole ---------------------------------------------------------------- */

/* Which houses: one of three ways, or the scenario's own alone. */
static void take_houses(struct survey__reading *r,
                        const struct scenario__node *of[KEY_COUNT])
{
    const struct scenario__node *vary = of[KEY_vary], *file = of[KEY_houses];
    const struct scenario__node *sample = of[KEY_sample];

    r->plan->houses = 1;
    if (file != NULL && (vary != NULL || sample != NULL))
        survey__blame(r, file->key, "houses", DEW_EAMBIGUOUS,
                      "a file of houses goes without vary and sample: leave "
                      "one");
    else if (file != NULL)
        survey__houses(r, file);
    if (sample != NULL && vary == NULL)
        survey__blame(r, sample->key, "sample", DEW_EMISSING,
                      "a sample is drawn from what is varied: add vary");
    if (vary != NULL)
        survey__vary(r, vary, sample != NULL);
    r->plan->sampled = sample != NULL;
    if (sample != NULL)
        r->plan->houses =
            whole(r, sample, "sample", 1, (size_t)DEW_SURVEY_HOUSES);
}

/* What is wrong with the first house, where it is not that others fit. */
static void pass_on_all(struct survey__reading *r,
                        const struct dew_faults *faults)
{
    const size_t looked = survey__looked(r->plan);

    for (size_t i = 0; i < faults->count && i < faults->room; i++) {
        struct dew_error *e = &faults->list[i];
        char text[sizeof e->text];

        if (strcmp(e->source, "--set") == 0) /* told of its value */
            continue;
        snprintf(text, sizeof text, "%s", e->text);
        if (e->status == DEW_ERANGE && looked > 1)
            snprintf(e->text, sizeof e->text,
                     "%.150s (and none of the %zu houses looked at fits)", text,
                     looked);
        survey__pass_on(r, e);
    }
}

/* Opened with the first house that fits. */
static void check_scenario(struct survey__reading *r,
                           const struct scenario__node *options)
{
    struct dew_survey_plan *p = r->plan;
    struct dew_error *list = calloc(SURVEY__FAULTS, sizeof *list);
    struct dew_faults faults = {list, SURVEY__FAULTS, 0};
    struct dew_scenario *s = NULL;

    if (p->houses_name != NULL && p->houses == 0) {
        /* there is no house to look at it with, and that was said */
    } else if (list == NULL) {
        survey__memory(r);
    } else {
        if (survey__first_house(p, p->scenario, p->scenario_length, &s,
                                &faults) == DEW_OK)
            check_options(r, options, s);
        pass_on_all(r, &faults);
    }
    dew_scenario_close(s);
    free(list);
}

static void check_size(struct survey__reading *r)
{
    struct dew_survey_plan *p = r->plan;
    double houses = 1;

    for (size_t a = 0; a < p->axis_count && !p->sampled && p->cells == NULL;
         a++)
        houses *= (double)p->axes[a].count;
    houses = fmax(houses, (double)p->houses);
    if (houses * fmax(1, (double)p->place_count) > DEW_SURVEY_ITEMS)
        survey__blame(r, NULL, "", DEW_ERANGE,
                      "%.0f houses in %.0f places are more than %d: vary less, "
                      "or take a sample",
                      houses, fmax(1, (double)p->place_count),
                      (int)DEW_SURVEY_ITEMS);
    p->houses = (size_t)houses;
}

static void take_all(struct survey__reading *r,
                     const struct scenario__node *of[KEY_COUNT])
{
    struct dew_error err = {0};

    take_scenario(r, of[KEY_scenario]);
    if (of[KEY_places] != NULL)
        take_places(r, of[KEY_places]);
    if (of[KEY_options] != NULL)
        take_options(r, of[KEY_options]);
    if (of[KEY_draws] != NULL)
        r->plan->draws = whole(r, of[KEY_draws], "draws", 0, DEW_SPREAD_MOST);
    r->plan->seed = DEW_SPREAD_SEED;
    if (of[KEY_seed] != NULL)
        r->plan->seed = whole(r, of[KEY_seed], "seed", 0, 4294967295U);
    take_houses(r, of);
    check_size(r);
    if (r->plan->sampled && r->status == DEW_OK &&
        survey__sample(r->plan, &err) != DEW_OK)
        survey__pass_on(r, &err);
    if (r->plan->scenario != NULL) {
        check_scenario(r, of[KEY_options]);
        survey__check(r);
        survey__check_houses(r);
    }
}

static void read_text(struct survey__reading *r)
{
    const struct scenario__node *of[KEY_COUNT] = {NULL};
    struct scenario__node *root = NULL;
    struct dew_survey_plan *p = r->plan;
    struct dew_error err = {0};

    core__at(&err, p->name, 0, 0);
    if (scenario__tree_read(&root, &p->arena, p->bytes, p->length, &err) !=
        DEW_OK) {
        survey__pass_on(r, &err);
    } else if (root == NULL || root->shape != SCENARIO__MAP) {
        survey__blame(r, root, "", DEW_ESYNTAX,
                      "a plan is keys with their values: scenario: house.yaml");
    } else {
        take_keys(r, root, of);
        take_all(r, of);
    }
}

enum dew_status dew_survey_read(struct dew_survey_plan **plan, const char *path,
                                struct dew_faults *faults)
{
    struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_survey_plan *p = calloc(1, sizeof *p);
    struct survey__reading r = {p, faults, DEW_OK};

    *plan = NULL;
    if (p == NULL)
        return core__fault(faults, &err);
    p->name = scenario__arena_text(&p->arena, path, strlen(path));
    err = (struct dew_error){0};
    if (p->name == NULL)
        survey__memory(&r);
    else if (run__text(path, &p->bytes, &p->length, &err) != DEW_OK)
        survey__pass_on(&r, &err);
    else
        read_text(&r);
    if (r.status == DEW_OK)
        *plan = p;
    else
        dew_survey_plan_close(p);
    return r.status;
}

void dew_survey_plan_close(struct dew_survey_plan *p)
{
    if (p == NULL)
        return;
    free(p->bytes);
    free(p->scenario);
    free(p->made);
    free(p->u);
    free(p->houses_bytes);
    free(p->cells);
    free(p->lines);
    free(p->places);
    scenario__arena_free(&p->arena);
    free(p);
}

/* ---- what it comes to ----------------------------------------------------------- */

struct dew_survey_size dew_survey_size(const struct dew_survey_plan *p)
{
    struct dew_survey_size s = {.houses = p->houses,
                                .places =
                                    p->place_count > 0 ? p->place_count : 1,
                                .options = p->options_all,
                                .draws = p->draws};

    s.items = s.houses * s.places;
    s.rows = s.items * s.options * (1 + s.draws);
    return s;
}

int dew_survey_bare(const struct dew_survey_plan *p)
{
    return p->bare && p->made == NULL;
}

const char *survey__scenario(const struct dew_survey_plan *p, size_t *length)
{
    *length = p->made != NULL ? p->made_length : p->scenario_length;
    return p->made != NULL ? p->made : p->scenario;
}

const char *dew_survey_scenario(const struct dew_survey_plan *p,
                                const char **name, size_t *length)
{
    *name = p->scenario_name;
    return survey__scenario(p, length);
}

enum dew_status dew_survey_give(struct dew_survey_plan *p, const char *text,
                                size_t length, struct dew_faults *faults)
{
    const struct dew_error err = {.status = DEW_EMEM, .text = "out of memory"};
    struct dew_scenario *s = NULL;
    enum dew_status status;
    char *own = malloc(length + 1);

    if (own == NULL)
        return core__fault(faults, &err);
    status = survey__first_house(p, text, length, &s, faults);
    if (status == DEW_OK) {
        memcpy(own, text, length);
        free(p->made);
        p->made = own;
        p->made_length = length;
        own = NULL;
        if (!take_names(p, s))
            status = core__fault(faults, &err);
    }
    dew_scenario_close(s);
    free(own);
    return status;
}
