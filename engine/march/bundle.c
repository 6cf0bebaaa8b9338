/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several houses side by side: what lanes.c cannot know, of plain numbers. */
#include "march/bundle.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "march/body_map.h"
#include "march/light.h"
#include "march/open.h"
#include "plant/store_step.h"

static const struct march__span case_spans[] = {MARCH__CASE_SPANS};
static const struct march__span body_spans[] = {MARCH__BODY_SPANS};

enum {
    CASE_SPANS = sizeof case_spans / sizeof case_spans[0],
    BODY_SPANS = sizeof body_spans / sizeof body_spans[0],
    FORKS = 0
#define ONE(member) +1
    MARCH__CASE_FORKS(ONE)
#undef ONE
};

/* What is told of each hour from the first on, borrowed. */
struct row {
    const double *at; /* NULL: of none */
    size_t count;
};

/* One house of it: what its sun is reckoned from. */
struct house {
    struct dew_case c;
    struct dew_plane planes[DEW_FACADES];
    struct dew_weather weather;
    size_t lit_as; /* the first house with the same light              */
    const struct dew_solar *lit; /* of every hour, or NULL: reckoned by the
                                    hour                                     */
    struct row held; /* degC  the indoor t measured                         */
    struct row run;  /* -     of the coils with it                          */
    struct row fan;  /* -     of the blowers with it                        */
    int ground_day;  /* yearday of t_ground; 0: of none                     */
    double t_ground; /* degC */
};

struct dew_bundle {
    const struct march__kernel *kernel;
    void *lanes; /* the kernel's */
    struct house *houses;
    size_t count;
    struct dew_date date; /* of the hour just marched, by the clock on it   */
};

#ifdef MARCH__WIDE
static int has_8(void)
{
    return __builtin_cpu_supports("avx512f") &&
           __builtin_cpu_supports("avx512bw") &&
           __builtin_cpu_supports("avx512dq") &&
           __builtin_cpu_supports("avx512vl");
}

static int has_4(void)
{
    return __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma");
}
#endif

static int has_2(void)
{
#if defined __x86_64__
    return __builtin_cpu_supports("sse4.2");
#else
    return 1;
#endif
}

const struct march__kernel *march__kernel(size_t i)
{
    static const struct {
        const struct march__kernel *kernel;
        int (*has)(void);
    } all[] = {
#ifdef MARCH__WIDE
        {&march__kernel_8, has_8},
        {&march__kernel_4, has_4},
#endif
        {&march__kernel_2, has_2}};

    for (size_t k = 0; k < sizeof all / sizeof all[0]; k++)
        if (all[k].has() && i-- == 0)
            return all[k].kernel;
    return NULL;
}

int dew_bundle_lanes(void)
{
    const struct march__kernel *widest = march__kernel(0);

    return widest != NULL ? widest->lanes : 0;
}

/* ---- alike ---------------------------------------------------------------- */

#define FORK(member) *to++ = (int)c->member;

static void forks_of(const struct dew_case *c, int *to)
{
    MARCH__CASE_FORKS(FORK)
}

/* A coil that is there in one house and not in the other is a fork, too. */
static int same_coils(const struct dew_case *a, const struct dew_case *b)
{
    for (int k = 0; k < a->plant.handler_count && k < DEW_HANDLERS; k++) {
        const struct dew_handler *x = &a->plant.handlers[k];
        const struct dew_handler *y = &b->plant.handlers[k];

        if ((x->capacity > 0.0) != (y->capacity > 0.0))
            return 0;
    }
    return 1;
}

int dew_bundle_alike(const struct dew_case *a, const struct dew_case *b)
{
    int of_a[FORKS], of_b[FORKS];

    forks_of(a, of_a);
    forks_of(b, of_b);
    for (int i = 0; i < FORKS; i++)
        if (of_a[i] != of_b[i])
            return 0;
    return same_coils(a, b) && a->site.utc_offset == b->site.utc_offset &&
           march__paths_alike(a) == march__paths_alike(b);
}

/* The numbers of a span. */
static int same_span(const struct dew_case *a, const struct dew_case *b,
                     const struct march__span *span)
{
    const char *at = (const char *)a + span->offset;
    const char *other = (const char *)b + span->offset;

    for (size_t i = 0; i < span->times; i++)
        if (memcmp(at + i * span->stride, other + i * span->stride,
                   span->count * sizeof(double)) != 0)
            return 0;
    return 1;
}

int dew_bundle_same(const struct dew_case *a, const struct dew_case *b)
{
    static const struct march__span spans[] = {MARCH__CASE_SPANS};

    if (!dew_bundle_alike(a, b) || a->plant.lead_lag != b->plant.lead_lag)
        return 0;
    for (size_t s = 0; s < sizeof spans / sizeof *spans; s++)
        if (!same_span(a, b, &spans[s]))
            return 0;
    return 1;
}

size_t dew_bundle_next(const struct dew_case *cases, size_t count, size_t most,
                       unsigned char *taken, size_t *list)
{
    size_t room = most < DEW_BUNDLE_MOST ? most : DEW_BUNDLE_MOST, n = 0;

    for (size_t i = 0; i < count && (n == 0 || n < room); i++)
        if (!taken[i] &&
            (n == 0 || dew_bundle_alike(&cases[list[0]], &cases[i])))
            list[n++] = i;
    for (size_t k = 0; k < n; k++)
        taken[list[k]] = 1;
    return n;
}

/* ---- opening -------------------------------------------------------------- */

static size_t numbers_of(const struct march__span *spans, size_t count)
{
    size_t n = 0;

    for (size_t s = 0; s < count; s++)
        n += spans[s].count * spans[s].times;
    return n;
}

/* The numbers of the spans, one behind the other. */
static double *gather(const void *base, const struct march__span *spans,
                      size_t count, double *out)
{
    for (size_t s = 0; s < count; s++)
        for (size_t i = 0; i < spans[s].times; i++) {
            const char *at =
                (const char *)base + spans[s].offset + i * spans[s].stride;
            const double *from = (const double *)(const void *)at;

            for (size_t k = 0; k < spans[s].count; k++)
                *out++ = from[k];
        }
    return out;
}

static enum dew_status put(struct dew_bundle *b, size_t i,
                           const struct march__body *body,
                           struct dew_error *err)
{
    size_t n =
        numbers_of(case_spans, CASE_SPANS) + numbers_of(body_spans, BODY_SPANS);
    double *flat = malloc(n * sizeof *flat);

    if (flat == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a bundle");
    gather(body, body_spans, BODY_SPANS,
           gather(&body->c, case_spans, CASE_SPANS, flat));
    for (int lane = (int)i; lane < b->kernel->lanes; lane += (int)b->count)
        b->kernel->put(b->lanes, lane, flat);
    free(flat);
    return DEW_OK;
}

/* What one house needs is done for all; it leaves the others as they are. */
static void join(struct march__forks *f, const struct march__body *m)
{
    f->alike = m->alike;
    f->tied |= m->tied;
    f->ducted |= m->ducted;
    f->kinds |= m->kinds;
}

static enum dew_status open_house(struct dew_bundle *b, size_t i,
                                  const struct dew_case *c,
                                  const struct dew_weather *weather,
                                  struct march__forks *forks,
                                  struct dew_error *err)
{
    struct march__body *body = malloc(sizeof *body);
    enum dew_status status;

    if (body == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a bundle");
    b->houses[i].c = *c;
    b->houses[i].weather = *weather;
    b->houses[i].lit = march__light_for(c, weather);
    march__planes(c, b->houses[i].planes);
    status = march__open(body, c, &weather->hours[0], err);
    if (status == DEW_OK) {
        join(forks, body);
        status = put(b, i, body, err);
    }
    free(body);
    return status;
}

/* Whether the same light falls on two houses. */
static int same_light(const struct house *a, const struct house *b)
{
    return a->weather.hours == b->weather.hours &&
           march__stand_alike(&a->c.site, a->c.house.thermal.facades,
                              &b->c.site, b->c.house.thermal.facades,
                              a->c.house.thermal.facade_count);
}

/* The light on house i is that on the first that it falls on alike, of those whose
   light was not made before. */
static void share_light(struct dew_bundle *b)
{
    for (size_t i = 0; i < b->count; i++) {
        size_t first = 0;

        while (first < i && (b->houses[first].lit != NULL ||
                             !same_light(&b->houses[first], &b->houses[i])))
            first++;
        b->houses[i].lit_as = first;
    }
}

static enum dew_status check(const struct dew_case *const *cases,
                             const struct dew_weather *weather, size_t count,
                             int most, struct dew_error *err)
{
    if (count < 1 || count > (size_t)most)
        return core__fail(err, DEW_ERANGE,
                          "a bundle holds 1 .. %d houses on this processor",
                          most);
    for (size_t i = 0; i < count; i++) {
        if (weather[i].count < 1 || weather[i].count != weather[0].count)
            return core__fail(err, DEW_ERANGE,
                              "the houses of a bundle have one calendar");
        if (!dew_bundle_alike(cases[0], cases[i]))
            return core__fail(err, DEW_ERANGE,
                              "houses that branch differently do not march "
                              "side by side");
    }
    return DEW_OK;
}

static enum dew_status open_all(struct dew_bundle *b,
                                const struct dew_case *const *cases,
                                const struct dew_weather *weather,
                                size_t tallies, struct dew_error *err)
{
    size_t bytes = b->kernel->size(tallies), align = b->kernel->align;
    enum dew_status status = DEW_OK;
    struct march__forks forks = {0};

    b->houses = calloc(b->count, sizeof *b->houses);
    b->lanes = aligned_alloc(align, bytes);
    if (b->houses == NULL || b->lanes == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a bundle");
    memset(b->lanes, 0, bytes);
    forks_of(cases[0], forks.of_case);
    for (size_t i = 0; i < b->count && status == DEW_OK; i++)
        status = open_house(b, i, cases[i], &weather[i], &forks, err);
    b->kernel->fork(b->lanes, &forks);
    share_light(b);
    return status;
}

enum dew_status march__bundle_open(struct dew_bundle **bundle,
                                   const struct march__making *making,
                                   const struct dew_case *const *cases,
                                   const struct dew_weather *weather,
                                   size_t count, struct dew_error *err)
{
    const struct march__kernel *kernel = making->kernel;
    enum dew_status status;
    struct dew_bundle *b;

    *bundle = NULL;
    if (kernel == NULL)
        return core__fail(err, DEW_ERANGE,
                          "this processor is too old for a bundle");
    status = check(cases, weather, count, kernel->lanes, err);
    if (status != DEW_OK)
        return status;
    b = calloc(1, sizeof *b);
    if (b == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a bundle");
    b->kernel = kernel;
    b->count = count;
    status = open_all(b, cases, weather, making->tallies, err);
    if (status != DEW_OK) {
        dew_bundle_close(b);
        return status;
    }
    *bundle = b;
    return DEW_OK;
}

enum dew_status dew_bundle_open(struct dew_bundle **bundle,
                                const struct dew_case *const *cases,
                                const struct dew_weather *weather, size_t count,
                                size_t tallies, struct dew_error *err)
{
    const struct march__making making = {march__kernel(0), tallies};

    return march__bundle_open(bundle, &making, cases, weather, count, err);
}

void dew_bundle_close(struct dew_bundle *bundle)
{
    if (bundle == NULL)
        return;
    free(bundle->houses);
    free(bundle->lanes);
    free(bundle);
}

enum dew_status dew_bundle_begin(struct dew_bundle *b, size_t i, double t,
                                 double rh, struct dew_error *err)
{
    const struct house *a = &b->houses[i];
    struct march__body *body;
    enum dew_status status;

    if (!(t > -60.0 && t < 60.0) || !(rh >= 0.0 && rh <= 1.0))
        return core__fail(err, DEW_ERANGE,
                          "a house begins at -60 .. 60 degC and 0 .. 1 of RH");
    body = malloc(sizeof *body);
    if (body == NULL)
        return core__fail(err, DEW_EMEM, "no memory for a bundle");
    status = march__open(body, &a->c, &a->weather.hours[0], err);
    if (status == DEW_OK) {
        march__settle_at(body, t, rh);
        status = put(b, i, body, err);
    }
    free(body);
    return status;
}

void dew_bundle_require(struct dew_bundle *bundle, size_t i, double required)
{
    bundle->kernel->required(bundle->lanes, (int)i, required);
}

void dew_bundle_prescribe_t(struct dew_bundle *bundle, size_t i,
                            const double *t, size_t count)
{
    bundle->houses[i].held = (struct row){t, count};
}

void dew_bundle_prescribe_run(struct dew_bundle *bundle, size_t i,
                              const double *run, size_t count)
{
    bundle->houses[i].run = (struct row){run, count};
}

void dew_bundle_prescribe_blower(struct dew_bundle *bundle, size_t i,
                                 const double *share, size_t count)
{
    bundle->houses[i].fan = (struct row){share, count};
}

/* ---- hours ---------------------------------------------------------------- */

/* The ground is the same all day. */
static double ground_of(struct house *a, const struct dew_date *date)
{
    if (a->ground_day != date->yearday) {
        a->ground_day = date->yearday;
        a->t_ground = march__ground_of(&a->c, date);
    }
    return a->t_ground;
}

static double told(const struct row *row, size_t h)
{
    return row->at != NULL && h < row->count ? row->at[h] : NAN;
}

static void feed_house(struct dew_bundle *b, size_t i, size_t h,
                       struct march__light *light, struct march__feed *feed)
{
    struct house *a = &b->houses[i];
    const struct dew_hour *hour = &a->weather.hours[h];
    const struct dew_date *date = &a->weather.dates[h];
    struct march__sun sun;

    if (a->lit == NULL && a->lit_as == i)
        march__light_of(&a->c, a->planes, hour, date, &light[i]);
    sun = march__sun_of(
        &a->c,
        a->lit != NULL ? a->lit + h * (size_t)a->c.house.thermal.facade_count
                       : light[a->lit_as].on,
        ground_of(a, date));
    feed->row[MARCH__FEED_t][i] = hour->t;
    feed->row[MARCH__FEED_w][i] = hour->w;
    feed->row[MARCH__FEED_p][i] = hour->p;
    feed->row[MARCH__FEED_wind][i] = hour->wind;
    feed->row[MARCH__FEED_global][i] = hour->global;
    feed->row[MARCH__FEED_direct][i] = hour->direct;
    feed->row[MARCH__FEED_diffuse][i] = hour->diffuse;
    feed->row[MARCH__FEED_sky][i] = hour->sky;
    feed->row[MARCH__FEED_solar][i] = sun.solar;
    feed->row[MARCH__FEED_sunlit][i] = sun.sunlit;
    feed->row[MARCH__FEED_t_ground][i] = sun.t_ground;
    feed->row[MARCH__FEED_held][i] = told(&a->held, h);
    feed->row[MARCH__FEED_run][i] = told(&a->run, h);
    feed->row[MARCH__FEED_fan][i] = told(&a->fan, h);
}

/* Lanes without a house of their own march the houses again. */
static void fill_up(const struct dew_bundle *b, struct march__feed *feed)
{
    size_t lanes = (size_t)b->kernel->lanes;

    for (int r = 0; r < MARCH__FEEDS; r++)
        for (size_t lane = b->count; lane < lanes; lane++)
            feed->row[r][lane] = feed->row[r][lane - b->count];
}

static enum dew_status march(struct dew_bundle *b, size_t h, int steps, int way,
                             size_t *failed, struct dew_error *err)
{
    const struct house *first = &b->houses[0];
    const struct dew_date *date = &first->weather.dates[h];
    struct march__light light[DEW_BUNDLE_MOST];
    struct dew_date wall =
        dew_weather_by_clock(date, first->c.clock, first->c.site.utc_offset);
    struct march__feed feed = {0};
    unsigned open;
    size_t i = 0;

    for (size_t k = 0; k < b->count; k++)
        feed_house(b, k, h, light, &feed);
    fill_up(b, &feed);
    b->date = *date;
    open = b->kernel->hour(b->lanes, &feed, &wall, steps, way);
    if (open == 0)
        return DEW_OK;
    while (i + 1 < b->count && (open >> i & 1U) == 0)
        i++;
    if (failed != NULL)
        *failed = i;
    if (err != NULL && err->status == DEW_OK)
        err->hour = (int)h + 1;
    return core__fail(err, DEW_EBALANCE,
                      "the books of house %zu of the bundle do not close", i);
}

enum dew_status dew_bundle_step(struct dew_bundle *bundle, size_t h,
                                size_t *failed, struct dew_error *err)
{
    return march(bundle, h, bundle->houses[0].c.steps_per_hour, MARCH__LIVED,
                 failed, err);
}

enum dew_status dew_bundle_warm_up(struct dew_bundle *b, size_t *failed,
                                   struct dew_error *err)
{
    const struct dew_weather *w = &b->houses[0].weather;
    size_t end = march__first_year(w->dates, w->count);
    int steps = b->houses[0].c.steps_per_hour;
    struct march__light light[DEW_BUNDLE_MOST];
    struct march__feed feed = {0};
    enum dew_status status = DEW_OK;

    if (end == 0)
        return core__fail(err, DEW_ERANGE,
                          "a bundle is led in with a whole year");
    for (size_t k = 0; k < b->count; k++)
        feed_house(b, k, end - MARCH__LEAD - 1, light, &feed);
    fill_up(b, &feed);
    b->kernel->begin(b->lanes, &feed);
    for (size_t h = end - MARCH__LEAD; h < end && status == DEW_OK; h++)
        status = march(b, h, march__led_steps(h, end, steps),
                       march__led_way(h, end), failed, err);
    b->kernel->begin(b->lanes, NULL);
    return status;
}

long march__bundle_tries(const struct dew_bundle *bundle)
{
    return bundle->kernel->tries(bundle->lanes);
}

void dew_bundle_tally(struct dew_bundle *bundle, size_t which)
{
    bundle->kernel->tally(bundle->lanes, which, &bundle->date);
}

void dew_bundle_result(const struct dew_bundle *bundle, size_t i,
                       struct dew_result *out)
{
    bundle->kernel->result(bundle->lanes, (int)i, (double *)(void *)out);
}

void dew_bundle_total(const struct dew_bundle *bundle, size_t i, size_t which,
                      struct dew_tally *out)
{
    bundle->kernel->total(bundle->lanes, which, (int)i, (double *)(void *)out);
}
