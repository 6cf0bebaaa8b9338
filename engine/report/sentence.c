/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings in plain words, their numbers inside: the house and its water. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "report/telling.h"

void dew__say(struct telling *t, const char *format, ...)
{
    size_t at = strlen(t->out);
    va_list args;

    va_start(args, format);
    vsnprintf(t->out + at, t->size - at, format, args);
    va_end(args);
}

const char *dew__in_percent(double share, struct dew__word *w)
{
    struct dew__word n = dew__number(100 * share, 0);

    snprintf(w->text, sizeof w->text, "%.20s %%", n.text);
    return w->text;
}

const struct dew_limits *dew__limits(const struct telling *t)
{
    return &t->r->question->choices[0].c->limits;
}

struct dew__word dew__per_day(const struct telling *t, double kg)
{
    return dew__amount(kg / 86400, DEW_WATER_RATE, t->r->system, 1);
}

/* What would print as nothing is no source worth a name. */
static int prints_as_nothing(const struct telling *t, double kg)
{
    return dew__shown(kg / 86400, DEW_WATER_RATE, t->r->system) < 0.05;
}

static void say_sources(struct telling *t)
{
    int count = 0;

    while (count < DEW_FINDING_SOURCES && t->f->source[count] != NULL &&
           !prints_as_nothing(t, t->f->source_kg[count]))
        count++;
    for (int i = 0; i < count; i++)
        dew__say(t, "%s%s (%s)",
                 i == 0           ? ""
                 : i == count - 1 ? " and "
                                  : ", ",
                 t->f->source[i], dew__per_day(t, t->f->source_kg[i]).text);
    if (count == 0)
        dew__say(t, "no flow above zero");
}

void dew__say_most(struct telling *t)
{
    const unsigned all = (1U << DEW_MONTHS) - 1;

    if (t->f->months != 0)
        dew__say(t, t->f->months == all ? ", in %s" : ", most in %s", MONTHS);
}

void dew__say_today_humid(struct telling *t)
{
    struct dew__word limit;

    dew__say(t,
             "Today the house is too humid (above %s) in %s h of the %s: up "
             "to %s h in one month, %s h at a stretch",
             dew__in_percent(dew__limits(t)->too_humid, &limit), HOURS(0), SPAN,
             HOURS(1), HOURS(2));
    dew__say_most(t);
    dew__say(t, ". The water comes in by ");
    say_sources(t);
    dew__say(t, ".");
}

void dew__say_today_dry(struct telling *t)
{
    struct dew__word limit;

    dew__say(
        t,
        "Today the house is too dry (below %s) in %s h of the %s, up to %s h "
        "in one month",
        dew__in_percent(dew__limits(t)->too_dry, &limit), HOURS(0), SPAN,
        HOURS(1));
    dew__say_most(t);
    dew__say(t, ". The water leaves by ");
    say_sources(t);
    dew__say(t, ".");
}

void dew__say_today_fine(struct telling *t)
{
    struct dew__word humid, dry;

    dew__say(
        t,
        "Today the house keeps its limits: too humid (above %s) in %s h and "
        "too dry (below %s) in %s h of the %s.",
        dew__in_percent(dew__limits(t)->too_humid, &humid), HOURS(0),
        dew__in_percent(dew__limits(t)->too_dry, &dry), HOURS(1), SPAN);
}

void dew__say_coil_today(struct telling *t)
{
    dew__say(t,
             "The %s hours too humid could be %s to %s: how much water the "
             "blower takes back from the wet coil is not well known.",
             HOURS(0), HOURS(1), HOURS(2));
    if (t->f->value[3] > 0)
        dew__say(t, " Whether the house keeps its limits hangs on that.");
}

void dew__say_today_sweat(struct telling *t)
{
    dew__say(t, "The window glass is wet in %s h of the %s", HOURS(0), SPAN);
    dew__say_most(t);
    dew__say(t, ".");
}

void dew__say_short_heat(struct telling *t)
{
    struct dew__word coldest =
        dew__amount(t->f->value[1], DEW_TEMPERATURE, t->r->system, 0);

    dew__say(t,
             "\"%s\": heating falls short in %s h of the %s, to %s in the "
             "coldest. Warming up after a setback counts too.",
             OPTION, HOURS(0), SPAN, coldest.text);
}

void dew__say_saturated(struct telling *t)
{
    dew__say(t,
             "\"%s\": in %s h of the %s the rooms' air is as full of water as "
             "air can be (100 %%): what comes in beyond that turns to fog and "
             "wet surfaces.",
             OPTION, HOURS(0), SPAN);
}

enum { ASKED = 5 }; /* bits of enum dew_untold */

/* "a bath fan, a hood or cooling": words of the bits that are set. */
static void say_untold(struct telling *t, unsigned untold, const char *last,
                       const char *const words[ASKED])
{
    int left = 0;

    for (int i = 0; i < ASKED; i++)
        left += (untold & 1U << i) != 0;
    for (int i = 0; i < ASKED; i++)
        if (untold & 1U << i)
            dew__say(t, "%s%s", words[i],
                     --left == 0 ? ""
                     : left == 1 ? last
                                 : ", ");
}

void dew__say_today_assumes(struct telling *t)
{
    /* in the order of the bits of enum dew_untold */
    static const char *const words[ASKED] = {
        "a bath fan", "a kitchen hood", "a clothes dryer that blows outdoors",
        "cooling", "open windows"};
    static const char *const keys[ASKED] = {
        "bath_fan", "range_hood", "clothes_dryer", "cooling", "airing"};
    unsigned untold = (unsigned)t->f->value[0];

    dew__say(t, "Today's house is worked out without ");
    say_untold(t, untold, " or ", words);
    dew__say(t, ". If that is not so, the hours change: give ");
    say_untold(t, untold, " and ", keys);
    dew__say(t, ".");
}

void dew__say_mould(struct telling *t)
{
    static const char *const faces[DEW_SURFACES] = {
        "window glass", "window frame and glass edge", "coldest corner"};
    int now = t->f->value[1] > DEW_MOULD_LIMIT;

    dew__say(t, "\"%s\": mould %s on the %s: index %s in the %s", OPTION,
             now ? "can be seen" : "may come to be seen",
             faces[(int)t->f->value[0]], dew__number(t->f->value[1], 1).text,
             SPAN);
    dew__say(
        t, now ? " (limit %s)" : ", %s after ten like it (limit %s)",
        dew__number(now ? DEW_MOULD_LIMIT : t->f->value[2], now ? 0 : 1).text,
        dew__number(DEW_MOULD_LIMIT, 0).text);
    if (t->f->months != 0)
        dew__say(t, "; its mean humidity passes 80 %% in %s", MONTHS);
    dew__say(t, ".");
}

void dew__say_drying(struct telling *t)
{
    struct dew__word part;

    dew__say(
        t,
        "Building materials still give off %s, %s of all the water that comes "
        "in. That part goes away by itself: wait a season before buying "
        "equipment for it.",
        dew__per_day(t, t->f->value[1]).text,
        dew__in_percent(t->f->value[0], &part));
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

/* ", in March of year 2": the month that lies so many hours into the run. */
static void say_when(struct telling *t, double hours)
{
    const double month_h = 8760.0 / DEW_MONTHS;
    int first = t->r->dates != NULL ? t->r->dates[0].month - 1 : 0;
    int month = first + (int)fmin(hours / month_h, 1200);

    dew__say(t, ", in %s of year %d", dew__month(month % DEW_MONTHS),
             1 + month / DEW_MONTHS);
}

void dew__say_drying_ends(struct telling *t)
{
    struct dew__word likely, low, high;

    if (t->f->value[0] <= 0) {
        dew__say(t,
                 "The water that building materials give off makes less than 1 "
                 "point of RH: it can be left out of account.");
        return;
    }
    dew__say(t, "It makes less than 1 point of RH after about %s",
             spell(t->f->value[0], &likely));
    say_when(t, t->f->value[0]);
    if (t->f->value[2] > t->f->value[1])
        dew__say(t, " (%s to %s, by the half-life given)",
                 spell(t->f->value[1], &low), spell(t->f->value[2], &high));
    dew__say(t, ".");
}

void dew__say_wait(struct telling *t)
{
    dew__say(
        t,
        "Wait a season: once dry, the house as it stands keeps its humidity "
        "limits (too humid in %s h instead of %s h, too dry in %s h instead of "
        "%s h).",
        HOURS(0), HOURS(1), HOURS(2), HOURS(3));
}

void dew__say_settled(struct telling *t)
{
    if (t->f->option == DEW_NO_OPTION)
        dew__say(t,
                 "Once the house is dry, none of these both brings the fresh "
                 "air asked for and keeps the limits.");
    else
        dew__say(t,
                 "Once the house is dry, the %s is%s \"%s\" (too humid in %s "
                 "h). Choose lasting equipment by that answer.",
                 t->f->value[1] > 0 ? "cheapest to run of those that will do"
                                    : "best",
                 t->f->option == t->f->other ? " still" : "", OPTION, HOURS(0));
}

void dew__say_idle(struct telling *t)
{
    dew__say(t, "Cooling stands idle in %s of the %s hours too humid", HOURS(0),
             HOURS(1));
    if (t->f->value[0] > t->f->value[1] / 2)
        dew__say(t, ": it dries the air only while there is heat to remove");
    dew__say(t, ".");
}

void dew__say_cool_large(struct telling *t)
{
    struct dew__word part;

    dew__say(t, "Cooling looks at least twice too large: ");
    if (t->f->value[0] < 0.5)
        dew__say(t, "it runs more than half of the hour in no hour of the %s",
                 SPAN);
    else
        dew__say(t, "it runs more than half of the hour in only %s h of the %s",
                 HOURS(0), SPAN);
    dew__say(t,
             ", and %s of the time in its busiest month, %s. A machine of half "
             "the size would run longer and dry the air more. Have the load of "
             "the rooms worked out before choosing one.",
             dew__in_percent(t->f->value[1], &part), MONTHS);
}

void dew__say_outdoor_dries(struct telling *t)
{
    dew__say(t, "Outdoor air could dry the house in %s of %s h", HOURS(0),
             HOURS(1));
    if (t->f->months != 0)
        dew__say(t, ", most of the time in %s", MONTHS);
    dew__say(t, ".");
}

void dew__say_outdoor_cannot(struct telling *t)
{
    dew__say(
        t,
        "Outdoor air cannot dry the house in %s of the %s h of %s: more of it "
        "does not help then.",
        HOURS(1), HOURS(2), MONTHS);
}

char *dew_report_sentence(const struct dew_report *report,
                          const struct dew_finding *f, char *out, size_t size)
{
    static void (*const sentence[])(struct telling * t) = {
#define X(name) dew__say_##name,
        DEW_FINDING_MAP(X)
#undef X
    };
    struct telling t = {report, f, out, size};

    out[0] = '\0';
    if ((unsigned)f->kind < DEW_FINDING_KINDS)
        sentence[f->kind](&t);
    if (f->near_limit > 0)
        dew__say(&t,
                 " The hours outside the limits lie near the %s h that still "
                 "keep them: too near to be sure.",
                 dew__number(f->near_limit, 0).text);
    return out;
}
