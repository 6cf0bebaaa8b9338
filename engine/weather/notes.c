/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a reading left out and mended, in lines of text. */
#include <stdio.h>

#include "dew/unit.h"
#include "dew/weather.h"

static void say_notice(enum dew_notice_code code, const struct dew_notice *n,
                       char *out)
{
    if (n->line > 0)
        snprintf(out, DEW_NOTE_TEXT, "%ld %s, first on line %d", n->count,
                 dew_notice_text(code), n->line);
    else
        snprintf(out, DEW_NOTE_TEXT, "%ld %s", n->count, dew_notice_text(code));
}

/* A day back or more, and once or twice only: rows in no order at all, or
   newest first, are just sorted. */
static int goes_back(const struct dew_weather_report *report)
{
    return report->back >= 24.0 &&
           report->notices[DEW_NOTICE_DISORDER].count <= 3;
}

static void say_back(const struct dew_weather_report *report, char *out)
{
    char days[24];

    dew_number_print(report->back / 24.0, 4, days, sizeof days);
    snprintf(out, DEW_NOTE_TEXT,
             "SUSPECT: time goes back %s days on line %d (a clock set back?): "
             "rows from there on were sorted in where their times say",
             days, report->back_line);
}

size_t dew_weather_notes(const struct dew_weather_report *report,
                         char (*list)[DEW_NOTE_TEXT], size_t room)
{
    char gap[24];
    size_t n = 0;

    dew_number_print(report->interval / 60.0, 4, gap, sizeof gap);
    if (n < room)
        snprintf(list[n++], DEW_NOTE_TEXT,
                 "%ld rows read, %ld kept, %s min apart", report->rows,
                 report->used, gap);
    for (int i = 0; i < DEW_NOTICE_COUNT && n < room; i++)
        if (report->notices[i].count > 0)
            say_notice((enum dew_notice_code)i, &report->notices[i], list[n++]);
    dew_number_print(report->longest_gap, 3, gap, sizeof gap);
    if (report->longest_gap > 0.0 && n < room)
        snprintf(list[n++], DEW_NOTE_TEXT, "longest gap bridged %s h, at %s",
                 gap, report->longest_at);
    if (goes_back(report) && n < room)
        say_back(report, list[n++]);
    if (report->suspicion[0] != '\0' && n < room)
        snprintf(list[n++], DEW_NOTE_TEXT, "SUSPECT: %s", report->suspicion);
    return n;
}
