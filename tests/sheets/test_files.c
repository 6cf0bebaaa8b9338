/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A directory of reports: whole or not at all, the same bytes twice. */
#include "support/rows.h"

#include <fcntl.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "report/page.h"
#include "support/room.h"

static char room[] = "/tmp/dew-files-XXXXXX";
static char inside[64];

static int open_room(void **state)
{
    (void)state;
    if (mkdtemp(room) == NULL)
        return -1;
    snprintf(inside, sizeof inside, "%s/result", room);
    return 0;
}

static int empty_room(void **state)
{
    char charts[96];

    (void)state;
    snprintf(charts, sizeof charts, "%s/charts", inside);
    names_in(charts, 1);
    names_in(inside, 1);
    rmdir(inside);
    unlink(inside);
    return 0;
}

static int close_room(void **state)
{
    empty_room(state);
    return rmdir(room);
}

static char *contents(const char *name)
{
    char path[160], *text = NULL;
    size_t size = 0;
    FILE *file;

    snprintf(path, sizeof path, "%s/%s", inside, name);
    file = fopen(path, "r");
    assert_non_null(file);
    assert_true(getdelim(&text, &size, '\0', file) > 0);
    fclose(file);
    return text;
}

static void each_option_has_its_hours_beside_the_summary(void **state)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    struct dew_error err = {0};
    char *text;

    (void)state;
    page_scene.outcomes[2].name = "  Core, 95 cfm / ../own ducts!";
    assert_int_equal(dew_report_write(&report, inside, &err), DEW_OK);
    text = contents("summary.json");
    assert_int_equal(text[0], '{');
    free(text);
    free(contents("hours-1-as-it-stands.csv"));
    free(contents("hours-2-heat-core.csv"));
    free(contents("hours-3-core-95-cfm-own-ducts.csv"));
}

/* Four charts of all options, four of each; the one of cost needs prices. */
static void each_chart_is_a_file_of_its_own(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_US);
    char charts[96], *text;

    (void)state;
    snprintf(charts, sizeof charts, "%s/charts", inside);
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    assert_int_equal(names_in(charts, 1), 4 + 4 * 2);
    page_scene.question.prices = NULL;
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    assert_int_equal(names_in(charts, 0), 3 + 4 * 2);
    text = contents("charts/dew-points-2-heat-core.svg");
    assert_memory_equal(text, "<svg xmlns=", 11);
    free(text);
    free(contents("charts/energy.svg"));
}

/* The picture of the answer: its three heads, today beside another, and what a
   house without prices has not. */
static void the_answer_is_a_picture(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_US);
    char *text;

    (void)state;
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    text = contents("charts/answer.svg");
    assert_non_null(strstr(text, ">Wrong:</text>"));
    assert_non_null(strstr(text, ">Do:</text>"));
    assert_non_null(strstr(text, ">Cost:</text>"));
    assert_non_null(strstr(text, ">today</text>"));
    assert_non_null(strstr(text, ">option 2</text>"));
    assert_non_null(strstr(text, ">To install</text>"));
    assert_non_null(strstr(text, ">2 heat core</text>"));
    free(text);
    page_scene.question.prices = NULL;
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    text = contents("charts/answer.svg");
    assert_null(strstr(text, ">To install</text>"));
    free(text);
}

/* Of six options a file shows a tinted table too: no slivers. */
static void many_options_are_a_tinted_table_in_a_file(void **state)
{
    static const char *const files[] = {"charts/hours-too-humid.svg",
                                        "charts/energy.svg"};

    (void)state;
    for (size_t count = 5; count <= 6; count++) {
        struct dew_report report = page_open(count, DEW_SYSTEM_US);

        assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
        for (int k = 0; k < 2; k++) {
            char *text = contents(files[k]);

            assert_int_equal(strstr(text, "<g class=\"tint ") != NULL,
                             count == 6);
            assert_int_equal(strstr(text, "<rect class=\"t") != NULL,
                             count == 5);
            free(text);
        }
    }
}

/* Of each pile of the water chart, what its rows of the books sum to. */
static void a_pile_of_water_holds_its_sources(void **state)
{
    struct dew_report report = page_open(1, DEW_SYSTEM_SI);
    struct dew_water_flows *w = &page_scene.outcomes[0].month[0].water;
    char *text;

    (void)state;
    *w = (struct dew_water_flows){.people = 31,
                                  .pets = 7,
                                  .dishes = 13,
                                  .laundry = 40,
                                  .plants = 5,
                                  .burning = 12,
                                  .humidifier = 400,
                                  .coil = -61,
                                  .reevaporation = 9};
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    text = contents("charts/water-1-as-it-stands.svg");
    assert_non_null(strstr(text, "January, people and pets: 38 L in"));
    assert_non_null(strstr(text, "January, showers, cooking, dishes, laundry: "
                                 "53 L in"));
    assert_non_null(strstr(text, "January, plants, ground, drying and other "
                                 "sources: 417 L in"));
    free(text);
}

static void a_second_run_writes_the_same_bytes(void **state)
{
    static const char *const names[] = {"summary.json", "hours-2-heat-core.csv",
                                        "charts/glass-1-as-it-stands.svg"};
    struct dew_report report = page_open(2, DEW_SYSTEM_US);
    char *first[3];

    (void)state;
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    for (int i = 0; i < 3; i++)
        first[i] = contents(names[i]);
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    for (int i = 0; i < 3; i++) {
        char *second = contents(names[i]);

        assert_string_equal(first[i], second);
        free(first[i]);
        free(second);
    }
}

/* A directory stands where the last file should: nothing else is written. */
static void a_taken_name_leaves_nothing_behind(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_US);
    struct dew_error err = {0};
    char taken[160], want[256];

    (void)state;
    snprintf(taken, sizeof taken, "%s/hours-2-heat-core.csv", inside);
    assert_int_equal(mkdir(inside, 0700), 0);
    assert_int_equal(mkdir(taken, 0700), 0);
    assert_int_equal(dew_report_write(&report, inside, &err), DEW_EIO);
    snprintf(want, sizeof want, "could not be written: Is a directory");
    assert_string_equal(err.text, want);
    assert_non_null(strstr(err.source, "hours-2-heat-core.csv"));
    assert_int_equal(names_in(inside, 0), 1);
}

static void a_file_in_place_of_the_directory_is_told(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_US);
    struct dew_error err = {0};
    int file = open(inside, O_CREAT | O_WRONLY, 0600);

    (void)state;
    assert_true(file >= 0);
    close(file);
    assert_int_equal(dew_report_write(&report, inside, &err), DEW_EIO);
    assert_string_equal(err.text, "could not be written: Not a directory");
}

/* A link is not followed: under a file's name it is refused, under that of a
   part another is taken. */
static void a_planted_link_is_not_followed(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_US);
    struct dew_error err = {0};
    char link[160], target[160];

    (void)state;
    snprintf(link, sizeof link, "%s/.dewledger-%ld-0.set", inside,
             (long)getpid());
    snprintf(target, sizeof target, "%s/elsewhere", room);
    assert_int_equal(mkdir(inside, 0700), 0);
    assert_int_equal(symlink(target, link), 0);
    assert_int_equal(dew_report_write(&report, inside, &err), DEW_OK);
    assert_int_not_equal(access(target, F_OK), 0);
    snprintf(link, sizeof link, "%s/report.html", inside);
    assert_int_equal(unlink(link), 0);
    assert_int_equal(symlink(target, link), 0);
    assert_int_equal(dew_report_write(&report, inside, &err), DEW_EIO);
    assert_int_not_equal(access(target, F_OK), 0);
}

/* The summary names every other file; the same on a stream names none. */
static void the_summary_names_the_other_files(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_US);
    char path[160], *text;
    json_t *o, *written;

    (void)state;
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    snprintf(path, sizeof path, "%s/summary.json", inside);
    o = json_load_file(path, 0, NULL);
    written = json_object_get(o, "written");
    /* the page, three sheets, the hours of two, twelve charts */
    assert_int_equal(json_array_size(written), 1 + 3 + 2 + 4 + 4 * 2);
    assert_string_equal(
        json_string_value(json_object_get(json_array_get(written, 0), "file")),
        "report.html");
    json_decref(o);
    text = page_written(dew_report_json, &report, NULL);
    assert_null(strstr(text, "\"written\""));
    free(text);
}

/* An option that is gone takes its files with it. */
static void files_of_an_option_that_is_gone_are_removed(void **state)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    char path[160];

    (void)state;
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    snprintf(path, sizeof path, "%s/hours-2-heat-core.csv", inside);
    assert_int_equal(access(path, F_OK), 0);
    report = page_open(1, DEW_SYSTEM_US);
    assert_int_equal(dew_report_write(&report, inside, NULL), DEW_OK);
    assert_int_not_equal(access(path, F_OK), 0);
    /* charts/, the page, three sheets, the summary, one option's hours */
    assert_int_equal(names_in(inside, 0), 7);
    snprintf(path, sizeof path, "%s/charts", inside);
    assert_int_equal(names_in(path, 0), 4 + 4);
}

/* A disk that is full: /dev/full takes no byte. */
static void a_full_disk_is_told(void **state)
{
    struct dew_report report = page_open(1, DEW_SYSTEM_US);
    struct dew_error err = {0}, other = {0};
    FILE *full = fopen("/dev/full", "w");

    (void)state;
    if (full == NULL)
        skip();
    assert_int_equal(dew_report_text(&report, full, &err), DEW_EIO);
    assert_string_equal(err.text, "the report could not be written");
    fclose(full);
    full = fopen("/dev/full", "w");
    assert_int_equal(dew_report_json(&report, full, &other), DEW_EIO);
    fclose(full);
}

int main(void)
{
#define ROOM(test) cmocka_unit_test_setup_teardown(test, NULL, empty_room)
    const struct CMUnitTest tests[] = {
        ROOM(each_option_has_its_hours_beside_the_summary),
        ROOM(each_chart_is_a_file_of_its_own),
        ROOM(the_answer_is_a_picture),
        ROOM(many_options_are_a_tinted_table_in_a_file),
        ROOM(a_pile_of_water_holds_its_sources),
        ROOM(a_second_run_writes_the_same_bytes),
        ROOM(a_taken_name_leaves_nothing_behind),
        ROOM(a_file_in_place_of_the_directory_is_told),
        ROOM(a_planted_link_is_not_followed),
        ROOM(the_summary_names_the_other_files),
        ROOM(files_of_an_option_that_is_gone_are_removed),
        ROOM(a_full_disk_is_told),
    };

    return cmocka_run_group_tests_name("sheets, files", tests, open_room,
                                       close_room);
}
