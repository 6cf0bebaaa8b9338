/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A house in which as much as possible happens, through a made-up year of
 * smooth waves.  Invented; for tests of books, lanes and memory.
 */
#ifndef DEW_TESTS_LIVELY_H
#define DEW_TESTS_LIVELY_H

#include "march/drive.h"
#include "support/cases.h"

static inline struct dew_hour lively_weather(int h)
{
    double pi = 3.14159265358979323846;
    double year = sin(2.0 * pi * (h / 24.0 - 105.0) / 365.0);
    double day = sin(2.0 * pi * (h % 24 - 9.3) / 24.0);
    double spell = sin(2.0 * pi * h / 127.0);
    double t = 8.3 + 17.1 * year + 5.2 * day + 4.4 * spell;
    double sun = day > 0.0 ? 620.0 * day * (0.7 + 0.3 * year) : 0.0;
    double rh = 0.72 - 0.15 * day + 0.08 * spell;

    return (struct dew_hour){.t = t,
                             .w = dew_air_w(t, rh, 98700.0),
                             .p = 98700.0,
                             .wind = 3.7 + 2.1 * spell - 1.1 * day,
                             .global = sun,
                             .direct = 0.6 * sun,
                             .diffuse = 0.5 * sun,
                             .sky = 9.1 + 4.7 * spell};
}

static inline void lively_water(struct dew_case *c)
{
    for (int s = 0; s < DEW_SOURCES; s++) {
        c->house.water[s].per_day = 0.31 + 0.17 * s;
        c->house.water[s].heat_share = 0.5;
    }
    c->house.water[DEW_SOURCE_plants].rate = 3.1e-9;
    c->house.water[DEW_SOURCE_laundry].rate = 1.7e-9;
    c->house.water[DEW_SOURCE_ground].rate = 5.3e-9;
    c->house.water[DEW_SOURCE_drying].half_life = 61.0;
    c->house.water[DEW_SOURCE_drying].start_day = 3.0;
    c->house.buffer = (struct dew_buffer){.surface_kg = 37.0,
                                          .mid_kg = 61.0,
                                          .deep_kg = 143.0,
                                          .surface_rate = 2.3e-6,
                                          .mid_rate = 9.7e-7,
                                          .deep_rate = 4.1e-7};
    c->house.surfaces[DEW_GLASS] = (struct dew_surface){0.62, 19.0, 1.1};
    c->house.surfaces[DEW_EDGE] = (struct dew_surface){0.53, 2.0, 0.1};
    c->house.surfaces[DEW_CORNER] = (struct dew_surface){0.74, 0.0, 0.0};
    c->plant.humidifier = (struct dew_humidifier){1.1e-4, 0.36, 0.04, 1.0};
}

static inline struct dew_case lively_case(void)
{
    struct dew_case c = bare_case(412.0, 21.0);
    struct dew_path path = {.supply = 0.043,
                            .exhaust = 0.039,
                            .fresh = 0.041,
                            .sensible = 0.71,
                            .latent = 0.43,
                            .unplanned = 0.0007,
                            .leak_in = 0.0011,
                            .leak_out = 0.0017,
                            .fan_w = 61.0,
                            .fan_heat = 33.0};

    lively_water(&c);
    set_path(&c, DEW_VENT_ON, &path);
    c.house.comfort.given = 0;
    all_day(c.house.comfort.heat, 20.3);
    all_day(c.house.comfort.cool, 25.1);
    c.house.leakage = (struct dew_leakage){.c = 0.021,
                                           .n = 0.65,
                                           .stack_k = 0.0017,
                                           .stack_n = 0.65,
                                           .wind_k = 0.0009,
                                           .wind_n = 1.3};
    c.house.thermal.h_em = 87.0;
    c.house.thermal.h_w = 41.0;
    c.house.thermal.h_ground = 23.0;
    c.house.thermal.ground_mean = 9.7;
    c.house.thermal.ground_swing = 3.1;
    c.house.thermal.ground_lag = 71.0;
    c.house.thermal.floor_lean = 0.19;
    c.house.thermal.mass_share = 0.55;
    c.house.thermal.lost_share = 0.007;
    c.house.thermal.sky_opaque = 6.9;
    c.house.thermal.sky_glazed = 4.3;
    c.house.thermal.sky_given = NAN;
    c.house.thermal.facade_count = 1;
    c.house.thermal.facades[0] =
        (struct dew_facade){180.0, 90.0, 9.1, 0.8, 1.3};
    c.site.latitude = 43.1;
    c.site.longitude = -88.7;
    c.site.utc_offset = -6.0;
    c.house.people = (struct dew_people){.count = 4.0,
                                         .sensible_w = 71.0,
                                         .co2 = 4.7e-6,
                                         .gains_w = 430.0,
                                         .gains_convective = 0.5};
    all_day(c.house.people.present_weekday, 0.7);
    all_day(c.house.people.present_weekend, 0.9);
    all_day(c.house.people.gains_shape.weekday, 1.0 / 24.0);
    all_day(c.house.people.gains_shape.weekend, 1.0 / 24.0);
    c.house.windows = (struct dew_windows){0.07, 14.0, 18.0, 0};
    c.plant.heater =
        (struct dew_heater){.capacity = 9300.0, .efficiency = 0.92};
    c.pressure = 98700.0;
    return c;
}

/* The same cooled, with a throttling band, and no film that runs dry. */
static inline void lively_cool(struct dew_case *c, double band)
{
    c->house.comfort.band = band;
    for (int s = 0; s < DEW_SURFACES; s++)
        c->house.surfaces[s].area = 0.0;
    c->plant.handler_count = 1;
    c->plant.handlers[0] = (struct dew_handler){.capacity = 7500.0,
                                                .shr = 0.74,
                                                .air = 0.39,
                                                .cop = 3.9,
                                                .blower_w = 310.0,
                                                .cycles_max = 3.0,
                                                .hold_s = 1000.0,
                                                .gamma = 1.5};
}

/* The year, hour by hour. */
struct lively {
    struct dew_march *march;
    struct dew_state before;
    struct dew_result r;
    int hour;
};

static inline void lively_open(struct lively *run, const struct dew_case *c)
{
    struct dew_hour first = lively_weather(0);

    run->hour = 0;
    run->r = (struct dew_result){0};
    assert_int_equal(dew_march_open(&run->march, c, &first, NULL), DEW_OK);
}

static inline int lively_step(struct lively *run)
{
    struct dew_hour out = lively_weather(run->hour + 1);
    struct dew_date date = date_of(run->hour);
    struct dew_error err = {0};

    if (run->hour == 8760)
        return 0;
    run->before = run->r.end;
    if (dew_march_step(run->march, &out, &date, &run->r, &err) != DEW_OK) {
        print_error("hour %d: %s\n", err.hour, err.text);
        fail();
    }
    /* the first hour's state before is not told by a result */
    if (run->hour++ == 0)
        return lively_step(run);
    return 1;
}

static inline int lively_close(struct lively *run)
{
    dew_march_close(run->march);
    return 0;
}

#endif
