/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a made year costs where it matters: hours too humid and too dry of every
 * option of the scenarios, in the real years of six places and in the years
 * made from their monthly figures.
 *
 *     study_options [SEED [SCENARIO.yaml ...]]   all of scenarios/ by default
 *
 * DEW_DATA names the folder of the real years; without them nothing is told.
 */
#include <glob.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/num.h"
#include "dew/made.h"
#include "dew/scenario.h"
#include "dew/study.h"

static const char *const places[][3] = {
    {"722020", "722020TYA.CSV", "Miami"},
    {"726580", "726580TYA.CSV", "Minneapolis"},
    {"722780", "722780TYA.CSV", "Phoenix"},
    {"727930", "727930TYA.CSV", "Seattle"},
    {"723170", "723170TYA.CSV", "Greensboro"},
    {"703165", "703165TY.csv", "Sand Point"},
};
enum {
    PLACES = sizeof places / sizeof places[0],
    OPTIONS = 64,
    TEXT = 1 << 20
};

/* Hours too humid and too dry of each option of one scenario in one year. */
struct hours {
    size_t count;
    double of[OPTIONS][2];
};

/* How many pairs of option and quantity hold the limits, and where not. */
struct score {
    int pairs, median, worst, beyond[PLACES];
};

struct study {
    struct dew_year *real[PLACES], *made[PLACES];
    struct score score;
};

/* ---- years ------------------------------------------------------------------ */

static struct dew_year *real_year(const char *file)
{
    const char *root = getenv("DEW_DATA");
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct dew_weather_report report = {0};
    struct dew_year *year;
    char path[400];

    snprintf(path, sizeof path, "%s/weather/tmy3/%s",
             root != NULL ? root : "../shared/data", file);
    dew_weather_read(&year, path, &ask, &report, NULL);
    return year;
}

static struct dew_year *made_year(const char *id, unsigned long seed)
{
    const struct dew_made how = {.seed = seed};
    struct dew_climate place;
    struct dew_year *year = NULL;

    if (dew_climate_find(id, &place, NULL) == DEW_OK)
        dew_made_open(&place, &how, &year, NULL);
    return year;
}

static int open_years(struct study *s, unsigned long seed)
{
    for (int p = 0; p < PLACES; p++) {
        s->real[p] = real_year(places[p][1]);
        s->made[p] = made_year(places[p][0], seed);
        if (s->real[p] == NULL || s->made[p] == NULL)
            return 0;
    }
    return 1;
}

static void close_years(struct study *s)
{
    for (int p = 0; p < PLACES; p++) {
        dew_year_close(s->real[p]);
        dew_year_close(s->made[p]);
    }
}

/* ---- a scenario in a year ----------------------------------------------------- */

static int march(struct dew_study *study, struct hours *out)
{
    const struct dew_outcome *o;
    double done = 0.0;

    while (done < 1.0)
        if (dew_study_step(study, 8760, &done, NULL) != DEW_OK)
            return 0;
    o = dew_study_outcomes(study, &out->count);
    for (size_t i = 0; i < out->count; i++) {
        out->of[i][0] = o[i].year.too_humid;
        out->of[i][1] = o[i].year.too_dry;
    }
    return 1;
}

static int run(const struct dew_scenario *scenario, const struct dew_year *year,
               struct hours *out)
{
    static struct dew_case cases[OPTIONS];
    struct dew_option options[OPTIONS] = {{0}};
    size_t n = dew_scenario_count(scenario), dates;
    struct dew_outdoors outdoors;
    struct dew_weather weather;
    struct dew_study *study;
    int good;

    weather.hours = dew_year_hours(year, &weather.count);
    weather.dates = dew_year_dates(year, &dates);
    if (n > OPTIONS || dew_scenario_outdoors(year, &outdoors, NULL) != DEW_OK)
        return 0;
    for (size_t i = 0; i < n; i++) {
        if (dew_scenario_case(scenario, i, &outdoors, NULL, &cases[i], NULL) !=
            DEW_OK)
            return 0;
        options[i].name = dew_scenario_name(scenario, i);
        options[i].c = &cases[i];
        options[i].required = dew_scenario_required(scenario, i);
    }
    if (dew_study_open(&study, options, n, &weather, NULL) != DEW_OK)
        return 0;
    good = march(study, out);
    dew_study_close(study);
    return good;
}

/* ---- the table ---------------------------------------------------------------------- */

/* How far off in the stated limit: 1 or less holds. */
static double off(double made, double real, double share, double hours)
{
    return fabs(made - real) / fmax(hours, share * real);
}

static void row(struct study *s, const char *scenario, const char *option,
                int dry, const double made[PLACES], const double real[PLACES])
{
    double near[PLACES], worst = 0.0, middle;

    printf("%-14.*s %-32.32s %-5s", (int)strcspn(scenario, "."), scenario,
           option, dry ? "dry" : "humid");
    for (int p = 0; p < PLACES; p++) {
        double far = off(made[p], real[p], 0.25, 100.0);

        near[p] = off(made[p], real[p], 0.10, 60.0);
        worst = fmax(worst, far);
        s->score.beyond[p] += far > 1.0;
        printf(" %5.0f/%-5.0f", made[p], real[p]);
    }
    dew__sort(near, PLACES);
    middle = dew__quantile(near, PLACES, 0.5);
    s->score.pairs++;
    s->score.median += middle <= 1.0;
    s->score.worst += worst <= 1.0;
    printf(" %5.2f %5.2f%s\n", middle, worst, worst > 1.0 ? " *" : "");
}

static int table(struct study *s, const char *name,
                 const struct dew_scenario *scenario)
{
    static struct hours made[PLACES], real[PLACES];
    double m[PLACES], r[PLACES];

    for (int p = 0; p < PLACES; p++)
        if (!run(scenario, s->real[p], &real[p]) ||
            !run(scenario, s->made[p], &made[p]))
            return 0;
    for (size_t i = 0; i < real[0].count; i++)
        for (int dry = 0; dry < 2; dry++) {
            for (int p = 0; p < PLACES; p++) {
                m[p] = made[p].of[i][dry];
                r[p] = real[p].of[i][dry];
            }
            row(s, name, dew_scenario_name(scenario, i), dry, m, r);
        }
    return 1;
}

static int study_file(struct study *s, const char *path)
{
    static char text[TEXT];
    struct dew_scenario_source from = {.text = text, .name = path};
    struct dew_scenario *scenario;
    const char *name = strrchr(path, '/');
    FILE *in = fopen(path, "rb");
    int good;

    if (in == NULL) {
        fprintf(stderr, "%s: cannot be read\n", path);
        return 0;
    }
    from.length = fread(text, 1, sizeof text, in);
    fclose(in);
    if (dew_scenario_open(&scenario, &from, NULL) != DEW_OK) {
        fprintf(stderr, "%s: is no scenario\n", path);
        return 0;
    }
    good = table(s, name != NULL ? name + 1 : path, scenario);
    dew_scenario_close(scenario);
    return good;
}

static void head(unsigned long seed)
{
    printf(
        "Hours made / real, seed %lu; then how far off the made year is in "
        "the median of\nthe places (1 = 10 %% or 60 h) and at the worst (1 = "
        "25 %% or 100 h; * = beyond).\n%-14s %-32s %-5s",
        seed, "scenario", "option", "hours");
    for (int p = 0; p < PLACES; p++)
        printf(" %-11s", places[p][2]);
    printf("median worst\n");
}

static void summary(const struct score *c)
{
    printf(
        "%d of %d pairs within 10 %% or 60 h in the median of the places, %d "
        "within 25 %% or 100 h at the worst\nbeyond that:",
        c->median, c->pairs, c->worst);
    for (int p = 0; p < PLACES; p++)
        printf(" %s %d%s", places[p][2], c->beyond[p],
               p + 1 < PLACES ? "," : "\n");
}

static int study_all(struct study *s, char **paths, size_t count)
{
    int good = 1;

    for (size_t i = 0; i < count && good; i++)
        good = study_file(s, paths[i]);
    summary(&s->score);
    return good;
}

int main(int argc, char **argv)
{
    unsigned long seed = argc > 1 ? strtoul(argv[1], NULL, 10) : DEW_MADE_SEED;
    struct study s = {0};
    glob_t found = {0};
    int good = 1;

    if (!open_years(&s, seed)) {
        printf("options in made years: the real years are not there, left "
               "out\n");
        close_years(&s);
        return 0;
    }
    head(seed);
    if (argc > 2)
        good = study_all(&s, argv + 2, (size_t)argc - 2);
    else if (glob("scenarios/*.yaml", 0, NULL, &found) == 0)
        good = study_all(&s, found.gl_pathv, found.gl_pathc);
    globfree(&found);
    close_years(&s);
    return !good;
}
