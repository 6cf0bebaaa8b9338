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
 * hour at run time fraction X, and after each cycle the blower runs on by its
 * off-delay.  While the blower stands, a little air drifts through the coil
 * by buoyancy: still is what it takes up, as a share of what full flow would.
 * It leaves saturated at the wet bulb, so it never takes more than
 *
 *     0.68 x still x (what the full air takes up until it is saturated)
 *
 * and nothing where the air around the coil is saturated.
 *
 * Laboratory and field work [SH04] [FSEC-1537] [FSEC-443], as far as it is
 * known to us, is of a blower that never stops: all the water is removed only
 * while the compressor runs on, and evaporation falls as the coil dries.  A
 * share for a blower that cycles is not taken from it.
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
    double still;      /* -      of full flow's evaporation, blower off     */
};

/* From the handler and its coil. */
struct dew_coil_store dew_plant_coil_store_of(const struct dew_handler *handler,
                                              const struct dew_coil *coil);

/*
 * Share of the time, 0 .. 1 - run, that the blower runs on at full flow after
 * the compressor's cycles, at run time fraction run, 0 .. 1.
 */
double dew_plant_off_delay(const struct dew_handler *handler, double run);

/* One step of it. */
struct dew_coil_store_in {
    double m;          /* kg     0 .. most   at the start                   */
    double seconds;    /* s      0 .. 3600                                  */
    double run;        /* -      0 .. 1      X, compressor                  */
    double blower;     /* -      run .. 1    blower                         */
    double water;      /* kg/s   0 ..        at the coil's present state    */
    double depression; /* -      0 ..        wet bulb depression / 7.222 K  */
    double
        soak; /* kg/s   0 ..        full air could take up, to its wet bulb */
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
