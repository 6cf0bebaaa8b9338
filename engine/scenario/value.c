/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/value.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "core/fail.h"
#include "core/near.h"
#include "scenario/keys.h"
#include "scenario/number.h"
#include "scenario/readings.h"

enum dew_status scenario__blame(struct scenario__reading *r,
                                const struct scenario__node *node,
                                const char *path, enum dew_status status,
                                const char *format, ...)
{
    struct dew_error err = {0};
    char text[sizeof err.text], whole[SCENARIO__PATH * 2];
    va_list args;

    if (r->status == DEW_OK)
        r->status = status;
    if (r->faults == NULL)
        return status;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    snprintf(whole, sizeof whole, "%s%s", r->prefix ? r->prefix : "", path);
    if (node == NULL)
        core__at(&err, r->source, 0, 0);
    else
        core__at(&err, r->source, r->line ? r->line : node->line,
                 node->column + r->shift);
    core__in(&err, whole);
    core__fail(&err, status, "%s", text);
    return core__fault(r->faults, &err);
}

/* ---- words ------------------------------------------------------------------ */

char *scenario__word_at(const char *words, int place, char *out, size_t size)
{
    while (place > 0 && words != NULL) {
        words = strchr(words, '|');
        words = words != NULL ? words + 1 : NULL;
        place--;
    }
    if (words == NULL)
        words = "";
    snprintf(out, size, "%.*s", (int)strcspn(words, "|"), words);
    return out;
}

int scenario__word_place(const char *words, const char *word)
{
    char one[64];

    for (int i = 0;; i++) {
        scenario__word_at(words, i, one, sizeof one);
        if (one[0] == '\0')
            return -1;
        if (strlen(one) == strlen(word) && core__distance(one, word) == 0)
            return i;
    }
}

/* "none, supply_only or balanced" of "none|supply_only|balanced". */
static char *spoken(const char *words, char *out, size_t size)
{
    size_t used = 0;
    const char *last = strrchr(words, '|');

    for (const char *w = words; *w != '\0' && used + 5 < size; w++) {
        if (*w != '|')
            out[used++] = *w;
        else
            used += (size_t)snprintf(out + used, size - used, "%s",
                                     w == last ? " or " : ", ");
    }
    out[used < size ? used : size - 1] = '\0';
    return out;
}

/* The piece of text before " or ", or all of it; *rest is what follows. */
static void piece(const char **rest, char *out, size_t size)
{
    const char * or = strstr(*rest, " or ");
    size_t n = or != NULL ? (size_t)(or -*rest) : strlen(*rest);

    snprintf(out, size, "%.*s", (int)n, *rest);
    *rest = or != NULL ? or +4 : NULL;
}

/* Places among words of "a or b or c", those as bits; the first is likely.
   0 where one is not known: it is put into unknown. */
static int read_several(const char *words, const char *text,
                        struct dew_value *out, char *unknown, size_t size)
{
    for (const char *rest = text; rest != NULL;) {
        int place;

        piece(&rest, unknown, size);
        place = scenario__word_place(words, unknown);
        if (place < 0)
            return 0;
        if (out->may == 0)
            out->choice = place;
        out->may |= 1U << place;
    }
    if ((out->may & (out->may - 1)) == 0)
        out->may = 0; /* one word: in no doubt */
    return 1;
}

static int is_unknown(const char *text)
{
    return scenario__word_place("unknown", text) == 0;
}

/* Whatever the key's words are; the default is the likely one. */
static int read_unknown(struct scenario__reading *r, const struct dew_field *f,
                        const char *path, const struct scenario__node *node,
                        struct dew_value *out)
{
    char list[180], word[64];

    out->choice =
        f->preset != NULL ? scenario__word_place(f->words, f->preset) : -1;
    if (out->choice < 0) {
        scenario__blame(r, node, path, DEW_EAMBIGUOUS,
                        "unknown: there is no usual one to go by; write those "
                        "it may be with \"or\" between, of %s",
                        spoken(f->words, list, sizeof list));
        return 0;
    }
    for (int i = 0;
         scenario__word_at(f->words, i, word, sizeof word)[0] != '\0'; i++)
        out->may |= 1U << i;
    return 1;
}

static int in_no_doubt(struct scenario__reading *r, const struct dew_field *f,
                       const char *path, const struct scenario__node *node)
{
    if (f->either || strstr(node->text, " or ") == NULL)
        return 1;
    scenario__blame(r, node, path, DEW_EAMBIGUOUS,
                    "\"%.40s\": this is chosen, not doubted: write one, and "
                    "the other in an option of its own",
                    node->text);
    return 0;
}

static int read_word(struct scenario__reading *r, const struct dew_field *f,
                     const char *path, const struct scenario__node *node,
                     struct dew_value *out)
{
    char list[180], word[64];

    if (!in_no_doubt(r, f, path, node))
        return 0;
    if (f->either && is_unknown(node->text))
        return read_unknown(r, f, path, node, out);
    if (read_several(f->words, node->text, out, word, sizeof word))
        return 1;
    scenario__blame(r, node, path, DEW_EUNKNOWN,
                    "\"%.40s\" is not known: write %s", word,
                    spoken(f->words, list, sizeof list));
    return 0;
}

/* Both answers, each as likely; by itself the one that stands first, or that
   of the default where neither is told. */
static int read_both(const struct dew_field *f, const char *text,
                     struct dew_value *out)
{
    int asks = f->kind == DEW_KIND_ANSWER;
    int order = scenario__word_place("unknown|yes or no|no or yes", text);

    if (!f->either || order < 0)
        return 0;
    out->may = asks ? 1U << DEW_ANSWER_NO | 1U << DEW_ANSWER_YES : 3U;
    out->choice = asks        ? DEW_ANSWER_UNKNOWN
                  : order > 0 ? order == 1
                              : scenario__word_place("yes", f->preset) == 0;
    return 1;
}

static int read_answer(struct scenario__reading *r, const struct dew_field *f,
                       const char *path, const struct scenario__node *node,
                       struct dew_value *out)
{
    /* Places: enum dew_answer for the first three. */
    int place =
        scenario__word_place("unknown|no|yes|false|true|off|on", node->text);
    int asks = f->kind == DEW_KIND_ANSWER;

    if (!in_no_doubt(r, f, path, node))
        return 0;
    if (read_both(f, node->text, out))
        return 1;
    if (place > DEW_ANSWER_YES)
        place = place % 2 ? DEW_ANSWER_NO : DEW_ANSWER_YES;
    if (place < 0 || (place == DEW_ANSWER_UNKNOWN && !asks)) {
        scenario__blame(r, node, path, DEW_EUNKNOWN,
                        "\"%.40s\" is no answer: write yes%s", node->text,
                        asks || f->either ? ", no or unknown" : " or no");
        return 0;
    }
    out->choice = asks ? place : place == DEW_ANSWER_YES;
    return 1;
}

static int read_text(struct scenario__reading *r, const char *path,
                     const struct scenario__node *node)
{
    enum { MOST = 200 };
    size_t length = strlen(node->text);

    for (size_t i = 0; i < length; i++)
        if ((unsigned char)node->text[i] < ' ' || node->text[i] == 127) {
            scenario__blame(
                r, node, path, DEW_ESYNTAX,
                "holds a control character: write plain text in one "
                "line");
            return 0;
        }
    if (length <= MOST)
        return 1;
    scenario__blame(r, node, path, DEW_ERANGE,
                    "is %zu bytes long: write at most %d", length, MOST);
    return 0;
}

/* ---- one entry, lists, rows ---------------------------------------------- */

static int read_entry(struct scenario__reading *r, const struct dew_field *f,
                      const char *path, const struct scenario__node *node,
                      struct dew_value *out)
{
    if (node->shape != SCENARIO__SCALAR) {
        scenario__blame(
            r, node, path, DEW_ESYNTAX, "takes a single value, not a %s",
            node->shape == SCENARIO__LIST ? "list" : "group of keys");
        return 0;
    }
    if (node->text[0] == '\0' && f->kind != DEW_KIND_TEXT) {
        scenario__blame(r, node, path, DEW_EMISSING,
                        "has no value: write one, or none");
        return 0;
    }
    switch (f->kind) {
    case DEW_KIND_WORD:
        return read_word(r, f, path, node, out);
    case DEW_KIND_FLAG:
    case DEW_KIND_ANSWER:
        return read_answer(r, f, path, node, out);
    case DEW_KIND_TEXT:
        return read_text(r, path, node);
    default:
        return scenario__number_value(r, f, path, node, out);
    }
}

static size_t entries(const struct scenario__node *node)
{
    size_t n = 0;

    for (const struct scenario__node *e = node->first; e != NULL; e = e->next)
        n++;
    return n;
}

static int count_fits(struct scenario__reading *r, const struct dew_field *f,
                      const char *path, const struct scenario__node *node,
                      size_t n)
{
    const char *what = f->kind == DEW_KIND_ROWS ? "rows" : "values";

    if (n >= f->least && n <= f->most)
        return 1;
    if (f->least == f->most)
        scenario__blame(r, node, path, DEW_ERANGE, "has %zu %s: write %zu", n,
                        what, f->least);
    else
        scenario__blame(r, node, path, DEW_ERANGE,
                        "has %zu %s: write %zu to %zu", n, what, f->least,
                        f->most);
    return 0;
}

static int no_memory(struct scenario__reading *r,
                     const struct scenario__node *node, const char *path)
{
    scenario__blame(r, node, path, DEW_EMEM, "out of memory");
    return 0;
}

static int read_list(struct scenario__reading *r, const struct dew_field *f,
                     const char *path, const struct scenario__node *node,
                     struct dew_value *out)
{
    size_t n = entries(node), i = 0;
    struct dew_value *items;
    int good = 1;

    if (!count_fits(r, f, path, node, n))
        return 0;
    items = scenario__arena_take(r->arena, n * sizeof *items);
    if (items == NULL)
        return no_memory(r, node, path);
    for (const struct scenario__node *e = node->first; e != NULL; e = e->next)
        good &= read_entry(r, f, path, e, &items[i++]);
    out->items = items;
    out->count = n;
    return good;
}

static const struct dew_field *column(const struct dew_field *f,
                                      const char *name)
{
    for (size_t i = 0; i < f->row_count; i++)
        if (strcmp(f->row[i].path, name) == 0)
            return &f->row[i];
    return NULL;
}

static const char *nearest_column(const struct dew_field *f, const char *name)
{
    size_t best = 0;

    for (size_t i = 1; i < f->row_count; i++)
        if (core__distance(f->row[i].path, name) <
            core__distance(f->row[best].path, name))
            best = i;
    return f->row[best].path;
}

static struct dew_origin origin_of(const struct scenario__reading *r,
                                   const struct scenario__node *node)
{
    return (struct dew_origin){r->by, r->line ? r->line : node->line,
                               node->column, node->offset, node->length};
}

static int read_cells(struct scenario__reading *r, const struct dew_field *f,
                      const char *path, const struct scenario__node *row,
                      struct dew_value *cells)
{
    char where[SCENARIO__PATH];
    int good = 1;

    for (const struct scenario__node *e = row->first; e != NULL; e = e->next) {
        const struct dew_field *c = column(f, e->key->text);
        struct dew_value value = {.given = 1, .text = e->text};

        snprintf(where, sizeof where, "%s.%.40s", path, e->key->text);
        if (c == NULL) {
            scenario__blame(r, e->key, where, DEW_EUNKNOWN,
                            "no such column; the nearest is \"%s\"",
                            nearest_column(f, e->key->text));
            good = 0;
        } else if (scenario__entry(row, c->path) != e) {
            scenario__blame(r, e->key, where, DEW_ESYNTAX,
                            "given twice: keep one of the two");
            good = 0;
        } else if (!read_entry(r, c, where, e, &value))
            good = 0;
        else {
            value.origin = origin_of(r, e);
            cells[c - f->row] = value;
        }
    }
    for (size_t i = 0; i < f->row_count; i++)
        if (f->row[i].preset == NULL &&
            scenario__entry(row, f->row[i].path) == NULL) {
            scenario__blame(r, row, path, DEW_EMISSING, "a row needs its %s",
                            f->row[i].path);
            good = 0;
        }
    return good;
}

static int read_row(struct scenario__reading *r, const struct dew_field *f,
                    const char *path, const struct scenario__node *row,
                    struct dew_value *cells)
{
    int good;

    if (row->shape != SCENARIO__MAP) {
        scenario__blame(r, row, path, DEW_ESYNTAX,
                        "takes rows such as {%s: %s, ...}", f->row[0].path,
                        f->row[0].start);
        return 0;
    }
    good = read_cells(r, f, path, row, cells);
    if (f->row == scenario__reading_columns)
        good &= scenario__reading_agrees(r, row, cells);
    return good;
}

static int read_rows(struct scenario__reading *r, const struct dew_field *f,
                     const char *path, const struct scenario__node *node,
                     struct dew_value *out)
{
    size_t n = entries(node), i = 0;
    struct dew_value *cells;
    int good = 1;

    if (node->shape != SCENARIO__LIST) {
        scenario__blame(r, node, path, DEW_ESYNTAX,
                        "takes a list of rows, each {column: value, ...}");
        return 0;
    }
    if (!count_fits(r, f, path, node, n))
        return 0;
    cells = scenario__arena_take(r->arena, n * f->row_count * sizeof *cells);
    if (cells == NULL)
        return no_memory(r, node, path);
    for (const struct scenario__node *e = node->first; e != NULL; e = e->next)
        good &= read_row(r, f, path, e, cells + f->row_count * i++);
    out->items = cells;
    out->count = n;
    return good;
}

/* AT and HOURS may stand alone; they are kept as a list of one. */
static int read_lone(struct scenario__reading *r, const struct dew_field *f,
                     const char *path, const struct scenario__node *node,
                     struct dew_value *out)
{
    struct dew_value *item;

    if (node->shape == SCENARIO__LIST)
        return read_list(r, f, path, node, out);
    item = scenario__arena_take(r->arena, sizeof *item);
    if (item == NULL)
        return no_memory(r, node, path);
    out->items = item;
    out->count = 1;
    return read_entry(r, f, path, node, item);
}

static int read_shape(struct scenario__reading *r, const struct dew_field *f,
                      const char *path, const struct scenario__node *node,
                      struct dew_value *out)
{
    switch (f->kind) {
    case DEW_KIND_ROWS:
        return read_rows(r, f, path, node, out);
    case DEW_KIND_AT:
    case DEW_KIND_HOURS:
        return read_lone(r, f, path, node, out);
    case DEW_KIND_LIST:
        if (node->shape == SCENARIO__LIST)
            return read_list(r, f, path, node, out);
        scenario__blame(r, node, path, DEW_ESYNTAX,
                        "takes a list: write [..., ...] with %zu values",
                        f->most);
        return 0;
    default:
        return read_entry(r, f, path, node, out);
    }
}

int scenario__value_read(struct scenario__reading *r,
                         const struct dew_field *field, const char *path,
                         const struct scenario__node *node,
                         struct dew_value *out)
{
    struct dew_value value = {.given = 1, .text = node->text};

    if (!read_shape(r, field, path, node, &value)) {
        if (field->row == scenario__reading_columns) { /* what is sound */
            out->items = value.items;
            out->count = value.count;
        }
        return 0;
    }
    value.origin = origin_of(r, node);
    *out = value;
    return 1;
}
