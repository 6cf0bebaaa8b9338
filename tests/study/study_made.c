/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Made weather beside the real years its figures come from: moments of the
 * days, quantiles of the dew point, hours that matter to a tight house.
 *
 *     study_made [SEEDS]      DEW_DATA names the folder of the real years
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/num.h"
#include "dew/made.h"
#include "made/made.h"
#include "support/damp.h"

static const char *const files[][2] = {
    {"722020", "722020TYA.CSV"}, {"726580", "726580TYA.CSV"},
    {"722780", "722780TYA.CSV"}, {"727930", "727930TYA.CSV"},
    {"723170", "723170TYA.CSV"}, {"703165", "703165TY.csv"},
};
enum { PLACES = sizeof files / sizeof files[0], DAYS = 365, HOURS = 8760 };

/* Days and dew points of a year. */
struct days {
    double t[DAYS], td[DAYS], range[DAYS], sun[DAYS], wind[DAYS];
    double dew[HOURS]; /* degC, each hour                                    */
    double stray;      /* K     deviation of the dew point within a day      */
};

static void days_of(const struct dew_hour *h, struct days *d)
{
    memset(d, 0, sizeof *d);
    for (int i = 0; i < DAYS; i++) {
        double high = -INFINITY, low = INFINITY;

        for (int k = 0; k < 24; k++, h++) {
            double td = dew_air_dew_liquid(h->w, h->p);

            d->dew[24 * i + k] = td;
            d->t[i] += h->t / 24.0;
            d->td[i] += td / 24.0;
            d->sun[i] += h->global / 24.0;
            d->wind[i] += h->wind / 24.0;
            high = fmax(high, h->t);
            low = fmin(low, h->t);
        }
        d->range[i] = high - low;
        d->stray += core__sd(d->dew + 24 * i, 24) / DAYS;
    }
}

/* Means over the months of the moments within them. */
struct moments {
    double t_sd, t_lag, td_sd, td_lag, both, lean, range_sd, range_dry,
        range_sun, sun_dry, wind_sd, stray;
};

static double lean_of(const double *x, size_t n)
{
    double mean = core__mean(x, n), sd = core__sd(x, n), sum = 0.0;

    for (size_t i = 0; i < n; i++)
        sum += pow((x[i] - mean) / sd, 3.0) / (double)n;
    return sum;
}

static struct moments moments_of(const struct days *d)
{
    struct moments s = {.stray = d->stray};

    for (int m = 0; m < 12; m++) {
        int from = made__month_start[m];
        size_t n = (size_t)(made__month_start[m + 1] - from);
        const double *t = d->t + from, *td = d->td + from;
        double dry[31];

        for (size_t i = 0; i < n; i++)
            dry[i] = t[i] - td[i];
        s.t_sd += core__sd(t, n) / 12.0;
        s.t_lag += core__correlation(t, t + 1, n - 1) / 12.0;
        s.td_sd += core__sd(td, n) / 12.0;
        s.td_lag += core__correlation(td, td + 1, n - 1) / 12.0;
        s.both += core__correlation(t, td, n) / 12.0;
        s.lean += lean_of(td, n) / 12.0;
        s.range_sd += core__sd(d->range + from, n) / 12.0;
        s.range_dry += core__correlation(d->range + from, dry, n) / 12.0;
        s.range_sun +=
            core__correlation(d->range + from, d->sun + from, n) / 12.0;
        s.sun_dry += core__correlation(d->sun + from, dry, n) / 12.0;
        s.wind_sd += core__sd(d->wind + from, n) / 12.0;
    }
    return s;
}

static void print_moments(const char *who, const struct moments *s)
{
    printf("  %-5s days: t sd %.2f lag %.2f; td sd %.2f lag %.2f lean %.2f; "
           "t with td %.2f\n"
           "        range sd %.2f, with dryness %.2f, with sun %.2f; sun with "
           "dryness %.2f; wind sd %.2f; td within a day %.2f\n",
           who, s->t_sd, s->t_lag, s->td_sd, s->td_lag, s->lean, s->both,
           s->range_sd, s->range_dry, s->range_sun, s->sun_dry, s->wind_sd,
           s->stray);
}

static void print_quantiles(const char *who, double *dew)
{
    static const double share[] = {0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99};

    core__sort(dew, HOURS);
    printf("  %-5s dew point at 1 5 25 50 75 95 99 %%:", who);
    for (size_t i = 0; i < sizeof share / sizeof share[0]; i++)
        printf(" %.1f", core__quantile(dew, HOURS, share[i]));
    printf("\n");
}

static void print_damp(const char *who, const struct damp *d)
{
    printf("  %-5s hours: dew point >60F %.0f >65F %.0f >70F %.0f <0C %.0f, "
           "saturated %.0f; house humid %.0f dry %.0f, empty humid %.0f dry "
           "%.0f\n",
           who, d->above_60, d->above_65, d->above_70, d->frosty, d->saturated,
           d->humid, d->dry, d->empty_humid, d->empty_dry);
}

static void print_year(const char *who, const struct dew_year *year)
{
    static struct days d;
    size_t count;
    const struct dew_hour *hours = dew_year_hours(year, &count);
    struct moments s;
    struct damp damp = damp_of(hours, count);

    days_of(hours, &d);
    s = moments_of(&d);
    print_moments(who, &s);
    print_quantiles(who, d.dew);
    print_damp(who, &damp);
}

static struct dew_year *real_year(const char *file)
{
    const char *root = getenv("DEW_DATA");
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct dew_weather_report report = {0};
    struct dew_faults faults = {0};
    struct dew_year *year;
    char path[400];

    snprintf(path, sizeof path, "%s/weather/tmy3/%s",
             root != NULL ? root : "../shared/data", file);
    dew_weather_read(&year, path, &ask, &report, &faults);
    return year;
}

static int study(const char *id, const char *file, unsigned long seeds)
{
    struct dew_year *real = real_year(file);
    struct dew_climate place;
    struct dew_error err = {0};

    if (real == NULL) {
        printf("%s: no file %s, left out\n", id, file);
        return 0;
    }
    if (dew_climate_find(id, &place, &err) != DEW_OK) {
        printf("%s\n", err.text);
        dew_year_close(real);
        return 1;
    }
    printf("%s %s\n", id, place.site.name);
    print_year("real", real);
    dew_year_close(real);
    for (unsigned long seed = 1; seed <= seeds; seed++) {
        struct dew_made how = {.seed = seed};
        struct dew_year *year;
        char who[8];

        if (dew_made_open(&place, &how, &year, &err) != DEW_OK)
            return 1;
        snprintf(who, sizeof who, "%lu", seed);
        print_year(who, year);
        dew_year_close(year);
    }
    return 0;
}

int main(int argc, char **argv)
{
    unsigned long seeds = argc > 1 ? strtoul(argv[1], NULL, 10) : 2;
    int bad = 0;

    for (size_t i = 0; i < PLACES; i++)
        bad |= study(files[i][0], files[i][1], seeds);
    return bad;
}
