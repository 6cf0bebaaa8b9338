/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of options: their columns. */
#include "report/option_columns.h"

#include <math.h>
#include <string.h>

#define CELL(name, expression)                                                 \
    static struct report__word name(const struct dew_report *r, size_t i)      \
    {                                                                          \
        return expression;                                                     \
    }

static double worst_month(const struct dew_report *r, size_t i)
{
    const struct dew_outcome *o = r->question->choices[i].outcome;
    double worst = 0;

    for (int m = 0; m < DEW_MONTHS; m++)
        worst = fmax(worst, o->month[m].too_humid);
    return worst;
}

static struct report__word delivered(const struct dew_report *r, size_t i)
{
    struct report__word w = report__number(
        report__shown(dew_verdict_fresh(r->question, i), DEW_FLOW, r->system),
        0);

    if (!dew_verdict_ventilates(r->question, i))
        memcpy(w.text + strlen(w.text), "*", sizeof "*");
    return w;
}

static struct report__word asked(const struct dew_report *r, size_t i)
{
    double required = r->question->choices[i].outcome->required;

    return report__number(
        required > 0 ? report__shown(required, DEW_FLOW, r->system) : NAN, 0);
}

static struct report__word coldest_supply(const struct dew_report *r, size_t i)
{
    const struct dew_tally *y = study__year(r->question, i);

    return report__number(
        y->duty.vent > 0
            ? report__shown(y->supply_t_min, DEW_TEMPERATURE, r->system)
            : NAN,
        0);
}

static struct report__word payback(const struct dew_report *r, size_t i)
{
    struct dew_bill base = dew_verdict_bill(r->question, 0);
    struct dew_bill bill = dew_verdict_bill(r->question, i);
    double years = dew_cost_payback(&base, &bill).likely;
    struct report__word never = {"never"};

    if (i == 0 || bill.install.likely <= base.install.likely)
        return report__number(NAN, 0);
    return isinf(years) ? never : report__number(years, 1);
}

CELL(humid, report__number(study__year(r->question, i)->too_humid, 0))
CELL(worst, report__number(worst_month(r, i), 0))
CELL(longest, report__number(study__year(r->question, i)->longest_too_humid, 0))
CELL(dry, report__number(study__year(r->question, i)->too_dry, 0))
CELL(could, report__number(study__year(r->question, i)->could_dry, 0))
CELL(energy,
     report__number(study__energy(study__year(r->question, i)) / CORE__KWH, 0))
CELL(yearly, report__money(r, dew_verdict_bill(r->question, i).yearly.likely))
CELL(install, report__price(r, dew_verdict_bill(r->question, i).install.likely))
CELL(present, report__price(r, dew_verdict_bill(r->question, i).present.likely))
CELL(rh_mean,
     report__number(100 * study__mean(study__year(r->question, i)->rh_sum,
                                      study__year(r->question, i)->hours),
                    0))
CELL(rh_95, report__number(100 * r->question->choices[i].outcome->rh_95, 0))
CELL(glass, report__number(study__year(r->question, i)->sweat[DEW_GLASS], 0))
CELL(corner,
     report__number(study__year(r->question, i)->surface_80[DEW_CORNER], 0))
static double worst_mould(const struct dew_report *r, size_t i)
{
    const struct dew_face *f = r->question->choices[i].outcome->faces;

    return fmax(f[DEW_GLASS].mould,
                fmax(f[DEW_EDGE].mould, f[DEW_CORNER].mould));
}

CELL(mould, report__number(worst_mould(r, i), 1))
CELL(co2, report__number(study__mean(study__year(r->question, i)->co2_sum,
                                     study__year(r->question, i)->hours),
                         0))
CELL(co2_high, report__number(study__year(r->question, i)->co2_high, 0))
CELL(frost, report__number(study__year(r->question, i)->frost_hours, 0))

static struct report__word fresh(const struct dew_report *r, size_t i)
{
    return report__amount(dew_verdict_fresh(r->question, i), DEW_FLOW,
                          r->system, 0);
}

/* Hours one, two, three points of humidity past the limit. */
static struct report__word humid_by(const struct dew_report *r, size_t i)
{
    const double *by = study__year(r->question, i)->humid_by;
    struct report__word w;

    snprintf(w.text, sizeof w.text, "%.30s, %.30s, %.30s",
             report__number(by[0], 0).text, report__number(by[1], 0).text,
             report__number(by[2], 0).text);
    return w;
}

/* ---- of the houses drawn ------------------------------------------------------ */

#define SHARE_OF(member)                                                       \
    CELL(member,                                                               \
         report__of_100_short(dew_draws_shares(r->question->draws, i).member,  \
                              r->question->draws->count))
SHARE_OF(keeps)
SHARE_OF(ventilates)
SHARE_OF(best)

/* A figure of an option: one house in ten below, half below, one in ten
   above. */
#define QUANTILE(what, end, member, show)                                      \
    CELL(                                                                      \
        what##_##end,                                                          \
        show(r,                                                                \
             dew_draws_range(r->question->draws, i, DEW_DRAWN_##what).member))
#define ENDS_OF(what, show)                                                    \
    QUANTILE(what, low, p10, show)                                             \
    QUANTILE(what, high, p90, show)
#define RANGE_OF(what, show)                                                   \
    ENDS_OF(what, show)                                                        \
    QUANTILE(what, mid, p50, show)

static struct report__word as_hours(const struct dew_report *r, double x)
{
    (void)r;
    return report__number(x, 0);
}

static struct report__word as_kwh(const struct dew_report *r, double x)
{
    (void)r;
    return report__number(x / CORE__KWH, 0);
}

static struct report__word as_money(const struct dew_report *r, double x)
{
    return isnan(x) ? report__number(x, 0) : report__money(r, x);
}

RANGE_OF(too_humid, as_hours)
RANGE_OF(too_dry, as_hours)
RANGE_OF(short_of_air, as_hours)
RANGE_OF(glass_wet, as_hours)
ENDS_OF(energy, as_kwh)
RANGE_OF(running, as_money)
RANGE_OF(present, as_money)

/* ---- limits ----------------------------------------------------------------- */

static struct report__word kept_hours(const struct dew_report *r)
{
    return report__number(
        study__allowed(r->question, r->question->choices[0].outcome), 0);
}

static struct report__word fresh_asked(const struct dew_report *r)
{
    double flow = r->question->choices[0].outcome->required;

    return report__amount(flow > 0 ? flow : NAN, DEW_FLOW, r->system, 0);
}

static struct report__word co2_mark(const struct dew_report *r)
{
    (void)r;
    return report__number(DEW_CO2_MARK, 0);
}

static struct report__word no_limit(const struct dew_report *r)
{
    struct report__word w = {""};

    (void)r;
    return w;
}

static const struct report__column air_columns[] = {
    {{"too", "humid", "hours"}, 6, humid, NULL},
    {{"worst", "month", "hours"}, 6, worst, NULL},
    {{"at a", "stretch", "hours"}, 8, longest, NULL},
    {{"too", "dry", "hours"}, 6, dry, NULL},
    {{"could", "dry", "hours"}, 6, could, NULL},
    {{"fresh", "air", "flow"}, 7, delivered, NULL},
    {{"asked", "for", "flow"}, 6, asked, NULL},
    {{"energy", "a year", "kWh"}, 7, energy, NULL},
};

static const struct report__column more_columns[] = {
    {{"mean", "RH", "%"}, 5, rh_mean, NULL},
    {{"95 %", "below", "%"}, 6, rh_95, NULL},
    {{"wet", "glass", "hours"}, 6, glass, NULL},
    {{"corner", "> 80 %", "hours"}, 7, corner, NULL},
    {{"mould", "index", "of 6"}, 6, mould, NULL},
    {{"mean", "CO2", "ppm"}, 6, co2, NULL},
    {{"CO2", "> 1,000", "hours"}, 8, co2_high, NULL},
    {{"supply", "coldest", "temp"}, 8, coldest_supply, NULL},
    {{"de-", "frost", "hours"}, 6, frost, NULL},
};

static const struct report__column money_columns[] = {
    {{"to", "install", "once"}, 12, install, NULL},
    {{"to run", "and keep", "a year"}, 12, yearly, NULL},
    {{"all years,", "in today's", "money"}, 12, present, NULL},
    {{"pays", "back", "years"}, 10, payback, NULL},
};

static const struct report__column glance_columns[] = {
    {{"Hours too humid"}, 0, humid, kept_hours},
    {{"... by 1, 2, 3 points or more"}, 0, humid_by, no_limit},
    {{"Fresh air brought"}, 0, fresh, fresh_asked},
    {{"Mean CO2, ppm"}, 0, co2, co2_mark},
    {{"Hours too dry"}, 0, dry, kept_hours},
    {{"Hours of wet glass"}, 0, glass, kept_hours},
    {{"Energy a year, kWh"}, 0, energy, NULL},
    {{"To install", "money"}, 0, install, NULL},
    {{"To run and keep, a year", "money"}, 0, yearly, NULL},
};

/* What the choice is made by, in one table. */
static const struct report__column brief_columns[] = {
    {{"too", "humid", "hours"}, 7, humid, NULL},
    {{"worst", "month", "hours"}, 6, worst, NULL},
    {{"too", "dry", "hours"}, 6, dry, NULL},
    {{"fresh", "air", "flow"}, 6, delivered, NULL},
    {{"mean", "CO2", "ppm"}, 7, co2, NULL},
    {{"energy", "a year", "kWh"}, 8, energy, NULL},
    {{"to", "install", "once"}, 9, install, NULL},
    {{"to run", "and keep", "a year"}, 9, yearly, NULL},
};

static const struct report__column sure_columns[] = {
    {{"too", "humid", "hours"}, 6, humid, NULL},
    {{"8 in", "10:", "from"}, 6, too_humid_low, NULL},
    {{"", "", "to"}, 6, too_humid_high, NULL},
    {{"too", "dry", "hours"}, 6, dry, NULL},
    {{"fresh", "air", "flow"}, 6, delivered, NULL},
    {{"keeps", "the", "limits"}, 7, keeps, NULL},
    {{"is", "the", "best"}, 5, best, NULL},
    {{"to", "install", "once"}, 8, install, NULL},
    {{"to", "run", "a year"}, 7, yearly, NULL},
};

#define LOW_HIGH(head, first, what, width)                                     \
    {{head, first, "low"}, width, what##_low, NULL},                           \
    {                                                                          \
        {head, first, "high"}, width, what##_high, NULL                        \
    }
#define LOW_MID_HIGH(head, first, what, width)                                 \
    {{head, first, "low"}, width, what##_low, NULL},                           \
        {{head, first, "mid"}, width, what##_mid, NULL},                       \
    {                                                                          \
        {head, first, "high"}, width, what##_high, NULL                        \
    }

static const struct report__column houses_columns[] = {
    {{"keeps", "limits", "of 100"}, 8, keeps, NULL},
    {{"brings", "the air", "of 100"}, 8, ventilates, NULL},
    {{"is the", "best", "of 100"}, 8, best, NULL},
    LOW_MID_HIGH("too", "humid", too_humid, 8),
};

static const struct report__column house_hours_columns[] = {
    LOW_MID_HIGH("too", "dry", too_dry, 6),
    LOW_MID_HIGH("short", "of air", short_of_air, 7),
    LOW_MID_HIGH("glass", "wet", glass_wet, 6),
};

static const struct report__column house_money_columns[] = {
    LOW_HIGH("kWh", "year", energy, 6),
    LOW_MID_HIGH("to run", "a year", running, 7),
    LOW_MID_HIGH("all", "years", present, 8),
};

#define TABLE(list)                                                            \
    {                                                                          \
        list, sizeof list / sizeof *list                                       \
    }
static const struct table {
    const struct report__column *list;
    size_t count;
} tables[] = {TABLE(air_columns),        TABLE(more_columns),
              TABLE(money_columns),      TABLE(glance_columns),
              TABLE(brief_columns),      TABLE(sure_columns),
              TABLE(houses_columns),     TABLE(house_hours_columns),
              TABLE(house_money_columns)};

const struct report__column *report__columns(enum report__table which,
                                             size_t *count)
{
    *count = tables[which].count;
    return tables[which].list;
}

const char report__columns_told[] =
    "Could dry: outdoor air held less water than indoors. RH: relative "
    "humidity. 95 % below: so in 95 of 100 hours. Corner: the coldest of the "
    "outer walls. Mould index: of the worst surface, 3 is seen by eye.";

int report__says_how_near(const struct report__column *row)
{
    return row->cell == humid_by;
}

const char report__houses_told[] =
    "Of 100 houses like yours. Low: 1 house in 10 has less; mid: half have "
    "less; high: 1 in 10 has more.";

const char *report__column_head(const struct dew_report *r, const char *head)
{
    if (strcmp(head, "flow") == 0)
        return report__unit(DEW_FLOW, r->system)->name;
    if (strcmp(head, "temp") == 0)
        return report__unit(DEW_TEMPERATURE, r->system)->name;
    return head;
}
