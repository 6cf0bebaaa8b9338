/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Houses drawn from the ranges of a scenario: each is the house that --set
 * would make of the same figures, whatever the threads.
 */
#include "dew/spread.h"

#include <stddef.h>
#include <string.h>

#include "core/num.h"
#include "support/asked_run.h"
#include "support/rows.h"

/* Two options that branch apart; ranges of every kind. */
#define HOUSE                                                                  \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 1830 ft2 (1700 to 1900), bedrooms: 3, airtightness: " \
    "1.3 ach50 (0.7 to 2.6)}\n"                                                \
    "run: {steps_per_hour: 1}\n"                                               \
    "cooling: {capacity: 2.5 ton, shr: 74 %, cycles: 3.4 per hour (2 to 6)}\n" \
    "moisture: {showers: 4.2 per day, drying_half_life: 90 day (60 to 120)}\n" \
    "prices: {electricity: 0.18 $/kWh (0.12 to 0.40)}\n"
#define SCENARIO                                                               \
    HOUSE "options:\n"                                                         \
          "  - name: as it stands\n"                                           \
          "  - name: tight, with a core\n"                                     \
          "    house: {airtightness: 0.6 ach50 (0.4 to 1.1)}\n"                \
          "    ventilator: {core: enthalpy_plate, sensible: 71 % (60 to 80) "  \
          "at 95 cfm, moisture: 53 % at 95 cfm, power: 61 W}\n"                \
          "    dehumidifier: {rate: 70 pint/day, set: 61 % (57 to 68)}\n"      \
          "    costs: {install: 5000 $ (4000 to 7000)}\n"

enum { DRAWS = 9, OF_YEARS = 18 };

static struct dew_run *run_of(const char *text, const char *const *sets,
                              size_t set_count)
{
    return asked_with("house.yaml", text, sets, set_count);
}

static struct dew_spread *spread_of(const struct dew_run *run, size_t threads,
                                    unsigned long seed)
{
    const struct dew_spread_ask ask = {
        .draws = DRAWS, .seed = seed, .threads = threads, .told_only = 1};
    struct dew_error err = {0};
    struct dew_spread *s;
    double done = 0;
    char line[400];

    if (dew_spread_open(&s, run, &ask, &err) != DEW_OK)
        fail_msg("%s", dew_error_line(&err, line, sizeof line));
    while (done < 1)
        if (dew_spread_step(s, &done, &err) != DEW_OK)
            fail_msg("%s", dew_error_line(&err, line, sizeof line));
    return s;
}

/* One spread for the tests that only read. */
static struct dew_run *run;
static struct dew_spread *spread;

static int open_all(void **state)
{
    (void)state;
    run = run_of(SCENARIO, NULL, 0);
    spread = spread_of(run, 2, 3);
    return 0;
}

static int close_all(void **state)
{
    (void)state;
    dew_spread_close(spread);
    dew_run_close(run);
    return 0;
}

static const struct dew_spread_input *input(const char *path)
{
    size_t count, keys;
    const struct dew_spread_input *x = dew_spread_inputs(spread, &count);
    const struct dew_field *f = dew_scenario_fields(&keys);

    for (size_t i = 0; i < count; i++)
        if (strcmp(f[x[i].key].path, path) == 0)
            return &x[i];
    return NULL;
}

/* ---- what is doubted ----------------------------------------------------------- */

TEST(a_range_in_a_list_is_told_apart)
{
    struct dew_run *r = run_of(
        HOUSE "ventilator: {core: heat_plate, sensible: [71 % (60 to 80) at 95 "
              "cfm, 66 % at 140 cfm], power: 61 W}\n",
        NULL, 0);
    const struct dew_spread_ask ask = {.draws = DRAWS, .seed = 1, .threads = 1};
    struct dew_spread *s = NULL, *kept = spread;

    assert_int_equal(dew_spread_open(&s, r, &ask, NULL), DEW_OK);
    spread = s;
    assert_int_equal(input("ventilator.sensible")->why, DEW_SPREAD_LISTED);
    spread = kept;
    dew_spread_close(s);
    dew_run_close(r);
}

static const struct taken_row {
    const char *name;
    enum dew_spread_why why;
    size_t option;
    int each;
} taken_rows[] = {
    {"house.airtightness", DEW_SPREAD_DRAWN, 0, 1},
    {"house.floor_area", DEW_SPREAD_DRAWN, 0, 0},
    {"ventilator.sensible", DEW_SPREAD_DRAWN, 1, 1},
    {"dehumidifier.set", DEW_SPREAD_DRAWN, 1, 1},
    {"moisture.drying_half_life", DEW_SPREAD_STILL, 0, 0},
    {"prices.electricity", DEW_SPREAD_MONEY, 0, 0},
    {"costs.install", DEW_SPREAD_MONEY, 1, 1},
    {"cooling.shr", DEW_SPREAD_SURE, 0, 0},
    {"moisture.showers", DEW_SPREAD_SURE, 0, 0},
};

static void figures_are_taken_so(void **state)
{
    const struct taken_row *row = *state;
    const struct dew_spread_input *x = input(row->name);

    assert_non_null(x);
    assert_int_equal(x->why, row->why);
    assert_int_equal(x->option, row->option);
    assert_int_equal(x->each, row->each);
}
ROWS(taken_rows, figures_are_taken_so);

TEST(what_is_no_figure_of_the_house_is_not_listed)
{
    assert_null(input("run.steps_per_hour"));
    assert_null(input("house.bedrooms"));         /* a count                  */
    assert_null(input("surfaces.corner_factor")); /* a default's range       */
}

/* ---- what is drawn ------------------------------------------------------------- */

TEST(figures_stay_in_their_ranges_and_go_through_them)
{
    const struct dew_spread_input *x = input("house.floor_area");
    double least = INFINITY, most = 0, ft2 = 0.09290304;

    for (size_t i = 0; i < DRAWS; i++) {
        double a = dew_spread_figure(spread, x, i, 0);

        least = fmin(least, a);
        most = fmax(most, a);
        assert_near(dew_spread_figure(spread, x, i, 1), a, 0);
    }
    assert_true(least > 1700 * ft2 && least < 1780 * ft2);
    assert_true(most > 1860 * ft2 && most < 1900 * ft2);
    assert_near(dew_spread_figure(spread, x, DRAWS, 0), 1830 * ft2, 1e-9);
}

/* A key with other ranges in other options: each takes the draw's share of its
   own, so that what is leaky in one is leaky in all. */
TEST(a_range_of_its_own_is_gone_through)
{
    const struct dew_spread_input *x = input("house.airtightness");
    const struct core__pert own[2] = {{0.7, 1.3, 2.6}, {0.4, 0.6, 1.1}};

    for (size_t k = 0; k < 2; k++) {
        double unit = dew_spread_figure(spread, x, DRAWS, k) / own[k].likely;

        for (size_t i = 0; i < DRAWS; i++)
            assert_near(
                dew_spread_figure(spread, x, i, k),
                unit * core__pert_at(&own[k],
                                     dew_spread_share(spread, x->column, i)),
                1e-12);
    }
}

/* ---- the houses ---------------------------------------------------------------- */

static void march(struct dew_run *r)
{
    double done = 0;

    while (done < 1)
        assert_int_equal(dew_run_step(r, 8760, &done, NULL), DEW_OK);
}

static void is_the_same(const struct dew_drawn *h, const struct dew_outcome *o)
{
    assert_near(h->too_humid, o->year.too_humid, 0);
    assert_near(h->too_dry, o->year.too_dry, 0);
    assert_near(h->glass_wet, o->year.sweat[DEW_GLASS], 0);
    assert_near(h->short_of_air, o->year.fresh_short, 0);
    assert_near(h->short_heat, o->year.short_heat, 0);
    for (int m = 0; m < DEW_DRAWS_MONTHS; m++)
        assert_near(h->humid_month[m], o->month[m].too_humid, 0);
}

TEST(the_likely_house_is_that_of_the_run)
{
    struct dew_run *r = run_of(SCENARIO, NULL, 0);

    march(r);
    for (size_t i = 0; i < 2; i++)
        is_the_same(dew_spread_house(spread, DRAWS, i), dew_run_outcome(r, i));
    assert_true(dew_spread_house(spread, DRAWS, 0)->too_humid > 0);
    assert_true(dew_spread_house(spread, DRAWS, 0)->short_of_air > 8000);
    dew_run_close(r);
}

/* The figures of a draw typed in: option i alone, as its file says it. */
static struct dew_run *typed(size_t draw, size_t i)
{
    char text[2000], x[5][40];
    const char *keys[5] = {"house.floor_area", "house.airtightness",
                           "cooling.cycles", "ventilator.sensible",
                           "dehumidifier.set"};
    int n;

    for (size_t k = 0; k < 5; k++)
        snprintf(x[k], sizeof x[k], "%.17g",
                 dew_spread_figure(spread, input(keys[k]), draw, i) *
                     (k == 2 ? 3600 : 1));
    n = snprintf(
        text, sizeof text,
        "weather: {place: 722020}\n"
        "house: {floor_area: %s m2, bedrooms: 3, airtightness: %s ach50}\n"
        "run: {steps_per_hour: 1}\n"
        "cooling: {capacity: 2.5 ton, shr: 74 %%, cycles: %s per hour}\n"
        "moisture: {showers: 4.2 per day}\n",
        x[0], x[1], x[2]);
    if (i == 1)
        snprintf(text + n, sizeof text - (size_t)n,
                 "ventilator: {core: enthalpy_plate, sensible: %s at 95 cfm, "
                 "moisture: 53 %% at 95 cfm, power: 61 W}\n"
                 "dehumidifier: {rate: 70 pint/day, set: %s}\n",
                 x[3], x[4]);
    return run_of(text, NULL, 0);
}

TEST(a_drawn_house_is_the_house_typed)
{
    double humid[2] = {0, 0};
    int differs[2] = {0, 0};

    for (size_t draw = 0; draw < DRAWS; draw += 8)
        for (size_t i = 0; i < 2; i++) {
            struct dew_run *r = typed(draw, i);
            const struct dew_drawn *h = dew_spread_house(spread, draw, i);

            march(r);
            is_the_same(h, dew_run_outcome(r, 0));
            differs[i] += h->too_humid != humid[i];
            humid[i] = h->too_humid;
            dew_run_close(r);
        }
    assert_int_equal(differs[0], 2);
    assert_true(differs[1] > 0);
}

/* Byte for byte, but for what pads the end. */
static int alike(const struct dew_drawn *a, const struct dew_drawn *b)
{
    return memcmp(a, b, offsetof(struct dew_drawn, keeps)) == 0 &&
           a->keeps == b->keeps && a->ventilates == b->ventilates &&
           a->best == b->best;
}

/* Beside two threads; one: tests/run/test_effects.c. */
TEST(threads_change_nothing)
{
    struct dew_spread *s = spread_of(run, 3, 3);

    for (size_t d = 0; d <= DRAWS; d++)
        for (size_t i = 0; i < 2; i++)
            assert_true(alike(dew_spread_house(s, d, i),
                              dew_spread_house(spread, d, i)));
    dew_spread_close(s);
}

/* What is drawn is what is marched: see the houses typed. */
TEST(the_seed_makes_other_draws)
{
    for (unsigned long seed = 3; seed <= 4; seed++) {
        const struct dew_spread_ask ask = {
            .draws = DRAWS, .seed = seed, .threads = 1, .told_only = 1};
        struct dew_spread *s;

        assert_int_equal(dew_spread_open(&s, run, &ask, NULL), DEW_OK);
        for (size_t c = 0; c < dew_spread_columns(s); c++) {
            int same = 0;

            for (size_t d = 0; d < DRAWS; d++)
                same += !(fabs(dew_spread_share(s, c, d) -
                               dew_spread_share(spread, c, d)) > 0);
            assert_int_equal(same, seed == 3 ? DRAWS : 0);
        }
        dew_spread_close(s);
    }
}

/* ---- years, and the model's own error -------------------------------------------- */

static struct dew_spread *spread_with(const struct dew_run *r, int years,
                                      int model)
{
    const struct dew_spread_ask ask = {.draws = OF_YEARS,
                                       .seed = 1,
                                       .told_only = 1,
                                       .years = years,
                                       .model = model};
    struct dew_spread *s = NULL;
    double done = 0;

    assert_int_equal(dew_spread_open(&s, r, &ask, NULL), DEW_OK);
    while (done < 1)
        assert_int_equal(dew_spread_step(s, &done, NULL), DEW_OK);
    return s;
}

/* Made year number of a run of made years. */
static const struct dew_outcome *made(struct dew_run *r, int number)
{
    assert_int_equal(dew_run_made(r, number, NULL), DEW_OK);
    march(r);
    return dew_run_outcome(r, 0);
}

#define SURE                                                                   \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 1830 ft2, bedrooms: 3}\n"                             \
    "limits: {too_dry: 50 %}\n"                                                \
    "run: {steps_per_hour: 1}\n"                                               \
    "cooling: {capacity: 2.5 ton, shr: 74 %}\n"

TEST(a_drawn_year_is_that_made_year)
{
    struct dew_run *r = run_of(SURE, NULL, 0), *by_years;
    const struct dew_run_ask ask = {.name = "made",
                                    .text = SURE,
                                    .length = strlen(SURE),
                                    .job = DEW_RUN_YEARS};
    struct dew_spread *s = spread_with(r, 1, 0);
    int seen[DEW_SPREAD_YEARS] = {0};

    assert_int_equal(dew_spread_draws(s)->years, DEW_SPREAD_YEARS);
    assert_int_equal(dew_run_open(&by_years, &ask, NULL), DEW_OK);
    for (size_t d = 0; d < OF_YEARS; d++) {
        int year = dew_spread_year(s, d);

        assert_between(year, 0, DEW_SPREAD_YEARS - 1);
        if (seen[year]++ == 0 && year % 8 == 0)
            is_the_same(dew_spread_house(s, d, 0), made(by_years, year));
    }
    for (int y = 0; y < DEW_SPREAD_YEARS; y++)
        assert_true(seen[y] > 0);
    assert_int_equal(dew_spread_year(s, OF_YEARS), 0);
    dew_spread_close(s);
    dew_run_close(by_years);
    dew_run_close(r);
}

TEST(the_model_is_off_by_what_is_drawn)
{
    struct dew_run *r = run_of(SURE, NULL, 0);
    struct dew_spread *s = spread_with(r, 0, 1);
    double sum = 0, squares = 0;

    assert_near(dew_spread_draws(s)->model, 0.10, 0);
    for (size_t d = 0; d < OF_YEARS; d++) {
        double off = dew_spread_off(s, d);

        sum += off;
        squares += off * off;
    }
    /* its variance: end^2 / 7 */
    assert_near(sum / OF_YEARS, 0, 0.005);
    assert_near(sqrt(squares / OF_YEARS), 0.10 / sqrt(7), 0.004);
    for (size_t d = 0; d < OF_YEARS; d += 11) {
        char humid[60], dry[60];
        const char *const sets[] = {humid, dry};
        struct dew_run *typed_in;

        snprintf(humid, sizeof humid, "limits.too_humid=%.17g",
                 0.60 - dew_spread_off(s, d));
        snprintf(dry, sizeof dry, "limits.too_dry=%.17g",
                 0.50 - dew_spread_off(s, d));
        typed_in = run_of(SURE, sets, 2);
        march(typed_in);
        is_the_same(dew_spread_house(s, d, 0), dew_run_outcome(typed_in, 0));
        assert_true(dew_spread_house(s, d, 0)->too_dry > 0);
        dew_run_close(typed_in);
    }
    dew_spread_close(s);
    dew_run_close(r);
}

/* Ranges in one option alone; a list with a range; prices by the month, and
   the dearer machine to buy the cheaper to run. */
#define ONE_SIDED                                                                           \
    "weather: {place: 722020}\n"                                                            \
    "house: {floor_area: 1830 ft2, bedrooms: 3}\n"                                          \
    "run: {steps_per_hour: 1}\n"                                                            \
    "limits: {fresh_air_rule: none}\n"                                                      \
    "cooling: {capacity: 2.5 ton, shr: 74 %}\n"                                             \
    "prices: {electricity_by_month: [0.2 $/kWh, 0.2 $/kWh, 0.2 $/kWh, 0.2 "                 \
    "$/kWh, 0.2 $/kWh, 0.3 $/kWh, 0.3 $/kWh, 0.3 $/kWh, 0.3 $/kWh, 0.2 "                    \
    "$/kWh, 0.2 $/kWh, 0.2 $/kWh]}\n"                                                       \
    "options:\n"                                                                            \
    "  - name: cheap to buy\n"                                                              \
    "    dehumidifier: {rate: 70 pint/day, factor: 0.6 L/kWh, set: 50 %}\n"                 \
    "    costs: {install: 4900 $}\n"                                                        \
    "  - name: cheap to run\n"                                                              \
    "    dehumidifier: {rate: 70 pint/day, factor: 2.9 L/kWh, set: 50 % (45 "               \
    "to 55)}\n"                                                                             \
    "    costs: {install: 5000 $}\n"                                                        \
    "  - name: with a core\n"                                                               \
    "    ventilator: {core: heat_plate, flow: 90 cfm, power: 61 W, sensible: [71 % (60 to " \
    "80) at 95 cfm, 66 % at 140 cfm]}\n"                                                    \
    "    costs: {install: 7000 $}\n"

TEST(an_option_without_a_range_is_one_house_and_the_best_that_of_the_verdict)
{
    struct dew_run *r = run_of(ONE_SIDED, NULL, 0);
    struct dew_spread *s = spread_of(r, 2, 1);
    int differs = 0;

    for (size_t d = 0; d < DRAWS; d++) {
        for (size_t i = 0; i < 3; i += 2)
            assert_near(dew_spread_house(s, d, i)->too_humid,
                        dew_spread_house(s, DRAWS, i)->too_humid, 0);
        differs += dew_spread_figure(s, &dew_spread_inputs(s, &(size_t){0})[0],
                                     d, 1) != 0.5;
    }
    assert_int_equal(differs, DRAWS);
    march(r);
    is_the_same(dew_spread_house(s, DRAWS, 2), dew_run_outcome(r, 2));
    assert_true(dew_spread_house(s, 0, 2)->too_humid > 1000);

    assert_int_equal(dew_run_report(r, DEW_SYSTEM_SI)->verdict->best, 1);
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(dew_spread_house(s, DRAWS, i)->best, i == 1);
    assert_int_equal(dew_draws_shares(dew_spread_draws(s), 1).best, DRAWS);
    assert_int_equal(dew_spread_by(s), DEW_SPREAD_BY_MONEY);
    dew_spread_close(s);
    dew_run_close(r);
}

TEST(without_a_price_to_install_the_cheapest_to_run_is_best)
{
    const struct dew_spread_ask likely = {.threads = 1, .told_only = 1};
    const char *bare = "costs.install=none";
    struct dew_run *r = run_of(ONE_SIDED, &bare, 1);
    struct dew_spread *s = NULL;
    double done = 0;

    assert_int_equal(dew_spread_open(&s, r, &likely, NULL), DEW_OK);
    assert_int_equal(dew_spread_step(s, &done, NULL), DEW_OK);
    assert_int_equal(dew_spread_by(s), DEW_SPREAD_BY_RUNNING);
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(dew_spread_house(s, 0, i)->best, i == 1);
    dew_spread_close(s);
    dew_run_close(r);
}

/* ---- what they come to ----------------------------------------------------------- */

TEST(counts_are_those_of_the_houses)
{
    size_t none = DRAWS;

    for (size_t i = 0; i < 2; i++) {
        struct dew_draws_shares n =
            dew_draws_shares(dew_spread_draws(spread), i);
        size_t keeps = 0, ventilates = 0, best = 0;

        for (size_t d = 0; d < DRAWS; d++) {
            const struct dew_drawn *h = dew_spread_house(spread, d, i);

            keeps += (size_t)h->keeps;
            ventilates += (size_t)h->ventilates;
            best += (size_t)h->best;
            assert_int_equal(h->keeps, h->too_humid <= 0.02 * 8760 &&
                                           h->too_dry <= 0.02 * 8760 &&
                                           h->glass_wet <= 0.02 * 8760);
            assert_true(!h->best || (h->keeps && h->ventilates));
        }
        assert_int_equal(n.keeps, keeps);
        assert_int_equal(n.ventilates, ventilates);
        assert_int_equal(n.best, best);
        none -= best;
    }
    assert_int_equal(dew_draws_none(dew_spread_draws(spread)), none);
    assert_true(dew_draws_shares(dew_spread_draws(spread), 1).best > 0);
    assert_int_equal(dew_draws_shares(dew_spread_draws(spread), 0).ventilates,
                     0);
}

static int ascending(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;

    return (a > b) - (a < b);
}

TEST(hours_are_quantiles_of_the_draws)
{
    struct dew_draws_range r =
        dew_draws_range(dew_spread_draws(spread), 0, DEW_DRAWN_too_humid);
    double x[DRAWS];

    for (size_t d = 0; d < DRAWS; d++)
        x[d] = dew_spread_house(spread, d, 0)->too_humid;
    qsort(x, DRAWS, sizeof *x, ascending);
    assert_true(x[0] < x[DRAWS - 1]);
    assert_near(r.p10, dew_study_quantile(x, DRAWS, 0.1), 0);
    assert_near(r.p50, dew_study_quantile(x, DRAWS, 0.5), 0);
    assert_near(r.p90, dew_study_quantile(x, DRAWS, 0.9), 0);
    assert_near(r.told, dew_spread_house(spread, DRAWS, 0)->too_humid, 0);
}

/* Not told, so many that 1,024 years are marched at most, and 16 at least. */
TEST(fewer_are_drawn_where_there_are_many_options)
{
    static const size_t options[] = {8, 9, 33}, draws[] = {128, 64, 16};

    for (size_t k = 0; k < COUNT_OF(options); k++) {
        char text[4000];
        struct dew_run *r;
        int n =
            snprintf(text, sizeof text, "%s",
                     "weather: {place: 722020}\n"
                     "house: {floor_area: 170 m2, bedrooms: 3}\noptions:\n");

        for (size_t i = 0; i < options[k]; i++)
            n += snprintf(text + n, sizeof text - (size_t)n,
                          "  - name: option %zu\n", i + 1);
        r = run_of(text, NULL, 0);
        assert_int_equal(dew_run_draws(r), draws[k]);
        dew_run_close(r);
    }
}

/* ---- what is refused ------------------------------------------------------------- */

static const struct refused_row {
    const char *name, *text, *set;
    size_t draws;
    enum dew_status status;
    const char *says;
} refused_rows[] = {
    {"no range at all",
     "weather: {place: 722020}\nhouse: {floor_area: 170 m2, bedrooms: 3}\n",
     NULL, OF_YEARS, DEW_EMISSING,
     "no figure of the house has a range.  Write one behind a figure that you "
     "are not sure of: \"airtightness: 1.1 ach50 (0.7 to 2.0)\", likely (low "
     "to high)"},
    {"a range of nothing that is there",
     "weather: {place: 722020}\nhouse: {floor_area: 170 m2, bedrooms: 3}\n",
     "moisture.drying_half_life=90 day (60 to 120)", OF_YEARS, DEW_EMISSING,
     "of the figures with a range none changes a house of this scenario: there "
     "is nothing to draw"},
    {"most of a range is no house", HOUSE "temperature: {cool: 72 degF}\n",
     "temperature.heat=72 degF (69 to 85)", OF_YEARS, DEW_ERANGE,
     "heats to above what temperature.cool cools to: the lower one is for "
     "heating (so in 13 of the first 18 houses drawn: narrow the ranges)"},
    {"too many draws", HOUSE, NULL, 65537, DEW_ERANGE,
     "65537 draws are more than 65536"},
};

static void it_says_why(void **state)
{
    const struct refused_row *row = *state;
    const struct dew_spread_ask ask = {
        .draws = row->draws, .seed = 1, .threads = 1, .told_only = 1};
    struct dew_run *r = run_of(row->text, &row->set, row->set != NULL);
    struct dew_error err = {0};
    struct dew_spread *s = NULL;

    assert_int_equal(dew_spread_open(&s, r, &ask, &err), row->status);
    assert_null(s);
    assert_string_equal(err.text, row->says);
    dew_run_close(r);
}
ROWS(refused_rows, it_says_why);

RUN_TESTS_IN("spread", open_all, close_all);
