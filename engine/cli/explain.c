/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/explain.h"
#include "cli/typical.h"

#include <string.h>

static void append(char *out, size_t size, const char *text)
{
    size_t used = strlen(out);

    snprintf(out + used, size - used, "%s", text);
}

static void append_units(const struct dew_field *f, char *out, size_t size)
{
    char units[200];

    append(out, size, dew_unit_fitting(f->quantity, units, sizeof units));
    for (size_t i = 0; i < f->form_count; i++) {
        append(out, size, "; or ");
        append(out, size, dew_quantity_text(f->forms[i].quantity));
        append(out, size, ": ");
        append(out, size,
               dew_unit_fitting(f->forms[i].quantity, units, sizeof units));
    }
}

static void append_words(const struct dew_field *f, char *out, size_t size)
{
    char one[2] = "";

    for (const char *w = f->words; *w != '\0'; w++) {
        one[0] = *w;
        append(out, size, *w == '|' ? ", " : one);
    }
}

char *cli__explain_form(const struct dew_field *f, char *out, size_t size)
{
    char count[60];

    out[0] = '\0';
    switch (f->kind) {
    case DEW_KIND_COUNT:
        append(out, size, "whole number");
        break;
    case DEW_KIND_FLAG:
        append(out, size,
               f->either ? "yes or no, or both where it is unknown"
                         : "yes or no");
        break;
    case DEW_KIND_ANSWER:
        append(out, size, "yes, no or unknown");
        break;
    case DEW_KIND_TEXT:
        append(out, size, "text");
        break;
    case DEW_KIND_WORD:
        append(out, size, "one of: ");
        append_words(f, out, size);
        append(out, size,
               f->either ? "; in doubt: two or more with or between, "
                           "or unknown"
                         : "");
        break;
    case DEW_KIND_HOURS:
        append(out, size, "span of hours such as 22 to 6, or a list of them");
        break;
    case DEW_KIND_ROWS:
        append(out, size, "list of rows: ");
        for (size_t i = 0; i < f->row_count; i++) {
            append(out, size, i ? ", " : "");
            append(out, size, f->row[i].path);
        }
        break;
    case DEW_KIND_AT:
        append(out, size,
               f->at == DEW_PURE
                   ? "share at another, such as 79 % at 75.3 %, or a list"
                   : "share at a flow, such as 74 % at 95 cfm, or a list");
        break;
    case DEW_KIND_LIST:
        snprintf(count, sizeof count, "list of %zu: ", f->most);
        append(out, size, count);
        append_units(f, out, size);
        break;
    default:
        append(out, size, dew_quantity_text(f->quantity));
        append(out, size, ": ");
        append_units(f, out, size);
    }
    return out;
}

static void append_end(const struct dew_field *f, int system, double si,
                       char *out, size_t size)
{
    const struct dew_unit *u = dew_unit_shown(f->quantity, system);
    char x[40];

    if (f->quantity == DEW_PURE && f->high <= 1.5)
        u = dew_unit_find("%", 1, DEW_PURE);
    append(out, size,
           dew_number_print((si - u->offset) / u->factor, 4, x, sizeof x));
    append(out, size, u->name[0] && f->kind != DEW_KIND_COUNT ? " " : "");
    append(out, size, u->name);
}

static void append_range(const struct dew_field *f, int system, char *out,
                         size_t size)
{
    append_end(f, system, f->low, out, size);
    append(out, size, " to ");
    append_end(f, system, f->high, out, size);
}

char *cli__explain_range(const struct dew_field *f, int system, char *out,
                         size_t size)
{
    const struct dew_unit *us = dew_unit_shown(f->quantity, 1);

    out[0] = '\0';
    if (!(f->low < f->high) || f->why == NULL)
        return out;
    if (f->kind == DEW_KIND_COUNT) {
        snprintf(out, size, "%g to %g", f->low, f->high);
        return out;
    }
    append_range(f, system ? system : 1, out, size);
    if (system == 0 && us != dew_unit_shown(f->quantity, 2)) {
        append(out, size, " (");
        append_range(f, 2, out, size);
        append(out, size, ")");
    }
    return out;
}

char *cli__explain_preset(const struct dew_field *f, char *out, size_t size)
{
    snprintf(out, size, "%s",
             f->preset == NULL      ? "required"
             : f->preset[0] == '\0' ? "none"
             : f->preset[0] == '='  ? f->preset + 1
                                    : f->preset);
    return out;
}

char *cli__explain_doubt(const struct dew_field *f, const struct dew_value *v,
                         int system, char *out, size_t size)
{
    char range[100];

    out[0] = '\0';
    if (f->doubt_why == NULL)
        return out;
    dew_scenario_show_doubt(f, v, system, range, sizeof range);
    if (f->doubt == DEW_DOUBT_NONE)
        snprintf(out, size, "none: %s", f->doubt_why);
    else
        snprintf(out, size, "%s (%s)", range[0] ? range : "as written",
                 f->doubt_why);
    return out;
}

/* ---- the manual ---------------------------------------------------------- */

/* A cell of a table must not hold "|". */
static void cell(const char *text)
{
    for (; *text != '\0'; text++)
        if (*text == '|')
            fputs("\\|", stdout);
        else
            putchar(*text);
}

static void manual_row(const struct dew_field *f)
{
    char text[CLI__EXPLAIN];
    const char *dot = strchr(f->path, '.');

    printf("| `%s` | ", dot != NULL ? dot + 1 : f->path);
    cell(f->help);
    printf(" | ");
    cell(cli__explain_form(f, text, sizeof text));
    printf(" | ");
    cell(cli__explain_range(f, 0, text, sizeof text));
    printf(" | ");
    cell(cli__explain_preset(f, text, sizeof text));
    if (f->source != NULL && f->source[0]) {
        printf("<br>");
        cell(f->source);
    }
    if (f->doubt != DEW_DOUBT_NONE) {
        printf("<br>usual range: ");
        cell(cli__explain_doubt(f, NULL, 0, text, sizeof text));
    }
    printf(" |\n");
}

static void manual_head(const char *group, const char *about)
{
    printf("\n## %s\n\n%s.\n\n"
           "| key | what it is | written as | range | default, and its source "
           "|\n|---|---|---|---|---|\n",
           group, about);
}

static void manual_intro(void)
{
    puts(
        "# The scenario file\n"
        "\n"
        "Written by `dewledger explain --markdown` from the table of keys; "
        "`make check`\ncompares the two.\n"
        "\n"
        "A scenario is YAML: groups of keys, and a list of `options` that "
        "each say only\nwhat they change. `dewledger start` writes one to "
        "begin with, `dewledger check`\nsays every fault in one, `dewledger "
        "explain KEY` explains a key.\n"
        "\n"
        "* Every value with a dimension carries its unit: `1900 ft2`, `95 "
        "cfm`, `68 degF`,\n  `14 L/day`. A share is `74 %` or `0.74`.\n"
        "* A doubtful number has its range: `1.1 ach50 (0.7 to 2.0)`. What is "
        "not told\n  stands at its default, and `spread` draws it from the "
        "default's usual range.\n"
        "* A doubtful word is told as `gas or electric`, the likelier first, or "
        "`unknown`: then\n  it is one of all its words, and `run` goes by the "
        "default. `yes or no` likewise.\n"
        "* Order of rule: default, file, option, `--set`. Groups merge key by "
        "key, single\n  values and lists replace, `none` removes. `--set "
        "KEY=VALUE` holds for the base and\n  every option, `--set "
        "options.NAME.KEY=VALUE` for one.\n"
        "* A comma ends a value inside `{ }`: write `16200 ft3` there.\n"
        "* At most 64 options, 1 MiB, 16 levels; no anchors, aliases or tags.");
}

void cli__explain_manual(void)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    char group[40], last[40] = "";

    manual_intro();
    for (int top = 1; top >= 0; top--) {
        if (top)
            manual_head("Keys at the top", "Outside any group");
        for (size_t i = 0; i < count; i++) {
            size_t n = strcspn(f[i].path, ".");

            if ((f[i].path[n] == '\0') != top)
                continue;
            snprintf(group, sizeof group, "%.*s", (int)n, f[i].path);
            if (!top && strcmp(group, last) != 0)
                manual_head(group, dew_scenario_group(group));
            snprintf(last, sizeof last, "%s", group);
            manual_row(&f[i]);
        }
    }
    for (size_t i = 0; i < count; i++) {
        if (f[i].row == NULL)
            continue;
        manual_head(f[i].path, "Columns of a row");
        for (size_t k = 0; k < f[i].row_count; k++)
            manual_row(&f[i].row[k]);
    }
    cli__typical_markdown();
}
