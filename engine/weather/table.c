/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Find the header of a table, and which of its columns are taken. */
#include "weather/table.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const enum weather__meaning lane_meaning[WEATHER__LANES] = {
    [WEATHER__LANE_T] = WEATHER__IS_T,
    [WEATHER__LANE_TD] = WEATHER__IS_TD,
    [WEATHER__LANE_RH] = WEATHER__IS_RH,
    [WEATHER__LANE_TWB] = WEATHER__IS_TWB,
    [WEATHER__LANE_W] = WEATHER__IS_W,
    [WEATHER__LANE_P] = WEATHER__IS_P,
    [WEATHER__LANE_WIND] = WEATHER__IS_WIND,
    [WEATHER__LANE_GLOBAL] = WEATHER__IS_GLOBAL,
    [WEATHER__LANE_DIRECT] = WEATHER__IS_DIRECT,
    [WEATHER__LANE_DIFFUSE] = WEATHER__IS_DIFFUSE,
    [WEATHER__LANE_CLOUD] = WEATHER__IS_CLOUD,
    [WEATHER__LANE_INFRARED] = WEATHER__IS_INFRARED,
    [WEATHER__LANE_CO2] = WEATHER__IS_CO2,
    [WEATHER__LANE_COOL] = WEATHER__IS_COOL,
    [WEATHER__LANE_FAN] = WEATHER__IS_FAN,
};

/* ---- what was said -------------------------------------------------------- */

static const struct dew_column_said *said_of(const struct weather__table *t,
                                             const char *header)
{
    for (size_t i = 0; i < t->r->ask->said_count; i++)
        if (weather__same_words(t->r->ask->said[i].header, header))
            return &t->r->ask->said[i];
    return NULL;
}

void weather__table_column(const struct weather__table *t, const char *header,
                           int cell, struct weather__column *c)
{
    const struct dew_column_said *said = said_of(t, header);

    weather__column_read(header, cell, c);
    if (said == NULL)
        return;
    if (said->meaning != NULL) {
        c->meaning = weather__meaning_find(said->meaning);
        c->place = t->r->log ? WEATHER__INDOORS : WEATHER__OUTDOORS;
        c->words = 9; /* more than any pattern */
    }
    if (said->unit != NULL &&
        (c->meaning == WEATHER__IS_COOL || c->meaning == WEATHER__IS_FAN))
        c->unit = weather__run_spelt(said->unit);
    else if (said->unit != NULL)
        c->unit = weather__unit_spelt(said->unit,
                                      weather__meaning_quantity(c->meaning));
}

/* ---- the header ----------------------------------------------------------- */

/* How many columns of the split line mean something; 0 when it is no header. */
static int score(const struct weather__table *t)
{
    struct weather__column c;
    int n = 0, times = 0, values = 0, states = 0;

    if (t->cells.count < 2)
        return 0;
    for (size_t i = 0; i < t->cells.count; i++) {
        const char *cell = weather__cell(&t->cells, i);

        if (strlen(cell) > 120)
            continue;
        weather__table_column(t, cell, (int)i, &c);
        n += c.meaning != WEATHER__IS_NOTHING;
        times += c.meaning == WEATHER__IS_TIME || c.meaning == WEATHER__IS_YEAR;
        values += c.meaning >= WEATHER__IS_T && c.meaning <= WEATHER__IS_W;
        states |= (c.meaning == WEATHER__IS_ENTITY) |
                  (c.meaning == WEATHER__IS_STATE) << 1;
    }
    return times > 0 && (values > 0 || (t->r->log && states == 3)) ? n : 0;
}

/* The best of the three separators for the line; 0 when it is no header. */
static char separator(struct weather__table *t)
{
    static const char marks[] = {',', ';', '\t'};
    int best = 0;
    char found = '\0';

    for (size_t i = 0; i < sizeof marks; i++) {
        int n;

        if (weather__cells_split(&t->cells, t->in, marks[i], NULL) != DEW_OK)
            continue;
        n = score(t);
        if (n > best) {
            best = n;
            found = marks[i];
        }
    }
    return found;
}

static int says_columns(const struct weather__table *t)
{
    for (size_t i = 0; i < t->r->ask->said_count; i++)
        if (strncmp(t->r->ask->said[i].header, "column ", 7) == 0)
            return 1;
    return 0;
}

/* Of a log of a time and one more column, without a header, the column is what
   the file is called: "Bedroom_Humidity.csv".  1 where that means something. */
static int named_by_file(const struct weather__table *t, char *out, size_t size)
{
    const char *slash = strrchr(t->r->path, '/');
    const char *name = slash != NULL ? slash + 1 : t->r->path;
    struct weather__column c;

    if (!t->r->log || t->cells.count != 2 || says_columns(t))
        return 0;
    snprintf(out, size, "%.*s", (int)strcspn(name, "."), name);
    for (char *mark = out; (mark = strchr(mark, '_')) != NULL;)
        *mark = ' ';
    weather__table_column(t, out, 1, &c);
    return c.meaning == WEATHER__IS_T || c.meaning == WEATHER__IS_RH;
}

static int is_json(const char *text)
{
    text += strspn(text, " \t");
    return *text == '{' || *text == '[';
}

/* No header, but times from the first line on: what the columns are must be
   said of "column 2" and so on. */
static enum dew_status begin_without(struct weather__table *t)
{
    static const char marks[] = {',', ';', '\t'};
    struct dew_error err = {0};
    struct weather__stamp s;
    char name[160];
    int more = 1;

    weather__lines_again(t->in);
    if (weather__lines_next(t->in, &more, &err) != DEW_OK)
        return weather__reader_error(t->r, &err);
    if (more && is_json(t->in->text))
        return weather__reader_fault(t->r, DEW_ESYNTAX, "", 1, 1,
                                     "JSON, not a table: export it as CSV");
    for (size_t i = 0; more && i < sizeof marks; i++) {
        if (weather__cells_split(&t->cells, t->in, marks[i], NULL) != DEW_OK ||
            t->cells.count < 2 ||
            !weather__stamp_read(weather__cell(&t->cells, 0), &s) ||
            !s.has_date || !s.has_clock)
            continue;
        t->delimiter = marks[i];
        if (!says_columns(t) && !named_by_file(t, name, sizeof name))
            return weather__reader_fault(
                t->r, DEW_EMISSING, "header", 1, 1,
                "no header: say what \"column 2\" and the others are, or put "
                "one such as \"time,temperature (degC),relative humidity "
                "(%%)\" on top");
        weather__lines_again(t->in);
        return DEW_OK;
    }
    return weather__reader_fault(
        t->r, DEW_EMISSING, "header", 1, 1,
        "no line of the first %d names a time and a temperature or humidity: "
        "put a header such as \"time,temperature (degC),relative humidity "
        "(%%)\" on top",
        WEATHER__HEAD_LINES);
}

static enum dew_status find_header(struct weather__table *t)
{
    struct dew_error err = {0};
    int more = 1;

    weather__lines_again(t->in);
    for (int i = 0; i < WEATHER__HEAD_LINES; i++) {
        if (weather__lines_next(t->in, &more, &err) != DEW_OK)
            return weather__reader_error(t->r, &err);
        if (!more)
            break;
        t->delimiter = separator(t);
        if (t->delimiter == '\0')
            continue;
        t->header_line = t->r->report->header_line = t->in->line;
        return DEW_OK;
    }
    return begin_without(t);
}

/* ---- rows before the header ------------------------------------------------ */

const char *weather__table_hint(const struct weather__table *t, const char *key)
{
    for (int i = 0; i < t->hint_count; i++)
        if (weather__same_words(t->hints[i].key, key))
            return t->hints[i].value;
    return NULL;
}

static void add_hint(struct weather__table *t, const char *key,
                     const char *value)
{
    struct weather__hint *h;

    if (t->hint_count == WEATHER__HINTS_MAX || *key == '\0' || *value == '\0')
        return;
    h = &t->hints[t->hint_count++];
    snprintf(h->key, sizeof h->key, "%s", key);
    snprintf(h->value, sizeof h->value, "%s", value);
}

static double number_of(const char *text)
{
    double x = NAN;

    if (text == NULL ||
        weather__cell_number(text, ',', &x) != WEATHER__CELL_NUMBER)
        return NAN;
    return x;
}

/* "722020,MIAMI INTL AP,FL,-5,25.817,-80.3,11": the first line of a typical
   year names nothing; its layout is that of [TMY3]. */
static void typical_site(struct weather__table *t)
{
    struct dew_site *s = &t->r->site;
    const char *id = weather__cell(&t->cells, 0);
    double offset = number_of(weather__cell(&t->cells, 3));

    if (strlen(id) != 6 || id[strspn(id, "0123456789")] != '\0' ||
        !(offset >= -12.0 && offset <= 14.0))
        return;
    t->r->typical = t->r->strict = t->r->standard = 1;
    snprintf(s->id, sizeof s->id, "%s", id);
    snprintf(s->name, sizeof s->name, "%s", weather__cell(&t->cells, 1));
    s->utc_offset = offset;
    s->latitude = number_of(weather__cell(&t->cells, 4));
    s->longitude = number_of(weather__cell(&t->cells, 5));
    s->elevation = number_of(weather__cell(&t->cells, 6));
}

/* "# latitude: 25.817". */
static void keyed_line(struct weather__table *t)
{
    const char *text = t->in->text + strspn(t->in->text, "# \t");
    const char *colon = strchr(text, ':');
    char key[48];

    if (strncmp(text, "dewledger weather", 17) == 0)
        t->r->strict = t->r->standard = 1;
    if (colon == NULL || colon - text >= (long)sizeof key)
        return;
    snprintf(key, sizeof key, "%.*s", (int)(colon - text), text);
    colon++;
    if (t->r->strict && strcmp(key, "provenance") == 0)
        snprintf(t->r->provenance, sizeof t->r->provenance, "%s",
                 colon + strspn(colon, " \t"));
    add_hint(t, key, colon + strspn(colon, " \t"));
}

static int wanted_key(const char *key)
{
    static const char *const keys[] = {
        "unit",     "latitude", "longitude", "elevation", "altitude",
        "timezone", "zone",     "location",  "station",   "name"};
    char low[48];
    size_t n = 0;

    for (; key[n] != '\0' && n < sizeof low - 1; n++)
        low[n] = (char)(key[n] >= 'A' && key[n] <= 'Z' ? key[n] + 32 : key[n]);
    low[n] = '\0';
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (strstr(low, keys[i]) != NULL)
            return 1;
    return 0;
}

/* Names in one row and values in the next, or a name and its value. */
static void paired_rows(struct weather__table *t)
{
    for (size_t i = 0; i < t->cells.count && i < t->before.count; i++)
        if (wanted_key(weather__cell(&t->before, i)))
            add_hint(t, weather__cell(&t->before, i),
                     weather__cell(&t->cells, i));
    if (t->cells.count >= 2 && wanted_key(weather__cell(&t->cells, 0)))
        add_hint(t, weather__cell(&t->cells, 0), weather__cell(&t->cells, 1));
}

/* Read again up to the header; its cells stand in t->cells after. */
static enum dew_status read_preamble(struct weather__table *t)
{
    struct dew_error err = {0};
    int more;

    weather__lines_again(t->in);
    while (t->in->line < t->header_line) {
        struct weather__cells hold = t->before;

        t->before = t->cells;
        t->cells = hold;
        if (weather__lines_next(t->in, &more, &err) != DEW_OK)
            return weather__reader_error(t->r, &err);
        if (t->in->text[0] == '#' && t->in->line < t->header_line) {
            keyed_line(t);
            t->cells.count = 0;
            continue;
        }
        if (weather__cells_split(&t->cells, t->in, t->delimiter, NULL) !=
                DEW_OK ||
            t->in->line == t->header_line)
            continue;
        paired_rows(t);
        if (t->in->line == 1 && t->header_line == 2)
            typical_site(t);
    }
    return DEW_OK;
}

static void site_from_hints(struct weather__table *t)
{
    struct dew_site *s = &t->r->site;
    const char *name = weather__table_hint(t, "name");
    const char *id = weather__table_hint(t, "id");
    const char *zone = weather__table_hint(t, "utc offset");
    const char *year = weather__table_hint(t, "year");

    if (id == NULL)
        id = weather__table_hint(t, "location id");
    if (zone == NULL)
        zone = weather__table_hint(t, "time zone");
    if (name != NULL)
        snprintf(s->name, sizeof s->name, "%s", name);
    if (id != NULL)
        snprintf(s->id, sizeof s->id, "%.23s", id);
    if (isnan(s->latitude))
        s->latitude = number_of(weather__table_hint(t, "latitude"));
    if (isnan(s->longitude))
        s->longitude = number_of(weather__table_hint(t, "longitude"));
    if (isnan(s->elevation))
        s->elevation = number_of(weather__table_hint(t, "elevation"));
    if (isnan(s->utc_offset))
        s->utc_offset = number_of(zone);
    if (t->r->strict && year != NULL && strcmp(year, "typical") == 0)
        t->r->typical = 1;
}

/* ---- which columns --------------------------------------------------------- */

static void header_of(const struct weather__table *t, size_t i, char *out,
                      size_t size)
{
    if (t->header_line > 0)
        snprintf(out, size, "%s", weather__cell(&t->cells, i));
    else if (i == 0)
        snprintf(out, size, "time");
    else if (!named_by_file(t, out, size))
        snprintf(out, size, "column %zu", i + 1);
}

static void note_unread(struct dew_weather_report *p, const char *header)
{
    char quoted[200];
    size_t used = strlen(p->unread);
    int n = snprintf(quoted, sizeof quoted, "%s\"%s\"", used > 0 ? ", " : "",
                     header);

    if (header[0] != '\0' && used + (size_t)n < sizeof p->unread)
        memcpy(p->unread + used, quoted, (size_t)n + 1);
}

static void keep_columns(struct weather__table *t)
{
    char header[160];

    for (int i = 0; i < 5; i++)
        t->part[i] = -1;
    for (size_t i = 0; i < t->cells.count && t->count < WEATHER__COLUMNS_MAX;
         i++) {
        struct weather__column *c = &t->columns[t->count];

        header_of(t, i, header, sizeof header);
        weather__table_column(t, header, (int)i, c);
        if (c->meaning == WEATHER__IS_NOTHING) {
            note_unread(t->r->report, header);
            continue;
        }
        t->count++;
        t->wanted[i] = 1;
        t->cells.wanted_count = i + 1;
        if (c->meaning == WEATHER__IS_TIME &&
            t->time_count < WEATHER__TIMES_MAX)
            t->times[t->time_count++] = (int)i;
        if (c->meaning >= WEATHER__IS_YEAR &&
            c->meaning <= WEATHER__IS_MINUTE &&
            t->part[c->meaning - WEATHER__IS_YEAR] < 0)
            t->part[c->meaning - WEATHER__IS_YEAR] = (int)i;
        if (c->meaning == WEATHER__IS_TIME && c->order != 0)
            t->r->order = c->order;
        if (c->meaning == WEATHER__IS_TIME && c->has_zone) {
            t->r->has_header_zone = 1;
            t->r->header_zone = c->zone;
        }
    }
}

/* Outdoors before unsaid, a unit of the right kind before none. */
static int rank_of(const struct weather__column *c)
{
    return c->words + (c->place == WEATHER__OUTDOORS ? 100 : 0) +
           (c->unit != NULL ? 50 : 0);
}

static void ask_column(struct weather__table *t,
                       const struct weather__column *a,
                       const struct weather__column *b)
{
    weather__reader_fault(t->r, DEW_EAMBIGUOUS,
                          weather__meaning_text(a->meaning), t->header_line,
                          b->cell + 1,
                          "\"%s\" and \"%s\" could both be it: say which is "
                          "outdoors",
                          a->header, b->header);
}

/* The best column for a meaning that is not indoors. */
static const struct weather__column *pick(struct weather__table *t,
                                          enum weather__meaning m)
{
    const struct weather__column *best = NULL, *rival = NULL;

    for (int i = 0; i < t->count; i++) {
        const struct weather__column *c = &t->columns[i];

        if (c->meaning != m || c->place == WEATHER__INDOORS)
            continue;
        if (best == NULL || rank_of(c) > rank_of(best)) {
            best = c;
            rival = NULL;
        } else if (rank_of(c) == rank_of(best) && rival == NULL) {
            rival = c;
        }
    }
    if (rival != NULL && m >= WEATHER__IS_T && m <= WEATHER__IS_DIFFUSE)
        ask_column(t, best, rival);
    return best;
}

const struct dew_unit *weather__table_unit(const struct weather__table *t,
                                           const struct weather__column *c)
{
    enum dew_quantity q = weather__meaning_quantity(c->meaning);
    const char *hint;
    char key[64];

    if (c->unit != NULL)
        return c->unit;
    snprintf(key, sizeof key, "%s units", c->header);
    hint = weather__table_hint(t, key);
    if (hint != NULL)
        return weather__unit_spelt(hint, q);
    return weather__profile_unit(t, c->meaning);
}

void weather__table_take(struct weather__table *t, enum weather__lane lane,
                         const struct weather__column *c)
{
    struct weather__reader *r = t->r;
    struct weather__column *own = &t->columns[c - t->columns];

    own->unit = weather__table_unit(t, c);
    t->lane[lane] = own;
    r->has[lane] = 1;
    snprintf(r->header[lane], sizeof r->header[lane], "%s", own->header);
    r->cell[lane] = own->cell + 1;
    r->no_unit[lane] = own->unit == NULL;
    weather__reader_took(r, own->header, weather__meaning_text(own->meaning),
                         own->unit != NULL          ? own->unit->name
                         : lane == WEATHER__LANE_RH ? "% or share"
                                                    : "?");
}

static void take_lane(struct weather__table *t, enum weather__lane lane)
{
    const struct weather__column *c = pick(t, lane_meaning[lane]);

    if (lane == WEATHER__LANE_P && c == NULL) {
        c = pick(t, WEATHER__IS_P_SEA);
        t->r->sea_pressure = c != NULL;
    }
    if (lane > WEATHER__LANE_DIFFUSE && c != NULL &&
        weather__table_unit(t, c) == NULL)
        return; /* of use, and not worth a question */
    if (c != NULL)
        weather__table_take(t, lane, c);
}

static void take_columns(struct weather__table *t)
{
    struct weather__reader *r = t->r;

    for (int i = 0; i < WEATHER__LANE_CO2; i++)
        take_lane(t, (enum weather__lane)i);
    t->station = pick(t, WEATHER__IS_STATION);
    t->name = pick(t, WEATHER__IS_NAME);
    t->report = pick(t, WEATHER__IS_REPORT);
    t->latitude = pick(t, WEATHER__IS_LATITUDE);
    t->longitude = pick(t, WEATHER__IS_LONGITUDE);
    t->elevation = pick(t, WEATHER__IS_ELEVATION);
    if (!r->has[WEATHER__LANE_T])
        weather__reader_fault(r, DEW_EMISSING, "temperature", t->header_line, 1,
                              "no column of the outdoor temperature; one named "
                              "\"temperature (degC)\" would do");
    if (!r->has[WEATHER__LANE_TD] && !r->has[WEATHER__LANE_RH] &&
        !r->has[WEATHER__LANE_TWB] && !r->has[WEATHER__LANE_W])
        weather__reader_fault(r, DEW_EMISSING, "humidity", t->header_line, 1,
                              "no column of the outdoor humidity: dew point, "
                              "relative humidity, wet bulb or humidity ratio");
}

/* ---- all of it -------------------------------------------------------------- */

static const char *separator_text(char mark)
{
    return mark == '\t' ? "tab" : mark == ';' ? ";" : ",";
}

enum dew_status weather__table_open(struct weather__table *t,
                                    struct weather__reader *r,
                                    struct weather__lines *in)
{
    struct dew_error err = {0};

    t->r = r;
    t->in = in;
    if (weather__cells_open(&t->cells, &err) != DEW_OK ||
        weather__cells_open(&t->before, &err) != DEW_OK)
        return weather__reader_error(r, &err);
    if (find_header(t) != DEW_OK || read_preamble(t) != DEW_OK)
        return r->status;
    site_from_hints(t);
    weather__profile_find(t);
    keep_columns(t);
    if (r->ask->order != DEW_ORDER_UNSAID)
        r->order = (int)r->ask->order;
    snprintf(r->report->format, sizeof r->report->format,
             t->header_line > 0 ? "%s, separator %s, header on line %d"
                                : "%s, separator %s, no header",
             r->typical  ? "typical year"
             : r->strict ? "own form"
                         : "table",
             separator_text(t->delimiter), t->header_line);
    return r->status;
}

void weather__table_close(struct weather__table *t)
{
    weather__cells_close(&t->cells);
    weather__cells_close(&t->before);
}

enum dew_status weather__table_read(struct weather__reader *r,
                                    struct weather__lines *in)
{
    struct weather__table *t = calloc(1, sizeof *t);

    if (t == NULL)
        return weather__reader_fault(r, DEW_EMEM, "", 0, 0, "no memory");
    if (weather__table_open(t, r, in) == DEW_OK)
        take_columns(t);
    t->cells.wanted = t->wanted;
    if (r->status == DEW_OK)
        weather__table_rows(t);
    weather__table_close(t);
    free(t);
    return r->status;
}
