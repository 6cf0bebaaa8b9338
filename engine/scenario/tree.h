/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A YAML text as a small tree with marks.  Private to engine/.
 *
 * libyaml is used for its events only: its document loader takes quadratic
 * time on a run of "[".  Aliases, anchors and tags are refused, depth and
 * length are bounded.
 */
#ifndef DEW_SCENARIO_TREE_H
#define DEW_SCENARIO_TREE_H

#include <stddef.h>

#include "dew/status.h"

enum { SCENARIO__DEEPEST = 16, SCENARIO__LONGEST = 1 << 20 };

/* What is wrong with key = value. */
#define SCENARIO__NO_COLON                                                     \
    "a colon and a blank part a key from its value, not =: write it like "     \
    "bedrooms: 3"

/* Memory that is freed all at once.  Zeroed when taken. */
struct scenario__arena {
    struct scenario__block *last;
};
void *scenario__arena_take(struct scenario__arena *arena, size_t size);
char *scenario__arena_text(struct scenario__arena *arena, const char *text,
                           size_t length);
void scenario__arena_free(struct scenario__arena *arena);

enum scenario__shape { SCENARIO__SCALAR, SCENARIO__LIST, SCENARIO__MAP };

struct scenario__node {
    enum scenario__shape shape;
    int line, column;      /* from 1                              */
    size_t offset, length; /* bytes in the text, quotes included  */
    const char *text;      /* of a scalar; "" else                */
    int quoted;
    const struct scenario__node *key; /* when an entry of a mapping    */
    struct scenario__node *first, *last, *next;
};

/*
 * Read text into a tree in arena; source names it in faults.  *root is NULL
 * when the text holds nothing.  Errors: DEW_ESYNTAX as one fault; DEW_EMEM.
 */
enum dew_status scenario__tree_read(struct scenario__node **root,
                                    struct scenario__arena *arena,
                                    const char *text, size_t length,
                                    struct dew_error *err);

/* The entry of a mapping under that name, the first; NULL where there is none,
   or where it is no mapping. */
const struct scenario__node *scenario__entry(const struct scenario__node *map,
                                             const char *name);

#endif
