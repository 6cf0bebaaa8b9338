/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ranges that change nothing here, by the reason why. */
#include <string.h>

#include "cli/spread.h"

enum { MANY = 4, ROOM = 6000 };

/* What is told of them, as it grows. */
struct telling {
    const struct dew_spread_input *x;
    size_t count;
    const char *why;
    char text[ROOM];
    int any; /* key told of the last reason                                  */
};

static const char *path_of(const struct dew_spread_input *x)
{
    size_t keys;

    return dew_scenario_fields(&keys)[x->key].path;
}

static size_t group_length(const char *path)
{
    return strcspn(path, ".");
}

static int of_reason(const struct telling *t, size_t k)
{
    return t->x[k].still != NULL && strcmp(t->x[k].still, t->why) == 0;
}

static int of_group(const struct telling *t, size_t k, const char *path)
{
    size_t n = group_length(path);

    return of_reason(t, k) && t->x[k].usual &&
           group_length(path_of(&t->x[k])) == n &&
           strncmp(path_of(&t->x[k]), path, n) == 0;
}

static void put(struct telling *t, const char *text)
{
    size_t used = strlen(t->text);

    snprintf(t->text + used, sizeof t->text - used, "%s", text);
}

/* A key that was told stands by name, as does one of few; of more that nobody
   told, their group and how many. */
static void put_key(struct telling *t, size_t k)
{
    const char *path = path_of(&t->x[k]);
    size_t before = 0, alike = 0;
    char text[100];

    for (size_t i = 0; i < t->count && t->x[k].usual; i++) {
        if (!of_group(t, i, path))
            continue;
        alike++;
        before += i < k ? 1 : 0;
    }
    if (alike >= MANY && before > 0)
        return;
    if (alike >= MANY)
        snprintf(text, sizeof text, "%zu of %.*s", alike,
                 (int)group_length(path), path);
    else
        snprintf(text, sizeof text, "%s", path);
    put(t, t->any ? ", " : " (");
    put(t, text);
    t->any = 1;
}

static int is_first(const struct telling *t, size_t k)
{
    for (size_t i = 0; i < k; i++)
        if (of_reason(t, i))
            return 0;
    return 1;
}

static void put_reason(struct telling *t, size_t k)
{
    t->why = t->x[k].still;
    if (t->why == NULL || !is_first(t, k))
        return;
    put(t, t->text[strlen(t->text) - 1] == ':' ? " " : "; ");
    put(t, t->why);
    t->any = 0;
    for (int usual = 0; usual <= 1; usual++)
        for (size_t i = 0; i < t->count; i++)
            if (of_reason(t, i) && t->x[i].usual == usual)
                put_key(t, i);
    put(t, ")");
}

void cli__spread_print_still(const struct cli__spread *s)
{
    struct telling t = {.text = "Not drawn, for it changes nothing here:"};

    t.x = dew_spread_inputs(s->spread, &t.count);
    for (size_t k = 0; k < t.count; k++)
        put_reason(&t, k);
    put(&t, ".");
    if (t.any)
        cli__wrap(stdout, 0, t.text);
}
