/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Friction and losses in ducts. */
#include "dew/network.h"

#include <math.h>

#include "core/range.h"

static const double pi = 3.14159265358979323846;
static const double laminar_end = 2300.0;     /* Re [ASH-F21] */
static const double turbulent_start = 4000.0; /* Re, common practice */
static const double loss_start = 1000.0;      /* Re, ours */

/*
 * With x = 1 / sqrt(f), a = relative / 3.7, b = 2.51 / re:
 * x + 2 log10(a + b x) = 0, rising and concave in x, so that Newton's step
 * from the left never passes the root, and after one from the right it is on
 * the left.  Each step squares what is left of the error, so that after a step
 * of 1e-9 nothing is left.  dx: its slope by re.
 */
static double root_factor(double re, double relative, double *dx)
{
    const double two = 2.0 / log(10.0), usual = 7.0; /* of x in ducts */
    double a = relative / 3.7, b = 2.51 / re, rise = 0.0;
    double x = -two * log(a + usual * b);

    for (int i = 0; i < 60; i++) {
        double inside = a + b * x, step;

        rise = 1.0 + two * b / inside;
        step = (x + two * log(inside)) / rise;
        x -= step;
        if (fabs(step) <= 1e-9 * x)
            break;
    }
    *dx = two * x / (a + b * x) / rise * b / re;
    return x;
}

double dew_ducts_colebrook(double re, double relative)
{
    double x, dx;

    if (!core__within(re, laminar_end, 1e8) ||
        !core__within(relative, 0.0, 0.1))
        return NAN;
    x = root_factor(re, relative, &dx);
    return 1.0 / (x * x);
}

/* f re^2 in turbulent flow and its slope by re */
static double turbulent(double re, double relative, double *slope)
{
    double dx, x = root_factor(re, relative, &dx);

    *slope = 2.0 * re / (x * x) * (1.0 - re * dx / x);
    return re * re / (x * x);
}

/* Hermite's cubic between the laminar and the turbulent end */
static double between(double re, double relative, double *slope)
{
    double h = turbulent_start - laminar_end, t = (re - laminar_end) / h;
    double s1, y1 = turbulent(turbulent_start, relative, &s1);
    double s0 = 64.0, y0 = s0 * laminar_end, rise = y1 - y0;
    double c2 = 3.0 * rise - h * (2.0 * s0 + s1);
    double c3 = h * (s0 + s1) - 2.0 * rise;

    *slope = (h * s0 + t * (2.0 * c2 + t * 3.0 * c3)) / h;
    return y0 + t * (h * s0 + t * (c2 + t * c3));
}

/* f re^2 for every re >= 0 */
static double friction(double re, double relative, double *slope)
{
    if (re <= laminar_end) {
        *slope = 64.0;
        return 64.0 * re;
    }
    return re < turbulent_start ? between(re, relative, slope)
                                : turbulent(re, relative, slope);
}

double dew_ducts_friction_factor(double re, double relative)
{
    double slope;

    if (!(re > 0.0) || !core__within(re, 0.0, 1e8) ||
        !core__within(relative, 0.0, 0.1))
        return NAN;
    return friction(re, relative, &slope) / (re * re);
}

double dew_ducts_equivalent_diameter(double a, double b)
{
    if (!(a > 0.0 && b > 0.0))
        return NAN;
    return 1.30 * pow(a * b, 0.625) / pow(a + b, 0.25);
}

double dew_ducts_hydraulic_diameter(double area, double perimeter)
{
    return area > 0.0 && perimeter > 0.0 ? 4.0 * area / perimeter : NAN;
}

double dew_ducts_flex_factor(double diameter, double compression)
{
    if (!core__within(diameter, 0.1, 0.5) ||
        !core__within(compression, 0.0, 0.3))
        return NAN;
    return 1.0 + 0.58 * 100.0 * compression * exp(-4.96 * diameter);
}

double dew_ducts_area(const struct dew_duct *duct)
{
    if (duct->diameter > 0.0)
        return 0.25 * pi * duct->diameter * duct->diameter;
    return duct->width * duct->height;
}

/* re^2 for a loss coefficient, made linear at the origin: the cubic that
   meets the parabola in value and slope */
static double pushed(double re, double *slope)
{
    if (re >= loss_start) {
        *slope = 2.0 * re;
        return re * re;
    }
    *slope = 0.5 * loss_start + 1.5 * re * re / loss_start;
    return 0.5 * re * (loss_start + re * re / loss_start);
}

/* The diameter for friction, m; NaN if the duct is outside its ranges. */
static double checked(const struct dew_duct *duct, double density)
{
    double d = duct->diameter;

    if (d == 0.0 && core__within(duct->width, 0.02, 3.0) &&
        core__within(duct->height, 0.02, 3.0))
        d = dew_ducts_equivalent_diameter(duct->width, duct->height);
    else if (!core__within(d, 0.02, 3.0))
        return NAN;
    if (!core__within(density, 0.5, 2.0) ||
        !core__within(duct->length, 0.0, 1000.0) ||
        !core__within(duct->extra, 0.0, 1000.0) ||
        !core__within(duct->loss, 0.0, 1000.0) ||
        !core__within(duct->roughness, 0.0, fmin(0.005, 0.1 * d)))
        return NAN;
    return d;
}

/* drop = sum of weight * shape(re), and re = scale * q, for each of the two */
struct parts {
    double relative;
    double friction, friction_re;
    double loss, loss_re;
};

static int parts_of(const struct dew_duct *duct, double density,
                    struct parts *p)
{
    double d = checked(duct, density), mu = DEW_DUCTS_VISCOSITY, own, factor;

    factor = duct->compression == 0.0
                 ? 1.0
                 : dew_ducts_flex_factor(d, duct->compression);
    if (isnan(d) || isnan(factor))
        return 0;
    own =
        duct->diameter > 0.0
            ? d
            : dew_ducts_hydraulic_diameter(duct->width * duct->height,
                                           2.0 * (duct->width + duct->height));
    p->relative = duct->roughness / d;
    p->friction = (duct->length * factor + duct->extra) / d * mu * mu /
                  (2.0 * density * d * d);
    p->friction_re = 4.0 * density / (pi * d * mu);
    p->loss = duct->loss * mu * mu / (2.0 * density * own * own);
    p->loss_re = density * own / (mu * dew_ducts_area(duct));
    return 1;
}

/* for q >= 0 */
static double drop_at(const struct parts *p, double q, double *slope)
{
    double s_friction, s_loss;
    double f = friction(p->friction_re * q, p->relative, &s_friction);
    double l = pushed(p->loss_re * q, &s_loss);

    *slope = p->friction * s_friction * p->friction_re +
             p->loss * s_loss * p->loss_re;
    return p->friction * f + p->loss * l;
}

double dew_ducts_drop(const struct dew_duct *duct, double density, double q,
                      double *slope)
{
    struct parts p;
    double s = NAN, drop = NAN;

    if (parts_of(duct, density, &p) && p.friction_re * fabs(q) <= 1e8)
        drop = copysign(drop_at(&p, fabs(q), &s), q);
    if (slope)
        *slope = s;
    return drop;
}

/* The q >= 0 with this drop: Newton's step, kept inside a closing bracket. */
static double flow_at(const struct parts *p, double drop, double *slope)
{
    double low = 0.0, high = laminar_end / p->friction_re, q;

    if (drop == 0.0)
        return drop_at(p, 0.0, slope);
    while (drop_at(p, high, slope) < drop) {
        low = high;
        high *= 2.0;
        if (p->friction_re * high > 1e8)
            return NAN;
    }
    q = high;
    for (int i = 0; i < 200; i++) {
        double gap = drop_at(p, q, slope) - drop, next;

        if (gap > 0.0)
            high = q;
        else
            low = q;
        next = q - gap / *slope;
        if (!(next >= low && next <= high))
            next = 0.5 * (low + high);
        if (fabs(next - q) <= 1e-14 * next)
            return next;
        q = next;
    }
    return q;
}

double dew_ducts_flow(const struct dew_duct *duct, double density, double drop,
                      double *slope)
{
    struct parts p;
    double s = NAN, q = NAN;

    if (parts_of(duct, density, &p) && p.friction + p.loss > 0.0 &&
        isfinite(drop))
        q = copysign(flow_at(&p, fabs(drop), &s), drop);
    if (slope)
        *slope = 1.0 / s;
    return q;
}
