/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Duct networks: the flow in every branch and the pressure at every node.
 *
 * Method     Flows by Newton's method on the balance of nodes and branches
 *            together (the global gradient form), from no flow.  Every branch
 *            loses more as more flows, so the flows are the one minimum of a
 *            convex function, the content; each step is shortened until the
 *            content is known to fall, by its slope along the step.
 * Accuracy   the last step is below 1e-10 of the greatest flow, or 1e-12 m3/s,
 *            and as near every node's flows close.
 * Memory     only dew_ducts_network_open allocates.
 * Limits     One density; no buoyancy in risers.  Every closed damper leaks.
 */
#ifndef DEW_NETWORK_H
#define DEW_NETWORK_H

#include <stddef.h>

#include "dew/fan.h"
#include "dew/friction.h"
#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Outdoors and rooms have a known pressure; junctions and plenums do not. */
struct dew_duct_node {
    const char *name; /* borrowed until close                              */
    double pressure;  /* Pa  known; NaN = to be found                      */
};

/*
 * What a branch loses.  All but a duct lose (|q| / flow)^(1 / power) Pa,
 * against the flow; below 0.01 Pa this turns linear, ours.
 */
enum dew_duct_kind {
    DEW_BRANCH_DUCT,      /* duct, density as given                          */
    DEW_BRANCH_FIXED,     /* grille, filter, coil, core, leak                */
    DEW_BRANCH_DAMPER,    /* flow times its setting, never below leak        */
    DEW_BRANCH_BACKDRAFT, /* flow forwards, leak times flow backwards       */
    DEW_BRANCH_FAN,       /* fan at its setting as speed, and its casing     */
};

struct dew_duct_branch {
    const char *name; /* borrowed until close                      */
    size_t from, to;  /* nodes; flow is positive from -> to        */
    enum dew_duct_kind kind;
    double flow;               /* m3/s at 1 Pa   1e-7 .. 1e3                */
    double power;              /* -              0.5 .. 1                   */
    double leak;               /* -  1e-4 .. 1   dampers, part of flow      */
    struct dew_duct duct;      /* DEW_BRANCH_DUCT                           */
    const struct dew_fan *fan; /* DEW_BRANCH_FAN; borrowed until close      */
};

struct dew_ducts_network;

/*
 * Copies nodes and branches.
 *
 * Owner      on DEW_OK *network is the caller's, for _close; else NULL.
 * Errors     DEW_ERANGE for a value, a node from which no way leads to a
 *            known pressure, or a fan on nothing: one whose end is a node to
 *            be found that no other branch meets; each by name.  DEW_EMEM.
 */
enum dew_status dew_ducts_network_open(struct dew_ducts_network **network,
                                       const struct dew_duct_node *nodes,
                                       size_t n_nodes,
                                       const struct dew_duct_branch *branches,
                                       size_t n_branches,
                                       struct dew_error *err);

/*
 * Solve for one state.
 *
 *     setting  -  0 .. 1 of dampers, 0 .. 2 speed of fans; one a branch, the
 *                 others' unread; NULL = all 1
 *     density  kg/m3  0.5 .. 2
 *
 * Errors     DEW_ERANGE; DEW_ESOLVE when 200 steps are not enough.  What the
 *            functions below give stands only after DEW_OK.
 */
enum dew_status dew_ducts_network_solve(struct dew_ducts_network *network,
                                        const double *setting, double density,
                                        struct dew_error *err);

/* Of the last state solved. */
double dew_ducts_network_flow(const struct dew_ducts_network *network,
                              size_t branch); /* m3/s */
double dew_ducts_network_pressure(const struct dew_ducts_network *network,
                                  size_t node); /* Pa */
int dew_ducts_network_steps(const struct dew_ducts_network *network);

/* The fan of a branch where it works; NaN if the branch has none. */
struct dew_fan_point dew_ducts_network_fan(
    const struct dew_ducts_network *network, size_t branch);

void dew_ducts_network_close(struct dew_ducts_network *network);

#ifdef __cplusplus
}
#endif
#endif
