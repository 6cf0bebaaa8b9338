/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the text of one value to the value.  Private to engine/scenario/. */
#ifndef DEW_SCENARIO_VALUE_H
#define DEW_SCENARIO_VALUE_H

#include "dew/scenario.h"
#include "scenario/tree.h"

enum { SCENARIO__PATH = 160 };

/* What all values of one text share. */
struct scenario__reading {
    struct scenario__arena *arena;
    struct dew_faults *faults; /* NULL: say nothing                   */
    const char *source;        /* name of the text                    */
    int line;                  /* of every fault; 0: the node's own   */
    int shift;                 /* added to every column               */
    enum dew_origin_by by;
    enum dew_status status; /* of the first fault                  */
    size_t *systems;        /* [3] units met by system; NULL: none */
    const char *prefix;     /* "options.NAME." before every path   */
};

/* Put a fault about path at node (NULL: no place); returns its status. */
enum dew_status scenario__blame(struct scenario__reading *r,
                                const struct scenario__node *node,
                                const char *path, enum dew_status status,
                                const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/*
 * Read node as a value of field into *out, which is written only when there
 * is no fault, but that items and count of readings are those that are sound.
 * Returns 1 where there is none, else 0.
 */
int scenario__value_read(struct scenario__reading *r,
                         const struct dew_field *field, const char *path,
                         const struct scenario__node *node,
                         struct dew_value *out);

/* Place of word among "a|b|c", or -1.  Case and "-" for "_" do not matter. */
int scenario__word_place(const char *words, const char *word);

/* Copy the word at place into out. */
char *scenario__word_at(const char *words, int place, char *out, size_t size);

#endif
