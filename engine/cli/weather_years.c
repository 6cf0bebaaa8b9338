/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * dewledger weather years: a scenario's options through many made years, for
 * what one typical year cannot tell: how far years differ.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/job.h"
#include "cli/load.h"
#include "cli/weather.h"
#include "core/clean.h"
#include "dew/made.h"
#include "dew/study.h"
#include "report/words.h"

enum { KEY_YEARS = 0x500, YEARS_MOST = 200, OPTIONS_MOST = 64, NAME = 22 };

/* Hours of an option in one year. */
struct hours {
    double humid, dry;
};

/* Of the years that stray: least, mean, most. */
struct spread {
    double low, mean, high;
};

struct years {
    struct dew__cli result, common;
    const char *path;
    int count;
    struct dew__job job;
    struct dew_climate place;
    unsigned long seed;
    size_t which[OPTIONS_MOST], options;
    struct dew_case *cases;
    struct hours *hours; /* [year][option]; year 0 is the typical one       */
};

/* ---- one year ---------------------------------------------------------------- */

static int march(struct dew_study *study, struct hours *out)
{
    const struct dew_outcome *o;
    struct dew_error err = {0};
    double done = 0.0;
    size_t count;

    while (done < 1.0)
        if (dew_study_step(study, 8760, &done, &err) != DEW_OK)
            return dew__cli_error(&err);
    o = dew_study_outcomes(study, &count);
    for (size_t i = 0; i < count; i++)
        out[i] = (struct hours){o[i].year.too_humid, o[i].year.too_dry};
    return DEW__DONE;
}

static int study_year(struct years *y, const struct dew_year *year,
                      struct hours *out)
{
    struct dew_option options[OPTIONS_MOST] = {{0}};
    struct dew_error err = {0};
    struct dew_outdoors outdoors;
    struct dew_weather weather;
    struct dew_study *study;
    size_t dates;
    int code;

    weather.hours = dew_year_hours(year, &weather.count);
    weather.dates = dew_year_dates(year, &dates);
    if (dew_scenario_outdoors(year, &outdoors, &err) != DEW_OK)
        return dew__cli_error(&err);
    for (size_t i = 0; i < y->options; i++) {
        options[i].name = dew_scenario_name(y->job.scenario, y->which[i]);
        options[i].c = &y->cases[i];
        options[i].required =
            dew_scenario_required(y->job.scenario, y->which[i]);
        if (dew_scenario_case(y->job.scenario, y->which[i], &outdoors, NULL,
                              &y->cases[i], &err) != DEW_OK)
            return dew__cli_error(&err);
    }
    if (dew_study_open(&study, options, y->options, &weather, &err) != DEW_OK)
        return dew__cli_error(&err);
    code = march(study, out);
    dew_study_close(study);
    return code;
}

static int make_year(struct years *y, int number)
{
    const struct dew_made how = {.seed = y->seed, .number = number};
    struct dew_error err = {0};
    struct dew_year *year;
    int code;

    if (isatty(STDERR_FILENO))
        fprintf(stderr, "\ryear %d of %d", number, y->count);
    if (dew_made_open(&y->place, &how, &year, &err) != DEW_OK)
        return dew__cli_error(&err);
    code = study_year(y, year, y->hours + (size_t)number * y->options);
    dew_year_close(year);
    return code;
}

static int all_years(struct years *y)
{
    int code = DEW__DONE;

    y->cases = calloc(y->options, sizeof *y->cases);
    y->hours = calloc((size_t)(y->count + 1) * y->options, sizeof *y->hours);
    if (y->cases == NULL || y->hours == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    for (int n = 0; n <= y->count && code == DEW__DONE; n++)
        code = make_year(y, n);
    if (isatty(STDERR_FILENO))
        fprintf(stderr, "\r%30s\r", "");
    return code;
}

/* ---- what is told --------------------------------------------------------------- */

static double of(const struct hours *h, int dry)
{
    return dry ? h->dry : h->humid;
}

static struct spread spread_of(const struct years *y, size_t option, int dry)
{
    struct spread s = {INFINITY, 0.0, -INFINITY};

    for (int n = 1; n <= y->count; n++) {
        double x = of(&y->hours[(size_t)n * y->options + option], dry);

        s.low = fmin(s.low, x);
        s.high = fmax(s.high, x);
        s.mean += x / y->count;
    }
    return s;
}

static void print_text(const struct years *y)
{
    char name[NAME];

    printf("Hours in %d made years of ", y->count);
    dew__cli_put(stdout, y->place.site.id);
    fputs(y->place.site.id[0] ? " " : "", stdout);
    dew__cli_put(stdout, y->place.site.name);
    printf(", seed %lu, and in the typical one\n\n%-*s%28s%30s\n%-*s", y->seed,
           NAME, "", "too humid, h", "too dry, h", NAME, "option");
    for (int dry = 0; dry < 2; dry++)
        printf("%s%7s%7s%7s%7s", dry ? "  " : "", "typical", "least", "mean",
               "most");
    putchar('\n');
    for (size_t i = 0; i < y->options; i++) {
        dew__clean(dew_scenario_name(y->job.scenario, y->which[i]), name,
                   sizeof name);
        printf("%s%*s", name, NAME - dew__width(name), "");
        for (int dry = 0; dry < 2; dry++) {
            struct spread s = spread_of(y, i, dry);

            printf("%s%7.0f%7.0f%7.0f%7.0f", dry ? "  " : "",
                   of(&y->hours[i], dry), s.low, s.mean, s.high);
        }
        putchar('\n');
    }
    puts("\nYears stray here as the days' persistence makes them; slow swings "
         "of the\nclimate are not in it: the spread is a lower bound.");
}

static json_t *option_json(const struct years *y, size_t option, int dry)
{
    struct spread s = spread_of(y, option, dry);
    json_t *list = json_array();

    for (int n = 1; n <= y->count; n++)
        json_array_append_new(
            list,
            json_real(of(&y->hours[(size_t)n * y->options + option], dry)));
    return json_pack("{s:f, s:f, s:f, s:f, s:o}", "typical",
                     of(&y->hours[option], dry), "least", s.low, "mean", s.mean,
                     "most", s.high, "years", list);
}

static int print_json(const struct years *y)
{
    json_t *list = json_array();

    for (size_t i = 0; i < y->options; i++)
        json_array_append_new(
            list, json_pack("{s:s, s:o, s:o}", "name",
                            dew_scenario_name(y->job.scenario, y->which[i]),
                            "too_humid_h", option_json(y, i, 0), "too_dry_h",
                            option_json(y, i, 1)));
    return dew__cli_json(json_pack("{s:s, s:s, s:i, s:I, s:o}", "number",
                                   y->place.site.id, "name", y->place.site.name,
                                   "years", y->count, "seed",
                                   (json_int_t)y->seed, "options", list));
}

/* ---- the command line -------------------------------------------------------------- */

static int tell(struct years *y)
{
    int code = dew__cli_scenario(y->path, &y->common, &y->job.scenario);

    if (code == DEW__DONE)
        code = dew__job_place(&y->job, y->path, &y->place);
    if (code == DEW__DONE)
        code = dew__cli_chosen(&y->common, y->job.scenario, y->which,
                               OPTIONS_MOST, &y->options);
    if (code != DEW__DONE)
        return code;
    y->seed = dew_scenario_weather(y->job.scenario).seed;
    code = all_years(y);
    if (code == DEW__DONE && y->result.json)
        return print_json(y);
    if (code == DEW__DONE)
        print_text(y);
    return code;
}

static error_t take(int key, char *word, struct argp_state *state)
{
    struct years *y = state->input;
    double x;

    switch (key) {
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &y->result;
        state->child_inputs[1] = &y->common;
        return 0;
    case KEY_YEARS:
        if (dew_number_read(word, strlen(word), &x) != strlen(word) ||
            x != floor(x) || x < 2 || x > YEARS_MOST)
            dew__cli_usage(state, "--years %s: write a whole number in 2 .. %d",
                           word, YEARS_MOST);
        else
            y->count = (int)x;
        return 0;
    default:
        return dew__cli_one(key, word, state, &y->path);
    }
}

int dew__weather_years(int argc, char **argv)
{
    static const struct argp_option options[] = {
        {"years", KEY_YEARS, "N", 0, "how many years (30)", 0}, {0}};
    static const char does[] =
        "March a scenario's options through the typical year and many other "
        "made years of its place, and say how far their hours too humid and "
        "too dry differ.  The scenario names weather.place or "
        "weather.monthly.\v"
        "  dewledger weather years house.yaml\n"
        "  dewledger weather years house.yaml --years 100 --json\n";
    const struct argp_child children[] = {{&dew__cli_result_argp, 0, NULL, 0},
                                          {&dew__cli_pick_argp, 0, NULL, 0},
                                          {0}};
    const struct argp argp = {options, take, "SCENARIO.yaml", does, children,
                              NULL,    NULL};
    struct years *y = calloc(1, sizeof *y);
    int code;

    if (y == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    y->count = 30;
    code = dew__cli_parse(&argp, argc, argv, y);
    if (code == DEW__DONE)
        code = tell(y);
    dew__job_close(&y->job);
    free(y->cases);
    free(y->hours);
    free(y);
    return code;
}
