/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Monthly means of real files, against the same taken by monthly_means.py from
 * the files' own rows.  Skipped, by name, where the data are not.
 *
 * Tolerance: half of the last digit given, with its rounding; a dew point at
 * hours between rows is 0.008 K, for the line runs through w and not td; one
 * from RH 0.012 K, for it is by another formula there.
 */
#include "weather/files.h"

#include "dew/air.h"

enum quantity { MEAN_T, MEAN_TD, MEAN_GLOBAL };

/* clang-format off */
static const struct file_row {
    const char *name, *path, *station;
    enum quantity quantity;
    double tolerance;
    double months[12]; /* NaN: no such month */
} files[] = {
    {"703165TY.csv: temperature",
     "weather/tmy3/703165TY.csv", NULL, MEAN_T, 0.0006,
     {0.640, 1.200, 1.652, 2.092, 3.185, 8.056, 11.807, 11.877, 7.909, 4.491, 0.438, -0.585}},
    {"703165TY.csv: dew point",
     "weather/tmy3/703165TY.csv", NULL, MEAN_TD, 0.0006,
     {-1.876, -4.128, -2.098, -2.439, -0.863, 4.050, 6.053, 8.367, 3.382, 0.081, -4.486, -4.945}},
    {"703165TY.csv: global solar",
     "weather/tmy3/703165TY.csv", NULL, MEAN_GLOBAL, 0.0006,
     {24.305, 43.643, 77.195, 127.426, 136.594, 158.600, 208.522, 112.651, 126.699, 67.250, 30.968, 19.258}},
    {"722020TYA.CSV: temperature",
     "weather/tmy3/722020TYA.CSV", NULL, MEAN_T, 0.0006,
     {19.418, 20.869, 21.570, 24.111, 26.415, 27.683, 28.128, 27.973, 27.494, 26.344, 23.588, 20.294}},
    {"722020TYA.CSV: dew point",
     "weather/tmy3/722020TYA.CSV", NULL, MEAN_TD, 0.0006,
     {13.590, 13.893, 15.098, 17.398, 20.673, 22.667, 22.769, 23.030, 22.560, 21.101, 18.461, 15.748}},
    {"722020TYA.CSV: global solar",
     "weather/tmy3/722020TYA.CSV", NULL, MEAN_GLOBAL, 0.0006,
     {145.171, 176.473, 214.887, 246.819, 241.902, 230.824, 250.292, 228.626, 203.474, 179.876, 147.867, 133.965}},
    {"722780TYA.CSV: temperature",
     "weather/tmy3/722780TYA.CSV", NULL, MEAN_T, 0.0006,
     {13.009, 15.668, 17.339, 23.656, 27.289, 33.991, 35.561, 33.820, 30.384, 24.809, 17.950, 11.714}},
    {"722780TYA.CSV: dew point",
     "weather/tmy3/722780TYA.CSV", NULL, MEAN_TD, 0.0006,
     {-2.170, 4.130, 2.550, -1.624, 2.319, 5.852, 13.594, 13.471, 8.887, 6.367, 1.931, 0.548}},
    {"722780TYA.CSV: global solar",
     "weather/tmy3/722780TYA.CSV", NULL, MEAN_GLOBAL, 0.0006,
     {136.949, 173.409, 222.315, 295.251, 326.836, 346.578, 317.327, 296.962, 264.175, 200.950, 157.197, 127.918}},
    {"723170TYA.CSV: temperature",
     "weather/tmy3/723170TYA.CSV", NULL, MEAN_T, 0.0006,
     {0.332, 5.030, 11.414, 14.685, 19.032, 23.592, 25.433, 24.761, 20.076, 13.120, 10.821, 4.229}},
    {"723170TYA.CSV: dew point",
     "weather/tmy3/723170TYA.CSV", NULL, MEAN_TD, 0.0006,
     {-5.667, -1.917, 3.895, 6.119, 12.211, 18.804, 19.820, 19.564, 15.440, 8.634, 3.285, -2.656}},
    {"723170TYA.CSV: global solar",
     "weather/tmy3/723170TYA.CSV", NULL, MEAN_GLOBAL, 0.0006,
     {100.602, 127.606, 177.105, 225.419, 234.837, 260.454, 253.469, 233.944, 184.463, 149.548, 101.451, 93.458}},
    {"726580TYA.CSV: temperature",
     "weather/tmy3/726580TYA.CSV", NULL, MEAN_T, 0.0006,
     {-11.394, -4.839, 2.043, 7.536, 16.511, 20.362, 23.776, 20.634, 15.828, 8.204, 0.302, -6.971}},
    {"726580TYA.CSV: dew point",
     "weather/tmy3/726580TYA.CSV", NULL, MEAN_TD, 0.0006,
     {-16.371, -11.035, -5.059, 0.832, 7.688, 11.403, 16.672, 14.855, 9.590, 2.842, -4.625, -11.987}},
    {"726580TYA.CSV: global solar",
     "weather/tmy3/726580TYA.CSV", NULL, MEAN_GLOBAL, 0.0006,
     {71.839, 107.908, 153.772, 198.476, 245.897, 267.419, 250.845, 215.296, 167.690, 117.262, 66.381, 50.395}},
    {"727930TYA.CSV: temperature",
     "weather/tmy3/727930TYA.CSV", NULL, MEAN_T, 0.0006,
     {4.497, 5.822, 8.327, 10.852, 12.974, 15.588, 17.666, 18.799, 15.085, 11.424, 8.068, 5.417}},
    {"727930TYA.CSV: dew point",
     "weather/tmy3/727930TYA.CSV", NULL, MEAN_TD, 0.0006,
     {1.219, 1.766, 2.940, 5.250, 7.493, 8.876, 10.382, 11.859, 10.737, 7.188, 5.283, 2.462}},
    {"727930TYA.CSV: global solar",
     "weather/tmy3/727930TYA.CSV", NULL, MEAN_GLOBAL, 0.0006,
     {42.254, 74.750, 117.642, 180.856, 228.063, 246.993, 259.620, 210.082, 153.236, 94.454, 48.644, 37.179}},
    {"lcd_v1_atlanta_2020.csv: temperature",
     "weather/observed/lcd_v1_atlanta_2020.csv", NULL, MEAN_T, 0.0006,
     {9.481, 10.217, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN}},
    {"lcd_v1_atlanta_2020.csv: dew point",
     "weather/observed/lcd_v1_atlanta_2020.csv", NULL, MEAN_TD, 0.008,
     {2.781, 5.308, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN}},
    {"lcd_v2_lincoln_2023.csv: temperature",
     "weather/observed/lcd_v2_lincoln_2023.csv", NULL, MEAN_T, 0.0006,
     {-1.813, -1.129, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN}},
    {"lcd_v2_lincoln_2023.csv: dew point",
     "weather/observed/lcd_v2_lincoln_2023.csv", NULL, MEAN_TD, 0.008,
     {-5.872, -7.300, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN}},
    {"asos_new_york_2013.csv EWR: temperature",
     "weather/observed/asos_new_york_2013.csv", "EWR", MEAN_T, 0.0006,
     {1.977, 1.242, 4.522, 11.663, 17.437, 22.922, 27.038, 23.644, 19.591, 15.416, 6.948, 3.297}},
    {"asos_new_york_2013.csv EWR: dew point",
     "weather/observed/asos_new_york_2013.csv", "EWR", MEAN_TD, 0.008,
     {-5.187, -5.615, -3.845, 1.408, 9.626, 15.788, 19.723, 16.238, 11.986, 8.326, -1.847, -2.124}},
    {"asos_new_york_2013.csv JFK: temperature",
     "weather/observed/asos_new_york_2013.csv", "JFK", MEAN_T, 0.0006,
     {1.879, 1.219, 4.197, 10.074, 15.201, 21.099, 25.964, 23.227, 19.365, 15.443, 7.294, 3.668}},
    {"asos_new_york_2013.csv JFK: dew point",
     "weather/observed/asos_new_york_2013.csv", "JFK", MEAN_TD, 0.008,
     {-5.376, -5.791, -4.078, 1.464, 9.292, 15.729, 19.939, 16.427, 12.014, 8.347, -1.427, -2.031}},
    {"asos_new_york_2013.csv LGA: temperature",
     "weather/observed/asos_new_york_2013.csv", "LGA", MEAN_T, 0.0006,
     {2.196, 1.311, 4.436, 11.184, 17.125, 22.950, 27.086, 23.920, 19.924, 15.901, 7.365, 3.761}},
    {"asos_new_york_2013.csv LGA: dew point",
     "weather/observed/asos_new_york_2013.csv", "LGA", MEAN_TD, 0.008,
     {-5.539, -6.011, -4.037, 0.873, 8.715, 14.421, 18.640, 15.247, 11.342, 7.679, -2.102, -2.993}},
    {"eccc_kamloops_2016.csv: temperature",
     "weather/observed/eccc_kamloops_2016.csv", NULL, MEAN_T, 0.0006,
     {-0.881, 2.806, 7.499, 12.904, 15.439, 19.345, NAN, NAN, NAN, NAN, NAN, NAN}},
    {"eccc_kamloops_2016.csv: dew point",
     "weather/observed/eccc_kamloops_2016.csv", NULL, MEAN_TD, 0.0006,
     {-3.575, -1.151, -1.058, 2.720, 4.418, 6.553, NAN, NAN, NAN, NAN, NAN, NAN}},
    {"met_eireann_valentia_2017.csv: temperature",
     "weather/observed/met_eireann_valentia_2017.csv", NULL, MEAN_T, 0.0006,
     {8.037, 8.252, 9.366, 9.598, 12.622, 14.056, 14.801, 14.754, 13.437, 12.677, 9.651, 8.264}},
    {"met_eireann_valentia_2017.csv: dew point of RH",
     "weather/observed/met_eireann_valentia_2017.csv", NULL, MEAN_TD, 0.012,
     {5.013, 5.186, 5.885, 5.280, 8.810, 11.176, 12.183, 12.070, 10.807, 10.510, 6.704, 5.511}},
    {"nsrdb_psm3_40.5N_2017.csv: temperature",
     "weather/observed/nsrdb_psm3_40.5N_2017.csv", NULL, MEAN_T, 0.0006,
     {-7.822, -0.881, 4.133, 5.312, 11.442, 19.826, 23.396, 20.728, 15.003, 5.139, 2.486, -2.622}},
    {"nsrdb_psm3_40.5N_2017.csv: dew point",
     "weather/observed/nsrdb_psm3_40.5N_2017.csv", NULL, MEAN_TD, 0.008,
     {-10.314, -5.667, -3.947, -4.992, -0.607, 1.113, 6.074, 4.974, 1.368, -6.230, -5.338, -11.131}},
    {"nsrdb_psm3_40.5N_2017.csv: global solar",
     "weather/observed/nsrdb_psm3_40.5N_2017.csv", NULL, MEAN_GLOBAL, 0.0006,
     {66.980, 115.228, 195.174, 245.562, 279.961, 346.040, 286.916, 262.960, 213.814, 176.365, 106.389, 95.783}},
    {"isd_longmont_2020.gz: temperature",
     "weather/observed/isd_longmont_2020.gz", NULL, MEAN_T, 0.0006,
     {2.039, -0.536, 6.767, 9.020, 16.207, 22.161, 24.506, 24.224, 17.814, 9.603, 6.307, 0.508}},
    {"isd_longmont_2020.gz: dew point",
     "weather/observed/isd_longmont_2020.gz", NULL, MEAN_TD, 0.008,
     {-9.681, -9.196, -3.356, -2.865, 7.460, 5.798, 9.233, 7.674, 3.059, -3.365, -5.910, -9.362}},
    {"jrc_typical_45N_8E.csv: temperature",
     "weather/observed/jrc_typical_45N_8E.csv", NULL, MEAN_T, 0.0006,
     {5.204, 6.969, 8.731, 12.373, 17.039, 22.477, 21.915, 22.141, 20.199, 14.957, 6.303, 4.051}},
    {"jrc_typical_45N_8E.csv: dew point of RH",
     "weather/observed/jrc_typical_45N_8E.csv", NULL, MEAN_TD, 0.012,
     {2.543, 3.540, 3.030, 8.723, 11.772, 11.906, 15.353, 16.071, 14.452, 11.598, 1.820, 2.445}},
    {"jrc_typical_45N_8E.csv: global solar",
     "weather/observed/jrc_typical_45N_8E.csv", NULL, MEAN_GLOBAL, 0.0006,
     {64.312, 99.728, 159.344, 168.626, 201.376, 300.211, 275.790, 239.929, 188.175, 119.665, 84.210, 62.116}},
};
/* clang-format on */

static double value(const struct dew_hour *h, enum quantity q)
{
    return q == MEAN_T    ? h->t
           : q == MEAN_TD ? dew_air_dew_liquid(h->w, h->p)
                          : h->global;
}

static double month_mean(const struct reading *r, int month, enum quantity q)
{
    double sum = 0.0;
    size_t n = 0;

    for (size_t h = 0; h < r->count; h++) {
        double x = value(&r->hours[h], q);

        if (r->dates[h].month != month || isnan(x))
            continue;
        sum += x;
        n++;
    }
    return n > 0 ? sum / (double)n : NAN;
}

/* What a person would answer for each file. */
static const struct dew_column_said airport_units[] = {
    {"temp", NULL, "degF"},
    {"dewp", NULL, "degF"},
    {"wind_speed", NULL, "mph"},
    {"pressure", NULL, "hPa"},
};

static void file_has_its_means(void **state)
{
    const struct file_row *row = *state;
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;
    char path[300];

    if (data_path(path, sizeof path, row->path) == NULL)
        skip();
    ask.keep_gaps = 1;
    if (row->station != NULL) {
        ask.station = row->station;
        ask.said = airport_units;
        ask.said_count = COUNT_OF(airport_units);
    }
    if (strstr(row->path, "isd_") != NULL)
        ask.year = 2020;
    read_file(&r, path, &ask);
    assert_int_equal(r.status, DEW_OK);
    for (int m = 1; m <= 12; m++) {
        if (isnan(row->months[m - 1]))
            assert_nan(month_mean(&r, m, row->quantity));
        else
            assert_near(month_mean(&r, m, row->quantity), row->months[m - 1],
                        row->tolerance);
    }
    dew_year_close(r.year);
}

/* What each file's report must count: from the files themselves. */
static const struct {
    const char *name, *path, *station;
    enum dew_notice_code code;
    long count;
} notices[] = {
    {"LCD v1: 53 summary rows", "weather/observed/lcd_v1_atlanta_2020.csv",
     NULL, DEW_NOTICE_SUMMARY, 53},
    {"LCD v1: 210 synoptic", "weather/observed/lcd_v1_atlanta_2020.csv", NULL,
     DEW_NOTICE_SYNOPTIC, 210},
    {"LCD v2: 59 summary rows", "weather/observed/lcd_v2_lincoln_2023.csv",
     NULL, DEW_NOTICE_SUMMARY, 59},
    {"ISD: 190 summary rows", "weather/observed/isd_longmont_2020.gz", NULL,
     DEW_NOTICE_SUMMARY, 190},
    {"airports: 17412 rows of others",
     "weather/observed/asos_new_york_2013.csv", "EWR", DEW_NOTICE_STATION,
     17412},
    {"airports: a wind of 1048 mph", "weather/observed/asos_new_york_2013.csv",
     "EWR", DEW_NOTICE_RANGE, 1},
    {"Kamloops: 4 hours without a value",
     "weather/observed/eccc_kamloops_2016.csv", NULL, DEW_NOTICE_EMPTY, 4},
    {"Kamloops: 4 hours filled", "weather/observed/eccc_kamloops_2016.csv",
     NULL, DEW_NOTICE_FILLED, 4},
};

static void file_is_reported(void **state)
{
    size_t i = (size_t)((const char *)*state - (const char *)notices) /
               sizeof notices[0];
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;
    char path[300];

    if (data_path(path, sizeof path, notices[i].path) == NULL)
        skip();
    ask.keep_gaps = 1;
    ask.station = notices[i].station;
    ask.said = airport_units;
    ask.said_count = COUNT_OF(airport_units);
    read_file(&r, path, &ask);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.report.notices[notices[i].code].count, notices[i].count);
    dew_year_close(r.year);
}

TEST(airports_are_asked_about)
{
    struct reading r;
    char path[300], line[400];

    if (data_path(path, sizeof path,
                  "weather/observed/asos_new_york_2013.csv") == NULL)
        skip();
    read_file(&r, path, NULL);
    assert_int_equal(r.status, DEW_EAMBIGUOUS);
    assert_string_equal(fault_text(&r, 0, line, sizeof line),
                        "0:0: station: the file holds several stations (EWR, "
                        "JFK, LGA): say which");
}

TEST(long_gap_is_refused)
{
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct reading r;
    char path[300];

    if (data_path(path, sizeof path, "weather/observed/isd_longmont_2020.gz") ==
        NULL)
        skip();
    ask.year = 2020;
    read_file(&r, path, &ask);
    assert_int_equal(r.status, DEW_EMISSING);
}

ROWS(files, file_has_its_means);
ROWS(notices, file_is_reported);
RUN_TESTS("weather, real files");
