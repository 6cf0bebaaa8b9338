/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The houses that a log leaves, in the place of a spread's draws. */
#include "run/learn_made.h"

#include "dew/spread.h"

#define HOUSE                                                                  \
    "title: made up\n"                                                         \
    "weather: {place: 726580}\n"                                               \
    "run: {steps_per_hour: 1}\n"                                               \
    "house: {floor_area: 1500 ft2, bedrooms: 3, airtightness: \"4 ach50 (1.5 " \
    "to 8)\"}\n"                                                               \
    "people: {count: \"3 (1 to 6)\"}\n"                                        \
    "options:\n"                                                               \
    "  - name: as it stands\n"                                                 \
    "  - name: with a core\n"                                                  \
    "    ventilator: {core: heat_plate, sensible: 70 % at 90 cfm, power: "     \
    "\"60 W (40 to 90)\"}\n"

enum { DRAWS = 200 };

static struct dew_learn *learned_of(const char *house)
{
    static const char *const sets[] = {"house.airtightness=2.2 ach50",
                                       "people.count=4.6"};
    struct dew_run *r;

    make_folder(house);
    r = run_of(sets, 2);
    make_log(r, 19);
    dew_run_close(r);
    return learn_by(
        &(struct dew_learn_ask){.draws = 256, .seed = 2, .told_only = 1});
}

static struct dew_learn *learned(void)
{
    return learned_of(HOUSE);
}

/* Of an input with such a key: its figures in the draws, sorted. */
static const struct dew_spread_input *figures_of(const struct dew_spread *s,
                                                 const char *key,
                                                 double x[DRAWS])
{
    size_t count, keys;
    const struct dew_spread_input *in = dew_spread_inputs(s, &count);

    for (size_t i = 0; i < count; i++)
        if (strcmp(dew_scenario_fields(&keys)[in[i].key].path, key) == 0) {
            for (size_t d = 0; d < DRAWS; d++)
                x[d] = dew_spread_figure(s, &in[i], d, in[i].option);
            return &in[i];
        }
    fail_msg("no input %s", key);
    return NULL;
}

static double together(const double *x, const double *y)
{
    double mx = 0, my = 0, xx = 0, yy = 0, xy = 0;

    for (int i = 0; i < DRAWS; i++) {
        mx += x[i] / DRAWS;
        my += y[i] / DRAWS;
    }
    for (int i = 0; i < DRAWS; i++) {
        xx += (x[i] - mx) * (x[i] - mx);
        yy += (y[i] - my) * (y[i] - my);
        xy += (x[i] - mx) * (y[i] - my);
    }
    return xy / sqrt(xx * yy);
}

/* Houses to be written are of inputs alone, whoever asks for years of the
   weather and the error of the model beside. */
static void check_houses(const struct dew_learn *l)
{
    const struct dew_spread_ask ask = {
        .draws = 8, .seed = 1, .years = 1, .model = 1};
    const struct dew_run_ask written = {.name = scenario};
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_learn_houses h;

    assert_int_equal(dew_learn_houses(l, &written, &ask, &h, &faults), DEW_OK);
    assert_true(dew_spread_columns(h.spread) > 0);
    for (size_t c = 0; c < dew_spread_columns(h.spread); c++) {
        enum dew_spread_of of = dew_spread_column(h.spread, c).of;

        assert_true(of == DEW_SPREAD_OF_INPUT || of == DEW_SPREAD_OF_NOTHING);
    }
    dew_learn_houses_close(&h);
}

/* The quantiles are those told of the figure, and what goes together stays so. */
TEST(given_draws_are_those_that_the_log_leaves)
{
    const struct dew_spread_ask ask = {
        .draws = DRAWS, .seed = 1, .told_only = 1};
    struct dew_learn *l = learned();
    double air[DRAWS], people[DRAWS], power[DRAWS], before;
    size_t count, keys;
    const struct dew_learn_input *told = dew_learn_inputs(l, &count);
    struct dew_spread *s;

    assert_int_equal(count, 2);
    assert_string_equal(dew_scenario_fields(&keys)[told[0].key].path,
                        "house.airtightness");
    assert_int_equal(dew_spread_open(&s, dew_learn_run(l), &ask, NULL), DEW_OK);
    figures_of(s, "ventilator.power", power);
    before = power[17];
    assert_int_equal(dew_learn_give(l, s, NULL, NULL), DEW_OK);
    figures_of(s, "house.airtightness", air);
    figures_of(s, "people.count", people);
    assert_true(told[0].moved);
    assert_true(together(air, people) > 0.4); /* more people, more air */
    core__sort(air, DRAWS);
    core__sort(people, DRAWS);
    for (int k = 0; k < 2; k++) {
        const double *x = k == 0 ? air : people,
                     wide = told[k].after.p90 - told[k].after.p10;

        assert_near(core__quantile(x, DRAWS, 0.5), told[k].after.p50,
                    0.05 * wide);
        assert_near(core__quantile(x, DRAWS, 0.1), told[k].after.p10,
                    0.08 * wide);
        assert_near(core__quantile(x, DRAWS, 0.9), told[k].after.p90,
                    0.08 * wide);
    }
    figures_of(s, "ventilator.power", power); /* not learned: as drawn */
    assert_near(power[17], before, 0);
    dew_spread_close(s);
    check_houses(l);
    dew_learn_close(l);
}

/* What one option cannot be is left out, counted, and another that is left by
   the log stands in its place. */
TEST(a_house_that_an_option_cannot_be_is_left_out)
{
    static const char house[] =
        HOUSE "  - name: cool\n    temperature: {cool: 70.2 degF}\n"
              "temperature: {heat: \"69 degF (66 to 72)\"}\n";
    const double most = (70.2 - 32) / 1.8;
    const struct dew_spread_ask ask = {
        .draws = DRAWS, .seed = 1, .told_only = 1};
    struct dew_learn *l = learned_of(house);
    double heat[DRAWS], air[DRAWS], people[DRAWS], above = 0;
    const struct dew_spread_anew *anew;
    struct dew_change list[16];
    struct dew_spread *s;
    size_t count, beyond = 1;

    assert_int_equal(dew_spread_open(&s, dew_learn_run(l), &ask, NULL), DEW_OK);
    assert_int_equal(dew_learn_give(l, s, &beyond, NULL), DEW_OK);
    assert_int_equal(beyond, 0);
    anew = dew_spread_anew(s, &count);
    assert_int_equal(count, 1);
    assert_string_equal(anew[0].rule.path, "temperature.heat");
    for (size_t i = 0; i < l->draws; i++) {
        size_t at = s->inputs[0].column;

        for (size_t k = 0; k < l->doubts->input_count; k++)
            if (l->doubts->inputs[k].key ==
                figures_of(s, "temperature.heat", heat)->key)
                at = l->doubts->inputs[k].column;
        above += l->rounds->weights[i] *
                 (run__spread_at(
                      l->doubts, figures_of(s, "temperature.heat", heat), 0,
                      run__learn_share(evidence__rounds_at(l->rounds, i)[at])) >
                  most);
    }
    assert_near((double)anew[0].count / DRAWS, above, 1.5 / DRAWS);
    assert_true(above > 0.05 && above < 0.5);
    figures_of(s, "temperature.heat", heat);
    for (size_t d = 0; d < DRAWS; d++) {
        assert_true(heat[d] <= most);
        assert_int_equal(run__spread_agrees(s, 1 + d, list, NULL), DEW_OK);
    }
    figures_of(s, "house.airtightness", air);
    figures_of(s, "people.count", people);
    assert_true(together(air, people) > 0.4);
    dew_spread_close(s);
    dew_learn_close(l);
}

RUN_TESTS("houses learned, given to a spread");
