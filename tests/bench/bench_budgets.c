/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the long commands take on the demo scenario, once each, beside what they
 * may take on two processors that do nothing else.  Needs DEW_BUILD, which make
 * sets.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { WORDS = 8 };

static const struct budget {
    const char *name;
    double wall; /* s, on two processors */
    const char *words[WORDS];
} budgets[] = {
    {"run, five options x 128 houses", 3, {"run", "--draws=128"}},
    {"run, five options x 1,024 houses", 20, {"run", "--draws=1024"}},
    {"size", 60, {"size"}},
    {"run --suggest", 60, {"run", "--suggest"}},
    {"spread --indices, two options",
     60,
     {"spread", "--indices", "--draws=1024", "--option=enthalpy core",
      "--option=heat-recovery core"}},
};

static double seconds(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Processor time of all children so far, s. */
static double worked(void)
{
    struct rusage use;

    getrusage(RUSAGE_CHILDREN, &use);
    return (double)(use.ru_utime.tv_sec + use.ru_stime.tv_sec) +
           1e-6 * (double)(use.ru_utime.tv_usec + use.ru_stime.tv_usec);
}

static void start(const char *command, const struct budget *b)
{
    static char scenario[] = "scenarios/demo.yaml";
    char *words[WORDS + 3] = {NULL};
    int n = 0;

    words[n++] = strdup(command);
    for (int i = 0; i < WORDS && b->words[i] != NULL; i++)
        words[n++] = strdup(b->words[i]);
    words[n] = scenario;
    if (freopen("/dev/null", "w", stdout) == NULL)
        _exit(127);
    execv(command, words);
    _exit(127);
}

static void measure(const char *command, const struct budget *b)
{
    double begun = seconds(), before = worked(), wall, busy;
    pid_t child;
    int status = 1;

    fflush(stdout);
    child = fork();
    if (child == 0)
        start(command, b);
    if (child < 0 || waitpid(child, &status, 0) < 0 || status != 0) {
        fprintf(stderr, "%s: did not run\n", b->name);
        exit(EXIT_FAILURE);
    }
    wall = seconds() - begun;
    busy = worked() - before;
    printf("%-33s %6.1f s of wall, %3.0f s at most: x %.2f; half its %.1f s of "
           "processor: x %.2f\n",
           b->name, wall, b->wall, wall / b->wall, busy, 0.5 * busy / b->wall);
}

int main(void)
{
    const char *build = getenv("DEW_BUILD");
    char command[512];

    if (build == NULL) {
        printf("no DEW_BUILD: run it by make bench\n");
        return 0;
    }
    snprintf(command, sizeof command, "%s/dewledger", build);
    for (size_t i = 0; i < sizeof budgets / sizeof budgets[0]; i++)
        measure(command, &budgets[i]);
    return 0;
}
