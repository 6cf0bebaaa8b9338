/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A spread in words and tables of 80 columns. */
#include <math.h>
#include <string.h>

#include "cli/spread.h"
#include "report/lay.h"
#include "report/words.h"

enum { NAME = 29, SHORT_NAME = 23, SHARE = 17, HOURS = 6, KEY = 30 };

const char *cli__spread_name(const struct cli__spread *s, size_t option)
{
    return dew_scenario_name(dew_run_scenario(s->run),
                             dew_run_option(s->run, option));
}

static const struct dew_field *field(const struct dew_spread_input *x)
{
    size_t keys;

    return &dew_scenario_fields(&keys)[x->key];
}

char *cli__spread_value(const struct cli__spread *s,
                        const struct dew_spread_input *x, char *out,
                        size_t size)
{
    const struct dew_scenario *scenario = dew_run_scenario(s->run);
    const struct dew_value *v =
        dew_scenario_values(scenario, dew_run_option(s->run, x->option));
    int system = s->units != 0 ? s->units : dew_scenario_system(scenario);
    char range[100];
    size_t used;

    dew_scenario_show(field(x), &v[x->key], system, out, size);
    if (!x->usual || !dew_scenario_show_doubt(field(x), &v[x->key], system,
                                              range, sizeof range)[0])
        return out;
    if (!v[x->key].given)
        snprintf(out, size, "worked out");
    used = strlen(out);
    snprintf(out + used, size - used, " (%s)", range);
    return out;
}

/* ---- shares ------------------------------------------------------------------ */

/* So many draws tell a share of houses to that many of 100. */
static int step_of(size_t draws)
{
    return draws >= 1024 ? 1 : draws >= 128 ? 5 : 10;
}

/* "85", "under 5", "over 95"; "none" or "all" of those drawn. */
static struct report__word share(const struct cli__spread *s, size_t count)
{
    struct report__word w = {"none"};
    int step = step_of(s->draws);
    long near = step * lround(100.0 * (double)count / (double)s->draws / step);

    if (count == s->draws)
        snprintf(w.text, sizeof w.text, "all");
    else if (count > 0 && near == 0)
        snprintf(w.text, sizeof w.text, "under %d", step);
    else if (count > 0 && near == 100)
        snprintf(w.text, sizeof w.text, "over %d", 100 - step);
    else if (count > 0)
        snprintf(w.text, sizeof w.text, "%ld", near);
    return w;
}

/* "85 of 100 houses", "all 128 houses drawn", "none of the 128 houses drawn" */
static struct report__word houses(const struct cli__spread *s, size_t count)
{
    struct report__word w, n = report__number((double)s->draws, 0);

    if (count == s->draws)
        snprintf(w.text, sizeof w.text, "all %.20s houses drawn", n.text);
    else if (count == 0)
        snprintf(w.text, sizeof w.text, "none of the %.20s houses drawn",
                 n.text);
    else
        snprintf(w.text, sizeof w.text, "%.20s of 100 houses",
                 share(s, count).text);
    return w;
}

/* " (77 to 90)": whole percent, outward; of all or none nothing. */
static struct report__word interval(const struct cli__spread *s, size_t count)
{
    struct report__word w = {""};
    struct dew_spread_interval in = dew_spread_interval(count, s->draws);

    if (count > 0 && count < s->draws)
        snprintf(w.text, sizeof w.text, " (%.0f to %.0f)", floor(100 * in.low),
                 ceil(100 * in.high));
    return w;
}

/* ---- the answer -------------------------------------------------------------- */

static size_t best_of(const struct cli__spread *s)
{
    size_t best = 0;

    for (size_t i = 1; i < s->options; i++)
        if (dew_spread_shares(s->spread, i).best >
            dew_spread_shares(s->spread, best).best)
            best = i;
    return best;
}

/* "NAME" is the best of the 5 options in 85 of 100 houses (78 to 91). */
static void say_option(const struct cli__spread *s, size_t best, char *text,
                       size_t size)
{
    size_t count = dew_spread_shares(s->spread, best).best;
    char name[160],
        does[60] = "brings the fresh air asked for and keeps the limits";

    if (s->options > 1)
        snprintf(does, sizeof does, "is the best of the %zu options",
                 s->options);
    snprintf(text, size, "\"%s\" %s in %s%s.",
             core__clean(cli__spread_name(s, best), name, sizeof name), does,
             houses(s, count).text, interval(s, count).text);
}

/* What `run` answers: of the house with every figure as told. */
static void say_as_told(const struct cli__spread *s, char *text, size_t size)
{
    char name[160];

    snprintf(text, size, "As told, none does.");
    for (size_t i = 0; i < s->options; i++)
        if (dew_spread_house(s->spread, s->draws, i)->best)
            snprintf(text, size, "As told, it is \"%s\".",
                     core__clean(cli__spread_name(s, i), name, sizeof name));
}

/* The likelier first: that one option is best, or that none will do. */
static void say_best(const struct cli__spread *s)
{
    size_t best = best_of(s), none = dew_spread_none(s->spread);
    size_t count = dew_spread_shares(s->spread, best).best;
    char option[500] = "", nothing[300] = "", told[200], text[1100];
    const char *first = none > count ? nothing : option;

    if (count > 0)
        say_option(s, best, option, sizeof option);
    if (none > 0)
        snprintf(nothing, sizeof nothing, "No option will do in %s%s.",
                 houses(s, none).text, interval(s, none).text);
    say_as_told(s, told, sizeof told);
    snprintf(text, sizeof text, "%s%s%s %s", first,
             count > 0 && none > 0 ? " " : "",
             first == option ? nothing : option, told);
    cli__wrap(stdout, 0, text);
}

static void say_how(const struct cli__spread *s)
{
    static const char *const by[] = {
        "costs least over the years",
        "costs least to run (not every price to install is told)"};
    char text[700];

    snprintf(
        text, sizeof text,
        "%zu houses like yours: each figure that you gave as a range%s was "
        "drawn from it, the rest is as you told it%s (seed %lu). The best "
        "is what %s, of those that bring the air and keep the limits. In "
        "one year of weather; the model's own error is not in it.",
        s->draws, s->told_only ? "" : ", or did not tell,",
        s->told_only ? " or as usual" : "", s->seed,
        by[dew_spread_by(s->spread)]);
    cli__wrap(stdout, 0, text);
}

/* ---- tables ------------------------------------------------------------------ */

static void numbered(const struct cli__spread *s, size_t i, int width)
{
    char text[200], name[160];

    snprintf(text, sizeof text, "%zu %s", i + 1,
             core__clean(cli__spread_name(s, i), name, sizeof name));
    report__left(stdout, text, width);
}

static void print_shares(const struct cli__spread *s)
{
    printf("%-*s%*s%*s%*s\n", NAME, "Of 100 houses, in how many", SHARE,
           "it keeps the", SHARE, "it brings", SHARE, "it is the");
    printf("%-*s%*s%*s%*s\n", NAME, "option", SHARE, "limits", SHARE,
           "the fresh air", SHARE, "best");
    for (size_t i = 0; i < s->options; i++) {
        struct dew_spread_shares n = dew_spread_shares(s->spread, i);

        numbered(s, i, NAME);
        report__right(stdout, share(s, n.keeps).text, SHARE);
        report__right(stdout, share(s, n.ventilates).text, SHARE);
        report__right(stdout, share(s, n.best).text, SHARE);
        putchar('\n');
    }
}

static void print_range(const struct cli__spread *s, size_t option,
                        enum dew_spread_count what)
{
    struct dew_spread_range r = dew_spread_hours(s->spread, option, what);

    putchar(' ');
    report__right(stdout, report__number(r.p10, 0).text, HOURS);
    report__right(stdout, report__number(r.p50, 0).text, HOURS);
    report__right(stdout, report__number(r.p90, 0).text, HOURS);
}

static void say_limit(const struct cli__spread *s)
{
    size_t hours;
    double share = dew_verdict_judging().kept_share;
    char text[300];

    (void)dew_year_hours(dew_run_year(s->run), &hours);
    snprintf(text, sizeof text,
             "low: 1 house in 10 has fewer hours; mid: half have fewer; high: "
             "1 in 10 has more. A limit is kept in %.0f hours (%.0f %% of "
             "them) or fewer.",
             floor(share * (double)hours), 100 * share);
    cli__wrap(stdout, 0, text);
}

/* The third limit, of the options whose houses come near it. */
static void say_glass(const struct cli__spread *s)
{
    char text[6000] = "Wet glass, hours (low to high):", name[160];
    int any = 0;

    for (size_t i = 0; i < s->options; i++) {
        struct dew_spread_range r =
            dew_spread_hours(s->spread, i, DEW_SPREAD_glass_wet);
        size_t used = strlen(text);

        if (r.p90 < 1)
            continue;
        snprintf(text + used, sizeof text - used, "%s \"%s\" %s (%s to %s)",
                 any++ ? "," : "",
                 core__clean(cli__spread_name(s, i), name, sizeof name),
                 report__number(r.p50, 0).text, report__number(r.p10, 0).text,
                 report__number(r.p90, 0).text);
    }
    if (any)
        cli__wrap(stdout, 0, text);
}

static void print_hours(const struct cli__spread *s)
{
    static const enum dew_spread_count told[] = {
        DEW_SPREAD_too_humid, DEW_SPREAD_too_dry, DEW_SPREAD_short_of_air};

    printf("%-*s%*s%*s%*s\n%-*s", SHORT_NAME, "Hours of the year",
           1 + 3 * HOURS, "too humid", 1 + 3 * HOURS, "too dry", 1 + 3 * HOURS,
           "short of air", SHORT_NAME, "option");
    for (int k = 0; k < 3; k++)
        printf(" %*s%*s%*s", HOURS, "low", HOURS, "mid", HOURS, "high");
    putchar('\n');
    for (size_t i = 0; i < s->options; i++) {
        numbered(s, i, SHORT_NAME);
        for (int k = 0; k < 3; k++)
            print_range(s, i, told[k]);
        putchar('\n');
    }
    say_limit(s);
    say_glass(s);
}

/* ---- what was doubted ---------------------------------------------------------- */

static size_t told_ranges(const struct cli__spread *s)
{
    size_t count, told = 0;
    const struct dew_spread_input *x = dew_spread_inputs(s->spread, &count);

    for (size_t k = 0; k < count; k++)
        told += x[k].why == DEW_SPREAD_DRAWN && !x[k].usual;
    return told;
}

static void print_drawn(const struct cli__spread *s)
{
    size_t count;
    const struct dew_spread_input *x = dew_spread_inputs(s->spread, &count);
    char value[200], line[400];

    if (told_ranges(s) == 0)
        return;
    puts("Doubted: drawn from likely (low to high)");
    for (size_t k = 0; k < count; k++) {
        if (x[k].why != DEW_SPREAD_DRAWN || x[k].usual)
            continue;
        snprintf(line, sizeof line, "%s: %s%s", field(&x[k])->path,
                 cli__spread_value(s, &x[k], value, sizeof value),
                 x[k].each ? ", by option" : "");
        cli__wrap(stdout, 2, line);
    }
}

/* The keys taken so, as one paragraph. */
static void print_others(const struct cli__spread *s, enum dew_spread_why why,
                         int usual, const char *lead)
{
    size_t count, used;
    const struct dew_spread_input *x = dew_spread_inputs(s->spread, &count);
    char text[6000];
    int any = 0;

    snprintf(text, sizeof text, "%s", lead);
    for (size_t k = 0; k < count; k++) {
        if (x[k].why != why || x[k].usual != usual)
            continue;
        used = strlen(text);
        snprintf(text + used, sizeof text - used, "%s %s", any ? "," : "",
                 field(&x[k])->path);
        any = 1;
    }
    used = strlen(text);
    snprintf(text + used, sizeof text - used, ".");
    if (any)
        cli__wrap(stdout, 0, text);
}

/* Houses that could not be, by the rule that they broke. */
static void print_anew(const struct cli__spread *s)
{
    size_t count;
    const struct dew_spread_anew *a = dew_spread_anew(s->spread, &count);
    char text[500];

    for (size_t k = 0; k < count; k++) {
        snprintf(text, sizeof text,
                 "%zu of the %zu houses drawn could not be, and others were "
                 "drawn in their place: %.60s %.200s.",
                 a[k].count, s->draws, a[k].rule.path, a[k].rule.text);
        cli__wrap(stdout, 0, text);
    }
}

void cli__spread_print(const struct cli__spread *s)
{
    cli__wrap(stdout, 0,
              report__title(dew_scenario_title(dew_run_scenario(s->run))));
    putchar('\n');
    say_best(s);
    putchar('\n');
    print_shares(s);
    putchar('\n');
    print_hours(s);
    putchar('\n');
    print_drawn(s);
    print_others(s, DEW_SPREAD_DRAWN, 1,
                 "Not told, so drawn from what is usual (`dewledger check` "
                 "says from where to where):");
    print_others(s, DEW_SPREAD_STILL, 0,
                 "A range that changes nothing here, so not drawn:");
    print_others(s, DEW_SPREAD_LISTED, 0,
                 "A range within a list, taken at its likely figure:");
    print_others(s, DEW_SPREAD_MONEY, 0, "Of money, in the costs of `run`:");
    print_others(s, DEW_SPREAD_SURE, 0, "Not doubted, for no range was given:");
    print_anew(s);
    cli__wrap(stdout, 0,
              s->told_only
                  ? "What you did not tell stands at its usual value, without "
                    "doubt: `dewledger check` lists it."
                  : "What else you did not tell stands at its usual value: "
                    "`dewledger explain KEY` says why it has no range.");
    putchar('\n');
    say_how(s);
}
