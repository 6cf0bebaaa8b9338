/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was seen of a house: when, and what. */
#include <math.h>
#include <string.h>
#include <strings.h>

#include "dew/core.h"
#include "scenario/keys.h"
#include "scenario/readings.h"
#include "scenario/scenario.h"

/* Hours of the clock: our own. */
static const struct part {
    const char *name;
    double from, until;
} parts[] = {{"mornings", 6, 9},
             {"afternoons", 13, 17},
             {"evenings", 18, 22},
             {"nights", 22, 6}};

static const char *const months[] = {
    "january", "february", "march",     "april",   "may",      "june",
    "july",    "august",   "september", "october", "november", "december"};

enum { LEAST = 3 }; /* letters of a name */

/* The name that such letters begin; count where none. */
static size_t begun(const char *word, size_t n, const char *const *names,
                    size_t count)
{
    size_t i = 0;

    while (i < count && (n < LEAST || n > strlen(names[i]) ||
                         strncasecmp(names[i], word, n) != 0))
        i++;
    return i;
}

static size_t part_of(const char *word, size_t n)
{
    size_t count = sizeof parts / sizeof parts[0], i = 0;

    while (i < count &&
           (n + 1 < strlen(parts[i].name) || n > strlen(parts[i].name) ||
            strncasecmp(parts[i].name, word, n) != 0))
        i++;
    return i;
}

/* "july", "jul", "january mornings" */
static int by_month(const char *text, struct dew_seen *out)
{
    size_t n = strcspn(text, " "), gap = strspn(text + n, " ");
    size_t month = begun(text, n, months, sizeof months / sizeof months[0]);
    const char *rest = text + n + gap;
    size_t part = part_of(rest, strlen(rest));

    if (month == sizeof months / sizeof months[0])
        return 0;
    out->months = 1U << month;
    out->from = 0;
    out->until = 24;
    if (rest[0] == '\0')
        return 1;
    if (part == sizeof parts / sizeof parts[0])
        return 0;
    out->from = parts[part].from;
    out->until = parts[part].until;
    return 1;
}

/* Digits at a place; -1 where there are others. */
static int digits(const char *text, size_t at, int count)
{
    int n = 0;

    for (int i = 0; i < count; i++) {
        char c = text[at + (size_t)i];

        if (c < '0' || c > '9')
            return -1;
        n = 10 * n + c - '0';
    }
    return n;
}

static int days_of(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    int leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);

    return days[month - 1] + (month == 2 && leap);
}

/* "2026-02-03 07:00" */
static int by_date(const char *text, struct dew_seen *out)
{
    struct dew_date *d = &out->date;
    int hour, minute;

    if (strlen(text) != 16 || text[4] != '-' || text[7] != '-' ||
        text[10] != ' ' || text[13] != ':')
        return 0;
    d->year = digits(text, 0, 4);
    d->month = digits(text, 5, 2);
    d->day = digits(text, 8, 2);
    hour = digits(text, 11, 2);
    minute = digits(text, 14, 2);
    if (d->year < 1 || d->month < 1 || d->month > 12 || d->day < 1 ||
        d->day > days_of(d->year, d->month) || hour < 0 || hour > 23 ||
        minute < 0 || minute > 59)
        return 0;
    out->months = 0;
    out->at = hour + minute / 60.0;
    return 1;
}

static const struct dew_value *cell(const struct dew_value *rows, size_t row,
                                    enum scenario__reading_column column)
{
    return &rows->items[row * SCENARIO__READING_COLUMNS + column];
}

/* Of a row whose when is sound. */
static void take(const struct dew_value *rows, size_t row, struct dew_seen *out)
{
    const struct dew_value *when = cell(rows, row, READING_when),
                           *rh = cell(rows, row, READING_rh),
                           *t = cell(rows, row, READING_t),
                           *glass = cell(rows, row, READING_glass);

    *out = (struct dew_seen){.rh = {NAN, NAN, NAN},
                             .t = t->given ? t->amount.si : NAN,
                             .glass = glass->given ? glass->choice : -1,
                             .line = when->origin.line,
                             .column = when->origin.column};
    if (rh->given)
        out->rh = rh->amount;
    (void)(by_month(when->text, out) || by_date(when->text, out));
}

size_t dew_scenario_seen(const struct dew_scenario *s, struct dew_seen *list)
{
    const struct dew_value *rows = &s->base[KEY_readings];
    size_t n = 0;

    for (size_t i = 0; i < rows->count; i++)
        if (cell(rows, i, READING_when)->given)
            take(rows, i, &list[n++]);
    return n;
}

/* ---- what is wrong with a row ------------------------------------------------------ */

static int no_time(struct scenario__reading *r,
                   const struct scenario__node *when)
{
    scenario__blame(r, when, "readings.when", DEW_ERANGE,
                    "\"%.40s\" is no time: write a month (july), a part of its "
                    "days (january mornings, afternoons, evenings, nights), or "
                    "2026-02-03 07:00",
                    when->text);
    return 0;
}

int scenario__reading_agrees(struct scenario__reading *r,
                             const struct scenario__node *row,
                             struct dew_value *cells)
{
    const struct scenario__node *when = scenario__entry(row, "when"),
                                *rh = scenario__entry(row, "rh"),
                                *t = scenario__entry(row, "t");
    struct dew_seen unused;
    int good = 1;

    if (cells[READING_when].given && !by_month(when->text, &unused) &&
        !by_date(when->text, &unused)) {
        cells[READING_when].given = 0;
        good = no_time(r, when);
    }
    if (rh == NULL && scenario__entry(row, "glass") == NULL) {
        scenario__blame(r, when != NULL ? when : row, "readings.when",
                        DEW_ERANGE, "says nothing: give rh or glass beside it");
        good = 0;
    } else if (rh == NULL && t != NULL) {
        scenario__blame(r, t, "readings.t", DEW_ERANGE,
                        "stands without the rh that it was read beside");
        good = 0;
    }
    return good;
}
