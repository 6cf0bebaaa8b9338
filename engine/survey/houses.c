/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file of houses: a line of keys, then one house a row. */
#include <csv.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "run/run.h"
#include "survey/survey.h"

struct table {
    struct survey__reading *r;
    struct csv_parser csv;
    int line;
    size_t cells; /* of this line so far                          */
    size_t names; /* of the first line; 0 before it               */
    size_t room;  /* houses that there is room for                */
    int bad;
    char *copy; /* where the next cell's text goes: cells are no longer than
                   the file                                                  */
};

static void at_cell(const struct table *t, size_t cell, struct dew_error *err)
{
    *err = (struct dew_error){0};
    core__at(err, t->r->plan->houses_name, t->line, (int)cell);
}

static void fault(struct table *t, size_t cell, enum dew_status status,
                  const char *text)
{
    struct dew_error err;

    at_cell(t, cell, &err);
    core__fail(&err, status, "%s", text);
    survey__pass_on(t->r, &err);
    t->bad = 1;
}

/* ---- cells ---------------------------------------------------------------------- */

static const char *keep(struct table *t, const void *data, size_t size)
{
    char *text = t->copy;

    if (size > 0)
        memcpy(text, data, size);
    text[size] = '\0';
    t->copy += size + 1;
    return text;
}

static void take_name(void *data, size_t size, void *to)
{
    struct table *t = to;
    struct dew_error err;

    at_cell(t, ++t->cells, &err);
    if (survey__axis(t->r, keep(t, data, size), &err) == NULL)
        t->bad = 1;
}

static void take_cell(void *data, size_t size, void *to)
{
    struct table *t = to;
    struct dew_survey_plan *p = t->r->plan;

    t->cells++;
    if (size + 100 > SURVEY__SET)
        fault(t, t->cells, DEW_ERANGE, "longer than 3996 letters");
    else if (size == 0)
        fault(t, t->cells, DEW_EMISSING,
              "an empty cell: write a value, or none");
    else if (t->cells <= t->names)
        p->cells[p->houses * p->axis_count + t->cells - 1] =
            keep(t, data, size);
}

/* ---- lines ---------------------------------------------------------------------- */

static int grow(struct table *t)
{
    struct dew_survey_plan *p = t->r->plan;
    size_t room = t->room > 0 ? 2 * t->room : 256;
    const char **cells;
    int *lines;

    if (p->houses < t->room)
        return 1;
    cells = realloc(p->cells, room * p->axis_count * sizeof *cells);
    p->cells = cells != NULL ? cells : p->cells;
    lines = realloc(p->lines, room * sizeof *lines);
    p->lines = lines != NULL ? lines : p->lines;
    if (cells == NULL || lines == NULL)
        return 0;
    t->room = room;
    return 1;
}

static void end_row(struct table *t)
{
    struct dew_survey_plan *p = t->r->plan;

    if (t->cells != t->names)
        fault(t, 1, DEW_ESYNTAX,
              "this row has not as many cells as there are keys");
    p->lines[p->houses] = t->line;
    p->houses += (size_t)!t->bad;
}

/* One physical line, so that line numbers are exact.  0: no more are read. */
static int take_line(struct table *t, const char *text, size_t size)
{
    int head = t->names == 0;

    while (size > 0 && (text[size - 1] == '\r' || text[size - 1] == ' '))
        size--;
    if (size == 0 || *text == '#')
        return 1;
    t->cells = 0;
    t->bad = 0;
    if (!head && (t->r->plan->houses == DEW_SURVEY_HOUSES || !grow(t))) {
        fault(t, 1, DEW_ERANGE,
              "more houses than 1048576, or than there is memory for");
        return 0;
    }
    if (csv_parse(&t->csv, text, size, head ? take_name : take_cell, NULL, t) !=
            size ||
        csv_fini(&t->csv, head ? take_name : take_cell, NULL, t) != 0)
        fault(t, 1, DEW_ESYNTAX, csv_strerror(csv_error(&t->csv)));
    else if (!head)
        end_row(t);
    if (head)
        t->names = t->cells;
    return !head || !t->bad;
}

static void take_lines(struct table *t, const char *text, size_t size)
{
    size_t at = 0;
    int more = 1;

    while (at < size && more) {
        const char *end = memchr(text + at, '\n', size - at);
        size_t length = end != NULL ? (size_t)(end - text) - at : size - at;

        t->line++;
        more = take_line(t, text + at, length);
        at += length + 1;
    }
    if (t->r->plan->houses == 0 && more && t->r->status == DEW_OK)
        fault(t, 1, DEW_EMISSING,
              "there is no house in this file: keys on the first line, then "
              "one house a row");
}

static void take_file(struct survey__reading *r, struct run__file *f)
{
    struct table t = {.r = r};
    struct dew_survey_plan *p = r->plan;

    p->houses_name = scenario__arena_text(&p->arena, f->name, strlen(f->name));
    dew_report_sha256(f->bytes, f->length, p->houses_sum);
    /* each cell is followed by a comma, an end of line or the end */
    t.copy = p->houses_bytes = malloc(f->length + 2);
    p->houses = 0;
    if (p->houses_name == NULL || t.copy == NULL ||
        csv_init(&t.csv, CSV_STRICT | CSV_STRICT_FINI) != 0) {
        survey__memory(r);
        return;
    }
    take_lines(&t, f->bytes, f->length);
    csv_free(&t.csv);
}

void survey__houses(struct survey__reading *r,
                    const struct scenario__node *node)
{
    struct run__file *f = calloc(1, sizeof *f);
    struct dew_error err = {0};

    core__at(&err, r->plan->name, node->line, node->column);
    core__in(&err, "houses");
    if (f == NULL)
        survey__memory(r);
    else if (node->shape != SCENARIO__SCALAR || node->text[0] == '\0')
        survey__blame(r, node, "houses", DEW_ESYNTAX,
                      "write the name of a CSV file");
    else if (run__beside(r->plan->name, node->text, SURVEY__FILES, f, &err) !=
             DEW_OK)
        survey__pass_on(r, &err);
    else
        take_file(r, f);
    if (f != NULL)
        free(f->bytes);
    free(f);
}

/* ---- are they taken? ------------------------------------------------------------ */

static void check_house(struct survey__reading *r, struct survey__look *look,
                        size_t house)
{
    struct dew_survey_plan *p = r->plan;
    struct dew_scenario *s;
    int good;

    survey__sets(p, house, 0, &look->sets);
    for (size_t a = 0; a < p->axis_count; a++) {
        look->at[a] = (struct dew_error){0};
        core__at(&look->at[a], p->houses_name, p->lines[house], (int)a + 1);
    }
    good = survey__look(r, look, 0, p->axis_count, &s) == 0 && s != NULL;
    for (size_t a = 0; a < p->axis_count && good; a++)
        survey__known(r, &p->axes[a], s, &look->at[a]);
    dew_scenario_close(s);
}

void survey__check_houses(struct survey__reading *r)
{
    const struct dew_survey_plan *p = r->plan;
    struct survey__look *look;

    if (p->cells == NULL)
        return;
    look = calloc(1, sizeof *look);
    for (size_t i = 0; i < p->houses && i < DEW_SURVEY_CHECKED && look != NULL;
         i++)
        check_house(r, look, i);
    if (look == NULL)
        survey__memory(r);
    free(look);
}
