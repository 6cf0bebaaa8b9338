/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Typical equipment, for where nothing better is known.  No make, no model.
 * Each row says where its figures are from, or that they are from memory; a
 * person's own spec sheet always replaces them.
 */
#ifndef DEW_LIBRARY_H
#define DEW_LIBRARY_H

#include <stddef.h>

#include "dew/core.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Keys of the rows below, in their order. */
#define DEW_TYPICAL_BLOWER_MAP(X)                                              \
    X(BLOWER, psc) X(BLOWER, constant_torque) X(BLOWER, variable)
#define DEW_TYPICAL_COOLER_MAP(X)                                              \
    X(COOLER, old_single)                                                      \
    X(COOLER, single) X(COOLER, two_stage) X(COOLER, variable)
#define DEW_TYPICAL_DRYER_MAP(X)                                               \
    X(DRYER, portable_small)                                                   \
    X(DRYER, portable)                                                         \
    X(DRYER, portable_large)                                                   \
    X(DRYER, old_portable) X(DRYER, ducted) X(DRYER, ducted_large)

struct dew_range {
    double low, likely, high;
};

/* Cores.  Effectiveness at the unit's middle flow. */
struct dew_typical_core {
    const char *key;   /* "enthalpy_plate"                          */
    const char *words; /* "enthalpy plate"                          */
    const char *source;
    enum dew_exchange kind;
    int passes_water;
    struct dew_range sensible; /* -    core, fan heat left out              */
    struct dew_range latent;   /* -                                         */
    struct dew_range eatr;     /* -                                         */
    struct dew_range power;    /* W per m3/s of supply air, both fans       */
};

/* Blowers of air handlers. */
struct dew_typical_blower {
    const char *key, *words, *source;
    struct dew_range power; /* W per m3/s at full flow                      */
    double low_flow;        /* -  circulation flow / full flow              */
    double low_power;       /* -  watts there / watts at full flow          */
};

/* Cooling units. */
struct dew_typical_cooler {
    const char *key, *words, *source;
    struct dew_range seer; /* W/W                                           */
    struct dew_range shr;  /* -    gross, at rating                         */
    double cycling;        /* -    C_d                                      */
    double low_stage;      /* -    capacity of the low stage, 1 = single    */
    double turndown;       /* -    least capacity of a variable unit        */
};

/* Dehumidifiers. */
struct dew_typical_dryer {
    const char *key, *words, *source;
    struct dew_range factor; /* kg/J   at the rating point                */
    double rating_t, rating_rh;
};

/* What a coil holds and gives back, for those who do not know it. */
struct dew_typical_store {
    const char *key, *words, *source;
    struct dew_range value;
};

/* Exhaust fans and their efficacy. */
struct dew_typical_fan {
    const char *key, *words, *source;
    double least; /* m3/s per W   efficacy a code asks for                  */
};

/* Row i of each table, 0 based; NULL past the end.  Static, not to be freed. */
const struct dew_typical_core *dew_plant_typical_core(size_t i);
const struct dew_typical_blower *dew_plant_typical_blower(size_t i);
const struct dew_typical_cooler *dew_plant_typical_cooler(size_t i);
const struct dew_typical_dryer *dew_plant_typical_dryer(size_t i);
const struct dew_typical_store *dew_plant_typical_store(size_t i);
const struct dew_typical_fan *dew_plant_typical_fan(size_t i);

#ifdef __cplusplus
}
#endif
#endif
