/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A question run from memory and from disk: the same bits whatever the steps,
 * and every fault under the name of its file.
 */
#include "dew/run.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include "dew/air.h"
#include "support/rows.h"

enum { HOURS = 60, TEXT = 8000, FAULTS = 40 };

#define SCENARIO                                                               \
    "title: A made-up house in three made-up days\n"                           \
    "weather: {file: days.csv}\n"                                              \
    "house: {floor_area: 1830 ft2, bedrooms: 3}\n"                             \
    "moisture: {drying: 300 kg}\n"                                             \
    "cooling: {capacity: 2.5 ton}\n"                                           \
    "options:\n"                                                               \
    "  - name: as it stands\n"                                                 \
    "  - name: enthalpy core\n"                                                \
    "    ventilator: {core: enthalpy_plate, sensible: 71 % at 95 cfm, "        \
    "moisture: 53 % at 95 cfm, power: 61 W}\n"                                 \
    "    layout: own_ducts\n"                                                  \
    "  - name: dehumidifier\n"                                                 \
    "    dehumidifier: {rate: 70 pint/day, set: 52 %}\n"

#define HINT                                                                   \
    "the answer belongs in the scenario: weather.order, weather.clock, "       \
    "weather.station, weather.units, weather.latitude, weather.longitude, "    \
    "weather.utc, weather.fill ... (see `dewledger explain weather`)\n"

/* ---- files in memory ---------------------------------------------------------- */

struct shelf {
    char weather[TEXT], log[TEXT]; /* what days.csv and rooms.csv hold       */
    size_t weather_length, log_length;
    enum dew_status status; /* what the reader answers                       */
    const char *says;
    int bare; /* 1: DEW_OK, and no bytes                                     */
};

static enum dew_status hand_over(void *of, const char *name, char **bytes,
                                 size_t *length, struct dew_error *err)
{
    const struct shelf *s = of;
    int log = strcmp(name, "rooms.csv") == 0;

    if (s->status != DEW_OK && s->says != NULL)
        snprintf(err->text, sizeof err->text, "%s", s->says);
    if (s->status != DEW_OK)
        return s->status;
    assert_true(log || strcmp(name, "days.csv") == 0);
    *length = log ? s->log_length : s->weather_length;
    if (s->bare)
        return DEW_OK;
    *bytes = malloc(*length);
    assert_non_null(*bytes);
    memcpy(*bytes, log ? s->log : s->weather, *length);
    return DEW_OK;
}

static void stock(struct shelf *s)
{
    size_t w, l;

    memset(s, 0, sizeof *s);
    w = (size_t)snprintf(
        s->weather, TEXT,
        "# latitude: 36.1\n# longitude: -79.9\n# elevation: 271\n# utc "
        "offset: -5\ntime,temperature (degC),dew point (degC),wind speed "
        "(m/s),global solar (W/m2)\n");
    l = (size_t)snprintf(s->log, TEXT, "time,t_hall (C),rh_hall (%%)\n");
    for (int h = 0; h < HOURS; h++) {
        w += (size_t)snprintf(
            s->weather + w, TEXT - w, "2021-07-%02d %02d:00,%.1f,%.1f,2.3,%d\n",
            3 + h / 24, h % 24, 25.3 + 5.1 * sin(h / 3.8), 19.7 + h % 5 / 3.0,
            h % 24 > 7 && h % 24 < 17 ? 640 : 0);
        l += (size_t)snprintf(s->log + l, TEXT - l,
                              "2021-07-%02d %02d:00,%.1f,%.1f\n", 3 + h / 24,
                              h % 24, 23.7 + h % 7 / 10.0, 55.3 + h % 11);
    }
    s->weather_length = w;
    s->log_length = l;
}

/* Gzipped as two files joined would be, with a tail that is none. */
static void pack(char *text, size_t *length)
{
    enum { GZIP = 16 + MAX_WBITS };
    char packed[TEXT] = "";
    size_t half = *length / 2, used = 0;

    for (int part = 0; part < 2; part++) {
        z_stream z = {.next_in = (Bytef *)text + (part ? half : 0),
                      .avail_in = (uInt)(part ? *length - half : half),
                      .next_out = (Bytef *)packed + used,
                      .avail_out = (uInt)(TEXT - used)};

        assert_int_equal(deflateInit2(&z, 9, Z_DEFLATED, GZIP, 8, 0), Z_OK);
        assert_int_equal(deflate(&z, Z_FINISH), Z_STREAM_END);
        used += z.total_out;
        deflateEnd(&z);
    }
    *length = used + 7;
    memcpy(text, packed, TEXT);
}

/* ---- a run -------------------------------------------------------------------- */

struct ran {
    struct shelf shelf;
    struct dew_files files;
    struct dew_run_ask ask;
    struct dew_error list[FAULTS];
    struct dew_faults faults;
    struct dew_run *run;
    enum dew_status status;
};

static void ready(struct ran *r, const char *text)
{
    memset(r, 0, sizeof *r);
    stock(&r->shelf);
    r->files = (struct dew_files){&r->shelf, hand_over};
    r->ask = (struct dew_run_ask){.name = "house.yaml",
                                  .text = text,
                                  .length = strlen(text),
                                  .with = DEW_RUN_WHOLE,
                                  .files = &r->files};
    r->faults = (struct dew_faults){r->list, FAULTS, 0};
}

static void open_run(struct ran *r)
{
    char line[512];

    r->status = dew_run_open(&r->run, &r->ask, &r->faults);
    if (r->status != DEW_OK)
        fail_msg("%s", dew_error_line(&r->list[0], line, sizeof line));
    assert_int_equal(r->faults.count, 0);
}

static void march(struct dew_run *run, size_t hours)
{
    struct dew_error err = {0};
    double done = 0, before = 0;
    size_t all, turn;

    while (done < 1) {
        assert_null(dew_run_report(run, DEW_SYSTEM_SI));
        assert_int_equal(dew_run_step(run, hours, &done, &err), DEW_OK);
        assert_true(done >= before);
        before = done;
    }
    turn = dew_run_turn(run, &all);
    assert_int_equal(turn, all);
    assert_int_equal(dew_run_step(run, hours, &done, &err), DEW_OK);
    assert_near(done, 1, 0);
}

/* Its report as JSON; to be freed. */
static char *told(struct dew_run *run)
{
    struct dew_error err = {0};
    char *text = NULL;
    size_t length;
    FILE *out = open_memstream(&text, &length);

    dew_report_json(dew_run_report(run, DEW_SYSTEM_SI), out, &err);
    fclose(out);
    assert_int_equal(err.status, DEW_OK);
    return text;
}

static void ran(struct ran *r, size_t hours, char **text)
{
    open_run(r);
    march(r->run, hours);
    *text = told(r->run);
    dew_run_close(r->run);
}

/* ---- the same bits -------------------------------------------------------------- */

TEST(steps_of_any_size_tell_the_same)
{
    struct ran r;
    char *one, *many;

    ready(&r, SCENARIO);
    ran(&r, 1, &one);
    ran(&r, 100000, &many);
    assert_string_equal(one, many);
    assert_non_null(strstr(one, "\"enthalpy core\""));
    free(one);
    free(many);
}

TEST(again_gives_the_same_bits)
{
    struct ran r;
    char *first, *again;
    double done;

    ready(&r, SCENARIO);
    open_run(&r);
    assert_non_null(strstr(dew_run_note(r.run, 0), "The weather has 59 hours"));
    assert_null(dew_run_note(r.run, 1));
    march(r.run, 17);
    first = told(r.run);
    dew_run_again(r.run);
    assert_null(dew_run_report(r.run, DEW_SYSTEM_SI));
    assert_null(dew_run_outcome(r.run, 0));
    assert_int_equal(dew_run_step(r.run, 17, &done, NULL), DEW_OK);
    dew_run_again(r.run); /* in the middle, too */
    march(r.run, 23);
    again = told(r.run);
    assert_string_equal(first, again);
    dew_run_close(r.run);
    free(first);
    free(again);
}

TEST(gzipped_bytes_are_the_same)
{
    struct ran r;
    char *plain, *packed, line[512];
    double rh;

    ready(&r, SCENARIO "log: {file: rooms.csv}\n");
    open_run(&r);
    march(r.run, 100);
    rh = dew_run_report(r.run, DEW_SYSTEM_SI)->beside->rh.measured;
    plain = told(r.run);
    dew_run_close(r.run);
    pack(r.shelf.weather, &r.shelf.weather_length);
    pack(r.shelf.log, &r.shelf.log_length);
    ran(&r, 100, &packed);
    assert_true(rh > 0.55 && rh < 0.66);
    /* but for the hash of the bytes */
    assert_string_not_equal(plain, packed);
    for (char *a = plain, *b = packed;
         (a = strstr(a, "sha256\": \"")) != NULL &&
         (b = strstr(b, "sha256\": \"")) != NULL;
         a++, b++) {
        memset(a + 10, '0', 64);
        memset(b + 10, '0', 64);
    }
    assert_string_equal(plain, packed);
    free(plain);
    free(packed);
    r.shelf.weather_length -= 7 + 9; /* cut short */
    assert_int_equal(dew_run_open(&r.run, &r.ask, &r.faults), DEW_EIO);
    assert_string_equal(
        dew_error_line(&r.list[0], line, sizeof line),
        "days.csv:1:1: the compressed data are damaged or end early");
}

static void put(const char *dir, const char *name, const char *text,
                size_t length)
{
    char path[200];
    FILE *out;

    snprintf(path, sizeof path, "%s/%s", dir, name);
    out = fopen(path, "w");
    assert_non_null(out);
    assert_int_equal(fwrite(text, 1, length, out), length);
    assert_int_equal(fclose(out), 0);
}

TEST(files_beside_the_scenario_tell_what_memory_does)
{
    char dir[] = "/tmp/dew-run-XXXXXX", path[200], *memory, *disk;
    static const char *const names[] = {"house.yaml", "days.csv", "rooms.csv"};
    static const char text[] = SCENARIO "log: {file: rooms.csv}\n";
    struct ran r;

    ready(&r, text);
    ran(&r, 50, &memory);
    assert_non_null(mkdtemp(dir));
    put(dir, "house.yaml", text, strlen(text));
    put(dir, "days.csv", r.shelf.weather, r.shelf.weather_length);
    put(dir, "rooms.csv", r.shelf.log, r.shelf.log_length);
    snprintf(path, sizeof path, "%s/house.yaml", dir);
    r.ask.name = path;
    r.ask.text = NULL;
    r.ask.files = NULL;
    ran(&r, 50, &disk);
    assert_string_equal(memory, disk);
    free(memory);
    free(disk);
    for (int i = 0; i < 3; i++) {
        snprintf(path, sizeof path, "%s/%s", dir, names[i]);
        unlink(path);
    }
    rmdir(dir);
}

/* ---- what is run --------------------------------------------------------------- */

TEST(options_are_picked_and_today_comes_first)
{
    static const char *const picked[] = {"dehumidifier"};
    const struct dew_report *report;
    struct ran r;

    ready(&r, SCENARIO);
    r.ask.options = picked;
    r.ask.option_count = 1;
    r.ask.with = 0;
    open_run(&r);
    assert_int_equal(dew_run_count(r.run), 1);
    assert_int_equal(dew_run_option(r.run, 0), 2);
    dew_run_close(r.run);
    r.ask.with = DEW_RUN_TODAY;
    open_run(&r);
    assert_int_equal(dew_run_count(r.run), 2);
    assert_int_equal(dew_run_option(r.run, 0), 0);
    march(r.run, 100);
    report = dew_run_report(r.run, 0);
    assert_ptr_equal(report->handed, &report->question->choices[1]);
    assert_int_equal(report->system, DEW_SYSTEM_US);
    assert_int_equal(dew_run_report(r.run, DEW_SYSTEM_SI)->system,
                     DEW_SYSTEM_SI);
    dew_run_close(r.run);
}

TEST(what_is_asked_beside_is_marched)
{
    static const unsigned with[] = {0, DEW_RUN_DRY,
                                    DEW_RUN_DRY | DEW_RUN_ALTERNATIVES};
    const struct dew_report *report;
    size_t years[3], with_dry = 0;
    struct ran r;

    for (int i = 0; i < 3; i++) {
        ready(&r, SCENARIO);
        r.ask.with = with[i];
        open_run(&r);
        assert_null(dew_run_ducts(r.run));
        march(r.run, 100);
        dew_run_turn(r.run, &years[i]);
        for (size_t k = 0; i == 1 && k < 3; k++)
            with_dry +=
                dew_run_report(r.run, 0)->question->choices[k].settled != NULL;
        report = dew_run_report(r.run, 0);
        assert_int_equal(report->doubt_count, i < 2 ? 0 : years[2] - years[1]);
        for (size_t k = 0; k < report->doubt_count; k++) {
            const struct dew_report_doubt *d = &report->doubts[k];

            assert_string_equal(
                d->outcome->name,
                report->question->choices[d->option].outcome->name);
            for (size_t j = 0; j < 3; j++)
                assert_ptr_not_equal(d->outcome,
                                     report->question->choices[j].outcome);
        }
        dew_run_close(r.run);
    }
    assert_int_equal(years[0], 3);
    assert_int_equal(years[1], 3 + with_dry);
    assert_true(with_dry > 0 && years[2] > years[1]);
}

TEST(a_changed_case_is_what_is_marched)
{
    struct ran r;
    double before, dry;

    ready(&r, SCENARIO);
    open_run(&r);
    march(r.run, 100);
    before = dew_run_outcome(r.run, 0)->rh_50;
    dry = dew_run_report(r.run, 0)->question->choices[0].settled->rh_50;
    dew_run_case(r.run, 0)->house.water[DEW_SOURCE_showers].per_day *= 9;
    dew_run_again(r.run);
    march(r.run, 100);
    assert_true(dew_run_outcome(r.run, 0)->rh_50 > before + .001);
    assert_true(dew_run_report(r.run, 0)->question->choices[0].settled->rh_50 >
                dry + .001);
    dew_run_close(r.run);
}

TEST(a_log_is_laid_beside_and_may_hold_the_house)
{
    static const char *const texts[] = {SCENARIO "log: {file: rooms.csv}\n",
                                        SCENARIO
                                        "log: {file: rooms.csv, held: yes}\n"};

    for (int held = 0; held < 2; held++) {
        const struct dew_report_log *l;
        const struct dew_series *s;
        struct ran r;
        double off = 0;

        ready(&r, texts[held]);
        open_run(&r);
        march(r.run, 100);
        l = dew_run_report(r.run, 0)->laid;
        s = &dew_run_outcome(r.run, 0)->series;
        for (size_t h = 1; h < dew_run_outcome(r.run, 0)->count; h++) {
            off = fmax(off, fabs(s->t[h] - l->t[h]));
            assert_near(dew_air_pws_liquid(l->dew_point[h]),
                        l->rh[h] * dew_air_pws_liquid(l->t[h]), 0.01);
        }
        assert_true(held ? off < 0.01 : off > 0.1);
        assert_int_equal(dew_run_report(r.run, 0)->prescribed_t, held);
        dew_run_close(r.run);
    }
}

TEST(layouts_alone_are_solved)
{
    struct dew_ducts_frame frame;
    struct ran r;
    double done = 0;

    ready(&r, SCENARIO);
    r.ask.job = DEW_RUN_DUCTS;
    open_run(&r);
    assert_non_null(dew_run_ducts(r.run));
    frame = dew_run_frame(r.run, 0);
    assert_string_equal(frame.title, "A made-up house in three made-up days");
    assert_int_equal(strlen(frame.sha256), 64);
    assert_int_equal(dew_run_step(r.run, 9, &done, NULL), DEW_OK);
    assert_near(done, 1, 0);
    assert_null(dew_run_report(r.run, 0));
    assert_null(dew_run_outcome(r.run, 0));
    dew_run_close(r.run);
}

#define PLACE                                                                  \
    "weather: {place: 722020}\nhouse: {floor_area: 1830 ft2, bedrooms: 3}\n"

TEST(made_years_differ_and_come_back)
{
    struct dew_error err = {0};
    double median[4];
    struct ran r;

    ready(&r, PLACE);
    r.ask.job = DEW_RUN_YEARS;
    open_run(&r);
    for (int i = 0; i < 4; i++) {
        if (i > 0)
            assert_int_equal(dew_run_made(r.run, i % 3, &err), DEW_OK);
        march(r.run, 9000);
        median[i] = dew_run_outcome(r.run, 0)->rh_50;
    }
    assert_true(median[1] != median[0] && median[2] != median[0]);
    assert_near(median[3], median[0], 0);
    dew_run_close(r.run);
}

/* ---- faults -------------------------------------------------------------------- */

#define LOGGED SCENARIO "log: {file: rooms.csv}\n"
#define NO_TABLE                                                               \
    ":1:1: header: no line of the first 60 names a time and a temperature or " \
    "humidity: put a header such as \"time,temperature (degC),relative "       \
    "humidity (%)\" on top\n"

static const struct fault_row {
    const char *name, *text, *weather, *log, *set, *option;
    enum dew_run_job job;
    enum dew_status answer; /* of the reader                                 */
    int bare;
    const char *says, *want;
} fault_rows[] = {
    {"a key that is none",
     .text = "weather: {place: 722020}\nhouse: {floor_area: 1830 ft2, "
             "bedrooms: 3, pool: yes}\n",
     .want = "house.yaml:2:44: house.pool: no such key\n"},
    {"--set", .text = SCENARIO, .set = "house.airtightness=2 furlong",
     .want = "--set:1:20: house.airtightness: \"furlong\" is no unit that "
             "fits: write one of ach50, cfm50, m3/h50, L/s50, in2, cm2, m2\n"},
    {"an option that is none", .text = SCENARIO, .option = "nosuch",
     .want = "--option nosuch: the scenario has no option of that name; it "
             "has \"as it stands\", \"enthalpy core\", \"dehumidifier\"\n"},
    {"weather without humidity", .text = SCENARIO,
     .weather = "time,temperature\n2020-03-04 05:00,7.3\n2020-03-04 "
                "06:00,7.9\n",
     .want = "days.csv:1:1: humidity: no column of the outdoor humidity: dew "
             "point, relative humidity, wet bulb or humidity ratio\n" HINT},
    {"weather of no byte", .text = SCENARIO, .weather = "",
     .want = "days.csv" NO_TABLE HINT},
    {"a log without humidity", .text = LOGGED,
     .log = "time,t_hall (C)\n2021-07-03 05:00,21.3\n",
     .want = "rooms.csv:1:1: humidity: no column is known as a humidity: name "
             "one \"relative humidity (%)\" or \"dew point (degC)\"\n"},
    {"a log of other days", .text = LOGGED,
     .log = "time,t_hall (C),rh_hall (%)\n2011-07-03 05:00,21.3,55\n",
     .want =
         "house.yaml:13:13: log.file: no hour of the log is among the hours "
         "of the weather: a log wants the weather of its own days, in "
         "weather.file\n"},
    {"a check goes on to the next file",
     .text = LOGGED "prices: {electricity: 3 m}\n", .weather = "?", .log = "?",
     .job = DEW_RUN_CHECK,
     .want = "house.yaml:14:23: prices.electricity: \"m\" is no unit that "
             "fits: write one of $/kWh, cent/kWh, $/therm, $/MMBtu, $/MJ, "
             "$/GJ\ndays.csv" NO_TABLE HINT "rooms.csv" NO_TABLE},
    {"made years of a file", .text = SCENARIO, .job = DEW_RUN_YEARS,
     .want = "house.yaml:2:17: weather.file: a file has its own years: name "
             "weather.place or weather.monthly, as with --set "
             "weather.place=726580\n"},
    {"a reader that says why", .text = SCENARIO, .answer = DEW_EUNKNOWN,
     .says = "the shelf is bare",
     .want = "house.yaml:2:17: weather.file: the shelf is bare\n"},
    {"a reader that gives no bytes", .text = SCENARIO, .bare = 1,
     .want = "house.yaml:2:17: weather.file: days.csv: a file could not be "
             "read or written\n"},
    {"a reader that does not", .text = SCENARIO, .answer = DEW_EIO,
     .want = "house.yaml:2:17: weather.file: days.csv: a file could not be "
             "read or written\n"},
};

static void all_faults_in_one_pass(void **state)
{
    const struct fault_row *row = *state;
    char all[4000] = "", line[512];
    struct ran r;

    ready(&r, row->text);
    r.ask.job = row->job;
    r.ask.sets = &row->set;
    r.ask.set_count = row->set != NULL;
    r.ask.options = &row->option;
    r.ask.option_count = row->option != NULL;
    r.shelf.status = row->answer;
    r.shelf.says = row->says;
    r.shelf.bare = row->bare;
    if (row->weather != NULL)
        r.shelf.weather_length =
            (size_t)snprintf(r.shelf.weather, TEXT, "%s", row->weather);
    if (row->log != NULL)
        r.shelf.log_length =
            (size_t)snprintf(r.shelf.log, TEXT, "%s", row->log);
    r.status = dew_run_open(&r.run, &r.ask, &r.faults);
    assert_int_equal(r.status, r.list[0].status);
    assert_null(r.run);
    dew_run_close(r.run);
    for (size_t i = 0; i < r.faults.count; i++) {
        size_t at = strlen(all);

        snprintf(all + at, sizeof all - at, "%s\n",
                 dew_error_line(&r.list[i], line, sizeof line));
    }
    assert_string_equal(all, row->want);
    if (row->answer != DEW_OK)
        assert_int_equal(r.list[0].status, row->answer);
}

ROWS(fault_rows, all_faults_in_one_pass);
RUN_TESTS("a question run");
