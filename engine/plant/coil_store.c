/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Water held on a cooling coil. */
#include "dew/coil.h"

#include <math.h>

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
    /* of each rest, that many cycles an hour into 3600 (1 - run) s of rest */
    double part = 4.0 * handler->cycles_max * run * handler->off_delay / 3600.0;

    return (1.0 - run) * fmin(part, 1.0);
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
    struct dew_coil_store_out sum = {in->m, 0.0, 0.0, 0.0};
    struct dew_coil_store_in part = *in;
    /* no pass longer than a cycle: at most N_max cycles an hour, four passes */
    int parts = (int)ceil(store->cycles_max / 4.0 * in->seconds / 3600.0);
    /* and none longer than a minute, so that the step's length does not show
       in a coil that dries out within its cycle */
    int fine = (int)ceil(in->seconds / (4.0 * 60.0));

    if (!sound(in) || !(store->cycles_max <= 20.0)) {
        *out = (struct dew_coil_store_out){NAN, NAN, NAN, NAN};
        return;
    }
    parts = parts < fine ? fine : parts;
    parts = parts < 1 ? 1 : parts;
    part.seconds /= parts;
    for (int i = 0; i < parts; i++) {
        struct dew_coil_store_out o = plant__store_step(store, &part);

        part.m = o.m;
        sum.m = o.m;
        sum.condensed += o.condensed;
        sum.reevaporated += o.reevaporated;
        sum.drained += o.drained;
    }
    *out = sum;
}
