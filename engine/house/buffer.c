/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/buffer.h"

#include <math.h>

#include "core/fail.h"

static const double pi = 3.14159265358979323846;
static const double buffer_constant = 0.568; /* [RODE05], per unit of RH */
static const double per_percent = 0.1; /* g/(m2 %) to kg/m2 per unit of RH */

static int positive(double x)
{
    return x > 0.0 && isfinite(x); /* false for NaN */
}

static enum dew_status need_positive(struct dew_error *err, const char *member,
                                     double x)
{
    if (positive(x))
        return DEW_OK;
    core__in(err, member);
    return core__fail(err, DEW_ERANGE, "%g is outside the numbers above 0", x);
}

double dew_house_buffer_value(double effusivity, double psat)
{
    return buffer_constant * psat * effusivity * sqrt(DEW_BUFFER_DAY);
}

double dew_house_buffer_effusivity(double value, double psat)
{
    return value / dew_house_buffer_value(1.0, psat);
}

static enum dew_status check_place(double area, double film, double psat,
                                   struct dew_error *err)
{
    enum dew_status bad;

    if ((bad = need_positive(err, "area", area)) != DEW_OK)
        return bad;
    if ((bad = need_positive(err, "film", film)) != DEW_OK)
        return bad;
    return need_positive(err, "psat", psat);
}

/* Our fit to the half-space (buffer.h): layers, and resistances above them, in
   depths of the day's cycle. */
enum { LAYERS = 3 };
static const double layer_fit[LAYERS] = {0.494, 1.614, 7.617};
static const double path_fit[LAYERS] = {0.190, 0.850, 3.002};

/* Per m2 of a deep material a day's depth holds b psat sqrt(day / pi), kg per
   unit of RH, and resists sqrt(day / pi) / b, s Pa m2/kg. */
enum dew_status dew_house_buffer_mbv(double value, double area, double film,
                                     double psat, struct dew_buffer *out,
                                     struct dew_error *err)
{
    double b, holds, resists, day = sqrt(DEW_BUFFER_DAY / pi);
    enum dew_status bad = need_positive(err, "value", value);

    if (bad == DEW_OK)
        bad = check_place(area, film, psat, err);
    if (bad != DEW_OK)
        return bad;
    b = dew_house_buffer_effusivity(value, psat);
    holds = b * psat * day;
    resists = day / b;
    *out = (struct dew_buffer){
        .surface_kg = area * holds * layer_fit[0],
        .mid_kg = area * holds * layer_fit[1],
        .deep_kg = area * holds * layer_fit[2],
        .surface_rate = area / (1.0 / film + resists * path_fit[0]),
        .mid_rate = area / (resists * path_fit[1]),
        .deep_rate = area / (resists * path_fit[2]),
    };
    return DEW_OK;
}

struct dew_buffer dew_house_buffer_house(enum dew_holding holding,
                                         double floor_area, double psat)
{
    /* from memory and judgment: m2 per m2 of floor, g/(m2 %) */
    static const struct {
        double area, value;
    } rows[] = {{2.5, 0.5}, {3.0, 0.8}, {4.0, 1.5}};
    struct dew_buffer out = {NAN, NAN, NAN, NAN, NAN, NAN};

    if ((unsigned)holding < sizeof rows / sizeof rows[0])
        dew_house_buffer_mbv(per_percent * rows[holding].value,
                             rows[holding].area * floor_area, DEW_BUFFER_FILM,
                             psat, &out, NULL);
    return out;
}
