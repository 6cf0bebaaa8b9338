/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A log laid beside the model: sums, words, charts and summary. */
#include "support/rows.h"

#include "report/log_sums.h"
#include "report/nested.h"
#include "report/page.h"

/* 137 hours from the 20th of March; in the first 90 the log's dew point is
   1.25 K below the model's, then 0.75 K above it; its RH 0.031 above. */
enum { FIRST = 1891, LOW = 90, LOGGED = 137 };

static double log_t[SCENE_HOURS], log_rh[SCENE_HOURS], log_dew[SCENE_HOURS];
static struct dew_report_log beside;
static struct dew_beside beside_of;

static struct dew_report log_open(enum dew_system system)
{
    struct dew_report r = page_open(2, system);
    const struct dew_measured measured = {log_t, log_rh, SCENE_HOURS};

    for (int h = 0; h < SCENE_HOURS; h++)
        log_t[h] = log_rh[h] = log_dew[h] = NAN;
    for (int h = FIRST; h < FIRST + LOGGED; h++) {
        log_t[h] = 21.3;
        log_rh[h] = page_series[0][h] + 0.031;
        log_dew[h] = page_series[0][h] + (h < FIRST + LOW ? -1.25 : 0.75);
    }
    beside = (struct dew_report_log){
        .t = log_t, .rh = log_rh, .dew_point = log_dew, .same_hours = 1};
    beside_of =
        dew_study_beside(r.question->choices[0].outcome, r.dates, &measured);
    r.beside = &beside_of;
    r.log = "file made-up.csv, <cellar>";
    r.laid = &beside;
    return r;
}

/* ---- sums --------------------------------------------------------------------------- */

TEST(sums_are_of_the_hours_that_both_have)
{
    struct dew_report r = log_open(DEW_SYSTEM_SI);
    struct report__log_sum all, march;

    page_series[0][FIRST + 3] = NAN; /* the model's, of every series */
    all = report__log_sum_of(&r, -1);
    march = report__log_sum_of(&r, 2);
    assert_near(all.hours, LOGGED - 1, 0);
    assert_near(march.hours, LOGGED - 1, 0);
    assert_near(report__log_sum_of(&r, 3).hours, 0, 0);
    assert_near(all.dew_read - all.dew_model,
                (-1.25 * (LOW - 1) + 0.75 * (LOGGED - LOW)) / (LOGGED - 1),
                1e-12);
    assert_near(all.rh_read - all.rh_model, 0.031, 1e-12);
    assert_near(all.t_read, 21.3, 1e-12);
}

/* Outdoors is the model's own series here: drier where the log is above. */
TEST(outdoor_air_dries_where_it_is_below)
{
    struct dew_report r = log_open(DEW_SYSTEM_SI);
    struct report__log_sum s = report__log_sum_of(&r, -1);

    assert_near(s.tested, LOGGED, 0);
    assert_near(s.dries, LOGGED - LOW, 0);
}

TEST(own_outdoor_columns_go_first)
{
    struct dew_report r = log_open(DEW_SYSTEM_SI);
    static double out[SCENE_HOURS];
    struct report__log_sum s;

    for (int h = 0; h < SCENE_HOURS; h++)
        out[h] = h % 10 == 0 ? NAN : -3.7;
    beside.dew_point_out = out;
    beside.same_hours = 0;
    s = report__log_sum_of(&r, -1);
    assert_near(s.tested, LOGGED - 13, 0); /* 1900, 1910 .. 2020 */
    assert_near(s.dries, s.tested, 0);
}

TEST(without_outdoors_nothing_is_tested)
{
    struct dew_report r = log_open(DEW_SYSTEM_SI);

    beside.same_hours = 0;
    assert_int_equal(report__log_tested(&r), 0);
    assert_near(report__log_sum_of(&r, -1).tested, 0, 0);
}

/* ---- words --------------------------------------------------------------------------- */

/* Text with line breaks and indents made single spaces. */
static char *flat(char *text)
{
    char *to = text;

    for (const char *s = text; *s != '\0'; s++)
        if (*s != '\n' && (*s != ' ' || (to > text && to[-1] != ' ')))
            *to++ = *s;
        else if (*s == '\n' && to > text && to[-1] != ' ')
            *to++ = ' ';
    *to = '\0';
    return text;
}

/* -1.25 * 90 + 0.75 * 47 over 137 hours: the model 0.564 K higher, 1.0 degF;
   5 points of RH are some 2 K of dew point each way. */
static const struct words_row {
    const char *name;
    enum dew_system system;
    int same_hours;
    const char *want;
} words_rows[] = {
    {"the dew-point test", DEW_SYSTEM_SI, 1,
     "Of the 137 hours of the log that have a dew point indoors and outdoors, "
     "outdoor air would have dried the house in 47 "
     "(outdoor dew point below the indoor one; outdoors as the weather file "
     "has it)."},
    {"no test without outdoors", DEW_SYSTEM_SI, 0,
     "Whether outdoor air would have dried the house cannot be told: the log "
     "has no outdoor columns, and the weather is of another year."},
    {"mean difference, SI", DEW_SYSTEM_SI, 1,
     "Over 137 hours the model of \"as it stands\" has a dew point 0.6 degC "
     "higher than the log, on average."},
    {"mean difference, US", DEW_SYSTEM_US, 1,
     "Over 137 hours the model of \"as it stands\" has a dew point 1.0 degF "
     "higher than the log, on average."},
    {"another year is said", DEW_SYSTEM_SI, 0,
     "the weather is of another year: compare levels, not days."},
    {"RH", DEW_SYSTEM_SI, 1, "Model less measured: -3.1 points in the mean, "},
    {"temperature", DEW_SYSTEM_SI, 1,
     "Temperature over 137 hours: measured 21.3"},
};

static void words_are_told(void **state)
{
    const struct words_row *row = *state;
    struct dew_report r = log_open(row->system);
    char *text;

    beside.same_hours = row->same_hours;
    text = flat(page_written(dew_report_text, &r, NULL));
    if (strstr(text, row->want) == NULL)
        fail_msg("not told: %s", row->want);
    free(text);
}

/* ---- page, charts, summary -------------------------------------------------------------- */

TEST(the_page_shows_it_escaped)
{
    struct dew_report r = log_open(DEW_SYSTEM_US);
    char *text = page_written(dew_report_html, &r, NULL);

    assert_nested(text);
    assert_non_null(strstr(text, "<section id=\"log\">"));
    assert_non_null(strstr(text, "Your log: dew point"));
    assert_non_null(strstr(text, "Your log: RH"));
    assert_non_null(strstr(text, "&lt;cellar&gt;"));
    assert_null(strstr(text, "<cellar>"));
    assert_null(strstr(text, " nan"));
    free(text);
}

/* As many points as hours: one move, then lines; none outside. */
TEST(the_line_has_a_point_an_hour)
{
    struct dew_report r = log_open(DEW_SYSTEM_SI);
    char *text = NULL;
    const char *line;
    size_t size = 0, points = 0;
    FILE *out = open_memstream(&text, &size);

    assert_int_equal(dew_report_chart(&r, DEW_CHART_log_dew, 0, out, NULL),
                     DEW_OK);
    fclose(out);
    assert_nested(text);
    line = strstr(text, "<path class=\"logged\" d=\"M");
    assert_non_null(line);
    for (const char *s = strchr(line, 'M'); *s != '"'; s++)
        points += *s == 'M' || *s == 'L';
    assert_int_equal(points, LOGGED);
    free(text);
}

TEST(without_a_log_there_is_none_of_it)
{
    struct dew_report r = page_open(2, DEW_SYSTEM_SI);
    char *text = page_written(dew_report_html, &r, NULL);

    assert_int_equal(dew_report_chart_count(&r, DEW_CHART_log_dew), 0);
    assert_int_equal(dew_report_chart_count(&r, DEW_CHART_log_rh), 0);
    assert_null(strstr(text, "our log"));
    free(text);
}

TEST(the_summary_has_it)
{
    struct dew_report r = log_open(DEW_SYSTEM_US);
    char *text = flat(page_written(dew_report_json, &r, NULL));

    assert_non_null(strstr(text, "\"log\": { \"provenance\": \"file made-up"));
    assert_non_null(strstr(text, "\"same_hours\": true"));
    assert_non_null(strstr(text, "\"of_h\": 137.0, \"could_dry_h\": 47.0"));
    assert_non_null(strstr(text, "\"outdoor_columns_of_the_log\": false"));
    free(text);
}

ROWS(words_rows, words_are_told);
RUN_TESTS("report, log");
