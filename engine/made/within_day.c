/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hours of a made year. */
#include <math.h>
#include <string.h>

#include "made/aim.h"
#include "made/made.h"
#include "made/shape.h"

#define PI 3.14159265358979323846

/* The day's swing, air at 1.5 m, [PL81] table 2. */
#define SWING_LATE  1.86 /* h  highest after noon                           */
#define SWING_NIGHT 2.20 /* -  fall through the night                       */
#define SWING_DAWN  (-0.17) /* h  lowest after sunrise                        */

/*
 * How hours stray within a day where no source says: regressions, one value
 * for all places; of dew point and wind on the places of
 * tests/study/made_regress.py, of light on six typical years of [TMY3].
 */
#define TD_STRAY        0.60 /* K   dew point around its line, ...             */
#define TD_STRAY_RANGE  0.062 /* -   ... of the day's range                    */
#define TD_STRAY_SD     0.139 /* -   ... and of the days' deviation            */
#define TD_SWING        0.21 /* -   fall of a dry day's dew point as the sun   */
#define TD_SWING_FROM   6.0 /* K   ... mixes the air; drier than this         */
#define NEARLY          1.3 /* K   saturation is neared, seldom met           */
#define TD_STRAY_LAG    0.85 /* -   from hour to hour                         */
#define TD_TOP          2.8 /* K   no hour of a year is moister than the mean of */
#define TD_TOP_SD       1.7 /* -   its most humid month, this and its deviation  */
#define DRIEST          (-75.0) /* degC   the lowest that the table takes     */
#define CLOUD_STRAY     0.45 /* -   logarithm of half-clear light             */
#define CLOUD_STRAY_LAG 0.5  /* -                                             */
#define CLEAREST        0.85 /* -   of an hour                                */
#define WIND_STRAY      0.40 /* (m/s)^0.5  of the root, over that of the day  */
#define WIND_STRAY_MOST 0.50 /* -                                             */
#define WIND_STRAY_LAG  0.65 /* -                                             */
#define WIND_DAY        0.22 /* -   more in the afternoon                     */

enum { HOURS = 24, MONTHS = 12, BENDS = 6, DAYS = MADE__YEAR_DAYS };

/* Room that one pass needs. */
struct line {
    double knot[DAYS]; /* at the middle of each day                          */
};

/* Knots so that the line through them keeps each day's mean: a day's mean is
   (before + 6 own + after) / 8; a tridiagonal system, ends held level. */
static void hang(const double *mean, struct line *line)
{
    double upper[DAYS], right[DAYS];

    for (int d = 0; d < DAYS; d++) {
        double below = d > 0 ? 0.125 : 0.0;
        double middle = d > 0 && d < DAYS - 1 ? 0.75 : 0.875;
        double pivot = middle - (d > 0 ? below * upper[d - 1] : 0.0);

        upper[d] = d < DAYS - 1 ? 0.125 / pivot : 0.0;
        right[d] = (mean[d] - (d > 0 ? below * right[d - 1] : 0.0)) / pivot;
    }
    for (int d = DAYS - 1; d >= 0; d--)
        line->knot[d] =
            right[d] - (d < DAYS - 1 ? upper[d] * line->knot[d + 1] : 0.0);
}

/* Hours stand at 1 .. 24; the middle of the day is 12.5. */
static double on_line(const double *knot, int hour)
{
    int d = hour / HOURS;
    double from = (hour % HOURS + 1 - 12.5) / 24.0;
    int other = from < 0.0 ? d - 1 : d + 1;

    if (other < 0 || other >= DAYS)
        return knot[d];
    return knot[d] + fabs(from) * (knot[other] - knot[d]);
}

/* The swing of one day, lowest 0 and highest 1, at the ends of its hours. */
static void swing(const struct dew_sun *sun, double *out)
{
    double up = 0.0, light = 0.0, moment = 0.0, noon, rise, long_night;
    double low = INFINITY, high = -INFINITY, set;
    double still = exp(-SWING_NIGHT);

    for (int h = 0; h < HOURS; h++) {
        up += sun[h].up;
        light += sun[h].horizontal;
        moment += sun[h].horizontal * (h + 0.5);
    }
    noon = light > 0.0 ? moment / light : 12.0;
    up = up < 5.0 ? 5.0 : up > 19.0 ? 19.0 : up; /* polar day and night */
    rise = noon - 0.5 * up + SWING_DAWN;
    long_night = 24.0 - up;
    set = sin(PI * (up - SWING_DAWN) / (up + 2.0 * SWING_LATE));
    for (int h = 0; h < HOURS; h++) {
        double after = fmod(h + 1 - rise + 48.0, 24.0);
        double dusk = after - (up - SWING_DAWN);

        out[h] = dusk < 0.0
                     ? sin(PI * after / (up + 2.0 * SWING_LATE))
                     : set * (exp(-SWING_NIGHT * dusk / long_night) - still) /
                           (1.0 - still);
        low = fmin(low, out[h]);
        high = fmax(high, out[h]);
    }
    for (int h = 0; h < HOURS; h++)
        out[h] = (out[h] - low) / (high - low);
}

/* How a month's swing is stretched and bent to give its figures. */
struct bend {
    double stretch, power;
};

static void shape_t(const struct made__daily *days, const struct line *mean,
                    const double *swings, const struct bend *bend, double *t)
{
    for (int d = 0; d < DAYS; d++) {
        const struct bend *b = &bend[made__month_of(d)];
        double sum = 0.0;

        for (int h = d * HOURS; h < (d + 1) * HOURS; h++) {
            t[h] =
                b->stretch * on_line(days->range, h) * pow(swings[h], b->power);
            sum += t[h] / HOURS;
        }
        for (int h = d * HOURS; h < (d + 1) * HOURS; h++)
            t[h] += on_line(mean->knot, h) - sum;
    }
}

/* Means of a month's days' highest and lowest. */
static void extremes(const double *t, int m, double *high, double *low)
{
    int n = made__month_start[m + 1] - made__month_start[m];

    *high = *low = 0.0;
    for (int d = made__month_start[m]; d < made__month_start[m + 1]; d++) {
        double most = t[d * HOURS], least = most;

        for (int h = d * HOURS; h < (d + 1) * HOURS; h++) {
            most = t[h] > most ? t[h] : most;
            least = t[h] < least ? t[h] : least;
        }
        *high += most / n;
        *low += least / n;
    }
}

/* Bend the swing towards the month's mean highest and lowest. */
static void adjust(const struct dew_normal *now, double high, double low,
                   double mean, struct bend *b)
{
    double range = now->t_max - now->t_min;
    double want = range > 0.0 ? (now->t_max - now->t) / range : 0.5;
    double got = high > low ? (high - mean) / (high - low) : 0.5;

    if (high > low)
        b->stretch = made__between(b->stretch * range / (high - low), 0.0, 3.0);
    want = made__between(want, 0.1, 0.9);
    b->power = made__between(
        b->power * want * (1.0 - got) / ((1.0 - want) * got), 0.25, 4.0);
}

/* swings: room for the year, lent by the caller. */
static void hours_t(const struct dew_climate *place,
                    const struct made__daily *days, const struct line *mean,
                    double *swings, struct made__hourly *hours)
{
    struct bend bend[MONTHS];

    for (int d = 0; d < DAYS; d++)
        swing(hours->sun + d * HOURS, swings + d * HOURS);
    for (int m = 0; m < MONTHS; m++)
        bend[m] = (struct bend){1.0, 1.0};
    for (int pass = 0; pass < BENDS; pass++) {
        shape_t(days, mean, swings, bend, hours->t);
        for (int m = 0; m < MONTHS; m++) {
            int first = made__month_start[m];
            size_t n = (size_t)(made__month_start[m + 1] - first);
            double high, low;

            extremes(hours->t, m, &high, &low);
            adjust(&place->month[m], high, low, core__mean(days->t + first, n),
                   &bend[m]);
        }
    }
    shape_t(days, mean, swings, bend, hours->t);
}

/* Noise from hour to hour, mean 0 and deviation 1. */
static void noise(struct core__random *random, double lag, double *out)
{
    struct made__walk walk = {core__random_gaussian(random), 0.0};

    made__walk_on(&walk, random, lag, 0.0, MADE__YEAR_HOURS, out);
}

/* A dew point that comes no nearer to t than it does outdoors: the further
   it would pass t, the closer it lies below. */
static double below(double t, double td)
{
    return t - NEARLY * log1p(exp((t - td) / NEARLY));
}

/* The highest dew point of the year: the sea and the ground that the air was
   over are no moister.  Above it no hour of the places of
   tests/study/made_regress.py is. */
static double top_of(const struct dew_climate *place)
{
    const struct dew_normal *top = &place->month[0];

    for (int m = 1; m < MONTHS; m++)
        if (place->month[m].td > top->td)
            top = &place->month[m];
    return top->td + TD_TOP + TD_TOP_SD * top->td_sd;
}

/* A dew point within what the year has: no drier than the table of places goes
   either, DEW_NORMAL_MAP, where a month that strays by 20 K would go on. */
static double within(double t, double td, double top)
{
    return fmax(below(t, fmin(td, top)), DRIEST);
}

/* What a month's dew points need to be raised by to keep its mean below t and
   the top. */
static double raise_by(const double *t, const double *td, int n, double want,
                       double top)
{
    const double close = 1e-4; /* K */
    double by = 0.0, sum = INFINITY;

    for (int pass = 0; pass < 30 && !(fabs(want - sum) < close); pass++) {
        sum = 0.0;

        for (int h = 0; h < n; h++)
            sum += within(t[h], td[h] + by, top) / n;
        by += want - sum;
    }
    return by;
}

/* How far a day's dew point strays from its line: more where the day's t
   swings and days differ, less on the moist days of a month. */
static double stray_of(const struct dew_normal *now, double range, double td)
{
    const double usual = 0.4; /* of normal scores, 0 for those below 0 */
    double moist = now->td_sd > 0.0
                       ? made__between((td - now->td) / now->td_sd, 0.0, 3.0)
                       : usual;

    return (TD_STRAY + TD_STRAY_RANGE * range + TD_STRAY_SD * now->td_sd) *
           (1.0 + made__aim_of(now).td_stray * (moist - usual));
}

/* The dew point strays from its line; that of a dry day falls as the sun mixes
   dry air down. */
static void stray_td(const struct dew_climate *place,
                     const struct made__daily *days, const struct line *t_mean,
                     const struct line *mean, struct made__hourly *hours)
{
    for (int d = 0; d < DAYS; d++) {
        const double *noise = hours->noise + d * HOURS;
        double middle = core__mean(noise, HOURS), range = days->range[d];
        double stray =
            stray_of(&place->month[made__month_of(d)], range, days->td[d]);
        double dry = fmax(days->t[d] - days->td[d] - TD_SWING_FROM, 0.0);
        double fall = range > 0.0 ? TD_SWING * dry / range : 0.0;

        for (int h = 0; h < HOURS; h++) {
            int i = d * HOURS + h;

            hours->td[i] = on_line(mean->knot, i) +
                           stray * (noise[h] - middle) -
                           fall * (hours->t[i] - on_line(t_mean->knot, i));
        }
    }
}

static void hours_td(const struct dew_climate *place,
                     const struct made__daily *days, const struct line *t_mean,
                     const struct line *mean, struct core__random *random,
                     struct made__hourly *hours)
{
    const double top = top_of(place);

    noise(random, TD_STRAY_LAG, hours->noise);
    stray_td(place, days, t_mean, mean, hours);
    for (int m = 0; m < MONTHS; m++) {
        int first = made__month_start[m];
        int n = made__month_start[m + 1] - first;
        double *t = hours->t + first * HOURS, *td = hours->td + first * HOURS;
        double by = raise_by(t, td, n * HOURS,
                             core__mean(days->td + first, (size_t)n), top);

        for (int h = 0; h < n * HOURS; h++)
            td[h] = within(t[h], td[h] + by, top);
    }
}

/*
 * The light of one day: by the sun's height as [CPR79] has it at equal day
 * and night, 0.66 + 0.42 of the cosine of the hour angle, with clouds passing
 * most on half-clear days; the day's sum is kept.
 */
static void light(const struct dew_sun *sun, const double *noise,
                  double clearness, double *global)
{
    double half = 1.0 - fabs(2.0 * clearness / 0.75 - 1.0);
    double stray = CLOUD_STRAY * (half > 0.1 ? half : 0.1);
    double top = 0.0, want = 0.0, sum;

    for (int h = 0; h < HOURS; h++) {
        top = fmax(top, sun[h].horizontal);
        want += clearness * sun[h].horizontal;
    }
    for (int h = 0; h < HOURS; h++)
        global[h] = top > 0.0 ? sun[h].horizontal * exp(stray * noise[h]) *
                                    (0.66 + 0.42 * sun[h].horizontal / top)
                              : 0.0;
    for (int pass = 0; pass < 6; pass++) {
        sum = 0.0;
        for (int h = 0; h < HOURS; h++)
            sum += global[h];
        for (int h = 0; h < HOURS && sum > 0.0; h++)
            global[h] =
                fmin(global[h] * want / sum, CLEAREST * sun[h].horizontal);
    }
}

static void hours_light(const struct made__daily *days,
                        struct core__random *random, struct made__hourly *hours)
{
    noise(random, CLOUD_STRAY_LAG, hours->noise);
    for (int d = 0; d < DAYS; d++)
        light(hours->sun + d * HOURS, hours->noise + d * HOURS,
              days->clearness[d], hours->global + d * HOURS);
}

static void hours_air(const struct made__daily *days,
                      struct core__random *random, struct made__hourly *hours)
{
    struct line pressure;

    hang(days->pressure, &pressure);
    noise(random, WIND_STRAY_LAG, hours->noise);
    for (int d = 0; d < DAYS; d++) {
        double sum = 0.0;
        double stray = fmin(WIND_STRAY / sqrt(days->wind[d]), WIND_STRAY_MOST);

        for (int h = d * HOURS; h < (d + 1) * HOURS; h++) {
            double time = (h % HOURS + 1 - 15.0) * PI / 12.0;
            double gust = 1.0 + stray * hours->noise[h];

            hours->pressure[h] = on_line(pressure.knot, h);
            hours->wind[h] = on_line(days->wind, h) *
                             (1.0 + WIND_DAY * cos(time)) * gust * gust;
            sum += hours->wind[h] / HOURS;
        }
        for (int h = d * HOURS; h < (d + 1) * HOURS && sum > 0.0; h++)
            hours->wind[h] *= days->wind[d] / sum;
    }
}

void made__hours(const struct dew_climate *place,
                 const struct made__daily *days, struct core__random *random,
                 struct made__hourly *hours)
{
    struct line t, td;

    hang(days->t, &t);
    hours_t(place, days, &t, hours->noise, hours);
    hang(days->td, &td);
    hours_td(place, days, &t, &td, random, hours);
    hours_light(days, random, hours);
    hours_air(days, random, hours);
}
