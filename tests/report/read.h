/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A report read back: JSON by its path, words counted. */
#ifndef DEW_TESTS_READ_H
#define DEW_TESTS_READ_H

#include <jansson.h>
#include <string.h>

#include "support/rows.h"

static inline json_t *read_json(const char *text)
{
    json_error_t error;
    json_t *o;

    assert_non_null(text);
    o = json_loads(text, JSON_REJECT_DUPLICATES, &error);
    if (o == NULL)
        fail_msg("line %d: %s", error.line, error.text);
    return o;
}

/* The value at "options.1.hours.too_humid", or NULL. */
static inline json_t *at(json_t *o, const char *path)
{
    char part[80];

    while (o != NULL && *path != '\0') {
        size_t length = strcspn(path, ".");

        snprintf(part, sizeof part, "%.*s", (int)length, path);
        o = json_is_array(o) ? json_array_get(o, strtoul(part, NULL, 10))
                             : json_object_get(o, part);
        path += length + (path[length] == '.');
    }
    return o;
}

static inline double number_at(json_t *o, const char *path)
{
    if (!json_is_number(at(o, path)))
        fail_msg("no number at %s", path);
    return json_number_value(at(o, path));
}

static inline const char *text_at(json_t *o, const char *path)
{
    if (!json_is_string(at(o, path)))
        fail_msg("no words at %s", path);
    return json_string_value(at(o, path));
}

static inline size_t times(const char *text, const char *what)
{
    size_t n = 0;

    for (const char *s = text; (s = strstr(s, what)) != NULL; s++)
        n++;
    return n;
}

#endif
