/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the doubt in the hours too humid comes from, as a table and JSON. */
#include <math.h>
#include <string.h>

#include "cli/spread_worth.h"
#include "report/lay.h"
#include "report/words.h"

enum { KEY = 28, CELL = 13, SHORT_NAME = 24 };

/* ---- marching -------------------------------------------------------------------- */

/* The house as it stands, and the option that is best in most houses. */
static size_t choose(const struct cli__spread *s, size_t options[2])
{
    options[0] = 0;
    options[1] = dew_draws_best(s->told);
    return options[1] != 0 ? 2 : 1;
}

static enum dew_status march(struct dew_effects *e, struct dew_error *err)
{
    enum dew_status status = DEW_OK;
    double done = 0;

    while (done < 1 && status == DEW_OK) {
        cli__progress(done, "indices");
        status = dew_effects_step(e, &done, err);
    }
    cli__progress(1, "indices");
    return status;
}

enum dew_status cli__effects_of(const struct cli__spread *s,
                                struct cli__effects *x, struct dew_error *err)
{
    const struct dew_effects_ask ask = {.points = x->points,
                                        .options = x->option,
                                        .option_count = x->options =
                                            choose(s, x->option)};
    enum dew_status status =
        dew_effects_open(&x->effects, s->spread, &ask, err);

    if (status == DEW_OK)
        status = march(x->effects, err);
    for (size_t k = 0; k < x->options && status == DEW_OK; k++)
        status = dew_effects_of(x->effects, x->option[k], x->of[k], err);
    return status;
}

void cli__effects_close(struct cli__effects *x)
{
    dew_effects_close(x->effects);
}

/* ---- the table ------------------------------------------------------------------- */

static const char *group(const struct cli__spread *s,
                         const struct cli__effects *x, size_t g)
{
    size_t column = dew_effects_column(x->effects, g);

    return column < dew_spread_columns(s->spread)
               ? cli__spread_column(s, column)
               : "all others together";
}

/* "62 (51-73)": of 100, and no share below nothing. */
static struct report__word share(const struct dew_effect_share *e)
{
    struct report__word w = {"-"};

    if (isfinite(e->is))
        snprintf(w.text, sizeof w.text, "%.0f (%.0f-%.0f)",
                 100 * fmax(0, e->is) + 0.0, 100 * fmax(0, e->low) + 0.0,
                 100 * fmax(0, e->high) + 0.0);
    return w;
}

static void heading(const struct cli__spread *s, const struct cli__effects *x)
{
    char text[200], name[160];

    printf("%-*s", KEY, "Of 100 parts of the doubt in");
    for (size_t k = 0; k < x->options; k++) {
        snprintf(
            text, sizeof text, "%zu %s", x->option[k] + 1,
            core__clean(cli__spread_name(s, x->option[k]), name, sizeof name));
        printf("  ");
        report__left(stdout, text, SHORT_NAME);
    }
    printf("\n%-*s", KEY, "hours too humid, how many by");
    for (size_t k = 0; k < x->options; k++)
        printf("%*s%*s", CELL, "alone", CELL, "with others");
    putchar('\n');
}

void cli__effects_print(const struct cli__spread *s,
                        const struct cli__effects *x)
{
    heading(s, x);
    for (size_t g = 0; g < dew_effects_groups(x->effects); g++) {
        report__left(stdout, group(s, x, g), KEY);
        for (size_t k = 0; k < x->options; k++) {
            report__right(stdout, share(&x->of[k][g].alone).text, CELL);
            report__right(stdout, share(&x->of[k][g].total).text, CELL);
        }
        putchar('\n');
    }
    cli__wrap(stdout, 0,
              "alone: what knowing it would take away of the doubt (the "
              "variance). With others: what would stay if all but it were "
              "known. In brackets what so few houses leave open.");
}

/* ---- JSON ------------------------------------------------------------------------ */

static json_t *interval(const struct dew_effect_share *e)
{
    return json_pack("{s:o, s:o, s:o}", "share", cli__real(e->is), "low",
                     cli__real(e->low), "high", cli__real(e->high));
}

json_t *cli__effects_json(const struct cli__spread *s,
                          const struct cli__effects *x)
{
    json_t *all = json_array();

    for (size_t k = 0; k < x->options; k++)
        for (size_t g = 0; g < dew_effects_groups(x->effects); g++)
            all = cli__add(all, json_pack("{s:s, s:s, s:o, s:o}", "option",
                                          cli__spread_name(s, x->option[k]),
                                          "key", group(s, x, g), "first",
                                          interval(&x->of[k][g].alone), "total",
                                          interval(&x->of[k][g].total)));
    return json_pack("{s:s, s:I, s:o}", "of", "too_humid_h", "points",
                     (json_int_t)x->points, "shares_of_variance", all);
}
