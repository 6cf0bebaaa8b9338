/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules of thumb beside what was computed. */
#include <math.h>
#include <string.h>

#include "dew/thumb.h"
#include "report/sheet.h"

static struct report__word with_unit(double x, int decimals, const char *unit)
{
    struct report__word w, n = report__number(x, decimals);

    snprintf(w.text, sizeof w.text, "%.60s%s%.40s", n.text, unit[0] ? " " : "",
             unit);
    return w;
}

static struct report__word per_fan(const struct dew_report *r, double x)
{
    return r->system == DEW_SYSTEM_US ? with_unit(x / CORE__CFM, 2, "cfm/W")
                                      : with_unit(1e3 * x, 2, "L/s per W");
}

static struct report__word per_ton(const struct dew_report *r, double x)
{
    return r->system == DEW_SYSTEM_US
               ? with_unit(x * 3600 * CORE__TON / CORE__LB, 1, "lb/h per ton")
               : with_unit(x * 3600 * 1000, 2, "kg/h per kW");
}

static struct report__word water_rate(const struct dew_report *r, double x)
{
    return r->system == DEW_SYSTEM_US
               ? with_unit(x * 86400 / CORE__LB, 1, "lb/day")
               : report__amount(x, DEW_WATER_RATE, r->system, 1);
}

/* Whether a decimal tells it all: 3.75 is not quoted as 3.8. */
static int is_tenths(double x)
{
    return fabs(10 * x - round(10 * x)) < 1e-6;
}

static struct report__word figure(const struct dew_report *r,
                                  enum dew_thumb_unit unit, double x)
{
    switch (unit) {
    case DEW_THUMB_SHARE:
        return with_unit(100 * x, 0, "%");
    case DEW_THUMB_PLAIN:
        return with_unit(x, x == floor(x) ? 0 : 1, "");
    case DEW_THUMB_CORE:
        return x == 0.5 ? (struct report__word){"either"}
               : x > 0  ? (struct report__word){"enthalpy"}
                        : (struct report__word){"heat"};
    case DEW_THUMB_HOURS:
        return with_unit(x, 0, "hours");
    case DEW_THUMB_FLOW:
        return report__amount(x, DEW_FLOW, r->system, 0);
    case DEW_THUMB_WATER_RATE:
        return water_rate(r, x);
    case DEW_THUMB_WATER:
        return report__amount(x, DEW_WATER, r->system, 0);
    case DEW_THUMB_ENERGY:
        return with_unit(x / CORE__KWH, 0, "kWh");
    case DEW_THUMB_PER_ENERGY:
        return with_unit(x * CORE__KWH, is_tenths(x * CORE__KWH) ? 1 : 2,
                         "L/kWh");
    case DEW_THUMB_PER_FAN:
        return per_fan(r, x);
    case DEW_THUMB_PER_TON:
        return per_ton(r, x);
    case DEW_THUMB_MONEY:
        return report__money(r, x);
    }
    return with_unit(x, 1, "");
}

/* "102 cfm", "3 to 5 L/kWh", "at least 76 %", "at most 175 h". */
static struct report__word says(const struct dew_report *r,
                                const struct dew_thumb *t)
{
    struct report__word w, low = figure(r, t->unit, t->low);
    struct report__word high = figure(r, t->unit, t->high);

    if (isnan(t->low) || (t->low == 0 && t->high > 0))
        snprintf(w.text, sizeof w.text, "at most %.60s", high.text);
    else if (isnan(t->high))
        snprintf(w.text, sizeof w.text, "at least %.60s", low.text);
    else if (t->low == t->high)
        snprintf(w.text, sizeof w.text, "%.60s", low.text);
    else
        snprintf(w.text, sizeof w.text, "%.50s to %.50s", low.text, high.text);
    return w;
}

/* Labels of references are for the manual: only the words stay. */
static const char *whose(enum dew_thumb_rule rule, char *out, size_t size)
{
    snprintf(out, size, "%s", dew_thumb_source(rule));
    for (char *s = out; *s != '\0'; s++)
        if (*s == '[' || *s == ']')
            memmove(s, s + 1, strlen(s));
    return out;
}

/* Rules whose source has no figure: what they are held to is our own. */
static int has_figure(enum dew_thumb_rule rule)
{
    return rule != DEW_THUMB_not_dryer && rule != DEW_THUMB_fan_auto &&
           rule != DEW_THUMB_own_best && rule != DEW_THUMB_no_damper &&
           rule != DEW_THUMB_first_year && rule != DEW_THUMB_dew_60;
}

/* "rule 87 cfm, " of a rule that has a figure. */
static struct report__word rule_says(const struct dew_report *r,
                                     const struct dew_thumb *t)
{
    struct report__word w = {""};

    if (has_figure(t->rule))
        snprintf(w.text, sizeof w.text, "rule %.100s, ", says(r, t).text);
    return w;
}

/* "Agrees" and, outside what the rule says, by how much it still does. */
static struct report__word agree(const struct dew_thumb *t)
{
    struct report__word w = {"Agrees"};
    double apart = fmax(t->low - t->found, t->found - t->high);

    if (t->why[0] != '\0')
        snprintf(w.text, sizeof w.text, "Agrees: ");
    else if (apart > 0 && t->slack > 0)
        snprintf(w.text, sizeof w.text, "Agrees within %.20s %%",
                 report__number(100 * t->slack, 0).text);
    else if (apart > 0)
        snprintf(w.text, sizeof w.text, "Agrees, %.20s %% apart",
                 report__number(100 * apart, 0).text);
    return w;
}

static void thumb(const struct dew_report *r, const struct dew_thumb *t,
                  struct report__sheet *s)
{
    char option[40] = "", source[120];

    if (t->option != DEW_NO_OPTION)
        snprintf(option, sizeof option, " (option %d)", t->option + 1);
    report__sheet_note(
        s, "%s (%s): %shere %s%s. %s%s.", dew_thumb_words(t->rule),
        whose(t->rule, source, sizeof source), rule_says(r, t).text,
        isinf(t->found) ? "none" : figure(r, t->unit, t->found).text, option,
        t->says == DEW_THUMB_AGREES ? agree(t).text : "Differs: ", t->why);
}

/* Where rule and house part there is something to learn: first. */
int report__sheet_thumbs(const struct dew_report *r, struct report__sheet *s)
{
    struct dew_thumb list[DEW_THUMB_RULES];
    size_t count = dew_thumb_of(r->question, list);

    s->id = "thumbs";
    s->title = "Rules of thumb beside this house";
    for (size_t i = 0; i < count; i++)
        if (list[i].says == DEW_THUMB_DIFFERS)
            thumb(r, &list[i], s);
    for (size_t i = 0; i < count; i++)
        if (list[i].says == DEW_THUMB_AGREES)
            thumb(r, &list[i], s);
    return count > 0;
}
