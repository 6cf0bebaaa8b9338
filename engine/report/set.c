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

enum { NAME_ROOM = DEW__SET_NAME, PATH_ROOM = DEW__SET_NAME + 32 };

struct work {
    const struct dew__set *set;
    int directory; /* open descriptor */
    const char *path;
};

/* Letters and digits of name, everything else one hyphen. */
void dew__set_slug(const char *name, char *out, size_t size)
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

static void path_of(const struct work *w, size_t i, char *out, size_t size)
{
    char name[NAME_ROOM];
    const char *folder;

    w->set->name(w->set->of, i, &folder, name, sizeof name);
    snprintf(out, size, "%s%s", folder, name);
}

static void temporary_of(const struct work *w, size_t i, char *out, size_t size)
{
    char name[NAME_ROOM];
    const char *folder;

    w->set->name(w->set->of, i, &folder, name, sizeof name);
    snprintf(out, size, "%s.%s.part", folder, name);
}

static enum dew_status fail(const struct work *w, const char *name,
                            struct dew_error *err)
{
    int cause = errno;
    char place[200];

    snprintf(place, sizeof place, "%s/%s", w->path, name);
    dew__at(err, place, 0, 0);
    dew__in(err, place);
    return dew__fail(err, DEW_EIO, "could not be written: %s", strerror(cause));
}

static FILE *open_part(const struct work *w, const char *name)
{
    const int how = O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW;
    int file = openat(w->directory, name, how, 0666);
    FILE *out;

    if (file < 0)
        return NULL;
    out = fdopen(file, "w");
    if (out == NULL)
        close(file);
    return out;
}

static enum dew_status write_part(const struct work *w, size_t i,
                                  struct dew_error *err)
{
    char name[PATH_ROOM];
    enum dew_status status;
    FILE *out;
    int bad;

    temporary_of(w, i, name, sizeof name);
    out = open_part(w, name);
    if (out == NULL)
        return fail(w, name, err);
    status = w->set->fill(w->set->of, i, out, err);
    bad = fflush(out) != 0 || fsync(fileno(out)) != 0;
    bad |= fclose(out) != 0;
    if (status == DEW_OK && bad)
        status = fail(w, name, err);
    return status;
}

static void remove_parts(const struct work *w, size_t count)
{
    char name[PATH_ROOM];

    for (size_t i = 0; i < count; i++) {
        temporary_of(w, i, name, sizeof name);
        unlinkat(w->directory, name, 0);
    }
}

static enum dew_status rename_part(const struct work *w, size_t i,
                                   struct dew_error *err)
{
    char part[PATH_ROOM], name[PATH_ROOM];

    temporary_of(w, i, part, sizeof part);
    path_of(w, i, name, sizeof name);
    if (renameat(w->directory, part, w->directory, name) != 0)
        return fail(w, name, err);
    return DEW_OK;
}

/* A directory where a file should stand is found before the first rename. */
static enum dew_status check_place(const struct work *w, size_t i,
                                   struct dew_error *err)
{
    char name[PATH_ROOM];
    struct stat s;

    path_of(w, i, name, sizeof name);
    if (fstatat(w->directory, name, &s, AT_SYMLINK_NOFOLLOW) != 0 ||
        !S_ISDIR(s.st_mode))
        return DEW_OK;
    errno = EISDIR;
    return fail(w, name, err);
}

static enum dew_status open_folder(const struct work *w, int *made,
                                   struct dew_error *err)
{
    if (mkdirat(w->directory, w->set->folder, 0777) == 0)
        *made = 1;
    else if (errno != EEXIST)
        return fail(w, w->set->folder, err);
    return DEW_OK;
}

static enum dew_status sync_folders(const struct work *w, struct dew_error *err)
{
    int folder = openat(w->directory, w->set->folder,
                        O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int bad = folder < 0 || fsync(folder) != 0;

    if (folder >= 0)
        close(folder);
    if (bad || fsync(w->directory) != 0)
        return fail(w, bad ? w->set->folder : "", err);
    return DEW_OK;
}

static enum dew_status write_all(const struct work *w, struct dew_error *err)
{
    size_t count = w->set->count, done = 0;
    enum dew_status status = DEW_OK;
    int made = 0;

    while (status == DEW_OK && done < count)
        status = check_place(w, done++, err);
    if (status == DEW_OK)
        status = open_folder(w, &made, err);
    for (done = 0; status == DEW_OK && done < count; done++)
        status = write_part(w, done, err);
    for (size_t i = 0; status == DEW_OK && i < count; i++)
        status = rename_part(w, i, err);
    if (status != DEW_OK)
        remove_parts(w, done);
    else
        status = sync_folders(w, err);
    if (status != DEW_OK && made)
        unlinkat(w->directory, w->set->folder, AT_REMOVEDIR);
    return status;
}

enum dew_status dew__set_write(const struct dew__set *set,
                               const char *directory, struct dew_error *err)
{
    struct work w = {set, -1, directory};
    enum dew_status status;

    if (mkdir(directory, 0777) != 0 && errno != EEXIST)
        return fail(&w, "", err);
    w.directory = open(directory, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (w.directory < 0)
        return fail(&w, "", err);
    status = write_all(&w, err);
    close(w.directory);
    return status;
}
