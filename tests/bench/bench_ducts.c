/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Solving duct networks of 50 branches, made at random by the recipe of
 * support/duct_nets.h: at most 1 ms each.  And every state of a layout.
 */
#include "support/duct_nets.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "dew/ducts.h"

enum { BRANCHES = 50, NETS = 64, ROUNDS = 9 };

static double now(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;

    return (x > y) - (x < y);
}

/* Median over rounds of the mean time of a solution, s. */
static double networks(void)
{
    static struct made made[NETS];
    struct dew_ducts_network *net[NETS];
    struct dew_fan_row rest = {.065, 200, 37};
    struct dew_fan *fan = NULL;
    struct core__random *r = NULL;
    double took[ROUNDS];

    if (dew_ducts_fan_shaped(&fan, &rest, NULL) != DEW_OK ||
        core__random_open(&r, 50, NULL) != DEW_OK)
        exit(EXIT_FAILURE);
    for (int i = 0; i < NETS; i++) {
        make_net(&made[i], r, fan, BRANCHES);
        if (dew_ducts_network_open(&net[i], made[i].nodes, made[i].n,
                                   made[i].branches, made[i].m, NULL) != DEW_OK)
            exit(EXIT_FAILURE);
    }
    for (int k = 0; k < ROUNDS; k++) {
        double start = now();

        for (int i = 0; i < NETS; i++)
            if (dew_ducts_network_solve(net[i], made[i].setting,
                                        DEW_DUCTS_DENSITY, NULL) != DEW_OK)
                exit(EXIT_FAILURE);
        took[k] = (now() - start) / NETS;
    }
    for (int i = 0; i < NETS; i++)
        dew_ducts_network_close(net[i]);
    core__random_close(r);
    dew_ducts_fan_close(fan);
    qsort(took, ROUNDS, sizeof *took, ascending);
    return took[ROUNDS / 2];
}

/* All 27 states of two handlers sharing a ventilator, opened and solved, s. */
static double layout(void)
{
    static struct dew_duct_state states[DEW_DUCT_VENT_STATES]
                                       [DEW_BLOWER_STATES];
    struct dew_duct_layout l;
    double start;
    int blowers;

    dew_ducts_layout_blank(&l);
    l.kind = DEW_LAYOUT_mix;
    l.handler_count = 2;
    l.handlers[0].flow = .31;
    l.handlers[1].flow = .27;
    l.vents[0].set[DEW_VENT_ON] = .0473;
    if (dew_ducts_layout_fill(&l, NULL) != DEW_OK)
        exit(EXIT_FAILURE);
    start = now();
    if (dew_ducts_states(&l, states, &blowers, NULL) != DEW_OK)
        exit(EXIT_FAILURE);
    return now() - start;
}

int main(void)
{
    const double most = 1e-3;
    double one = networks();

    printf("ducts: a network of %d branches %.3f ms (at most %.0f), all 27 "
           "states of a layout %.1f ms\n",
           BRANCHES, 1e3 * one, 1e3 * most, 1e3 * layout());
    return one > most;
}
