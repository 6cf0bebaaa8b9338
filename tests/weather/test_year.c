/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The calendar and the body of a weather year. */
#include "support/rows.h"

#include <string.h>

#include "weather/calendar.h"
#include "weather/year.h"

/* Weekdays and day counts: civil calendar, by hand. */
static const struct {
    const char *name;
    int year, month, day, weekday, yearday;
} days[] = {
    {"1970-01-01 was a Thursday", 1970, 1, 1, 3, 1},
    {"2000-02-29, a leap century", 2000, 2, 29, 1, 60},
    {"1900-03-01, no leap century", 1900, 3, 1, 3, 60},
    {"2016-12-31, day 366", 2016, 12, 31, 5, 366},
    {"1969-07-20 was a Sunday", 1969, 7, 20, 6, 201},
    {"2026-11-25 was a Wednesday", 2026, 11, 25, 2, 329},
};

static void day_has_its_place(void **state)
{
    const struct {
        const char *name;
        int year, month, day, weekday, yearday;
    } *r = *state;
    struct dew_date d;
    int64_t m = weather__days(r->year, r->month, r->day) * WEATHER__DAY;

    weather__date_of(m + 17 * WEATHER__HOUR, 0, &d);
    assert_int_equal(d.year, r->year);
    assert_int_equal(d.month, r->month);
    assert_int_equal(d.day, r->day);
    assert_int_equal(d.hour, 17);
    assert_int_equal(d.weekday, r->weekday);
    assert_int_equal(d.yearday, r->yearday);
    assert_int_equal(weather__moment_of(&d), m + 17 * WEATHER__HOUR);
}

TEST(civil_inverts_days_for_800_years)
{
    int y, m, d;

    for (int64_t day = weather__days(1600, 1, 1);
         day < weather__days(2400, 1, 1); day++) {
        weather__civil(day * WEATHER__DAY + 86399, &y, &m, &d);
        assert_int_equal(weather__days(y, m, d), day);
        assert_true(d >= 1 && d <= weather__month_days(y, m));
    }
}

TEST(midnight_is_hour_24_of_the_day_before)
{
    struct dew_date d;

    weather__date_of(weather__days(2021, 3, 1) * WEATHER__DAY, 0, &d);
    assert_int_equal(d.month, 2);
    assert_int_equal(d.day, 28);
    assert_int_equal(d.hour, 24);
}

TEST(typical_year_starts_on_a_monday_in_year_0)
{
    int64_t first =
        weather__days(WEATHER__TYPICAL, 1, 1) * WEATHER__DAY + WEATHER__HOUR;
    struct dew_hour hour = {.t = 7.3, .w = 0.0041, .p = 98400.0};
    const struct dew_date *d;
    struct dew_year *year;
    size_t n;

    assert_int_equal(weather__year_open(&year, 24, NULL), DEW_OK);
    for (int h = 0; h < 8760; h++)
        assert_int_equal(weather__year_append(year, &hour, NULL), DEW_OK);
    assert_int_equal(weather__year_finish(year, first, 1, NULL), DEW_OK);
    d = dew_year_dates(year, &n);
    assert_int_equal(n, 8760);
    assert_int_equal(d[0].year, 0);
    assert_int_equal(d[0].weekday, 0);
    assert_int_equal(d[0].hour, 1);
    assert_int_equal(d[n - 1].month, 12);
    assert_int_equal(d[n - 1].day, 31);
    assert_int_equal(d[n - 1].hour, 24);
    assert_int_equal(d[n - 1].yearday, 365);
    dew_year_close(year);
}

TEST(empty_year_is_refused)
{
    struct dew_error err = {0};
    struct dew_year *year;

    assert_int_equal(weather__year_open(&year, 24, NULL), DEW_OK);
    assert_int_equal(weather__year_finish(year, 0, 0, &err), DEW_EMISSING);
    assert_string_equal(err.text, "no hour of weather");
    dew_year_close(year);
}

TEST(provenance_is_joined_and_cut)
{
    struct dew_year *year;

    assert_int_equal(weather__year_open(&year, 24, NULL), DEW_OK);
    weather__year_say(year, "file a.csv");
    weather__year_say(year, "%d hours filled", 3);
    assert_string_equal(dew_year_provenance(year),
                        "file a.csv; 3 hours filled");
    for (int i = 0; i < 100; i++)
        weather__year_say(year, "more and more words");
    assert_int_equal(strlen(dew_year_provenance(year)),
                     sizeof year->provenance - 1);
    dew_year_close(year);
}

TEST(between_is_linear_but_solar_is_the_hours_own)
{
    struct dew_hour a = {3.0, 0.004, 98000.0, 2.0, 100.0, 10.0, 90.0, 9.1};
    struct dew_hour b = {5.0, 0.005, 99000.0, 6.0, 250.0, 20.0, 70.0, 7.3};
    struct dew_hour h = dew_hour_between(&a, &b, 0.25);

    assert_near(h.t, 3.5, 1e-12);
    assert_near(h.w, 0.00425, 1e-15);
    assert_near(h.p, 98250.0, 1e-9);
    assert_near(h.wind, 3.0, 1e-12);
    assert_near(h.global, 250.0, 0.0);
    assert_near(h.direct, 20.0, 0.0);
    assert_near(h.diffuse, 70.0, 0.0);
    assert_near(h.sky, 7.3, 0.0);
}

ROWS(days, day_has_its_place);
RUN_TESTS("weather, year");
