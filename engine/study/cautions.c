/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table of cautions.  One row: level, key, when it stands, words, source.
 * A question not answered counts as the answer that calls for care.
 */
#include "dew/cautions.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "dew/sources.h"

/* Whether a row stands for option i; i is ignored by rows of the house. */
typedef int stands(const struct dew_question *q, size_t i);

/* ---- about the house ------------------------------------------------------ */

static int maybe(enum dew_answer answer)
{
    return answer != DEW_ANSWER_NO;
}

static int unless_yes(enum dew_answer answer)
{
    return answer != DEW_ANSWER_YES;
}

#define MAYBE(member)                                                          \
    static int member(const struct dew_question *q, size_t i)                  \
    {                                                                          \
        (void)i;                                                               \
        return maybe(q->safety->member);                                       \
    }
#define SURELY(member)                                                         \
    static int member##_surely(const struct dew_question *q, size_t i)         \
    {                                                                          \
        (void)i;                                                               \
        return q->safety->member == DEW_ANSWER_YES;                            \
    }
#define UNKNOWN(member)                                                        \
    static int member##_unknown(const struct dew_question *q, size_t i)        \
    {                                                                          \
        (void)i;                                                               \
        return q->safety->member == DEW_ANSWER_UNKNOWN;                        \
    }
#define UNLESS(member)                                                         \
    static int member##_wanting(const struct dew_question *q, size_t i)        \
    {                                                                          \
        (void)i;                                                               \
        return unless_yes(q->safety->member);                                  \
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
static int unvented_heater(const struct dew_question *q, size_t i)
{
    (void)i;
    for (size_t k = 0; k < q->count; k++)
        if (q->choices[k].c->house.water[DEW_SOURCE_burning].per_day > 0)
            return 1;
    return maybe(q->safety->unvented_heater);
}

static int always(const struct dew_question *q, size_t i)
{
    (void)q;
    (void)i;
    return 1;
}

/* Two years: water of building leaves over one to two heating seasons.
   Common practice, no source. */
static int young_house(const struct dew_question *q, size_t i)
{
    const double two_years = 2 * 365.25 * 86400;

    (void)i;
    return !(q->safety->house_age >= two_years);
}

/* ---- about one option ------------------------------------------------------ */

static const struct dew_option_facts *facts(const struct dew_question *q,
                                            size_t i)
{
    return q->choices[i].facts;
}

static int ventilated(const struct dew_question *q, size_t i)
{
    return facts(q, i)->core != DEW_CORE_none;
}

static int shares_ducts(const struct dew_question *q, size_t i)
{
    return ventilated(q, i) && facts(q, i)->layout != DEW_LAYOUT_own_ducts;
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

static int return_tie_open(const struct dew_question *q, size_t i)
{
    return ventilated(q, i) && facts(q, i)->layout == DEW_LAYOUT_return_tie &&
           unless_yes(facts(q, i)->interlock);
}

static int hood_joined(const struct dew_question *q, size_t i)
{
    return ventilated(q, i) && maybe(q->safety->hood_into_ventilator);
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
static int net_exhaust(const struct dew_question *q, size_t i)
{
    const struct dew_case *c = q->choices[i].c;

    return maybe(q->safety->natural_draft_appliance) && ventilated(q, i) &&
           (facts(q, i)->core == DEW_CORE_exhaust_only ||
            c->plant.frost.strategy == DEW_FROST_EXHAUST_ONLY ||
            any_draws_out(c));
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

static int garage_ducts(const struct dew_question *q, size_t i)
{
    return ventilated(q, i) && maybe(q->safety->attached_garage);
}

static int freezes(const struct dew_question *q, size_t i)
{
    return ventilated(q, i) && coldest(q, i) < 0;
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
    return ventilated(q, i) &&
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

static int no_damper(const struct dew_question *q, size_t i)
{
    return shares_ducts(q, i) && unless_yes(facts(q, i)->damper);
}

static int blower_wired(const struct dew_question *q, size_t i)
{
    return shares_ducts(q, i) &&
           (maybe(facts(q, i)->interlock) || return_tie_open(q, i));
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

/* Labels: [BPI-1200] [EPA-IAQ] [EPA-MOULD] [EPA-RADON] [SWS20] [PNNL-BASC]
   [OSHA-Z1];
   what is not said to be from memory was read. */

/* ---- the table -------------------------------------------------------------- */

enum { HOUSE, OPTION };

/* clang-format off */
static const struct row {
    enum dew_caution_level level;
    int about;          /* HOUSE or OPTION                                    */
    int pressure;       /* 1: the worst computed pressure stands beside it    */
    const char *key;
    stands *when;
    const char *source;
    const char *text;
} rows[] = {
{DEW_STOP, HOUSE, 1, "combustion", natural_draft_appliance, "BPI-1200",
 "A natural-draft appliance is present or not ruled out. In a tight house a fan can pull "
 "its smoke and carbon monoxide back into the rooms. Before any change of fans, "
 "balance or airtightness have a qualified person test it under the worst case of "
 "all exhausts running, and keep a working carbon monoxide alarm on each floor. "
 "This program never calls such an appliance safe; no computed pressure does."},
{DEW_STOP, HOUSE, 0, "unvented_heater", unvented_heater, "EPA-IAQ",
 "A fuel heater without a flue is present or not ruled out. It puts all its water, "
 "carbon monoxide and nitrogen dioxide into the rooms. Do not plan ventilation around "
 "it: have it removed or vented."},
{DEW_STOP, HOUSE, 0, "garage", attached_garage, "PNNL-BASC",
 "An attached garage is present or not ruled out. No intake, grille, duct opening or unit "
 "in it, and no leaky duct through it: exhaust fumes and fuel vapour follow. Seal the "
 "wall, the ceiling and the door between garage and house first."},
{DEW_STOP, OPTION, 0, "return_tie", return_tie_open, "common practice, no source",
 "Fresh and stale air are both tied to the return without a blower interlock. With the "
 "blower off the fresh air runs from one tap to the other and little reaches the rooms. "
 "Do not build it so: wire the interlock, or give one side ducts of its own."},
{DEW_STOP, OPTION, 0, "hood_joined", hood_joined, "common practice, no source",
 "A kitchen hood or a clothes dryer on the ventilator's or shared ducts is present or not "
 "ruled out. Grease and lint burn. Each needs its own duct to the outdoors."},
{DEW_STOP, OPTION, 1, "net_exhaust", net_exhaust, "common practice, no source",
 "This option draws more air out than it brings in, always or while it defrosts, and a "
 "natural-draft appliance is present or not ruled out. Do not run it before the test "
 "of the appliance under the worst case."},
{DEW_STOP, HOUSE, 0, "mould", visible_mould_surely, "EPA-MOULD",
 "Mould over about 1 m2 (10 ft2): have a professional clean it and find the water. Do "
 "not run ducts that mould has reached: they spread it."},
{DEW_STOP, HOUSE, 0, "sewage", sewage_or_flood_surely, "EPA-MOULD",
 "Water from a drain or a flood: what it wetted needs professional cleaning before any "
 "fan moves the air over it."},
{DEW_STOP, HOUSE, 0, "illness", illness_surely, "EPA-MOULD",
 "Someone has asthma, weak immunity or symptoms laid to the house: see a doctor, and let "
 "a professional look at the house. Air changes are no treatment."},
{DEW_CHECK, HOUSE, 0, "mould_unknown", visible_mould_unknown, "EPA-MOULD",
 "Mould was not asked about. Look behind furniture, in closets, around windows and inside "
 "ducts; over about 1 m2 (10 ft2) call a professional before running anything."},
{DEW_CHECK, HOUSE, 0, "sewage_unknown", sewage_or_flood_unknown, "EPA-MOULD",
 "Water from drains or floods was not asked about. If there was any, have it cleaned "
 "professionally first."},
{DEW_CHECK, HOUSE, 0, "illness_unknown", illness_unknown, "EPA-MOULD",
 "Health was not asked about. Asthma, weak immunity or symptoms that ease away from home "
 "belong before a doctor."},
{DEW_CHECK, HOUSE, 0, "alarm", carbon_monoxide_alarm_wanting, "common practice, no source",
 "No working carbon monoxide alarm on each floor is confirmed. Fit them where anything "
 "burns or a garage adjoins."},
{DEW_CHECK, HOUSE, 0, "bulk_water", bulk_water, "common practice, no source",
 "Find leaks, rain, a wet cellar or crawl space and dry drain traps before buying "
 "equipment. No ventilator keeps up with running water."},
{DEW_CHECK, HOUSE, 0, "unexplained_water", unexplained, "common practice, no source",
 "The log is damper than the sources named here explain. Look for water before buying "
 "equipment: leaks, a wet crawl space or cellar, a dryer that blows indoors, dry drain traps."},
{DEW_CHECK, HOUSE, 0, "dryer_vent", dryer_vented_outdoors_wanting, "common practice, no source",
 "It is not confirmed that the clothes dryer blows outdoors. A load of washing holds a few "
 "litres of water; a gas dryer adds fumes."},
{DEW_CHECK, HOUSE, 0, "first_year", young_house, "common practice, no source",
 "The house is younger than two years, or its age is not known. Building materials give off "
 "water for a season or two: do not size lasting equipment on that water."},
{DEW_CHECK, HOUSE, 0, "foamed_roof", foamed_roof_deck, "common practice, no source",
 "Foam under the roof boards is present or not ruled out. Water can gather at the ridge, "
 "most with open-cell foam. A model of one zone cannot see it: measure there."},
{DEW_CHECK, HOUSE, 0, "recent_foam", recent_foam, "common practice, no source",
 "Foam of the past year or a smell of it is present or not ruled out. Ventilation does not "
 "cure badly mixed foam. Keep to the installer's waiting time and have odours looked into."},
{DEW_CHECK, HOUSE, 0, "asbestos", old_insulation, "common practice, no source",
 "Old ducts or insulation may hold asbestos. Do not cut, drill or pull at them before a "
 "sample has been tested."},
{DEW_CHECK, HOUSE, 0, "attic_work", ducts_outside, "common practice, no source",
 "Work in an attic or crawl space: heat stroke, falls through the ceiling and nails. Exposed "
 "foam needs its fire barrier back when the work is done."},
{DEW_CHECK, HOUSE, 0, "radon", radon_tested_wanting, "EPA-RADON, from memory",
 "Test for radon again after every change of airtightness, fans or balance; a clogged intake "
 "or an imbalance can draw more of it in."},
{DEW_CHECK, OPTION, 0, "intake", ventilated, "SWS20: 10 ft from exhausts; the rest from memory",
 "Intake: 3 m (10 ft) to the side of flues, vents, driveways and plumbing stacks, or 7.6 m "
 "(25 ft) above; 3 m (10 ft) from every exhaust, the unit's own too, unless both are in one "
 "hood listed for that; 0.45 m (18 in) above ground and snow. Local code and the maker's "
 "manual may ask for more."},
{DEW_CHECK, OPTION, 0, "garage_ducts", garage_ducts, "PNNL-BASC",
 "Trace every duct of this option: none may open into, or run unsealed through, the garage."},
{DEW_CHECK, OPTION, 0, "freezing", freezes, "common practice, no source",
 "It freezes at this place. Keep the unit, its trap and its condensate line above 0 degC "
 "(32 degF): no unheated attic or crawl space."},
{DEW_CHECK, OPTION, 0, "no_frost_protection", bare_core, "MANUALS",
 "This place gets colder than a core stands without frost protection, and none is told of: "
 "it ices up, moves less air and can be damaged."},
{DEW_CHECK, OPTION, 0, "cold_ducts", cold_ducts, "common practice, no source",
 "Insulate the ducts to and from outdoors with an outer vapour-tight skin, sealed up to the "
 "collar of the unit, or they drip."},
{DEW_CHECK, OPTION, 0, "defrost", recirculates, "common practice, no source",
 "While it defrosts this unit brings in no fresh air. The hours are in the table."},
{DEW_CHECK, OPTION, 0, "condensate", condenses, "common practice, no source",
 "Condensate: a trap, a fall to the drain, a pan below and a float switch that stops the "
 "machine where an overflow would do damage."},
{DEW_CHECK, OPTION, 0, "sweating_trunk", sweats_outside, "common practice, no source",
 "Humid fresh air in a duct that also carries cooled air can wet the inside of the trunk, "
 "and cold trunks in warm spaces sweat outside. Let it in where air is already mixed, and "
 "insulate."},
{DEW_CHECK, OPTION, 0, "cold_exchanger", cold_to_furnace, "common practice, no source",
 "Cold fresh air mixed into the return reaches a fuel-fired heat exchanger. Keep the mixed air "
 "above the furnace maker's limit, or condensate eats it."},
{DEW_CHECK, OPTION, 0, "no_damper", no_damper, "common practice, no source",
 "No motorised damper is confirmed on the tied-in duct. The blower then draws outdoor air, "
 "or blows house air, through the idle unit whenever it runs."},
{DEW_CHECK, OPTION, 0, "imbalance", unbalanced, "TIE-MANUALS",
 "Fresh and stale air differ by more than 10 % in a state of the blowers. The house is then "
 "blown up or sucked on through its leaks, and the core recovers less. Measure and set both "
 "sides with the blower off and at full flow."},
{DEW_CHECK, OPTION, 0, "kitchen_pickup", ventilated, "common practice, no source",
 "A stale-air pickup in the kitchen stands well away from the cooktop, with a grease filter "
 "that is washed. It never replaces the hood."},
{DEW_CHECK, OPTION, 0, "exhaust_only", exhaust_only_cooled, "common practice, no source",
 "Exhaust only, in a cooled house: outdoor air is drawn through the walls and can wet them "
 "where it meets cooled surfaces."},
{DEW_CHECK, OPTION, 0, "supply_only", supply_only_cold, "common practice, no source",
 "Supply only, where it freezes: humid room air is pushed into cold walls and roof."},
{DEW_CHECK, OPTION, 1, "makeup_air", exhausts, "common practice, no source",
 "A hood, bath fan or dryer needs as much air in as it blows out. In a tight house plan "
 "make-up air for large ones. The pressure beside this is computed, never a clearance."},
{DEW_CHECK, OPTION, 0, "stale_air", stale, "OSHA-Z1, from memory",
 "Carbon dioxide is computed above 5,000 ppm, the limit for a working day. It is the sign of "
 "far too little outdoor air: bring in air before anything else, and measure it."},
{DEW_CHECK, OPTION, 0, "humidistat_near_limit", set_near_limit, "limit of the model",
 "A dehumidifier or humidifier is set within half its band of a limit, or beyond it: it "
 "comes in only when the limit is passed, and hours past it are its setting's and not "
 "its size's. Set it further off."},
{DEW_NOTE, OPTION, 0, "wet_ground", ground_differs, "limit of the model",
 "What wet ground is said to give holds with floor and room at 20 degC and 50 %. Over this "
 "year it gave much more or less: a cold floor and damp air hold it back, dry air draws it. "
 "The row of wet ground in the water table is what the rooms got."},
{DEW_NOTE, OPTION, 0, "interlock", blower_wired, "common practice, no source",
 "Wiring a blower interlock: power off at the breaker, low voltage only by the maker's "
 "diagram, anything else by a licensed electrician."},
{DEW_NOTE, HOUSE, 0, "electrical", always, "common practice, no source",
 "Electrical work: an outlet of its own, no extension cord, bonding across flexible joints; "
 "permits and a licensed electrician where required."},
{DEW_NOTE, OPTION, 0, "refrigerant", refrigerates, "common practice, no source",
 "Refrigerant circuits are work for certified people. Nothing here is an instruction for "
 "charging, or for the airflow over a coil."},
{DEW_NOTE, OPTION, 0, "fire_walls", ventilated, "common practice, no source",
 "Ducts through fire-rated walls and floors need the dampers and detectors that local code "
 "asks for."},
{DEW_NOTE, OPTION, 0, "smoke_days", ventilated, "common practice, no source",
 "On days of smoke, pollen or heavy traffic turn ventilation down or off, and back on after."},
{DEW_NOTE, OPTION, 0, "filters", ventilated, "common practice, no source",
 "Filters, the intake screen and the drain need dates in a calendar. A unit that is clogged, "
 "noisy or switched off ventilates nothing."},
{DEW_NOTE, HOUSE, 0, "one_zone", always, "limit of the model",
 "The house is one mixed zone here. Bedrooms behind shut doors, closets, walls and roofs can "
 "be damper or drier than the figures."},
{DEW_NOTE, HOUSE, 0, "planning_aid", always, "limit of the model",
 "This is a planning aid and not a design to a code. Local code, the maker's manual and the "
 "inspector come first."},
};
/* clang-format on */

/* The options for which a row stands; the house asks for the first alone. */
static uint64_t standing(const struct row *r, const struct dew_question *q)
{
    uint64_t mask = 0;

    if (r->about == HOUSE)
        return r->when(q, 0) != 0;
    for (size_t i = 0; i < q->count && i < 64; i++)
        if (r->when(q, i))
            mask |= UINT64_C(1) << i;
    return mask;
}

/* The deepest pressure of the options that the row is about. */
static void put_pressure(struct dew_caution *out, const struct row *r,
                         const struct dew_question *q, uint64_t options)
{
    for (size_t i = 0; r->pressure && i < q->count && i < 64; i++) {
        double here = q->choices[i].outcome->year.pressure_all_min;

        if (r->about != HOUSE && !(options & UINT64_C(1) << i))
            continue;
        if (out->worst != DEW_NO_OPTION && !(here < out->pressure))
            continue;
        out->pressure = here;
        out->worst = (int)i;
    }
}

size_t dew_cautions_of(const struct dew_question *question,
                       struct dew_caution *out, size_t room)
{
    size_t count = 0;

    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
        const struct row *r = &rows[k];
        uint64_t options = standing(r, question);

        if (options == 0)
            continue;
        if (count < room) {
            out[count] =
                (struct dew_caution){.level = r->level,
                                     .key = r->key,
                                     .text = r->text,
                                     .source = r->source,
                                     .options = r->about == HOUSE ? 0 : options,
                                     .pressure = NAN,
                                     .worst = DEW_NO_OPTION};
            put_pressure(&out[count], r, question, options);
        }
        count++;
    }
    return count;
}

int dew_cautions_find(const char *key, struct dew_caution *out)
{
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
        const struct row *r = &rows[k];

        if (strcmp(r->key, key) != 0)
            continue;
        *out = (struct dew_caution){.level = r->level,
                                    .key = r->key,
                                    .text = r->text,
                                    .source = r->source,
                                    .pressure = NAN,
                                    .worst = DEW_NO_OPTION};
        return 1;
    }
    return 0;
}

const char *dew_cautions_level(enum dew_caution_level level)
{
    static const char *const text[] = {"STOP", "CHECK", "NOTE"};

    return (unsigned)level < DEW_CAUTION_LEVELS ? text[level] : "NOTE";
}
