/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "weather/meaning.h"

#include <stdio.h>
#include <string.h>

#include "weather/stamps.h"

enum { WORDS_MAX = 24, FOLD_MAX = 160 };

struct words {
    char text[FOLD_MAX];
    const char *at[WORDS_MAX];
    int used[WORDS_MAX]; /* by a pattern, a unit or a place */
    int count;
};

/* ---- folding: lower case, ASCII, parted into words ----------------------- */

/* Spellings outside ASCII, UTF-8 first, then the one byte of Latin-1. */
static const struct {
    const char *bytes, *ascii;
} folds[] = {
    {"\xE2\x84\x83", " degC "},
    {"\xE2\x84\x89", " degF "},
    {"\xC2\xB0", " deg"},
    {"\xC2\xBA", " deg"},
    {"\xC2\xB2", "2"},
    {"\xC2\xB3", "3"},
    {"\xC2\xA0", " "},
    {"\xC3\x9F", "ss"},
    {"\xB0", " deg"},
    {"\xBA", " deg"},
    {"\xB2", "2"},
    {"\xB3", "3"},
    {"\xDF", "ss"},
};

static size_t fold_one(const char *text, char *out, size_t room)
{
    out[0] = *text;
    out[1] = '\0';
    if ((unsigned char)*text < 0x80)
        return 1;
    for (size_t i = 0; i < sizeof folds / sizeof folds[0]; i++) {
        size_t n = strlen(folds[i].bytes);

        if (strncmp(text, folds[i].bytes, n) == 0) {
            snprintf(out, room, "%s", folds[i].ascii);
            return n;
        }
    }
    out[0] = '?';
    return 1;
}

static int is_upper(char c)
{
    return c >= 'A' && c <= 'Z';
}

static int is_lower(char c)
{
    return c >= 'a' && c <= 'z';
}

/* "WindSpeed" is two words; "degC", "hPa" and "mmHg" are one. */
static int turns_at(const char *folded, size_t i)
{
    return i >= 3 && is_upper(folded[i]) && is_lower(folded[i - 1]) &&
           is_lower(folded[i - 2]) && is_lower(folded[i - 3]) &&
           strncmp(folded + i - 3, "deg", 3) != 0;
}

static int parts_words(char c)
{
    return c == ' ' || c == '\t' || strchr("_()[]{},:;\"'#.-+=*&", c) != NULL;
}

static void split_words(const char *header, struct words *w)
{
    char folded[FOLD_MAX / 2] = {0};
    size_t n = 0, out = 0;

    memset(w, 0, sizeof *w);
    while (*header != '\0' && n + 8 < sizeof folded) {
        header += fold_one(header, folded + n, sizeof folded - n);
        n += strlen(folded + n);
    }
    for (size_t i = 0; i < n && w->count < WORDS_MAX; i++) {
        int begins = out == 0 || w->text[out - 1] == '\0';

        if (folded[i] == '^')
            continue;
        if (!begins && (parts_words(folded[i]) || turns_at(folded, i))) {
            w->text[out++] = '\0';
            begins = 1;
        }
        if (parts_words(folded[i]))
            continue;
        if (begins)
            w->at[w->count++] = w->text + out;
        w->text[out++] =
            (char)(is_upper(folded[i]) ? folded[i] - 'A' + 'a' : folded[i]);
    }
    w->text[out] = '\0';
}

/* Lists of phrases stand in one text, "dew point|dewpoint|dew": past the first
   of list, or NULL. */
static const char *next_phrase(const char *list)
{
    list += strcspn(list, "|");
    return *list == '|' ? list + 1 : NULL;
}

/* How many words of a phrase stand in w from word i on, or 0. */
static int stands_at(const struct words *w, int i, const char *phrase)
{
    int n = 0;

    if (i >= w->count || w->at[i][0] != phrase[0]) /* most end here */
        return 0;
    while (*phrase != '\0' && *phrase != '|') {
        size_t length = strcspn(phrase, " |");

        if (i + n >= w->count || strlen(w->at[i + n]) != length ||
            strncmp(w->at[i + n], phrase, length) != 0)
            return 0;
        n++;
        phrase += length;
        phrase += *phrase == ' ';
    }
    return n;
}

static void use(struct words *w, int from, int n)
{
    for (int i = from; i < from + n; i++)
        w->used[i] = 1;
}

static int find(const struct words *w, const char *phrase, int *length)
{
    for (int i = 0; i < w->count; i++) {
        *length = stands_at(w, i, phrase);
        if (*length > 0)
            return i;
    }
    return -1;
}

/* ---- units ---------------------------------------------------------------- */

/* clang-format off */
static const struct spelling {
    enum dew_quantity quantity;
    const char *unit, *words;
} spellings[] = {
    {DEW_TEMPERATURE, "degC", "degc|deg c|celsius|c"},
    {DEW_TEMPERATURE, "degF", "degf|deg f|fahrenheit|f"},
    {DEW_TEMPERATURE, "K", "kelvin|k"},
    {DEW_PURE, "%", "%|pct|percent|%rh"},
    {DEW_PURE, "", "share"},
    {DEW_HUMIDITY_RATIO, "g/kg", "g/kg"},
    {DEW_HUMIDITY_RATIO, "kg/kg", "kg/kg"},
    {DEW_HUMIDITY_RATIO, "grain/lb", "gr/lb|grains/lb|grain/lb"},
    {DEW_HUMIDITY_RATIO, "lb/lb", "lb/lb"},
    {DEW_PRESSURE, "Pa", "pa"},
    {DEW_PRESSURE, "hPa", "hpa"},
    {DEW_PRESSURE, "kPa", "kpa"},
    {DEW_PRESSURE, "mbar", "mbar|mb|millibar"},
    {DEW_PRESSURE, "inHg", "inhg|in hg"},
    {DEW_PRESSURE, "mmHg", "mmhg|mm hg"},
    {DEW_SPEED, "m/s", "m/s|ms|mps|m s"},
    {DEW_SPEED, "km/h", "km/h|kmh|kph|km/hr"},
    {DEW_SPEED, "mph", "mph|mi/h"},
    {DEW_SPEED, "knot", "kt|kts|kn|knot|knots"},
    {DEW_SPEED, "ft/min", "ft/min"},
    {DEW_IRRADIANCE, "W/m2", "w/m2|wm2|w m2|w/sqm|w/sq m|wh/m2"},
    {DEW_LENGTH, "m", "m"},
    {DEW_LENGTH, "ft", "ft|feet"},
    {DEW_ANGLE, "deg", "deg"},
    {DEW_CO2, "ppm", "ppm|co2ppm"},
};
/* clang-format on */

static const struct dew_unit *unit_named(const char *name, enum dew_quantity q)
{
    return dew_unit_find(name, strlen(name), q);
}

/* The last unit among the words: a unit stands behind what it measures. */
static const struct dew_unit *unit_among(struct words *w, enum dew_quantity q)
{
    for (int i = w->count - 1; i >= 0; i--)
        for (size_t k = 0; k < sizeof spellings / sizeof spellings[0]; k++) {
            const char *one = spellings[k].words;

            for (; spellings[k].quantity == q && one != NULL;
                 one = next_phrase(one))
                if (stands_at(w, i, one) > 0) {
                    use(w, i, stands_at(w, i, one));
                    return unit_named(spellings[k].unit, q);
                }
        }
    return NULL;
}

const struct dew_unit *weather__unit_spelt(const char *text,
                                           enum dew_quantity q)
{
    const struct dew_unit *unit = unit_named(text, q);
    struct words w;

    if (unit != NULL)
        return unit;
    split_words(text, &w);
    return unit_among(&w, q);
}

/* Cloud cover has units of its own. */
static const struct dew_unit *cloud_unit(struct words *w)
{
    static const struct dew_unit units[] = {
        {"tenths", DEW_PURE, 0.1, 0.0, 0, "one in ten"},
        {"oktas", DEW_PURE, 0.125, 0.0, 0, "one in eight"},
        {"eighths", DEW_PURE, 0.125, 0.0, 0, "one in eight"},
    };
    int length;

    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
        if (find(w, units[i].name, &length) >= 0)
            return &units[i];
    return unit_among(w, DEW_PURE);
}

/* How long a machine ran: of the time, or in each row. */
static const struct run_unit {
    struct dew_unit unit;
    const char *words;
} run_units[] = {
    {{"s", DEW_TIME, 1.0, 0.0, 0, "seconds in each row"},
     "sec|secs|second|seconds|s"},
    {{"min", DEW_TIME, 60.0, 0.0, 0, "minutes in each row"},
     "min|mins|minute|minutes"},
    {{"h", DEW_TIME, 3600.0, 0.0, 0, "hours in each row"}, "h|hr|hrs|hours"},
    {{"%", DEW_PURE, 0.01, 0.0, 0, "share of the time"}, "%|pct|percent"},
    {{"share", DEW_PURE, 1.0, 0.0, 0, "share of the time"},
     "share|duty|on|running"},
};

static const struct dew_unit *run_unit(const struct words *w)
{
    int length;

    for (size_t i = 0; i < sizeof run_units / sizeof run_units[0]; i++)
        for (const char *one = run_units[i].words; one != NULL;
             one = next_phrase(one))
            if (find(w, one, &length) >= 0)
                return &run_units[i].unit;
    return NULL;
}

const struct dew_unit *weather__run_spelt(const char *text)
{
    struct words w;

    split_words(text, &w);
    return run_unit(&w);
}

int weather__run_is_time(const struct dew_unit *unit)
{
    return unit != NULL && unit->quantity == DEW_TIME;
}

/* ---- meanings -------------------------------------------------------------- */

/*
 * More words win over fewer, and of as many the later row.  A pattern of one
 * or two letters counts only as the first word of a header.
 */
/* clang-format off */
static const struct pattern {
    enum weather__meaning meaning;
    const char *words;
} patterns[] = {
    {WEATHER__IS_ENTITY, "entity|entity id"},
    {WEATHER__IS_STATE, "state"},
    {WEATHER__IS_UNIT, "unit|unit of measurement"},
    {WEATHER__IS_CO2, "co2|co2ppm|carbon dioxide"},
    {WEATHER__IS_TIME, "time|date|date time|datetime|timestamp|time stamp|"
     "time utc|time hour|last changed|unix|epoch|unix time|valid|zeit|datum|"
     "uhrzeit|zeitstempel|date hour|date/time|time/date|day/time"},
    {WEATHER__IS_YEAR, "year"},
    {WEATHER__IS_MONTH, "month"},
    {WEATHER__IS_DAY, "day"},
    {WEATHER__IS_HOUR, "hour"},
    {WEATHER__IS_MINUTE, "minute"},
    {WEATHER__IS_T, "temperature|temp|t|t2m|tmp|tmpf|tair|dry bulb|drybulb|"
     "dry bulb temperature|air temperature|air temp|temperatur|lufttemperatur|"
     "aussentemperatur|celsius|fahrenheit|tdb"},
    {WEATHER__IS_TD, "dew point|dewpoint|dew|dewp|dewpt|dpt|td|temp dew|"
     "dew temp|tdewpoint|dew point temperature|dew point temp|"
     "dewpoint temperature|taupunkt|dwpf|dew pt"},
    {WEATHER__IS_TWB, "wet bulb|wetbulb|twb|wet bulb temperature|wet bulb temp"},
    {WEATHER__IS_RH, "relative humidity|humidity|rh|rhum|hum|humid|rel hum|"
     "rel humidity|relh|%rh|feuchte|luftfeuchte|luftfeuchtigkeit|"
     "relative feuchte"},
    {WEATHER__IS_W, "humidity ratio|mixing ratio|w"},
    {WEATHER__IS_P, "pressure|station pressure|press|stn press|station press|"
     "surface pressure|pres|sp|p|barometer|barometric pressure|luftdruck"},
    {WEATHER__IS_P_SEA, "sea level pressure|msl|mslp|slp|msl pressure|"
     "relative pressure"},
    {WEATHER__IS_WIND, "wind speed|windspeed|wind spd|wspd|wdsp|wind|ws10m|ws|"
     "windgeschwindigkeit"},
    {WEATHER__IS_GLOBAL, "ghi|g h|global|global horizontal|global radiation|"
     "solar radiation|solar rad|solar|pyranometer|globalstrahlung|"
     "global solar|global horizontal irradiance"},
    {WEATHER__IS_DIRECT, "dni|gb n|direct|direct normal|"
     "direct normal irradiance|direct solar"},
    {WEATHER__IS_DIFFUSE, "dhi|gd h|diffuse|diffuse horizontal|"
     "diffuse horizontal irradiance|diffuse solar"},
    {WEATHER__IS_CLOUD, "cloud cover|cloudcover|total cloud cover|cloudiness|"
     "sky cover|opqcld|opaque sky cover|opaque cloud cover"},
    {WEATHER__IS_INFRARED, "ir h|sky infrared|horizontal infrared|"
     "horizontal infrared radiation|downwelling longwave|downward longwave|"
     "longwave downward radiation"},
    {WEATHER__IS_STATION, "station|station id|origin|airport"},
    {WEATHER__IS_NAME, "name|station name"},
    {WEATHER__IS_LATITUDE, "latitude|lat"},
    {WEATHER__IS_LONGITUDE, "longitude|lon|long"},
    {WEATHER__IS_ELEVATION, "elevation|elev|altitude"},
    {WEATHER__IS_REPORT, "report type|report"},
};

/* Words that make a column something else: a limit, a flag, a summary. */
static const char others[] =
    "daily|monthly|normal|normals|departure|max|maximum|min|minimum|peak|"
    "gust|dir|direction|source|uncert|uncertainty|flag|quality|qual|qc|"
    "clearsky|clear sky|set|setpoint|index|chill|feels|apparent|soil|water|"
    "snow|change|tendency|illum|zenith|units|backup|vpd|absolute|g/m3|degree|"
    "sustained|precip|precipitation|deficit|std|sigma|zone|sunrise|sunset|sd|"
    "visibility|start|end|operator|wind direction";
/* How long a machine ran, and words that make it something else. */
static const struct pattern machines[] = {
    {WEATHER__IS_COOL, "cool stage 1|cooling stage 1|cool|cooling|compressor"},
    {WEATHER__IS_FAN, "fan|blower"},
};
static const char machine_others[] =
    "set|setpoint|setting|temp|temperature|mode|stage 2|stage 3|energy|power|"
    "kwh|w|kw|cost|speed|call|degree|outdoor|bath|kitchen|hood|attic|ceiling|"
    "humidity|water|rh|wind|start|end|level|status|date";
static const char outdoors[] =
    "out|outdoor|outdoors|outside|ambient|exterior|external|aussen|"
    "aussentemperatur|ext|virtual outdoor";
static const char indoors[] =
    "in|indoor|indoors|inside|room|interior|thermostat|current|living|"
    "bedroom|kitchen|bath|bathroom|dining|basement|attic|crawl|office|innen|"
    "closet|hall";
/* clang-format on */

static int any_of(struct words *w, const char *list, int mark)
{
    int length, at, found = 0;

    for (; list != NULL; list = next_phrase(list)) {
        at = find(w, list, &length);
        found |= at >= 0;
        if (at >= 0 && mark)
            use(w, at, length);
    }
    return found;
}

/* The pattern with most words; w->used marks them. */
static const struct pattern *best_pattern(struct words *w, int *words)
{
    const struct pattern *best = NULL;
    const char *one;
    int where = 0, length, at;

    *words = 0;
    for (size_t i = 0; i < sizeof patterns / sizeof patterns[0]; i++)
        for (one = patterns[i].words; one != NULL; one = next_phrase(one)) {
            at = find(w, one, &length);
            if (at < 0 || length < *words ||
                (at > 0 && length == 1 && strcspn(one, "|") <= 2 &&
                 patterns[i].meaning != WEATHER__IS_RH))
                continue;
            best = &patterns[i];
            *words = length;
            where = at;
        }
    use(w, where, *words);
    return best;
}

/* "t1", "rh2", "in1": part the number, so that the word is known. */
static void part_numbers(struct words *w, char *number, size_t size)
{
    static const char *const stems[] = {"t",  "rh",  "temp", "temperature",
                                        "in", "out", "hum",  "humidity"};

    *number = '\0';
    for (int i = 0; i < w->count; i++)
        for (size_t k = 0; k < sizeof stems / sizeof stems[0]; k++) {
            size_t n = strlen(stems[k]);
            const char *tail = w->at[i] + n;

            if (strncmp(w->at[i], stems[k], n) != 0 || *tail == '\0' ||
                tail[strspn(tail, "0123456789")] != '\0')
                continue;
            snprintf(number, size, "%.6s", tail);
            w->text[tail - w->text] = '\0';
        }
}

/* Every way to say the meaning: "Humidity (%RH)" says it twice. */
static void mark_meaning(struct words *w, const char *list)
{
    for (; list != NULL; list = next_phrase(list)) {
        int length, at = find(w, list, &length);

        if (at >= 0 && strcspn(list, "|") > 2)
            use(w, at, length);
    }
}

/* What a logger's header has left: the room. */
static void name_room(const struct words *w, const char *number,
                      struct weather__column *column)
{
    size_t n = 0;

    column->room[0] = '\0';
    for (int i = 0; i <= w->count; i++) {
        const char *word = i < w->count ? w->at[i] : number;

        if ((i < w->count && w->used[i]) || *word == '\0' ||
            n + strlen(word) + 2 > sizeof column->room)
            continue;
        n += (size_t)snprintf(column->room + n, sizeof column->room - n, "%s%s",
                              n > 0 ? " " : "", word);
    }
}

static int is_value(enum weather__meaning m)
{
    return m >= WEATHER__IS_T && m <= WEATHER__IS_FAN;
}

static void read_time_header(const char *header, struct words *w,
                             struct weather__column *column)
{
    int length;

    if (find(w, "mm/dd/yyyy", &length) >= 0 || find(w, "m/d/y", &length) >= 0)
        column->order = 1;
    if (find(w, "dd/mm/yyyy", &length) >= 0 || find(w, "d/m/y", &length) >= 0)
        column->order = 2;
    column->has_zone = weather__zone_read(header, &column->zone);
}

/* The first of a list that stands in w; its words, or 0. */
static int first_found(const struct words *w, const char *list)
{
    int length;

    for (; list != NULL; list = next_phrase(list))
        if (find(w, list, &length) >= 0)
            return length;
    return 0;
}

/* 1 where the header is of a machine's run time, with its unit. */
static int is_run(const struct words *w, struct weather__column *column)
{
    if (first_found(w, machine_others) > 0)
        return 0;
    for (size_t i = 0; i < sizeof machines / sizeof machines[0]; i++) {
        column->words = first_found(w, machines[i].words);
        column->meaning = machines[i].meaning;
        if (column->words > 0)
            break;
    }
    column->unit = column->words > 0 ? run_unit(w) : NULL;
    return column->unit != NULL;
}

void weather__column_read(const char *header, int cell,
                          struct weather__column *column)
{
    const struct pattern *best;
    char number[8];
    struct words w;
    int stop, length;

    memset(column, 0, sizeof *column);
    column->cell = cell;
    snprintf(column->header, sizeof column->header, "%s", header);
    split_words(header, &w);
    if (is_run(&w, column))
        return;
    column->meaning = WEATHER__IS_NOTHING;
    column->words = 0; /* unit is NULL */
    part_numbers(&w, number, sizeof number);
    stop = any_of(&w, others, 0) && find(&w, "timestamp", &length) != 0;
    best = stop ? NULL : best_pattern(&w, &column->words);
    if (best == NULL) {
        /* "Living Room (F)": a temperature by its unit alone. */
        column->unit = stop ? NULL : unit_among(&w, DEW_TEMPERATURE);
        if (column->unit == NULL || w.count < 2)
            return;
        column->meaning = WEATHER__IS_T;
        column->place = WEATHER__INDOORS;
        name_room(&w, number, column);
        return;
    }
    column->meaning = best->meaning;
    if (best->meaning == WEATHER__IS_TIME)
        read_time_header(header, &w, column);
    if (!is_value(best->meaning) && best->meaning != WEATHER__IS_ELEVATION)
        return;
    column->unit =
        best->meaning == WEATHER__IS_CLOUD
            ? cloud_unit(&w)
            : unit_among(&w, weather__meaning_quantity(best->meaning));
    if (any_of(&w, indoors, 0))
        column->place = WEATHER__INDOORS;
    if (any_of(&w, outdoors, 1))
        column->place = WEATHER__OUTDOORS;
    mark_meaning(&w, best->words);
    name_room(&w, number, column);
}

/* ---- words ------------------------------------------------------------------ */

const char *weather__meaning_text(enum weather__meaning meaning)
{
    static const char *const text[] = {
#define X(code, quantity, words) words,
        WEATHER__MEANING_MAP(X)
#undef X
    };
    return text[meaning];
}

enum dew_quantity weather__meaning_quantity(enum weather__meaning meaning)
{
    static const enum dew_quantity quantity[] = {
#define X(code, quantity, words) DEW_##quantity,
        WEATHER__MEANING_MAP(X)
#undef X
    };
    return quantity[meaning];
}

enum weather__meaning weather__meaning_find(const char *word)
{
    struct weather__column column;

    for (int m = 1; m < WEATHER__MEANING_COUNT; m++)
        if (weather__same_words(
                word, weather__meaning_text((enum weather__meaning)m)))
            return (enum weather__meaning)m;
    weather__column_read(word, 0, &column);
    return column.meaning;
}

/* The first letter or digit, lower case; 0 for none or for any beyond ASCII. */
static char first_letter(const char *text)
{
    while (*text != '\0' && parts_words(*text))
        text++;
    if ((unsigned char)*text >= 0x80)
        return '\0';
    if (is_upper(*text))
        return (char)(*text - 'A' + 'a');
    return *text;
}

int weather__same_words(const char *a, const char *b)
{
    struct words x, y;
    char first = first_letter(a), other = first_letter(b);

    if (first != '\0' && other != '\0' && first != other)
        return 0;

    split_words(a, &x);
    split_words(b, &y);
    if (x.count != y.count)
        return 0;
    for (int i = 0; i < x.count; i++)
        if (strcmp(x.at[i], y.at[i]) != 0)
            return 0;
    return 1;
}
