/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Opening what is to be read, without waiting for it: a named pipe that nobody
 * writes into must not hold the program for ever.
 */
#ifndef DEW_CORE_IN_H
#define DEW_CORE_IN_H

#include "dew/status.h"

enum core__in_how {
    CORE__IN_FILE, /* read more than once: pipes and devices are refused     */
    CORE__IN_ONCE  /* read from front to end: a pipe too, once bytes come    */
};

enum { CORE__IN_WAIT = 5 }; /* s, for the first bytes of a pipe              */

/* A descriptor, or -1 and in *why the reason in words (static, or strerror's),
   errno as it was set, 0 for a reason of our own. */
int core__in_open(const char *path, enum core__in_how how, const char **why);

/*
 * The bytes of a file as they are, most of them at most, to be freed; "-" is
 * standard input where it is read once.  Errors: DEW_EIO, DEW_EMEM.
 */
enum dew_status core__in_read(const char *path, enum core__in_how how,
                              size_t most, char **bytes, size_t *length,
                              struct dew_error *err);

/* Whether bytes are gzipped, and what they were before, most at most, to be
   freed.  Errors: DEW_EIO: damaged or cut; DEW_EMEM. */
int core__in_packed(const char *bytes, size_t length);
enum dew_status core__in_unpack(const char *bytes, size_t *length, size_t most,
                                char **text, struct dew_error *err);

#endif
