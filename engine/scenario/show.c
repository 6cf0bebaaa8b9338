/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A value as a person would type it. */
#include <stdio.h>
#include <string.h>

#include "scenario/value.h"

enum { DIGITS = 5 };

/* The unit to print in: as typed where that fits the system asked for. */
static const struct dew_unit *unit_for(const struct dew_field *f,
                                       const struct dew_unit *typed, int system)
{
    enum { SMALL = 5000 }; /* W: fans, blowers and people, never in Btu/h */
    enum { GALLONS = 10 }; /* kg: less is told in pints */

    if (system == 0 || typed->system == 0 || typed->system == system)
        return typed;
    if (typed->quantity == DEW_POWER && f->high <= SMALL)
        return dew_unit_find("W", 1, DEW_POWER);
    if (typed->quantity == DEW_WATER && f->high <= GALLONS && system == 1)
        return dew_unit_find("pint", 4, DEW_WATER);
    return dew_unit_shown(typed->quantity, system);
}

static char *in_unit(const struct dew_unit *u, double si, char *out,
                     size_t size)
{
    return dew_number_print((si - u->offset) / u->factor, DIGITS, out, size);
}

static void show_amount(const struct dew_field *f, const struct dew_value *v,
                        int system, char *out, size_t size)
{
    const struct dew_unit *u = v->unit;
    char x[32], low[32], high[32];

    if (u == NULL) {
        dew_number_print(v->amount.si, DIGITS, out, size);
        return;
    }
    u = unit_for(f, u, system);
    in_unit(u, v->amount.si, x, sizeof x);
    if (v->amount.low == v->amount.high) {
        snprintf(out, size, "%s%s%s", x, u->name[0] ? " " : "", u->name);
        return;
    }
    in_unit(u, v->amount.low, low, sizeof low);
    in_unit(u, v->amount.high, high, sizeof high);
    snprintf(out, size, "%s%s%s (%s to %s)", x, u->name[0] ? " " : "", u->name,
             low, high);
}

static void show_at(const struct dew_field *f, const struct dew_value *v,
                    int system, char *out, size_t size)
{
    const struct dew_unit *u = dew_unit_shown(f->at, system ? system : 1);
    char amount[80], at[32];

    show_amount(f, v, system, amount, sizeof amount);
    snprintf(out, size, "%s at %s %s", amount, in_unit(u, v->at, at, sizeof at),
             u->name);
}

static void show_clock(double h, char *out, size_t size)
{
    int minutes = (int)(h * 60 + 0.5);

    snprintf(out, size, "%d:%02d", minutes / 60, minutes % 60);
}

static void show_entry(const struct dew_field *f, const struct dew_value *v,
                       int system, char *out, size_t size)
{
    char from[32], until[32];

    if (f->kind == DEW_KIND_AT) {
        show_at(f, v, system, out, size);
    } else if (f->kind == DEW_KIND_HOURS) {
        show_clock(v->amount.si, from, sizeof from);
        show_clock(v->at, until, sizeof until);
        snprintf(out, size, "%s to %s", from, until);
    } else {
        show_amount(f, v, system, out, size);
    }
}

static void append(char *out, size_t size, const char *text)
{
    size_t used = strlen(out);

    snprintf(out + used, size - used, "%s", text);
}

static void show_list(const struct dew_field *f, const struct dew_value *v,
                      int system, char *out, size_t size)
{
    char one[120];

    out[0] = '\0';
    append(out, size, v->count > 1 ? "[" : "");
    for (size_t i = 0; i < v->count; i++) {
        show_entry(f, &v->items[i], system, one, sizeof one);
        append(out, size, i > 0 ? ", " : "");
        append(out, size, one);
    }
    append(out, size, v->count > 1 ? "]" : "");
}

static void show_rows(const struct dew_field *f, const struct dew_value *v,
                      int system, char *out, size_t size)
{
    char one[120];

    out[0] = '\0';
    for (size_t i = 0; i < v->count; i++) {
        const char *between = "";

        append(out, size, i > 0 ? ", {" : "[{");
        for (size_t k = 0; k < f->row_count; k++) {
            const struct dew_value *cell = &v->items[i * f->row_count + k];

            if (!cell->given)
                continue;
            dew_scenario_show(&f->row[k], cell, system, one, sizeof one);
            append(out, size, between);
            append(out, size, f->row[k].path);
            append(out, size, ": ");
            append(out, size, one);
            between = ", ";
        }
        append(out, size, "}");
    }
    append(out, size, "]");
}

/* "gas or electric", the likely one first. */
static char *show_either(const struct dew_field *f, const struct dew_value *v,
                         char *out, size_t size)
{
    const char *words = f->kind == DEW_KIND_WORD ? f->words : "no|yes";
    char word[64];

    scenario__word_at(words, v->choice, out, size);
    for (int i = 0; v->may >> i != 0; i++) {
        if (i == v->choice || (v->may >> i & 1U) == 0)
            continue;
        append(out, size, " or ");
        append(out, size, scenario__word_at(words, i, word, sizeof word));
    }
    return out;
}

char *dew_scenario_show(const struct dew_field *field,
                        const struct dew_value *value, int system, char *out,
                        size_t size)
{
    static const char *const answers[] = {"no", "yes"};

    if (!value->given) {
        snprintf(out, size, "%s", "none");
        return out;
    }
    if (value->may != 0 && field->kind != DEW_KIND_ANSWER &&
        value->origin.by != DEW_BY_DEFAULT)
        return show_either(field, value, out, size);
    switch (field->kind) {
    case DEW_KIND_WORD:
        return scenario__word_at(field->words, value->choice, out, size);
    case DEW_KIND_FLAG:
        snprintf(out, size, "%s", answers[value->choice == 1]);
        break;
    case DEW_KIND_ANSWER:
        snprintf(out, size, "%s",
                 dew_answer_text((enum dew_answer)value->choice));
        break;
    case DEW_KIND_TEXT:
        snprintf(out, size, "%s", value->text);
        break;
    case DEW_KIND_ROWS:
        show_rows(field, value, system, out, size);
        break;
    case DEW_KIND_NUMBER:
    case DEW_KIND_COUNT:
        show_amount(field, value, system, out, size);
        break;
    default:
        show_list(field, value, system, out, size);
    }
    return out;
}

/* A difference of temperatures is told in its own unit. */
static char *show_step(const struct dew_field *f, double by, int system,
                       char *out, size_t size)
{
    const struct dew_unit *u = dew_unit_shown(
        f->quantity == DEW_TEMPERATURE ? DEW_TEMPERATURE_STEP : f->quantity,
        system ? system : 1);
    char x[32];

    snprintf(out, size, "%s %s",
             dew_number_print(by / u->factor, DIGITS, x, sizeof x), u->name);
    return out;
}

/* As the row types it where no value is told, else in the system's units. */
static void show_span(const struct dew_field *f, const struct dew_value *v,
                      int system, char *out, size_t size)
{
    const struct dew_unit *u;
    char low[32], high[32];

    if (f->span[0] == '\0' || v == NULL || v->unit == NULL) {
        snprintf(out, size, "%s", f->span);
        return;
    }
    u = unit_for(f, v->unit, system);
    snprintf(out, size, "%s to %s%s%s", in_unit(u, v->least, low, sizeof low),
             in_unit(u, v->most, high, sizeof high), u->name[0] ? " " : "",
             u->name);
}

char *dew_scenario_show_doubt(const struct dew_field *field,
                              const struct dew_value *value, int system,
                              char *out, size_t size)
{
    char low[60], high[60];

    out[0] = '\0';
    switch (field->doubt) {
    case DEW_DOUBT_RANGE:
        show_span(field, value, system, out, size);
        break;
    case DEW_DOUBT_TIMES:
        snprintf(out, size, "%s to %s times that",
                 dew_number_print(field->least_by, DIGITS, low, sizeof low),
                 dew_number_print(field->most_by, DIGITS, high, sizeof high));
        break;
    case DEW_DOUBT_STEP:
        snprintf(out, size, "less %s to %s more",
                 show_step(field, -field->least_by, system, low, sizeof low),
                 show_step(field, field->most_by, system, high, sizeof high));
        break;
    case DEW_DOUBT_WITHIN:
        snprintf(out, size, "low to high of its table");
        break;
    case DEW_DOUBT_WORDS:
        snprintf(out, size, "%s", field->span);
        break;
    case DEW_DOUBT_NONE:
        break;
    }
    return out;
}
