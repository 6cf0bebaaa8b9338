/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answers by place: rows read, and the file that comes along. */
#include "support/rows.h"

#include <string.h>

#include "dew/climate.h"
#include "made/atlas.h"

#define HEAD                                                                   \
    "# a comment with 723650,none\n"                                           \
    "station,answer,besides,fan,does_of_100,ventilation_of_100,"               \
    "dehumidifier_of_100,humidifier_of_100,both_of_100,core\n"

static const char text[] =
    HEAD "722020,dehumidifier,dehumidifier,exhaust,97,22,100,3,96,enthalpy\n"
         "700260,none,humidifier,heat,66,0,1,66,2,open\n";

TEST(a_row_is_read)
{
    struct dew_atlas a;

    assert_int_equal(made__atlas_find(text, "722020", &a), 1);
    assert_int_equal(a.answer, DEW_ATLAS_DEHUMIDIFIER);
    assert_int_equal(a.besides, DEW_ATLAS_DEHUMIDIFIER);
    assert_int_equal(a.fan, DEW_ATLAS_EXHAUST);
    assert_int_equal(a.core, DEW_ATLAS_CORE_ENTHALPY);
    assert_near(a.does, 0.97, 1e-12);
    assert_near(a.reach[DEW_ATLAS_VENTILATION], 0.22, 1e-12);
    assert_near(a.reach[DEW_ATLAS_DEHUMIDIFIER], 1.0, 1e-12);
    assert_near(a.reach[DEW_ATLAS_HUMIDIFIER], 0.03, 1e-12);
    assert_near(a.reach[DEW_ATLAS_BOTH], 0.96, 1e-12);
}

TEST(the_last_row_is_read)
{
    struct dew_atlas a;

    assert_int_equal(made__atlas_find(text, "700260", &a), 1);
    assert_int_equal(a.answer, DEW_ATLAS_NONE);
    assert_string_equal(dew_atlas_besides_name(a.besides), "humidifier");
    assert_string_equal(dew_atlas_fan_name(a.fan), "heat");
    assert_string_equal(dew_atlas_core_name(a.core), "open");
}

static const struct none_row {
    const char *name, *text, *station;
} none_rows[] = {
    {"another place", text, "723650"},
    {"the start of a number", text, "72202"},
    {"no number", text, ""},
    {"the names are no row", text, "station"},
    {"no rows", HEAD, "722020"},
    {"nothing", "", "722020"},
    {"a cell less", HEAD "1,both,both,heat,9,0,0,9,open\n", "1"},
    {"a cell more", HEAD "1,both,both,heat,9,0,0,0,9,open,1\n", "1"},
    {"cut off", HEAD "1,both,both,heat,9,0,0,0,9,open", "1"},
    {"a word that is none", HEAD "1,fog,both,heat,9,0,0,0,9,open\n", "1"},
    {"an option of none", HEAD "1,none,none,heat,9,0,0,0,9,open\n", "1"},
    {"a fan that is none", HEAD "1,both,both,hea,9,0,0,0,9,open\n", "1"},
    {"a core that is none", HEAD "1,both,both,heat,9,0,0,0,9,opener\n", "1"},
    {"above 100", HEAD "1,both,both,heat,101,0,0,0,9,open\n", "1"},
    {"no number of houses", HEAD "1,both,both,heat,,0,0,0,9,open\n", "1"},
    {"no share", HEAD "1,both,both,heat,9,0,x,0,9,open\n", "1"},
};

static void nothing_is_told(void **state)
{
    const struct none_row *r = *state;
    struct dew_atlas a = {.does = 7.0};

    assert_int_equal(made__atlas_find(r->text, r->station, &a), 0);
    assert_near(a.does, 7.0, 0.0);
}

/* Every row of the file that comes along is whole and of a place of the table;
   it may have none. */
TEST(the_file_is_whole)
{
    size_t rows = 0, found = 0;
    struct dew_climate place;
    struct dew_atlas a;

    for (const char *s = core__data_answers_csv; *s != '\0'; s++)
        rows += *s == '\n';
    for (size_t at = 0; dew_climate_next(&at, &place);)
        if (dew_atlas_find(place.site.id, &a)) {
            found++;
            assert_int_equal(a.answer == DEW_ATLAS_NONE, a.does < 0.795);
        }
    assert_int_equal(rows, found + 2);
    assert_true(CORE__EMBEDDED_SIZE(answers_csv) <= 100000);
}

ROWS(none_rows, nothing_is_told);
RUN_TESTS("made, atlas");
