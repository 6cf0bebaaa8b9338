/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Surveys: how fast houses are marched by one thread, by two, and by two ranks
 * where the command is built with MPI=1; and what a million rows take when they
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

static double seconds(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void fail(const char *what)
{
    fprintf(stderr, "bench_survey: %s\n", what);
    exit(1);
}

/* A plan on the demo scenario, in the room. */
static void write_plan(const char *name, const char *rest)
{
    char path[PATH + 40], here[PATH];
    FILE *out;

    snprintf(path, sizeof path, "%s/%s", room, name);
    out = fopen(path, "w");
    if (out == NULL || getcwd(here, sizeof here) == NULL)
        fail(path);
    fprintf(out, "scenario: %s/scenarios/demo.yaml\n%s", here, rest);
    fclose(out);
}

/* ---- marching ------------------------------------------------------------------- */

/* s  that a command line takes; less than 0: it fails. */
static double timed(const char *line)
{
    double from = seconds();

    return system(line) == 0 ? seconds() - from : -1;
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
    double first = 0;

    write_plan("speed.yaml",
               "sample: 32\nvary:\n- {key: house.airtightness, range: 0.6 to 5 "
               "ach50}\n- {key: people.count, values: [2, 4]}\n");
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
        double s;

        if (i == 2 && strstr(build, "mpi") == NULL)
            break;
        snprintf(line, sizeof line,
                 "%s%s/dewledger survey %s/speed.yaml --out %s/speed%zu %s "
                 ">%s/out",
                 ways[i].before, build, room, room, i, ways[i].after, room);
        s = timed(line);
        if (s < 0)
            fail("the survey failed");
        first = i == 0 ? s : first;
        printf("%-32s %6.1f house-years a second, %.2f of one thread's\n",
               ways[i].name, 160 / s, first / s);
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
    write_plan("table.yaml",
               "sample: 200\nplaces: all\nvary:\n- {key: house.airtightness, "
               "range: 0.6 to 5 ach50}\n- {key: people.count, values: [2, "
               "4]}\n");
    if (count < 2 || strcmp(words[1], "--rows") != 0)
        tell_speed();
    in_child(make_rows, "a million rows could not be made");
    in_child(write_table, "the table could not be written");
    snprintf(line, sizeof line, "rm -r %s", room);
    return system(line) != 0;
}
