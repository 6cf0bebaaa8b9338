/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whether what a log leaves of a house foretells its options.  Made houses in
 * four climates, one hot and humid and two cooled, their figures drawn from what
 * the scenario leaves open, logged as they stand for 84 days with habits; each
 * is learned from its log, and its options marched through the year with the
 * houses that are left.  Held against the year of the true house: its hours too
 * humid and too dry of each option, and which option is best.
 *
 *     study_evidence [COUNT [DRAWS]]    200 houses, 512 draws each by default
 *
 * Asked for: 75 to 90 of 100 hours in the interval of 80 %, and the option
 * chosen right at least as often as is said.
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
    double said, wide;
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
            double x[SPREAD], is = hours_of(dew_spread_house(truth, 0, i), dry);

            for (size_t d = 0; d < SPREAD; d++)
                x[d] = hours_of(dew_spread_house(left, d, i), dry);
            core__sort(x, SPREAD);
            if (x[SPREAD - 1] < 1 && is < 1) /* none of them: nothing to tell */
                continue;
            s->hours++;
            s->inside += is >= core__quantile(x, SPREAD, 0.1) - 0.5 &&
                         is <= core__quantile(x, SPREAD, 0.9) + 0.5;
            s->below += is < core__quantile(x, SPREAD, 0.5);
            s->wide +=
                core__quantile(x, SPREAD, 0.9) - core__quantile(x, SPREAD, 0.1);
        }
    s->houses++;
    judge(s, left, truth, chosen);
}

static void one_house(struct score *s, const struct climate *c,
                      unsigned long seed, size_t draws)
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
    make_log_by(truth, seed + 1, c->cooling[0] == '\0', 1);
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

static void tell(const char *name, const struct score *s)
{
    printf("%-24s %4d %7d %6.0f %6.0f %8.0f %6.0f %6.0f %8d\n", name, s->houses,
           s->hours, 100.0 * s->inside / s->hours, 100.0 * s->below / s->hours,
           s->wide / s->hours, 100 * s->said / s->houses,
           100.0 * s->right / s->houses, s->untold);
}

int main(int argc, char **argv)
{
    size_t count = argc > 1 ? strtoul(argv[1], NULL, 10) : 200,
           draws = argc > 2 ? strtoul(argv[2], NULL, 10) : 512;
    struct score all = {0};

    puts("climate               houses figures inside  below  wide, h   said  "
         "right   untold\n(of 100: inside the interval of 80 %, below its "
         "middle, said to be best, best)");
    for (size_t c = 0; c < CLIMATES; c++) {
        struct score s = {0};

        for (size_t i = c; i < count; i += CLIMATES)
            one_house(&s, &climates[c], 7000 + 10 * i, draws);
        tell(climates[c].name, &s);
        all.houses += s.houses;
        all.untold += s.untold;
        all.hours += s.hours;
        all.inside += s.inside;
        all.below += s.below;
        all.right += s.right;
        all.said += s.said;
        all.wide += s.wide;
    }
    tell("all", &all);
    return 0;
}
