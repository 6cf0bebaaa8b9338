/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The options, marched through the year on the houses that the log leaves. */
#include <string.h>

#include "cli/fit.h"
#include "cli/spread.h"
#include "report/lay.h"
#include "report/words.h"

enum { TEXT = 900, NAME = 34, HOURS = 6, BEST = 10, CLEAN = 160 };

/* ---- marching ----------------------------------------------------------------- */

int cli__fit_options(struct cli__fit *f, const struct dew_spread_ask *ask,
                     struct dew_spread **spread)
{
    struct dew_error err = {0};
    double done = 0;

    if (!dew_learn_learned(f->learn)->told)
        return CLI__DONE; /* said by the house's own words */
    if (dew_spread_open(spread, dew_learn_run(f->learn), ask, &err) != DEW_OK ||
        dew_learn_give(f->learn, *spread, NULL, &err) != DEW_OK)
        return cli__error(&err);
    while (done < 1) {
        cli__progress(done, "%zu houses", ask->draws);
        if (dew_spread_step(*spread, &done, &err) != DEW_OK)
            return cli__error(&err);
    }
    cli__progress(1, "%zu houses", ask->draws);
    f->options = dew_spread_draws(*spread);
    f->spread = *spread;
    return CLI__DONE;
}

static const char *name_of(const struct cli__fit *f, size_t option)
{
    const struct dew_run *run = dew_learn_run(f->learn);

    return dew_scenario_name(dew_run_scenario(run),
                             dew_run_option(run, option));
}

/* ---- in words ------------------------------------------------------------------- */

static void say_best(const struct cli__fit *f)
{
    const struct dew_draws *d = f->options;
    size_t best = dew_draws_best(d), none = dew_draws_none(d),
           count = dew_draws_shares(d, best).best;
    char name[CLEAN], text[TEXT];

    if (none > count)
        snprintf(text, sizeof text,
                 "On the houses that are left none of the %zu options will do "
                 "in %s; in %s \"%s\" is the best.",
                 d->options, report__houses(none, d->count).text,
                 report__of_100(count, d->count).text,
                 core__clean(name_of(f, best), name, sizeof name));
    else
        snprintf(text, sizeof text,
                 "On the houses that are left \"%s\" is the best of the %zu "
                 "options in %s.",
                 core__clean(name_of(f, best), name, sizeof name), d->options,
                 report__houses(count, d->count).text);
    cli__wrap(stdout, 0, text);
}

static void row(const struct cli__fit *f, size_t option)
{
    static const enum dew_drawn_what what[] = {DEW_DRAWN_too_humid,
                                               DEW_DRAWN_too_dry};
    const struct dew_draws *d = f->options;
    char text[CLEAN + 8], name[CLEAN];

    snprintf(text, sizeof text, "%zu %s", option + 1,
             core__clean(name_of(f, option), name, sizeof name));
    report__left(stdout, text, NAME);
    for (int k = 0; k < 2; k++) {
        struct dew_draws_range r = dew_draws_range(d, option, what[k]);

        report__right(stdout, report__number(r.p10, 0).text, HOURS);
        report__right(stdout, report__number(r.p50, 0).text, HOURS);
        report__right(stdout, report__number(r.p90, 0).text, HOURS);
    }
    report__right(
        stdout, report__of_100(dew_draws_shares(d, option).best, d->count).text,
        BEST);
    putchar('\n');
}

void cli__fit_print_options(const struct cli__fit *f)
{
    if (f->options == NULL)
        return;
    say_best(f);
    printf("\n%-*s%*s%*s%*s\n%-*s", NAME, "Hours of the year", 3 * HOURS,
           "too humid", 3 * HOURS, "too dry", BEST, "best of", NAME, "option");
    for (int k = 0; k < 2; k++)
        printf("%*s%*s%*s", HOURS, "low", HOURS, "mid", HOURS, "high");
    printf("%*s\n", BEST, "100");
    for (size_t i = 0; i < f->options->options; i++)
        row(f, i);
    cli__wrap(stdout, 0,
              "low: 1 house in 10 has fewer hours; mid: half have fewer; high: "
              "1 in 10 has more. The houses are those below, as often as they "
              "weigh.");
    cli__anew_print(f->spread, f->options->count);
    putchar('\n');
}

/* ---- JSON ------------------------------------------------------------------------ */

static json_t *range_json(const struct cli__fit *f, size_t option,
                          enum dew_drawn_what what)
{
    struct dew_draws_range r = dew_draws_range(f->options, option, what);

    return cli__range(r.p10, r.p50, r.p90);
}

json_t *cli__fit_options_json(const struct cli__fit *f)
{
    json_t *list = json_array();

    if (f->options == NULL) {
        json_decref(list);
        return json_null();
    }
    for (size_t i = 0; i < f->options->options; i++) {
        struct dew_draws_shares n = dew_draws_shares(f->options, i);
        double all = (double)f->options->count;
        json_t *o = json_pack("{s:s, s:o, s:o}", "name", name_of(f, i),
                              "best_share", cli__real((double)n.best / all),
                              "keeps_share", cli__real((double)n.keeps / all));

        o = cli__set(o, "too_humid_h", range_json(f, i, DEW_DRAWN_too_humid));
        o = cli__set(o, "too_dry_h", range_json(f, i, DEW_DRAWN_too_dry));
        list = cli__add(list, o);
    }
    return list;
}

json_t *cli__fit_left_out_json(const struct cli__fit *f)
{
    return f->options != NULL ? cli__anew_json(f->spread) : json_null();
}
