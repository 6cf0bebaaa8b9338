/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of places, the search in it, and places that people type. */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "dew/air.h"
#include "dew/climate.h"
#include "made/climate.h"

static struct dew_climate find(const char *words)
{
    struct dew_climate place;
    struct dew_error err = {0};

    if (dew_climate_find(words, &place, &err) != DEW_OK)
        print_error("%s\n", err.text);
    assert_int_equal(err.status, DEW_OK);
    return place;
}

TEST(every_place_is_whole)
{
    struct dew_climate place;
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, COUNT_OF(list), 0};
    size_t count = 0;

    for (size_t at = 0; dew_climate_next(&at, &place); count++)
        dew_climate_check(&place, place.site.id, &faults);
    if (faults.count > 0)
        print_error("%s: %s: %s\n", list[0].source, list[0].path, list[0].text);
    assert_int_equal(faults.count, 0);
    assert_int_equal(count, 1007);
}

/* The first row of the file, by hand. */
TEST(a_row_is_read_in_si)
{
    struct dew_climate p = find("690150");

    assert_string_equal(p.site.name, "Twentynine Palms");
    assert_string_equal(p.state, "CA");
    assert_near(p.site.longitude, -116.167, 1e-12);
    assert_near(p.site.elevation, 626.0, 0.0);
    assert_near(p.site.utc_offset, -8.0, 0.0);
    assert_near(p.month[0].t, 9.80, 1e-12);
    assert_near(p.month[0].t_lag, 0.80, 1e-12);
    assert_near(p.month[0].td, -1.43, 1e-12);
    assert_near(p.month[0].solar, 3.34e3 / 24.0, 1e-9);
    assert_near(p.month[0].pressure, 94993.0, 1e-9);
    assert_near(p.month[11].sun_range, 0.22, 1e-12);
}

static const struct find_row {
    const char *name, *words, *id;
    enum dew_status status;
    const char *text;
} find_rows[] = {
    {"by number", "722020", "722020", DEW_OK, ""},
    {"by the name as the table writes it", "minneapolis-st paul int'l arp",
     "726580", DEW_OK, ""},
    {"by the name as it is shown", "Miami Intl Airport", "722020", DEW_OK, ""},
    {"by words in any case", "MINNEAPOLIS-st paul", "726580", DEW_OK, ""},
    {"by name and the state's letters", "phoenix sky, az", "722780", DEW_OK,
     ""},
    {"by name and the state's name", "sand point alaska", "703165", DEW_OK, ""},
    {"nothing answers", "atlantis fl", NULL, DEW_EUNKNOWN,
     "no place in the table answers to \"atlantis fl\": `dewledger weather "
     "list STATE` names those of a state"},
    {"a slip of the finger", "Houton", NULL, DEW_EUNKNOWN,
     "no place in the table answers to \"Houton\"; spelt most like it: 722429 "
     "Houston/D.W. Hooks TX, 722430 Houston Bush Intercontinental TX, 722435 "
     "Houston William P Hobby Ap TX"},
    {"a slip, and the state", "springfeld il", NULL, DEW_EUNKNOWN,
     "no place in the table answers to \"springfeld il\"; spelt most like it: "
     "724390 Springfield Capital Ap IL"},
    {"a postal code", "77002", NULL, DEW_EUNKNOWN,
     "\"77002\" looks like a postal code, which the table does not have: write "
     "a town, or latitude and longitude as in 29.76 -95.37"},
    {"a point", "29.76 -95.37", "722435", DEW_OK, ""},
    {"a point with a comma", "25.82, -80.3", "722020", DEW_OK, ""},
    {"a point far from all", "48.2 16.4", NULL, DEW_EUNKNOWN,
     "the nearest place of the table, 726083 Northern Aroostook ME, is 5992 km "
     "(3723 mi) away: name it if its weather will do"},
    {"a point that is none", "95 16.4", NULL, DEW_ERANGE,
     "latitude 95 is outside -90 .. 90"},
    {"several answer", "springfield", NULL, DEW_EAMBIGUOUS,
     "3 places answer to \"springfield\": 724390 Springfield Capital Ap IL, "
     "724400 Springfield Regional Arpt MO, 726115 Springfield/Hartnes VT; add "
     "the state or write the number"},
};

static void a_place_is_found_by_words(void **state)
{
    const struct find_row *r = *state;
    struct dew_climate place = {.state = "--"};
    struct dew_error err = {0};

    assert_int_equal(dew_climate_find(r->words, &place, &err), r->status);
    assert_string_equal(err.text, r->text);
    assert_string_equal(r->id != NULL ? r->id : "", place.site.id);
}

static const struct name_row {
    const char *name, *raw, *shown;
} name_rows[] = {
    {"an airport", "Miami Intl Ap", "Miami Intl Airport"},
    {"one cut short", "Minneapolis-St Paul Int'L Arp",
     "Minneapolis-St Paul Intl Airport"},
    {"one cut to a letter", "Columbus Port Columbus Intl A",
     "Columbus Port Columbus Intl"},
    {"cut before brackets", "Washington Dc Dulles Int'L Ar [Sterling - Isis]",
     "Washington DC Dulles Intl Airport"},
    {"a letter that is not last", "Tanana Ralph M Calhoun Mem Ap",
     "Tanana Ralph M Calhoun Memorial Airport"},
    {"a base", "Homestead Afb", "Homestead AFB"},
    {"a slash and a hyphen", "Baltimore/Blt-Washngtn Co.",
     "Baltimore/Blt-Washngtn County"},
    {"a backslash", "Antigo\\Lang(Awos)", "Antigo/Lang"},
    {"two blanks and a kind of station", "Clovis Muni  (Awos)",
     "Clovis Municipal"},
    {"a backquote", "Coeur D`Alene(Awos)", "Coeur d'Alene"},
    {"small words", "Univ Of Illinois Wi [Bondville - Surfrad]",
     "University of Illinois Wi"},
    {"nothing to mend", "Sand Point", "Sand Point"},
};

static void a_name_is_made_fit_to_read(void **state)
{
    const struct name_row *r = *state;
    char shown[64];

    made__place_name(r->raw, shown, sizeof shown);
    assert_string_equal(shown, r->shown);
    made__place_name(r->raw, shown, 9); /* whole words or none */
    assert_true(strlen(shown) < 9);
    assert_memory_equal(shown, r->shown, strlen(shown));
}

/* None is empty or has a mark that the table's words must not have. */
TEST(every_name_is_fit_to_read)
{
    struct dew_climate place;

    for (size_t at = 0; dew_climate_next(&at, &place);) {
        const char *s = place.shown;

        assert_true(s[0] != '\0' && strpbrk(s, "()[]\\`") == NULL);
        assert_null(strstr(s, "  "));
        assert_null(strstr(s, "Arpt"));
        assert_null(strstr(s, "Afb"));
        assert_null(strstr(s, "Int'L"));
        assert_true(dew_climate_answers(&place, place.site.name));
        assert_true(dew_climate_answers(&place, s));
    }
}

TEST(many_answers_are_cut_short)
{
    struct dew_climate place;
    struct dew_error err = {0};

    assert_int_equal(dew_climate_find("wa", &place, &err), DEW_EAMBIGUOUS);
    assert_non_null(strstr(err.text, "places answer to \"wa\": "));
    assert_non_null(strstr(err.text, ", ...; add the state"));
}

TEST(the_nearest_come_first)
{
    struct dew_nearby list[5];
    size_t count = 0;
    struct dew_climate place;
    double best = INFINITY;

    assert_int_equal(dew_climate_near(44.98, -93.27, list, 5, &count, NULL),
                     DEW_OK);
    assert_int_equal(count, 5);
    assert_true(strstr(list[0].place.site.name, "Minneapolis") ||
                strstr(list[0].place.site.name, "Crystal"));
    for (size_t i = 1; i < count; i++)
        assert_true(list[i].distance >= list[i - 1].distance);
    assert_near(list[0].place.month[6].t, 23.0, 3.0);
    /* against a plain scan with the spherical law of cosines */
    for (size_t at = 0; dew_climate_next(&at, &place);) {
        double rad = 3.14159265358979323846 / 180.0;
        double d = acos(sin(44.98 * rad) * sin(place.site.latitude * rad) +
                        cos(44.98 * rad) * cos(place.site.latitude * rad) *
                            cos((place.site.longitude + 93.27) * rad));

        best = fmin(best, d * 6371008.8);
    }
    assert_near(list[0].distance, best, 1.0);
}

TEST(a_position_off_the_globe_is_refused)
{
    struct dew_nearby list[1];
    struct dew_error err = {0};
    size_t count = 77;

    assert_int_equal(dew_climate_near(93.5, 0.0, list, 1, &count, &err),
                     DEW_ERANGE);
    assert_string_equal(err.text, "latitude 93.5 is outside -90 .. 90");
    assert_int_equal(count, 77);
}

/* A file as a person would write it; row m is what month gives. */
static char *file_of(char *out, size_t size, const char *first,
                     const char *month_3)
{
    size_t n = (size_t)snprintf(
        out, size,
        "# my place\r\n"
        "month,lat_deg,lon_deg,elevation_m,utc_offset_h,t_mean_c,t_max_c,"
        "t_min_c,t_day_sd_k,t_day_lag1,td_mean_c,td_day_sd_k,t_td_corr,"
        "wind_mean_m_s,ghi_kwh_m2_day,ghi_day_sd_kwh_m2,ghi_trange_corr,"
        "%s\r\n",
        first);

    for (int m = 1; m <= 12; m++)
        if (m == 3)
            n += (size_t)snprintf(out + n, size - n, "%s\r\n", month_3);
        else
            n += (size_t)snprintf(out + n, size - n,
                                  "%d,51.3,6.9,40,1,%d,%d.5,%d,3.1,0.7,0.4,2.9,"
                                  "0.6,4.1,3.2,1.1,0.4,1009\r\n",
                                  m, 2 + m, 6 + m, m - 3);
    return out;
}

#define GOOD_3 "3,51.3,6.9,40,1,5,9,1,3.1,0.7,0.4,2.9,0.6,4.1,3.2,1.1,0.4,1009"

TEST(a_typed_place_is_read)
{
    char text[4000];
    struct dew_climate p;

    file_of(text, sizeof text, "pressure_hpa", GOOD_3);
    assert_int_equal(dew_climate_read(text, strlen(text), "x.csv", &p, NULL),
                     DEW_OK);
    assert_near(p.site.latitude, 51.3, 1e-12);
    assert_near(p.month[2].t_max, 9.0, 1e-12);
    assert_near(p.month[8].solar, 3200.0 / 24.0, 1e-9);
    assert_string_equal(p.site.name, "unnamed place");
    assert_string_equal(p.lent, "");
}

/* Twelve rows as a person has them: highest, lowest and RH, of a place that
   the table has: its own figures must be the ones lent. */
static void few_of(char *text, size_t size, const struct dew_climate *p,
                   double latitude)
{
    size_t n = (size_t)snprintf(
        text, size,
        "month,lat_deg,lon_deg,elevation_m,utc_offset_h,t_mean_c,t_max_c,"
        "t_min_c,rh_mean_pct\n");

    for (int m = 0; m < 12; m++) {
        const struct dew_normal *x =
            &p->month[latitude < 0.0 ? (m + 6) % 12 : m];

        n += (size_t)snprintf(
            text + n, size - n, "%d,%.4f,%.4f,%.0f,%.0f,%.6f,%.6f,%.6f,%.6f\n",
            m + 1, latitude, p->site.longitude, p->site.elevation,
            p->site.utc_offset, x->t, x->t_max, x->t_min,
            100.0 * dew_air_pws_liquid(x->td) / dew_air_pws_liquid(x->t));
    }
}

TEST(what_is_not_given_is_lent)
{
    struct dew_climate p = find("726580"), q;
    char text[4000];

    few_of(text, sizeof text, &p, p.site.latitude);
    assert_int_equal(dew_climate_read(text, strlen(text), "x.csv", &q, NULL),
                     DEW_OK);
    assert_string_equal(q.lent, "726580 Minneapolis-St Paul Intl Airport");
    for (int m = 0; m < 12; m++) {
        assert_near(q.month[m].td, p.month[m].td, 1e-5);
        assert_near(q.month[m].t_lag, p.month[m].t_lag, 0.0);
        assert_near(q.month[m].td_sd, p.month[m].td_sd, 0.0);
        assert_near(q.month[m].wind, p.month[m].wind, 0.0);
        assert_near(q.month[m].solar, p.month[m].solar, 1e-9);
        assert_near(q.month[m].pressure, dew_air_std_pressure(p.site.elevation),
                    1e-9);
    }
}

TEST(south_of_the_equator_it_is_half_a_year_on)
{
    struct dew_climate p = find("726580"), q;
    char text[4000];

    few_of(text, sizeof text, &p, -p.site.latitude);
    assert_int_equal(dew_climate_read(text, strlen(text), "x.csv", &q, NULL),
                     DEW_OK);
    assert_string_equal(q.lent, "726580 Minneapolis-St Paul Intl Airport");
    assert_near(q.month[0].t_lag, p.month[6].t_lag, 0.0);
    /* as clear, under a January sun that is nearer by 3.3 %: 7 % stronger */
    assert_near(q.month[0].solar / p.month[6].solar, 1.07, 0.01);
}

TEST(the_middle_of_highest_and_lowest_will_do)
{
    static const char text[] =
        "month,lat_deg,lon_deg,elevation_m,utc_offset_h,t_max_c,t_min_c,"
        "td_mean_c\n"
        "1,43,-79,100,-5,-1,-7,-8\n2,43,-79,100,-5,0,-6,-8\n"
        "3,43,-79,100,-5,5,-2,-5\n4,43,-79,100,-5,11,4,1\n"
        "5,43,-79,100,-5,18,10,7\n6,43,-79,100,-5,24,15,13\n"
        "7,43,-79,100,-5,27,18,15\n8,43,-79,100,-5,25,17,15\n"
        "9,43,-79,100,-5,21,13,12\n10,43,-79,100,-5,14,7,6\n"
        "11,43,-79,100,-5,8,2,0\n12,43,-79,100,-5,2,-3,-5\n";
    struct dew_climate q;

    assert_int_equal(dew_climate_read(text, sizeof text - 1, "x.csv", &q, NULL),
                     DEW_OK);
    assert_near(q.month[3].t, 7.5, 1e-12);
    assert_true(q.lent[0] != '\0');
}

TEST(needed_columns_are_named)
{
    static const char text[] =
        "month,lat_deg,lon_deg,elevation_m,utc_offset_h,t_max_c\n";
    struct dew_error list[8] = {{0}};
    struct dew_faults faults = {list, COUNT_OF(list), 0};
    struct dew_climate q;
    char line[400];

    assert_int_equal(
        dew_climate_read(text, sizeof text - 1, "x.csv", &q, &faults),
        DEW_EMISSING);
    assert_int_equal(faults.count, 2);
    assert_string_equal(dew_error_line(&list[0], line, sizeof line),
                        "x.csv:1:1: t_min_c: this column is absent");
    assert_string_equal(dew_error_line(&list[1], line, sizeof line),
                        "x.csv:1:1: td_mean_c: this column is absent; "
                        "rh_mean_pct would do");
}

static const struct fault_row {
    const char *name, *last_column, *month_3;
    size_t count;
    const char *line;
} fault_rows[] = {
    {"not a number", "pressure_hpa",
     "3,51.3,6.9,40,1,5,9 C,1,3.1,0.7,0.4,2.9,0.6,4.1,3.2,1.1,0.4,1009", 1,
     "x.csv:5:7: t_max_c: \"9 C\" is not a number"},
    {"three faults in one row, all told", "pressure_hpa",
     "3,51.3,6.9,40,1,5,9,1,3.1,1.7,0.4,2.9,6,4.1,3.2,1.1,0.4,10.09", 3,
     "x.csv:5:10: t_day_lag1: 1.7 is outside -0.95 .. 0.99"},
    {"a month twice and one never", "pressure_hpa",
     "4,51.3,6.9,40,1,5,9,1,3.1,0.7,0.4,2.9,0.6,4.1,3.2,1.1,0.4,1009", 2,
     "x.csv:6:1: month: a second row for this month: one place a file"},
    {"a short row", "pressure_hpa", "3,51.3,6.9", 2,
     "x.csv:5:1: this row has not as many cells as names"},
    {"a dew point above the temperature", "pressure_hpa",
     "3,51.3,6.9,40,1,5,9,1,3.1,0.7,5.4,2.9,0.6,4.1,3.2,1.1,0.4,1009", 1,
     "x.csv: month 3: the mean dew point is above the mean temperature"},
    {"highest below mean", "pressure_hpa",
     "3,51.3,6.9,40,1,5,4,1,3.1,0.7,0.4,2.9,0.6,4.1,3.2,1.1,0.4,1009", 1,
     "x.csv: month 3: the mean temperature is not between t_min_c and "
     "t_max_c"},
};

static void every_fault_is_told(void **state)
{
    const struct fault_row *r = *state;
    struct dew_error list[8] = {{0}};
    struct dew_faults faults = {list, COUNT_OF(list), 0};
    struct dew_climate p = {.state = "--"};
    char text[4000], line[400];

    file_of(text, sizeof text, r->last_column, r->month_3);
    assert_int_not_equal(
        dew_climate_read(text, strlen(text), "x.csv", &p, &faults), DEW_OK);
    assert_string_equal(dew_error_line(&list[0], line, sizeof line), r->line);
    assert_int_equal(faults.count, r->count);
    assert_string_equal(p.state, "--");
}

/* The table itself is a file in the form that people may write. */
TEST(the_table_reads_as_a_file)
{
    const char *names = strchr(core__data_climates_csv, '\n') + 1;
    const char *end = names;
    struct dew_climate a = find("690150"), b;

    for (int i = 0; i < 13; i++)
        end = strchr(end, '\n') + 1;
    assert_int_equal(
        dew_climate_read(names, (size_t)(end - names), "table", &b, NULL),
        DEW_OK);
    assert_memory_equal(&a.month, &b.month, sizeof a.month);
    assert_string_equal(a.site.name, b.site.name);
    assert_string_equal(b.shown, b.site.name); /* as it was typed */
}

ROWS(name_rows, a_name_is_made_fit_to_read);
ROWS(find_rows, a_place_is_found_by_words);
ROWS(fault_rows, every_fault_is_told);
RUN_TESTS("weather, climate");
