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

#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- friction: pressure from flow, and flow from pressure ---------------- */

/*
 *     q        volume flow                     m3/s
 *     drop     loss of total pressure along q  Pa       odd in q
 *     density  of the air                      kg/m3    0.5 .. 2
 *
 * The viscosity of air is that of equation 21 of [ASH-F21], the same at every
 * temperature and pressure.  An argument outside its range gives NaN.
 */

/*
 * Pa s.  Re = 66.4 (D in mm) V for air of 4 .. 38 degC [ASH-F21] eq. 21, with
 * its standard density of 1.204 kg/m3.
 */
#define DEW_DUCTS_DENSITY   1.204
#define DEW_DUCTS_VISCOSITY (DEW_DUCTS_DENSITY / 66.4e3)

/*
 * Darcy's friction factor in rough and smooth turbulent flow.
 *
 *     re        Reynolds number                 -    2300 .. 1e8
 *     relative  roughness / diameter            -    0 .. 0.1
 *
 * Equation   Colebrook, [ASH-F21] eq. 19, solved to 1e-14.
 * Checked    tests/ducts/test_friction.c, to 1e-10 of [FLUIDS-DOC].
 */
double dew_ducts_colebrook(double re, double relative);

/*
 * The same for every flow, re > 0: 64 / re up to 2300 [ASH-F21], Colebrook
 * from 4000, and between them a cubic in re for f re^2, so that pressure and
 * its slope are continuous.  The cubic is ours: no one knows the flow there.
 */
double dew_ducts_friction_factor(double re, double relative);

/*
 * Diameter, m, of the round duct that loses as much at the same flow as a
 * rectangular one of sides a and b, m: [ASH-F21] eq. 25.
 */
double dew_ducts_equivalent_diameter(double a, double b);

/* 4 area / perimeter, m: [ASH-F21] eq. 24. */
double dew_ducts_hydraulic_diameter(double area, double perimeter);

/*
 * Factor on the friction of flexible duct that was not pulled out.
 *
 *     diameter     m    0.1 .. 0.5   measured for 0.15 .. 0.25; the rest is
 *                                    carried over
 *     compression  -    0 .. 0.3     missing length / length pulled out
 *
 * Equation   [ASH-F21] eq. 22 and 23, for a roughness of 0.9 mm.
 */
double dew_ducts_flex_factor(double diameter, double compression);

/*
 * One run of duct with its fittings.  Plain; what is left out is zero.
 * Round by diameter, or rectangular by width and height with diameter 0.
 */
struct dew_duct {
    double diameter;      /* m    0.02 .. 3    round; 0 = rectangular        */
    double width, height; /* m    0.02 .. 3    rectangular                   */
    double length;        /* m    0 .. 1000    as laid                       */
    double extra;         /* m    0 .. 1000    equivalent length of fittings */
    double roughness;     /* m    0 .. 0.005, at most a tenth of diameter    */
    double compression;   /* -    0 .. 0.3     flexible duct; not on extra   */
    double loss;          /* -    0 .. 1000    sum of loss coefficients      */
};

/* Area, m2. */
double dew_ducts_area(const struct dew_duct *duct);

/*
 * Drop at a flow, and its slope by q, Pa s/m3 (NULL allowed), exact.
 *
 * Equation   Darcy, [ASH-F21] eq. 18; rectangular ducts by the equivalent
 *            diameter for friction and their own area for the loss.
 *            Loss coefficients hold from a Reynolds number of 1000; below, the
 *            drop becomes linear in q, ours, so that no slope is zero.
 */
double dew_ducts_drop(const struct dew_duct *duct, double density, double q,
                      double *slope);

/*
 * Flow at a drop, to 1e-12 of itself, and its slope by drop (NULL allowed).
 * NaN also for a duct that loses nothing.
 */
double dew_ducts_flow(const struct dew_duct *duct, double density, double drop,
                      double *slope);

/* ---- duct walls and fittings, each row with its source ------------------- */

/* A duct's wall.  Static. */
struct dew_duct_wall {
    const char *name;       /* "spiral"                                     */
    double roughness;       /* m    to use                                  */
    double lowest, highest; /* m   published range                         */
    const char *source;
};

/*
 * A fitting: a loss coefficient on the velocity pressure of its own duct (of
 * the branch, for a take-off), or a length of straight duct that codes and
 * makers count for it; the other is NaN.  A counted length is an allowance,
 * often several times what the air loses.  Static.
 */
struct dew_duct_fitting {
    const char *name;  /* "elbow 90 smooth"                                */
    double loss;       /* -                                                */
    double equivalent; /* m                                                */
    const char *source;
};

/* Row i, from 0; NULL past the end. */
const struct dew_duct_wall *dew_ducts_wall(size_t i);
const struct dew_duct_fitting *dew_ducts_fitting(size_t i);

/* Row by its whole name; NULL if there is none. */
const struct dew_duct_wall *dew_ducts_wall_named(const char *name);
const struct dew_duct_fitting *dew_ducts_fitting_named(const char *name);

/* ---- fans and blowers ---------------------------------------------------- */

/*
 *     q         volume flow through the fan     m3/s
 *     pressure  rise of total pressure along q  Pa
 *     speed     of its sheet's speed            -      0 .. 2; 0 stands still
 *
 * Fan laws: flow goes with speed, pressure with density and speed squared,
 * watts with density and speed cubed; textbook, from memory.  A fan that
 * stands still lets air pass freely: what its casing loses belongs to the
 * duct around it.
 */

struct dew_fan;

/* One row of a specification sheet, at 1.204 kg/m3. */
struct dew_fan_row {
    double flow;     /* m3/s  > 0 or 0                                      */
    double pressure; /* Pa    0 .. 5000                                     */
    double watts;    /* W     0 .. 10000; NaN = not known                   */
};

/*
 * A fan by its rows, by Steffen's interpolation, which never overshoots.
 * Flow ascends and pressure falls from row to row: a curve with a hump has
 * more than one working point, and is refused.  3 .. 64 rows; watts in all of
 * them, or in none.
 *
 * Owner      on DEW_OK *fan is the caller's, for dew_ducts_fan_close.
 * Errors     DEW_ERANGE with the row's number, DEW_EMEM; *fan is then NULL.
 */
enum dew_status dew_ducts_fan_open(struct dew_fan **fan,
                                   const struct dew_fan_row *rows, size_t n,
                                   struct dew_error *err);

/*
 * A fan without a sheet: pressure (1 - (q / flow)^2), where rest holds the
 * pressure at no flow, the flow at no pressure, and watts taken as the same
 * at every flow.  The usual shape; from memory.
 */
enum dew_status dew_ducts_fan_shaped(struct dew_fan **fan,
                                     const struct dew_fan_row *rest,
                                     struct dew_error *err);

/*
 * A blower by its rated flow at a rated external static pressure: the same
 * shape through that point, with free times the flow at no pressure.
 *
 *     free  -    1.01 .. 3    near 1 for a blower that holds its flow
 */
enum dew_status dew_ducts_blower_open(struct dew_fan **fan,
                                      const struct dew_fan_row *rated,
                                      double free, struct dew_error *err);

void dew_ducts_fan_close(struct dew_fan *fan); /* NULL allowed */

struct dew_fan_point {
    double pressure; /* Pa       rise along q                                */
    double slope;    /* Pa s/m3  of pressure by q, <= 0                      */
    double watts;    /* W        NaN = not known                             */
    int outside;     /* 1 beyond the sheet: pressure goes on in a straight
                        line, watts are those of the nearest row            */
};

/* The fan at a speed, density (kg/m3) and flow. */
struct dew_fan_point dew_ducts_fan_at(const struct dew_fan *fan, double speed,
                                      double density, double q);

/* ---- networks ------------------------------------------------------------ */

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
