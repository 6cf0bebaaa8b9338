/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * From what was written to local standard time: which number is the month,
 * whether the year is a typical one, which clock was read, and in what order.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "weather/calendar.h"
#include "weather/reader.h"

/* ---- month or day first ------------------------------------------------------ */

static void swap_all(struct weather__reader *r)
{
    for (size_t i = 0; i < r->count; i++) {
        struct weather__sample *s = &r->samples[i];
        int y, m, d;

        if (!s->swaps)
            continue;
        weather__civil(s->moment, &y, &m, &d);
        s->moment = weather__days(y, d, m) * WEATHER__DAY;
    }
}

static enum dew_status settle_order(struct weather__reader *r)
{
    int proved = r->month_first > 0 ? 1 : r->day_first > 0 ? 2 : 0;
    int swaps = 0;

    if (r->month_first > 0 && r->day_first > 0)
        return weather__reader_fault(
            r, DEW_ESYNTAX, "time",
            r->month_first > r->day_first ? r->month_first : r->day_first,
            r->time_cell, "the order of month and day changes: see line %d",
            r->month_first > r->day_first ? r->day_first : r->month_first);
    if (r->order != 0 && proved != 0 && r->order != proved)
        return weather__reader_fault(
            r, DEW_ERANGE, "time", proved == 1 ? r->month_first : r->day_first,
            r->time_cell, "a month above 12: the %s comes first here",
            proved == 1 ? "month" : "day");
    if (r->order == 0)
        r->order = proved;
    for (size_t i = 0; i < r->count && !swaps; i++)
        swaps = r->samples[i].swaps;
    if (swaps && r->order == 0)
        return weather__reader_fault(
            r, DEW_EAMBIGUOUS, "time", r->samples[0].line, r->time_cell,
            "\"%s\" can be read in two ways and no row tells: say whether the "
            "month or the day comes first",
            r->first_date);
    if (r->order == 2)
        swap_all(r);
    return DEW_OK;
}

/* ---- a typical year ------------------------------------------------------------ */

/* Each month from one year, all twelve there, and yet years apart. */
static int looks_typical(const struct weather__reader *r)
{
    int year_of[13] = {0}, y, m, d;
    int64_t low = INT64_MAX, high = INT64_MIN;

    for (size_t i = 0; i < r->count; i++) {
        int64_t moment = r->samples[i].moment;

        weather__civil(moment, &y, &m, &d);
        if (year_of[m] != 0 && year_of[m] != y)
            return 0;
        year_of[m] = y;
        low = moment < low ? moment : low;
        high = moment > high ? moment : high;
    }
    for (m = 1; m <= 12; m++)
        if (year_of[m] == 0)
            return 0;
    return high - low > (int64_t)367 * WEATHER__DAY;
}

static void onto_typical(struct weather__reader *r)
{
    size_t kept = 0;

    for (size_t i = 0; i < r->count; i++) {
        struct weather__sample *s = &r->samples[i];
        int y, m, d;

        weather__civil(s->moment, &y, &m, &d);
        if (m == 2 && d == 29) {
            weather__note(r, DEW_NOTICE_YEAR, s->line);
            continue;
        }
        s->moment = weather__days(WEATHER__TYPICAL, m, d) * WEATHER__DAY;
        r->samples[kept++] = *s;
    }
    r->count = kept;
}

/* Hours past an end of the typical year belong at its other end. */
static int64_t into_typical(int64_t moment)
{
    int64_t start = weather__days(WEATHER__TYPICAL, 1, 1) * WEATHER__DAY;
    int64_t length = (int64_t)365 * WEATHER__DAY;

    if (moment <= start)
        return moment + length;
    return moment > start + length ? moment - length : moment;
}

/* ---- summer time ---------------------------------------------------------------- */

/* Take summer time off.  In the doubled hour the first pass is summer. */
static void off_summer(struct weather__reader *r, enum dew_clock rule)
{
    int64_t before = INT64_MIN, begins = 0, ends = 0;
    int year = 0, y, m, d, back = 0;

    for (size_t i = 0; i < r->count; i++) {
        struct weather__sample *s = &r->samples[i];
        int64_t wall = s->moment;

        weather__civil(wall, &y, &m, &d);
        if (y != year) {
            year = y;
            back = 0;
            weather__summer_of(rule, y, r->site.utc_offset, &begins, &ends);
        }
        if (wall >= ends - WEATHER__HOUR && wall < ends && wall <= before)
            back = 1;
        before = wall;
        if (wall < begins || wall >= ends ||
            (back && wall >= ends - WEATHER__HOUR))
            continue;
        if (wall < begins + WEATHER__HOUR)
            weather__note(r, DEW_NOTICE_NO_SUCH_TIME, s->line);
        weather__note(r, DEW_NOTICE_SUMMER_TIME, s->line);
        s->moment -= WEATHER__HOUR;
    }
}

/*
 * Does the clock go back in the autumn hour of the rule (1), or leave out the
 * hour of spring while rows stand on both sides (2)?  Its line, or 0.
 */
static int changes_clock(const struct weather__reader *r, enum dew_clock rule)
{
    for (size_t i = 1; i < r->count; i++) {
        int64_t a = r->samples[i - 1].moment, b = r->samples[i].moment;
        int64_t begins, ends;
        int y, m, d;

        if (b - a <= WEATHER__HOUR && b > a)
            continue;
        weather__civil(b, &y, &m, &d);
        weather__summer_of(rule, y, r->site.utc_offset, &begins, &ends);
        if (b <= a && a - b <= WEATHER__HOUR && b >= ends - WEATHER__HOUR &&
            a <= ends)
            return r->samples[i].line;
        if (b > a && a < begins && a >= begins - WEATHER__HOUR &&
            b >= begins + WEATHER__HOUR && b < begins + 2 * WEATHER__HOUR)
            return r->samples[i].line;
    }
    return 0;
}

static enum dew_status question_clock(struct weather__reader *r)
{
    int us = changes_clock(r, DEW_CLOCK_US);
    int eu = us ? 0 : changes_clock(r, DEW_CLOCK_EU);

    if (us == 0 && eu == 0)
        return DEW_OK;
    return weather__reader_fault(
        r, DEW_EAMBIGUOUS, "time", us ? us : eu, r->time_cell,
        "an hour is doubled or left out where summer time of %s changes: say "
        "whether the clock is standard time all year or follows that rule",
        us ? "the United States" : "the European Union");
}

/* ---- the clock -------------------------------------------------------------------- */

/* The least of what the local clock is ahead of UTC is standard time. */
static double offset_seen(const struct weather__reader *r)
{
    double least = NAN;

    for (size_t i = 0; i < r->count; i++) {
        const struct weather__sample *s = &r->samples[i];
        double h = s->has_local ? s->local / 3600.0 : s->zone / 3600.0;

        if (s->has_local || (s->has_zone && s->zone != 0))
            least = isnan(least) || h < least ? h : least;
    }
    return least;
}

static void say_clock(struct weather__reader *r, const char *from,
                      const char *by)
{
    char number[24];

    dew_number_print(r->site.utc_offset, 4, number, sizeof number);
    snprintf(r->report->clock, sizeof r->report->clock,
             "%s, moved to UTC %s%s (%s)", from,
             r->site.utc_offset >= 0.0 ? "+" : "", number, by);
}

/* Times with a zone: to UTC, then to the site's standard time. */
static void from_zones(struct weather__reader *r, const char *from)
{
    double asked = r->ask->utc_offset, seen = offset_seen(r);
    const char *by = "as said";

    if (!isnan(asked)) {
        r->site.utc_offset = asked;
    } else if (!isnan(r->site.utc_offset)) {
        by = "the file's offset";
    } else if (!isnan(seen)) {
        r->site.utc_offset = seen;
        by = "the file's own local clock in winter";
    } else if (!isnan(r->site.longitude)) {
        r->site.utc_offset = floor(r->site.longitude / 15.0 + 0.5);
        by = "nearest whole hour of longitude: say it if the zone differs";
    } else {
        r->site.utc_offset = 0.0;
        by = "left as it is: say the offset of local standard time";
    }
    for (size_t i = 0; i < r->count; i++)
        r->samples[i].moment +=
            (int64_t)(r->site.utc_offset * 3600.0) - r->samples[i].zone;
    say_clock(r, from, by);
}

static int all_have_zones(const struct weather__reader *r)
{
    for (size_t i = 0; i < r->count; i++)
        if (!r->samples[i].has_zone)
            return 0;
    return r->count > 0;
}

static enum dew_status settle_clock(struct weather__reader *r)
{
    enum dew_clock clock = r->ask->clock;

    if (all_have_zones(r)) {
        from_zones(r, "times carry their zone");
        return DEW_OK;
    }
    if (r->has_header_zone) {
        for (size_t i = 0; i < r->count; i++)
            r->samples[i].zone = r->header_zone;
        if (r->header_zone != 0 && isnan(r->site.utc_offset))
            r->site.utc_offset = r->header_zone / 3600.0;
        from_zones(r, "the header names the zone");
        return DEW_OK;
    }
    if (!isnan(r->ask->utc_offset))
        r->site.utc_offset = r->ask->utc_offset;
    if (clock == DEW_CLOCK_US || clock == DEW_CLOCK_EU) {
        off_summer(r, clock);
        snprintf(r->report->clock, sizeof r->report->clock,
                 "local clock with summer time by the %s rule, moved to "
                 "standard time",
                 clock == DEW_CLOCK_US ? "US" : "EU");
        return DEW_OK;
    }
    snprintf(r->report->clock, sizeof r->report->clock,
             "local standard time as written");
    if (clock == DEW_CLOCK_STANDARD || r->standard || r->typical)
        return DEW_OK;
    return question_clock(r);
}

/* ---- order ------------------------------------------------------------------------- */

static int by_moment(const void *a, const void *b)
{
    const struct weather__sample *x = a, *y = b;

    if (x->moment != y->moment)
        return x->moment < y->moment ? -1 : 1;
    return x->line < y->line ? -1 : x->line > y->line;
}

/* Hourly reports make the synoptic ones beside them superfluous. */
static void drop_synoptic(struct weather__reader *r)
{
    size_t kept = 0;

    if (r->hourly == 0 || (size_t)r->hourly == r->count)
        return;
    for (size_t i = 0; i < r->count; i++) {
        if (r->samples[i].synoptic)
            weather__note(r, DEW_NOTICE_SYNOPTIC, r->samples[i].line);
        else
            r->samples[kept++] = r->samples[i];
    }
    r->count = kept;
}

/* Fill what last lacks from s, of the same moment; 0 when both have some. */
static int join(struct weather__sample *last, const struct weather__sample *s)
{
    int apart = 1;

    last->ends |= s->ends;
    for (int k = 0; k < WEATHER__LANES; k++) {
        if (isnan(last->lane[k]))
            last->lane[k] = s->lane[k];
        else if (!isnan(s->lane[k]))
            apart = 0;
    }
    return apart;
}

static void note_back(struct weather__reader *r,
                      const struct weather__sample *before,
                      const struct weather__sample *s)
{
    struct dew_weather_report *p = r->report;
    double back = (double)(before->moment - s->moment) / 3600.0;

    weather__note(r, DEW_NOTICE_DISORDER, s->line);
    if (back <= p->back)
        return;
    p->back = back;
    p->back_line = s->line;
}

static void sort_and_single(struct weather__reader *r)
{
    size_t kept = 0;
    int disorder = 0;

    for (size_t i = 1; i < r->count; i++)
        if (r->samples[i].moment < r->samples[i - 1].moment) {
            disorder = 1;
            if (!r->typical) /* there the year's end is wrapped around */
                note_back(r, &r->samples[i - 1], &r->samples[i]);
        }
    if (disorder)
        qsort(r->samples, r->count, sizeof *r->samples, by_moment);
    for (size_t i = 0; i < r->count; i++) {
        struct weather__sample *s = &r->samples[i];
        struct weather__sample *last = kept > 0 ? &r->samples[kept - 1] : NULL;

        if (last == NULL || last->moment != s->moment) {
            r->samples[kept++] = *s;
            continue;
        }
        if (!join(last, s))
            weather__note(r, DEW_NOTICE_DOUBLED, s->line);
    }
    r->count = kept;
}

/* A file that is held to order: every hour once, one after the other. */
static void check_order(struct weather__reader *r)
{
    int64_t due = r->samples[0].moment;
    char at[24], want[24];

    if (r->typical)
        due = weather__days(WEATHER__TYPICAL, 1, 1) * WEATHER__DAY +
              WEATHER__HOUR;
    for (size_t i = 0; i < r->count; i++, due += WEATHER__HOUR) {
        const struct weather__sample *s = &r->samples[i];

        if (s->moment == due)
            continue;
        weather__moment_text(s->moment, r->typical, at, sizeof at);
        weather__moment_text(due, r->typical, want, sizeof want);
        if (s->moment == due - WEATHER__HOUR && i > 0)
            weather__reader_fault(
                r, DEW_ESYNTAX, "time", s->line, r->time_cell,
                "the hour that ends %s stands here again; %s is "
                "due",
                at, want);
        else if (s->moment > due)
            weather__reader_fault(
                r, DEW_EMISSING, "time", s->line, r->time_cell,
                "%lld hours are missing before %s; %s is due",
                (long long)((s->moment - due + 1800) / WEATHER__HOUR), at,
                want);
        else
            weather__reader_fault(r, DEW_ESYNTAX, "time", s->line, r->time_cell,
                                  "%s is out of order; %s is due", at, want);
        due = s->moment;
    }
    if (r->typical && r->status == DEW_OK && r->count < 8760)
        weather__reader_fault(
            r, DEW_EMISSING, "time", r->samples[r->count - 1].line,
            r->time_cell, "the year ends after %zu of 8760 hours", r->count);
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;

    return (x > y) - (x < y);
}

/* The median step of at most 999 steps spread over the file. */
static double usual_step(const struct weather__reader *r)
{
    double steps[999];
    size_t n = 0, stride = r->count / 999 + 1;

    for (size_t i = 1; i < r->count && n < 999; i += stride)
        steps[n++] = (double)(r->samples[i].moment - r->samples[i - 1].moment);
    if (n == 0)
        return WEATHER__HOUR;
    qsort(steps, n, sizeof steps[0], by_size);
    return steps[n / 2];
}

/* Not one row: what the first of them has where a time or a number is due. */
static enum dew_status no_rows(struct weather__reader *r)
{
    if (r->bad_time_line > 0)
        return weather__reader_fault(
            r, DEW_EMISSING, "time", r->bad_time_line, r->time_cell,
            "\"%s\" is read as no time, and no row has "
            "one; 2020-01-31 13:00 or 1/31/2020 1:00 PM "
            "would be",
            r->bad_time);
    if (r->bad_value_line > 0)
        return weather__reader_fault(
            r, DEW_EMISSING, "rows", r->bad_value_line, r->bad_value_cell,
            "\"%s\" is no number, and no row has one", r->bad_value);
    return weather__reader_fault(r, DEW_EMISSING, "rows", 0, 0,
                                 "no row with a time and a value");
}

enum dew_status weather__moments(struct weather__reader *r)
{
    if (r->count == 0)
        return no_rows(r);
    drop_synoptic(r);
    if (settle_order(r) != DEW_OK)
        return r->status;
    if (!r->typical && !r->log && looks_typical(r))
        r->typical = 1;
    if (r->typical)
        onto_typical(r);
    for (size_t i = 0; i < r->count; i++)
        r->samples[i].moment += r->samples[i].seconds;
    if (settle_clock(r) != DEW_OK)
        return r->status;
    if (r->strict && r->count > 0)
        check_order(r);
    for (size_t i = 0; r->typical && i < r->count; i++)
        r->samples[i].moment = into_typical(r->samples[i].moment);
    sort_and_single(r);
    r->report->interval = usual_step(r);
    r->report->used = (long)r->count;
    return r->status;
}
