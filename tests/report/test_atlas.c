/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the atlas has of a place, in words. */
#include "support/rows.h"

#include <string.h>

#include "report/atlas.h"

enum { SIZE = 480 };

static const struct words_row {
    const char *name;
    struct dew_atlas a;
    const char *words;
} words_rows[] = {
    {"ventilation alone",
     {DEW_ATLAS_VENTILATION,
      DEW_ATLAS_VENTILATION,
      DEW_ATLAS_HEAT,
      DEW_ATLAS_CORE_HEAT,
      0.84,
      {0.84, 0.9, 0.1, 1.0}},
     "an invented tight house stays within the limits of humid and dry air with "
     "a heat core alone, in about 80 of 100 such houses. By itself a heat core "
     "keeps it there for longer than an enthalpy core."},
    {"a dehumidifier",
     {DEW_ATLAS_DEHUMIDIFIER,
      DEW_ATLAS_DEHUMIDIFIER,
      DEW_ATLAS_EXHAUST,
      DEW_ATLAS_CORE_ALIKE,
      0.97,
      {0.16, 1.0, 0.1, 1.0}},
     "an invented tight house stays within the limits of humid and dry air with "
     "an exhaust fan and a dehumidifier, in nearly all such houses; with "
     "ventilation alone in about 20 of 100. By itself either core keeps it there "
     "about as long."},
    {"both, and nobody knows which core",
     {DEW_ATLAS_BOTH,
      DEW_ATLAS_BOTH,
      DEW_ATLAS_ENTHALPY,
      DEW_ATLAS_CORE_OPEN,
      0.949,
      {0.049, 0.2, 0.1, 0.949}},
     "an invented tight house stays within the limits of humid and dry air with "
     "an enthalpy core, a dehumidifier and a humidifier, in about 90 of 100 such "
     "houses; with ventilation alone in hardly any."},
    {"none",
     {DEW_ATLAS_NONE,
      DEW_ATLAS_HUMIDIFIER,
      DEW_ATLAS_EXHAUST,
      DEW_ATLAS_CORE_ENTHALPY,
      0.66,
      {0.05, 0.0, 0.66, 0.03}},
     "nothing tried keeps an invented tight house within the limits of humid and "
     "dry air in 80 of 100 houses; it comes nearest with an exhaust fan and a "
     "humidifier, in about 70 of 100 such houses; with ventilation alone in about "
     "10 of 100. By itself an enthalpy core keeps it there for longer than a heat "
     "core."},
};

static void a_place_is_told(void **state)
{
    const struct words_row *r = *state;
    char words[SIZE];

    report__atlas_words(&r->a, words, sizeof words);
    assert_string_equal(words, r->words);
}

/* No words are cut. */
TEST(every_answer_fits)
{
    for (int k = 0; k < 5 * 4 * 3 * 4; k++) {
        struct dew_atlas a = {.answer = (enum dew_atlas_besides)(k % 5),
                              .besides = (enum dew_atlas_besides)(k / 5 % 4),
                              .fan = (enum dew_atlas_fan)(k / 20 % 3),
                              .core = (enum dew_atlas_core)(k / 60),
                              .does = 0.5,
                              .reach = {0.5}};
        char words[SIZE];

        report__atlas_words(&a, words, sizeof words);
        assert_true(strlen(words) < SIZE - 1);
        assert_int_equal(words[strlen(words) - 1], '.');
    }
}

ROWS(words_rows, a_place_is_told);
RUN_TESTS("report, atlas");
