/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A directory of reports, written whole or not at all: every file under a
 * temporary name, synced, and renamed only when all of them stand.
 */
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/fail.h"
#include "report/words.h"

/* The files of the whole study; those of the options follow. */
static const struct whole {
    const char *name;
    enum dew_status (*write)(const struct dew_report *report, FILE *out,
                             struct dew_error *err);
} whole[] = {
    {"report.html", dew_report_html},
    {"summary.json", dew_report_json},
};

enum { NAME_ROOM = 96, OPTION_FILE = sizeof whole / sizeof *whole };

struct work {
    const struct dew_report *report;
    int directory; /* open descriptor */
    const char *path;
};

/* Letters and digits of name, everything else one hyphen. */
static void slug(const char *name, char *out, size_t size)
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

static void name_of(const struct work *w, size_t i, char *out, size_t size)
{
    char part[48];

    if (i < OPTION_FILE) {
        snprintf(out, size, "%s", whole[i].name);
        return;
    }
    slug(w->report->question->choices[i - OPTION_FILE].outcome->name, part,
         sizeof part);
    snprintf(out, size, "hours-%zu%s%s.csv", i - OPTION_FILE + 1,
             part[0] ? "-" : "", part);
}

static void temporary_of(const struct work *w, size_t i, char *out, size_t size)
{
    char name[NAME_ROOM - 8];

    name_of(w, i, name, sizeof name);
    snprintf(out, size, ".%s.part", name);
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

static enum dew_status fill(const struct work *w, size_t i, FILE *out,
                            struct dew_error *err)
{
    if (i < OPTION_FILE)
        return whole[i].write(w->report, out, err);
    return dew_report_hours(w->report, i - OPTION_FILE, out, err);
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
    char name[NAME_ROOM];
    enum dew_status status;
    FILE *out;
    int bad;

    temporary_of(w, i, name, sizeof name);
    out = open_part(w, name);
    if (out == NULL)
        return fail(w, name, err);
    status = fill(w, i, out, err);
    bad = fflush(out) != 0 || fsync(fileno(out)) != 0;
    bad |= fclose(out) != 0;
    if (status == DEW_OK && bad)
        status = fail(w, name, err);
    return status;
}

static void remove_parts(const struct work *w, size_t count)
{
    char name[NAME_ROOM];

    for (size_t i = 0; i < count; i++) {
        temporary_of(w, i, name, sizeof name);
        unlinkat(w->directory, name, 0);
    }
}

static enum dew_status rename_part(const struct work *w, size_t i,
                                   struct dew_error *err)
{
    char part[NAME_ROOM], name[NAME_ROOM];

    temporary_of(w, i, part, sizeof part);
    name_of(w, i, name, sizeof name);
    if (renameat(w->directory, part, w->directory, name) != 0)
        return fail(w, name, err);
    return DEW_OK;
}

/* A directory where a file should stand is found before the first rename. */
static enum dew_status check_place(const struct work *w, size_t i,
                                   struct dew_error *err)
{
    char name[NAME_ROOM];
    struct stat s;

    name_of(w, i, name, sizeof name);
    if (fstatat(w->directory, name, &s, AT_SYMLINK_NOFOLLOW) != 0 ||
        !S_ISDIR(s.st_mode))
        return DEW_OK;
    errno = EISDIR;
    return fail(w, name, err);
}

static enum dew_status write_all(const struct work *w, struct dew_error *err)
{
    size_t count = OPTION_FILE + w->report->question->count, done = 0;
    enum dew_status status = DEW_OK;

    while (status == DEW_OK && done < count)
        status = check_place(w, done++, err);
    for (done = 0; status == DEW_OK && done < count; done++)
        status = write_part(w, done, err);
    for (size_t i = 0; status == DEW_OK && i < count; i++)
        status = rename_part(w, i, err);
    if (status != DEW_OK)
        remove_parts(w, done);
    else if (fsync(w->directory) != 0)
        status = fail(w, "", err);
    return status;
}

enum dew_status dew_report_write(const struct dew_report *report,
                                 const char *directory, struct dew_error *err)
{
    struct work w = {report, -1, directory};
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
