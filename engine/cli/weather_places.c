/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger weather list and near: places that have monthly figures. */
#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/weather.h"
#include "dew/climate.h"

enum { WORDS = 200, NEAR_COUNT = 8, SHIELDS = 2, SHIELD_SIZE = 32 };

/* What either sub-command asks. */
struct asked {
    struct cli__cli common;
    char words[WORDS];
    double place[2]; /* deg   latitude, longitude                            */
    int numbers;
    int near;
};

static void take_number(struct asked *a, const char *word,
                        struct argp_state *state)
{
    size_t n;

    word += strspn(word, " ");
    n = strlen(word);
    if (a->numbers == 2)
        cli__usage(state, "write LATITUDE and LONGITUDE, no more");
    if (n == 0 || dew_number_read(word, n, &a->place[a->numbers]) != n)
        cli__usage(state,
                   "%s: write degrees as a number, west and south "
                   "negative",
                   word);
    a->numbers++;
}

static error_t take(int key, char *word, struct argp_state *state)
{
    struct asked *a = state->input;

    switch (key) {
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &a->common;
        return 0;
    case ARGP_KEY_ARG:
        if (a->near)
            take_number(a, word, state);
        else
            cli__weather_word(a->words, sizeof a->words, word);
        return 0;
    case ARGP_KEY_END:
        if (a->near && a->numbers < 2)
            cli__usage(state, "write LATITUDE LONGITUDE");
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

/* Mean of the year and of its coldest and warmest month. */
struct year_means {
    double t, coldest, warmest, td, solar;
};

static struct year_means means_of(const struct dew_climate *c)
{
    struct year_means m = {.coldest = INFINITY, .warmest = -INFINITY};

    for (int i = 0; i < 12; i++) {
        m.t += c->month[i].t / 12.0;
        m.td += c->month[i].td / 12.0;
        m.solar += c->month[i].solar / 12.0;
        m.coldest = fmin(m.coldest, c->month[i].t);
        m.warmest = fmax(m.warmest, c->month[i].t);
    }
    return m;
}

/* Names are cut so that a line keeps to 80 columns. */
enum { NAME_ALONE = 36, NAME_NEAR = 28 };

static void head(enum dew_system system, int near)
{
    const char *degree = report__unit(DEW_TEMPERATURE, system)->name;
    int name = near ? NAME_NEAR : NAME_ALONE;

    printf("%-6s %-*s %-2s %6s %7s %5s %5s %6s%s\n", "number", name, "name", "",
           "north", "east", "Jan", "Jul", "dew pt", near ? "    away" : "");
    printf("%-6s %-*s %-2s %6s %7s %5s %5s %6s%s\n", "", name, "", "", "deg",
           "deg", degree, degree, degree,
           !near                     ? ""
           : system == DEW_SYSTEM_US ? "      mi"
                                     : "      km");
}

static struct report__word degrees(double t, enum dew_system system)
{
    return report__number(report__shown(t, DEW_TEMPERATURE, system), 1);
}

/* distance: m, or NaN for none. */
static void row(const struct dew_climate *c, double distance,
                enum dew_system system)
{
    const double per = system == DEW_SYSTEM_US ? 1609.344 : 1000.0; /* m,
                                                            [SP811] B.8 */
    int name = isnan(distance) ? NAME_ALONE : NAME_NEAR;

    printf("%-6s %-*.*s %-2s %6s %7s %5s %5s %6s", c->site.id, name, name,
           c->shown, c->state, report__number(c->site.latitude, 2).text,
           report__number(c->site.longitude, 2).text,
           degrees(c->month[0].t, system).text,
           degrees(c->month[6].t, system).text,
           degrees(means_of(c).td, system).text);
    if (!isnan(distance))
        printf(" %7s", report__number(distance / per, 1).text);
    putchar('\n');
}

static json_t *as_json(const struct dew_climate *c, double distance)
{
    struct year_means m = means_of(c);
    struct dew_atlas atlas;
    json_t *j = json_pack(
        "{s:s, s:s, s:s, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f}",
        "number", c->site.id, "name", c->site.name, "state", c->state,
        "latitude_deg", c->site.latitude, "longitude_deg", c->site.longitude,
        "elevation_m", c->site.elevation, "utc_offset_h", c->site.utc_offset,
        "t_mean_c", m.t, "t_coldest_month_c", m.coldest, "t_warmest_month_c",
        m.warmest, "dew_point_mean_c", m.td, "sun_mean_w_m2", m.solar);

    if (j != NULL && !isnan(distance))
        j = cli__set(j, "away_m", cli__real(round(distance)));
    if (dew_atlas_find(c->site.id, &atlas))
        j = cli__set(j, "like_yours", cli__weather_atlas_json(&atlas));
    return j;
}

static int no_place(const char *words)
{
    struct dew_climate place;
    struct dew_error err = {0};

    if (dew_climate_find(words, &place, &err) == DEW_OK) /* a point */
        return cli__fail(CLI__BAD_INPUT,
                         "a point has `dewledger weather near %s`", words);
    return cli__error(&err);
}

int cli__weather_list(int argc, char **argv)
{
    static const char does[] =
        "List the places that have monthly figures: all of them, or those "
        "whose number, name or state begins with every word.\v"
        "  dewledger weather list minnesota\n"
        "  dewledger weather list rochester ny --units si\n";
    const struct argp_child children[] = {{&cli__result_argp, 0, NULL, 0}, {0}};
    const struct argp argp = {.parser = take,
                              .args_doc = "[WORD...]",
                              .doc = does,
                              .children = children};
    struct asked a = {.near = 0};
    struct dew_climate place;
    int code = cli__parse(&argp, argc, argv, &a);
    size_t found = 0;
    json_t *list = json_array();

    for (size_t at = 0; code == 0 && dew_climate_next(&at, &place);) {
        if (!dew_climate_answers(&place, a.words))
            continue;
        if (a.common.json)
            list = cli__add(list, as_json(&place, NAN));
        else if (found == 0)
            head(cli__weather_system(&a.common), 0);
        if (!a.common.json)
            row(&place, NAN, cli__weather_system(&a.common));
        found++;
    }
    if (code != 0 || found == 0 || !a.common.json) {
        json_decref(list);
        return code == 0 && found == 0 ? no_place(a.words) : code;
    }
    return cli__json(list);
}

/* "-93.2" is no option: a space before it keeps argp away. */
static void shield(int argc, char **argv, char room[SHIELDS][SHIELD_SIZE])
{
    int used = 0;

    for (int i = 1; i < argc && used < SHIELDS; i++)
        if (argv[i][0] == '-' && isdigit((unsigned char)argv[i][1])) {
            snprintf(room[used], SHIELD_SIZE, " %s", argv[i]);
            argv[i] = room[used++];
        }
}

static int print_near(const struct asked *a, const struct dew_nearby *list,
                      size_t count)
{
    json_t *out;

    if (!a->common.json) {
        head(cli__weather_system(&a->common), 1);
        for (size_t i = 0; i < count; i++)
            row(&list[i].place, list[i].distance,
                cli__weather_system(&a->common));
        cli__weather_like_yours(list, count);
        return CLI__DONE;
    }
    out = json_array();
    for (size_t i = 0; i < count; i++)
        out = cli__add(out, as_json(&list[i].place, list[i].distance));
    return cli__json(out);
}

int cli__weather_near(int argc, char **argv)
{
    static const char does[] =
        "List the places with monthly figures nearest to a point.\v"
        "Degrees, north and east positive.\n\n"
        "  dewledger weather near 44.98 -93.27\n";
    const struct argp_child children[] = {{&cli__result_argp, 0, NULL, 0}, {0}};
    const struct argp argp = {.parser = take,
                              .args_doc = "LATITUDE LONGITUDE",
                              .doc = does,
                              .children = children};
    char shields[SHIELDS][SHIELD_SIZE];
    struct asked a = {.near = 1};
    struct dew_nearby *list = calloc(NEAR_COUNT, sizeof *list);
    struct dew_error err = {0};
    size_t count;
    int code;

    if (list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    shield(argc, argv, shields);
    code = cli__parse(&argp, argc, argv, &a);
    if (code == 0 && dew_climate_near(a.place[0], a.place[1], list, NEAR_COUNT,
                                      &count, &err) != DEW_OK)
        code = cli__error(&err);
    else if (code == 0)
        code = print_near(&a, list, count);
    free(list);
    return code;
}
