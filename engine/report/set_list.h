/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The files of a set by name and SHA-256: what its last file says of the
 * others, and what an earlier set's said.  Private to the report.
 */
#ifndef DEW_REPORT_SET_LIST_H
#define DEW_REPORT_SET_LIST_H

#include <jansson.h>
#include <stdio.h>

#include "dew/report.h"

enum { REPORT__SET_PATH = 128 };

/* A file of a set: "report.html", "charts/energy.svg". */
struct report__set_file {
    char name[REPORT__SET_PATH];
    char sha256[DEW_SHA256_TEXT];
};

/* Zero it; free its files. */
struct report__set_list {
    struct report__set_file *files;
    size_t count, room;
};

/* A file that stands there with that sum already is not added again.  1, or 0
   when there is no memory. */
int report__set_list_add(struct report__set_list *list, const char *name,
                         const char *sha256);

/* SHA-256 of what an open file holds, from its start.  0, or -1 and errno. */
int report__set_sum(int file, char sha256[DEW_SHA256_TEXT]);

/* The list as JSON; NULL when there is no memory. */
json_t *report__set_list_json(const struct report__set_file *files,
                              size_t count);

/*
 * Add what the file called name in directory lists under "written".  A file
 * that is absent, larger than ours ever are or no list of ours adds nothing.
 * 1, or 0 when there is no memory.
 */
int report__set_list_read(struct report__set_list *list, int directory,
                          const char *name);

/*
 * Remove from directory the files that before lists and now does not: plain
 * names in it or in its one folder, regular files, only while what they hold
 * is what before says.  Returns the name of one that could not be removed, and
 * errno, or NULL.
 */
const char *report__set_list_clear(const struct report__set_list *before,
                                   const struct report__set_list *now,
                                   int directory, const char *folder);

#endif
