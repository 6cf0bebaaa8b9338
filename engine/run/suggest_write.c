/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Options made for a house, as text of our own form. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "run/size.h"
#include "run/suggest.h"

/* ---- the parts --------------------------------------------------------------------- */

enum { ROWS = 8 };

/* Keys and values; money once: low, likely, high; and each year. */
static const struct part {
    const char *name;
    struct row {
        const char *key, *value;
    } rows[ROWS];
    double install[3], upkeep;
} parts_of[RUN__PARTS] = {
    /* Two hundred cfm through open windows: our guess.  Prices are our guess
       throughout: parts and labour in a house that stands. */
    [RUN__PART_windows] = {"windows opened when drier outdoors",
                           {{"airing.flow", "200 cfm"},
                            {"airing.habit", "dew_point"}},
                           {0, 0, 0},
                           0},
    [RUN__PART_exhaust] = {"exhaust fan",
                           {{"ventilator.core", "exhaust_only"}},
                           {400, 700, 1200},
                           10},
    [RUN__PART_heat] = {"heat core",
                        {{"ventilator.core", "heat_plate"},
                         {"ventilator.typical", "yes"}},
                        {3500, 5500, 8500},
                        60},
    [RUN__PART_enthalpy] = {"enthalpy core",
                            {{"ventilator.core", "enthalpy_plate"},
                             {"ventilator.typical", "yes"}},
                            {4000, 6000, 9000},
                            75},
    [RUN__PART_dehumidifier] = {"dehumidifier",
                                {{"dehumidifier.rate", "50 pint/day"},
                                 {"dehumidifier.typical", "portable"}},
                                {250, 400, 700},
                                10},
    /* From 60 degF on, while it is wetter outdoors, a third of the time. */
    [RUN__PART_control] = {"held back when wet outdoors",
                           {{"control.lockout_dew_point", "60 degF"},
                            {"control.lockout_unless_drier", "0 g/kg"},
                            {"control.lockout_least", "20 min/h"}},
                           {100, 250, 500},
                           0},
    [RUN__PART_humidifier] = {"humidifier",
                              {{"humidifier.rate", "10 gal/day"}},
                              {400, 900, 1800},
                              40},
    /* Less duct than of its own. */
    [RUN__PART_return_tie] = {"tied to the return",
                              {{"layout", "return_tie"},
                               {"cooling.blower", "interlock"}},
                              {-2000, -1500, -1000},
                              0},
    [RUN__PART_supply_tie] = {"tied to the supply",
                              {{"layout", "supply_tie"}},
                              {-1500, -1000, -500},
                              0},
    [RUN__PART_mix] = {"fresh air into the return",
                       {{"layout", "mix"}, {"cooling.blower", "interlock"}},
                       {-1500, -1000, -500},
                       0},
};

static const unsigned list[] = {
    RUN__BIT(windows),
    RUN__BIT(dehumidifier),
    RUN__BIT(exhaust),
    RUN__BIT(exhaust) | RUN__BIT(dehumidifier),
    RUN__BIT(heat),
    RUN__BIT(enthalpy),
    RUN__BIT(heat) | RUN__BIT(dehumidifier),
    RUN__BIT(enthalpy) | RUN__BIT(dehumidifier),
    RUN__BIT(heat) | RUN__BIT(control),
    RUN__BIT(enthalpy) | RUN__BIT(control),
    RUN__BIT(heat) | RUN__BIT(dehumidifier) | RUN__BIT(control),
    RUN__BIT(enthalpy) | RUN__BIT(dehumidifier) | RUN__BIT(control),
    RUN__BIT(heat) | RUN__BIT(humidifier),
    RUN__BIT(enthalpy) | RUN__BIT(humidifier),
    RUN__BIT(heat) | RUN__BIT(dehumidifier) | RUN__BIT(humidifier),
    RUN__BIT(enthalpy) | RUN__BIT(dehumidifier) | RUN__BIT(humidifier),
    RUN__BIT(heat) | RUN__BIT(return_tie),
    RUN__BIT(enthalpy) | RUN__BIT(return_tie),
    RUN__BIT(heat) | RUN__BIT(supply_tie),
    RUN__BIT(enthalpy) | RUN__BIT(supply_tie),
    RUN__BIT(heat) | RUN__BIT(mix),
    RUN__BIT(enthalpy) | RUN__BIT(mix),
    RUN__BIT(heat) | RUN__BIT(dehumidifier) | RUN__BIT(return_tie),
    RUN__BIT(enthalpy) | RUN__BIT(dehumidifier) | RUN__BIT(return_tie),
    RUN__BIT(heat) | RUN__BIT(dehumidifier) | RUN__BIT(supply_tie),
    RUN__BIT(enthalpy) | RUN__BIT(dehumidifier) | RUN__BIT(supply_tie),
    RUN__BIT(heat) | RUN__BIT(dehumidifier) | RUN__BIT(mix),
    RUN__BIT(enthalpy) | RUN__BIT(dehumidifier) | RUN__BIT(mix),
};

/* Ties where there is something to tie to, a humidifier where outdoor air
   itself is too dry for longer than keeps the limit. */
static int suits(const struct dew_run *house, unsigned parts)
{
    const unsigned ties =
        RUN__BIT(return_tie) | RUN__BIT(supply_tie) | RUN__BIT(mix);
    const struct dew_size_outdoors out = run__outdoors(house);

    if (parts & RUN__BIT(humidifier) &&
        out.too_dry <= dew_verdict_judging().kept_share * out.hours)
        return 0;
    return (parts & ties) == 0 || house->cases[0].plant.handler_count > 0;
}

unsigned run__suggest_parts(const struct dew_run *house, size_t i)
{
    for (size_t k = 0; k < sizeof list / sizeof list[0]; k++)
        if (suits(house, list[k]) && i-- == 0)
            return list[k];
    return 0;
}

/* ---- airflows ------------------------------------------------------------------------ */

/* Of the scenario; and so many of it are a step at the fan. */
static const struct dew_unit *unit_of(const struct dew_run *house, double *step)
{
    int system = dew_scenario_system(house->scenario);

    *step = system == DEW_SYSTEM_SI ? 2 : 5;
    return dew_unit_shown(DEW_FLOW, system);
}

double run__suggest_flow(const struct dew_run *house, double flow)
{
    double step, unit = unit_of(house, &step)->factor;

    return unit * step * ceil(flow / (unit * step) - 1e-9);
}

static void write_flow(const struct dew_run *house, double flow, char *out,
                       size_t size)
{
    double step;
    const struct dew_unit *unit = unit_of(house, &step);

    snprintf(out, size, "%.0f %s", flow / unit->factor, unit->name);
}

void run__suggest_name(const struct dew_run *house,
                       const struct run__made *made,
                       char name[RUN__SUGGEST_NAME + 1])
{
    size_t used = 0;
    char flow[24];

    name[0] = '\0';
    for (int p = 0; p < RUN__PARTS; p++)
        if (made->parts >> p & 1)
            used += (size_t)snprintf(name + used, RUN__SUGGEST_NAME + 1 - used,
                                     "%s%s", used > 0 ? ", " : "",
                                     parts_of[p].name);
    if (!(made->flow > 0))
        return;
    write_flow(house, made->flow, flow, sizeof flow);
    snprintf(name + used, RUN__SUGGEST_NAME + 1 - used, " at %s", flow);
}

/* ---- one option --------------------------------------------------------------------- */

static const char *part_value(unsigned parts, const char *key)
{
    for (int p = 0; p < RUN__PARTS; p++)
        for (int r = 0; parts >> p & 1 && r < ROWS; r++)
            if (parts_of[p].rows[r].key != NULL &&
                strcmp(parts_of[p].rows[r].key, key) == 0)
                return parts_of[p].rows[r].value;
    return NULL;
}

static size_t group_length(const char *key)
{
    return strchr(key, '.') != NULL ? strcspn(key, ".") : 0;
}

/* 1 where the parts have keys of that key's group, which is then theirs. */
static int owned(unsigned parts, const char *key)
{
    size_t n = group_length(key);

    if (strncmp(key, "costs.", 6) == 0)
        return parts != 0;
    for (int p = 0; p < RUN__PARTS && n > 0; p++)
        for (int r = 0; parts >> p & 1 && r < ROWS; r++) {
            const char *row = parts_of[p].rows[r].key;

            if (row != NULL && strncmp(row, "cooling.", 8) != 0 &&
                strncmp(row, key, n + 1) == 0)
                return 1;
        }
    return 0;
}

static void money(unsigned parts, double sum[3], double *upkeep)
{
    for (int k = 0; k < 3; k++)
        sum[k] = 0;
    *upkeep = 0;
    for (int p = 0; p < RUN__PARTS; p++) {
        if (!(parts >> p & 1))
            continue;
        for (int k = 0; k < 3; k++)
            sum[k] += parts_of[p].install[k];
        *upkeep += parts_of[p].upkeep;
    }
}

/* A price in place of what the scenario says; 0 where the key has none. */
static int price(unsigned parts, const char *key, char *out, size_t size)
{
    double install[3], upkeep;

    money(parts, install, &upkeep);
    if (parts == 0)
        return 0;
    if (strcmp(key, "costs.install") == 0)
        snprintf(out, size, "%.0f $ (%.0f to %.0f)", install[1], install[0],
                 install[2]);
    else if (strcmp(key, "costs.upkeep") == 0)
        snprintf(out, size, "%.0f $", upkeep);
    else if (strcmp(key, "costs.date") == 0)
        snprintf(out, size, "our guess 2025");
    else
        return 0;
    return 1;
}

static int by_file(const struct dew_value *v)
{
    return v->given && v->origin.by == DEW_BY_FILE;
}

/* Bytes of a list from its bracket to the one that closes it; 0 where that is
   on another line, or the list is one of dashes. */
static size_t list_length(const char *text, size_t most)
{
    size_t n = 0, depth = 0;
    char quote = '\0';

    do {
        char c = text[n++];

        if (c == '\n')
            return 0;
        if (quote != '\0' && c == quote)
            quote = '\0';
        else if (quote != '\0')
            continue;
        else if (c == '"' || c == '\'')
            quote = c;
        else if (c == '[' || c == '{')
            depth++;
        else if (c == ']' || c == '}')
            depth--;
    } while (depth > 0 && n < most);
    return depth == 0 && n > 1 ? n : 0;
}

/* The value as typed, fit for { }: quoted where a comma or bracket would end
   it.  Returns 0 where it is not in one line. */
static int as_typed(const struct dew_run *house, const struct dew_value *v,
                    char *out, size_t size)
{
    size_t length, n = v->origin.length;
    const char *text =
        dew_scenario_text(house->scenario, &length) + v->origin.offset;
    int bare = n > 0 && strchr("\"'", text[0]) == NULL, odd;

    if (text[0] == '[' || text[0] == '{' || n < 1 ||
        (text[0] == '-' && text[1] == ' ')) {
        n = list_length(text, length - v->origin.offset);
        bare = 0;
    }
    odd = bare && strcspn(text, ",[]{}#:") < n;
    if (n == 0 || memchr(text, '\n', n) != NULL)
        return 0;
    return snprintf(out, size, odd ? "\"%.*s\"" : "%.*s", (int)n, text) <
           (int)size;
}

enum { VALUE = 1000 };

/* What an option of those parts says of a key: 1 and out, 0 nothing, -1 it
   cannot be said in a line. */
static int say(const struct dew_run *house, const struct run__made *made,
               size_t key, char out[VALUE])
{
    size_t keys;
    unsigned parts = made->parts;
    const struct dew_field *f = &dew_scenario_fields(&keys)[key];
    const struct dew_value *was = &dew_scenario_base(house->scenario)[key];
    const struct dew_value *v =
        &dew_scenario_values(house->scenario, house->options[0].at)[key];
    const char *part = part_value(parts, f->path);

    if (f->base_only)
        return 0;
    if (part != NULL)
        return snprintf(out, VALUE, "%s", part) > 0;
    if (made->flow > 0 && strcmp(f->path, "ventilator.flow") == 0) {
        write_flow(house, made->flow, out, VALUE);
        return 1;
    }
    if (price(parts, f->path, out, VALUE))
        return 1;
    if (v->origin.by == DEW_BY_OPTION && !owned(parts, f->path))
        return as_typed(house, v, out, VALUE) ? 1 : -1;
    if (by_file(was) && (owned(parts, f->path) || !by_file(v)))
        return snprintf(out, VALUE, "none") > 0;
    return 0;
}

/* One more key: in the braces of its group, which end where another begins. */
static void write_key(FILE *to, const char **group, const char *key,
                      const char *value)
{
    size_t n = group_length(key);
    int same = *group != NULL && n > 0 && strncmp(*group, key, n + 1) == 0;

    if (*group != NULL && !same)
        fputs("}\n", to);
    if (n == 0)
        fprintf(to, "    %s: %s\n", key, value);
    else if (same)
        fprintf(to, ", %s: %s", key + n + 1, value);
    else
        fprintf(to, "    %.*s: {%s: %s", (int)n, key, key + n + 1, value);
    *group = n > 0 ? key : NULL;
}

/* "  - name: ..." and a line for each group. */
static enum dew_status write_option(FILE *to, const struct dew_run *house,
                                    const struct run__made *made,
                                    struct dew_error *err)
{
    size_t keys;
    const struct dew_field *f = dew_scenario_fields(&keys);
    const char *group = NULL;
    char name[RUN__SUGGEST_NAME + 1], value[VALUE];

    run__suggest_name(house, made, name);
    fprintf(to, "  - name: %s\n", made->parts != 0 ? name : "as it stands");
    for (size_t k = 0; k < keys; k++) {
        int said = say(house, made, k, value);

        if (said < 0) {
            core__in(err, f[k].path);
            return core__fail(err, DEW_ESYNTAX,
                              "the first option gives it over several lines: "
                              "give it for the house itself to have options "
                              "made");
        }
        if (said > 0)
            write_key(to, &group, f[k].path, value);
    }
    if (group != NULL)
        fputs("}\n", to);
    return DEW_OK;
}

/* ---- the scenario --------------------------------------------------------------------- */

static const char made_line[] =
    "# Made by dewledger: what is usually tried, prices our guess.\n";

static int starts(const char *line, size_t n, const char *with)
{
    return n >= strlen(with) && strncmp(line, with, strlen(with)) == 0;
}

/* The lines of the text without those of its options. */
static enum dew_status write_house(FILE *to, const char *text, size_t length,
                                   struct dew_error *err)
{
    int within = 0;

    for (size_t at = 0; at < length;) {
        const char *line = text + at, *end = memchr(line, '\n', length - at);
        size_t n = end != NULL ? (size_t)(end - line) + 1 : length - at;

        at += n;
        if (line[0] == '{')
            return core__fail(err, DEW_ESYNTAX,
                              "the file is written within { }: write its "
                              "groups line by line to have options made");
        if (starts(line, n, "..."))
            break;
        if (within && strchr(" \t-#\r\n", line[0]) == NULL)
            within = 0;
        within |= starts(line, n, "options:");
        if (!within && !starts(line, n, made_line))
            fprintf(to, "%.*s%s", (int)n, line, end == NULL ? "\n" : "");
    }
    return DEW_OK;
}

char *run__suggest_write(const struct dew_run *house,
                         const struct run__made *made, size_t count,
                         size_t *length, struct dew_error *err)
{
    const struct run__made as_it_stands = {0};
    size_t from;
    const char *text = dew_scenario_text(house->scenario, &from);
    char *out = NULL;
    FILE *to = open_memstream(&out, length);
    enum dew_status status;

    if (to == NULL) {
        core__fail(err, DEW_EMEM, "out of memory");
        return NULL;
    }
    status = write_house(to, text, from, err);
    fprintf(to, "%soptions:\n", made_line);
    if (status == DEW_OK)
        status = write_option(to, house, &as_it_stands, err);
    for (size_t i = 0; i < count && status == DEW_OK; i++)
        status = write_option(to, house, &made[i], err);
    if (fclose(to) != 0 && status == DEW_OK)
        status = core__fail(err, DEW_EMEM, "out of memory");
    if (status == DEW_OK)
        return out;
    free(out);
    return NULL;
}
