/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The whole command on three options of the demo scenario: wall time from
 * start to exit, and peak memory.  Needs DEW_BUILD, which make sets.
 */
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { RUNS = 9 };

static double seconds(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Wall time of one run, s; out NULL: no files. */
static double run_once(const char *command, const char *out)
{
    double begun = seconds();
    pid_t child = fork();
    int status = 1;

    if (child == 0) {
        if (freopen("/dev/null", "w", stdout) == NULL)
            _exit(127);
        execl(command, command, "run", "scenarios/demo.yaml",
              "--option=as it stands", "--option=heat-recovery core",
              "--option=enthalpy core", out, (char *)NULL);
        _exit(127);
    }
    if (child < 0 || waitpid(child, &status, 0) < 0 || status != 0) {
        fprintf(stderr, "%s did not run\n", command);
        exit(EXIT_FAILURE);
    }
    return seconds() - begun;
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;

    return (x > y) - (x < y);
}

static double median(const char *command, const char *out)
{
    double t[RUNS];

    for (int i = 0; i < RUNS; i++)
        t[i] = run_once(command, out);
    qsort(t, RUNS, sizeof t[0], ascending);
    return t[RUNS / 2];
}

int main(void)
{
    const char *build = getenv("DEW_BUILD");
    char command[512], dir[] = "/tmp/dew-bench-XXXXXX", out[64], wipe[64];
    struct rusage use;
    double plain, files;

    if (build == NULL || mkdtemp(dir) == NULL) {
        printf("no DEW_BUILD: run it by make bench\n");
        return 0;
    }
    snprintf(command, sizeof command, "%s/dewledger", build);
    snprintf(out, sizeof out, "--out=%s", dir);
    plain = median(command, NULL);
    files = median(command, out);
    getrusage(RUSAGE_CHILDREN, &use);
    printf("run of three options: %.0f ms, with report and hourly files "
           "%.0f ms, peak memory %.1f MiB\n",
           1e3 * plain, 1e3 * files, (double)use.ru_maxrss / 1024.0);
    snprintf(wipe, sizeof wipe, "rm -rf %s", dir);
    return system(wipe) == 0 ? 0 : EXIT_FAILURE;
}
