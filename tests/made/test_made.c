/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Made years: that they meet their figures, at every kind of place. */
#include "support/rows.h"

#include <string.h>

#include "core/num.h"
#include "dew/air.h"
#include "dew/made.h"
#include "dew/sun.h"
#include "made/climate.h"
#include "made/made.h"

static struct dew_climate find(const char *words)
{
    struct dew_climate place;

    assert_int_equal(dew_climate_find(words, &place, NULL), DEW_OK);
    return place;
}

static struct dew_year *make(const struct dew_climate *place,
                             unsigned long seed, int number)
{
    struct dew_made how = {.seed = seed, .number = number};
    struct dew_year *year;

    assert_int_equal(dew_made_open(place, &how, &year, NULL), DEW_OK);
    return year;
}

/* Means of a month of a year. */
struct means {
    double t, td, high, low, solar, wind, p;
};

static struct means means_of(const struct dew_hour *hours, int month)
{
    struct means m = {0};
    int first = made__month_start[month], last = made__month_start[month + 1];
    double n = last - first;

    for (int d = first; d < last; d++) {
        double high = -INFINITY, low = INFINITY;

        for (const struct dew_hour *h = hours + 24 * d; h < hours + 24 * d + 24;
             h++) {
            m.t += h->t / (24.0 * n);
            m.td += dew_air_dew_liquid(h->w, h->p) / (24.0 * n);
            m.solar += h->global / (24.0 * n);
            m.wind += h->wind / (24.0 * n);
            m.p += h->p / (24.0 * n);
            high = fmax(high, h->t);
            low = fmin(low, h->t);
        }
        m.high += high / n;
        m.low += low / n;
    }
    return m;
}

/* How far a place's months are from their figures, at worst. */
struct worst {
    double t, td, solar, range, wind, p;
    char where[6][24];
    int beyond; /* months whose highest or lowest is 0.3 K off               */
};

static void note(double *worst, char *where, double gap, const char *id)
{
    if (!(gap <= *worst)) { /* NaN too */
        *worst = gap;
        memcpy(where, id, 7);
    }
}

/* 2 % of the figure or 0.02 kWh/m2 day, as a share of what is allowed. */
static double solar_gap(double got, double want)
{
    double allowed = fmax(0.02 * want, 20.0 / 24.0);

    return fabs(got - want) / allowed;
}

static void compare(const struct dew_climate *place,
                    const struct dew_hour *hours, struct worst *w)
{
    const char *id = place->site.id;

    for (int m = 0; m < 12; m++) {
        struct means got = means_of(hours, m);
        const struct dew_normal *want = &place->month[m];
        double gap;

        note(&w->t, w->where[0], fabs(got.t - want->t), id);
        note(&w->td, w->where[1], fabs(got.td - want->td), id);
        note(&w->solar, w->where[2], solar_gap(got.solar, want->solar), id);
        gap = fmax(fabs(got.high - want->t_max), fabs(got.low - want->t_min));
        w->beyond += gap > 0.3;
        note(&w->range, w->where[3], gap, id);
        note(&w->wind, w->where[4], fabs(got.wind - want->wind), id);
        note(&w->p, w->where[5], fabs(got.p - want->pressure), id);
    }
}

/* Every hour is weather that can be. */
static void plausible(const struct dew_hour *h, size_t count)
{
    for (size_t i = 0; i < count; i++, h++) {
        double most = dew_air_w_dew_liquid(h->t, h->p);

        if (!(h->w > 0.0 && h->w <= most * (1.0 + 1e-12)) ||
            !(h->t > -70.0 && h->t < 60.0) || !(h->wind >= 0.0) ||
            !(h->wind < 80.0) || !(h->global >= 0.0 && h->global < 1300.0) ||
            !(h->direct >= 0.0 && h->direct < 1420.0) ||
            !(h->diffuse >= 0.0 && h->diffuse <= h->global + 1.0))
            fail_msg("hour %zu: t %g w %g wind %g sun %g %g %g", i + 1, h->t,
                     h->w, h->wind, h->global, h->direct, h->diffuse);
    }
}

/* Its Januaries' dew points stray by 20 K about -27 degC. */
TEST(the_driest_place_has_water_in_its_air)
{
    const struct dew_climate place = find("702460");
    double least = INFINITY;

    for (int number = 0; number < 16; number++) {
        struct dew_year *year = make(&place, 1, number);
        size_t count;
        const struct dew_hour *h = dew_year_hours(year, &count);

        plausible(h, count);
        for (size_t i = 0; i < count; i++)
            least = fmin(least, h[i].w * h[i].p);
        dew_year_close(year);
    }
    assert_near(least, dew_air_w_dew_liquid(-75.0, 1e5) * 1e5, 2e-3);
}

/* Of the 1,007 places those that come off worst, by each of the figures, and one
   in sixteen of the others; EVERY=1 makes a year of each. */
static int is_tried(const char *id, size_t number)
{
    static const char *const worst[] = {"701330", "701780", "702005",
                                        "702186", "702320", "702460",
                                        "722140", "722610", "723449"};
    const char *every = getenv("EVERY");

    for (size_t i = 0; i < COUNT_OF(worst); i++)
        if (strcmp(id, worst[i]) == 0)
            return 1;
    return number % 16 == 0 || (every != NULL && every[0] != '\0');
}

static void try_place(const struct dew_climate *place, struct worst *w)
{
    struct dew_year *year = make(place, 1, 0);
    size_t count;
    const struct dew_hour *hours = dew_year_hours(year, &count);

    assert_int_equal(count, 8760);
    plausible(hours, count);
    compare(place, hours, w);
    dew_year_close(year);
}

TEST(places_meet_their_figures)
{
    struct dew_climate place;
    struct worst w = {0};
    size_t tried = 0, number = 0;

    for (size_t at = 0; dew_climate_next(&at, &place); number++) {
        if (!is_tried(place.site.id, number))
            continue;
        try_place(&place, &w);
        tried++;
    }
    assert_true(tried >= 63); /* one in sixteen */
    print_message(
        "worst: t %.3f K at %s, td %.3f K at %s, sun %.2f of what is "
        "allowed at %s, highest or lowest %.2f K at %s, wind %.3f m/s "
        "at %s, pressure %.0f Pa at %s; %d months beyond\n",
        w.t, w.where[0], w.td, w.where[1], w.solar, w.where[2], w.range,
        w.where[3], w.wind, w.where[4], w.p, w.where[5], w.beyond);
    assert_near(w.t, 0.0, 0.1);
    assert_near(w.td, 0.0, 0.1);
    assert_near(w.solar, 0.0, 1.0);
    /* months of all: where days differ more than day and night */
    assert_between(w.beyond, 0, 60);
    assert_near(w.range, 0.0, 2.5);
    assert_near(w.wind, 0.0, 0.05);
    assert_near(w.p, 0.0, 20.0);
}

/* The most humid hour of a year, degC of its dew point. */
static double highest_td(const struct dew_year *year)
{
    size_t n;
    const struct dew_hour *h = dew_year_hours(year, &n);
    double most = -INFINITY;

    for (size_t i = 0; i < n; i++)
        most = fmax(most, dew_air_dew_liquid(h[i].w, h[i].p));
    return most;
}

/* Deviations of winter days would take the air above what the sea gives:
   31.4 degC in a February of Miami, whose typical year has 25.6 at most.  The
   top is our own regression, the envelope of the years of 11 places. */
TEST(no_hour_is_moister_than_the_most_humid_month_gives)
{
    static const char *const places[] = {"722020", "722780"};

    for (int k = 0; k < 2; k++) {
        struct dew_climate place = find(places[k]);
        double td = -INFINITY, sd = NAN, near = 0;

        for (int m = 0; m < 12; m++)
            if (place.month[m].td > td) {
                td = place.month[m].td;
                sd = place.month[m].td_sd;
            }
        for (unsigned long seed = 1; seed <= 8; seed++) {
            struct dew_year *year = make(&place, seed, (int)(seed % 3));
            double top = highest_td(year);

            if (top > td + 2.8 + 1.7 * sd + 0.02)
                fail_msg("%s, seed %lu: %.2f degC", places[k], seed, top);
            near = fmax(near, top - td);
            dew_year_close(year);
        }
        /* and reaches it: a lower top would flatten months that are not wrong */
        assert_true(near > 1.6 + 1.7 * sd);
    }
}

/* Months of many years stray around the figures, not to one side of them. */
TEST(many_years_stray_around_the_figures)
{
    enum { YEARS = 60 };
    struct dew_climate place = find("722020");
    double t = 0.0, td = 0.0, hours_all = 0.0;
    size_t n;

    for (int y = 1; y <= YEARS; y++) {
        struct dew_year *year = make(&place, 5, y);
        const struct dew_hour *h = dew_year_hours(year, &n);
        const struct dew_date *d = dew_year_dates(year, &n);

        for (size_t i = 0; i < n; i++) {
            const struct dew_normal *m = &place.month[d[i].month - 1];

            t += h[i].t - m->t;
            td += dew_air_dew_liquid(h[i].w, h[i].p) - m->td;
            hours_all += 1.0;
        }
        dew_year_close(year);
    }
    /* a year's mean strays by 0.5 K or so: four deviations of the mean of 60 */
    assert_near(t / hours_all, 0.0, 0.26);
    assert_near(td / hours_all, 0.0, 0.26);
}

TEST(the_same_seed_makes_the_same_year)
{
    struct dew_climate place = find("726580");
    struct dew_year *a = make(&place, 41, 3), *b = make(&place, 41, 3);
    struct dew_year *c = make(&place, 42, 3), *d = make(&place, 41, 4);
    size_t n;
    const struct dew_hour *hours = dew_year_hours(a, &n);

    assert_memory_equal(hours, dew_year_hours(b, &n), n * sizeof *hours);
    assert_memory_not_equal(hours, dew_year_hours(c, &n), n * sizeof *hours);
    assert_memory_not_equal(hours, dew_year_hours(d, &n), n * sizeof *hours);
    assert_non_null(strstr(dew_year_provenance(a), "726580"));
    dew_year_close(a);
    dew_year_close(b);
    dew_year_close(c);
    dew_year_close(d);
}

/* Rounded as the header says, so that the last bit does not show. */
TEST(values_are_rounded)
{
    struct dew_climate place = find("722020");
    struct dew_year *year = make(&place, 5, 0);
    size_t n;
    const struct dew_hour *h = dew_year_hours(year, &n);

    for (size_t i = 0; i < n; i++) {
        assert_near(remainder(h[i].t, 0.01), 0.0, 1e-9);
        assert_near(remainder(dew_air_dew_liquid(h[i].w, h[i].p), 0.01), 0.0,
                    1e-3);
        assert_near(remainder(h[i].wind, 0.01), 0.0, 1e-9);
        assert_near(remainder(h[i].p, 10.0), 0.0, 1e-7);
        assert_near(remainder(h[i].global, 1.0), 0.0, 0.0);
    }
    dew_year_close(year);
}

/* Deviation of the mean of n days of a second-order autoregression of
   deviation 1 whose neighbours correlate by a: the sum of its correlations,
   which follow the same recursion (Yule-Walker; from memory). */
static double scatter_of(double a, double second, int n)
{
    double before = 1.0, now = a, sum = 1.0;

    for (int k = 1; k < n; k++) {
        double next = a * (1.0 - second) * now + second * before;

        sum += 2.0 * (1.0 - (double)k / n) * now;
        before = now;
        now = next;
    }
    return sqrt(sum / n);
}

/*
 * Many years: the months' means scatter as the mean of n such days does, less
 * the share of the season that every January has, and lie around the figures.
 */
TEST(many_years_scatter_as_their_days_make_them)
{
    enum { YEARS = 120 };
    struct dew_climate place = find("726580");
    const struct dew_normal *january = &place.month[0];
    double t[YEARS], a, slope, season, want;

    for (int y = 0; y < YEARS; y++) {
        struct dew_year *year = make(&place, 9, y + 1);
        size_t n;

        t[y] = means_of(dew_year_hours(year, &n), 0).t;
        dew_year_close(year);
    }
    a = (january->t_lag + 1.0 / 30.0) / (1.0 - 4.0 / 30.0); /* [KENDALL54] */
    slope = 0.5 * (place.month[1].t - place.month[11].t) / 30.4;
    season = slope * slope * (31.0 * 31.0 - 1.0) / 12.0; /* K2, of a line */
    want =
        sqrt(january->t_sd * january->t_sd - season) * scatter_of(a, -0.22, 31);
    /* four standard errors of a mean and of a deviation of 120 */
    assert_near(core__mean(t, YEARS), january->t, 4.0 * want / sqrt(YEARS));
    assert_near(core__sd(t, YEARS), want, 4.0 * want / sqrt(2.0 * YEARS));
}

/* Days hang together as the table says, over many years. */
TEST(days_have_the_table_s_lag_and_correlation)
{
    enum { YEARS = 60 };
    struct dew_climate place = find("723170");
    const struct dew_normal *july = &place.month[6];
    double lag = 0.0, both = 0.0, sd = 0.0, lean = 0.0;

    for (int y = 0; y < YEARS; y++) {
        struct dew_year *year = make(&place, 100 + (unsigned)y, 0);
        size_t n;
        const struct dew_hour *h = dew_year_hours(year, &n) + 181 * 24;
        double t[31] = {0}, td[31] = {0};

        for (int i = 0; i < 31 * 24; i++) {
            t[i / 24] += h[i].t / 24.0;
            td[i / 24] += dew_air_dew_liquid(h[i].w, h[i].p) / 24.0;
        }
        lag += core__correlation(t, t + 1, 30) / YEARS;
        both += core__correlation(t, td, 31) / YEARS;
        sd += core__sd(td, 31) / YEARS;
        for (int i = 0; i < 31; i++)
            lean += pow((td[i] - core__mean(td, 31)) / core__sd(td, 31), 3.0) /
                    (31.0 * YEARS);
        dew_year_close(year);
    }
    assert_near(lag, july->t_lag, 0.10);
    assert_near(both, july->t_td, 0.10);
    assert_near(sd, july->td_sd, 0.10 * july->td_sd);
    assert_true(lean < -0.4); /* to the dry side */
}

TEST(figures_that_cannot_be_are_refused)
{
    struct dew_climate place = find("727930");
    struct dew_made how = {.seed = 1};
    struct dew_year *year = (struct dew_year *)(uintptr_t)1;
    struct dew_error err = {0};

    place.month[4].t_lag = 1.2;
    assert_int_equal(dew_made_open(&place, &how, &year, &err), DEW_ERANGE);
    assert_null(year);
    assert_string_equal(err.path, "month 5, t_day_lag1");
    assert_string_equal(err.text, "1.2 is outside -0.95 .. 0.99");
}

/* Figures at the ends of their ranges: odd, but weather. */
static const struct odd_row {
    const char *name;
    struct dew_normal month; /* added to Seattle's, NaN: left                */
    double latitude;
} odd_rows[] = {
    {"every day alike", {.t_sd = 0.0, .td_sd = 0.0, .solar_sd = 0.0}, 47.5},
    {"as damp as can be", {.td = 8.0, .t = 8.0, .t_td = 1.0}, 47.5},
    {"dew point against t", {.t_td = -1.0, .td_sd = 20.0}, 47.5},
    /* a line that keeps such means swings twice as far as they do */
    {"days that alternate", {.t_lag = -0.95, .t_sd = 7.0}, 47.5},
    {"no swing", {.t = 8.0, .t_max = 8.0, .t_min = 8.0, .td = 2.0}, 47.5},
    {"sun at the pole, all year", {.solar = 250.0, .solar_sd = 200.0}, 90.0},
    {"more sun than there is", {.solar = 540.0}, -65.0},
    {"no wind", {.wind = 0.0}, 0.0},
    {"the equator on a mountain", {.pressure = 55000.0, .td = -40.0}, 0.0},
};

/* Every figure that the row gives, in all months. */
static void take_odd(const struct odd_row *row, struct dew_climate *place)
{
    struct dew_normal odd = row->month;

    place->site.latitude = row->latitude;
    for (int m = 0; m < 12; m++)
        for (size_t f = 0; f < made__figure_count; f++)
            if (*made__figure_at(&odd, f) != 0.0)
                *made__figure_at(&place->month[m], f) =
                    *made__figure_at(&odd, f);
}

static void odd_figures_still_make_weather(void **state)
{
    const struct odd_row *row = *state;
    struct dew_climate place = find("727930");

    take_odd(row, &place);
    for (int m = 0; m < 12; m++) { /* what else must hold */
        struct dew_normal *n = &place.month[m];

        n->t_max = fmax(n->t_max, n->t);
        n->t_min = fmin(n->t_min, n->t);
        n->td = fmin(n->td, n->t);
        if (row == &odd_rows[0])
            n->t_sd = n->td_sd = n->solar_sd = 0.0;
        if (row == &odd_rows[7])
            n->wind = 0.0;
    }
    for (int number = 0; number < 3; number++) {
        struct dew_year *year = make(&place, 77, number);
        size_t count;
        const struct dew_hour *hours = dew_year_hours(year, &count);

        plausible(hours, count);
        dew_year_close(year);
    }
}

ROWS(odd_rows, odd_figures_still_make_weather);
RUN_TESTS("weather, made");
