/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/out.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/fail.h"
#include "core/part.h"

enum { PART_ROOM = 64 }; /* of a part's own name */

static enum dew_status fail(const char *path, const char *why,
                            struct dew_error *err)
{
    return core__fail(err, DEW_EIO, "%s: cannot be written: %s", path, why);
}

/* "some/where/" of path, "" where it has none; to be freed. */
static char *folder_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    size_t length = slash != NULL ? (size_t)(slash - path) + 1 : 0;
    char *folder = malloc(length + 1);

    if (folder == NULL)
        return NULL;
    memcpy(folder, path, length);
    folder[length] = '\0';
    return folder;
}

static int open_folder(const char *before)
{
    return open(before[0] != '\0' ? before : ".",
                O_RDONLY | O_DIRECTORY | O_CLOEXEC);
}

/* What killed processes left. */
static void sweep(const char *before)
{
    int folder = open_folder(before);

    if (folder < 0)
        return;
    core__folder_sweep(folder, CORE__PART_ALONE);
    close(folder);
}

static enum dew_status open_part(struct core__out *out, struct dew_error *err)
{
    char *before = folder_of(out->path);
    size_t room = strlen(out->path) + PART_ROOM;
    int file = -1;

    out->part = malloc(room);
    errno = ENOMEM;
    if (before != NULL && out->part != NULL) {
        const struct core__part_name where = {AT_FDCWD, before,
                                              CORE__PART_ALONE};

        sweep(before);
        file = core__part_make(&where, out->part, room);
    }
    if (file >= 0)
        out->file = fdopen(file, "w");
    free(before);
    if (out->file != NULL)
        return DEW_OK;
    fail(out->path, strerror(errno), err);
    if (file >= 0) {
        unlink(out->part);
        close(file);
    }
    free(out->part);
    return DEW_EIO;
}

/* Opened without waiting; then writes may wait for a slow reader. */
static enum dew_status open_through(struct core__out *out,
                                    struct dew_error *err)
{
    const int how = O_WRONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC;
    int file = open(out->path, how);

    if (file < 0 && errno == ENXIO)
        return fail(out->path, "a pipe that nobody reads", err);
    if (file >= 0 && fcntl(file, F_SETFL, O_WRONLY) == 0)
        out->file = fdopen(file, "w");
    if (out->file != NULL)
        return DEW_OK;
    fail(out->path, strerror(errno), err);
    if (file >= 0)
        close(file);
    return DEW_EIO;
}

static enum dew_status is_there(const struct core__out *out,
                                struct dew_error *err)
{
    return core__fail(err, DEW_ERANGE,
                      "%s is there already and is left alone: choose another "
                      "name",
                      out->path);
}

enum dew_status core__out_open(struct core__out *out, const char *path,
                               enum core__out_how how, struct dew_error *err)
{
    struct stat own, leads; /* of the name; of where it leads */
    int there = lstat(path, &own) == 0;
    int somewhere = stat(path, &leads) == 0;

    *out = (struct core__out){.path = path, .how = how};
    if (path[0] == '\0')
        return core__fail(err, DEW_EIO, "an empty name cannot be written to");
    if (somewhere && (S_ISCHR(leads.st_mode) || S_ISFIFO(leads.st_mode)))
        return open_through(out, err);
    if (there && how == CORE__OUT_NEW)
        return is_there(out, err);
    if (there && S_ISLNK(own.st_mode))
        return fail(path, "a link; name the file itself", err);
    if (there && S_ISDIR(own.st_mode))
        return fail(path, strerror(EISDIR), err);
    if (there && !S_ISREG(own.st_mode))
        return fail(path, "no file, and nothing to write into", err);
    return open_part(out, err);
}

/* A name that appeared meanwhile is left alone too.  Where a file system has
   no links, the last look and the renaming are two steps. */
static int place_new(const struct core__out *out)
{
    struct stat s;

    if (link(out->part, out->path) == 0)
        return unlink(out->part);
    if (errno == EEXIST)
        return -1;
    if (lstat(out->path, &s) == 0) {
        errno = EEXIST;
        return -1;
    }
    return rename(out->part, out->path);
}

/* The new name, on the disk. */
static int sync_name(const struct core__out *out)
{
    char *before = folder_of(out->path);
    int folder = before != NULL ? open_folder(before) : -1, bad = 0;

    free(before);
    if (folder < 0) /* one may write in a folder that one may not read */
        return 0;
    bad = core__folder_sync(folder);
    close(folder);
    return bad;
}

/* The part stays open, and so held, until it has its name. */
static int finish(struct core__out *out)
{
    if (out->part == NULL)
        return fflush(out->file) != 0 || ferror(out->file) ? -1 : 0;
    if (core__part_sync(out->file) != 0)
        return -1;
    if (out->how == CORE__OUT_NEW)
        return place_new(out);
    return rename(out->part, out->path);
}

enum dew_status core__out_close(struct core__out *out, struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    errno = 0;
    if (finish(out) != 0) {
        int cause = errno;

        status = cause == EEXIST && out->how == CORE__OUT_NEW
                     ? is_there(out, err)
                     : fail(out->path,
                            cause ? strerror(cause) : "an earlier write failed",
                            err);
        core__out_drop(out);
        return status;
    }
    if (fclose(out->file) != 0 || (out->part != NULL && sync_name(out) != 0))
        status = fail(out->path, strerror(errno), err);
    free(out->part);
    out->part = NULL;
    return status;
}

void core__out_drop(struct core__out *out)
{
    if (out->part != NULL)
        unlink(out->part);
    fclose(out->file);
    free(out->part);
    out->part = NULL;
}
