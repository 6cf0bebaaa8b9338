/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Monthly climates: twelve rows of figures for a place.  A table of 1,007
 * places of the United States is part of the library; a place outside it is
 * twelve rows of the caller's, typed or read from a file.
 *
 *     struct dew_climate place;
 *     for (size_t at = 0; dew_climate_next(&at, &place);)
 *         puts(place.site.name);
 *
 * The table's figures were computed from the typical years of [TMY3].  A
 * typical month there is a real month picked from some year: neighbours can
 * jump, and a month is not the mean of many.
 */
#ifndef DEW_CLIMATE_H
#define DEW_CLIMATE_H

#include <stddef.h>

#include "dew/status.h"
#include "dew/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * One row per figure of a month: member, column of the file, factor and
 * offset to SI, range in the file's unit, and what it is.
 */
/* clang-format off */
#define DEW_NORMAL_MAP(X)                                                      \
    X(t,         "t_mean_c",         1.0, 0.0,  -70.0,   50.0, "mean temperature")                          \
    X(t_max,     "t_max_c",          1.0, 0.0,  -70.0,   60.0, "mean of the days' highest temperature")     \
    X(t_min,     "t_min_c",          1.0, 0.0,  -75.0,   50.0, "mean of the days' lowest temperature")      \
    X(t_sd,      "t_day_sd_k",       1.0, 0.0,    0.0,   16.0, "standard deviation of the days' mean")      \
    X(t_lag,     "t_day_lag1",       1.0, 0.0,   -0.95,   0.99, "correlation of one day's mean with the next") \
    X(td,        "td_mean_c",        1.0, 0.0,  -75.0,   35.0, "mean dew point")                            \
    X(td_sd,     "td_day_sd_k",      1.0, 0.0,    0.0,   25.0, "standard deviation of the days' dew point") \
    X(t_td,      "t_td_corr",        1.0, 0.0,   -1.0,    1.0, "correlation of the days' t and dew point")  \
    X(wind,      "wind_mean_m_s",    1.0, 0.0,    0.0,   30.0, "mean wind speed")                           \
    X(solar,     "ghi_kwh_m2_day",   1000.0 / 24.0, 0.0, 0.0, 13.0, "mean sun on the level")                \
    X(solar_sd,  "ghi_day_sd_kwh_m2", 1000.0 / 24.0, 0.0, 0.0, 5.0, "standard deviation of the days' sun")  \
    X(sun_range, "ghi_trange_corr",  1.0, 0.0,   -1.0,    1.0, "correlation of the days' sun and range of t") \
    X(pressure,  "pressure_hpa",   100.0, 0.0,  550.0, 1050.0, "mean pressure")
/* clang-format on */

/* One month: degC, K, -, m/s, W/m2 (mean over day and night), Pa.  Plain. */
struct dew_normal {
#define X(name, column, factor, offset, low, high, words) double name;
    DEW_NORMAL_MAP(X)
#undef X
};

/* A place and its months, January first.  Plain. */
struct dew_climate {
    struct dew_site site; /* its name as the table writes it, for finding   */
    char shown[64]; /* the name for reading: "Intl Airport", not "Intl Ap"  */
    char state[4];  /* "FL", or ""                                          */
    struct dew_normal month[12];
    char lent[64]; /* the place whose figures stand in for those that a file
                      does not give, or ""                                  */
};

/*
 * The place at *at, which starts at 0 and is moved on to the next.  Returns
 * 0 past the last one, and then writes nothing.  *at is not a count.
 */
int dew_climate_next(size_t *at, struct dew_climate *out);

/*
 * Does the place answer to words?  Each word, in any letter case, must begin
 * a word of its name, as the table writes it or as it is shown, or be its
 * number, its state's two letters, or begin a word of its state's name.  No words answer to everything.
 */
int dew_climate_answers(const struct dew_climate *place, const char *words);

/*
 * The one place that answers to words; its number or its whole name comes
 * before other answers.  Two numbers are a latitude and a longitude: the
 * nearest place within 80 km.
 *
 * Errors     DEW_EUNKNOWN, with those spelt most alike in err->text, or the
 *            nearest to a point; DEW_EAMBIGUOUS, with the first few;
 *            DEW_ERANGE of a point that is none.
 */
enum dew_status dew_climate_find(const char *words, struct dew_climate *out,
                                 struct dew_error *err);

/* A place and how far it is.  Plain. */
struct dew_nearby {
    struct dew_climate place;
    double distance; /* m  on a sphere of 6371.0088 km [MORITZ00]           */
};

/*
 * The nearest places, nearest first.
 *
 *     latitude   deg   -90 .. 90      longitude   deg  -180 .. 180
 *     list       out: size room, 1 or more
 *     count      out: how many of them were written
 *
 * Errors     DEW_ERANGE.
 */
enum dew_status dew_climate_near(double latitude, double longitude,
                                 struct dew_nearby *list, size_t room,
                                 size_t *count, struct dew_error *err);

/*
 * Every fault of a climate that a person typed: ranges of DEW_NORMAL_MAP, the
 * site's, and that lowest <= mean <= highest and dew point <= mean.
 * source names it in the faults.  Returns the count of faults added.
 */
size_t dew_climate_check(const struct dew_climate *climate, const char *source,
                         struct dew_faults *faults);

/*
 * Read a place from text in the form of the table: a line of column names and
 * twelve rows, in any order of columns and months; `#` begins a comment line.
 * Columns that are needed: month, lat_deg, lon_deg, elevation_m, utc_offset_h,
 * t_max_c, t_min_c, and td_mean_c or rh_mean_pct.  The rest of DEW_NORMAL_MAP
 * is lent where it is absent: t_mean_c is the middle of highest and lowest,
 * pressure_hpa that of the elevation, and all else (how far days stray and
 * hang together, wind, sunlight as clear as there) that of the table's place
 * with the most similar months at a similar latitude, named in out->lent;
 * south of the equator half a year on.
 *
 *     source   the file's name, for the faults
 *
 * Errors     every fault in faults; the first one's status is returned.  *out
 *            is written only on DEW_OK.
 */
enum dew_status dew_climate_read(const char *text, size_t size,
                                 const char *source, struct dew_climate *out,
                                 struct dew_faults *faults);

#ifdef __cplusplus
}
#endif
#endif
