/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hours of the day: shapes and habits, all invented.  See sources.h. */
#include "dew/sources.h"

#include <math.h>
#include <string.h>

#include "core/fail.h"

enum { HOURS = 24 };

/* clang-format off */

/* Weights; dew_house_shape makes each day sum to 1. */
static const struct shape_row {
    const char *name;
    double day[2][HOURS]; /* Monday to Friday, weekend */
} shapes[] = {
    /*             0  1  2  3  4  5  6  7  8  9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 */
    {"all_day", {{ 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1},
                 { 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}}},
    {"morning", {{ 0, 0, 0, 0, 0, 1, 6, 6, 2, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 2, 1, 0},
                 { 0, 0, 0, 0, 0, 0, 1, 3, 5, 5, 2, 1, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 0}}},
    {"meals",   {{ 0, 0, 0, 0, 0, 0, 1, 2, 1, 0, 0, 1, 2, 0, 0, 0, 1, 4, 6, 2, 0, 0, 0, 0},
                 { 0, 0, 0, 0, 0, 0, 0, 1, 2, 1, 0, 2, 3, 1, 0, 0, 1, 4, 5, 2, 0, 0, 0, 0}}},
    {"evening", {{ 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 3, 5, 5, 4, 2, 0},
                 { 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 3, 5, 5, 4, 2, 0}}},
    {"daytime", {{ 0, 0, 0, 0, 0, 0, 0, 0, 1, 2, 3, 3, 3, 3, 3, 2, 2, 2, 2, 2, 2, 1, 1, 1},
                 { 0, 0, 0, 0, 0, 0, 0, 0, 1, 2, 3, 3, 3, 3, 3, 2, 2, 2, 2, 2, 2, 1, 1, 1}}},
    {"nights",  {{ 4, 4, 4, 4, 4, 4, 3, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 2, 3, 4},
                 { 4, 4, 4, 4, 4, 4, 4, 3, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 2, 4}}},
    {"waking",  {{ 1, 1, 1, 1, 1, 2, 5, 6, 4, 3, 3, 3, 4, 3, 3, 3, 4, 6, 8, 8, 8, 7, 5, 2},
                 { 1, 1, 1, 1, 1, 1, 2, 4, 6, 6, 5, 5, 5, 5, 4, 4, 5, 6, 8, 8, 8, 7, 5, 2}}},
};

/* Presence, share of the household by hour. */
/*                                      0  1  2  3  4  5   6   7   8   9  10  11  12  13  14  15  16  17  18  19 20 21 22 23 */
static const double always[HOURS]   = { 1, 1, 1, 1, 1, 1,  1,  1,  1,  1,  1,  1,  1,  1,  1,  1,  1,  1,  1,  1, 1, 1, 1, 1};
static const double never[HOURS]    = { 0, 0, 0, 0, 0, 0,  0,  0,  0,  0,  0,  0,  0,  0,  0,  0,  0,  0,  0,  0, 0, 0, 0, 0};
static const double at_work[HOURS]  = { 1, 1, 1, 1, 1, 1,  1, .8, .3,  0,  0,  0,  0,  0, .1, .3, .5, .7, .9,  1, 1, 1, 1, 1};
static const double leisure[HOURS]  = { 1, 1, 1, 1, 1, 1,  1,  1,  1, .9, .8, .7, .8, .7, .6, .6, .7, .8, .9, .9,.9,.9, 1, 1};
static const double one_in[HOURS]   = { 1, 1, 1, 1, 1, 1,  1, .9, .6, .5, .5, .5, .5, .5, .5, .6, .7, .8,  1,  1, 1, 1, 1, 1};
static const double old_age[HOURS]  = { 1, 1, 1, 1, 1, 1,  1,  1,  1, .9, .7, .7, .9,  1,  1, .8, .8, .9,  1,  1, 1, 1, 1, 1};
static const double by_day[HOURS]   = {.5,.5,.5,.5,.5,.5, .6, .9,  1, .8, .6, .6, .6, .6, .7, .8,  1,  1,  1, .9,.7,.5,.5,.5};

/* Asleep, share of those present. */
static const double by_night[HOURS] = { 1, 1, 1, 1, 1, 1, .6, .1,  0,  0,  0,  0,  0,  0,  0,  0,  0,  0,  0,  0, 0,.2,.6, 1};
static const double late[HOURS]     = { 1, 1, 1, 1, 1, 1,  1, .7, .3, .1,  0,  0,  0,  0,  0,  0,  0,  0,  0,  0, 0,.1,.4,.9};
static const double shifted[HOURS]  = { 1, 1, 1, 1, 1, 1, .5, .1, .3, .6, .8, .8, .8, .8, .6, .3, .1,  0,  0,  0, 0,.3,.7, 1};

/* Active, share of those present who are awake. */
static const double busy[HOURS]     = {.1,.1,.1,.1,.1,.2, .6, .7, .5, .4, .3, .4, .5, .3, .3, .3, .4, .6, .6, .4,.3,.2,.2,.1};

static const struct dew_habit habits[] = {
    {"all_day",         "at home day and night",                       {always,  always},  {by_night, by_night}, {busy, busy}},
    {"work_and_school", "out on working days, in and out on weekends", {at_work, leisure}, {by_night, late},     {busy, busy}},
    {"home_office",     "half of the household works at home",         {one_in,  leisure}, {by_night, late},     {busy, busy}},
    {"retired",         "at home but for errands",                     {old_age, old_age}, {by_night, by_night}, {busy, busy}},
    {"night_shift",     "half of the household works at night",        {by_day,  leisure}, {shifted,  late},     {busy, busy}},
    {"weekends_only",   "empty from Monday to Friday",                 {never,   leisure}, {by_night, late},     {busy, busy}},
};
/* clang-format on */

const char *dew_house_shape_name(size_t i)
{
    return i < sizeof shapes / sizeof shapes[0] ? shapes[i].name : NULL;
}

static void to_shares(const double weight[HOURS], double out[HOURS])
{
    double sum = 0.0;

    for (int h = 0; h < HOURS; h++)
        sum += weight[h];
    for (int h = 0; h < HOURS; h++)
        out[h] = weight[h] / sum;
}

enum dew_status dew_house_shape(const char *name, struct dew_shape *out,
                                struct dew_error *err)
{
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
        if (strcmp(shapes[i].name, name) != 0)
            continue;
        to_shares(shapes[i].day[0], out->weekday);
        to_shares(shapes[i].day[1], out->weekend);
        return DEW_OK;
    }
    core__in(err, "shape");
    return core__fail(err, DEW_EUNKNOWN, "no shape is called \"%s\"", name);
}

const struct dew_habit *dew_house_habit_at(size_t i)
{
    return i < sizeof habits / sizeof habits[0] ? &habits[i] : NULL;
}

const struct dew_habit *dew_house_habit(const char *name)
{
    for (size_t i = 0; i < sizeof habits / sizeof habits[0]; i++)
        if (strcmp(habits[i].name, name) == 0)
            return &habits[i];
    return NULL;
}
