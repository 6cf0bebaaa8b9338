/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One file to be written, whole or not at all:
 *
 *     dew__out_open(&out, path, DEW__OUT_OVER, err)
 *     fprintf(out.file, ...)
 *     dew__out_close(&out, err)
 *
 * The bytes go into a part beside path (core/part.h) and take its name once
 * they are on the disk.  A file that is there stays as it was until then.
 * What is there and is no file is never replaced: a device for characters or
 * a pipe that someone reads is written into, anything else is refused.
 */
#ifndef DEW_CORE_OUT_H
#define DEW_CORE_OUT_H

#include <stdio.h>

#include "dew/status.h"

enum dew__out_how {
    DEW__OUT_OVER, /* a file that is there is replaced                      */
    DEW__OUT_NEW,  /* a file that is there is left alone                    */
};

struct dew__out {
    FILE *file;       /* to write on; its errors are seen by _close         */
    const char *path; /* borrowed                                           */
    char *part;       /* NULL: straight into path                           */
    enum dew__out_how how;
};

/*
 * Errors     DEW_EMEM; DEW_EIO; DEW_ERANGE when a file is there and how is
 *            DEW__OUT_NEW.  The text begins with path.  On an error there is
 *            nothing to close.
 */
enum dew_status dew__out_open(struct dew__out *out, const char *path,
                              enum dew__out_how how, struct dew_error *err);

/* Into place.  On an error nothing is left, and what was there stays. */
enum dew_status dew__out_close(struct dew__out *out, struct dew_error *err);

/* Give it up: nothing is left. */
void dew__out_drop(struct dew__out *out);

#endif
