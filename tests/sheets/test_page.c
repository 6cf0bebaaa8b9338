/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page: whole, escaped, offline, not too large, the same twice. */
#include "support/rows.h"

#include "dew/unit.h"
#include "report/nested.h"
#include "report/page.h"

static int times(const char *text, const char *part)
{
    int n = 0;

    for (const char *s = text; (s = strstr(s, part)) != NULL; s++)
        n++;
    return n;
}

static char *page_of(size_t options, enum dew_system system, size_t *length)
{
    struct dew_report report = page_open(options, system);

    return page_written(dew_report_html, &report, length);
}

TEST(tags_are_nested)
{
    char *text = page_of(5, DEW_SYSTEM_US, NULL);

    assert_non_null(text);
    assert_nested(text);
    free(text);
}

/* 1.5 MiB for five options */
TEST(five_options_stay_small)
{
    size_t length;
    char *text = page_of(5, DEW_SYSTEM_SI, &length);

    assert_true(length < 3 * 1024 * 1024 / 2);
    free(text);
}

/* Ten words at the foot, from the manual, each with its meaning. */
TEST(words_are_explained_at_the_foot)
{
    char *text = page_of(3, DEW_SYSTEM_US, NULL);
    const char *foot = strstr(text, "<section id=\"words\">");
    int count = 0;

    assert_non_null(foot);
    assert_non_null(strstr(foot, "<strong>Points.</strong> Of relative "
                                 "humidity: from 50 % to 53 % are 3 points.<"));
    for (const char *s = foot; (s = strstr(s, ".</strong> ")) != NULL; s++)
        count++;
    assert_true(count >= 10);
    free(text);
}

TEST(defaults_are_marked_and_told_apart)
{
    char *text = page_of(3, DEW_SYSTEM_US, NULL);
    const char *told = strstr(text, "Given: 2 values");
    const char *taken = strstr(text, "DEFAULT, not given: 1 values");
    const char *row = strstr(text, "<code>house.bedrooms</code>");

    assert_non_null(told);
    assert_non_null(taken);
    assert_true(told < strstr(text, "<code>house.volume</code>"));
    assert_true(taken < row);
    assert_non_null(strstr(row, "<td>common practice</td>"));
    free(text);
}

/* What a caution or a default cites is spelt out, the rest is not. */
TEST(cited_sources_are_spelt_out)
{
    char *text = page_of(3, DEW_SYSTEM_US, NULL);
    const char *sources = strstr(text, "id=\"sources\"");

    assert_non_null(sources);
    assert_non_null(strstr(sources, "<strong>BPI-1200</strong> ANSI/BPI-1200"));
    assert_non_null(strstr(sources, "<strong>ISO13790</strong>"));
    assert_null(strstr(sources, "<strong>ADF21</strong>"));
    free(text);
}

/* Alone, each chart is well nested and has words for the blind. */
TEST(charts_stand_alone)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_SI);

    for (int k = 0; k < DEW_CHARTS; k++) {
        char *text = NULL;
        size_t size = 0, last = 2;
        FILE *out = open_memstream(&text, &size);
        struct dew_error err = {0};

        if (dew_report_chart_count(&report, (enum dew_chart)k) == 0) {
            fclose(out);
            free(text);
            continue;
        }
        if (!dew_report_chart_each((enum dew_chart)k))
            last = 0;
        assert_int_equal(
            dew_report_chart(&report, (enum dew_chart)k, last, out, &err),
            DEW_OK);
        fclose(out);
        assert_nested(text);
        assert_non_null(strstr(text, "<title id=\"t\">"));
        assert_non_null(strstr(text, "<desc id=\"d\">"));
        assert_non_null(strstr(text, "<style>"));
        assert_null(strstr(text, "<table"));
        free(text);
    }
    assert_int_equal(
        dew_report_chart(&report, DEW_CHART_energy, 1, stderr, NULL),
        DEW_ERANGE);
}

/* Figures alike are coloured alike, whatever stands behind their rounding. */
TEST(the_map_colours_what_it_prints)
{
    static const double near[] = {0.596, 0.604,  0.6049, 0.295,
                                  0.304, 0.3049, 0.454,  0.446};
    struct dew_report report = page_open(1, DEW_SYSTEM_SI);
    char *text = NULL, shade[101] = {0};
    size_t size = 0, cells = 0;
    FILE *out = open_memstream(&text, &size);

    for (int h = 0; h < 8; h++)
        page_scene.outcomes[0].rh_map[3][h] = near[h];
    assert_int_equal(dew_report_chart(&report, DEW_CHART_map, 0, out, NULL),
                     DEW_OK);
    fclose(out);
    for (const char *s = text; (s = strstr(s, "<rect class=\"m")) != NULL;
         s++) {
        char is = s[14];
        const char *figure = strstr(s, ":00: ");
        long rh = figure != NULL ? strtol(figure + 5, NULL, 10) : -1;

        if (figure == NULL || figure > strstr(s, "/>"))
            continue; /* the key below the map */
        assert_true(rh >= 0 && rh <= 100);
        assert_true(shade[rh] == 0 || shade[rh] == is);
        shade[rh] = is;
        cells++;
    }
    assert_int_equal(cells, 288);
    assert_true(shade[60] == shade[59] && shade[60] != shade[61]);
    free(text);
}

/* West and south by name: no minus sign to overlook. */
TEST(a_site_west_is_told_west)
{
    struct dew_site site = {
        .latitude = 25.79, .longitude = -80.30, .elevation = 9};
    struct dew_report report = page_open(1, DEW_SYSTEM_SI);
    char *text;

    report.site = &site;
    text = page_written(dew_report_html, &report, NULL);
    assert_non_null(strstr(text, "Site: 25.79 deg north, 80.30 deg west, "));
    free(text);
}

TEST(the_page_fetches_nothing)
{
    char *text = page_of(3, DEW_SYSTEM_US, NULL);

    assert_null(strstr(text, "http"));
    assert_null(strstr(text, "src="));
    assert_null(strstr(text, "@import"));
    assert_null(strstr(text, "<link"));
    free(text);
}

TEST(names_are_escaped)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    char *text;

    /* U+FFFE is refused by readers of XML */
    page_scene.outcomes[2].name = "no \xef\xbf\xbe character";
    page_scene.outcomes[1].name = "<script>alert(\"x\")</script> & co";
    report.title = "<b>\"bold\"</b>";
    text = page_written(dew_report_html, &report, NULL);
    assert_null(strstr(text, "<script>alert"));
    assert_null(strstr(text, "\xef\xbf\xbe"));
    assert_non_null(strstr(text, "no U+FFFE character"));
    assert_null(strstr(text, "<b>"));
    assert_non_null(strstr(
        text, "&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt; &amp; co"));
    assert_nested(text);
    free(text);
}

TEST(the_same_report_is_the_same_page)
{
    char *one = page_of(3, DEW_SYSTEM_US, NULL);
    char *two = page_of(3, DEW_SYSTEM_US, NULL);

    assert_string_equal(one, two);
    free(one);
    free(two);
}

TEST(every_caution_is_on_the_page_stop_above_all)
{
    struct dew_report report = page_open(4, DEW_SYSTEM_US);
    char *text = page_written(dew_report_html, &report, NULL);
    const char *says = strstr(text, "id=\"answer\"");
    const char *list = strstr(text, "<section id=\"cautions\">");
    const char *end = strstr(list, "</section>");
    size_t count = 0, stops = 0, told_stops = 0, open = 0, listed = 0;

    for (size_t i = 0; i < report.caution_count; i++) {
        int told = report.cautions[i].answer == DEW_ANSWER_YES;

        told_stops += report.cautions[i].level == DEW_STOP && told;
        open += !told;
    }
    for (const char *s = list; (s = strstr(s, "<li>")) != NULL && s < end; s++)
        listed++;
    for (const char *s = text; (s = strstr(s, "class=\"level\">")); s++) {
        count++;
        stops += strncmp(s + 14, "STOP", 4) == 0 && s < says;
    }
    /* STOPs above the verdict and one for all their questions; below it every
       other caution, with its level where the heading does not say it */
    assert_int_equal(listed, report.caution_count - told_stops);
    assert_int_equal(count, told_stops + 1 + open);
    assert_int_equal(stops, told_stops + 1);
    free(text);
}

/* Each figure with marks has a table, each drawing words for the blind. */
TEST(every_chart_has_words_and_a_table)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    char *text;
    size_t figures = 0, tables = 0, drawings = 0;

    page_scene.outcomes[0].year.sweat[DEW_GLASS] = 1;
    text = page_written(dew_report_html, &report, NULL);
    for (const char *s = text; (s = strstr(s, "<figure")); s++) {
        figures++;
        const char *end = strstr(s, "</figure>"), *table = strstr(s, "<table");

        tables += table != NULL && table < end;
    }
    for (const char *s = text; (s = strstr(s, "role=\"img\"")); s++) {
        assert_int_equal(strncmp(s, "role=\"img\" aria-label=\"", 23), 0);
        assert_true(s[23] != '"');
        drawings++;
    }
    assert_int_equal(figures, 3 + 4 * 2);
    assert_int_equal(tables, figures);
    assert_int_equal(drawings, figures);
    free(text);
}

TEST(glass_that_stays_dry_has_a_sentence_and_no_chart)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    char *dry, *wet;

    for (int i = 0; i < 3; i++)
        page_scene.outcomes[i].year.sweat[DEW_GLASS] = 0;
    page_scene.outcomes[0].year.sweat[DEW_EDGE] = 71;
    dry = page_written(dew_report_html, &report, NULL);
    assert_non_null(strstr(dry, "<p>No hour wets the middle of the window "
                                "glass, today or with &quot;"));
    assert_non_null(strstr(dry, "Its edge is wet in 71 hours today, in "));
    assert_null(strstr(dry, "When the glass wets"));
    page_scene.outcomes[0].year.sweat[DEW_GLASS] = 1;
    wet = page_written(dew_report_html, &report, NULL);
    assert_null(strstr(wet, "No hour wets"));
    assert_int_equal(times(wet, "<h3>When the glass wets"), 2);
    assert_int_equal(times(wet, ">outdoor temperature, degF<"), 2);
    free(dry);
    free(wet);
}

/* More than five: a row of months for each, tinted by the figure printed. */
TEST(many_options_are_a_tinted_table)
{
    struct dew_report report = page_open(6, DEW_SYSTEM_US);
    char *text;

    for (int i = 0; i < 6; i++)
        for (int m = 0; m < DEW_MONTHS; m++)
            page_scene.outcomes[i].month[m].too_humid = 0;
    page_scene.outcomes[4].month[6].too_humid = 400;
    page_scene.outcomes[4].month[7].too_humid = 100.4;
    page_scene.outcomes[4].month[8].too_humid = 101;
    page_scene.outcomes[4].month[9].too_humid = 0.4;
    text = page_written(dew_report_html, &report, NULL);
    assert_non_null(strstr(text, "in quarters of 400, the most of a month"));
    assert_non_null(strstr(text, "<td class=\"h4\">400</td><td "
                                 "class=\"h1\">100</td><td "
                                 "class=\"h2\">101</td><td class=\"h0\">0<"));
    assert_int_equal(times(text, "<figure class=\"tint "), 2);
    free(text);
    text = page_of(5, DEW_SYSTEM_US, NULL);
    assert_null(strstr(text, "<figure class=\"tint "));
    free(text);
}

/* The figures of the upright axis of a chart alone, in a row. */
static void axis(const struct dew_report *r, enum dew_chart kind, size_t option,
                 char *out)
{
    char *text = NULL;
    size_t size = 0;
    FILE *file = open_memstream(&text, &size);

    assert_int_equal(dew_report_chart(r, kind, option, file, NULL), DEW_OK);
    fclose(file);
    out[0] = '\0';
    for (const char *s = text; (s = strstr(s, "<text class=\"up\"")); s++)
        strncat(out, s, strcspn(s + 1, "<") + 1);
    free(text);
}

TEST(today_and_best_share_a_scale)
{
    static const enum dew_chart twins[] = {DEW_CHART_dew_points,
                                           DEW_CHART_water, DEW_CHART_glass};
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char one[4000], two[4000];

    page_scene.outcomes[1].month[3].water.people = 7 * 365;
    page_series[1][4000] = 0.97;
    for (size_t k = 0; k < COUNT_OF(twins); k++) {
        axis(&report, twins[k], 0, one);
        axis(&report, twins[k], 1, two);
        assert_true(one[0] != '\0');
        assert_string_equal(one, two);
    }
}

/* By its line, and by its range where it has one. */
TEST(lines_of_cost_bear_their_numbers)
{
    char *text = page_of(3, DEW_SYSTEM_US, NULL);

    assert_true(times(text, "<text class=\"end\"") >= 3);
    assert_non_null(strstr(text, "\">3</text>"));
    free(text);
}

/* No good answer: told in words, and by a border and a ground of its own. */
TEST(none_that_will_do_looks_unlike_an_answer)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    char *good, *bad;

    for (int i = 0; i < 3; i++) {
        struct dew_tally *y = &page_scene.outcomes[i].year;

        y->too_humid = y->too_dry = y->sweat[DEW_GLASS] = 0;
        y->fresh_sum = 0.040 * 8760;
    }
    dew_verdict_of(&page_scene.question, &page_verdict);
    good = page_written(dew_report_html, &report, NULL);
    for (int i = 0; i < 3; i++)
        page_scene.outcomes[i].year.too_humid = 8000;
    dew_verdict_of(&page_scene.question, &page_verdict);
    bad = page_written(dew_report_html, &report, NULL);
    assert_non_null(
        strstr(good, "<h2>The answer</h2>\n<div class=\"answer\">"));
    assert_non_null(strstr(bad,
                           "none of these will do</h2>\n<div class=\"answer "
                           "none\">"));
    assert_null(strstr(good, "answer none"));
    assert_null(strstr(bad, "<h2>The answer</h2>"));
    free(good);
    free(bad);
}

TEST(no_coordinate_is_broken)
{
    char *text;
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);

    for (int h = 0; h < SCENE_HOURS; h += 7)
        page_series[0][h] = NAN;
    text = page_written(dew_report_html, &report, NULL);
    assert_null(strstr(text, "Mnan"));
    assert_null(strstr(text, "Lnan"));
    assert_null(strstr(text, "\"nan"));
    assert_null(strstr(text, " nan"));
    assert_null(strstr(text, "\"inf"));
    assert_nested(text);
    free(text);
}

/* ---- steps of an axis ------------------------------------------------------------ */

/* Each row at a glance is of the figure it names, today and handed over. */
TEST(the_glance_names_its_figures)
{
    static const char *const rows[] = {
        "Today<span>: ",
        "Hours too humid</th><td>1,201</td><td>602",
        "Hours too dry</th><td>33",
        "Hours of wet glass</th><td>44",
        "Mean CO2, ppm</th><td>731",
        "Energy a year, kWh</th><td>4,495"};
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text;

    page_scene.outcomes[0].year.too_humid = 1201;
    page_scene.outcomes[1].year.too_humid = 602;
    page_scene.outcomes[0].year.too_dry = 33;
    page_scene.outcomes[0].year.sweat[DEW_GLASS] = 44;
    text = page_written(dew_report_html, &report, NULL);
    for (size_t i = 0; i < COUNT_OF(rows); i++)
        if (strstr(text, rows[i]) == NULL)
            fail_msg("not at a glance: %s", rows[i]);
    free(text);
}

RUN_TESTS("sheets, page");
