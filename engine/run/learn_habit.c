/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What habits make of the excess from cold to warm, integrated out. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "evidence/evidence.h"
#include "run/learn.h"

enum { NODES = DEW_EVIDENCE_NODES };

void run__learn_days(const struct run__learn_hours *h, const double *rest,
                     double *day)
{
    for (size_t d = 0; d < h->days; d++) {
        double n = 0, sum = 0;

        for (size_t k = 24 * d; k < 24 * d + 24; k++)
            if (!isnan(rest[k])) {
                n += 1;
                sum += rest[k];
            }
        day[d] = n >= RUN__LEARN_DAY ? sum / n : NAN;
    }
}

/* What a Pa at node i shows of in the log's hours, % RH, through the memories
   that the fit learned: with less without. */
static void show(const struct dew_fit *f, int i, double *with, double *without)
{
    const struct evidence__series *s = &f->evidence->series;
    const struct dew_evidence_learned *l = dew_evidence_learned(f->evidence);
    double q[EVIDENCE__MOST] = {0};

    q[EVIDENCE__Z] = l->z[0].value;
    q[EVIDENCE__Z + 1] = l->z[1].value;
    evidence__house(s, q, f->count, without);
    q[EVIDENCE__CURVE + i] = 1;
    evidence__house(s, q, f->count, with);
    for (size_t h = 0; h < f->count; h++)
        with[h] -= without[h];
}

/* The misfits of each node, whitened, a row each; and its mean in the log. */
static void misfits(struct dew_learn *l, const struct dew_fit *f, double *room,
                    double *rows, double mean[NODES])
{
    const struct run__learn_hours *h = &l->hours;
    double *with = room, *day = room + 2 * f->count;

    for (int i = 0; i < NODES; i++) {
        show(f, i, with, with + f->count);
        for (size_t k = 0; k < h->count; k++)
            if (isnan(h->rh[k]))
                with[h->first + k] = NAN;
        run__learn_days(h, with + h->first, day);
        evidence__whiten(&l->noise, day, h->days, &rows[(size_t)i * h->weigh]);
        mean[i] = 0;
        for (size_t d = 0; d < h->days; d++)
            mean[i] += isnan(day[d]) ? 0 : day[d] / (double)h->weigh;
    }
}

/* How far the nodes go from each other beforehand, where they add nothing on
   the mean of the log: its level is the house's own. */
static void bends(const double mean[NODES], double c[NODES * NODES])
{
    double with[NODES] = {0}, all = 0;

    for (size_t i = 0; i < NODES; i++)
        for (size_t j = 0; j < NODES; j++) {
            c[i * NODES + j] = evidence__bend(i, j);
            with[i] += c[i * NODES + j] * mean[j];
        }
    for (size_t i = 0; i < NODES; i++)
        all += mean[i] * with[i];
    for (size_t i = 0; i < NODES; i++)
        for (size_t j = 0; j < NODES; j++)
            c[i * NODES + j] -= with[i] * with[j] / all;
}

/* rows: nodes by misfits, becomes root' rows; root root' is their spread. */
static enum dew_status spread(const double mean[NODES], double *rows, size_t n,
                              struct dew_error *err)
{
    double c[NODES * NODES], values[NODES], root[NODES * NODES];
    enum dew_status status;

    bends(mean, c);
    status = core__eigen(c, values, root, NODES, err);
    for (size_t i = 0; i < NODES && status == DEW_OK; i++)
        for (size_t j = 0; j < NODES; j++)
            root[i * NODES + j] *= sqrt(fmax(values[j], 0));
    for (size_t h = 0; h < n && status == DEW_OK; h++) {
        double was[NODES];

        for (size_t i = 0; i < NODES; i++)
            was[i] = rows[i * n + h];
        for (size_t j = 0; j < NODES; j++) {
            rows[j * n + h] = 0;
            for (size_t i = 0; i < NODES; i++)
                rows[j * n + h] += root[i * NODES + j] * was[i];
        }
    }
    return status;
}

/* Axes of rows' rows, and what is taken along each: with d the square of its
   length, (1 + d)^-1/2 of a misfit is left. */
static enum dew_status turn(struct run__learn_habit *to, const double *rows,
                            size_t n, struct dew_error *err)
{
    double product[NODES * NODES], values[NODES], vectors[NODES * NODES];
    enum dew_status status;

    for (size_t i = 0; i < NODES; i++)
        for (size_t j = 0; j < NODES; j++) {
            product[i * NODES + j] = 0;
            for (size_t h = 0; h < n; h++)
                product[i * NODES + j] += rows[i * n + h] * rows[j * n + h];
        }
    status = core__eigen(product, values, vectors, NODES, err);
    for (size_t k = 0; k < NODES && status == DEW_OK; k++) {
        double d = fmax(values[k], 0);

        to->taken[k] = 1 - 1 / sqrt(1 + d);
        for (size_t h = 0; h < n && d > 1e-9; h++) {
            double sum = 0;

            for (size_t i = 0; i < NODES; i++)
                sum += vectors[i * NODES + k] * rows[i * n + h];
            to->axes[k * n + h] = sum / sqrt(d);
        }
    }
    return status;
}

enum dew_status run__learn_habit(struct dew_learn *l, const struct dew_fit *f,
                                 struct dew_error *err)
{
    size_t n = l->hours.weigh;
    double *rows = calloc(NODES * n, sizeof *rows),
           *room = calloc(2 * f->count + l->hours.days, sizeof *room);
    double mean[NODES];
    enum dew_status status = DEW_EMEM;

    l->habit.axes = calloc(NODES * n, sizeof *l->habit.axes);
    if (rows == NULL || room == NULL || l->habit.axes == NULL)
        core__fail(err, DEW_EMEM, "no memory for the hours of a log");
    else {
        misfits(l, f, room, rows, mean);
        status = spread(mean, rows, n, err);
        if (status == DEW_OK)
            status = turn(&l->habit, rows, n, err);
    }
    free(rows);
    free(room);
    return status;
}

void run__learn_habit_off(const struct dew_learn *l, double *r)
{
    size_t n = l->hours.weigh;

    for (size_t k = 0; k < NODES; k++) {
        const double *q = &l->habit.axes[k * n];
        double along = 0;

        for (size_t h = 0; h < n; h++)
            along += q[h] * r[h];
        for (size_t h = 0; h < n; h++)
            r[h] -= l->habit.taken[k] * along * q[h];
    }
}
