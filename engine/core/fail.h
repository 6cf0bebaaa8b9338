/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the library's own code sets an error.  Private to engine/. */
#ifndef DEW_CORE_FAIL_H
#define DEW_CORE_FAIL_H

#include "dew/status.h"

/*
 * Set err unless it is NULL or already set; return status either way, so that
 * a failing line reads: return core__fail(err, DEW_ERANGE, "%g is above %g", ...).
 */
#define core__fail(err, status, ...)                                           \
    (core__blame((err), (status), __VA_ARGS__), core__told(status))

/* Its parts.  The status comes back in the caller's sight, so that an analyser
   knows that what failed does not go on. */
static inline enum dew_status core__told(enum dew_status status)
{
    return status;
}
void core__blame(struct dew_error *err, enum dew_status status,
                 const char *format, ...) __attribute__((format(printf, 3, 4)));

/* Say which file and place the next core__fail on err is about. */
void core__at(struct dew_error *err, const char *source, int line, int column);
void core__in(struct dew_error *err, const char *path);
/* The same for "list[i].member", or "list[i]" where member is NULL. */
void core__in_row(struct dew_error *err, const char *list, size_t i,
                  const char *member);

/* Append one fault; NULL is allowed.  Returns status. */
enum dew_status core__fault(struct dew_faults *faults,
                            const struct dew_error *err);

/* Faults that have a line of that source come first, line by line, then those of
   --set; of one place the first said comes first, and all others stay behind
   them as they were. */
void core__faults_in_order(struct dew_faults *faults, const char *source);

#endif
