/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table as a SQLite file.  It is written once, whole, in one transaction
 * and in the order of its rows, so that its bytes hang on the rows and on
 * SQLite's version alone; a journal of its own would only guard what takes its
 * name when it is complete.
 */
#include <errno.h>
#include <math.h>
#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "core/fail.h"
#include "core/part.h"
#include "survey/survey.h"

struct writer {
    sqlite3 *db;
    sqlite3_stmt *row;
    int at; /* cells of this row                                             */
};

static enum dew_status fail(sqlite3 *db, struct dew_error *err)
{
    return core__fail(err, DEW_EIO, "march.sqlite: cannot be written: %s",
                      sqlite3_errmsg(db));
}

static enum dew_status run(sqlite3 *db, const char *sql, struct dew_error *err)
{
    return sqlite3_exec(db, sql, NULL, NULL, NULL) == SQLITE_OK ? DEW_OK
                                                                : fail(db, err);
}

/* Runs what was put together, and frees it. */
static enum dew_status run_text(sqlite3 *db, sqlite3_str *text,
                                struct dew_error *err)
{
    char *sql = sqlite3_str_finish(text);
    enum dew_status status = sql != NULL
                                 ? run(db, sql, err)
                                 : core__fail(err, DEW_EMEM, "out of memory");

    sqlite3_free(sql);
    return status;
}

/* ---- cells ---------------------------------------------------------------------------- */

static void put_text(void *of, const char *text)
{
    struct writer *w = of;

    w->at++;
    if (text[0] != '\0')
        sqlite3_bind_text(w->row, w->at, text, -1, SQLITE_TRANSIENT);
}

static void put_number(void *of, double x)
{
    struct writer *w = of;

    w->at++;
    if (isfinite(x))
        sqlite3_bind_double(w->row, w->at, x);
}

static void put_whole(void *of, size_t n)
{
    struct writer *w = of;

    sqlite3_bind_int64(w->row, ++w->at, (sqlite3_int64)n);
}

static enum dew_status end_row(void *of, struct dew_error *err)
{
    struct writer *w = of;
    int done = sqlite3_step(w->row) == SQLITE_DONE;
    enum dew_status status = done ? DEW_OK : fail(w->db, err);

    sqlite3_reset(w->row);
    sqlite3_clear_bindings(w->row);
    w->at = 0;
    return status;
}

/* ---- tables --------------------------------------------------------------------------- */

static enum dew_status make_march(sqlite3 *db, const struct dew_survey_plan *p,
                                  size_t *columns, struct dew_error *err)
{
    static const char *const types[] = {" INTEGER", " REAL", " TEXT"};
    sqlite3_str *text = sqlite3_str_new(db);
    char name[SURVEY__COLUMN];
    enum survey__type type;

    sqlite3_str_appendall(text, "CREATE TABLE march(");
    for (*columns = 0; survey__column(p, *columns, name, &type); ++*columns)
        sqlite3_str_appendf(text, "%s%s%s%s", *columns > 0 ? "," : "", name,
                            types[type], *columns == 0 ? " PRIMARY KEY" : "");
    sqlite3_str_appendall(text, ")");
    return run_text(db, text, err);
}

static enum dew_status fill(const struct dew_survey *s, sqlite3 *db,
                            const char *table, size_t columns,
                            struct dew_error *err)
{
    struct writer w = {.db = db};
    const struct survey__taker to = {&w, put_text, put_number, put_whole,
                                     end_row};
    sqlite3_str *text = sqlite3_str_new(db);
    enum dew_status status;
    char *sql;

    sqlite3_str_appendf(text, "INSERT INTO %s VALUES(", table);
    for (size_t i = 0; i < columns; i++)
        sqlite3_str_appendall(text, i > 0 ? ",?" : "?");
    sqlite3_str_appendall(text, ")");
    sql = sqlite3_str_finish(text);
    if (sql == NULL ||
        sqlite3_prepare_v2(db, sql, -1, &w.row, NULL) != SQLITE_OK)
        status = fail(db, err);
    else
        status =
            (strcmp(table, "march") == 0 ? survey__rows
                                         : survey__fault_rows)(s, &to, err);
    sqlite3_finalize(w.row);
    sqlite3_free(sql);
    return status;
}

static enum dew_status make_about(const struct dew_survey_plan *p, sqlite3 *db,
                                  struct dew_error *err)
{
    sqlite3_str *text = sqlite3_str_new(db);
    size_t length;
    const char *scenario = survey__scenario(p, &length);

    sqlite3_str_appendf(
        text,
        "CREATE TABLE about(what TEXT, text TEXT);"
        "INSERT INTO about VALUES('version',%Q),('plan',%.*Q),('scenario',"
        "%.*Q)",
        DEW_VERSION, (int)p->length, p->bytes, (int)length, scenario);
    return run_text(db, text, err);
}

/* ---- views ---------------------------------------------------------------------------- */

static const char *const hours[] = {"too_humid_h", "too_dry_h",
                                    "short_of_air_h", "glass_wet_h",
                                    "short_heat_h"};
enum { HOURS = sizeof hours / sizeof *hours };

/* Means, medians and shares of the rows that are counted: the draws, or where
   there are none the likely houses. */
static enum dew_status make_view(sqlite3 *db, const char *view, const char *by,
                                 size_t draws, struct dew_error *err)
{
    sqlite3_str *t = sqlite3_str_new(db);

    sqlite3_str_appendf(t, "CREATE VIEW %s AS WITH r AS (SELECT *", view);
    for (size_t i = 0; i < HOURS; i++)
        sqlite3_str_appendf(t,
                            ", row_number() OVER (PARTITION BY %s ORDER BY %s) "
                            "AS at_%s",
                            by, hours[i], hours[i]);
    sqlite3_str_appendf(t,
                        ", count(*) OVER (PARTITION BY %s) AS n FROM march "
                        "WHERE draw %s 0) SELECT %s, count(*) AS marches",
                        by, draws > 0 ? ">" : "=", by);
    for (size_t i = 0; i < HOURS; i++)
        sqlite3_str_appendf(t,
                            ", avg(%s) AS mean_%s, avg(CASE WHEN at_%s IN "
                            "((n + 1) / 2, (n + 2) / 2) THEN %s END) AS "
                            "median_%s",
                            hours[i], hours[i], hours[i], hours[i], hours[i]);
    sqlite3_str_appendf(
        t,
        ", avg(energy_kwh) AS mean_energy_kwh, avg(running) AS mean_running, "
        "avg(present) AS mean_present, avg(keeps) AS share_keeps, "
        "avg(ventilates) AS share_ventilates, avg(best) AS share_best, "
        "min(row) AS first_row FROM r GROUP BY %s ORDER BY first_row",
        by);
    return run_text(db, t, err);
}

/* Of two that are best as often, the first option. */
#define BEST_BY_PLACE                                                          \
    "CREATE VIEW best_by_place AS SELECT place, station, state, lat_deg, "     \
    "lon_deg, CASE WHEN share_best > 0 THEN option END AS option, "            \
    "share_best, share_none, median_too_humid_h, median_too_dry_h FROM "       \
    "(SELECT *, row_number() OVER (PARTITION BY place, station, lat_deg, "     \
    "lon_deg ORDER BY share_best DESC, first_row) AS rank, 1 - "               \
    "sum(share_best) OVER (PARTITION BY place, station, lat_deg, lon_deg) AS " \
    "share_none FROM by_place_option) WHERE rank = 1 ORDER BY first_row"

static enum dew_status make_views(sqlite3 *db, size_t draws,
                                  struct dew_error *err)
{
    enum dew_status status = make_view(db, "by_option", "option", draws, err);

    if (status == DEW_OK)
        status = make_view(db, "by_place_option",
                           "place, station, state, lat_deg, lon_deg, option",
                           draws, err);
    return status == DEW_OK ? run(db, BEST_BY_PLACE, err) : status;
}

/* ---- the file --------------------------------------------------------------------------- */

static enum dew_status write_all(const struct dew_survey *s, sqlite3 *db,
                                 struct dew_error *err)
{
    size_t columns;
    enum dew_status status =
        run(db,
            "PRAGMA page_size=4096; PRAGMA journal_mode=OFF; PRAGMA "
            "synchronous=OFF; PRAGMA temp_store=MEMORY; BEGIN",
            err);

    if (status == DEW_OK)
        status = make_march(db, s->plan, &columns, err);
    if (status == DEW_OK)
        status = fill(s, db, "march", columns, err);
    if (status == DEW_OK)
        status = run(db,
                     "CREATE TABLE fault(house INTEGER, station TEXT, "
                     "fault TEXT)",
                     err);
    if (status == DEW_OK)
        status = fill(s, db, "fault", 3, err);
    if (status == DEW_OK)
        status = make_about(s->plan, db, err);
    if (status == DEW_OK)
        status = make_views(db, s->size.draws, err);
    return status == DEW_OK ? run(db, "COMMIT", err) : status;
}

static enum dew_status write_part(const struct dew_survey *s, const char *part,
                                  struct dew_error *err)
{
    char *path = survey__path(s->folder, part);
    sqlite3 *db = NULL;
    enum dew_status status = DEW_EMEM;

    if (path == NULL ||
        sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE, NULL) != SQLITE_OK)
        status = path == NULL ? core__fail(err, DEW_EMEM, "out of memory")
                              : fail(db, err);
    else
        status = write_all(s, db, err);
    if (sqlite3_close(db) != SQLITE_OK && status == DEW_OK)
        status = fail(db, err);
    free(path);
    return status;
}

/* Into place once it is on the disk. */
static enum dew_status place(const struct dew_survey *s, int file,
                             const char *part, struct dew_error *err)
{
    if (fsync(file) == 0 &&
        renameat(s->directory, part, s->directory, "march.sqlite") == 0 &&
        core__folder_sync(s->directory) == 0)
        return DEW_OK;
    return core__fail(err, DEW_EIO, "march.sqlite: cannot be written: %s",
                      strerror(errno));
}

enum dew_status survey__write_sqlite(const struct dew_survey *s,
                                     struct dew_error *err)
{
    const struct core__part_name where = {s->directory, "", CORE__PART_ALONE};
    char part[64];
    int file = core__part_make(&where, part, sizeof part);
    enum dew_status status;

    if (file < 0)
        return core__fail(err, DEW_EIO, "march.sqlite: cannot be written: %s",
                          strerror(errno));
    status = write_part(s, part, err);
    if (status == DEW_OK)
        status = place(s, file, part, err);
    if (status != DEW_OK)
        unlinkat(s->directory, part, 0);
    close(file);
    return status;
}
