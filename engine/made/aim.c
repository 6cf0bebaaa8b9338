/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What follows from a month's figures: our own regressions on the months of
 * six typical years of [TMY3] and of records of eight more places, each judged
 * by leaving every place out in turn.  tests/study/made_regress.py makes them;
 * docs/weather-made.md says how far each holds.
 */
#include "made/aim.h"

#include <math.h>

#include "made/shape.h"

/* Skewness of the days: dew points lean to the dry side where warm, humid air
   sets their top, and both lean to the cold side where open water does. */
#define T_LEAN        0.30
#define T_LEAN_PER_K  (-0.021)
#define T_LEAN_COLD   (-0.97)
#define TD_LEAN       0.03
#define TD_LEAN_COLD  (-0.61)
#define TD_LEAN_HUMID (-0.73)
#define COLD_FROM     4.0  /* degC  half of it at this mean temperature      */
#define COLD_OVER     1.0  /* K                                              */
#define HUMID_FROM    11.0 /* degC  half of it at this mean dew point        */
#define HUMID_OVER    2.5  /* K                                              */

/* How days hang together: t over two days and three by what it does over one,
   r, and the day's range; the dew point by how far t takes it along, by the
   ratio of the deviations and by the range. */
#define T_TWO          (-0.14)
#define T_TWO_R2       1.21
#define T_TWO_RANGE    (-0.011) /* 1/K                                       */
#define T_THREE        0.69
#define T_THREE_R      (-3.53)
#define T_THREE_R2     3.88
#define TD_ONE         0.53
#define TD_ONE_T       (-0.75)
#define TD_ONE_T_R     1.08
#define TD_ONE_RATIO   0.095
#define TD_TWO         0.17
#define TD_TWO_T       (-1.22)
#define TD_TWO_T_R     1.68
#define TD_TWO_RATIO   0.13
#define TD_THREE       0.46
#define TD_THREE_T     (-1.29)
#define TD_THREE_T_R   1.64
#define TD_THREE_RANGE (-0.027) /* 1/K                                       */
#define RATIO_MOST     2.5      /* of what the regression saw                */

/* How far single months are from the above. */
#define T_LEAN_ODD   0.52
#define TD_LEAN_ODD  0.47
#define LEANS_SHARED 0.80 /* of the correlation of t and dew point           */
#define T_TWO_ODD    0.10
#define T_THREE_ODD  0.18
#define TD_ONE_ODD   0.10
#define TD_TWO_ODD   0.18
#define TD_THREE_ODD 0.24

/* The day's range: deviation over the root of the mean, and skewness. */
#define RANGE_SPREAD       0.97 /* K^0.5                                     */
#define RANGE_SPREAD_TSD   0.051
#define RANGE_SPREAD_PER_K (-0.010)
#define RANGE_LEAN         1.22
#define RANGE_LEAN_RANGE   (-0.096) /* 1/K                                   */
#define RANGE_LEAN_PER_K   (-0.018) /* 1/K                                   */

/* Hours stray less within the moist days of a month, the less where warm,
   humid air sets their top. */
#define TD_STRAY_MOIST (-0.08)
#define TD_STRAY_HUMID (-0.25)

/* The day's wind: deviation over mean, and skewness. */
#define WIND_SPREAD       0.49
#define WIND_SPREAD_TSD   (-0.013) /* 1/K                                    */
#define WIND_SPREAD_PER_K (-0.007) /* 1/K                                    */
#define WIND_LEAN         1.47
#define WIND_LEAN_LOG     (-0.61)
#define WIND_LEAN_HUMID   (-0.33)

/*
 * What wind goes with: the fall of t to the next day (a front), its change
 * from the last, a small range of the day (calm, clear days have a large
 * one), dry air, the more where the sun moves the day little, and cold air
 * where it blows much (where it blows little, cold nights are calm).
 */
#define WIND_NEXT    (-0.101) /* 1/K                                         */
#define WIND_LAST    0.036    /* 1/K                                         */
#define WIND_RANGE   (-0.020) /* 1/K   of the month's range                  */
#define WIND_RANGE_T (-0.009) /* 1/K   of its t                              */
#define WIND_DRY     0.92     /* K     over the month's range                */
#define WIND_COLD    (-0.035) /* s/m   of its wind ...                       */
#define WIND_CALM    3.6      /* m/s   ... beyond this                       */
#define WIND_DEW     (-0.024) /* 1/K   of its dew point's deviation          */
#define RANGE_LEAST  2.0      /* K     that the regression saw               */
#define WIND_LEAST   0.5      /* m/s   likewise                              */

/* 1 far above 0, 0 far below, half at 0. */
static double beyond_0(double x)
{
    return 1.0 / (1.0 + exp(-x));
}

static void aim_lean(const struct dew_normal *now, double humid,
                     struct made__aim *aim)
{
    double cold = beyond_0((COLD_FROM - now->t) / COLD_OVER);

    aim->t_lean = T_LEAN + T_LEAN_PER_K * now->t + T_LEAN_COLD * cold;
    aim->td_lean = TD_LEAN + TD_LEAN_COLD * cold + TD_LEAN_HUMID * humid;
}

static void aim_lags(const struct dew_normal *now, double range,
                     struct made__aim *aim)
{
    double r = now->t_lag, with = now->t_td;
    double ratio =
        now->t_sd > 0.0 ? fmin(now->td_sd / now->t_sd, RATIO_MOST) : 1.0;

    aim->t[0] = r;
    aim->t[1] = T_TWO + T_TWO_R2 * r * r + T_TWO_RANGE * range;
    aim->t[2] = T_THREE + T_THREE_R * r + T_THREE_R2 * r * r;
    aim->td[0] =
        TD_ONE + (TD_ONE_T + TD_ONE_T_R * r) * with + TD_ONE_RATIO * ratio;
    aim->td[1] =
        TD_TWO + (TD_TWO_T + TD_TWO_T_R * r) * with + TD_TWO_RATIO * ratio;
    aim->td[2] = TD_THREE + (TD_THREE_T + TD_THREE_T_R * r) * with +
                 TD_THREE_RANGE * range;
}

static void aim_range(const struct dew_normal *now, double range,
                      struct made__aim *aim)
{
    double spread = RANGE_SPREAD + RANGE_SPREAD_TSD * now->t_sd +
                    RANGE_SPREAD_PER_K * now->t;
    double lean =
        RANGE_LEAN + RANGE_LEAN_RANGE * range + RANGE_LEAN_PER_K * now->t;

    aim->range_spread =
        range > 0.0 ? made__between(spread, 0.4, 1.4) / sqrt(range) : 0.0;
    aim->range_lean = made__between(lean, -1.0, 1.0);
}

static void aim_wind(const struct dew_normal *now, double range, double humid,
                     struct made__aim *aim)
{
    double spread =
        WIND_SPREAD + WIND_SPREAD_TSD * now->t_sd + WIND_SPREAD_PER_K * now->t;
    double lean = WIND_LEAN + WIND_LEAN_LOG * log(fmax(now->wind, WIND_LEAST)) +
                  WIND_LEAN_HUMID * humid;

    range = fmax(range, RANGE_LEAST);
    aim->wind_spread = made__between(spread, 0.15, 0.6);
    aim->wind_lean = made__between(lean, 0.0, 1.5);
    aim->told = (struct made__told){
        .next = WIND_NEXT,
        .last = WIND_LAST,
        .range = WIND_RANGE * range + WIND_RANGE_T * now->t,
        .dry = WIND_DRY / range,
        .cold = WIND_COLD * (now->wind - WIND_CALM),
        .dew = WIND_DEW * now->td_sd,
    };
}

struct made__aim made__aim_of(const struct dew_normal *now)
{
    double humid = beyond_0((now->td - HUMID_FROM) / HUMID_OVER);
    double range = now->t_max - now->t_min;
    struct made__aim aim;

    aim_lean(now, humid, &aim);
    aim_lags(now, range, &aim);
    aim_range(now, range, &aim);
    aim_wind(now, range, humid, &aim);
    aim.td_stray = TD_STRAY_MOIST + TD_STRAY_HUMID * humid;
    return aim;
}

void made__aim_odd(struct made__aim *aim, const struct dew_normal *now,
                   const struct made__odd *odd, int m)
{
    double shared = LEANS_SHARED * now->t_td;
    double td_lean =
        shared * odd->t_lean[m] + sqrt(1.0 - shared * shared) * odd->td_lean[m];

    aim->t_lean += T_LEAN_ODD * odd->t_lean[m];
    aim->td_lean += TD_LEAN_ODD * td_lean;
    aim->t[1] += T_TWO_ODD * odd->t_lag[m];
    aim->t[2] += T_THREE_ODD * odd->t_lag[m];
    aim->td[0] += TD_ONE_ODD * odd->td_lag[m];
    aim->td[1] += TD_TWO_ODD * odd->td_lag[m];
    aim->td[2] += TD_THREE_ODD * odd->td_lag[m];
}
