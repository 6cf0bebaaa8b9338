/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a march refuses, in words, and the extremes that it bears. */
#include "support/rows.h"

#include <string.h>

#include "support/cases.h"
#include "support/lively.h"

static char line[400];

/* ---- refused at the door -------------------------------------------------- */

struct refusal {
    const char *text; /* whole message, and the row's name                   */
    void (*spoil)(struct dew_case *c);
};

#define SPOIL(name, statement)                                                 \
    static void name(struct dew_case *c)                                       \
    {                                                                          \
        statement;                                                             \
    }
SPOIL(no_steps, c->steps_per_hour = 0)
SPOIL(many_steps, c->steps_per_hour = 61)
SPOIL(high_up, c->pressure = 49.7e3)
SPOIL(no_volume, c->house.volume = 0.7)
SPOIL(no_pressure, c->pressure = NAN)
SPOIL(airless, c->house.thermal.c_air = 0.0)
SPOIL(massless, c->house.thermal.c_mass = -3.1)
SPOIL(no_surface, c->house.thermal.h_is = 0.0)
SPOIL(no_mass_path, c->house.thermal.h_ms = 0.0)
SPOIL(seven_facades, c->house.thermal.facade_count = 7)
SPOIL(upside_down, c->house.thermal.floor_lean = 1.01)
SPOIL(wide_band, c->house.comfort.band = 10.3)
SPOIL(negative_store, c->house.buffer.surface_kg = -0.3)
SPOIL(negative_mid, c->house.buffer.mid_kg = -0.1)
SPOIL(negative_deep, c->house.buffer.deep_kg = -0.7)
SPOIL(hermetic, c->house.leakage.c = 0.0)
SPOIL(odd_exponent, c->house.leakage.n = 1.07)
SPOIL(four_handlers, c->plant.handler_count = 4)
SPOIL(slow_starter, c->plant.handlers[1].cycling = 0.7)
SPOIL(cold_backup, c->plant.heater.backup = -1.0)
SPOIL(sharp_dryer, c->plant.dryer.rate = 1e-4; c->plant.dryer.band = 0.0)
SPOIL(sharp_humidifier, c->plant.humidifier.band = 0.0)
SPOIL(strong_dryer, c->plant.dryer.outdoor = 1.3)
SPOIL(
    busy_fans, for (int e = 0; e < DEW_LOCALS; e++) {
        c->plant.exhausts[e].flow = 0.02;
        all_day(c->plant.exhausts[e].hours, 0.4);
    })
/* a NaN in the first and in the last member of every group */
SPOIL(nowhere, c->site.latitude = NAN)
SPOIL(no_meridian, c->site.longitude = NAN)
SPOIL(no_zone, c->site.utc_offset = NAN)
SPOIL(no_limit, c->limits.too_dry = NAN)
SPOIL(odd_watch, c->watch.intake_follows = NAN)
SPOIL(odd_trunk, c->watch.supply_full = NAN)
SPOIL(odd_leak,
      c->watch.leaks[DEW_VENT_STATES - 1][DEW_DUCT_HANDLERS - 1][1].lost = NAN)
SPOIL(odd_sky, c->house.thermal.sky_glazed = NAN)
SPOIL(odd_attic, c->house.around.air = NAN)
SPOIL(odd_path,
      c->paths[DEW_VENT_STATES - 1][DEW_BLOWER_STATES - 1].condensing = NAN)
SPOIL(odd_supply, c->paths[0][0].supply = NAN)
SPOIL(no_area, c->house.floor_area = NAN)
SPOIL(no_outdoor_co2, c->house.co2_outdoors = NAN)
SPOIL(odd_wind, c->house.leakage.constant = NAN)
SPOIL(odd_mass, c->house.thermal.lost_share = NAN)
SPOIL(odd_facade, c->house.thermal.facades[DEW_FACADES - 1].absorbing = NAN)
SPOIL(odd_store, c->house.buffer.deep_rate = NAN)
SPOIL(odd_water, c->house.water[DEW_SOURCES - 1].rate = NAN)
SPOIL(odd_half_life, c->house.water[0].half_life = NAN)
SPOIL(odd_share, c->house.water[DEW_SOURCES - 1].heat_share = NAN)
SPOIL(nobody, c->house.people.count = NAN)
SPOIL(odd_gains, c->house.people.gains_convective = NAN)
SPOIL(odd_night, c->house.comfort.cool[23] = NAN)
SPOIL(odd_windows, c->house.windows.mild_high = NAN)
SPOIL(odd_corner, c->house.surfaces[DEW_CORNER].film_max = NAN)
SPOIL(odd_coil, c->plant.handlers[DEW_HANDLERS - 1].capacity = NAN)
SPOIL(odd_blower, c->plant.handlers[0].blower_low_w = NAN)
SPOIL(odd_minutes, c->plant.handlers[0].minutes = NAN)
SPOIL(odd_overcool, c->plant.handlers[DEW_HANDLERS - 1].overcool_rh = NAN)
SPOIL(odd_heater, c->plant.heater.cop_cold = NAN)
SPOIL(odd_frost, c->plant.frost.dry_dew = NAN)
SPOIL(odd_morning, c->plant.control.on_weekday[0] = NAN)
SPOIL(odd_lockout, c->plant.control.lockout_w = NAN)
SPOIL(odd_winter, c->plant.control.winter_rh[1] = NAN)
SPOIL(odd_events, c->plant.control.events[23] = NAN)
SPOIL(odd_label, c->plant.dryer.drained = NAN)
SPOIL(odd_steam, c->plant.humidifier.heat = NAN)
SPOIL(odd_exhaust, c->plant.exhausts[DEW_LOCALS - 1].caught = NAN)
SPOIL(weak_coil, lively_cool(c, 1.0); c->plant.handlers[0].capacity = 307.0)

static const struct refusal refusals[] = {
    {"steps_per_hour: 0 is outside 1 .. 60", no_steps},
    {"steps_per_hour: 61 is outside 1 .. 60", many_steps},
    {"pressure: 49700 is outside 50000 .. 110000", high_up},
    {"pressure: nan is outside 50000 .. 110000", no_pressure},
    {"house.volume: 0.7 is outside 1 .. 100000", no_volume},
    {"house.thermal.c_air: 0 is outside 1e-09 .. 1e+12", airless},
    {"house.thermal.c_mass: -3.1 is outside 1e-09 .. 1e+12", massless},
    {"house.thermal.h_is: 0 is outside 1e-09 .. 1e+12", no_surface},
    {"house.thermal.h_ms: 0 is outside 1e-09 .. 1e+12", no_mass_path},
    {"house.thermal.facade_count: 7 is outside 0 .. 6", seven_facades},
    {"house.thermal.floor_lean: 1.01 is outside 0 .. 1", upside_down},
    {"house.comfort.band: 10.3 is outside 0 .. 10", wide_band},
    {"house.buffer.surface_kg: -0.3 is outside 0 .. 1e+12", negative_store},
    {"house.buffer.mid_kg: -0.1 is outside 0 .. 1e+12", negative_mid},
    {"house.buffer.deep_kg: -0.7 is outside 0 .. 1e+12", negative_deep},
    {"house.leakage.c: 0 is outside 1e-09 .. 100", hermetic},
    {"house.leakage.n: 1.07 is outside 0.5 .. 1", odd_exponent},
    {"plant.handler_count: 4 is outside 0 .. 3", four_handlers},
    {"plant.handlers[1].cycling: 0.7 is outside 0 .. 0.5", slow_starter},
    {"plant.heater.backup: -1 is outside 0 .. 1e+12", cold_backup},
    {"plant.dryer.band: 0 is outside 0.001 .. 1", sharp_dryer},
    {"plant.humidifier.band: 0 is outside 0.001 .. 1", sharp_humidifier},
    {"plant.dryer.outdoor: 1.3 is outside 0 .. 1", strong_dryer},
    {"plant.exhausts.hours: 1.2 is outside 0 .. 1", busy_fans},
    {"site.latitude: a value in it is no number", nowhere},
    {"site.longitude: a value in it is no number", no_meridian},
    {"site.utc_offset: a value in it is no number", no_zone},
    {"limits: a value in it is no number", no_limit},
    {"watch: a value in it is no number", odd_watch},
    {"watch: a value in it is no number", odd_trunk},
    {"watch: a value in it is no number", odd_leak},
    {"house.thermal: a value in it is no number", odd_sky},
    {"house.around: a value in it is no number", odd_attic},
    {"paths: a value in it is no number", odd_path},
    {"paths: a value in it is no number", odd_supply},
    {"house.floor_area: a value in it is no number", no_area},
    {"house.co2_outdoors: a value in it is no number", no_outdoor_co2},
    {"house.leakage: a value in it is no number", odd_wind},
    {"house.thermal: a value in it is no number", odd_mass},
    {"house.thermal.facades: a value in it is no number", odd_facade},
    {"house.buffer: a value in it is no number", odd_store},
    {"house.water: a value in it is no number", odd_water},
    {"house.water: a value in it is no number", odd_half_life},
    {"house.water: a value in it is no number", odd_share},
    {"house.people: a value in it is no number", nobody},
    {"house.people: a value in it is no number", odd_gains},
    {"house.comfort: a value in it is no number", odd_night},
    {"house.windows: a value in it is no number", odd_windows},
    {"house.surfaces: a value in it is no number", odd_corner},
    {"plant.handlers: a value in it is no number", odd_coil},
    {"plant.handlers: a value in it is no number", odd_blower},
    {"plant.handlers: a value in it is no number", odd_minutes},
    {"plant.handlers: a value in it is no number", odd_overcool},
    {"plant.heater: a value in it is no number", odd_heater},
    {"plant.frost: a value in it is no number", odd_frost},
    {"plant.control: a value in it is no number", odd_morning},
    {"plant.control: a value in it is no number", odd_lockout},
    {"plant.control: a value in it is no number", odd_winter},
    {"plant.control: a value in it is no number", odd_events},
    {"plant.dryer: a value in it is no number", odd_label},
    {"plant.humidifier: a value in it is no number", odd_steam},
    {"plant.exhausts: a value in it is no number", odd_exhaust},
    {"capacity: 307 is outside 500 .. 200000", weak_coil},
};

static void a_bad_case_is_refused_by_name(void **state)
{
    const struct refusal *row = *state;
    struct dew_case c = lively_case();
    struct dew_hour before = lively_weather(0);
    struct dew_march *m = (struct dew_march *)&c; /* must become NULL */
    struct dew_error err = {0};

    row->spoil(&c);
    assert_int_equal(dew_march_open(&m, &c, &before, &err), DEW_ERANGE);
    assert_null(m);
    assert_string_equal(dew_error_line(&err, line, sizeof line), row->text);
    assert_int_equal(dew_march_open(&m, &c, &before, NULL), DEW_ERANGE);
}

/* ---- stopped on the way --------------------------------------------------- */

/* A hole in the weather: the hour is named, the result untouched. */
static void weather_that_is_no_number_stops_the_march(void **state)
{
    struct dew_case c = bare_case(173.0, 20.7);
    struct dew_hour out = lively_weather(0);
    struct dew_result r = {.rh = 0.417};
    struct dew_error err = {0};
    struct dew_date date = date_of(5);
    struct dew_march *m;

    (void)state;
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

/* Each lane of the hour before the first: its name, and nothing is made. */
static void every_lane_of_the_weather_is_looked_at(void **state)
{
    static const char *const names[] = {"t",      "w",      "p",       "wind",
                                        "global", "direct", "diffuse", "sky"};
    struct dew_case c = bare_case(173.0, 20.7);

    (void)state;
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

static void a_spin_hands_on_what_stopped_it(void **state)
{
    struct dew_case c = lively_case();
    struct dew_hour hours[48];
    struct dew_date dates[48];
    struct dew_error err = {0};
    struct dew_march *m;
    int turns = -7;

    (void)state;
    for (int h = 0; h < 48; h++) {
        hours[h] = lively_weather(h + 1);
        dates[h] = date_of(h);
    }
    hours[17].w = INFINITY;
    assert_int_equal(dew_march_open(&m, &c, &hours[0], NULL), DEW_OK);
    assert_int_equal(dew_march_spin(m, hours, dates, 48, &turns, &err),
                     DEW_EBALANCE);
    assert_int_equal(err.hour, 18);
    assert_int_equal(turns, -7);
    dew_march_close(m);
    dew_march_close(NULL);
}

/* 9 kW in a box whose walls let through 97 W/K: it ends at 90 K above them. */
static void a_house_that_boils_is_told_so(void **state)
{
    struct dew_case c = bare_case(430.0, 21.0);
    struct dew_hour out = {.t = 21.0, .w = 0.0077, .p = 101325.0};
    enum dew_status status = DEW_OK;
    struct dew_error err = {0};
    struct dew_march *m;
    struct dew_result r;

    (void)state;
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
static void a_house_past_saturation_is_cooled_on(void **state)
{
    struct dew_case c = bare_case(240.0, 24.0);
    struct dew_hour out = {.t = 31.0, .w = 0.0163, .p = 101325.0, .wind = 2.3};
    struct dew_march *m;
    int past = 0;

    (void)state;
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
        assert_true(r.water.putback >= 0.0 && r.end.coil_1 >= 0.0);
        past += r.rh > 1.0 - 1e-12 && r.duty.cool > 0.0 && r.duty.cool < 1.0;
        if (r.rh > 1.001) /* nothing evaporates into saturated air */
            assert_near(r.water.putback, 0.0, 1e-12);
    }
    dew_march_close(m);
    assert_true(past > 24);
}

int main(void)
{
    struct CMUnitTest tests[5 + COUNT_OF(refusals)] = {
        cmocka_unit_test(weather_that_is_no_number_stops_the_march),
        cmocka_unit_test(a_spin_hands_on_what_stopped_it),
        cmocka_unit_test(a_house_that_boils_is_told_so),
        cmocka_unit_test(every_lane_of_the_weather_is_looked_at),
        cmocka_unit_test(a_house_past_saturation_is_cooled_on),
    };
    size_t n = 5;

    ADD_ROWS(tests, n, refusals, a_bad_case_is_refused_by_name);
    return _cmocka_run_group_tests("march, faults", tests, n, NULL, NULL);
}
