/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger weather: files of weather, and what is in them. */
#include <math.h>
#include <string.h>

#include "cli/weather.h"

const struct dew__command dew__weathers[DEW__WEATHERS] = {
#define X(name, does) {#name, dew__weather_##name, does},
    DEW__WEATHER_MAP(X)
#undef X
};

enum dew_system dew__weather_system(const struct dew__cli *common)
{
    return common->units == 2 ? DEW_SYSTEM_SI : DEW_SYSTEM_US;
}

void dew__weather_word(char *words, size_t size, const char *word)
{
    size_t used = strlen(words);

    snprintf(words + used, size - used, "%s%s", used > 0 ? " " : "", word);
}

unsigned long dew__weather_whole(struct argp_state *state, const char *name,
                                 const char *word, double low, double high)
{
    double x;

    if (dew_number_read(word, strlen(word), &x) != strlen(word) ||
        word[0] == '\0' || x < low || x > high || x != floor(x))
        dew__cli_usage(state, "--%s %s: write a whole number in %.0f .. %.0f",
                       name, word, low, high);
    return (unsigned long)x;
}

struct dew__weather_spread dew__weather_spread(const double *first,
                                               size_t stride, int count)
{
    struct dew__weather_spread s = {INFINITY, 0.0, -INFINITY};

    for (int i = 0; i < count; i++, first += stride) {
        s.low = fmin(s.low, *first);
        s.high = fmax(s.high, *first);
        s.mean += *first / count;
    }
    return s;
}

static void help(FILE *to)
{
    fputs("usage: dewledger weather WORD [NAME...] [--OPTION...]\n\n", to);
    for (size_t i = 0; i < DEW__WEATHERS; i++)
        fprintf(to, "  %-9s %s\n", dew__weathers[i].name,
                dew__weathers[i].does);
    fputs("\ndewledger weather WORD --help says more of one.\n", to);
}

int dew__cmd_weather(int argc, char **argv)
{
    const char *names[DEW__WEATHERS], *near;
    char name[48];

    if (argc < 2) {
        help(stderr);
        return DEW__BAD_USAGE;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-?") == 0) {
        help(stdout);
        return DEW__DONE;
    }
    for (size_t i = 0; i < DEW__WEATHERS; i++) {
        names[i] = dew__weathers[i].name;
        if (strcmp(argv[1], dew__weathers[i].name) != 0)
            continue;
        snprintf(name, sizeof name, "dewledger weather %s",
                 dew__weathers[i].name);
        argv[1] = name;
        return dew__weathers[i].run(argc - 1, argv + 1);
    }
    near = dew__cli_nearest(argv[1], names, DEW__WEATHERS);
    return dew__cli_fail(DEW__BAD_USAGE, "weather: no word %s; %s%s", argv[1],
                         near != NULL ? "nearest is " : "see ",
                         near != NULL ? near : "dewledger weather --help");
}
