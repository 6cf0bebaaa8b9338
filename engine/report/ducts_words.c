/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the states of a layout mean, in sentences with their figures. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "report/ducts.h"

#define AIR(q) report__air((q), system).text
#define PA(p)  report__pascals(p).text

static void say(struct report__said *said, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static void say(struct report__said *said, const char *format, ...)
{
    va_list args;

    if (said->count == REPORT__SAID)
        return;
    va_start(args, format);
    vsnprintf(said->text[said->count++], REPORT__SAID_LONG, format, args);
    va_end(args);
}

static struct report__word report__pascals(double pa)
{
    struct report__word n = report__number(pa, fabs(pa) < 9.5 ? 1 : 0), w;

    snprintf(w.text, sizeof w.text, "%.100s Pa", n.text);
    return w;
}

/* A network written out is tied where it has a blower of its own. */
int report__told_tied(const struct report__told *t)
{
    const struct dew_duct_written *w = t->layout.written;
    int blower = 0;

    if (w == NULL)
        return t->layout.kind != DEW_LAYOUT_own_ducts;
    for (size_t i = 0; i < w->run_count; i++)
        blower |= w->runs[i].role == DEW_ROLE_BLOWER;
    return blower;
}

static int tied_to_return(const struct report__told *t)
{
    return t->layout.kind == DEW_LAYOUT_return_tie ||
           t->layout.kind == DEW_LAYOUT_mix;
}

static int stale_from_return(const struct report__told *t)
{
    return t->layout.kind == DEW_LAYOUT_return_tie ||
           t->layout.kind == DEW_LAYOUT_return_to_supply;
}

static const struct dew_duct_state *on(const struct report__told *t, int blower)
{
    return &t->states[DEW_VENT_ON][blower];
}

static const char *blowers(const struct report__told *t)
{
    return t->layout.handler_count > 1 ? "blowers" : "blower";
}

const char report__told_bare[] =
    "The network is written out run by run: no sketch, parts or sizes are told "
    "of it.";

const char *report__told_kind(const struct report__told *t)
{
    return t->layout.written != NULL ? "a network written out run by run"
                                     : dew_layout_text(t->layout.kind);
}

char *report__told_said(const struct report__told *t, char *out, size_t size)
{
    static const char *const many[] = {"no air handler", "one air handler",
                                       "two air handlers",
                                       "three air handlers"};

    snprintf(out, size, "%s; %s, %s.", report__told_kind(t),
             t->layout.vent_count > 1      ? "a ventilator for each"
             : t->layout.handler_count > 1 ? "one ventilator shared"
                                           : "one ventilator",
             many[t->layout.handler_count]);
    out[0] = (char)(out[0] >= 'a' ? out[0] - 'a' + 'A' : out[0]);
    return out;
}

/* ---- where the air goes -------------------------------------------------- */

/* "; 57 % (52 to 63 %) goes straight back out" */
static struct report__word straight_back(const struct report__told *t, int b)
{
    const struct dew_duct_state *s = on(t, b);
    struct report__word w = {""};
    const double told = 0.005;
    char range[60] = "";

    if (!(s->short_circuit_share > told))
        return w;
    if (t->longest[b] - t->shortest[b] > 2 * told)
        snprintf(range, sizeof range, " (%.20s to %.20s)",
                 report__number(100 * t->shortest[b], 0).text,
                 report__percent(t->longest[b]).text);
    snprintf(w.text, sizeof w.text, "; %.20s%s goes straight back out",
             report__percent(s->short_circuit_share).text, range);
    return w;
}

static void say_reach_in(const struct report__told *t, int b, const char *when,
                         enum dew_system system, struct report__said *said)
{
    const struct dew_duct_state *s = on(t, b);

    say(said,
        "%s: %s of outdoor air is drawn in and %s of it reaches the "
        "rooms%s.",
        when, AIR(s->fresh_gross), AIR(s->fresh_delivered),
        straight_back(t, b).text);
}

static void say_reach(const struct report__told *t, enum dew_system system,
                      struct report__said *said)
{
    char when[60];
    int full = report__told_full(t);

    if (!report__told_tied(t) || t->layout.handler_count == 0) {
        say_reach_in(t, 0, "Ventilator on", system, said);
        return;
    }
    snprintf(when, sizeof when, "Ventilator on, %s off", blowers(t));
    say_reach_in(t, 0, when, system, said);
    snprintf(when, sizeof when, "Ventilator on, %s at full flow", blowers(t));
    say_reach_in(t, full, when, system, said);
    if (on(t, full)->at_coil > 0.05 * on(t, full)->fresh_delivered)
        say(said,
            "%s of that passes the cooling coil before it reaches a "
            "room.",
            AIR(on(t, full)->at_coil));
}

/* Where the rooms are reached by ducts of which the fresh air knows nothing. */
static void say_grilles(const struct report__told *t, enum dew_system system,
                        struct report__said *said)
{
    double by_return = 0;

    for (int k = 0; k < t->layout.handler_count; k++)
        by_return += on(t, 0)->fresh_at_return[k];
    if (tied_to_return(t) && by_return > 0.3 * on(t, 0)->fresh_delivered)
        say(said,
            "With the %s off %s of it comes out of the return grilles, "
            "near the air handler and not in the bedrooms.",
            blowers(t), AIR(by_return));
}

double report__told_to_rooms(const struct report__told *t,
                             const struct dew_duct_state *s, int k)
{
    double sum = s->fresh_at_return[k];

    for (int g = 0; g < t->layout.grille_count; g++)
        if (t->layout.grilles[g].handler == k)
            sum += s->fresh_at[g];
    return sum;
}

/* Whose rooms the air goes to when air handlers run at different times. */
static void say_floors(const struct report__told *t, enum dew_system system,
                       struct report__said *said)
{
    int place = 1;

    for (int k = 0; k < t->layout.handler_count; k++, place *= 3) {
        const struct dew_duct_state *s = on(t, 2 * place);
        double mine = report__told_to_rooms(t, s, k);

        if (!report__told_tied(t) || t->layout.handler_count < 2)
            return;
        say(said,
            "Air handler %d alone at full flow: its own rooms get %s of the "
            "fresh air, the rooms of the other%s %s.",
            k + 1, AIR(mine), t->layout.handler_count > 2 ? "s" : "",
            AIR(fmax(s->fresh_delivered - mine, 0)));
    }
}

/* Air that a blower draws, or blows, through the ties out of another trunk. */
static double crosswise(const struct report__told *t, int blower,
                        const struct dew_duct_run **through)
{
    struct dew_duct_written w = dew_ducts_as_written(t->ducts);
    struct dew_duct_state s;
    double most = 0;

    if (dew_ducts_state(t->ducts, DEW_VENT_ON, blower, &s, NULL) != DEW_OK)
        return 0;
    for (size_t i = 0; i < w.run_count; i++) {
        double q = dew_ducts_run_flow(t->ducts, i);

        if (w.runs[i].role == DEW_ROLE_STALE_TIE ||
            w.runs[i].role == DEW_ROLE_FRESH_TIE)
            if (-q > most) {
                most = -q;
                *through = &w.runs[i];
            }
    }
    return most;
}

static const char *side_of(const struct dew_duct_run *tie)
{
    return tie->role == DEW_ROLE_STALE_TIE ? "stale" : "fresh";
}

static void say_robbing(const struct report__told *t, enum dew_system system,
                        struct report__said *said)
{
    int place = 1;

    for (int k = 0; k < t->layout.handler_count; k++, place *= 3) {
        const double worth = 0.1; /* of the ventilator's flow */
        const struct dew_duct_run *tie = NULL;
        double q = crosswise(t, 2 * place, &tie);

        if (tie != NULL && t->layout.vent_count == 1 &&
            t->layout.handler_count > 1 && q > worth * t->layout.vents[0].flow)
            say(said,
                "It robs the other: %s runs the wrong way through the %s tie "
                "of air handler %d while blower %d runs alone. A backdraft "
                "damper on each %s tie stops that.",
                AIR(q), side_of(tie), tie->of + 1, k + 1, side_of(tie));
    }
}

static void say_required(const struct report__told *t, enum dew_system system,
                         struct report__said *said)
{
    double least = INFINITY, most = 0;

    if (!(t->option.required > 0))
        return;
    for (int b = 0; b < t->blowers; b++) {
        least = fmin(least, on(t, b)->fresh_delivered);
        most = fmax(most, on(t, b)->fresh_delivered);
    }
    if (most - least < 0.01 * most)
        say(said, "Asked for: %s while it runs; delivered: %s.",
            AIR(t->option.required), AIR(most));
    else
        say(said,
            "Asked for: %s while it runs; delivered: %s to %s, by what "
            "the %s.",
            AIR(t->option.required), AIR(least), AIR(most),
            t->layout.handler_count > 1 ? "blowers do" : "blower does");
}

/* ---- the trunk and the blower -------------------------------------------- */

/* A large trunk at a small flow. */
static void say_trunk(const struct report__told *t, enum dew_system system,
                      struct report__said *said)
{
    const struct dew_duct_handler *h = &t->layout.handlers[0];
    const char *side = tied_to_return(t) ? "return" : "supply";
    double lost = on(t, 0)->trunk_resists[0],
           made = t->layout.vents[0].pressure;

    if (!report__told_tied(t) || !isfinite(lost) || t->layout.written != NULL)
        return;
    say(said,
        "The %s trunk is made for %s. At the little that the tie sends "
        "through it, blower off, trunk and grilles resist %s; the small fan "
        "makes %s outside its unit. %s",
        side, AIR(h->flow), PA(lost), PA(made),
        lost < 0.05 * made ? "A large trunk at a small flow is next to "
                             "nothing: its size does not choke the ventilator."
                           : "That is worth counting.");
}

static const char *pulls(double tap, int fresh)
{
    return (tap < 0) == fresh ? "which helps" : "which works against";
}

static double change(double now, double before)
{
    return before > 0 ? 100 * (now / before - 1) : NAN;
}

/* What the blower's pressure does to the small fans. */
static void say_blower(const struct report__told *t, enum dew_system system,
                       struct report__said *said)
{
    int full = report__told_full(t);
    const struct dew_duct_state *still = on(t, 0), *runs = on(t, full);
    double fresh = runs->tap_fresh[0], stale = runs->tap_stale[0];

    if (!report__told_tied(t)) {
        if (t->layout.handler_count > 0)
            say(said, "The blower's pressure does not reach the ventilator: "
                      "it has ducts of its own.");
        return;
    }
    if (isfinite(fresh) && !t->layout.gap)
        say(said,
            "At full flow the blower holds the fresh tap at %s against "
            "the rooms, %s the supply fan: %s instead of %s (%s %%).",
            PA(fresh), pulls(fresh, 1), AIR(runs->fresh_gross),
            AIR(still->fresh_gross),
            report__number(change(runs->fresh_gross, still->fresh_gross), 0)
                .text);
    if (isfinite(stale) && stale_from_return(t))
        say(said,
            "It holds the stale tap at %s, %s the exhaust fan: %s "
            "instead of %s (%s %%).",
            PA(stale), pulls(stale, 0), AIR(runs->stale_drawn),
            AIR(still->stale_drawn),
            report__number(change(runs->stale_drawn, still->stale_drawn), 0)
                .text);
}

static void say_balance(const struct report__told *t, enum dew_system system,
                        struct report__said *said)
{
    int worst = 0;
    const struct dew_duct_state *s;

    for (int b = 1; b < t->blowers; b++)
        if (fabs(on(t, b)->imbalance_share) >
            fabs(on(t, worst)->imbalance_share))
            worst = b;
    s = on(t, worst);
    if (s->balanced)
        say(said, "Fresh and stale air stay within 10 %% of each other in "
                  "every state.");
    else
        say(said, "Out of balance by %s (%s) with the %s %s: %s.",
            AIR(fabs(s->imbalance)),
            report__percent(fabs(s->imbalance_share)).text, blowers(t),
            report__told_blowers(t, worst).text,
            s->imbalance > 0 ? "more comes in, and house air is pressed out "
                               "through walls and roof"
                             : "more goes out, and outdoor air is drawn in "
                               "through walls and roof");
}

/* ---- the idle unit ------------------------------------------------------- */

static void say_idle(const struct report__told *t, enum dew_system system,
                     struct report__said *said)
{
    const struct dew_duct_state *s =
        &t->states[DEW_VENT_OFF][report__told_full(t)];
    int shut = t->layout.damper == DEW_DUCT_FITTED;
    const double drop = 5e-5; /* m3/s, a tenth of a cfm */

    if (!report__told_tied(t))
        return;
    if (s->unplanned < drop && s->spill < drop) {
        say(said, "Ventilator off: next to no air passes the idle unit.");
        return;
    }
    say(said,
        "Ventilator off, %s at full flow: %s of outdoor air comes in "
        "and %s of house air is lost through the idle unit, unplanned and "
        "without recovery%s.",
        blowers(t), AIR(s->unplanned), AIR(s->spill),
        shut ? ", past its shut dampers"
             : "; a motorised damper on the outdoor ducts stops most of it");
}

static void say_limits(const struct report__told *t, struct report__said *said)
{
    int limit = 0, off = 0;

    for (int b = 0; b < t->blowers; b++)
        for (int j = 0; j < t->layout.vent_count; j++) {
            limit |= on(t, b)->units[j].at_limit;
            off |= on(t, b)->units[j].off_sheet;
        }
    if (limit)
        say(said, "A fan at full speed does not move the air it was set to: "
                  "the ducts resist too much for it.");
    if (off)
        say(said,
            "In some state a fan works beyond its curve, which goes on there "
            "in a straight line: measure.");
}

/* ---- electricity --------------------------------------------------------- */

static void say_power(const struct report__told *t, struct report__said *said)
{
    const double year = 8.760; /* thousand hours */
    double blower = on(t, report__told_full(t))->blower_w;
    double fans = on(t, 0)->fan_w;

    if (t->layout.handler_count > 0 && report__told_tied(t))
        say(said,
            "Electricity: the %s at full flow %s W, which is %s kWh a "
            "year if always on and %s at 20 minutes of each hour; the "
            "ventilator's own fans %s W, %s kWh.",
            blowers(t), report__number(blower, 0).text,
            report__number(blower * year, 0).text,
            report__number(blower * year / 3, 0).text,
            report__number(fans, 0).text, report__number(fans * year, 0).text);
    else
        say(said,
            "Electricity: the ventilator's fans %s W, %s kWh a year if "
            "always on.",
            report__number(fans, 0).text, report__number(fans * year, 0).text);
}

void report__told_words(const struct report__told *t, enum dew_system system,
                        struct report__said *said)
{
    said->count = 0;
    say_reach(t, system, said);
    say_grilles(t, system, said);
    say_floors(t, system, said);
    say_robbing(t, system, said);
    say_required(t, system, said);
    say_trunk(t, system, said);
    say_blower(t, system, said);
    say_balance(t, system, said);
    say_idle(t, system, said);
    say_limits(t, said);
    say_power(t, said);
}

void report__without_words(const struct report__without *without,
                           enum dew_system system, char *out, size_t size)
{
    if (!(without->drawn + without->lost > 0))
        snprintf(out, size, "no ventilator with two fans, so no layout.");
    else
        snprintf(out, size,
                 "no ventilator with two fans, so no layout. Its air handlers' "
                 "leaks count all the same: at full flow the return draws in "
                 "%s from outside the house, the supply loses %s there.",
                 report__air(without->drawn, system).text,
                 report__air(without->lost, system).text);
}
