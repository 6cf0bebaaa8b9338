/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Columns of the rows of readings, as columns_ducts.h.  Private to
 * engine/scenario/.
 */
#ifndef DEW_SCENARIO_COLUMNS_READINGS_H
#define DEW_SCENARIO_COLUMNS_READINGS_H

#include "scenario/words.h"

/* clang-format off */
#define SCENARIO__GLASS(X) X(dry, dry) X(wet, wet)

#define SCENARIO__READING_MAP(X)                                                    \
    X(when, TEXT, PURE, 0, 0, NULL, NULL, NULL, "july", "a month, a part of its days (january mornings), or a day and hour of the weather's own (2026-02-03 07:00)") \
    X(rh, NUMBER, PURE, 0, 1, "a relative humidity", "", NULL, "62 to 68 %", "what was read, or from where to where", .either = 1, SURE(OBSERVED)) \
    X(t, NUMBER, TEMPERATURE, 5, 40, "lived-in rooms", "=the house's own", NULL, NULL, "temperature that was read beside it", SURE(OBSERVED)) \
    X(glass, WORD, PURE, 0, 0, NULL, "", NULL, NULL, "windows at these times: wet half the time or more, or dry", .words = SCENARIO__WORDS(SCENARIO__GLASS))
/* clang-format on */

enum scenario__reading_column {
#define X(name, ...) READING_##name,
    SCENARIO__READING_MAP(X)
#undef X
        SCENARIO__READING_COLUMNS
};

#endif
