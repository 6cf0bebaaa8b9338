/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings in plain words, their numbers inside: the house and its water. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "report/telling.h"

void report__say(struct telling *t, const char *format, ...)
{
    size_t at = strlen(t->out);
    va_list args;

    va_start(args, format);
    vsnprintf(t->out + at, t->size - at, format, args);
    va_end(args);
}

const struct dew_limits *report__limits(const struct telling *t)
{
    return &t->r->question->choices[0].c->limits;
}

struct report__word report__per_day(const struct telling *t, double kg)
{
    return report__amount(kg / 86400, DEW_WATER_RATE, t->r->system, 1);
}

/* What would print as nothing is no source worth a name. */
static int prints_as_nothing(const struct telling *t, double kg)
{
    return report__shown(kg / 86400, DEW_WATER_RATE, t->r->system) < 0.05;
}

static void say_sources(struct telling *t)
{
    int count = 0;

    while (count < DEW_FINDING_SOURCES && t->f->source[count] != NULL &&
           !prints_as_nothing(t, t->f->source_kg[count]))
        count++;
    for (int i = 0; i < count; i++)
        report__say(t, "%s%s (%s)",
                    i == 0           ? ""
                    : i == count - 1 ? " and "
                                     : ", ",
                    t->f->source[i],
                    report__per_day(t, t->f->source_kg[i]).text);
    if (count == 0)
        report__say(t, "no flow above zero");
}

struct report__word report__most(unsigned months)
{
    struct report__word w = {""}, named = report__months(months);

    if (months != 0)
        snprintf(w.text, sizeof w.text,
                 strncmp(named.text, "every", 5) == 0 ? ", in %.100s"
                                                      : ", most in %.100s",
                 named.text);
    return w;
}

/* What prints as no flow. */
static int is_none(const struct telling *t, double flow)
{
    return report__shown(flow, DEW_FLOW, t->r->system) < 0.5;
}

struct report__word report__by_3(const struct dew_report *r, int option)
{
    double by = study__year(r->question, (size_t)option)->humid_by[2];
    struct report__word w = {""};

    if (by >= 0.5)
        snprintf(w.text, sizeof w.text, ", %.40s of them by 3 points or more",
                 report__number(by, 0).text);
    return w;
}

SENTENCE(today_stale)
{
    if (n->short_of_air && is_none(t, n->fresh))
        report__say(t,
                    "Today the house has no planned fresh air: about %s comes "
                    "in by leaks, %s is asked for, and ",
                    FLOW(n->leaks), FLOW(n->required));
    else if (n->short_of_air)
        report__say(t,
                    "Today the house has %s of planned fresh air of the %s "
                    "asked for; about %s comes in by leaks, and ",
                    FLOW(n->fresh), FLOW(n->required), FLOW(n->leaks));
    else
        report__say(t,
                    "Today the air is stale: about %s comes in by leaks, "
                    "%s is planned, and ",
                    FLOW(n->leaks), FLOW(n->fresh));
    report__say(t, "carbon dioxide (CO2) averages %s ppm (outdoors %s).",
                PPM(n->co2), PPM(n->co2_outdoors));
}

SENTENCE(today_humid)
{
    report__say(
        t,
        "Today the house is too humid (above %s relative humidity) in %s of "
        "the %s: by 1 point or more in %s, by 2 in %s, by 3 in %s. Up to %s "
        "in one month, %s at a stretch%s. The water comes in by ",
        SHARE(report__limits(t)->too_humid), HRS(n->humid), SPAN,
        HOURS(n->by_1), HOURS(n->by_2), HOURS(n->by_3), HRS(n->worst_month),
        HRS(n->longest), MOST);
    say_sources(t);
    report__say(t, ".");
}

SENTENCE(today_dry)
{
    report__say(
        t,
        "Today the house is too dry (below %s relative humidity) in %s of the "
        "%s, up to %s in one month%s. The water leaves by ",
        SHARE(report__limits(t)->too_dry), HRS(n->dry), SPAN,
        HRS(n->worst_month), MOST);
    say_sources(t);
    report__say(t, ".");
}

SAY(today_fine,
    "Today the house keeps its limits of relative humidity: too humid (above "
    "%s) in %s and too dry (below %s) in %s of the %s.",
    SHARE(report__limits(t)->too_humid), HRS(n->humid),
    SHARE(report__limits(t)->too_dry), HRS(n->dry), SPAN)

SAY(coil_today,
    "The %s hours too humid could be %s to %s: how much water the blower "
    "takes back from the wet coil is not well known.%s",
    HOURS(n->likely), HOURS(n->low), HOURS(n->high),
    n->decides ? " Whether the house keeps its limits hangs on that." : "")

SAY(today_sweat, "The window glass is wet in %s of the %s%s.",
    HRS(n->glass_wet), SPAN, MOST)

SAY(short_heat,
    "\"%s\": heating falls short in %s of the %s, to %s in the "
    "coldest. Warming up after a setback counts too.",
    OPTION, HRS(n->short_of_heat), SPAN,
    report__amount(n->coldest, DEW_TEMPERATURE, t->r->system, 0).text)

SAY(saturated,
    "\"%s\": in %s of the %s the rooms' air is as full of water as "
    "air can be (100 %%): what comes in beyond that turns to fog and "
    "wet surfaces.",
    OPTION, HRS(n->saturated), SPAN)

enum { ASKED = 5 };

/* "a bath fan, a hood or cooling": the words that are not NULL. */
static void say_untold(struct telling *t, const char *last,
                       const char *const words[ASKED])
{
    int left = 0;

    for (int i = 0; i < ASKED; i++)
        left += words[i] != NULL;
    for (int i = 0; i < ASKED; i++)
        if (words[i] != NULL)
            report__say(t, "%s%s", words[i],
                        --left == 0 ? ""
                        : left == 1 ? last
                                    : ", ");
}

SENTENCE(today_assumes)
{
    const struct {
        int untold;
        const char *words, *key;
    } asked[ASKED] = {{n->no_bath_fan, "a bath fan", "bath_fan"},
                      {n->no_hood, "a kitchen hood", "range_hood"},
                      {n->no_clothes_dryer,
                       "a clothes dryer that blows outdoors", "clothes_dryer"},
                      {n->no_cooling, "cooling", "cooling"},
                      {n->windows_shut, "open windows", "airing"}};
    const char *words[ASKED], *keys[ASKED];

    for (int i = 0; i < ASKED; i++) {
        words[i] = asked[i].untold ? asked[i].words : NULL;
        keys[i] = asked[i].untold ? asked[i].key : NULL;
    }
    report__say(t, "Today is worked out without ");
    say_untold(t, " or ", words);
    report__say(t, ", as none is given. If that is not so, the hours change: "
                   "give ");
    say_untold(t, " and ", keys);
    report__say(t, ".");
}

SENTENCE(mould)
{
    static const char *const faces[DEW_SURFACES] = {
        "window glass", "window frame and glass edge", "coldest corner"};
    int now = n->index > DEW_MOULD_LIMIT;

    report__say(t,
                "By the model visible mould would %sgrow on the %s with "
                "\"%s\" (mould index %s of 6",
                now ? "" : "in time ", faces[n->surface], OPTION,
                report__number(n->index, 1).text);
    if (!now)
        report__say(t, ", %s after ten such years",
                    report__number(n->after_ten_years, 1).text);
    report__say(t, "; %s is visible)", report__number(DEW_MOULD_LIMIT, 0).text);
    if (t->f->months != 0)
        report__say(t, ": damp there in %s", MONTHS);
    report__say(t, ". Look there.");
}

SAY(drying,
    "Building materials still give off %s, %s of all the water that comes in. "
    "That part goes away by itself: wait a season before buying equipment for "
    "it.",
    report__per_day(t, n->per_day).text, SHARE(n->share_of_inflow))

/* "14 months" of hours. */
static struct report__word spell(double hours)
{
    double days = hours / 24, months = days * 12 / 365;
    struct report__word w;

    snprintf(w.text, sizeof w.text, days < 60 ? "%.20s days" : "%.20s months",
             report__number(days < 60 ? days : months, 0).text);
    return w;
}

/* ", in March of year 2": the month that lies so many hours into the run. */
static void say_when(struct telling *t, double hours)
{
    const double month_h = 8760.0 / DEW_MONTHS;
    int first = t->r->dates != NULL ? t->r->dates[0].month - 1 : 0;
    int month = first + (int)fmin(hours / month_h, 1200);

    report__say(t, ", in %s of year %d", report__month(month % DEW_MONTHS),
                1 + month / DEW_MONTHS);
}

SENTENCE(drying_ends)
{
    if (n->likely <= 0) {
        report__say(
            t, "The water that building materials give off makes less than 1 "
               "point of humidity: it can be left out of account.");
        return;
    }
    report__say(t, "It makes less than 1 point of humidity after about %s",
                spell(n->likely).text);
    say_when(t, n->likely);
    if (n->high > n->low)
        report__say(t, " (%s to %s, by the half-life given)",
                    spell(n->low).text, spell(n->high).text);
    report__say(t, ".");
}

SAY(wait,
    "Wait a season: once dry, the house as it stands keeps its humidity "
    "limits (too humid in %s instead of %s, too dry in %s instead of %s).",
    HRS(n->humid_once_dry), HOURS(n->humid_now), HRS(n->dry_once_dry),
    HOURS(n->dry_now))

SENTENCE(settled)
{
    if (t->f->option == DEW_NO_OPTION)
        report__say(
            t, "Once the house is dry, none of these both brings the fresh "
               "air asked for and keeps the limits.");
    else
        report__say(
            t,
            "Once the house is dry, the %s is%s \"%s\" (too humid in %s). "
            "Choose lasting equipment by that answer.",
            n->cheapest_to_run ? "cheapest to run of those that will do"
                               : "best",
            t->f->option == t->f->other ? " still" : "", OPTION,
            HRS(n->humid_once_dry));
}

SENTENCE(idle)
{
    if (n->humid_while_idle < 0.5)
        report__say(t, "Cooling runs in all of the %s too humid.",
                    HRS(n->humid));
    else
        report__say(t,
                    "In %s of the %s too humid cooling is off, because the "
                    "house is cool enough: it dries the air only while it "
                    "runs.",
                    HOURS(n->humid_while_idle), HRS(n->humid));
}

SENTENCE(cool_large)
{
    report__say(t, "Cooling looks at least twice too large: ");
    if (n->above_half < 0.5)
        report__say(
            t, "it runs more than half of the hour in no hour of the %s", SPAN);
    else
        report__say(t,
                    "it runs more than half of the hour in only %s of the %s",
                    HRS(n->above_half), SPAN);
    report__say(
        t,
        ", and %s of the time in its busiest month, %s. A machine of half "
        "the size would run longer and dry the air more. Have the load of "
        "the rooms worked out before choosing one.",
        SHARE(n->runs), MONTHS);
}

#define EVERY(some, all) ((some) >= (all) ? "every" : "nearly every")

SENTENCE(outdoor_dries)
{
    if (round(100 * n->could_dry / n->all) >= 100) {
        report__say(t,
                    "Outdoor air is drier than the house's at %s hour of the "
                    "%s: airing dries the house.",
                    EVERY(n->could_dry, n->all), SPAN);
        return;
    }
    if (n->could_dry < 0.5) {
        report__say(t,
                    "Outdoor air is never drier than the house's: airing does "
                    "not dry the house.");
        return;
    }
    report__say(t, "Outdoor air is drier than the house's in %s of the hours",
                SHARE(n->could_dry / n->all));
    if (t->f->months != 0)
        report__say(t, ", more than half of the time in %s", MONTHS);
    report__say(t, ". Only then does airing dry the house.");
}

SENTENCE(outdoor_cannot)
{
    report__say(t, "In %s outdoor air is damper than the house's ", MONTHS);
    if (round(100 * n->cannot_dry / n->all) >= 100)
        report__say(t, "at %s hour", EVERY(n->cannot_dry, n->all));
    else
        report__say(t, "in %s of the hours", SHARE(n->cannot_dry / n->all));
    report__say(t, ": more ventilation then brings water in.");
}

static void say(struct telling *t)
{
    switch (t->f->kind) {
#define X(kind, ...)                                                           \
    case DEW_FINDING_##kind:                                                   \
        report__say_##kind(t, &t->f->number.kind);                             \
        break;
        DEW_FINDING_MAP(X, X, , , )
#undef X
    case DEW_FINDING_KINDS:
        break;
    }
}

char *dew_report_sentence(const struct dew_report *report,
                          const struct dew_finding *f, char *out, size_t size)
{
    struct telling t = {report, f, out, size};

    out[0] = '\0';
    say(&t);
    if (f->so < f->drawn && dew_verdict_group(f->kind) != DEW_GROUP_best)
        report__say(&t, " So it is in %s like yours%s.",
                    report__houses(f->so, f->drawn).text,
                    report__interval(f->so, f->drawn).text);
    return out;
}
