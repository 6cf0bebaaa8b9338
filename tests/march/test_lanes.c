/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sixteen lanes of the step against single steps, bit for bit. */
#include "support/rows.h"

#include <string.h>

#include "support/lanes.h"
#include "support/lively.h"

enum { HOURS = 300 };

/* Sixteen different houses. */
static struct dew_case house(int i)
{
    struct dew_case c = lively_case();

    c.house.volume *= 1.0 + 0.037 * i;
    c.house.leakage.stack_k *= 1.0 + 0.11 * i;
    c.house.leakage.stack_n = 0.6 + 0.01 * i;
    c.house.buffer.surface_kg *= 1.0 + 0.05 * i;
    c.house.people.count = 1.0 + 0.3 * i;
    c.plant.heater.capacity = 3000.0 + 400.0 * i;
    return c;
}

static struct dew_state start_of(void)
{
    return (struct dew_state){.t_air = 20.1,
                              .t_mass = 19.7,
                              .w = 0.0071,
                              .w_surface = 17.0,
                              .w_mid = 29.0,
                              .w_deep = 61.0,
                              .co2 = 611.0,
                              .film_glass = 0.03};
}

TEST(sixteen_lanes_are_sixteen_houses)
{
    static struct bundle b;
    struct march__now now[LANES];
    struct march__terms k[LANES];
    struct dew_state x[LANES];
    struct dew_path path = {.supply = 0.041,
                            .exhaust = 0.043,
                            .fresh = 0.039,
                            .sensible = 0.7,
                            .latent = 0.4,
                            .fan_heat = 30.0};
    struct march__clock clock = {.mild = 9.0};

    for (int i = 0; i < LANES; i++) {
        struct dew_case c = house(i);
        struct dew_hour out = lively_weather(0);
        struct dew_date date = date_of(0);
        struct march__duty none = {0};

        now[i] = (struct march__now){.mid = out};
        now[i].lane = march__lane_of(&c);
        now[i].drive = march__drive_of(&c, NULL, &clock, &out, &date, NULL);
        x[i] = start_of();
        k[i] = march__settle(&now[i], &x[i], &none, 0.0, 1.0 / 1800.0);
        put_lanes(&b.lane, i, &now[i].lane);
        put_drives(&b.drive, i, &now[i].drive);
        put_blends(&b.blend, i, &now[i].blend);
        put_states(&b.x, i, &x[i]);
        put_terms(&b.k, i, &k[i]);
    }
    for (int h = 0; h < HOURS; h++) {
        struct dew_hour mid = lively_weather(h);

        bundle_step(&b, &mid, &path, 1800.0);
        for (int i = 0; i < LANES; i++) {
            struct dew_state lane;

            get_states(&b.x, i, &lane);
            now[i].mid = mid;
            x[i] = lane_step(&now[i], &k[i], &x[i], &path, 1800.0);
            assert_memory_equal(&x[i], &lane, sizeof lane);
        }
    }
    assert_true(isfinite(x[7].t_air) && x[7].w > 0.0);
}

RUN_TESTS("march, lanes");
