/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a thousand places answer: in places like yours. */
#include <stdio.h>

#include "cli/weather.h"
#include "report/atlas.h"

enum { WORDS = 480 };

/* Of the places in the list, those that the atlas has and those of the answer. */
static void tell_others(const struct dew_atlas *first,
                        const struct dew_nearby *list, size_t count)
{
    struct dew_atlas a;
    int same = 0, known = 0;
    char words[120];

    for (size_t i = 0; i < count; i++)
        if (dew_atlas_find(list[i].place.site.id, &a)) {
            known++;
            same += a.answer == first->answer;
        }
    if (known < 2)
        return;
    snprintf(
        words, sizeof words,
        "It takes the same besides a fan in %d of the %d places above that "
        "were tried.",
        same, known);
    cli__wrap(stdout, 0, words);
}

void cli__weather_like_yours(const struct dew_nearby *list, size_t count)
{
    struct dew_atlas a;
    char words[WORDS], line[WORDS + 100];

    if (count == 0 || !dew_atlas_find(list[0].place.site.id, &a))
        return;
    report__atlas_words(&a, words, sizeof words);
    snprintf(line, sizeof line, "In places like yours (%s): %s",
             list[0].place.shown, words);
    putchar('\n');
    cli__wrap(stdout, 0, line);
    if (a.answer != DEW_ATLAS_NONE)
        tell_others(&a, list, count);
    cli__wrap(stdout, 0,
              "Your house differs: `dewledger start` begins with it.");
}

json_t *cli__weather_atlas_json(const struct dew_atlas *a)
{
    char words[WORDS];

    report__atlas_words(a, words, sizeof words);
    return json_pack("{s:s, s:s, s:s, s:s, s:f, s:f, s:f, s:f, s:f, s:s}",
                     "answer", dew_atlas_besides_name(a->answer), "besides",
                     dew_atlas_besides_name(a->besides), "fan",
                     dew_atlas_fan_name(a->fan), "core",
                     dew_atlas_core_name(a->core), "does", a->does,
                     "ventilation_does", a->reach[DEW_ATLAS_VENTILATION],
                     "dehumidifier_does", a->reach[DEW_ATLAS_DEHUMIDIFIER],
                     "humidifier_does", a->reach[DEW_ATLAS_HUMIDIFIER],
                     "both_do", a->reach[DEW_ATLAS_BOTH], "words", words);
}
