/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Water held by fabric and furnishings: effective penetration at three depths,
 * from a moisture buffer value or a class of house.  Every function here runs
 * once, before the hours.
 *
 * A material is known by its effusivity b = sqrt(delta rho slope / psat),
 * kg/(m2 Pa s^0.5), of permeability delta, kg/(m s Pa), density rho, kg/m3, and
 * slope of the sorption curve, kg/kg per unit of RH [RODE05]: capacity of a
 * layer and resistance to its middle both follow from b and the day.
 *
 *     psat    Pa             saturation pressure at the room's temperature
 *
 * Capacities are per unit of RH (0 .. 1).
 */
#ifndef DEW_BUFFER_H
#define DEW_BUFFER_H

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
 * The three stores of area m2 of a deep material of a moisture buffer value
 * behind a film: layers of 0.494, 1.614 and 7.617 times the depth d that a
 * day's cycle reaches; resistances of 0.190 d / delta to the first, behind the
 * film, 0.850 d / delta to the second and 3.002 d / delta to the third.
 *
 *     value  kg/m2 per unit of RH  > 0
 *     film   kg/(m2 s Pa)          > 0
 *
 * Equations  the form of [WWC13], which has two layers of whole periods; these
 *            figures are fitted by us to the exact half-space.
 * Accuracy   a deep material without film, step and periodic uptake from 2 h
 *            to three weeks: within 6 % of exact; a year's cycle 0.71 of it.
 *            Peak RH of a room lined with it: test_buffer.c.
 * Errors     DEW_ERANGE with the member's name in err->path.
 */
enum dew_status dew_house_buffer_mbv(double value, double area, double film,
                                     double psat, struct dew_buffer *out,
                                     struct dew_error *err);

/* How much a whole house holds. */
#define DEW_HOLDING_MAP(X) X(LOW, low) X(LIKELY, likely) X(HIGH, high)

enum dew_holding {
#define X(name, word) DEW_HOLDS_##name,
    DEW_HOLDING_MAP(X)
#undef X
};

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
