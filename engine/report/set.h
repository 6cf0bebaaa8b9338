/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A directory of files, written whole or not at all, by one writer at a time.
 *
 * Every file is a part first (core/part.h), synced.  When all of them stand:
 * the last file of an earlier set is taken away, the parts take their names,
 * files that only the earlier set had are removed, and the last file, which
 * names the others with their SHA-256, takes its name.  So a directory that
 * has the last file has the whole set, and one that was cut off has none;
 * ".LAST.unfinished" then keeps the names for the next writer.
 */
#ifndef DEW_REPORT_SET_H
#define DEW_REPORT_SET_H

#include <stdio.h>

#include "report/set_list.h"

enum { REPORT__SET_NAME = 96 };

struct report__set {
    const void *of;     /* what name, fill and last work on                   */
    size_t count;       /* of files, the last apart                           */
    const char *folder; /* one folder that is made inside                 */
    /* *folder: where file i stands, "" or the set's folder with its slash */
    void (*name)(const void *of, size_t i, const char **folder, char *out,
                 size_t size);
    enum dew_status (*fill)(const void *of, size_t i, FILE *out,
                            struct dew_error *err);
    const char *last_name;
    enum dew_status (*last)(const void *of,
                            const struct report__set_file *files, size_t count,
                            FILE *out, struct dew_error *err);
};

/* Errors: DEW_EMEM; DEW_EIO with the file's name in err->source, also while
   another writes there; those of fill and last. */
enum dew_status report__set_write(const struct report__set *set,
                                  const char *directory, struct dew_error *err);

/* Letters and digits of name, everything else one hyphen. */
void report__set_slug(const char *name, char *out, size_t size);

#endif
