/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A YAML text as a small tree with marks.  Private to engine/scenario/.
 *
 * libyaml is used for its events only: its document loader takes quadratic
 * time on a run of "[".  Aliases, anchors and tags are refused, depth and
 * length are bounded.
 */
#ifndef DEW_SCENARIO_TREE_H
#define DEW_SCENARIO_TREE_H

#include <stddef.h>

#include "dew/status.h"

enum { DEW__DEEPEST = 16, DEW__LONGEST = 1 << 20 };

/* What is wrong with key = value. */
#define DEW__NO_COLON                                                          \
    "a colon and a blank part a key from its value, not =: write it like "     \
    "bedrooms: 3"

/* Memory that is freed all at once.  Zeroed when taken. */
struct dew__arena {
    struct dew__block *last;
};
void *dew__arena_take(struct dew__arena *arena, size_t size);
char *dew__arena_text(struct dew__arena *arena, const char *text,
                      size_t length);
void dew__arena_free(struct dew__arena *arena);

enum dew__shape { DEW__SCALAR, DEW__LIST, DEW__MAP };

struct dew__node {
    enum dew__shape shape;
    int line, column;      /* from 1                              */
    size_t offset, length; /* bytes in the text, quotes included  */
    const char *text;      /* of a scalar; "" else                */
    int quoted;
    const struct dew__node *key; /* when an entry of a mapping    */
    struct dew__node *first, *last, *next;
};

/*
 * Read text into a tree in arena; source names it in faults.  *root is NULL
 * when the text holds nothing.  Errors: DEW_ESYNTAX as one fault; DEW_EMEM.
 */
enum dew_status dew__tree_read(struct dew__node **root,
                               struct dew__arena *arena, const char *text,
                               size_t length, struct dew_error *err);

#endif
