/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One file to be written, whole or not at all:
 *
 *     core__out_open(&out, path, CORE__OUT_OVER, err)
 *     fprintf(out.file, ...)
 *     core__out_close(&out, err)
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

enum core__out_how {
    CORE__OUT_OVER, /* a file that is there is replaced                      */
    CORE__OUT_NEW,  /* a file that is there is left alone                    */
};

struct core__out {
    FILE *file;       /* to write on; its errors are seen by _close         */
    const char *path; /* borrowed                                           */
    char *part;       /* NULL: straight into path                           */
    enum core__out_how how;
};

/*
 * Errors     DEW_EMEM; DEW_EIO; DEW_ERANGE when a file is there and how is
 *            CORE__OUT_NEW.  The text begins with path.  On an error there is
 *            nothing to close.
 */
enum dew_status core__out_open(struct core__out *out, const char *path,
                               enum core__out_how how, struct dew_error *err);

/* Into place.  On an error nothing is left, and what was there stays. */
enum dew_status core__out_close(struct core__out *out, struct dew_error *err);

/* Give it up: nothing is left. */
void core__out_drop(struct core__out *out);

#endif
