/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Opening what is to be read, without waiting for it: a named pipe that nobody
 * writes into must not hold the program for ever.
 */
#ifndef DEW_CORE_IN_H
#define DEW_CORE_IN_H

enum dew__in_how {
    DEW__IN_FILE, /* read more than once: pipes and devices are refused     */
    DEW__IN_ONCE  /* read from front to end: a pipe too, once bytes come    */
};

enum { DEW__IN_WAIT = 5 }; /* s, for the first bytes of a pipe              */

/* A descriptor, or -1 and in *why the reason in words (static, or strerror's),
   errno as it was set, 0 for a reason of our own. */
int dew__in_open(const char *path, enum dew__in_how how, const char **why);

#endif
