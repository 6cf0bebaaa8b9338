/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Of libraries preloaded into a command: lines to a log, and a file's path.  No
   call of theirs goes by the C library, which they stand before. */
#ifndef DEW_TESTS_SURVEY_PRELOAD_H
#define DEW_TESTS_SURVEY_PRELOAD_H

#define _GNU_SOURCE
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/syscall.h>
#include <unistd.h>

/* A line "WORD PATH" to the file that the variable names, if it does. */
static inline void note_to(const char *variable, const char *word,
                           const char *path)
{
    char line[5000];
    int n = snprintf(line, sizeof line, "%s %s\n", word, path);
    const char *name = getenv(variable);
    long log = name == NULL ? -1
                            : syscall(SYS_openat, AT_FDCWD, name,
                                      O_WRONLY | O_APPEND | O_CREAT, 0666);

    if (log < 0)
        return;
    syscall(SYS_write, log, line, n);
    syscall(SYS_close, log);
}

/* "" where it has none. */
static inline const char *path_of(int file, char path[4096])
{
    char link[64];
    ssize_t n;

    snprintf(link, sizeof link, "/proc/self/fd/%d", file);
    n = readlink(link, path, 4095);
    path[n > 0 ? n : 0] = '\0';
    return path;
}

#endif
