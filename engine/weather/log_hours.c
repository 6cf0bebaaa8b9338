/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Samples of one sensor become means over hours: of a line through the rows,
 * of values held from change to change, or, where rows come once an hour, of
 * the row that stands for it.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dew/air.h"
#include "weather/calendar.h"
#include "weather/log.h"

/* Our own choices, no source: rows this far apart stand for hours; an hour
   counts when this much of it is covered; limits for a warning. */
static const double HOURLY_FROM = 2700.0;
static const double COVER_LEAST = 1800.0;
static const double HOT_ROOM = 45.0, COLD_ROOM_LOW = -13.0, COLD_ROOM = 0.0;
/* Pa, standard atmosphere [ASH-F1]: for humidity ratios of a room */
static const double USUAL_PRESSURE = 101325.0;

/* One lane, walked forward through the hours. */
struct walk {
    const struct weather__reader *r;
    enum weather__lane lane;
    double bridge, hold, outage; /* s  longest step, value, outage bridged */
    size_t at; /* last sample with a value at or before the hour's start */
};

enum { NONE, GIVEN, BRIDGED };

static int64_t down_to_hour(int64_t moment)
{
    int64_t rest = moment % WEATHER__HOUR;

    return moment - (rest < 0 ? rest + WEATHER__HOUR : rest);
}

static const struct weather__sample *sample(const struct walk *w, size_t i)
{
    return &w->r->samples[i];
}

/* The next sample with a value after i, or count. */
static size_t next_value(const struct walk *w, size_t i)
{
    do
        i++;
    while (i < w->r->count && isnan(sample(w, i)->lane[w->lane]));
    return i;
}

static void walk_to(struct walk *w, int64_t start)
{
    size_t next;

    if (w->at == 0 && w->r->count > 0 && isnan(sample(w, 0)->lane[w->lane]))
        w->at = next_value(w, 0);
    while (w->at < w->r->count) {
        next = next_value(w, w->at);
        if (next == w->r->count || sample(w, next)->moment > start)
            return;
        w->at = next;
    }
}

static double on_line(const struct walk *w, size_t i, size_t j, int64_t moment)
{
    const struct weather__sample *a = sample(w, i), *b = sample(w, j);

    return a->lane[w->lane] +
           (b->lane[w->lane] - a->lane[w->lane]) *
               ((double)(moment - a->moment) / (double)(b->moment - a->moment));
}

/* The mean over the hour of the line through the rows. */
static int line_mean(struct walk *w, int64_t start, double *x)
{
    int64_t end = start + WEATHER__HOUR;
    double sum = 0.0, cover = 0.0;
    size_t i, j;
    int inside = 0;

    walk_to(w, start);
    for (i = w->at; i < w->r->count && sample(w, i)->moment < end; i = j) {
        int64_t a = sample(w, i)->moment, b;

        j = next_value(w, i);
        inside |= a >= start;
        if (j == w->r->count)
            break;
        b = sample(w, j)->moment;
        inside |= b <= end;
        if ((double)(b - a) > w->bridge)
            continue;
        a = a < start ? start : a;
        b = b > end ? end : b;
        sum +=
            0.5 * (on_line(w, i, j, a) + on_line(w, i, j, b)) * (double)(b - a);
        cover += (double)(b - a);
    }
    if (!(cover >= COVER_LEAST))
        return NONE;
    *x = sum / cover;
    return inside ? GIVEN : BRIDGED;
}

/* What the line says at the hour's end: rows that come once an hour. */
static int at_end(struct walk *w, int64_t start, double *x)
{
    int64_t end = start + WEATHER__HOUR;
    size_t next;

    walk_to(w, end);
    if (w->at == w->r->count || sample(w, w->at)->moment > end)
        return NONE;
    if (sample(w, w->at)->moment == end) {
        *x = sample(w, w->at)->lane[w->lane];
        return GIVEN;
    }
    next = next_value(w, w->at);
    if (next == w->r->count || (double)(sample(w, next)->moment -
                                        sample(w, w->at)->moment) > w->bridge)
        return NONE;
    *x = on_line(w, w->at, next, end);
    return sample(w, w->at)->moment > start ||
                   sample(w, next)->moment <= end + WEATHER__HOUR / 2
               ? GIVEN
               : BRIDGED;
}

/* Until when the value of sample i holds; *next: the one after it. */
static int64_t held_until(const struct walk *w, size_t i, size_t *next)
{
    int64_t from = sample(w, i)->moment;
    int64_t until = from + (int64_t)w->hold, known;

    *next = next_value(w, i);
    known = *next < w->r->count ? sample(w, *next)->moment
                                : down_to_hour(from) + WEATHER__HOUR;
    for (size_t k = i + 1; k < *next; k++) {
        int64_t ends = sample(w, k)->moment;

        if ((sample(w, k)->ends >> w->lane & 1) == 0)
            continue;
        if (*next == w->r->count || (double)(known - ends) > w->outage)
            known = ends;
        break;
    }
    return until < known ? until : known;
}

static int held_mean(struct walk *w, int64_t start, double *x)
{
    int64_t end = start + WEATHER__HOUR;
    double sum = 0.0, cover = 0.0;
    size_t i, next;
    int inside = 0;

    walk_to(w, start);
    for (i = w->at; i < w->r->count && sample(w, i)->moment < end; i = next) {
        int64_t a = sample(w, i)->moment, b = held_until(w, i, &next);

        inside |= a >= start;
        a = a < start ? start : a;
        b = b > end ? end : b;
        if (b <= a)
            continue;
        sum += sample(w, i)->lane[w->lane] * (double)(b - a);
        cover += (double)(b - a);
    }
    if (!(cover >= COVER_LEAST))
        return NONE;
    *x = sum / cover;
    return inside ? GIVEN : BRIDGED;
}

/* ---- how long a machine ran --------------------------------------------------------- */

/* The mean of the rows that end in the hour, each of as much of it as rows are
   apart: what is added up in a row is no line through it. */
static int row_mean(struct walk *w, int64_t start, double *x)
{
    double sum = 0.0, apart = w->r->report->interval;
    int rows = 0;

    walk_to(w, start);
    for (size_t i = w->at;
         i < w->r->count && sample(w, i)->moment <= start + WEATHER__HOUR;
         i = next_value(w, i))
        if (sample(w, i)->moment > start) {
            sum += sample(w, i)->lane[w->lane];
            rows++;
        }
    if (!(rows * apart >= COVER_LEAST))
        return NONE;
    *x = sum / rows;
    return GIVEN;
}

/* More than the whole of a row by less is rounding; our own. */
static const double WHOLE = 1.02;

/* A time in each row becomes a share of it. */
static enum dew_status shares_of(struct weather__log *log,
                                 enum weather__lane lane)
{
    const struct weather__column *c = log->t.lane[lane];
    double apart = log->r.report->interval;
    int time = c != NULL && weather__run_is_time(c->unit);

    if (c == NULL)
        return DEW_OK;
    if (time && (log->history || log->ask->method == DEW_LOG_HOLD))
        return weather__reader_fault(
            &log->r, DEW_EUNIT, c->header, log->t.header_line, c->cell + 1,
            "a run time in rows that come on change is a share of no time: "
            "states of on and off would be");
    for (size_t i = 0; i < log->r.count; i++) {
        struct weather__sample *s = &log->r.samples[i];

        s->lane[lane] /= time ? apart : 1.0;
        if (s->lane[lane] < 0.0)
            return weather__reader_fault(
                &log->r, DEW_ERANGE, c->header, s->line, c->cell + 1,
                "it ran for less than no time: an empty cell is what is not "
                "known");
        if (s->lane[lane] > WHOLE)
            return weather__reader_fault(
                &log->r, DEW_ERANGE, c->header, s->line, c->cell + 1,
                time ? "it ran longer than rows are apart, %.0f min: the unit "
                       "is another, or rows are sums of more"
                     : "%.0f %% of the time is more than all of it: the unit "
                       "is another",
                time ? apart / 60.0 : 100.0 * s->lane[lane]);
        if (s->lane[lane] > 1.0)
            s->lane[lane] = 1.0;
    }
    return DEW_OK;
}

/* ---- humidity ------------------------------------------------------------------ */

/* RH of rows that give it as dew point or humidity ratio. */
static void fill_rh(struct weather__reader *r)
{
    for (size_t i = 0; i < r->count; i++) {
        double *v = r->samples[i].lane;
        double pws = dew_air_pws_liquid(v[WEATHER__LANE_T]);
        double rh = v[WEATHER__LANE_RH];

        if (isnan(rh) && !isnan(v[WEATHER__LANE_TD]))
            rh = dew_air_pws_liquid(v[WEATHER__LANE_TD]) / pws;
        if (isnan(rh) && !isnan(v[WEATHER__LANE_W]))
            rh = dew_air_pv(v[WEATHER__LANE_W], USUAL_PRESSURE) / pws;
        if (rh > 1.0) {
            weather__note(r, DEW_NOTICE_SATURATED, r->samples[i].line);
            rh = 1.0;
        }
        v[WEATHER__LANE_RH] = rh;
        if (!isnan(rh))
            r->has[WEATHER__LANE_RH] = 1;
    }
}

/* ---- hours ----------------------------------------------------------------------- */

/* Room for the hours that end at first .. last. */
static enum dew_status reach(struct weather__log *log, int64_t first,
                             int64_t last)
{
    int64_t low = log->count == 0 || first < log->first ? first : log->first;
    int64_t high = log->first + (int64_t)(log->count - 1) * WEATHER__HOUR;
    struct weather__log_sum *more;
    size_t n, before;

    high = log->count == 0 || last > high ? last : high;
    n = (size_t)((high - low) / WEATHER__HOUR) + 1;
    if (n == log->count)
        return DEW_OK;
    if (n > WEATHER__HOURS_MOST)
        return weather__reader_fault(
            &log->r, DEW_ERANGE, "time", 0, 0,
            "the rows span more than 60 years: mend the "
            "row with a wrong year");
    more = calloc(n, sizeof *more);
    if (more == NULL)
        return weather__reader_fault(&log->r, DEW_EMEM, "", 0, 0,
                                     "no memory for %zu hours", n);
    before = log->count == 0 ? 0 : (size_t)((log->first - low) / WEATHER__HOUR);
    if (log->count > 0)
        memcpy(more + before, log->hours, log->count * sizeof *more);
    free(log->hours);
    log->hours = more;
    log->first = low;
    log->count = n;
    return DEW_OK;
}

/* Hours that the samples cover by half. */
static void span_of(const struct weather__reader *r, int hourly, int64_t *first,
                    int64_t *last)
{
    int64_t a = r->samples[0].moment, b = r->samples[r->count - 1].moment;

    *first = down_to_hour(a) + WEATHER__HOUR;
    *last = down_to_hour(b);
    if (hourly) {
        *first = a % WEATHER__HOUR == 0 ? a : *first;
        return;
    }
    *first += (double)(*first - a) < COVER_LEAST ? WEATHER__HOUR : 0;
    *last += (double)(b - *last) >= COVER_LEAST ? WEATHER__HOUR : 0;
}

static void add(double x, double *sum, int *count)
{
    *sum += x;
    ++*count;
}

typedef int (*mean_of)(struct walk *w, int64_t start, double *x);

struct run { /* of one and the same value */
    double t, rh;
    long hours;
};

static void look_odd(struct weather__reader *r, struct run *run, double t,
                     double rh)
{
    if (fabs(t - run->t) > WEATHER__JUMP_K)
        r->report->notices[DEW_NOTICE_JUMP].count++;
    run->hours = t == run->t && (rh == run->rh || (isnan(rh) && isnan(run->rh)))
                     ? run->hours + 1
                     : 1;
    if (run->hours > WEATHER__STUCK_H)
        r->report->notices[DEW_NOTICE_STUCK].count +=
            run->hours == WEATHER__STUCK_H + 1 ? run->hours : 1;
    run->t = t;
    run->rh = rh;
}

static void note_bridged(struct weather__log *log, mean_of mean)
{
    enum dew_notice_code code =
        mean == held_mean ? DEW_NOTICE_HELD : DEW_NOTICE_FILLED;

    log->report->file.notices[code].count++;
}

/* Every hour of the span, one lane after the other. */
static void add_hours(struct weather__log *log, mean_of mean, int64_t first,
                      int64_t last)
{
    double bridge =
        log->ask->gap_limit * 3600.0 + fmax(log->r.report->interval, 0.0);
    double hold = log->ask->hold_limit * 3600.0;
    double outage = log->ask->gap_limit * 3600.0;
    struct walk t = {&log->r, WEATHER__LANE_T, bridge, hold, outage, 0};
    struct walk rh = {&log->r, WEATHER__LANE_RH, bridge, hold, outage, 0};
    struct walk co2 = {&log->r, WEATHER__LANE_CO2, bridge, hold, outage, 0};
    struct walk cool = {&log->r, WEATHER__LANE_COOL, bridge, hold, outage, 0};
    struct walk fan = {&log->r, WEATHER__LANE_FAN, bridge, hold, outage, 0};
    mean_of ran = mean == held_mean ? held_mean : row_mean;
    struct run run = {NAN, NAN, 0};

    for (int64_t end = first; end <= last; end += WEATHER__HOUR) {
        struct weather__log_sum *h =
            &log->hours[(size_t)((end - log->first) / WEATHER__HOUR)];
        double a = NAN, b = NAN, c = NAN;
        int found = mean(&t, end - WEATHER__HOUR, &a);

        if (found != NONE)
            add(a, &h->t, &h->t_count);
        if (found == BRIDGED)
            note_bridged(log, mean);
        if (mean(&rh, end - WEATHER__HOUR, &b) != NONE)
            add(b, &h->rh, &h->rh_count);
        if (mean(&co2, end - WEATHER__HOUR, &c) != NONE)
            add(c, &h->co2, &h->co2_count);
        if (ran(&cool, end - WEATHER__HOUR, &c) != NONE)
            add(c, &h->cool, &h->cool_count);
        if (ran(&fan, end - WEATHER__HOUR, &c) != NONE)
            add(c, &h->fan, &h->fan_count);
        look_odd(&log->r, &run, a, b);
    }
}

/* ---- does the unit fit a room? ------------------------------------------------------ */

static double mean_t(const struct weather__reader *r)
{
    double sum = 0.0;
    long n = 0;

    for (size_t i = 0; i < r->count; i++) {
        double t = r->samples[i].lane[WEATHER__LANE_T];

        sum += isnan(t) ? 0.0 : t;
        n += !isnan(t);
    }
    return n > 0 ? sum / (double)n : NAN;
}

static void suspect_room(struct weather__reader *r)
{
    double t = mean_t(r);
    const char *text = NULL;

    if (t > HOT_ROOM)
        text = "rooms as hot as this: temperatures look like degF read as degC";
    else if (t > COLD_ROOM_LOW && t < COLD_ROOM)
        text = "rooms as cold as this: temperatures look like degC read as "
               "degF, or the sensor is outdoors";
    if (text != NULL)
        snprintf(r->report->suspicion, sizeof r->report->suspicion, "%s", text);
}

/* ---- all of it ---------------------------------------------------------------------- */

static mean_of method_of(struct weather__log *log, int *hourly)
{
    const char *text;
    mean_of mean;
    int hold = log->ask->method == DEW_LOG_HOLD ||
               (log->ask->method == DEW_LOG_AUTO && log->history);

    *hourly = !hold && log->r.report->interval >= HOURLY_FROM;
    if (hold)
        text = "the mean over the hour of values held up to the next row";
    else if (*hourly)
        text = "rows stand for the hour that ends at their time; between "
               "rows, a line at the hour's end";
    else
        text = "the mean over the hour of a line through the rows";
    mean = hold ? held_mean : *hourly ? at_end : line_mean;
    snprintf(log->report->file.method, sizeof log->report->file.method, "%s",
             text);
    return mean;
}

enum dew_status weather__log_add(struct weather__log *log)
{
    int64_t first, last;
    int hourly;
    mean_of mean;

    if (weather__reader_ranges(&log->r) != DEW_OK ||
        weather__moments(&log->r) != DEW_OK ||
        weather__humid_units(&log->r) != DEW_OK)
        return log->r.status;
    if (shares_of(log, WEATHER__LANE_COOL) != DEW_OK ||
        shares_of(log, WEATHER__LANE_FAN) != DEW_OK)
        return log->r.status;
    suspect_room(&log->r);
    fill_rh(&log->r);
    mean = method_of(log, &hourly);
    span_of(&log->r, hourly, &first, &last);
    if (last < first)
        return DEW_OK;
    if (reach(log, first, last) == DEW_OK)
        add_hours(log, mean, first, last);
    return log->r.status;
}
