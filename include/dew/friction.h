/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Friction and losses in ducts: pressure from flow, and flow from pressure.
 *
 *     q        volume flow                     m3/s
 *     drop     loss of total pressure along q  Pa       odd in q
 *     density  of the air                      kg/m3    0.5 .. 2
 *
 * The viscosity of air is that of equation 21 of [ASH-F21], the same at every
 * temperature and pressure: DEW_DUCTS_VISCOSITY.  An argument outside its
 * range gives NaN.
 */
#ifndef DEW_FRICTION_H
#define DEW_FRICTION_H

#ifdef __cplusplus
extern "C" {
#endif

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

#ifdef __cplusplus
}
#endif
#endif
