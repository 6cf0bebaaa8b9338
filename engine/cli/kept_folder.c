/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/kept_folder.h"

#include <stdio.h>
#include <unistd.h>

#include "core/in.h"
#include "core/out.h"

enum { PATH = 4096 };

static int path_of(const void *folder, const char *name, char out[PATH])
{
    return snprintf(out, PATH, "%s/%s", (const char *)folder, name) < PATH;
}

static int fill(int file, const struct dew_kept_part *part)
{
    size_t had = 0;
    ssize_t got = 1;

    while (had < part->length && got > 0) {
        got = read(file, (char *)part->at + had, part->length - had);
        had += got > 0 ? (size_t)got : 0;
    }
    return had == part->length;
}

static int get(void *folder, const char *name,
               const struct dew_kept_part *parts, size_t count)
{
    const char *why;
    char path[PATH], more;
    int file = path_of(folder, name, path)
                   ? core__in_open(path, CORE__IN_FILE, &why)
                   : -1;
    int whole = file >= 0;

    for (size_t i = 0; i < count && whole; i++)
        whole = fill(file, &parts[i]);
    whole = whole && read(file, &more, 1) == 0;
    if (file >= 0)
        close(file);
    return whole;
}

static void put(void *folder, const char *name,
                const struct dew_kept_part *parts, size_t count)
{
    struct dew_error err = {0};
    struct core__out out;
    char path[PATH];

    if (!path_of(folder, name, path) ||
        core__out_open(&out, path, CORE__OUT_OVER, &err) != DEW_OK)
        return;
    for (size_t i = 0; i < count; i++)
        fwrite(parts[i].at, 1, parts[i].length, out.file);
    (void)core__out_close(&out, &err);
}

struct dew_kept cli__kept(char *folder)
{
    return (struct dew_kept){folder, get, put};
}
