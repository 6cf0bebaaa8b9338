/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The verdict: what the year says, as findings with their numbers.  Each
 * finding comes from one rule; report puts it into words in the reader's
 * units.  Nothing here is surer than the books it is read from.
 */
#ifndef DEW_VERDICT_H
#define DEW_VERDICT_H

#include <stdint.h>

#include "dew/draws.h"
#include "dew/study.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One option as it is judged.  Borrowed. */
struct dew_choice {
    const struct dew_outcome *outcome;
    const struct dew_case *c;
    const struct dew_option_facts *facts;
    const struct dew_costs *costs;     /* NULL or all zero = nothing is bought;
                                      install NaN = not told                */
    const struct dew_outcome *settled; /* the same option without construction
                                          water; NULL = it has none         */
    /* the same option with a coil that stays dry between runs, and with one as
       wet as it may be; NULL = not marched */
    const struct dew_outcome *coil_dry, *coil_wet;
};

/*
 * How strictly the limits are judged.  Our own choice, no source: shown in
 * every report beside the verdict.
 */
struct dew_judging {
    double kept_share;  /* -    of the year: too humid, too dry or wet glass in
                                 no more of it still keeps the limit         */
    double month_share; /* -    the same of one month                       */
    double fresh_share; /* -    of the required rate that counts as met     */
    double sure_share;  /* -    of houses like the one told: what is so in
                                 fewer is a close call                       */
};

/* 2 %, 5 %, 95 %, 80 %. */
struct dew_judging dew_verdict_judging(void);

/* All that a verdict and the cautions are read from.  Borrowed. */
struct dew_question {
    const struct dew_choice *choices; /* the first is the house as it stands */
    size_t count;                     /* 1 .. 64                             */
    const struct dew_safety *safety;
    const struct dew_prices *prices; /* NULL = none given                   */
    struct dew_judging judging;
    const struct dew_beside *measured; /* a log of the first; NULL = none   */
    const struct dew_draws *draws; /* of the choices, all of them; NULL = none
                                      was marched: nothing is told to be sure
                                      or a close call                        */
};

/*
 * The kinds in the order they are told.  A row holds the kind, which is its key
 * in JSON, the rule that finds it (engine/study; a rule runs once, so its kinds
 * stand together), the group it is told in, and its numbers: N(name, unit), NaN
 * where it is not known or does not apply; Y(name), 1 = yes; E(name, enum).
 * AS: the numbers are those of another kind.
 */
/* clang-format off */
#define DEW_FINDING_MAP(X, AS, N, Y, E)                                        \
    /* fresh: what counts; short_of_air: less than asked for */                \
    X(today_stale, today_stale, today,                                         \
      N(fresh, m3/s) N(leaks, m3/s) N(required, m3/s) N(co2, ppm)              \
      N(co2_outdoors, ppm) Y(short_of_air))                                    \
    /* by_1: 1 point of humidity past the limit, or more */                    \
    X(today_humid, today_humid, today,                                         \
      N(humid, h) N(worst_month, h) N(longest, h)                              \
      N(by_1, h) N(by_2, h) N(by_3, h))                                        \
    X(today_dry, today_dry, today, N(dry, h) N(worst_month, h))                \
    X(today_fine, today_fine, today, N(humid, h) N(dry, h))                    \
    /* what the house as it stands was not told to have */                     \
    X(today_assumes, today_assumes, today,                                     \
      Y(no_bath_fan) Y(no_hood) Y(no_clothes_dryer) Y(no_cooling)              \
      Y(windows_shut))                                                         \
    /* hours too humid; decides: whether the limits are kept hangs on that */  \
    X(coil_today, coil_today, today,                                           \
      N(likely, h) N(low, h) N(high, h) Y(decides))                            \
    X(today_sweat, today_sweat, today, N(glass_wet, h))                        \
    X(short_heat, short_heat, today, N(short_of_heat, h) N(coldest, degC))     \
    X(saturated, saturated, today, N(saturated, h) N(fog, kg))                 \
    X(mould, mould, today,                                                     \
      E(surface, surface_kind) N(index, -) N(after_ten_years, -))              \
    X(drying, drying, today, N(share_of_inflow, -) N(per_day, kg/day))         \
    /* until it no longer matters */                                           \
    X(drying_ends, drying_ends, today, N(likely, h) N(low, h) N(high, h))      \
    X(wait, wait, today,                                                       \
      N(humid_once_dry, h) N(humid_now, h) N(dry_once_dry, h) N(dry_now, h))   \
    /* option best once dry (or none), other the best now; cheapest_to_run:    \
       of several, of which none is best */                                    \
    X(settled, settled, today, N(humid_once_dry, h) Y(cheapest_to_run))        \
    X(idle, idle, today, N(humid_while_idle, h) N(humid, h))                   \
    /* runs: of the time of its busiest month */                               \
    X(cool_large, cool_large, today, N(above_half, h) N(runs, -))              \
    X(outdoor_dries, outdoor, outdoors, N(could_dry, h) N(all, h))             \
    /* in those months */                                                      \
    X(outdoor_cannot, outdoor, outdoors,                                       \
      N(could_dry, -) N(cannot_dry, h) N(all, h))                              \
    /* dry: where that limit is not kept */                                    \
    X(air_fixes, air_alone, outdoors, N(humid, h) N(today, h) N(dry, h))       \
    X(air_fails, air_alone, outdoors, N(humid, h) N(today, h))                 \
    X(air_worsens, air_worsens, outdoors,                                      \
      N(humid, h) N(today, h) N(added, h))                                     \
    /* by the first of them that is known; money over the years; so: houses in \
       which it is the best, or of best_none in which none will do */          \
    X(best, best, best,                                                        \
      N(money, money) N(running, money/year) N(energy, J) Y(only))             \
    X(best_open, best, best,                                                   \
      N(running, money/year) N(next_running, money/year))                      \
    /* other is the best in other_so of the houses drawn */                     \
    X(best_close, best, best,                                                  \
      N(money, money) N(next_money, money) N(energy, J) N(next_energy, J)      \
      N(other_so, -))                                                          \
    X(best_none, best, best, N(humid, h) N(dry, h) N(glass_wet, h))            \
    X(least_humid, least_humid, helps, N(humid, h) N(today, h) N(alike, -))    \
    X(core_heat, core, helps,                                                  \
      N(heat_humid, h) N(heat_dry, h) N(enthalpy_humid, h) N(enthalpy_dry, h)) \
    AS(core_enthalpy, core, helps, core_heat)                                  \
    AS(core_close, core, helps, core_heat)                                     \
    X(dryer_not_needed, dryer, helps, N(humid, h))                             \
    X(dryer_needed, dryer, helps, N(humid, h) N(humid_without, h))             \
    X(dryer_short, dryer, helps, N(humid, h))                                  \
    X(dryer_untried, dryer, helps, N(humid_without, h))                        \
    X(dryer_alone, dryer_alone, helps,                                         \
      N(humid, h) N(fresh, m3/s) N(required, m3/s))                            \
    X(dryer_instead, dryer_instead, helps, N(humid, h) N(energy, J))           \
    /* on its label; in this house's air; asked for on its busiest day */      \
    X(dryer_size, dryer_size, helps,                                           \
      N(label, kg/s) N(here, kg/s) N(busiest, kg/s) N(energy, J) N(runs, h))   \
    /* on its label; that at today's test if the label is of the old one */    \
    X(dryer_label, dryer_label, helps, N(label, kg/s) N(if_old, kg/s))         \
    AS(coil_option, coil_option, helps, coil_today)                            \
    X(grows_dry, grows_dry, helps, N(dry, h) N(today, h))                      \
    X(wetter_untried, wetter_untried, helps, N(dry, h))                        \
    X(blower_cost, blower, helps,                                              \
      N(blower, J) N(own_fans, J) N(reevaporation, kg))                              \
    /* what speaks against it: much of its air short-circuits; it brings less  \
       than asked for, where own ducts bring it; more hours too humid, a supply \
       trunk wet past the limit, more electricity, more water put back.  Then  \
       by how much more than own ducts; other = none: there are none */        \
    X(tie_fine, ties, helps,                                                   \
      Y(short_circuits) Y(lacks_air) Y(damper) Y(wet) Y(dear) Y(puts_back)     \
      N(humid_more, h) N(blower_more, J) N(putback_more, kg)                   \
      N(drawn, m3/s) N(reaching, m3/s) N(trunk_wet, h))                        \
    AS(tie_harmful, ties, helps, tie_fine)                                     \
    X(under_ventilated, under, helps, N(fresh, m3/s) N(required, m3/s))        \
    X(pays_back, payback, money,                                               \
      N(likely, years) N(low, years) N(high, years))                           \
    /* saved: below 0 = dearer to run */                                       \
    X(never_pays, payback, money, N(saved, money/year) N(install, money))      \
    /* other: the one it becomes; both: expected; chance at which they are     \
       alike */                                                                \
    X(staged, staged, money,                                                   \
      N(now, money) N(later, money) N(chance, -) N(both, money)                \
      N(at_once, money) N(even_chance, -))                                     \
    /* go on above the limit (air: below), of the one that is read */          \
    X(reading, reading, money,                                                 \
      E(what, reading_kind) N(days, days) N(humid_limit, h) N(humid, h)        \
      N(air_limit, m3/s) N(air, m3/s) N(co2_limit, ppm) N(co2, ppm))           \
    AS(unpriced, unpriced, money, none)
/* clang-format on */

enum dew_finding_kind {
#define X(kind, ...) DEW_FINDING_##kind,
    DEW_FINDING_MAP(X, X, , , )
#undef X
        DEW_FINDING_KINDS
};

/* best: the answer itself. */
enum dew_finding_group {
    DEW_GROUP_best,
    DEW_GROUP_today,
    DEW_GROUP_outdoors,
    DEW_GROUP_helps,
    DEW_GROUP_money,
    DEW_GROUPS
};

/* Their numbers are set by name: a compiler that can, refuses a bare list. */
#if defined(__GNUC__) && !defined(__clang__) && !defined(__cplusplus)
#define DEW_BY_NAME __attribute__((designated_init))
#else
#define DEW_BY_NAME
#endif

struct dew_numbers_none {
    int none;
};
#define N(name, unit) double name;
#define Y(name)       int name;
#define E(name, of)   enum dew_##of name;
#define X(kind, rule, group, numbers)                                          \
    struct dew_numbers_##kind {                                                \
        numbers                                                                \
    } DEW_BY_NAME;
#define AS(kind, rule, group, like)
DEW_FINDING_MAP(X, AS, N, Y, E)
#undef X
#undef AS
#undef N
#undef Y
#undef E

/* The numbers of a finding, under its kind. */
union dew_numbers {
#define AS(kind, rule, group, like)   struct dew_numbers_##like kind;
#define X(kind, rule, group, numbers) AS(kind, rule, group, kind)
    DEW_FINDING_MAP(X, AS, , , )
#undef X
#undef AS
};

enum { DEW_FINDING_SOURCES = 3, DEW_NO_OPTION = -1 };

/* One thing found.  Plain. */
struct dew_finding {
    enum dew_finding_kind kind;
    int option, other; /* DEW_NO_OPTION when none                         */
    unsigned months;   /* bit 0 = January                                 */
    union dew_numbers number; /* number.mould.index of a mould            */
    size_t so, drawn; /* houses drawn in which it is so too, of so many; 0 of
                         0 where none was or it hangs on no limit            */
    /* the largest named flows of water behind it, and their kg/day */
    const char *source[DEW_FINDING_SOURCES];
    double source_kg[DEW_FINDING_SOURCES];
};

enum { DEW_FINDINGS = 896 }; /* 64 options, fourteen kinds each */

/* Findings in the order they are told. */
struct dew_verdict {
    struct dew_finding list[DEW_FINDINGS];
    size_t count;
    int best; /* option, or DEW_NO_OPTION                        */
};

/* Judge.  *out is large: better not on a small stack. */
void dew_verdict_of(const struct dew_question *question,
                    struct dew_verdict *out);

/* The key of a kind in JSON: "today_humid".  Never NULL. */
const char *dew_verdict_key(enum dew_finding_kind kind);

/* The group that a kind, below DEW_FINDING_KINDS, is told in. */
enum dew_finding_group dew_verdict_group(enum dew_finding_kind kind);

/*
 * Outdoor air of an option, m3/s, means over its run.  A rule is met by what
 * is counted and by nothing else: what a ventilator brings to the rooms; of an
 * exhaust fan alone, which brings none, what it draws in through leaks, which
 * [ASH-622] counts alike.  A ventilator of two fans that throws out more than
 * it brings in draws air through leaks too: that never counts.  Where the
 * schedule leaves long pauses, what counts is the more of the mean of its worst
 * three hours and the steady flow of the same mean concentration (exact for
 * one mixed zone, one pause a day).
 */
struct dew_fresh_air {
    double rooms;   /* by ventilator (or ventilating dehumidifier), to rooms  */
    double drawn;   /* by a lone exhaust fan, through leaks                   */
    double leaks;   /* through leaks in all: natural and driven, drawn too    */
    double counted; /* rooms and drawn, less what pauses cost                 */
};
struct dew_fresh_air dew_verdict_air(const struct dew_question *question,
                                     size_t option);

/* The counted part of it. */
double dew_verdict_fresh(const struct dew_question *question, size_t option);

/* Whether an option delivers the fresh air asked for; 1 when none is asked. */
int dew_verdict_ventilates(const struct dew_question *question, size_t option);

/*
 * The options that will do, which is to deliver the fresh air asked for and
 * keep the limits, into out (room for 64): by what they cost over the years;
 * where one has no price to install, by what they cost to run and then by the
 * hours outside the limits; without prices of energy by the energy they use.
 * Returns how many.
 */
size_t dew_verdict_passing(const struct dew_question *question, size_t out[64]);

/* h   outside the limits of humid, dry and wet glass, summed */
double dew_verdict_outside(const struct dew_question *question, size_t option);

/* Whether it keeps the limits of humid, dry and wet glass. */
int dew_verdict_keeps(const struct dew_question *question, size_t option);

/*
 * Hours too humid of an option by what is not known of its wet coil: likely,
 * low, high.  Returns 0, *out untouched, where that was not marched.
 */
int dew_verdict_coil(const struct dew_question *question, size_t option,
                     struct dew_estimate *out);

/* The bill of an option; all NaN when no prices are given. */
struct dew_bill dew_verdict_bill(const struct dew_question *question,
                                 size_t option);

/* ---- cautions ------------------------------------------------------------ */

/*
 * What could hurt someone or a house, tied to what was told of it.  A question
 * that was not answered counts as the answer that calls for care, and is told
 * as a question, with the key that answers it.  The list is part of every
 * output and nothing turns a row of it off.
 */

/* STOP: do nothing before it is settled.  CHECK: look.  NOTE: know. */
enum dew_caution_level { DEW_STOP, DEW_CHECK, DEW_NOTE, DEW_CAUTION_LEVELS };

/* One caution that stands.  Plain; strings are static. */
struct dew_caution {
    enum dew_caution_level level;
    const char *key;    /* "combustion": stable, for scripts                */
    const char *text;   /* in our words, a few sentences                    */
    const char *brief;  /* a line of at most 72 characters; NULL = none     */
    const char *ask;    /* a question of at most 38; NULL = none            */
    const char *source; /* a label of docs/references.md, or a few words    */
    uint64_t options;   /* bit i: option i calls for it; 0: the house does  */
    /* YES: told, or computed of what was told.  UNKNOWN: nobody said */
    enum dew_answer answer;
    const char *question_key; /* "safety.illness": answers it; NULL = none  */
    int has_pressure;         /* 1: what follows is about something         */
    double pressure; /* Pa   deepest of dew_cautions_suction over those options
                        (of the house: all) of which there is one; NaN      */
    int worst;       /* the option it is of; DEW_NO_OPTION with NaN         */
    unsigned untold; /* fans not told, and the options they are not told of */
    uint64_t untold_options;
};

enum { DEW_CAUTIONS = 64 };

/*
 * The house's pressure with every fan at once: the ventilator and blowers in
 * their worst state, each local exhaust at its full flow.  None is computed
 * while the flow of one of the three was not told, 0 m3/s where it is absent:
 * one that is there and not counted would make it false comfort.
 */
struct dew_suction {
    double pressure; /* Pa   house over outdoors; NaN with untold           */
    unsigned fans;   /* bit e of enum dew_local: counted                    */
    unsigned untold; /* the same: not told                                  */
    int beyond;      /* 1: past DEW_SUCTION_MOST                            */
};
struct dew_suction dew_cautions_suction(const struct dew_question *question,
                                        size_t option);

/* Pa  Past it no household fan delivers its rated air, and no figure is told.
   Our own choice, no source. */
#define DEW_SUCTION_MOST 50.0

/*
 * The cautions that stand, STOP first, in a level what was told first, then in
 * a fixed order, into out of room entries (DEW_CAUTIONS hold any).  Returns how many stand.
 */
size_t dew_cautions_of(const struct dew_question *question,
                       struct dew_caution *out, size_t room);

/*
 * The caution of that key as it is told with that answer, whether it stands or
 * not, with options 0 and pressure NaN.  Returns 0, and leaves *out, where
 * there is none.
 */
int dew_cautions_find(const char *key, enum dew_answer answer,
                      struct dew_caution *out);

/* "You have not said whether ": how every open question begins. */
const char *dew_cautions_open_words(void);

/* "STOP", "CHECK", "NOTE"; never NULL. */
const char *dew_cautions_level(enum dew_caution_level level);

#ifdef __cplusplus
}
#endif
#endif
