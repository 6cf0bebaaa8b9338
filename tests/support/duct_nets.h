/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Duct networks made at random, by a recipe that anyone can follow:
 *
 * 1. 2 .. 60 nodes.  The first has a known pressure, each other one in nine
 *    has; known pressures are even in -40 .. 40 Pa.
 * 2. A tree reaches every node: node k hangs on one of those before it.
 *    Then branches between any two nodes, at most 200 in all.
 * 3. A branch is duct, fixed loss, damper, backdraft damper or fan with equal
 *    chance (no fan in the tree, which could then hang on nothing), and runs
 *    either way, so that fans oppose each other.
 * 4. Flow at 1 Pa 1e-5 .. 0.1 m3/s, leaks 1e-4 .. 1, diameters 50 .. 600 mm,
 *    lengths 0.1 .. 40 m, roughness 1 um .. 2 mm, losses 0.01 .. 20: even in
 *    the logarithm.  Powers even in 0.5 .. 1.
 * 5. One setting in three is 0 (a shut damper, a fan that stands), the rest
 *    even in 0 .. 1.
 *
 * All by the library's Mersenne twister from one seed.
 */
#ifndef DEW_TESTS_DUCT_NETS_H
#define DEW_TESTS_DUCT_NETS_H

#include "support/rows.h"

#include "core/num.h"
#include "dew/network.h"

enum { MOST_NODES = 60, MOST_BRANCHES = 200 };

struct made {
    struct dew_duct_node nodes[MOST_NODES];
    struct dew_duct_branch branches[MOST_BRANCHES];
    double setting[MOST_BRANCHES];
    size_t n, m;
};

static inline double spread(struct core__random *r, double low, double high)
{
    return low * pow(high / low, core__random_uniform(r));
}

static inline size_t pick(struct core__random *r, size_t n)
{
    return (size_t)(core__random_uniform(r) * (double)n);
}

static inline struct dew_duct_branch any_branch(struct core__random *r,
                                                const struct dew_fan *fan)
{
    return (struct dew_duct_branch){.name = "any",
                                    .kind = (enum dew_duct_kind)pick(r, 5),
                                    .flow = spread(r, 1e-5, 0.1),
                                    .power =
                                        0.5 + 0.5 * core__random_uniform(r),
                                    .leak = spread(r, 1e-4, 1.0),
                                    .duct = {.diameter = spread(r, .05, .6),
                                             .length = spread(r, .1, 40),
                                             .roughness = spread(r, 1e-6, 2e-3),
                                             .loss = spread(r, .01, 20)},
                                    .fan = fan};
}

/* branches: how many to make, at least a tree's; 0 = at random. */
static inline void make_net(struct made *k, struct core__random *r,
                            const struct dew_fan *fan, size_t branches)
{
    size_t goal = branches;

    k->n = 2 + pick(r, (branches > 0 ? branches / 2 : MOST_NODES) - 2);
    k->m = 0;
    if (branches == 0)
        goal = k->n - 1 + pick(r, 2 + MOST_BRANCHES - k->n);
    for (size_t i = 0; i < k->n; i++)
        k->nodes[i] = (struct dew_duct_node){
            "node", i == 0 || pick(r, 9) == 0
                        ? 80 * core__random_uniform(r) - 40
                        : NAN};
    while (k->m < goal) {
        struct dew_duct_branch b = any_branch(r, fan);
        size_t to = k->m + 1 < k->n ? k->m + 1 : 1 + pick(r, k->n - 1);
        size_t from = pick(r, to);
        int turned = pick(r, 2) == 0;

        b.to = turned ? from : to;
        b.from = turned ? to : from;
        if (k->m < k->n - 1 && b.kind == DEW_BRANCH_FAN)
            b.kind = DEW_BRANCH_DUCT;
        k->setting[k->m] = pick(r, 3) == 0 ? 0.0 : core__random_uniform(r);
        k->branches[k->m++] = b;
    }
}

/* What is left over at the worst node, of the greatest flow or 0.01 m3/s. */
static inline double worst_node(const struct dew_ducts_network *net,
                                const struct made *k)
{
    double most = 0.01, worst = 0.0, sum[MOST_NODES] = {0};

    for (size_t i = 0; i < k->m; i++) {
        double q = dew_ducts_network_flow(net, i);

        most = fmax(most, fabs(q));
        sum[k->branches[i].from] -= q;
        sum[k->branches[i].to] += q;
    }
    for (size_t i = 0; i < k->n; i++)
        if (isnan(k->nodes[i].pressure))
            worst = fmax(worst, fabs(sum[i]));
    return worst / most;
}

/* Greatest gap between a duct's drop by its own law and its ends' pressures,
   of that drop or 1 Pa: apart from the solver. */
static inline double worst_duct(const struct dew_ducts_network *net,
                                const struct made *k)
{
    double worst = 0.0;

    for (size_t i = 0; i < k->m; i++) {
        const struct dew_duct_branch *b = &k->branches[i];
        double dp = dew_ducts_network_pressure(net, b->from) -
                    dew_ducts_network_pressure(net, b->to);
        double q = dew_ducts_network_flow(net, i);

        if (b->kind == DEW_BRANCH_DUCT)
            worst =
                fmax(worst,
                     fabs(dew_ducts_drop(&b->duct, DEW_DUCTS_DENSITY, q, NULL) -
                          dp) /
                         fmax(fabs(dp), 1.0));
    }
    return worst;
}

#endif
