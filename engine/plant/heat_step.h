/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A heat pump at a state, without a call, a branch or a loop;
 * coil.h has its contract.  Private to engine/.
 */
#ifndef DEW_PLANT_HEAT_STEP_H
#define DEW_PLANT_HEAT_STEP_H

#include "dew/plant.h"
#include "plant/coil_step.h"

/* [NREL-56354] tables 12 and 13; x indoor dry bulb, y outdoor, degF. */
static CORE__INLINE double plant__heat_capacity(double t_in, double t_out)
{
    const struct plant__curve k = {0.566333415, -0.000744164, -0.0000103,
                                   0.009414634, 0.0000506,    -0.00000675};

    return plant__curve(k, t_in, t_out);
}

static CORE__INLINE double plant__heat_eir(double t_in, double t_out)
{
    const struct plant__curve k = {0.718398423,  0.003498178, 0.000142202,
                                   -0.005724331, 0.00014085,  -0.000215321};

    return plant__curve(k, t_in, t_out);
}

/* Of the two labels, 47 and 17 degF, and of the house, 70 degF; degC. */
#define PLANT__HEAT_WARM CORE__OF(15.0 / 1.8)
#define PLANT__HEAT_COLD CORE__OF(-15.0 / 1.8)
#define PLANT__HEAT_IN   CORE__OF(38.0 / 1.8)

static CORE__INLINE double plant__pump_cop(const struct dew_heater *heater,
                                           double t_out)
{
    double t = core__hold(t_out, -30.0, 20.0);
    double warm = PLANT__HEAT_WARM, cold = PLANT__HEAT_COLD;
    double at_warm = plant__heat_eir(PLANT__HEAT_IN, warm);
    double shape = at_warm / plant__heat_eir(PLANT__HEAT_IN, t);
    double shape_cold = at_warm / plant__heat_eir(PLANT__HEAT_IN, cold);
    double wanted = heater->cop_cold / heater->cop_warm;
    double bend =
        1.0 + (wanted / shape_cold - 1.0) * (warm - t) / (warm - cold);

    return core__max(heater->cop_warm * shape * bend, CORE__OF(1.0));
}

static CORE__INLINE double plant__pump_capacity(double t_out)
{
    double t = core__hold(t_out, -30.0, 20.0);

    return plant__heat_capacity(PLANT__HEAT_IN, t) /
           plant__heat_capacity(PLANT__HEAT_IN, PLANT__HEAT_WARM);
}

#endif
