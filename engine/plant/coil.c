/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cooling coil and heat pump from a label. */
#include "dew/coil.h"

#include <math.h>

#include "core/fail.h"
#include "plant/heat_step.h"

/* The rating point [APP-M]: 80 / 67 degF indoors, 95 degF outdoors. */
static const double rate_t = 48.0 / 1.8, rate_wet = 35.0 / 1.8, rate_out = 35.0,
                    rate_p = 101325.0;
static const double test_b_out = 50.0 / 1.8; /* degC, 82 degF [APP-M] */

static const double air_density = 1.2041; /* kg/m3 dry air, 20 degC [ASH-F1] */

static const double ton = 12000.0 * 1055.05585262 / 3600.0; /* W       */
static const double cfm = 0.3048 * 0.3048 * 0.3048 / 60.0;  /* m3/s    */

static enum dew_status outside(struct dew_error *err, const char *member,
                               double x, double low, double high)
{
    core__in(err, member);
    return core__fail(err, DEW_ERANGE, "%g is outside %g .. %g", x, low, high);
}

/* ---- the label ---------------------------------------------------------- */

static enum dew_status label_sound(const struct dew_coil_label *l,
                                   struct dew_error *err)
{
    if (isnan(l->capacity) ||
        (isnan(l->eer) && isnan(l->seer) && isnan(l->cop))) {
        core__in(err, isnan(l->capacity) ? "capacity" : "seer");
        return core__fail(err, DEW_EMISSING,
                          "a cooling unit needs a capacity and one of SEER, "
                          "EER and COP");
    }
    if (!core__within(l->capacity, 500.0, 100e3))
        return outside(err, "capacity", l->capacity, 500.0, 100e3);
    if (!core__within(l->shr, 0.5, 1.0))
        return outside(err, "shr", l->shr, 0.5, 1.0);
    if (l->eer < 1.0 || l->eer > 9.0)
        return outside(err, "eer", l->eer, 1.0, 9.0);
    if (l->seer < 1.5 || l->seer > 15.0)
        return outside(err, "seer", l->seer, 1.5, 15.0);
    if (l->cop < 1.0 || l->cop > 12.0)
        return outside(err, "cop", l->cop, 1.0, 12.0);
    return DEW_OK;
}

/* Net EER at rating: the label's, or back from SEER through test B. */
static double eer_of(const struct dew_coil_label *l)
{
    double c_d = isnan(l->cycling) ? 0.07 : l->cycling; /* [NREL-56354] */
    double eer_b = l->seer / (1.0 - 0.5 * c_d);         /* [APP-M] */

    if (!isnan(l->eer))
        return l->eer;
    return eer_b * plant__eir(rate_wet, test_b_out) /
           plant__eir(rate_wet, rate_out);
}

enum dew_status dew_plant_coil_gross(const struct dew_coil_label *label,
                                     struct dew_handler *out,
                                     struct dew_error *err)
{
    const struct dew_coil_label *l = label;
    enum dew_status bad = label_sound(l, err);
    double air, fan, heat, gross, cop, power;

    if (bad)
        return bad;
    air = isnan(l->air) ? l->capacity / ton * 400.0 * cfm : l->air;
    fan = isnan(l->blower_w) ? 0.365 / cfm * air : l->blower_w;
    heat = l->is_net ? fan : 0.0;
    gross = l->capacity + heat;
    power = (gross - fan) / eer_of(l) - fan;
    cop = isnan(l->cop) ? gross / power : l->cop;
    if (!core__within(cop, 1.0, 12.0)) {
        core__in(err, "blower_w");
        return core__fail(err, DEW_ERANGE,
                          "blower and efficiency leave the compressor %.0f W: "
                          "they do not fit together",
                          power);
    }
    out->capacity = gross;
    out->shr = (l->shr * l->capacity + heat) / gross;
    out->air = air;
    out->cop = cop;
    out->blower_w = fan;
    return DEW_OK;
}

/* ---- the coil ----------------------------------------------------------- */

/* The straight line from the rated air, at a sensible share. */
static double adp_at(double capacity, double shr, double m)
{
    double w = dew_air_w_wet(rate_t, rate_wet, rate_p);
    double h = dew_air_h(rate_t, w) - capacity / m;
    double w_out = w - (1.0 - shr) * capacity / m / air__h_vapour(rate_t);
    struct dew_stream in = {rate_t, w, rate_p, m},
                      out = {dew_air_t(h, w_out), w_out, rate_p, m};

    return w_out > 0.0 ? dew_air_adp(&in, &out) : NAN;
}

/* Largest share at which the line still meets saturation, to 1e-6. */
static double dry_share(double capacity, double m)
{
    double low = 0.3, high = 1.0;

    for (int i = 0; i < 20; i++) {
        double middle = 0.5 * (low + high);

        if (isnan(adp_at(capacity, middle, m)))
            high = middle;
        else
            low = middle;
    }
    return low;
}

enum dew_status dew_plant_coil_open(const struct dew_handler *handler,
                                    struct dew_coil *out, struct dew_error *err)
{
    const struct dew_handler *h = handler;
    struct dew_coil c = {.capacity = h->capacity, .shr = h->shr};
    double w = dew_air_w_wet(rate_t, rate_wet, rate_p), h_adp;

    if (!core__within(h->capacity, 500.0, 200e3))
        return outside(err, "capacity", h->capacity, 500.0, 200e3);
    if (!core__within(h->shr, 0.4, 1.0))
        return outside(err, "shr", h->shr, 0.4, 1.0);
    if (!core__within(h->air, 10e-6 * h->capacity, 200e-6 * h->capacity))
        return outside(err, "air", h->air, 10e-6 * h->capacity,
                       200e-6 * h->capacity);
    if (!core__within(h->cop, 1.0, 12.0))
        return outside(err, "cop", h->cop, 1.0, 12.0);
    c.m = h->air * air_density;
    c.power = h->capacity / h->cop;
    c.by_capacity =
        1.0 / (plant__capacity(rate_wet, rate_out) * plant__capacity_flow(1.0));
    c.by_eir = 1.0 / (plant__eir(rate_wet, rate_out) * plant__eir_flow(1.0));
    c.shr_dry = dry_share(h->capacity, c.m);
    c.adp = adp_at(h->capacity, h->shr, c.m);
    c.dry = isnan(c.adp) ? 1.0 : 0.0;
    if (c.dry > 0.0) {
        c.adp = dew_air_dew(w, rate_p);
        c.units = c.m * 30.0; /* bypass exp(-30): not used */
        *out = c;
        return DEW_OK;
    }
    c.latent = (1.0 - h->shr) * h->capacity / air__h_vapour(rate_t);
    h_adp = dew_air_h(c.adp, dew_air_w_sat(c.adp, rate_p));
    c.bypass = 1.0 - h->capacity / c.m / (dew_air_h(rate_t, w) - h_adp);
    if (!(c.bypass > 0.0)) /* the line ends beyond saturation */
        return outside(err, "shr", h->shr, 0.4, c.shr_dry);
    c.units = -c.m * log(c.bypass);
    *out = c;
    return DEW_OK;
}

struct plant__stages plant__stages_of(const struct dew_handler *handler)
{
    int varies = handler->turndown > 0.0 && handler->turndown < 1.0;
    double low = varies ? handler->turndown : handler->low_stage;
    double slope = handler->low_air > 0.0 && low > 0.0 && low < 1.0
                       ? (1.0 - handler->low_air) / (1.0 - low)
                       : 1.0;
    double flow = handler->blower_low, power = 2.0;
    double watts = handler->blower_w > 0.0
                       ? handler->blower_low_w / handler->blower_w
                       : 0.0;

    if (flow > 0.0 && flow < 1.0 && watts > 0.0 && watts < 1.0)
        power = log(watts) / log(flow);
    return (struct plant__stages){slope, power};
}

double dew_plant_stage_air(const struct dew_handler *handler, double s)
{
    struct plant__stages k = plant__stages_of(handler);

    return plant__stage_air(&k, s);
}

double dew_plant_blower_w(const struct dew_handler *handler, double air)
{
    struct plant__stages k = plant__stages_of(handler);

    return plant__blower_w(handler, &k, air);
}

struct dew_coil dew_plant_coil_stage(const struct dew_coil *coil, double s,
                                     double air)
{
    struct dew_coil c = plant__coil_stage(coil, s, air);

    c.bypass = c.dry > 0.0 ? 0.0 : exp(-c.units / c.m);
    return c;
}

void dew_plant_coil_at(const struct dew_coil *coil,
                       const struct dew_coil_air *air,
                       struct dew_coil_work *out)
{
    struct plant__off off = {0.0, 0.0};

    *out = plant__coil(coil, air, &off);
    *out = plant__coil(coil, air, &off);
    if (!(core__within(air->t, 0.0, 45.0) && core__within(air->w, 0.0, 0.05) &&
          core__within(air->p, 50e3, 110e3) && air->flow > 0.0))
        *out =
            (struct dew_coil_work){NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN};
}

/* ---- the curves --------------------------------------------------------- */

static int in_range(double t_wet, double t_out)
{
    const double slack = 1e-9; /* K, for rounding */

    return core__within(t_wet, PLANT__WET_LOW - slack,
                        PLANT__WET_HIGH + slack) &&
           core__within(t_out, PLANT__OUT_LOW - slack, PLANT__OUT_HIGH + slack);
}

double dew_plant_cooling_capacity(double t_wet, double t_out)
{
    return in_range(t_wet, t_out) ? plant__capacity(t_wet, t_out) : NAN;
}

double dew_plant_cooling_eir(double t_wet, double t_out)
{
    return in_range(t_wet, t_out) ? plant__eir(t_wet, t_out) : NAN;
}

double dew_plant_cooling_capacity_flow(double flow)
{
    return core__within(flow, 0.5, 1.2) ? plant__capacity_flow(flow) : NAN;
}

double dew_plant_cooling_eir_flow(double flow)
{
    return core__within(flow, 0.5, 1.2) ? plant__eir_flow(flow) : NAN;
}

double dew_plant_heating_capacity(double t_in, double t_out)
{
    return core__within(t_in, 10.0, 27.0) && core__within(t_out, -30.0, 20.0)
               ? plant__heat_capacity(t_in, t_out)
               : NAN;
}

double dew_plant_heating_eir(double t_in, double t_out)
{
    return core__within(t_in, 10.0, 27.0) && core__within(t_out, -30.0, 20.0)
               ? plant__heat_eir(t_in, t_out)
               : NAN;
}

double dew_plant_heat_pump_cop(const struct dew_heater *heater, double t_out)
{
    return plant__pump_cop(heater, t_out);
}

double dew_plant_heat_pump_capacity(double t_out)
{
    return plant__pump_capacity(t_out);
}

/* ---- part load ---------------------------------------------------------- */

double dew_plant_part_load(double plr, double c_d)
{
    return core__within(plr, 0.0, 1.0) && core__within(c_d, 0.0, 0.5)
               ? plant__part_load(plr, c_d)
               : NAN;
}

double dew_plant_run_time(double plr, double c_d)
{
    return plr / dew_plant_part_load(plr, c_d);
}
