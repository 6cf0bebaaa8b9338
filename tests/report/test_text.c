/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report as text: its width, its order and its sentences. */
#include "support/rows.h"

#include "report/lay.h"
#include "report/page.h"
#include "report/words.h"

/* Columns of the widest line; UTF-8 counted by characters. */
static int widest(const char *text)
{
    int most = 0, width = 0;

    for (; *text != '\0'; text++) {
        if (((unsigned char)*text & 0xc0) != 0x80)
            width++;
        if (*text == '\n')
            width = 0;
        most = width > most ? width : most;
    }
    return most;
}

static const struct width_row {
    const char *name;
    size_t options;
    enum dew_system system;
    const char *option_name;
} width_rows[] = {
    {"five options, inch-pound", 5, DEW_SYSTEM_US, NULL},
    {"five options, metric", 5, DEW_SYSTEM_SI, NULL},
    {"one option", 1, DEW_SYSTEM_SI, NULL},
    {"a long name of many words", 3, DEW_SYSTEM_US,
     "enthalpy core tied to both returns of both air handlers, blowers running "
     "along twenty minutes of each hour"},
    {"a long name of one word", 2, DEW_SYSTEM_US,
     "enthalpycoretiedtobothreturnsofbothairhandlersblowersrunningalongtwentymi"
     "nutesofeachhour"},
    {"a name outside ASCII", 2, DEW_SYSTEM_SI,
     "L\xc3\xbc"
     "ftungsger\xc3\xa4t mit W\xc3\xa4rme- und Feuchter\xc3\xbc"
     "ckgewinnung im Keller, Zuluft \xc3\xbc"
     "ber Flur"},
};

static void text_fits_80_columns(void **state)
{
    const struct width_row *r = *state;
    struct dew_report report = page_open(r->options, r->system);
    char *text;

    if (r->option_name != NULL)
        page_scene.outcomes[r->options - 1].name = r->option_name;
    page_scene.outcomes[0].year.fresh_sum = 0;
    dew_verdict_of(&page_scene.question, &page_verdict);
    text = page_written(dew_report_text, &report, NULL);
    assert_non_null(text);
    assert_true(widest(text) <= 80);
    assert_true(widest(text) > 70);
    free(text);
}

TEST(the_same_report_is_the_same_text)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    char *one = page_written(dew_report_text, &report, NULL);
    char *two = page_written(dew_report_text, &report, NULL);

    assert_string_equal(one, two);
    free(one);
    free(two);
}

TEST(stop_stands_above_the_verdict_and_the_verdict_above_the_tables)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text = page_written(dew_report_text, &report, NULL);
    const char *stop =
        strstr(text, "STOP   You have not said whether a furnace");
    const char *says = strstr(text, "Today the house");
    const char *table = strstr(text, "1 as it stands");
    const char *note = strstr(text, "NOTE ");

    assert_true(stop && says && table && note);
    assert_true(stop < says && says < table && table < note);
    free(text);
}

TEST(names_cannot_drive_a_terminal)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text;

    page_scene.outcomes[1].name = "red \033[31m\xc2\x9b\xff house";
    report.title = "line\nbreak";
    text = page_written(dew_report_text, &report, NULL);
    assert_null(strchr(text, '\033'));
    assert_non_null(strstr(text, "red \\x1b[31mU+009B\\xff house"));
    assert_non_null(strstr(text, "line\\x0abreak"));
    free(text);
}

/* The worst closure of the books stands in the text. */
TEST(closure_is_told)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text;

    page_scene.outcomes[1].heat_residual = 3.7e-13;
    page_scene.outcomes[0].water_residual = 1.1e-13;
    text = page_written(dew_report_text, &report, NULL);
    assert_non_null(strstr(text, "close to within 1e-12 of"));
    free(text);
}

/* Text wrapped to lines, put back on one. */
static void unwrap(char *text)
{
    char *to = text;

    for (const char *s = text; *s != '\0'; s++) {
        char c = *s == '\n' ? ' ' : *s;

        if (c != ' ' || to == text || to[-1] != ' ')
            *to++ = c;
    }
    *to = '\0';
}

/* No current standard holds an indoor limit of CO2 [PERSILY20]. */
TEST(the_mark_of_carbon_dioxide_is_called_ours)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text = page_written(dew_report_text, &report, NULL);

    unwrap(text);
    assert_non_null(strstr(text, "These shares are our own choice, and so is "
                                 "the mark of 1,000 ppm for carbon dioxide: no "
                                 "current standard of ventilation holds a "
                                 "limit for it indoors."));
    free(text);
}

/* Three will do, two without a price: none is called best anywhere. */
TEST(no_best_is_told_without_prices)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    char *text;

    for (int i = 0; i < 3; i++) {
        struct dew_tally *y = &page_scene.outcomes[i].year;

        y->too_humid = y->too_dry = y->sweat[DEW_GLASS] = 0;
        y->fresh_sum = 0.040 * 8760;
        memset(&y->energy, 0, sizeof y->energy);
        y->energy.cooling = (3000 - 500 * i) * KWH;
    }
    page_scene.outcomes[1].year.too_dry = 23;
    page_scene.costs[1].install = page_scene.costs[2].install =
        (struct dew_estimate)SAME(NAN);
    dew_verdict_of(&page_scene.question, &page_verdict);
    text = page_written(dew_report_text, &report, NULL);
    unwrap(text);
    assert_non_null(strstr(
        text,
        "3 options will do: they bring enough fresh air and keep the limits. "
        "The cheapest to run first: \"enthalpy core\" $300 a year (0 hours "
        "outside the limits), \"heat core\" $375 a year (23 hours outside the "
        "limits), \"as it stands\" $450 a year (0 hours outside the limits). "
        "Which is best by money cannot be told: no price to install is given "
        "for \"enthalpy core\" and \"heat core\". Give what they cost "
        "(costs.install; 0 $ where nothing is bought)."));
    assert_non_null(strstr(text, " not given"));
    assert_null(strstr(text, "Best of the"));
    free(text);
    text = page_written(dew_report_html, &report, NULL);
    assert_null(strstr(text, "(best)"));
    assert_null(strstr(text, "nan"));
    assert_non_null(strstr(text, "<strong>Do:</strong> Several will do"));
    free(text);
    text = page_written(dew_report_contractor, &report, NULL);
    assert_non_null(strstr(text, "Option: <strong>enthalpy core</strong> (one "
                                 "of several that will do; no best is told"));
    free(text);
    text = page_written(dew_report_json, &report, NULL);
    assert_non_null(strstr(text, "\"best\": null"));
    free(text);
}

/* Ducts have their table where they do something, and fit the page. */
TEST(ducts_are_told_where_they_matter)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    struct dew_tally *y = &page_scene.outcomes[1].year;
    char *text = page_written(dew_report_text, &report, NULL);

    assert_null(strstr(text, "What the ducts do"));
    free(text);
    y->ducts[DEW_SPOT_intake] = 613;
    y->ducts[DEW_SPOT_heater] = 41.7;
    y->energy.blower = 1168 * KWH;
    y->water.reevaporation = 417.3;
    y->water.unplanned = 91.2;
    text = page_written(dew_report_text, &report, NULL);
    assert_non_null(strstr(text, "What the ducts do with the air"));
    assert_non_null(strstr(text, "  1,168 "));
    assert_non_null(
        strstr(text, "skin of the intake duct in the house, 613 h"));
    assert_true(widest(text) <= 80);
    free(text);
}

/* ---- months ---------------------------------------------------------------- */

static const struct month_row {
    const char *name;
    unsigned mask;
    const char *want;
} month_rows[] = {
    {"one month", 0x040, "July"},
    {"two in a row", 0x060, "June and July"},
    {"a run", 0x1e0, "June to September"},
    {"a run over the new year", 0xc03, "November to February"},
    {"all but one", 0xff7, "every month but April"},
    {"two runs", 0x0a0, "June and August"},
    {"three runs", 0x2a1, "January, June, August and October"},
    {"all", 0xfff, "every month"},
    {"none", 0x000, "no month"},
};

/* 0.05 gal/day is 0.189 kg/day: less prints as 0.0 and is no source. */
TEST(a_flow_that_prints_as_nothing_is_not_named)
{
    struct dew_report r = page_open(1, DEW_SYSTEM_US);
    struct dew_finding f = {.kind = DEW_FINDING_today_dry,
                            .source = {"leakage", "sweating surfaces", NULL},
                            .source_kg = {7.3, 0.185, 0}};
    char text[DEW_SENTENCE];

    dew_report_sentence(&r, &f, text, sizeof text);
    assert_non_null(strstr(text, "The water leaves by leakage (1.9 gal/day)."));
    f.source_kg[1] = 0.195;
    dew_report_sentence(&r, &f, text, sizeof text);
    assert_non_null(strstr(text, "and sweating surfaces (0.1 gal/day)."));
}

static void months_in_words(void **state)
{
    const struct month_row *r = *state;
    assert_string_equal(report__months(r->mask).text, r->want);
}

/* ---- sentences --------------------------------------------------------------- */

#include "report/sentence_rows.h"

static void finding_in_words(void **state)
{
    const struct sentence_row *r = *state;
    struct dew_report report = page_open(2, r->system);
    char text[DEW_SENTENCE];

    dew_report_sentence(&report, &r->finding, text, sizeof text);
    assert_string_equal(text, r->want);
}

TEST(every_kind_has_its_sentence)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_US);
    char text[DEW_SENTENCE];

    for (int k = 0; k < DEW_FINDING_KINDS; k++) {
        struct dew_finding f = {.kind = (enum dew_finding_kind)k,
                                .option = 1,
                                .other = 0,
                                .months = 0x555};

        dew_report_sentence(&report, &f, text, sizeof text);
        assert_true(strlen(text) > 20);
        assert_true(text[strlen(text) - 1] == '.');
    }
}

/* ---- money ---------------------------------------------------------------------- */

static const struct money_row {
    const char *name;
    double amount;
    const char *want;
} money_rows[] = {
    {"thousands", 12345.5, "$12,346"}, {"millions", 1234567, "$1,234,567"},
    {"hundreds", 345.4, "$345"},       {"below nothing", -1045, "-$1,045"},
    {"nearly nothing", -0.3, "$0"},    {"not known", NAN, "-"},
};

static void money_in_words(void **state)
{
    const struct money_row *r = *state;
    struct dew_report report = page_open(1, DEW_SYSTEM_US);

    assert_string_equal(report__money(&report, r->amount).text, r->want);
}

struct span_row {
    const char *name;
    size_t hours;
    const char *want;
};

static const struct span_row span_rows[] = {
    {"a year", 8760, ""},
    {"a leap year", 8784, ""},
    {"a year short of 60 hours", 8700, ""},
    {"of 61", 8699,
     "The weather has 8699 hours, a year has 8760: hours, water and energy \"a "
     "year\" are sums in the 8699 hours of the file; only costs a year are "
     "scaled to 8760."},
    {"thirty days", 720,
     "The weather has 720 hours, a year has 8760: hours, water and energy \"a "
     "year\" are sums in the 720 hours of the file; only costs a year are "
     "scaled to 8760."},
    {"two years", 17520,
     "The weather has 17520 hours, a year has 8760: hours, water and energy "
     "\"a year\" are sums in the 17520 hours of the file; only costs a year "
     "are scaled to 8760."},
};

static void what_is_no_year_is_called_none(void **state)
{
    const struct span_row *row = *state;
    char out[200];

    assert_string_equal(dew_report_span(row->hours, out, sizeof out),
                        row->want);
}

ROWS(width_rows, text_fits_80_columns);
ROWS(span_rows, what_is_no_year_is_called_none);
ROWS(month_rows, months_in_words);
ROWS(sentence_rows, finding_in_words);
ROWS(money_rows, money_in_words);
/* Two whole years of a file, 3 and 40 hours too humid, and a part of a third
   with all of them, which does not count. */
TEST(the_years_of_a_file_are_told_apart)
{
    enum { LONG = 2 * 8760 + 500 };
    static struct dew_date dates[LONG];
    static double humid[LONG];
    struct dew_report r = page_open(1, DEW_SYSTEM_SI);
    char text[REPORT__SURE];

    for (int h = 0; h < LONG; h++) {
        dates[h].year = 2019 + h / 8760;
        humid[h] = h % 8760 < (h < 8760 ? 3 : 40) || h >= 2 * 8760;
    }
    page_scene.outcomes[0].count = LONG;
    page_scene.outcomes[0].series.humid = humid;
    r.dates = dates;
    assert_string_equal(
        report__sure(&r, text, sizeof text),
        "How sure: in the 2 whole years of the weather today is too humid in 3 "
        "to 40 hours; in two measured houses the model was 3 and 9 points of "
        "humidity off.");
    page_scene.outcomes[0].count = 8760 + 500;
    assert_non_null(strstr(report__sure(&r, text, sizeof text),
                           "How sure: one year of weather, and real years "
                           "differ; in two"));
}

RUN_TESTS("report, text");
