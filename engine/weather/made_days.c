/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The days of a made year. */
#include <math.h>
#include <string.h>

#include "weather/made.h"

/*
 * How days hang together where the table does not say: regression on the days
 * of six typical years of [TMY3] (Alaska to Florida), one value for all.
 */
#define TD_LAG         0.82 /* -  lag of the dew point's own part             */
#define CLOUD_DRY      0.65 /* -  correlation of clearness with dryness       */
#define CLOUD_LAG      0.20 /* -  lag of the clearness' own part              */
#define RANGE_SPREAD   1.0  /* K^0.5  deviation over root of the day's range */
#define WIND_SPREAD    0.33 /* -  deviation over mean of the day's wind       */
#define WIND_LAG       0.35 /* -                                              */
#define PRESSURE_LAG   0.65 /* -                                              */
#define PRESSURE_PER_K 80.0 /* Pa/K  of the days' deviation of t             */
#define PRESSURE_LEAST 150.0  /* Pa                                           */
#define PRESSURE_MOST  1200.0 /* Pa                                        */
#define LEAST_DRYNESS  0.3 /* K  of a day's mean dew point below its mean t  */
/* Dew points lean to the dry side where warm, humid air sets their top. */
#define LEAN_MOST 1.4 /* -     skewness                                    */
#define LEAN_FROM 9.0 /* degC  half of it at this mean dew point           */
#define LEAN_OVER 3.0 /* K                                                 */

/* Weather has ends where a normal distribution has none. */
#define SCORE_MOST 3.0

enum { MONTH_MOST = 31, WARM_UP = 60, MONTHS = 12 };

const int dew__month_start[13] = {0,   31,  59,  90,  120, 151, 181,
                                  212, 243, 273, 304, 334, 365};

int dew__month_of(int day)
{
    int month = 0;

    while (day >= dew__month_start[month + 1])
        month++;
    return month;
}

/* Scores of the year: mean 0, deviation 1. */
struct scores {
    double t[DEW__YEAR_DAYS], td[DEW__YEAR_DAYS], cloud[DEW__YEAR_DAYS],
        range[DEW__YEAR_DAYS], wind[DEW__YEAR_DAYS], pressure[DEW__YEAR_DAYS];
};

/* Lag of the process whose n days show lag r on average, [KENDALL54]. */
static double true_lag(double r, int n)
{
    double lag = (r + 1.0 / n) / (1.0 - 4.0 / n);

    return lag > 0.95 ? 0.95 : lag;
}

/* A first-order autoregression; lag by month. */
static void walk(struct dew__random *random, const double *lag, double *out)
{
    double z = 0.0;

    for (int d = -WARM_UP; d < DEW__YEAR_DAYS; d++) {
        double a = lag[d < 0 ? MONTHS - 1 : dew__month_of(d)];

        z = a * z + sqrt(1.0 - a * a) * dew__random_gaussian(random);
        if (d >= 0)
            out[d] = z;
    }
}

static void walk_plain(struct dew__random *random, double lag, double *out)
{
    double lags[MONTHS];

    for (int m = 0; m < MONTHS; m++)
        lags[m] = lag;
    walk(random, lags, out);
}

static void draw(const struct dew_climate *place, struct dew__random *random,
                 struct scores *s)
{
    double lag[MONTHS];

    for (int m = 0; m < MONTHS; m++)
        lag[m] = true_lag(place->month[m].t_lag, 30);
    walk(random, lag, s->t);
    walk_plain(random, TD_LAG, s->td);
    walk_plain(random, CLOUD_LAG, s->cloud);
    walk_plain(random, 0.0, s->range);
    walk_plain(random, WIND_LAG, s->wind);
    walk_plain(random, PRESSURE_LAG, s->pressure);
}

/* To mean 0 and deviation 1 within n days. */
static void standardise(double *x, int n)
{
    double mean = dew__mean(x, (size_t)n), squares = 0.0, sd;

    for (int i = 0; i < n; i++)
        squares += (x[i] - mean) * (x[i] - mean);
    sd = sqrt(squares / n);
    for (int i = 0; i < n; i++)
        x[i] = sd > 0.0 ? (x[i] - mean) / sd : 0.0;
}

/* Take what x shares with y out of it; both standardised, x again after. */
static void set_apart(double *x, const double *y, int n)
{
    double r = 0.0;

    for (int i = 0; i < n; i++)
        r += x[i] * y[i] / n;
    for (int i = 0; i < n; i++)
        x[i] -= r * y[i];
    standardise(x, n);
}

/* The normal score of a share of 0 .. 1, within 0.01: the lambda
   distribution that stands in for the normal one, [JR71]. */
static double score_of(double share)
{
    return 4.91 * (pow(share, 0.14) - pow(1.0 - share, 0.14));
}

/* A score made to lean: lognormal, skewness about lean. */
static double lean_of(double z, double lean)
{
    double k = lean / 3.0;

    return fabs(k) > 1e-6 ? expm1(k * z) / k : z;
}

/*
 * Give the days of a month, by their rank in score, the values that n days of
 * a leaning normal distribution should have: the month then meets its mean
 * and deviation and has no odd days by the luck of the draw.
 */
static void by_rank(const double *score, int n, double lean, double *out)
{
    for (int i = 0; i < n; i++) {
        int rank = 0;

        for (int j = 0; j < n; j++)
            rank += score[j] < score[i] || (score[j] == score[i] && j < i);
        out[i] =
            lean_of(score_of((rank + 0.625) / (n + 0.25)), lean); /* Blom */
    }
    standardise(out, n);
}

/* Scores of one month, in place, to values of mean 0 and deviation 1. */
static void shape(double *score, int n, double lean, int typical)
{
    double out[MONTH_MOST];

    if (typical) {
        by_rank(score, n, lean, out);
        memcpy(score, out, (size_t)n * sizeof *out);
        return;
    }
    for (int i = 0; i < n; i++)
        score[i] = lean_of(fmax(-SCORE_MOST, fmin(SCORE_MOST, score[i])), lean);
}

/*
 * How far day i of n of month m lies from the month's mean by the season
 * alone: a line towards the neighbours, over the deviation; no more than
 * three quarters of the month's variance.
 */
static void season(double before, double after, double sd, int n, double *out)
{
    double slope = sd > 0.0 ? 0.5 * (after - before) / (30.4 * sd) : 0.0;
    double most = sqrt(0.75 * 12.0) / n;

    slope = slope > most ? most : slope < -most ? -most : slope;
    for (int i = 0; i < n; i++)
        out[i] = slope * (i - 0.5 * (n - 1));
}

static double variance(const double *x, int n)
{
    double sum = 0.0;

    for (int i = 0; i < n; i++)
        sum += x[i] * x[i] / n;
    return sum;
}

static void month_t(const struct dew_climate *place, int m, double *score,
                    int n, int typical)
{
    const struct dew_normal *now = &place->month[m];
    double trend[MONTH_MOST], left;

    season(place->month[(m + 11) % 12].t, place->month[(m + 1) % 12].t,
           now->t_sd, n, trend);
    left = sqrt(1.0 - variance(trend, n));
    if (typical)
        standardise(score, n);
    for (int i = 0; i < n; i++)
        score[i] = trend[i] + left * score[i];
    shape(score, n, 0.0, typical);
}

/* The dew point's part of the season goes with t's, by their correlation;
   what is left of it goes with its own part. */
static void month_td(const struct dew_climate *place, int m, const double *t,
                     double *score, int n, int typical)
{
    const struct dew_normal *now = &place->month[m];
    double trend[MONTH_MOST], own = sqrt(1.0 - now->t_td * now->t_td), left;
    double lean = -LEAN_MOST / (1.0 + exp((LEAN_FROM - now->td) / LEAN_OVER));

    season(place->month[(m + 11) % 12].td, place->month[(m + 1) % 12].td,
           now->td_sd, n, trend);
    left = sqrt(1.0 - variance(trend, n));
    if (typical)
        standardise(score, n);
    for (int i = 0; i < n; i++)
        score[i] = trend[i] + left * score[i];
    if (typical) {
        standardise(score, n);
        set_apart(score, t, n);
    }
    for (int i = 0; i < n; i++)
        score[i] = now->t_td * t[i] + own * score[i];
    shape(score, n, lean, typical);
}

/* No day's dew point above its t: what is cut off there is given back to the
   other days of the month. */
static void keep_below(const double *t, double *td, int n)
{
    double want = dew__mean(td, (size_t)n);

    for (int pass = 0; pass < 40; pass++) {
        double short_of;

        for (int i = 0; i < n; i++)
            if (td[i] > t[i] - LEAST_DRYNESS)
                td[i] = t[i] - LEAST_DRYNESS;
        short_of = want - dew__mean(td, (size_t)n);
        for (int i = 0; i < n; i++)
            td[i] += short_of;
    }
    for (int i = 0; i < n; i++)
        if (td[i] > t[i])
            td[i] = t[i];
}

/* Clearness between these: the darkest overcast and the clearest air. */
static double within_sky(double k)
{
    return k < 0.04 ? 0.04 : k > 0.80 ? 0.80 : k;
}

/* Daily clearness: mean and deviation of the month's sun, leaning to the
   cloudy side where the month is clear. */
static void month_sky(const struct dew_normal *now, const double *beyond,
                      double *score, int n, int typical)
{
    double full = dew__mean(beyond, (size_t)n);
    double mean = full > 0.0 ? now->solar / full : 0.0;
    double sd = full > 0.0 ? now->solar_sd / full : 0.0;
    double lean = 4.0 * (0.45 - mean);

    if (mean > 0.78) /* hardly any sun: its figures are rounding */
        mean = 0.78;
    lean = lean > 0.8 ? 0.8 : lean < -0.8 ? -0.8 : lean;
    shape(score, n, lean, typical);
    for (int i = 0; i < n; i++)
        score[i] = within_sky(mean + sd * score[i]);
    for (int pass = 0; typical && pass < 40; pass++) {
        double sum = 0.0;

        for (int i = 0; i < n; i++)
            sum += score[i] * beyond[i] / n;
        for (int i = 0; i < n && full > 0.0; i++)
            score[i] = within_sky(score[i] + mean - sum / full);
    }
}

/* Clearness and range of a month, from how dry its days are. */
static void month_light(const struct dew_normal *now, int first, int n,
                        int typical, struct scores *s, struct dew__days *days)
{
    double dry[MONTH_MOST];
    double *cloud = s->cloud + first, *range = s->range + first;
    double own = sqrt(1.0 - now->sun_range * now->sun_range);
    double span = now->t_max - now->t_min;
    double spread = span > 0.0 ? RANGE_SPREAD / sqrt(span) : 0.0;

    for (int i = 0; i < n; i++)
        dry[i] = days->t[first + i] - days->td[first + i];
    standardise(dry, n);
    for (int i = 0; i < n; i++)
        cloud[i] =
            CLOUD_DRY * dry[i] + sqrt(1.0 - CLOUD_DRY * CLOUD_DRY) * cloud[i];
    for (int i = 0; i < n; i++)
        range[i] = now->sun_range * cloud[i] + own * range[i];
    month_sky(now, days->beyond + first, cloud, n, typical);
    shape(range, n, 0.4, typical);
    for (int i = 0; i < n; i++) {
        double share = 1.0 + spread * range[i];

        days->clearness[first + i] = cloud[i];
        days->range[first + i] = span * (share > 0.15 ? share : 0.15);
    }
}

static void month_air(const struct dew_normal *now, int first, int n,
                      int typical, struct scores *s, struct dew__days *days)
{
    double *wind = s->wind + first, *pressure = s->pressure + first;
    double sd =
        fmin(PRESSURE_LEAST + PRESSURE_PER_K * now->t_sd, PRESSURE_MOST);

    shape(wind, n, 0.7, typical);
    shape(pressure, n, 0.0, typical);
    for (int i = 0; i < n; i++) {
        double share = 1.0 + WIND_SPREAD * wind[i];

        days->wind[first + i] = now->wind * (share > 0.2 ? share : 0.2);
        days->pressure[first + i] = now->pressure + sd * pressure[i];
    }
}

void dew__made_days(const struct dew_climate *place, int typical,
                    struct dew__random *random, struct dew__days *days)
{
    struct scores s;

    draw(place, random, &s);
    for (int m = 0; m < MONTHS; m++) {
        const struct dew_normal *now = &place->month[m];
        int first = dew__month_start[m];
        int n = dew__month_start[m + 1] - first;

        month_t(place, m, s.t + first, n, typical);
        month_td(place, m, s.t + first, s.td + first, n, typical);
        for (int i = first; i < first + n; i++) {
            days->t[i] = now->t + now->t_sd * s.t[i];
            days->td[i] = now->td + now->td_sd * s.td[i];
        }
        keep_below(days->t + first, days->td + first, n);
        month_light(now, first, n, typical, &s, days);
        month_air(now, first, n, typical, &s, days);
    }
}
