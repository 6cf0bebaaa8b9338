/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of the table's places, made fit to read. */
#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "made/climate.h"

/* A word as it stands in the table and as it is shown; "" leaves it out.  The
   table cuts its names: what is left of a last word counts only there. */
/* clang-format off */
static const struct spelling {
    const char *words, *shown;
    int last;
} spellings[] = {
    {"ap arpt aprt apt airp", "Airport",  0},
    {"ar arp",                "Airport",  1},
    {"intl int'l int'",       "Intl",     0},
    {"int",                   "Intl",     1},
    {"rgnl regl rgn rg reg",  "Regional", 0},
    {"muni",                  "Municipal", 0},
    {"co co. cnty",           "County",   0},
    {"fld fd",                "Field",    0},
    {"fie fiel fl",           "Field",    1},
    {"mem",                   "Memorial", 0},
    {"natl",                  "National", 0},
    {"isl",                   "Island",   0},
    {"univ",                  "University", 0},
    {"ft",                    "Fort",     0},
    {"of",                    "of",       0},
    {"afb", "AFB", 0}, {"af", "AF", 0},     {"aaf", "AAF", 0},
    {"nas", "NAS", 0}, {"naas", "NAAS", 0}, {"naf", "NAF", 0},
    {"mcas", "MCAS", 0}, {"mcaf", "MCAF", 0}, {"angb", "ANGB", 0},
    {"arb", "ARB", 0}, {"ndb", "NDB", 0},   {"faa", "FAA", 0},
    {"wb", "WB", 0},   {"dc", "DC", 0},     {"nws", "NWS", 0},
    {"wso", "WSO", 0}, {"wsfo", "WSFO", 0}, {"usaf", "USAF", 0},
    {"ns", "NS", 0},   {"nf", "NF", 0},
    {"d`alene", "d'Alene", 0}, {"mary`s", "Mary's", 0}, {"o`neill", "O'Neill", 0},
    /* how the station works, not where it stands */
    {"awos amos asos", "", 0},
    /* one letter of a word that was cut */
    {"a i f", "", 1},
};
/* clang-format on */

static int is_one_of(const char *list, const char *word, size_t n)
{
    for (; *list != '\0'; list += strcspn(list, " "), list += *list == ' ') {
        size_t i = 0;

        while (i < n && tolower((unsigned char)word[i]) == list[i])
            i++;
        if (i == n && strcspn(list, " ") == n)
            return 1;
    }
    return 0;
}

static const struct spelling *spelling_of(const char *word, size_t n, int last)
{
    for (size_t i = 0; i < sizeof spellings / sizeof spellings[0]; i++)
        if (spellings[i].last <= last && is_one_of(spellings[i].words, word, n))
            return &spellings[i];
    return NULL;
}

/* "[...]" names who measures there. */
static const char *past_brackets(const char *text)
{
    const char *end = *text == '[' ? strchr(text, ']') : NULL;

    return end != NULL ? end + 1 : text;
}

/* Put a word behind those in out, with its mark; 0 when it does not fit. */
static int put(char *out, size_t size, char mark, const char *word, size_t n)
{
    size_t used = strlen(out);

    if (used + n + 2 > size)
        return 0;
    if (n > 0)
        snprintf(out + used, size - used, "%.*s%.*s", used > 0, &mark, (int)n,
                 word);
    return 1;
}

void made__place_name(const char *raw, char *out, size_t size)
{
    static const char apart[] = " ()/\\-[";
    char mark = ' ';

    out[0] = '\0';
    while (*(raw = past_brackets(raw)) != '\0') {
        size_t n = strcspn(raw, apart);
        const char *after = raw + n + strspn(raw + n, ") ");
        const struct spelling *s =
            spelling_of(raw, n, *past_brackets(after) == '\0');

        if (n > 0) {
            if (!put(out, size, mark, s != NULL ? s->shown : raw,
                     s != NULL ? strlen(s->shown) : n))
                return;
            mark = ' ';
        } else { /* a slash or a hyphen stays, a bracket is a blank */
            if (*raw == '-' || *raw == '/')
                mark = *raw;
            else if (*raw == '\\')
                mark = '/';
        }
        raw += n > 0 ? n : 1;
    }
}
