/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to measure first, in words and as JSON. */
#include <math.h>
#include <string.h>

#include "cli/spread_worth.h"
#include "report/words.h"

enum { TEXT = 1000, LONG = 5000 };

static struct dew_prices prices_of(const struct cli__spread *s)
{
    return dew_scenario_prices(dew_run_scenario(s->run));
}

/* "$420", "$0.50": with its sign apart. */
static struct report__word money(const struct cli__spread *s, double x,
                                 int decimals)
{
    struct report__word w;

    snprintf(w.text, sizeof w.text, "%s%.100s", prices_of(s).currency,
             report__number(fabs(x), decimals).text);
    return w;
}

/* What does not fit is left out. */
static void append(char *text, size_t size, const char *more)
{
    size_t used = strlen(text);

    snprintf(text + used, size - used, "%s", more);
}

/* "house.airtightness, house.leakage_exponent" */
static void keys_of(const struct cli__spread *s, const struct cli__known *k,
                    char text[TEXT])
{
    text[0] = '\0';
    for (size_t i = 0; i < k->count; i++) {
        append(text, TEXT, i > 0 ? ", " : "");
        append(text, TEXT, cli__spread_column(s, k->column[i]));
    }
}

static size_t turned(const struct cli__spread *s, const struct cli__known *k)
{
    return (size_t)lround(k->gain.turned * (double)s->draws);
}

/* ---- sentences ------------------------------------------------------------------- */

/* What is lost, and by which option least. */
static void say_best(const struct cli__spread *s, const struct cli__worth *w)
{
    struct dew_prices p = prices_of(s);
    char text[TEXT], name[160], costs[160] = "";

    if (w->of == DEW_WORTH_MONEY)
        snprintf(costs, sizeof costs, "what it costs over %.0f years and, ",
                 p.years);
    snprintf(
        text, sizeof text,
        "As things stand, \"%s\" is the choice that loses least over all these "
        "houses: %s%sfor each hour of a year, %s too humid, %s too dry, %s "
        "short of fresh air (prices.hour_too_humid, .hour_too_dry and "
        ".hour_short_of_air: our guess where you told none).%s",
        core__clean(cli__spread_name(s, w->best), name, sizeof name), costs,
        costs[0] != '\0' ? "" : "counted are ",
        money(s, 3600 * p.too_humid, 2).text,
        money(s, 3600 * p.too_dry, 2).text,
        money(s, 3600 * p.short_of_air, 2).text,
        costs[0] != '\0' ? ""
                         : " Not every price is told, so costs are not in it.");
    cli__wrap(stdout, 0, text);
}

/* "1,200 fewer too humid", or nothing where it is less than half an hour. */
static void say_hours(double saved, const char *what, char text[TEXT])
{
    char one[200];

    if (fabs(saved) < 0.5)
        return;
    snprintf(one, sizeof one, "%s%s %s %s", text[0] != '\0' ? ", " : "",
             report__number(fabs(saved), 0).text, saved < 0 ? "more" : "fewer",
             what);
    append(text, TEXT, one);
}

/* "$310 less to pay over the years; hours a year: 120 fewer too humid" */
static void say_saved(const struct cli__spread *s, const struct cli__worth *w,
                      const struct cli__known *k, char text[TEXT])
{
    char hours[TEXT] = "";

    text[0] = '\0';
    say_hours(k->saved.too_humid, "too humid", hours);
    say_hours(k->saved.too_dry, "too dry", hours);
    say_hours(k->saved.short_of_air, "short of air", hours);
    if (w->of == DEW_WORTH_MONEY)
        snprintf(text, TEXT, "%s %s to pay over the years%s",
                 money(s, k->saved.money, 0).text,
                 k->saved.money < 0 ? "more" : "less",
                 hours[0] != '\0' ? "; " : "");
    append(text, TEXT, hours[0] != '\0' ? "hours a year: " : "");
    append(text, TEXT, hours);
}

/* A blower-door test (KEYS) would turn this choice in 30 of 100 houses. */
static void say_measure(const struct cli__spread *s, const struct cli__worth *w,
                        const struct cli__known *k)
{
    char text[3 * TEXT], keys[TEXT], saved[TEXT], name[160];

    keys_of(s, k, keys);
    say_saved(s, w, k, saved);
    snprintf(text, sizeof text,
             "%s (%s) would turn this choice in %s%s, mostly to \"%s\". Mean "
             "of all houses: %s; together worth %s%s.",
             k->measure, keys, report__houses(turned(s, k), s->draws).text,
             report__interval(turned(s, k), s->draws).text,
             core__clean(cli__spread_name(s, k->to), name, sizeof name), saved,
             money(s, k->gain.value - k->gain.chance, 0).text,
             w->of == DEW_WORTH_MONEY ? "" : " a year");
    cli__wrap(stdout, 2, text);
}

/* 1 where a column is told of by a measurement that is worth something. */
static int is_told(const struct cli__worth *w, size_t column)
{
    for (size_t i = 0; i < w->measure_count; i++)
        for (size_t k = 0; k < w->measure[i].count; k++)
            if (w->measure[i].gain.told && w->measure[i].column[k] == column)
                return 1;
    return 0;
}

/* Columns that matter and that no row of the table measures. */
static void say_unmeasured(const struct cli__spread *s,
                           const struct cli__worth *w)
{
    char text[TEXT];

    for (size_t i = 0; i < w->each_count; i++) {
        const struct cli__known *k = &w->each[i];
        int year =
            dew_spread_column(s->spread, k->column[0]).of == DEW_SPREAD_OF_YEAR;

        if (!k->gain.told || is_told(w, k->column[0]))
            continue;
        snprintf(text, sizeof text, "%s%s would turn it in %s%s%s.",
                 year ? "To know the weather of a year beforehand" : "Knowing ",
                 year ? "" : cli__spread_column(s, k->column[0]),
                 report__houses(turned(s, k), s->draws).text,
                 report__interval(turned(s, k), s->draws).text,
                 year ? ", but nobody does" : "");
        cli__wrap(stdout, 2, text);
    }
}

static void say_rest(const struct cli__spread *s, const struct cli__worth *w)
{
    char text[LONG];
    size_t rest = 0;

    snprintf(text, sizeof text,
             "As far as %s houses tell, no one of these would turn it by "
             "itself:",
             report__number((double)s->draws, 0).text);
    for (size_t i = 0; i < w->each_count; i++) {
        const struct cli__known *k = &w->each[i];

        if (k->gain.told || is_told(w, k->column[0]))
            continue;
        append(text, sizeof text, rest++ > 0 ? ", " : " ");
        append(text, sizeof text, cli__spread_column(s, k->column[0]));
    }
    append(text, sizeof text, ".");
    if (rest > 0)
        cli__wrap(stdout, 0, text);
}

static void say_all(const struct cli__spread *s, const struct cli__worth *w)
{
    char text[TEXT];

    snprintf(text, sizeof text,
             "To know everything, the weather too, would be worth %s%s.",
             money(s, w->perfect, 0).text,
             w->of == DEW_WORTH_MONEY ? "" : " a year");
    cli__wrap(stdout, 0, text);
}

void cli__worth_print(const struct cli__spread *s, const struct cli__worth *w)
{
    puts("What to measure first");
    say_best(s, w);
    for (size_t i = 0; i < w->measure_count; i++)
        if (w->measure[i].gain.told)
            say_measure(s, w, &w->measure[i]);
    say_unmeasured(s, w);
    say_rest(s, w);
    say_all(s, w);
}

/* ---- JSON ------------------------------------------------------------------------ */

static json_t *known(const struct cli__spread *s, const struct cli__worth *w,
                     const struct cli__known *k)
{
    int money = w->of == DEW_WORTH_MONEY;
    json_t *keys = json_array();

    for (size_t i = 0; i < k->count; i++)
        keys = cli__add(keys, json_string(cli__spread_column(s, k->column[i])));
    return json_pack(
        "{s:s*, s:o, s:b, s:I, s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o}",
        "measure", k->measure, "known", keys, "told", k->gain.told,
        "turns_houses", (json_int_t)turned(s, k), "mostly_to",
        cli__spread_name(s, k->to), "worth", cli__real(k->gain.value),
        "worth_error", cli__real(k->gain.error), "worth_by_chance",
        cli__real(k->gain.chance), "saves_cost",
        cli__real(money ? k->saved.money : NAN), "saves_too_humid_h",
        cli__real(k->saved.too_humid), "saves_too_dry_h",
        cli__real(k->saved.too_dry), "saves_short_of_air_h",
        cli__real(k->saved.short_of_air));
}

static json_t *list(const struct cli__spread *s, const struct cli__worth *w,
                    const struct cli__known *k, size_t count)
{
    json_t *all = json_array();

    for (size_t i = 0; i < count; i++)
        all = cli__add(all, known(s, w, &k[i]));
    return all;
}

json_t *cli__worth_json(const struct cli__spread *s, const struct cli__worth *w)
{
    struct dew_prices p = prices_of(s);

    return json_pack("{s:s, s:s, s:o, s:o, s:o, s:o, s:o, s:o}", "loss_of",
                     w->of == DEW_WORTH_MONEY ? "cost_over_the_years_and_hours"
                                              : "hours_of_a_year",
                     "loses_least", cli__spread_name(s, w->best),
                     "per_hour_too_humid", cli__real(3600 * p.too_humid),
                     "per_hour_too_dry", cli__real(3600 * p.too_dry),
                     "per_hour_short_of_air", cli__real(3600 * p.short_of_air),
                     "worth_of_all", cli__real(w->perfect), "measurements",
                     list(s, w, w->measure, w->measure_count), "by_key",
                     list(s, w, w->each, w->each_count));
}
