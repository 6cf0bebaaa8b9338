/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer in a few lines: what is wrong, what to do, what it costs. */
#include "report/answer.h"

#include <math.h>
#include <string.h>

#include "dew/fresh.h"
#include "dew/surface.h"
#include "dew/wetting.h"
#include "report/telling.h"

/* degC   Air cooler than it is felt as a draught.  Common practice, no
   source. */
#define COLD_AIR 13.0

/* The house as it stands is option 0 of the question. */
static const struct dew_outcome *outcome(const struct telling *t, size_t i)
{
    return t->r->question->choices[i].outcome;
}

static const struct dew_tally *year_of(const struct telling *t, size_t i)
{
    return study__year(t->r->question, i);
}

static struct report__word hours(double h)
{
    return report__number(h, 0);
}

/* Whether the wet coil leaves an option's humid hours open; then from .. to. */
static int is_open(const struct telling *t, size_t option,
                   struct dew_estimate *e)
{
    return dew_verdict_coil(t->r->question, option, e) &&
           round(e->low) < round(e->high);
}

/* " (7 to 1,139 ...)": of the houses drawn, else where the coil leaves it
   open. */
static void say_range(struct telling *t, size_t option)
{
    const struct dew_draws *d = t->r->question->draws;
    struct dew_draws_range r;
    struct dew_estimate e;

    if (d != NULL) {
        r = dew_draws_range(d, option, DEW_DRAWN_too_humid);
        report__say(t, " (%s to %s in 8 of 10 houses like yours)",
                    hours(r.p10).text, hours(r.p90).text);
        return;
    }

    if (is_open(t, option, &e))
        report__say(t, " (%s to %s by how wet the coil stays)",
                    hours(e.low).text, hours(e.high).text);
}

static double allowed(const struct telling *t, size_t option)
{
    return study__allowed(t->r->question, outcome(t, option));
}

static double mean_co2(const struct telling *t, size_t i)
{
    return study__mean(year_of(t, i)->co2_sum, year_of(t, i)->hours);
}

/* ---- what is wrong ---------------------------------------------------------- */

static void say_stale(struct telling *t)
{
    double asked = outcome(t, 0)->required;
    int short_of = !dew_verdict_ventilates(t->r->question, 0);

    if (!short_of && !(mean_co2(t, 0) > DEW_CO2_MARK))
        return;
    report__say(t, "Stale air: CO2 averages %s ppm",
                hours(mean_co2(t, 0)).text);
    if (short_of)
        report__say(
            t, "; %s of the %s of fresh air asked for comes in",
            report__number(report__shown(dew_verdict_fresh(t->r->question, 0),
                                         DEW_FLOW, t->r->system),
                           0)
                .text,
            report__amount(asked, DEW_FLOW, t->r->system, 0).text);
    report__say(t, ". ");
}

static void say_months(struct telling *t, const struct dew_finding *f)
{
    if (f != NULL)
        report__say(t, "%s", report__most(f->months).text);
}

static void say_sources(struct telling *t, const struct dew_finding *f)
{
    if (f->source[0] == NULL)
        return;
    report__say(t, "Most water comes from ");
    for (int i = 0; i < DEW_FINDING_SOURCES && f->source[i] != NULL; i++)
        report__say(t, "%s%s", i > 0 ? ", " : "", f->source[i]);
    report__say(t, ". ");
}

static void say_humid(struct telling *t)
{
    const struct dew_finding *f =
        report__found(t->r, DEW_FINDING_today_humid, DEW_NO_OPTION);
    double h = year_of(t, 0)->too_humid;

    if (f == NULL)
        return;
    report__say(t, "Damp: above %s humidity in %s hours of the %s",
                report__percent(report__limits(t)->too_humid).text,
                hours(h).text, SPAN);
    say_range(t, 0);
    say_months(t, f);
    report__say(t, ". ");
    say_sources(t, f);
}

static void say_dry(struct telling *t)
{
    const struct dew_finding *f =
        report__found(t->r, DEW_FINDING_today_dry, DEW_NO_OPTION);

    if (f == NULL)
        return;
    report__say(t, "Dry: below %s humidity in %s hours",
                report__percent(report__limits(t)->too_dry).text,
                hours(year_of(t, 0)->too_dry).text);
    say_months(t, f);
    report__say(t, ". ");
}

static void say_surfaces(struct telling *t)
{
    double h = year_of(t, 0)->sweat[DEW_GLASS];

    if (h > allowed(t, 0))
        report__say(t, "Window glass is wet in %s hours. ", hours(h).text);
    if (report__found(t->r, DEW_FINDING_mould, 0) != NULL)
        report__say(t, "Mould would grow on the coldest surfaces. ");
}

/* What winter asks, told where it freezes. */
static void say_glass_limit(struct telling *t)
{
    const struct dew_outcome *o = outcome(t, 0);
    double factor =
        t->r->question->choices[0].c->house.surfaces[DEW_GLASS].factor;
    double coldest = INFINITY;

    for (size_t h = 0; h < o->count; h++)
        coldest = fmin(coldest, o->series.t_out[h]);
    if (coldest < 0)
        report__say(
            t, "At %s outdoors, the coldest hour, glass wets from %s. ",
            report__amount(coldest, DEW_TEMPERATURE, t->r->system, 0).text,
            report__percent(dew_house_wets_at(factor, DEW_WET_ROOM, coldest))
                .text);
}

/* The sentence of a finding, as the whole report has it. */
static void say_finding(struct telling *t, enum dew_finding_kind kind)
{
    const struct dew_finding *f = report__found(t->r, kind, DEW_NO_OPTION);
    char text[DEW_SENTENCE];

    if (f != NULL)
        report__say(t, "%s ", dew_report_sentence(t->r, f, text, sizeof text));
}

static void say_log(struct telling *t)
{
    const struct dew_beside *b = t->r->beside;

    if (b != NULL && b->rh.hours > 0)
        report__say(
            t,
            "Your log averages %s %% humidity over %s hours, the model %s "
            "%% in the same. ",
            report__number(100 * b->rh.measured, 0).text,
            hours(b->rh.hours).text,
            report__number(100 * b->rh.modelled, 0).text);
}

/* What is reckoned with for want of an answer. */
static void say_assumed(struct telling *t)
{
    if (report__found(t->r, DEW_FINDING_today_assumes, DEW_NO_OPTION) != NULL)
        report__say(t, "Fans and open windows you did not tell of are not "
                       "counted. ");
}

static void say_wrong(struct telling *t)
{
    say_log(t);
    say_stale(t);
    say_humid(t);
    say_dry(t);
    say_surfaces(t);
    say_finding(t, DEW_FINDING_drying);
    if (t->out[0] == '\0')
        report__say(t,
                    "Nothing: the house keeps its limits of humidity and has "
                    "the fresh air asked for. ");
    say_glass_limit(t);
    say_assumed(t);
}

/* ---- what to do ------------------------------------------------------------- */

static void say_best(struct telling *t, int best)
{
    size_t list[64], passing = dew_verdict_passing(t->r->question, list);

    if (best == 0) {
        report__say(t,
                    "Leave it as it is: \"%s\" brings enough fresh air, keeps "
                    "the limits and costs least. ",
                    report__option(t->r, 0).text);
        return;
    }
    report__say(t, "Choose \"%s\": of the %zu options ",
                report__option(t->r, best).text, t->r->question->count);
    report__say(t,
                passing == 1
                    ? "it alone brings enough fresh air and keeps the "
                      "limits. "
                    : "the cheapest of the %zu that bring enough fresh "
                      "air and keep the limits. ",
                passing);
}

/* "So it is in 85 of 100 houses like yours. " */
static void say_so(struct telling *t, const struct dew_finding *f)
{
    if (f != NULL && f->drawn > 0)
        report__say(t, "So it is in %s like yours. ",
                    report__houses(f->so, f->drawn).text);
}

/* " (so in 85 of 100 houses like yours)", where that is not sure. */
static struct report__word in_houses(const struct telling *t,
                                     const struct dew_finding *f)
{
    struct report__word w = {""};
    double sure = t->r->question->judging.sure_share * (double)f->drawn;

    if ((double)f->so < sure)
        snprintf(w.text, sizeof w.text, " (so in %.60s like yours)",
                 report__houses(f->so, f->drawn).text);
    return w;
}

/* The same where none will do, and what does in the others. */
static void say_none_so(struct telling *t, const struct dew_finding *f)
{
    const struct dew_draws *d = t->r->question->draws;
    size_t best, in;

    if (d == NULL || f->so == f->drawn) {
        say_so(t, f);
        return;
    }
    best = dew_draws_best(d);
    in = dew_draws_shares(d, best).best;
    report__say(t, "So in %s like yours; in %s \"%s\" is best. ",
                report__houses(f->so, f->drawn).text,
                report__of_100(in, f->drawn).text,
                report__option(t->r, (int)best).text);
}

static void say_none(struct telling *t, const struct dew_finding *f)
{
    const struct dew_tally *y;

    report__say(t, "None of the %zu options will do", t->r->question->count);
    if (f->option == DEW_NO_OPTION)
        report__say(t, ": none brings the fresh air asked for.");
    else {
        y = year_of(t, (size_t)f->option);
        report__say(
            t,
            ". Nearest is \"%s\": %s hours too humid, %s too dry, %s of wet "
            "glass.",
            report__option(t->r, f->option).text, hours(y->too_humid).text,
            hours(y->too_dry).text, hours(y->sweat[DEW_GLASS]).text);
    }
    report__say_try(t, f->option);
    report__say(t, " ");
    say_none_so(t, f);
}

/* What is best changes from house to house. */
static void say_close(struct telling *t, const struct dew_finding *f)
{
    size_t other = (size_t)f->number.best_close.other_so;

    report__say(t,
                "\"%s\" rather than \"%s\", but it is a close call: of 100 "
                "houses like yours the first is the best in %s, the other in "
                "%s. ",
                report__option(t->r, f->option).text,
                report__option(t->r, f->other).text,
                report__of_100(f->so, f->drawn).text,
                report__of_100(other, f->drawn).text);
}

static void say_choice(struct telling *t)
{
    const struct dew_finding *f =
        report__found(t->r, DEW_FINDING_best_none, DEW_NO_OPTION);
    const struct dew_finding *close =
        report__found(t->r, DEW_FINDING_best_close, DEW_NO_OPTION);

    if (f != NULL) {
        say_none(t, f);
    } else if (close != NULL) {
        say_close(t, close);
    } else if (t->r->verdict->best >= 0) {
        say_best(t, t->r->verdict->best);
        say_so(t, report__found(t->r, DEW_FINDING_best, DEW_NO_OPTION));
    } else if (report__picked(t->r) >= 0) {
        report__say(t,
                    "Several will do; \"%s\" is the cheapest to run. Prices to "
                    "install are missing (costs.install). ",
                    report__option(t->r, report__picked(t->r)).text);
    }
}

/* Will ventilation alone do it? */
static void say_air(struct telling *t)
{
    const struct dew_finding *fixes =
        report__found(t->r, DEW_FINDING_air_fixes, DEW_NO_OPTION);
    const struct dew_finding *fails =
        report__found(t->r, DEW_FINDING_air_fails, DEW_NO_OPTION);
    const struct dew_finding *f = fixes != NULL ? fixes : fails;

    if (f == NULL)
        return;
    if (fixes == NULL) {
        report__say(t,
                    "Ventilation alone does not cure the damp: \"%s\" leaves "
                    "%s hours",
                    report__option(t->r, f->option).text,
                    hours(year_of(t, (size_t)f->option)->too_humid).text);
        say_months(t, f);
    } else if (year_of(t, (size_t)f->option)->too_dry >
               allowed(t, (size_t)f->option)) {
        report__say(t,
                    "Ventilation alone cures the damp but dries too far (%s "
                    "hours)",
                    hours(year_of(t, (size_t)f->option)->too_dry).text);
    } else {
        report__say(t, "Ventilation alone cures the damp");
    }
    report__say(t, ". ");
}

static void say_core(struct telling *t)
{
    static const struct {
        enum dew_finding_kind kind;
        const char *words;
    } said[] = {{DEW_FINDING_core_enthalpy, "the one that passes moisture"},
                {DEW_FINDING_core_heat, "heat only"},
                {DEW_FINDING_core_close, "either will do"}};

    for (size_t k = 0; k < sizeof said / sizeof *said; k++) {
        const struct dew_finding *f =
            report__found(t->r, said[k].kind, DEW_NO_OPTION);
        const struct dew_tally *heat, *moist;

        if (f == NULL || f->other < 0)
            continue;
        heat = year_of(t, (size_t)f->option);
        moist = year_of(t, (size_t)f->other);
        report__say(
            t,
            "Core: %s. Heat only is too humid in %s hours and too dry in "
            "%s, the other in %s and %s. ",
            said[k].words, hours(heat->too_humid).text,
            hours(heat->too_dry).text, hours(moist->too_humid).text,
            hours(moist->too_dry).text);
        return;
    }
}

static void say_dryer(struct telling *t)
{
    const struct dew_finding *f =
        report__found(t->r, DEW_FINDING_dryer_needed, DEW_NO_OPTION);

    if (f != NULL)
        report__say(t, "A dehumidifier is needed to stay below %s%s. ",
                    report__percent(report__limits(t)->too_humid).text,
                    in_houses(t, f).text);
    f = report__found(t->r, DEW_FINDING_dryer_not_needed, DEW_NO_OPTION);
    if (f != NULL)
        report__say(t, "A dehumidifier is not needed%s. ",
                    in_houses(t, f).text);
}

/* How cold its air comes in, told where someone would feel it. */
static void say_comfort(struct telling *t)
{
    size_t i = report__hand_option(t->r);
    const struct dew_tally *y = year_of(t, i);

    if (!(y->duty.vent > 0) || !(y->supply_t_min < COLD_AIR))
        return;
    report__say(
        t, "Its air comes in at %s in the coldest hour",
        report__amount(y->supply_t_min, DEW_TEMPERATURE, t->r->system, 0).text);
    if (y->frost_hours >= 0.5)
        report__say(t, "; it defrosts %s hours", hours(y->frost_hours).text);
    report__say(t, ". ");
}

/* The rules that people quote, by name. */
static void say_rules(struct telling *t)
{
    struct dew_dwelling home = dew_fresh_dwelling(t->r->question);
    double now = dew_house_rate(DEW_RATE_622_2013, &home);
    double then = dew_house_rate(DEW_RATE_622_2010, &home);

    if (isfinite(now) && isfinite(then))
        report__say(
            t, "Fresh air: %s by ASHRAE 62.2 since 2013, %s before. ",
            report__amount(now, DEW_FLOW, t->r->system, 0).text,
            report__number(report__shown(then, DEW_FLOW, t->r->system), 0)
                .text);
}

static void say_do(struct telling *t)
{
    say_choice(t);
    say_air(t);
    say_dryer(t);
    say_core(t);
    say_comfort(t);
    say_rules(t);
    say_finding(t, DEW_FINDING_wait);
    say_finding(t, DEW_FINDING_settled);
}

/* ---- what it costs, and how sure ------------------------------------------- */

static void say_install(struct telling *t, const struct dew_bill *bill)
{
    const struct dew_estimate *e = &bill->install;

    if (isnan(e->likely)) {
        report__say(t, "no price given (costs.install). ");
        return;
    }
    report__say(t, "%s to install", report__money(t->r, e->likely).text);
    if (round(e->low) < round(e->high))
        report__say(t, " (%s to %s)", report__money(t->r, e->low).text,
                    report__money(t->r, e->high).text);
}

static void say_running(struct telling *t, const struct dew_bill *bill)
{
    struct dew_bill base = dew_verdict_bill(t->r->question, 0);
    double more = bill->yearly.likely - base.yearly.likely;

    if (isnan(bill->install.likely))
        report__say(t, "To run and keep: ");
    else
        report__say(t, ", ");
    report__say(t, "%s a year %s than today",
                report__money(t->r, fabs(more)).text,
                more < 0 ? "less" : "more");
    if (more >= 0)
        report__say(t, ": it saves no money");
    report__say(t, ". ");
}

static void say_bill(struct telling *t, size_t option)
{
    struct dew_bill bill = dew_verdict_bill(t->r->question, option);

    if (isnan(bill.yearly.likely))
        report__say(t, "No prices are given, so no cost is told (prices). ");
    else if (option > 0) {
        say_install(t, &bill);
        say_running(t, &bill);
    } else
        report__say(t, "Today's house costs %s a year to run and keep. ",
                    report__money(t->r, bill.yearly.likely).text);
}

static void say_sure(struct telling *t, size_t option)
{
    struct dew_estimate e;
    char sure[REPORT__SURE];

    if (t->r->question->draws == NULL && option > 0 && is_open(t, option, &e))
        report__say(t,
                    "It could be too humid in %s to %s hours by how wet the "
                    "coil stays. ",
                    hours(e.low).text, hours(e.high).text);
    report__say(t, "%s", report__sure(t->r, sure, sizeof sure));
}

static void say_cost(struct telling *t)
{
    size_t option = report__hand_option(t->r);

    if (option > 0)
        report__say(t, "\"%s\": ", report__option(t->r, (int)option).text);
    say_bill(t, option);
    say_sure(t, option);
}

/* ---- all three -------------------------------------------------------------- */

const char *report__answer_head(enum report__answer which)
{
    static const char *const heads[REPORT__ANSWERS] = {
        "Wrong:", "Do:", "Cost:"};

    return heads[which];
}

char *report__answer(const struct dew_report *report, enum report__answer which,
                     char *out, size_t size)
{
    static void (*const say[REPORT__ANSWERS])(struct telling *) = {
        say_wrong, say_do, say_cost};
    struct telling t = {.r = report, .out = out, .size = size};
    size_t length;

    out[0] = '\0';
    say[which](&t);
    for (length = strlen(out); length > 0 && out[length - 1] == ' ';)
        out[--length] = '\0';
    return out;
}
