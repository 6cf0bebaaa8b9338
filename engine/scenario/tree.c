/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/tree.h"

#include <stdlib.h>
#include <string.h>
#include <yaml.h>

#include "core/fail.h"

/* ---- memory --------------------------------------------------------------- */

struct scenario__block {
    struct scenario__block *before;
    size_t used, size;
    max_align_t data[];
};

enum { BLOCK = 32 * 1024 };

static struct scenario__block *block_new(struct scenario__arena *arena,
                                         size_t size)
{
    struct scenario__block *b;

    if (size < BLOCK)
        size = BLOCK;
    b = calloc(1, sizeof *b + size);
    if (b == NULL)
        return NULL;
    b->before = arena->last;
    b->size = size;
    arena->last = b;
    return b;
}

void *scenario__arena_take(struct scenario__arena *arena, size_t size)
{
    struct scenario__block *b = arena->last;
    void *p;

    size = (size + sizeof(max_align_t) - 1) / sizeof(max_align_t) *
           sizeof(max_align_t);
    if (b == NULL || b->size - b->used < size)
        b = block_new(arena, size);
    if (b == NULL)
        return NULL;
    p = (char *)b->data + b->used;
    b->used += size;
    return p;
}

char *scenario__arena_text(struct scenario__arena *arena, const char *text,
                           size_t length)
{
    char *copy = scenario__arena_take(arena, length + 1);

    if (copy != NULL && length > 0)
        memcpy(copy, text, length);
    return copy;
}

void scenario__arena_free(struct scenario__arena *arena)
{
    while (arena->last != NULL) {
        struct scenario__block *b = arena->last;

        arena->last = b->before;
        free(b);
    }
}

/* ---- events to tree --------------------------------------------------------- */

struct builder {
    struct scenario__arena *arena;
    struct dew_error *err;
    const char *text;
    size_t length;
    size_t at, at_index; /* byte and character of the same place */
    struct scenario__node *open[SCENARIO__DEEPEST];
    int depth;
    struct scenario__node *key, *root;
    int documents;
    yaml_mark_t quote, quote_end; /* the last quote over several lines      */
};

/* libyaml counts characters; a splice needs bytes.  Marks only grow. */
static size_t byte_of(struct builder *b, size_t index)
{
    while (b->at_index < index && b->at < b->length) {
        b->at++;
        while (b->at < b->length &&
               ((unsigned char)b->text[b->at] & 0xC0) == 0x80)
            b->at++;
        b->at_index++;
    }
    return b->at;
}

static enum dew_status refuse(struct builder *b, yaml_mark_t mark,
                              const char *what)
{
    b->err->line = (int)mark.line + 1;
    b->err->column = (int)mark.column + 1;
    return core__fail(b->err, DEW_ESYNTAX, "%s", what);
}

static struct scenario__node *node_new(struct builder *b,
                                       enum scenario__shape shape,
                                       const yaml_event_t *e)
{
    struct scenario__node *n = scenario__arena_take(b->arena, sizeof *n);

    if (n == NULL) {
        core__fail(b->err, DEW_EMEM, "out of memory");
        return NULL;
    }
    n->shape = shape;
    n->line = (int)e->start_mark.line + 1;
    n->column = (int)e->start_mark.column + 1;
    n->offset = byte_of(b, e->start_mark.index);
    n->length = byte_of(b, e->end_mark.index) - n->offset;
    n->text = "";
    return n;
}

/* Put n where it belongs: the root, an entry, or the key of the next entry. */
static void place(struct builder *b, struct scenario__node *n)
{
    struct scenario__node *parent = b->depth ? b->open[b->depth - 1] : NULL;

    if (parent == NULL) {
        b->root = n;
        return;
    }
    if (parent->shape == SCENARIO__MAP && b->key == NULL) {
        b->key = n;
        return;
    }
    n->key = b->key;
    b->key = NULL;
    if (parent->last != NULL)
        parent->last->next = n;
    else
        parent->first = n;
    parent->last = n;
}

static void note_quote(struct builder *b, const yaml_event_t *e)
{
    if (e->end_mark.line == e->start_mark.line)
        return;
    b->quote = e->start_mark;
    b->quote_end = e->end_mark;
}

static enum dew_status take_scalar(struct builder *b, const yaml_event_t *e)
{
    const char *value = (const char *)e->data.scalar.value;
    struct scenario__node *n;

    if (e->data.scalar.anchor != NULL || e->data.scalar.tag != NULL)
        return refuse(b, e->start_mark,
                      "anchors and tags (& and !) are not taken: write the "
                      "value itself");
    if (memchr(value, 0, e->data.scalar.length) != NULL)
        return refuse(b, e->start_mark, "a zero byte is no part of a value");
    n = node_new(b, SCENARIO__SCALAR, e);
    if (n == NULL)
        return DEW_EMEM;
    n->text = scenario__arena_text(b->arena, value, e->data.scalar.length);
    if (n->text == NULL)
        return core__fail(b->err, DEW_EMEM, "out of memory");
    n->quoted = e->data.scalar.style != YAML_PLAIN_SCALAR_STYLE;
    if (e->data.scalar.style == YAML_SINGLE_QUOTED_SCALAR_STYLE ||
        e->data.scalar.style == YAML_DOUBLE_QUOTED_SCALAR_STYLE)
        note_quote(b, e);
    place(b, n);
    return DEW_OK;
}

static enum dew_status take_start(struct builder *b, const yaml_event_t *e,
                                  enum scenario__shape shape)
{
    int map = shape == SCENARIO__MAP;
    struct scenario__node *parent = b->depth ? b->open[b->depth - 1] : NULL;
    struct scenario__node *n;

    if (map ? e->data.mapping_start.anchor != NULL ||
                  e->data.mapping_start.tag != NULL
            : e->data.sequence_start.anchor != NULL ||
                  e->data.sequence_start.tag != NULL)
        return refuse(b, e->start_mark,
                      "anchors and tags (& and !) are not taken: write the "
                      "value itself");
    if (b->depth == SCENARIO__DEEPEST)
        return refuse(b, e->start_mark, "nested deeper than 16");
    if (parent != NULL && parent->shape == SCENARIO__MAP && b->key == NULL)
        return refuse(b, e->start_mark, "a key must be a single word");
    n = node_new(b, shape, e);
    if (n == NULL)
        return DEW_EMEM;
    place(b, n);
    b->open[b->depth++] = n;
    return DEW_OK;
}

static enum dew_status take_event(struct builder *b, const yaml_event_t *e)
{
    switch (e->type) {
    case YAML_SCALAR_EVENT:
        return take_scalar(b, e);
    case YAML_SEQUENCE_START_EVENT:
        return take_start(b, e, SCENARIO__LIST);
    case YAML_MAPPING_START_EVENT:
        return take_start(b, e, SCENARIO__MAP);
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT:
        b->depth--;
        return DEW_OK;
    case YAML_ALIAS_EVENT:
        return refuse(b, e->start_mark,
                      "aliases (*) are not taken: write the value itself");
    case YAML_DOCUMENT_START_EVENT:
        if (b->documents++ > 0)
            return refuse(b, e->start_mark,
                          "a second document: a scenario is one");
        return DEW_OK;
    default:
        return DEW_OK;
    }
}

/* A byte order mark before the text, which the parser is not shown. */
static size_t mark_length(const char *text, size_t length)
{
    return length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
}

/* Line and column, from 1, of the byte at offset behind the mark. */
static void place_of(struct builder *b, size_t offset)
{
    size_t line_at = mark_length(b->text, b->length), end = line_at + offset;

    b->err->line = 1;
    for (size_t i = line_at; i < end && i < b->length; i++)
        if (b->text[i] == '\n') {
            b->err->line++;
            line_at = i + 1;
        }
    b->err->column = (int)(end - line_at) + 1;
}

/* The begin of that line, from 1; the end of the text where it has fewer. */
static const char *line_at(const struct builder *b, int line)
{
    const char *at = b->text, *end = b->text + b->length;

    while (at < end && line > 1)
        line -= *at++ == '\n';
    return at;
}

/* Does a tab stand before the first word of that line, from 1? */
static int tab_leads(const struct builder *b, int line)
{
    const char *at = line_at(b, line), *end = b->text + b->length;

    while (at < end && *at == ' ')
        at++;
    return at < end && *at == '\t';
}

static int in_key(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || c == '_' || c == '.';
}

/* The column of the mark in "key = value" on that line, from 1; 0 for none. */
static int equals_at(const struct builder *b, int line)
{
    const char *begin = line_at(b, line), *at = begin, *key;
    const char *end = b->text + b->length;

    while (at < end && (*at == ' ' || *at == '-'))
        at++;
    for (key = at; at < end && in_key(*at);)
        at++;
    if (at == key)
        return 0;
    while (at < end && *at == ' ')
        at++;
    return at < end && *at == '=' ? (int)(at - begin) + 1 : 0;
}

/* The parser stumbles behind what is wrong: a line of "key = value" where it
   does, or one line before, and the first of several such. */
static int equals_line(const struct builder *b, int line)
{
    if (!equals_at(b, line) && (line == 1 || !equals_at(b, --line)))
        return 0;
    while (line > 1 && equals_at(b, line - 1))
        line--;
    return line;
}

static enum dew_status quote_fault(struct builder *b,
                                   const yaml_parser_t *parser)
{
    const char *context = parser->context ? parser->context : "";

    if (strstr(context, "quoted scalar") != NULL)
        return refuse(b, parser->context_mark,
                      "a quote is opened here and not closed");
    if (b->quote_end.line == 0 ||
        b->quote_end.line != parser->problem_mark.line)
        return DEW_OK;
    return refuse(b, b->quote,
                  "a quote is opened here and not closed on its line");
}

static enum dew_status parser_fault(struct builder *b, yaml_parser_t *parser)
{
    yaml_mark_t mark = parser->problem_mark;
    int line;

    if (parser->error == YAML_MEMORY_ERROR)
        return core__fail(b->err, DEW_EMEM, "out of memory");
    if (parser->error == YAML_READER_ERROR) {
        place_of(b, parser->problem_offset);
        return core__fail(b->err, DEW_ESYNTAX,
                          "not UTF-8 text, or a character that has no place in "
                          "it");
    }
    b->err->line = (int)mark.line + 1;
    b->err->column = (int)mark.column + 1;
    if (tab_leads(b, b->err->line))
        return core__fail(b->err, DEW_ESYNTAX,
                          "a tab: lines are set in by spaces alone");
    if (quote_fault(b, parser) != DEW_OK)
        return DEW_ESYNTAX;
    line = equals_line(b, b->err->line);
    if (line > 0) {
        b->err->column = equals_at(b, line);
        b->err->line = line;
        return core__fail(b->err, DEW_ESYNTAX, SCENARIO__NO_COLON);
    }
    return core__fail(b->err, DEW_ESYNTAX, "not readable as YAML: %s",
                      parser->problem ? parser->problem : "unknown trouble");
}

static enum dew_status take_all(struct builder *b, yaml_parser_t *parser)
{
    enum dew_status status = DEW_OK;
    int done = 0;

    while (!done && status == DEW_OK) {
        yaml_event_t e;

        if (!yaml_parser_parse(parser, &e))
            return parser_fault(b, parser);
        status = take_event(b, &e);
        done = e.type == YAML_STREAM_END_EVENT;
        yaml_event_delete(&e);
    }
    return status;
}

enum dew_status scenario__tree_read(struct scenario__node **root,
                                    struct scenario__arena *arena,
                                    const char *text, size_t length,
                                    struct dew_error *err)
{
    struct builder b = {
        .arena = arena, .err = err, .text = text, .length = length};
    yaml_parser_t parser;
    enum dew_status status;
    size_t bom = mark_length(text, length);

    if (length > SCENARIO__LONGEST)
        return core__fail(err, DEW_ESYNTAX, "longer than 1 MiB");
    if (!yaml_parser_initialize(&parser))
        return core__fail(err, DEW_EMEM, "out of memory");
    b.at = bom;
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)text + bom,
                                 length - bom);
    status = take_all(&b, &parser);
    yaml_parser_delete(&parser);
    if (status == DEW_OK)
        *root = b.root;
    return status;
}

const struct scenario__node *scenario__entry(const struct scenario__node *map,
                                             const char *name)
{
    if (map->shape == SCENARIO__MAP)
        for (const struct scenario__node *e = map->first; e != NULL;
             e = e->next)
            if (strcmp(e->key->text, name) == 0)
                return e;
    return NULL;
}
