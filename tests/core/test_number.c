/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers in and out, in the C locale and in one that writes 0,5. */
#include "support/drawn.h"
#include "support/rows.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dew/unit.h"

/* glibc 2.36 keeps 39 bytes of LOCPATH in newlocale. */
#if defined(__has_feature) /* clang's word for it */
#if __has_feature(address_sanitizer)
#define __SANITIZE_ADDRESS__ 1
#endif
#endif
#ifdef __SANITIZE_ADDRESS__
#include <sanitizer/lsan_interface.h>
#define LEAKS_IN_LIBC(on) ((on) ? __lsan_disable() : __lsan_enable())
#else
#define LEAKS_IN_LIBC(on) ((void)(on))
#endif

/* clang-format off */
static const struct read_row {
    const char *text;
    size_t used; /* 0: no number */
    double x;
} read_rows[] = {
    {"2200 ft2", 4, 2200.0},       {"2,200", 5, 2200.0},        {"-1,234,567.25", 13, -1234567.25},
    {"12,34", 2, 12.0},            {"1,2345", 1, 1.0},          {"0,123", 1, 0.0},
    {"1234,567", 4, 1234.0},       {"12,345,67", 6, 12345.0},   {"+.5", 3, 0.5},
    {"5.", 2, 5.0},                {"0.76", 4, 0.76},           {"-0.0", 4, -0.0},
    {"1e3", 3, 1000.0},            {"1.5E-2x", 6, 0.015},       {"3 e", 1, 3.0},
    {"3eggs", 1, 3.0},             {"7e+", 1, 7.0},             {"0x1f", 1, 0.0},
    {"1.2.3", 3, 1.2},             {"", 0, 0},                  {".", 0, 0},
    {"-", 0, 0},                   {"e5", 0, 0},                {"inf", 0, 0},
    {"nan", 0, 0},                 {" 1", 0, 0},                {"--2", 0, 0},
    {"1e999", 0, 0},               {"1e-999", 6, 0.0},          {"0.1e99999999999", 0, 0},
    {"9007199254740993", 16, 9007199254740992.0}, {"0.1000000000000000055511151231257827", 36, 0.1},
    {"1.7976931348623157e308", 22, 1.7976931348623157e308}, {"5e-324", 6, 5e-324},
    {"0000000000000000000000012.5", 27, 12.5}, {"123456789012345678", 18, 123456789012345678.0},
    {"8.5e22", 6, 8.5e22},         {"3.3333333333333335e-1", 21, 0.33333333333333335},
    {"1,234.5e1", 9, 12345.0},
};

static const struct print_row {
    const char *want;
    double x;
    int digits;
} print_rows[] = {
    {"0", 0.0, 3},           {"0", -0.0, 3},            {"2200", 2200.0, 2},      {"12300", 12345.0, 3},
    {"0.76", 0.76, 6},       {"-1.5", -1.5, 4},         {"1000", 999.96, 4},      {"0.00171", 0.0017140, 3},
    {"1e-07", 1e-7, 3},      {"0.00002", 2e-5, 3},      {"1.2e+15", 1.2e15, 3},   {"120000000000000", 1.2e14, 3},
    {"0.1", 0.1, 15},        {"0.10000000000000001", 0.1, 17}, {"nan", NAN, 3},   {"-inf", -INFINITY, 3},
    {"100", 99.96, 3},       {"1013.25", 1013.25, 6},
};

static const struct fixed_row {
    const char *want;
    double x;
    int decimals;
} fixed_rows[] = {
    {"0.00", -0.004, 2},     {"-0.01", -0.006, 2},      {"0", -0.4, 0},           {"12.5", 12.46, 1},
    {"nan", NAN, 2},         {"1000000.000000000", 1e6, 9}, {"0.125", 0.125, 3},  {"-273.15", -273.15, 2},
};
/* clang-format on */

static void text_is_read(void **state)
{
    const struct read_row *row = *state;
    double x = 77.25;
    size_t used = dew_number_read(row->text, strlen(row->text), &x);

    assert_int_equal(used, row->used);
    assert_near(x, row->used ? row->x : 77.25, 0.0);
    assert_int_equal(!!signbit(x), row->used && row->text[0] == '-');
}

static void number_is_printed(void **state)
{
    const struct print_row *row = *state;
    char out[40];

    assert_string_equal(dew_number_print(row->x, row->digits, out, sizeof out),
                        row->want);
}

static void number_is_printed_fixed(void **state)
{
    const struct fixed_row *row = *state;
    char out[40];

    assert_string_equal(
        dew_number_fixed(row->x, row->decimals, out, sizeof out), row->want);
}

TEST(length_is_kept)
{
    double x = 0.0;

    assert_int_equal(dew_number_read("12345", 3, &x), 3);
    assert_near(x, 123.0, 0.0);
    assert_int_equal(dew_number_read("1,2345", 5, &x), 5);
    assert_near(x, 1234.0, 0.0);
    assert_int_equal(dew_number_read("1e5", 2, &x), 1);
    assert_near(x, 1.0, 0.0);
}

TEST(very_long_text_is_no_number)
{
    char text[2000];
    double x = 3.0;

    memset(text, '7', sizeof text);
    text[1] = '.';
    assert_int_equal(dew_number_read(text, sizeof text, &x), 0);
    assert_near(x, 3.0, 0.0);
    assert_int_equal(dew_number_read(text, 800, &x), 800);
    assert_near(x, 7.7777777777777777, 1e-15);
}

TEST(output_is_cut_not_overrun)
{
    char out[8];

    memset(out, '#', sizeof out);
    dew_number_fixed(12345.678, 3, out, 5);
    assert_string_equal(out, "1234");
    assert_true(out[5] == '#');
    dew_number_print(12345.678, 8, out, 1);
    assert_string_equal(out, "");
}

/* A multiplicative congruential walk over magnitudes; 17 digits are enough. */
TEST(seventeen_digits_come_back)
{
    uint64_t seed = 20011;
    char out[40];

    for (int i = 0; i < 20000; i++) {
        double x, back = 0.0;

        drawn_next(&seed);
        x = ldexp((double)(seed >> 11), (int)(seed % 301) - 200);
        dew_number_print(x, 17, out, sizeof out);
        assert_int_equal(dew_number_read(out, strlen(out), &back), strlen(out));
        assert_near(back, x, 0.0);
    }
}

/* The fast path must round exactly as strtod does. */
TEST(short_decimals_read_as_strtod_reads_them)
{
    uint64_t seed = 90017;
    char text[40];

    for (int i = 0; i < 20000; i++) {
        double x = 0.0;

        drawn_next(&seed);
        snprintf(
            text, sizeof text, "%llu.%llue%d", (unsigned long long)(seed >> 40),
            (unsigned long long)(seed >> 8 & 0xffffff), (int)(seed % 61) - 30);
        assert_int_equal(dew_number_read(text, strlen(text), &x), strlen(text));
        assert_near(x, strtod(text, NULL), 0.0);
    }
}

/* Debian compiles no foreign locale: make one where nobody else looks. */
static locale_t comma_locale(char *folder)
{
    char command[200];
    locale_t found;

    if (mkdtemp(folder) == NULL)
        return (locale_t)0;
    snprintf(command, sizeof command,
             "localedef -i de_DE -f UTF-8 %s/de_DE.UTF-8 >/dev/null 2>&1",
             folder);
    if (system(command) != 0)
        return (locale_t)0;
    setenv("LOCPATH", folder, 1);
    LEAKS_IN_LIBC(1);
    found = newlocale(LC_ALL_MASK, "de_DE.UTF-8", (locale_t)0);
    LEAKS_IN_LIBC(0);
    unsetenv("LOCPATH");
    return found;
}

TEST(a_locale_with_a_comma_changes_nothing)
{
    char folder[] = "/tmp/dew-locale-XXXXXX", out[40], command[80];
    locale_t comma = comma_locale(folder), before;
    double x = 0.0;
    char host[40];

    snprintf(command, sizeof command, "rm -rf %s", folder);
    assert_int_equal(system(command), 0);
    if (comma == (locale_t)0)
        skip();
    before = uselocale(comma);
    snprintf(host, sizeof host, "%.1f", 0.5);
    dew_number_read("0.12345678901234567890123", 25, &x);
    dew_number_print(0.76, 3, out, sizeof out);
    snprintf(command, sizeof command, "%.1f", 0.5);
    uselocale(before);
    freelocale(comma);
#ifndef __GLIBC__
    if (strcmp(host, "0.5") == 0)
        skip(); /* a C library without commas */
#endif
    assert_string_equal(host, "0,5"); /* the locale did bite */
    assert_near(x, 0.12345678901234567890123, 0.0);
    assert_string_equal(out, "0.76");
    assert_string_equal(command, "0,5"); /* and was put back */
}

ROWS(read_rows, text_is_read);
ROWS(print_rows, number_is_printed);
/* What tables of hours print, and what lies beside a tie, is printf's. */
TEST(fixed_is_as_printf_has_it)
{
    static const double units[] = {1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
    double x = 0.37;

    for (int i = 0; i < 200000; i++) {
        int decimals = i % 7;
        char want[64], got[64];

        x = fmod(x * 1.000123 + 37.137, i % 3 == 0 ? 1.0 : 9e4);
        if (i % 5 == 0) /* half a unit of the last digit, or a bit beside */
            x = (floor(x) + 0.5 + 1e-9 * (i % 11 - 5)) / units[decimals];
        x = i % 2 ? -x : x;
        snprintf(want, sizeof want, "%.*f", decimals, x);
        if (want[0] == '-' && strspn(want + 1, "0.") == strlen(want + 1))
            memmove(want, want + 1, strlen(want));
        assert_string_equal(dew_number_fixed(x, decimals, got, sizeof got),
                            want);
    }
}

ROWS(fixed_rows, number_is_printed_fixed);
RUN_TESTS("core, numbers");
