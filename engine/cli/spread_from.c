/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file of draws, read. */
#include <csv.h>
#include <stdlib.h>
#include <string.h>

#include "cli/spread_csv.h"
#include "core/fail.h"
#include "core/in.h"

enum { FAULTS = 50, CELLS = 4096 };

static const size_t LONGEST = (size_t)1 << 30;
static const char SHARE[] = "share of ";

/* What one pass over the text knows. */
struct reading {
    struct cli__draws *d;
    struct csv_parser csv;
    struct dew_faults faults;
    struct dew_error list[FAULTS];
    int line, cells, names; /* names: cells of the first line, 0 before it   */
    int draw_cell;
    short column[CELLS]; /* of each cell: 1 + share column; 0: not read      */
    double draw;         /* of this row                                      */
    double share[CLI__DRAWS_COLUMNS];
    int bad; /* this row has a fault                                         */
};

static void fault(struct reading *r, int cell, const char *key,
                  enum dew_status status, const char *text)
{
    struct dew_error err = {0};

    core__at(&err, r->d->path, r->line, cell);
    core__in(&err, key);
    core__fail(&err, status, "%s", text);
    core__fault(&r->faults, &err);
    r->bad = 1;
}

/* ---- the line of names ----------------------------------------------------------- */

static void take_share_name(struct reading *r, const char *name, size_t size)
{
    struct cli__draws *d = r->d;
    struct cli__draws_column *c = &d->column[d->columns];

    if (d->columns == CLI__DRAWS_COLUMNS || size >= CLI__DRAWS_NAME) {
        fault(r, r->cells, "", DEW_ERANGE,
              "more shares than 256, or a name longer than 127");
        return;
    }
    memcpy(c->name, name, size);
    c->name[size] = '\0';
    c->cell = r->cells;
    for (size_t k = 0; k < d->columns; k++)
        if (strcmp(d->column[k].name, c->name) == 0)
            fault(r, r->cells, c->name, DEW_EAMBIGUOUS,
                  "this column is there twice");
    d->columns++;
    if (r->cells <= CELLS)
        r->column[r->cells - 1] = (short)d->columns;
}

static void take_name(void *data, size_t size, void *to)
{
    struct reading *r = to;
    size_t lead = sizeof SHARE - 1;

    r->cells++;
    if (size == 4 && memcmp(data, "draw", 4) == 0)
        r->draw_cell = r->cells;
    else if (size > lead && memcmp(data, SHARE, lead) == 0)
        take_share_name(r, (const char *)data + lead, size - lead);
}

static void end_names(struct reading *r)
{
    r->names = r->cells;
    if (r->draw_cell == 0)
        fault(r, 1, "draw", DEW_EMISSING,
              "this column is absent: it numbers the draws 1, 2, 3 ...");
    if (r->d->columns == 0)
        fault(r, 1, "", DEW_EMISSING,
              "there is no column \"share of KEY\" to take draws from");
}

/* ---- rows ------------------------------------------------------------------------ */

static int number(const char *text, size_t size, double *x)
{
    return size > 0 && dew_number_read(text, size, x) == size;
}

static void take_share(struct reading *r, size_t column, const char *text,
                       size_t size)
{
    char words[160];
    double *x = &r->share[column];

    if (number(text, size, x) && *x > 0 && *x < 1)
        return;
    snprintf(words, sizeof words,
             "\"%.*s\" is no share: write a number above 0 and below 1",
             size < 40 ? (int)size : 40, text);
    fault(r, r->cells, r->d->column[column].name, DEW_ERANGE, words);
}

static void take_cell(void *data, size_t size, void *to)
{
    struct reading *r = to;
    const char *text = data != NULL ? data : "";

    r->cells++;
    if (r->cells == r->draw_cell && !number(text, size, &r->draw))
        fault(r, r->cells, "draw", DEW_ESYNTAX, "this is no number");
    else if (r->cells <= CELLS && r->column[r->cells - 1] > 0)
        take_share(r, (size_t)r->column[r->cells - 1] - 1, text, size);
}

/* Room for one draw more. */
static double *grow(struct reading *r)
{
    struct cli__draws *d = r->d;

    if (d->draws == d->room) {
        size_t room = d->room > 0 ? 2 * d->room : 128;
        double *share =
            realloc(d->share, room * CLI__DRAWS_COLUMNS * sizeof *share);

        if (share == NULL)
            return NULL;
        d->share = share;
        d->room = room;
    }
    return d->share + d->draws * CLI__DRAWS_COLUMNS;
}

static void add_draw(struct reading *r)
{
    double *share = r->d->draws < DEW_SPREAD_MOST ? grow(r) : NULL;

    if (share == NULL) {
        fault(r, r->draw_cell, "draw", DEW_ERANGE,
              "more draws than 65536, or than there is memory for");
        return;
    }
    memcpy(share, r->share, sizeof r->share);
    r->d->draws++;
}

/* A draw has a row for each option: they have the same shares. */
static void end_row(struct reading *r)
{
    struct cli__draws *d = r->d;
    const double *last = d->share + (d->draws - 1) * CLI__DRAWS_COLUMNS;

    if (r->cells != r->names)
        fault(r, 1, "", DEW_ESYNTAX,
              "this row has not as many cells as there are names");
    if (r->bad)
        return;
    if ((size_t)r->draw == d->draws + 1 && r->draw <= DEW_SPREAD_MOST + 1.0) {
        add_draw(r);
        return;
    }
    if (d->draws == 0 || (size_t)r->draw != d->draws) {
        fault(r, r->draw_cell, "draw", DEW_ERANGE,
              "number the draws 1, 2, 3 ... in their order");
        return;
    }
    for (size_t k = 0; k < d->columns; k++)
        if (r->share[k] < last[k] || r->share[k] > last[k])
            fault(r, d->column[k].cell, d->column[k].name, DEW_EAMBIGUOUS,
                  "not the share of the row above, which is the same draw");
}

/* ---- lines ----------------------------------------------------------------------- */

/* One physical line, so that line numbers are exact. */
static void take_line(struct reading *r, const char *text, size_t size)
{
    void (*take)(void *, size_t, void *) =
        r->names == 0 ? take_name : take_cell;

    while (size > 0 && (text[size - 1] == '\r' || text[size - 1] == ' '))
        size--;
    if (size == 0 || *text == '#')
        return;
    r->cells = 0;
    r->bad = 0;
    r->draw = 0;
    if (csv_parse(&r->csv, text, size, take, NULL, r) != size ||
        csv_fini(&r->csv, take, NULL, r) != 0)
        fault(r, 1, "", DEW_ESYNTAX, csv_strerror(csv_error(&r->csv)));
    else if (r->names == 0)
        end_names(r);
    else
        end_row(r);
}

static void take_lines(struct reading *r, const char *text, size_t size)
{
    for (size_t at = 0; at < size && (r->names == 0 || r->draw_cell > 0);) {
        const char *end = memchr(text + at, '\n', size - at);
        size_t length = end != NULL ? (size_t)(end - text) - at : size - at;

        r->line++;
        take_line(r, text + at, length);
        at += length + 1;
    }
    if (r->d->draws == 0 && r->faults.count == 0)
        fault(r, 1, "", DEW_EMISSING, "there is no draw in this file");
}

int cli__draws_read(struct cli__draws *d, const char *path)
{
    struct reading *r = calloc(1, sizeof *r);
    struct dew_error err = {0};
    char *bytes = NULL;
    size_t length = 0;
    int code;

    if (r == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    d->path = path;
    r->d = d;
    r->faults = (struct dew_faults){r->list, FAULTS, 0};
    if (core__in_read(path, CORE__IN_ONCE, LONGEST, &bytes, &length, &err) !=
        DEW_OK) {
        core__fault(&r->faults, &err);
    } else if (csv_init(&r->csv, CSV_STRICT | CSV_STRICT_FINI) != 0) {
        core__fail(&err, DEW_EMEM, "out of memory");
        core__fault(&r->faults, &err);
    } else {
        take_lines(r, bytes, length);
        csv_free(&r->csv);
    }
    code = r->faults.count > 0 ? cli__faults(&r->faults) : CLI__DONE;
    free(bytes);
    free(r);
    return code;
}

void cli__draws_close(struct cli__draws *d)
{
    free(d->share);
}

/* ---- to a spread ----------------------------------------------------------------- */

static size_t find(const struct cli__draws *d, const char *name)
{
    size_t k = 0;

    while (k < d->columns && strcmp(d->column[k].name, name) != 0)
        k++;
    return k;
}

static void name_fault(const struct cli__draws *d, struct dew_faults *faults,
                       int cell, const char *name, const char *text)
{
    struct dew_error err = {0};

    core__at(&err, d->path, 1, cell);
    core__in(&err, name);
    core__fail(&err, DEW_EMISSING, "%s", text);
    core__fault(faults, &err);
}

/* Column k of the file into the column of the spread. */
static enum dew_status give(const struct cli__draws *d, size_t k,
                            struct dew_spread *spread, size_t column,
                            struct dew_error *err)
{
    double *share = malloc(d->draws * sizeof *share);
    enum dew_status status = DEW_EMEM;

    if (share == NULL)
        return core__fail(err, status, "out of memory");
    for (size_t i = 0; i < d->draws; i++)
        share[i] = d->share[i * CLI__DRAWS_COLUMNS + k];
    status = dew_spread_give(spread, column, share, err);
    free(share);
    return status;
}

/* What is drawn and not in the file, where it has to be whole; and the other way
   about, unless it may have more. */
enum match { WHOLE, LACKS, PART };

static void match(const struct cli__draws *d, const struct cli__spread *s,
                  enum match how, struct dew_faults *faults)
{
    unsigned char used[CLI__DRAWS_COLUMNS + 1] = {0};

    for (size_t c = 0; c < dew_spread_columns(s->spread); c++) {
        const char *name = cli__spread_column(s, c);
        size_t k = find(d, name);

        used[k] = 1;
        if (how == WHOLE && name[0] != '\0' && k == d->columns)
            name_fault(d, faults, 1, name,
                       "it is drawn, and the file has no column \"share of\" "
                       "it");
    }
    for (size_t k = 0; k < d->columns; k++)
        if (!used[k] && how != PART)
            name_fault(d, faults, d->column[k].cell, d->column[k].name,
                       "nothing is drawn for this column: give it a range, or "
                       "leave the column out");
}

static int give_all(const struct cli__draws *d, struct dew_spread *spread,
                    enum match how)
{
    const struct cli__spread s = {.spread = spread};
    struct dew_error err = {0};
    struct dew_faults faults = {calloc(FAULTS, sizeof err), FAULTS, 0};
    int code = CLI__DONE;

    if (faults.list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    match(d, &s, how, &faults);
    if (faults.count > 0)
        code = cli__faults(&faults);
    for (size_t c = 0; c < dew_spread_columns(spread) && code == CLI__DONE;
         c++) {
        size_t k = find(d, cli__spread_column(&s, c));

        if (k < d->columns && give(d, k, spread, c, &err) != DEW_OK)
            code = cli__error(&err);
    }
    free(faults.list);
    return code;
}

int cli__draws_give(const struct cli__draws *d, struct dew_spread *spread)
{
    return give_all(d, spread, WHOLE);
}

int cli__draws_lend(const struct cli__draws *d, struct dew_spread *spread)
{
    return give_all(d, spread, LACKS);
}

int cli__draws_part(const struct cli__draws *d, struct dew_spread *spread)
{
    return give_all(d, spread, PART);
}

int cli__draws_have(const struct cli__draws *d, const char *name)
{
    return find(d, name) < d->columns;
}
