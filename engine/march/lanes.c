/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The hour of march/hour.h for CORE__LANES houses at once.  The Makefile
 * compiles this file once for each width, with the instructions that it needs;
 * bundle.c picks the widest that the processor has.
 *
 * From here on, and in the headers that follow, a double is one of each house:
 * so the lists and structs of a house make those of several.  (The language
 * lets a program define a keyword once all of its own headers are in.)
 */
#ifndef CORE__LANES
#define CORE__LANES 2
#endif

#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "march/kernel.h"

#ifdef __clang__
#pragma clang diagnostic ignored "-Wkeyword-macro"
#endif
#define double core__many

#include "march/body_map.h"
#include "march/hour.h"
#include "march/tally_step.h"

struct lanes {
    struct march__body body;
    struct dew_result r;
    double required; /* m3/s  fresh air asked for                           */
    struct dew_tally tallies[];
};

static const struct march__span case_spans[] = {MARCH__CASE_SPANS};
static const struct march__span body_spans[] = {MARCH__BODY_SPANS};

enum {
    CASE_SPANS = sizeof case_spans / sizeof case_spans[0],
    BODY_SPANS = sizeof body_spans / sizeof body_spans[0],
    LANES = CORE__LANES
};

/* The numbers of one house, to and from plain ones. */
static void put_run(void *at, size_t count, int lane, const core__plain *in)
{
    core__plain *number = at;

    for (size_t i = 0; i < count; i++)
        number[i * LANES + (size_t)lane] = in[i];
}

static void get_run(const void *at, size_t count, int lane, core__plain *out)
{
    const core__plain *number = at;

    for (size_t i = 0; i < count; i++)
        out[i] = number[i * LANES + (size_t)lane];
}

static const core__plain *put_spans(void *base, const struct march__span *spans,
                                    size_t count, int lane,
                                    const core__plain *in)
{
    for (size_t s = 0; s < count; s++)
        for (size_t i = 0; i < spans[s].times; i++) {
            put_run((char *)base + spans[s].offset + i * spans[s].stride,
                    spans[s].count, lane, in);
            in += spans[s].count;
        }
    return in;
}

static size_t size_of(size_t tallies)
{
    size_t bytes = sizeof(struct lanes) + tallies * sizeof(struct dew_tally);

    return (bytes + sizeof(double) - 1) / sizeof(double) * sizeof(double);
}

static void put(void *bundle, int lane, const core__plain *in)
{
    struct march__body *body = &((struct lanes *)bundle)->body;

    in = put_spans(&body->c, case_spans, CASE_SPANS, lane, in);
    put_spans(body, body_spans, BODY_SPANS, lane, in);
}

#define FORK(member) b->body.c.member = (__typeof__(b->body.c.member))*from++;

static void fork_as(void *bundle, const struct march__forks *f)
{
    struct lanes *b = bundle;
    const int *from = f->of_case;

    MARCH__CASE_FORKS(FORK)
    b->body.alike = f->alike;
    b->body.tied = f->tied;
    b->body.ducted = f->ducted;
    b->body.kinds = f->kinds;
    b->body.begun = 0;
}

static double row_of(const struct march__feed *feed, enum march__feed_row row)
{
    double x;

    for (int i = 0; i < LANES; i++)
        x[i] = feed->row[row][i];
    return x;
}

static struct dew_hour hour_of(const struct march__feed *feed)
{
    struct dew_hour h;

    h.t = row_of(feed, MARCH__FEED_t);
    h.w = row_of(feed, MARCH__FEED_w);
    h.p = row_of(feed, MARCH__FEED_p);
    h.wind = row_of(feed, MARCH__FEED_wind);
    h.global = row_of(feed, MARCH__FEED_global);
    h.direct = row_of(feed, MARCH__FEED_direct);
    h.diffuse = row_of(feed, MARCH__FEED_diffuse);
    h.sky = row_of(feed, MARCH__FEED_sky);
    return h;
}

static void begin(void *bundle, const struct march__feed *feed)
{
    struct lanes *b = bundle;

    b->body.clock.day = CORE__OF(0.0);
    if (feed != NULL)
        b->body.before = hour_of(feed);
}

/* A bit for each house where it is so. */
static unsigned bits(core__truth so)
{
    unsigned set = 0;

    for (int i = 0; i < LANES; i++)
        set |= so[i] ? 1U << i : 0U;
    return set;
}

static unsigned hour(void *bundle, const struct march__feed *feed,
                     const void *wall, int steps, int way)
{
    struct lanes *b = bundle;
    struct dew_hour h = hour_of(feed);
    struct march__sun sun = {row_of(feed, MARCH__FEED_solar),
                             row_of(feed, MARCH__FEED_sunlit),
                             row_of(feed, MARCH__FEED_t_ground)};
    struct march__gaps gaps;

    b->body.held = row_of(feed, MARCH__FEED_held);
    b->body.run = row_of(feed, MARCH__FEED_run);
    b->body.fan = row_of(feed, MARCH__FEED_fan);
    b->body.c.steps_per_hour = steps;
    b->body.way = way;
    return bits(
        core__not(march__run_hour(&b->body, &h, &sun, wall, &b->r, &gaps)));
}

static void tally(void *bundle, size_t which, const void *date)
{
    struct lanes *b = bundle;

    march__tally(&b->tallies[which], &b->body.c.limits, b->required, date,
                 &b->r);
}

static void required(void *bundle, int lane, core__plain flow)
{
    struct lanes *b = bundle;

    b->required[lane] = flow;
}

static long tries(const void *bundle)
{
    return ((const struct lanes *)bundle)->body.tries;
}

static void result(const void *bundle, int lane, core__plain *out)
{
    const struct lanes *b = bundle;

    get_run(&b->r, sizeof b->r / sizeof(double), lane, out);
}

static void total(const void *bundle, size_t which, int lane, core__plain *out)
{
    const struct lanes *b = bundle;

    get_run(&b->tallies[which], sizeof(struct dew_tally) / sizeof(double), lane,
            out);
}

#define NAMED(lanes)  march__kernel_##lanes
#define KERNEL(lanes) NAMED(lanes)

const struct march__kernel KERNEL(CORE__LANES) = {.lanes = LANES,
                                                  .align = sizeof(double),
                                                  .size = size_of,
                                                  .put = put,
                                                  .fork = fork_as,
                                                  .begin = begin,
                                                  .hour = hour,
                                                  .tally = tally,
                                                  .required = required,
                                                  .tries = tries,
                                                  .result = result,
                                                  .total = total};
