/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a year begins, and what leads into it. */
#include "support/rows.h"

#include <stdlib.h>
#include <string.h>

#include "march/open.h"
#include "support/lively.h"

enum { YEAR = 8760, MOST = 2 * YEAR };

static struct dew_hour hours[MOST];
static struct dew_date dates[MOST];

/* ---- what a lead-in must leave alone ------------------------------------------ */

static void made_up(void)
{
    for (int h = 0; h < MOST; h++) {
        hours[h] = lively_weather(h % YEAR + 1);
        dates[h] = date_of(h % YEAR);
    }
}

static struct dew_march *led_in(const struct dew_case *c, const double *held,
                                size_t held_count, size_t count)
{
    struct dew_march *m;
    int turns = 0;

    assert_int_equal(dew_march_open(&m, c, &hours[0], NULL), DEW_OK);
    dew_march_prescribe_t(m, held, held_count);
    assert_int_equal(dew_march_warm_up(m, hours, dates, count, &turns, NULL),
                     DEW_OK);
    assert_int_equal(turns, 1);
    return m;
}

static struct dew_result one_hour(struct dew_march *m)
{
    struct dew_result r;

    assert_int_equal(dew_march_step(m, &hours[0], &dates[0], &r, NULL), DEW_OK);
    return r;
}

/* Two years lead in with the first year's end, whatever the second's is. */
TEST(several_years_lead_in_with_the_first)
{
    struct dew_case c = lively_case();
    struct dew_march *one, *two;

    made_up();
    for (int h = YEAR; h < MOST; h++)
        hours[h].t += 7.3;
    one = led_in(&c, NULL, 0, YEAR);
    two = led_in(&c, NULL, 0, MOST);
    assert_near(one_hour(two).rh, one_hour(one).rh, 0.0);
    dew_march_close(one);
    dew_march_close(two);
}

/* A leap year's last day belongs to it. */
TEST(a_leap_year_has_a_day_more)
{
    struct dew_case c = lively_case();
    struct dew_march *plain, *leap;

    made_up();
    for (int h = YEAR; h < YEAR + 24; h++) {
        dates[h] = (struct dew_date){2020, 12, 31, h % 24 + 1, 3, 366};
        hours[h].t = 19.7;
    }
    plain = led_in(&c, NULL, 0, YEAR);
    leap = led_in(&c, NULL, 0, YEAR + 24);
    assert_near(plain->body.before.t, hours[YEAR - 1].t, 0.0);
    assert_near(leap->body.before.t, 19.7, 0.0);
    assert_true(fabs(leap->body.at.x.t_mass - plain->body.at.x.t_mass) > 0.1);
    dew_march_close(plain);
    dew_march_close(leap);
}

/* Water of construction begins with hour 0 and not in the lead-in; windows
   know how warm it was; the steps are the case's own again. */
TEST(the_clock_stands_at_hour_0)
{
    struct dew_case c = lively_case();
    struct dew_march *m;

    made_up();
    m = led_in(&c, NULL, 0, YEAR);
    assert_near(m->body.clock.day, 0.0, 0.0);
    assert_int_equal(m->body.way, MARCH__LIVED);
    assert_int_equal(m->hour, 0);
    assert_int_equal(m->body.c.steps_per_hour, c.steps_per_hour);
    assert_near(m->body.before.t, hours[YEAR - 1].t, 0.0);
    assert_true(fabs(m->body.clock.mild - hours[0].t) > 0.5);
    dew_march_close(m);
}

/* A log of temperatures shorter than the year holds its own hours alone, and
   one as long is held in the lead-in too. */
TEST(held_hours_are_those_marched)
{
    static double held[YEAR];
    struct dew_case c = lively_case();
    struct dew_march *none, *short_log, *whole;

    made_up();
    for (int h = 0; h < YEAR; h++)
        held[h] = 27.3;
    none = led_in(&c, NULL, 0, YEAR);
    short_log = led_in(&c, held, YEAR / 2, YEAR);
    whole = led_in(&c, held, YEAR, YEAR);
    assert_near(short_log->body.at.x.t_air, none->body.at.x.t_air, 0.0);
    assert_near(whole->body.at.x.t_air, 27.3, 1e-12);
    dew_march_close(none);
    dew_march_close(short_log);
    dew_march_close(whole);
}

/* Fewer hours than a year have no end that leads into their beginning. */
TEST(shorter_files_repeat_their_first_weeks)
{
    struct dew_case c = lively_case();
    struct dew_march *m;
    int turns = 0;

    made_up();
    assert_int_equal(dew_march_open(&m, &c, &hours[0], NULL), DEW_OK);
    assert_int_equal(dew_march_warm_up(m, hours, dates, YEAR - 1, &turns, NULL),
                     DEW_OK);
    assert_true(turns > 1 && turns < 40);
    assert_near(m->body.clock.mild, hours[0].t, 0.0);
    dew_march_close(m);
}

/* What a house of slow furnishings holds once the same weeks went by 60 times:
   found in few turns, to the hundredth of a point that is promised. */
TEST(slow_stores_are_found_in_few_turns)
{
    enum { WEEKS = 24 * 28 };
    struct dew_case c = lively_case();
    struct dew_march *m;
    struct dew_result out;
    double found, again;
    int turns = 0;

    made_up();
    c.house.buffer.deep_kg *= 30.0;
    assert_int_equal(dew_march_open(&m, &c, &hours[0], NULL), DEW_OK);
    assert_int_equal(dew_march_warm_up(m, hours, dates, WEEKS, &turns, NULL),
                     DEW_OK);
    found = m->body.at.x.w_deep / c.house.buffer.deep_kg;
    assert_in_range(turns, 3, 7);
    for (int turn = 0; turn < 60; turn++) {
        m->hour = 0;
        m->body.way = MARCH__IDLE;
        m->body.before = hours[0];
        m->body.clock.day = 0.0;
        for (int h = 0; h < WEEKS; h++)
            assert_int_equal(
                dew_march_step(m, &hours[h], &dates[h], &out, NULL), DEW_OK);
    }
    again = m->body.at.x.w_deep / c.house.buffer.deep_kg;
    assert_near(found, again, 1e-5);
    dew_march_close(m);
}

/* Few steps, but for the last weeks and for a case that has fewer. */
TEST(the_last_weeks_are_led_in_by_the_steps_of_the_case)
{
    const size_t end = DEW_MARCH_YEAR, fine = end - MARCH__FINE;

    assert_int_equal(march__led_steps(end - MARCH__LEAD, end, 4), MARCH__FEW);
    assert_int_equal(march__led_steps(fine - 1, end, 4), MARCH__FEW);
    assert_int_equal(march__led_steps(fine, end, 4), 4);
    assert_int_equal(march__led_steps(end - 1, end, 4), 4);
    assert_int_equal(march__led_steps(fine - 1, end, 1), 1);
}

/* What happens in a rough step does not halve it: at most a try and another. */
TEST(the_first_weeks_are_led_in_by_even_steps)
{
    const long rough = (MARCH__LEAD - MARCH__FINE) * MARCH__FEW;
    const size_t end = DEW_MARCH_YEAR, fine = end - MARCH__FINE;
    struct dew_case c = lively_case();
    long tries[1 + MARCH__ROUGH] = {0};
    struct dew_result out;
    struct dew_march *m;

    made_up();
    c.steps_per_hour = MARCH__FEW;
    assert_int_equal(march__led_way(fine - 1, end), MARCH__ROUGH);
    assert_int_equal(march__led_way(fine, end), MARCH__IDLE);
    for (int way = MARCH__IDLE; way <= MARCH__ROUGH; way++) {
        assert_int_equal(dew_march_open(&m, &c, &hours[0], NULL), DEW_OK);
        m->body.way = way;
        for (long h = 0; h < rough; h++)
            assert_int_equal(
                dew_march_step(m, &hours[h], &dates[h], &out, NULL), DEW_OK);
        tries[way] = m->body.tries;
        dew_march_close(m);
    }
    assert_true(tries[MARCH__ROUGH] >= rough);
    assert_true(tries[MARCH__ROUGH] <= 2 * rough);
    assert_true(tries[MARCH__IDLE] > tries[MARCH__ROUGH] + 100);
}

RUN_TESTS("march, warm-up");
