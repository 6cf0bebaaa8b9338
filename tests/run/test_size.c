/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sizes: that each figure tried is the house --set would make, that the size is
 * an edge of what is enough, and the closed form of a house with one source and
 * one flow of air.  What points say is tests/run/test_size_curve.c's.
 */
#include "dew/size.h"

#include <string.h>

#include "dew/air.h"
#include "run/size.h"
#include "support/rows.h"

enum { FAULTS = 8, ROOM = 1 << 20 };

static const double cfm = 4.719474432e-4;

static struct dew_size *size_of(const struct dew_run_ask *from, double share,
                                size_t draws, size_t threads)
{
    const struct dew_size_ask ask = {.from = from,
                                     .draws = draws,
                                     .seed = 2,
                                     .threads = threads,
                                     .share = share,
                                     .hours = NAN};
    struct dew_error list[FAULTS] = {{0}}, err = {0};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_size *s;
    char line[400];
    double done = 0, before = 0;

    if (dew_size_open(&s, &ask, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    while (done < 1) {
        if (dew_size_step(s, &done, &err) != DEW_OK)
            fail_msg("%s", dew_error_line(&err, line, sizeof line));
        assert_true(done >= before);
        before = done;
    }
    assert_int_equal(dew_size_step(s, &done, NULL), DEW_OK);
    return s;
}

/* ---- a closed form ----------------------------------------------------------- */

/*
 * 22 degC indoors and out, no wind, no sun: nothing leaks.  One steady source
 * g, air of w_out brought and taken by two fans: in the steady state
 *
 *     w = w_out + g / (rho flow)
 *
 * and the least flow that keeps w below that of the limit is
 * g / (rho (w_limit - w_out)).  From the water balance alone; the dehumidifier
 * stands still.
 */
#define STEADY                                                                 \
    "weather: {file: steady.csv}\n"                                            \
    "house: {floor_area: 140 m2, bedrooms: 3, airtightness: 0.5 ach50}\n"      \
    "temperature: {given: 22 degC}\n"                                          \
    "windows: {north: 0 m2, east: 0 m2, south: 0 m2, west: 0 m2}\n"            \
    "people: {count: 0, appliances: 0 W}\n"                                    \
    "moisture: {showers: 0 per day, cooking: none, dishes: 0 kg/day, plants: " \
    "0, other: 7.3 kg/day}\n"                                                  \
    "buffering: {class: none}\n"                                               \
    "surfaces: {edge_factor: 99 %, corner_factor: 99 %, glass_factor: 99 %}\n" \
    "limits: {fresh_air: 19 L/s}\n"                                            \
    "run: {steps_per_hour: 1}\n"                                               \
    "dehumidifier: {observed: 1 pint/day, running: 0 %}\n"                     \
    "ventilator: {core: balanced}\n"

static enum dew_status steady(void *of, const char *name, char **bytes,
                              size_t *length, struct dew_error *err)
{
    char *text = malloc(ROOM);
    size_t used;

    (void)of;
    (void)name;
    (void)err;
    used = (size_t)sprintf(
        text, "# latitude: 36.1\n# longitude: -79.9\n# utc offset: -5\n"
              "time,temperature (degC),dew point (degC),wind speed "
              "(m/s),global solar (W/m2)\n");
    for (int day = 0; day < 365; day++) {
        static const int length_of[] = {31, 28, 31, 30, 31, 30,
                                        31, 31, 30, 31, 30, 31};
        int month = 0, rest = day;

        while (rest >= length_of[month])
            rest -= length_of[month++];
        for (int hour = 0; hour < 24; hour++)
            used += (size_t)sprintf(text + used,
                                    "2021-%02d-%02d %02d:00,22,8.7,0,0\n",
                                    month + 1, rest + 1, hour);
    }
    used += (size_t)sprintf(text + used, "2022-01-01 00:00,22,8.7,0,0\n");
    *bytes = text;
    *length = used;
    return DEW_OK;
}

TEST(the_least_flow_is_that_of_the_water_balance)
{
    static const struct dew_files files = {NULL, steady};
    const struct dew_run_ask from = {.name = "steady.yaml",
                                     .text = STEADY,
                                     .length = sizeof STEADY - 1,
                                     .files = &files};
    struct dew_size *s = size_of(&from, 0.8, 0, 2);
    const char *why;
    const struct dew_run *run = dew_size_run(s, DEW_SIZE_CORE_own, &why);
    const struct dew_size_curve *c =
        dew_size_find(s, DEW_SIZE_CORE_own, DEW_SIZE_flow);
    double p = run->cases[0].pressure;
    double flow = 7.3 / 86400 /
                  (dew_air_density_run(p) *
                   (dew_air_w_rh_liquid(22, 0.6, p) - dew_air_w_dew(8.7, p)));

    assert_int_equal(dew_size_target(s).draws, 0);
    assert_int_equal(c->houses, 1);
    assert_true(c->found && c->at_last && !c->at_first);
    assert_int_equal(c->stretches, 1);
    assert_true(c->low >= flow * (1 - 1e-3));
    assert_true(c->low <= 1.03 * flow + 1 * cfm);
    assert_near(dew_size_outdoors(s).too_humid, 0, 0);
    assert_near(dew_size_outdoors(s).too_dry, 0, 0);
    assert_nan(dew_size_turn(c, DEW_DRAWN_too_humid));
    dew_size_close(s);
}

/* The same air is above a limit below its own humidity, all year. */
TEST(outdoor_air_above_the_limit_is_counted)
{
    static const struct dew_files files = {NULL, steady};
    static const char *const sets[] = {"limits.too_humid=40 %"};
    const struct dew_run_ask from = {.name = "steady.yaml",
                                     .text = STEADY,
                                     .length = sizeof STEADY - 1,
                                     .sets = sets,
                                     .set_count = 1,
                                     .files = &files};
    struct dew_size *s = size_of(&from, 0.8, 0, 2);
    const struct dew_size_curve *c =
        dew_size_find(s, DEW_SIZE_CORE_own, DEW_SIZE_flow);

    assert_near(dew_size_outdoors(s).too_humid, 8760,
                0); /* 42.6 % at 22 degC */
    assert_false(c->found);
    assert_nan(c->low);
    assert_int_equal(c->breaks, DEW_DRAWN_too_humid);
    /* one that is seen at work is not sized */
    assert_null(dew_size_find(s, DEW_SIZE_CORE_own, DEW_SIZE_dehumidifier));
    dew_size_close(s);
}

/* ---- each figure is the house of --set ------------------------------------------ */

/* Without machines, sun and stores, for it is marched some hundred times. */
#define DAMP                                                                   \
    "weather: {place: 722020}\n"                                               \
    "house: {floor_area: 1830 ft2, bedrooms: 3, airtightness: 1.3 ach50 (0.7 " \
    "to 2.6)}\n"                                                               \
    "run: {steps_per_hour: 1}\n"                                               \
    "temperature: {given: 75 degF}\n"                                          \
    "windows: {north: 0 m2, east: 0 m2, south: 0 m2, west: 0 m2}\n"            \
    "buffering: {class: none}\n"                                               \
    "options:\n"                                                               \
    "  - name: as it stands\n"                                                 \
    "  - name: core.one\n"                                                     \
    "    ventilator: {core: heat_plate, sensible: 71 % at 95 cfm, power: 61 "  \
    "W, flow: 95 cfm, exhaust_flow: 90 cfm, boost_flow: 140 cfm}\n"            \
    "    control: {boost_above: 65 %}\n"                                       \
    "    dehumidifier: {rate: 12 pint/day, power: 210 W}\n"

static const struct dew_run_ask damp = {
    .name = "damp.yaml", .text = DAMP, .length = sizeof DAMP - 1};

static struct dew_size *sized;

static int open_all(void **state)
{
    (void)state;
    sized = size_of(&damp, 0.5, 3, 2);
    return 0;
}

static int close_all(void **state)
{
    (void)state;
    dew_size_close(sized);
    return 0;
}

static double humid_with(const char *const *sets, size_t count)
{
    static const char *const option = "core.one";
    const struct dew_run_ask ask = {.name = "damp.yaml",
                                    .text = DAMP,
                                    .length = sizeof DAMP - 1,
                                    .sets = sets,
                                    .set_count = count,
                                    .options = &option,
                                    .option_count = 1};
    const struct dew_spread_ask alone = {.seed = 1, .threads = 1};
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_spread *s = NULL;
    struct dew_run *run = NULL;
    double done = 0, hours;

    assert_int_equal(dew_run_open(&run, &ask, &faults), DEW_OK);
    assert_int_equal(dew_spread_open(&s, run, &alone, NULL), DEW_OK);
    while (done < 1)
        assert_int_equal(dew_spread_step(s, &done, NULL), DEW_OK);
    hours = dew_spread_house(s, 0, 0)->too_humid;
    dew_spread_close(s);
    dew_run_close(run);
    return hours;
}

/* The first figure of a curve that has so many houses enough. */
static const struct dew_size_curve *curve(enum dew_size_core core,
                                          enum dew_size_knob knob)
{
    const struct dew_size_curve *c = dew_size_find(sized, core, knob);

    assert_non_null(c);
    return c;
}

static void set_si(char out[100], const char *key, double x, const char *unit)
{
    snprintf(out, 100, "%s=%.12g%s", key, x, unit);
}

TEST(a_flow_is_that_of_set_with_fans_and_stale_air_in_step)
{
    const struct dew_size_curve *c = curve(DEW_SIZE_CORE_own, DEW_SIZE_flow);

    for (size_t i = 0; i < c->count; i += 3) {
        double v = c->points[i].value, by = v / (95 * cfm);
        char sets[4][100];
        const char *const list[] = {sets[0], sets[1], sets[2], sets[3]};

        set_si(sets[0], "ventilator.flow", v, " m3/s");
        set_si(sets[1], "ventilator.exhaust_flow", by * 90 * cfm, " m3/s");
        set_si(sets[2], "ventilator.power", by * 61, " W");
        set_si(sets[3], "ventilator.boost_flow", v, " m3/s"); /* continuous */
        assert_near(c->points[i].hours[DEW_DRAWN_too_humid].told,
                    humid_with(list, 4), 1e-3);
    }
}

TEST(a_boost_is_that_of_set_at_the_flow_told)
{
    const struct dew_size_curve *c = curve(DEW_SIZE_CORE_own, DEW_SIZE_boost);
    char set[100];
    const char *const list[] = {set};

    assert_near(c->at_flow, 95 * cfm, 1e-9);
    set_si(set, "ventilator.boost_flow", c->points[2].value, " m3/s");
    assert_near(c->points[2].hours[DEW_DRAWN_too_humid].told,
                humid_with(list, 1), 1e-3);
}

TEST(a_dehumidifier_is_that_of_set_with_its_watts_in_step)
{
    const struct dew_size_curve *c =
        curve(DEW_SIZE_CORE_own, DEW_SIZE_dehumidifier);
    double v = c->points[3].value;
    char sets[2][100];
    const char *const list[] = {sets[0], sets[1]};

    set_si(sets[0], "dehumidifier.rate", v * 86400, " kg/day");
    set_si(sets[1], "dehumidifier.power", 210 * v / (12 * 0.473176473 / 86400),
           " W");
    assert_near(c->points[3].hours[DEW_DRAWN_too_humid].told,
                humid_with(list, 2), 1e-3);
}

TEST(a_set_point_is_that_of_set)
{
    const struct dew_size_curve *c =
        curve(DEW_SIZE_CORE_own, DEW_SIZE_set_point);
    char sets[3][100];
    const char *const list[] = {sets[0], sets[1], sets[2]};

    set_si(sets[0], "dehumidifier.rate", c->rate * 86400, " kg/day");
    set_si(sets[1], "dehumidifier.power",
           210 * c->rate / (12 * 0.473176473 / 86400), " W");
    set_si(sets[2], "dehumidifier.set", 100 * c->points[1].value, " %");
    assert_near(c->points[1].hours[DEW_DRAWN_too_humid].told,
                humid_with(list, 3), 1e-3);
}

TEST(another_core_is_the_typical_one)
{
    static const char *const sets[] = {
        "options.core.one.ventilator=none",
        "options.core.one.ventilator={core: enthalpy_plate, typical: yes, "
        "flow: 90 cfm}"};
    const struct dew_size_curve *c =
        curve(DEW_SIZE_CORE_enthalpy, DEW_SIZE_flow);
    double asked = dew_size_target(sized).asked;
    char set[100];
    const char *const list[] = {sets[0], sets[1], set};
    const char *why;

    assert_null(dew_size_run(sized, DEW_SIZE_CORE_heat, &why)); /* as told */
    assert_string_equal(why, "");
    set_si(set, "ventilator.flow", 0.5 * asked, " m3/s");
    for (size_t i = 0; i < c->count; i++)
        if (fabs(c->points[i].value - 0.5 * asked) < 1e-9)
            assert_near(c->points[i].hours[DEW_DRAWN_too_humid].told,
                        humid_with(list, 3), 1e-3);
}

TEST(a_size_is_an_edge)
{
    const struct dew_size_curve *c =
        curve(DEW_SIZE_CORE_own, DEW_SIZE_dehumidifier);
    size_t i = 0;

    assert_true(c->found);
    while (!c->points[i].enough)
        i++;
    assert_true(i > 0);
    assert_near(c->points[i].value, c->low, 0);
    assert_true(c->points[i].does >= c->need);
    assert_true(c->points[i - 1].does < c->need);
    assert_true(c->low - c->points[i - 1].value <
                1.001 * 0.473176473 / 86400); /* a pint a day */
    assert_int_equal(c->need, 2);             /* of 3 */
}

TEST(points_rise)
{
    const struct dew_size_curve *c;
    size_t i = 0;

    for (; (c = dew_size_curve(sized, i)) != NULL; i++)
        for (size_t k = 1; k < c->count; k++)
            assert_true(c->points[k].value > c->points[k - 1].value);
    assert_true(i >= 6);
}

/* Airflow alone is called for within such limits. */
TEST(what_is_not_called_for_is_not_tried)
{
    static const char *const sets[] = {
        "limits.too_humid=100 %", "limits.too_dry=5 %", "dehumidifier=none",
        "options.core.one.control=none", "options.core.one.dehumidifier=none"};
    struct dew_run_ask from = damp;
    const struct dew_size_curve *c;
    struct dew_size *s;
    size_t i = 0;

    from.sets = sets;
    from.set_count = COUNT_OF(sets);
    s = size_of(&from, 0.75, 0, 2);
    for (; (c = dew_size_curve(s, i)) != NULL; i++)
        assert_int_equal(c->knob, DEW_SIZE_flow);
    assert_int_equal(i, 2);
    dew_size_close(s);
}

static struct dew_size *opened(const struct dew_size_ask *ask)
{
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_size *s;

    assert_int_equal(dew_size_open(&s, ask, &faults), DEW_OK);
    return s;
}

/* More houses than a bundle has lanes; a few figures of them are enough. */
TEST(threads_change_nothing)
{
    enum { FIGURES = 3 };
    struct dew_size *of[2];

    for (size_t k = 0; k < 2; k++) {
        const struct dew_size_ask ask = {&damp, 8, 2, k + 1, 0.75,
                                         NAN,   0, 0, 0};
        double done;

        of[k] = opened(&ask);
        for (int i = 0; i < FIGURES; i++)
            assert_int_equal(dew_size_step(of[k], &done, NULL), DEW_OK);
        assert_int_equal(of[k]->curves[0].told.count, FIGURES);
    }
    assert_memory_equal(of[0]->curves[0].points, of[1]->curves[0].points,
                        FIGURES * sizeof of[0]->curves[0].points[0]);
    dew_size_close(of[0]);
    dew_size_close(of[1]);
}

/* ---- what is refused ---------------------------------------------------------------- */

static const struct refused_row {
    const char *name;
    double share, hours;
    size_t options;
    enum dew_status status;
    const char *says;
} refused_rows[] = {
    {"no share", 0, NAN, 0, DEW_ERANGE, "a share of the houses is 0 < .. 1"},
    {"more than all", 1.01, NAN, 0, DEW_ERANGE,
     "a share of the houses is 0 < .. 1"},
    {"hours below none", 0.8, -1, 0, DEW_ERANGE, "hours are 0 or more"},
    {"two options", 0.8, NAN, 2, DEW_EAMBIGUOUS,
     "one option is sized at a time: name one"},
};

static void it_says_why(void **state)
{
    static const char *const names[] = {"as it stands", "core.one"};
    const struct refused_row *row = *state;
    struct dew_run_ask from = damp;
    const struct dew_size_ask ask = {
        .from = &from, .draws = 8, .share = row->share, .hours = row->hours};
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_size *s = NULL;

    from.options = names;
    from.option_count = row->options;
    assert_int_equal(dew_size_open(&s, &ask, &faults), row->status);
    assert_null(s);
    assert_string_equal(list[0].text, row->says);
}
ROWS(refused_rows, it_says_why);

/* ---- years and the model's own error --------------------------------------------- */

/* Of the own core's curve the last flow alone is tried. */
static struct dew_draws_range highest_flow(int years, int model, int *of_years)
{
    const struct dew_size_ask ask = {&damp, 16, 2,     0,    0.8,
                                     NAN,   0,  years, model};
    struct dew_size *s = opened(&ask);
    struct run__size_curve *c = &s->curves[0];
    struct dew_draws_range r;

    assert_int_equal(run__size_plan(s, DEW_SIZE_CORE_own, DEW_SIZE_flow, c), 1);
    assert_int_equal(run__size_try(s, c, c->grid[c->grid_count - 1], NULL),
                     DEW_OK);
    r = c->points[0].hours[DEW_DRAWN_too_humid];
    *of_years = dew_size_target(s).years;
    assert_near(dew_size_target(s).model, model ? DEW_SPREAD_MODEL : 0, 0);
    dew_size_close(s);
    return r;
}

TEST(the_band_is_wider_by_years_and_the_models_own_error)
{
    int years;
    struct dew_draws_range bare = highest_flow(0, 0, &years);
    struct dew_draws_range with_model = highest_flow(0, 1, &years);

    assert_int_equal(years, 1);
    struct dew_draws_range with_years = highest_flow(1, 0, &years);
    assert_int_equal(years, DEW_SPREAD_YEARS);
    assert_near(with_years.told, bare.told, 1e-9); /* the house as told */
    assert_near(with_model.told, bare.told, 1e-9);
    assert_true(fabs(with_years.p90 - bare.p90) > 1);
    assert_true(with_model.p90 - with_model.p10 > 1.2 * (bare.p90 - bare.p10));
}

RUN_TESTS_IN("size", open_all, close_all);
