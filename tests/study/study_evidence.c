/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whether what a log leaves of a house foretells its options.  Made houses in
 * four climates, one hot and humid and two cooled, their figures drawn from what
 * the scenario leaves open, logged as they stand for 84 days with habits; each
 * is learned from its log, and its options marched through the year with the
 * houses that are left.  Held against the year of the true house: its hours too
 * humid and too dry of each option, and which option is best.
 *
 *     study_evidence [COUNT [DRAWS [FROM TO [bent]]]]
 *     cat PARTS... | study_evidence sum
 *
 * 200 houses and 512 draws each by default; FROM to TO - 1 are a part of the
 * count: each house has a line, and sum makes the table of such lines.  bent:
 * the logs have what habits make of cold and warm too, as the weighing takes
 * them to.
 *
 * Asked for: 75 to 90 of 100 hours in the interval of 80 %, and the option
 * chosen right at least as often as is said.  "share" is the share of the draws
 * themselves that lies within: above 80 where many of them have no hour at all.
 */
#include "run/learn_made.h"

#include "dew/spread.h"

enum { FIGURES = 4, SPREAD = 64, OPTIONS = 3 };

static const char head[] =
    "title: made up\n"
    "weather: {place: %s}\n"
    "run: {steps_per_hour: 1}\n"
    "house: {floor_area: 1500 ft2, bedrooms: 3, airtightness: \"4 ach50 (1.5 "
    "to 8)\"}\n"
    "people: {count: \"3 (1 to 6)\"}\n"
    "moisture: {other: \"3 pint/day (0.5 to 8)\", shower_water: \"0.3 kg (0.2 to "
    "0.8)\"}\n"
    "%s"
    "prices: {electricity: 0.18 $/kWh}\n"
    "options:\n"
    "  - name: as it stands\n"
    "  - name: core\n"
    "    ventilator: {core: enthalpy_plate, sensible: 72 %% at 95 cfm, moisture: "
    "50 %% at 95 cfm, power: 60 W}\n"
    "    costs: {install: 4000 $}\n"
    "  - name: core and dehumidifier\n"
    "    ventilator: {core: enthalpy_plate, sensible: 72 %% at 95 cfm, moisture: "
    "50 %% at 95 cfm, power: 60 W}\n"
    "    dehumidifier: {rate: 50 pint/day, set: 50 %%}\n"
    "    costs: {install: 5500 $}\n";

static const struct climate {
    const char *place, *name, *cooling;
} climates[] = {
    {"722020", "hot and humid, cooled", "cooling: {capacity: 3 ton}\n"},
    {"723170", "warm, cooled", "cooling: {capacity: 2.5 ton}\n"},
    {"726580", "cold", ""},
    {"727930", "mild and marine", ""}};
enum { CLIMATES = sizeof climates / sizeof climates[0] };

static const struct {
    const char *key, *unit;
    struct core__pert range;
} figures[FIGURES] = {{"house.airtightness", " ach50", {1.5, 4, 8}},
                      {"people.count", "", {1, 3, 6}},
                      {"moisture.other", " pint/day", {0.5, 3, 8}},
                      {"moisture.shower_water", " kg", {0.2, 0.3, 0.8}}};

struct score {
    int houses, untold, hours, inside, below, right;
    double said, wide, share;
};

/* What a run's options come to, of the draws or of the house as told alone. */
static struct dew_spread *spread_of(const struct dew_run *run, size_t draws,
                                    const struct dew_learn *given)
{
    const struct dew_spread_ask ask = {
        .draws = draws, .seed = 1, .told_only = 1};
    struct dew_error err = {0};
    struct dew_spread *s;
    double done = 0;

    if (dew_spread_open(&s, run, &ask, &err) != DEW_OK ||
        (given != NULL && dew_learn_give(given, s, NULL, &err) != DEW_OK))
        fail_msg("%s", err.text);
    while (done < 1)
        if (dew_spread_step(s, &done, &err) != DEW_OK)
            fail_msg("%s", err.text);
    return s;
}

/* The true house of a seed: its settings. */
static void draw_house(struct core__random *random, char text[FIGURES][80])
{
    for (int k = 0; k < FIGURES; k++)
        snprintf(text[k], 80, "%s=%.5f%s", figures[k].key,
                 core__pert_at(&figures[k].range,
                               run__learn_share(core__random_gaussian(random))),
                 figures[k].unit);
}

static double hours_of(const struct dew_drawn *d, int dry)
{
    return dry ? d->too_dry : d->too_humid;
}

/* The first option that is best in a draw; OPTIONS: none will do. */
static size_t best_in(struct dew_spread *s, size_t draw)
{
    size_t i = 0;

    while (i < OPTIONS && !dew_spread_house(s, draw, i)->best)
        i++;
    return i;
}

/* What most of the draws say, an option or that none will do, and whether it is
   so. */
static void judge(struct score *s, struct dew_spread *left,
                  struct dew_spread *truth, size_t chosen)
{
    int says[OPTIONS + 1] = {0};

    for (size_t d = 0; d < SPREAD; d++)
        says[best_in(left, d)]++;
    if (says[OPTIONS] > says[chosen])
        chosen = OPTIONS;
    s->said += (double)says[chosen] / SPREAD;
    s->right += best_in(truth, 0) == chosen;
}

static void hold(struct score *s, struct dew_spread *left,
                 struct dew_spread *truth)
{
    const struct dew_draws *draws = dew_spread_draws(left);
    size_t chosen = dew_draws_best(draws);

    for (size_t i = 0; i < OPTIONS; i++)
        for (int dry = 0; dry <= 1; dry++) {
            double x[SPREAD], is = hours_of(dew_spread_house(truth, 0, i), dry),
                              low, high;

            for (size_t d = 0; d < SPREAD; d++)
                x[d] = hours_of(dew_spread_house(left, d, i), dry);
            core__sort(x, SPREAD);
            if (x[SPREAD - 1] < 1 && is < 1) /* none of them: nothing to tell */
                continue;
            low = core__quantile(x, SPREAD, 0.1);
            high = core__quantile(x, SPREAD, 0.9);
            s->hours++;
            s->inside += is >= low - 0.5 && is <= high + 0.5;
            s->below += is < core__quantile(x, SPREAD, 0.5);
            s->wide += high - low;
            for (size_t d = 0; d < SPREAD; d++)
                s->share +=
                    (x[d] >= low - 0.5 && x[d] <= high + 0.5) / (double)SPREAD;
        }
    s->houses++;
    judge(s, left, truth, chosen);
}

static void one_house(struct score *s, const struct climate *c,
                      unsigned long seed, size_t draws, int bent)
{
    char house[2000], text[FIGURES][80];
    const char *sets[FIGURES];
    struct core__random *random;
    struct dew_run *truth, *told;
    struct dew_learn *l;

    snprintf(house, sizeof house, head, c->place, c->cooling);
    make_folder(house);
    assert_int_equal(core__random_open(&random, seed, NULL), DEW_OK);
    draw_house(random, text);
    core__random_close(random);
    for (int k = 0; k < FIGURES; k++)
        sets[k] = text[k];
    truth = run_of(sets, FIGURES);
    told = run_of(NULL, 0);
    make_log_so(truth, seed + 1,
                &(struct logged){c->cooling[0] == '\0', 1, bent, 0, 0});
    l = learn_by(
        &(struct dew_learn_ask){.draws = draws, .seed = seed, .told_only = 1});
    if (dew_learn_learned(l)->told) {
        struct dew_spread *left = spread_of(told, SPREAD, l),
                          *is = spread_of(truth, 0, NULL);

        hold(s, left, is);
        dew_spread_close(left);
        dew_spread_close(is);
    } else
        s->untold++;
    dew_learn_close(l);
    dew_run_close(told);
    dew_run_close(truth);
}

/* ---- houses as lines, and lines as a table ---------------------------------- */

static void write_line(size_t climate, const struct score *s)
{
    printf("house %zu %d %d %d %d %d %d %.4f %.2f %.4f\n", climate, s->houses,
           s->untold, s->hours, s->inside, s->below, s->right, s->said, s->wide,
           s->share);
    fflush(stdout);
}

static int read_line(const char *line, size_t *climate, struct score *s)
{
    return sscanf(line, "house %zu %d %d %d %d %d %d %lf %lf %lf", climate,
                  &s->houses, &s->untold, &s->hours, &s->inside, &s->below,
                  &s->right, &s->said, &s->wide, &s->share) == 10 &&
           *climate < CLIMATES;
}

static void add(struct score *to, const struct score *s)
{
    to->houses += s->houses;
    to->untold += s->untold;
    to->hours += s->hours;
    to->inside += s->inside;
    to->below += s->below;
    to->right += s->right;
    to->said += s->said;
    to->wide += s->wide;
    to->share += s->share;
}

static void tell(const char *name, const struct score *s)
{
    printf("%-22s %6d %7d %6.0f %6.0f %6.0f %8.0f %6.0f %6.0f %8d\n", name,
           s->houses, s->hours, 100.0 * s->inside / s->hours,
           100 * s->share / s->hours, 100.0 * s->below / s->hours,
           s->wide / s->hours, 100 * s->said / s->houses,
           100.0 * s->right / s->houses, s->untold);
}

static void tell_all(const struct score scores[CLIMATES])
{
    struct score all = {0};

    puts(
        "climate                houses figures inside  share  below  wide, h   "
        "said  right   untold\n(of 100: inside the interval of 80 %, share of "
        "the draws inside, below its middle,\nsaid to be best, best)");
    for (size_t c = 0; c < CLIMATES; c++) {
        add(&all, &scores[c]);
        if (scores[c].houses > 0)
            tell(climates[c].name, &scores[c]);
    }
    tell("all", &all);
}

static void sum(struct score scores[CLIMATES])
{
    char line[200];
    size_t climate;
    struct score s;

    while (fgets(line, sizeof line, stdin) != NULL)
        if (read_line(line, &climate, &s))
            add(&scores[climate], &s);
}

static size_t number(int argc, char **argv, int i, size_t otherwise)
{
    return argc > i ? strtoul(argv[i], NULL, 10) : otherwise;
}

int main(int argc, char **argv)
{
    size_t count = number(argc, argv, 1, 200),
           draws = number(argc, argv, 2, 512),
           to = number(argc, argv, 4, count);
    struct score scores[CLIMATES] = {{0}};
    int bent = argc > 5 && strcmp(argv[5], "bent") == 0;

    if (argc > 1 && strcmp(argv[1], "sum") == 0) {
        sum(scores);
        tell_all(scores);
        return 0;
    }
    for (size_t i = number(argc, argv, 3, 0); i < to; i++) {
        struct score s = {0};

        one_house(&s, &climates[i % CLIMATES], 7000 + 10 * i, draws, bent);
        write_line(i % CLIMATES, &s);
        add(&scores[i % CLIMATES], &s);
    }
    tell_all(scores);
    return 0;
}
