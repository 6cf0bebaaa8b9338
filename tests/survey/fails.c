/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Preloaded into a command: one call of its does not do what it should, as on a
 * disk that is full or broken.
 *
 *     FAILS=CALL:N:ERRNO  the N-th pwrite, fsync, rename or link, on a file
 *                         whose path has FAILS_ON in it; a pwrite first puts
 *                         half of its bytes down, and each later one fails too
 *     FAILS_RANK=R        in that rank of mpirun alone
 *     FAILS_LOG=FILE      a line for each such call, failed or not
 *
 * A disk that is full stays so; what is broken once may do the next time.
 */
#include "preload.h"

#include <errno.h>
#include <stdatomic.h>
#include <string.h>

static int is_here(void)
{
    const char *rank = getenv("FAILS_RANK");
    const char *mine = getenv("OMPI_COMM_WORLD_RANK");

    return rank == NULL || (mine != NULL && strcmp(rank, mine) == 0);
}

/* How many calls there are until it fails: 0, it is this one; below, it was;
   1 above: not asked for. */
static int left(const char *call, const char *path)
{
    static atomic_int count;
    const char *fails = getenv("FAILS"), *on = getenv("FAILS_ON");
    size_t n = strlen(call);

    if (fails == NULL || !is_here() || strncmp(fails, call, n) != 0 ||
        fails[n] != ':' || (on != NULL && strstr(path, on) == NULL))
        return 1;
    note_to("FAILS_LOG", call, path);
    return atoi(fails + n + 1) - (atomic_fetch_add(&count, 1) + 1);
}

static int broken(void)
{
    errno = atoi(strrchr(getenv("FAILS"), ':') + 1);
    return -1;
}

static ssize_t put(int file, const void *bytes, size_t n, off_t at)
{
    char path[4096];
    int to_go = left("pwrite", path_of(file, path));

    if (to_go > 0 || (to_go == 0 && n > 1))
        return syscall(SYS_pwrite64, file, bytes, to_go > 0 ? n : n / 2, at);
    return broken();
}

ssize_t pwrite(int file, const void *bytes, size_t n, off_t at)
{
    return put(file, bytes, n, at);
}

ssize_t pwrite64(int file, const void *bytes, size_t n, off_t at)
{
    return put(file, bytes, n, at);
}

int fsync(int file)
{
    char path[4096];

    return left("fsync", path_of(file, path)) == 0
               ? broken()
               : (int)syscall(SYS_fsync, file);
}

int fdatasync(int file)
{
    char path[4096];

    return left("fsync", path_of(file, path)) == 0
               ? broken()
               : (int)syscall(SYS_fdatasync, file);
}

int renameat(int from, const char *old, int to, const char *name)
{
    return left("rename", name) == 0
               ? broken()
               : (int)syscall(SYS_renameat2, from, old, to, name, 0);
}

int rename(const char *old, const char *name)
{
    return renameat(AT_FDCWD, old, AT_FDCWD, name);
}

int link(const char *old, const char *name)
{
    return left("link", name) == 0
               ? broken()
               : (int)syscall(SYS_linkat, AT_FDCWD, old, AT_FDCWD, name, 0);
}
