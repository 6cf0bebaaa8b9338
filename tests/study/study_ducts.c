/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * 10,000 duct networks made at random by the recipe of support/duct_nets.h,
 * from seed 14001: shut dampers, no flow, fans against each other, up to 200
 * branches.  Every one must settle, with flow closed at every node and every
 * duct at the pressures of its ends.
 *
 * Then 1,000 layouts with their numbers at random, every state of each: all
 * must settle, with the house's air in balance and fresh air accounted for.
 */
#include "support/duct_nets.h"

#include <stdio.h>

#include "dew/ducts.h"

enum { LAYOUTS = 1000 };
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

static double even(struct core__random *r, double low, double high)
{
    return low + (high - low) * core__random_uniform(r);
}

static void any_layout(struct core__random *r, struct dew_duct_layout *l)
{
    dew_ducts_layout_blank(l);
    l->kind = (enum dew_layout)pick(r, DEW_LAYOUTS);
    l->handler_count = (int)pick(r, 4);
    if (l->handler_count == 0)
        l->kind = DEW_LAYOUT_own_ducts;
    l->vent_count = pick(r, 2) || l->handler_count < 2 ? 1 : l->handler_count;
    l->length = (enum dew_duct_class)pick(r, 3);
    l->damper = (enum dew_duct_fit)pick(r, 3);
    l->backdraft = (enum dew_duct_fit)pick(r, 3);
    l->gap = pick(r, 5) == 0;
    l->also_own = pick(r, 4) == 0;
    for (int k = 0; k < l->handler_count; k++) {
        struct dew_duct_handler *h = &l->handlers[k];

        h->flow = spread(r, .15, 1.1);
        h->low = even(r, .2, .9);
        h->external = spread(r, 60, 300);
        h->inside = spread(r, 20, 200);
        h->free = even(r, 1.05, 2);
        h->leak_return = even(r, 0, .15);
        h->leak_supply = even(r, 0, .15);
        h->between = spread(r, .05, 10);
        l->reference += (int)pick(r, 3) * (k == 0 ? 1 : k == 1 ? 3 : 9);
    }
    for (int j = 0; j < l->vent_count; j++) {
        struct dew_duct_vent *v = &l->vents[j];

        v->set[DEW_VENT_ON] = spread(r, .012, .12) / l->vent_count;
        v->set[DEW_VENT_BOOST] = v->set[DEW_VENT_ON] * even(r, 1, 2);
        v->set_stale[DEW_VENT_ON] = v->set[DEW_VENT_ON] * even(r, .8, 1.2);
        v->pressure = spread(r, 40, 300);
        v->core = spread(r, 20, 150);
        v->eatr = even(r, 0, .1);
    }
}

/* 1 when a state's books close. */
static int closes(const struct dew_ducts *d, const struct dew_duct_layout *l,
                  const struct dew_duct_state *s)
{
    struct dew_duct_written w = dew_ducts_as_written(d);
    double house = 0.0, net = 0.0, rest;

    for (size_t i = 0; i < w.run_count; i++) {
        const struct dew_duct_branch *b = &w.runs[i].branch;
        double q = dew_ducts_run_flow(d, i);

        house -= w.points[b->from].place == DEW_PLACE_HOUSE ? q : 0.0;
        house += w.points[b->to].place == DEW_PLACE_HOUSE ? q : 0.0;
    }
    rest = house - (s->fresh_gross + s->unplanned + s->leak_in -
                    s->stale_drawn - s->spill - s->leak_out);
    for (int j = 0; j < l->vent_count; j++)
        net += s->units[j].supply * (1.0 - l->vents[j].eatr);
    if (net > 0.0)
        rest = fmax(fabs(rest),
                    fabs(s->fresh_delivered -
                         net * (1.0 - s->short_circuit_share - s->lost_share)));
    return fabs(rest) < 1e-9;
}

/* States that failed; *states counts them all. */
static int solve_layout(const struct dew_duct_layout *l, long *states)
{
    struct dew_error err = {0};
    struct dew_ducts *d;
    int failed = 0, blowers = 1;

    if (dew_ducts_open(&d, l, &err) != DEW_OK) {
        printf("layout %d: %s %s\n", (int)l->kind, err.path, err.text);
        return 1;
    }
    for (int k = 0; k < l->handler_count; k++)
        blowers *= 3;
    for (int v = 0; v < DEW_DUCT_VENT_STATES; v++)
        for (int b = 0; b < blowers; b++) {
            struct dew_duct_state s;

            ++*states;
            if (dew_ducts_state(d, (enum dew_vent_state)v, b, &s, &err) !=
                DEW_OK) {
                printf("layout %d, state %d %d: %s\n", (int)l->kind, v, b,
                       err.text);
                failed++;
            } else {
                failed += !closes(d, l, &s);
            }
        }
    dew_ducts_close(d);
    return failed;
}

static int layouts(struct core__random *r)
{
    long states = 0;
    int failed = 0;

    for (int i = 0; i < LAYOUTS; i++) {
        struct dew_duct_layout l;
        struct dew_error err = {0};

        any_layout(r, &l);
        if (dew_ducts_layout_fill(&l, &err) != DEW_OK) {
            printf("layout %d: %s %s\n", (int)l.kind, err.path, err.text);
            failed++;
            continue;
        }
        failed += solve_layout(&l, &states);
    }
    printf("duct layouts: %d, %ld states, %d failed\n", LAYOUTS, states,
           failed);
    return failed;
}

int main(void)
{
    static struct made k;
    static struct totals t;
    struct dew_fan_row rest = {.065, 200, 37};
    struct dew_fan *fan = NULL;
    struct core__random *r = NULL;

    if (dew_ducts_fan_shaped(&fan, &rest, NULL) != DEW_OK ||
        core__random_open(&r, 14001, NULL) != DEW_OK)
        return 1;
    for (int i = 0; i < NETWORKS; i++) {
        make_net(&k, r, fan, 0);
        solve_one(&k, &t);
    }
    t.failed += layouts(r);
    core__random_close(r);
    dew_ducts_fan_close(fan);
    printf("duct networks: %d, up to %zu branches, %d failed; Newton steps "
           "median %d, most %d;\n"
           "  worst node %.1e of the greatest flow, worst duct %.1e of its "
           "drop\n",
           NETWORKS, t.branches, t.failed, median(&t), t.most_steps, t.node,
           t.duct);
    return t.failed > 0;
}
