/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * When each caution stands; the words are in caution_rows.h.  A question not
 * answered counts as the answer that calls for care, and is told as a question.
 */
#include "dew/verdict.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "dew/sources.h"

/*
 * How a row stands for option i, which rows of the house ignore: yes, it was
 * told or computed; unknown, nobody said; no, it does not stand.
 */
typedef enum dew_answer stands(const struct dew_question *q, size_t i);

/* ---- about the house ------------------------------------------------------ */

static enum dew_answer yes_if(int does)
{
    return does ? DEW_ANSWER_YES : DEW_ANSWER_NO;
}

/* The answer, where something else calls for it too. */
static enum dew_answer where(int calls, enum dew_answer answer)
{
    return calls ? answer : DEW_ANSWER_NO;
}

/* It stands where the good news is denied, or not confirmed. */
static enum dew_answer unless(enum dew_answer good)
{
    return good == DEW_ANSWER_YES  ? DEW_ANSWER_NO
           : good == DEW_ANSWER_NO ? DEW_ANSWER_YES
                                   : DEW_ANSWER_UNKNOWN;
}

#define MAYBE(member)                                                          \
    static enum dew_answer member(const struct dew_question *q, size_t i)      \
    {                                                                          \
        (void)i;                                                               \
        return q->safety->member;                                              \
    }
#define SURELY(member)                                                         \
    static enum dew_answer member##_surely(const struct dew_question *q,       \
                                           size_t i)                           \
    {                                                                          \
        (void)i;                                                               \
        return yes_if(q->safety->member == DEW_ANSWER_YES);                    \
    }
#define UNKNOWN(member)                                                        \
    static enum dew_answer member##_unknown(const struct dew_question *q,      \
                                            size_t i)                          \
    {                                                                          \
        (void)i;                                                               \
        return where(q->safety->member == DEW_ANSWER_UNKNOWN,                  \
                     DEW_ANSWER_UNKNOWN);                                      \
    }
#define UNLESS(member)                                                         \
    static enum dew_answer member##_wanting(const struct dew_question *q,      \
                                            size_t i)                          \
    {                                                                          \
        (void)i;                                                               \
        return unless(q->safety->member);                                      \
    }

MAYBE(natural_draft_appliance)
MAYBE(attached_garage)
SURELY(visible_mould)
UNKNOWN(visible_mould)
SURELY(sewage_or_flood)
UNKNOWN(sewage_or_flood)
SURELY(illness)
UNKNOWN(illness)
MAYBE(bulk_water)
MAYBE(foamed_roof_deck)
MAYBE(recent_foam)
MAYBE(old_insulation)
MAYBE(ducts_outside)
UNLESS(carbon_monoxide_alarm)
UNLESS(radon_tested)
UNLESS(dryer_vented_outdoors)

/* Told of, or its water is. */
static enum dew_answer unvented_heater(const struct dew_question *q, size_t i)
{
    (void)i;
    for (size_t k = 0; k < q->count; k++)
        if (q->choices[k].c->house.water[DEW_SOURCE_burning].per_day > 0)
            return DEW_ANSWER_YES;
    return q->safety->unvented_heater;
}

static enum dew_answer always(const struct dew_question *q, size_t i)
{
    (void)q;
    (void)i;
    return DEW_ANSWER_YES;
}

/* Two years: water of building leaves over one to two heating seasons.
   Common practice, no source. */
static enum dew_answer young_house(const struct dew_question *q, size_t i)
{
    const double two_years = 2 * 365.25 * 86400;

    (void)i;
    return isnan(q->safety->house_age)
               ? DEW_ANSWER_UNKNOWN
               : yes_if(q->safety->house_age < two_years);
}

/* ---- about one option ------------------------------------------------------ */

static const struct dew_option_facts *facts(const struct dew_question *q,
                                            size_t i)
{
    return q->choices[i].facts;
}

static int has_ventilator(const struct dew_question *q, size_t i)
{
    return facts(q, i)->core != DEW_CORE_none;
}

static int shares_ducts(const struct dew_question *q, size_t i)
{
    return has_ventilator(q, i) && facts(q, i)->layout != DEW_LAYOUT_own_ducts;
}

static double coldest(const struct dew_question *q, size_t i)
{
    const struct dew_outcome *o = q->choices[i].outcome;
    double t = INFINITY;

    for (size_t h = 0; h < o->count; h++)
        t = fmin(t, o->series.t_out[h]);
    return t;
}

static int cooled(const struct dew_question *q, size_t i)
{
    const struct dew_plant *p = &q->choices[i].c->plant;

    for (int k = 0; k < p->handler_count; k++)
        if (p->handlers[k].capacity > 0)
            return 1;
    return 0;
}

static int condenses(const struct dew_question *q, size_t i)
{
    return cooled(q, i) || q->choices[i].c->plant.dryer.rate > 0 ||
           q->choices[i].outcome->year.core_drained > 0;
}

static enum dew_answer return_tie_open(const struct dew_question *q, size_t i)
{
    return where(has_ventilator(q, i) &&
                     facts(q, i)->layout == DEW_LAYOUT_return_tie,
                 unless(facts(q, i)->interlock));
}

static enum dew_answer hood_joined(const struct dew_question *q, size_t i)
{
    return where(has_ventilator(q, i), q->safety->hood_into_ventilator);
}

/* More out than in, by 5 % of it and 1 L/s: what a balancing leaves open.
   Our own choice, no source. */
static int draws_out(const struct dew_path *p)
{
    double out = p->exhaust + p->spill + p->leak_out;
    double in = p->supply + p->unplanned + p->leak_in;

    return out - in > fmax(0.05 * out, 1e-3);
}

static int any_draws_out(const struct dew_case *c)
{
    int any = 0;

    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int b = 0; b < DEW_BLOWER_STATES; b++)
            any |= draws_out(&c->paths[v][b]);
    return any;
}

/* Draws on the house where a chimney may stand: by its kind, by a defrost
   that stops the supply, or in any state of its ducts. */
static enum dew_answer net_exhaust(const struct dew_question *q, size_t i)
{
    const struct dew_case *c = q->choices[i].c;

    return where(has_ventilator(q, i) &&
                     (facts(q, i)->core == DEW_CORE_exhaust_only ||
                      c->plant.frost.strategy == DEW_FROST_EXHAUST_ONLY ||
                      any_draws_out(c)),
                 q->safety->natural_draft_appliance);
}

/* Cores ice up below about -5 degC, [MANUALS]. */
static int bare_core(const struct dew_question *q, size_t i)
{
    return facts(q, i)->core >= DEW_CORE_heat_plate &&
           q->choices[i].c->plant.frost.strategy == DEW_FROST_NONE &&
           coldest(q, i) < -5;
}

/* Measured damper than the named sources explain, by 5 points of RH: about
   what cheap loggers err by.  Our own choice, no source. */
static int unexplained(const struct dew_question *q, size_t i)
{
    (void)i;
    return q->measured != NULL && q->measured->rh.hours >= 168 &&
           q->measured->rh.bias < -0.05;
}

static enum dew_answer garage_ducts(const struct dew_question *q, size_t i)
{
    return where(has_ventilator(q, i), q->safety->attached_garage);
}

static int freezes(const struct dew_question *q, size_t i)
{
    return has_ventilator(q, i) && coldest(q, i) < 0;
}

static double duct_hours(const struct dew_question *q, size_t i,
                         enum dew_duct_spot spot)
{
    return q->choices[i].outcome->year.ducts[spot];
}

/* Computed hours call for it too; none computed never calls it off. */
static int sweats_outside(const struct dew_question *q, size_t i)
{
    return (shares_ducts(q, i) && cooled(q, i)) ||
           duct_hours(q, i, DEW_SPOT_trunk) > 0 ||
           duct_hours(q, i, DEW_SPOT_outside) > 0;
}

static int cold_ducts(const struct dew_question *q, size_t i)
{
    return freezes(q, i) || duct_hours(q, i, DEW_SPOT_intake) > 0 ||
           duct_hours(q, i, DEW_SPOT_exhaust) > 0;
}

static int cold_to_furnace(const struct dew_question *q, size_t i)
{
    return q->choices[i].c->plant.heater.fuel > 0 &&
           ((shares_ducts(q, i) && coldest(q, i) < 0) ||
            duct_hours(q, i, DEW_SPOT_heater) > 0);
}

static int refrigerates(const struct dew_question *q, size_t i)
{
    const struct dew_plant *p = &q->choices[i].c->plant;

    return cooled(q, i) || p->dryer.rate > 0 ||
           (p->heater.capacity > 0 && !(p->heater.efficiency > 0));
}

static int recirculates(const struct dew_question *q, size_t i)
{
    return has_ventilator(q, i) &&
           q->choices[i].c->plant.frost.strategy == DEW_FROST_RECIRCULATE &&
           q->choices[i].outcome->year.frost_hours > 0;
}

static int exhaust_only_cooled(const struct dew_question *q, size_t i)
{
    return facts(q, i)->core == DEW_CORE_exhaust_only && cooled(q, i);
}

static int supply_only_cold(const struct dew_question *q, size_t i)
{
    return facts(q, i)->core == DEW_CORE_supply_only && coldest(q, i) < 0;
}

static enum dew_answer no_damper(const struct dew_question *q, size_t i)
{
    return where(shares_ducts(q, i), unless(facts(q, i)->damper));
}

static int blower_wired(const struct dew_question *q, size_t i)
{
    return shares_ducts(q, i) && (facts(q, i)->interlock != DEW_ANSWER_NO ||
                                  facts(q, i)->layout == DEW_LAYOUT_return_tie);
}

/* Two fans that differ by more than a tenth in a state of the blowers, as
   [TIE-MANUALS] allow. */
static int unbalanced(const struct dew_question *q, size_t i)
{
    const struct dew_path *on = q->choices[i].c->paths[DEW_VENT_ON];
    const double allowed = 0.1;
    int any = 0;

    for (int b = 0; b < DEW_BLOWER_STATES; b++)
        any |= on[b].supply > 0 && on[b].exhaust > 0 &&
               fabs(on[b].supply - on[b].exhaust) >
                   allowed * fmax(on[b].supply, on[b].exhaust);
    return any;
}

static int exhausts(const struct dew_question *q, size_t i)
{
    const struct dew_plant *p = &q->choices[i].c->plant;

    for (int k = 0; k < DEW_LOCALS; k++)
        if (p->exhausts[k].flow > 0)
            return 1;
    return 0;
}

/* The limit of a working day, in any hour, ppm: air of far too little change. */
static int stale(const struct dew_question *q, size_t i)
{
    return q->choices[i].outcome->year.co2_max > 5000;
}

/* A humidistat within half its band of a limit lets the hours swing past it. */
static int set_near_limit(const struct dew_question *q, size_t i)
{
    const struct dew_plant *p = &q->choices[i].c->plant;
    const struct dew_limits *limits = &q->choices[i].c->limits;
    double dry = p->dryer.set + 0.5 * p->dryer.band;
    double wet = p->humidifier.set - 0.5 * p->humidifier.band;
    const double slip = 1e-9; /* of RH, for rounding */

    return (p->dryer.rate > 0 && dry > limits->too_humid + slip) ||
           (p->humidifier.rate > 0 && wet < limits->too_dry - slip);
}

/* Wet ground that gave less than three quarters of what was told of it, or a
   third more; ours. */
static int ground_differs(const struct dew_question *q, size_t i)
{
    const struct dew_water *ground =
        &q->choices[i].c->house.water[DEW_SOURCE_ground];
    const struct dew_tally *year = &q->choices[i].outcome->year;
    double told = dew_house_told(ground) * year->hours / 24;

    return ground->rate > 0 && (year->water.ground < 0.75 * told ||
                                0.75 * year->water.ground > told);
}

/* ---- what is computed, or told by the option itself, stands as told ----------- */

#define COMPUTED(name)                                                         \
    static enum dew_answer name##_here(const struct dew_question *q, size_t i) \
    {                                                                          \
        return yes_if(name(q, i));                                             \
    }
COMPUTED(has_ventilator)
COMPUTED(bare_core)
COMPUTED(unexplained)
COMPUTED(sweats_outside)
COMPUTED(cold_ducts)
COMPUTED(cold_to_furnace)
COMPUTED(refrigerates)
COMPUTED(recirculates)
COMPUTED(exhaust_only_cooled)
COMPUTED(supply_only_cold)
COMPUTED(blower_wired)
COMPUTED(exhausts)
COMPUTED(stale)
COMPUTED(set_near_limit)
COMPUTED(ground_differs)
COMPUTED(condenses)
COMPUTED(unbalanced)
COMPUTED(freezes)

/* ---- the table -------------------------------------------------------------- */

enum { HOUSE, OPTION };

#define TOLD   "You told us that "
#define UNSAID "You have not said whether "

static const struct row {
    enum dew_caution_level level;
    int about;    /* HOUSE or OPTION                                        */
    int pressure; /* 1: the pressure of every fan at once stands beside it  */
    const char *key;
    const char *question; /* key that answers it; NULL = none hangs on one  */
    stands *when;
    const char *source;
    const char *brief,
        *ask;         /* the same in a line, as a question; NULL = none */
    const char *told; /* where it was told or computed; NULL = never so     */
    const char *open; /* where it was not said; NULL = never so             */
} rows[] = {
#include "study/caution_rows.h"
};

/* ---- pressure --------------------------------------------------------------- */

struct dew_suction dew_cautions_suction(const struct dew_question *q, size_t i)
{
    const unsigned every = (1U << DEW_LOCALS) - 1;
    const struct dew_choice *c = &q->choices[i];
    struct dew_suction s = {.pressure = NAN,
                            .untold = every & ~facts(q, i)->exhausts_told};

    for (int e = 0; e < DEW_LOCALS; e++)
        s.fans |= (unsigned)(c->c->plant.exhausts[e].flow > 0) << e;
    if (s.untold != 0)
        return s;
    s.pressure = c->outcome->year.pressure_all_min;
    s.beyond = fabs(s.pressure) > DEW_SUCTION_MOST;
    return s;
}

/* The deepest pressure of the options that the row is about, and those of
   which there is none. */
static void put_pressure(struct dew_caution *out, const struct row *r,
                         const struct dew_question *q)
{
    for (size_t i = 0; i < q->count && i < 64; i++) {
        struct dew_suction s = dew_cautions_suction(q, i);

        if (r->about != HOUSE && !(out->options >> i & 1))
            continue;
        if (s.untold != 0) {
            out->untold |= s.untold;
            out->untold_options |= UINT64_C(1) << i;
        } else if (out->worst == DEW_NO_OPTION || s.pressure < out->pressure) {
            out->pressure = s.pressure;
            out->worst = (int)i;
        }
    }
}

/* ---- the list --------------------------------------------------------------- */

/* The options for which a row stands with an answer; the house asks for the
   first alone. */
static uint64_t standing(const struct row *r, const struct dew_question *q,
                         enum dew_answer answer)
{
    uint64_t mask = 0;

    if (r->about == HOUSE)
        return r->when(q, 0) == answer;
    for (size_t i = 0; i < q->count && i < 64; i++)
        if (r->when(q, i) == answer)
            mask |= UINT64_C(1) << i;
    return mask;
}

static struct dew_caution said(const struct row *r, enum dew_answer answer)
{
    return (struct dew_caution){.level = r->level,
                                .key = r->key,
                                .text = answer == DEW_ANSWER_UNKNOWN ? r->open
                                                                     : r->told,
                                .brief = r->brief,
                                .ask = r->ask,
                                .source = r->source,
                                .answer = answer,
                                .question_key = r->question,
                                .has_pressure = r->pressure,
                                .pressure = NAN,
                                .worst = DEW_NO_OPTION};
}

/* Those of one level and one answer, after the count that stand before. */
static size_t gather(const struct dew_question *q, enum dew_caution_level level,
                     enum dew_answer answer, struct dew_caution *out,
                     size_t room, size_t count)
{
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
        const struct row *r = &rows[k];
        uint64_t options =
            r->level == level ? standing(r, q, answer) : UINT64_C(0);

        if (options == 0)
            continue;
        if (count < room) {
            out[count] = said(r, answer);
            out[count].options = r->about == HOUSE ? 0 : options;
            if (r->pressure)
                put_pressure(&out[count], r, q);
        }
        count++;
    }
    return count;
}

size_t dew_cautions_of(const struct dew_question *question,
                       struct dew_caution *out, size_t room)
{
    size_t count = 0;

    for (int level = DEW_STOP; level < DEW_CAUTION_LEVELS; level++) {
        enum dew_caution_level l = (enum dew_caution_level)level;

        count = gather(question, l, DEW_ANSWER_YES, out, room, count);
        count = gather(question, l, DEW_ANSWER_UNKNOWN, out, room, count);
    }
    return count;
}

int dew_cautions_find(const char *key, enum dew_answer answer,
                      struct dew_caution *out)
{
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
        struct dew_caution c = said(&rows[k], answer);

        if (strcmp(rows[k].key, key) != 0 || c.text == NULL)
            continue;
        *out = c;
        return 1;
    }
    return 0;
}

const char *dew_cautions_open_words(void)
{
    return UNSAID;
}

const char *dew_cautions_level(enum dew_caution_level level)
{
    static const char *const text[] = {"STOP", "CHECK", "NOTE"};

    return (unsigned)level < DEW_CAUTION_LEVELS ? text[level] : "NOTE";
}
