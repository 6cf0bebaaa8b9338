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
    dew__in(err, member);
    return dew__fail(err, DEW_ERANGE, "%g is outside the numbers above 0", x);
}

double dew_house_sorption_slope(const double abcd[4], double rh)
{
    double a = abcd[0], b = abcd[1], c = abcd[2], d = abcd[3];

    if (!(rh > 0.0 && rh < 1.0))
        return NAN;
    return a * b * pow(rh, b - 1.0) + c * d * pow(rh, d - 1.0);
}

double dew_house_effusivity(const struct dew_hygroscopic *m, double psat)
{
    return sqrt(m->permeability * m->density * m->slope / psat);
}

double dew_house_penetration(const struct dew_hygroscopic *m, double psat,
                             double period)
{
    return sqrt(m->permeability * psat * period / (pi * m->density * m->slope));
}

double dew_house_buffer_value(double effusivity, double psat)
{
    return buffer_constant * psat * effusivity * sqrt(DEW_BUFFER_DAY);
}

double dew_house_buffer_effusivity(double value, double psat)
{
    return value / dew_house_buffer_value(1.0, psat);
}

static enum dew_status check_material(const struct dew_hygroscopic *m,
                                      struct dew_error *err)
{
    enum dew_status bad;

    if ((bad = need_positive(err, "density", m->density)) != DEW_OK)
        return bad;
    if ((bad = need_positive(err, "slope", m->slope)) != DEW_OK)
        return bad;
    if ((bad = need_positive(err, "permeability", m->permeability)) != DEW_OK)
        return bad;
    if (m->thickness > 0.0) /* INFINITY is a deep material */
        return DEW_OK;
    return need_positive(err, "thickness", m->thickness);
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

/* Per m2, with everything in depths of the day's cycle: how thick the material
   is, what a depth holds (kg per unit RH) and how it resists (s Pa m2/kg). */
struct lining {
    double thick, holds, resists;
};

static struct dew_buffer stores_of(const struct lining *m, double area,
                                   double film)
{
    double layer[LAYERS], path[LAYERS], left = m->thick, above = 0, whole = 0;

    for (int i = 0; i < LAYERS; i++) {
        layer[i] = fmin(layer_fit[i], left);
        left -= layer[i];
        path[i] = path_fit[i] * (above + layer[i]) / (whole + layer_fit[i]);
        above = layer[i];
        whole = layer_fit[i];
    }
    return (struct dew_buffer){
        .surface_kg = area * m->holds * layer[0],
        .mid_kg = area * m->holds * layer[1],
        .deep_kg = area * m->holds * layer[2],
        .surface_rate = area / (1.0 / film + m->resists * path[0]),
        .mid_rate = layer[1] > 0 ? area / (m->resists * path[1]) : 0,
        .deep_rate = layer[2] > 0 ? area / (m->resists * path[2]) : 0,
    };
}

enum dew_status dew_house_buffer_material(const struct dew_hygroscopic *m,
                                          double area, double film, double psat,
                                          struct dew_buffer *out,
                                          struct dew_error *err)
{
    double depth;
    struct lining lining;
    enum dew_status bad = check_material(m, err);

    if (bad == DEW_OK)
        bad = check_place(area, film, psat, err);
    if (bad != DEW_OK)
        return bad;
    depth = dew_house_penetration(m, psat, DEW_BUFFER_DAY);
    lining =
        (struct lining){m->thickness / depth, m->density * m->slope * depth,
                        depth / m->permeability};
    *out = stores_of(&lining, area, film);
    return DEW_OK;
}

/* Of a deep material a day's depth holds b psat sqrt(period / pi), and resists
   sqrt(period / pi) / b. */
enum dew_status dew_house_buffer_mbv(double value, double area, double film,
                                     double psat, struct dew_buffer *out,
                                     struct dew_error *err)
{
    double b, day = sqrt(DEW_BUFFER_DAY / pi);
    struct lining lining;
    enum dew_status bad = need_positive(err, "value", value);

    if (bad == DEW_OK)
        bad = check_place(area, film, psat, err);
    if (bad != DEW_OK)
        return bad;
    b = dew_house_buffer_effusivity(value, psat);
    lining = (struct lining){INFINITY, b * psat * day, day / b};
    *out = stores_of(&lining, area, film);
    return DEW_OK;
}

struct dew_buffer dew_house_buffer_add(const struct dew_buffer *a,
                                       const struct dew_buffer *b)
{
    return (struct dew_buffer){
        .surface_kg = a->surface_kg + b->surface_kg,
        .mid_kg = a->mid_kg + b->mid_kg,
        .deep_kg = a->deep_kg + b->deep_kg,
        .surface_rate = a->surface_rate + b->surface_rate,
        .mid_rate = a->mid_rate + b->mid_rate,
        .deep_rate = a->deep_rate + b->deep_rate,
    };
}

const struct dew_mbv *dew_house_mbv_class(enum dew_mbv_class which)
{
    /* g/(m2 %) times per_percent */
    static const struct dew_mbv rows[DEW_MBV_CLASSES] = {
        {"negligible", 0.0, 0.02, "[RODE05]"},
        {"limited", 0.02, 0.05, "[RODE05]"},
        {"moderate", 0.05, 0.1, "[RODE05]"},
        {"good", 0.1, 0.2, "[RODE05]"},
        {"excellent", 0.2, 0.2, "[RODE05]"},
    };

    return (unsigned)which < DEW_MBV_CLASSES ? &rows[which] : NULL;
}

const struct dew_mbv *dew_house_mbv_materials(size_t *count)
{
    /* round robin of [RODE05], from memory */
    static const char source[] = "[RODE05] round robin, from memory";
    static const struct dew_mbv rows[] = {
        {"spruce", 0.11, 0.12, source},
        {"birch", 0.09, 0.10, source},
        {"gypsum board", 0.06, 0.07, source},
        {"concrete", 0.035, 0.040, source},
        {"brick", 0.04, 0.05, source},
        {"laminated wood", 0.04, 0.05, source},
        {"aerated concrete", 0.10, 0.10, source},
    };

    *count = sizeof rows / sizeof rows[0];
    return rows;
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
