/* SPDX-License-Identifier: GPL-3.0-or-later */
/* `check`: every fault at once, or an echo of all that was understood. */
#include <math.h>
#include <string.h>

#include "cli/explain.h"
#include "cli/load.h"

enum { SHOWN = 400 };

struct check {
    struct cli__cli common;
    const char *path;
};

static error_t take(int key, char *word, struct argp_state *state)
{
    struct check *c = state->input;

    switch (key) {
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &c->common;
        state->child_inputs[1] = &c->common;
        return 0;
    default:
        return cli__one(key, word, state, &c->path);
    }
}

/* ---- text ---------------------------------------------------------------- */

static void print_origin(const struct dew_field *f, const struct dew_value *v,
                         char *out, size_t size)
{
    const struct dew_origin *o = &v->origin;

    switch (o->by) {
    case DEW_BY_FILE:
        snprintf(out, size, "line %d", o->line);
        break;
    case DEW_BY_OPTION:
        snprintf(out, size, "line %d, this option", o->line);
        break;
    case DEW_BY_SET:
        snprintf(out, size, "--set %d", o->line);
        break;
    default:
        snprintf(out, size, "default%s%s",
                 f->source && f->source[0] ? ": " : "",
                 f->source ? f->source : "");
    }
}

static const char *name_of(const struct dew_field *f)
{
    const char *dot = strchr(f->path, '.');

    return dot != NULL ? dot + 1 : f->path;
}

/* The figure that other keys give, as a value to show; given 0: none. */
static struct dew_value worked(const struct dew_value *all, size_t key)
{
    size_t count;
    const struct dew_field *f = &dew_scenario_fields(&count)[key];
    double x = dew_scenario_worked(all, key);
    struct dew_value v = {.given = !isnan(x),
                          .unit = dew_unit_shown(f->quantity, 1),
                          .amount = {x, x, x}};

    return v;
}

/* Whether words of a default begin with a figure: then that is the default. */
static int is_figure(char first)
{
    return first >= '0' && first <= '9';
}

static void print_value(const struct dew_value *all, size_t key, int system)
{
    size_t count;
    const struct dew_field *f = &dew_scenario_fields(&count)[key];
    const struct dew_value *v = &all[key];
    struct dew_value figure = worked(all, key);
    char value[SHOWN], origin[SHOWN], line[3 * SHOWN];

    if (v->given) {
        dew_scenario_show(f, v, system, value, sizeof value);
        print_origin(f, v, origin, sizeof origin);
    } else if (f->preset != NULL && f->preset[0] == '=' && figure.given) {
        dew_scenario_show(f, &figure, system, value, sizeof value);
        snprintf(origin, sizeof origin, "worked out: %.300s", f->preset + 1);
    } else if (f->preset != NULL && f->preset[0] == '=') {
        snprintf(value, sizeof value, "%s", f->preset + 1);
        snprintf(origin, sizeof origin, "%s",
                 is_figure(f->preset[1]) ? "default" : "worked out");
    } else {
        snprintf(value, sizeof value, "none");
        snprintf(origin, sizeof origin, "not given");
    }
    snprintf(line, sizeof line, "%s: %s  [%s", name_of(f), value, origin);
    if (f->doubt != DEW_DOUBT_NONE &&
        (!v->given || v->origin.by == DEW_BY_DEFAULT))
        snprintf(line + strlen(line), sizeof line - strlen(line),
                 "; usual range %s",
                 cli__explain_doubt(f, v, system, value, sizeof value));
    snprintf(line + strlen(line), sizeof line - strlen(line), "]");
    cli__wrap(stdout, 2, line);
}

/* A group's name when the key begins one; the top's own keys have none. */
static void print_group(const struct dew_field *f, const char **last)
{
    size_t n = strcspn(f->path, ".");

    if (f->path[n] != '.' ||
        (*last != NULL && strncmp(*last, f->path, n + 1) == 0))
        return;
    *last = f->path;
    printf("\n%.*s\n", (int)n, f->path);
}

/* The keys outside any group come first. */
static void print_base(const struct dew_scenario *s, int system)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    const struct dew_value *v = dew_scenario_base(s);
    const char *group = NULL;

    for (size_t i = 0; i < count; i++)
        if (strchr(f[i].path, '.') == NULL)
            print_value(v, i, system);
    for (size_t i = 0; i < count; i++) {
        if (strchr(f[i].path, '.') == NULL)
            continue;
        print_group(&f[i], &group);
        print_value(v, i, system);
    }
}

/* Whether an option's value came from elsewhere than the base's. */
static int differs(const struct dew_value *a, const struct dew_value *b)
{
    return a->given != b->given || a->origin.by != b->origin.by ||
           a->origin.line != b->origin.line ||
           a->origin.column != b->origin.column;
}

/* Only what the option changes. */
static void print_option(const struct dew_scenario *s, size_t option,
                         int system)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    const struct dew_value *base = dew_scenario_base(s);
    const struct dew_value *v = dew_scenario_values(s, option);
    const char *group = NULL;
    int changes = 0;

    fputs("\noption \"", stdout);
    cli__put(stdout, dew_scenario_name(s, option));
    puts("\"");
    for (size_t i = 0; i < count; i++) {
        if (!differs(&v[i], &base[i]))
            continue;
        print_group(&f[i], &group);
        print_value(v, i, system);
        changes++;
    }
    if (changes == 0)
        puts("  changes nothing");
}

/* What of ducts is computed, where some lie outside the envelope. */
static void print_ducts(const struct dew_scenario *s)
{
    size_t outside = 0;

    for (size_t i = 0; i < dew_scenario_count(s); i++)
        outside += dew_scenario_ducts_outside(s, i) != 0;
    if (outside > 0)
        cli__wrap(stdout, 0,
                  "Ducts outside the envelope count in every option that "
                  "has an air handler, also without a ventilator: what "
                  "leaks draw in and lose, and what trunks outside pass "
                  "through their walls. Where they lie is ducts.place.");
}

static int system_of(const struct check *c, const struct dew_scenario *s)
{
    return c->common.units ? c->common.units : dew_scenario_system(s);
}

static void print_text(const struct check *c, const struct dew_run *run)
{
    static const char *const names[] = {"", "inch-pound", "metric"};
    const struct dew_scenario *s = dew_run_scenario(run);
    int system = system_of(c, s);

    cli__put(stdout, c->path);
    puts(": no fault found");
    printf("%zu option%s, shown in %s units\n", dew_scenario_count(s),
           dew_scenario_count(s) == 1 ? "" : "s", names[system]);
    print_ducts(s);
    print_base(s, system);
    for (size_t i = 0; i < dew_run_count(run); i++)
        print_option(s, dew_run_option(run, i), system);
}

/* ---- JSON ------------------------------------------------------------------ */

static json_t *amount_json(const struct dew_field *f, const struct dew_value *v)
{
    enum dew_quantity q = v->unit != NULL ? v->unit->quantity : f->quantity;

    return json_pack("{s:o, s:o, s:o, s:s}", "value", cli__real(v->amount.si),
                     "low", cli__real(v->amount.low), "high",
                     cli__real(v->amount.high), "unit", dew_quantity_si(q));
}

static json_t *worked_json(const struct dew_field *f,
                           const struct dew_value *all, size_t key, int system)
{
    struct dew_value figure = worked(all, key);
    char text[SHOWN];
    json_t *j;

    if (f->preset == NULL || f->preset[0] != '=')
        return json_pack("{s:s, s:s}", "from", "nothing", "text", "none");
    snprintf(text, sizeof text, "%s", f->preset + 1);
    if (figure.given)
        dew_scenario_show(f, &figure, system, text, sizeof text);
    j = json_pack("{s:s, s:s, s:s}", "from", "worked out", "text", text, "how",
                  f->preset + 1);
    if (figure.given)
        j = cli__set(j, "si", amount_json(f, &figure));
    return j;
}

static json_t *with_doubt(const struct dew_field *f, const struct dew_value *v,
                          json_t *j, int system)
{
    char text[SHOWN];

    if (f->doubt == DEW_DOUBT_NONE)
        return j;
    return cli__set(
        j, "usual_range",
        json_string(cli__explain_doubt(f, v, system, text, sizeof text)));
}

static json_t *value_json(const struct dew_value *all, size_t key, int system)
{
    size_t count;
    const struct dew_field *f = &dew_scenario_fields(&count)[key];
    const struct dew_value *v = &all[key];
    static const char *const by[] = {"default", "file", "option", "set"};
    char text[SHOWN];
    json_t *j;

    if (!v->given)
        return with_doubt(f, v, worked_json(f, all, key, system), system);
    dew_scenario_show(f, v, system, text, sizeof text);
    j = json_pack("{s:s, s:s}", "from", by[v->origin.by], "text", text);
    if (v->origin.by == DEW_BY_DEFAULT)
        j = with_doubt(f, v, j, system);
    if (v->origin.line > 0) {
        j = cli__set(j, "line", json_integer(v->origin.line));
        j = cli__set(j, "column", json_integer(v->origin.column));
    }
    if (f->kind == DEW_KIND_NUMBER || f->kind == DEW_KIND_COUNT)
        j = cli__set(j, "si", amount_json(f, v));
    if (v->origin.by == DEW_BY_DEFAULT && f->source != NULL)
        j = cli__set(j, "source", json_string(f->source));
    return j;
}

static json_t *values_json(const struct dew_value *v,
                           const struct dew_value *base, int system)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    json_t *j = json_object();

    for (size_t i = 0; i < count; i++)
        if (base == NULL || differs(&v[i], &base[i]))
            j = cli__set(j, f[i].path, value_json(v, i, system));
    return j;
}

static int print_json(const struct check *c, const struct dew_run *run)
{
    const struct dew_scenario *s = dew_run_scenario(run);
    const struct dew_value *base = dew_scenario_base(s);
    int system = system_of(c, s);
    json_t *options = json_array();

    for (size_t i = 0; i < dew_run_count(run); i++) {
        size_t at = dew_run_option(run, i);

        options = cli__add(
            options,
            json_pack("{s:s, s:o}", "name", dew_scenario_name(s, at), "changes",
                      values_json(dew_scenario_values(s, at), base, system)));
    }
    return cli__json(
        json_pack("{s:s, s:s, s:s, s:o, s:o}", "scenario", c->path, "title",
                  dew_scenario_title(s), "units", system == 2 ? "si" : "us",
                  "base", values_json(base, NULL, system), "options", options));
}

int cli__cmd_check(int argc, char **argv)
{
    static const struct argp_child children[] = {
        {&cli__result_argp, 0, NULL, 0},
        {&cli__pick_argp, 0, NULL, 0},
        {0},
    };
    static const struct argp argp = {
        .parser = take,
        .args_doc = "SCENARIO.yaml",
        .doc = "Read a scenario, its weather and its log, and say every fault "
               "in them, or all that was understood: each value, its unit and "
               "where it came from.\v"
               "  dewledger check house.yaml\n"
               "  dewledger check house.yaml --option 'as it stands'\n",
        .children = children};
    struct check c = {.path = NULL};
    struct dew_run *run = NULL;
    int code = cli__parse(&argp, argc, argv, &c);

    if (code == CLI__DONE)
        code = cli__open(&run, c.path, &c.common, DEW_RUN_CHECK, 0);
    if (code == CLI__DONE && c.common.json)
        code = print_json(&c, run);
    else if (code == CLI__DONE)
        print_text(&c, run);
    dew_run_close(run);
    return code;
}
