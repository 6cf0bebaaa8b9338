/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Water held by fabric and furnishings: effective penetration at three depths,
 * from a material, a moisture buffer value or a class of house.  Every function
 * here runs once, before the hours.
 *
 * A material is known by its effusivity b = sqrt(delta rho slope / psat),
 * kg/(m2 Pa s^0.5): capacity of a layer and resistance to its middle both
 * follow from b and the period, so all three ways meet in it.
 *
 *     psat    Pa             saturation pressure at the room's temperature
 *     period  s              of the cycle; capacities per unit of RH (0 .. 1)
 */
#ifndef DEW_BUFFER_H
#define DEW_BUFFER_H

#include <stddef.h>

#include "dew/house.h"
#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A day, s: the period by whose depth layers are measured. */
#define DEW_BUFFER_DAY 86400.0

/* Vapour film of a room surface, kg/(m2 s Pa): 2e-8, [IEA-A41], from memory;
   2e-8 .. 3e-8 is common. */
#define DEW_BUFFER_FILM 2e-8

/* A hygroscopic material. */
struct dew_hygroscopic {
    double density;      /* kg/m3          > 0                              */
    double slope;        /* kg/kg per unit RH  > 0   of the sorption curve  */
    double permeability; /* kg/(m s Pa)    > 0                              */
    double thickness;    /* m              > 0       INFINITY: deep         */
};

/* Slope of u = a rh^b + c rh^d, kg/kg per unit RH; 0 < rh < 1.  [KSK90] */
double dew_house_sorption_slope(const double abcd[4], double rh);

/* Moisture effusivity, kg/(m2 Pa s^0.5).  [RODE05] */
double dew_house_effusivity(const struct dew_hygroscopic *m, double psat);

/* Depth that a cycle reaches, m: sqrt(delta psat period / (pi rho slope)). */
double dew_house_penetration(const struct dew_hygroscopic *m, double psat,
                             double period);

/*
 * Moisture buffer value of a deep material without film in the 8 h / 16 h
 * cycle, kg/m2 per unit of RH: 0.568 psat b sqrt(86400 s), [RODE05] (printed
 * per %: 0.00568); and the effusivity a value stands for.
 *
 * Limit: a measured value holds the film and the thickness of its specimen;
 * taken as the deep, film-free one it makes b a little small.
 * Checked    test_buffer.c: constant from its series; the three stores give
 *            back 0.9935 of it in that cycle.
 */
double dew_house_buffer_value(double effusivity, double psat);
double dew_house_buffer_effusivity(double value, double psat);

/*
 * The three stores of area m2 of a material behind a film: layers of 0.494,
 * 1.614 and 7.617 times the depth d that a day's cycle reaches, and no deeper
 * than the material; resistances of 0.190 d / delta to the first, behind the
 * film, 0.850 d / delta to the second and 3.002 d / delta to the third.  Where
 * the material ends within a layer its resistance shrinks with the two layers
 * it lies between.
 *
 *     film  kg/(m2 s Pa)  > 0
 *
 * Equations  the form of [WWC13], which has two layers of whole periods; these
 *            figures are fitted by us to the exact half-space.
 * Accuracy   a deep material without film, step and periodic uptake from 2 h
 *            to three weeks: within 6 % of exact; a year's cycle 0.71 of it.
 *            Peak RH of a room lined with it: test_buffer.c.
 * Errors     DEW_ERANGE with the member's name in err->path.
 */
enum dew_status dew_house_buffer_material(const struct dew_hygroscopic *m,
                                          double area, double film, double psat,
                                          struct dew_buffer *out,
                                          struct dew_error *err);

/* The same from a moisture buffer value, kg/m2 per unit of RH, > 0. */
enum dew_status dew_house_buffer_mbv(double value, double area, double film,
                                     double psat, struct dew_buffer *out,
                                     struct dew_error *err);

/* Add what another part of the house holds. */
struct dew_buffer dew_house_buffer_add(const struct dew_buffer *a,
                                       const struct dew_buffer *b);

/* Classes of moisture buffer value, [RODE05]. */
enum dew_mbv_class {
    DEW_MBV_NEGLIGIBLE,
    DEW_MBV_LIMITED,
    DEW_MBV_MODERATE,
    DEW_MBV_GOOD,
    DEW_MBV_EXCELLENT,
    DEW_MBV_CLASSES
};

/* A class or a material with its range, kg/m2 per unit of RH. */
struct dew_mbv {
    const char *name;
    double low, high; /* high = low of the best class: it has no top        */
    const char *source;
};

/* The row of a class; NULL for none.  Static. */
const struct dew_mbv *dew_house_mbv_class(enum dew_mbv_class which);

/* Materials by name ("gypsum board"), from memory; *count rows.  Static. */
const struct dew_mbv *dew_house_mbv_materials(size_t *count);

/* How much a whole house holds. */
enum dew_holding { DEW_HOLDS_LOW, DEW_HOLDS_LIKELY, DEW_HOLDS_HIGH };

/*
 * Stores of a furnished house by its floor area: exposed area per floor area
 * and buffer value together, from memory and our own judgment, meant as a
 * range and not as a figure: 0.13, 0.24 and 0.60 kg per m2 of floor and unit
 * of RH, which is 3, 6 and 14 times what the air holds at 20 degC and 2.5 m.
 * NaN members for no such class.
 */
struct dew_buffer dew_house_buffer_house(enum dew_holding holding,
                                         double floor_area, double psat);

#ifdef __cplusplus
}
#endif
#endif
