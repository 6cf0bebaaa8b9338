/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Made years against the real ones that their months' figures come from, and
 * the split of global light against theirs.  The files are not part of the
 * project; without them the tests are skipped.
 */
#include "weather/files.h"

#include "core/num.h"
#include "dew/made.h"
#include "dew/sun.h"
#include "support/damp.h"

static const struct place_row {
    const char *name, *file, *id;
} places[] = {
    {"Miami", "weather/tmy3/722020TYA.CSV", "722020"},
    {"Minneapolis", "weather/tmy3/726580TYA.CSV", "726580"},
    {"Phoenix", "weather/tmy3/722780TYA.CSV", "722780"},
    {"Seattle", "weather/tmy3/727930TYA.CSV", "727930"},
    {"Greensboro", "weather/tmy3/723170TYA.CSV", "723170"},
    {"Sand Point", "weather/tmy3/703165TY.csv", "703165"},
};
enum { PLACES = COUNT_OF(places), SEEDS = 5 };

static int open_real(struct reading *r, const struct place_row *place)
{
    char path[300];

    if (data_path(path, sizeof path, place->file) == NULL)
        return 0;
    read_file(r, path, NULL);
    assert_int_equal(r->status, DEW_OK);
    assert_int_equal(r->count, 8760);
    return 1;
}

/* Highest and lowest hour of each month, t and dew point. */
enum { T_HIGH, T_LOW, TD_HIGH, TD_LOW, ENDS };

struct year {
    struct damp damp;
    double ends[12][ENDS];
};

/* Of each place the real year and those made, read once for all rows. */
static struct pair {
    int read;
    struct dew_climate place;
    struct year real, made[SEEDS];
} pairs[PLACES];

static void ends_of(const struct dew_hour *h, const struct dew_date *d,
                    size_t count, double ends[12][ENDS])
{
    for (int m = 0; m < 12; m++) {
        ends[m][T_HIGH] = ends[m][TD_HIGH] = -INFINITY;
        ends[m][T_LOW] = ends[m][TD_LOW] = INFINITY;
    }
    for (size_t i = 0; i < count; i++) {
        double *e = ends[d[i].month - 1];
        double td = dew_air_dew_liquid(h[i].w, h[i].p);

        e[T_HIGH] = fmax(e[T_HIGH], h[i].t);
        e[T_LOW] = fmin(e[T_LOW], h[i].t);
        e[TD_HIGH] = fmax(e[TD_HIGH], td);
        e[TD_LOW] = fmin(e[TD_LOW], td);
    }
}

static struct year made_year(const struct dew_climate *place,
                             unsigned long seed)
{
    struct dew_made how = {.seed = seed};
    struct dew_year *year;
    const struct dew_hour *hours;
    const struct dew_date *dates;
    struct year made;
    size_t count;

    assert_int_equal(dew_made_open(place, &how, &year, NULL), DEW_OK);
    hours = dew_year_hours(year, &count);
    dates = dew_year_dates(year, &count);
    made.damp = damp_of(hours, count);
    ends_of(hours, dates, count, made.ends);
    dew_year_close(year);
    return made;
}

/* NULL: the file is not there. */
static const struct pair *pair_of(size_t p)
{
    struct pair *pair = &pairs[p];
    struct reading r;

    if (pair->read)
        return pair;
    if (!open_real(&r, &places[p]))
        return NULL;
    pair->real.damp = damp_of(r.hours, r.count);
    ends_of(r.hours, r.dates, r.count, pair->real.ends);
    dew_year_close(r.year);
    assert_int_equal(dew_climate_find(places[p].id, &pair->place, NULL),
                     DEW_OK);
    for (unsigned long seed = 1; seed <= SEEDS; seed++)
        pair->made[seed - 1] = made_year(&pair->place, seed);
    pair->read = 1;
    return pair;
}

/* Is a count of hours within a share of the real one, or within hours? */
static int near_count(double got, double want, double share, double hours)
{
    return fabs(got - want) <= fmax(hours, share * want);
}

static const struct count_row {
    const char *name;
    size_t offset;
} counts[] = {
    {"hours with dew point above 60 degF", offsetof(struct damp, above_60)},
    {"hours too humid in a house with people", offsetof(struct damp, humid)},
    {"hours too humid in an empty house", offsetof(struct damp, empty_humid)},
    {"hours too dry in a house with people", offsetof(struct damp, dry)},
    {"hours too dry in an empty house", offsetof(struct damp, empty_dry)},
};

static double count_of(const struct damp *d, const struct count_row *row)
{
    return *(const double *)(const void *)((const char *)d + row->offset);
}

/*
 * The mean of some seeds: 10 % or 60 h at half of the places or more, 25 % or
 * 100 h at each.
 */
static void made_years_are_as_damp_as_real_ones(void **state)
{
    const struct count_row *row = *state;
    int close = 0;

    for (size_t p = 0; p < PLACES; p++) {
        const struct pair *pair = pair_of(p);
        double got = 0.0, want;

        if (pair == NULL)
            skip();
        want = count_of(&pair->real.damp, row);
        for (size_t k = 0; k < SEEDS; k++)
            got += count_of(&pair->made[k].damp, row) / SEEDS;
        close += near_count(got, want, 0.10, 60.0);
        print_message("%s: made %.0f, real %.0f\n", places[p].name, got, want);
        assert_true(near_count(got, want, 0.25, 100.0));
    }
    assert_true(2 * close >= (int)PLACES);
}

/* Made less real over the seeds and the months of six places whose days' dew
   points deviate by less than td_sd, K: the mean within off, a quarter of them
   above and below by no more than quarter. */
static const struct end_row {
    const char *name;
    int end;
    double td_sd, off, quarter;
} end_rows[] = {
    {"highest t of a month", T_HIGH, 99.0, 0.6, 2.2},
    {"lowest t of a month", T_LOW, 99.0, 0.4, 2.2},
    {"highest dew point of a month", TD_HIGH, 99.0, 0.4, 2.0},
    {"highest dew point of a month of like days", TD_HIGH, 2.0, 0.5, 1.5},
    {"lowest dew point of a month", TD_LOW, 99.0, 0.4, 2.6},
};

static void made_months_reach_as_far_as_real_ones(void **state)
{
    const struct end_row *row = *state;
    static double off[PLACES * SEEDS * 12];
    size_t n = 0;

    for (size_t p = 0; p < PLACES; p++) {
        const struct pair *pair = pair_of(p);

        if (pair == NULL)
            skip();
        for (size_t k = 0; k < SEEDS; k++)
            for (int m = 0; m < 12; m++)
                if (pair->place.month[m].td_sd < row->td_sd)
                    off[n++] = pair->made[k].ends[m][row->end] -
                               pair->real.ends[m][row->end];
    }
    core__sort(off, n);
    print_message("mean %.2f, quarters %.2f and %.2f K\n", core__mean(off, n),
                  core__quantile(off, n, 0.25), core__quantile(off, n, 0.75));
    assert_near(core__mean(off, n), 0.0, row->off);
    assert_near(core__quantile(off, n, 0.25), 0.0, row->quarter);
    assert_near(core__quantile(off, n, 0.75), 0.0, row->quarter);
}

/* What dew_weather_split says of its accuracy. */
static void the_split_is_as_near_as_stated(void **state)
{
    const struct place_row *row = *state;
    struct reading r;
    static double off[8760], beam[8760];
    double bias = 0.0, squares = 0.0, beams = 0.0;
    size_t n = 0;

    if (!open_real(&r, row))
        skip();
    for (size_t i = 0; i < r.count; i++) {
        struct dew_sun s = dew_weather_sun(dew_year_site(r.year), &r.dates[i]);
        double direct, diffuse;

        if (!(s.up > 0.0) || r.hours[i].global <= 0.0)
            continue;
        dew_weather_split(&s, r.hours[i].global, &direct, &diffuse);
        assert_near(diffuse + direct * s.horizontal / s.normal,
                    r.hours[i].global, 1e-9 * r.hours[i].global);
        bias += diffuse - r.hours[i].diffuse;
        off[n] = fabs(diffuse - r.hours[i].diffuse);
        beam[n] = fabs(direct - r.hours[i].direct);
        squares += off[n] * off[n];
        beams += beam[n] * beam[n];
        n++;
    }
    dew_year_close(r.year);
    core__sort(off, n);
    core__sort(beam, n);
    print_message("%s: diffuse bias %.1f, median %.1f, rms %.1f; direct median "
                  "%.1f, rms %.1f W/m2\n",
                  row->name, bias / (double)n, core__quantile(off, n, 0.5),
                  sqrt(squares / (double)n), core__quantile(beam, n, 0.5),
                  sqrt(beams / (double)n));
    assert_near(bias / (double)n, 0.0, 12.0);
    assert_near(core__quantile(off, n, 0.5), 0.0, 25.0);
    assert_near(sqrt(squares / (double)n), 0.0, 55.0);
    assert_near(core__quantile(beam, n, 0.5), 0.0, 55.0);
    assert_near(sqrt(beams / (double)n), 0.0, 120.0);
}

/* The sun beyond the air and hour by hour: a real year's light fits under it,
   and its direct, diffuse and global agree with the sun's height. */
static void the_sun_agrees_with_the_files(void **state)
{
    const struct place_row *row = *state;
    struct reading r;
    double off = 0.0, sum = 0.0, dark = 0.0;

    if (!open_real(&r, row))
        skip();
    for (size_t i = 0; i < r.count; i++) {
        const struct dew_hour *h = &r.hours[i];
        struct dew_sun s = dew_weather_sun(dew_year_site(r.year), &r.dates[i]);
        double level = h->diffuse + h->direct * s.horizontal / s.normal;

        off += fabs(level - h->global);
        sum += h->global;
        if (s.up == 0.0)
            dark += h->global;
    }
    dew_year_close(r.year);
    print_message("%s: off by %.2f %% of the light, dark %.3f %%\n", row->name,
                  100.0 * off / sum, 100.0 * dark / sum);
    assert_near(off / sum, 0.0, 0.03);
    assert_near(dark / sum, 0.0, 0.001);
}

ROWS(counts, made_years_are_as_damp_as_real_ones);
ROWS(end_rows, made_months_reach_as_far_as_real_ones);
ROWS(places, the_split_is_as_near_as_stated);
ROWS(places, the_sun_agrees_with_the_files);
RUN_TESTS("weather, made and real");
