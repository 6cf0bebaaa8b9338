/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The equipment: what the march needs of it.  Plain, SI, complete.
 * core.h, coil.h, dryer.h on this floor turn spec sheets into these.
 */
#ifndef DEW_PLANT_H
#define DEW_PLANT_H

enum { DEW_HANDLERS = 3 };

#ifdef __cplusplus
extern "C" {
#endif

/* Blower of one air handler, and what runs it besides heat and cold. */
#define DEW_BLOWER_MAP(X)                                                      \
    X(AUTO, auto)           /* with heating and cooling only */                \
    X(ON, on)               /* always */                                       \
    X(MINUTES, minutes)     /* a share of every hour */                        \
    X(INTERLOCK, interlock) /* with the ventilator */

enum dew_blower_mode {
#define X(name, word) DEW_BLOWER_##name,
    DEW_BLOWER_MAP(X)
#undef X
};

/*
 * One air handler: coil and blower.  Of several, an even split runs all at the
 * same duty; lead and lag runs the first to its full before the next.
 */
struct dew_handler {
    double capacity;     /* W       gross total at rating, one handler       */
    double shr;          /* -       gross sensible share at rating           */
    double air;          /* m3/s    through the coil at rating               */
    double cop;          /* -       gross capacity / compressor + condenser W */
    double blower_w;     /* W       at full flow                             */
    double blower_low;   /* -       low (circulation) flow, share of air     */
    double blower_low_w; /* W                                                */
    enum dew_blower_mode mode;
    double minutes;     /* -       share of the hour, DEW_BLOWER_MINUTES    */
    double cycling;     /* -       C_d                                      */
    double cycles_max;  /* 1/h     N_max                                    */
    double hold_s;      /* s       t_wet: water held / latent rate          */
    double gamma;       /* -       initial evaporation / latent rate        */
    double off_delay;   /* s       blower runs on after a cycle of cooling  */
    double still;       /* -       blower off: share evaporated all the same */
    double low_stage;   /* -       capacity of the low stage, 1 = single    */
    double turndown;    /* -       least capacity of a variable unit, 1 = no */
    double low_air;     /* -       air at that stage or least, share of air;
                                   0 = as its capacity                      */
    double overcool;    /* K       below set point while too humid, 0 = no  */
    double overcool_rh; /* -       above which it overcools                 */
};

/* Heating. */
struct dew_heater {
    double capacity; /* W    0 = none; of a heat pump, at 8.3 degC (47 degF) */
    double backup;   /* W    resistance heat beside a heat pump          */
    double efficiency; /* -    0 = heat pump, then cop                     */
    double cop_warm;   /* -    COP at 8.3 degC (47 degF)                   */
    double cop_cold;   /* -    COP at -8.3 degC (17 degF)                  */
    int fuel;          /* 0 electricity, 1 gas, 2 oil, 3 propane, 4 wood   */
    int by_air;        /* 1: blows through the air handlers                */
};

/* Frost protection of a recovery core. */
#define DEW_FROST_MAP(X)                                                       \
    X(NONE, none)                                                              \
    X(RECIRCULATE, recirculate)                                                \
    X(EXHAUST_ONLY, exhaust_only)                                              \
    X(PREHEAT, preheat)

enum dew_frost {
#define X(name, word) DEW_FROST_##name,
    DEW_FROST_MAP(X)
#undef X
};

struct dew_frost_rule {
    enum dew_frost strategy;
    double start;      /* degC   outdoor t below which it acts              */
    double deep;       /* degC   outdoor t at which share_deep is reached   */
    double share;      /* -      of time lost just below start              */
    double share_deep; /* -      of time lost at deep and below             */
    double dry_dew;    /* degC   exhaust dew point below which none is needed */
};

/* When the ventilator runs. */
struct dew_control {
    double on_weekday[24], on_weekend[24]; /* - 0 .. 1 share of each hour   */
    double boost_rh;   /* -     above it the boost flow, 0 = never      */
    double boost_band; /* -     over which boost comes in               */
    double lockout_w;  /* kg/kg outdoor w above which it is held low; 0 no */
    double lockout_excess; /* kg/kg also only if w_out > w_in + this; NaN no */
    double lockout_least;  /* -     least share of time kept                */
    double winter_rh[2];   /* -     RH target at 0 and -20 degC, 0 = no     */
    double bypass_low;     /* degC  free cooling: outdoors above this,      */
    double bypass_indoor;  /* degC  and indoors above this; NaN = none      */
    double event_boost;    /* -     share of events that boost             */
    double events[24]; /* -     share of each hour that events' boosts last */
};

/* Dehumidifier, ventilating or not.  Curves in dryer.h. */
struct dew_dryer {
    double rate;      /* kg/s   at its rating point, 0 = none              */
    double factor;    /* kg/J   energy factor at its rating point          */
    double rating_t;  /* degC   of the label                               */
    double rating_rh; /* -      of the label                               */
    double set;       /* -      RH set point, middle of the band           */
    double band;      /* -      full width of the proportional band        */
    double outdoor;   /* m3/s   outdoor air it draws through itself; what its
                                 pressure does to leakage is left out       */
    double drained;   /* -      share of the day it is not full            */
};

struct dew_humidifier {
    double rate; /* kg/s   at full output, 0 = none                        */
    double set;  /* -      RH set point, middle of the band                */
    double band; /* -                                                      */
    double
        heat; /* -      1: evaporative, takes its heat from the air; 0: steam */
};

/* Local exhaust: bath, kitchen, dryer. */
enum dew_local {
    DEW_LOCAL_BATH,
    DEW_LOCAL_KITCHEN,
    DEW_LOCAL_DRYER,
    DEW_LOCALS
};
struct dew_exhaust {
    double flow;      /* m3/s   while running                               */
    double watts;     /* W      while running                               */
    double hours[24]; /* -      share of each hour, run-on included         */
    double caught; /* -      share of its event's water taken before mixing */
};

struct dew_plant {
    struct dew_handler handlers[DEW_HANDLERS];
    int handler_count; /* 0 .. 3                                          */
    int lead_lag;      /* 0 even split, 1 lead and lag                    */
    struct dew_heater heater;
    struct dew_frost_rule frost;
    int core_is_wheel; /* or plate                                        */
    int core_passes_water;
    struct dew_control control;
    struct dew_dryer dryer;
    struct dew_humidifier humidifier;
    struct dew_exhaust exhausts[DEW_LOCALS];
};

/* ---- control: shares of time, 0 .. 1, from the state --------------------- */

/* Each comes in along a straight ramp, so that no answer hangs on the step.
   engine/plant/control_step.h holds the same as inline functions. */

/* 0 at low and below, 1 at low + width and above; width 0 = a step. */
double dew_plant_ramp(double x, double low, double width);

/*
 * The week's schedule: mean share of time on, and the least mean of any three
 * hours on end, to which [ASH-622] holds a fan that pauses (from memory).
 */
struct dew_schedule {
    double mean, least;
};
struct dew_schedule dew_plant_schedule(const struct dew_control *control);

/* Share of boost: 0 at boost_rh, 1 a boost_band above; 0 when boost_rh = 0. */
double dew_plant_boost(const struct dew_control *control, double rh);

/*
 * Share kept of the ventilator's time, lockout_least .. 1.  Outdoor air holds
 * more than lockout_w, and more than w_in + lockout_excess when that is
 * asked: each comes in over 0.0002 kg/kg centred on its limit.
 */
double dew_plant_lockout(const struct dew_control *control, double w_out,
                         double w_in);

/*
 * RH the house should have at t_out in winter: winter_rh[0] at 0 degC and
 * above, a straight line to winter_rh[1] at -20 degC, level below.  NaN when
 * winter_rh[0] = 0: none set.
 */
double dew_plant_winter_rh(const struct dew_control *control, double t_out);

/*
 * Share of the core by-passed for free cooling, 0 .. 1: outdoors above
 * bypass_low and below the indoor air, indoors above bypass_indoor; each comes
 * in over 0.5 K.  0 when bypass_low is NaN.
 */
double dew_plant_bypass(const struct dew_control *control, double t_out,
                        double t_in);

/*
 * Share of output of a dryer or humidifier with a band about its set point: 0
 * to 1 across it.  0 of a device without a rate; NaN for a band of no width,
 * and for an rh below 0.
 */
double dew_plant_dry_demand(const struct dew_dryer *dryer, double rh);
double dew_plant_humid_demand(const struct dew_humidifier *humidifier,
                              double rh);

/* ---- frost in a recovery core -------------------------------------------- */

/*
 * A rule with its usual figures, for a core that passes water or not.
 *
 * Starts     -5 degC for plates that pass no water, -10 degC for those that
 *            do [MANUALS].
 * Shares     6 min in 38 from the start, 6 in 26 below -27 degC: a typical
 *            printed time table, from memory.  Preheat loses no time.
 * Dry        no defrost when the exhaust air's dew point is so low that no
 *            water comes out at the threshold: -20 degC, ours.
 */
struct dew_frost_rule dew_plant_frost_usual(enum dew_frost strategy,
                                            int passes_water);

/*
 * Share of time lost to defrosting, 0 .. 1: recirculating (no fresh air) or
 * exhausting alone (unbalanced).  0 for preheat and for none.
 *
 *     t_out  degC   outdoors
 *     dew    degC   dew point of the exhaust air
 *
 * From rule->share at rule->start in a straight line to rule->share_deep at
 * rule->deep; fades to nothing over the 2 K of dew above rule->dry_dew.
 */
double dew_plant_frost_share(const struct dew_frost_rule *rule, double t_out,
                             double dew);

/*
 * Outdoor temperature, degC, at which the coldest part of a balanced
 * counterflow core reaches 0 degC: the wall there is midway between outdoor
 * air in and exhaust air out, -(1 - eps) t_in / (1 + eps).  A figure to report
 * beside the rule; it takes the exhaust air as saturated there.
 */
double dew_plant_frost_threshold(double eps, double t_in);

#ifdef __cplusplus
}
#endif
#endif
