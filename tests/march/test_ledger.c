/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The books: each named flow, off by a millionth, is seen. */
#include "support/rows.h"

#include <string.h>

#include "march/ledger.h"
#include "support/lively.h"

/* A year of a house in which every flow there is runs; the last hours whose
   flow of each name was largest are kept, and perturbed. */
struct kept {
    struct dew_state before, after;
    struct dew_result r;
};

static struct kept kept[64];
static struct march__lane lane;

enum {
#define COUNT(name, words) +1
    WATERS = 0 DEW_WATER_MAP(COUNT),
    HEATS = 0 DEW_HEAT_MAP(COUNT)
};

/* The hours of a year in which each flow was largest, over those kept. */
static void march_and_keep(const struct dew_case *c)
{
    struct lively run;

    lively_open(&run, c);
    lane = march__lane_of(c);
    while (lively_step(&run)) {
        const double *w = (const double *)(const void *)&run.r.water;
        const double *q = (const double *)(const void *)&run.r.heat;
        struct kept now = {run.before, run.r.end, run.r};

        for (int i = 0; i < WATERS; i++) {
            const double *best = (const double *)(const void *)&kept[i].r.water;

            if (fabs(w[i]) > fabs(best[i]))
                kept[i] = now;
        }
        for (int i = 0; i < HEATS; i++) {
            const double *best =
                (const double *)(const void *)&kept[WATERS + i].r.heat;

            if (fabs(q[i]) > fabs(best[i]))
                kept[WATERS + i] = now;
        }
    }
    lively_close(&run);
}

/* With its thermostat, and once more held at a given temperature. */
static int keep_largest(void **state)
{
    struct dew_case c = lively_case();
    struct dew_surface faces[DEW_SURFACES];

    (void)state;
    memcpy(faces, c.house.surfaces, sizeof faces);
    lively_cool(&c, 0.0);
    memcpy(c.house.surfaces, faces, sizeof faces);
    c.watch.supply_full = 0.061;
    c.watch.return_low = 0.037;
    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int full = 0; full < 2; full++)
            c.watch.leaks[v][0][full] = (struct dew_duct_leaking){0.013, 0.029};
    c.plant.handlers[0].mode = DEW_BLOWER_ON;
    c.plant.handlers[0].blower_low_w = 130.0;
    c.plant.dryer = (struct dew_dryer){.rate = 3.1e-4,
                                       .factor = 6e-7,
                                       .rating_t = 22.8,
                                       .rating_rh = 0.6,
                                       .set = 0.57,
                                       .band = 0.04,
                                       .drained = 1.0};
    march_and_keep(&c);
    c.house.comfort.given = 1;
    march_and_keep(&c);
    return 0;
}

static int closes(const struct kept *k)
{
    struct march__books books = {.lane = &lane,
                                 .before = &k->before,
                                 .after = &k->after,
                                 .water = &k->r.water,
                                 .heat = &k->r.heat,
                                 .wiped = k->r.wiped,
                                 .drained = k->r.coil_drained};
    struct march__gaps gaps = march__ledger_gaps(&books);

    return march__ledger_closes(&gaps);
}

struct row {
    const char *name;
    int at;
    size_t offset;
};

static const struct row rows[] = {
#define WATER(name, words)                                                     \
    {"water: " words, (int)(offsetof(struct dew_water_flows, name) / 8),       \
     offsetof(struct kept, r.water.name)},
#define HEAT(name, words)                                                      \
    {"heat: " words,                                                           \
     WATERS + (int)(offsetof(struct dew_heat_flows, name) / 8),                \
     offsetof(struct kept, r.heat.name)},
    DEW_WATER_MAP(WATER) DEW_HEAT_MAP(HEAT)};

static void a_millionth_of_a_flow_is_seen(void **state)
{
    const struct row *row = *state;
    struct kept k = kept[row->at];
    double flow;

    memcpy(&flow, (char *)&k + row->offset, sizeof flow);
    assert_true(fabs(flow) > 0.0); /* it runs in this house */
    assert_true(closes(&k));
    flow *= 1.0 + 1e-6;
    memcpy((char *)&k + row->offset, &flow, sizeof flow);
    assert_false(closes(&k));
}

ROWS(rows, a_millionth_of_a_flow_is_seen);
RUN_TESTS_IN("march, ledger", keep_largest, NULL);
