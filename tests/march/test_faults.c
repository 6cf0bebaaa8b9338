/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a march refuses, in words, and the extremes that it bears. */
#include "support/rows.h"

#include <string.h>

#include "support/cases.h"
#include "support/lively.h"

static char line[400];

/* ---- refused at the door -------------------------------------------------- */

/* A member of a good case, and what is put there. */
#define AT(member)                                                             \
    offsetof(struct dew_case, member), sizeof(((struct dew_case *)0)->member)

struct refusal {
    const char *text; /* whole message, and the row's name                   */
    size_t offset, size;
    double value;
};

/* clang-format off */
static const struct refusal refusals[] = {
    {"steps_per_hour: 0 is outside 1 .. 60", AT(steps_per_hour), 0},
    {"steps_per_hour: 61 is outside 1 .. 60", AT(steps_per_hour), 61},
    {"pressure: 49700 is outside 50000 .. 110000", AT(pressure), 49.7e3},
    {"pressure: nan is outside 50000 .. 110000", AT(pressure), NAN},
    {"house.volume: 0.7 is outside 1 .. 100000", AT(house.volume), 0.7},
    {"house.thermal.c_air: 0 is outside 1e-09 .. 1e+12", AT(house.thermal.c_air), 0.0},
    {"house.thermal.c_mass: -3.1 is outside 1e-09 .. 1e+12", AT(house.thermal.c_mass), -3.1},
    {"house.thermal.h_is: 0 is outside 1e-09 .. 1e+12", AT(house.thermal.h_is), 0.0},
    {"house.thermal.h_ms: 0 is outside 1e-09 .. 1e+12", AT(house.thermal.h_ms), 0.0},
    {"house.thermal.facade_count: 7 is outside 0 .. 6", AT(house.thermal.facade_count), 7},
    {"house.thermal.floor_lean: 1.01 is outside 0 .. 1", AT(house.thermal.floor_lean), 1.01},
    {"house.comfort.band: 10.3 is outside 0 .. 10", AT(house.comfort.band), 10.3},
    {"house.buffer.surface_kg: -0.3 is outside 0 .. 1e+12", AT(house.buffer.surface_kg), -0.3},
    {"house.buffer.mid_kg: -0.1 is outside 0 .. 1e+12", AT(house.buffer.mid_kg), -0.1},
    {"house.buffer.deep_kg: -0.7 is outside 0 .. 1e+12", AT(house.buffer.deep_kg), -0.7},
    {"house.leakage.c: 0 is outside 1e-09 .. 100", AT(house.leakage.c), 0.0},
    {"house.leakage.n: 1.07 is outside 0.5 .. 1", AT(house.leakage.n), 1.07},
    {"plant.handler_count: 4 is outside 0 .. 3", AT(plant.handler_count), 4},
    {"plant.handlers[1].cycling: 0.7 is outside 0 .. 0.5", AT(plant.handlers[1].cycling), 0.7},
    {"plant.heater.backup: -1 is outside 0 .. 1e+12", AT(plant.heater.backup), -1.0},
    {"plant.humidifier.band: 0 is outside 0.001 .. 1", AT(plant.humidifier.band), 0.0},
    {"plant.dryer.outdoor: 1.3 is outside 0 .. 1", AT(plant.dryer.outdoor), 1.3},
    /* a NaN in the first and in the last member of every group */
    {"site.latitude: a value in it is no number", AT(site.latitude), NAN},
    {"site.longitude: a value in it is no number", AT(site.longitude), NAN},
    {"site.utc_offset: a value in it is no number", AT(site.utc_offset), NAN},
    {"limits: a value in it is no number", AT(limits.too_dry), NAN},
    {"watch: a value in it is no number", AT(watch.intake_follows), NAN},
    {"watch: a value in it is no number", AT(watch.supply_full), NAN},
    {"watch: a value in it is no number", AT(watch.leaks[DEW_VENT_STATES - 1][DEW_DUCT_HANDLERS - 1][1].lost), NAN},
    {"house.thermal: a value in it is no number", AT(house.thermal.sky_glazed), NAN},
    {"house.around: a value in it is no number", AT(house.around.air), NAN},
    {"paths: a value in it is no number", AT(paths[DEW_VENT_STATES - 1][DEW_BLOWER_STATES - 1].condensing), NAN},
    {"paths: a value in it is no number", AT(paths[0][0].supply), NAN},
    {"house.floor_area: a value in it is no number", AT(house.floor_area), NAN},
    {"house.co2_outdoors: a value in it is no number", AT(house.co2_outdoors), NAN},
    {"house.leakage: a value in it is no number", AT(house.leakage.constant), NAN},
    {"house.thermal: a value in it is no number", AT(house.thermal.lost_share), NAN},
    {"house.thermal.facades: a value in it is no number", AT(house.thermal.facades[DEW_FACADES - 1].absorbing), NAN},
    {"house.buffer: a value in it is no number", AT(house.buffer.deep_rate), NAN},
    {"house.water: a value in it is no number", AT(house.water[DEW_SOURCES - 1].rate), NAN},
    {"house.water: a value in it is no number", AT(house.water[0].half_life), NAN},
    {"house.water: a value in it is no number", AT(house.water[DEW_SOURCES - 1].heat_share), NAN},
    {"house.people: a value in it is no number", AT(house.people.count), NAN},
    {"house.people: a value in it is no number", AT(house.people.gains_convective), NAN},
    {"house.comfort: a value in it is no number", AT(house.comfort.cool[23]), NAN},
    {"house.windows: a value in it is no number", AT(house.windows.mild_high), NAN},
    {"house.surfaces: a value in it is no number", AT(house.surfaces[DEW_CORNER].film_max), NAN},
    {"plant.handlers: a value in it is no number", AT(plant.handlers[DEW_HANDLERS - 1].capacity), NAN},
    {"plant.handlers: a value in it is no number", AT(plant.handlers[0].blower_low_w), NAN},
    {"plant.handlers: a value in it is no number", AT(plant.handlers[0].minutes), NAN},
    {"plant.handlers: a value in it is no number", AT(plant.handlers[DEW_HANDLERS - 1].overcool_rh), NAN},
    {"plant.heater: a value in it is no number", AT(plant.heater.cop_cold), NAN},
    {"plant.frost: a value in it is no number", AT(plant.frost.dry_dew), NAN},
    {"plant.control: a value in it is no number", AT(plant.control.on_weekday[0]), NAN},
    {"plant.control: a value in it is no number", AT(plant.control.lockout_w), NAN},
    {"plant.control: a value in it is no number", AT(plant.control.winter_rh[1]), NAN},
    {"plant.control: a value in it is no number", AT(plant.control.events[23]), NAN},
    {"plant.dryer: a value in it is no number", AT(plant.dryer.drained), NAN},
    {"plant.humidifier: a value in it is no number", AT(plant.humidifier.heat), NAN},
    {"plant.exhausts: a value in it is no number", AT(plant.exhausts[DEW_LOCALS - 1].caught), NAN},
};
/* clang-format on */

static void is_refused(const struct dew_case *c, const char *text)
{
    struct dew_hour before = lively_weather(0);
    struct dew_march *m = (struct dew_march *)1; /* must become NULL */
    struct dew_error err = {0};

    assert_int_equal(dew_march_open(&m, c, &before, &err), DEW_ERANGE);
    assert_null(m);
    assert_string_equal(dew_error_line(&err, line, sizeof line), text);
    assert_int_equal(dew_march_open(&m, c, &before, NULL), DEW_ERANGE);
}

static void a_bad_case_is_refused_by_name(void **state)
{
    const struct refusal *row = *state;
    struct dew_case c = lively_case();

    if (row->size == sizeof(int)) {
        int whole = (int)row->value;

        memcpy((char *)&c + row->offset, &whole, sizeof whole);
    } else {
        memcpy((char *)&c + row->offset, &row->value, sizeof row->value);
    }
    is_refused(&c, row->text);
}

TEST(what_does_not_fit_together_is_refused)
{
    struct dew_case sharp = lively_case(), busy = sharp, weak = sharp;

    sharp.plant.dryer.rate = 1e-4;
    is_refused(&sharp, "plant.dryer.band: 0 is outside 0.001 .. 1");
    for (int e = 0; e < DEW_LOCALS; e++) {
        busy.plant.exhausts[e].flow = 0.02;
        all_day(busy.plant.exhausts[e].hours, 0.4);
    }
    is_refused(&busy, "plant.exhausts.hours: 1.2 is outside 0 .. 1");
    lively_cool(&weak, 1.0);
    weak.plant.handlers[0].capacity = 307.0;
    is_refused(&weak, "capacity: 307 is outside 500 .. 200000");
}

/* ---- stopped on the way --------------------------------------------------- */

/* A hole in the weather: the hour is named, the result untouched. */
TEST(weather_that_is_no_number_stops_the_march)
{
    struct dew_case c = bare_case(173.0, 20.7);
    struct dew_hour out = lively_weather(0);
    struct dew_result r = {.rh = 0.417};
    struct dew_error err = {0};
    struct dew_date date = date_of(5);
    struct dew_march *m;

    assert_int_equal(dew_march_open(&m, &c, &out, NULL), DEW_OK);
    for (int h = 0; h < 5; h++) {
        struct dew_result skip;
        struct dew_date day = date_of(h);

        out = lively_weather(h + 1);
        assert_int_equal(dew_march_step(m, &out, &day, &skip, NULL), DEW_OK);
    }
    out.t = NAN;
    assert_int_equal(dew_march_step(m, &out, &date, &r, &err), DEW_ERANGE);
    assert_int_equal(err.hour, 6);
    assert_near(r.rh, 0.417, 0.0);
    assert_string_equal(err.path, "weather.t");
    assert_string_equal(err.text, "a value in it is no number");
    out = lively_weather(6); /* nothing was done: the march goes on */
    assert_int_equal(dew_march_step(m, &out, &date, &r, NULL), DEW_OK);
    dew_march_close(m);
}

/* What cannot be, of an hour and of a date: refused before it is used, and
   the march goes on. */
static const struct odd_hour {
    const char *name; /* member and message                                  */
    struct dew_hour add;
    struct dew_date then;
} odd_hours[] = {
    {"weather.w: -0.5 cannot be", {.w = -0.5}, {.year = 0}},
    {"weather.w: 9.5 cannot be", {.w = 9.5}, {.year = 0}},
    {"weather.t: -273 cannot be", {.t = -273}, {.year = 0}},
    {"weather.t: 91 cannot be", {.t = 91}, {.year = 0}},
    {"weather.p: 0 cannot be", {.p = -1}, {.year = 0}},
    {"weather.wind: -2 cannot be", {.wind = -2}, {.year = 0}},
    {"weather.wind: inf cannot be", {.wind = INFINITY}, {.year = 0}},
    {"weather.sky: -inf cannot be", {.sky = -INFINITY}, {.year = 0}},
    {"date.hour: 25 is outside 1 .. 24", {.t = 0}, {.hour = 25}},
    {"date.hour: -4 is outside 1 .. 24", {.t = 0}, {.hour = -4}},
    {"date.month: 13 is outside 1 .. 12", {.t = 0}, {.month = 13}},
    {"date.day: 32 is outside 1 .. 31", {.t = 0}, {.day = 32}},
    {"date.weekday: 7 is outside 0 .. 6", {.t = 0}, {.weekday = 7}},
    {"date.yearday: 367 is outside 1 .. 366", {.t = 0}, {.yearday = 367}},
};

static void put_odd(const struct odd_hour *row, struct dew_hour *h,
                    struct dew_date *d)
{
    const struct dew_hour *a = &row->add;

    h->w = a->w != 0 ? a->w : h->w;
    h->t = a->t != 0 ? a->t : h->t;
    h->p = a->p != 0 ? 0 : h->p;
    h->wind = a->wind != 0 ? a->wind : h->wind;
    h->sky = a->sky != 0 ? a->sky : h->sky;
    d->hour = row->then.hour != 0 ? row->then.hour : d->hour;
    d->month = row->then.month != 0 ? row->then.month : d->month;
    d->day = row->then.day != 0 ? row->then.day : d->day;
    d->weekday = row->then.weekday != 0 ? row->then.weekday : d->weekday;
    d->yearday = row->then.yearday != 0 ? row->then.yearday : d->yearday;
}

static void what_cannot_be_is_refused(void **state)
{
    struct dew_case c = bare_case(173.0, 20.7);
    struct dew_hour good = lively_weather(1), odd = good;
    struct dew_date date = date_of(0), then = date;
    struct dew_result r = {.rh = 0.417};
    struct dew_error err = {0};
    struct dew_march *m;
    char want[80];

    snprintf(want, sizeof want, "hour 1: %s",
             ((const struct odd_hour *)*state)->name);
    put_odd(*state, &odd, &then);
    assert_int_equal(dew_march_open(&m, &c, &good, NULL), DEW_OK);
    assert_int_equal(dew_march_step(m, &odd, &then, &r, &err), DEW_ERANGE);
    assert_string_equal(dew_error_line(&err, line, sizeof line), want);
    assert_near(r.rh, 0.417, 0.0);
    assert_int_equal(dew_march_step(m, &good, &date, &r, NULL), DEW_OK);
    dew_march_close(m);
}
ROWS(odd_hours, what_cannot_be_is_refused);

/* Each lane of the hour before the first: its name, and nothing is made. */
TEST(every_lane_of_the_weather_is_looked_at)
{
    static const char *const names[] = {"t",      "w",      "p",       "wind",
                                        "global", "direct", "diffuse", "sky"};
    struct dew_case c = bare_case(173.0, 20.7);

    for (size_t i = 0; i < COUNT_OF(names); i++) {
        struct dew_hour before = lively_weather(0);
        double *const lanes[] = {
            &before.t,      &before.w,      &before.p,       &before.wind,
            &before.global, &before.direct, &before.diffuse, &before.sky};
        struct dew_march *m = (struct dew_march *)&c;
        struct dew_error err = {0};

        *lanes[i] = NAN;
        assert_int_equal(dew_march_open(&m, &c, &before, &err), DEW_ERANGE);
        assert_null(m);
        assert_int_equal(strncmp(err.path, "weather.", 8), 0);
        assert_string_equal(err.path + 8, names[i]);
    }
}

TEST(a_warm_up_hands_on_what_stopped_it)
{
    struct dew_case c = lively_case();
    struct dew_hour hours[48];
    struct dew_date dates[48];
    struct dew_error err = {0};
    struct dew_march *m;
    int turns = -7;

    for (int h = 0; h < 48; h++) {
        hours[h] = lively_weather(h + 1);
        dates[h] = date_of(h);
    }
    hours[17].w = INFINITY;
    assert_int_equal(dew_march_open(&m, &c, &hours[0], NULL), DEW_OK);
    assert_int_equal(dew_march_warm_up(m, hours, dates, 48, &turns, &err),
                     DEW_ERANGE);
    assert_int_equal(err.hour, 18);
    assert_int_equal(turns, -7);
    dew_march_close(m);
    dew_march_close(NULL);
}

/* 9 kW in a box whose walls let through 97 W/K: it ends at 90 K above them. */
TEST(a_house_that_boils_is_told_so)
{
    struct dew_case c = bare_case(430.0, 21.0);
    struct dew_hour out = {.t = 21.0, .w = 0.0077, .p = 101325.0};
    enum dew_status status = DEW_OK;
    struct dew_error err = {0};
    struct dew_march *m;
    struct dew_result r;

    c.house.comfort.given = 0;
    c.house.thermal.h_em = 97.0;
    c.house.people.gains_w = 9000.0;
    assert_int_equal(dew_march_open(&m, &c, &out, NULL), DEW_OK);
    for (int h = 0; h < 24 * 90 && status == DEW_OK; h++) {
        struct dew_date date = date_of(h);

        status = dew_march_step(m, &out, &date, &r, &err);
    }
    dew_march_close(m);
    assert_int_equal(status, DEW_EBALANCE);
    assert_true(err.hour > 1 && r.end.t_air > 55.0 && r.end.t_air <= 60.0);
    assert_non_null(strstr(err.text, "-60 to 60 degC: an hour before it had "));
    assert_non_null(strstr(err.text, "cannot carry off"));
}

/* ---- borne ---------------------------------------------------------------- */

/*
 * A house at saturation, where rounding may put the air beyond it: the
 * wet bulb passes the dry bulb, and what the coil holds must not be given
 * back at a negative rate.  Blower always on, coil wet.
 */
TEST(a_house_past_saturation_is_cooled_on)
{
    struct dew_case c = bare_case(240.0, 24.0);
    struct dew_hour out = {.t = 31.0, .w = 0.0163, .p = 101325.0, .wind = 2.3};
    struct dew_march *m;
    int past = 0;

    lively_cool(&c, 0.0);
    c.house.comfort.given = 0;
    all_day(c.house.comfort.heat, 15.0);
    all_day(c.house.comfort.cool, 19.0);
    c.house.thermal.h_em = 40.0;
    c.house.leakage.constant = 0.11;
    c.house.water[DEW_SOURCE_other].per_day = 121.0;
    c.plant.handlers[0].mode = DEW_BLOWER_ON;
    c.plant.handlers[0].blower_low_w = 60.0;
    assert_int_equal(dew_march_open(&m, &c, &out, NULL), DEW_OK);
    for (int h = 0; h < 24 * 5; h++) {
        struct dew_date date = date_of(h);
        struct dew_error err = {0};
        struct dew_result r;

        if (dew_march_step(m, &out, &date, &r, &err) != DEW_OK)
            fail_msg("hour %d: %s", err.hour, err.text);
        assert_true(r.water.reevaporation >= 0.0 && r.end.coil_1 >= 0.0);
        past += r.rh > 1.0 - 1e-12 && r.duty.cool > 0.0 && r.duty.cool < 1.0;
        if (r.rh > 1.001) /* nothing evaporates into saturated air */
            assert_near(r.water.reevaporation, 0.0, 1e-12);
    }
    dew_march_close(m);
    assert_true(past > 24);
}

ROWS(refusals, a_bad_case_is_refused_by_name);
RUN_TESTS("march, faults");
