/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What files really hold, each trap in a small made-up sample: what is read
 * from it, or the whole message that refuses it.
 */
#include "weather/files.h"

#include <zlib.h>

#include "dew/air.h"

typedef void (*answer)(struct dew_weather_ask *ask);

/* ---- answers a person would give --------------------------------------------- */

static const struct dew_month_normal normals[12] = {
    {.t = 3.1, .w = 0.0041, .p = 99100.0, .wind = 2.7},
    {.t = 4.1, .w = 0.0042, .p = 99200.0, .wind = 2.8},
    {.t = 5.1, .w = 0.0043, .p = 99300.0, .wind = 2.9},
};
static const struct dew_column_said degf[] = {{"temp", NULL, "degF"}};
static const struct dew_column_said degc[] = {{"temp", NULL, "degC"}};
static const struct dew_column_said porch[] = {
    {"sensor 2 (F)", "temperature", "degF"}};

static void day_first(struct dew_weather_ask *a)
{
    a->order = DEW_ORDER_DAY_FIRST;
}
static void month_first(struct dew_weather_ask *a)
{
    a->order = DEW_ORDER_MONTH_FIRST;
}
static void us_clock(struct dew_weather_ask *a)
{
    a->clock = DEW_CLOCK_US;
}
static void eu_clock(struct dew_weather_ask *a)
{
    a->clock = DEW_CLOCK_EU;
    a->utc_offset = 1.0;
}
static void standard_clock(struct dew_weather_ask *a)
{
    a->clock = DEW_CLOCK_STANDARD;
}
static void minus_six(struct dew_weather_ask *a)
{
    a->utc_offset = -6.0;
}
static void frost(struct dew_weather_ask *a)
{
    a->frost_point = 1;
}
static void second_station(struct dew_weather_ask *a)
{
    a->station = "BBB";
}
static void no_station(struct dew_weather_ask *a)
{
    a->station = "CCC";
}
static void from_normals(struct dew_weather_ask *a)
{
    a->normals = normals;
}
static void year_2021(struct dew_weather_ask *a)
{
    a->year = 2021;
}
static void year_1999(struct dew_weather_ask *a)
{
    a->year = 1999;
}
static void said_degf(struct dew_weather_ask *a)
{
    a->said = degf;
    a->said_count = 1;
}
static void said_degc(struct dew_weather_ask *a)
{
    a->said = degc;
    a->said_count = 1;
}
static void said_porch(struct dew_weather_ask *a)
{
    a->said = porch;
    a->said_count = 1;
}
static void at_1500_m(struct dew_weather_ask *a)
{
    a->elevation = 1500.0;
}

/* ---- files that are read --------------------------------------------------------- */

/* Day 1, hour 1 ... of the sample; t and td by hand from the sample's rows.
   td NaN: not looked at. */
static const struct good {
    const char *name, *text;
    answer say;
    size_t hours; /* in all                                         */
    size_t at;    /* the hour looked at, from 0                      */
    int month, day, hour;
    double t, td, tolerance;
} goods[] = {
    {"BOM, CRLF, semicolon, decimal comma, Latin-1 degree",
     "\xEF\xBB\xBFTime;Temperature (\xB0"
     "C);Humidity (%)\r\n"
     "2020-03-04 05:00;7,3;81,2\r\n2020-03-04 06:00;8,1;79\r\n",
     NULL, 2, 0, 3, 4, 5, 7.3, NAN, 1e-12},
    {"tabs and degF",
     "date\ttime\tTemp (F)\tDew Point (F)\n"
     "2020-03-04\t05:00\t45.5\t41.9\n2020-03-04\t06:00\t46\t42\n",
     NULL, 2, 0, 3, 4, 5, 7.5, 5.5, 1e-6},
    {"one-character degree sign, every cell quoted",
     "\"Timestamp\",\"Outdoor Temperature(\xE2\x84\x83)\","
     "\"Outdoor Humidity(%)\",\"DPT(\xE2\x84\x83)\"\n"
     "\"2020-03-04 05:00:00\",\"7.3\",\"81\",\"4.25\"\n"
     "\"2020-03-04 06:00:00\",\"7.9\",\"81\",\"4.5\"\n",
     NULL, 2, 0, 3, 4, 5, 7.3, 4.25, 1e-6},
    {"decimal comma inside quotes",
     "time,t (degC),td (degC)\n\"2020-03-04 05:00\",\"7,3\",\"-2,75\"\n", NULL,
     1, 0, 3, 4, 5, 7.3, -2.75, 1e-6},
    {"title line, offset in the header, 12-hour clock, two-digit year",
     "\"Plot Title: made up\"\n"
     "\"#\",\"Date Time, GMT-05:00\",\"Temp, \xC2\xB0"
     "F (S/N: 1)\",\"RH, % (S/N: 1)\"\n"
     "1,07/29/16 11:00:00 PM,81.5,60\n2,07/30/16 12:00:00 AM,80.6,61\n"
     "3,07/30/16 01:00:00 AM,79.7,62\n",
     NULL, 3, 1, 7, 29, 24, 27.0, NAN, 1e-9},
    {"that offset and another asked for",
     "Date Time GMT-05:00,Temp F,RH %\n07/29/16 11:00:00 PM,81.5,60\n",
     minus_six, 1, 0, 7, 29, 22, 27.5, NAN, 1e-9},
    {"day first by a day above 12",
     "time,t (degC),rh (%)\n12/02/2020 05:00,1,81\n13/02/2020 05:00,9,82\n",
     from_normals, 25, 24, 2, 13, 5, 9.0, NAN, 1e-12},
    {"day first as said",
     "time,t (degC),rh (%)\n3/4/2020 05:00,7.3,81\n3/4/2020 06:00,7,82\n",
     day_first, 2, 0, 4, 3, 5, 7.3, NAN, 1e-12},
    {"month first as said",
     "time,t (degC),rh (%)\n3/4/2020 05:00,7.3,81\n3/4/2020 06:00,7,82\n",
     month_first, 2, 0, 3, 4, 5, 7.3, NAN, 1e-12},
    {"24:00 is the end of its day; leap day",
     "time,t (degC),rh (%)\n2020-02-29 23:00,6.1,81\n2020-02-29 24:00,7.3,81\n"
     "2020-03-01 01:00,7.5,81\n",
     NULL, 3, 1, 2, 29, 24, 7.3, NAN, 1e-12},
    {"Unix seconds, moved from UTC",
     "unix,temp (C),dewp (C)\n1583298000,7.3,1.1\n1583301600,8.1,1.2\n",
     minus_six, 2, 0, 3, 3, 23, 7.3, 1.1, 1e-6},
    {"an offset on each row",
     "time,t (degC),rh (%)\n2020-07-04T05:00:00-04:00,7.3,81\n"
     "2020-07-04T06:00:00-04:00,8.3,81\n",
     minus_six, 2, 1, 7, 4, 4, 8.3, NAN, 1e-12},
    {"year, month, day, hour and minute in cells",
     "Year,Month,Day,Hour,Minute,Temperature (C),Dew Point (C)\n"
     "2020,3,4,5,0,7.3,1.1\n2020,3,4,5,30,8.3,1.5\n2020,3,4,6,0,9.4,1.9\n",
     NULL, 2, 1, 3, 4, 6, 9.4, 1.9, 1e-6},
    {"units in rows before the header",
     "Source,Location ID,Latitude,Longitude,Time Zone,Elevation,"
     "Temperature Units,Dew Point Units\n"
     "made,17,40.5,-108.5,-7,2168,f,f\n"
     "Time,Temperature,Dew Point\n2020-03-04 05:00,45.5,41.9\n",
     NULL, 1, 0, 3, 4, 5, 7.5, 5.5, 1e-6},
    {"jitter: a line between the rows around the hour",
     "time,t (degC),td (degC)\n2020-03-04 04:50,6.0,1.0\n"
     "2020-03-04 05:10:00,8.0,1.0\n2020-03-04 05:50,9.0,1.0\n",
     NULL, 2, 0, 3, 4, 5, 7.0, 1.0, 1e-6},
    {"out of order and doubled rows",
     "time,t (degC),td (degC)\n2020-03-04 06:00,8.0,1.0\n"
     "2020-03-04 05:00,7.3,1.0\n2020-03-04 05:00,99,1.0\n"
     "2020-03-04 07:00,8.5,1.0\n",
     NULL, 3, 0, 3, 4, 5, 7.3, 1.0, 1e-6},
    {"missing marks become a short gap, filled by a line",
     "time,t (degC),td (degC)\n2020-03-04 05:00,7.0,1.0\n"
     "2020-03-04 06:00,NA,--\n2020-03-04 07:00,-9999,1.0\n"
     "2020-03-04 08:00,10.0,1.0\n",
     NULL, 4, 1, 3, 4, 6, 8.0, 1.0, 1e-6},
    {"a suspect mark leaves the value out",
     "time,t (degC),td (degC)\n2020-03-04 05:00,7.0,1.0\n"
     "2020-03-04 06:00,30s,1.0\n2020-03-04 07:00,9.0,1.0\n",
     NULL, 3, 1, 3, 4, 6, 8.0, 1.0, 1e-6},
    {"summary rows left out",
     "DATE,REPORT_TYPE,temp (C),dewp (C)\n2020-03-04T05:00:00,FM-15,7.3,1.1\n"
     "2020-03-04T05:59:00,SOD,30,1.1\n2020-03-04T06:00:00,FM-15,8.0,1.1\n",
     NULL, 2, 1, 3, 4, 6, 8.0, 1.1, 1e-6},
    {"one of two stations",
     "station,time,t (degC),td (degC)\nAAA,2020-03-04 05:00,7.3,1.0\n"
     "BBB,2020-03-04 05:00,9.3,2.0\n",
     second_station, 1, 0, 3, 4, 5, 9.3, 2.0, 1e-6},
    {"long gap from normals",
     "time,t (degC),td (degC)\n2020-03-04 05:00,7.3,1.0\n"
     "2020-03-04 15:00,9.3,2.0\n",
     from_normals, 11, 4, 3, 4, 9, 5.1, NAN, 1e-12},
    {"one year of several",
     "time,t (degC),td (degC)\n2020-12-31 23:00,7.3,1.0\n"
     "2020-12-31 24:00,7.5,1.0\n2021-01-01 01:00,9.3,2.0\n",
     year_2021, 1, 0, 1, 1, 1, 9.3, 2.0, 1e-6},
    {"a unit as said", "time,temp,rh (%)\n2020-03-04 05:00,45.5,81\n",
     said_degf, 1, 0, 3, 4, 5, 7.5, NAN, 1e-9},
    {"a column as said",
     "time,Sensor 1 (F),Sensor 2 (F),outdoor rh (%)\n"
     "2020-03-04 05:00,70,45.5,81\n",
     said_porch, 1, 0, 3, 4, 5, 7.5, NAN, 1e-9},
    {"outdoor columns among indoor ones",
     "time,t1_c,rh1_pct,t_out_c,rh_out_pct\n2020-03-04 05:00,21,40,7.3,100\n",
     NULL, 1, 0, 3, 4, 5, 7.3, 7.3, 1e-6},
    {"RH of 100 % is the dew point, over liquid below freezing",
     "time,t (degC),rh\n2020-03-04 05:00,-12.4,100\n", NULL, 1, 0, 3, 4, 5,
     -12.4, -12.4, 1e-6},
    {"RH as a share",
     "time,t (degC),rh\n2020-03-04 05:00,7.3,1.0\n2020-03-04 06:00,7,0.8\n",
     NULL, 2, 0, 3, 4, 5, 7.3, 7.3, 1e-6},
    /* 279.2 Pa is e_ice(-9.54), by [HW83]: -8.47 over liquid, -9.54 over ice;
       the pair is the table value of equal vapour pressure at -10 degC ice:
       -11.2 dew point [ASH-F1] table 3, to 0.1 K */
    {"a frost point of -10 is a dew point near -11.2",
     "time,t (degC),td (degC)\n2020-03-04 05:00,-5,-10\n", frost, 1, 0, 3, 4, 5,
     -5.0, -11.2, 0.06},
    {"wet bulb equal to dry bulb is saturation",
     "time,dry bulb (C),wet bulb (C)\n2020-03-04 05:00,17.3,17.3\n", NULL, 1, 0,
     3, 4, 5, 17.3, 17.3, 1e-5},
    {"a dew point above the temperature is cut to it",
     "time,t (degC),td (degC)\n2020-03-04 05:00,7.3,7.8\n", NULL, 1, 0, 3, 4, 5,
     7.3, 7.3, 1e-6},
    {"autumn: the second of two equal hours is standard time",
     "time,t (degC),td (degC)\n2020-11-01 00:00,5,1\n2020-11-01 01:00,6,1\n"
     "2020-11-01 01:00,7,1\n2020-11-01 02:00,8,1\n",
     us_clock, 4, 2, 11, 1, 1, 7.0, 1.0, 1e-6},
    {"spring: the hour left out is no gap",
     "time,t (degC),td (degC)\n2020-03-08 01:00,5,1\n2020-03-08 03:00,6,1\n"
     "2020-03-08 04:00,7,1\n",
     us_clock, 3, 1, 3, 8, 2, 6.0, 1.0, 1e-6},
    {"spring in Europe, at 01:00 UTC",
     "time,t (degC),td (degC)\n2020-03-29 01:00,5,1\n2020-03-29 03:00,6,1\n"
     "2020-03-29 04:00,7,1\n",
     eu_clock, 3, 1, 3, 29, 2, 6.0, 1.0, 1e-6},
    {"midnight of the first day ends the day before and is no hour",
     "time,t (degC),td (degC)\n2020-03-04 00:00,5,1\n2020-03-04 01:00,6,1\n",
     NULL, 1, 0, 3, 4, 1, 6.0, 1.0, 1e-6},
};

static void sample_is_read(void **state)
{
    const struct good *g = *state;
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    const struct dew_date *d;
    const struct dew_hour *h;
    struct reading r;
    char line[400];

    if (g->say != NULL)
        g->say(&ask);
    read_text(&r, g->text, strlen(g->text), &ask);
    if (r.status != DEW_OK)
        fail_msg("%s", fault_text(&r, 0, line, sizeof line));
    assert_int_equal(r.count, g->hours);
    d = &r.dates[g->at];
    h = &r.hours[g->at];
    assert_int_equal(d->month, g->month);
    assert_int_equal(d->day, g->day);
    assert_int_equal(d->hour, g->hour);
    assert_near(h->t, g->t, g->tolerance > 1e-3 ? 1e-12 : g->tolerance);
    if (!isnan(g->td))
        assert_near(dew_air_dew_liquid(h->w, h->p), g->td, g->tolerance);
    dew_year_close(r.year);
}

/* ---- files that are refused ----------------------------------------------------- */

static const struct bad {
    const char *name, *text;
    answer say;
    enum dew_status status;
    const char *fault; /* the first, without the file's name */
} bads[] = {
    {"every day up to 12", "time,t (degC),rh (%)\n3/4/2020 05:00,7.3,81\n",
     NULL, DEW_EAMBIGUOUS,
     "2:1: time: \"3/4/2020 05:00\" can be read in two ways and no row tells: "
     "say whether the month or the day comes first"},
    {"the order changes",
     "time,t (degC),rh (%)\n3/14/2020 05:00,7.3,81\n15/3/2020 05:00,7,81\n",
     NULL, DEW_ESYNTAX,
     "3:1: time: the order of month and day changes: see line 2"},
    {"the order is not as said",
     "time,t (degC),rh (%)\n3/14/2020 05:00,7.3,81\n", day_first, DEW_ERANGE,
     "2:1: time: a month above 12: the month comes first here"},
    {"no unit, and the file's own RH says which fits",
     "time,temp (F),dewp,rh (%)\n2020-03-04 05:00,45.5,41.9,87.2\n"
     "2020-03-04 06:00,50,41,71.0\n2020-03-04 07:00,59,41,51.2\n",
     NULL, DEW_EUNIT,
     "1:3: dewp: its unit is not said; say one of degF, degC, K"},
    {"no unit and nothing that tells",
     "time,temp,rh (%)\n2020-03-04 05:00,45.5,81\n", NULL, DEW_EUNIT,
     "1:2: temp: its unit is not said; say one of degF, degC, K"},
    {"two stations",
     "station,time,t (degC),td (degC)\nAAA,2020-03-04 05:00,7.3,1.0\n"
     "BBB,2020-03-04 05:00,9.3,2.0\n",
     NULL, DEW_EAMBIGUOUS,
     "0:0: station: the file holds several stations (AAA, BBB): say which"},
    {"a station that is not there",
     "station,time,t (degC),td (degC)\nAAA,2020-03-04 05:00,7.3,1.0\n",
     no_station, DEW_EUNKNOWN, "0:0: station: no row is of station \"CCC\""},
    {"a year that is not there",
     "time,t (degC),td (degC)\n2020-03-04 05:00,7.3,1.0\n", year_1999,
     DEW_EUNKNOWN, "0:0: year: the file has no hour of 1999"},
    {"a slip in the year",
     "time,t (degC),td (degC)\n2020-03-04 05:00,7.3,1.0\n"
     "2200-03-04 06:00,7.3,1.0\n",
     from_normals, DEW_ERANGE,
     "0:0: time: the rows span more than 60 years: say which year, or mend the "
     "row with a wrong one"},
    {"two columns that could be it",
     "time,t1 (degC),t2 (degC),rh (%)\n2020-03-04 05:00,7.3,8,81\n", NULL,
     DEW_EAMBIGUOUS,
     "1:3: temperature: \"t1 (degC)\" and \"t2 (degC)\" could both be it: say "
     "which is outdoors"},
    {"no humidity", "time,t (degC)\n2020-03-04 05:00,7.3\n", NULL, DEW_EMISSING,
     "1:1: humidity: no column of the outdoor humidity: dew point, relative "
     "humidity, wet bulb or humidity ratio"},
    {"no temperature", "time,rh (%)\n2020-03-04 05:00,73\n", NULL, DEW_EMISSING,
     "1:1: temperature: no column of the outdoor temperature; one named "
     "\"temperature (degC)\" would do"},
    {"no header", "2020-03-04 05:00,7.3,81\n", NULL, DEW_EMISSING,
     "1:1: header: no header: say what \"column 2\" and the others are, or put "
     "one such as \"time,temperature (degC),relative humidity (%)\" on top"},
    {"no header and no time", "house,7.3,81\n", NULL, DEW_EMISSING,
     "1:1: header: no line of the first 60 names a time and a temperature or "
     "humidity: put a header such as \"time,temperature (degC),relative "
     "humidity (%)\" on top"},
    {"no rows", "time,t (degC),rh (%)\n", NULL, DEW_EMISSING,
     "0:0: rows: no row with a time and a value"},
    {"a long gap",
     "time,t (degC),td (degC)\n2020-03-04 05:00,7.3,1.0\n"
     "2020-03-04 15:00,9.3,2.0\n2020-03-04 16:00,9.3,2.0\n"
     "2020-03-04 17:00,9.3,2.0\n",
     NULL, DEW_EMISSING,
     "2:2: temperature: no value for 10.0 h from 2020-03-04 06:00 on; a gap "
     "above the limit is filled only from a place that is named for it"},
    {"an hour doubled in autumn and nothing said",
     "time,t (degC),td (degC)\n2020-11-01 00:00,5,1\n2020-11-01 01:00,6,1\n"
     "2020-11-01 01:00,7,1\n2020-11-01 02:00,8,1\n",
     NULL, DEW_EAMBIGUOUS,
     "4:1: time: an hour is doubled or left out where summer time of the "
     "United States changes: say whether the clock is standard time all year "
     "or follows that rule"},
    {"own form: a cell that is no number",
     "# dewledger weather\n"
     "time,temperature (degC),humidity ratio (g/kg)\n"
     "2020-03-04 05:00,seven,4.1\n2020-03-04 06:00,7.3,4.1\n",
     NULL, DEW_ESYNTAX,
     "3:2: temperature (degC): \"seven\" is not a number; a number in degC "
     "would be, or -9900 where there is none"},
    {"own form: a time that is none",
     "# dewledger weather\n"
     "time,temperature (degC),humidity ratio (g/kg)\n"
     "2020-03-04 05:00,7,4.1\n2020-02-30 06:00,7.3,4.1\n",
     NULL, DEW_ESYNTAX,
     "4:1: time: \"2020-02-30 06:00\" is no time of a day; 2020-01-31 13:00 or "
     "1/31/2020 and 13:00 would be"},
    {"own form: out of range",
     "# dewledger weather\n"
     "time,temperature (degC),humidity ratio (g/kg)\n"
     "2020-03-04 05:00,71.3,4.1\n",
     NULL, DEW_ERANGE,
     "3:2: temperature (degC): 71.3 is outside -70 .. 60 degC"},
    {"own form: a quote left open",
     "# dewledger weather\n"
     "time,temperature (degC),humidity ratio (g/kg)\n"
     "2020-03-04 05:00,\"7.3,4.1\n2020-03-04 06:00,7.3,4.1\n",
     NULL, DEW_ESYNTAX, "3:2: : a quote is opened and not closed on its line"},
};

static void sample_is_refused(void **state)
{
    const struct bad *b = *state;
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;
    char line[400];

    if (b->say != NULL)
        b->say(&ask);
    read_text(&r, b->text, strlen(b->text), &ask);
    assert_int_equal(r.status, b->status);
    assert_string_equal(fault_text(&r, 0, line, sizeof line), b->fault);
}

/* ---- the rest ---------------------------------------------------------------------- */

TEST(every_fault_of_a_pass_is_named)
{
    static const char text[] = "# dewledger weather\n"
                               "time,temperature (degC),humidity ratio (g/kg)\n"
                               "2020-03-04 05:00,7.1,x\n"
                               "2020-03-04 06:00,y,4.1\n"
                               "2020-03-04 07:00,7.3,99\n";
    struct reading r;
    char line[400];

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_ESYNTAX);
    assert_int_equal(r.faults.count, 3);
    assert_string_equal(fault_text(&r, 2, line, sizeof line),
                        "5:3: humidity ratio (g/kg): 0.099 is outside 0 .. 60 "
                        "g/kg");
}

TEST(zero_byte_is_no_text)
{
    static const char text[] = "t\0i\0m\0e\0";
    struct reading r;
    char line[400];

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_ESYNTAX);
    assert_string_equal(fault_text(&r, 0, line, sizeof line),
                        "1:1: : a zero byte: not plain text (save it as UTF-8 "
                        "text, or as CSV)");
}

TEST(missing_file_is_said)
{
    struct reading r;

    read_file(&r, "/no/such/file.csv", NULL);
    assert_int_equal(r.status, DEW_EIO);
    assert_string_equal(r.list[0].source, "/no/such/file.csv");
    assert_string_equal(r.list[0].text,
                        "cannot be opened: No such file or directory");
}

static const char two_hours[] = "time,t (degC),td (degC)\n"
                                "2020-03-04 05:00,7.3,1.0\n"
                                "2020-03-04 06:00,8.3,1.0\n";

TEST(gzip_is_read_and_a_cut_one_refused)
{
    char path[32], bytes[400];
    struct reading r;
    gzFile gz;
    FILE *in;
    size_t n;

    write_file(path, "", 0);
    gz = gzopen(path, "wb");
    assert_true(gzputs(gz, two_hours) > 0);
    gzclose(gz);
    read_file(&r, path, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 2);
    assert_near(r.hours[1].t, 8.3, 1e-12);
    dew_year_close(r.year);
    in = fopen(path, "rb");
    n = fread(bytes, 1, sizeof bytes, in);
    fclose(in);
    unlink(path);
    read_text(&r, bytes, n - 12, NULL);
    assert_int_equal(r.status, DEW_EIO);
    assert_string_equal(r.list[0].text,
                        "the compressed data are damaged or end early");
}

TEST(wrong_unit_is_suspected)
{
    static const char text[] =
        "time,temp,dewp (C),rh (%)\n2020-03-04 05:00,45.5,41.9,87.2\n"
        "2020-03-04 06:00,50,41,71.0\n2020-03-04 07:00,59,41,51.2\n";
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;
    char line[400];

    said_degc(&ask);
    read_text(&r, text, sizeof text - 1, &ask);
    assert_int_equal(r.status, DEW_EUNIT);
    assert_int_equal(r.report.notices[DEW_NOTICE_RANGE].count, 3);
    assert_string_equal(fault_text(&r, 0, line, sizeof line),
                        "1:3: dewp (C): 3 of 3 values are outside -90 .. 40 "
                        "degC: is the unit degF?");
}

TEST(sea_level_pressure_is_reduced)
{
    static const char text[] = "time,t (degC),td (degC),mslp (hPa)\n"
                               "2020-03-04 05:00,7.3,1.0,1013.25\n";
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;

    at_1500_m(&ask);
    read_text(&r, text, sizeof text - 1, &ask);
    assert_int_equal(r.status, DEW_OK);
    /* 84.556 kPa at 1500 m: [ASH-F1] table 1 */
    assert_near(r.hours[0].p, 84556.0, 5.0);
    assert_string_equal(r.report.pressure, "sea level, reduced by elevation");
    dew_year_close(r.year);
}

TEST(units_come_from_their_headers)
{
    static const char text[] = "time,t (K),td (K),Press_mm_hg,wind (kt)\n"
                               "2020-03-04 05:00,280.45,275.15,750.062,10\n";
    struct reading r;

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_near(r.hours[0].t, 7.3, 1e-9);
    assert_near(r.hours[0].p, 100000.0, 0.1);    /* 750.062 mmHg [SP811] */
    assert_near(r.hours[0].wind, 5.14444, 5e-6); /* 10 knots, exact      */
    assert_nan(r.hours[0].global);
    assert_int_equal(dew_year_whole(r.year, NULL), DEW_EMISSING);
    dew_year_close(r.year);
}

TEST(half_hours_of_solar_are_a_mean)
{
    static const char text[] = "time,t (degC),td (degC),ghi (W/m2)\n"
                               "2020-03-04 11:00,7.3,1.0,400\n"
                               "2020-03-04 11:30,7.3,1.0,500\n"
                               "2020-03-04 12:00,7.3,1.0,700\n";
    struct reading r;

    read_text(&r, text, sizeof text - 1, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_near(r.hours[1].global, 600.0, 1e-12);
    dew_year_close(r.year);
}

TEST(a_reading_is_told_in_lines)
{
    static const char text[] =
        "time,t (degC),td (degC)\n2020-03-04 05:00,7.0,1.0\n"
        "2020-03-04 06:00,NA,--\n2020-03-04 07:00,-9999,1.0\n"
        "2020-03-04 08:00,10.0,1.0\n2020-03-04 08:00,10.0,1.0\n"
        "2020-03-04 09:00,10.3,1.0\n2020-03-04 10:00,10.7,1.0\n";
    static const char *const want[] = {
        "7 rows read, 5 kept, 60 min apart",
        "1 rows without a value left out, first on line 3",
        "3 values marked as missing, first on line 3",
        "1 rows repeating the time of another, left out, first on line 6",
        "2 hours in gaps, filled by a line",
        "longest gap bridged 2 h, at 2020-03-04 06:00"};
    char notes[DEW_NOTES_MOST][DEW_NOTE_TEXT];
    struct reading r;
    size_t n;

    read_text(&r, text, sizeof text - 1, NULL);
    n = dew_weather_notes(&r.report, notes, DEW_NOTES_MOST);
    for (size_t i = 0; i < n && i < COUNT_OF(want); i++)
        assert_string_equal(notes[i], want[i]);
    assert_int_equal(n, COUNT_OF(want));
    assert_int_equal(dew_weather_notes(&r.report, notes, 2), 2);
    dew_year_close(r.year);
}

TEST(standard_time_may_be_said)
{
    static const char text[] =
        "time,t (degC),td (degC)\n2020-11-01 00:00,5,1\n2020-11-01 01:00,6,1\n"
        "2020-11-01 01:00,7,1\n2020-11-01 02:00,8,1\n";
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;

    standard_clock(&ask);
    read_text(&r, text, sizeof text - 1, &ask);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.report.notices[DEW_NOTICE_DOUBLED].count, 1);
    assert_int_equal(r.report.notices[DEW_NOTICE_DOUBLED].line, 4);
    assert_int_equal(r.count, 2);
    dew_year_close(r.year);
}

ROWS(goods, sample_is_read);
ROWS(bads, sample_is_refused);
RUN_TESTS("weather, traps");
