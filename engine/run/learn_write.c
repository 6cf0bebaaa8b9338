/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scenario's text with the ranges that the log leaves. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "run/learn.h"

enum { VALUE = 200, FAULTS = 4 };

/* A piece of the text, and what comes in its place. */
struct edit {
    size_t at, length;
    const char *group; /* of a key for the end of the file: its path         */
    char text[2 * VALUE];
};

struct edits {
    const struct dew_learn *l;
    const char *text;
    size_t length;
    struct edit *list;
    size_t count;
    char *left; /* keys that are not written                                 */
    size_t left_size;
};

static const struct dew_value *values_of(const struct dew_learn *l)
{
    return dew_scenario_values(l->run->scenario, l->run->options[0].at);
}

static void leave(struct edits *e, const char *path)
{
    size_t used = strlen(e->left);

    snprintf(e->left + used, e->left_size - used, "%s%s", used > 0 ? ", " : "",
             path);
}

/* ---- where a key goes --------------------------------------------------------------- */

static size_t group_length(const char *path)
{
    const char *dot = strrchr(path, '.');

    return dot != NULL ? (size_t)(dot - path) : 0;
}

/* Where the name of a key begins whose value is at; the text's length where
   none does. */
static size_t name_before(const struct edits *e, size_t at, const char *path)
{
    const char *name =
        path + (group_length(path) > 0 ? group_length(path) + 1 : 0);
    size_t n = strlen(name), end = at;

    while (end > 0 && strchr(" \t\"'", e->text[end - 1]) != NULL)
        end--;
    if (end == 0 || e->text[end - 1] != ':')
        return e->length;
    end--;
    return end >= n && strncmp(e->text + end - n, name, n) == 0 ? end - n
                                                                : e->length;
}

/* 1: nothing but blanks before it on its line. */
static int begins_line(const struct edits *e, size_t at)
{
    while (at > 0 && e->text[at - 1] == ' ')
        at--;
    return at == 0 || e->text[at - 1] == '\n';
}

static size_t line_of(const struct edits *e, size_t at)
{
    while (at > 0 && e->text[at - 1] != '\n')
        at--;
    return at;
}

/* Before a key of the same group that the file gives for the house itself. */
static int beside(struct edits *e, const char *path, const char *value)
{
    size_t keys, n = group_length(path);
    const struct dew_field *f = dew_scenario_fields(&keys);
    const struct dew_value *base = dew_scenario_base(e->l->run->scenario);
    struct edit *to = &e->list[e->count];

    for (size_t k = 0; k < keys; k++) {
        size_t at;

        if (!base[k].given || base[k].origin.by != DEW_BY_FILE || n == 0 ||
            group_length(f[k].path) != n ||
            strncmp(f[k].path, path, n + 1) != 0)
            continue;
        at = name_before(e, base[k].origin.offset, f[k].path);
        if (at == e->length)
            continue;
        if (begins_line(e, at)) {
            size_t line = line_of(e, at);

            snprintf(to->text, sizeof to->text, "%.*s%.99s: %.200s\n",
                     (int)(at - line), e->text + line, path + n + 1, value);
            to->at = line;
        } else {
            snprintf(to->text, sizeof to->text, "%.99s: %.200s, ", path + n + 1,
                     value);
            to->at = at;
        }
        e->count++;
        return 1;
    }
    return 0;
}

/* 1 where some option or the house gives a key of the group in the file. */
static int group_there(const struct edits *e, const char *path)
{
    size_t keys, n = group_length(path);
    const struct dew_field *f = dew_scenario_fields(&keys);
    const struct dew_value *base = dew_scenario_base(e->l->run->scenario);

    for (size_t k = 0; k < keys; k++)
        if (base[k].given && base[k].origin.by == DEW_BY_FILE &&
            strncmp(f[k].path, path, n + 1) == 0)
            return 1;
    return 0;
}

static void put(struct edits *e, const char *path, const struct dew_origin *o,
                const char *value)
{
    struct edit *to = &e->list[e->count];

    if (o->by == DEW_BY_FILE || o->by == DEW_BY_OPTION) {
        *to = (struct edit){.at = o->offset, .length = o->length};
        snprintf(to->text, sizeof to->text, "%s", value);
        e->count++;
    } else if (o->by == DEW_BY_SET) {
        leave(e, path);
    } else if (!beside(e, path, value)) {
        if (group_length(path) == 0 || group_there(e, path)) {
            leave(e, path);
            return;
        }
        *to = (struct edit){.at = e->length, .group = path};
        snprintf(to->text, sizeof to->text, "%s", value);
        e->count++;
    }
}

/* ---- what is written ------------------------------------------------------------------ */

/* The range as a figure of its own; 0 where it is none. */
static int figure(const struct edits *e, const struct dew_learn_input *x,
                  struct dew_measure *range)
{
    double usual = dew_scenario_worked(values_of(e->l), x->key);

    *range = x->left;
    switch (x->how) {
    case DEW_DOUBT_RANGE:
        return 1;
    case DEW_DOUBT_TIMES:
        *range = (struct dew_measure){usual * range->si, usual * range->low,
                                      usual * range->high};
        return isfinite(usual);
    case DEW_DOUBT_STEP:
        *range = (struct dew_measure){usual + range->si, usual + range->low,
                                      usual + range->high};
        return isfinite(usual);
    default:
        return 0;
    }
}

static void collect(struct edits *e)
{
    size_t keys;
    const struct dew_field *f = dew_scenario_fields(&keys);

    for (size_t k = 0; k < e->l->input_count; k++) {
        const struct dew_learn_input *x = &e->l->inputs[k];
        struct dew_measure range;
        char value[VALUE];

        if (!x->moved)
            continue;
        if (figure(e, x, &range))
            put(e, f[x->key].path, &values_of(e->l)[x->key].origin,
                run__learn_typed(e->l, x->key, &range, value, sizeof value));
        else
            leave(e, f[x->key].path);
    }
}

/* The name in quotes; one that has such itself, or is long, is left out. */
static void put_houses(struct edits *e, const char *name)
{
    static const char path[] = "run.houses";
    size_t keys, k = 0;
    const struct dew_field *f = dew_scenario_fields(&keys);
    char value[VALUE];

    while (k < keys && strcmp(f[k].path, path) != 0)
        k++;
    if (k == keys || strlen(name) + 3 > sizeof value ||
        strpbrk(name, "\"\\\n\t") != NULL) {
        leave(e, path);
        return;
    }
    snprintf(value, sizeof value, "\"%s\"", name);
    put(e, path, &values_of(e->l)[k].origin, value);
}

static int in_order(const void *a, const void *b)
{
    const struct edit *x = a, *y = b;

    if (x->at != y->at)
        return x->at < y->at ? -1 : 1;
    if (x->group != NULL && y->group != NULL)
        return strcmp(x->group, y->group);
    return (x->group != NULL) - (y->group != NULL);
}

static void write_group(FILE *to, const struct edits *e, size_t *i)
{
    const char *first = e->list[*i].group;
    size_t n = group_length(first);

    fprintf(to, "%.*s:\n", (int)n, first);
    for (; *i < e->count && group_length(e->list[*i].group) == n &&
           strncmp(e->list[*i].group, first, n + 1) == 0;
         (*i)++)
        fprintf(to, "  %s: %s\n", e->list[*i].group + n + 1, e->list[*i].text);
}

static void write_all(FILE *to, const struct edits *e)
{
    size_t at = 0, i = 0;

    for (; i < e->count && e->list[i].group == NULL; i++) {
        fwrite(e->text + at, 1, e->list[i].at - at, to);
        fputs(e->list[i].text, to);
        at = e->list[i].at + e->list[i].length;
    }
    fwrite(e->text + at, 1, e->length - at, to);
    if (e->length > 0 && e->text[e->length - 1] != '\n')
        fputc('\n', to);
    while (i < e->count)
        write_group(to, e, &i);
}

/* What was written is read again: text of a form that is not foreseen is
   refused, not spoilt. */
static enum dew_status try_text(const struct dew_learn *l, const char *text,
                                size_t length, struct dew_error *err)
{
    struct dew_error list[FAULTS] = {{0}};
    struct dew_faults faults = {list, FAULTS, 0};
    struct dew_scenario_source from = {
        .text = text, .length = length, .name = "the text written"};
    struct dew_scenario *s;
    enum dew_status status = dew_scenario_look(&s, &from, &faults);
    int reads = s != NULL;

    for (size_t i = 0; i < faults.count && i < faults.room; i++)
        reads &= list[i].line == 0; /* a key that is wanting: --set gave it */
    (void)l;
    dew_scenario_close(s);
    return status == DEW_OK || reads
               ? DEW_OK
               : core__fail(err, DEW_ESYNTAX,
                            "the ranges do not fit into the file as it is "
                            "written: write each key on a line of its own, or "
                            "copy the ranges told by hand");
}

char *dew_learn_write(const struct dew_learn *l, const char *houses,
                      size_t *length, char *left, size_t size,
                      struct dew_error *err)
{
    struct edits e = {.l = l,
                      .left = left,
                      .left_size = size,
                      .list = calloc(l->input_count + 2, sizeof *e.list)};
    char *out = NULL;
    FILE *to = open_memstream(&out, length);

    left[0] = '\0';
    e.text = dew_scenario_text(l->run->scenario, &e.length);
    if (!l->done || !l->learned.told)
        core__fail(err, DEW_EMISSING, "nothing was learned: nothing to write");
    else if (e.list != NULL && to != NULL) {
        collect(&e);
        if (houses != NULL)
            put_houses(&e, houses);
        qsort(e.list, e.count, sizeof *e.list, in_order);
        write_all(to, &e);
    }
    free(e.list);
    if (e.list == NULL || to == NULL || fclose(to) != 0)
        core__fail(err, DEW_EMEM, "out of memory");
    else if (l->done && l->learned.told &&
             try_text(l, out, *length, err) == DEW_OK)
        return out;
    free(out);
    return NULL;
}
