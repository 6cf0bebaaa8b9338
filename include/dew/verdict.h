/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The verdict: what the year says, as findings with their numbers.  Each
 * finding comes from one rule; report puts it into words in the reader's
 * units.  Nothing here is surer than the books it is read from.
 */
#ifndef DEW_VERDICT_H
#define DEW_VERDICT_H

#include <stdint.h>

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
    double close_share; /* -    costs or hours nearer than this: close call */
    double close_hours; /* h/a  or hours nearer than this                   */
};

/* 2 %, 5 %, 95 %, 10 %, 50 h. */
struct dew_judging dew_verdict_judging(void);

/* All that a verdict and the cautions are read from.  Borrowed. */
struct dew_question {
    const struct dew_choice *choices; /* the first is the house as it stands */
    size_t count;                     /* 1 .. 64                             */
    const struct dew_safety *safety;
    const struct dew_prices *prices; /* NULL = none given                   */
    struct dew_judging judging;
    const struct dew_beside *measured; /* a log of the first; NULL = none   */
};

/*
 * The kinds in the order they are told, with the key in JSON.  Values are
 * those of struct dew_finding.value; option and other count from 0.
 */
/* clang-format off */
#define DEW_FINDING_MAP(X)                                                     \
    X(today_humid)      /* hours too humid, worst month's hours, longest run */\
    X(today_dry)        /* hours too dry, worst month's hours               */ \
    X(today_fine)       /* hours too humid, hours too dry                   */ \
    X(coil_today)       /* hours too humid, by the coil: likely, low, high; \
                           1 = the limits hang on that */                   \
    X(today_sweat)      /* hours of wet glass                               */ \
    X(today_assumes)    /* enum dew_untold                                  */ \
    X(short_heat)       /* option; hours heating falls short, coldest degC   */\
    X(saturated)        /* option; hours of saturated air, kg fallen out    */ \
    X(mould)            /* option; surface, index, after ten years          */ \
    X(drying)           /* share of the inflow, kg/day                      */ \
    X(drying_ends)      /* h until it no longer matters: likely, low, high  */ \
    X(wait)             /* hours too humid once dry, now; dry, now          */ \
    X(settled)          /* option best once dry (or none), now; hours humid \
                           then, 1 = the cheapest to run of several */      \
    X(idle)             /* hours of them with cooling idle, hours too humid */ \
    X(cool_large)       /* hours cooling runs above half, share of its      \
                           busiest month that it runs; that month */        \
    X(outdoor_dries)    /* hours outdoor air could dry, all; months mostly  */ \
    X(outdoor_cannot)   /* share it could in those months, hours it cannot, \
                           all hours; those months */                       \
    X(air_fixes)        /* option; hours too humid, base's; its hours too   \
                           dry where it does not keep that limit, else 0 */ \
    X(air_fails)        /* option; hours too humid, base's; months not      */ \
    X(air_worsens)      /* option; its hours too humid, base's; hours added \
                           in those months; months */                       \
    X(dryer_not_needed) /* option; hours too humid without one              */ \
    X(dryer_needed)     /* option; hours with, least hours without          */ \
    X(dryer_alone)      /* option; hours too humid, fresh, required m3/s    */ \
    X(dryer_instead)    /* option; hours too humid, J; no fresh air wanting */ \
    X(dryer_size)       /* option; kg/s on its label, in this house's air,  \
                           on its busiest day; J, h of running */           \
    X(dryer_label)      /* option; kg/s on its label, that at today's test  \
                           if the label is of the old one */                \
    X(dryer_short)      /* option; hours with                               */ \
    X(dryer_untried)    /* least hours without                              */ \
    X(least_humid)      /* option; hours, base's hours, options alike       */ \
    X(core_heat)        /* option, other; humid, dry of each                */ \
    X(core_enthalpy)    /* option, other; humid, dry of each                */ \
    X(core_close)       /* option, other; humid, dry of each                */ \
    X(grows_dry)        /* option; hours too dry, base's; months            */ \
    X(wetter_untried)   /* option of least hours too dry; those             */ \
    X(blower_cost)      /* option; J of blower, J of fans, kg put back      */ \
    X(tie_fine)         /* option, own ducts; enum dew_tie, more hours too  \
                           humid, J blower, kg put back; m3/s drawn, in; h  \
                           wet in or on the supply trunk */                 \
    X(tie_harmful)      /* the same; other = none: no such option           */ \
    X(best)             /* option; money or J, -, 1 = money over the years, \
                           2 = money a year, the price to install not told, \
                           0 = J; 1 = only */                               \
    X(best_open)        /* option cheapest to run, the next; money a year;  \
                           no best, for want of prices to install */        \
    X(best_close)       /* option, other; both values, 1 = money            */ \
    X(best_none)        /* option nearest; its humid, dry, wet glass hours  */ \
    X(coil_option)      /* option; the same, 1 = its limits hang on that    */ \
    X(under_ventilated) /* option; fresh, required m3/s                     */ \
    X(pays_back)        /* option; years likely, low, high                  */ \
    X(never_pays)       /* option; yearly saving (or below 0), dearer by    */ \
    X(staged)           /* option, the one it becomes; money now, later,    \
                           chance, expected of both, that one at once,     \
                           chance at which they are alike */               \
    X(reading)          /* the same; enum dew_reading_kind, days, value     \
                           above (air: below) which to go on, expected;     \
                           month */                                         \
    X(unpriced)         /* no prices given                                  */
/* clang-format on */

enum dew_finding_kind {
#define X(name) DEW_FINDING_##name,
    DEW_FINDING_MAP(X)
#undef X
        DEW_FINDING_KINDS
};

/* What the house as it stands was not told to have; bits of value[0]. */
enum dew_untold {
    DEW_NO_BATH_FAN = 1,
    DEW_NO_HOOD = 2,
    DEW_NO_CLOTHES_DRYER = 4, /* one that blows outdoors                    */
    DEW_NO_COOLING = 8,
    DEW_WINDOWS_SHUT = 16 /* all year                                       */
};

/* What speaks against a tie-in; bits of value[0]. */
enum dew_tie {
    DEW_TIE_SHORT = 1,  /* much of its air short-circuits                    */
    DEW_TIE_AIR = 2,    /* less than asked for, where own ducts bring it     */
    DEW_TIE_HUMID = 4,  /* more hours too humid than with own ducts          */
    DEW_TIE_BLOWER = 8, /* more electricity for the blower                   */
    DEW_TIE_PUTBACK = 16, /* more water put back by the coil                 */
    DEW_TIE_WET = 32      /* the supply trunk sweats past the limit          */
};

enum { DEW_FINDING_VALUES = 7, DEW_FINDING_SOURCES = 3, DEW_NO_OPTION = -1 };

/* One thing found.  Plain; a value that does not apply is 0. */
struct dew_finding {
    enum dew_finding_kind kind;
    int option, other; /* DEW_NO_OPTION when none                         */
    unsigned months;   /* bit 0 = January                                 */
    double value[DEW_FINDING_VALUES];
    double near_limit; /* h   that still keep a limit, where the hours behind
                          the finding lie so near that it is no sure answer */
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
