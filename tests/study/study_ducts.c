/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * 10,000 duct networks made at random by the recipe of support/duct_nets.h,
 * from seed 14001: shut dampers, no flow, fans against each other, up to 200
 * branches.  Every one must settle, with flow closed at every node and every
 * duct at the pressures of its ends.
 */
#include "support/duct_nets.h"

#include <stdio.h>

enum { NETWORKS = 10000, MOST_STEPS = 200 };

struct totals {
    int failed, steps[MOST_STEPS + 1], most_steps;
    double node, duct;
    size_t branches;
};

static void solve_one(const struct made *k, struct totals *t)
{
    struct dew_ducts_network *net = NULL;
    struct dew_error err = {0};
    double node, duct;
    int steps;

    if (dew_ducts_network_open(&net, k->nodes, k->n, k->branches, k->m, &err) !=
            DEW_OK ||
        dew_ducts_network_solve(net, k->setting, DEW_DUCTS_DENSITY, &err) !=
            DEW_OK) {
        printf("%zu nodes, %zu branches: %s\n", k->n, k->m, err.text);
        t->failed++;
        dew_ducts_network_close(net);
        return;
    }
    steps = dew_ducts_network_steps(net);
    node = worst_node(net, k);
    duct = worst_duct(net, k);
    t->steps[steps]++;
    t->most_steps = steps > t->most_steps ? steps : t->most_steps;
    t->node = fmax(t->node, node);
    t->duct = fmax(t->duct, duct);
    t->branches = k->m > t->branches ? k->m : t->branches;
    t->failed += !(node <= 2e-10) || !(duct <= 1e-7);
    dew_ducts_network_close(net);
}

static int median(const struct totals *t)
{
    int sum = 0, i = 0;

    while (i < MOST_STEPS && 2 * (sum += t->steps[i]) < NETWORKS)
        i++;
    return i;
}

int main(void)
{
    static struct made k;
    static struct totals t;
    struct dew_fan_row rest = {.065, 200, 37};
    struct dew_fan *fan = NULL;
    struct dew__random *r = NULL;

    if (dew_ducts_fan_shaped(&fan, &rest, NULL) != DEW_OK ||
        dew__random_open(&r, 14001, NULL) != DEW_OK)
        return 1;
    for (int i = 0; i < NETWORKS; i++) {
        make_net(&k, r, fan, 0);
        solve_one(&k, &t);
    }
    dew__random_close(r);
    dew_ducts_fan_close(fan);
    printf("duct networks: %d, up to %zu branches, %d failed; Newton steps "
           "median %d, most %d;\n"
           "  worst node %.1e of the greatest flow, worst duct %.1e of its "
           "drop\n",
           NETWORKS, t.branches, t.failed, median(&t), t.most_steps, t.node,
           t.duct);
    return t.failed > 0;
}
