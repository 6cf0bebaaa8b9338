/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words that could stand as a value: keys, places, options, files. */
#include <ctype.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "cli/tell.h"
#include "run/run.h"

enum { WORD = 80, PLACE_WORDS = 4 };

/* Each of the words of "us|si". */
static void tell_choices(const char *lead, const char *list, int length,
                         const char *begin)
{
    char word[WORD];

    for (const char *at = list; at < list + length;) {
        int n = (int)strcspn(at, "|");

        if (n > (int)(list + length - at))
            n = (int)(list + length - at);
        snprintf(word, sizeof word, "%.*s", n, at);
        cli__tell_word(lead, word, begin, "");
        at += n + 1;
    }
}

/* ---- keys ------------------------------------------------------------------- */

static void tell_key_values(const struct dew_field *f, const char *lead,
                            const char *begin)
{
    if (f->kind == DEW_KIND_WORD)
        tell_choices(lead, f->words, (int)strlen(f->words), begin);
    else if (f->kind == DEW_KIND_FLAG)
        tell_choices(lead, "yes|no", 6, begin);
    else if (f->kind == DEW_KIND_ANSWER)
        tell_choices(lead, "yes|no|unknown", 14, begin);
}

static void tell_keys(const struct cli__value_asked *a, const char *tail)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    const char *equal = strchr(a->begin, '=');
    char word[2 * WORD];

    if (equal != NULL && tail[0] != '\0') {
        snprintf(word, sizeof word, "%.*s", (int)(equal - a->begin), a->begin);
        f = dew_scenario_field(word);
        snprintf(word, sizeof word, "%s%.*s", a->lead,
                 (int)(equal + 1 - a->begin), a->begin);
        if (f != NULL)
            tell_key_values(f, word, equal + 1);
        return;
    }
    for (size_t i = 0; i < count; i++) {
        size_t n = strcspn(f[i].path, ".");

        if (tail[0] == '\0' && f[i].path[n] == '.' &&
            (i == 0 || strncmp(f[i].path, f[i - 1].path, n + 1) != 0)) {
            snprintf(word, sizeof word, "%.*s", (int)n, f[i].path);
            cli__tell_word(a->lead, word, a->begin, dew_scenario_group(word));
        }
        snprintf(word, sizeof word, "%s%s", f[i].path, tail);
        cli__tell_word(a->lead, word, a->begin, f[i].help);
    }
}

/* ---- options of the scenario that the line names ----------------------------- */

static struct dew_scenario *open_named(const char *path)
{
    struct dew_scenario_source from = {.name = path};
    struct dew_scenario *s = NULL;
    char *text;

    if (run__text(path, &text, &from.length, NULL) != DEW_OK)
        return NULL;
    from.text = text;
    (void)dew_scenario_open(&s, &from, NULL);
    free(text);
    return s;
}

static void tell_option_names(const struct cli__value_asked *a)
{
    struct dew_scenario *s = NULL;

    for (int i = 0; i < a->count && s == NULL; i++)
        if (strstr(a->words[i], ".yaml") != NULL)
            s = open_named(a->words[i]);
    if (s == NULL)
        return;
    for (size_t i = 0; i < dew_scenario_count(s); i++)
        cli__tell_word(a->lead, dew_scenario_name(s, i), a->begin, "");
    dew_scenario_close(s);
}

/* ---- places ------------------------------------------------------------------ */

/* A growing list of words of places. */
struct place_words {
    char (*list)[WORD];
    size_t count, room;
};

static void keep(struct place_words *w, const char *word, size_t length)
{
    if (length == 0 || length >= WORD)
        return;
    if (w->count == w->room) {
        size_t room = w->room ? 2 * w->room : 256;
        char(*more)[WORD] = realloc(w->list, room * sizeof *w->list);

        if (more == NULL)
            return;
        w->list = more;
        w->room = room;
    }
    for (size_t i = 0; i < length; i++)
        w->list[w->count][i] = (char)tolower((unsigned char)word[i]);
    w->list[w->count++][length] = '\0';
}

static void keep_words(struct place_words *w, const struct dew_climate *place,
                       const char *begin)
{
    const char *at = place->site.name;
    size_t n = strlen(begin);

    for (; *at != '\0'; at += strspn(at, " /()")) {
        size_t length = strcspn(at, " /()");

        if (strncasecmp(at, begin, n) == 0)
            keep(w, at, length);
        at += length;
    }
    if (strncasecmp(place->state, begin, n) == 0)
        keep(w, place->state, strlen(place->state));
}

static int by_spelling(const void *a, const void *b)
{
    return strcmp(a, b);
}

/* The words before, which the place must answer to as well. */
static void join(const struct cli__value_asked *a, char *out, size_t size)
{
    out[0] = '\0';
    for (int i = 0; i < a->count; i++) {
        size_t used = strlen(out);

        snprintf(out + used, size - used, "%s ", a->words[i]);
    }
}

static void tell_places(const struct cli__value_asked *a)
{
    struct place_words w = {NULL, 0, 0};
    struct dew_climate place;
    char before[4 * WORD], what[2 * WORD];

    join(a, before, sizeof before);
    if (a->begin[0] == '\0' && before[0] == '\0')
        return; /* a thousand places */
    for (size_t at = 0; dew_climate_next(&at, &place);) {
        if (!dew_climate_answers(&place, before))
            continue;
        snprintf(what, sizeof what, "%s %s", place.site.name, place.state);
        if (isdigit((unsigned char)a->begin[0]))
            cli__tell_word(a->lead, place.site.id, a->begin, what);
        else
            keep_words(&w, &place, a->begin);
    }
    if (w.count > 0)
        qsort(w.list, w.count, sizeof *w.list, by_spelling);
    for (size_t i = 0; i < w.count; i++)
        if (i == 0 || strcmp(w.list[i], w.list[i - 1]) != 0)
            printf("%s%s\t\n", a->lead, w.list[i]);
    free(w.list);
}

/* ---- by the value's name ------------------------------------------------------- */

static int is(const struct cli__value_asked *a, const char *name)
{
    return (int)strlen(name) == a->length &&
           strncmp(a->name, name, strlen(name)) == 0;
}

void cli__tell_value(const struct cli__value_asked *a)
{
    const char *dot = memchr(a->name, '.', (size_t)a->length);

    if (memchr(a->name, '|', (size_t)a->length) != NULL)
        tell_choices(a->lead, a->name, a->length, a->begin);
    else if (is(a, "KEY=VALUE"))
        tell_keys(a, "=");
    else if (is(a, "KEY"))
        tell_keys(a, "");
    else if (is(a, "OPTION"))
        tell_option_names(a);
    else if (is(a, "PLACE") || is(a, "WORD"))
        tell_places(a);
    else if (is(a, "DIR"))
        puts(":folders");
    else if (is(a, "SCENARIO.yaml") || is(a, "PLAN.yaml"))
        puts(":files\t.yaml");
    else if (dot != NULL || is(a, "FILE") || is(a, "OUT"))
        puts(":files");
}
