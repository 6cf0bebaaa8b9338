/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Fans and blowers: pressure and watts at a flow, a speed and a density.
 *
 *     q         volume flow through the fan     m3/s
 *     pressure  rise of total pressure along q  Pa
 *     speed     of its sheet's speed            -      0 .. 2; 0 stands still
 *
 * Fan laws: flow goes with speed, pressure with density and speed squared,
 * watts with density and speed cubed; textbook, from memory.  A fan that
 * stands still lets air pass freely: what its casing loses belongs to the
 * duct around it.
 */
#ifndef DEW_FAN_H
#define DEW_FAN_H

#include <stddef.h>

#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

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

#ifdef __cplusplus
}
#endif
#endif
