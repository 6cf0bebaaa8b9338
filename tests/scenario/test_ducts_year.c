/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The five layouts through a humid and a cold year: what must hold whatever
 * the figures.  Runs scenarios/ducts_humid.yaml and ducts_cold.yaml.
 */
#include "support/rows.h"

#include "support/asked_run.h"

enum climate { HUMID, COLD, CLIMATES };

static struct dew_run *ran[CLIMATES];

static int run_both(void **state)
{
    static const char *const paths[] = {"scenarios/ducts_humid.yaml",
                                        "scenarios/ducts_cold.yaml"};

    (void)state;
    for (int k = 0; k < CLIMATES; k++)
        ran[k] = marched_run(paths[k], NULL);
    return 0;
}

static int close_both(void **state)
{
    (void)state;
    for (int k = 0; k < CLIMATES; k++)
        dew_run_close(ran[k]);
    return 0;
}

static const struct dew_tally *year_of(enum climate climate, const char *option)
{
    struct dew_run *run = ran[climate];
    size_t i = dew_scenario_find(dew_run_scenario(run), option);

    if (i >= dew_run_count(run))
        fail_msg("no option \"%s\"", option);
    return &dew_run_outcome(run, i)->year;
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

static double reevaporation(const struct dew_tally *y)
{
    return y->water.reevaporation;
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
    {"a wet coil gives back under a running blower, humid", HUMID, reevaporation, "return tie, blower along", 2, "own ducts"},
    {"a wet coil gives back under a running blower, cold", COLD, reevaporation, "the mix, blower along", 2, "the mix"},
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

    if (ran[r->climate] == NULL)
        skip();
    more = r->of(year_of(r->climate, r->more));
    less = r->of(year_of(r->climate, r->less));
    if (!(more > r->factor * less))
        fail_msg("%s %g, %s %g", r->more, more, r->less, less);
}

/* Own ducts know nothing of air handlers: two half ones are as one. */
TEST(own_ducts_do_not_count_air_handlers)
{
    for (int k = 0; k < CLIMATES; k++) {
        const struct dew_tally *one = year_of((enum climate)k, "own ducts");
        const struct dew_tally *two =
            year_of((enum climate)k, "two handlers, own ducts");

        assert_near(fresh(two), fresh(one), 1e-9);
        assert_near(fans(two), fans(one), 1e-3 * fans(one));
        assert_near(humid(two), humid(one), 0.02 * humid(one) + 2);
        assert_near(reevaporation(two), reevaporation(one),
                    0.02 * reevaporation(one));
    }
}

TEST(the_books_of_every_layout_close)
{
    for (int k = 0; k < CLIMATES; k++)
        for (size_t i = 0; i < dew_run_count(ran[k]); i++) {
            assert_true(dew_run_outcome(ran[k], i)->water_residual < 1e-9);
            assert_true(dew_run_outcome(ran[k], i)->heat_residual < 1e-9);
        }
}

ROWS(sign_rows, sign_row);
RUN_TESTS_IN("layouts through a year", run_both, close_both);
