/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Options of the sub-commands that read a weather file, and the reading. */
#include <stdlib.h>
#include <string.h>

#include "cli/weather.h"
#include "dew/made.h"

enum {
    KEY_STATION = 0x300,
    KEY_YEAR,
    KEY_ORDER,
    KEY_CLOCK,
    KEY_UTC,
    KEY_LATITUDE,
    KEY_LONGITUDE,
    KEY_ELEVATION,
    KEY_UNIT,
    KEY_COLUMN,
    KEY_FROST,
    KEY_GAP,
    KEY_FILL,
    KEY_SVG
};

static const struct argp_option options[] = {
    {"station", KEY_STATION, "NAME", 0, "which, in a file of several", 0},
    {"year", KEY_YEAR, "YYYY", 0, "which, in a file of several", 0},
    {"order", KEY_ORDER, "mdy|dmy", 0, "how dates such as 3/4/2020 are meant",
     0},
    {"clock", KEY_CLOCK, "standard|us|eu", 0,
     "the file's clock: standard time all year, or summer time by that rule",
     0},
    {"utc", KEY_UTC, "HOURS", 0, "local standard time is UTC + HOURS (-6)", 0},
    {"latitude", KEY_LATITUDE, "DEG", 0, "of the place, north positive", 0},
    {"longitude", KEY_LONGITUDE, "DEG", 0, "of the place, east positive", 0},
    {"elevation", KEY_ELEVATION, "LENGTH", 0, "of the place, as 1200ft", 0},
    {"unit", KEY_UNIT, "HEADER=UNIT", 0,
     "the unit of a column whose header has none, as temp=degF", 0},
    {"column", KEY_COLUMN, "HEADER=MEANING", 0,
     "what a column is: \"temperature\", \"dew point\", \"relative "
     "humidity\", \"wind speed\" ...",
     0},
    {"frost-point", KEY_FROST, NULL, 0,
     "dew points below freezing are over ice", 0},
    {"gap", KEY_GAP, "HOURS", 0, "longest gap filled by a line (3)", 0},
    {"fill", KEY_FILL, "PLACE", 0,
     "fill longer gaps, and what the file has not, from the year made for a "
     "place of `weather list`",
     0},
    {0},
};

static const struct argp_option look_options[] = {
    {"svg", KEY_SVG, "FILE", 0, "draw the year of t and dew point into FILE",
     0},
    {0},
};

/* Options that are one number. */
static const struct numbered {
    int key;
    const char *name;
    double low, high;
    size_t offset; /* in struct dew_weather_ask                              */
} numbered[] = {
    {KEY_UTC, "utc", -12.0, 14.0, offsetof(struct dew_weather_ask, utc_offset)},
    {KEY_LATITUDE, "latitude", -90.0, 90.0,
     offsetof(struct dew_weather_ask, latitude)},
    {KEY_LONGITUDE, "longitude", -180.0, 180.0,
     offsetof(struct dew_weather_ask, longitude)},
    {KEY_GAP, "gap", 0.0, 24.0, offsetof(struct dew_weather_ask, gap_limit)},
    {KEY_YEAR, "year", 1800.0, 2200.0, offsetof(struct dew_weather_ask, year)},
};

/* 1 when the key is one of them. */
static int take_number(int key, const char *word, struct argp_state *state)
{
    struct cli__weather_file *f = state->input;
    const struct numbered *n = numbered;
    double x;

    while (n < numbered + sizeof numbered / sizeof *n && n->key != key)
        n++;
    if (n == numbered + sizeof numbered / sizeof *n)
        return 0;
    if (dew_number_read(word, strlen(word), &x) != strlen(word) || x < n->low ||
        x > n->high)
        cli__usage(state, "--%s %s: write a number in %g .. %g", n->name, word,
                   n->low, n->high);
    if (key == KEY_YEAR)
        f->ask.year = (int)x;
    else
        *(double *)(void *)((char *)&f->ask + n->offset) = x;
    return 1;
}

/* The index of word among choices, or a usage error. */
static int choice(struct argp_state *state, const char *name, const char *word,
                  const char *const choices[], int count)
{
    for (int i = 0; i < count; i++)
        if (strcmp(word, choices[i]) == 0)
            return i + 1;
    cli__usage(state, "--%s: no choice %s", name, word);
    return 0;
}

static void say(struct argp_state *state, char *word, int is_unit)
{
    struct cli__weather_file *f = state->input;
    const char *wrong = run__say(&f->said, word, is_unit);

    if (wrong != NULL)
        cli__usage(state, "%s: %s", word, wrong);
}

static double length_of(struct argp_state *state, const char *word)
{
    struct dew_error err = {0};
    struct cli__typed typed;

    if (cli__quantity(word, DEW_LENGTH, &typed, &err) != DEW_OK)
        cli__usage(state, "--elevation: %s", err.text);
    return typed.si;
}

static void take_name(char *word, struct argp_state *state)
{
    struct cli__weather_file *f = state->input;

    if (state->arg_num == 0)
        f->path = word;
    else if (state->arg_num == 1 && f->files == 2)
        f->out = word;
    else
        cli__usage(state, "one name too many: %s", word);
}

static error_t take(int key, char *word, struct argp_state *state)
{
    static const char *const orders[] = {"mdy", "dmy"};
    static const char *const clocks[] = {"standard", "us", "eu"};
    struct cli__weather_file *f = state->input;

    if (take_number(key, word, state))
        return 0;
    switch (key) {
    case KEY_STATION:
        return f->ask.station = word, 0;
    case KEY_ELEVATION:
        return f->ask.elevation = length_of(state, word), 0;
    case KEY_ORDER:
        f->ask.order =
            (enum dew_date_order)choice(state, "order", word, orders, 2);
        return 0;
    case KEY_CLOCK:
        f->ask.clock = (enum dew_clock)choice(state, "clock", word, clocks, 3);
        return 0;
    case KEY_UNIT:
    case KEY_COLUMN:
        return say(state, word, key == KEY_UNIT), 0;
    case KEY_FROST:
        return f->ask.frost_point = 1, 0;
    case KEY_FILL:
        return f->fill = word, 0;
    case ARGP_KEY_INIT:
        for (int i = 0; state->root_argp->children[i].argp != NULL; i++)
            state->child_inputs[i] = i == 0 ? (void *)&f->common : (void *)f;
        return 0;
    case ARGP_KEY_ARG:
        return take_name(word, state), 0;
    case ARGP_KEY_END:
        if (state->arg_num < (unsigned)f->files)
            cli__usage(state, f->files == 1 ? "name a file"
                                            : "name a file and where to write");
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

static error_t take_look(int key, char *word, struct argp_state *state)
{
    struct cli__weather_file *f = state->input;

    if (key != KEY_SVG)
        return ARGP_ERR_UNKNOWN;
    f->svg = word;
    return 0;
}

int cli__weather_parse(struct cli__weather_file *f, const char *does, int argc,
                       char **argv)
{
    static const struct argp look = {.options = look_options,
                                     .parser = take_look};
    const struct argp_child children[] = {
        {&cli__result_argp, 0, NULL, 0},
        {f->files == 1 ? &look : NULL, 0, NULL, 0},
        {0},
    };
    const struct argp argp = {.options = options,
                              .parser = take,
                              .args_doc = f->files == 1 ? "FILE" : "FILE OUT",
                              .doc = does,
                              .children = children};
    const struct dew_weather_ask usual = DEW_WEATHER_ASK;
    int code;

    f->ask = usual;
    code = cli__parse(&argp, argc, argv, f);
    f->ask.said = f->said.row;
    f->ask.said_count = f->said.count;
    return code;
}

int cli__weather_open(struct cli__weather_file *f)
{
    struct dew_error list[CLI__WEATHER_FAULTS] = {{0}};
    struct dew_faults faults = {list, CLI__WEATHER_FAULTS, 0};

    struct dew_error err = {0};

    f->ask.keep_gaps |= f->fill != NULL;
    if (dew_weather_read(&f->year, f->path, &f->ask, &f->report, &faults) !=
        DEW_OK)
        return cli__faults(&faults);
    if (f->fill == NULL ||
        run__fill(f->year, f->fill, DEW_MADE_SEED, &f->filled, &err) == DEW_OK)
        return 0;
    dew_year_close(f->year);
    return cli__error(&err);
}

int cli__weather_convert(int argc, char **argv)
{
    struct cli__weather_file f = {.files = 2};
    struct dew_error err = {0};
    int code = cli__weather_parse(
        &f,
        "Read a weather file and write its hours in our own form, a table that "
        "every command reads.",
        argc, argv);
    size_t hours;

    if (code == 0)
        code = cli__weather_open(&f);
    if (code != 0)
        return code;
    if (dew_weather_write(f.year, f.out, &err) != DEW_OK) {
        code = cli__error(&err);
    } else {
        dew_year_hours(f.year, &hours);
        printf("%zu hours written to ", hours);
        cli__put(stdout, f.out);
        putchar('\n');
    }
    dew_year_close(f.year);
    return code;
}
