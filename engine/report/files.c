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
    {"contractor.html", dew_report_contractor},
    {"inspector.html", dew_report_inspector},
    {"calendar.html", dew_report_calendar},
};

enum { NAME_ROOM = 96, PATH_ROOM = 128, WHOLE = sizeof whole / sizeof *whole };

/* Where the charts stand. */
#define CHARTS "charts"

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

/* What file i is: one of the whole study, the hours of an option, a chart. */
struct part {
    size_t whole; /* below WHOLE: which                                   */
    size_t option;
    int chart; /* DEW_CHARTS: none                                     */
};

static size_t option_count(const struct work *w)
{
    return w->report->question->count;
}

static size_t part_count(const struct work *w)
{
    size_t count = WHOLE + option_count(w);

    for (int k = 0; k < DEW_CHARTS; k++)
        count += dew_report_chart_count(w->report, (enum dew_chart)k);
    return count;
}

static struct part part_of(const struct work *w, size_t i)
{
    struct part p = {i, 0, DEW_CHARTS};

    if (i < WHOLE)
        return p;
    p.whole = WHOLE;
    p.option = i - WHOLE;
    if (p.option < option_count(w))
        return p;
    p.option -= option_count(w);
    for (p.chart = 0; p.chart < DEW_CHARTS; p.chart++) {
        size_t count =
            dew_report_chart_count(w->report, (enum dew_chart)p.chart);

        if (p.option < count)
            break;
        p.option -= count;
    }
    return p;
}

/* "NAME-2-heat-core", or "NAME" for what shows every option. */
static void numbered(const struct work *w, const char *name, size_t option,
                     char *out, size_t size)
{
    char part[48];

    slug(w->report->question->choices[option].outcome->name, part, sizeof part);
    snprintf(out, size, "%s-%zu%s%s", name, option + 1, part[0] ? "-" : "",
             part);
}

/* folder: where the name stands, "" or CHARTS with its slash. */
static void name_of(const struct work *w, size_t i, const char **folder,
                    char *out, size_t size)
{
    struct part p = part_of(w, i);
    char name[NAME_ROOM - 8];

    *folder = p.chart < DEW_CHARTS ? CHARTS "/" : "";
    if (p.whole < WHOLE) {
        snprintf(out, size, "%s", whole[p.whole].name);
    } else if (p.chart == DEW_CHARTS) {
        numbered(w, "hours", p.option, name, sizeof name);
        snprintf(out, size, "%s.csv", name);
    } else {
        enum dew_chart kind = (enum dew_chart)p.chart;
        const char *file = dew_report_chart_file(kind);

        if (dew_report_chart_each(kind))
            numbered(w, file, p.option, name, sizeof name);
        else
            snprintf(name, sizeof name, "%s", file);
        snprintf(out, size, "%s.svg", name);
    }
}

static void path_of(const struct work *w, size_t i, char *out, size_t size)
{
    char name[NAME_ROOM];
    const char *folder;

    name_of(w, i, &folder, name, sizeof name);
    snprintf(out, size, "%s%s", folder, name);
}

static void temporary_of(const struct work *w, size_t i, char *out, size_t size)
{
    char name[NAME_ROOM];
    const char *folder;

    name_of(w, i, &folder, name, sizeof name);
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

static enum dew_status fill(const struct work *w, size_t i, FILE *out,
                            struct dew_error *err)
{
    struct part p = part_of(w, i);

    if (p.whole < WHOLE)
        return whole[p.whole].write(w->report, out, err);
    if (p.chart == DEW_CHARTS)
        return dew_report_hours(w->report, p.option, out, err);
    return dew_report_chart(w->report, (enum dew_chart)p.chart, p.option, out,
                            err);
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
    status = fill(w, i, out, err);
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

static enum dew_status open_charts(const struct work *w, int *made,
                                   struct dew_error *err)
{
    if (mkdirat(w->directory, CHARTS, 0777) == 0)
        *made = 1;
    else if (errno != EEXIST)
        return fail(w, CHARTS, err);
    return DEW_OK;
}

static enum dew_status sync_folders(const struct work *w, struct dew_error *err)
{
    int charts =
        openat(w->directory, CHARTS, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int bad = charts < 0 || fsync(charts) != 0;

    if (charts >= 0)
        close(charts);
    if (bad || fsync(w->directory) != 0)
        return fail(w, bad ? CHARTS : "", err);
    return DEW_OK;
}

static enum dew_status write_all(const struct work *w, struct dew_error *err)
{
    size_t count = part_count(w), done = 0;
    enum dew_status status = DEW_OK;
    int made = 0;

    while (status == DEW_OK && done < count)
        status = check_place(w, done++, err);
    if (status == DEW_OK)
        status = open_charts(w, &made, err);
    for (done = 0; status == DEW_OK && done < count; done++)
        status = write_part(w, done, err);
    for (size_t i = 0; status == DEW_OK && i < count; i++)
        status = rename_part(w, i, err);
    if (status != DEW_OK)
        remove_parts(w, done);
    else
        status = sync_folders(w, err);
    if (status != DEW_OK && made)
        unlinkat(w->directory, CHARTS, AT_REMOVEDIR);
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
