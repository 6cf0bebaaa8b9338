/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes in 80 columns: the sentences, the curves, the rules. */
#include <math.h>
#include <string.h>

#include "cli/size.h"
#include "report/lay.h"

enum { VALUE = 14, HOURS = 6, COUNT = 9, RULE = 8 };

/* ---- curves ---------------------------------------------------------------------- */

static int banded(const struct cli__size *s)
{
    return s->target.draws > 0;
}

static void hours(const struct cli__size *s, const struct dew_draws_range *r)
{
    putchar(' ');
    if (banded(s))
        report__right(stdout, report__number(r->p10, 0).text, HOURS);
    report__right(stdout, report__number(cli__size_middle(r), 0).text, HOURS);
    if (banded(s))
        report__right(stdout, report__number(r->p90, 0).text, HOURS);
}

static void row(const struct cli__size *s, const struct dew_size_curve *c,
                const struct dew_size_point *p)
{
    size_t air = c->houses - p->fails[DEW_DRAWN_short_of_air];

    report__right(stdout,
                  cli__size_amount(s, c->knob, p->value,
                                   p->halved && c->knob != DEW_SIZE_set_point)
                      .text,
                  VALUE - 2);
    fputs(p->enough ? " *" : "  ", stdout);
    hours(s, &p->hours[DEW_DRAWN_too_humid]);
    hours(s, &p->hours[DEW_DRAWN_too_dry]);
    report__right(
        stdout,
        report__number(cli__size_middle(&p->hours[DEW_DRAWN_glass_wet]), 0)
            .text,
        COUNT);
    if (banded(s))
        printf("%*zu%*zu\n", COUNT, air, COUNT, p->does);
    else
        printf("%*s%*s\n", COUNT, air > 0 ? "yes" : "no", COUNT,
               p->does > 0 ? "yes" : "no");
}

static void heads(const struct cli__size *s, const struct dew_size_curve *c)
{
    static const char *const names[DEW_SIZE_KNOBS] = {
        "Airflow",
        "Boost",
        "Dehumidifier, by its label",
        "Set point of the dehumidifier",
        "Setting of the humidifier",
        "All of that together"};
    char of[40] = "";

    printf("\n%s, %s", names[c->knob], cli__size_core(s, c->core).text);
    if (c->knob != DEW_SIZE_flow)
        printf(" at %s",
               cli__size_amount(s, DEW_SIZE_flow, c->at_flow, 0).text);
    if (banded(s)) {
        snprintf(of, sizeof of, "of %zu", c->houses);
        printf("\n%*s%*s", VALUE + 1 + 3 * HOURS, "hours too humid",
               1 + 3 * HOURS, "hours too dry");
    } else {
        printf("\n%*s%*s", VALUE + 1 + HOURS, "hours", 1 + HOURS, "hours");
    }
    printf("%*s%*s%*s\n%*s", COUNT, "wet", COUNT, "brings", COUNT, "enough",
           VALUE, "");
    for (int k = 0; k < 2; k++)
        if (banded(s))
            printf(" %*s%*s%*s", HOURS, "low", HOURS, "mid", HOURS, "high");
        else
            printf(" %*s", HOURS, k == 0 ? "humid" : "dry");
    printf("%*s%*s%*s\n", COUNT, "glass", COUNT, "the air", COUNT, of);
}

/* The curve, and where the size was found. */
static int shown(const struct dew_size_curve *c, size_t k)
{
    return !c->points[k].halved ||
           (c->found &&
            ((k > 0 && !c->points[k - 1].enough) ||
             (k + 1 < c->count && !c->points[k + 1].enough)) &&
            c->points[k].enough);
}

static void print_curve(const struct cli__size *s,
                        const struct dew_size_curve *c)
{
    char text[300];

    heads(s, c);
    for (size_t k = 0; k < c->count; k++)
        if (shown(c, k))
            row(s, c, &c->points[k]);
    snprintf(text, sizeof text, "Left out, for it makes no house: %s",
             c->stopped);
    if (c->stopped[0] != '\0')
        cli__wrap(stdout, 0, text);
}

static void print_curves(const struct cli__size *s)
{
    const struct dew_size_curve *c;

    for (size_t i = 0; (c = dew_size_curve(s->size, i)) != NULL; i++)
        if (s->full || c->knob == DEW_SIZE_flow || c->knob == DEW_SIZE_boost)
            print_curve(s, c);
    if (banded(s))
        cli__wrap(stdout, 0,
                  "low: 1 house in 10 has fewer hours; mid: half have fewer; "
                  "high: 1 in 10 has more. *: enough in as many as asked.");
    else
        cli__wrap(stdout, 0,
                  "*: enough, in the one house as told, without a band.");
}

/* ---- rules ----------------------------------------------------------------------- */

static void print_rules(const struct cli__size *s)
{
    puts("\nWhat rules ask of this house");
    for (int r = 0; r < DEW_RATE_RULES; r++) {
        double rate = cli__size_rate(s, (enum dew_rate_rule)r);

        if (isnan(rate))
            continue;
        report__right(stdout, cli__size_amount(s, DEW_SIZE_flow, rate, 0).text,
                      RULE);
        printf("  %s\n", dew_house_rate_words((enum dew_rate_rule)r));
    }
    cli__wrap(stdout, 0,
              "They differ because each counts its own way (62.2 since 2013 "
              "takes three times as much for the floor as before, the IRC goes "
              "by steps of floor and bedrooms, England and EN 16798-1 by "
              "floor or bedrooms, the oldest by air changes and people), and "
              "none of them looks at your weather or humidity, which the "
              "sizes above do.");
}

/* ---- all ------------------------------------------------------------------------- */

/* What the band is of. */
static void say_houses(const struct cli__size *s, char *text, size_t size)
{
    char years[80] = "one year of weather", model[100] = "";

    if (!banded(s)) {
        snprintf(text, size,
                 "In one year of weather; the model's own error is not in "
                 "it.");
        return;
    }
    if (s->target.years > 1)
        snprintf(years, sizeof years, "one of %d made years of the place each",
                 s->target.years);
    if (s->target.model > 0)
        snprintf(model, sizeof model,
                 ", with the model's own error, up to %.0f points of humidity, "
                 "mostly under 4",
                 100 * s->target.model);
    snprintf(text, size,
             "%zu houses like yours, drawn from your ranges and the usual ones "
             "of what you did not tell (seed %lu), through %s%s: low to high "
             "is the band of all that.",
             s->target.draws, s->seed, years, model);
}

static void say_how(const struct cli__size *s)
{
    char text[600];

    cli__wrap(stdout, 0,
              "Airflow is closed in on to 3 %, a dehumidifier to a pint a day, "
              "a setting to 1 point of humidity. Typical cores (`dewledger "
              "explain typical`) pass the same share at every flow, as units "
              "of the right size do; fans take the same watts for each "
              "cfm. "
              "A dehumidifier that you did not tell of is set to 50 %, or 5 "
              "points below the limit where that is less; such a humidifier "
              "gives up to 15 gallons a day (from memory).");
    say_houses(s, text, sizeof text);
    cli__wrap(stdout, 0, text);
    if (!s->full)
        puts("The other curves: --full.");
}

void cli__size_print(const struct cli__size *s)
{
    cli__wrap(stdout, 0,
              report__title(dew_scenario_title(dew_run_scenario(s->run))));
    putchar('\n');
    cli__size_say(s);
    print_curves(s);
    print_rules(s);
    putchar('\n');
    say_how(s);
}
