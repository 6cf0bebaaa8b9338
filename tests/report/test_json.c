/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON and CSV: what scripts rely on, read back by another reader. */
#include "support/rows.h"

#include <locale.h>

#include "dew/unit.h"
#include "report/page.h"
#include "report/read.h"
#include "report/sentence_rows.h"

static struct dew_report report;

static json_t *read_back(void)
{
    char *text = page_written(dew_report_json, &report, NULL);
    json_t *o = read_json(text);

    free(text);
    return o;
}

/* Keys and their values in the made-up study. */
static const struct key_row {
    const char *name;
    double want;
} number_rows[] = {
    {"weather.hours", 8760},
    {"options.1.hours.too_humid", 1200},
    {"options.1.hours.too_dry", 0},
    {"options.0.hours.longest_too_humid", 211},
    {"options.0.hours.outdoor_air_could_dry", 5256},
    {"options.1.months.6.hours.too_humid", 300},
    {"options.1.months.11.month", 12},
    {"options.1.months.0.rh_pct.mean", 47},
    {"options.1.rh_pct.p95", 66},
    {"options.1.rh_pct.min", 22},
    {"options.1.temperature_c.max", 26.4},
    {"options.0.water_kg.people", 1834.5},
    {"options.0.water_kg.recovered", 618},
    {"options.0.heat_kwh.solar", 21e9 / 3.6e6},
    {"options.0.energy_kwh.cooling", 1873},
    {"options.0.energy_kwh.total", 4495},
    {"options.0.fresh_air_l_s.delivered", 40},
    {"options.0.fresh_air_l_s.drawn_by_exhaust_fan", 6},
    {"options.0.fresh_air_l_s.counted", 46},
    {"options.1.months.3.fresh_air_l_s.delivered", 40},
    {"options.0.fresh_air_l_s.required", 35},
    {"options.0.closure.water", 3.5e-14},
    {"options.0.closure.heat", 0},
    {"options.0.money.install.likely", 0},
    {"options.1.money.install.high", 3100},
    {"options.1.rh_pct_by_month_and_hour.11.23", 100 * (0.35 + 0.22 + 0.069)},
    {"options.1.rh_pct_exceeded_in_pct_of_hours.100", 30},
};

static void number_under_its_key(void **state)
{
    const struct key_row *r = *state;
    json_t *o;

    report = page_open(3, DEW_SYSTEM_US);
    page_scene.outcomes[0].water_residual = 3.5e-14;
    o = read_back();
    assert_near(number_at(o, r->name), r->want, 1e-11 * fabs(r->want));
    json_decref(o);
}

static const struct word_row {
    const char *name, *want;
} word_rows[] = {
    {"version", "0.1.0"},
    {"options.1.name", "heat core"},
    {"verdict.findings.0.kind", "today_humid"},
    {"verdict.findings.0.water.0.name", "people"},
    {"cautions.0.level", "STOP"},
    {"cautions.0.key", "combustion"},
    {"inputs.1.origin", "default"},
    {"inputs.1.source", "common practice, no source"},
    {"inputs.2.option", "heat core"},
    {"files.0.role", "scenario"},
};

static void word_under_its_key(void **state)
{
    const struct word_row *r = *state;
    json_t *o;

    report = page_open(3, DEW_SYSTEM_US);
    o = read_back();
    assert_string_equal(text_at(o, r->name), r->want);
    json_decref(o);
}

/* A finding's numbers stand under their names, as its sentence tells them. */
static const struct said_row {
    const char *name, *key; /* of a row of sentence_rows                    */
    double unit;            /* SI, of what is told                          */
    const char *told;
} said_rows[] = {
    {"too humid today, metric", "humid", 1, "1,207 h"},
    {"too humid today, metric", "worst_month", 1, "403 h"},
    {"too humid today, metric", "longest", 1, "88 h"},
    {"too humid today, metric", "by_2", 1, "502"},
    {"cooling that stands idle", "humid_while_idle", 1, "116"},
    {"cooling that stands idle", "humid", 1, "189 hours"},
    {"cooling too large", "runs", 0.01, "23 %"},
    {"the end of drying", "low", 24, "30 days"},
    {"a dehumidifier's size", "label", 1 / 86400.0, "33.1 L/day"},
    {"a dehumidifier's size", "here", 1 / 86400.0, "27.0 L/day"},
    {"a dehumidifier's size", "busiest", 1 / 86400.0, "7.8 L/day"},
    {"a dehumidifier's size", "energy", 3.6e6, "1,100 kWh"},
    {"under-ventilated, inch-pound", "required", 0.00047194745, "60 cfm"},
    {"two cores", "enthalpy_humid", 1, "403 h"},
    {"the only one, its price not told", "running", 1, "$312"},
    {"pays back within a range", "high", 1, "11.9"},
    {"the breath that decides", "co2_limit", 1, "1,014 ppm"},
};

static json_t *with_finding(const char *name)
{
    size_t i = 0;

    while (strcmp(sentence_rows[i].name, name) != 0)
        i++;
    report = page_open(2, sentence_rows[i].system);
    page_verdict.list[0] = sentence_rows[i].finding;
    return read_back();
}

static void a_number_is_named_as_it_is_told(void **state)
{
    const struct said_row *r = *state;
    json_t *o = with_finding(r->name), *f = at(o, "verdict.findings.0");
    const char *text = json_string_value(at(f, "text"));
    double value = json_number_value(at(at(f, "values"), r->key)) / r->unit;
    double told;

    char plain[32];
    size_t n = 0;

    assert_non_null(strstr(text, r->told));
    for (const char *c = r->told; *c && strchr("$,.0123456789", *c); c++)
        if (*c != '$' && *c != ',')
            plain[n++] = *c;
    assert_true(dew_number_read(plain, n, &told) > 0);
    assert_near(value, told, strchr(r->told, '.') ? 0.05 : 0.5);
    json_decref(o);
}

TEST(what_is_no_number_is_a_word_or_a_yes)
{
    json_t *o = with_finding("mould in the year");

    assert_string_equal(
        json_string_value(at(o, "verdict.findings.0.values.surface")), "frame");
    json_decref(o);
    o = with_finding("the air that decides");
    assert_string_equal(
        json_string_value(at(o, "verdict.findings.0.values.what")), "air_flow");
    json_decref(o);
    o = with_finding("a tie-in that does harm");
    assert_true(json_is_true(at(o, "verdict.findings.0.values.lacks_air")));
    assert_true(json_is_false(at(o, "verdict.findings.0.values.damper")));
    json_decref(o);
    o = with_finding("best by energy");
    assert_true(json_is_null(at(o, "verdict.findings.0.values.money")));
    json_decref(o);
}

TEST(every_finding_stands_in_the_document)
{
#define N(name, unit)                 " `" #name "` (" #unit ")"
#define Y(name)                       " `" #name "` (yes or no)"
#define E(name, of)                   " `" #name "` (a word)"
#define X(kind, rule, group, numbers) "| `" #kind "` |" numbers " |",
#define AS(kind, rule, group, like)   "| `" #kind "` | as `" #like "` |",
    static const char *const rows[] = {DEW_FINDING_MAP(X, AS, N, Y, E)};
#undef X
#undef AS
#undef N
#undef Y
#undef E
    static char text[60000];
    FILE *in = fopen("docs/results.md", "r");

    assert_non_null(in);
    assert_true(fread(text, 1, sizeof text - 1, in) < sizeof text - 1);
    fclose(in);
    for (size_t i = 0; i < COUNT_OF(rows); i++)
        if (strstr(text, rows[i]) == NULL)
            fail_msg("docs/results.md has no row %s", rows[i]);
}

TEST(every_named_flow_has_its_key)
{
    json_t *o;

    report = page_open(1, DEW_SYSTEM_US);
    o = read_back();
#define X(name, words)                                                         \
    assert_true(json_is_number(at(o, "options.0.water_kg." #name)));
    DEW_WATER_MAP(X)
#undef X
#define X(name, words)                                                         \
    assert_true(json_is_number(at(o, "options.0.months.3.heat_kwh." #name)));
    DEW_HEAT_MAP(X)
#undef X
    json_decref(o);
}

TEST(every_caution_is_in_the_json)
{
    json_t *o;

    report = page_open(4, DEW_SYSTEM_SI);
    o = read_back();
    assert_int_equal(json_array_size(at(o, "cautions")), report.caution_count);
    json_decref(o);
}

TEST(units_of_the_text_change_no_number)
{
    json_t *us, *si;

    report = page_open(2, DEW_SYSTEM_US);
    us = read_back();
    report.system = DEW_SYSTEM_SI;
    si = read_back();
    assert_true(json_equal(at(us, "options"), at(si, "options")));
    assert_false(json_equal(at(us, "verdict"), at(si, "verdict")));
    json_decref(us);
    json_decref(si);
}

TEST(what_is_not_known_is_null)
{
    json_t *o;

    report = page_open(2, DEW_SYSTEM_SI);
    page_scene.question.prices = NULL;
    page_scene.outcomes[1].year.supply_t_min = NAN;
    page_scene.outcomes[1].rh_95 = INFINITY;
    o = read_back();
    assert_true(json_is_null(at(o, "options.1.money")));
    assert_true(json_is_null(at(o, "options.1.supply_air_min_c")));
    assert_true(json_is_null(at(o, "options.1.rh_pct.p95")));
    json_decref(o);
}

TEST(text_that_is_not_utf8_is_still_valid_json)
{
    json_t *o;

    report = page_open(2, DEW_SYSTEM_SI);
    report.weather = "M\xfcnchen";
    page_scene.outcomes[1].name = "a\"b\\c\t";
    o = read_back();
    assert_string_equal(text_at(o, "weather.provenance"), "M\\xfcnchen");
    assert_string_equal(text_at(o, "options.1.name"), "a\"b\\c\\x09");
    json_decref(o);
}

TEST(the_same_report_is_the_same_json)
{
    char *one, *two;

    report = page_open(3, DEW_SYSTEM_US);
    one = page_written(dew_report_json, &report, NULL);
    two = page_written(dew_report_json, &report, NULL);
    assert_string_equal(one, two);
    free(one);
    free(two);
}

/* ---- CSV ------------------------------------------------------------------------ */

static enum dew_status hours_of_second(const struct dew_report *r, FILE *out,
                                       struct dew_error *err)
{
    return dew_report_hours(r, 1, out, err);
}

TEST(hours_have_a_row_each_and_units_in_the_heading)
{
    char *text;
    size_t lines = 0;

    report = page_open(2, DEW_SYSTEM_US);
    text = page_written(hours_of_second, &report, NULL);
    for (const char *s = text; (s = strchr(s, '\n')) != NULL; s++)
        lines++;
    assert_int_equal(lines, 8761);
    assert_int_equal(strncmp(text,
                             "hour,month,day,hour_of_day,indoor_c,"
                             "indoor_rh_pct,indoor_dew_point_c,outdoor_c,",
                             70),
                     0);
    assert_non_null(strstr(text, "\n1417,3,1,1,"));
    free(text);
}

/* The second column of figures is RH in per cent, kept to 0.0001 point. */
TEST(hours_read_back_what_was_written)
{
    char *text, *row;
    double t, rh;

    report = page_open(2, DEW_SYSTEM_SI);
    page_series[1][2024] = 0.4321731;
    text = page_written(hours_of_second, &report, NULL);
    row = strstr(text, "\n2025,");
    assert_non_null(row);
    for (int commas = 0; commas < 4; row++)
        commas += *row == ',';
    assert_true(dew_number_read(row, 6, &t) > 0);
    row = strchr(row, ',') + 1;
    assert_true(dew_number_read(row, 7, &rh) > 0);
    assert_near(t, 0.43, 1e-9);
    assert_near(rh, 43.2173, 1e-9);
    free(text);
}

TEST(an_hour_without_a_value_leaves_its_cell_empty)
{
    char *text;

    report = page_open(2, DEW_SYSTEM_SI);
    page_series[1][0] = NAN;
    text = page_written(hours_of_second, &report, NULL);
    assert_non_null(strstr(text, "\n1,1,1,1,,,,"));
    free(text);
}

/* "abc", FIPS 180-2 appendix B.1 */
TEST(sha256_of_abc)
{
    char hash[DEW_SHA256_TEXT];

    dew_report_sha256("abc", 3, hash);
    assert_string_equal(
        hash,
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

ROWS(said_rows, a_number_is_named_as_it_is_told);
ROWS(number_rows, number_under_its_key);
ROWS(word_rows, word_under_its_key);
RUN_TESTS("report, json");
