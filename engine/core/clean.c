/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/clean.h"

#include <string.h>

enum { SAFE = 12 }; /* room for one character made safe: "U+10FFFF" */

/* Bytes of the UTF-8 character at s, which a zero byte ends; 0: it is none. */
static size_t utf8(const unsigned char *s)
{
    size_t length = s[0] < 0x80                    ? 1
                    : s[0] >= 0xc2 && s[0] <= 0xdf ? 2
                    : s[0] >= 0xe0 && s[0] <= 0xef ? 3
                    : s[0] >= 0xf0 && s[0] <= 0xf4 ? 4
                                                   : 0;

    for (size_t i = 1; i < length; i++)
        if ((s[i] & 0xc0) != 0x80)
            return 0;
    if ((s[0] == 0xe0 && s[1] < 0xa0) || (s[0] == 0xed && s[1] > 0x9f) ||
        (s[0] == 0xf0 && s[1] < 0x90) || (s[0] == 0xf4 && s[1] > 0x8f))
        return 0;
    return length;
}

static unsigned long point_of(const unsigned char *s, size_t length)
{
    unsigned long point = length == 1 ? s[0] : s[0] & (0x7fUL >> length);

    for (size_t i = 1; i < length; i++)
        point = point << 6 | (s[i] & 0x3fUL);
    return point;
}

/* First and last of those that a terminal or a page acts on. */
static const struct range {
    unsigned long first, last;
} acted_on[] = {
    {0x0000, 0x001f}, /* controls                                           */
    {0x007f, 0x009f}, /* delete, and the controls of 8-bit terminals        */
    {0x061c, 0x061c}, /* direction of writing: marks ...                    */
    {0x200e, 0x200f},
    {0x2028, 0x202e}, /* ... line and paragraph, embeddings, overrides ...  */
    {0x2066, 0x2069}, /* ... isolates                                       */
    {0xfffe, 0xffff}, /* no characters: XML refuses them                    */
};

static int is_acted_on(unsigned long point)
{
    for (size_t i = 0; i < sizeof acted_on / sizeof *acted_on; i++)
        if (point >= acted_on[i].first && point <= acted_on[i].last)
            return 1;
    return 0;
}

/*
 * One character, at s: how many bytes it has, and in safe what is shown in
 * its place, "" when it stays.  json: as a string of JSON would have it.
 */
static size_t one(const unsigned char *s, int json, char safe[SAFE])
{
    size_t length = utf8(s);
    unsigned long point = length > 0 ? point_of(s, length) : s[0];

    safe[0] = '\0';
    if (length > 0 && !is_acted_on(point))
        return length;
    if (json)
        snprintf(safe, SAFE, "\\u%04lx", point);
    else if (length <= 1)
        snprintf(safe, SAFE, "\\x%02lx", point);
    else
        snprintf(safe, SAFE, "U+%04lX", point);
    return length > 0 ? length : 1;
}

int core__is_clean(const char *text)
{
    char safe[SAFE] = "";

    while (*text != '\0' && safe[0] == '\0')
        text += one((const unsigned char *)text, 0, safe);
    return safe[0] == '\0';
}

char *core__clean(const char *text, char *out, size_t size)
{
    size_t at = 0;

    while (*text != '\0') {
        char safe[SAFE];
        size_t length = one((const unsigned char *)text, 0, safe);
        const char *shown = safe[0] != '\0' ? safe : text;
        size_t n = safe[0] != '\0' ? strlen(safe) : length;

        if (at + n >= size)
            break;
        memcpy(out + at, shown, n);
        at += n;
        text += length;
    }
    out[at] = '\0';
    return out;
}

void core__clean_put(FILE *out, const char *text, size_t length)
{
    char piece[5] = "", safe[SAFE];

    for (size_t n; length > 0; text += n, length -= n) {
        /* a character that is cut at the end is none */
        memset(piece, 0, sizeof piece);
        memcpy(piece, text, length < 4 ? length : 4);
        n = one((const unsigned char *)piece, 0, safe);
        if (safe[0] != '\0')
            fputs(safe, out);
        else
            fwrite(text, 1, n, out);
    }
}

void core__clean_json(FILE *out, const char *json)
{
    while (*json != '\0') {
        char safe[SAFE];
        size_t length = one((const unsigned char *)json, 1, safe);

        if (safe[0] == '\0' || *json == '\n') /* between values */
            fwrite(json, 1, length, out);
        else
            fputs(safe, out);
        json += length;
    }
}
