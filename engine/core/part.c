/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/part.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define HEAD ".dewledger-"

enum { TRIES = 10000 };

/* Ours, and still there: a sweeper may have been first, between the making
   and the locking.  Where nothing can be locked, nothing is swept. */
static int hold(int file)
{
    struct stat s;

    if (flock(file, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK)
        return 0;
    return fstat(file, &s) == 0 && s.st_nlink > 0;
}

int core__part_make(const struct core__part_name *where, char *name,
                    size_t size)
{
    const int how = O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW;

    for (int n = 0; n < TRIES; n++) {
        int length = snprintf(name, size, "%s" HEAD "%ld-%d%s", where->before,
                              (long)getpid(), n, where->tail);
        int file;

        if (length < 0 || (size_t)length >= size) {
            errno = ENAMETOOLONG;
            return -1;
        }
        file = openat(where->folder, name, how, 0666);
        if (file < 0 && errno != EEXIST)
            return -1;
        if (file < 0)
            continue;
        if (hold(file))
            return file;
        close(file);
    }
    errno = EEXIST;
    return -1;
}

int core__part_sync(FILE *part)
{
    if (fflush(part) != 0)
        return -1;
    if (ferror(part)) {
        errno = EIO;
        return -1;
    }
    return fsync(fileno(part));
}

int core__folder_lock(int folder)
{
    return flock(folder, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
}

/* The PID in a part's name; 0 when the name is none. */
static long pid_of(const char *name, const char *tail)
{
    const size_t head = sizeof HEAD - 1;
    char *end;
    long pid;

    if (strncmp(name, HEAD, head) != 0 || name[head] < '1' || name[head] > '9')
        return 0;
    pid = strtol(name + head, &end, 10);
    if (*end != '-' || end[1] < '0' || end[1] > '9')
        return 0;
    end += 1 + strspn(end + 1, "0123456789");
    return strcmp(end, tail) == 0 ? pid : 0;
}

static int is_held(int file)
{
    struct stat s;

    return fstat(file, &s) != 0 || !S_ISREG(s.st_mode) ||
           flock(file, LOCK_EX | LOCK_NB) != 0;
}

/* Does name still stand for file?  A living writer may use it again. */
static int is_named(int folder, const char *name, int file)
{
    struct stat a, b;

    return fstat(file, &a) == 0 &&
           fstatat(folder, name, &b, AT_SYMLINK_NOFOLLOW) == 0 &&
           a.st_ino == b.st_ino && a.st_dev == b.st_dev;
}

static void take_away(int folder, const char *name)
{
    const int how = O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC;
    int file = openat(folder, name, how);

    if (file < 0)
        return;
    if (!is_held(file) && is_named(folder, name, file))
        unlinkat(folder, name, 0);
    close(file);
}

/* The first part in folder, or after the last one given; NULL: no more. */
static const char *next_part(DIR *names, const char *tail)
{
    struct dirent *e;

    while ((e = readdir(names)) != NULL)
        if (pid_of(e->d_name, tail) > 0)
            return e->d_name;
    return NULL;
}

/* A descriptor of its own: reading through folder's would move its place. */
static DIR *names_of(int folder)
{
    int own = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *names = own >= 0 ? fdopendir(own) : NULL;

    if (names == NULL && own >= 0)
        close(own);
    return names;
}

void core__folder_sweep(int folder, const char *tail)
{
    DIR *names = names_of(folder);
    const char *name;

    if (names == NULL)
        return;
    while ((name = next_part(names, tail)) != NULL)
        take_away(folder, name);
    closedir(names);
}

long core__folder_holder(int folder)
{
    DIR *names = names_of(folder);
    const char *name = names != NULL ? next_part(names, CORE__PART_SET) : NULL;
    long pid = name != NULL ? pid_of(name, CORE__PART_SET) : 0;

    if (names != NULL)
        closedir(names);
    return pid;
}

int core__folder_sync(int folder)
{
    if (fsync(folder) == 0 || errno == EINVAL || errno == ENOTSUP)
        return 0;
    return -1;
}
