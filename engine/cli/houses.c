/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The houses that a scenario names in a file, in the place of new ones. */
#include <stdio.h>
#include <string.h>

#include "cli/spread_csv.h"
#include "core/clean.h"
#include "core/fail.h"
#include "run/run.h"

enum { FEW = 4, TEXT = 600 };

int cli__houses_read(struct cli__houses *h, const struct dew_run *run,
                     const char *scenario, struct dew_spread_ask *ask)
{
    const char *name = dew_scenario_draws(dew_run_scenario(run)).file;
    struct dew_error err = {0};
    int code;

    if (name[0] == '\0')
        return CLI__DONE;
    core__at(&err, strcmp(scenario, "-") == 0 ? "standard input" : scenario, 0,
             0);
    core__in(&err, "run.houses");
    if (run__find_beside(scenario, name, h->path, &err) != DEW_OK)
        return cli__error(&err);
    code = cli__draws_read(&h->draws, h->path);
    ask->draws = h->all = h->draws.draws;
    ask->years = cli__draws_have(&h->draws, cli__weather_column);
    ask->model = cli__draws_have(&h->draws, cli__model_column);
    return code;
}

void cli__houses_thin(struct cli__houses *h, size_t most)
{
    size_t each = h->draws.draws / most, n = 0;

    for (size_t i = 0; each > 1 && i < h->draws.draws; i += each)
        memmove(&h->draws.share[n++ * CLI__DRAWS_COLUMNS],
                &h->draws.share[i * CLI__DRAWS_COLUMNS],
                CLI__DRAWS_COLUMNS * sizeof *h->draws.share);
    if (each > 1)
        h->draws.draws = n;
}

/* What the file does not have, the first few by name; how much of it. */
static size_t lacking(const struct cli__houses *h,
                      const struct dew_spread *spread, char *out, size_t size)
{
    const struct cli__spread s = {.spread = spread};
    size_t n = 0, used = 0;

    out[0] = '\0';
    for (size_t c = 0; c < dew_spread_columns(spread); c++) {
        const char *name = cli__spread_column(&s, c);

        if (name[0] == '\0' || cli__draws_have(&h->draws, name))
            continue;
        if (n < FEW && used < size)
            used += (size_t)snprintf(out + used, size - used, "%s%s",
                                     n > 0 ? ", " : "", name);
        n++;
    }
    return n;
}

static void say(const struct cli__houses *h, const struct dew_spread *spread)
{
    char names[TEXT], clean[TEXT], text[2 * TEXT + 200];
    size_t n = lacking(h, spread, names, sizeof names);
    int used;

    core__clean(h->path, clean, sizeof clean);
    if (h->draws.draws < h->all)
        used = snprintf(text, sizeof text,
                        "dewledger: note: the houses are %zu of the %zu of %s",
                        h->draws.draws, h->all, clean);
    else
        used = snprintf(text, sizeof text,
                        "dewledger: note: the %zu houses are those of %s",
                        h->all, clean);

    if (n > 0)
        snprintf(text + used, sizeof text - (size_t)used,
                 "; %zu figures that it lacks are drawn beside: %s%s", n, names,
                 n > FEW ? " ..." : "");
    cli__wrap(stderr, 0, text);
}

/* Those that break a rule there are replaced. */
static int mended(int code, struct dew_spread *spread)
{
    struct dew_error err = {0};

    if (code == CLI__DONE && dew_spread_mend(spread, &err) != DEW_OK)
        code = cli__error(&err);
    return code;
}

int cli__houses_part(const struct cli__houses *h, struct dew_spread *spread,
                     int says)
{
    int code = mended(cli__draws_part(&h->draws, spread), spread);

    if (code == CLI__DONE && says)
        say(h, spread);
    return code;
}

int cli__houses_give(const struct cli__houses *h, struct dew_spread *spread)
{
    int code;

    if (h->draws.draws == 0)
        return CLI__DONE;
    code = mended(cli__draws_lend(&h->draws, spread), spread);
    if (code == CLI__DONE)
        say(h, spread);
    return code;
}
