/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A directory of files, written whole or not at all: every file under a
 * temporary name, synced, and renamed only when all of them stand.
 */
#ifndef DEW_REPORT_SET_H
#define DEW_REPORT_SET_H

#include <stdio.h>

#include "dew/status.h"

enum { DEW__SET_NAME = 96 };

struct dew__set {
    const void *of; /* what name and fill work on                         */
    size_t count;
    const char *folder; /* one folder that is made inside                 */
    /* *folder: where file i stands, "" or the set's folder with its slash */
    void (*name)(const void *of, size_t i, const char **folder, char *out,
                 size_t size);
    enum dew_status (*fill)(const void *of, size_t i, FILE *out,
                            struct dew_error *err);
};

/* Errors: DEW_EIO with the file's name in err->source, and those of fill. */
enum dew_status dew__set_write(const struct dew__set *set,
                               const char *directory, struct dew_error *err);

/* Letters and digits of name, everything else one hyphen. */
void dew__set_slug(const char *name, char *out, size_t size);

#endif
