/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/lines.h"

#include <stdlib.h>
#include <string.h>

#include "core/fail.h"

/* Opens the file where the text has no bytes of its own. */
static enum dew_status read_bytes(struct weather__lines *in,
                                  const struct dew_text *text,
                                  struct dew_error *err)
{
    const size_t most = (size_t)1 << 30;
    char *packed = NULL;

    in->bytes = text->bytes;
    in->size = text->length;
    if (in->bytes == NULL && core__in_read(text->name, CORE__IN_FILE, most,
                                           &in->own, &in->size, err) != DEW_OK)
        return err->status;
    if (in->bytes == NULL)
        in->bytes = packed = in->own;
    if (core__in_packed(in->bytes, in->size)) {
        core__at(err, text->name, 1, 1);
        core__in_unpack(in->bytes, &in->size, most, &in->own, err);
        in->bytes = in->own;
        free(packed);
    }
    if (in->size == most)
        core__fail(err, DEW_ERANGE, "larger than 1 GiB");
    return err->status;
}

/* Before the first of them is read: what they would take grows with them. */
static int too_long(const struct weather__lines *in)
{
    const char *at = in->bytes, *end = in->bytes + in->size;
    long ends = 0;

    while (at < end && (at = memchr(at, in->eol, (size_t)(end - at))) != NULL) {
        ends++;
        at++;
        if (ends > WEATHER__LINES_MAX)
            return 1;
    }
    return 0;
}

enum dew_status weather__lines_open(struct weather__lines *in,
                                    const struct dew_text *text,
                                    struct dew_error *err)
{
    size_t first;

    memset(in, 0, sizeof *in);
    in->path = text->name;
    core__at(err, text->name, 0, 0);
    in->text = in->room = malloc(WEATHER__LINE_MAX + 1);
    if (in->room == NULL)
        return core__fail(err, DEW_EMEM, "no memory to read %s", text->name);
    in->room[0] = '\0';
    if (read_bytes(in, text, err) != DEW_OK)
        return err->status;
    first = in->size < WEATHER__BLOCK ? in->size : WEATHER__BLOCK;
    in->eol = first > 0 && memchr(in->bytes, '\n', first) == NULL &&
                      memchr(in->bytes, '\r', first) != NULL
                  ? '\r'
                  : '\n';
    core__at(err, in->path, 0, 0);
    return too_long(in) ? core__fail(err, DEW_ERANGE,
                                     "more than 3,000,000 lines: keep the "
                                     "years, or the minutes, that are needed")
                        : DEW_OK;
}

void weather__lines_close(struct weather__lines *in)
{
    free(in->room);
    free(in->own);
    in->room = in->own = NULL;
}

void weather__lines_again(struct weather__lines *in)
{
    in->from = 0;
    in->line = 0;
}

/* What stands before the text proper: a byte order mark. */
static void skip_mark(struct weather__lines *in)
{
    if (in->length >= 3 && memcmp(in->text, "\xEF\xBB\xBF", 3) == 0) {
        in->text += 3;
        in->length -= 3;
    }
}

enum dew_status weather__lines_next(struct weather__lines *in, int *more,
                                    struct dew_error *err)
{
    const char *start = in->bytes + in->from, *end;
    size_t left = in->size - in->from;
    size_t room = left < WEATHER__LINE_MAX + 1 ? left : WEATHER__LINE_MAX + 1;

    *more = left > 0;
    if (left == 0)
        return DEW_OK;
    end = memchr(start, in->eol, room);
    in->length = end != NULL ? (size_t)(end - start) : room;
    in->line++;
    if (in->length > WEATHER__LINE_MAX) {
        core__at(err, in->path, in->line, 1);
        return core__fail(err, DEW_ESYNTAX,
                          "a line longer than %d bytes: not a table of text",
                          WEATHER__LINE_MAX);
    }
    in->from += in->length + (end != NULL);
    in->text = in->room;
    memcpy(in->text, start, in->length);
    if (in->length > 0 && in->text[in->length - 1] == '\r')
        in->length--;
    in->text[in->length] = '\0';
    if (in->line == 1)
        skip_mark(in);
    if (memchr(in->text, '\0', in->length) == NULL)
        return DEW_OK;
    core__at(err, in->path, in->line, 1);
    return core__fail(err, DEW_ESYNTAX,
                      "a zero byte: not plain text (save it as UTF-8 text, or "
                      "as CSV)");
}

static int start_parser(struct weather__cells *cells)
{
    cells->ready = csv_init(&cells->csv, 0) == 0;
    return cells->ready;
}

enum dew_status weather__cells_open(struct weather__cells *cells,
                                    struct dew_error *err)
{
    memset(cells, 0, sizeof *cells);
    cells->room = WEATHER__LINE_MAX + WEATHER__CELLS_MAX + 1;
    cells->text = malloc(cells->room);
    if (cells->text == NULL || !start_parser(cells)) {
        weather__cells_close(cells);
        return core__fail(err, DEW_EMEM, "no memory for the cells of a line");
    }
    return DEW_OK;
}

void weather__cells_close(struct weather__cells *cells)
{
    if (cells->ready)
        csv_free(&cells->csv);
    cells->ready = 0;
    free(cells->text);
    cells->text = NULL;
}

static void keep(void *cell, size_t length, void *data)
{
    struct weather__cells *cells = data;

    if (cells->count == WEATHER__CELLS_MAX ||
        cells->used + length + 1 > cells->room) {
        cells->too_many = 1;
        return;
    }
    if (cells->wanted != NULL && !cells->wanted[cells->count]) {
        cells->at[cells->count++] = 0;
        return;
    }
    cells->at[cells->count++] = cells->used;
    memcpy(cells->text + cells->used, cell, length);
    cells->used += length;
    cells->text[cells->used++] = '\0';
}

/* A parser that failed is in no known state: take a new one. */
static enum dew_status broken(struct weather__cells *cells, int line,
                              const struct weather__lines *in,
                              struct dew_error *err)
{
    int memory = csv_error(&cells->csv) == CSV_ENOMEM;
    int column = (int)cells->count + 1;

    csv_free(&cells->csv);
    cells->count = 0;
    if (!start_parser(cells) || memory)
        return core__fail(err, DEW_EMEM, "no memory for the cells of a line");
    core__at(err, in->path, line, column);
    return core__fail(err, DEW_ESYNTAX,
                      "a quote is opened and not closed on its line");
}

static enum dew_status too_many(const struct weather__lines *in,
                                struct dew_error *err)
{
    core__at(err, in->path, in->line, WEATHER__CELLS_MAX);
    return core__fail(err, DEW_ESYNTAX, "more than %d cells in a line",
                      WEATHER__CELLS_MAX);
}

static int is_blank(char c)
{
    return c == ' ' || c == '\t';
}

/* One cell of a plain line: what stands between from and to, less the blanks
   around it. */
static void keep_plain(struct weather__cells *cells, char *text, size_t from,
                       size_t to)
{
    size_t i = cells->count++;

    if (cells->wanted != NULL && !cells->wanted[i]) {
        cells->at[i] = 0;
        return;
    }
    while (from < to && is_blank(text[from]))
        from++;
    while (to > from && is_blank(text[to - 1]))
        to--;
    text[to] = '\0';
    cells->at[i] = from;
}

/*
 * A line without quotes: cut where the separators stand, as the parser would,
 * in a third of its time; cells behind the last one wanted are left.
 */
static enum dew_status cut_plain(struct weather__cells *cells,
                                 const struct weather__lines *in,
                                 char delimiter, struct dew_error *err)
{
    size_t most =
        cells->wanted != NULL ? cells->wanted_count : WEATHER__CELLS_MAX;
    char *text = cells->text;
    size_t from = 1, end = in->length + 1;

    memcpy(text + 1, in->text, in->length + 1);
    for (size_t i = 1; cells->count < most; i++) {
        if (i < end && text[i] != delimiter)
            continue;
        keep_plain(cells, text, from, i);
        from = i + 1;
        if (i >= end)
            break;
    }
    if (from <= end && cells->count == WEATHER__CELLS_MAX)
        return too_many(in, err);
    if (cells->count == 1 && text[cells->at[0]] == '\0')
        cells->count = 0; /* a blank line */
    return DEW_OK;
}

static enum dew_status parse(struct weather__cells *cells,
                             const struct weather__lines *in, char delimiter,
                             struct dew_error *err)
{
    csv_set_delim(&cells->csv, (unsigned char)delimiter);
    /* Strict only at the end: a quote left open is refused, one within a cell
       is a character. */
    csv_set_opts(&cells->csv, 0);
    if (csv_parse(&cells->csv, in->text, in->length, keep, NULL, cells) !=
            in->length ||
        csv_set_opts(&cells->csv, CSV_STRICT | CSV_STRICT_FINI) != 0 ||
        csv_fini(&cells->csv, keep, NULL, cells) != 0)
        return broken(cells, in->line, in, err);
    return cells->too_many ? too_many(in, err) : DEW_OK;
}

enum dew_status weather__cells_split(struct weather__cells *cells,
                                     const struct weather__lines *in,
                                     char delimiter, struct dew_error *err)
{
    cells->count = 0;
    cells->used = 1; /* text[0] is the empty cell */
    cells->text[0] = '\0';
    cells->too_many = 0;
    if (memchr(in->text, '"', in->length) != NULL ||
        memchr(in->text, '\r', in->length) != NULL)
        return parse(cells, in, delimiter, err);
    return cut_plain(cells, in, delimiter, err);
}

const char *weather__cell(const struct weather__cells *cells, size_t i)
{
    return i < cells->count ? cells->text + cells->at[i] : "";
}
