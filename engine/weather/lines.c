/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/lines.h"

#include <stdlib.h>
#include <string.h>

#include "core/fail.h"

enum dew_status dew__lines_file(struct dew_text *text, char **bytes,
                                struct dew_faults *faults)
{
    const size_t most = (size_t)1 << 31;
    struct dew_error err = {0};

    *bytes = NULL;
    if (dew__in_read(text->name, DEW__IN_FILE, most, bytes, &text->length,
                     &err) == DEW_OK &&
        text->length == most)
        dew__fail(&err, DEW_ERANGE, "larger than 2 GiB");
    text->bytes = *bytes;
    return err.status == DEW_OK ? DEW_OK : dew__fault(faults, &err);
}

enum dew_status dew__lines_open(struct dew__lines *in,
                                const struct dew_text *text,
                                struct dew_error *err)
{
    memset(in, 0, sizeof *in);
    in->path = text->name;
    in->eol = '\n';
    dew__at(err, text->name, 0, 0);
    /* The line being given out may have begun in the block before. */
    in->block = malloc(DEW__LINE_MAX + DEW__BLOCK + 1);
    if (dew__unpack_open(&in->bytes, text->bytes, text->length) &&
        in->block != NULL)
        return DEW_OK;
    dew__lines_close(in);
    return dew__fail(err, DEW_EMEM, "no memory to read %s", text->name);
}

void dew__lines_close(struct dew__lines *in)
{
    dew__unpack_close(&in->bytes);
    free(in->block);
    in->block = NULL;
}

/* Put back what the end of the last line was written over. */
static void restore(struct dew__lines *in)
{
    if (in->over != NULL)
        *in->over = in->was;
    in->over = NULL;
}

enum dew_status dew__lines_again(struct dew__lines *in, struct dew_error *err)
{
    restore(in);
    in->from = 0;
    in->line = 0;
    if (in->blocks <= 1) /* the start of the file is still in the block */
        return DEW_OK;
    in->used = 0;
    in->ended = in->blocks = 0;
    dew__unpack_close(&in->bytes);
    return dew__unpack_open(&in->bytes, in->bytes.bytes, in->bytes.length)
               ? DEW_OK
               : dew__fail(err, DEW_EMEM, "no memory to read it again");
}

static enum dew_status too_long(const struct dew__lines *in,
                                struct dew_error *err)
{
    dew__at(err, in->path, in->line + 1, 1);
    return dew__fail(err, DEW_ESYNTAX,
                     "a line longer than %d bytes: not a table of text",
                     DEW__LINE_MAX);
}

/* Move what is left to the front and read a block behind it. */
static enum dew_status refill(struct dew__lines *in, struct dew_error *err)
{
    size_t left = in->used - in->from;
    int first = in->line == 0 && in->used == 0;
    long n;

    if (left >= DEW__LINE_MAX)
        return too_long(in, err);
    restore(in);
    in->blocks++;
    memmove(in->block, in->block + in->from, left);
    in->from = 0;
    in->used = left;
    n = dew__unpack_next(&in->bytes, in->block + left, DEW__BLOCK);
    if (n < 0) {
        dew__at(err, in->path, in->line + 1, 1);
        return dew__fail(err, DEW_EIO,
                         "the compressed data are damaged or end early");
    }
    in->ended = n == 0;
    in->used += (size_t)n;
    if (first && n > 0 && memchr(in->block, '\n', in->used) == NULL &&
        memchr(in->block, '\r', in->used) != NULL)
        in->eol = '\r';
    return DEW_OK;
}

/* What stands before the text proper: a byte order mark. */
static void skip_mark(struct dew__lines *in)
{
    if (in->length >= 3 && memcmp(in->text, "\xEF\xBB\xBF", 3) == 0) {
        in->text += 3;
        in->length -= 3;
    }
}

static enum dew_status give(struct dew__lines *in, size_t length,
                            struct dew_error *err)
{
    if (length > DEW__LINE_MAX)
        return too_long(in, err);
    in->text = in->block + in->from;
    in->length = length;
    in->from += length < in->used - in->from ? length + 1 : length;
    in->line++;
    if (in->length > 0 && in->text[in->length - 1] == '\r')
        in->length--;
    in->over = in->text + in->length;
    in->was = *in->over;
    *in->over = '\0';
    if (in->line == 1)
        skip_mark(in);
    if (memchr(in->text, '\0', in->length) == NULL)
        return DEW_OK;
    dew__at(err, in->path, in->line, 1);
    return dew__fail(err, DEW_ESYNTAX,
                     "a zero byte: not plain text (save it as UTF-8 text, or "
                     "as CSV)");
}

enum dew_status dew__lines_next(struct dew__lines *in, int *more,
                                struct dew_error *err)
{
    enum dew_status status;
    size_t seen = 0;

    restore(in);
    for (;;) {
        char *start = in->block + in->from;
        size_t left = in->used - in->from;
        char *end =
            left > seen ? memchr(start + seen, in->eol, left - seen) : NULL;

        *more = 1;
        if (end != NULL)
            return give(in, (size_t)(end - start), err);
        if (in->ended) {
            *more = left > 0;
            return left > 0 ? give(in, left, err) : DEW_OK;
        }
        seen = left;
        status = refill(in, err);
        if (status != DEW_OK)
            return status;
    }
}

static int start_parser(struct dew__cells *cells)
{
    cells->ready = csv_init(&cells->csv, 0) == 0;
    return cells->ready;
}

enum dew_status dew__cells_open(struct dew__cells *cells, struct dew_error *err)
{
    memset(cells, 0, sizeof *cells);
    cells->room = DEW__LINE_MAX + DEW__CELLS_MAX + 1;
    cells->text = malloc(cells->room);
    if (cells->text == NULL || !start_parser(cells)) {
        dew__cells_close(cells);
        return dew__fail(err, DEW_EMEM, "no memory for the cells of a line");
    }
    return DEW_OK;
}

void dew__cells_close(struct dew__cells *cells)
{
    if (cells->ready)
        csv_free(&cells->csv);
    cells->ready = 0;
    free(cells->text);
    cells->text = NULL;
}

static void keep(void *cell, size_t length, void *data)
{
    struct dew__cells *cells = data;

    if (cells->count == DEW__CELLS_MAX ||
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
static enum dew_status broken(struct dew__cells *cells, int line,
                              const struct dew__lines *in,
                              struct dew_error *err)
{
    int memory = csv_error(&cells->csv) == CSV_ENOMEM;
    int column = (int)cells->count + 1;

    csv_free(&cells->csv);
    cells->count = 0;
    if (!start_parser(cells) || memory)
        return dew__fail(err, DEW_EMEM, "no memory for the cells of a line");
    dew__at(err, in->path, line, column);
    return dew__fail(err, DEW_ESYNTAX,
                     "a quote is opened and not closed on its line");
}

static enum dew_status too_many(const struct dew__lines *in,
                                struct dew_error *err)
{
    dew__at(err, in->path, in->line, DEW__CELLS_MAX);
    return dew__fail(err, DEW_ESYNTAX, "more than %d cells in a line",
                     DEW__CELLS_MAX);
}

static int is_blank(char c)
{
    return c == ' ' || c == '\t';
}

/* One cell of a plain line: what stands between from and to, less the blanks
   around it. */
static void keep_plain(struct dew__cells *cells, char *text, size_t from,
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
static enum dew_status cut_plain(struct dew__cells *cells,
                                 const struct dew__lines *in, char delimiter,
                                 struct dew_error *err)
{
    size_t most = cells->wanted != NULL ? cells->wanted_count : DEW__CELLS_MAX;
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
    if (from <= end && cells->count == DEW__CELLS_MAX)
        return too_many(in, err);
    if (cells->count == 1 && text[cells->at[0]] == '\0')
        cells->count = 0; /* a blank line */
    return DEW_OK;
}

static enum dew_status parse(struct dew__cells *cells,
                             const struct dew__lines *in, char delimiter,
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

enum dew_status dew__cells_split(struct dew__cells *cells,
                                 const struct dew__lines *in, char delimiter,
                                 struct dew_error *err)
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

const char *dew__cell(const struct dew__cells *cells, size_t i)
{
    return i < cells->count ? cells->text + cells->at[i] : "";
}
