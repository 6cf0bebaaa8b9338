/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a survey came to, in groups: read from the table, one pass. */
#include <math.h>
#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "core/num.h"
#include "dew/survey.h"
#include "survey/survey.h"

enum { COLUMNS = DEW_SURVEY_KEYS + 16, ALL = 900 /* bytes, of their names */ };

/* In the order of the query, behind what it is grouped by. */
enum { ROW, KEEPS, VENTILATES, BEST, HUMID, DRY, RUNNING };
enum { MEASURES = RUNNING - HUMID + 1 };

struct reading {
    struct dew_survey_show *show;
    sqlite3 *db;
    sqlite3_stmt *rows;
    size_t room; /* of show->groups                                          */
    double *x[MEASURES];
    size_t count[MEASURES], most; /* values; room of each                    */
};

static enum dew_status fail(const struct reading *r, struct dew_error *err)
{
    return core__fail(err, DEW_EIO, "march.sqlite: cannot be read: %s",
                      sqlite3_errmsg(r->db));
}

static enum dew_status no_memory(struct dew_error *err)
{
    return core__fail(err, DEW_EMEM, "out of memory");
}

/* ---- columns ---------------------------------------------------------------------- */

struct columns {
    char name[COLUMNS][DEW_SURVEY_COLUMN];
    size_t count;
};

/* What says where and which, and not what came of it. */
static int tells_apart(const char *name)
{
    static const char *const not [] = {"row", "lat_deg", "lon_deg", "draw"};

    for (size_t i = 0; i < sizeof not / sizeof *not ; i++)
        if (strcmp(name, not [i]) == 0)
            return 0;
    return 1;
}

static enum dew_status read_columns(const struct reading *r, struct columns *c,
                                    struct dew_error *err)
{
    sqlite3_stmt *s = NULL;

    c->count = 0;
    if (sqlite3_prepare_v2(r->db, "SELECT name FROM pragma_table_info('march')",
                           -1, &s, NULL) != SQLITE_OK)
        return fail(r, err);
    while (c->count < COLUMNS && sqlite3_step(s) == SQLITE_ROW) {
        const char *name = (const char *)sqlite3_column_text(s, 0);

        if (name == NULL || strcmp(name, "too_humid_h") == 0)
            break;
        if (tells_apart(name))
            snprintf(c->name[c->count++], sizeof *c->name, "%s", name);
    }
    sqlite3_finalize(s);
    return c->count > 0 ? DEW_OK : fail(r, err);
}

/* Is column that of a word?  "house.airtightness" is also that with its unit
   behind. */
static int is_of(const char *column, const char *word, size_t length, int whole)
{
    for (size_t i = 0; i < length; i++)
        if (column[i] != (word[i] == '.' ? '_' : word[i]))
            return 0;
    return column[length] == '\0' ||
           (!whole && memchr(word, '.', length) != NULL &&
            column[length] == '_');
}

/* The shortest that fits: a key may begin as another does. */
static const char *find(const struct columns *c, const char *word,
                        size_t length)
{
    const char *best = NULL;

    for (int whole = 1; whole >= 0 && best == NULL; whole--)
        for (size_t i = 0; i < c->count; i++)
            if (is_of(c->name[i], word, length, whole) &&
                (best == NULL || strlen(c->name[i]) < strlen(best)))
                best = c->name[i];
    return best;
}

static enum dew_status unknown(const struct columns *c, const char *word,
                               size_t length, struct dew_error *err)
{
    char all[ALL] = "";

    for (size_t i = 0, used = 0; i < c->count && used < sizeof all; i++)
        used += (size_t)snprintf(all + used, sizeof all - used, "%s%s",
                                 i > 0 ? ", " : "", c->name[i]);
    return core__fail(err, DEW_EUNKNOWN,
                      "--by: \"%.*s\" is no column of this survey that tells "
                      "houses apart: %s",
                      (int)length, word, all);
}

static enum dew_status take_by(struct dew_survey_show *show,
                               const struct columns *c, const char *word,
                               size_t length, struct dew_error *err)
{
    const char *name = find(c, word, length);

    if (name == NULL)
        return unknown(c, word, length, err);
    for (size_t i = 0; i < show->by_count; i++)
        if (strcmp(show->by[i], name) == 0)
            return core__fail(err, DEW_EUNKNOWN, "--by: \"%s\" stands twice",
                              name);
    if (show->by_count == DEW_SURVEY_BY)
        return core__fail(err, DEW_EUNKNOWN, "--by: takes %d at most",
                          DEW_SURVEY_BY);
    snprintf(show->by[show->by_count++], sizeof *show->by, "%s", name);
    return DEW_OK;
}

static enum dew_status read_by(const struct reading *r, const char *by,
                               struct dew_error *err)
{
    struct columns *c = calloc(1, sizeof *c);
    enum dew_status status =
        c != NULL ? read_columns(r, c, err) : no_memory(err);

    while (status == DEW_OK) {
        size_t length = strcspn(by, ",");

        status = take_by(r->show, c, by, length, err);
        if (by[length] == '\0')
            break;
        by += length + 1;
    }
    free(c);
    return status;
}

/* ---- groups ----------------------------------------------------------------------- */

/* Two places of one name are told apart by state and number. */
static const char *words_of(const char *column)
{
    return strcmp(column, "place") != 0
               ? column
               : "CASE WHEN place IN (SELECT place FROM (SELECT DISTINCT place,"
                 " station FROM march) GROUP BY place HAVING count(*) > 1) "
                 "THEN place || ' ' || state || ', ' || station ELSE place END";
}

/* Rows that belong together come one after another.  The draws are counted, or
   where there are none the likely houses, as in the views. */
static enum dew_status ask(struct reading *r, struct dew_error *err)
{
    const struct dew_survey_show *show = r->show;
    sqlite3_str *t = sqlite3_str_new(r->db);
    enum dew_status status = DEW_OK;
    char *sql;

    sqlite3_str_appendall(t, "SELECT ");
    for (size_t i = 0; i < show->by_count; i++)
        sqlite3_str_appendf(t, "%s, ", words_of(show->by[i]));
    sqlite3_str_appendall(
        t, "row, keeps, ventilates, best, too_humid_h, too_dry_h, running "
           "FROM march WHERE (draw > 0) = ((SELECT max(draw) FROM march) > 0) "
           "ORDER BY ");
    for (size_t i = 0; i < show->by_count; i++)
        sqlite3_str_appendf(t, "%d, ", (int)i + 1);
    sqlite3_str_appendall(t, "row");
    sql = sqlite3_str_finish(t);
    if (sql == NULL ||
        sqlite3_prepare_v2(r->db, sql, -1, &r->rows, NULL) != SQLITE_OK)
        status = fail(r, err);
    sqlite3_free(sql);
    return status;
}

static const char *cell(const struct reading *r, size_t i)
{
    const char *text = (const char *)sqlite3_column_text(r->rows, (int)i);

    return text != NULL ? text : "";
}

static int is_same(const struct reading *r, const struct dew_survey_group *g)
{
    for (size_t i = 0; i < r->show->by_count; i++)
        if (g->by[i] == NULL || strcmp(g->by[i], cell(r, i)) != 0)
            return 0;
    return 1;
}

static struct dew_survey_range range(double *x, size_t n)
{
    core__sort(x, n);
    return (struct dew_survey_range){core__quantile(x, n, 0.1),
                                     core__quantile(x, n, 0.5),
                                     core__quantile(x, n, 0.9)};
}

/* The last group is whole: sums become shares. */
static void end_group(struct reading *r)
{
    struct dew_survey_show *show = r->show;
    struct dew_survey_group *g;

    if (show->count == 0)
        return;
    g = &show->groups[show->count - 1];
    g->keeps /= (double)g->marches;
    g->ventilates /= (double)g->marches;
    g->best /= (double)g->marches;
    g->too_humid = range(r->x[0], r->count[0]);
    g->too_dry = range(r->x[DRY - HUMID], r->count[DRY - HUMID]);
    g->running = range(r->x[RUNNING - HUMID], r->count[RUNNING - HUMID]);
    memset(r->count, 0, sizeof r->count);
}

static int begin_group(struct reading *r)
{
    struct dew_survey_show *show = r->show;
    struct dew_survey_group *g;

    if (show->count == r->room) {
        size_t room = 2 * r->room + 64;

        g = realloc(show->groups, room * sizeof *g);
        if (g == NULL)
            return 0;
        show->groups = g;
        r->room = room;
    }
    g = &show->groups[show->count++];
    memset(g, 0, sizeof *g);
    for (size_t i = 0; i < show->by_count; i++)
        if ((g->by[i] = strdup(cell(r, i))) == NULL)
            return 0;
    g->first = (size_t)sqlite3_column_int64(r->rows, (int)show->by_count + ROW);
    return 1;
}

static int make_room(struct reading *r)
{
    size_t most = 2 * r->most + 1024;

    if (r->count[0] < r->most)
        return 1;
    for (size_t k = 0; k < MEASURES; k++) {
        double *more = realloc(r->x[k], most * sizeof *more);

        if (more == NULL)
            return 0;
        r->x[k] = more;
    }
    r->most = most;
    return 1;
}

static void add_row(struct reading *r)
{
    struct dew_survey_group *g = &r->show->groups[r->show->count - 1];
    int at = (int)r->show->by_count;

    g->marches++;
    r->show->marches++;
    g->keeps += sqlite3_column_int(r->rows, at + KEEPS);
    g->ventilates += sqlite3_column_int(r->rows, at + VENTILATES);
    g->best += sqlite3_column_int(r->rows, at + BEST);
    for (int k = 0; k < MEASURES; k++)
        if (sqlite3_column_type(r->rows, at + HUMID + k) != SQLITE_NULL)
            r->x[k][r->count[k]++] =
                sqlite3_column_double(r->rows, at + HUMID + k);
}

static enum dew_status read_rows(struct reading *r, struct dew_error *err)
{
    struct dew_survey_show *show = r->show;
    int step;

    while ((step = sqlite3_step(r->rows)) == SQLITE_ROW) {
        if (show->count == 0 || !is_same(r, &show->groups[show->count - 1])) {
            end_group(r);
            if (!begin_group(r))
                return no_memory(err);
        }
        if (!make_room(r))
            return no_memory(err);
        add_row(r);
    }
    end_group(r);
    return step == SQLITE_DONE ? DEW_OK : fail(r, err);
}

static int by_first(const void *a, const void *b)
{
    const struct dew_survey_group *x = a, *y = b;

    return (x->first > y->first) - (x->first < y->first);
}

/* ---- opening ------------------------------------------------------------------------ */

static enum dew_status is_whole(const char *folder, struct dew_error *err)
{
    struct dew_survey_far *far = calloc(1, sizeof *far);
    enum dew_status status =
        far != NULL ? dew_survey_look(folder, far, err) : no_memory(err);

    if (status == DEW_OK && far->state.done < far->state.items)
        status = core__fail(err, DEW_EMISSING,
                            "%s: %zu of %zu items are done: there is nothing "
                            "to show before all are; the command that began "
                            "it goes on with --resume",
                            folder, far->state.done, far->state.items);
    free(far);
    return status;
}

static enum dew_status open_table(struct reading *r, const char *folder,
                                  struct dew_error *err)
{
    char *path = survey__path(folder, "march.sqlite");
    int got = SQLITE_NOMEM;

    if (path != NULL)
        got = sqlite3_open_v2(path, &r->db, SQLITE_OPEN_READONLY, NULL);
    free(path);
    if (got == SQLITE_CANTOPEN)
        return core__fail(err, DEW_EMISSING,
                          "%s: all is marched, but there is no march.sqlite: "
                          "the command that began it writes it with --resume",
                          folder);
    return got == SQLITE_OK ? DEW_OK : fail(r, err);
}

static enum dew_status read_all(struct reading *r, const char *folder,
                                const char *by, struct dew_error *err)
{
    enum dew_status status = is_whole(folder, err);

    if (status == DEW_OK)
        status = open_table(r, folder, err);
    if (status == DEW_OK)
        status = read_by(r, by, err);
    if (status == DEW_OK)
        status = ask(r, err);
    if (status == DEW_OK)
        status = read_rows(r, err);
    if (status == DEW_OK && r->show->count == 0)
        status = core__fail(err, DEW_EMISSING,
                            "%s: no house could be marched: faults.csv says "
                            "why",
                            folder);
    return status;
}

enum dew_status dew_survey_show(struct dew_survey_show **show,
                                const char *folder, const char *by,
                                struct dew_error *err)
{
    struct reading r = {.show = calloc(1, sizeof *r.show)};
    struct dew_error inside = {0};
    enum dew_status status;

    *show = NULL;
    err = err != NULL ? err : &inside;
    status = r.show != NULL ? read_all(&r, folder, by, err) : no_memory(err);
    sqlite3_finalize(r.rows);
    sqlite3_close(r.db);
    for (size_t k = 0; k < MEASURES; k++)
        free(r.x[k]);
    if (status != DEW_OK) {
        dew_survey_show_close(r.show);
        return status;
    }
    /* from the order of words to that of the table, which is the plan's */
    qsort(r.show->groups, r.show->count, sizeof *r.show->groups, by_first);
    *show = r.show;
    return DEW_OK;
}

void dew_survey_show_close(struct dew_survey_show *show)
{
    if (show == NULL)
        return;
    for (size_t i = 0; i < show->count; i++)
        for (size_t k = 0; k < DEW_SURVEY_BY; k++)
            free(show->groups[i].by[k]);
    free(show->groups);
    free(show);
}

void dew_survey_group_words(const struct dew_survey_show *show, size_t group,
                            char *out, size_t size)
{
    out[0] = '\0';
    for (size_t i = 0, used = 0; i < show->by_count && used < size; i++)
        used += (size_t)snprintf(out + used, size - used, "%s%s",
                                 i > 0 ? ", " : "", show->groups[group].by[i]);
}
