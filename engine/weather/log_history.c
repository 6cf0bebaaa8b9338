/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A history: each row has a sensor's id, its new state and the time, and comes
 * only when the state has changed.  The ids stand in for column headers.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "weather/log.h"

static const struct weather__column *first_of(const struct weather__table *t,
                                              enum weather__meaning m)
{
    for (int i = 0; i < t->count; i++)
        if (t->columns[i].meaning == m)
            return &t->columns[i];
    return NULL;
}

int weather__history_is(struct weather__log *log)
{
    for (int i = 0; i < log->t.count; i++)
        if (log->t.columns[i].meaning >= WEATHER__IS_T &&
            log->t.columns[i].meaning <= WEATHER__IS_W)
            return 0;
    log->entity = first_of(&log->t, WEATHER__IS_ENTITY);
    log->state = first_of(&log->t, WEATHER__IS_STATE);
    log->unit = first_of(&log->t, WEATHER__IS_UNIT);
    return log->entity != NULL && log->state != NULL;
}

/* The next row, split; *more 0 at the end.  A row that is none is noted. */
static enum dew_status next_row(struct weather__log *log, int *more)
{
    struct weather__table *t = &log->t;

    for (;;) {
        struct dew_error err = {0};

        if (weather__lines_next(&log->in, more, &err) != DEW_OK)
            return weather__reader_error(&log->r, &err);
        if (!*more)
            return DEW_OK;
        if (log->in.length == 0)
            continue;
        log->r.report->rows++;
        if (weather__cells_split(&t->cells, &log->in, t->delimiter, &err) ==
            DEW_OK)
            return DEW_OK;
        if (err.status == DEW_EMEM)
            return weather__reader_error(&log->r, &err);
        weather__note(&log->r, DEW_NOTICE_BROKEN, log->in.line);
    }
}

static const char *cell_of(const struct weather__log *log,
                           const struct weather__column *c)
{
    return weather__cell(&log->t.cells, (size_t)c->cell);
}

/* The column of an id, or -1. */
static int column_of(const struct weather__log *log, const char *id)
{
    for (int i = 0; i < log->t.count; i++)
        if (strncmp(log->id[i], id, sizeof log->id[i] - 1) == 0 && *id != '\0')
            return i;
    return -1;
}

/* An id seen for the first time. */
static enum dew_status add_id(struct weather__log *log, const char *id)
{
    struct weather__table *t = &log->t;
    struct weather__column *c = &t->columns[t->count];
    const char *unit;

    if (t->count == WEATHER__COLUMNS_MAX)
        return weather__reader_fault(
            &log->r, DEW_ERANGE, "sensor", log->in.line, log->entity->cell + 1,
            "more sensors than %d: leave out those that "
            "measure no temperature or humidity",
            WEATHER__COLUMNS_MAX - 8);
    weather__table_column(t, id, log->state->cell, c);
    if (c->meaning < WEATHER__IS_T || c->meaning > WEATHER__IS_FAN)
        c->meaning = WEATHER__IS_NOTHING;
    unit = log->unit != NULL ? cell_of(log, log->unit) : "";
    if (c->unit == NULL && *unit != '\0')
        c->unit =
            weather__unit_spelt(unit, weather__meaning_quantity(c->meaning));
    snprintf(log->id[t->count++], sizeof log->id[0], "%s", id);
    return DEW_OK;
}

enum dew_status weather__history_columns(struct weather__log *log)
{
    int more = 1;

    while (next_row(log, &more) == DEW_OK && more) {
        const char *id = cell_of(log, log->entity);

        if (*id != '\0' && column_of(log, id) < 0 && add_id(log, id) != DEW_OK)
            break;
    }
    return log->r.status;
}

/* The lane that takes the column, or WEATHER__LANES. */
static enum weather__lane lane_taking(const struct weather__log *log,
                                      int column)
{
    for (int k = 0; column >= 0 && k < WEATHER__SENSOR_LANES; k++)
        if (log->t.lane[weather__sensor_lane[k]] == &log->t.columns[column])
            return weather__sensor_lane[k];
    return WEATHER__LANES;
}

/* 1 where a machine's state is on or off. */
static int is_switch(const char *state, enum weather__lane lane, double *x)
{
    static const char *const words[2][4] = {
        {"off", "idle", "false", "no"}, {"on", "cooling", "true", "running"}};

    for (int on = 0; lane >= WEATHER__LANE_COOL && on <= 1; on++)
        for (int i = 0; i < 4; i++)
            if (weather__same_words(state, words[on][i])) {
                *x = on;
                return 1;
            }
    return 0;
}

/* A state that is no number says that none is known from here on. */
static void read_state(struct weather__log *log, enum weather__lane lane,
                       struct weather__sample *s)
{
    const struct weather__column *c = log->t.lane[lane];
    double x;

    if (is_switch(cell_of(log, log->state), lane, &x)) {
        weather__reader_put(&log->r, s, lane, x);
        return;
    }
    switch (
        weather__cell_number(cell_of(log, log->state), log->t.delimiter, &x)) {
    case WEATHER__CELL_NUMBER:
        if (c->unit != NULL)
            x = x * c->unit->factor + c->unit->offset;
        weather__reader_put(&log->r, s, lane, x);
        break;
    case WEATHER__CELL_MISSING:
        weather__note(&log->r, DEW_NOTICE_MISSING, log->in.line);
        break;
    case WEATHER__CELL_FLAGGED:
        weather__note(&log->r, DEW_NOTICE_FLAGGED, log->in.line);
        break;
    default:
        weather__note(&log->r, DEW_NOTICE_NOT_NUMBER, log->in.line);
    }
    if (isnan(s->lane[lane]))
        s->ends = (uint16_t)(1U << lane);
}

static enum dew_status read_change(struct weather__log *log,
                                   enum weather__lane lane)
{
    struct weather__sample *s = weather__reader_sample(&log->r);

    if (s == NULL)
        return log->r.status;
    s->line = log->in.line;
    if (!weather__table_time(&log->t, s)) {
        weather__note(&log->r, DEW_NOTICE_NO_TIME, log->in.line);
        log->r.count--;
        return DEW_OK;
    }
    read_state(log, lane, s);
    log->r.hourly++;
    return DEW_OK;
}

enum dew_status weather__history_rows(struct weather__log *log)
{
    int more = 1;

    while (next_row(log, &more) == DEW_OK && more) {
        const char *id = cell_of(log, log->entity);
        enum weather__lane lane = lane_taking(log, column_of(log, id));

        if (lane != WEATHER__LANES && read_change(log, lane) != DEW_OK)
            break;
    }
    return log->r.status;
}
