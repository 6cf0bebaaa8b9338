/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Preloaded into a command: writes to FORGETS_LOG what of its files is not on
 * the disk yet, so that a test can take it away again, as a power cut would
 * (forget.py).  A line is "new PATH" (its name is not synced), "dirty SIZE
 * PATH" (bytes from SIZE on are not) or "clean PATH" (a file, or the names in a
 * folder).  Files written by stdio are told only as they are made and synced.
 * FORGETS_AT=N kills it with SIGKILL behind its N-th write, before the sync.
 */
#include "preload.h"

#include <signal.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <string.h>
#include <sys/stat.h>

static void note(const char *word, const char *path)
{
    note_to("FORGETS_LOG", word, path);
}

static void dirty(int file)
{
    struct stat found;
    char path[4096], word[40];

    if (fstat(file, &found) != 0 || !S_ISREG(found.st_mode) ||
        path_of(file, path)[0] == '\0')
        return;
    snprintf(word, sizeof word, "dirty %lld", (long long)found.st_size);
    note(word, path);
}

static ssize_t written(ssize_t n)
{
    static atomic_int count;
    const char *at = getenv("FORGETS_AT");

    if (at != NULL && atomic_fetch_add(&count, 1) + 1 == atoi(at))
        kill(getpid(), SIGKILL);
    return n;
}

static int clean(int file, int result)
{
    char path[4096];

    if (result == 0 && path_of(file, path)[0] != '\0')
        note("clean", path);
    return result;
}

ssize_t pwrite(int file, const void *bytes, size_t n, off_t at)
{
    dirty(file);
    return written(syscall(SYS_pwrite64, file, bytes, n, at));
}

ssize_t pwrite64(int file, const void *bytes, size_t n, off_t at)
{
    dirty(file);
    return written(syscall(SYS_pwrite64, file, bytes, n, at));
}

int fsync(int file)
{
    return clean(file, (int)syscall(SYS_fsync, file));
}

int fdatasync(int file)
{
    return clean(file, (int)syscall(SYS_fdatasync, file));
}

static int make(int folder, const char *name, int flags, mode_t mode)
{
    int was = faccessat(folder, name, F_OK, 0) == 0;
    int file = (int)syscall(SYS_openat, folder, name, flags, mode);
    char path[4096];

    if (file >= 0 && (flags & O_CREAT) && !was &&
        path_of(file, path)[0] != '\0')
        note("new", path);
    return file;
}

int openat(int folder, const char *name, int flags, ...)
{
    va_list more;
    mode_t mode;

    va_start(more, flags);
    mode = (flags & O_CREAT) ? va_arg(more, mode_t) : 0;
    va_end(more);
    return make(folder, name, flags, mode);
}
