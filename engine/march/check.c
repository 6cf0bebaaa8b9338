/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the step takes for granted, checked once. */
#include <math.h>

#include "core/fail.h"
#include "march/march.h"

struct bound {
    const char *path;
    double value, low, high;
};

static enum dew_status within(const struct bound *b, size_t count,
                              struct dew_error *err)
{
    for (size_t i = 0; i < count; i++)
        if (!(b[i].value >= b[i].low && b[i].value <= b[i].high)) {
            core__in(err, b[i].path);
            return core__fail(err, DEW_ERANGE, "%g is outside %g .. %g",
                              b[i].value, b[i].low, b[i].high);
        }
    return DEW_OK;
}

static double locals(const struct dew_case *c)
{
    double most = 0.0;

    for (int h = 0; h < 24; h++) {
        double sum = 0.0;

        for (int e = 0; e < DEW_LOCALS; e++)
            if (c->plant.exhausts[e].flow > 0.0)
                sum += c->plant.exhausts[e].hours[h];
        most = fmax(most, sum);
    }
    return most;
}

enum dew_status march__check(const struct dew_case *c, struct dew_error *err)
{
    const struct dew_house *h = &c->house;
    const struct dew_plant *p = &c->plant;
    const double any = 1e12;
    const struct dew_handler *coil = p->handlers;
    const struct bound bounds[] = {
        {"steps_per_hour", c->steps_per_hour, 1.0, 60.0},
        {"pressure", c->pressure, 50e3, 110e3},
        {"house.volume", h->volume, 1.0, 1e5},
        {"house.thermal.c_air", h->thermal.c_air, 1e-9, any},
        {"house.thermal.c_mass", h->thermal.c_mass, 1e-9, any},
        {"house.thermal.h_is", h->thermal.h_is, 1e-9, any},
        {"house.thermal.h_ms", h->thermal.h_ms, 1e-9, any},
        {"house.thermal.facade_count", h->thermal.facade_count, 0.0,
         DEW_FACADES},
        {"house.thermal.floor_lean", h->thermal.floor_lean, 0.0, 1.0},
        {"house.comfort.band", h->comfort.band, 0.0, 10.0},
        {"house.buffer.surface_kg", h->buffer.surface_kg, 0.0, any},
        {"house.buffer.mid_kg", h->buffer.mid_kg, 0.0, any},
        {"house.buffer.deep_kg", h->buffer.deep_kg, 0.0, any},
        {"house.leakage.c", h->leakage.c, 1e-9, 100.0},
        {"house.leakage.n", h->leakage.n, 0.5, 1.0},
        {"plant.handler_count", p->handler_count, 0.0, DEW_HANDLERS},
        {"plant.handlers[0].cycling", coil[0].cycling, 0.0, 0.5},
        {"plant.handlers[1].cycling", coil[1].cycling, 0.0, 0.5},
        {"plant.handlers[2].cycling", coil[2].cycling, 0.0, 0.5},
        {"plant.heater.backup", p->heater.backup, 0.0, any},
        {"plant.dryer.band", p->dryer.rate > 0.0 ? p->dryer.band : 1.0, 1e-3,
         1.0},
        {"plant.humidifier.band",
         p->humidifier.rate > 0.0 ? p->humidifier.band : 1.0, 1e-3, 1.0},
        {"plant.dryer.outdoor", p->dryer.outdoor, 0.0, 1.0},
        {"plant.exhausts.hours", locals(c), 0.0, 1.0},
    };

    return within(bounds, sizeof bounds / sizeof bounds[0], err);
}
