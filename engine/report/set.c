/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files of a directory, written whole or not at all. */
#include "report/set.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/fail.h"
#include "core/part.h"

enum { NAME_ROOM = REPORT__SET_NAME, PART_ROOM = 64 };

/* What a writing owns. */
struct work {
    const struct report__set *set;
    int directory; /* open descriptor, locked; -1: none */
    const char *path;
    int made, made_folder;        /* the directory, and the folder inside     */
    char (*parts)[PART_ROOM];     /* of each file, then of the last one       */
    size_t part_count;            /* those that stand                         */
    struct report__set_list now;  /* the files of this set                    */
    struct report__set_list then; /* those of earlier ones                    */
    char unfinished[PART_ROOM];
};

/* Letters and digits of name, everything else one hyphen. */
void report__set_slug(const char *name, char *out, size_t size)
{
    size_t at = 0;

    for (; *name != '\0' && at + 1 < size; name++) {
        char c = *name;

        if (c >= 'A' && c <= 'Z')
            c = (char)(c - 'A' + 'a');
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
            out[at++] = c;
        else if (at > 0 && out[at - 1] != '-')
            out[at++] = '-';
    }
    while (at > 0 && out[at - 1] == '-')
        at--;
    out[at] = '\0';
}

/* ---- names and messages ------------------------------------------------------ */

/* Of file i; i of count is the last. */
static void path_of(const struct work *w, size_t i, char *out, size_t size)
{
    char name[NAME_ROOM];
    const char *folder = "";

    if (i < w->set->count)
        w->set->name(w->set->of, i, &folder, name, sizeof name);
    else
        snprintf(name, sizeof name, "%s", w->set->last_name);
    snprintf(out, size, "%s%s", folder, name);
}

static void about(const struct work *w, const char *name, struct dew_error *err)
{
    char place[200];

    snprintf(place, sizeof place, "%s%s%s", w->path[0] ? w->path : "\"\"",
             name[0] ? "/" : "", name);
    core__at(err, place, 0, 0);
}

static enum dew_status fail(const struct work *w, const char *name,
                            struct dew_error *err)
{
    int cause = errno;

    about(w, name, err);
    return core__fail(err, DEW_EIO, "could not be written: %s",
                      strerror(cause));
}

static enum dew_status no_memory(struct dew_error *err)
{
    return core__fail(err, DEW_EMEM, "no memory for the files of the result");
}

/* ---- the place ----------------------------------------------------------------- */

static enum dew_status held(const struct work *w, struct dew_error *err)
{
    long pid = core__folder_holder(w->directory);
    char who[48] = "another process";

    if (pid > 0)
        snprintf(who, sizeof who, "process %ld", pid);
    about(w, "", err);
    return core__fail(err, DEW_EIO,
                      "%s is writing a result there: wait until it has ended, "
                      "or name another folder",
                      who);
}

static enum dew_status open_directory(struct work *w, struct dew_error *err)
{
    if (mkdir(w->path, 0777) == 0)
        w->made = 1;
    else if (errno != EEXIST)
        return fail(w, "", err);
    w->directory = open(w->path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (w->directory < 0)
        return fail(w, "", err);
    if (!core__folder_lock(w->directory)) {
        w->made = 0; /* it is the other's now */
        return held(w, err);
    }
    core__folder_sweep(w->directory, CORE__PART_SET);
    return DEW_OK;
}

/* What is there and is no file is found before anything is written. */
static enum dew_status check_place(const struct work *w, size_t i,
                                   struct dew_error *err)
{
    char name[REPORT__SET_PATH];
    struct stat s;

    path_of(w, i, name, sizeof name);
    if (fstatat(w->directory, name, &s, AT_SYMLINK_NOFOLLOW) != 0 ||
        S_ISREG(s.st_mode))
        return DEW_OK;
    if (S_ISDIR(s.st_mode)) {
        errno = EISDIR;
        return fail(w, name, err);
    }
    about(w, name, err);
    return core__fail(err, DEW_EIO,
                      "is there and is no plain file: it is left alone; take "
                      "it away or name another folder");
}

static enum dew_status open_folder(struct work *w, struct dew_error *err)
{
    const char *folder = w->set->folder;
    struct stat s;

    if (mkdirat(w->directory, folder, 0777) == 0) {
        w->made_folder = 1;
        return DEW_OK;
    }
    if (errno != EEXIST)
        return fail(w, folder, err);
    if (fstatat(w->directory, folder, &s, AT_SYMLINK_NOFOLLOW) == 0 &&
        S_ISDIR(s.st_mode))
        return DEW_OK;
    errno = ENOTDIR;
    return fail(w, folder, err);
}

/* ---- the parts ------------------------------------------------------------------ */

/* A part, open; NULL and errno.  It is counted, to be taken away. */
static FILE *open_part(struct work *w)
{
    const struct core__part_name where = {w->directory, "", CORE__PART_SET};
    char *name = w->parts[w->part_count];
    int file = core__part_make(&where, name, PART_ROOM);
    FILE *out = file >= 0 ? fdopen(file, "w+") : NULL;

    if (file >= 0)
        w->part_count++;
    if (file >= 0 && out == NULL)
        close(file);
    return out;
}

/* sum: what it holds, unless NULL. */
static enum dew_status close_part(const struct work *w, FILE *out,
                                  const char *name, char *sum,
                                  struct dew_error *err)
{
    int bad = core__part_sync(out) != 0 ||
              (sum != NULL && report__set_sum(fileno(out), sum) != 0);
    int cause = errno;

    if (fclose(out) != 0 && !bad) {
        bad = 1;
        cause = errno;
    }
    errno = cause;
    return bad ? fail(w, name, err) : DEW_OK;
}

/* Why a disk takes no more is known here, not where the page is written. */
static enum dew_status fill(const struct work *w, size_t i, const char *name,
                            FILE *out, struct dew_error *err)
{
    const struct report__set *set = w->set;
    struct dew_error inside = {0};
    enum dew_status status;

    errno = 0;
    if (i < set->count)
        status = set->fill(set->of, i, out, &inside);
    else
        status = set->last(set->of, w->now.files, w->now.count, out, &inside);
    if (status == DEW_EIO && errno != 0)
        return fail(w, name, err);
    about(w, name, err);
    return status == DEW_OK ? status
                            : core__fail(err, status, "%s", inside.text);
}

static enum dew_status write_part(struct work *w, size_t i,
                                  struct dew_error *err)
{
    char name[REPORT__SET_PATH], sum[DEW_SHA256_TEXT];
    enum dew_status status, closed;
    FILE *out = open_part(w);

    path_of(w, i, name, sizeof name);
    if (out == NULL)
        return fail(w, name, err);
    status = fill(w, i, name, out, err);
    closed = close_part(w, out, name, sum, err);
    if (status == DEW_OK && closed == DEW_OK && i < w->set->count &&
        !report__set_list_add(&w->now, name, sum))
        return no_memory(err);
    return status != DEW_OK ? status : closed;
}

static enum dew_status write_parts(struct work *w, struct dew_error *err)
{
    enum dew_status status = DEW_OK;
    size_t count = w->set->count + 1;

    for (size_t i = 0; status == DEW_OK && i < count; i++)
        status = check_place(w, i, err);
    if (status == DEW_OK)
        status = open_folder(w, err);
    for (size_t i = 0; status == DEW_OK && i < count; i++)
        status = write_part(w, i, err);
    return status;
}

/* ---- into place ------------------------------------------------------------------- */

/* The names of all files that are or will be there, for who comes after a
   writer that was cut off. */
static enum dew_status put_unfinished(struct work *w, struct dew_error *err)
{
    FILE *out = open_part(w);
    struct report__set_list all = {NULL, 0, 0};
    json_t *list, *root = NULL;
    int good = out != NULL;

    if (!good)
        return fail(w, w->unfinished, err);
    for (size_t i = 0; good && i < w->then.count; i++)
        good = report__set_list_add(&all, w->then.files[i].name,
                                    w->then.files[i].sha256);
    for (size_t i = 0; good && i < w->now.count; i++)
        good = report__set_list_add(&all, w->now.files[i].name,
                                    w->now.files[i].sha256);
    list = good ? report__set_list_json(all.files, all.count) : NULL;
    root = list != NULL ? json_pack("{s:o}", "written", list) : NULL;
    good = root != NULL && json_dumpf(root, out, JSON_INDENT(1)) == 0;
    json_decref(root);
    free(all.files);
    if (close_part(w, out, w->unfinished, NULL, err) != DEW_OK)
        return DEW_EIO;
    if (!good)
        return no_memory(err);
    if (renameat(w->directory, w->parts[w->part_count - 1], w->directory,
                 w->unfinished) != 0)
        return fail(w, w->unfinished, err);
    w->part_count--;
    return DEW_OK;
}

/* The name of a directory that was made; not all file systems can. */
static void sync_above(const struct work *w)
{
    int above =
        w->made ? openat(w->directory, "..", O_RDONLY | O_DIRECTORY | O_CLOEXEC)
                : -1;

    if (above < 0)
        return;
    core__folder_sync(above);
    close(above);
}

static enum dew_status sync_folders(const struct work *w, struct dew_error *err)
{
    int folder = openat(w->directory, w->set->folder,
                        O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int bad = folder < 0 || core__folder_sync(folder) != 0;

    if (folder >= 0)
        close(folder);
    if (bad || core__folder_sync(w->directory) != 0)
        return fail(w, bad ? w->set->folder : "", err);
    return DEW_OK;
}

/* From here on the directory has no whole set until the last name stands. */
static enum dew_status begin(struct work *w, struct dew_error *err)
{
    enum dew_status status = put_unfinished(w, err);

    if (status == DEW_OK && unlinkat(w->directory, w->set->last_name, 0) != 0 &&
        errno != ENOENT)
        status = fail(w, w->set->last_name, err);
    return status == DEW_OK ? sync_folders(w, err) : status;
}

static enum dew_status half(const struct work *w, const char *name,
                            const char *not_done, struct dew_error *err)
{
    int cause = errno;

    about(w, name, err);
    return core__fail(
        err, DEW_EIO,
        "could not be %s: %s; until a run succeeds the folder has "
        "no %s and its files are of two runs",
        not_done, strerror(cause), w->set->last_name);
}

static enum dew_status rename_part(const struct work *w, size_t i,
                                   struct dew_error *err)
{
    char name[REPORT__SET_PATH];

    path_of(w, i, name, sizeof name);
    if (renameat(w->directory, w->parts[i], w->directory, name) == 0)
        return DEW_OK;
    return half(w, name, "written", err);
}

/* What only earlier sets had. */
static enum dew_status clear(const struct work *w, struct dew_error *err)
{
    const char *name =
        report__set_list_clear(&w->then, &w->now, w->directory, w->set->folder);

    if (name == NULL)
        return DEW_OK;
    return half(w, name, "removed", err);
}

static enum dew_status into_place(struct work *w, struct dew_error *err)
{
    size_t count = w->set->count;
    enum dew_status status = begin(w, err);

    for (size_t i = 0; status == DEW_OK && i < count; i++)
        status = rename_part(w, i, err);
    if (status != DEW_OK)
        return status;
    status = clear(w, err);
    if (status == DEW_OK)
        status = sync_folders(w, err);
    if (status == DEW_OK)
        status = rename_part(w, count, err);
    if (status == DEW_OK)
        status = sync_folders(w, err);
    if (status != DEW_OK)
        return status;
    sync_above(w);
    unlinkat(w->directory, w->unfinished, 0);
    return DEW_OK;
}

/* ---- the whole ---------------------------------------------------------------------- */

static enum dew_status write_all(struct work *w, struct dew_error *err)
{
    enum dew_status status;

    /* one more than the files and the last: the unfinished list */
    w->parts = calloc(w->set->count + 2, sizeof *w->parts);
    if (w->parts == NULL)
        return no_memory(err);
    snprintf(w->unfinished, sizeof w->unfinished, ".%s.unfinished",
             w->set->last_name);
    status = open_directory(w, err);
    if (status == DEW_OK)
        status = write_parts(w, err);
    if (status == DEW_OK &&
        !(report__set_list_read(&w->then, w->directory, w->unfinished) &&
          report__set_list_read(&w->then, w->directory, w->set->last_name)))
        status = no_memory(err);
    return status == DEW_OK ? into_place(w, err) : status;
}

/* Parts that have their names are no longer there under these. */
static void take_back(const struct work *w)
{
    if (w->directory < 0)
        return;
    for (size_t i = 0; i < w->part_count; i++)
        unlinkat(w->directory, w->parts[i], 0);
    if (w->made_folder)
        unlinkat(w->directory, w->set->folder, AT_REMOVEDIR);
    if (w->made)
        rmdir(w->path);
}

enum dew_status report__set_write(const struct report__set *set,
                                  const char *directory, struct dew_error *err)
{
    struct work w = {.set = set, .directory = -1, .path = directory};
    enum dew_status status = write_all(&w, err);

    if (status != DEW_OK)
        take_back(&w);
    core__at(err, "", 0, 0);
    if (w.directory >= 0)
        close(w.directory);
    free(w.parts);
    free(w.now.files);
    free(w.then.files);
    return status;
}
