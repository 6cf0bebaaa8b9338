/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Duct networks. */
#include "dew/network.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"

static const double linear_below = 0.01;  /* Pa, ours */
static const double close_enough = 1e-10; /* of the greatest flow */
static const double no_flow = 1e-12;      /* m3/s, above rounding */
enum { MOST_STEPS = 200, MOST_HALVINGS = 60 };

struct dew_ducts_network {
    struct dew_duct_node *nodes;
    struct dew_duct_branch *branches;
    size_t n_nodes, n_branches, n_free;
    size_t *row;            /* of a node among the unknown ones           */
    double *setting;        /* a branch                                   */
    double *q, *step;       /* a branch                                   */
    double *drop, *slope;   /* a branch, at q                             */
    double *p;              /* a node                                     */
    double *matrix, *right; /* of the unknown nodes                       */
    double density;
    int steps;
};

/* ---- what one branch loses ---------------------------------------------- */

/* (q / flow)^(1 / power), linear at the origin by the cubic that meets it */
static double lost(double flow, double power, double q, double *slope)
{
    double edge = flow * pow(linear_below, power), a = fabs(q);
    double half = 0.5 * (1.0 / power - 1.0), r = a / edge;

    if (a >= edge) {
        double drop = pow(a / flow, 1.0 / power);

        *slope = drop / (power * a);
        return copysign(drop, q);
    }
    *slope = linear_below / edge * (1.0 - half + 3.0 * half * r * r);
    return copysign(linear_below * r * (1.0 - half + half * r * r), q);
}

static double open_flow(const struct dew_duct_branch *b, double setting,
                        double q)
{
    if (b->kind == DEW_BRANCH_DAMPER)
        return b->flow * fmax(setting, b->leak);
    if (b->kind == DEW_BRANCH_BACKDRAFT && q < 0.0)
        return b->flow * b->leak;
    return b->flow;
}

/* pressure at from less pressure at to, and its slope by q, > 0 */
static double branch_drop(const struct dew_ducts_network *net, size_t i,
                          double q, double *slope)
{
    const struct dew_duct_branch *b = &net->branches[i];
    double s = net->setting[i], drop;

    if (b->kind == DEW_BRANCH_DUCT)
        return dew_ducts_drop(&b->duct, net->density, q, slope);
    drop = lost(open_flow(b, s, q), b->power, q, slope);
    if (b->kind == DEW_BRANCH_FAN) {
        struct dew_fan_point at = dew_ducts_fan_at(b->fan, s, net->density, q);

        drop -= at.pressure;
        *slope -= at.slope;
    }
    return drop;
}

/* ---- opening ------------------------------------------------------------ */

static enum dew_status check_branch(const struct dew_duct_branch *b,
                                    size_t n_nodes, struct dew_error *err)
{
    int damper =
        b->kind == DEW_BRANCH_DAMPER || b->kind == DEW_BRANCH_BACKDRAFT;

    if (b->from >= n_nodes || b->to >= n_nodes || b->from == b->to)
        return core__fail(err, DEW_ERANGE,
                          "branch '%s' does not join two nodes", b->name);
    if (b->kind == DEW_BRANCH_DUCT) {
        if (isnan(dew_ducts_flow(&b->duct, DEW_DUCTS_DENSITY, 1.0, NULL)))
            return core__fail(err, DEW_ERANGE,
                              "duct '%s' is outside its range, or loses "
                              "nothing",
                              b->name);
        return DEW_OK;
    }
    if (!(b->flow >= 1e-7 && b->flow <= 1e3 && b->power >= 0.5 &&
          b->power <= 1.0))
        return core__fail(err, DEW_ERANGE,
                          "branch '%s': flow %g or power %g is outside its "
                          "range",
                          b->name, b->flow, b->power);
    if (damper && !(b->leak >= 1e-4 && b->leak <= 1.0))
        return core__fail(err, DEW_ERANGE,
                          "damper '%s': a leak of %g is outside 1e-4 .. 1",
                          b->name, b->leak);
    if (b->kind == DEW_BRANCH_FAN && b->fan == NULL)
        return core__fail(err, DEW_EMISSING, "fan '%s' has no curve", b->name);
    return DEW_OK;
}

static int is_free(const struct dew_ducts_network *net, size_t node)
{
    return isnan(net->nodes[node].pressure);
}

static size_t branches_at(const struct dew_ducts_network *net, size_t node)
{
    size_t n = 0;

    for (size_t i = 0; i < net->n_branches; i++)
        n += net->branches[i].from == node || net->branches[i].to == node;
    return n;
}

static enum dew_status check_fans(const struct dew_ducts_network *net,
                                  struct dew_error *err)
{
    for (size_t i = 0; i < net->n_branches; i++) {
        const struct dew_duct_branch *b = &net->branches[i];
        size_t ends[2] = {b->from, b->to};

        for (int k = 0; k < 2 && b->kind == DEW_BRANCH_FAN; k++)
            if (is_free(net, ends[k]) && branches_at(net, ends[k]) == 1) {
                core__in_row(err, "branches", i, NULL);
                return core__fail(err, DEW_ERANGE,
                                  "fan '%s' works on nothing: no other branch "
                                  "meets node '%s'",
                                  b->name, net->nodes[ends[k]].name);
            }
    }
    return DEW_OK;
}

/* Spread from the known pressures until nothing more is reached. */
static enum dew_status check_islands(struct dew_ducts_network *net,
                                     struct dew_error *err)
{
    double *reached = net->p;
    int more = 1;

    for (size_t k = 0; k < net->n_nodes; k++)
        reached[k] = !is_free(net, k);
    while (more) {
        more = 0;
        for (size_t i = 0; i < net->n_branches; i++) {
            size_t a = net->branches[i].from, b = net->branches[i].to;

            if (reached[a] == reached[b])
                continue;
            reached[a] = reached[b] = 1.0;
            more = 1;
        }
    }
    for (size_t k = 0; k < net->n_nodes; k++)
        if (reached[k] == 0.0) {
            core__in_row(err, "nodes", k, NULL);
            return core__fail(err, DEW_ERANGE,
                              "no way leads from node '%s' to a known pressure",
                              net->nodes[k].name);
        }
    return DEW_OK;
}

static enum dew_status check(struct dew_ducts_network *net,
                             struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < net->n_branches && status == DEW_OK; i++) {
        core__in_row(err, "branches", i, NULL);
        status = check_branch(&net->branches[i], net->n_nodes, err);
    }
    if (status != DEW_OK)
        return status;
    core__in(err, "");
    status = check_islands(net, err);
    return status == DEW_OK ? check_fans(net, err) : status;
}

static size_t number_rows(struct dew_ducts_network *net)
{
    size_t n = 0;

    for (size_t k = 0; k < net->n_nodes; k++)
        net->row[k] = is_free(net, k) ? n++ : SIZE_MAX;
    return n;
}

/* one block for everything that is as long as the network */
static int take(struct dew_ducts_network *net)
{
    size_t n = net->n_nodes, m = net->n_branches;
    double *block = calloc(n * n + 2 * n + 5 * m + 1, sizeof *block);

    net->nodes = calloc(n + 1, sizeof *net->nodes);
    net->branches = calloc(m + 1, sizeof *net->branches);
    net->row = calloc(n + 1, sizeof *net->row);
    net->matrix = block;
    if (!block || !net->nodes || !net->branches || !net->row)
        return 0;
    net->right = block + n * n;
    net->p = net->right + n;
    net->setting = net->p + n;
    net->q = net->setting + m;
    net->step = net->q + m;
    net->drop = net->step + m;
    net->slope = net->drop + m;
    return 1;
}

enum dew_status dew_ducts_network_open(struct dew_ducts_network **network,
                                       const struct dew_duct_node *nodes,
                                       size_t n_nodes,
                                       const struct dew_duct_branch *branches,
                                       size_t n_branches, struct dew_error *err)
{
    struct dew_ducts_network *net = calloc(1, sizeof *net);
    enum dew_status status;

    *network = NULL;
    if (net == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a duct network");
    net->n_nodes = n_nodes;
    net->n_branches = n_branches;
    if (!take(net)) {
        dew_ducts_network_close(net);
        return core__fail(err, DEW_EMEM, "no memory for a duct network");
    }
    if (n_nodes > 0)
        memcpy(net->nodes, nodes, n_nodes * sizeof *nodes);
    if (n_branches > 0)
        memcpy(net->branches, branches, n_branches * sizeof *branches);
    status = check(net, err);
    if (status != DEW_OK) {
        dew_ducts_network_close(net);
        return status;
    }
    net->n_free = number_rows(net);
    *network = net;
    return DEW_OK;
}

void dew_ducts_network_close(struct dew_ducts_network *network)
{
    if (network == NULL)
        return;
    free(network->matrix);
    free(network->nodes);
    free(network->branches);
    free(network->row);
    free(network);
}

/* ---- solving ------------------------------------------------------------ */

static void start(struct dew_ducts_network *net, const double *setting,
                  double density)
{
    net->density = density;
    net->steps = 0;
    for (size_t i = 0; i < net->n_branches; i++) {
        net->setting[i] = setting ? setting[i] : 1.0;
        net->q[i] = 0.0;
        net->step[i] = 0.0;
    }
    for (size_t k = 0; k < net->n_nodes; k++)
        net->p[k] = is_free(net, k) ? 0.0 : net->nodes[k].pressure;
}

static enum dew_status check_state(const struct dew_ducts_network *net,
                                   struct dew_error *err)
{
    if (!(net->density >= 0.5 && net->density <= 2.0))
        return core__fail(err, DEW_ERANGE,
                          "a density of %g kg/m3 is outside 0.5 .. 2",
                          net->density);
    for (size_t i = 0; i < net->n_branches; i++) {
        const struct dew_duct_branch *b = &net->branches[i];
        double most = b->kind == DEW_BRANCH_FAN ? 2.0 : 1.0;

        if (b->kind != DEW_BRANCH_FAN && b->kind != DEW_BRANCH_DAMPER)
            continue;
        if (!(net->setting[i] >= 0.0 && net->setting[i] <= most))
            return core__fail(err, DEW_ERANGE,
                              "the setting %g of '%s' is outside 0 .. %g",
                              net->setting[i], b->name, most);
    }
    return DEW_OK;
}

static double across(const struct dew_ducts_network *net, size_t i)
{
    return net->p[net->branches[i].from] - net->p[net->branches[i].to];
}

/* One end of a branch in the balance of its node: out of it flow part and
   g times what its pressure rises by, less that of the other end. */
static void add_end(struct dew_ducts_network *net, size_t node, size_t other,
                    double g, double part)
{
    size_t r = net->row[node], n = net->n_free;

    if (!is_free(net, node))
        return;
    net->matrix[r * n + r] += g;
    net->right[r] -= part;
    if (is_free(net, other))
        net->matrix[r * n + net->row[other]] -= g;
}

/* drop and slope of every branch at the share t of the step */
static void lose(struct dew_ducts_network *net, double t)
{
    for (size_t i = 0; i < net->n_branches; i++)
        net->drop[i] =
            branch_drop(net, i, net->q[i] + t * net->step[i], &net->slope[i]);
}

/*
 * What leaves each unknown node is nothing, with every branch made linear.
 * The unknowns are the rises of pressure, not the pressures: near the end
 * they are small, and so is their rounding.
 */
static enum dew_status rises(struct dew_ducts_network *net,
                             struct dew_error *err)
{
    size_t n = net->n_free;

    memset(net->matrix, 0, n * n * sizeof *net->matrix);
    memset(net->right, 0, n * sizeof *net->right);
    for (size_t i = 0; i < net->n_branches; i++) {
        const struct dew_duct_branch *b = &net->branches[i];
        double part, g = 1.0 / net->slope[i];

        net->step[i] = (across(net, i) - net->drop[i]) * g;
        part = net->q[i] + net->step[i];
        add_end(net, b->from, b->to, g, part);
        add_end(net, b->to, b->from, g, -part);
    }
    return core__solve_spd(net->matrix, net->right, n, err);
}

static double rise(const struct dew_ducts_network *net, size_t node)
{
    return is_free(net, node) ? net->right[net->row[node]] : 0.0;
}

/* the step of every flow, and the new pressures */
static void directions(struct dew_ducts_network *net)
{
    for (size_t i = 0; i < net->n_branches; i++)
        net->step[i] += (rise(net, net->branches[i].from) -
                         rise(net, net->branches[i].to)) /
                        net->slope[i];
    for (size_t k = 0; k < net->n_nodes; k++)
        net->p[k] += rise(net, k);
}

/* Slope of the content along the step, where every branch loses what it
   does. */
static double slope_of_content(const struct dew_ducts_network *net)
{
    double sum = 0.0;

    for (size_t i = 0; i < net->n_branches; i++)
        sum += net->step[i] * (net->drop[i] - across(net, i));
    return sum;
}

/* The same at the share t of the step. */
static double content_slope(const struct dew_ducts_network *net, double t)
{
    double sum = 0.0, unused;

    for (size_t i = 0; i < net->n_branches; i++)
        sum += net->step[i] *
               (branch_drop(net, i, net->q[i] + t * net->step[i], &unused) -
                across(net, i));
    return sum;
}

/*
 * The share of the step to go, and the drops there.  Whole when its slope has
 * all but vanished at the end and the content surely fell on the way: with the
 * slope at most -0.2 of its start at half way and at most 0.1 at the end, a
 * convex function has lost 0.05.  Else the greatest share found where the
 * content still falls.
 */
static double share_of_step(struct dew_ducts_network *net)
{
    double first = fabs(slope_of_content(net)), end;
    double low = 0.0, high = 1.0;

    lose(net, 1.0);
    end = slope_of_content(net);
    if (end <= 0.0 ||
        (end <= 0.1 * first && content_slope(net, 0.5) <= -0.2 * first))
        return 1.0;
    for (int i = 0; i < MOST_HALVINGS; i++) {
        double middle = 0.5 * (low + high), s = content_slope(net, middle);

        if (s <= 0.0)
            low = middle;
        else
            high = middle;
        if (s <= 0.0 && s >= -0.3 * first)
            break;
    }
    low = low > 0.0 ? low : high;
    lose(net, low);
    return low;
}

static double greatest(const double *x, size_t n)
{
    double most = 0.0;

    for (size_t i = 0; i < n; i++)
        most = fmax(most, fabs(x[i]));
    return most;
}

/* One step; *done when the whole of it was too small to matter. */
static enum dew_status newton(struct dew_ducts_network *net, int *done,
                              struct dew_error *err)
{
    size_t m = net->n_branches;
    enum dew_status status = rises(net, err);
    double size, share;

    if (status != DEW_OK)
        return status;
    directions(net);
    size = greatest(net->step, m);
    *done = size <= close_enough * greatest(net->q, m) + no_flow;
    share = *done ? 1.0 : share_of_step(net);
    for (size_t i = 0; i < m; i++)
        net->q[i] += share * net->step[i];
    net->steps++;
    return DEW_OK;
}

enum dew_status dew_ducts_network_solve(struct dew_ducts_network *network,
                                        const double *setting, double density,
                                        struct dew_error *err)
{
    enum dew_status status;
    int done = 0;

    start(network, setting, density);
    status = check_state(network, err);
    if (status == DEW_OK)
        lose(network, 0.0);
    while (status == DEW_OK && !done) {
        if (network->steps == MOST_STEPS)
            return core__fail(err, DEW_ESOLVE,
                              "the duct network did not settle in %d steps",
                              MOST_STEPS);
        status = newton(network, &done, err);
    }
    return status;
}

double dew_ducts_network_flow(const struct dew_ducts_network *network,
                              size_t branch)
{
    return branch < network->n_branches ? network->q[branch] : NAN;
}

double dew_ducts_network_pressure(const struct dew_ducts_network *network,
                                  size_t node)
{
    return node < network->n_nodes ? network->p[node] : NAN;
}

int dew_ducts_network_steps(const struct dew_ducts_network *network)
{
    return network->steps;
}

struct dew_fan_point dew_ducts_network_fan(
    const struct dew_ducts_network *network, size_t branch)
{
    const struct dew_duct_branch *b;

    if (branch >= network->n_branches ||
        network->branches[branch].kind != DEW_BRANCH_FAN)
        return (struct dew_fan_point){NAN, NAN, NAN, 0};
    b = &network->branches[branch];
    return dew_ducts_fan_at(b->fan, network->setting[branch], network->density,
                            network->q[branch]);
}
