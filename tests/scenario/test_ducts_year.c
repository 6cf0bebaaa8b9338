/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The five layouts through a humid and a cold year: what must hold whatever
 * the figures.  Runs scenarios/ducts_humid.yaml and ducts_cold.yaml.
 */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dew/made.h"
#include "dew/scenario.h"
#include "dew/study.h"

enum climate { HUMID, COLD, CLIMATES };
enum { OPTIONS = 20 };

struct ran {
    struct dew_scenario *scenario;
    struct dew_year *year;
    struct dew_study *study;
    struct dew_case cases[OPTIONS];
    const struct dew_outcome *outcomes;
    size_t count;
};
static struct ran ran[CLIMATES];

static struct dew_scenario *read_scenario(const char *path)
{
    static char text[20000];
    struct dew_error list[2] = {{0}};
    struct dew_faults faults = {list, 2, 0};
    FILE *in = fopen(path, "r");
    struct dew_scenario_source from = {text, 0, path, NULL, 0};
    struct dew_scenario *s = NULL;
    char line[400];

    assert_non_null(in);
    from.length = fread(text, 1, sizeof text, in);
    fclose(in);
    if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    return s;
}

static void march_all(struct ran *r, const struct dew_outdoors *outdoors)
{
    struct dew_option options[OPTIONS];
    struct dew_weather weather;
    struct dew_error err = {0};
    double done = 0;
    size_t count = dew_scenario_count(r->scenario), dates;

    assert_true(count <= OPTIONS);
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(dew_scenario_case(r->scenario, i, outdoors, NULL,
                                           &r->cases[i], &err),
                         DEW_OK);
        options[i] = (struct dew_option){
            .name = dew_scenario_name(r->scenario, i),
            .c = &r->cases[i],
            .required = dew_scenario_required(r->scenario, i)};
    }
    weather.hours = dew_year_hours(r->year, &weather.count);
    weather.dates = dew_year_dates(r->year, &dates);
    assert_int_equal(dew_study_open(&r->study, options, count, &weather, &err),
                     DEW_OK);
    while (done < 1)
        assert_int_equal(dew_study_step(r->study, 8760, &done, &err), DEW_OK);
    r->outcomes = dew_study_outcomes(r->study, &r->count);
}

static int run_both(void **state)
{
    static const char *const paths[] = {"scenarios/ducts_humid.yaml",
                                        "scenarios/ducts_cold.yaml"};
    const char *kind = getenv("DEW_KIND");

    (void)state;
    if (kind != NULL && strcmp(kind, "gcc") != 0)
        return 0; /* two years of thirteen options: in one build only */
    for (int k = 0; k < CLIMATES; k++) {
        struct dew_climate climate;
        struct dew_made how = {.seed = DEW_MADE_SEED};
        struct dew_outdoors outdoors;
        struct dew_error err = {0};

        ran[k].scenario = read_scenario(paths[k]);
        assert_int_equal(
            dew_climate_find(dew_scenario_weather(ran[k].scenario).place,
                             &climate, &err),
            DEW_OK);
        assert_int_equal(dew_made_open(&climate, &how, &ran[k].year, &err),
                         DEW_OK);
        assert_int_equal(dew_scenario_outdoors(ran[k].year, &outdoors, &err),
                         DEW_OK);
        march_all(&ran[k], &outdoors);
    }
    return 0;
}

static int close_both(void **state)
{
    (void)state;
    for (int k = 0; k < CLIMATES; k++) {
        dew_study_close(ran[k].study);
        dew_year_close(ran[k].year);
        dew_scenario_close(ran[k].scenario);
    }
    return 0;
}

static const struct dew_tally *year_of(enum climate climate, const char *option)
{
    size_t i = dew_scenario_find(ran[climate].scenario, option);

    if (i >= ran[climate].count)
        fail_msg("no option \"%s\"", option);
    return &ran[climate].outcomes[i].year;
}

/* ---- the signs ------------------------------------------------------------- */

static double humid(const struct dew_tally *y)
{
    return y->too_humid;
}

static double fresh(const struct dew_tally *y)
{
    return y->fresh_sum / y->hours;
}

static double blower(const struct dew_tally *y)
{
    return y->energy.blower;
}

static double putback(const struct dew_tally *y)
{
    return y->water.putback;
}

static double suction(const struct dew_tally *y)
{
    return 1e-6 - y->pressure_min;
}

static double fans(const struct dew_tally *y)
{
    return y->energy.ventilator;
}

/* of(more) > factor of(less) */
static const struct sign_row {
    const char *name;
    enum climate climate;
    double (*of)(const struct dew_tally *y);
    const char *more;
    double factor;
    const char *less;
} sign_rows[] = {
    /* clang-format off */
    {"a blower that runs along uses more, humid", HUMID, blower, "return tie, blower along", 1.5, "own ducts"},
    {"a blower that runs along uses more, cold", COLD, blower, "return tie, blower along", 1.5, "own ducts"},
    {"it uses more than the ventilator's own fans", COLD, blower, "the mix, blower along", 1, "the mix"},
    {"a wet coil gives back under a running blower, humid", HUMID, putback, "return tie, blower along", 2, "own ducts"},
    {"a wet coil gives back under a running blower, cold", COLD, putback, "the mix, blower along", 2, "the mix"},
    {"and leaves the house damper", HUMID, humid, "return tie, blower along", 1, "own ducts"},
    {"also with two air handlers", HUMID, humid, "two, return tie, along", 1, "two handlers, own ducts"},
    {"and with the mix", HUMID, humid, "two, the mix, along", 1, "two, the mix"},
    {"the blower holds back a supply tie, humid", HUMID, fresh, "own ducts", 1, "supply tie"},
    {"the blower holds back a supply tie, cold", COLD, fresh, "own ducts", 1, "supply tie"},
    {"and the house is sucked on", HUMID, suction, "supply tie", 100, "own ducts"},
    {"half goes straight back, return to supply", HUMID, fresh, "own ducts", 1.5, "return to supply"},
    {"the blower's suction helps the mix", HUMID, fresh, "the mix", 1, "own ducts"},
    {"and more while it runs along", COLD, fresh, "the mix, blower along", 1, "the mix"},
    {"a ventilator is more air than none", COLD, fresh, "own ducts", 1, "as it stands"},
    {"outdoor air wets a house on a humid coast", HUMID, humid, "own ducts", 1, "as it stands"},
    {"and dries one in the cold", COLD, humid, "as it stands", 2, "own ducts"},
    /* clang-format on */
};

static void sign_row(void **state)
{
    const struct sign_row *r = *state;
    double more, less;

    if (ran[r->climate].study == NULL)
        skip();
    more = r->of(year_of(r->climate, r->more));
    less = r->of(year_of(r->climate, r->less));
    if (!(more > r->factor * less))
        fail_msg("%s %g, %s %g", r->more, more, r->less, less);
}

/* Own ducts know nothing of air handlers: two half ones are as one. */
static void own_ducts_do_not_count_air_handlers(void **state)
{
    (void)state;
    if (ran[HUMID].study == NULL)
        skip();
    for (int k = 0; k < CLIMATES; k++) {
        const struct dew_tally *one = year_of((enum climate)k, "own ducts");
        const struct dew_tally *two =
            year_of((enum climate)k, "two handlers, own ducts");

        assert_near(fresh(two), fresh(one), 1e-9);
        assert_near(fans(two), fans(one), 1e-3 * fans(one));
        assert_near(humid(two), humid(one), 0.02 * humid(one) + 2);
        assert_near(putback(two), putback(one), 0.02 * putback(one));
    }
}

static void the_books_of_every_layout_close(void **state)
{
    (void)state;
    if (ran[HUMID].study == NULL)
        skip();
    for (int k = 0; k < CLIMATES; k++)
        for (size_t i = 0; i < ran[k].count; i++) {
            assert_true(ran[k].outcomes[i].water_residual < 1e-9);
            assert_true(ran[k].outcomes[i].heat_residual < 1e-9);
        }
}

int main(void)
{
    struct CMUnitTest tests[40] = {
        cmocka_unit_test(own_ducts_do_not_count_air_handlers),
        cmocka_unit_test(the_books_of_every_layout_close),
    };
    size_t n = 2;

    ADD_ROWS(tests, n, sign_rows, sign_row);
    return _cmocka_run_group_tests("layouts through a year", tests, n, run_both,
                                   close_both);
}
