/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was told and what was not: levels, words, keys, and no pressure before
   every fan is told. */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "study/asked.h"

/* Questions, the level with which they stand unanswered and answered yes. */
static const struct answer_row {
    const char *name;
    size_t member;
    const char *key, *key_yes;
    enum dew_caution_level unknown, yes;
} answer_rows[] = {
#define ROW(member, unknown_key, unknown, yes_key, yes)                        \
    {                                                                          \
#member, offsetof(struct dew_safety, member), unknown_key, yes_key,    \
            DEW_##unknown, DEW_##yes                                           \
    }
    ROW(natural_draft_appliance, "combustion", STOP, "combustion", STOP),
    ROW(unvented_heater, "unvented_heater", STOP, "unvented_heater", STOP),
    ROW(attached_garage, "garage", STOP, "garage", STOP),
    ROW(visible_mould, "mould_unknown", CHECK, "mould", STOP),
    ROW(sewage_or_flood, "sewage_unknown", CHECK, "sewage", STOP),
    ROW(illness, "illness_unknown", CHECK, "illness", STOP),
    ROW(bulk_water, "bulk_water", CHECK, "bulk_water", CHECK),
    ROW(foamed_roof_deck, "foamed_roof", CHECK, "foamed_roof", CHECK),
    ROW(recent_foam, "recent_foam", CHECK, "recent_foam", CHECK),
    ROW(old_insulation, "asbestos", CHECK, "asbestos", CHECK),
    ROW(ducts_outside, "attic_work", CHECK, "attic_work", CHECK),
#undef ROW
};

static void set_answer(size_t member, enum dew_answer answer)
{
    *(enum dew_answer *)(void *)((char *)&s.safety + member) = answer;
}

/* The key that answers it is that of the question. */
static void keyed(const struct dew_caution *c, const char *name)
{
    char key[80];

    snprintf(key, sizeof key, "safety.%s", name);
    assert_string_equal(c->question_key, key);
}

static void is_asked(const struct dew_caution *c, const char *name)
{
    const char *words = dew_cautions_open_words();

    assert_string_equal(words, "You have not said whether ");
    assert_int_equal(c->answer, DEW_ANSWER_UNKNOWN);
    assert_int_equal(strncmp(c->text, words, strlen(words)), 0);
    keyed(c, name);
}

static void is_told(const struct dew_caution *c, const char *name)
{
    assert_int_equal(c->answer, DEW_ANSWER_YES);
    assert_int_equal(strncmp(c->text, "You told us that ", 17), 0);
    keyed(c, name);
}

static void an_answer_not_given_counts(void **state)
{
    const struct answer_row *r = *state;

    answered(1);
    ask();
    assert_null(find(r->key));
    set_answer(r->member, DEW_ANSWER_UNKNOWN);
    ask();
    assert_non_null(find(r->key));
    assert_int_equal(find(r->key)->level, r->unknown);
    is_asked(find(r->key), r->name);
    set_answer(r->member, DEW_ANSWER_YES);
    ask();
    assert_non_null(find(r->key_yes));
    assert_int_equal(find(r->key_yes)->level, r->yes);
    is_told(find(r->key_yes), r->name);
    assert_null(strstr(find(r->key_yes)->text, "ruled out"));
}

/* Good news must be confirmed: no and unknown both stand. */
static const struct wanting_row {
    const char *name;
    size_t member;
    const char *key;
} wanting_rows[] = {
    {"carbon_monoxide_alarm",
     offsetof(struct dew_safety, carbon_monoxide_alarm), "alarm"},
    {"radon_tested", offsetof(struct dew_safety, radon_tested), "radon"},
    {"dryer_vented_outdoors",
     offsetof(struct dew_safety, dryer_vented_outdoors), "dryer_vent"},
};

static void good_news_must_be_confirmed(void **state)
{
    const struct wanting_row *r = *state;

    answered(1);
    for (int a = DEW_ANSWER_UNKNOWN; a <= DEW_ANSWER_NO; a++) {
        set_answer(r->member, (enum dew_answer)a);
        ask();
        assert_non_null(find(r->key));
        if (a == DEW_ANSWER_UNKNOWN)
            is_asked(find(r->key), r->name);
        else
            is_told(find(r->key), r->name);
    }
}

static void hood_of_its_own(void)
{
    s.cases[1].plant.exhausts[DEW_LOCAL_KITCHEN].flow = 0.07;
    s.outcomes[1].year.pressure_all_min = -12.4;
}

static void fans_told(size_t i, unsigned fans)
{
    s.facts[i].exhausts_told = fans;
}

enum { EVERY_FAN = (1 << DEW_LOCALS) - 1 };

/* Hood, bath fans and dryer: one that nobody told of, and there is none. */
TEST(no_pressure_before_every_fan_is_told)
{
    struct dew_suction p;

    answered(2);
    s.safety.natural_draft_appliance = DEW_ANSWER_YES;
    s.outcomes[0].year.pressure_all_min = -3.1;
    hood_of_its_own();
    for (unsigned told = 0; told < EVERY_FAN; told++) {
        fans_told(0, told);
        fans_told(1, told);
        ask();
        p = dew_cautions_suction(&s.question, 1);
        assert_nan(p.pressure);
        assert_int_equal(p.untold, EVERY_FAN & ~told);
        assert_nan(find("combustion")->pressure);
        assert_int_equal(find("combustion")->worst, DEW_NO_OPTION);
        assert_int_equal(find("combustion")->untold, EVERY_FAN & ~told);
        assert_true(find("combustion")->untold_options == 3);
    }
    fans_told(0, EVERY_FAN); /* of today's house all, of the other not */
    ask();
    assert_near(find("combustion")->pressure, -3.1, 0);
    assert_int_equal(find("combustion")->worst, 0);
    assert_true(find("combustion")->untold_options == 2);
    assert_nan(find("makeup_air")->pressure);
    fans_told(1, EVERY_FAN);
    ask();
    assert_near(find("combustion")->pressure, -12.4, 0);
    assert_int_equal(find("combustion")->untold, 0);
    p = dew_cautions_suction(&s.question, 1);
    assert_int_equal(p.fans, 1U << DEW_LOCAL_KITCHEN);
    assert_false(p.beyond);
    assert_int_equal(dew_cautions_suction(&s.question, 0).fans, 0);
}

TEST(past_50_pa_fans_do_not_deliver)
{
    answered(2);
    fans_told(1, EVERY_FAN);
    s.outcomes[1].year.pressure_all_min = -49.9;
    assert_false(dew_cautions_suction(&s.question, 1).beyond);
    s.outcomes[1].year.pressure_all_min = -50.1;
    assert_true(dew_cautions_suction(&s.question, 1).beyond);
    assert_near(dew_cautions_suction(&s.question, 1).pressure, -50.1, 0);
}

/* One option has no damper, of the other nobody said: two cautions. */
TEST(what_was_told_and_what_was_not_part)
{
    struct dew_caution c;
    size_t told = 0, asked = 0;

    answered(3);
    for (size_t i = 1; i < 3; i++) {
        s.facts[i].core = DEW_CORE_heat_plate;
        s.facts[i].layout = DEW_LAYOUT_supply_tie;
    }
    s.facts[1].damper = DEW_ANSWER_NO;
    ask();
    for (size_t i = 0; i < count; i++) {
        if (strcmp(list[i].key, "no_damper") != 0)
            continue;
        told += list[i].answer == DEW_ANSWER_YES && list[i].options == 2;
        asked += list[i].answer == DEW_ANSWER_UNKNOWN && list[i].options == 4;
        assert_string_equal(list[i].question_key, "ventilator.damper");
    }
    assert_int_equal(told, 1);
    assert_int_equal(asked, 1);
    assert_true(dew_cautions_find("no_damper", DEW_ANSWER_UNKNOWN, &c));
    assert_false(dew_cautions_find("intake", DEW_ANSWER_UNKNOWN, &c));
    assert_false(dew_cautions_find("mould_unknown", DEW_ANSWER_YES, &c));
}

TEST(the_worst_pressure_stands_beside_makeup_air)
{
    answered(2);
    hood_of_its_own();
    fans_told(1, EVERY_FAN);
    ask();
    assert_near(find("makeup_air")->pressure, -12.4, 0);
    assert_int_equal(find("makeup_air")->worst, 1);
    assert_int_equal(find("planning_aid")->worst, DEW_NO_OPTION);
    assert_nan(find("planning_aid")->pressure);
}

TEST(net_exhaust_stops_beside_a_chimney)
{
    answered(2);
    s.facts[1].core = DEW_CORE_heat_plate;
    s.cases[1].plant.frost.strategy = DEW_FROST_EXHAUST_ONLY;
    ask();
    assert_null(find("net_exhaust"));
    s.safety.natural_draft_appliance = DEW_ANSWER_UNKNOWN;
    s.outcomes[1].year.pressure_all_min = -17.3;
    fans_told(1, EVERY_FAN);
    ask();
    assert_non_null(find("net_exhaust"));
    assert_near(find("net_exhaust")->pressure, -17.3, 0);
    assert_near(find("combustion")->pressure, -17.3, 0);
}

TEST(a_house_of_unknown_age_may_be_new)
{
    answered(1);
    s.safety.house_age = NAN;
    ask();
    is_asked(find("first_year"), "house_age");
    s.safety.house_age = 1.9 * 365.25 * 86400;
    ask();
    is_told(find("first_year"), "house_age");
    s.safety.house_age = 2.1 * 365.25 * 86400;
    ask();
    assert_null(find("first_year"));
}

ROWS(answer_rows, an_answer_not_given_counts);
ROWS(wanting_rows, good_news_must_be_confirmed);
RUN_TESTS("study, answers to cautions");
