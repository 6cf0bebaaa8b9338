/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a study needs beside the cases: answers to the safety questions,
 * prices, what each option costs, and what each option is in words that
 * cautions hang on.  Plain; the scenario floor fills them, the study and the
 * report read them.
 */
#ifndef DEW_STUDY_INPUTS_H
#define DEW_STUDY_INPUTS_H

#include "dew/layout.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Not asked and not known are the same, and both call for caution. */
enum dew_answer { DEW_ANSWER_UNKNOWN, DEW_ANSWER_NO, DEW_ANSWER_YES };

/* One row per question: member (and key safety.member), what it asks. */
#define DEW_SAFETY_MAP(X)                                                      \
    X(natural_draft_appliance,                                                 \
      "a furnace, boiler, water heater, stove or fireplace that draws its "    \
      "air from the rooms and sends its smoke up a chimney by draught")        \
    X(unvented_heater, "a fuel heater or stove without a flue")                \
    X(attached_garage, "a garage that shares a wall or ceiling with the "      \
                       "house")                                                \
    X(carbon_monoxide_alarm, "a working carbon monoxide alarm on each floor")  \
    X(visible_mould, "mould that can be seen, about 10 ft2 or more in all")    \
    X(sewage_or_flood, "water from a drain or a flood in the past year")       \
    X(illness, "asthma, immune trouble or symptoms laid to the house")         \
    X(bulk_water, "a leak, a wet cellar, a wet crawl space or rain coming in") \
    X(radon_tested, "a radon test since the last change of house or "          \
                    "ventilation")                                             \
    X(foamed_roof_deck, "foam sprayed under the roof boards")                  \
    X(recent_foam, "foam sprayed in the past year, or a smell of it")          \
    X(old_insulation, "duct wrap or insulation from before 1985 that may "     \
                      "hold asbestos")                                         \
    X(ducts_outside, "ducts in an attic, garage or crawl space")               \
    X(dryer_vented_outdoors, "a clothes dryer whose duct ends outdoors")       \
    X(hood_into_ventilator, "a kitchen hood or clothes dryer ducted into the " \
                            "ventilator")

#define DEW_ANSWER_MEMBER(name, words) enum dew_answer name;
struct dew_safety {
    DEW_SAFETY_MAP(DEW_ANSWER_MEMBER)
    double house_age; /* s    since it was finished; NaN unknown             */
};

/* A figure with its doubt; low = high = likely when none is given. */
struct dew_estimate {
    double likely, low, high;
};

/* Prices, one set a scenario.  NaN where not given. */
struct dew_prices {
    struct dew_estimate electricity; /* $/J                                 */
    struct dew_estimate gas;         /* $/J   of the fuel's heat            */
    struct dew_estimate oil;         /* $/J                                 */
    struct dew_estimate propane;     /* $/J                                 */
    struct dew_estimate wood;        /* $/J                                 */
    struct dew_estimate wage;        /* $/s   own hours; 0 = free           */
    double interest;                 /* -     real, per year                */
    double years;                    /* a     over which costs are compared */
    char date[32];                   /* when the prices were true, as typed */
    char currency[8];                /* "$"                                 */
    /* by month, from January; read where the flag beside them is 1 */
    struct dew_estimate electricity_by_month[12], gas_by_month[12]; /* $/J  */
    int electricity_seasonal, gas_seasonal;
};

/* The reading that decides whether a second stage follows. */
enum dew_reading_kind {
    DEW_READING_humidity,
    DEW_READING_air_flow,
    DEW_READING_carbon_dioxide
};

/* What one option costs.  Zero where nothing is bought. */
struct dew_costs {
    struct dew_estimate install;   /* $    parts and labour                 */
    struct dew_estimate upkeep;    /* $    a year: filters, cores, service  */
    struct dew_estimate own_hours; /* s    the owner's own work             */
    struct dew_estimate later;     /* $    a second stage, if it follows    */
    double later_chance;           /* -    that it follows                  */
    double later_after;            /* a    until it does                    */
    double life;                   /* a    before it is bought again        */
    char date[32];                 /* as typed, or ""                       */
    char next[92];                 /* name of the option it then is, or ""  */
    enum dew_reading_kind reading; /* that decides                          */
};

/* What the ventilator is. */
#define DEW_CORE_MAP(X)                                                        \
    X(none, "no ventilator")                                                   \
    X(supply_only, "supply fan, no recovery")                                  \
    X(exhaust_only, "exhaust fan, no recovery")                                \
    X(balanced, "supply and exhaust fans, no recovery")                        \
    X(heat_plate, "plate core, heat only")                                     \
    X(enthalpy_plate, "plate core, heat and moisture")                         \
    X(enthalpy_wheel, "wheel, heat and moisture")

enum dew_core_kind {
#define X(name, words) DEW_CORE_##name,
    DEW_CORE_MAP(X)
#undef X
        DEW_CORE_KINDS
};

/*
 * What an option's figures leave open, read another way: the lower and the
 * higher core that its spec sheet allows (the fan terms of TRE, what LRMT,
 * SRE and ASRE have had taken out), and the other way of running two or more
 * air handlers, which one zone cannot know; and a cooling coil that is as dry
 * between runs, or as wet, as its figures' ranges allow.
 */
enum dew_otherwise {
    DEW_CORE_READ_LOW,
    DEW_CORE_READ_HIGH,
    DEW_HANDLERS_OTHER,
    DEW_COIL_DRY,
    DEW_COIL_WET,
    DEW_OTHERWISES
};

/* What cautions and words about one option hang on, beside its case. */
struct dew_option_facts {
    enum dew_core_kind core;
    enum dew_layout layout;
    double flow;               /* m3/s   asked of the ventilator            */
    double rated_flow;         /* m3/s   before the as-found derate         */
    enum dew_answer damper;    /* motorised damper on a tied-in duct        */
    enum dew_answer interlock; /* blower runs whenever the ventilator does  */
    int handlers;              /* air handlers that heat or cool by air     */
    struct dew_estimate half_life; /* d  of construction water              */
    double storeys;                /* -  1 .. 3                             */
    unsigned exhausts_told; /* bit e of enum dew_local: its flow was given, 0
                               too, which says there is none                */
    int label_open; /* 1: a dehumidifier by its label, whose test is not told */
};

/* The words of the lists; never NULL. */
const char *dew_layout_text(enum dew_layout layout);
const char *dew_core_text(enum dew_core_kind core);
/* "unknown", "no" or "yes". */
const char *dew_answer_text(enum dew_answer answer);

#ifdef __cplusplus
}
#endif
#endif
