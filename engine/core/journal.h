/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A file of records that only grows: each with its length and checksum in
 * front, each on the disk before the next begins.  One that was cut short, by
 * a kill or a full disk, is seen by its checksum and left out.  One writer at
 * a time: who has the lock of the folder (core/part.h), or has a name there
 * that is its own.
 */
#ifndef DEW_CORE_JOURNAL_H
#define DEW_CORE_JOURNAL_H

#include <stdint.h>
#include <sys/types.h>

#include "dew/status.h"

enum { CORE__RECORD_MOST = 1 << 28 }; /* bytes of one record                 */

struct core__journal {
    int file;  /* open for reading and writing; -1: none                    */
    off_t end; /* behind the last whole record                              */
};

/* One record: its bytes, borrowed for the call, and where they lie.  Other
   than 0: no more of them. */
typedef int core__record_seen(void *of, const char *bytes, size_t length,
                              off_t at);

/*
 * Every whole record from the front of an open file; *end is behind the last.
 * Errors: DEW_EIO, DEW_EMEM; what follows a torn record is none.
 */
enum dew_status core__journal_read(int file, core__record_seen *seen, void *of,
                                   off_t *end, struct dew_error *err);

/*
 * Open name in folder (a descriptor), made where it is not there, and cut off
 * a torn tail.  Errors: those above; on one there is nothing to close.
 */
enum dew_status core__journal_open(struct core__journal *journal, int folder,
                                   const char *name, struct dew_error *err);

/* Append a record, synced.  On an error, DEW_EIO, the file ends as before. */
enum dew_status core__journal_add(struct core__journal *journal,
                                  const char *bytes, size_t length,
                                  struct dew_error *err);

void core__journal_close(struct core__journal *journal);

/* length bytes that lie at at.  Errors: DEW_EIO. */
enum dew_status core__journal_get(int file, off_t at, char *bytes,
                                  size_t length, struct dew_error *err);

#endif
