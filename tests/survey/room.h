/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder of a test's own, and files put into it. */
#ifndef DEW_TESTS_SURVEY_ROOM_H
#define DEW_TESTS_SURVEY_ROOM_H

#include <stdio.h>
#include <stdlib.h>

#include "core/out.h"

enum { ROOM_PATH = 120 };

static char folder[] = "/tmp/dew-survey-XXXXXX"; /* as mkdtemp asks for it */

static inline const char *path_of(const char *name, char path[ROOM_PATH])
{
    snprintf(path, ROOM_PATH, "%s/%s", folder, name);
    return path;
}

static inline int put(const char *name, const char *text)
{
    struct core__out out;
    char path[ROOM_PATH];

    if (core__out_open(&out, path_of(name, path), CORE__OUT_OVER, NULL) !=
        DEW_OK)
        return 0;
    fputs(text, out.file);
    return core__out_close(&out, NULL) == DEW_OK;
}

static inline int make_folder(void)
{
    return mkdtemp(folder) != NULL;
}

static inline int remove_folder(void)
{
    char line[60];

    snprintf(line, sizeof line, "rm -r %s", folder);
    return system(line);
}

#endif
