/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/stamps.h"

#include <string.h>

#include "weather/calendar.h"

/* Digits at *text, at most most of them; how many, and their value. */
static int digits(const char **text, int most, int64_t *value)
{
    int n = 0;

    *value = 0;
    while (n < most && (*text)[n] >= '0' && (*text)[n] <= '9')
        *value = *value * 10 + ((*text)[n++] - '0');
    *text += n;
    return n;
}

static int run_of_digits(const char *text)
{
    int n = 0;

    while (text[n] >= '0' && text[n] <= '9')
        n++;
    return n;
}

static char lower(char c)
{
    return (char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
}

/* 1 and past it when word (lower case) stands at *text. */
static int word_at(const char **text, const char *word)
{
    size_t n = strlen(word);

    for (size_t i = 0; i < n; i++)
        if (lower((*text)[i]) != word[i])
            return 0;
    *text += n;
    return 1;
}

static void skip_blanks(const char **text)
{
    while (**text == ' ' || **text == '\t')
        ++*text;
}

/* "+02:00" "-0500" "+1" at *text, s. */
static int offset_at(const char **text, int *zone)
{
    const char *at = *text;
    int sign = *at == '-' ? -1 : 1;
    int64_t hours, minutes = 0;

    if (*at != '-' && *at != '+')
        return 0;
    at++;
    if (digits(&at, 2, &hours) == 0 || hours > 14)
        return 0;
    if (*at == ':')
        at++;
    if (run_of_digits(at) >= 2)
        digits(&at, 2, &minutes);
    *zone = sign * (int)(hours * WEATHER__HOUR + minutes * WEATHER__MINUTE);
    *text = at;
    return minutes < 60;
}

static int zone_at(const char **text, int *zone)
{
    *zone = 0;
    if (word_at(text, "utc") || word_at(text, "gmt")) {
        const char *at = *text;

        skip_blanks(&at); /* "GMT -05:00" */
        if (offset_at(&at, zone))
            *text = at;
        return 1;
    }
    return word_at(text, "z") || offset_at(text, zone);
}

int weather__zone_read(const char *text, int *zone)
{
    for (; *text != '\0'; text++) {
        const char *at = text;

        if ((lower(*at) == 'u' || lower(*at) == 'g') && zone_at(&at, zone))
            return 1;
    }
    return 0;
}

/* Hour, minute and second, with AM and PM. */
static int clock_at(const char **text, struct weather__stamp *out)
{
    const char *at = *text;
    int64_t h, m, s = 0, part;
    int noon = 0;

    if (digits(&at, 2, &h) == 0 || *at++ != ':' || digits(&at, 2, &m) != 2)
        return 0;
    if (*at == ':') {
        at++;
        if (digits(&at, 2, &s) != 2)
            return 0;
        if (*at == '.' || *at == ',') {
            at++;
            digits(&at, 12, &part);
        }
    }
    skip_blanks(&at);
    if (word_at(&at, "am") || word_at(&at, "a.m."))
        noon = 1;
    else if (word_at(&at, "pm") || word_at(&at, "p.m."))
        noon = 2;
    if (noon != 0 && (h < 1 || h > 12))
        return 0;
    if (noon != 0)
        h = h % 12 + (noon == 2 ? 12 : 0);
    out->seconds = (int)(h * WEATHER__HOUR + m * WEATHER__MINUTE + s);
    out->has_clock = 1;
    *text = at;
    return m < 60 && s < 60 && out->seconds <= WEATHER__DAY;
}

static int day_exists(const struct weather__stamp *s)
{
    int a_is_month = s->a >= 1 && s->a <= 12 && s->b >= 1 &&
                     s->b <= weather__month_days(s->year, s->a);
    int b_is_month = s->b >= 1 && s->b <= 12 && s->a >= 1 &&
                     s->a <= weather__month_days(s->year, s->b);

    return a_is_month || (!s->ordered && b_is_month);
}

/* 20200131, and 202001310900 or 2020013109 in one run. */
static int compact_at(const char **text, int run, struct weather__stamp *out)
{
    int64_t year, month, day, hour = 0, minute = 0;

    digits(text, 4, &year);
    digits(text, 2, &month);
    digits(text, 2, &day);
    if (run > 8)
        digits(text, 2, &hour);
    if (run > 10)
        digits(text, 2, &minute);
    out->year = (int)year;
    out->a = (int)month;
    out->b = (int)day;
    out->ordered = out->has_date = 1;
    out->has_clock = run > 8;
    out->seconds = (int)(hour * WEATHER__HOUR + minute * WEATHER__MINUTE);
    return day_exists(out) && minute < 60 && out->seconds <= WEATHER__DAY;
}

static int unix_time(int64_t seconds, struct weather__stamp *out)
{
    weather__civil(seconds, &out->year, &out->a, &out->b);
    out->seconds = (int)(seconds % WEATHER__DAY);
    out->has_date = out->has_clock = out->has_zone = out->ordered = 1;
    out->zone = 0;
    return 1;
}

/* y-m-d or a/b/y with one of - / . between. */
static int parted_at(const char **text, struct weather__stamp *out)
{
    int64_t part[3];
    int length[3];
    char mark = '\0';

    for (int i = 0; i < 3; i++) {
        length[i] = digits(text, 4, &part[i]);
        if (length[i] == 0)
            return 0;
        if (i == 0)
            mark = **text;
        if (i < 2 &&
            (**text != mark || strchr("-/.", mark) == NULL || mark == '\0'))
            return 0;
        if (i < 2)
            ++*text;
    }
    out->ordered = length[0] == 4;
    if (!out->ordered && length[2] != 4 && length[2] != 2)
        return 0;
    out->year = (int)part[out->ordered ? 0 : 2];
    out->a = (int)part[out->ordered ? 1 : 0];
    out->b = (int)part[out->ordered ? 2 : 1];
    if (!out->ordered && length[2] == 2)
        out->year += out->year < 70 ? 2000 : 1900;
    out->has_date = 1;
    return out->year >= 1 && day_exists(out);
}

/* ---- months by name -------------------------------------------------------- */

static int is_letter(char c)
{
    c = lower(c);
    return c >= 'a' && c <= 'z';
}

/* "Jan", "Sept.", "March" in English, 1 .. 12, and past it; 0 for none. */
static int month_at(const char **text)
{
    static const char *const names[] = {
        "january", "february", "march",     "april",   "may",      "june",
        "july",    "august",   "september", "october", "november", "december"};
    size_t n = 0;

    while (is_letter((*text)[n]))
        n++;
    for (int m = 0; n >= 3 && m < 12; m++) {
        size_t same = 0;

        while (same < n && names[m][same] == lower((*text)[same]))
            same++;
        if (same < n)
            continue;
        *text += n;
        return m + 1;
    }
    return 0;
}

/* One or more of blank - / . and comma. */
static int mark_at(const char **text)
{
    size_t n = strspn(*text, " -/.,");

    *text += n;
    return n > 0;
}

/* "01-Jan-2023", "1 January 23", "Jan 01, 2023", "2023-Jan-01". */
static int named_at(const char **text, struct weather__stamp *out)
{
    int64_t part[2] = {0, 0};
    int length[2] = {0, 0}, n = 0;

    for (int i = 0; i < 3; i++) {
        if (i > 0 && !mark_at(text))
            return 0;
        if (is_letter(**text) && out->a == 0) {
            out->a = month_at(text);
            if (out->a == 0)
                return 0;
            continue;
        }
        if (n == 2)
            return 0;
        length[n] = digits(text, 4, &part[n]);
        if (length[n++] == 0)
            return 0;
    }
    if (n < 2 || length[0] == 3 || length[1] == 3)
        return 0;
    n = length[0] == 4 ? 0 : 1; /* which is the year */
    out->year = (int)part[n];
    out->b = (int)part[1 - n];
    if (length[n] == 1 || length[1 - n] > 2)
        return 0;
    if (length[n] == 2)
        out->year += out->year < 70 ? 2000 : 1900;
    out->has_date = out->ordered = 1;
    return out->year >= 1 && day_exists(out);
}

/* A letter stands where a date of numbers has none. */
static int is_named(const char *text)
{
    size_t n = strspn(text, "0123456789");

    n += strspn(text + n, " -/.");
    return is_letter(text[n]) && lower(text[n]) != 't';
}

/* A run of 10 digits from 19.. or 20.. is a date and hour; else it is Unix. */
static int date_at(const char **text, struct weather__stamp *out)
{
    int run = run_of_digits(*text);
    int century = strncmp(*text, "19", 2) == 0 || strncmp(*text, "20", 2) == 0;
    int64_t seconds;

    if (is_named(*text))
        return named_at(text, out);
    if (run == 8 || run == 12 || (run == 10 && century))
        return compact_at(text, run, out);
    if (run == 10 || run == 13) {
        digits(text, run, &seconds);
        return unix_time(run == 13 ? seconds / 1000 : seconds, out);
    }
    return parted_at(text, out);
}

/* What follows a date: " 01:00", "T01:00", ":0100". */
static int clock_after(const char **text, struct weather__stamp *out)
{
    int64_t h, m;

    if (**text == 'T' || **text == ',' || **text == ':')
        ++*text;
    skip_blanks(text);
    if (**text == '\0' || out->has_clock)
        return 1;
    if (run_of_digits(*text) != 4)
        return clock_at(text, out);
    digits(text, 2, &h);
    digits(text, 2, &m);
    out->seconds = (int)(h * WEATHER__HOUR + m * WEATHER__MINUTE);
    out->has_clock = 1;
    return m < 60 && out->seconds <= WEATHER__DAY;
}

int weather__stamp_read(const char *text, struct weather__stamp *out)
{
    struct weather__stamp s = {0};
    int run;

    skip_blanks(&text);
    run = run_of_digits(text);
    if (run == 0 && !is_letter(*text))
        return 0;
    if (run > 0 && run <= 2 && text[run] == ':') {
        if (!clock_at(&text, &s))
            return 0;
    } else if (!date_at(&text, &s) || !clock_after(&text, &s)) {
        return 0;
    }
    skip_blanks(&text);
    if (*text != '\0' && !s.has_zone)
        s.has_zone = zone_at(&text, &s.zone);
    skip_blanks(&text);
    if (*text != '\0')
        return 0;
    *out = s;
    return 1;
}
