/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Standard hours by the clock on the wall. */
#include "support/rows.h"

#include "dew/weather.h"

/* 2024: United States 10 March to 3 November; 2023: European Union 26 March
   to 29 October.  A typical year has the Sundays of 2007. */
static const struct turn {
    const char *name;
    enum dew_clock clock;
    double offset;
    int year, month, day, hour; /* standard, hour-ending                     */
    int wall_month, wall_day, wall_hour;
} turns[] = {
    /* clang-format off */
    {"[USC-15-260A] before 02:00 of 10 March 2024", DEW_CLOCK_US, -6, 2024, 3, 10, 2,   3, 10, 2},
    {"[USC-15-260A] from 02:00 of it",              DEW_CLOCK_US, -6, 2024, 3, 10, 3,   3, 10, 4},
    {"[USC-15-260A] the last hour of summer, 2024", DEW_CLOCK_US, -6, 2024, 11, 3, 1,   11, 3, 2},
    {"[USC-15-260A] the hour after it",             DEW_CLOCK_US, -6, 2024, 11, 3, 2,   11, 3, 2},
    {"[USC-15-260A] before 2007 it began in April", DEW_CLOCK_US, -6, 2005, 3, 20, 9,   3, 20, 9},
    {"midnight: the next day and month",            DEW_CLOCK_US, -6, 2024, 7, 31, 24,  8, 1, 1},
    {"typical: second Sunday of March, the 11th",   DEW_CLOCK_US, -6, 0, 3, 11, 3,      3, 11, 4},
    {"typical: the day before",                     DEW_CLOCK_US, -6, 0, 3, 10, 24,     3, 10, 24},
    {"typical: first Sunday of November, the 4th",  DEW_CLOCK_US, -6, 0, 11, 4, 1,      11, 4, 2},
    {"typical: after it",                           DEW_CLOCK_US, -6, 0, 11, 4, 2,      11, 4, 2},
    {"[EU-2000-84] 01:00 UTC of 26 March 2023",     DEW_CLOCK_EU, 1, 2023, 3, 26, 2,    3, 26, 2},
    {"[EU-2000-84] after it",                       DEW_CLOCK_EU, 1, 2023, 3, 26, 3,    3, 26, 4},
    {"[EU-2000-84] two hours east",                 DEW_CLOCK_EU, 2, 2023, 3, 26, 3,    3, 26, 3},
    {"[EU-2000-84] 01:00 UTC of 29 October 2023",   DEW_CLOCK_EU, 1, 2023, 10, 29, 2,   10, 29, 3},
    {"[EU-2000-84] after it",                       DEW_CLOCK_EU, 1, 2023, 10, 29, 3,   10, 29, 3},
    {"standard time stays",                         DEW_CLOCK_STANDARD, -6, 2024, 7, 4, 9, 7, 4, 9},
    {"not said: standard time",                     DEW_CLOCK_UNSAID, -6, 2024, 7, 4, 9,   7, 4, 9},
    /* clang-format on */
};

static void wall_shows(void **state)
{
    const struct turn *r = *state;
    const struct dew_date date = {
        .year = r->year, .month = r->month, .day = r->day, .hour = r->hour};
    struct dew_date wall = dew_weather_by_clock(&date, r->clock, r->offset);

    assert_int_equal(wall.year, r->year);
    assert_int_equal(wall.month, r->wall_month);
    assert_int_equal(wall.day, r->wall_day);
    assert_int_equal(wall.hour, r->wall_hour);
}

/* A Sunday's last hour is Monday's first on the wall. */
TEST(week_turns_with_the_wall)
{
    const struct dew_date sunday = {
        .month = 7, .day = 8, .hour = 24, .weekday = 6, .yearday = 189};
    struct dew_date wall = dew_weather_by_clock(&sunday, DEW_CLOCK_US, -5);

    assert_int_equal(wall.weekday, 0);
    assert_int_equal(wall.yearday, 190);
    assert_int_equal(wall.year, 0);
}

ROWS(turns, wall_shows);
RUN_TESTS("weather, clock");
