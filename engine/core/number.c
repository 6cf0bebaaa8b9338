/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decimal numbers in and out, with a point whatever the locale. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/numeric.h"
#include "dew/unit.h"

/* A double has at most 767 significant decimal digits that matter; a person
   or a file that writes more than this in one number is not writing one. */
enum { LONGEST = 800, EXACT_DIGITS = 15, EXACT_TEN = 22 };

/* What the scan of a number found: its digits, in place, and their scale. */
struct scan {
    const char *text;
    size_t length, at;         /* bytes of text; bytes taken so far        */
    unsigned long long digits; /* while count <= EXACT_DIGITS              */
    int count;                 /* significant digits, leading zeros apart  */
    int any;                   /* a digit was seen                         */
    int scale;                 /* power of ten of digits                   */
};

static int digit_at(const struct scan *s, size_t at)
{
    return at < s->length && s->text[at] >= '0' && s->text[at] <= '9';
}

static void take_digit(struct scan *s)
{
    int digit = s->text[s->at++] - '0';

    s->any = 1;
    if (s->count == 0 && digit == 0)
        return;
    if (++s->count <= EXACT_DIGITS)
        s->digits = s->digits * 10 + (unsigned)digit;
}

/* A comma, three digits, and no fourth: "2,200". */
static int group_at(const struct scan *s, size_t at)
{
    return at < s->length && s->text[at] == ',' && digit_at(s, at + 1) &&
           digit_at(s, at + 2) && digit_at(s, at + 3) && !digit_at(s, at + 4);
}

static void take_whole(struct scan *s)
{
    size_t from = s->at;
    int grouped = digit_at(s, from) && s->text[from] != '0';

    while (digit_at(s, s->at))
        take_digit(s);
    if (!grouped || s->at - from > 3)
        return;
    while (group_at(s, s->at)) {
        s->at++;
        for (int i = 0; i < 3; i++)
            take_digit(s);
    }
}

static void take_fraction(struct scan *s)
{
    int point = s->at < s->length && s->text[s->at] == '.';

    if (!point || !(s->any || digit_at(s, s->at + 1)))
        return;
    s->at++;
    while (digit_at(s, s->at)) {
        take_digit(s);
        s->scale--;
    }
}

/* Only when digits follow, so that "3 e" and "3eggs" stay 3. */
static void take_exponent(struct scan *s)
{
    size_t at = s->at + 1;
    int down = 0, power = 0;

    if (s->at >= s->length || (s->text[s->at] != 'e' && s->text[s->at] != 'E'))
        return;
    if (at < s->length && (s->text[at] == '-' || s->text[at] == '+'))
        down = s->text[at++] == '-';
    if (!digit_at(s, at))
        return;
    for (; digit_at(s, at); at++)
        if (power < 10000)
            power = power * 10 + (s->text[at] - '0');
    s->scale += down ? -power : power;
    s->at = at;
}

/* Few digits and a small power are exact in double: one rounding, no libc. */
static int easy(const struct scan *s, double *x)
{
    static const double ten[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                 1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

    if (s->count > EXACT_DIGITS || abs(s->scale) > EXACT_TEN)
        return 0;
    *x = s->scale < 0 ? (double)s->digits / ten[-s->scale]
                      : (double)s->digits * ten[s->scale];
    return 1;
}

/* The rest goes to strtod, without commas and under the C locale. */
static int hard(const struct scan *s, size_t from, double *x)
{
    char copy[LONGEST + 1];
    struct core__numeric locale;
    size_t n = 0;

    for (size_t i = from; i < s->at; i++) {
        if (s->text[i] == ',')
            continue;
        if (n == LONGEST)
            return 0;
        copy[n++] = s->text[i];
    }
    copy[n] = '\0';
    if (!core__numeric_c(&locale))
        return 0;
    *x = strtod(copy, NULL);
    core__numeric_back(&locale);
    return 1;
}

size_t dew_number_read(const char *text, size_t length, double *x)
{
    struct scan s = {.text = text, .length = length};
    int minus = length > 0 && text[0] == '-';
    size_t from = minus || (length > 0 && text[0] == '+');
    double value;

    s.at = from;
    take_whole(&s);
    take_fraction(&s);
    if (!s.any)
        return 0;
    take_exponent(&s);
    if (!easy(&s, &value) && !hard(&s, from, &value))
        return 0;
    if (!isfinite(value))
        return 0;
    *x = minus ? -value : value;
    return s.at;
}

static void print(char *out, size_t size, char style, int digits, double x)
{
    struct core__numeric locale;
    int own = core__numeric_c(&locale);

    if (style == 'e')
        snprintf(out, size, "%.*e", digits, x);
    else if (style == 'g')
        snprintf(out, size, "%.*g", digits, x);
    else
        snprintf(out, size, "%.*f", digits, x);
    if (own)
        core__numeric_back(&locale);
}

/* Zeros after the last digit of a fraction say nothing. */
static void trim(char *out)
{
    char *end = out + strlen(out);

    if (strchr(out, '.') == NULL)
        return;
    while (end[-1] == '0')
        *--end = '\0';
    if (end[-1] == '.')
        end[-1] = '\0';
}

static char *odd(double x, char *out, size_t size)
{
    snprintf(out, size, "%s", isnan(x) ? "nan" : x < 0 ? "-inf" : "inf");
    return out;
}

char *dew_number_print(double x, int digits, char *out, size_t size)
{
    char text[64];
    int power;

    if (!isfinite(x))
        return odd(x, out, size);
    print(text, sizeof text, 'e', digits - 1, x);
    power = (int)strtol(strchr(text, 'e') + 1, NULL, 10);
    if (power < -5 || power > 14) { /* a person reads fewer zeros than that */
        print(text, sizeof text, 'g', digits, x);
    } else if (power >= digits) { /* 12345 in three digits is 12300 */
        double rounded = x;

        dew_number_read(text, strlen(text), &rounded);
        print(text, sizeof text, 'f', 0, rounded);
    } else {
        print(text, sizeof text, 'f', digits - 1 - power, x);
        trim(text);
    }
    snprintf(out, size, "%s", x == 0.0 ? "0" : text);
    return out;
}

/* The digits of n, a point before the last so many; ends at end. */
static char *digits_before(char *end, uint64_t n, int decimals)
{
    *end = '\0';
    for (int i = 1; n > 0 || i <= decimals + 1; i++, n /= 10) {
        *--end = (char)('0' + n % 10);
        if (i == decimals)
            *--end = '.';
    }
    return end;
}

/* Tables of hours are millions of short numbers, and printf takes most of the
   time there.  NULL where it must be asked: a large number, many decimals, or
   one so near the middle between two that a product in doubles cannot tell. */
static char *fixed_fast(double x, int decimals, char text[40])
{
    static const double units[] = {1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
    const double most = 1e10, near = 1e-5; /* a product is good to 2e-6 */
    double whole, rest;
    char *from;

    if (decimals < 0 || decimals > 6 || !(fabs(x) * units[decimals] < most))
        return NULL;
    whole = floor(fabs(x) * units[decimals]);
    rest = fabs(x) * units[decimals] - whole;
    if (fabs(rest - 0.5) < near)
        return NULL;
    whole += rest > 0.5 ? 1.0 : 0.0;
    from = digits_before(text + 39, (uint64_t)whole, decimals);
    if (x < 0.0 && whole > 0.0)
        *--from = '-';
    return from;
}

char *dew_number_fixed(double x, int decimals, char *out, size_t size)
{
    char text[336]; /* 309 digits before the point, 9 after */
    char few[40], *fast;

    if (!isfinite(x))
        return odd(x, out, size);
    fast = fixed_fast(x, decimals, few);
    if (fast != NULL && (size_t)(few + sizeof few - fast) <= size)
        return memcpy(out, fast, (size_t)(few + sizeof few - fast));
    print(text, sizeof text, 'f', decimals, x);
    if (text[0] == '-' && strspn(text + 1, "0.") == strlen(text + 1))
        snprintf(out, size, "%s", text + 1);
    else
        snprintf(out, size, "%s", text);
    return out;
}
