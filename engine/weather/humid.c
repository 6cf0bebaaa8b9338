/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pressure and humidity ratio of every sample; which units do not fit. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "dew/air.h"
#include "weather/reader.h"

/* A sensor may read a little above saturation; more is a fault of it (our own
   choice, no source). */
static const double RH_MOST = 1.05;

/* ---- units that the file does not say, or says wrongly ------------------------- */

/* Mean |RH of t and td - RH given|, t and td taken as factor * x + offset. */
static double misfit(const struct weather__reader *r, double factor,
                     double offset)
{
    double sum = 0.0;
    long n = 0;

    for (size_t i = 0; i < r->count && n < 2000; i++) {
        const double *v = r->samples[i].lane;
        double t = v[WEATHER__LANE_T] * factor + offset;
        double td = v[WEATHER__LANE_TD] * factor + offset;
        double rh = dew_air_pws_liquid(td) / dew_air_pws_liquid(t);

        if (isnan(rh) || isnan(v[WEATHER__LANE_RH]))
            continue;
        sum += fabs(rh - v[WEATHER__LANE_RH]);
        n++;
    }
    return n >= 3 ? sum / (double)n : NAN;
}

/* Say which unit would agree with the file's own relative humidity. */
static const char *fitting_unit(const struct weather__reader *r)
{
    double c = misfit(r, 1.0, 0.0);
    double f = misfit(r, 5.0 / 9.0, -160.0 / 9.0);

    if (c < 0.03 && !(f < 2.0 * c))
        return " (degC agrees with the file's own relative humidity)";
    if (f < 0.03 && !(c < 2.0 * f))
        return " (degF agrees with the file's own relative humidity)";
    return "";
}

static void refuse_units(struct weather__reader *r)
{
    for (int i = 0; i < WEATHER__LANES; i++) {
        enum dew_quantity q = i <= WEATHER__LANE_TD || i == WEATHER__LANE_TWB
                                  ? DEW_TEMPERATURE
                              : i == WEATHER__LANE_W    ? DEW_HUMIDITY_RATIO
                              : i == WEATHER__LANE_P    ? DEW_PRESSURE
                              : i == WEATHER__LANE_WIND ? DEW_SPEED
                                                        : DEW_IRRADIANCE;
        char fitting[80];

        if (!r->no_unit[i] || i == WEATHER__LANE_RH)
            continue;
        dew_unit_fitting(q, fitting, sizeof fitting);
        weather__reader_fault(r, DEW_EUNIT, r->header[i],
                              r->report->header_line, r->cell[i],
                              "its unit is not said; say one of %s%s", fitting,
                              q == DEW_TEMPERATURE ? fitting_unit(r) : "");
    }
}

/* A unit that is said, but the file's own humidity or the range disagrees. */
static void suspect_units(struct weather__reader *r)
{
    double as_said = misfit(r, 1.0, 0.0);
    double if_f = misfit(r, 5.0 / 9.0, -160.0 / 9.0);
    double if_c = misfit(r, 9.0 / 5.0, 32.0);
    const char *text = NULL;

    if (as_said > 0.05 && if_f < 0.4 * as_said)
        text = "temperatures look like degF read as degC: their relative "
               "humidity does not agree with the file's";
    else if (as_said > 0.05 && if_c < 0.4 * as_said)
        text = "temperatures look like degC read as degF: their relative "
               "humidity does not agree with the file's";
    if (text != NULL)
        snprintf(r->report->suspicion, sizeof r->report->suspicion, "%s", text);
}

/* ---- pressure ---------------------------------------------------------------------- */

static void from_sea_level(struct weather__reader *r)
{
    double share =
        dew_air_std_pressure(r->site.elevation) / dew_air_std_pressure(0.0);

    for (size_t i = 0; i < r->count; i++) {
        double *p = &r->samples[i].lane[WEATHER__LANE_P];

        if (r->sea_pressure || *p < 0.0)
            *p = fabs(*p) * share;
    }
}

/* Hold the last pressure over rows without one, the first backwards. */
static size_t hold_pressure(struct weather__reader *r)
{
    double last = NAN;
    size_t held = 0, first = r->count;

    for (size_t i = 0; i < r->count; i++) {
        double *p = &r->samples[i].lane[WEATHER__LANE_P];

        if (!isnan(*p)) {
            last = *p;
            first = first == r->count ? i : first;
        } else if (!isnan(last)) {
            *p = last;
            held++;
        }
    }
    for (size_t i = 0; first < r->count && i < first; i++, held++)
        r->samples[i].lane[WEATHER__LANE_P] =
            r->samples[first].lane[WEATHER__LANE_P];
    return first == r->count ? r->count : held;
}

static void settle_pressure(struct weather__reader *r)
{
    char *text = r->report->pressure;
    size_t size = sizeof r->report->pressure;
    double z = r->site.elevation, standard;
    int altimeter = 0;
    size_t held;

    for (size_t i = 0; i < r->count; i++)
        altimeter |= r->samples[i].lane[WEATHER__LANE_P] < 0.0;
    if (altimeter || (r->sea_pressure && !isnan(z)))
        from_sea_level(r);
    held = hold_pressure(r);
    if (held < r->count) {
        snprintf(text, size, "%s%s",
                 altimeter || (r->sea_pressure && !isnan(z))
                     ? "sea level, reduced by elevation"
                 : r->sea_pressure ? "sea level, elevation unknown"
                                   : "station",
                 held > 0 ? ", held over rows without" : "");
        return;
    }
    standard = dew_air_std_pressure(isnan(z) ? 0.0 : z);
    for (size_t i = 0; i < r->count; i++)
        r->samples[i].lane[WEATHER__LANE_P] = standard;
    snprintf(text, size, "standard atmosphere at %s",
             isnan(z) ? "sea level: elevation unknown" : "the elevation");
}

/* What a written humidity ratio may be above saturation by its last digit. */
static const double ROUNDING = 1e-6;

/* ---- humidity ------------------------------------------------------------------------ */

/* The dew point may be rounded above the temperature: air holds no more. */
static double from_dew(struct weather__reader *r, struct weather__sample *s)
{
    double t = s->lane[WEATHER__LANE_T], td = s->lane[WEATHER__LANE_TD];
    double p = s->lane[WEATHER__LANE_P];

    if (td > t) {
        weather__note(r, DEW_NOTICE_SATURATED, s->line);
        td = t;
    }
    return r->ask->frost_point && td < 0.0 ? dew_air_w_frost(td, p)
                                           : dew_air_w_dew_liquid(td, p);
}

static double capped(struct weather__reader *r, const struct weather__sample *s,
                     double w)
{
    double most = dew_air_w_dew_liquid(s->lane[WEATHER__LANE_T],
                                       s->lane[WEATHER__LANE_P]);

    if (w <= most)
        return w;
    if (w > most * (1.0 + ROUNDING))
        weather__note(r, DEW_NOTICE_SATURATED, s->line);
    return most;
}

static double ratio_of(struct weather__reader *r, struct weather__sample *s)
{
    double *v = s->lane;
    double t = v[WEATHER__LANE_T], p = v[WEATHER__LANE_P];

    if (isnan(t))
        return NAN;
    if (!isnan(v[WEATHER__LANE_W]))
        return capped(r, s, v[WEATHER__LANE_W]);
    if (!isnan(v[WEATHER__LANE_TD]))
        return from_dew(r, s);
    if (!isnan(v[WEATHER__LANE_TWB]) && v[WEATHER__LANE_TWB] <= t)
        return dew_air_w_wet(t, v[WEATHER__LANE_TWB], p);
    if (isnan(v[WEATHER__LANE_RH]))
        return NAN;
    if (r->has[WEATHER__LANE_W] || r->has[WEATHER__LANE_TD] ||
        r->has[WEATHER__LANE_TWB])
        weather__note(r, DEW_NOTICE_FROM_RH, s->line);
    return dew_air_w_rh_liquid(t, fmin(v[WEATHER__LANE_RH], 1.0), p);
}

static void say_humidity(struct weather__reader *r)
{
    const char *text = "relative humidity over liquid water";

    if (r->has[WEATHER__LANE_W])
        text = "humidity ratio";
    else if (r->has[WEATHER__LANE_TD])
        text = r->ask->frost_point ? "dew point, over ice below 0 degC"
                                   : "dew point over liquid water";
    else if (r->has[WEATHER__LANE_TWB])
        text = "wet bulb";
    snprintf(r->report->humidity, sizeof r->report->humidity, "%s", text);
}

/* RH in a column without a unit: a share never passes 1.5, a percentage does
   in most rows of any real file.  What is then above the range is no RH. */
static void settle_rh(struct weather__reader *r)
{
    double share = r->over_one > r->to_one ? 0.01 : 1.0;

    if (!r->no_unit[WEATHER__LANE_RH])
        return;
    for (size_t i = 0; i < r->count; i++) {
        double *rh = &r->samples[i].lane[WEATHER__LANE_RH];

        *rh *= share;
        if (*rh > RH_MOST) {
            weather__note(r, DEW_NOTICE_RANGE, r->samples[i].line);
            *rh = NAN;
        }
    }
}

enum dew_status weather__humid_units(struct weather__reader *r)
{
    settle_rh(r);
    refuse_units(r);
    if (r->status == DEW_OK)
        suspect_units(r);
    return r->status;
}

void weather__humid(struct weather__reader *r)
{
    if (weather__humid_units(r) != DEW_OK)
        return;
    settle_pressure(r);
    for (size_t i = 0; i < r->count; i++)
        r->samples[i].lane[WEATHER__LANE_W] = ratio_of(r, &r->samples[i]);
    r->has[WEATHER__LANE_P] = 1;
    say_humidity(r);
    r->has[WEATHER__LANE_W] = 1;
}
