/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A file while it is being written: a part, ".dewledger-PID-N" and a tail,
 * which no other process can have under that name and which is locked as long
 * as it is open.  Those of a set are closed before they get their names; there
 * the lock of the folder counts.  A part that nobody holds was left by a
 * process that was killed, and the next writer of its kind takes it away.
 * Private to engine/; a command writes through core/out.h or report/set.h.
 */
#ifndef DEW_CORE_PART_H
#define DEW_CORE_PART_H

#include <stddef.h>
#include <stdio.h>

#include "dew/status.h"

#define CORE__PART_ALONE ".part" /* the tail of a file by itself             */
#define CORE__PART_SET   ".set"  /* of one of a set                          */

/* How a part is named: in folder (a descriptor, or AT_FDCWD), before it "" or
   "some/where/", after it a tail. */
struct core__part_name {
    int folder;
    const char *before, *tail;
};

/*
 * Make a part; its whole name goes to name.  Returns a descriptor to read and
 * write, or -1 and errno.
 */
int core__part_make(const struct core__part_name *where, char *name,
                    size_t size);

/* Whole on the disk: flushed and synced.  0, or -1 and errno. */
int core__part_sync(FILE *part);

/*
 * Is folder (a descriptor) now this writer's alone?  Until it is closed; a
 * second one, in this process or another, is told no.
 */
int core__folder_lock(int folder);

/* Take away the parts in folder that nobody holds.  Those of sets: only for
   who has the lock of the folder. */
void core__folder_sweep(int folder, const char *tail);

/* The process that writes a set in folder; 0 where none is seen. */
long core__folder_holder(int folder);

/* Sync a folder's names; where a file system cannot, that is no failure.
   0, or -1 and errno. */
int core__folder_sync(int folder);

#endif
