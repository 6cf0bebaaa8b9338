/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Typical years in both spellings, and the project's own form. */
#include "weather/files.h"

#include "dew/air.h"
#include "weather/calendar.h"

static const char header[] =
    "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),GHI source,DNI (W/m^2),"
    "DHI (W/m^2),Dry-bulb (C),Dry-bulb source,Dew-point (C),RHum (%),"
    "Pressure (mbar),Wspd (m/s)";

struct text {
    char *bytes;
    size_t length;
};

/* What one hour of the made-up year holds. */
static void put_row(FILE *out, int spaced, int h)
{
    int year = 1990 + (h / 730) % 7, y, m, d, hour = h % 24 + 1;
    int64_t day = weather__days(WEATHER__TYPICAL, 1, 1) + h / 24;

    weather__civil(day * WEATHER__DAY, &y, &m, &d);
    year = 1983 + m * 5 % 9; /* each month from its own year */
    if (spaced)
        fprintf(out, "%d/%d/%d,%d:00%s,", m, d, year, hour,
                hour == 24 ? ":00" : "");
    else
        fprintf(out, "%02d/%02d/%04d,%02d:00,", m, d, year, hour);
    fprintf(out,
            spaced ? "%d,A,%d,%d,%g,A,%g,%d,%d,%g,,\r\n"
                   : "%d,A,%d,%d,%.1f,A,%.1f,%d,%d,%.1f\n",
            h * 7 % 900, h * 11 % 800, h * 3 % 400,
            (h * 37 % 500) / 10.0 - 17.3, (h * 37 % 500) / 10.0 - 20.0, 81,
            960 + h % 60, (h % 90) / 10.0);
}

/* A typical year; leave out row skip, and write row twice twice. */
static struct text typical(int spaced, int skip, int twice)
{
    struct text t = {NULL, 0};
    FILE *out = open_memstream(&t.bytes, &t.length);

    fprintf(out, spaced ? "999999,MADE UP,ZZ,-6,44.883,-93.233,254,,,,\r\n"
                        : "999999,\"MADE UP\",ZZ,-6.0,44.883,-93.233,254\n");
    fprintf(out, spaced ? "%s,,,,\r\n" : "%s\n", header);
    for (int h = 0; h < 8760; h++) {
        if (h != skip)
            put_row(out, spaced, h);
        if (h == twice)
            put_row(out, spaced, h);
    }
    fclose(out);
    return t;
}

TEST(spellings_give_the_same_hours)
{
    struct text a = typical(0, -1, -1), b = typical(1, -1, -1);
    struct reading x, y;

    read_text(&x, a.bytes, a.length, NULL);
    read_text(&y, b.bytes, b.length, NULL);
    assert_int_equal(x.status, DEW_OK);
    assert_int_equal(y.status, DEW_OK);
    assert_int_equal(x.count, 8760);
    assert_int_equal(y.count, 8760);
    assert_memory_equal(x.hours, y.hours, x.count * sizeof *x.hours);
    assert_memory_equal(x.dates, y.dates, x.count * sizeof *x.dates);
    assert_string_equal(dew_year_site(x.year)->name, "MADE UP");
    assert_near(dew_year_site(y.year)->utc_offset, -6.0, 0.0);
    assert_near(dew_year_site(y.year)->longitude, -93.233, 0.0);
    dew_year_close(x.year);
    dew_year_close(y.year);
    free(a.bytes);
    free(b.bytes);
}

TEST(hour_stands_at_its_end)
{
    struct text a = typical(1, -1, -1);
    struct reading x;
    int h = 24 * 100 + 23; /* hour 24 of 11 April */

    read_text(&x, a.bytes, a.length, NULL);
    assert_int_equal(x.status, DEW_OK);
    assert_int_equal(x.dates[h].month, 4);
    assert_int_equal(x.dates[h].day, 11);
    assert_int_equal(x.dates[h].hour, 24);
    assert_near(x.hours[h].t, (h * 37 % 500) / 10.0 - 17.3, 1e-12);
    assert_near(x.hours[h].global, h * 7 % 900, 0.0);
    assert_near(x.hours[h].p, (960 + h % 60) * 100.0, 1e-9);
    assert_near(dew_air_dew_liquid(x.hours[h].w, x.hours[h].p),
                (h * 37 % 500) / 10.0 - 20.0, 1e-6);
    dew_year_close(x.year);
    free(a.bytes);
}

/* Rows left out (skip) or doubled (twice), and the whole first message. */
static const struct {
    const char *name;
    int skip, twice;
    size_t faults;
    const char *text;
} orders[] = {
    {"an hour left out", 4177, -1, 1,
     "4180:1: time: 1 hours are missing before 06-24 03:00; 06-24 02:00 is "
     "due"},
    {"an hour doubled", -1, 25, 1,
     "29:1: time: the hour that ends 01-02 02:00 stands here again; 01-02 "
     "03:00 is due"},
    {"the last hour left out", 8759, -1, 1,
     "8761:1: time: the year ends after 8759 of 8760 hours"},
};

static void disorder_is_named(void **state)
{
    size_t i = (size_t)((const char *)*state - (const char *)orders) /
               sizeof orders[0];
    struct text a = typical(i % 2 == 1, orders[i].skip, orders[i].twice);
    struct reading x;
    char line[400];

    read_text(&x, a.bytes, a.length, NULL);
    assert_int_not_equal(x.status, DEW_OK);
    assert_string_equal(fault_text(&x, 0, line, sizeof line), orders[i].text);
    assert_int_equal(x.faults.count, orders[i].faults);
    free(a.bytes);
}

TEST(own_form_comes_back_the_same)
{
    struct text a = typical(0, -1, -1);
    char path[32] = "/tmp/dew-own-XXXXXX";
    struct dew_error err = {0};
    struct reading x, y;

    read_text(&x, a.bytes, a.length, NULL);
    close(mkstemp(path));
    assert_int_equal(dew_weather_write(x.year, path, &err), DEW_OK);
    read_file(&y, path, NULL);
    assert_int_equal(y.status, DEW_OK);
    assert_int_equal(y.count, 8760);
    assert_memory_equal(x.dates, y.dates, x.count * sizeof *x.dates);
    for (size_t h = 0; h < x.count; h++) {
        assert_near(y.hours[h].t, x.hours[h].t, 1e-7);
        assert_near(y.hours[h].w, x.hours[h].w, 1e-10);
        assert_near(y.hours[h].p, x.hours[h].p, 1e-3);
        assert_near(y.hours[h].direct, x.hours[h].direct, 1e-6);
    }
    assert_memory_equal(dew_year_site(x.year), dew_year_site(y.year),
                        sizeof(struct dew_site));
    unlink(path);
    dew_year_close(x.year);
    dew_year_close(y.year);
    free(a.bytes);
}

TEST(write_to_nowhere_is_refused)
{
    struct text a = typical(0, -1, -1);
    struct dew_error err = {0};
    struct reading x;

    read_text(&x, a.bytes, a.length, NULL);
    assert_int_equal(dew_weather_write(x.year, "/no/such/folder/x.csv", &err),
                     DEW_EIO);
    assert_string_equal(err.text, "/no/such/folder/x.csv: cannot be written: "
                                  "No such file or directory");
    dew_year_close(x.year);
    free(a.bytes);
}

ROWS(orders, disorder_is_named);
RUN_TESTS("weather, typical years");
