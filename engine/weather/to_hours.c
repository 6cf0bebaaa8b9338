/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Samples become hours.  t, w, p and wind: a straight line between the samples
 * on both sides of the hour's end, when they are near enough; solar: the mean
 * of the samples that end in the hour, or of the line through momentary ones.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "core/fail.h"
#include "dew/air.h"
#include "weather/calendar.h"
#include "weather/reader.h"
#include "weather/year.h"

/* Rows further apart than this, s, leave gaps between them; synoptic reports
   come every 3 h [WMO-8]. */
static const double USUAL_MOST = 10800.0;

struct span {
    int64_t first, last; /* the ends of the first and last hour */
    size_t hours;
};

/* The value of a lane at the end of hours, walking forward. */
struct walk {
    const struct weather__reader *r;
    enum weather__lane lane;
    size_t next;   /* first sample with a value at or after the hour */
    size_t before; /* last one before it; count: none                */
};

static int64_t up_to_hour(int64_t moment)
{
    int64_t rest = moment % WEATHER__HOUR;

    if (rest < 0)
        rest += WEATHER__HOUR;
    return rest == 0 ? moment : moment - rest + WEATHER__HOUR;
}

/*
 * Every hour that the samples reach into.  A first row at midnight ends the
 * day before and only begins the first hour; then a last row at 23:00 begins
 * the last.
 */
static struct span span_of(const struct weather__reader *r)
{
    int64_t first = r->samples[0].moment;
    int64_t last = r->samples[r->count - 1].moment;
    int midnight = first % WEATHER__DAY == 0;
    struct span s;

    if (r->typical) {
        s.first = weather__days(WEATHER__TYPICAL, 1, 1) * WEATHER__DAY +
                  WEATHER__HOUR;
        s.last = s.first + (int64_t)8759 * WEATHER__HOUR;
        s.hours = 8760;
        return s;
    }
    s.first = up_to_hour(first) + (midnight ? WEATHER__HOUR : 0);
    s.last = up_to_hour(last);
    if (s.last - last > WEATHER__HOUR / 2)
        s.last -= WEATHER__HOUR;
    if (midnight && last == s.last &&
        (last + WEATHER__HOUR) % WEATHER__DAY == 0)
        s.last += WEATHER__HOUR;
    s.hours =
        s.last < s.first ? 0 : (size_t)((s.last - s.first) / WEATHER__HOUR) + 1;
    return s;
}

/* ---- lines between samples ---------------------------------------------------------- */

static double value(const struct walk *w, size_t i)
{
    return w->r->samples[i].lane[w->lane];
}

static void walk_to(struct walk *w, int64_t moment)
{
    while (w->next < w->r->count && (isnan(value(w, w->next)) ||
                                     w->r->samples[w->next].moment < moment)) {
        if (!isnan(value(w, w->next)))
            w->before = w->next;
        w->next++;
    }
}

enum found { EXACT, NEAR, HELD, GAP };

/* What stands at moment.  *gap: h between the samples beyond the usual step. */
static enum found at(struct walk *w, int64_t moment, double *x, double *gap)
{
    const struct weather__sample *s = w->r->samples;
    size_t count = w->r->count;
    int64_t a, b;

    walk_to(w, moment);
    *gap = INFINITY;
    if (w->next < count && s[w->next].moment == moment) {
        *x = value(w, w->next);
        return EXACT;
    }
    if (w->next == count || w->before == count) {
        size_t only = w->next == count ? w->before : w->next;

        if (only == count || llabs(s[only].moment - moment) > WEATHER__HOUR)
            return GAP;
        *x = value(w, only);
        return HELD;
    }
    a = s[w->before].moment;
    b = s[w->next].moment;
    *gap =
        ((double)(b - a) - fmin(w->r->report->interval, USUAL_MOST)) / 3600.0;
    *x = value(w, w->before) + (value(w, w->next) - value(w, w->before)) *
                                   ((double)(moment - a) / (double)(b - a));
    return *gap > w->r->ask->gap_limit ? GAP : NEAR;
}

/* ---- solar ----------------------------------------------------------------------------- */

struct sun_walk {
    const struct weather__reader *r;
    size_t next; /* first sample after the hour's start */
};

/* Mean over the hour of the line through momentary samples; NaN across a
   sample without one. */
static double line_mean(const struct weather__reader *r,
                        enum weather__lane lane, size_t from, int64_t start)
{
    const struct weather__sample *s = r->samples;
    double sum = 0.0, seconds = 0.0;

    for (size_t i = from; i < r->count; i++) {
        int64_t a = i > 0 ? s[i - 1].moment : start;
        int64_t b = s[i].moment, end = start + WEATHER__HOUR;

        if (i == 0 || b - a > WEATHER__HOUR)
            return NAN;
        a = a < start ? start : a; /* samples lie on the hour or within it */
        b = b > end ? end : b;
        sum += 0.5 * (s[i - 1].lane[lane] + s[i].lane[lane]) * (double)(b - a);
        seconds += (double)(b - a);
        if (s[i].moment >= end)
            break;
    }
    return seconds > 0.0 ? sum / seconds : NAN;
}

static double hour_mean(const struct weather__reader *r,
                        enum weather__lane lane, size_t from, int64_t start)
{
    double sum = 0.0;
    int n = 0;

    for (size_t i = from; i < r->count; i++) {
        const struct weather__sample *s = &r->samples[i];

        if (s->moment > start + WEATHER__HOUR)
            break;
        if (isnan(s->lane[lane]))
            continue;
        sum += s->lane[lane];
        n++;
    }
    return n > 0 ? sum / n : NAN;
}

static double solar(struct sun_walk *w, enum weather__lane lane, int64_t end)
{
    int64_t start = end - WEATHER__HOUR;
    double x;

    if (!w->r->has[lane])
        return NAN;
    while (w->next < w->r->count && w->r->samples[w->next].moment <= start)
        w->next++;
    x = w->r->instants ? line_mean(w->r, lane, w->next, start) : NAN;
    return isnan(x) ? hour_mean(w->r, lane, w->next, start) : x;
}

/* ---- gaps ----------------------------------------------------------------------------------- */

static const struct dew_month_normal *normal_at(const struct weather__reader *r,
                                                int64_t moment)
{
    struct dew_date d;

    if (r->ask->normals == NULL)
        return NULL;
    weather__date_of(moment, 0, &d);
    return &r->ask->normals[d.month - 1];
}

static void note_fill(struct weather__reader *r, enum dew_notice_code code,
                      double gap, int64_t moment)
{
    struct dew_weather_report *p = r->report;

    p->notices[code].count++;
    if (isinf(gap) || !(gap > p->longest_gap))
        return;
    p->longest_gap = gap;
    weather__moment_text(moment, r->typical, p->longest_at,
                         sizeof p->longest_at);
}

/* A gap above the limit: one fault where it begins. */
static void refuse_gap(struct weather__reader *r, const char *what,
                       const struct walk *w, int64_t moment)
{
    char from[24], text[24], back[48] = "";
    int before = w->before == r->count ? 0 : r->samples[w->before].line;

    weather__moment_text(moment, r->typical, from, sizeof from);
    if (w->before == r->count || w->next == r->count) {
        weather__reader_fault(r, DEW_EMISSING, what, before, r->cell[w->lane],
                              "no value at %s, at an end of the file", from);
        return;
    }
    dew_number_fixed(
        (double)(r->samples[w->next].moment - r->samples[w->before].moment) /
            3600.0,
        1, text, sizeof text);
    if (r->report->back >= 24.0)
        snprintf(back, sizeof back, " (on line %d time goes back)",
                 r->report->back_line);
    weather__reader_fault(
        r, DEW_EMISSING, what, before, r->cell[w->lane],
        "no value for %s h from %s on%s; a gap above the limit "
        "is filled only from a place that is named for it",
        text, from, back);
}

/* ---- one lane of every hour ------------------------------------------------------------------- */

/* Where a lane's hours stand, and a month's normal of it. */
static const struct filled {
    enum weather__lane lane;
    const char *what;
    size_t hour, normal;
} filled[] = {
    {WEATHER__LANE_T, "temperature", offsetof(struct dew_hour, t),
     offsetof(struct dew_month_normal, t)},
    {WEATHER__LANE_W, "humidity", offsetof(struct dew_hour, w),
     offsetof(struct dew_month_normal, w)},
    {WEATHER__LANE_P, "pressure", offsetof(struct dew_hour, p),
     offsetof(struct dew_month_normal, p)},
    {WEATHER__LANE_WIND, "wind speed", offsetof(struct dew_hour, wind),
     offsetof(struct dew_month_normal, wind)},
};

/* What a gap is worth: 1 when the run goes on without a fault. */
static int fill_gap(struct weather__reader *r, const struct walk *w,
                    const struct filled *f, int64_t moment, double *x)
{
    const struct dew_month_normal *normal = normal_at(r, moment);

    if (w->lane == WEATHER__LANE_P && (normal == NULL || isnan(normal->p)) &&
        w->before < r->count && w->next < r->count)
        return 1; /* pressure moves little: the line stands */
    *x = NAN;
    if (normal != NULL)
        *x = *(const double *)(const void *)((const char *)normal + f->normal);
    if (normal != NULL && w->lane == WEATHER__LANE_T)
        r->report->notices[DEW_NOTICE_FILLED_NORMALS].count++;
    return normal != NULL || r->ask->keep_gaps;
}

/* Returns how many hours stand at a sample. */
static size_t fill_lane(struct weather__reader *r, const struct filled *f,
                        const struct span *span, struct dew_hour *hours)
{
    size_t exact = 0;
    enum weather__lane lane = f->lane;
    struct walk w = {r, lane, 0, r->count};
    int refused = 0;

    for (size_t h = 0; h < span->hours; h++) {
        int64_t moment = span->first + (int64_t)h * WEATHER__HOUR;
        double x = NAN, gap;
        enum found found = at(&w, moment, &x, &gap);

        exact += found == EXACT;
        if (found != GAP) {
            refused = 0;
            if (lane == WEATHER__LANE_T && found == HELD)
                r->report->notices[DEW_NOTICE_HELD].count++;
            /* gap is what a line bridges beyond the usual step */
            if (lane == WEATHER__LANE_T && found == NEAR && gap > 0.5)
                note_fill(r, DEW_NOTICE_FILLED, gap, moment);
        } else if (!fill_gap(r, &w, f, moment, &x)) {
            if (!refused)
                refuse_gap(r, f->what, &w, moment);
            refused = 1;
        }
        *(double *)(void *)((char *)&hours[h] + f->hour) = x;
    }
    return exact;
}

static void fill_solar(struct weather__reader *r, const struct span *span,
                       struct dew_hour *hours)
{
    struct sun_walk g = {r, 0}, b = {r, 0}, d = {r, 0};

    for (size_t h = 0; h < span->hours; h++) {
        int64_t end = span->first + (int64_t)h * WEATHER__HOUR;

        hours[h].global = solar(&g, WEATHER__LANE_GLOBAL, end);
        hours[h].direct = solar(&b, WEATHER__LANE_DIRECT, end);
        hours[h].diffuse = solar(&d, WEATHER__LANE_DIFFUSE, end);
    }
}

/* The sky by the file's own infrared, else by its cloud; NaN without. */
static double sky_at(struct walk *infrared, struct walk *cloud, int64_t moment,
                     const struct dew_hour *h)
{
    const struct weather__reader *r = infrared->r;
    double x, gap;

    if (r->has[WEATHER__LANE_INFRARED] && at(infrared, moment, &x, &gap) != GAP)
        return dew_weather_sky_infrared(h->t, x);
    if (r->has[WEATHER__LANE_CLOUD] && at(cloud, moment, &x, &gap) != GAP)
        return dew_weather_sky_below(
            h->t, dew_weather_sky_emissivity(dew_air_dew(h->w, h->p), x));
    return NAN;
}

static void fill_sky(struct weather__reader *r, const struct span *span,
                     struct dew_year *year)
{
    struct walk infrared = {r, WEATHER__LANE_INFRARED, 0, r->count};
    struct walk cloud = {r, WEATHER__LANE_CLOUD, 0, r->count};
    size_t known = 0;

    for (size_t h = 0; h < span->hours; h++) {
        struct dew_hour *hour = &year->hours[h];

        hour->sky = sky_at(&infrared, &cloud,
                           span->first + (int64_t)h * WEATHER__HOUR, hour);
        known += isfinite(hour->sky) ? 1 : 0;
    }
    if (2 * known > span->hours)
        year->sky =
            r->has[WEATHER__LANE_INFRARED] ? DEW_SKY_INFRARED : DEW_SKY_CLOUD;
}

/* ---- is it plausible ------------------------------------------------------------------------------ */

static void look_odd(struct weather__reader *r, const struct dew_hour *h,
                     size_t n)
{
    size_t run = 1;

    for (size_t i = 1; i <= n; i++) {
        if (i < n && fabs(h[i].t - h[i - 1].t) > WEATHER__JUMP_K)
            r->report->notices[DEW_NOTICE_JUMP].count++;
        if (i < n && h[i].t == h[i - 1].t && h[i].w == h[i - 1].w) {
            run++;
            continue;
        }
        if (run > WEATHER__STUCK_H)
            r->report->notices[DEW_NOTICE_STUCK].count += (long)run;
        run = 1;
    }
}

static void say_method(struct weather__reader *r, int exact)
{
    snprintf(r->report->method, sizeof r->report->method, "%s; solar is %s",
             exact ? "hourly rows taken at the end of their hour"
                   : "a line between the rows around each hour's end",
             !r->has[WEATHER__LANE_GLOBAL] ? "not in the file"
             : r->instants ? "the mean of the line through momentary rows"
                           : "the mean of the rows that end in the hour");
}

/* Hours of another year than asked for, off the front and the back. */
static enum dew_status only_year(struct weather__reader *r, struct span *s)
{
    int64_t low, high;

    if (r->ask->year == 0 || r->typical)
        return DEW_OK;
    low = weather__days(r->ask->year, 1, 1) * WEATHER__DAY + WEATHER__HOUR;
    high = weather__days(r->ask->year + 1, 1, 1) * WEATHER__DAY;
    s->first = s->first > low ? s->first : low;
    s->last = s->last < high ? s->last : high;
    s->hours = s->last < s->first
                   ? 0
                   : (size_t)((s->last - s->first) / WEATHER__HOUR) + 1;
    if (s->hours == 0)
        return weather__reader_fault(r, DEW_EUNKNOWN, "year", 0, 0,
                                     "the file has no hour of %d",
                                     r->ask->year);
    return DEW_OK;
}

enum dew_status weather__hours(struct weather__reader *r, struct dew_year *year)
{
    const struct dew_hour empty = {.t = NAN,
                                   .w = NAN,
                                   .p = NAN,
                                   .wind = NAN,
                                   .global = NAN,
                                   .direct = NAN,
                                   .diffuse = NAN};
    struct span span = span_of(r);
    struct dew_error err = {0};
    size_t exact[sizeof filled / sizeof filled[0]] = {0}; /* of t first    */

    if (only_year(r, &span) != DEW_OK)
        return r->status;
    if (span.hours > WEATHER__HOURS_MOST)
        return weather__reader_fault(
            r, DEW_ERANGE, "time", 0, 0,
            "the rows span more than 60 years: say which "
            "year, or mend the row with a wrong one");
    for (size_t h = 0; h < span.hours; h++)
        if (weather__year_append(year, &empty, &err) != DEW_OK)
            return weather__reader_error(r, &err);
    for (size_t i = 0; i < sizeof filled / sizeof filled[0]; i++)
        if (filled[i].lane != WEATHER__LANE_WIND || r->has[WEATHER__LANE_WIND])
            exact[i] = fill_lane(r, &filled[i], &span, year->hours);
    fill_solar(r, &span, year->hours);
    fill_sky(r, &span, year);
    look_odd(r, year->hours, span.hours);
    say_method(r, r->report->interval == WEATHER__HOUR &&
                      exact[0] > span.hours / 2);
    if (weather__year_finish(year, span.first, r->typical, &err) != DEW_OK)
        return weather__reader_error(r, &err);
    return r->status;
}
