/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the tags of a page nest. */
#ifndef DEW_TESTS_NESTED_H
#define DEW_TESTS_NESTED_H

#include <ctype.h>
#include <string.h>

#include "support/rows.h"

/* Read a tag at s ("<name ...>"); returns what follows it. */
static inline const char *tag_at(const char *s, char *name, int *closes)
{
    size_t n = 0;

    *closes = s[1] == '/';
    for (s += 1 + *closes; isalnum((unsigned char)*s) && n < 15; s++)
        name[n++] = *s;
    name[n] = '\0';
    while (*s != '\0' && *s != '>') {
        if (*s == '"')
            s = strchr(s + 1, '"');
        assert_non_null(s);
        s++;
    }
    if (s[-1] == '/')
        *closes = -1;
    return s + 1;
}

/* Every tag that opens closes, in order, or closes itself. */
static inline void assert_nested(const char *s)
{
    char stack[64][16], name[16];
    int depth = 0, closes;

    while ((s = strchr(s, '<')) != NULL) {
        if (s[1] == '!') {
            s++;
            continue;
        }
        s = tag_at(s, name, &closes);
        if (closes == 1) {
            assert_true(depth > 0);
            if (strcmp(stack[--depth], name) != 0)
                fail_msg("%s closes %s", name, stack[depth]);
        } else if (closes == 0) {
            assert_true(depth < 64);
            memcpy(stack[depth++], name, sizeof name);
            if (strcmp(name, "style") == 0 || strcmp(name, "script") == 0)
                s = strstr(s, "</");
        }
    }
    assert_int_equal(depth, 0);
}

#endif
