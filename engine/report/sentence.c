/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings in plain words, their numbers inside. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "report/words.h"

/* One finding being told. */
struct telling {
    const struct dew_report *r;
    const struct dew_finding *f;
    char *out;
    size_t size;
};

static void say(struct telling *t, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static void say(struct telling *t, const char *format, ...)
{
    size_t at = strlen(t->out);
    va_list args;

    va_start(args, format);
    vsnprintf(t->out + at, t->size - at, format, args);
    va_end(args);
}

/* Short forms, for the sentences below. */
#define HOURS(i)  dew__number(t->f->value[i], 0).text
#define MONTHS    dew__months(t->f->months).text
#define OPTION    dew__option(t->r, t->f->option).text
#define OTHER     dew__option(t->r, t->f->other).text
#define FLOW(i)   dew__amount(t->f->value[i], DEW_FLOW, t->r->system, 0).text
#define ENERGY(i) dew__amount(t->f->value[i], DEW_ENERGY, DEW_SYSTEM_SI, 0).text
#define MONEY(x)  dew__money(t->r, (x)).text
#define YEARS     dew__number(t->r->question->prices->years, 0).text

static const char *percent(double share, struct dew__word *w)
{
    struct dew__word n = dew__number(100 * share, 0);

    snprintf(w->text, sizeof w->text, "%.20s %%", n.text);
    return w->text;
}

static const struct dew_limits *limits(const struct telling *t)
{
    return &t->r->question->choices[0].c->limits;
}

static struct dew__word per_day(const struct telling *t, double kg)
{
    return dew__amount(kg / 86400, DEW_WATER_RATE, t->r->system, 1);
}

static void say_sources(struct telling *t)
{
    int count = 0;

    while (count < DEW_FINDING_SOURCES && t->f->source[count] != NULL)
        count++;
    for (int i = 0; i < count; i++)
        say(t, "%s%s (%s)",
            i == 0           ? ""
            : i == count - 1 ? " and "
                             : ", ",
            t->f->source[i], per_day(t, t->f->source_kg[i]).text);
    if (count == 0)
        say(t, "no flow above zero");
}

/* The months that stand out, if any do. */
static void say_most(struct telling *t)
{
    const unsigned all = (1U << DEW_MONTHS) - 1;

    if (t->f->months != 0)
        say(t, t->f->months == all ? ", in %s" : ", most in %s", MONTHS);
}

static void say_today_humid(struct telling *t)
{
    struct dew__word limit;

    say(t,
        "Today the house is too humid (above %s) in %s h of the year: up to "
        "%s h in one month, %s h at a stretch",
        percent(limits(t)->too_humid, &limit), HOURS(0), HOURS(1), HOURS(2));
    say_most(t);
    say(t, ". The water comes in by ");
    say_sources(t);
    say(t, ".");
}

static void say_today_dry(struct telling *t)
{
    struct dew__word limit;

    say(t,
        "Today the house is too dry (below %s) in %s h of the year, up to %s h "
        "in one month",
        percent(limits(t)->too_dry, &limit), HOURS(0), HOURS(1));
    say_most(t);
    say(t, ". The water leaves by ");
    say_sources(t);
    say(t, ".");
}

static void say_today_fine(struct telling *t)
{
    struct dew__word humid, dry;

    say(t,
        "Today the house keeps its limits: too humid (above %s) in %s h and "
        "too dry (below %s) in %s h of the year.",
        percent(limits(t)->too_humid, &humid), HOURS(0),
        percent(limits(t)->too_dry, &dry), HOURS(1));
}

static void say_today_sweat(struct telling *t)
{
    say(t, "The window glass is wet in %s h of the year", HOURS(0));
    say_most(t);
    say(t, ".");
}

static void say_mould(struct telling *t)
{
    static const char *const faces[DEW_SURFACES] = {
        "window glass", "window frame and glass edge", "coldest corner"};
    int now = t->f->value[1] > DEW_MOULD_LIMIT;

    say(t, "\"%s\": mould %s on the %s: index %s in the year", OPTION,
        now ? "can be seen" : "may come to be seen", faces[(int)t->f->value[0]],
        dew__number(t->f->value[1], 1).text);
    say(t, now ? " (limit %s)" : ", %s after ten like it (limit %s)",
        dew__number(now ? DEW_MOULD_LIMIT : t->f->value[2], now ? 0 : 1).text,
        dew__number(DEW_MOULD_LIMIT, 0).text);
    if (t->f->months != 0)
        say(t, "; its mean humidity passes 80 %% in %s", MONTHS);
    say(t, ".");
}

static void say_drying(struct telling *t)
{
    struct dew__word part;

    say(t,
        "Building materials still give off %s, %s of all the water that comes "
        "in. That part goes away by itself: wait a season before buying "
        "equipment for it.",
        per_day(t, t->f->value[1]).text, percent(t->f->value[0], &part));
}

/* "about 14 months", "now" of hours. */
static const char *spell(double hours, struct dew__word *w)
{
    double days = hours / 24, months = days * 12 / 365;

    if (days < 60)
        snprintf(w->text, sizeof w->text, "%.20s days",
                 dew__number(days, 0).text);
    else
        snprintf(w->text, sizeof w->text, "%.20s months",
                 dew__number(months, 0).text);
    return w->text;
}

static void say_drying_ends(struct telling *t)
{
    struct dew__word likely, low, high;

    if (t->f->value[0] <= 0) {
        say(t, "The water that building materials give off makes less than 1 "
               "point of RH: it can be left out of account.");
        return;
    }
    say(t, "It makes less than 1 point of RH after about %s",
        spell(t->f->value[0], &likely));
    if (t->f->value[2] > t->f->value[1])
        say(t, " (%s to %s, by the half-life given)",
            spell(t->f->value[1], &low), spell(t->f->value[2], &high));
    say(t, ".");
}

static void say_wait(struct telling *t)
{
    say(t,
        "Wait a season: once dry, the house as it stands keeps its humidity "
        "limits (too humid in %s h instead of %s h, too dry in %s h instead of "
        "%s h).",
        HOURS(0), HOURS(1), HOURS(2), HOURS(3));
}

static void say_settled(struct telling *t)
{
    if (t->f->option == DEW_NO_OPTION)
        say(t, "Once the house is dry, none of these both brings the fresh "
               "air asked for and keeps the limits.");
    else
        say(t,
            "Once the house is dry, %s \"%s\" (too humid in %s h). Choose "
            "lasting equipment by that answer.",
            t->f->option == t->f->other ? "the best is still" : "the best is",
            OPTION, HOURS(0));
}

static void say_idle(struct telling *t)
{
    say(t, "Cooling stands idle in %s of the %s hours too humid", HOURS(0),
        HOURS(1));
    if (t->f->value[0] > t->f->value[1] / 2)
        say(t, ": it dries the air only while there is heat to remove");
    say(t, ".");
}

static void say_outdoor_dries(struct telling *t)
{
    say(t, "Outdoor air could dry the house in %s of %s h", HOURS(0), HOURS(1));
    if (t->f->months != 0)
        say(t, ", most of the time in %s", MONTHS);
    say(t, ".");
}

static void say_outdoor_cannot(struct telling *t)
{
    say(t,
        "Outdoor air cannot dry the house in %s of the %s h of %s: more of it "
        "does not help then.",
        HOURS(1), HOURS(2), MONTHS);
}

static void say_air_fixes(struct telling *t)
{
    say(t,
        "Ventilation alone fixes it: with \"%s\" the house is too humid in %s "
        "h, today in %s h.",
        OPTION, HOURS(0), HOURS(1));
}

static void say_air_fails(struct telling *t)
{
    say(t,
        "Ventilation alone does not fix it: \"%s\" is still too humid in %s h "
        "(today %s h)",
        OPTION, HOURS(0), HOURS(1));
    say_most(t);
    say(t, ".");
}

static void say_air_worsens(struct telling *t)
{
    say(t, "\"%s\" makes %s worse: %s h more too humid than today.", OPTION,
        MONTHS, HOURS(0));
}

static void say_dryer_not_needed(struct telling *t)
{
    say(t,
        "A dehumidifier is not needed: \"%s\" has none and is too humid in %s "
        "h.",
        OPTION, HOURS(0));
}

static void say_dryer_needed(struct telling *t)
{
    say(t, "A dehumidifier is needed: \"%s\" is too humid in %s h; ", OPTION,
        HOURS(0));
    if (isnan(t->f->value[1]))
        say(t, "no option without one brings the fresh air asked for.");
    else
        say(t, "the best that brings enough air without one, in %s h.",
            HOURS(1));
}

static void say_dryer_alone(struct telling *t)
{
    say(t,
        "A dehumidifier does not replace fresh air: \"%s\" is too humid in %s "
        "h but brings %s of the %s asked for.",
        OPTION, HOURS(0), FLOW(1), FLOW(2));
}

static void say_dryer_instead(struct telling *t)
{
    say(t,
        "A dehumidifier instead of ventilation keeps the humidity: \"%s\" is "
        "too humid in %s h, for %s a year. Fresh air is no part of that.",
        OPTION, HOURS(0), ENERGY(1));
}

static struct dew__word pints(const struct telling *t, double rate)
{
    const struct dew_unit *u = dew_unit_find("pint/day", 8, DEW_WATER_RATE);
    struct dew__word w, n;

    if (t->r->system != DEW_SYSTEM_US || u == NULL)
        return dew__amount(rate, DEW_WATER_RATE, t->r->system, 1);
    n = dew__number(rate / u->factor, 0);
    snprintf(w.text, sizeof w.text, "%.40s pints/day", n.text);
    return w;
}

static void say_dryer_size(struct telling *t)
{
    const double *x = t->f->value;

    say(t,
        "The dehumidifier of \"%s\", %s on its label, takes out %s in this "
        "house's own air; its busiest day asks for %s",
        OPTION, pints(t, x[0]).text, pints(t, x[1]).text, pints(t, x[2]).text);
    say(t, x[2] > 0.95 * x[1]   ? ", all it can"
           : x[2] < 0.33 * x[1] ? ", so a smaller one would do"
                                : "");
    say(t, ". It runs %s h and uses %s a year.", HOURS(4), ENERGY(3));
}

static void say_dryer_short(struct telling *t)
{
    say(t,
        "\"%s\" has a dehumidifier and is still too humid in %s h: a larger "
        "one or a lower set point is worth trying.",
        OPTION, HOURS(0));
}

static void say_dryer_untried(struct telling *t)
{
    say(t,
        "No option tries a dehumidifier; the best with enough air is too humid "
        "in %s h without one.",
        HOURS(0));
}

static void say_least_humid(struct telling *t)
{
    say(t,
        "Fewest hours too humid with enough fresh air: \"%s\", %s h (today %s "
        "h).",
        OPTION, HOURS(0), HOURS(1));
}

static void say_both_cores(struct telling *t)
{
    say(t,
        "Which core: \"%s\" (heat only) is too humid in %s h and too dry in %s "
        "h, \"%s\" (heat and moisture) in %s h and %s h: ",
        OPTION, HOURS(0), HOURS(1), OTHER, HOURS(2), HOURS(3));
}

static void say_core_heat(struct telling *t)
{
    say_both_cores(t);
    say(t, "the heat-only core suits this house better.");
}

static void say_core_enthalpy(struct telling *t)
{
    say_both_cores(t);
    say(t, "the core that passes moisture suits this house better.");
}

static void say_core_close(struct telling *t)
{
    say_both_cores(t);
    say(t, "a close call, inside the doubt of the inputs.");
}

static void say_grows_dry(struct telling *t)
{
    say(t, "\"%s\" dries the house too far: too dry in %s h (today %s h)",
        OPTION, HOURS(0), HOURS(1));
    say_most(t);
    say(t, ".");
}

static void say_blower_cost(struct telling *t)
{
    say(t,
        "\"%s\" leans on the blower: %s a year more for the blower, beside %s "
        "for the ventilator's own fans",
        OPTION, ENERGY(0), ENERGY(1));
    if (t->f->value[2] > 1)
        say(t, ", and the coil puts %s more water back",
            dew__amount(t->f->value[2], DEW_WATER, t->r->system, 0).text);
    say(t, ".");
}

/* What speaks against a tie-in, in its order; parted by commas. */
static void say_tie_faults(struct telling *t)
{
    unsigned why = (unsigned)t->f->value[0];
    const char *join = ": ";

    if (why & (DEW_TIE_SHORT | DEW_TIE_AIR)) {
        say(t, "%sof the %s it draws in, %s reach the rooms%s", join, FLOW(4),
            FLOW(5), why & DEW_TIE_AIR ? ", less than asked for" : "");
        join = "; ";
    }
    if (why & DEW_TIE_HUMID) {
        say(t, "%s%s h more too humid", join, HOURS(1));
        join = "; ";
    }
    if (why & DEW_TIE_BLOWER) {
        say(t, "%s%s a year more for the blower", join, ENERGY(2));
        join = "; ";
    }
    if (why & DEW_TIE_PUTBACK)
        say(t, "%sthe coil puts %s more water back", join,
            dew__amount(t->f->value[3], DEW_WATER, t->r->system, 0).text);
}

static void say_tie_fine(struct telling *t)
{
    say(t, "The tie-in of \"%s\" keeps up with the own ducts of \"%s\"", OPTION,
        OTHER);
    if (t->f->value[0] > 0)
        say(t, ", at a price");
    say_tie_faults(t);
    say(t, ".");
}

static void say_tie_harmful(struct telling *t)
{
    say(t, "The tie-in of \"%s\" does harm", OPTION);
    if (t->f->other != DEW_NO_OPTION)
        say(t, " beside the own ducts of \"%s\"", OTHER);
    say_tie_faults(t);
    say(t, ".");
}

static void say_best(struct telling *t)
{
    int only = t->f->value[3] > 0, money = t->f->value[2] > 0;

    if (only)
        say(t,
            "Best of these: \"%s\". It alone brings the fresh air asked for "
            "and keeps the limits: ",
            OPTION);
    else
        say(t,
            "Best of these: \"%s\". It brings the fresh air asked for, keeps "
            "the limits and %s: ",
            OPTION, money ? "costs least" : "uses least energy");
    if (money)
        say(t, "%s over %s years, in today's money.", MONEY(t->f->value[0]),
            YEARS);
    else
        say(t, "%s a year.", ENERGY(0));
}

static void say_best_close(struct telling *t)
{
    say(t,
        "Best is a close call between \"%s\" and \"%s\": both bring the fresh "
        "air asked for and keep the limits, and ",
        OPTION, OTHER);
    if (t->f->value[2] > 0)
        say(t, "%s against %s over %s years", MONEY(t->f->value[0]),
            MONEY(t->f->value[1]), YEARS);
    else
        say(t, "%s against %s a year", ENERGY(0), ENERGY(1));
    say(t, " is inside the doubt of the inputs.");
}

static void say_best_none(struct telling *t)
{
    if (t->f->option == DEW_NO_OPTION)
        say(t, "None of these will do: none brings the fresh air asked for.");
    else
        say(t,
            "None of these will do: none both brings the fresh air asked for "
            "and keeps the limits. The nearest is \"%s\": %s h too humid, %s h "
            "too dry, %s h of wet glass.",
            OPTION, HOURS(0), HOURS(1), HOURS(2));
}

static void say_under_ventilated(struct telling *t)
{
    say(t, "UNDER-VENTILATED: \"%s\" brings %s of the %s asked for.", OPTION,
        FLOW(0), FLOW(1));
}

static void say_pays_back(struct telling *t)
{
    say(t, "\"%s\" pays for itself in %s years", OPTION,
        dew__number(t->f->value[0], 1).text);
    if (t->f->value[2] > t->f->value[1])
        say(t,
            isinf(t->f->value[2]) ? " (%s or more; at worst never%s)"
                                  : " (%s to %s)",
            dew__number(t->f->value[1], 1).text,
            isinf(t->f->value[2]) ? "" : dew__number(t->f->value[2], 1).text);
    say(t, ".");
}

/* What is bought instead, as far as the tallies show it. */
static void say_what_it_buys(struct telling *t)
{
    const struct dew_choice *c = t->r->question->choices;
    const struct dew_tally *base = &c[0].outcome->year;
    const struct dew_tally *y = &c[t->f->option].outcome->year;
    int air = dew_verdict_fresh(t->r->question, (size_t)t->f->option) >
              dew_verdict_fresh(t->r->question, 0);
    int dry = y->too_humid < base->too_humid;

    if (air || dry)
        say(t, " It buys %s%s%s.", air ? "air" : "", air && dry ? " and " : "",
            dry ? "dryness" : "");
}

static void say_never_pays(struct telling *t)
{
    double saved = t->f->value[0];

    say(t, "\"%s\" does not pay back on energy", OPTION);
    if (fabs(saved) < 0.5)
        say(t, ": it saves nothing.");
    else if (saved > 0)
        say(t, " within %s years: it saves %s a year and costs %s to install.",
            YEARS, MONEY(saved), MONEY(t->f->value[1]));
    else
        say(t, ": it costs %s a year more to run.", MONEY(-saved));
    say_what_it_buys(t);
}

static void say_staged(struct telling *t)
{
    const double *x = t->f->value;
    struct dew__word chance, even;

    say(t,
        "In two stages: \"%s\" now for %s, and \"%s\" later for %s if it must "
        "follow (%s likely): %s expected over %s years, against %s for \"%s\" "
        "at once",
        OPTION, MONEY(x[0]), OTHER, MONEY(x[1]), percent(x[2], &chance),
        MONEY(x[3]), YEARS, MONEY(x[4]), OTHER);
    if (x[5] >= 1)
        say(t, ". The stages cost less even if both are needed.");
    else if (x[5] <= 0)
        say(t, ". The stages cost more whether or not both are needed.");
    else
        say(t, ". They cost the same at a chance of %s.", percent(x[5], &even));
}

static void say_reading(struct telling *t)
{
    const double *x = t->f->value;
    struct dew__word limit;

    say(t, "The reading that decides on \"%s\": ", OTHER);
    if (x[0] == DEW_READING_humidity)
        say(t,
            "relative humidity where people sleep, hour by hour through %s "
            "(%s days): go on if it passes %s in more than %s h (%s h "
            "expected%s).",
            MONTHS, HOURS(1), percent(limits(t)->too_humid, &limit), HOURS(2),
            HOURS(3), x[3] > x[2] ? ", so it is likely" : "");
    else if (x[0] == DEW_READING_air_flow)
        say(t,
            "the sum of the supply grilles, blower on and blower off, on one "
            "day: go on if either is below %s (%s expected%s).",
            FLOW(2), FLOW(3), x[3] < x[2] ? ", so it is likely" : "");
    else
        say(t,
            "carbon dioxide where people sleep, %s nights with the door shut: "
            "go on if it passes %s ppm by morning (%s ppm is the mean of the "
            "year and the whole house).",
            HOURS(1), HOURS(2), HOURS(3));
}

static void say_unpriced(struct telling *t)
{
    say(t, "Not every price is given: options are ranked by the energy they "
           "use, and no payback is told.");
}

char *dew_report_sentence(const struct dew_report *report,
                          const struct dew_finding *f, char *out, size_t size)
{
    static void (*const sentence[])(struct telling * t) = {
#define X(name) say_##name,
        DEW_FINDING_MAP(X)
#undef X
    };
    struct telling t = {report, f, out, size};

    out[0] = '\0';
    if ((unsigned)f->kind < DEW_FINDING_KINDS)
        sentence[f->kind](&t);
    return out;
}
