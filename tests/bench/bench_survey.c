/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Surveys: how fast houses are marched by themselves and side by side, by one
 * thread, by two, and by two ranks where the command is built with MPI=1; by the
 * clock, and by processor time, which other work touches less.  And what a million rows take when they
 * are read again and written as the table.  Those rows are one house marched
 * and repeated: reading and writing do not look at what is in them.  Needs
 * DEW_BUILD, which make sets.
 */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "survey/survey.h"

enum { PATH = 400, RECORD = 512 /* items */ };

static char room[PATH]; /* a folder of its own */

static double clock_of(clockid_t clock)
{
    struct timespec t;

    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static double seconds(void)
{
    return clock_of(CLOCK_MONOTONIC);
}

static void fail(const char *what)
{
    fprintf(stderr, "bench_survey: %s\n", what);
    exit(1);
}

/* A plan on a scenario that comes along, in the room. */
static void write_plan(const char *name, const char *scenario, const char *rest)
{
    char path[PATH + 40], here[PATH];
    FILE *out;

    snprintf(path, sizeof path, "%s/%s", room, name);
    out = fopen(path, "w");
    if (out == NULL || getcwd(here, sizeof here) == NULL)
        fail(path);
    fprintf(out, "scenario: %s/scenarios/%s\n%s", here, scenario, rest);
    fclose(out);
}

/* ---- marching ------------------------------------------------------------------- */

struct took {
    double clock, busy; /* s  by the clock, and of processors                */
};

/* s  of processors that children took so far. */
static double busy(void)
{
    struct rusage use;

    getrusage(RUSAGE_CHILDREN, &use);
    return (double)use.ru_utime.tv_sec + 1e-6 * (double)use.ru_utime.tv_usec;
}

static struct took timed(const char *line)
{
    double from = seconds(), before = busy();

    if (system(line) != 0)
        fail("the survey failed");
    return (struct took){seconds() - from, busy() - before};
}

static void tell_speed(void)
{
    static const struct {
        const char *name, *before, *after;
    } ways[] = {
        {"one thread", "", "--threads 1"},
        {"two threads", "", "--threads 2"},
        {"three ranks, two of them march",
         "mpirun --oversubscribe --allow-run-as-root -n 3 ", ""},
    };
    const char *build = getenv("DEW_BUILD");
    char line[4 * PATH];
    struct took first = {0, 0};

    write_plan("speed.yaml", "demo.yaml",
               "sample: 32\nvary:\n- {key: house.airtightness, range: 0.6 to 5 "
               "ach50}\n- {key: people.count, values: [2, 4]}\n");
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
        struct took t;

        if (i == 2 && strstr(build, "mpi") == NULL)
            break;
        snprintf(line, sizeof line,
                 "%s%s/dewledger survey %s/speed.yaml --out %s/speed%zu %s "
                 ">%s/out",
                 ways[i].before, build, room, room, i, ways[i].after, room);
        t = timed(line);
        first = i == 0 ? t : first;
        printf("%-32s %6.1f house-years a second, %.2f of one thread's; with "
               "%.2f of its processor time\n",
               ways[i].name, 160 / t.clock, first.clock / t.clock,
               t.busy / first.busy);
    }
}

/* ---- a million rows ---------------------------------------------------------------- */

static struct dew_survey_plan *read_plan(const char *name)
{
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};
    struct dew_survey_plan *plan;
    char path[PATH + 40];

    snprintf(path, sizeof path, "%s/%s", room, name);
    if (dew_survey_read(&plan, path, &faults) != DEW_OK)
        fail(list[0].text);
    return plan;
}

/* ---- side by side ------------------------------------------------------------------ */

enum { HOUSES = 32 };

/* s  of the processor for all items of a plan, so many at once at most. */
static double marching(const struct dew_survey_plan *plan, size_t most)
{
    struct survey__last last = {0};
    struct survey__bytes b = {0};
    struct dew_error err = {0};
    double from = clock_of(CLOCK_THREAD_CPUTIME_ID);

    for (size_t i = 0, n; i < HOUSES; i += n) {
        n = survey__next(plan, i, i + most < HOUSES ? i + most : HOUSES);
        if (survey__march(plan, i, n, &last, &b, &err) != DEW_OK)
            fail(err.text);
    }
    survey__last_close(&last);
    free(b.at);
    return clock_of(CLOCK_THREAD_CPUTIME_ID) - from;
}

static void tell_together(const char *scenario, double options)
{
    struct dew_survey_plan *plan;
    double one = 1e9, all = 1e9;

    write_plan("together.yaml", scenario,
               "sample: 32\nvary:\n- {key: house.airtightness, range: 0.6 to 5 "
               "ach50}\n- {key: people.count, values: [2, 4]}\n");
    plan = read_plan("together.yaml");
    for (int i = 0; i < 3; i++) {
        double s = marching(plan, 1), t = marching(plan, HOUSES);

        one = s < one ? s : one;
        all = t < all ? t : all;
    }
    dew_survey_plan_close(plan);
    printf("%-20s each house by itself %5.1f ms a house-year, side by side "
           "%5.1f: %.2f times\n",
           scenario, 1e3 * one / HOUSES / options, 1e3 * all / HOUSES / options,
           one / all);
}

static void tell_beside(void)
{
    tell_together("survey/house.yaml", 3);
    tell_together("demo.yaml", 5);
}

/* As if all had been marched: every item is the first, under its number. */
static void fill(struct dew_survey *s)
{
    struct survey__last last = {0};
    struct survey__bytes one = {0}, record = {0};
    struct core__journal journal;
    struct dew_error err = {0};
    const double no_time = 0;

    if (survey__march(s->plan, 0, 1, &last, &one, &err) != DEW_OK ||
        core__journal_open(&journal, s->directory, "rows-0000-000", &err) !=
            DEW_OK)
        fail(err.text);
    for (uint64_t i = 0; i < s->size.items;) {
        record.length = 0;
        survey__put(&record, &no_time, sizeof no_time);
        for (int k = 0; k < RECORD && i < s->size.items; k++, i++) {
            memcpy(one.at, &i, sizeof i);
            survey__put(&record, one.at, one.length);
        }
        if (core__journal_add(&journal, record.at, record.length, &err) !=
            DEW_OK)
            fail(err.text);
    }
    core__journal_close(&journal);
    survey__last_close(&last);
    free(one.at);
    free(record.at);
}

static void open_table(struct dew_survey **s, struct dew_survey_plan *plan,
                       enum dew_survey_how how)
{
    struct dew_error err = {0};
    char path[PATH + 40];

    snprintf(path, sizeof path, "%s/table", room);
    if (dew_survey_open(s, plan, path, how, &err) != DEW_OK)
        fail(err.text);
}

static void make_rows(void)
{
    struct dew_survey_plan *plan = read_plan("table.yaml");
    struct dew_survey *s;

    open_table(&s, plan, DEW_SURVEY_NEW);
    fill(s);
    dew_survey_close(s);
    dew_survey_plan_close(plan);
}

static double mib(const char *name)
{
    char path[PATH + 40];
    struct stat found;

    snprintf(path, sizeof path, "%s/table/%s", room, name);
    return stat(path, &found) == 0 ? (double)found.st_size / 1048576 : 0;
}

static void write_table(void)
{
    struct dew_survey_plan *plan = read_plan("table.yaml");
    struct dew_survey *s;
    struct dew_error err = {0};
    struct rusage use;
    double from = seconds(), found;
    size_t rows;

    open_table(&s, plan, DEW_SURVEY_GO_ON);
    found = seconds();
    rows = dew_survey_state(s).rows;
    if (dew_survey_write(s, &err) != DEW_OK)
        fail(err.text);
    getrusage(RUSAGE_SELF, &use);
    printf("%zu rows: found again in %.1f s, written as CSV and SQLite in %.1f "
           "s, %.0f MiB at most\n",
           rows, found - from, seconds() - found, (double)use.ru_maxrss / 1024);
    printf("on disk %.0f MiB of journals, %.0f of CSV, %.0f of SQLite\n",
           mib("rows-0000-000"), mib("march.csv"), mib("march.sqlite"));
    dew_survey_close(s);
    dew_survey_plan_close(plan);
}

/* In a process of its own, for what it needs at most. */
static void in_child(void (*job)(void), const char *name)
{
    int status;
    pid_t pid;

    fflush(stdout);
    pid = fork();
    if (pid == 0) {
        job();
        exit(0);
    }
    if (pid < 0 || waitpid(pid, &status, 0) != pid || status != 0)
        fail(name);
}

int main(int count, char **words)
{
    const char *tmp = getenv("TMPDIR");
    char line[PATH + 20];

    if (getenv("DEW_BUILD") == NULL)
        fail("set DEW_BUILD");
    snprintf(room, sizeof room, "%s/dewbenchXXXXXX",
             tmp != NULL ? tmp : "/tmp");
    if (mkdtemp(room) == NULL)
        fail(room);
    write_plan("table.yaml", "demo.yaml",
               "sample: 200\nplaces: all\nvary:\n- {key: house.airtightness, "
               "range: 0.6 to 5 ach50}\n- {key: people.count, values: [2, "
               "4]}\n");
    if (count < 2 || strcmp(words[1], "--rows") != 0) {
        in_child(tell_beside, "houses could not be marched");
        tell_speed();
    }
    in_child(make_rows, "a million rows could not be made");
    in_child(write_table, "the table could not be written");
    snprintf(line, sizeof line, "rm -r %s", room);
    return system(line) != 0;
}
