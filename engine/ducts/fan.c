/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fans and blowers. */
#include "dew/network.h"

#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "core/num.h"

enum { MOST_ROWS = 64 };

struct dew_fan {
    struct core__curve *pressure, *watts; /* by rows; else NULL             */
    double low, high;                     /* m3/s, the sheet's ends         */
    struct dew_fan_row rest;              /* by shape                       */
};

static int good(const struct dew_fan_row *r)
{
    return r->flow >= 0.0 && r->flow <= 100.0 && r->pressure >= 0.0 &&
           r->pressure <= 5000.0 && !(r->watts < 0.0 || r->watts > 1e4);
}

static enum dew_status refuse_row(struct dew_error *err, size_t i,
                                  const char *why)
{
    core__in_row(err, "rows", i, NULL);
    return core__fail(err, DEW_ERANGE, "row %zu of a fan%s", i + 1, why);
}

static enum dew_status check(const struct dew_fan_row *rows, size_t n,
                             struct dew_error *err)
{
    if (n < 3 || n > MOST_ROWS)
        return core__fail(err, DEW_ERANGE, "a fan of %zu rows, not 3 .. %d", n,
                          MOST_ROWS);
    for (size_t i = 0; i < n; i++) {
        if (!good(&rows[i]))
            return refuse_row(err, i, " is outside its range");
        if (i > 0 && !(rows[i].flow > rows[i - 1].flow &&
                       rows[i].pressure < rows[i - 1].pressure))
            return refuse_row(err, i, ": flow must rise and pressure fall");
        if (isnan(rows[i].watts) != isnan(rows[0].watts))
            return refuse_row(err, i, ": watts in all rows or in none");
    }
    return DEW_OK;
}

static struct dew_fan *fan_new(struct dew_error *err)
{
    struct dew_fan *f = calloc(1, sizeof *f);

    if (f == NULL)
        core__fail(err, DEW_EMEM, "no memory for a fan");
    return f;
}

static enum dew_status curves(struct dew_fan *f, const struct dew_fan_row *rows,
                              size_t n, struct dew_error *err)
{
    double q[MOST_ROWS] = {0}, p[MOST_ROWS] = {0}, w[MOST_ROWS] = {0};
    enum dew_status status;

    for (size_t i = 0; i < n; i++) {
        q[i] = rows[i].flow;
        p[i] = rows[i].pressure;
        w[i] = rows[i].watts;
    }
    f->low = q[0];
    f->high = q[n - 1];
    status = core__curve_open(&f->pressure, CORE__STEFFEN, q, p, n, err);
    if (status == DEW_OK && !isnan(w[0]))
        status = core__curve_open(&f->watts, CORE__STEFFEN, q, w, n, err);
    return status;
}

enum dew_status dew_ducts_fan_open(struct dew_fan **fan,
                                   const struct dew_fan_row *rows, size_t n,
                                   struct dew_error *err)
{
    enum dew_status status = check(rows, n, err);
    struct dew_fan *f;

    *fan = NULL;
    if (status != DEW_OK)
        return status;
    f = fan_new(err);
    if (f == NULL)
        return DEW_EMEM;
    status = curves(f, rows, n, err);
    if (status != DEW_OK) {
        dew_ducts_fan_close(f);
        return status;
    }
    *fan = f;
    return DEW_OK;
}

enum dew_status dew_ducts_fan_shaped(struct dew_fan **fan,
                                     const struct dew_fan_row *rest,
                                     struct dew_error *err)
{
    *fan = NULL;
    if (!good(rest) || !(rest->flow > 0.0 && rest->pressure > 0.0))
        return core__fail(err, DEW_ERANGE,
                          "a fan needs a flow and a pressure above 0");
    *fan = fan_new(err);
    if (*fan == NULL)
        return DEW_EMEM;
    (*fan)->rest = *rest;
    return DEW_OK;
}

enum dew_status dew_ducts_blower_open(struct dew_fan **fan,
                                      const struct dew_fan_row *rated,
                                      double free, struct dew_error *err)
{
    struct dew_fan_row rest = *rated;

    *fan = NULL;
    if (!(free >= 1.01 && free <= 3.0))
        return core__fail(err, DEW_ERANGE,
                          "a blower's free flow of %g times its rated flow is "
                          "outside 1.01 .. 3",
                          free);
    rest.flow *= free;
    rest.pressure /= 1.0 - 1.0 / (free * free);
    return dew_ducts_fan_shaped(fan, &rest, err);
}

void dew_ducts_fan_close(struct dew_fan *fan)
{
    if (fan == NULL)
        return;
    core__curve_close(fan->pressure);
    core__curve_close(fan->watts);
    free(fan);
}

/* at the sheet's own speed and density */
static struct dew_fan_point on_sheet(const struct dew_fan *f, double q)
{
    struct dew_fan_point at = {.watts = f->rest.watts};

    if (f->pressure) {
        double end = fmin(fmax(q, f->low), f->high);

        at.slope = fmin(core__curve_slope(f->pressure, end), 0.0);
        at.pressure = core__curve_at(f->pressure, end) + at.slope * (q - end);
        at.watts = f->watts ? core__curve_at(f->watts, end) : NAN;
        at.outside = q != end;
        return at;
    }
    double share = q / f->rest.flow;

    at.pressure = f->rest.pressure * (1.0 - share * fabs(share));
    at.slope = -2.0 * f->rest.pressure * fabs(share) / f->rest.flow;
    at.outside = share < 0.0 || share > 1.0;
    return at;
}

struct dew_fan_point dew_ducts_fan_at(const struct dew_fan *fan, double speed,
                                      double density, double q)
{
    struct dew_fan_point at = {0};
    double dense = density / DEW_DUCTS_DENSITY;

    if (!(speed >= 0.0 && speed <= 2.0) || !(dense > 0.0) || isnan(q))
        return (struct dew_fan_point){NAN, NAN, NAN, 1};
    if (speed == 0.0)
        return at;
    at = on_sheet(fan, q / speed);
    at.pressure *= dense * speed * speed;
    at.slope *= dense * speed;
    at.watts *= dense * speed * speed * speed;
    return at;
}
