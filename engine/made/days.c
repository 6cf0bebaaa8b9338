/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The days of a made year. */
#include <math.h>
#include <string.h>

#include "made/aim.h"
#include "made/made.h"
#include "made/shape.h"

/*
 * How days hang together where the table does not say: regression on the days
 * of six typical years of [TMY3] (Alaska to Florida), one value for all.
 */
#define TD_LAG         0.65 /* -  lag of the dew point's own part             */
#define SECOND         (-0.22) /* -  of the day before last, in t and dew point */
#define CLOUD_DRY      0.65 /* -  correlation of clearness with dryness       */
#define CLOUD_LAG      0.20 /* -  lag of the clearness' own part              */
#define WIND_LAG       0.42 /* -  of what the rest does not tell of it       */
#define PRESSURE_LAG   0.65 /* -                                              */
#define PRESSURE_PER_K 80.0 /* Pa/K  of the days' deviation of t             */
#define PRESSURE_LEAST 150.0  /* Pa                                           */
#define PRESSURE_MOST  1200.0 /* Pa                                        */
#define LEAST_DRYNESS  0.3 /* K  of a day's mean dew point below its mean t  */
#define LEAST_WIND     0.2 /* -  of a day, over the month's mean             */
#define TOLD_MOST      0.8 /* -  of the wind's variance, told by the rest    */

/* Months drawn, of which a typical year has one: our own choice. */
enum { CANDIDATES = 128 };

enum { WARM_UP = 60 };

const int made__month_start[13] = {0,   31,  59,  90,  120, 151, 181,
                                   212, 243, 273, 304, 334, 365};

int made__month_of(int day)
{
    int month = 0;

    while (day >= made__month_start[month + 1])
        month++;
    return month;
}

/* Scores of the year: mean 0, deviation 1. */
struct scores {
    double cloud[MADE__YEAR_DAYS], range[MADE__YEAR_DAYS],
        wind[MADE__YEAR_DAYS], pressure[MADE__YEAR_DAYS], dry[MADE__YEAR_DAYS];
    struct made__odd odd;
};

/* One month in work. */
struct month {
    const struct dew_climate *place;
    const struct dew_normal *now;
    struct made__aim aim;
    int number, first, n, typical;
};

static struct month month_of(const struct dew_climate *place, int m,
                             int typical, const struct made__odd *odd)
{
    struct month out = {.place = place,
                        .now = &place->month[m],
                        .aim = made__aim_of(&place->month[m]),
                        .number = m,
                        .first = made__month_start[m],
                        .n = made__month_start[m + 1] - made__month_start[m],
                        .typical = typical};

    if (typical)
        made__aim_odd(&out.aim, out.now, odd, m);
    return out;
}

static struct made__spread spread(const struct month *m, double lean,
                                  double lag)
{
    return made__spread_of(m->n, m->typical, lean, lag);
}

/* A year of it, after some days to forget its beginning. */
static void walk_year(struct core__random *random, double lag, double *out)
{
    struct made__walk walk = {0.0, 0.0};

    made__walk_on(&walk, random, lag, 0.0, WARM_UP, out);
    made__walk_on(&walk, random, lag, 0.0, MADE__YEAR_DAYS, out);
}

static void draw(struct core__random *random, struct scores *s)
{
    made__deal(random, MADE__MONTHS, s->odd.t_lean);
    made__deal(random, MADE__MONTHS, s->odd.td_lean);
    made__deal(random, MADE__MONTHS, s->odd.t_lag);
    made__deal(random, MADE__MONTHS, s->odd.td_lag);
    walk_year(random, CLOUD_LAG, s->cloud);
    walk_year(random, 0.0, s->range);
    walk_year(random, WIND_LAG, s->wind);
    walk_year(random, PRESSURE_LAG, s->pressure);
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

/* Put a month's season under its scores; standardised before, if typical. */
static void add_season(const struct month *m, double before, double after,
                       double sd, double *score)
{
    double trend[MADE__MONTH_MOST], left;

    season(before, after, sd, m->n, trend);
    left = sqrt(1.0 - made__power(trend, m->n));
    if (m->typical)
        made__standardise(score, m->n);
    for (int i = 0; i < m->n; i++)
        score[i] = trend[i] + left * score[i];
}

static const struct dew_normal *neighbour(const struct month *m, int by)
{
    return &m->place->month[(m->number + by + MADE__MONTHS) % MADE__MONTHS];
}

static void month_t(const struct month *m, const struct made__spread *to,
                    double *score)
{
    add_season(m, neighbour(m, -1)->t, neighbour(m, 1)->t, m->now->t_sd, score);
    made__shape(score, to);
}

/* The dew point's part of the season goes with t's, by their correlation;
   what is left of it goes with its own part. */
static void month_td(const struct month *m, const struct made__spread *to,
                     const double *t, double *score)
{
    double with = m->now->t_td, own = sqrt(1.0 - with * with);

    add_season(m, neighbour(m, -1)->td, neighbour(m, 1)->td, m->now->td_sd,
               score);
    if (m->typical) {
        made__standardise(score, m->n);
        made__set_apart(score, t, m->n);
    }
    for (int i = 0; i < m->n; i++)
        score[i] = with * t[i] + own * score[i];
    made__shape(score, to);
}

/* A month's days of t and dew point, shaped, and where the walks ended. */
struct spell {
    double t[MADE__MONTH_MOST], td[MADE__MONTH_MOST];
    struct made__walk walk_t, walk_td;
};

/* From where the walks of *out stand. */
static void draw_spell(const struct month *m, const struct made__spread *t,
                       const struct made__spread *td,
                       struct core__random *random, struct spell *out)
{
    made__walk_on(&out->walk_t, random, made__true_lag(m->now->t_lag, 30),
                  SECOND, m->n, out->t);
    made__walk_on(&out->walk_td, random, TD_LAG, SECOND, m->n, out->td);
    month_t(m, t, out->t);
    month_td(m, td, out->t, out->td);
}

/* How far n days' persistence is from this. */
static double misfit(const double *x, const double *want, int n)
{
    double sum = 0.0;

    for (int k = 0; k < MADE__LAGS; k++) {
        double off =
            core__correlation(x, x + k + 1, (size_t)(n - k) - 1) - want[k];

        sum += off * off;
    }
    return sum;
}

/* A typical month is the one of several whose persistence is nearest. */
static void pick_spell(const struct month *m, struct core__random *random,
                       struct spell *s)
{
    const struct made__spread t = spread(m, m->aim.t_lean, m->aim.t[0]);
    const struct made__spread td = spread(m, m->aim.td_lean, m->aim.td[0]);
    const struct spell before = *s;
    double least = INFINITY;
    struct spell one;

    for (int k = 0; k < (m->typical ? CANDIDATES : 1); k++) {
        double off;

        one = before;
        draw_spell(m, &t, &td, random, &one);
        off = misfit(one.t, m->aim.t, m->n) + misfit(one.td, m->aim.td, m->n);
        if (off < least || k == 0) {
            least = off;
            *s = one;
        }
    }
}

/* No day's dew point above its t: what is cut off there is given back to the
   other days of the month. */
static void keep_below(const double *t, double *td, int n)
{
    double want = core__mean(td, (size_t)n);

    for (int pass = 0; pass < 40; pass++) {
        double short_of;

        for (int i = 0; i < n; i++)
            if (td[i] > t[i] - LEAST_DRYNESS)
                td[i] = t[i] - LEAST_DRYNESS;
        short_of = want - core__mean(td, (size_t)n);
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

static void month_spell(const struct month *m, struct core__random *random,
                        struct spell *spell, struct made__daily *days)
{
    /* the table's deviations are over n - 1, a month's scores over n */
    double of_n = m->typical ? sqrt(1.0 - 1.0 / m->n) : 1.0;
    double *t = days->t + m->first, *td = days->td + m->first;

    pick_spell(m, random, spell);
    for (int i = 0; i < m->n; i++) {
        t[i] = m->now->t + of_n * m->now->t_sd * spell->t[i];
        td[i] = m->now->td + of_n * m->now->td_sd * spell->td[i];
    }
    keep_below(t, td, m->n);
}

/* Daily clearness: mean and deviation of the month's sun, leaning to the
   cloudy side where the month is clear. */
static void month_sky(const struct month *m, const double *beyond,
                      double *score)
{
    double full = core__mean(beyond, (size_t)m->n);
    double mean = full > 0.0 ? m->now->solar / full : 0.0;
    double sd = full > 0.0 ? m->now->solar_sd / full : 0.0;
    struct made__spread to;

    if (mean > 0.78) /* hardly any sun: its figures are rounding */
        mean = 0.78;
    to = spread(m, made__between(4.0 * (0.45 - mean), -0.8, 0.8),
                MADE__LOOSE_LAG);
    made__shape(score, &to);
    for (int i = 0; i < m->n; i++)
        score[i] = within_sky(mean + sd * score[i]);
    for (int pass = 0; m->typical && pass < 40; pass++) {
        double sum = 0.0;

        for (int i = 0; i < m->n; i++)
            sum += score[i] * beyond[i] / m->n;
        for (int i = 0; i < m->n && full > 0.0; i++)
            score[i] = within_sky(score[i] + mean - sum / full);
    }
}

/* Clearness and range of a month, from how dry its days are. */
static void month_light(const struct month *m, struct scores *s,
                        struct made__daily *days)
{
    double *cloud = s->cloud + m->first, *range = s->range + m->first;
    double *dry = s->dry + m->first, with = m->now->sun_range;
    double own = sqrt(1.0 - with * with), span = m->now->t_max - m->now->t_min;
    struct made__spread to = spread(m, m->aim.range_lean, MADE__LOOSE_LAG);

    for (int i = 0; i < m->n; i++)
        dry[i] = days->t[m->first + i] - days->td[m->first + i];
    made__standardise(dry, m->n);
    for (int i = 0; i < m->n; i++) {
        cloud[i] =
            CLOUD_DRY * dry[i] + sqrt(1.0 - CLOUD_DRY * CLOUD_DRY) * cloud[i];
        range[i] = with * cloud[i] + own * range[i];
    }
    month_sky(m, days->beyond + m->first, cloud);
    made__shape(range, &to);
    for (int i = 0; i < m->n; i++) {
        days->clearness[m->first + i] = cloud[i];
        days->range[m->first + i] =
            span * fmax(1.0 + m->aim.range_spread * range[i], 0.15);
    }
}

static void month_pressure(const struct month *m, struct scores *s,
                           struct made__daily *days)
{
    double *pressure = s->pressure + m->first;
    double sd =
        fmin(PRESSURE_LEAST + PRESSURE_PER_K * m->now->t_sd, PRESSURE_MOST);
    struct made__spread to = spread(m, 0.0, PRESSURE_LAG);

    made__shape(pressure, &to);
    for (int i = 0; i < m->n; i++)
        days->pressure[m->first + i] = m->now->pressure + sd * pressure[i];
}

/* Scores of a month's values. */
static void scores_of(const struct month *m, const double *year, double *out)
{
    memcpy(out, year + m->first, (size_t)m->n * sizeof *out);
    made__standardise(out, m->n);
}

/* What of a month's wind its other weather tells, mean 0. */
static void told_wind(const struct month *m, const struct scores *s,
                      const struct made__daily *days, double *out)
{
    const struct made__told *by = &m->aim.told;
    double cold[MADE__MONTH_MOST], dew[MADE__MONTH_MOST],
        range[MADE__MONTH_MOST];
    double mean;

    scores_of(m, days->t, cold);
    scores_of(m, days->td, dew);
    scores_of(m, days->range, range);
    for (int i = 0; i < m->n; i++) {
        int d = m->first + i;
        double last = d > 0 ? days->t[d] - days->t[d - 1] : 0.0;
        double next =
            d + 1 < MADE__YEAR_DAYS ? days->t[d + 1] - days->t[d] : 0.0;

        out[i] = by->next * next + by->last * fabs(last) +
                 by->range * range[i] + by->dry * s->dry[d] +
                 by->cold * cold[i] + by->dew * dew[i];
    }
    mean = core__mean(out, (size_t)m->n);
    for (int i = 0; i < m->n; i++)
        out[i] -= mean;
}

/* The wind's scores: what the rest tells, and its own part. */
static void score_wind(const struct month *m, const struct scores *s,
                       const struct made__daily *days, double *wind)
{
    double told[MADE__MONTH_MOST], share, own;

    told_wind(m, s, days, told);
    share = made__power(told, m->n);
    own = sqrt(1.0 - fmin(share, TOLD_MOST));
    made__standardise(told, m->n);
    if (m->typical) {
        made__standardise(wind, m->n);
        made__set_apart(wind, told, m->n);
    }
    share = sqrt(fmin(share, TOLD_MOST));
    for (int i = 0; i < m->n; i++)
        wind[i] = share * told[i] + own * wind[i];
}

static void month_wind(const struct month *m, struct scores *s,
                       struct made__daily *days)
{
    double *wind = s->wind + m->first, *out = days->wind + m->first, mean;
    struct made__spread to = spread(m, m->aim.wind_lean, MADE__LOOSE_LAG);

    score_wind(m, s, days, wind);
    made__shape(wind, &to);
    for (int i = 0; i < m->n; i++)
        out[i] = fmax(1.0 + m->aim.wind_spread * wind[i], LEAST_WIND);
    mean = m->typical ? core__mean(out, (size_t)m->n) : 1.0;
    for (int i = 0; i < m->n; i++)
        out[i] *= m->now->wind / mean;
}

void made__days(const struct dew_climate *place, int typical,
                struct core__random *random, struct made__daily *days)
{
    struct spell spell = {.walk_t = {0.0, 0.0}};
    struct month months[MADE__MONTHS];
    struct scores s;

    draw(random, &s);
    for (int m = 0; m < MADE__MONTHS; m++) {
        months[m] = month_of(place, m, typical, &s.odd);
        month_spell(&months[m], random, &spell, days);
        month_light(&months[m], &s, days);
        month_pressure(&months[m], &s, days);
    }
    for (int m = 0; m < MADE__MONTHS; m++) /* wind looks a day ahead */
        month_wind(&months[m], &s, days);
}
