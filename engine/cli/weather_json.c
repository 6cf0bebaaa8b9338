/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What `weather look --json` prints: SI units throughout. */
#include "cli/weather.h"
#include "core/clean.h"

/* A file's text, made valid UTF-8: jansson takes nothing else. */
static json_t *text(const char *words)
{
    char clean[512];

    return json_string(core__clean(words, clean, sizeof clean));
}

static json_t *site_json(const struct dew_site *s)
{
    return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o}", "id", text(s->id),
                     "name", text(s->name), "latitude", cli__real(s->latitude),
                     "longitude", cli__real(s->longitude), "elevation_m",
                     cli__real(s->elevation), "utc_offset_h",
                     cli__real(s->utc_offset));
}

static json_t *date_json(const struct dew_date *d)
{
    return json_pack("{s:i, s:i, s:i, s:i}", "year", d->year, "month", d->month,
                     "day", d->day, "hour", d->hour);
}

static json_t *columns_json(const struct dew_weather_report *r)
{
    json_t *list = json_array();

    for (int i = 0; i < r->column_count; i++)
        list = cli__add(list, json_pack("{s:o, s:s, s:s}", "header",
                                        text(r->columns[i].header), "meaning",
                                        r->columns[i].meaning, "unit",
                                        r->columns[i].unit));
    return list;
}

static json_t *notices_json(const struct dew_weather_report *r)
{
    json_t *list = json_array();

    for (int i = 0; i < DEW_NOTICE_COUNT; i++)
        if (r->notices[i].count > 0)
            list = cli__add(list,
                            json_pack("{s:s, s:I, s:i}", "what",
                                      dew_notice_text((enum dew_notice_code)i),
                                      "count", (json_int_t)r->notices[i].count,
                                      "first_line", r->notices[i].line));
    return list;
}

static json_t *months_json(const struct dew_year *year)
{
    struct cli__weather_sum months[12];
    json_t *list = json_array();

    cli__weather_months(year, months);
    for (int m = 0; m < 12; m++) {
        const struct cli__weather_sum *s = &months[m];

        if (s->hours == 0)
            continue;
        list = cli__add(
            list,
            json_pack(
                "{s:i, s:I, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "month",
                m + 1, "hours", (json_int_t)s->hours, "t_degC",
                cli__real(s->t.mean), "t_lowest_degC", cli__real(s->t.low),
                "t_highest_degC", cli__real(s->t.high), "dew_point_degC",
                cli__real(s->td.mean), "dew_point_lowest_degC",
                cli__real(s->td.low), "dew_point_highest_degC",
                cli__real(s->td.high), "wind_m_s", cli__real(s->wind.mean),
                "global_W_m2", cli__real(s->global.mean)));
    }
    return list;
}

static json_t *gaps_json(const struct dew_year *year)
{
    enum { MOST = 200 };
    struct cli__weather_gap gaps[MOST];
    size_t n, count = cli__weather_gaps(year, gaps, MOST);
    const struct dew_date *dates = dew_year_dates(year, &n);
    json_t *list = json_array();

    for (size_t i = 0; i < count && i < MOST; i++)
        list = cli__add(list, json_pack("{s:o, s:I}", "from",
                                        date_json(&dates[gaps[i].first]),
                                        "hours", (json_int_t)gaps[i].hours));
    return list;
}

json_t *cli__weather_json(const struct cli__weather_file *f)
{
    const struct dew_weather_report *r = &f->report;
    size_t n;
    const struct dew_date *d = dew_year_dates(f->year, &n);

    return json_pack(
        "{s:o, s:I, s:o, s:o, s:s, s:s, s:s, s:s, s:s, s:s, s:s, s:I, s:I, "
        "s:o, s:o, s:o, s:o, s:o}",
        "site", site_json(dew_year_site(f->year)), "hours", (json_int_t)n,
        "first", date_json(&d[0]), "last", date_json(&d[n - 1]), "form",
        r->format, "units_by", r->units_by, "clock", r->clock, "humidity",
        r->humidity, "pressure", r->pressure, "method", r->method, "suspicion",
        r->suspicion, "rows_read", (json_int_t)r->rows, "rows_kept",
        (json_int_t)r->used, "interval_s", cli__real(r->interval), "columns",
        columns_json(r), "notices", notices_json(r), "gaps", gaps_json(f->year),
        "months", months_json(f->year));
}
