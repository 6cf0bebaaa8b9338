/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Columns that belong together: one sensor each, and which one is asked for. */
#include <stdio.h>
#include <string.h>

#include "weather/log.h"

const enum weather__lane weather__sensor_lane[WEATHER__SENSOR_LANES] = {
    WEATHER__LANE_T,   WEATHER__LANE_RH,   WEATHER__LANE_TD, WEATHER__LANE_W,
    WEATHER__LANE_CO2, WEATHER__LANE_COOL, WEATHER__LANE_FAN};
const enum weather__meaning weather__sensor_meaning[WEATHER__SENSOR_LANES] = {
    WEATHER__IS_T,   WEATHER__IS_RH,   WEATHER__IS_TD, WEATHER__IS_W,
    WEATHER__IS_CO2, WEATHER__IS_COOL, WEATHER__IS_FAN};

/* Of the two tables above; from OF_CO2 on they may be the house's. */
enum { OF_T, OF_RH, OF_TD, OF_W, OF_CO2 };

/* ---- names --------------------------------------------------------------------- */

static int idle_word(const char *word, size_t n)
{
    static const char *const idle[] = {"sensor", "lgr", "sen",
                                       "lbl",    "s/n", "measured"};

    for (size_t i = 0; i < sizeof idle / sizeof idle[0]; i++)
        if (strlen(idle[i]) == n && strncmp(idle[i], word, n) == 0)
            return 1;
    return 0;
}

/* The room without what names the logger: serial numbers differ between the
   temperature and the humidity of one device. */
static void clean_name(const char *room, char *out, size_t size)
{
    size_t n = 0, length;
    int serial = 0;

    out[0] = '\0';
    for (; *room != '\0'; room += length + (room[length] == ' ')) {
        length = strcspn(room, " ");
        if (!serial && !idle_word(room, length) && n + length + 2 < size)
            n += (size_t)snprintf(out + n, size - n, "%s%.*s", n > 0 ? " " : "",
                                  (int)length, room);
        serial = length == 3 && strncmp(room, "s/n", 3) == 0;
    }
}

/* ---- columns into sensors -------------------------------------------------------- */

static int lane_of(const struct weather__column *c)
{
    for (int k = 0; k < WEATHER__SENSOR_LANES; k++)
        if (weather__sensor_meaning[k] == c->meaning)
            return k;
    return -1;
}

static struct weather__sensor *named(struct weather__log *log, const char *name)
{
    struct weather__sensor *s;

    for (int i = 0; i < log->sensor_count; i++)
        if (strcmp(log->sensors[i].name, name) == 0)
            return &log->sensors[i];
    if (log->sensor_count == DEW_LOG_SENSORS)
        return NULL;
    s = &log->sensors[log->sensor_count++];
    memset(s, 0, sizeof *s);
    snprintf(s->name, sizeof s->name, "%s", name);
    return s;
}

/* A unit for temperatures that the person gave for all without one. */
static enum dew_status give_unit(struct weather__log *log,
                                 struct weather__column *c)
{
    const char *said = log->ask->degrees;

    c->unit = weather__table_unit(&log->t, c);
    if (c->unit != NULL || said == NULL ||
        weather__meaning_quantity(c->meaning) != DEW_TEMPERATURE)
        return DEW_OK;
    c->unit = weather__unit_spelt(said, DEW_TEMPERATURE);
    return c->unit != NULL ? DEW_OK
                           : weather__reader_fault(
                                 &log->r, DEW_EUNIT, "degrees", 0, 0,
                                 "\"%s\" is no unit of temperature; degC, "
                                 "degF or K would be",
                                 said);
}

/* Beside columns said to be indoors, one that says nothing is outdoors. */
static int asked_for(const struct weather__log *log,
                     const struct weather__column *c)
{
    int indoors = 0;

    if (!log->ask->outdoors)
        return c->place != WEATHER__OUTDOORS;
    for (int i = 0; i < log->t.count; i++)
        indoors |= lane_of(&log->t.columns[i]) >= 0 &&
                   log->t.columns[i].place == WEATHER__INDOORS;
    return c->place == WEATHER__OUTDOORS ||
           (indoors && c->place == WEATHER__UNSAID && c->room[0] == '\0');
}

static enum dew_status place_column(struct weather__log *log,
                                    struct weather__column *c)
{
    char name[sizeof log->sensors[0].name];
    int lane = lane_of(c);
    struct weather__sensor *s;

    if (lane < 0 || !asked_for(log, c))
        return DEW_OK;
    if (give_unit(log, c) != DEW_OK)
        return log->r.status;
    if (lane >= OF_CO2 && c->unit == NULL) /* beside the point: left out */
        return DEW_OK;
    clean_name(c->room, name, sizeof name);
    s = named(log, name);
    if (s == NULL)
        return weather__reader_fault(&log->r, DEW_ERANGE, "sensor",
                                     log->t.header_line, c->cell + 1,
                                     "more than %d sensors", DEW_LOG_SENSORS);
    s->indoors |= c->place == WEATHER__INDOORS;
    if (s->column[lane] == NULL ||
        (s->column[lane]->unit == NULL && c->unit != NULL))
        s->column[lane] = c;
    return DEW_OK;
}

static int has_humidity(const struct weather__sensor *s)
{
    return s->column[OF_RH] != NULL || s->column[OF_TD] != NULL ||
           s->column[OF_W] != NULL;
}

/* A dew point without the temperature that goes with it tells little. */
static int is_sensor(const struct weather__sensor *s)
{
    return s->column[OF_T] != NULL || s->column[OF_RH] != NULL ||
           s->column[OF_W] != NULL;
}

static void drop(struct weather__log *log, int i)
{
    memmove(&log->sensors[i], &log->sensors[i + 1],
            (size_t)(log->sensor_count - i - 1) * sizeof log->sensors[0]);
    log->sensor_count--;
}

/* The one sensor without humidity and the one without temperature are one:
   "Indoor Temp (F)" beside "Humidity (%)". */
static void join_halves(struct weather__log *log)
{
    int warm = -1, damp = -1, warms = 0, damps = 0;

    for (int i = 0; i < log->sensor_count; i++) {
        const struct weather__sensor *s = &log->sensors[i];

        if (s->column[OF_T] != NULL && !has_humidity(s)) {
            warm = i;
            warms++;
        } else if (s->column[OF_T] == NULL && has_humidity(s)) {
            damp = i;
            damps++;
        }
    }
    if (warms != 1 || damps != 1 || log->sensor_count > 3)
        return;
    for (int k = OF_RH; k < WEATHER__SENSOR_LANES; k++)
        if (log->sensors[warm].column[k] == NULL)
            log->sensors[warm].column[k] = log->sensors[damp].column[k];
    log->sensors[warm].indoors |= log->sensors[damp].indoors;
    drop(log, damp);
}

/* Where temperatures have units, one without is a name that reads like one:
   some loggers head the row numbers with the device's name. */
static void drop_names(struct weather__log *log)
{
    int units = 0;

    for (int i = 0; i < log->sensor_count; i++) {
        const struct weather__column *t = log->sensors[i].column[OF_T];

        units += t != NULL && t->unit != NULL;
    }
    for (int i = log->sensor_count - 1; units > 0 && i >= 0; i--) {
        const struct weather__column *t = log->sensors[i].column[OF_T];

        if (t != NULL && t->unit == NULL && !has_humidity(&log->sensors[i]))
            drop(log, i);
    }
}

/* Carbon dioxide or a run time alone is the house's: it goes with every sensor,
   a run time in any case. */
static void settle(struct weather__log *log)
{
    const struct weather__column *all[WEATHER__SENSOR_LANES] = {NULL};
    int indoors = 0;

    for (int i = log->sensor_count - 1; i >= 0; i--) {
        struct weather__sensor *s = &log->sensors[i];

        for (int k = OF_CO2; k < WEATHER__SENSOR_LANES; k++)
            if (s->column[k] != NULL && (k > OF_CO2 || !is_sensor(s)))
                all[k] = s->column[k];
        if (!is_sensor(s))
            drop(log, i);
    }
    drop_names(log);
    join_halves(log);
    for (int i = 0; i < log->sensor_count; i++)
        indoors |= log->sensors[i].indoors;
    /* beside columns said to be indoors, one that says nothing is outdoors */
    for (int i = log->sensor_count - 1; indoors && i >= 0; i--)
        if (!log->sensors[i].indoors && log->sensors[i].name[0] == '\0')
            drop(log, i);
    for (int i = 0; i < log->sensor_count; i++)
        for (int k = OF_CO2; k < WEATHER__SENSOR_LANES; k++)
            if (log->sensors[i].column[k] == NULL)
                log->sensors[i].column[k] = all[k];
}

/* ---- which of them ---------------------------------------------------------------- */

static void list_sensors(const struct weather__log *log, char *out, size_t size,
                         int taken)
{
    size_t n = 0;

    out[0] = '\0';
    for (int i = 0; i < log->sensor_count; i++) {
        const char *name = log->sensors[i].name;

        if ((taken && !log->sensors[i].taken) || n + strlen(name) + 3 > size)
            continue;
        n += (size_t)snprintf(out + n, size - n, "%s%s", n > 0 ? ", " : "",
                              name);
    }
}

static int answers_to(const struct weather__sensor *s, const char *name)
{
    if (weather__same_words(s->name, name))
        return 1;
    for (int k = 0; k < WEATHER__SENSOR_LANES; k++)
        if (s->column[k] != NULL &&
            weather__same_words(s->column[k]->header, name))
            return 1;
    return 0;
}

/* One name of "bedroom, hall". */
static enum dew_status take_name(struct weather__log *log, const char *name)
{
    int all = weather__same_words(name, "all"), found = 0;

    for (int i = 0; i < log->sensor_count; i++)
        if (all || answers_to(&log->sensors[i], name))
            found = log->sensors[i].taken = 1;
    return found ? DEW_OK
                 : weather__reader_fault(
                       &log->r, DEW_EUNKNOWN, "sensor", log->t.header_line, 1,
                       "no sensor \"%.40s\"; the file has %.150s", name,
                       log->report->sensors);
}

static enum dew_status take_names(struct weather__log *log, const char *names)
{
    enum dew_status status = DEW_OK;
    char name[48];
    size_t n;

    for (; *names != '\0' && status == DEW_OK; names += n + (names[n] == ',')) {
        names += strspn(names, " ");
        n = strcspn(names, ",");
        snprintf(name, sizeof name, "%.*s", (int)(n < 47 ? n : 47), names);
        status = take_name(log, name);
    }
    return status;
}

static void count_left(struct weather__log *log)
{
    for (int i = 0; i < log->t.count; i++) {
        const struct weather__column *c = &log->t.columns[i];
        int used = lane_of(c) < 0;

        for (int k = 0; k < log->sensor_count && !used; k++)
            for (int l = 0; l < WEATHER__SENSOR_LANES; l++)
                used |= log->sensors[k].taken && log->sensors[k].column[l] == c;
        log->report->columns_left += !used;
    }
}

static enum dew_status choose(struct weather__log *log)
{
    struct dew_log_report *p = log->report;

    if (log->sensor_count == 0)
        return weather__reader_fault(
            &log->r, DEW_EMISSING, "sensor", log->t.header_line, 1,
            "no %s of an %s temperature or humidity; one named "
            "\"%stemperature (degC)\" would do",
            log->history ? "sensor's id" : "column",
            log->ask->outdoors ? "outdoor" : "indoor",
            log->ask->outdoors ? "outdoor " : "");
    for (int i = 0; i < log->sensor_count; i++)
        if (log->sensors[i].name[0] == '\0')
            snprintf(log->sensors[i].name, sizeof log->sensors[i].name,
                     "logger");
    list_sensors(log, p->sensors, sizeof p->sensors, 0);
    p->sensor_count = log->sensor_count;
    if (log->ask->outdoors)
        take_names(log, "all");
    else if (log->ask->sensor != NULL)
        take_names(log, log->ask->sensor);
    else if (log->sensor_count == 1)
        log->sensors[0].taken = 1;
    else
        weather__reader_fault(
            &log->r, DEW_EAMBIGUOUS, "sensor", log->t.header_line, 1,
            "several sensors (%.180s): say which, or all", p->sensors);
    list_sensors(log, p->taken, sizeof p->taken, 1);
    count_left(log);
    return log->r.status;
}

enum dew_status weather__log_sensors(struct weather__log *log)
{
    for (int i = 0; i < log->t.count; i++)
        if (place_column(log, &log->t.columns[i]) != DEW_OK)
            return log->r.status;
    settle(log);
    return choose(log);
}

enum dew_status weather__log_take(struct weather__log *log,
                                  const struct weather__sensor *sensor)
{
    struct weather__table *t = &log->t;

    memset(t->lane, 0, sizeof t->lane);
    for (int k = 0; k < WEATHER__SENSOR_LANES; k++)
        /* with the humidity known, its dew point is superfluous */
        if (sensor->column[k] != NULL &&
            (k < OF_TD || k >= OF_CO2 || sensor->column[OF_RH] == NULL))
            weather__table_take(t, weather__sensor_lane[k], sensor->column[k]);
    return log->r.status;
}
