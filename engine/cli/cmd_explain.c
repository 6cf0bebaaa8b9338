/* SPDX-License-Identifier: GPL-3.0-or-later */
/* `explain`: what a key means; docs/scenario.md is `explain --markdown`. */
#include <string.h>

#include "cli/explain.h"
#include "cli/explain_words.h"
#include "cli/typical.h"

enum { KEY_MARKDOWN = 'm', KEY_MANUAL = 0x200, WORDS = 80 };

struct explain {
    struct cli__cli common;
    const char *key; /* NULL, or words                                      */
    char words[WORDS];
    int markdown;
    int manual;
};

static error_t take(int key, char *word, struct argp_state *state)
{
    struct explain *e = state->input;
    size_t used;

    switch (key) {
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &e->common;
        return 0;
    case KEY_MARKDOWN:
        e->markdown = 1;
        return 0;
    case KEY_MANUAL:
        e->manual = 1;
        return 0;
    case ARGP_KEY_ARG:
        used = strlen(e->words);
        snprintf(e->words + used, sizeof e->words - used, "%s%s",
                 used > 0 ? " " : "", word);
        e->key = e->words;
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

/* ---- text ---------------------------------------------------------------- */

static void print_field(const struct dew_field *f, int system)
{
    char text[CLI__EXPLAIN];

    printf("%s\n", f->path);
    cli__wrap(stdout, 2, f->help);
    cli__explain_form(f, text, sizeof text);
    printf("\n");
    cli__wrap(stdout, 2, text);
    if (cli__explain_range(f, system, text, sizeof text)[0]) {
        printf("  range: ");
        printf("%s\n", text);
        cli__wrap(stdout, 4, f->why);
    }
    cli__explain_preset(f, text, sizeof text);
    printf("  default: %s\n", text);
    if (f->source != NULL && f->source[0])
        cli__wrap(stdout, 4, f->source);
    if (cli__explain_doubt(f, NULL, system, text, sizeof text)[0]) {
        printf("  usual range:\n");
        cli__wrap(stdout, 4, text);
    }
    for (size_t i = 0; i < f->row_count; i++) {
        printf("  column %s\n", f->row[i].path);
        cli__wrap(stdout, 4, f->row[i].help);
        if (cli__explain_doubt(&f->row[i], NULL, system, text, sizeof text)[0])
            printf("    usual range: %s\n", text);
    }
}

static void print_group(const char *group)
{
    size_t count, n = strlen(group);
    const struct dew_field *f = dew_scenario_fields(&count);

    printf("%s\n", group);
    cli__wrap(stdout, 2, dew_scenario_group(group));
    printf("\n");
    for (size_t i = 0; i < count; i++)
        if (strncmp(f[i].path, group, n) == 0 && f[i].path[n] == '.') {
            printf("  %s\n", f[i].path);
            cli__wrap(stdout, 6, f[i].help);
        }
}

static void print_top(void)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    const char *last = "";

    puts("Keys and groups of keys of a scenario; explain takes either:\n");
    for (size_t i = 0; i < count; i++) {
        size_t n = strcspn(f[i].path, ".");
        char group[40];

        if (strncmp(last, f[i].path, n) == 0 && last[n] == f[i].path[n])
            continue;
        last = f[i].path;
        snprintf(group, sizeof group, "%.*s", (int)n, f[i].path);
        printf("  %s\n", group);
        cli__wrap(stdout, 6,
                  f[i].path[n] ? dew_scenario_group(group) : f[i].help);
    }
}

/* ---- JSON ------------------------------------------------------------------ */

static json_t *or_null(const char *text)
{
    return text != NULL && text[0] ? json_string(text) : json_null();
}

static json_t *field_json(const struct dew_field *f)
{
    char form[CLI__EXPLAIN], preset[CLI__EXPLAIN];
    json_t *j = json_object();

    cli__explain_form(f, form, sizeof form);
    cli__explain_preset(f, preset, sizeof preset);
    j = cli__set(j, "key", json_string(f->path));
    j = cli__set(j, "help", json_string(f->help));
    j = cli__set(j, "form", json_string(form));
    j = cli__set(j, "default", json_string(preset));
    j = cli__set(j, "source", or_null(f->source));
    if (cli__explain_doubt(f, NULL, 2, form, sizeof form)[0])
        j = cli__set(j, "usual_range", json_string(form));
    if (f->low < f->high)
        j = cli__set(j, "range",
                     json_pack("{s:f, s:f, s:s, s:s}", "low", f->low, "high",
                               f->high, "unit", dew_quantity_si(f->quantity),
                               "why", f->why));
    return j;
}

static json_t *keys_json(const char *key)
{
    size_t count, n = key != NULL ? strlen(key) : 0;
    const struct dew_field *f = dew_scenario_fields(&count);
    json_t *list = json_array();

    for (size_t i = 0; i < count; i++)
        if (n == 0 || (strncmp(f[i].path, key, n) == 0 &&
                       (f[i].path[n] == '.' || f[i].path[n] == '\0')))
            list = cli__add(list, field_json(&f[i]));
    return list;
}

static int no_such_key(const char *key)
{
    const char *near = dew_scenario_nearest(key);

    return near == NULL
               ? cli__fail(CLI__BAD_INPUT,
                           "no key is called \"%s\" (dewledger explain "
                           "lists them)",
                           key)
               : cli__fail(CLI__BAD_INPUT,
                           "no key is called \"%s\"; the nearest is "
                           "\"%s\"",
                           key, near);
}

/* A word that is no key but leads to one: say so, and go there. */
static void follow_word(struct explain *e)
{
    const struct cli__led *led;
    char line[CLI__EXPLAIN];

    if (e->key == NULL || dew_scenario_field(e->key) != NULL ||
        dew_scenario_group(e->key) != NULL)
        return;
    led = cli__explain_word(e->key);
    if (led == NULL)
        return;
    snprintf(line, sizeof line, "%s: see %s (%s).", e->key, led->key, led->why);
    if (!e->common.json) {
        cli__wrap(stdout, 0, line);
        putchar('\n');
    }
    e->key = led->key;
}

int cli__cmd_explain(int argc, char **argv)
{
    static const struct argp_option options[] = {
        {"markdown", KEY_MARKDOWN, NULL, 0, "print all keys as Markdown", 0},
        {"manual", KEY_MANUAL, NULL, 0, "print all keys as a manual page, roff",
         0},
        {0},
    };
    static const struct argp_child children[] = {
        {&cli__result_argp, 0, NULL, 0},
        {0},
    };
    static const struct argp argp = {
        .options = options,
        .parser = take,
        .args_doc = "[KEY]",
        .doc =
            "Say what a key of a scenario means: how it is written, its "
            "range, its default and where that comes from.  Without KEY: the "
            "groups of keys; `typical` for KEY: the library of typical "
            "equipment.  Words such as ERV or air conditioner lead to their "
            "key.\v"
            "  dewledger explain house.airtightness\n"
            "  dewledger explain ventilator --units si\n",
        .children = children};
    struct explain e = {0};
    int code = cli__parse(&argp, argc, argv, &e);
    const struct dew_field *f;

    if (code != CLI__DONE)
        return code;
    if (e.key != NULL && strcmp(e.key, "typical") == 0 && !e.common.json) {
        cli__typical_text();
        return CLI__DONE;
    }
    follow_word(&e);
    f = e.key != NULL ? dew_scenario_field(e.key) : NULL;
    if (e.key != NULL && f == NULL && dew_scenario_group(e.key) == NULL)
        return no_such_key(e.key);
    if (e.common.json)
        return cli__json(keys_json(e.key));
    if (e.markdown)
        cli__explain_manual();
    else if (e.manual)
        cli__explain_roff();
    else if (f != NULL)
        print_field(f, e.common.units);
    else if (e.key != NULL)
        print_group(e.key);
    else
        print_top();
    return CLI__DONE;
}
