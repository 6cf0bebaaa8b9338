/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A spread in words and tables of 80 columns. */
#include <math.h>
#include <string.h>

#include "cli/spread_worth.h"
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

/* ---- the answer -------------------------------------------------------------- */

/* "NAME" is the best of the 5 options in 85 of 100 houses (78 to 91). */
static void say_option(const struct cli__spread *s, size_t best, char *text,
                       size_t size)
{
    size_t count = dew_draws_shares(s->told, best).best;
    char name[160],
        does[60] = "brings the fresh air asked for and keeps the limits";

    if (s->options > 1)
        snprintf(does, sizeof does, "is the best of the %zu options",
                 s->options);
    snprintf(text, size, "\"%s\" %s in %s%s.",
             core__clean(cli__spread_name(s, best), name, sizeof name), does,
             report__houses(count, s->draws).text,
             report__interval(count, s->draws).text);
}

/* What `run` answers: of the house with every figure as told. */
static void say_as_told(const struct cli__spread *s, char *text, size_t size)
{
    char name[160];

    snprintf(text, size, "As told, none does.");
    for (size_t i = 0; i < s->options; i++)
        if (s->told->told[i].best)
            snprintf(text, size, "As told, it is \"%s\".",
                     core__clean(cli__spread_name(s, i), name, sizeof name));
}

/* The likelier first: that one option is best, or that none will do. */
static void say_best(const struct cli__spread *s)
{
    size_t best = dew_draws_best(s->told), none = dew_draws_none(s->told);
    size_t count = dew_draws_shares(s->told, best).best;
    char option[500] = "", nothing[300] = "", told[200], text[1300];
    const char *first = none > count ? nothing : option;

    if (count > 0)
        say_option(s, best, option, sizeof option);
    if (none > 0)
        snprintf(nothing, sizeof nothing, "No option will do in %s%s.",
                 report__houses(none, s->draws).text,
                 report__interval(none, s->draws).text);
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
    char text[1100], drawn[400], clean[300];

    if (s->from != NULL)
        snprintf(drawn, sizeof drawn, "draws of %s",
                 core__clean(s->from, clean, sizeof clean));
    else
        snprintf(drawn, sizeof drawn, "seed %lu", s->seed);
    snprintf(
        text, sizeof text,
        "%zu houses like yours: each figure that you gave as a range%s was "
        "drawn from it, the rest is as you told it%s (%s). The best "
        "is what %s, of those that bring the air and keep the limits.%s",
        s->draws, s->told_only ? "" : ", or did not tell,",
        s->told_only ? " or as usual" : "", drawn, by[dew_spread_by(s->spread)],
        s->told->years > 1 ? "" : " In one year of weather.");
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
        struct dew_draws_shares n = dew_draws_shares(s->told, i);

        numbered(s, i, NAME);
        report__right(stdout, report__of_100(n.keeps, s->draws).text, SHARE);
        report__right(stdout, report__of_100(n.ventilates, s->draws).text,
                      SHARE);
        report__right(stdout, report__of_100(n.best, s->draws).text, SHARE);
        putchar('\n');
    }
}

static void print_range(const struct cli__spread *s, size_t option,
                        enum dew_drawn_what what)
{
    struct dew_draws_range r = dew_draws_range(s->told, option, what);

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
        struct dew_draws_range r =
            dew_draws_range(s->told, i, DEW_DRAWN_glass_wet);
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
    static const enum dew_drawn_what told[] = {
        DEW_DRAWN_too_humid, DEW_DRAWN_too_dry, DEW_DRAWN_short_of_air};

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

/* What is doubted beside the figures. */
static void say_besides(const struct cli__spread *s)
{
    char text[300], years[80] = "";

    if (s->told->years > 1)
        snprintf(years, sizeof years,
                 " the weather, one of %d made years of the place;",
                 s->told->years);
    snprintf(text, sizeof text,
             "Drawn besides:%s the model's own error, up to %.0f points of "
             "humidity, mostly under 4.",
             years, 100 * s->told->model);
    if (s->told->model > 0)
        cli__wrap(stdout, 0, text);
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

int cli__anew_words(const struct dew_spread *s, size_t draws, size_t i,
                    char *out, size_t size)
{
    size_t count;
    const struct dew_spread_anew *a = dew_spread_anew(s, &count);

    if (i < count)
        snprintf(out, size,
                 "%zu of the %zu houses drawn could not be, and others were "
                 "drawn in their place: %.60s %.200s.",
                 a[i].count, draws, a[i].rule.path, a[i].rule.text);
    return i < count;
}

void cli__anew_print(FILE *out, const struct dew_spread *s, size_t draws)
{
    char text[500];

    for (size_t i = 0; cli__anew_words(s, draws, i, text, sizeof text); i++)
        cli__wrap(out, 0, text);
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
    if (s->worth != NULL) {
        cli__worth_print(s, s->worth);
        putchar('\n');
    }
    if (s->effects != NULL) {
        cli__effects_print(s, s->effects);
        putchar('\n');
    }
    print_drawn(s);
    say_besides(s);
    print_others(s, DEW_SPREAD_DRAWN, 1,
                 "Not told, so drawn from what is usual (`dewledger check` "
                 "says from where to where):");
    cli__spread_print_still(s);
    print_others(s, DEW_SPREAD_LISTED, 0,
                 "A range within a list, taken at its likely figure:");
    print_others(s, DEW_SPREAD_MONEY, 0, "Of money, in the costs of `run`:");
    print_others(s, DEW_SPREAD_SURE, 0, "Not doubted, for no range was given:");
    cli__anew_print(stdout, s->spread, s->draws);
    cli__wrap(stdout, 0,
              s->told_only
                  ? "What you did not tell stands at its usual value, without "
                    "doubt: `dewledger check` lists it."
                  : "What else you did not tell stands at its usual value: "
                    "`dewledger explain KEY` says why it has no range.");
    putchar('\n');
    say_how(s);
    if (s->worth == NULL && s->options > 1)
        cli__wrap(stdout, 0,
                  "What to measure first takes more houses to tell: `--draws "
                  "1024`.");
}
