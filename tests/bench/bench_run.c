/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The whole command on three options of the demo scenario, the likely house alone
 * and with 128 drawn: least wall time from start to exit, mean processor time,
 * and peak memory.  Needs DEW_BUILD, which make sets.
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

/* Wall time of one run, s, with two more words of the command or fewer. */
static double run_once(const char *command, const char *const more[2])
{
    double begun = seconds();
    pid_t child;
    int status = 1;

    fflush(stdout);
    child = fork();
    if (child == 0) {
        if (freopen("/dev/null", "w", stdout) == NULL)
            _exit(127);
        execl(command, command, "run", "scenarios/demo.yaml",
              "--option=as it stands", "--option=heat-recovery core",
              "--option=enthalpy core", more[0], more[1], (char *)NULL);
        _exit(127);
    }
    if (child < 0 || waitpid(child, &status, 0) < 0 || status != 0) {
        fprintf(stderr, "%s did not run\n", command);
        exit(EXIT_FAILURE);
    }
    return seconds() - begun;
}

/* Processor time of all children so far, s. */
static double worked(void)
{
    struct rusage use;

    getrusage(RUSAGE_CHILDREN, &use);
    return (double)(use.ru_utime.tv_sec + use.ru_stime.tv_sec) +
           1e-6 * (double)(use.ru_utime.tv_usec + use.ru_stime.tv_usec);
}

static void measure(const char *what, const char *command,
                    const char *const more[2])
{
    double begun = worked(), least = 1e9;

    for (int i = 0; i < RUNS; i++) {
        double t = run_once(command, more);

        least = t < least ? t : least;
    }
    printf("run of three options%s: %.0f ms from start to end, %.0f ms of "
           "processor time\n",
           what, 1e3 * least, 1e3 * (worked() - begun) / RUNS);
}

/* The most that any run so far has held. */
static void tell_memory(const char *what)
{
    struct rusage use;

    getrusage(RUSAGE_CHILDREN, &use);
    printf("run of three options, %s: peak memory %.1f MiB (at most 64)\n",
           what, (double)use.ru_maxrss / 1024.0);
}

int main(void)
{
    const char *build = getenv("DEW_BUILD");
    char command[512], dir[] = "/tmp/dew-bench-XXXXXX", out[64], wipe[64];

    if (build == NULL || mkdtemp(dir) == NULL) {
        printf("no DEW_BUILD: run it by make bench\n");
        return 0;
    }
    snprintf(command, sizeof command, "%s/dewledger", build);
    snprintf(out, sizeof out, "--out=%s", dir);
    measure(", none drawn", command, (const char *[]){"--quick", NULL});
    measure(", none drawn, with report and hourly files", command,
            (const char *[]){"--quick", out});
    tell_memory("none drawn");
    measure(", 128 houses drawn", command, (const char *[]){NULL, NULL});
    tell_memory("128 drawn");
    snprintf(wipe, sizeof wipe, "rm -rf %s", dir);
    return system(wipe) == 0 ? 0 : EXIT_FAILURE;
}
