/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the atlas has of a place, in words. */
#include "report/atlas.h"

#include <stdio.h>

enum { SHARE = 24, OPTION = 80 };

/* The houses drawn are few: tens, and no "all" or "none". */
static void share_words(double share, char out[SHARE])
{
    if (share < 0.05)
        snprintf(out, SHARE, "hardly any");
    else if (share >= 0.95)
        snprintf(out, SHARE, "nearly all");
    else
        snprintf(out, SHARE, "about %.0f of 100",
                 10.0 * (int)(10.0 * share + 0.5));
}

static void option_words(const struct dew_atlas *a, char out[OPTION])
{
    static const char *const fans[] = {
        [DEW_ATLAS_EXHAUST] = "an exhaust fan",
        [DEW_ATLAS_HEAT] = "a heat core",
        [DEW_ATLAS_ENTHALPY] = "an enthalpy core",
    };
    static const char *const besides[] = {
        [DEW_ATLAS_VENTILATION] = " alone",
        [DEW_ATLAS_DEHUMIDIFIER] = " and a dehumidifier",
        [DEW_ATLAS_HUMIDIFIER] = " and a humidifier",
        [DEW_ATLAS_BOTH] = ", a dehumidifier and a humidifier",
    };

    snprintf(out, OPTION, "%s%s", fans[a->fan], besides[a->besides]);
}

void report__atlas_words(const struct dew_atlas *a, char *out, size_t size)
{
    static const char *const cores[] = {
        [DEW_ATLAS_CORE_ENTHALPY] = " By itself an enthalpy core keeps it "
                                    "there for longer than a heat core.",
        [DEW_ATLAS_CORE_HEAT] = " By itself a heat core keeps it there for "
                                "longer than an enthalpy core.",
        [DEW_ATLAS_CORE_ALIKE] = " By itself either core keeps it there about "
                                 "as long.",
        [DEW_ATLAS_CORE_OPEN] = "",
    };
    char option[OPTION], does[SHARE], share[SHARE], alone[SHARE + 40] = "";

    option_words(a, option);
    share_words(a->does, does);
    share_words(a->reach[DEW_ATLAS_VENTILATION], share);
    if (a->answer != DEW_ATLAS_VENTILATION)
        snprintf(alone, sizeof alone, "; with ventilation alone in %s", share);
    snprintf(
        out, size, "%s with %s, in %s such houses%s.%s",
        a->answer == DEW_ATLAS_NONE
            ? "nothing tried keeps an invented tight house within the limits of "
              "humid and dry air in 80 of 100 houses; it comes nearest"
            : "an invented tight house stays within the limits of humid and dry air",
        option, does, alone, cores[a->core]);
}
