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
#include <unistd.h>

#include "core/num.h"
#include "dew/made.h"
#include "dew/run.h"

static const char *const places[][3] = {
    {"722020", "722020TYA.CSV", "Miami"},
    {"726580", "726580TYA.CSV", "Minneapolis"},
    {"722780", "722780TYA.CSV", "Phoenix"},
    {"727930", "727930TYA.CSV", "Seattle"},
    {"723170", "723170TYA.CSV", "Greensboro"},
    {"703165", "703165TY.csv", "Sand Point"},
};
enum { PLACES = sizeof places / sizeof places[0], OPTIONS = 64 };

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
    char seed[40];
    struct score score;
};

/* ---- a scenario in a year ----------------------------------------------------- */

static const char *real_year(int p, char path[400])
{
    const char *root = getenv("DEW_DATA");

    snprintf(path, 400, "%s/weather/tmy3/%s",
             root != NULL ? root : "../shared/data", places[p][1]);
    return path;
}

/* Of the scenario at path with one key of its weather set; NULL: told. */
static struct dew_run *march(const struct study *s, const char *path,
                             const char *key, const char *value,
                             struct hours *out)
{
    char set[440];
    const char *const sets[] = {set, s->seed};
    const struct dew_run_ask ask = {.name = path, .sets = sets, .set_count = 2};
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};
    struct dew_run *run;
    double done = 0.0;

    snprintf(set, sizeof set, "weather.%s=%s", key, value);
    if (dew_run_open(&run, &ask, &faults) != DEW_OK) {
        fprintf(stderr, "%s\n", dew_error_line(list, set, sizeof set));
        return NULL;
    }
    while (done < 1.0 && dew_run_step(run, 8760, &done, NULL) == DEW_OK)
        continue;
    out->count = dew_run_count(run);
    for (size_t i = 0; i < out->count; i++) {
        const struct dew_outcome *o = dew_run_outcome(run, i);

        out->of[i][0] = o != NULL ? o->year.too_humid : NAN;
        out->of[i][1] = o != NULL ? o->year.too_dry : NAN;
    }
    return run;
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
    core__sort(near, PLACES);
    middle = core__quantile(near, PLACES, 0.5);
    s->score.pairs++;
    s->score.median += middle <= 1.0;
    s->score.worst += worst <= 1.0;
    printf(" %5.2f %5.2f%s\n", middle, worst, worst > 1.0 ? " *" : "");
}

static int study_file(struct study *s, const char *path)
{
    static struct hours made[PLACES], real[PLACES];
    const char *name = strrchr(path, '/');
    double m[PLACES], r[PLACES];
    struct dew_run *run = NULL;
    char file[400];

    for (int p = 0; p < PLACES; p++) {
        dew_run_close(run);
        run = march(s, path, "file", real_year(p, file), &real[p]);
        if (run == NULL)
            return 0;
        dew_run_close(run);
        run = march(s, path, "place", places[p][0], &made[p]);
        if (run == NULL)
            return 0;
    }
    for (size_t i = 0; i < real[0].count; i++)
        for (int dry = 0; dry < 2; dry++) {
            for (int p = 0; p < PLACES; p++) {
                m[p] = made[p].of[i][dry];
                r[p] = real[p].of[i][dry];
            }
            row(s, name != NULL ? name + 1 : path,
                dew_scenario_name(dew_run_scenario(run), i), dry, m, r);
        }
    dew_run_close(run);
    return 1;
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
    char path[400];
    int good = 1;

    for (int p = 0; p < PLACES; p++)
        if (access(real_year(p, path), R_OK) != 0) {
            printf("options in made years: the real years are not there, left "
                   "out\n");
            return 0;
        }
    snprintf(s.seed, sizeof s.seed, "weather.seed=%lu", seed);
    head(seed);
    if (argc > 2)
        good = study_all(&s, argv + 2, (size_t)argc - 2);
    else if (glob("scenarios/*.yaml", 0, NULL, &found) == 0)
        good = study_all(&s, found.gl_pathv, found.gl_pathc);
    globfree(&found);
    return !good;
}
