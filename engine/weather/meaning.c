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

/* How many words of pattern ("dew point") stand in w from word i on, or 0. */
static int stands_at(const struct words *w, int i, const char *pattern)
{
    int n = 0;

    if (i >= w->count || w->at[i][0] != pattern[0]) /* most end here */
        return 0;
    while (*pattern != '\0') {
        size_t length = strcspn(pattern, " ");

        if (i + n >= w->count || strlen(w->at[i + n]) != length ||
            strncmp(w->at[i + n], pattern, length) != 0)
            return 0;
        n++;
        pattern += length;
        pattern += *pattern == ' ';
    }
    return n;
}

static int find(const struct words *w, const char *pattern, int *length)
{
    for (int i = 0; i < w->count; i++) {
        *length = stands_at(w, i, pattern);
        if (*length > 0)
            return i;
    }
    return -1;
}

/* ---- units ---------------------------------------------------------------- */

/* clang-format off */
static const struct spelling {
    enum dew_quantity quantity;
    const char *words, *unit;
} spellings[] = {
    {DEW_TEMPERATURE, "degc", "degC"},    {DEW_TEMPERATURE, "deg c", "degC"},
    {DEW_TEMPERATURE, "celsius", "degC"}, {DEW_TEMPERATURE, "c", "degC"},
    {DEW_TEMPERATURE, "degf", "degF"},    {DEW_TEMPERATURE, "deg f", "degF"},
    {DEW_TEMPERATURE, "fahrenheit", "degF"}, {DEW_TEMPERATURE, "f", "degF"},
    {DEW_TEMPERATURE, "kelvin", "K"},     {DEW_TEMPERATURE, "k", "K"},
    {DEW_PURE, "%", "%"},                 {DEW_PURE, "pct", "%"},
    {DEW_PURE, "percent", "%"},           {DEW_PURE, "%rh", "%"},
    {DEW_PURE, "share", ""},
    {DEW_HUMIDITY_RATIO, "g/kg", "g/kg"}, {DEW_HUMIDITY_RATIO, "kg/kg", "kg/kg"},
    {DEW_HUMIDITY_RATIO, "gr/lb", "grain/lb"},
    {DEW_HUMIDITY_RATIO, "grains/lb", "grain/lb"},
    {DEW_HUMIDITY_RATIO, "grain/lb", "grain/lb"},
    {DEW_HUMIDITY_RATIO, "lb/lb", "lb/lb"},
    {DEW_PRESSURE, "pa", "Pa"},           {DEW_PRESSURE, "hpa", "hPa"},
    {DEW_PRESSURE, "kpa", "kPa"},         {DEW_PRESSURE, "mbar", "mbar"},
    {DEW_PRESSURE, "mb", "mbar"},         {DEW_PRESSURE, "millibar", "mbar"},
    {DEW_PRESSURE, "inhg", "inHg"},       {DEW_PRESSURE, "in hg", "inHg"},
    {DEW_PRESSURE, "mmhg", "mmHg"},       {DEW_PRESSURE, "mm hg", "mmHg"},
    {DEW_SPEED, "m/s", "m/s"},            {DEW_SPEED, "ms", "m/s"},
    {DEW_SPEED, "mps", "m/s"},            {DEW_SPEED, "m s", "m/s"},
    {DEW_SPEED, "km/h", "km/h"},          {DEW_SPEED, "kmh", "km/h"},
    {DEW_SPEED, "kph", "km/h"},           {DEW_SPEED, "km/hr", "km/h"},
    {DEW_SPEED, "mph", "mph"},            {DEW_SPEED, "mi/h", "mph"},
    {DEW_SPEED, "kt", "knot"},            {DEW_SPEED, "kts", "knot"},
    {DEW_SPEED, "kn", "knot"},            {DEW_SPEED, "knot", "knot"},
    {DEW_SPEED, "knots", "knot"},         {DEW_SPEED, "ft/min", "ft/min"},
    {DEW_IRRADIANCE, "w/m2", "W/m2"},     {DEW_IRRADIANCE, "wm2", "W/m2"},
    {DEW_IRRADIANCE, "w m2", "W/m2"},     {DEW_IRRADIANCE, "w/sqm", "W/m2"},
    {DEW_IRRADIANCE, "w/sq m", "W/m2"},   {DEW_IRRADIANCE, "wh/m2", "W/m2"},
    {DEW_LENGTH, "m", "m"},               {DEW_LENGTH, "ft", "ft"},
    {DEW_LENGTH, "feet", "ft"},           {DEW_ANGLE, "deg", "deg"},
    {DEW_CO2, "ppm", "ppm"},              {DEW_CO2, "co2ppm", "ppm"},
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
            const struct spelling *s = &spellings[k];
            int n = s->quantity == q ? stands_at(w, i, s->words) : 0;

            if (n == 0)
                continue;
            for (int j = i; j < i + n; j++)
                w->used[j] = 1;
            return unit_named(s->unit, q);
        }
    return NULL;
}

const struct dew_unit *dew__unit_spelt(const char *text, enum dew_quantity q)
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

/* ---- meanings -------------------------------------------------------------- */

/*
 * More words win over fewer, and of as many the later row.  A pattern of one
 * or two letters counts only as the first word of a header.
 */
/* clang-format off */
static const struct pattern {
    enum dew__meaning meaning;
    const char *words;
} patterns[] = {
    {DEW__IS_ENTITY, "entity"},        {DEW__IS_ENTITY, "entity id"},
    {DEW__IS_STATE, "state"},          {DEW__IS_UNIT, "unit"},
    {DEW__IS_UNIT, "unit of measurement"},
    {DEW__IS_CO2, "co2"},              {DEW__IS_CO2, "co2ppm"},
    {DEW__IS_CO2, "carbon dioxide"},
    {DEW__IS_TIME, "time"},            {DEW__IS_TIME, "date"},
    {DEW__IS_TIME, "date time"},       {DEW__IS_TIME, "datetime"},
    {DEW__IS_TIME, "timestamp"},       {DEW__IS_TIME, "time stamp"},
    {DEW__IS_TIME, "time utc"},        {DEW__IS_TIME, "time hour"},
    {DEW__IS_TIME, "last changed"},    {DEW__IS_TIME, "unix"},
    {DEW__IS_TIME, "epoch"},           {DEW__IS_TIME, "unix time"},
    {DEW__IS_TIME, "valid"},           {DEW__IS_TIME, "zeit"},
    {DEW__IS_TIME, "datum"},           {DEW__IS_TIME, "uhrzeit"},
    {DEW__IS_TIME, "zeitstempel"},     {DEW__IS_TIME, "date hour"},
    {DEW__IS_TIME, "date/time"},       {DEW__IS_TIME, "time/date"},
    {DEW__IS_TIME, "day/time"},
    {DEW__IS_YEAR, "year"},            {DEW__IS_MONTH, "month"},
    {DEW__IS_DAY, "day"},              {DEW__IS_HOUR, "hour"},
    {DEW__IS_MINUTE, "minute"},
    {DEW__IS_T, "temperature"},        {DEW__IS_T, "temp"},
    {DEW__IS_T, "t"},                  {DEW__IS_T, "t2m"},
    {DEW__IS_T, "tmp"},                {DEW__IS_T, "tmpf"},
    {DEW__IS_T, "tair"},               {DEW__IS_T, "dry bulb"},
    {DEW__IS_T, "drybulb"},            {DEW__IS_T, "dry bulb temperature"},
    {DEW__IS_T, "air temperature"},    {DEW__IS_T, "air temp"},
    {DEW__IS_T, "temperatur"},         {DEW__IS_T, "lufttemperatur"},
    {DEW__IS_T, "aussentemperatur"},   {DEW__IS_T, "celsius"},
    {DEW__IS_T, "fahrenheit"},         {DEW__IS_T, "tdb"},
    {DEW__IS_TD, "dew point"},         {DEW__IS_TD, "dewpoint"},
    {DEW__IS_TD, "dew"},               {DEW__IS_TD, "dewp"},
    {DEW__IS_TD, "dewpt"},             {DEW__IS_TD, "dpt"},
    {DEW__IS_TD, "td"},                {DEW__IS_TD, "temp dew"},
    {DEW__IS_TD, "dew temp"},          {DEW__IS_TD, "tdewpoint"},
    {DEW__IS_TD, "dew point temperature"}, {DEW__IS_TD, "dew point temp"},
    {DEW__IS_TD, "dewpoint temperature"}, {DEW__IS_TD, "taupunkt"},
    {DEW__IS_TD, "dwpf"},              {DEW__IS_TD, "dew pt"},
    {DEW__IS_TWB, "wet bulb"},         {DEW__IS_TWB, "wetbulb"},
    {DEW__IS_TWB, "twb"},              {DEW__IS_TWB, "wet bulb temperature"},
    {DEW__IS_TWB, "wet bulb temp"},
    {DEW__IS_RH, "relative humidity"}, {DEW__IS_RH, "humidity"},
    {DEW__IS_RH, "rh"},                {DEW__IS_RH, "rhum"},
    {DEW__IS_RH, "hum"},               {DEW__IS_RH, "humid"},
    {DEW__IS_RH, "rel hum"},           {DEW__IS_RH, "rel humidity"},
    {DEW__IS_RH, "relh"},              {DEW__IS_RH, "%rh"},
    {DEW__IS_RH, "feuchte"},           {DEW__IS_RH, "luftfeuchte"},
    {DEW__IS_RH, "luftfeuchtigkeit"},  {DEW__IS_RH, "relative feuchte"},
    {DEW__IS_W, "humidity ratio"},     {DEW__IS_W, "mixing ratio"},
    {DEW__IS_W, "w"},
    {DEW__IS_P, "pressure"},           {DEW__IS_P, "station pressure"},
    {DEW__IS_P, "press"},              {DEW__IS_P, "stn press"},
    {DEW__IS_P, "station press"},      {DEW__IS_P, "surface pressure"},
    {DEW__IS_P, "pres"},               {DEW__IS_P, "sp"},
    {DEW__IS_P, "p"},                  {DEW__IS_P, "barometer"},
    {DEW__IS_P, "barometric pressure"}, {DEW__IS_P, "luftdruck"},
    {DEW__IS_P_SEA, "sea level pressure"}, {DEW__IS_P_SEA, "msl"},
    {DEW__IS_P_SEA, "mslp"},           {DEW__IS_P_SEA, "slp"},
    {DEW__IS_P_SEA, "msl pressure"},   {DEW__IS_P_SEA, "relative pressure"},
    {DEW__IS_WIND, "wind speed"},      {DEW__IS_WIND, "windspeed"},
    {DEW__IS_WIND, "wind spd"},        {DEW__IS_WIND, "wspd"},
    {DEW__IS_WIND, "wdsp"},            {DEW__IS_WIND, "wind"},
    {DEW__IS_WIND, "ws10m"},           {DEW__IS_WIND, "ws"},
    {DEW__IS_WIND, "windgeschwindigkeit"},
    {DEW__IS_GLOBAL, "ghi"},           {DEW__IS_GLOBAL, "g h"},
    {DEW__IS_GLOBAL, "global"},        {DEW__IS_GLOBAL, "global horizontal"},
    {DEW__IS_GLOBAL, "global radiation"}, {DEW__IS_GLOBAL, "solar radiation"},
    {DEW__IS_GLOBAL, "solar rad"},     {DEW__IS_GLOBAL, "solar"},
    {DEW__IS_GLOBAL, "pyranometer"},   {DEW__IS_GLOBAL, "globalstrahlung"},
    {DEW__IS_GLOBAL, "global solar"},  {DEW__IS_GLOBAL, "global horizontal irradiance"},
    {DEW__IS_DIRECT, "dni"},           {DEW__IS_DIRECT, "gb n"},
    {DEW__IS_DIRECT, "direct"},        {DEW__IS_DIRECT, "direct normal"},
    {DEW__IS_DIRECT, "direct normal irradiance"}, {DEW__IS_DIRECT, "direct solar"},
    {DEW__IS_DIFFUSE, "dhi"},          {DEW__IS_DIFFUSE, "gd h"},
    {DEW__IS_DIFFUSE, "diffuse"},      {DEW__IS_DIFFUSE, "diffuse horizontal"},
    {DEW__IS_DIFFUSE, "diffuse horizontal irradiance"},
    {DEW__IS_DIFFUSE, "diffuse solar"},
    {DEW__IS_CLOUD, "cloud cover"},    {DEW__IS_CLOUD, "cloudcover"},
    {DEW__IS_CLOUD, "total cloud cover"}, {DEW__IS_CLOUD, "cloudiness"},
    {DEW__IS_CLOUD, "sky cover"},      {DEW__IS_CLOUD, "opqcld"},
    {DEW__IS_CLOUD, "opaque sky cover"}, {DEW__IS_CLOUD, "opaque cloud cover"},
    {DEW__IS_INFRARED, "ir h"},        {DEW__IS_INFRARED, "sky infrared"},
    {DEW__IS_INFRARED, "horizontal infrared"},
    {DEW__IS_INFRARED, "horizontal infrared radiation"},
    {DEW__IS_INFRARED, "downwelling longwave"},
    {DEW__IS_INFRARED, "downward longwave"},
    {DEW__IS_INFRARED, "longwave downward radiation"},
    {DEW__IS_STATION, "station"},      {DEW__IS_STATION, "station id"},
    {DEW__IS_STATION, "origin"},       {DEW__IS_STATION, "airport"},
    {DEW__IS_NAME, "name"},            {DEW__IS_NAME, "station name"},
    {DEW__IS_LATITUDE, "latitude"},    {DEW__IS_LATITUDE, "lat"},
    {DEW__IS_LONGITUDE, "longitude"},  {DEW__IS_LONGITUDE, "lon"},
    {DEW__IS_LONGITUDE, "long"},
    {DEW__IS_ELEVATION, "elevation"},  {DEW__IS_ELEVATION, "elev"},
    {DEW__IS_ELEVATION, "altitude"},
    {DEW__IS_REPORT, "report type"},   {DEW__IS_REPORT, "report"},
};

/* Words that make a column something else: a limit, a flag, a summary. */
static const char *const others[] = {
    "daily",    "monthly",   "normal",   "normals",  "departure", "max",
    "maximum",  "min",       "minimum",  "peak",     "gust",      "dir",
    "direction", "source",   "uncert",   "uncertainty", "flag",   "quality",
    "qual",     "qc",        "clearsky", "clear sky", "set",      "setpoint",
    "index",    "chill",     "feels",    "apparent", "soil",      "water",
    "snow",     "change",    "tendency", "illum",    "zenith",    "units",
    "backup",   "vpd",       "absolute", "g/m3",     "degree",    "sustained",
    "precip",   "precipitation", "deficit", "std",   "sigma",     "zone",
    "sunrise",  "sunset",    "sd",       "visibility", "start",   "end",
    "operator", "wind direction",
};
static const char *const outdoors[] = {
    "out", "outdoor", "outdoors", "outside", "ambient", "exterior",
    "external", "aussen", "aussentemperatur", "ext", "virtual outdoor",
};
static const char *const indoors[] = {
    "in", "indoor", "indoors", "inside", "room", "interior", "thermostat",
    "current", "living", "bedroom", "kitchen", "bath", "bathroom", "dining",
    "basement", "attic", "crawl", "office", "innen", "closet", "hall",
};
/* clang-format on */

static int any_of(struct words *w, const char *const *list, size_t n, int mark)
{
    int length, at, found = 0;

    for (size_t i = 0; i < n; i++) {
        at = find(w, list[i], &length);
        if (at < 0)
            continue;
        found = 1;
        for (int j = at; mark && j < at + length; j++)
            w->used[j] = 1;
    }
    return found;
}

#define ANY_OF(w, list, mark)                                                  \
    any_of(w, list, sizeof(list) / sizeof((list)[0]), mark)

/* The pattern with most words; w->used marks them. */
static const struct pattern *best_pattern(struct words *w, int *words)
{
    const struct pattern *best = NULL;
    int where = 0;

    *words = 0;
    for (size_t i = 0; i < sizeof patterns / sizeof patterns[0]; i++) {
        int length, at = find(w, patterns[i].words, &length);

        if (at < 0 || length < *words ||
            (at > 0 && length == 1 && strlen(patterns[i].words) <= 2 &&
             patterns[i].meaning != DEW__IS_RH))
            continue;
        best = &patterns[i];
        *words = length;
        where = at;
    }
    for (int i = where; best != NULL && i < where + *words; i++)
        w->used[i] = 1;
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
static void mark_meaning(struct words *w, enum dew__meaning meaning)
{
    for (size_t i = 0; i < sizeof patterns / sizeof patterns[0]; i++) {
        int length, at = find(w, patterns[i].words, &length);

        if (patterns[i].meaning != meaning || at < 0 ||
            strlen(patterns[i].words) <= 2)
            continue;
        for (int j = at; j < at + length; j++)
            w->used[j] = 1;
    }
}

/* What a logger's header has left: the room. */
static void name_room(const struct words *w, const char *number,
                      struct dew__column *column)
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

static int is_value(enum dew__meaning m)
{
    return m >= DEW__IS_T && m <= DEW__IS_CO2;
}

static void read_time_header(const char *header, struct words *w,
                             struct dew__column *column)
{
    int length;

    if (find(w, "mm/dd/yyyy", &length) >= 0 || find(w, "m/d/y", &length) >= 0)
        column->order = 1;
    if (find(w, "dd/mm/yyyy", &length) >= 0 || find(w, "d/m/y", &length) >= 0)
        column->order = 2;
    column->has_zone = dew__zone_read(header, &column->zone);
}

void dew__column_read(const char *header, int cell, struct dew__column *column)
{
    const struct pattern *best;
    char number[8];
    struct words w;
    int stop, length;

    memset(column, 0, sizeof *column);
    column->cell = cell;
    snprintf(column->header, sizeof column->header, "%s", header);
    split_words(header, &w);
    part_numbers(&w, number, sizeof number);
    stop = ANY_OF(&w, others, 0) && find(&w, "timestamp", &length) != 0;
    best = stop ? NULL : best_pattern(&w, &column->words);
    if (best == NULL) {
        /* "Living Room (F)": a temperature by its unit alone. */
        column->unit = stop ? NULL : unit_among(&w, DEW_TEMPERATURE);
        if (column->unit == NULL || w.count < 2)
            return;
        column->meaning = DEW__IS_T;
        column->place = DEW__INDOORS;
        name_room(&w, number, column);
        return;
    }
    column->meaning = best->meaning;
    if (best->meaning == DEW__IS_TIME)
        read_time_header(header, &w, column);
    if (!is_value(best->meaning) && best->meaning != DEW__IS_ELEVATION)
        return;
    column->unit = best->meaning == DEW__IS_CLOUD
                       ? cloud_unit(&w)
                       : unit_among(&w, dew__meaning_quantity(best->meaning));
    if (ANY_OF(&w, indoors, 0))
        column->place = DEW__INDOORS;
    if (ANY_OF(&w, outdoors, 1))
        column->place = DEW__OUTDOORS;
    mark_meaning(&w, best->meaning);
    name_room(&w, number, column);
}

/* ---- words ------------------------------------------------------------------ */

const char *dew__meaning_text(enum dew__meaning meaning)
{
    static const char *const text[] = {
#define X(code, quantity, words) words,
        DEW__MEANING_MAP(X)
#undef X
    };
    return text[meaning];
}

enum dew_quantity dew__meaning_quantity(enum dew__meaning meaning)
{
    static const enum dew_quantity quantity[] = {
#define X(code, quantity, words) DEW_##quantity,
        DEW__MEANING_MAP(X)
#undef X
    };
    return quantity[meaning];
}

enum dew__meaning dew__meaning_find(const char *word)
{
    struct dew__column column;

    for (int m = 1; m < DEW__MEANING_COUNT; m++)
        if (dew__same_words(word, dew__meaning_text((enum dew__meaning)m)))
            return (enum dew__meaning)m;
    dew__column_read(word, 0, &column);
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

int dew__same_words(const char *a, const char *b)
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
