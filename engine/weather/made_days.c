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
#define TD_LAG_OF_T    0.96 /* -  lag of the dew point over that of t         */
#define SECOND         (-0.22) /* -  of the day before last, in t and dew point */
#define TWO_DAYS       0.22 /* -  correlation over two days where that over ... */
#define TWO_DAYS_MORE  1.6  /* -  ... one is 0.6; the slope beyond            */
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
/* Dew points lean to the dry side where warm, humid air sets their top, and
   both lean to the cold side where open water does. */
#define LEAN_MOST 1.0  /* -     skewness                                   */
#define LEAN_FROM 11.0 /* degC  half of it at this mean dew point          */
#define LEAN_OVER 2.5  /* K                                                */
#define COLD_LEAN 0.7  /* -     skewness of cold months                    */
#define COLD_FROM 4.0  /* degC  half of it at this mean temperature        */
#define COLD_OVER 1.0  /* K                                                */

/* Weather has ends where a normal distribution has none. */
#define SCORE_MOST 3.0

/* Months drawn, of which a typical year has one: our own choice. */
enum { CANDIDATES = 48 };

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
    double cloud[DEW__YEAR_DAYS], range[DEW__YEAR_DAYS], wind[DEW__YEAR_DAYS],
        pressure[DEW__YEAR_DAYS];
};

/* Lag of the process whose n days show lag r on average, [KENDALL54]. */
static double true_lag(double r, int n)
{
    double lag = (r + 1.0 / n) / (1.0 - 4.0 / n);

    return lag > 0.95 ? 0.95 : lag;
}

/* An autoregression: of the last day and, by second, of the one before. */
struct walk {
    double last, before;
};

/* n days of it, deviation 1, with this correlation of a day with the next. */
static void walk(struct dew__random *random, double lag, double second, int n,
                 struct walk *w, double *out)
{
    double first = lag * (1.0 - second);
    double noise = sqrt((1.0 + second) *
                        ((1.0 - second) * (1.0 - second) - first * first) /
                        (1.0 - second));

    for (int d = 0; d < n; d++) {
        double z = first * w->last + second * w->before +
                   noise * dew__random_gaussian(random);

        w->before = w->last;
        w->last = out[d] = z;
    }
}

/* A year of it, after some days to forget its beginning. */
static void walk_year(struct dew__random *random, double lag, double *out)
{
    struct walk w = {0.0, 0.0};

    walk(random, lag, 0.0, WARM_UP, &w, out);
    walk(random, lag, 0.0, DEW__YEAR_DAYS, &w, out);
}

static void draw(struct dew__random *random, struct scores *s)
{
    walk_year(random, CLOUD_LAG, s->cloud);
    walk_year(random, 0.0, s->range);
    walk_year(random, WIND_LAG, s->wind);
    walk_year(random, PRESSURE_LAG, s->pressure);
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

/* The same with mean 0 and deviation 1. */
static double lean_score(double z, double lean)
{
    double k = lean / 3.0, spread = exp(k * k);

    if (fabs(k) <= 1e-6)
        return z;
    return (lean_of(z, lean) - (sqrt(spread) - 1.0) / k) * fabs(k) /
           sqrt(spread * (spread - 1.0));
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
        score[i] =
            lean_score(fmax(-SCORE_MOST, fmin(SCORE_MOST, score[i])), lean);
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

static double cold_lean(const struct dew_normal *now)
{
    return COLD_LEAN / (1.0 + exp((now->t - COLD_FROM) / COLD_OVER));
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
    shape(score, n, -cold_lean(now), typical);
}

/* The dew point's part of the season goes with t's, by their correlation;
   what is left of it goes with its own part. */
static void month_td(const struct dew_climate *place, int m, const double *t,
                     double *score, int n, int typical)
{
    const struct dew_normal *now = &place->month[m];
    double trend[MONTH_MOST], own = sqrt(1.0 - now->t_td * now->t_td), left;
    double lean = -LEAN_MOST / (1.0 + exp((LEAN_FROM - now->td) / LEAN_OVER)) -
                  cold_lean(now);

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

/* A month's days of t and dew point, shaped, and where the walks ended. */
struct spell {
    double t[MONTH_MOST], td[MONTH_MOST];
    struct walk walk_t, walk_td;
};

/* From where the walks of *out stand. */
static void draw_spell(const struct dew_climate *place, int m, int n,
                       int typical, struct dew__random *random,
                       struct spell *out)
{
    walk(random, true_lag(place->month[m].t_lag, 30), SECOND, n, &out->walk_t,
         out->t);
    walk(random, TD_LAG, SECOND, n, &out->walk_td, out->td);
    month_t(place, m, out->t, n, typical);
    month_td(place, m, out->t, out->td, n, typical);
}

/* How far n days' persistence is from lag over one day and the usual over
   two. */
static double misfit(const double *x, double lag, int n)
{
    double one = dew__correlation(x, x + 1, (size_t)n - 1) - lag;
    double two = dew__correlation(x, x + 2, (size_t)n - 2) -
                 (TWO_DAYS + TWO_DAYS_MORE * (lag - 0.6));

    return one * one + two * two;
}

/* A typical month is the one of several whose persistence is nearest. */
static void pick_spell(const struct dew_climate *place, int m, int n,
                       int typical, struct dew__random *random, struct spell *s)
{
    const struct spell before = *s;
    double lag = place->month[m].t_lag, least = INFINITY;
    struct spell one;

    for (int k = 0; k < (typical ? CANDIDATES : 1); k++) {
        double off;

        one = before;
        draw_spell(place, m, n, typical, random, &one);
        off = misfit(one.t, lag, n) + misfit(one.td, TD_LAG_OF_T * lag, n);
        if (off < least || k == 0) {
            least = off;
            *s = one;
        }
    }
}

void dew__made_days(const struct dew_climate *place, int typical,
                    struct dew__random *random, struct dew__days *days)
{
    struct spell spell = {.walk_t = {0.0, 0.0}};
    struct scores s;

    draw(random, &s);
    for (int m = 0; m < MONTHS; m++) {
        const struct dew_normal *now = &place->month[m];
        int first = dew__month_start[m];
        int n = dew__month_start[m + 1] - first;

        pick_spell(place, m, n, typical, random, &spell);
        for (int i = 0; i < n; i++) {
            days->t[first + i] = now->t + now->t_sd * spell.t[i];
            days->td[first + i] = now->td + now->td_sd * spell.td[i];
        }
        keep_below(days->t + first, days->td + first, n);
        month_light(now, first, n, typical, &s, days);
        month_air(now, first, n, typical, &s, days);
    }
}
