/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What marches came to, kept by a caller who asks again and again: a house that
 * is the same in all that its march depends on, in the same weather, is not
 * marched a second time.
 *
 * The name of what is kept is a SHA-256 of all of that, so that nothing stale
 * is ever found.  What is kept is memory of this build of the program as it
 * lies: it is for this build alone, and not for another machine.
 */
#ifndef DEW_KEPT_H
#define DEW_KEPT_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

enum { DEW_KEPT_NAME = 65 }; /* bytes: 64 hexadecimal digits and NUL         */

/* Bytes of one thing kept, one behind the other. */
struct dew_kept_part {
    void *at;
    size_t length;
};

/* Both may be called from several threads at once. */
struct dew_kept {
    void *of; /* the caller's own */
    /* 1: of that name there was as much as the parts hold, and they are filled;
       0: there was not, and they may be filled with anything. */
    int (*get)(void *of, const char *name, const struct dew_kept_part *parts,
               size_t count);
    /* Keep a copy of the parts, or do not. */
    void (*put)(void *of, const char *name, const struct dew_kept_part *parts,
                size_t count);
};

#ifdef __cplusplus
}
#endif
#endif
