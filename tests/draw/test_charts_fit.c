/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the charts of a log show, by the places of their marks. */
#include "draw/charts_fit.h"

#include <stdlib.h>
#include <string.h>

#include "draw/svg.h"
#include "support/rows.h"

enum { HOURS = 48 };

/* The text that a chart writes; to be freed. */
struct text {
    char *bytes;
    size_t length;
    FILE *file;
};

static FILE *begin(struct text *t)
{
    t->file = open_memstream(&t->bytes, &t->length);
    assert_non_null(t->file);
    return t->file;
}

/* Heights of a path's points; their count. */
static int heights(const char *text, const char *kind, double y[HOURS])
{
    char start[60];
    char *end;
    const char *at;
    int n = 0;

    snprintf(start, sizeof start, "class=\"%s\" d=\"M", kind);
    at = strstr(text, start);
    assert_non_null(at);
    at += strlen(start);
    for (; *at != '"' && n < HOURS; n++) {
        (void)strtod(at, &end);
        y[n] = strtod(end, &end);
        at = end + (*end != '"'); /* L */
    }
    return n;
}

/* Hour 10 lies 3 points above what was learned, hour 20 as much below. */
TEST(what_is_left_is_the_log_less_the_model)
{
    struct dew_evidence_hour hours[HOURS];
    struct dew_evidence_told told[HOURS];
    struct dew_date dates[HOURS];
    struct dew_evidence_learned learned = {.fit.rmse_rh = 1.7};
    const struct dew_report_fit of = {.hours = hours,
                                      .told = told,
                                      .dates = dates,
                                      .count = HOURS,
                                      .until = HOURS,
                                      .learned = &learned};
    struct draw__fit f = {.of = &of};
    double y[HOURS], zero[HOURS], unit;
    struct text t;

    memset(hours, 0, sizeof hours);
    memset(told, 0, sizeof told);
    for (int h = 0; h < HOURS; h++) {
        hours[h].rh = h == 10 ? 0.473 : h == 20 ? 0.413 : 0.443;
        told[h].rh = 44.3;
        told[h].sd = 2.1;
        dates[h] = (struct dew_date){
            .year = 2025, .month = 3, .day = 4 + h / 24, .hour = h % 24 + 1};
    }
    f.out = begin(&t);
    assert_int_equal(draw__fit_rest(&f), DEW_OK);
    fclose(t.file);
    assert_int_equal(heights(t.bytes, "logged", y), HOURS);
    assert_int_equal(heights(strstr(t.bytes, "class=\"b0\""), "zero", zero), 2);
    unit = (y[20] - y[10]) / 6;
    assert_true(unit > 10); /* up is more */
    assert_near(y[10], zero[0] - 3 * unit, 0.2);
    assert_near(y[30], zero[0], 0.2);
    assert_int_equal(heights(t.bytes, "b0", y), HOURS);
    /* 8 in 10 of a normal deviate of 2.1 */
    assert_near(fabs(y[5] - zero[0]), 2.1 * 1.2816 * unit, 0.3);
    free(t.bytes);
    hours[40].rh = 0.923; /* 48 points more */
    f.page = 1;
    f.out = begin(&t);
    assert_int_equal(draw__fit_rest(&f), DEW_OK);
    fclose(t.file);
    assert_ptr_equal(strstr(t.bytes, "<figure"), t.bytes);
    assert_non_null(
        strstr(t.bytes, ">March 2025</th><td>1.0</td><td>2.7</td>"));
    free(t.bytes);
}

/* From and how wide the dark bar of a row is. */
static void bar(const char *text, double at[2])
{
    const char *dark = strstr(text, "<rect class=\"m5\" x=\"");

    assert_non_null(dark);
    at[0] = strtod(dark + strlen("<rect class=\"m5\" x=\""), NULL);
    at[1] = strtod(strstr(dark, "width=\"") + strlen("width=\""), NULL);
}

TEST(a_figure_left_lies_where_its_score_is)
{
    static const struct draw__input inputs[] = {
        {"as before", "1", "1", {-1.2816, 0, 1.2816}, 0},
        {"known", "1", "2", {0.3, 0.6, 0.9}, 0},
        {"far", "1", "9", {2.2, 2.9, 3.4}, 0}};
    double as[2], known[2], far[2];
    const char *pale;
    struct text t;

    assert_int_equal(draw__fit_inputs(begin(&t), inputs, 3), DEW_OK);
    fclose(t.file);
    pale = strstr(t.bytes, "<rect class=\"m3\" x=\"");
    bar(strstr(t.bytes, ">as before<"), as);
    bar(strstr(t.bytes, ">known<"), known);
    bar(strstr(t.bytes, ">far<"), far);
    assert_near(strtod(pale + strlen("<rect class=\"m3\" x=\""), NULL), as[0],
                0.1);
    assert_near(known[1], as[1] * 0.6 / (2 * 1.2816), 0.3);
    assert_near(known[0], as[0] + as[1] * (1.2816 + 0.3) / (2 * 1.2816), 0.3);
    assert_true(far[0] + far[1] <= DRAW__SVG_WIDE); /* it ends at the edge */
    free(t.bytes);
}

/* In a page the same, as a row of a table. */
TEST(a_figure_left_in_a_page)
{
    static const struct draw__input inputs[] = {
        {"house.airtightness", "4 ach50", "3 ach50", {-0.5, 0, 0.5}, 0},
        {"people.count", "1", "2", {-1.2816, 0, 1.2816}, 1}};
    double known[2], as[2];
    struct text t;

    draw__fit_inputs_page(begin(&t), inputs, 0);
    fclose(t.file);
    assert_int_equal(t.length, 0);
    free(t.bytes);
    draw__fit_inputs_page(begin(&t), inputs, 2);
    fclose(t.file);
    assert_non_null(strstr(t.bytes,
                           "<code>house.<wbr/>airtightness</code></th><td>4 "
                           "ach50</td><td>3 ach50</td>"));
    assert_non_null(strstr(t.bytes, "<code>people.<wbr/>count</code> *</th>"));
    bar(t.bytes, known);
    bar(strstr(t.bytes, ">count</code>"), as);
    assert_near(known[1] / as[1], 0.5 / 1.2816, 0.01);
    assert_near(known[0] + known[1] / 2, as[0] + as[1] / 2, 0.1);
    free(t.bytes);
}

RUN_TESTS("charts of a log");
