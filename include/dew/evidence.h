/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a logger's hours tell of a house: by how much its air is wetter than
 * the air outdoors, at each outdoor temperature, and how long it remembers.
 *
 *   e(t)  = sum_j E_j hat_j(T6) + a cos(2 pi h/24) + b sin(2 pi h/24)
 *           + c exp(-t / 180 d) in a house under two years old           Pa
 *   x(t)  = 100 (pv_out + e) / pws(t_in)                                 % RH
 *   RH(t) = sum_k w_k M_k[x]        what the house does                  % RH
 *   y(t)  = RH + s + f + white      what the logger shows                % RH
 *
 * T6 is the outdoor temperature, exponential mean of 6 h, kept within
 * -30 .. 24 degC; hat_j are straight lines between the nodes, carried on
 * beyond the last; h is the hour by the clock.  M_k remember for 0, 12 and
 * 240 h (air, surfaces, deep stores); the shares w sum to 1.  s and f are
 * habits that change slowly and quickly: each an Ornstein-Uhlenbeck process.
 *
 * An excess, no source and no air change: one log cannot tell water given off
 * from windows opened.  The method is our own, found by regression on lived-in
 * houses; what is known beforehand and where from is in
 * engine/evidence/prior.c, how well it does in docs/evidence.md.
 */
#ifndef DEW_EVIDENCE_H
#define DEW_EVIDENCE_H

#include <stddef.h>

#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One hour of a log and of the outdoors; NaN where it was not had.  Hours
   follow one another without a step. */
struct dew_evidence_hour {
    double t_in;   /* degC    -70 .. 60                                     */
    double rh;     /* -         0 .. 1     over liquid water                */
    double t_out;  /* degC    -70 .. 60                                     */
    double pv_out; /* Pa        0 ..                                        */
    int clock;     /* h         0 .. 23    of the day, by the clock         */
};

/* How many of them have all four figures. */
size_t dew_evidence_whole(const struct dew_evidence_hour *hours, size_t count);

enum {
    DEW_EVIDENCE_NODES = 5,    /* of the curve                              */
    DEW_EVIDENCE_MEMORIES = 3, /* none, 12 h, 240 h                         */
    DEW_EVIDENCE_UNKNOWNS = 10 /* E_j, z1, z2, a, b, c in this order        */
};

/* Where the nodes are, degC. */
extern const double dew_evidence_node[DEW_EVIDENCE_NODES];
/* How long each memory is, h. */
extern const double dew_evidence_memory[DEW_EVIDENCE_MEMORIES];

/* The excess taken for likely before a log is seen: from level at 0 degC in a
   straight line to nothing at zero. */
struct dew_evidence_prior {
    double level; /* Pa     50 .. 2000                                      */
    double zero;  /* degC    5 .. 40                                        */
};
#define DEW_EVIDENCE_PRIOR                                                     \
    {                                                                          \
        .level = 350.0, .zero = 20.0                                           \
    }

struct dew_evidence_ask {
    const struct dew_evidence_hour *hours;
    size_t count;
    size_t until; /* hours from the first on that are learned from; the rest
                     is foretold from t_in and the outdoors and held to the
                     log                                                    */
    int young;    /* 1: the house is under two years old at the first hour  */
    struct dew_evidence_prior prior;
};

/* Where least hours are asked for: 7 days, our own choice. */
enum { DEW_EVIDENCE_LEAST = 7 * 24 };

/* What the air does beside the curve: standard deviations and times. */
struct dew_evidence_noise {
    double slow, slow_hours;   /* % RH, h                                   */
    double quick, quick_hours; /* % RH, h                                   */
    double white;              /* % RH                                      */
};

/* A figure and its standard deviation. */
struct dew_evidence_figure {
    double value, sd;
};

/* How well hours were met; NaN where there are none.  Plain. */
struct dew_evidence_score {
    size_t hours;   /* with a humidity in the log                        */
    double days;    /* of these                                          */
    double rmse_rh; /* % RH                                              */
    double bias_rh; /* % RH   foretold less measured, mean               */
    double rmse_pv; /* Pa     of vapour pressure                         */
    double band80;  /* -      share of hours inside the band of 80 %     */
};

/* What was learned.  Plain; borrowed from the evidence. */
struct dew_evidence_learned {
    struct dew_evidence_figure curve[DEW_EVIDENCE_NODES]; /* Pa            */
    struct dew_evidence_figure day_cos, day_sin;          /* Pa            */
    struct dew_evidence_figure young;                     /* Pa; else 0, 0 */
    struct dew_evidence_figure z[2];
    double weight[DEW_EVIDENCE_MEMORIES]; /* of 1                          */
    double covariance[DEW_EVIDENCE_UNKNOWNS * DEW_EVIDENCE_UNKNOWNS];
    struct dew_evidence_noise noise;
    struct dew_evidence_score fit, rest;
    struct dew_evidence_score line_fit, line; /* the yardstick: the excess a
                                                 straight line of t_out fitted
                                                 to the same hours; its band
                                                 is NaN                    */
    double innovation;      /* rms of the standardised innovations        */
    double t_least, t_most; /* degC  outdoor means of 6 h learned from    */
};

/* An hour as foretold, % RH; NaN where t_in or the outdoors are missing. */
struct dew_evidence_told {
    double model; /* what the curve and the memory alone say                */
    double rh;    /* with what the habits had become at the last hour learned
                     from; before that hour, as model                       */
    double sd;    /* of log less rh; the band of 80 % is 1.2816 of it to both
                     sides.  Of an hour learned from it is less by as much as
                     the house is in doubt, else more: a fit is drawn to its
                     own hours                                              */
};

struct dew_evidence; /* opaque: hours, what was learned, the hours foretold */

/*
 * Learn a house from its hours; the first day is not learned from.
 *
 * Owner   on DEW_OK *evidence is the caller's, for dew_evidence_close; else
 *         NULL.  hours are borrowed for the call.
 * Errors  DEW_EMISSING: fewer than DEW_EVIDENCE_LEAST hours to learn from
 *         with all four figures; DEW_ERANGE: a humidity that stays the same,
 *         a figure of the ask or of an hour out of range (err->hour says
 *         which, from 1); DEW_ESOLVE; DEW_EMEM.
 */
enum dew_status dew_evidence_open(struct dew_evidence **evidence,
                                  const struct dew_evidence_ask *ask,
                                  struct dew_error *err);
const struct dew_evidence_learned *dew_evidence_learned(
    const struct dew_evidence *evidence);
/* One for each hour of the ask. */
const struct dew_evidence_told *dew_evidence_told(
    const struct dew_evidence *evidence);

/* The excess at an outdoor temperature, Pa, mean of the day, and its sd. */
struct dew_evidence_figure dew_evidence_excess(
    const struct dew_evidence_learned *learned, double t_out);

/* The share of a change in the air that shows after so many hours. */
double dew_evidence_shown(const struct dew_evidence_learned *learned,
                          double hours);

/* ---- did it change? --------------------------------------------------------- */

/* Of draws: one in ten is below p10, one above p90. */
struct dew_evidence_range {
    double p10, p50, p90;
};

struct dew_evidence_change_ask {
    const struct dew_evidence_hour *hours; /* as learned from                */
    size_t from; /* the first hour compared; until or later: the time that the
                    stores of the changed house need lies between            */
    double too_humid; /* -    0 .. 1                                       */
    size_t draws;     /* 10 .. 10000                                       */
    unsigned long seed;
};

/* The log beside the same weather in the house as it was.  Plain. */
struct dew_evidence_change {
    double days;                     /* compared                              */
    struct dew_evidence_range rh;    /* % RH  logged less as it was, mean     */
    struct dew_evidence_range pv;    /* Pa    the same of vapour pressure     */
    double humid_logged;             /* h     above too_humid                 */
    struct dew_evidence_range humid; /* h    the same as it was              */
    double drier; /* -     share of draws in which the log is the drier      */
};

/*
 * Draw the house learned from the hours before until, its habits going on
 * from where they were, through the hours after; and hold the log to it.
 * Errors: DEW_EMISSING: fewer than DEW_EVIDENCE_LEAST hours to compare;
 * DEW_ERANGE; DEW_ESOLVE; DEW_EMEM.
 */
enum dew_status dew_evidence_changed(struct dew_evidence *evidence,
                                     const struct dew_evidence_change_ask *ask,
                                     struct dew_evidence_change *out,
                                     struct dew_error *err);

/* ---- air change from CO2 ------------------------------------------------------ */

/* Falls of CO2 after people left, and the air change of each, 1/h. */
struct dew_evidence_falls {
    size_t count;
    struct dew_evidence_range rate; /* 1/h  NaN where there are none         */
};

/*
 * A fall is three hours or more one after the other, each lower than the one
 * before, from 400 ppm or more above the outdoors to 100 or more above; its
 * air change is the slope of the logarithm of what is above, by least squares
 * (concentration decay, [ASTM-E741]).  Whoever is still in the house makes
 * it look less.
 *
 *     co2      ppm    count hours' means, NaN where not had
 *     outdoor  ppm    300 .. 1000
 * Errors: DEW_ERANGE, DEW_EMEM.
 */
enum dew_status dew_evidence_falls(const double *co2, size_t count,
                                   double outdoor,
                                   struct dew_evidence_falls *out,
                                   struct dew_error *err);

void dew_evidence_close(struct dew_evidence *evidence); /* NULL is allowed */

#ifdef __cplusplus
}
#endif
#endif
