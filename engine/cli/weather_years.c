/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * dewledger weather years: a scenario's options through many made years, for
 * what one typical year cannot tell: how far years differ.
 */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/load.h"
#include "cli/weather.h"
#include "core/clean.h"

enum { KEY_YEARS = 0x500, YEARS_MOST = 200, NAME = 22 };

/* Hours of an option in one year. */
struct hours {
    double humid, dry;
};

struct years {
    struct cli__cli result, common;
    const char *path;
    int count;
    struct dew_run *run;
    size_t options;
    struct hours *hours; /* [year][option]; year 0 is the typical one       */
};

/* ---- one year ---------------------------------------------------------------- */

static int march(struct years *y, int number)
{
    struct hours *out = y->hours + (size_t)number * y->options;
    struct dew_error err = {0};
    double done = 0.0;

    if (isatty(STDERR_FILENO))
        fprintf(stderr, "\ryear %d of %d", number, y->count);
    if (number > 0 && dew_run_made(y->run, number, &err) != DEW_OK)
        return cli__error(&err);
    while (done < 1.0)
        if (dew_run_step(y->run, 8760, &done, &err) != DEW_OK)
            return cli__error(&err);
    for (size_t i = 0; i < y->options; i++) {
        const struct dew_tally *year = &dew_run_outcome(y->run, i)->year;

        out[i] = (struct hours){year->too_humid, year->too_dry};
    }
    return CLI__DONE;
}

static int all_years(struct years *y)
{
    int code = CLI__DONE;

    y->options = dew_run_count(y->run);
    y->hours = calloc((size_t)(y->count + 1) * y->options, sizeof *y->hours);
    if (y->hours == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    for (int n = 0; n <= y->count && code == CLI__DONE; n++)
        code = march(y, n);
    if (isatty(STDERR_FILENO))
        fprintf(stderr, "\r%30s\r", "");
    return code;
}

/* ---- what is told --------------------------------------------------------------- */

/* Hours of an option in a year, too humid or too dry. */
static const double *of(const struct years *y, int year, size_t option, int dry)
{
    const struct hours *h = &y->hours[(size_t)year * y->options + option];

    return dry ? &h->dry : &h->humid;
}

static struct cli__weather_spread spread_of(const struct years *y,
                                            size_t option, int dry)
{
    return cli__weather_spread(
        of(y, 1, option, dry),
        y->options * sizeof(struct hours) / sizeof(double), y->count);
}

static const struct dew_site *site_of(const struct years *y)
{
    return dew_year_site(dew_run_year(y->run));
}

static unsigned long seed_of(const struct years *y)
{
    return dew_scenario_weather(dew_run_scenario(y->run)).seed;
}

static const char *name_of(const struct years *y, size_t i)
{
    return dew_scenario_name(dew_run_scenario(y->run),
                             dew_run_option(y->run, i));
}

static void print_text(const struct years *y)
{
    char name[NAME], head[240];

    snprintf(head, sizeof head,
             "Hours in %d made years of %s%s%s, seed %lu, and in the typical "
             "one",
             y->count, site_of(y)->id, site_of(y)->id[0] ? " " : "",
             site_of(y)->name, seed_of(y));
    cli__wrap(stdout, 0, head);
    printf("\n%-*s%28s%30s\n%-*s", NAME, "", "too humid, h", "too dry, h", NAME,
           "option");
    for (int dry = 0; dry < 2; dry++)
        printf("%s%7s%7s%7s%7s", dry ? "  " : "", "typical", "least", "mean",
               "most");
    putchar('\n');
    for (size_t i = 0; i < y->options; i++) {
        core__clean(name_of(y, i), name, sizeof name);
        printf("%s%*s", name, NAME - report__width(name), "");
        for (int dry = 0; dry < 2; dry++) {
            struct cli__weather_spread s = spread_of(y, i, dry);

            printf("%s%7.0f%7.0f%7.0f%7.0f", dry ? "  " : "", *of(y, 0, i, dry),
                   s.low, s.mean, s.high);
        }
        putchar('\n');
    }
    puts("\nYears stray here as the days' persistence makes them; slow swings "
         "of the\nclimate are not in it: the spread is a lower bound.");
}

static json_t *option_json(const struct years *y, size_t option, int dry)
{
    struct cli__weather_spread s = spread_of(y, option, dry);
    json_t *list = json_array();

    for (int n = 1; n <= y->count; n++)
        list = cli__add(list, json_real(*of(y, n, option, dry)));
    return json_pack("{s:f, s:f, s:f, s:f, s:o}", "typical",
                     *of(y, 0, option, dry), "least", s.low, "mean", s.mean,
                     "most", s.high, "years", list);
}

static int print_json(const struct years *y)
{
    json_t *list = json_array();

    for (size_t i = 0; i < y->options; i++)
        list =
            cli__add(list, json_pack("{s:s, s:o, s:o}", "name", name_of(y, i),
                                     "too_humid_h", option_json(y, i, 0),
                                     "too_dry_h", option_json(y, i, 1)));
    return cli__json(json_pack("{s:s, s:s, s:i, s:I, s:o}", "number",
                               site_of(y)->id, "name", site_of(y)->name,
                               "years", y->count, "seed",
                               (json_int_t)seed_of(y), "options", list));
}

/* ---- the command line -------------------------------------------------------------- */

static int tell(struct years *y)
{
    int code = cli__open(&y->run, y->path, &y->common, DEW_RUN_YEARS, 0);

    if (code == CLI__DONE)
        code = all_years(y);
    if (code == CLI__DONE && y->result.json)
        return print_json(y);
    if (code == CLI__DONE)
        print_text(y);
    return code;
}

static error_t take(int key, char *word, struct argp_state *state)
{
    struct years *y = state->input;

    switch (key) {
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &y->result;
        state->child_inputs[1] = &y->common;
        return 0;
    case KEY_YEARS:
        y->count = (int)cli__whole(state, "years", word, 2.0, YEARS_MOST);
        return 0;
    default:
        return cli__one(key, word, state, &y->path);
    }
}

int cli__weather_years(int argc, char **argv)
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
    const struct argp_child children[] = {
        {&cli__result_argp, 0, NULL, 0}, {&cli__pick_argp, 0, NULL, 0}, {0}};
    const struct argp argp = {options, take, "SCENARIO.yaml", does, children,
                              NULL,    NULL};
    struct years *y = calloc(1, sizeof *y);
    int code;

    if (y == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    y->count = 30;
    code = cli__parse(&argp, argc, argv, y);
    if (code == CLI__DONE)
        code = tell(y);
    dew_run_close(y->run);
    free(y->hours);
    free(y);
    return code;
}
