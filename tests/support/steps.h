/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The system's calls that change names or sync, in place of libc's: each is a
 * step, counted, and one of them can fail or be the last thing that a process
 * does.  For one test program; include it first.
 */
#ifndef DEW_TESTS_STEPS_H
#define DEW_TESTS_STEPS_H

#define _GNU_SOURCE /* syscall */

#include "support/rows.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

/* Of the steps to come: which fails, before which the process is killed; 0:
   none. */
static int step_count, step_fails, step_kills;

static int step_falls(void)
{
    step_count++;
    if (step_count == step_kills)
        raise(SIGKILL);
    if (step_count != step_fails)
        return 0;
    errno = EIO;
    return 1;
}

#define STEP(call)                                                             \
    do {                                                                       \
        if (step_falls())                                                      \
            return -1;                                                         \
        return (int)(call);                                                    \
    } while (0)

int renameat(int from, const char *a, int to, const char *b)
{
    STEP(syscall(SYS_renameat2, from, a, to, b, 0));
}
int rename(const char *a, const char *b)
{
    STEP(syscall(SYS_renameat2, AT_FDCWD, a, AT_FDCWD, b, 0));
}
int link(const char *a, const char *b)
{
    STEP(syscall(SYS_linkat, AT_FDCWD, a, AT_FDCWD, b, 0));
}
int unlinkat(int from, const char *a, int how)
{
    STEP(syscall(SYS_unlinkat, from, a, how));
}
int unlink(const char *a)
{
    STEP(syscall(SYS_unlinkat, AT_FDCWD, a, 0));
}
int mkdir(const char *a, mode_t mode)
{
    STEP(syscall(SYS_mkdirat, AT_FDCWD, a, mode));
}
int mkdirat(int from, const char *a, mode_t mode)
{
    STEP(syscall(SYS_mkdirat, from, a, mode));
}
int fsync(int file)
{
    STEP(syscall(SYS_fsync, file));
}

static inline void steps_all_go(void)
{
    step_count = step_fails = step_kills = 0;
}

/* Do what(with) in a child that is killed before step k.  Whether it was. */
static inline int step_killed(int k, void (*what)(void *with), void *with)
{
    int status = 0;
    pid_t child;

    fflush(NULL);
    child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        step_count = 0;
        step_kills = k;
        what(with);
        _exit(0);
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    return WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
}

#endif
