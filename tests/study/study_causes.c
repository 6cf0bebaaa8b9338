/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Whether chances told of causes are what they say.  Made houses in four
 * climates, each with six causes of the table or not by the chance thought
 * before, and of a size drawn too, logged for 84 days with habits; told are the
 * chances after, and how many of those with such a chance have it.
 *
 *     study_causes [COUNT [DRAWS]]    200 houses, 512 draws each by default
 */
#include "run/learn_made.h"

enum { CAUSES = 6, BINS = 5 };

static const char head[] =
    "title: made up\n"
    "weather: {place: %s}\n"
    "run: {steps_per_hour: 1}\n"
    "house: {floor_area: 1500 ft2, bedrooms: 3, airtightness: \"4 ach50 (2.5 "
    "to 6)\"}\n"
    "people: {count: \"3 (2 to 4)\"}\n"
    "moisture: {drying: 0 kg}\n"
    "airing: {flow: 0 cfm}\n"
    "ducts: {leak_return: 0 %%}\n"
    "%s"
    "options: [{name: as it stands}]\n";

static const struct climate {
    const char *place, *cooling;
} climates[] = {
    {"722020", "cooling: {capacity: 3 ton, blower: auto}\n"},
    {"723170", "cooling: {capacity: 2.5 ton, blower: auto}\n"},
    {"726580", ""},
    {"727930", ""},
};
enum { CLIMATES = sizeof climates / sizeof climates[0] };

/* In a unit of the key. */
static const struct {
    const char *key, *unit;
    double factor; /* of SI                                                  */
} open[CAUSES] = {{"moisture.ground", " kg/day", 86400},
                  {"moisture.laundry_dried_indoors", " per day", 86400},
                  {"moisture.shower_water", " kg", 1},
                  {"moisture.plants", "", 1},
                  {"moisture.aquarium", " m2", 1},
                  {"moisture.burning", " kg/day", 86400}};

struct bin {
    int count, so;
    double told;
};

struct study {
    struct bin bins[BINS];
    int untold, so, groups, any;
    double with, any_told;
};

static const struct run__learn_cause *row_of(const char *key)
{
    const struct run__learn_cause *c = run__learn_cause_rows;

    while (strcmp(c->key, key) != 0)
        c++;
    return c;
}

/* Figures of the house told, and causes: what it sets, and which it has. */
static size_t draw_house(struct core__random *random, char text[][80],
                         int has[CAUSES])
{
    static const struct core__pert air = {2.5, 4, 6}, people = {2, 3, 4};
    size_t n = 2;

    snprintf(
        text[0], 80, "house.airtightness=%.5f ach50",
        core__pert_at(&air, run__learn_share(core__random_gaussian(random))));
    snprintf(text[1], 80, "people.count=%.5f",
             core__pert_at(&people,
                           run__learn_share(core__random_gaussian(random))));
    for (int i = 0; i < CAUSES; i++) {
        const struct run__learn_cause *c = row_of(open[i].key);
        const struct core__pert size = {c->low, c->likely, c->high};
        double u = run__learn_share(core__random_gaussian(random)),
               at = run__learn_share(core__random_gaussian(random));

        has[i] = u < c->chance;
        if (has[i])
            snprintf(text[n++], 80, "%s=%.5f%s", c->key,
                     open[i].factor * core__pert_at(&size, at), open[i].unit);
    }
    return n;
}

static void count(struct study *s, const struct dew_learn *l,
                  const int has[CAUSES])
{
    static const double ends[BINS] = {0.05, 0.15, 0.3, 0.6, 2};
    size_t causes, told = 0;
    const struct dew_learn_cause *c = dew_learn_causes(l, &causes);

    for (size_t i = 0; i < causes; i++) {
        int k = 0, b = 0, any = 0;

        while (strcmp(open[k].key, c[i].key) != 0)
            k++; /* all that are open are in the list */
        while (c[i].after >= ends[b])
            b++;
        s->bins[b].count++;
        s->bins[b].so += has[k];
        s->bins[b].told += c[i].after;
        s->with += has[k] ? c[i].after : 0;
        s->so += has[k];
        if (c[i].together <= told)
            continue;
        told = c[i].together;
        for (size_t j = 0; j < causes; j++)
            for (int m = 0; m < CAUSES && c[j].together == told; m++)
                any |= has[m] && strcmp(open[m].key, c[j].key) == 0;
        s->groups++;
        s->any += any;
        s->any_told += c[i].any_after;
    }
}

static void one_house(struct study *s, const struct climate *c,
                      unsigned long seed, size_t draws)
{
    char house[1200], text[2 + CAUSES][80];
    const char *sets[2 + CAUSES];
    struct core__random *random;
    int has[CAUSES];
    struct dew_learn *l;
    struct dew_run *r;
    size_t n;

    snprintf(house, sizeof house, head, c->place, c->cooling);
    make_folder(house);
    assert_int_equal(core__random_open(&random, seed, NULL), DEW_OK);
    n = draw_house(random, text, has);
    core__random_close(random);
    for (size_t k = 0; k < n; k++)
        sets[k] = text[k];
    r = run_of(sets, n);
    make_log_by(r, seed + 1, c->cooling[0] == '\0', 1);
    dew_run_close(r);
    l = learn_by(&(struct dew_learn_ask){
        .draws = draws, .seed = seed, .told_only = 1, .causes = 1});
    if (dew_learn_learned(l)->told)
        count(s, l, has);
    else
        s->untold++;
    dew_learn_close(l);
}

int main(int argc, char **argv)
{
    size_t houses = argc > 1 ? strtoul(argv[1], NULL, 10) : 200,
           draws = argc > 2 ? strtoul(argv[2], NULL, 10) : 512;
    struct study s = {0};

    for (size_t i = 0; i < houses; i++)
        one_house(&s, &climates[i % CLIMATES], 9000 + 10 * i, draws);
    puts("chance told, of 100   causes   that are so, of 100");
    for (int b = 0; b < BINS; b++)
        printf("%19.0f %8d %22.0f\n",
               100 * s.bins[b].told / fmax(s.bins[b].count, 1), s.bins[b].count,
               100.0 * s.bins[b].so / fmax(s.bins[b].count, 1));
    printf("of the %d that are so it told %.0f on the mean\n", s.so,
           100 * s.with / fmax(s.so, 1));
    printf("of %d groups told together one is so in %.0f of 100, told %.0f\n",
           s.groups, 100.0 * s.any / fmax(s.groups, 1),
           100 * s.any_told / fmax(s.groups, 1));
    printf("houses of which nothing is told: %d\n", s.untold);
    return 0;
}
