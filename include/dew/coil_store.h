/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Water held on a cooling coil: what a blower puts back when the compressor
 * stands still.
 *
 * It fills while the compressor runs (the coil takes tau = 45 s to wet),
 * drains only above what it can hold, and evaporates at
 *
 *     gamma x L x sqrt(m / m_max) x (wet bulb depression / rated one)
 *
 * whenever air moves over it with the compressor off; L is the rated rate of
 * water, m_max = t_wet x L.  The compressor cycles 4 N_max X (1 - X) times an
 * hour at run time fraction X.
 */
#ifndef DEW_COIL_STORE_H
#define DEW_COIL_STORE_H

#include "dew/coil.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What the store is made of.  Plain. */
struct dew_coil_store {
    double latent;     /* kg/s   L, rated rate of water                     */
    double most;       /* kg     m_max                                      */
    double gamma;      /* -                                                 */
    double cycles_max; /* 1/h    N_max                                      */
    double residue;    /* -      of still time that counts as moving        */
};

/* From the handler and its coil. */
struct dew_coil_store dew_plant_coil_store_of(const struct dew_handler *handler,
                                              const struct dew_coil *coil);

/* One step of it. */
struct dew_coil_store_in {
    double m;          /* kg     0 .. most   at the start                   */
    double seconds;    /* s      0 .. 3600                                  */
    double run;        /* -      0 .. 1      X, compressor                  */
    double blower;     /* -      run .. 1    blower                         */
    double water;      /* kg/s   0 ..        at the coil's present state    */
    double depression; /* -      0 ..        wet bulb depression / 7.222 K  */
};

struct dew_coil_store_out {
    double m;         /* kg     at the end                                 */
    double condensed; /* kg     taken out of the air                       */
    double put_back;  /* kg     given back to it                           */
    double drained;   /* kg     condensed - put_back - (gain in m)         */
};

/*
 * Advance the store.  Within a cycle the equations are integrated in closed
 * form; a step need hold no whole number of cycles.
 *
 * Checked    net / gross water at a steady run time fraction against the
 *            closed form of [HR96] (from memory): 0.002.
 * Errors     NaN members outside the ranges.
 */
void dew_plant_coil_store_step(const struct dew_coil_store *store,
                               const struct dew_coil_store_in *in,
                               struct dew_coil_store_out *out);

#ifdef __cplusplus
}
#endif
#endif
