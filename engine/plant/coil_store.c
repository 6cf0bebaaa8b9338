/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Water held on a cooling coil. */
#include "dew/coil.h"

#include <math.h>

#include "plant/coil_step.h"
#include "plant/store_step.h"

struct dew_coil_store dew_plant_coil_store_of(const struct dew_handler *handler,
                                              const struct dew_coil *coil)
{
    return (struct dew_coil_store){
        .latent = coil->latent,
        .most = coil->latent * handler->hold_s,
        .gamma = handler->gamma,
        .cycles_max = handler->cycles_max,
        .still = handler->still,
    };
}

double dew_plant_off_delay(const struct dew_handler *handler, double run)
{
    return plant__off_delay(handler, run);
}

static int sound(const struct dew_coil_store_in *in)
{
    return in->m >= 0.0 && in->seconds >= 0.0 && in->seconds <= 3600.0 &&
           in->run >= 0.0 && in->run <= 1.0 && in->blower >= in->run &&
           in->blower <= 1.0 && in->water >= 0.0 && in->depression >= 0.0 &&
           in->soak >= 0.0;
}

void dew_plant_coil_store_step(const struct dew_coil_store *store,
                               const struct dew_coil_store_in *in,
                               struct dew_coil_store_out *out)
{
    if (!sound(in) || !(store->cycles_max <= 20.0)) {
        *out = (struct dew_coil_store_out){NAN, NAN, NAN, NAN};
        return;
    }
    *out = plant__store_step(store, in);
}
