/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables of duct walls and fittings, each row with its source. */
#ifndef DEW_FITTINGS_H
#define DEW_FITTINGS_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

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

#ifdef __cplusplus
}
#endif
#endif
