/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Columns that cannot be what they say, times as people write them, and rows
 * that are told for what they are: made-up samples, whole messages.
 */
#include "weather/files.h"

#include "dew/air.h"

/* ---- times ----------------------------------------------------------------- */

/* The first hour that comes of a first row at this time, 7.5 degC. */
static const struct time_row {
    const char *header, *first, *second;
    int year, month, day, hour;
    double utc; /* NaN: not known */
} time_rows[] = {
    {"Date/Time", "2023-01-05 05:00", "2023-01-05 06:00", 2023, 1, 5, 5, NAN},
    {"Time/Date", "2023-01-05 05:00", "2023-01-05 06:00", 2023, 1, 5, 5, NAN},
    {"date", "01-Jan-2023 05:00", "01-Jan-2023 06:00", 2023, 1, 1, 5, NAN},
    {"date", "7-sep-23 05:00", "7-sep-23 06:00", 2023, 9, 7, 5, NAN},
    {"date", "31/December/1998 5:00", "31/December/1998 6:00", 1998, 12, 31, 5,
     NAN},
    {"date", "Jan 01 2023 1:00 AM", "Jan 01 2023 2:00 AM", 2023, 1, 1, 1, NAN},
    {"date", "Jan 02 2023 12:00 PM", "Jan 02 2023 1:00 PM", 2023, 1, 2, 12,
     NAN},
    {"date", "\"Jun 3, 2023 05:00\"", "\"Jun 3, 2023 06:00\"", 2023, 6, 3, 5,
     NAN},
    {"date", "2023-Mar-09 05:00", "2023-Mar-09 06:00", 2023, 3, 9, 5, NAN},
    {"date", "9 May 2023 05:00", "9 May 2023 06:00", 2023, 5, 9, 5, NAN},
    {"Date Time GMT-05:00", "2023-01-05 05:00", "2023-01-05 06:00", 2023, 1, 5,
     5, -5},
    {"Date Time GMT -05:00", "2023-01-05 05:00", "2023-01-05 06:00", 2023, 1, 5,
     5, -5},
    {"\"Date Time, GMT +05:30\"", "2023-01-05 05:00", "2023-01-05 06:00", 2023,
     1, 5, 5, 5.5},
    {"Time UTC", "2023-01-05 05:00", "2023-01-05 06:00", 2023, 1, 5, 5, 0},
};

static void time_is_read(void **state)
{
    const struct time_row *row = *state;
    char text[400];
    struct reading r;
    double utc;

    snprintf(text, sizeof text, "%s,t (degC),rh (%%)\n%s,7.5,81\n%s,8.5,80\n",
             row->header, row->first, row->second);
    read_text(&r, text, strlen(text), NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 2);
    assert_int_equal(r.dates[0].year, row->year);
    assert_int_equal(r.dates[0].month, row->month);
    assert_int_equal(r.dates[0].day, row->day);
    assert_int_equal(r.dates[0].hour, row->hour);
    assert_near(r.hours[0].t, 7.5, 0.0);
    utc = dew_year_site(r.year)->utc_offset;
    if (isnan(row->utc))
        assert_nan(utc);
    else
        assert_near(utc, row->utc, 0.0);
    dew_year_close(r.year);
}

/* "Jan 01 2023 12:00 AM" is the midnight that begins the day. */
TEST(midnight_by_name_begins_its_day)
{
    static const char text[] = "date,t (degC),rh (%)\n"
                               "Jan 01 2023 12:00 AM,7.5,81\n"
                               "Jan 01 2023 01:00 AM,8.5,80\n"
                               "Jan 01 2023 02:00 AM,9.5,80\n";
    struct reading r;

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 2);
    assert_int_equal(r.dates[0].hour, 1);
    assert_near(r.hours[0].t, 8.5, 0.0);
    dew_year_close(r.year);
}

/* ---- refused ----------------------------------------------------------------- */

#define HEAD "time,t (degC),rh (%)\n"

static const struct bad {
    const char *name, *text, *fault;
} bads[] = {
    {"degF in a column of degC",
     HEAD "2023-01-05 05:00,75.2,41\n2023-01-05 06:00,76.1,42\n"
          "2023-01-05 07:00,77.9,43\n",
     "1:2: t (degC): 3 of 3 values are outside -70 .. 60 degC: is the unit "
     "degF?"},
    {"most of it, an odd one beside",
     HEAD "2023-01-05 05:00,75.2,41\n2023-01-05 06:00,6.1,42\n"
          "2023-01-05 07:00,77.9,43\n",
     "1:2: t (degC): 2 of 3 values are outside -70 .. 60 degC: is the unit "
     "degF?"},
    {"K in a column of degC",
     HEAD "2023-01-05 05:00,291.2,41\n2023-01-05 06:00,290.1,42\n",
     "1:2: t (degC): 2 of 2 values are outside -70 .. 60 degC: is the unit K?"},
    {"degC in a column of K",
     "time,t (K),rh (%)\n2023-01-05 05:00,21.2,41\n2023-01-05 06:00,20.1,42\n",
     "1:2: t (K): 2 of 2 values are outside -70 .. 60 degC: is the unit degC?"},
    {"nothing that a temperature could be",
     HEAD "2023-01-05 05:00,5291.2,41\n2023-01-05 06:00,5290.1,42\n",
     "1:2: t (degC): 2 of 2 values are outside -70 .. 60 degC: is the unit "
     "right?"},
    {"RH that is none",
     HEAD "2023-01-05 05:00,21.2,141\n2023-01-05 06:00,20.1,142\n",
     "1:3: rh (%): 2 of 2 values are outside 0 .. 105 %: is the unit right?"},
    {"own form: one RH that is none",
     "# dewledger weather\n" HEAD "2023-01-05 05:00,21.2,41\n"
     "2023-01-05 06:00,20.1,142\n",
     "4:3: rh (%): 142 is outside 0 .. 105 %"},
    {"JSON", "{\"time\": [1, 2],\n \"t\": [3, 4]}\n",
     "1:1: : JSON, not a table: export it as CSV"},
    {"no time that is one",
     HEAD "Smarch 5 2023 05:00,21.2,41\nSmarch 5 2023 06:00,20.1,42\n",
     "2:1: time: \"Smarch 5 2023 05:00\" is read as no time, and no row has "
     "one; 2020-01-31 13:00 or 1/31/2020 1:00 PM would be"},
    {"a day that the month has not", HEAD "30-Feb-2023 05:00,21.2,41\n",
     "2:1: time: \"30-Feb-2023 05:00\" is read as no time, and no row has one; "
     "2020-01-31 13:00 or 1/31/2020 1:00 PM would be"},
    {"text in place of every number",
     HEAD "2023-01-05 05:00,warm,damp\n2023-01-05 06:00,cool,dry\n",
     "2:2: rows: \"warm\" is no number, and no row has one"},
    {"a clock set back",
     HEAD "2023-03-05 05:00,1,41\n2023-03-05 06:00,2,42\n"
          "2023-02-03 07:00,3,43\n2023-02-03 08:00,4,43\n"
          "2023-02-03 09:00,4,43\n",
     "6:2: temperature: no value for 716.0 h from 2023-02-03 10:00 on (on line "
     "4 time goes back); a gap above the limit is filled only from a place "
     "that is named for it"},
};

static void sample_is_refused(void **state)
{
    const struct bad *b = *state;
    struct reading r;
    char line[400];

    read_text(&r, b->text, strlen(b->text), NULL);
    assert_int_not_equal(r.status, DEW_OK);
    assert_string_equal(fault_text(&r, 0, line, sizeof line), b->fault);
}

/* ---- told ---------------------------------------------------------------------- */

/* 105 % is a sensor's error, cut to 100; 106 % is no RH and left out. */
static const struct rh_row {
    const char *header, *half, *over, *high;
} rh_rows[] = {
    {"rh (%)", "50", "106", "105"},
    {"rh (share)", ".5", "1.06", "1.05"},
    {"rh", "50", "106", "105"},
    {"rh", ".5", "1.06", "1.05"},
    {"relative humidity %", "50", "500", "101"},
};

static void rh_above_105_is_left_out_and_told(void **state)
{
    const struct rh_row *row = *state;
    char text[400], notes[DEW_NOTES_MOST][DEW_NOTE_TEXT];
    struct reading r;

    snprintf(text, sizeof text,
             "time,t (degC),%s\n2023-01-05 05:00,7.5,%s\n"
             "2023-01-05 06:00,7.5,%s\n2023-01-05 07:00,7.5,%s\n"
             "2023-01-05 08:00,7.5,%s\n",
             row->header, row->half, row->over, row->half, row->high);
    read_text(&r, text, strlen(text), NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.report.notices[DEW_NOTICE_RANGE].count, 1);
    assert_int_equal(r.report.notices[DEW_NOTICE_RANGE].line, 3);
    /* the line between 50 % and 50 %, not saturation */
    assert_near(dew_air_rh_liquid(7.5, r.hours[1].w, r.hours[1].p), 0.5, 1e-9);
    assert_near(dew_air_rh_liquid(7.5, r.hours[3].w, r.hours[3].p), 1.0, 1e-9);
    assert_true(dew_weather_notes(&r.report, notes, DEW_NOTES_MOST) > 1);
    assert_string_equal(
        notes[1], "1 values outside their range, left out, first on line 3");
    dew_year_close(r.year);
}

/* A file of shares with one slip above 1.5 is not one of percentages. */
TEST(one_slip_makes_no_percentage)
{
    static const char text[] = "time,t (degC),rh\n2023-01-05 05:00,7.5,.5\n"
                               "2023-01-05 06:00,7.5,52\n"
                               "2023-01-05 07:00,7.5,.5\n";
    struct reading r;

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_near(dew_air_rh_liquid(7.5, r.hours[0].w, r.hours[0].p), 0.5, 1e-9);
    assert_near(dew_air_rh_liquid(7.5, r.hours[1].w, r.hours[1].p), 0.5, 1e-9);
    dew_year_close(r.year);
}

TEST(a_step_back_of_days_is_told)
{
    static const char text[] = HEAD "2023-03-05 05:00,1,41\n"
                                    "2023-03-05 06:00,2,42\n"
                                    "2023-02-03 07:00,3,43\n"
                                    "2023-02-03 08:00,4,43\n";
    char notes[DEW_NOTES_MOST][DEW_NOTE_TEXT];
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;
    size_t n;

    ask.keep_gaps = 1;
    read_text(&r, text, sizeof text - 1, &ask);
    assert_int_equal(r.status, DEW_OK);
    n = dew_weather_notes(&r.report, notes, DEW_NOTES_MOST);
    assert_string_equal(
        notes[n - 1],
        "SUSPECT: time goes back 29.96 days on line 4 (a clock set back?): "
        "rows from there on were sorted in where their times say");
    dew_year_close(r.year);
}

/* Newest first is only sorted: no word of a clock. */
TEST(a_file_that_runs_backwards_is_not_suspected)
{
    char text[4000], notes[DEW_NOTES_MOST][DEW_NOTE_TEXT];
    size_t at = (size_t)snprintf(text, sizeof text, "%s", HEAD), n;
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;

    for (int d = 9; d > 0; d--)
        at += (size_t)snprintf(text + at, sizeof text - at,
                               "2023-03-%02d 05:00,1,41\n", d);
    ask.keep_gaps = 1;
    read_text(&r, text, at, &ask);
    assert_int_equal(r.status, DEW_OK);
    n = dew_weather_notes(&r.report, notes, DEW_NOTES_MOST);
    for (size_t i = 0; i < n; i++)
        assert_null(strstr(notes[i], "SUSPECT"));
    dew_year_close(r.year);
}

ROWS(time_rows, time_is_read);
ROWS(bads, sample_is_refused);
ROWS(rh_rows, rh_above_105_is_left_out_and_told);
RUN_TESTS("weather, reader");
