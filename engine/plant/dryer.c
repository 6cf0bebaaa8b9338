/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dehumidifier and humidifier. */
#include "dew/dryer.h"

#include <math.h>

#include "air/air_step.h"
#include "core/fail.h"
#include "plant/control_step.h"

static const double kwh = 3.6e6;        /* J      */
static const double day = 86400.0;      /* s      */
static const double pint = 0.473176473; /* kg, as litres */

static int fitted(double t, double rh)
{
    return t >= PLANT__DRYER_T_LOW && t <= PLANT__DRYER_T_HIGH &&
           rh >= PLANT__DRYER_RH_LOW && rh <= PLANT__DRYER_RH_HIGH;
}

double dew_plant_dryer_removal(double t, double rh)
{
    double x = fitted(t, rh) ? plant__removal(t, rh) : NAN;

    return x > 0.0 ? x : NAN;
}

double dew_plant_dryer_efficiency(double t, double rh)
{
    double x = fitted(t, rh) ? plant__efficiency(t, rh) : NAN;

    return x > 0.0 ? x : NAN;
}

/* ---- the label ---------------------------------------------------------- */

static enum dew_status missing(struct dew_error *err, const char *member,
                               const char *what)
{
    core__in(err, member);
    return core__fail(err, DEW_EMISSING, "%s", what);
}

static enum dew_status outside(struct dew_error *err, const char *member,
                               double t, double rh)
{
    core__in(err, member);
    return core__fail(err, DEW_ERANGE,
                      "%.1f degC and %.0f %% are outside what is known of "
                      "dehumidifiers, 15 .. 32 degC and 30 .. 90 %%",
                      t, 100.0 * rh);
}

static enum dew_status plausible(double rate, double factor,
                                 struct dew_error *err)
{
    if (!(rate > 0.0 && rate <= 250.0 / day)) {
        core__in(err, "rate");
        return core__fail(err, DEW_ERANGE,
                          "%.3g kg a day is outside 0 .. 250 kg a day",
                          rate * day);
    }
    if (!(factor >= 0.3 / kwh && factor <= 8.0 / kwh)) {
        core__in(err, "factor");
        return core__fail(err, DEW_ERANGE,
                          "%.3g kg/kWh is outside 0.3 .. 8 kg/kWh: no "
                          "dehumidifier works so",
                          factor * kwh);
    }
    return DEW_OK;
}

enum dew_status dew_plant_dryer_of(const struct dew_dryer_label *label,
                                   struct dew_dryer *out, struct dew_error *err)
{
    const struct dew_dryer_label *l = label;
    double t0 = isnan(l->rating_t) ? l->t : l->rating_t;
    double rh0 = isnan(l->rating_rh) ? l->rh : l->rating_rh;
    double removal =
        dew_plant_dryer_removal(t0, rh0) / dew_plant_dryer_removal(l->t, l->rh);
    double efficiency = dew_plant_dryer_efficiency(t0, rh0) /
                        dew_plant_dryer_efficiency(l->t, l->rh);
    double rate = l->rate * removal, factor = l->factor;
    enum dew_status bad;

    if (isnan(l->rate))
        return missing(err, "rate",
                       "a dehumidifier needs the water it takes "
                       "out, as printed or as you see it");
    if (isnan(l->factor) && isnan(l->watts))
        return missing(err, "factor",
                       "a dehumidifier needs an energy factor or watts");
    if (isnan(removal) || isnan(efficiency))
        return outside(err, fitted(l->t, l->rh) ? "rating_t" : "t",
                       fitted(l->t, l->rh) ? t0 : l->t,
                       fitted(l->t, l->rh) ? rh0 : l->rh);
    if (isnan(factor)) /* watts where the rate was seen */
        factor = l->rate / l->watts * efficiency;
    bad = plausible(rate, factor, err);
    if (bad)
        return bad;
    out->rate = rate;
    out->factor = factor;
    out->rating_t = t0;
    out->rating_rh = rh0;
    return DEW_OK;
}

double dew_plant_dryer_test_t(enum dew_dryer_test test)
{
    static const double degf[DEW_DRYER_TESTS] = {65.0, 80.0, 73.0};

    return (unsigned)test < DEW_DRYER_TESTS ? (degf[test] - 32.0) / 1.8 : NAN;
}

double dew_plant_dryer_least_factor(enum dew_dryer_test test, double rate)
{
    static const struct {
        double pints, factor; /* a day, up to; kg/kWh */
    } rows[DEW_DRYER_TESTS][5] = {
        {{25.0, 1.30}, {50.0, 1.60}, {INFINITY, 2.80}},
        {{35.0, 1.35},
         {45.0, 1.50},
         {54.0, 1.60},
         {75.0, 1.70},
         {INFINITY, 2.5}},
        {{INFINITY, 1.77}},
    };
    const double slip = 0.005; /* labels give two digits */
    double pints = rate * day / pint;
    int i = 0;

    if ((unsigned)test >= DEW_DRYER_TESTS || !(rate > 0.0))
        return NAN;
    while (pints > rows[test][i].pints + slip)
        i++;
    return rows[test][i].factor / kwh;
}

/* ---- at a state --------------------------------------------------------- */

void dew_plant_dryer_at(const struct dew_dryer *dryer, double t, double w,
                        double p, struct dew_dryer_work *out)
{
    double rh = dew_air_rh(t, w, p);
    struct plant__dryer o = plant__dryer(
        t, rh, 1.0 / dew_plant_dryer_removal(dryer->rating_t, dryer->rating_rh),
        1.0 / dew_plant_dryer_efficiency(dryer->rating_t, dryer->rating_rh));

    if (!(dryer->rate > 0.0)) {
        *out = (struct dew_dryer_work){0.0, 0.0, 0.0, 0.0};
        return;
    }
    out->rate = o.rate * dryer->rate;
    out->power = o.power * dryer->rate / dryer->factor;
    out->heat = out->power + out->rate * dew_plant_dryer_latent(t);
    out->held = o.held;
    if (!plant__dryer_works(t))
        *out = (struct dew_dryer_work){NAN, NAN, NAN, NAN};
}

double dew_plant_dryer_air(const struct dew_dryer *dryer)
{
    return plant__dryer_air(dryer);
}

struct dew_dryer_inlet dew_plant_dryer_inlet(const struct dew_dryer *dryer,
                                             double t, double w, double t_out,
                                             double w_out)
{
    double x = plant__dryer_outdoor(dryer);

    return (struct dew_dryer_inlet){t + x * (t_out - t), w + x * (w_out - w),
                                    x};
}

double dew_plant_dryer_part_load(double plr)
{
    return core__within(plr, 0.0, 1.0) ? plant__dryer_part_load(plr) : NAN;
}

double dew_plant_dryer_latent(double t)
{
    return air__latent(t);
}

struct dew_humidifier_work dew_plant_humidifier_at(
    const struct dew_humidifier *humidifier, double share, double t)
{
    double rate = share * humidifier->rate;
    double heat = rate * dew_plant_dryer_latent(t);

    return (struct dew_humidifier_work){
        rate, heat * humidifier->heat,
        plant__humidifier_power(humidifier, share)};
}
