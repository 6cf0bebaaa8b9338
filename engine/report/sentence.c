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
    const unsigned all = (1U << DEW_MONTHS) - 1;
    struct report__word w = {""};

    if (months != 0)
        snprintf(w.text, sizeof w.text,
                 months == all ? ", in %.100s" : ", most in %.100s",
                 report__months(months).text);
    return w;
}

SENTENCE(today_humid)
{
    report__say(t,
                "Today the house is too humid (above %s) in %s h of the %s: up "
                "to %s h in one month, %s h at a stretch%s. The water comes in "
                "by ",
                SHARE(report__limits(t)->too_humid), HOURS(n->humid), SPAN,
                HOURS(n->worst_month), HOURS(n->longest), MOST);
    say_sources(t);
    report__say(t, ".");
}

SENTENCE(today_dry)
{
    report__say(
        t,
        "Today the house is too dry (below %s) in %s h of the %s, up to "
        "%s h in one month%s. The water leaves by ",
        SHARE(report__limits(t)->too_dry), HOURS(n->dry), SPAN,
        HOURS(n->worst_month), MOST);
    say_sources(t);
    report__say(t, ".");
}

SAY(today_fine,
    "Today the house keeps its limits: too humid (above %s) in %s h and "
    "too dry (below %s) in %s h of the %s.",
    SHARE(report__limits(t)->too_humid), HOURS(n->humid),
    SHARE(report__limits(t)->too_dry), HOURS(n->dry), SPAN)

SAY(coil_today,
    "The %s hours too humid could be %s to %s: how much water the blower "
    "takes back from the wet coil is not well known.%s",
    HOURS(n->likely), HOURS(n->low), HOURS(n->high),
    n->decides ? " Whether the house keeps its limits hangs on that." : "")

SAY(today_sweat, "The window glass is wet in %s h of the %s%s.",
    HOURS(n->glass_wet), SPAN, MOST)

SAY(short_heat,
    "\"%s\": heating falls short in %s h of the %s, to %s in the "
    "coldest. Warming up after a setback counts too.",
    OPTION, HOURS(n->short_of_heat), SPAN,
    report__amount(n->coldest, DEW_TEMPERATURE, t->r->system, 0).text)

SAY(saturated,
    "\"%s\": in %s h of the %s the rooms' air is as full of water as "
    "air can be (100 %%): what comes in beyond that turns to fog and "
    "wet surfaces.",
    OPTION, HOURS(n->saturated), SPAN)

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
    report__say(t, "Today's house is worked out without ");
    say_untold(t, " or ", words);
    report__say(t, ". If that is not so, the hours change: give ");
    say_untold(t, " and ", keys);
    report__say(t, ".");
}

SENTENCE(mould)
{
    static const char *const faces[DEW_SURFACES] = {
        "window glass", "window frame and glass edge", "coldest corner"};
    int now = n->index > DEW_MOULD_LIMIT;

    report__say(t, "\"%s\": mould %s on the %s: index %s in the %s", OPTION,
                now ? "can be seen" : "may come to be seen", faces[n->surface],
                report__number(n->index, 1).text, SPAN);
    report__say(
        t, now ? " (limit %s)" : ", %s after ten like it (limit %s)",
        report__number(now ? DEW_MOULD_LIMIT : n->after_ten_years, now ? 0 : 1)
            .text,
        report__number(DEW_MOULD_LIMIT, 0).text);
    if (t->f->months != 0)
        report__say(t, "; its mean humidity passes 80 %% in %s", MONTHS);
    report__say(t, ".");
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
               "point of RH: it can be left out of account.");
        return;
    }
    report__say(t, "It makes less than 1 point of RH after about %s",
                spell(n->likely).text);
    say_when(t, n->likely);
    if (n->high > n->low)
        report__say(t, " (%s to %s, by the half-life given)",
                    spell(n->low).text, spell(n->high).text);
    report__say(t, ".");
}

SAY(wait,
    "Wait a season: once dry, the house as it stands keeps its humidity "
    "limits (too humid in %s h instead of %s h, too dry in %s h instead of "
    "%s h).",
    HOURS(n->humid_once_dry), HOURS(n->humid_now), HOURS(n->dry_once_dry),
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
            "Once the house is dry, the %s is%s \"%s\" (too humid in %s "
            "h). Choose lasting equipment by that answer.",
            n->cheapest_to_run ? "cheapest to run of those that will do"
                               : "best",
            t->f->option == t->f->other ? " still" : "", OPTION,
            HOURS(n->humid_once_dry));
}

SAY(idle, "Cooling stands idle in %s of the %s hours too humid%s.",
    HOURS(n->humid_while_idle), HOURS(n->humid),
    n->humid_while_idle > n->humid / 2
        ? ": it dries the air only while there is heat to remove"
        : "")

SENTENCE(cool_large)
{
    report__say(t, "Cooling looks at least twice too large: ");
    if (n->above_half < 0.5)
        report__say(
            t, "it runs more than half of the hour in no hour of the %s", SPAN);
    else
        report__say(t,
                    "it runs more than half of the hour in only %s h of the %s",
                    HOURS(n->above_half), SPAN);
    report__say(
        t,
        ", and %s of the time in its busiest month, %s. A machine of half "
        "the size would run longer and dry the air more. Have the load of "
        "the rooms worked out before choosing one.",
        SHARE(n->runs), MONTHS);
}

SENTENCE(outdoor_dries)
{
    report__say(t, "Outdoor air could dry the house in %s of %s h",
                HOURS(n->could_dry), HOURS(n->all));
    if (t->f->months != 0)
        report__say(t, ", most of the time in %s", MONTHS);
    report__say(t, ".");
}

SAY(outdoor_cannot,
    "Outdoor air cannot dry the house in %s of the %s h of %s: more of it "
    "does not help then.",
    HOURS(n->cannot_dry), HOURS(n->all), MONTHS)

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
    if (f->near_limit > 0)
        report__say(
            &t,
            " The hours outside the limits lie near the %s h that still "
            "keep them: too near to be sure.",
            report__number(f->near_limit, 0).text);
    return out;
}
