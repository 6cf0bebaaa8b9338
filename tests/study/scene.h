/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A made-up comparison of options for the tests of verdict, cautions and
 * report: tallies written by hand, no march.
 */
#ifndef DEW_TESTS_SCENE_H
#define DEW_TESTS_SCENE_H

#include <math.h>
#include <string.h>

#include "dew/verdict.h"

enum { SCENE_MOST = 6, SCENE_HOURS = 8760, SCENE_DRAWS = 20 };

struct scene {
    struct dew_outcome outcomes[SCENE_MOST];
    struct dew_case cases[SCENE_MOST];
    struct dew_option_facts facts[SCENE_MOST];
    struct dew_costs costs[SCENE_MOST];
    struct dew_choice choices[SCENE_MOST];
    struct dew_safety safety;
    struct dew_prices prices;
    struct dew_question question;
    double series[SCENE_HOURS];
    struct dew_drawn told[SCENE_MOST], each[SCENE_DRAWS * SCENE_MOST];
    double room[SCENE_DRAWS];
    struct dew_draws draws;
};

#define KWH 3.6e6
#define SAME(x)                                                                \
    {                                                                          \
        (x), (x), (x)                                                          \
    }

static const double scene_days[12] = {31, 28, 31, 30, 31, 30,
                                      31, 31, 30, 31, 30, 31};

/* A year in which nothing is wrong: 40 l/s delivered, 35 asked for. */
static inline void scene_option(struct scene *s, size_t i, const char *name)
{
    struct dew_outcome *o = &s->outcomes[i];

    o->name = name;
    o->required = 0.035;
    o->year.hours = 8760;
    o->year.fresh_sum = 0.040 * 8760;
    for (int m = 0; m < 12; m++)
        o->month[m].hours = 24 * scene_days[m];
    s->choices[i] = (struct dew_choice){
        o, &s->cases[i], &s->facts[i], &s->costs[i], NULL, NULL, NULL};
}

static inline void scene_open(struct scene *s, size_t count)
{
    static const char *const names[SCENE_MOST] = {
        "as it stands",      "heat core",          "enthalpy core",
        "with dehumidifier", "dehumidifier alone", "supply fan"};

    memset(s, 0, sizeof *s);
    for (size_t i = 0; i < count; i++)
        scene_option(s, i, names[i]);
    s->prices = (struct dew_prices){.electricity = SAME(0.15 / KWH),
                                    .gas = SAME(NAN),
                                    .oil = SAME(NAN),
                                    .propane = SAME(NAN),
                                    .wood = SAME(NAN),
                                    .wage = SAME(0),
                                    .interest = 0.03,
                                    .years = 15,
                                    .date = "2024-05",
                                    .currency = "$"};
    s->safety.house_age = 10 * 365.25 * 86400;
    s->question = (struct dew_question){.choices = s->choices,
                                        .count = count,
                                        .safety = &s->safety,
                                        .prices = &s->prices,
                                        .judging = dew_verdict_judging()};
}

/* Add hours too humid to month m (from 0) and to the year. */
static inline void scene_humid(struct scene *s, size_t i, int m, double hours)
{
    s->outcomes[i].month[m].too_humid += hours;
    s->outcomes[i].year.too_humid += hours;
}

static inline void scene_dry(struct scene *s, size_t i, int m, double hours)
{
    s->outcomes[i].month[m].too_dry += hours;
    s->outcomes[i].year.too_dry += hours;
}

/* Twenty houses drawn, each as the one told; none of an option is the best. */
static inline void scene_draw(struct scene *s)
{
    size_t options = s->question.count;

    for (size_t i = 0; i < options; i++) {
        const struct dew_tally *y = &s->outcomes[i].year;

        s->told[i] = (struct dew_drawn){.too_humid = y->too_humid,
                                        .too_dry = y->too_dry,
                                        .glass_wet = y->sweat[DEW_GLASS],
                                        .short_heat = y->short_heat};
        for (size_t d = 0; d < SCENE_DRAWS; d++)
            s->each[d * options + i] = s->told[i];
    }
    s->draws = (struct dew_draws){.count = SCENE_DRAWS,
                                  .options = options,
                                  .told = s->told,
                                  .each = s->each,
                                  .room = s->room,
                                  .seed = 1,
                                  .doubted = 7,
                                  .years = 16,
                                  .model = 0.10};
    s->question.draws = &s->draws;
}

/* The first count draws from draw from, of an option. */
#define SCENE_DRAWN(s, option, first, some, member, value)                     \
    for (size_t d_ = (first); d_ < (size_t)(first) + (some); d_++)             \
    (s)->each[d_ * (s)->question.count + (option)].member = (value)

/* The finding of a kind about an option (or any, below -1); NULL if none. */
static inline const struct dew_finding *scene_find(const struct dew_verdict *v,
                                                   enum dew_finding_kind kind,
                                                   int option)
{
    for (size_t i = 0; i < v->count; i++)
        if (v->list[i].kind == kind &&
            (option < -1 || v->list[i].option == option))
            return &v->list[i];
    return NULL;
}

#endif
